//! The office looks over its jobs by the keyboard alone: which lack something, one of them opened and come back from, the
//! schedules of two written and had. And the same at the sizes of a desk, a tablet and a phone.
use crate::login::{PASSWORD, enter, picture};
use provenohm_tests::{Hub, Job, Trouble, Window, single_phase};
use serde_json::{Value, json};
use std::io::Read as _;
use std::path::Path;

const DESK: (u32, u32) = (1440, 900);
const TAB: &str = "\u{e004}";
const BACK_TAB: &str = "\u{e008}\u{e004}\u{e000}";
const ENTER: &str = "\u{e007}";
const ESCAPE: &str = "\u{e00c}";
const DOWN: &str = "\u{e015}";
const UP: &str = "\u{e013}";

/// A hub with the demo's two jobs and one that was begun, and the office's window.
async fn office(hub: &mut Hub) -> Result<(Window, Job), Trouble> {
    let window = Window::browse(&hub.first_link()?, DESK).await?;
    window.until_shown("First password of this hub").await?;
    enter(&window, PASSWORD).await?;
    window.until_shown_in("screen-jobs").await?;
    window.call("make_demo", json!({})).await?;
    let job = Job::with(&window, &[(2, single_phase())]).await?;
    window.go("#/testers").await?;
    window.until_shown_in("screen-testers").await?;
    window.go("#/jobs").await?;
    window.until_shown_in("screen-jobs").await?;
    Ok((window, job))
}

/// Presses a key until what has the focus is meant.
async fn walk(window: &Window, key: &str, meant: &str) -> Result<(), Trouble> {
    let script = format!("return document.activeElement !== null && ({meant})(document.activeElement)");
    for _ in 0..60 {
        if window.ask(&script, &[]).await? == true {
            return Ok(());
        }
        window.type_keys(key).await?;
    }
    Err(Trouble::NotShown(format!("a way by {key:?} to {meant}")))
}

async fn walk_to(window: &Window, key: &str, id: &str) -> Result<(), Trouble> {
    walk(window, key, &format!("(one) => one.id === '{id}'")).await
}

async fn focused(window: &Window) -> Result<String, Trouble> {
    let id = window.ask("return document.activeElement?.id ?? ''", &[]).await?;
    Ok(id.as_str().unwrap_or_default().to_owned())
}

async fn shown(window: &Window) -> Result<Vec<String>, Trouble> {
    let names = "return [...document.querySelectorAll('#overview-jobs .name a')].map((one) => one.id)";
    let ids = window.ask(names, &[]).await?;
    Ok(ids.as_array().into_iter().flatten().filter_map(|id| id.as_str()).map(str::to_owned).collect())
}

#[tokio::test]
async fn the_office_looks_over_its_jobs_by_keys_alone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let mut hub = Hub::serve(record.path())?;
    let (window, job) = office(&mut hub).await?;
    walk_to(&window, TAB, "overview-open").await?;
    window.type_keys(ENTER).await?;
    window.until_shown_in("screen-overview").await?;
    window.until_shown("3 jobs, ").await?;
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());

    // Only those with readings whose tester was not proved: not the one that was just begun.
    assert!(shown(&window).await?.contains(&format!("open-{}", job.job)));
    walk_to(&window, TAB, "filter-unproved").await?;
    window.type_keys(ENTER).await?;
    let unproved = window.call("unproved", json!({})).await?;
    let unproved: Vec<String> = unproved["jobs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| format!("open-{}", one["job"].as_str().unwrap()))
        .collect();
    assert_eq!(shown(&window).await?, unproved);
    walk(&window, TAB, "(one) => one.closest('[data-job]') !== null").await?;
    window.type_keys("u").await?;
    window.until_shown("verification lapsed on").await?;
    picture(&window, "overview-unproved").await?;
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());
    window.type_keys(ESCAPE).await?;
    window.type_keys("?").await?;
    window.until_shown("L: what to look at").await?;
    window.type_keys(ESCAPE).await?;
    window.type_keys("l").await?;
    window.until_shown_in("screen-look").await?;
    window.ask("history.back()", &[]).await?;
    window.until_shown_in("screen-overview").await?;

    // Back at the row it was left from, under the same filter; a job is opened and come back from.
    let focus = format!("return document.activeElement?.id === '{}'", unproved[0]);
    window.until("the focus to be back", &focus, &[]).await?;
    window.type_keys(ENTER).await?;
    window.until_shown_in("screen-job").await?;
    walk(&window, TAB, "(one) => one.getAttribute('href') === '#/jobs'").await?;
    window.type_keys(ENTER).await?;
    window.until_shown_in("screen-jobs").await?;
    walk_to(&window, TAB, "overview-open").await?;
    window.type_keys(ENTER).await?;
    window.until("the focus to be back", &focus, &[]).await?;
    assert_eq!(shown(&window).await?, unproved);

    schedules_of_two(&window, &record.path().join("papers")).await
}

/// Chooses two jobs, writes the schedules of both, and has the files.
async fn schedules_of_two(window: &Window, papers: &Path) -> Result<(), Trouble> {
    walk_to(window, BACK_TAB, "filter-all").await?;
    window.type_keys(ENTER).await?;
    let all = shown(window).await?;
    assert_eq!(all.len(), 3);
    walk(window, TAB, "(one) => one.closest('[data-job]') !== null").await?;
    walk_to(window, "\u{e014}", &focused_link(window).await?).await?;
    window.type_keys(" ").await?;
    let next = if focused(window).await? == all[2] { UP } else { DOWN };
    window.type_keys(next).await?;
    window.type_keys(" ").await?;
    walk_to(window, BACK_TAB, "schedules-write").await?;
    assert_eq!(window.text("schedules-write").await?, "Write the schedules of 2 jobs");
    walk_to(window, BACK_TAB, "schedules-format").await?;
    window.type_keys("c").await?;
    walk_to(window, TAB, "schedules-write").await?;
    window.type_keys(ENTER).await?;
    window.until_shown("2 of 2 written").await?;
    picture(window, "overview-schedules").await?;
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());

    walk_to(window, TAB, "schedules-files-save").await?;
    window.type_keys(ENTER).await?;
    let saved = window.until_saved(1).await?;
    let mut archive = zip::ZipArchive::new(std::fs::File::open(&saved[0]).unwrap()).unwrap();
    let names: Vec<String> = archive.file_names().map(|name| name.unwrap().into_owned()).collect();
    assert!(names.len() == 2 && names.iter().all(|name| name.ends_with(".csv")), "{names:?}");
    for name in names {
        let mut bytes = Vec::new();
        archive.by_name(&name).unwrap().read_to_end(&mut bytes).unwrap();
        assert_eq!(bytes, std::fs::read(papers.join(&name)).unwrap(), "{name}");
    }
    Ok(())
}

/// The link of the row that has the focus.
async fn focused_link(window: &Window) -> Result<String, Trouble> {
    let link = "return document.activeElement.closest('[data-job]').querySelector('.name a').id";
    Ok(window.ask(link, &[]).await?.as_str().unwrap_or_default().to_owned())
}

#[tokio::test]
async fn it_fits_a_desk_a_tablet_and_a_phone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let mut hub = Hub::serve(record.path())?;
    let (window, job) = office(&mut hub).await?;
    window.call("choose_tester", json!({ "board": job.board, "tester": job.tester })).await?;
    drop(window);
    for size in [(390, 844), (320, 700), (1024, 768), DESK] {
        let window = Window::browse(&hub.address, size).await?;
        window.until_shown("Log in to the office").await?;
        enter(&window, PASSWORD).await?;
        // Whoever logs in comes to where they were: to the jobs at first, here from then on.
        window.until_shown("Overview").await?;
        window.go("#/overview").await?;
        window.until_shown("3 jobs, ").await?;
        picture(&window, &format!("overview-{}", size.0)).await?;
        window.ask("document.getElementById('overview-testers').scrollIntoView()", &[]).await?;
        picture(&window, &format!("overview-{}-testers", size.0)).await?;
        let wide = "const main = document.querySelector('main');
            return document.scrollingElement.scrollWidth > innerWidth || main.scrollWidth > main.clientWidth";
        assert_eq!(window.ask(wide, &[]).await?, false, "{size:?} scrolls sideways");
        let small = "return [...document.querySelectorAll('.glance a, .glance button, .glance label')]
            .map((one) => [one.outerHTML.slice(0, 80), one.getBoundingClientRect()])
            .filter(([, box]) => box.width > 0 && Math.min(box.width, box.height) < 24)
            .map(([html, box]) => `${html} ${box.width}×${box.height}`)";
        assert_eq!(window.ask(small, &[]).await?, json!([]), "{size:?}");
        assert_eq!(window.serious_barriers().await?, Vec::<String>::new());
        if size == DESK {
            let rows = "return [...document.querySelectorAll('.glance tbody tr')].map((row) => row.getBoundingClientRect().height)";
            let rows = window.ask(rows, &[]).await?;
            let high = |row: &Value| !(28.0..=32.0).contains(&row.as_f64().unwrap());
            assert!(!rows.as_array().unwrap().iter().any(high), "rows of a desk: {rows}");
        }
    }
    Ok(())
}
