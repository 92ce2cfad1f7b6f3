//! Writes an invented schedule and tester report in every format, to be looked at and to be put before an independent validator:
//! `cargo run -p provenohm-papers --example sample-schedule -- FOLDER`.

#[path = "../tests/invented/mod.rs"]
mod invented;

use provenohm_papers::Pages;
use provenohm_papers::report::Parts;
use provenohm_papers::tester_report::TesterReport;
use provenohm_words::{Locale, Words};
use std::error::Error;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(std::env::args_os().nth(1).ok_or("name the folder to write to")?);
    std::fs::create_dir_all(&folder)?;
    let words = Words::new(Locale::ENGLISH);
    for (name, schedule) in [
        ("small", invented::small()),
        ("signed", invented::signed()),
        ("large", invented::large(500)),
        ("empty", invented::empty()),
    ] {
        let parts = Parts::of(&schedule)?;
        for part in &parts.parts {
            let pdf = Pages::typeset(part, &words)?.pdf()?;
            std::fs::write(folder.join(format!("{name}-{}.pdf", part.number)), pdf)?;
        }
        std::fs::write(folder.join(format!("{name}.xlsx")), parts.xlsx(&words)?)?;
        std::fs::write(folder.join(format!("{name}.csv")), parts.csv(&words)?)?;
    }
    let report: TesterReport = serde_json::from_str(include_str!("../../../../schemas/tester-report.example.json"))?;
    std::fs::write(folder.join("tester.pdf"), Pages::typeset_tester(&report, &words)?.pdf()?)?;
    std::fs::write(folder.join("tester.xlsx"), report.xlsx(&words)?)?;
    println!("{}", folder.display());
    Ok(())
}
