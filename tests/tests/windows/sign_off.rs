//! Signing off by keys alone: what would be signed, a name, what came after, the paper verified, and taken back again.
use provenohm_tests::{Job, Opening, Trouble, Window, single_phase};
use serde_json::json;
use std::path::PathBuf;

const TAB: &str = "\u{e004}";
const ENTER: &str = "\u{e007}";

/// Tab until the focus is where it says.
async fn tab_to(window: &Window, what: &str) -> Result<(), Trouble> {
    let there = format!("const it = document.activeElement; return {what}");
    for _ in 0..60 {
        if window.ask(&there, &[]).await? == json!(true) {
            return Ok(());
        }
        window.type_keys(TAB).await?;
    }
    Err(Trouble::NotShown(format!("no Tab leads to {what}")))
}

async fn read(window: &Window, board: &str, digits: &str) -> Result<(), Trouble> {
    let slot = window.call("run", json!({ "board": board })).await?["slot"].clone();
    let typed = json!({ "typed": { "text": digits, "comparator": "exact", "unit": "m" } });
    window.call("save_reading", json!({ "board": board, "slot": slot, "indication": typed })).await?;
    Ok(())
}

async fn seen(window: &Window, name: &str) -> Result<(), Trouble> {
    if let Some(folder) = std::env::var_os("PROVENOHM_PICTURES") {
        window.picture(&PathBuf::from(folder).join(name)).await?;
    }
    assert_eq!(window.serious_barriers().await?, [] as [String; 0], "{name}");
    Ok(())
}

/// Gives a file's bytes (in base64) to the control that chooses one, as the system's own chooser does.
pub(crate) const CHOOSE: &str = "
    const bytes = Uint8Array.from(atob(arguments[0]), (one) => one.charCodeAt(0));
    const chosen = new DataTransfer();
    chosen.items.add(new File([bytes], 'schedule.pdf'));
    const control = document.getElementById('verify');
    control.files = chosen.files;
    control.dispatchEvent(new Event('change', { bubbles: true }));";

#[tokio::test]
async fn a_job_is_signed_off_verified_and_taken_back_by_keys_alone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let job = Job::with(&window, &[(1, single_phase())]).await?;
    job.prove_tester(&window).await?;
    window.call("set_volts", json!({ "board": job.board, "volts": 500 })).await?;
    read(&window, &job.board, "487").await?;
    read(&window, &job.board, "488").await?;

    window.go(&format!("#/signoff/{}", job.job)).await?;
    window.until_shown("Sign off 2 readings").await?;
    window.until_shown("This will be sign-off No. 1").await?;
    tab_to(&window, "it.id === 'sign-off-name'").await?;
    window.type_keys(&format!("R. Reviewer{ENTER}")).await?;
    let said =
        "return document.getElementById('sign-off-said')?.textContent.includes('Signed as No. 1 by R. Reviewer')";
    window.until("the sign-off is said", said, &[]).await?;
    window.until_shown("Nothing was recorded after sign-off").await?;

    let made = window.call("make_schedule", json!({ "job": job.job, "format": "pdf" })).await?;
    read(&window, &job.board, "489").await?;
    window.go(&format!("#/job/{}", job.job)).await?;
    window.until_shown("1 entry after sign-off").await?;
    window.tap("to-signoff").await?;
    window.until_shown("What came after").await?;
    seen(&window, "signed-off.png").await?;

    let encoded =
        std::process::Command::new("base64").args(["-w0", made["files"][0].as_str().unwrap()]).output().unwrap();
    window.go(&format!("#/handover/{}", job.job)).await?;
    window.until_shown("Choose PDFs or a bundle").await?;
    window.ask(CHOOSE, &[json!(String::from_utf8(encoded.stdout).unwrap())]).await?;
    window.until_shown("What was signed is as it was signed").await?;
    window.until_shown("The pages are those of the attached data").await?;
    seen(&window, "verified.png").await?;

    window.go(&format!("#/signoff/{}", job.job)).await?;
    window.until_shown("This will be sign-off No. 2").await?;
    tab_to(&window, "it.textContent.trim() === 'Withdraw'").await?;
    window.type_keys(ENTER).await?;
    window.until_shown("It stays on record with this name and reason").await?;
    tab_to(&window, "it.id === 'withdraw-name'").await?;
    window.type_keys("R. Reviewer").await?;
    tab_to(&window, "it.id === 'withdraw-reason'").await?;
    window.type_keys("circuit 3 was forgotten").await?;
    tab_to(&window, "it.id === 'withdraw-do'").await?;
    seen(&window, "withdraw.png").await?;
    window.type_keys(ENTER).await?;
    window.until_shown("The sign-off was withdrawn").await?;
    window.until_shown("circuit 3 was forgotten").await?;
    Ok(())
}
