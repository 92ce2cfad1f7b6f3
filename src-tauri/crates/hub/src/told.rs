//! What a hub says to whoever started it.

use crate::{Hub, NotServing};
use provenohm_words::{Locale, Words};

impl Hub {
    /// Where it answers and, while nobody has a password, the link for the first.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        let mut lines = vec![words().text_with("office-hub-answers", &[("address", self.reached().into())])];
        lines.extend(self.pin().map(|pin| {
            let pin: String = pin.iter().map(|byte| format!("{byte:02x}")).collect();
            words().text_with("office-hub-certificate", &[("pin", pin.into())])
        }));
        lines.extend(self.first_link().map(|link| words().text_with("office-hub-first", &[("link", link.into())])));
        lines
    }
}

/// Why it does not run, and what to do.
#[must_use]
pub fn not_serving(why: &NotServing) -> String {
    let with_reason =
        |key: &str, reason: &dyn std::fmt::Display| words().text_with(key, &[("reason", reason.to_string().into())]);
    match why {
        NotServing::Address(address, reason) => words().text_with(
            "office-hub-no-address",
            &[("address", address.to_string().into()), ("reason", reason.to_string().into())],
        ),
        NotServing::NoScreens => words().text("office-hub-no-screens"),
        NotServing::Record(failure) => failure.to_string(),
        NotServing::Tls(reason) => with_reason("office-hub-no-certificate", reason),
        NotServing::Store(reason) => with_reason("office-hub-no-store", reason),
        NotServing::Accounts(reason) => with_reason("office-hub-no-accounts", reason),
        NotServing::NoRandomness(reason) => with_reason("office-hub-broke-off", reason),
    }
}

/// It has ended.
#[must_use]
pub fn ended() -> String {
    words().text("office-hub-ended")
}

/// Nobody said where its record is, and the system names no place.
#[must_use]
pub fn no_folder() -> String {
    words().text("office-hub-no-folder")
}

fn words() -> Words {
    Words::new(Locale::ENGLISH)
}
