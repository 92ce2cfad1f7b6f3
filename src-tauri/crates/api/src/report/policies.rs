//! The policies on page 1: those the job is judged by, then every other live choice of rules.

use crate::judged::Judged;
use provenohm_assess::policy::Policies;
use provenohm_exchange::job_file::Rules;
use provenohm_papers::report::Fact;
use provenohm_words::Words;

/// One fact a policy; of each other live choice one fact with all of it, its limit set too where that differs.
pub(super) fn all(words: &Words, judged: &Judged) -> Vec<Fact> {
    let job = &judged.file.job;
    let others = job.rules_also.iter().map(|rules| also(words, judged, rules));
    chosen(words, job.policies).into_iter().chain(others).collect()
}

fn chosen(words: &Words, policies: Policies) -> Vec<Fact> {
    let quick_check = policies.quick_check_days.map(|days| Fact {
        label: words.text("answer-policy-quick-check-label"),
        text: words.text_with("answer-policy-quick-check", &[("days", days.into())]),
    });
    let value = Fact { label: words.text("answer-policy-value"), text: words.value_policy(policies.value) };
    let tester = Fact { label: words.text("answer-policy-tester"), text: words.tester_policy(policies.tester) };
    [value, tester].into_iter().chain(quick_check).collect()
}

fn also(words: &Words, judged: &Judged, rules: &Rules) -> Fact {
    let set = (rules.limit_set != judged.file.job.limit_set).then(|| {
        let title = judged.title_of(&rules.limit_set).unwrap_or(&rules.limit_set.id.0);
        let args = [
            ("title", title.into()),
            ("id", rules.limit_set.id.0.as_str().into()),
            ("version", rules.limit_set.version.to_string().into()),
            ("sha256", grouped(&rules.limit_set.sha256).into()),
        ];
        words.text_with("answer-rules-also-set", &args)
    });
    let policies = chosen(words, rules.policies).into_iter().map(|fact| format!("{}: {}", fact.label, fact.text));
    let all: Vec<String> = set.into_iter().chain(policies).collect();
    Fact { label: words.text("answer-rules-also"), text: all.join("; ") }
}

/// A digest in groups of sixteen digits, as the paper prints the others.
fn grouped(digest: &str) -> String {
    let digits: Vec<char> = digest.chars().collect();
    digits.chunks(16).map(|group| group.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
}
