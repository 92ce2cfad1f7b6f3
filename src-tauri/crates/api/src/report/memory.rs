//! Limits that rest on figures from memory: said with the source of each.

use provenohm_assess::limits::Limit;
use provenohm_words::Words;

/// Where a limit comes from; of a figure from memory also how sure it is.
pub(super) fn source(words: &Words, limit: &Limit) -> String {
    let source = words.limit_source(limit);
    if !limit.source.tag.is_memory() {
        return source;
    }
    let args = [("source", source.into()), ("tag", words.tag(limit.source.tag).into())];
    words.text_with("answer-source-and-tag", &args)
}
