//! The licences of everything that is built in.
use std::fs;

use serde_json::Value;
use spdx::{AdditionItem, Expression, ParseMode};

use crate::{places, trouble::Trouble};

/// Licences that let the app be given away and sold, without a duty on its own source.
pub(crate) const ALLOWED: [&str; 14] = [
    "0BSD",
    "Apache-2.0",
    "BlueOak-1.0.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    "MPL-2.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// A licence with an addition that asks for less than the licence by itself; no other addition is allowed.
pub(crate) const ALLOWED_WITH: (&str, &str) = ("Apache-2.0", "LLVM-exception");

/// A package allowed although a licence of its is not on the list, and why.
pub(crate) struct Exception {
    pub(crate) package: &'static str,
    pub(crate) licence: &'static str,
    reason: &'static str,
}

pub(crate) const EXCEPTIONS: [Exception; 2] = [
    Exception {
        package: "libfuzzer-sys",
        licence: "NCSA",
        reason: "only compiled by `cargo xtask prove fuzz`, never part of the app",
    },
    Exception {
        package: "webpki-root-certs",
        licence: "CDLA-Permissive-2.0",
        reason: "data, on phones alone: brought by the client that reaches a hub, which pins one certificate and asks for none of these",
    },
];

/// Refuses a Rust or npm package whose licence nobody has allowed.
pub(crate) fn check(metadata: &Value) -> Result<(), Trouble> {
    let mut refused: Vec<String> = Vec::new();
    let crates = metadata["packages"].as_array().into_iter().flatten().map(|package| {
        (package["name"].as_str().unwrap_or_default().to_owned(), package["license"].as_str().map(str::to_owned))
    });
    let mut seen = 0_usize;
    for (name, licence) in crates.chain(npm_packages()?) {
        seen += 1;
        let licence = licence.unwrap_or_else(|| "none named".to_owned());
        let exception = EXCEPTIONS.iter().find(|exception| exception.package == name);
        if !allowed(&licence, exception) {
            refused.push(format!("{name} ({licence})"));
        } else if let Some(exception) = exception {
            println!("   {name} ({licence}): {}", exception.reason);
        }
    }
    if refused.is_empty() {
        println!("   {seen} packages");
        return Ok(());
    }
    Err(Trouble::new(
        format!("Nobody has allowed the licence of {}.", refused.join(", ")),
        "use another package, or allow it in licences.rs with the reason",
    ))
}

fn allowed(licence: &str, exception: Option<&Exception>) -> bool {
    let alone = |name: &str| ALLOWED.contains(&name) || exception.is_some_and(|exception| exception.licence == name);
    let with = |name: &str, addition: &AdditionItem| matches!(addition, AdditionItem::Spdx(known) if (name, known.name) == ALLOWED_WITH);
    let here = |name: &str, addition: Option<&AdditionItem>| addition.map_or_else(|| alone(name), |it| with(name, it));
    // Lax, because old packages write `MIT/Apache-2.0`.
    Expression::parse_mode(licence, ParseMode::LAX).is_ok_and(|expression| {
        expression.evaluate(|asked| asked.license.id().is_some_and(|id| here(id.name, asked.addition.as_ref())))
    })
}

/// Name and licence of each package in the UI's lock file.
fn npm_packages() -> Result<Vec<(String, Option<String>)>, Trouble> {
    let unread = |error: String| {
        Trouble::new(format!("ui/package-lock.json could not be read: {error}."), "check out the whole repository")
    };
    let text = fs::read_to_string(places::ui().join("package-lock.json")).map_err(|error| unread(error.to_string()))?;
    let lock: Value = serde_json::from_str(&text).map_err(|error| unread(error.to_string()))?;
    let packages = lock["packages"].as_object().into_iter().flatten();
    let installed = packages.filter(|(path, _)| path.starts_with("node_modules/"));
    Ok(installed.map(|(path, package)| (path.clone(), package["license"].as_str().map(str::to_owned))).collect())
}
