//! What a hub says to whoever started it.

use crate::{Hub, NotKept, NotServing};
use provenohm_exchange::hub::Carried;
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

/// Why a store was not backed up, brought back or moved, and what to do.
#[must_use]
pub fn not_kept(why: &NotKept) -> String {
    let folder = |key: &str, folder: &std::path::Path| {
        words().text_with(key, &[("folder", folder.display().to_string().into())])
    };
    match why {
        NotKept::NoHub(of) => folder("office-hub-none-there", of),
        NotKept::NoneInDatabase => words().text("office-hub-none-in-database"),
        NotKept::Occupied(of) => folder("office-hub-occupied", of),
        other => words().text_with("office-hub-not-carried", &[("reason", other.to_string().into())]),
    }
}

/// What was carried, and that both sides were held against each other.
#[must_use]
pub fn carried(carried: &Carried) -> String {
    words().text_with(
        "office-hub-carried",
        &[
            ("entries", carried.entries.into()),
            ("logs", carried.logs.into()),
            ("digest", carried.digest.as_str().into()),
        ],
    )
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
