//! What the reader of a JSON file complains of, in words for whoever has to mend the file.

use crate::words::Words;

/// Characters of a file's own text that a complaint repeats.
const ECHO_MOST: usize = 60;

/// Characters of a reason that is repeated as it came.
const REASON_MOST: usize = 200;

impl Words {
    /// Why a JSON text is not what is read here; `reason` as the reader of JSON gives it, without the place.
    #[must_use]
    pub fn json_complaint(&self, reason: &str) -> String {
        let named = |rest: &str| cut(rest.split('`').next().unwrap_or_default(), ECHO_MOST);
        if let Some(rest) = reason.strip_prefix("unknown variant `") {
            let choices = rest.split_once("expected ").map_or("", |(_, choices)| choices);
            let choices: Vec<&str> = choices.split('`').skip(1).step_by(2).collect();
            let args = [("found", named(rest).into()), ("choices", choices.join(", ").into())];
            return self.text_with("said-json-no-choice", &args);
        }
        let of_member = [
            ("unknown field `", "said-json-unknown-member"),
            ("missing field `", "said-json-missing-member"),
            ("duplicate field `", "said-json-member-twice"),
        ];
        for (prefix, key) in of_member {
            if let Some(rest) = reason.strip_prefix(prefix) {
                return self.text_with(key, &[("found", named(rest).into())]);
            }
        }
        let wrong = ["invalid type: ", "invalid value: "].iter().find_map(|prefix| reason.strip_prefix(prefix));
        if let Some((found, expected)) = wrong.and_then(|rest| rest.split_once(", expected ")) {
            let expected = self.expected(expected);
            let args = [("found", cut(found, ECHO_MOST).into()), ("expected", expected.into())];
            return self.text_with("said-json-other-kind", &args);
        }
        if reason.starts_with("EOF while parsing") {
            return self.text("said-json-cut");
        }
        if reason.starts_with("expected ") || reason.starts_with("trailing ") || reason.starts_with("key must ") {
            return self.text_with("said-json-syntax", &[("reason", cut(reason, REASON_MOST).into())]);
        }
        cut(reason, REASON_MOST)
    }

    fn expected(&self, kind: &str) -> String {
        let key = match kind {
            "u8" | "u16" | "u32" | "u64" | "usize" | "i32" | "i64" => "said-json-whole-number",
            "a boolean" => "said-json-true-or-false",
            "a string" => "said-json-text",
            _ if kind.contains("Decimal") => "said-json-decimal",
            _ if kind.starts_with("struct ") || kind == "a map" => "said-json-object",
            _ if kind.contains("sequence") => "said-json-list",
            _ => return cut(kind, REASON_MOST),
        };
        self.text(key)
    }
}

/// At most so many characters, with an ellipsis where something was cut.
fn cut(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
