//! The first password by the printed link, a job begun in the browser, logged out and in again, the hub ended and begun anew.
use provenohm_tests::{Hub, Trouble, Window};
use std::path::Path;

const NAME: &str = "A. Office";
pub(crate) const PASSWORD: &str = "correct horse";
pub(crate) const DESK: (u32, u32) = (1280, 900);

pub(crate) async fn enter(window: &Window, password: &str) -> Result<(), Trouble> {
    window.fill_id("login-name", NAME).await?;
    window.fill_id("login-password", password).await?;
    window.tap("login-enter").await
}

pub(crate) async fn picture(window: &Window, name: &str) -> Result<(), Trouble> {
    match std::env::var_os("PROVENOHM_PICTURES") {
        Some(folder) => window.picture(&Path::new(&folder).join(format!("browser-{name}.png"))).await,
        None => Ok(()),
    }
}

#[tokio::test]
async fn the_first_person_sets_a_password_and_works_in_the_browser() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let mut hub = Hub::serve(record.path())?;
    let link = hub.first_link()?;
    let window = Window::browse(&link, DESK).await?;
    window.until_shown("First password of this hub").await?;
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());
    picture(&window, "first").await?;
    enter(&window, PASSWORD).await?;
    window.until_shown_in("screen-jobs").await?;
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());
    picture(&window, "jobs").await?;

    // The link is spent, and a browser that does not know the password sees nothing of the record.
    let other = Window::browse(&link, DESK).await?;
    other.until_shown("First password of this hub").await?;
    enter(&other, PASSWORD).await?;
    other.until_shown("This link was used").await?;
    let other = Window::browse(&hub.address, DESK).await?;
    other.until_shown("Log in to the office").await?;
    assert_eq!(other.serious_barriers().await?, Vec::<String>::new());
    enter(&other, "wrong password").await?;
    other.until_shown("do not go together").await?;
    picture(&other, "login").await?;
    enter(&other, PASSWORD).await?;
    other.until_shown_in("screen-jobs").await?;

    let (last, ended) = hub.end()?;
    assert_eq!((last.as_str(), ended.success()), ("Ended. Everything that was saved is on the disk", true));
    let hub = Hub::serve(record.path())?;
    let window = Window::browse(&hub.address, DESK).await?;
    window.until_shown("Log in to the office").await?;
    enter(&window, PASSWORD).await?;
    window.until_shown_in("screen-jobs").await
}
