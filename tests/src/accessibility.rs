//! The automatic accessibility check of axe-core, on whatever the window shows.
use std::path::Path;

use serde_json::Value;

use crate::{Trouble, Window};

impl Window {
    /// What axe calls serious or critical, one line each: rule, where, and what it says.
    pub async fn serious_barriers(&self) -> Result<Vec<String>, Trouble> {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../ui/node_modules/axe-core/axe.min.js");
        let axe = std::fs::read_to_string(&file).map_err(Trouble::system(file.display().to_string()))?;
        self.ask(&axe, &[]).await?;
        let found = self.ask_later("const done = arguments[0]; axe.run().then((found) => done(found.violations), (error) => done(String(error)))").await?;
        let violations = found.as_array().ok_or_else(|| Trouble::NotShown(format!("axe stopped: {found}")))?;
        let serious = violations.iter().filter(|one| matches!(one["impact"].as_str(), Some("serious" | "critical")));
        Ok(serious.map(line).collect())
    }
}

fn line(violation: &Value) -> String {
    let places: Vec<&str> =
        violation["nodes"].as_array().into_iter().flatten().filter_map(|node| node["html"].as_str()).collect();
    format!("{}: {} — {}", violation["id"], violation["help"], places.join(" "))
}
