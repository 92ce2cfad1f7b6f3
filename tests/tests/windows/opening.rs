//! The app's window itself: it opens, and what is killed comes back.
use provenohm_tests::{Opening, Trouble, Unwatched, Window};

#[tokio::test]
async fn a_window_has_the_size_of_a_phone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let size = window.ask("return [innerWidth, innerHeight]", &[]).await?;
    assert_eq!(size, serde_json::json!([390, 844]));
    Ok(())
}

#[tokio::test]
async fn a_killed_page_process_is_started_again() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Unwatched::open(&Opening::phone(record.path())).await?;
    window.kill_page().await
}
