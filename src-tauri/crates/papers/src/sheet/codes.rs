//! How the closed lists of the model are written for software: the same in every language.

use chrono::SecondsFormat;
use provenohm_assess::judgement::{TesterState, Value};
use provenohm_assess::limits::Tag;
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::Comparator;

use super::entries::Status;
use crate::report::Sign;

/// How comparators are written in every file.
pub(crate) const fn comparator(comparator: Comparator) -> &'static str {
    match comparator {
        Comparator::Exact => "exact",
        Comparator::MoreThan => "more_than",
        Comparator::LessThan => "less_than",
    }
}

pub(super) const fn value(value: Value) -> &'static str {
    match value {
        Value::Meets => "meets",
        Value::TooClose => "too_close",
        Value::CannotBeJudged => "cannot_be_judged",
        Value::Below => "below",
    }
}

pub(super) const fn tester_state(state: TesterState) -> &'static str {
    match state {
        TesterState::Proved => "proved",
        TesterState::Lapsed => "lapsed",
        TesterState::NotProved => "not_proved",
        TesterState::FoundGoodAfterwards => "found_good_afterwards",
        TesterState::InDoubt => "in_doubt",
        TesterState::Barred => "barred",
        TesterState::NotChosen => "not_chosen",
    }
}

pub(super) const fn tag(tag: Tag) -> &'static str {
    match tag {
        Tag::Seen => "seen",
        Tag::MemoryHigh => "memory_high",
        Tag::MemoryMedium => "memory_medium",
        Tag::MemoryLow => "memory_low",
        Tag::Calculated => "calculated",
        Tag::Practice => "practice",
        Tag::User => "user",
    }
}

pub(super) const fn sign(sign: Sign) -> &'static str {
    match sign {
        Sign::ToDo => "to_do",
        Sign::Done => "done",
        Sign::Look => "look",
        Sign::Stop => "stop",
    }
}

pub(super) const fn status(status: Status) -> &'static str {
    match status {
        Status::Current => "current",
        Status::NotTested => "not_tested",
        Status::Missing => "missing",
        Status::Withdrawn => "withdrawn",
        Status::Replaced => "replaced",
        Status::NotChosen => "not_chosen",
    }
}

/// ISO 8601 with the offset it was recorded in.
pub(super) fn time(at: Moment) -> String {
    at.to_rfc3339_opts(SecondsFormat::AutoSi, false)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{Comparator, Sign, Tag, TesterState, Value};

    /// One spelling in every file: what the tables say is what the JSON files say.
    #[test]
    fn codes_are_those_of_the_json_files() {
        use serde_json::to_value;
        for it in [Comparator::Exact, Comparator::MoreThan, Comparator::LessThan] {
            assert_eq!(to_value(it).unwrap(), super::comparator(it));
        }
        for it in [Value::Meets, Value::TooClose, Value::CannotBeJudged, Value::Below] {
            assert_eq!(to_value(it).unwrap(), super::value(it));
        }
        for it in [
            TesterState::Proved,
            TesterState::Lapsed,
            TesterState::NotProved,
            TesterState::FoundGoodAfterwards,
            TesterState::InDoubt,
            TesterState::Barred,
            TesterState::NotChosen,
        ] {
            assert_eq!(to_value(it).unwrap(), super::tester_state(it));
        }
        for it in
            [Tag::Seen, Tag::MemoryHigh, Tag::MemoryMedium, Tag::MemoryLow, Tag::Calculated, Tag::Practice, Tag::User]
        {
            assert_eq!(to_value(it).unwrap(), super::tag(it));
        }
        for it in [Sign::ToDo, Sign::Done, Sign::Look, Sign::Stop] {
            assert_eq!(to_value(it).unwrap(), super::sign(it));
        }
    }
}
