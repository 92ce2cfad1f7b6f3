//! The keys of the reading loop, measured: a gloved thumb has to hit them.
use provenohm_tests::{Job, Opening, Trouble, Window, single_phase};
use serde_json::Value;

/// Width and height of the smallest key of the pad, the smallest gap between two keys, in CSS pixels.
const PAD: &str = "
    const boxes = [...document.querySelectorAll('[id^=key-]')].map((key) => key.getBoundingClientRect());
    const gaps = boxes.flatMap((a) => boxes.filter((b) => b.left >= a.right && b.top < a.bottom && b.bottom > a.top).map((b) => b.left - a.right));
    return [Math.min(...boxes.map((box) => box.width)), Math.min(...boxes.map((box) => box.height)), Math.min(...gaps)]";

/// What of entry, read-back, undo and pad does not stand wholly on the screen, or scrolls; and what above the entry is
/// taller than the room it scrolls in.
const OUT_OF_SIGHT: &str = "
    const above = document.querySelector('#screen-run .top');
    const stays = [...document.querySelectorAll('#entry, #read-back, #undo, [id^=key-]')].filter((one) => {
        const box = one.getBoundingClientRect();
        return above.contains(one) || box.top < 0 || box.bottom > innerHeight || box.left < 0 || box.right > innerWidth;
    });
    const tall = [...above.querySelectorAll('button, a')].filter((one) => one.offsetHeight > above.clientHeight);
    return [...stays, ...tall].map((one) => one.id || one.className);";

/// Window sizes with the width and height a key must have there.
const WINDOWS: [((u32, u32), [f64; 2]); 7] = [
    ((320, 568), [96.0, 56.0]),
    ((375, 667), [104.0, 56.0]),
    ((360, 728), [104.0, 56.0]),
    ((360, 800), [104.0, 64.0]),
    ((390, 844), [104.0, 64.0]),
    ((412, 915), [104.0, 64.0]),
    ((1280, 640), [104.0, 56.0]),
];

#[tokio::test]
async fn reading_keys_are_large_enough_for_gloves_and_apart() -> Result<(), Trouble> {
    for (size, [width, height]) in WINDOWS {
        let record = tempfile::tempdir().unwrap();
        let window = Window::open(&Opening { size, ..Opening::phone(record.path()) }).await?;
        let job = Job::with(&window, &[(1, single_phase())]).await?;
        window.run(&job.board).await?;
        window.set_voltage_if_asked().await?;
        let pad = window.ask(PAD, &[]).await?;
        let at_least = |at: usize, least: f64| pad[at].as_f64().is_some_and(|size| size >= least);
        assert!(at_least(0, width) && at_least(1, height) && at_least(2, 8.0), "{size:?}: {pad}");
        assert_eq!(window.ask(OUT_OF_SIGHT, &[]).await?, Value::Array(Vec::new()), "{size:?}");
        assert_eq!(
            window
                .ask("return document.querySelectorAll('#screen-run input, #screen-run textarea').length", &[])
                .await?,
            Value::from(0)
        );
    }
    Ok(())
}
