//! The order in which one walks: a circuit dragged to another place, as the buttons beside it would move it.
use super::bench::picture;
use provenohm_tests::{Job, Opening, Trouble, Window};
use serde_json::{Value, json};

const REFERENCES: &str = "return [...document.querySelectorAll('[data-row] .reference')].map((one) => one.textContent)";
const HANDLE: &str = "const box = document.querySelectorAll('[data-row] .grip')[arguments[0]].getBoundingClientRect();
    return [box.left + box.width / 2, box.top + box.height / 2]";

async fn order(window: &Window) -> Result<Vec<String>, Trouble> {
    let all = window.ask(REFERENCES, &[]).await?;
    Ok(all.as_array().into_iter().flatten().filter_map(Value::as_str).take(4).map(str::to_owned).collect())
}

/// Where the handles stand, once they stand still: rows find their height as they are first painted.
const STILL: &str = "
    const handles = [...document.querySelectorAll('[data-row] .grip')];
    const places = JSON.stringify(handles.map((one) => one.getBoundingClientRect().top));
    const still = window.placesBefore === places && document.fonts.status === 'loaded';
    window.placesBefore = places;
    return still && handles.length > 3";

async fn handle(window: &Window, at: usize) -> Result<(i64, i64), Trouble> {
    let place = window.ask(HANDLE, &[json!(at)]).await?;
    let pixel = |at: usize| place[at].as_f64().unwrap() as i64;
    Ok((pixel(0), pixel(1)))
}

#[tokio::test]
async fn a_circuit_is_dragged_to_its_place() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening { size: (1024, 768), ..Opening::phone(record.path()) }).await?;
    let job = Job::of_54_readings(&window).await?;
    window.go(&format!("#/circuits/{}", job.board)).await?;
    window.until("circuits that stand still", STILL, &[]).await?;
    let before = order(&window).await?;
    let (from, to) = (handle(&window, 0).await?, handle(&window, 2).await?);
    let below = (to.0, to.1 + 12);
    window.hold(from).await?;
    window.move_to(below).await?;
    picture(&window, "drag").await?;
    window.let_go(below).await?;
    let moved = [&before[1], &before[2], &before[0], &before[3]].map(String::as_str);
    let first = "return document.querySelector('[data-row] .reference').textContent === arguments[0]";
    window.until("the circuit in its new place", first, &[json!(moved[0])]).await?;
    assert_eq!(order(&window).await?, moved);
    // What is dropped where it was moves nothing.
    window.until("circuits that stand still", STILL, &[]).await?;
    let same = handle(&window, 0).await?;
    window.hold(same).await?;
    window.let_go(same).await?;
    assert_eq!(order(&window).await?, moved);
    Ok(())
}
