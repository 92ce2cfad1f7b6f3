//! A phone and the office on one hub: enrolled by the code that the browser shows, recorded on the phone, seen in the
//! browser; changed there and seen on the phone; a second phone has the job from the office.
use super::login::{DESK, enter, picture};
use provenohm_tests::{Entry, Hub, Job, Opening, Trouble, Window, single_phase};
use std::path::Path;

/// A hub whose office is logged in.
pub(crate) async fn office(record: &Path) -> Result<(Hub, Window), Trouble> {
    logged_in(Hub::serve(record)?).await
}

/// The same on a hub that was just started.
pub(crate) async fn logged_in(mut hub: Hub) -> Result<(Hub, Window), Trouble> {
    let window = Window::browse(&hub.first_link()?, DESK).await?;
    enter(&window, super::login::PASSWORD).await?;
    window.until_shown_in("screen-jobs").await?;
    Ok((hub, window))
}

/// A phone that is enrolled through its own screen.
pub(crate) async fn enrolled(office: &Window, record: &Path, name: &str) -> Result<Window, Trouble> {
    office.go("#/phones").await?;
    office.tap("phones-enrol").await?;
    let (address, code) = (office.text("enrol-address").await?, office.text("enrol-code").await?);
    picture(office, "enrol").await?;
    assert_eq!(office.serious_barriers().await?, Vec::<String>::new());
    office.tap_named("Close").await?;
    let phone = Window::open(&Opening::phone(record)).await?;
    phone.go("#/jobs").await?;
    phone.tap("office").await?;
    phone.until_shown("This device is at no office").await?;
    assert_eq!(phone.serious_barriers().await?, Vec::<String>::new());
    for (field, text) in [("office-address", address.as_str()), ("office-code", &code), ("office-name", name)] {
        phone.fill_id(field, text).await?;
    }
    picture(&phone, "enrolling").await?;
    phone.tap("office-enrol").await?;
    phone.until_shown("In step with the office").await?;
    Ok(phone)
}

#[tokio::test]
async fn what_a_phone_records_is_seen_in_the_office_and_on_another_phone() -> Result<(), Trouble> {
    let (there, here, other) =
        (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (hub, browser) = office(there.path()).await?;
    let phone = enrolled(&browser, here.path(), "Phone one").await?;
    let job = Job::with(&phone, &[(2, single_phase())]).await?;
    // The office looks on: what comes is shown without being asked for.
    browser.go("#/jobs").await?;
    browser.until_shown("Trial hall").await?;
    browser.go(&format!("#/job/{}", job.job)).await?;
    browser.until_shown("0 of").await?;
    phone.run(&job.board).await?;
    phone.tap_in(Entry::Typed { digits: "487", unit: 'm' }).await?;
    browser.until_shown("1 of").await?;
    picture(&browser, "job").await?;
    browser.go("#/phones").await?;
    browser.until_shown("Heard").await?;
    picture(&browser, "phones").await?;

    // A second phone sees the job at the office, and takes it.
    let second = enrolled(&browser, other.path(), "Phone two").await?;
    second.until_shown("Trial hall, Invented").await?;
    picture(&second, "there").await?;
    second.tap_named("Have Trial hall, Invented here").await?;
    second.go("#/jobs").await?;
    second.until_shown("Trial hall").await?;
    assert_eq!(job.done(&second).await?.0, 1);

    // The hub is away: the phone goes on, and says what waits.
    assert!(hub.end()?.1.success());
    phone.tap_in(Entry::Typed { digits: "350", unit: 'm' }).await?;
    phone.go("#/office").await?;
    phone.until_shown("Not reached since").await?;
    phone.until_shown("1 reading waits here to go there").await?;
    picture(&phone, "waiting").await?;
    Ok(())
}
