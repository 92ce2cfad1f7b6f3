//! The figures as a table for people and as JSON for programs.
use std::path::Path;

use serde_json::json;

use crate::{Broken, figure::Row};

/// Prints the table and keeps it.
pub(crate) fn keep(rows: &[Row], folder: &Path) -> Result<(), Broken> {
    let profile = if cfg!(debug_assertions) { "dev" } else { "measured" };
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let mut table = format!("Profile {profile}, {cores} cores; medians of pairs measured by turns.\n\n");
    table.push_str(
        "| what | | p50 | p99 | beside | p50 | p99 | times | pairs |\n|---|---|---|---|---|---|---|---|---|\n",
    );
    for row in rows {
        table.push_str(&format!(
            "| {} | {} | {:.1} | {:.1} | {} | {:.1} | {:.1} | {:.2} | {} |\n",
            row.what,
            row.unit,
            row.took.p50,
            row.took.p99,
            row.beside,
            row.other.p50,
            row.other.p99,
            row.ratio,
            row.pairs
        ));
    }
    println!("{table}");
    let all: Vec<_> = rows
        .iter()
        .map(|row| {
            json!({
                "what": row.what, "unit": row.unit, "p50": row.took.p50, "p99": row.took.p99,
                "beside": row.beside, "beside_p50": row.other.p50, "beside_p99": row.other.p99,
                "ratio": row.ratio, "pairs": row.pairs,
            })
        })
        .collect();
    std::fs::create_dir_all(folder)?;
    std::fs::write(folder.join("bench.md"), table)?;
    let text = serde_json::to_string_pretty(&json!({ "profile": profile, "cores": cores, "rows": all }))?;
    std::fs::write(folder.join("bench.json"), text)?;
    println!("   {} and bench.json", folder.join("bench.md").display());
    Ok(())
}
