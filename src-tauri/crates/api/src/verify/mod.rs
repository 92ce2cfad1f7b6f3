//! Whether a file is what was signed: a schedule's PDF, a bundle, a record. The first thing that is not is named.

mod paper;
mod record;

use crate::failure::Failure;
use crate::host::Host;
use crate::long_work::LongWork;
use crate::ops::bundle::{after_opening, opened};
use crate::views::{Sentence, VerifyView};
use provenohm_assess::judgement::Level;
use provenohm_exchange::bundle;
use provenohm_exchange::join;
use provenohm_logbook::entry::Hash;
use provenohm_logbook::record::{Inspected, Record};
use provenohm_words::Words;

/// What a SQLite file begins with.
pub(crate) const SQLITE: &[u8] = b"SQLite format 3\0";

/// What a PDF begins with.
const PDF: &[u8] = b"%PDF-";

/// What is found, in the order it is found.
pub(crate) struct Found<'w> {
    words: &'w Words,
    /// What is not as it was written or signed.
    wrong: Vec<String>,
    /// What keeps it from being called signed, though nothing is wrong: said first.
    open: Option<String>,
    /// Everything else worth saying.
    said: Vec<Sentence>,
    /// Sign-offs that hold.
    signed: usize,
}

impl<'w> Found<'w> {
    fn new(words: &'w Words) -> Self {
        Self { words, wrong: Vec::new(), open: None, said: Vec::new(), signed: 0 }
    }

    fn wrong(&mut self, key: &str, args: &[(&str, provenohm_words::Arg<'_>)]) {
        self.wrong.push(self.words.text_with(key, args));
    }

    fn say(&mut self, level: Level, words: String) {
        self.said.push(Sentence { level, words });
    }

    /// The beginning of the device key that sealed a sign-off.
    fn say_key(&mut self, key: [u8; 32]) {
        let mut key = Hash(key).to_string();
        key.truncate(16);
        self.say(Level::Remark, self.words.text_with("answer-verify-key", &[("key", key.into())]));
    }

    fn told(self) -> VerifyView {
        let holds = self.wrong.is_empty();
        let right = if self.signed > 0 { "answer-verify-signed" } else { "answer-verify-not-signed" };
        let first = self.wrong.first().cloned().or(self.open);
        let words = first.unwrap_or_else(|| self.words.text(right));
        let rest = self.wrong.into_iter().skip(1).map(|words| Sentence { level: Level::Stop, words });
        VerifyView { holds, words, lines: rest.chain(self.said).collect() }
    }
}

/// Looks at the bytes of a PDF or a bundle, while somebody watches who can stop it.
pub(crate) fn bytes(words: &Words, host: &mut Host, bytes: &[u8], work: &LongWork) -> Result<VerifyView, Failure> {
    work.begin();
    if bytes.starts_with(&bundle::MAGIC) {
        let mut found = Found::new(words);
        let bundle = opened(work, bytes)?;
        let mut record = Record::in_memory(host)?;
        join::take_in(&mut record, &bundle, &mut |progress| work.reached(after_opening(progress)))?;
        record::look(&mut found, host, &record)?;
        return work.unless_stopped(found.told());
    }
    if bytes.starts_with(PDF) {
        return parts(words, &[bytes.to_vec()], work);
    }
    Err(Failure::of(if is_record(bytes) { "verify_record" } else { "verify_nothing" }))
}

/// Looks at the PDFs of one schedule together, while somebody watches who can stop it.
pub(crate) fn several(words: &Words, files: &[Vec<u8>], work: &LongWork) -> Result<VerifyView, Failure> {
    if files.is_empty() || files.iter().any(|file| !file.starts_with(PDF)) {
        return Err(Failure::of("verify_several"));
    }
    parts(words, files, work)
}

/// Whether bytes are those of a record's file, which is looked at where it lies.
pub(crate) fn is_record(bytes: &[u8]) -> bool {
    bytes.starts_with(SQLITE)
}

/// Looks at the parts of one schedule; between two of them it can be stopped.
pub(crate) fn parts(words: &Words, files: &[Vec<u8>], work: &LongWork) -> Result<VerifyView, Failure> {
    work.begin();
    let mut found = Found::new(words);
    paper::look(&mut found, files, work)?;
    work.unless_stopped(found.told())
}

/// Looks at a record's file as it is.
pub(crate) fn inspected(words: &Words, host: &mut Host, inspected: &Inspected) -> Result<VerifyView, Failure> {
    let mut found = Found::new(words);
    if inspected.damage.is_some() {
        found.wrong("answer-verify-pages", &[]);
    }
    for (log, seq, _) in &inspected.altered {
        found.wrong("answer-verify-altered", &place(log.0, seq.0));
    }
    for (log, seq) in &inspected.cut_off {
        found.wrong("answer-verify-cut-off", &place(log.0, seq.0));
    }
    for log in &inspected.removed {
        found.wrong("answer-verify-removed", &[("log", log.0.to_string().into())]);
    }
    record::look(&mut found, host, &inspected.record)?;
    Ok(found.told())
}

/// A place in a log, as messages name it.
fn place<'a>(log: uuid::Uuid, seq: u64) -> [(&'static str, provenohm_words::Arg<'a>); 2] {
    [("log", log.to_string().into()), ("seq", seq.to_string().into())]
}
