//! Checks by tools that are no part of the build; each is compiled once, into `target/prove/tools`.
use std::{fs, path::PathBuf};

use crate::command::{cargo, command, read, shown};
use crate::licences::{ALLOWED, ALLOWED_WITH, EXCEPTIONS};
use crate::{debian, places, trouble::Trouble};

use super::instrumented;
use super::parts::{Part, Told};

const CARGO_DENY: (&str, &str) = ("cargo-deny", "0.20.2");
const CARGO_MACHETE: (&str, &str) = ("cargo-machete", "0.9.2");

/// Licences, sources and bans of every crate in the lock file. Advisories are left out: their database is online.
pub(crate) fn deny(part: &Part) -> Result<Told, Trouble> {
    let tool = tool(CARGO_DENY)?;
    let rules = places::target().join("prove/deny.toml");
    fs::write(&rules, deny_rules()).map_err(|error| {
        Trouble::new(format!("{} could not be written: {error}.", rules.display()), "check the target folder")
    })?;
    let mut deny = command(&tool.to_string_lossy());
    shown(deny.args(["--workspace", "--all-features", "--locked", "--config"]).arg(&rules).args([
        "check",
        "--hide-inclusion-graph",
        "licenses",
        "bans",
        "sources",
    ]))?;
    let lock = fs::read_to_string(places::root().join("Cargo.lock"))
        .map_err(|error| Trouble::new(format!("Cargo.lock could not be read: {error}."), "check out the repository"))?;
    Ok(part.told(format!("{} packages", lock.matches("[[package]]").count())))
}

/// The licences are those that `cargo xtask test` allows.
fn deny_rules() -> String {
    let exceptions = EXCEPTIONS
        .map(|exception| format!("{{ crate = {:?}, allow = [{:?}] }}", exception.package, exception.licence))
        .join(", ");
    let with = format!("{} WITH {}", ALLOWED_WITH.0, ALLOWED_WITH.1);
    let allowed: Vec<&str> = ALLOWED.into_iter().chain([with.as_str()]).collect();
    format!(
        "[graph]\nall-features = true\n\
         [licenses]\nallow = {allowed:?}\nexceptions = [{exceptions}]\nunused-allowed-license = \"allow\"\n\
         [bans]\nmultiple-versions = \"allow\"\nwildcards = \"deny\"\nallow-wildcard-paths = true\n\
         [sources]\nunknown-registry = \"deny\"\nunknown-git = \"deny\"\n"
    )
}

/// Dependencies that a crate names and never uses.
pub(crate) fn unused(part: &Part) -> Result<Told, Trouble> {
    let tool = tool(CARGO_MACHETE)?;
    let root = places::root();
    let folders = ["src-tauri", "tests"].map(|name| root.join(name));
    shown(command(&tool.to_string_lossy()).args(&folders))?;
    let crates = folders.iter().map(|folder| manifests(folder)).sum::<std::io::Result<usize>>();
    let crates =
        crates.map_err(|error| Trouble::new(format!("The crates could not be counted: {error}."), "run it again"))?;
    Ok(part.told(format!("{crates} crates")))
}

fn manifests(folder: &std::path::Path) -> std::io::Result<usize> {
    let files = crate::node::files_under(folder)?;
    Ok(files.iter().filter(|file| file.ends_with("Cargo.toml")).count())
}

/// What the tests of the libraries reach, told per crate. Real windows are left out: they run the app, not a test.
pub(crate) fn coverage(part: &Part) -> Result<Told, Trouble> {
    let tools = llvm()?;
    let folder = places::target().join("prove/coverage");
    let profiles = folder.join("profiles");
    // Counts of an earlier run would be added to these.
    if profiles.exists() {
        fs::remove_dir_all(&profiles).map_err(|error| {
            Trouble::new(format!("{} could not be emptied: {error}.", profiles.display()), "remove it by hand")
        })?;
    }
    let words = ["test", "--workspace", "--locked", "--exclude", "provenohm-tests", "--exclude", "xtask", "--tests"];
    let counted = |more: &[&str]| -> Result<std::process::Command, Trouble> {
        let mut tests = cargo(&words);
        tests.args(more).env("LLVM_PROFILE_FILE", profiles.join("%p-%m.profraw"));
        instrumented::with(&mut tests, "coverage", instrumented::FOR_COVERAGE)?;
        Ok(tests)
    };
    shown(&mut counted(&[])?)?;
    let built = read(&mut counted(&["--no-run", "--message-format=json"])?)?;
    let programs: Vec<String> = built
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter_map(|message| message["executable"].as_str().map(str::to_owned))
        .collect();
    let merged = folder.join("all.profdata");
    shown(command(&tools.profdata).args(["merge", "--sparse", "-o"]).arg(&merged).arg(&profiles))?;
    let mut totals = Vec::new();
    for name in ["assess", "words", "logbook", "exchange", "papers", "api", "office"] {
        let mut export = command(&tools.cov);
        export.args(["export", "--summary-only", "--instr-profile"]).arg(&merged);
        export.args(programs.iter().flat_map(|program| ["--object", program.as_str()]));
        let sources = places::root().join("src-tauri/crates").join(name).join("src");
        let summary: serde_json::Value =
            serde_json::from_str(&read(export.arg("--sources").arg(&sources))?).unwrap_or_default();
        let percent = |what: &str| summary["data"][0]["totals"][what]["percent"].as_f64().unwrap_or_default();
        totals.push(format!("{name} {:.0} % of lines, {:.0} % of regions", percent("lines"), percent("regions")));
        println!("   {}", totals.last().map_or("", String::as_str));
    }
    Ok(part.told(totals.join("; ")))
}

/// LLVM's reading tools, of the version that this compiler is built on: another cannot read its counts.
struct Llvm {
    cov: String,
    profdata: String,
}

fn llvm() -> Result<Llvm, Trouble> {
    let told = read(command("rustc").arg("-vV"))?;
    let version = told.lines().find_map(|line| line.strip_prefix("LLVM version: ")?.split('.').next());
    let version = version.ok_or_else(|| Trouble::new("`rustc -vV` names no LLVM version.", "try another Rust"))?;
    debian::ensure(&[&format!("llvm-{version}")])?;
    Ok(Llvm { cov: format!("llvm-cov-{version}"), profdata: format!("llvm-profdata-{version}") })
}

/// A tool of cargo's in this version: the one at hand if it is that, else compiled here.
pub(super) fn tool((name, version): (&str, &str)) -> Result<PathBuf, Trouble> {
    let folder = places::target().join("prove/tools");
    let program = folder.join("bin").join(format!("{name}{}", std::env::consts::EXE_SUFFIX));
    if !program.exists() {
        println!("   compiling {name} {version}, once");
        let mut install = cargo(&["install", "--locked", "--quiet", "--version", version, "--root"]);
        shown(install.arg(&folder).arg(name).env("CARGO_TARGET_DIR", folder.join("build")))?;
        fs::remove_dir_all(folder.join("build")).map_err(|error| {
            Trouble::new(format!("What {name} was built with could not be removed: {error}."), "remove it by hand")
        })?;
    }
    Ok(program)
}
