//! The web UI: its packages from the lock file, its checks, its built screens.
use std::{
    fs,
    hash::{DefaultHasher, Hash as _, Hasher as _},
    io,
    path::{Path, PathBuf},
    process::Command,
};

use crate::command::{command, quiet, read, shown};
use crate::{places, trouble::Trouble};

/// The oldest Node.js that the UI's tools accept.
const OLDEST: (u32, u32) = (20, 19);

/// Says what to do when Node.js is missing or too old.
pub(crate) fn ensure() -> Result<(), Trouble> {
    let next = "install Node.js 20.19 or newer from your system or from nodejs.org, and run the same task again";
    let version = read(command("node").arg("--version")).map_err(|_| Trouble::new("Node.js was not found.", next))?;
    let mut numbers = version.trim().trim_start_matches('v').split('.').map(str::parse);
    let (Some(Ok(major)), Some(Ok(minor))) = (numbers.next(), numbers.next()) else {
        return Err(Trouble::new(format!("`node --version` says {version}, which is no version."), next));
    };
    if (major, minor) < OLDEST {
        return Err(Trouble::new(format!("Node.js {} is too old.", version.trim()), next));
    }
    Ok(())
}

/// Installs the UI's packages, only if the lock file is not the one they were installed from.
pub(crate) fn packages() -> Result<(), Trouble> {
    let lock =
        fs::read(places::ui().join("package-lock.json")).map_err(|error| unread("ui/package-lock.json", &error))?;
    let stamp = places::ui().join("node_modules/.installed-from");
    if fs::read(&stamp).is_ok_and(|installed_from| installed_from == lock) {
        println!("   as the lock file has them");
        return Ok(());
    }
    quiet(npm(&["ci", "--no-audit", "--no-fund"]).env("npm_config_update_notifier", "false"))?;
    fs::write(&stamp, lock).map_err(|error| unread("ui/node_modules", &error))
}

/// Builds the screens, only if something they are made of changed: a new build makes the app compile again.
pub(crate) fn build() -> Result<(), Trouble> {
    let stamp = places::target().join("screens-built-from");
    let made_of = fingerprint().map_err(|error| unread("ui", &error))?;
    let built = places::ui().join("dist/index.html").exists();
    if built && fs::read_to_string(&stamp).is_ok_and(|built_from| built_from == made_of) {
        println!("   built already");
        return Ok(());
    }
    quiet(&mut script("build"))?;
    fs::create_dir_all(places::target())
        .and_then(|()| fs::write(&stamp, made_of))
        .map_err(|error| unread("target", &error))
}

/// One of the UI's own checks, by its name in `package.json`.
pub(crate) fn check(name: &str) -> Result<(), Trouble> {
    shown(&mut script(name))
}

/// Every file under `folder`, in a fixed order.
pub(crate) fn files_under(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            files.extend(files_under(&path)?);
        } else {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// Of the sources, the lock file and the settings: everything but what tools put there.
fn fingerprint() -> io::Result<String> {
    let mut hasher = DefaultHasher::new();
    for entry in fs::read_dir(places::ui())? {
        let path = entry?.path();
        let made_by_tools = ["node_modules", "dist"].iter().any(|name| path.ends_with(name));
        let files = match (made_by_tools, path.is_dir()) {
            (true, _) => Vec::new(),
            (false, true) => files_under(&path)?,
            (false, false) => vec![path],
        };
        for file in files {
            file.hash(&mut hasher);
            fs::read(&file)?.hash(&mut hasher);
        }
    }
    Ok(format!("{:016x}", hasher.finish()))
}

fn script(name: &str) -> Command {
    npm(&["run", "--silent", name])
}

fn npm(words: &[&str]) -> Command {
    // On Windows npm is a script, which only starts under its full name.
    let mut npm = command(if cfg!(windows) { "npm.cmd" } else { "npm" });
    npm.current_dir(places::ui()).args(words);
    npm
}

fn unread(what: &str, error: &io::Error) -> Trouble {
    Trouble::new(
        format!("{what} could not be read or written: {error}."),
        "check the folder and its rights, and run the same task again",
    )
}
