//! Circuits tested together: chosen on screen, read once, and each of them proved by what meets.
use provenohm_tests::{Entry, Job, Opening, Trouble, Window, single_phase};
use serde_json::{Value, json};

#[tokio::test]
async fn circuits_are_tested_together_by_one_reading_chosen_on_screen() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let job = Job::with(&window, &[(3, single_phase())]).await?;
    job.prove_tester(&window).await?;
    let circuits = window.call("circuits", json!({ "board": job.board })).await?;
    let circuit = |at: usize| circuits["circuits"][at]["id"].as_str().unwrap().to_owned();
    window.run(&job.board).await?;
    window.set_voltage_if_asked().await?;

    window.tap_named("More").await?;
    window.tap("more-group").await?;
    for at in [0, 1] {
        window.tap(&format!("group-{}", circuit(at))).await?;
    }
    window.until_shown("all lives of 1, 2 – PE: ").await?;
    window.until("a key to start", "return !document.getElementById('group-start').disabled", &[]).await?;
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());
    window.tap("group-start").await?;
    window
        .until("their pair", "return document.querySelector('h1')?.textContent === 'all lives of 1, 2 – PE'", &[])
        .await?;
    window.tap_in(Entry::OverRange).await?;
    assert!(window.text("read-back").await?.contains("> 999 MΩ"));

    for (at, to_earth) in [(0, "done"), (1, "done"), (2, "todo")] {
        let view = window.call("run", json!({ "board": job.board, "circuit": circuit(at) })).await?;
        let sign = |pair: &str| {
            let slots = view["slots"].as_array().into_iter().flatten();
            slots.clone().find(|slot| slot["name"] == pair).map(|slot| slot["sign"].clone())
        };
        assert_eq!(sign("L–PE"), Some(Value::from(to_earth)), "circuit {at}: {view}");
        assert_eq!(sign("N–PE"), Some(Value::from(to_earth)), "circuit {at}");
        assert_eq!(
            sign("L–N"),
            Some(Value::from("todo")),
            "circuit {at}: members of a joined reading are not proved apart"
        );
    }
    Ok(())
}
