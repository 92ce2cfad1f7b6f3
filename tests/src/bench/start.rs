//! From the start of the process to the first screen painted, beside an empty window of the same shell.
use std::path::Path;
use std::time::{Duration, Instant};

use provenohm_tests::{Opening, Unwatched};

use crate::figure::{Pairs, Row};
use crate::{Broken, job::Job};

const PAIRS: usize = 5;

/// With the demo job on record, and with a job of 500 circuits, all of them read.
pub(crate) async fn rows() -> Result<Vec<Row>, Broken> {
    let demo = tempfile::tempdir()?;
    opened(&Opening { demo: true, ..Opening::phone(demo.path()) }).await?;
    let large = tempfile::tempdir()?;
    Job::make(large.path(), 25, 20)?.record(1500)?;
    let what = "cold start to the first screen";
    Ok(vec![
        row(demo.path(), &format!("{what}, demo job on record")).await?,
        row(large.path(), &format!("{what}, 1500 readings on record")).await?,
    ])
}

async fn row(record: &Path, what: &str) -> Result<Row, Broken> {
    let app = Opening::phone(record);
    let empty = Opening { blank: true, ..app.clone() };
    let mut pairs = Pairs::default();
    for _ in 0..PAIRS {
        let other = opened(&empty).await?;
        pairs.add(opened(&app).await?, other);
    }
    Ok(pairs.row(what, "an empty window of the same shell"))
}

async fn opened(opening: &Opening) -> Result<Duration, Broken> {
    let started = Instant::now();
    let window = Unwatched::open(opening).await?;
    let spent = started.elapsed();
    drop(window);
    Ok(spent)
}
