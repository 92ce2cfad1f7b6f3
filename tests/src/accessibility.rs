//! What keeps people from using whatever the window shows: what axe-core finds, what is cut off, what is too small to hit.
use std::path::Path;

use serde_json::{Value, json};

use crate::{Trouble, Window};

/// Controls too small to hit. Those of a table of readings, which are many, and links within words need what a pointer
/// needs; the others what a finger needs.
const TOO_SMALL: &str = "
    const [finger, pointer] = [arguments[0], 24];
    const least = (one) => (one.closest('table') || getComputedStyle(one).display === 'inline' ? pointer : finger);
    return [...document.querySelectorAll('button, a[href], input, select, textarea, summary')]
        .filter((one) => one.checkVisibility() && !one.disabled && !one.closest('.visually-hidden'))
        .map((one) => [one, (one.closest('label') ?? one).getBoundingClientRect()])
        .filter(([one, box]) => box.width > 0 && Math.min(box.width, box.height) < least(one))
        .map(([one, box]) => `${one.outerHTML.slice(0, 120)} ${box.width}×${box.height}`)";

/// What is written beyond the window, where the page or its one scroller is wider than the window; a wide table scrolls in a box of
/// its own.
const CUT_OFF: &str = "
    const main = document.querySelector('main');
    const wide = document.scrollingElement.scrollWidth > innerWidth || (main !== null && main.scrollWidth > main.clientWidth);
    const reach = (text) => {
        const range = document.createRange();
        range.selectNodeContents(text);
        return range.getBoundingClientRect().right;
    };
    const texts = document.createTreeWalker(main ?? document.body, NodeFilter.SHOW_TEXT);
    const beyond = [];
    while (texts.nextNode()) if (reach(texts.currentNode) > innerWidth) beyond.push(texts.currentNode.textContent);
    return wide ? beyond.join(' | ') : null";

impl Window {
    /// All of it, one line each. `finger`: what a control must measure at least, CSS pixels.
    pub async fn barriers(&self, finger: u32) -> Result<Vec<String>, Trouble> {
        let mut barriers = self.serious_barriers().await?;
        if let Value::String(widest) = self.ask(CUT_OFF, &[]).await? {
            barriers.push(format!("wider than the window: {widest}"));
        }
        let small = self.ask(TOO_SMALL, &[json!(finger)]).await?;
        barriers.extend(small.as_array().into_iter().flatten().map(|one| format!("too small: {one}")));
        Ok(barriers)
    }

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
