//! Ending the app the hard way, as power loss and short memory do.
use std::{fs, process::Command};

use crate::Trouble;

/// As much of the name of WebKit's page process as the system keeps.
pub(crate) const PAGE: &str = "WebKitWebProces";

/// As much of the name of our app as the system keeps.
pub(crate) const APP: &str = "provenohm";

/// Kills without a word beforehand what `ancestor` has started, directly or not, under this name.
pub(crate) fn kill(ancestor: u32, name: &str) -> Result<(), Trouble> {
    let victims = started_by(ancestor, name)?;
    if victims.is_empty() {
        return Err(Trouble::NotShown(format!("no process {name} to kill")));
    }
    for victim in victims {
        Command::new("kill").args(["-KILL", &victim.to_string()]).status().map_err(Trouble::system("kill"))?;
    }
    Ok(())
}

/// The processes that `ancestor` has started, directly or not, under this name.
pub(crate) fn started_by(ancestor: u32, name: &str) -> Result<Vec<u32>, Trouble> {
    let mut found = Vec::new();
    for (id, parent, called) in processes()? {
        if parent == ancestor {
            if called == name {
                found.push(id);
            }
            found.extend(started_by(id, name)?);
        }
    }
    Ok(found)
}

/// Id, parent's id and name of each process there is. One that ends meanwhile is left out.
fn processes() -> Result<Vec<(u32, u32, String)>, Trouble> {
    let folders = fs::read_dir("/proc").map_err(Trouble::system("/proc"))?;
    let ids = folders.flatten().filter_map(|folder| folder.file_name().to_str()?.parse::<u32>().ok());
    Ok(ids
        .filter_map(|id| {
            let status = fs::read_to_string(format!("/proc/{id}/status")).ok()?;
            let field = |name: &str| status.lines().find_map(|line| line.strip_prefix(name)).map(str::trim);
            Some((id, field("PPid:")?.parse().ok()?, field("Name:")?.to_owned()))
        })
        .collect())
}
