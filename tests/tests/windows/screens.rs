//! Every screen, on the demo job, at every width: no barrier, nothing cut off, nothing too small to hit.
use std::path::PathBuf;

use provenohm_tests::{Opening, Trouble, Window};
use serde_json::{Value, json};

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

const CUT_OFF: &str = "return document.scrollingElement.scrollWidth > innerWidth";

/// A way of looking at the screens.
#[derive(Debug, Clone, Copy)]
struct Look {
    size: (u32, u32),
    /// What a control must measure at least, CSS pixels.
    finger: u32,
    theme: &'static str,
    /// Size of the text in percent.
    text: u32,
}

const PHONE: Look = Look { size: (390, 844), finger: 48, theme: "light", text: 100 };

async fn looked_at(look: Look) -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening { size: look.size, demo: true, ..Opening::phone(record.path()) }).await?;
    let settings = window.call("settings", json!({})).await?;
    let mut settings = settings["settings"].clone();
    settings["theme"] = look.theme.into();
    window.call("set_settings", settings).await?;
    let places = places(&window).await?;
    drop(window);

    // Opened again, as a person would find it the next day.
    let window = Window::open(&Opening { size: look.size, demo: true, ..Opening::phone(record.path()) }).await?;
    window.until_shown_in("screen-jobs").await?;
    let text = "document.documentElement.style.fontSize = arguments[0] + '%'";
    let mut troubles = Vec::new();
    for (name, place) in places {
        window.go(&place).await?;
        window.until_shown_in(&format!("screen-{name}")).await?;
        if look.text != 100 {
            window.ask(text, &[json!(look.text)]).await?;
        }
        if let Some(folder) = std::env::var_os("PROVENOHM_PICTURES") {
            let file = format!("{name}-{}-{}-{}.png", look.size.0, look.theme, look.text);
            window.picture(&PathBuf::from(folder).join(file)).await?;
        }
        troubles.extend(window.serious_barriers().await?.into_iter().map(|barrier| format!("{name}: {barrier}")));
        if window.ask(CUT_OFF, &[]).await? == Value::Bool(true) {
            troubles.push(format!("{name}: wider than the window"));
        }
        let small = window.ask(TOO_SMALL, &[json!(look.finger)]).await?;
        troubles.extend(small.as_array().into_iter().flatten().map(|one| format!("{name}: too small: {one}")));
    }
    assert!(troubles.is_empty(), "{look:?}:\n{}", troubles.join("\n"));
    Ok(())
}

/// Each screen by its name, and where it is.
async fn places(window: &Window) -> Result<Vec<(&'static str, String)>, Trouble> {
    let jobs = window.call("jobs", json!({})).await?;
    let job = jobs["jobs"][0]["id"].as_str().unwrap().to_owned();
    let view = window.call("job", json!({ "job": job })).await?;
    let board = view["boards"][0]["id"].as_str().unwrap().to_owned();
    let testers = window.call("testers", json!({})).await?;
    let tester = testers["testers"][0]["id"].as_str().unwrap().to_owned();
    let barred = testers["testers"].as_array().into_iter().flatten().find(|one| one["state"]["level"] == "stop");
    let barred = barred.and_then(|one| one["id"].as_str()).unwrap().to_owned();
    window.call("confirm_cautions", json!({ "job": job })).await?;
    Ok(vec![
        ("jobs", "#/jobs".to_owned()),
        ("job", format!("#/job/{job}")),
        ("circuits", format!("#/circuits/{board}")),
        ("run", format!("#/run/{board}")),
        ("look", format!("#/look/{job}")),
        ("correct", format!("#/correct/{job}")),
        ("testers", format!("#/testers/{job}")),
        ("tester", format!("#/tester/{tester}/{job}")),
        ("recall", format!("#/recall/{barred}/{job}")),
        ("cautions", format!("#/cautions/{job}")),
        ("schedule", format!("#/schedule/{job}")),
        ("handover", format!("#/handover/{job}")),
    ])
}

#[tokio::test]
async fn every_screen_at_320() -> Result<(), Trouble> {
    looked_at(Look { size: (320, 568), ..PHONE }).await
}

#[tokio::test]
async fn every_screen_at_390() -> Result<(), Trouble> {
    looked_at(PHONE).await
}

#[tokio::test]
async fn every_screen_at_390_in_the_dark() -> Result<(), Trouble> {
    looked_at(Look { theme: "dark", ..PHONE }).await
}

#[tokio::test]
async fn every_screen_at_390_in_the_sun() -> Result<(), Trouble> {
    looked_at(Look { theme: "sun", ..PHONE }).await
}

#[tokio::test]
async fn every_screen_at_768() -> Result<(), Trouble> {
    looked_at(Look { size: (768, 1024), ..PHONE }).await
}

#[tokio::test]
async fn every_screen_at_1280() -> Result<(), Trouble> {
    looked_at(Look { size: (1280, 800), finger: 24, ..PHONE }).await
}

#[tokio::test]
#[ignore = "takes long; `cargo xtask prove axe` runs it"]
async fn every_screen_in_every_look() -> Result<(), Trouble> {
    for (size, finger) in [((320, 568), 48), ((390, 844), 48), ((768, 1024), 48), ((1280, 800), 24)] {
        for theme in ["light", "dark", "sun"] {
            for text in [100, 200] {
                looked_at(Look { size, finger, theme, text }).await?;
            }
        }
    }
    Ok(())
}
