//! Several people at one hub, each in a browser of their own: invited by the office, at one job at the same time, and a
//! session that ends while somebody works.
use crate::login::{DESK, PASSWORD, enter, picture};
use provenohm_tests::{Entry, Hub, Job, Trouble, Window, single_phase};
use serde_json::{Value, json};

const PHONE: (u32, u32) = (390, 844);

/// The office's window, on the screen of its people.
async fn office(hub: &mut Hub) -> Result<Window, Trouble> {
    let window = Window::browse(&hub.first_link()?, DESK).await?;
    window.until_shown("First password of this hub").await?;
    enter(&window, PASSWORD).await?;
    window.until_shown_in("screen-jobs").await?;
    window.tap("accounts").await?;
    window.until_shown_in("screen-people").await?;
    Ok(window)
}

/// Invites somebody; the link that is shown.
pub(crate) async fn invite(office: &Window, name: &str, role: &str) -> Result<String, Trouble> {
    office.tap("invite").await?;
    office.fill_id("invite-name", name).await?;
    office.choose("invite-role", role).await?;
    office.tap("invite-do").await?;
    office.until_shown(&format!("Link for {name}")).await?;
    let link = office.ask("return document.getElementById('account-link').value", &[]).await?;
    Ok(link.as_str().unwrap().to_owned())
}

/// Follows a link in a browser of one's own, sets a password and comes in.
pub(crate) async fn join(link: &str, name: &str, size: (u32, u32)) -> Result<Window, Trouble> {
    let window = Window::browse(link, size).await?;
    window.until_shown(&format!("This link works once, for {name}.")).await?;
    window.fill_id("login-password", PASSWORD).await?;
    window.tap("login-enter").await?;
    window.until_shown_in("screen-jobs").await?;
    Ok(window)
}

async fn no_barriers(window: &Window) -> Result<(), Trouble> {
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());
    Ok(())
}

async fn login_again(window: &Window, password: &str) -> Result<(), Trouble> {
    window.until_shown("Your session has ended").await?;
    window.fill_id("login-password", password).await?;
    window.tap("login-enter").await?;
    window.until("the login to go", "return document.getElementById('screen-login') === null", &[]).await
}

#[tokio::test]
async fn the_office_invites_changes_a_role_and_takes_a_login_away() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let mut hub = Hub::serve(record.path())?;
    let office = office(&mut hub).await?;
    let link = invite(&office, "A. Recorder", "recorder").await?;
    no_barriers(&office).await?;
    picture(&office, "people-link").await?;
    office.tap("account-link-copy").await?;
    office.tap_named("Close").await?;
    let window = Window::browse(&link, PHONE).await?;
    window.until_shown("This link works once, for A. Recorder.").await?;
    no_barriers(&window).await?;
    picture(&window, "people-invited").await?;
    drop(window);
    let recorder = join(&link, "A. Recorder", PHONE).await?;
    assert_eq!(recorder.ask("return document.getElementById('accounts')", &[]).await?, Value::Null);
    recorder.go("#/people").await?;
    recorder.until_shown("There is no such screen").await?;
    recorder.go("#/jobs").await?;
    recorder.tap_named("Theme, hand, gloves, login").await?;
    recorder.until_shown("Logged in as A. Recorder, Recorder").await?;
    no_barriers(&recorder).await?;
    picture(&recorder, "people-own-login").await?;
    recorder.tap_named("Close").await?;

    invite(&office, "A. Reviewer", "recorder").await?;
    office.tap_named("Close").await?;
    let choose = "const list = [...document.querySelectorAll('#account-list select')][2];
        list.value = 'reviewer';
        list.dispatchEvent(new Event('change', { bubbles: true }))";
    office.ask(choose, &[]).await?;
    office.until_shown("A. Office gave A. Reviewer another role: Reviewer").await?;
    no_barriers(&office).await?;
    picture(&office, "people").await?;
    // Logged in on a phone too, the office comes to where it was.
    let phone = Window::browse(&hub.address, PHONE).await?;
    phone.until_shown("Log in to the office").await?;
    enter(&phone, PASSWORD).await?;
    phone.until_shown_in("screen-people").await?;
    phone.until_shown("A. Office logged in").await?;
    no_barriers(&phone).await?;
    picture(&phone, "people-phone").await?;
    drop(phone);
    office.tap_named("Take away the login of A. Office").await?;
    office.tap("take-away-do").await?;
    office.until_shown("This is the last login of the office").await?;
    office.tap_named("Take away the login of A. Recorder").await?;
    no_barriers(&office).await?;
    picture(&office, "people-take-away").await?;
    office.tap("take-away-do").await?;
    office.until_shown("A. Office took the login of A. Recorder away").await?;

    // Whoever is kept out is asked who they are, wherever they are: their page asks by itself whether something came.
    recorder.until_shown("Your session has ended").await?;
    recorder.fill_id("login-password", PASSWORD).await?;
    recorder.tap("login-enter").await?;
    recorder.until_shown("do not go together").await
}

#[tokio::test]
async fn the_office_works_with_the_keyboard_alone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let mut hub = Hub::serve(record.path())?;
    let office = office(&mut hub).await?;
    let focus = |id: &str| format!("document.getElementById('{id}').focus()");
    office.ask(&focus("invite"), &[]).await?;
    // Enter opens, the name is typed, Enter sends; Esc closes, and the focus is where it was.
    office.type_keys("\u{e007}").await?;
    office.ask(&focus("invite-name"), &[]).await?;
    office.type_keys("A. Recorder\u{e007}").await?;
    office.until_shown("Link for A. Recorder").await?;
    office.type_keys("\u{e00c}").await?;
    let closed =
        "return document.querySelector('dialog') === null && document.getElementById('screen-people') !== null";
    office.until("the sheet to close", closed, &[]).await?;
    office.until_shown("A. Office made a link for A. Recorder").await?;
    // A token for a calendar is made in the same way, shown once, and taken away.
    office.ask(&focus("token-new"), &[]).await?;
    office.type_keys("\u{e007}").await?;
    office.ask(&focus("token-name"), &[]).await?;
    no_barriers(&office).await?;
    picture(&office, "token-new").await?;
    office.type_keys("Wall calendar\u{e007}").await?;
    office.until_shown("Token of Wall calendar").await?;
    no_barriers(&office).await?;
    picture(&office, "token-made").await?;
    let told = office.ask("return document.getElementById('token-told').value", &[]).await?;
    let told = told.as_str().unwrap();
    assert!(told.starts_with(&format!("{}/calendar/", hub.address)) && told.ends_with(".ics"), "{told}");
    office.type_keys("\u{e00c}").await?;
    office.until("the sheet to close", closed, &[]).await?;
    office.until_shown("Calendar of verifications due. Made by A. Office, works until").await?;
    no_barriers(&office).await?;
    picture(&office, "tokens").await?;
    office.tap_named("Take away the token Wall calendar").await?;
    office.tap("token-drop-sure").await?;
    office.until_shown("A. Office took the token Wall calendar away").await
}

#[tokio::test]
async fn two_record_at_one_board_and_one_goes_on_where_they_were_after_their_session_ended() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let mut hub = Hub::serve(record.path())?;
    let office = office(&mut hub).await?;
    let mut links = Vec::new();
    for name in ["A. Recorder", "B. Recorder"] {
        links.push(invite(&office, name, "recorder").await?);
        office.tap_named("Close").await?;
    }
    let one = join(&links[0], "A. Recorder", DESK).await?;
    let other = join(&links[1], "B. Recorder", PHONE).await?;
    let job = Job::with(&one, &[(1, single_phase())]).await?;
    other.call("choose_tester", json!({ "board": job.board, "tester": job.tester })).await?;
    other.call("confirm_cautions", json!({ "job": job.job })).await?;
    one.run(&job.board).await?;
    other.run(&job.board).await?;
    one.tap_in(Entry::Typed { digits: "487", unit: 'm' }).await?;
    // Whoever records beside them sees it, and stays at the pair in hand.
    let first = "return document.querySelector('ol li button')?.getAttribute('aria-label')?.includes('487') ?? false";
    other.until("the other's reading on the strip", first, &[]).await?;
    picture(&other, "people-run").await?;
    other.go(&format!("#/job/{}", job.job)).await?;
    other.until_shown("A. Recorder, Recorder").await?;
    other.ask("document.querySelector('details summary').scrollIntoView({ block: 'center' })", &[]).await?;
    picture(&other, "people-job").await?;
    other.run(&job.board).await?;
    // Still at the pair that was in hand, which has a reading now: on to the next.
    other.set_voltage_if_asked().await?;
    other.ask("document.querySelectorAll('ol li button')[1].click()", &[]).await?;
    let second = "return document.querySelectorAll('ol li button')[1].getAttribute('aria-current') === 'step'";
    other.until("the second pair in hand", second, &[]).await?;
    other.tap_in(Entry::Typed { digits: "512", unit: 'm' }).await?;
    let view = other.call("run", json!({ "board": job.board })).await?;
    let slots: Vec<Value> = view["slots"].as_array().unwrap().iter().map(|slot| slot["id"].clone()).collect();
    for (slot, who) in slots.iter().zip(["A. Recorder", "B. Recorder"]) {
        let origin = other.call("origin", json!({ "board": job.board, "slot": slot })).await?.to_string();
        assert!(origin.contains(who), "{who}: {origin}");
    }

    // Their password is changed elsewhere: the session ends under the hands of whoever works in it.
    one.run(&job.board).await?;
    one.set_voltage_if_asked().await?;
    one.tap_digits("25").await?;
    let elsewhere = Window::browse(&hub.address, DESK).await?;
    elsewhere.until_shown("Log in to the office").await?;
    elsewhere.fill_id("login-name", "A. Recorder").await?;
    elsewhere.fill_id("login-password", PASSWORD).await?;
    elsewhere.tap("login-enter").await?;
    // Whoever logs in comes to where they were.
    elsewhere.recording().await?;
    elsewhere.go("#/jobs").await?;
    elsewhere.until_shown_in("screen-jobs").await?;
    elsewhere.tap_named("Theme, hand, gloves, login").await?;
    elsewhere.tap_named("Change the password").await?;
    elsewhere.fill_id("password-old", PASSWORD).await?;
    elsewhere.fill_id("password-new", "new password").await?;
    elsewhere.tap("password-change").await?;
    elsewhere.until_shown("The password is changed").await?;
    // Their page asks by itself whether something came, and so asks who is there.
    one.until_shown("Your session has ended").await?;
    no_barriers(&one).await?;
    picture(&one, "people-again").await?;
    login_again(&one, "new password").await?;
    // The digits still stand there.
    one.tap_in(Entry::Typed { digits: "", unit: 'm' }).await?;
    let kept = format!("return location.hash.startsWith('#/run/{}')", job.board);
    one.until("the place", &kept, &[]).await?;
    // Their screen still asked for the pair that the other had read meanwhile: both readings stand there.
    let origin = one.call("origin", json!({ "board": job.board, "slot": slots[1] })).await?.to_string();
    for said in ["A. Recorder", "25", "B. Recorder", "512"] {
        assert!(origin.contains(said), "{said}: {origin}");
    }
    Ok(())
}
