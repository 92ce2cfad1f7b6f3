//! The same board with no pointer at all.
use provenohm_tests::{Job, Opening, Trouble, Window};

/// What a tester shows in turn, as typed: over-range by its sign, a decimal comma as good as a point.
const TYPED: [&str; 3] = [">999m", "487m", "1,20m"];

#[tokio::test]
async fn a_board_of_54_readings_by_hardware_keys_alone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let job = Job::of_54_readings(&window).await?;
    window.run(&job.board).await?;
    for at in 0..54 {
        window.type_in(TYPED[at % TYPED.len()]).await?;
    }
    assert_eq!(job.done(&window).await?, (54, 54));
    assert_eq!(window.taps().await?, 0);
    Ok(())
}
