//! A job file taken in on screen, at the three sizes it is done at: shown before it is taken, refused in words, and then a
//! job of its own.
use provenohm_tests::{Entry, Job, Opening, Trouble, Window, single_phase};
use serde_json::{Value, json};

/// Gives a file to the control that chooses one, as the system's own chooser does.
const CHOOSE: &str = "
    const chosen = new DataTransfer();
    chosen.items.add(new File([arguments[0]], 'hall.job.json', { type: 'application/json' }));
    const control = document.getElementById('receive');
    control.files = chosen.files;
    control.dispatchEvent(new Event('change', { bubbles: true }));";

const SIZES: [(u32, u32); 3] = [(390, 844), (820, 1180), (1280, 800)];

#[tokio::test]
async fn a_job_file_is_shown_before_it_is_taken_and_makes_a_job_of_its_own() -> Result<(), Trouble> {
    let text = file_of_a_job().await?;
    for size in SIZES {
        let record = tempfile::tempdir().unwrap();
        let window = Window::open(&Opening { size, ..Opening::phone(record.path()) }).await?;
        window.go("#/handover").await?;
        window.until_shown("Choose a bundle or a job file").await?;

        window.ask(CHOOSE, &[json!(text)]).await?;
        window.until_shown("Job Trial hall: 1 board, 1 reading").await?;
        window.until_shown("DB-2: 1 circuit").await?;

        window.ask(CHOOSE, &[json!("{}")]).await?;
        let refused = "return document.querySelector('[role=alert]') !== null && document.getElementById('receive-take') === null";
        window.until("a refusal with nothing left to take", refused, &[]).await?;
        assert_eq!(window.call("jobs", json!({})).await?["jobs"], json!([]), "{size:?}: nothing was taken");

        window.ask(CHOOSE, &[json!(text)]).await?;
        window.until_shown("Job Trial hall: 1 board, 1 reading").await?;
        assert_eq!(window.serious_barriers().await?, Vec::<String>::new(), "{size:?}");
        assert_eq!(
            window.ask("return document.scrollingElement.scrollWidth > innerWidth", &[]).await?,
            Value::Bool(false)
        );
        window.tap("receive-take").await?;
        window.until_shown("Undo").await?;
        window.tap("undo").await?;
        window.until_shown("Taken back").await?;
        assert_eq!(window.call("jobs", json!({})).await?["jobs"], json!([]), "{size:?}: it is gone again");

        window.ask(CHOOSE, &[json!(text)]).await?;
        window.until_shown("Job Trial hall: 1 board, 1 reading").await?;
        window.tap("receive-take").await?;
        window.until_shown("Go to the job").await?;
        window.tap("imported-job").await?;
        window.until_shown("From a file").await?;
        let jobs = window.call("jobs", json!({})).await?;
        assert_eq!(jobs["jobs"][0]["summary"], "1 board, 1 circuit, 1 of 3 readings", "{size:?}");
    }
    Ok(())
}

/// The text of the file of a job with one reading.
async fn file_of_a_job() -> Result<String, Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let job = Job::with(&window, &[(1, single_phase())]).await?;
    window.run(&job.board).await?;
    window.tap_in(Entry::Typed { digits: "487", unit: 'm' }).await?;
    window.go(&format!("#/handover/{}", job.job)).await?;
    window.tap("export").await?;
    let file = window.text("written-path").await?;
    Ok(std::fs::read_to_string(file).unwrap())
}
