//! The screens that a hub alone has, and those made for a desk, at every width and in every theme: no barrier, nothing cut off,
//! nothing too small to hit. And who may not do something is not offered it.
use super::login::{PASSWORD, enter, picture};
use super::people::{invite, join};
use super::phones::{enrolled, office};
use provenohm_tests::{Job, Trouble, Window, single_phase};
use serde_json::{Value, json};

#[tokio::test]
async fn a_hubs_own_screens_have_no_barriers_in_any_look() -> Result<(), Trouble> {
    let (there, here) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (hub, browser) = office(there.path()).await?;
    let phone = enrolled(&browser, here.path(), "Phone one").await?;
    drop(phone);
    browser.call("make_demo", json!({})).await?;
    browser.go("#/people").await?;
    invite(&browser, "A. Recorder", "recorder").await?;
    browser.tap_named("Close").await?;
    let jobs = browser.call("jobs", json!({})).await?;
    let job = browser.call("job", json!({ "job": jobs["jobs"][0]["id"] })).await?;
    let board = job["boards"][0]["id"].as_str().unwrap();
    browser.call("confirm_cautions", json!({ "job": job["id"] })).await?;
    let places = [
        ("jobs", "#/jobs".to_owned()),
        ("phones", "#/phones".to_owned()),
        ("people", "#/people".to_owned()),
        ("overview", "#/overview".to_owned()),
        ("grid", format!("#/grid/{board}")),
        ("schedule", format!("#/schedule/{}", job["id"].as_str().unwrap())),
    ];
    let mut troubles = Vec::new();
    for (size, finger, theme) in
        [((320, 568), 48, "light"), ((390, 844), 48, "sun"), ((768, 1024), 48, "dark"), ((1280, 800), 24, "light")]
    {
        let settings = browser.call("settings", json!({})).await?;
        let mut settings = settings["settings"].clone();
        settings["theme"] = theme.into();
        browser.call("set_settings", settings).await?;
        let window = Window::browse(&hub.address, size).await?;
        window.until_shown("Log in to the office").await?;
        enter(&window, PASSWORD).await?;
        // They come to where they were last.
        let come = "return document.querySelector('[id^=screen-]:not(#screen-login)') !== null";
        window.until("the screen after the login", come, &[]).await?;
        for (name, place) in &places {
            window.go(place).await?;
            window.until_shown_in(&format!("screen-{name}")).await?;
            picture(&window, &format!("looks-{name}-{}-{theme}", size.0)).await?;
            let barriers = window.barriers(finger).await?.into_iter();
            troubles.extend(barriers.map(|barrier| format!("{name} at {size:?}, {theme}: {barrier}")));
        }
    }
    assert!(troubles.is_empty(), "{}", troubles.join("\n"));
    Ok(())
}

#[tokio::test]
async fn who_may_not_do_something_is_not_offered_it() -> Result<(), Trouble> {
    let there = tempfile::tempdir().unwrap();
    let (_hub, browser) = office(there.path()).await?;
    let job = Job::with(&browser, &[(2, single_phase())]).await?;
    job.prove_tester(&browser).await?;
    browser.go("#/people").await?;
    let link = invite(&browser, "A. Recorder", "recorder").await?;
    browser.tap_named("Close").await?;
    let recorder = join(&link, "A. Recorder", (1280, 900)).await?;
    let link = invite(&browser, "A. Reviewer", "reviewer").await?;
    let reviewer = join(&link, "A. Reviewer", (1280, 900)).await?;

    // What of these is shown, of whom.
    let acts = [
        ("#/jobs", "jobs", &["start-job", "overview-open", "phones"][..]),
        ("#/job/JOB", "job", &["job-names", "board-add", "to-look"]),
        ("#/circuits/BOARD", "circuits", &["record", "grid", "circuit-new", "readings-import", "circuits-copy"]),
        ("#/signoff/JOB", "signoff", &["sign-off-counts"]),
    ];
    let recording = "start-job overview-open job-names board-add to-look record grid circuit-new readings-import \
                     circuits-copy sign-off-counts";
    for (window, meant) in [
        (&recorder, recording),
        (&reviewer, "overview-open to-look circuits-copy sign-off-counts"),
        (&browser, &format!("start-job overview-open phones {}", recording.split_once("overview-open ").unwrap().1)),
    ] {
        let mut shown = Vec::new();
        for (place, screen, ids) in acts {
            window.go(&place.replace("JOB", &job.job).replace("BOARD", &job.board)).await?;
            window.until_shown_in(&format!("screen-{screen}")).await?;
            window
                .until("the last of them", "return document.getElementById(arguments[0]) !== null", &[json!(last(ids))])
                .await?;
            for id in ids {
                let there = window.ask("return document.getElementById(arguments[0]) !== null", &[json!(id)]).await?;
                if there == Value::Bool(true) {
                    shown.push(*id);
                }
            }
        }
        assert_eq!(shown.join(" "), meant);
    }
    Ok(())
}

/// The one of them that everybody is shown.
fn last<'i>(ids: &[&'i str]) -> &'i str {
    ids.iter()
        .copied()
        .find(|id| ["overview-open", "to-look", "circuits-copy", "sign-off-counts"].contains(id))
        .unwrap()
}
