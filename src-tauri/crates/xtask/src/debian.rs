//! The system packages Provenohm is built with, and what to say on systems without apt.
use std::io::{BufRead as _, IsTerminal as _, Write as _};
use std::process::Stdio;

use crate::command::{command, quiet, read, there};
use crate::trouble::Trouble;

/// All that compiling the app needs.
pub(crate) const BUILD: [&str; 3] = ["libwebkit2gtk-4.1-dev", "build-essential", "pkg-config"];

/// What driving a real window without a display needs, a browser for the hub's screens, its second engine, and reading the
/// papers made.
pub(crate) const DRIVE: [&str; 7] =
    ["xvfb", "xauth", "webkit2gtk-driver", "chromium", "chromium-driver", "poppler-utils", "postgresql"];

/// Installs those of `packages` that are missing: as root at once, else after showing the one command and asking.
pub(crate) fn ensure(packages: &[&str]) -> Result<(), Trouble> {
    if cfg!(any(target_os = "macos", target_os = "windows")) {
        println!("   On this system: {}", other_systems());
        return Ok(());
    }
    if !there("apt-get", "--version") {
        println!("   No apt-get here, so nothing is installed for you. {}", other_systems());
        return Ok(());
    }
    let missing: Vec<&str> = packages.iter().copied().filter(|name| !installed(name)).collect();
    if missing.is_empty() {
        println!("   nothing is missing");
        return Ok(());
    }
    let names = missing.join(" ");
    println!("   missing: {names}");
    if is_root() {
        println!("   installing them");
        return apt(&["apt-get"], &missing);
    }
    let as_root = format!("apt-get update && apt-get install -y --no-install-recommends {names}");
    if !there("sudo", "--version") {
        return Err(Trouble::new(
            format!(
                "These system packages are missing: {names}; only root can install them, and there is no sudo here."
            ),
            format!("let root run `{as_root}`, and run the same task again"),
        ));
    }
    let line = format!("sudo sh -c '{as_root}'");
    println!("   {line}");
    if agreed()? {
        return apt(&["sudo", "apt-get"], &missing);
    }
    Err(Trouble::new(
        format!("These system packages are missing: {names}."),
        format!("run {line}, and run the same task again"),
    ))
}

fn installed(name: &str) -> bool {
    read(command("dpkg-query").args(["-W", "-f=${db:Status-Status}", name]).stderr(Stdio::null()))
        .is_ok_and(|state| state == "installed")
}

fn is_root() -> bool {
    read(command("id").arg("-u")).is_ok_and(|id| id.trim() == "0")
}

fn agreed() -> Result<bool, Trouble> {
    if !std::io::stdin().is_terminal() {
        return Ok(false);
    }
    print!("   Run it now? [y/N] ");
    let unread = |error: std::io::Error| {
        Trouble::new(format!("The answer could not be read: {error}."), "run the line above yourself")
    };
    std::io::stdout().flush().map_err(unread)?;
    let mut answer = String::new();
    std::io::stdin().lock().read_line(&mut answer).map_err(unread)?;
    Ok(matches!(answer.trim(), "y" | "Y" | "yes"))
}

fn apt(program: &[&str], packages: &[&str]) -> Result<(), Trouble> {
    let apt_get = |words: &[&str]| {
        let (first, rest) = program.split_first().unwrap_or((&"apt-get", &[]));
        let mut apt_get = command(first);
        apt_get.args(rest).args(words).env("DEBIAN_FRONTEND", "noninteractive");
        apt_get
    };
    quiet(&mut apt_get(&["update"]))?;
    let mut install = apt_get(&["install", "-y", "--no-install-recommends"]);
    quiet(install.args(packages))
}

fn other_systems() -> &'static str {
    if cfg!(target_os = "macos") {
        "macOS needs Apple's command line tools (`xcode-select --install`) and Node.js 20.19 or newer."
    } else if cfg!(target_os = "windows") {
        "Windows needs the C++ build tools, WebView2 (part of Windows 11) and Node.js 20.19 or newer."
    } else {
        "Install a C compiler, pkg-config and the development files of WebKitGTK 4.1 \
         (Fedora: gcc pkgconf webkit2gtk4.1-devel; Arch: base-devel webkit2gtk-4.1); without a display also \
         Xvfb, WebKitGTK's WebDriver and poppler's tools."
    }
}
