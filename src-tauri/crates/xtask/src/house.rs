//! Who may know whom: the dependency rule of the house.
use std::fs;

use serde_json::Value;

use crate::command::{cargo, read};
use crate::{node, places, trouble::Trouble};

/// A crate of ours, the crates of ours it may know, and the outside crates it must not.
struct Room {
    name: &'static str,
    knows: &'static [&'static str],
    never: &'static [&'static str],
}

const HOUSE: [Room; 11] = [
    // Pure: judged the same on every device, so no file, no clock, no chance.
    Room { name: "provenohm-assess", knows: &[], never: &["getrandom", "rand", "rusqlite", "tauri", "tokio", "typst"] },
    Room { name: "provenohm-words", knows: &["provenohm-assess"], never: &["rusqlite", "tauri", "tokio", "typst"] },
    Room { name: "provenohm-logbook", knows: &["provenohm-assess"], never: &["axum", "reqwest", "tauri", "typst"] },
    Room { name: "provenohm-exchange", knows: &["provenohm-assess", "provenohm-logbook"], never: &["tauri", "typst"] },
    Room { name: "provenohm-papers", knows: &["provenohm-assess", "provenohm-words"], never: &["rusqlite", "tauri"] },
    Room {
        name: "provenohm-api",
        knows: &["provenohm-assess", "provenohm-words", "provenohm-logbook", "provenohm-exchange", "provenohm-papers"],
        never: &["axum", "rusqlite", "tauri", "typst"],
    },
    // The two hosts hold no rule of the trade.
    Room {
        name: "provenohm-office",
        knows: &["provenohm-api", "provenohm-assess", "provenohm-hub"],
        never: &["axum", "rusqlite", "tauri", "typst"],
    },
    // Of the record it knows what it carries, entries and randomness; what they say it asks of `api`.
    Room {
        name: "provenohm-hub",
        knows: &["provenohm-assess", "provenohm-words", "provenohm-logbook", "provenohm-exchange", "provenohm-api"],
        never: &["tauri", "typst"],
    },
    Room {
        name: "provenohm-wire",
        knows: &["provenohm-assess", "provenohm-logbook", "provenohm-exchange", "provenohm-api"],
        never: &["axum", "rusqlite", "tauri", "typst"],
    },
    Room { name: "provenohm", knows: &["provenohm-api", "provenohm-wire"], never: &["rusqlite", "typst"] },
    Room { name: "xtask", knows: &[], never: &[] },
];

/// `cargo metadata` of the whole workspace.
pub(crate) fn metadata() -> Result<Value, Trouble> {
    let text = read(&mut cargo(&["metadata", "--format-version=1", "--locked"]))?;
    serde_json::from_str(&text).map_err(|error| {
        Trouble::new(format!("`cargo metadata` could not be read: {error}."), "try another version of cargo")
    })
}

/// Refuses a crate that knows another it should not, and a screen that talks to the host by itself.
pub(crate) fn check(metadata: &Value) -> Result<(), Trouble> {
    let mut breaches = Vec::new();
    for room in &HOUSE {
        let known = dependencies_of(metadata, room.name).ok_or_else(|| {
            Trouble::new(format!("The crate {} is not there.", room.name), "name it in house.rs as it is called now")
        })?;
        for other in known {
            let ours = HOUSE.iter().any(|room| room.name == other);
            if (ours && !room.knows.contains(&other)) || room.never.contains(&other) {
                breaches.push(format!("{} must not know {other}", room.name));
            }
        }
    }
    breaches.extend(screens_that_know_the_host()?);
    if breaches.is_empty() {
        return Ok(());
    }
    Err(Trouble::new(
        format!("The dependency rule is broken: {}.", breaches.join("; ")),
        "move the code to the room that may know it",
    ))
}

/// What a crate depends on outside its tests.
fn dependencies_of<'a>(metadata: &'a Value, name: &str) -> Option<Vec<&'a str>> {
    let packages = metadata["packages"].as_array()?;
    let package = packages.iter().find(|package| package["name"] == name)?;
    let dependencies = package["dependencies"].as_array()?.iter();
    let outside_tests = dependencies.filter(|dependency| dependency["kind"] != "dev");
    Some(outside_tests.filter_map(|dependency| dependency["name"].as_str()).collect())
}

/// Only `ui/src/host/` may import Tauri.
fn screens_that_know_the_host() -> Result<Vec<String>, Trouble> {
    let sources = places::ui().join("src");
    let unread = |error: std::io::Error| {
        Trouble::new(format!("ui/src could not be read: {error}."), "check out the whole repository")
    };
    let mut breaches = Vec::new();
    for file in node::files_under(&sources).map_err(unread)? {
        if file.starts_with(sources.join("host")) {
            continue;
        }
        let bytes = fs::read(&file).map_err(unread)?;
        if String::from_utf8_lossy(&bytes).contains("@tauri-apps/") {
            let shown = file.strip_prefix(places::root()).unwrap_or(&file);
            breaches.push(format!("{} must not import Tauri, only ui/src/host may", shown.display()));
        }
    }
    Ok(breaches)
}
