//! The hub's process killed while a phone sends, again and again: the phone goes on, and in the end the office has all of it.
use super::phones::{enrolled, logged_in};
use super::postgres::Postgres;
use provenohm_tests::{Hub, Trouble, Window, single_phase};
use serde_json::json;
use std::time::Duration;

#[tokio::test]
async fn a_hub_that_is_killed_while_a_phone_sends_loses_nothing() -> Result<(), Trouble> {
    killed(None).await
}

#[tokio::test]
async fn an_instance_over_a_database_that_is_killed_while_a_phone_sends_loses_nothing() -> Result<(), Trouble> {
    let server = Postgres::start();
    killed(Some(&server.url)).await
}

async fn killed(store: Option<&str>) -> Result<(), Trouble> {
    let (there, here) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut hub, browser) = logged_in(Hub::serve_over(there.path(), "127.0.0.1:0", store)?).await?;
    let phone = enrolled(&browser, here.path(), "Phone").await?;
    let listen = hub.address.trim_start_matches("http://").to_owned();
    for nth in 0..6_u64 {
        let name = format!("Hall {nth}");
        let job = phone
            .call("start_job", json!({ "name": name, "place": "Invented", "person": "A. Recorder", "role": "" }))
            .await?["id"]
            .clone();
        let board = phone.call("add_board", json!({ "job": job, "name": "DB" })).await?["boards"][0]["id"].clone();
        let many = json!({ "board": board, "count": "60", "form": single_phase() });
        phone.call("add_many_circuits", many).await?;
        phone.call("keep_in_step", json!({})).await?;
        // Each time somewhere else in the round.
        tokio::time::sleep(Duration::from_millis(nth * 25)).await;
        drop(hub);
        hub = Hub::serve_over(there.path(), &listen, store)?;
    }
    phone.call("keep_in_step", json!({})).await?;
    phone.go("#/office").await?;
    phone.until_shown("In step with the office").await?;

    // In a browser that nobody has logged in with.
    drop(browser);
    let browser = Window::browse(&hub.address, super::login::DESK).await?;
    super::login::enter(&browser, super::login::PASSWORD).await?;
    // Whoever logs in comes to where they were.
    browser.until_shown_in("screen-phones").await?;
    let jobs = browser.call("jobs", json!({})).await?["jobs"].clone();
    assert_eq!(jobs.as_array().map(Vec::len), Some(6), "{jobs}");
    for job in jobs.as_array().unwrap() {
        let job = browser.call("job", json!({ "job": job["id"] })).await?;
        let circuits = browser.call("circuits", json!({ "board": job["boards"][0]["id"] })).await?;
        assert_eq!(circuits["circuits"].as_array().map(Vec::len), Some(60), "{}", job["name"]);
    }
    browser.until_shown("Heard").await?;
    let phones = browser.text("screen-phones").await?;
    assert!(!phones.contains("alone"), "{phones}");
    Ok(())
}
