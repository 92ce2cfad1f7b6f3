//! A hub beside the disk it writes on: a day's work of a phone taken in, by both engines; two thousand phones beside a minute; and
//! somebody who reads while others send, beside the same alone.
use std::fs::OpenOptions;
use std::io::Write as _;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use provenohm_api::{Api, Host};
use provenohm_exchange::bundle::{Bundle, write};
use provenohm_exchange::hub::{
    Desk as _, Epoch, NoAnswer, PIECE_BYTES, Plan, SqliteStore, Store, lacks, receive, told,
};
use provenohm_hub::PostgresStore;
use serde_json::json;
use uuid::Uuid;

use crate::figure::{Pairs, Row};
use crate::postgres::Postgres;
use crate::{Broken, job::Job};

/// Readings of a day, and days that are measured.
const DAY: usize = 200;
const DAYS: usize = 15;
/// Phones that send within a minute, with a job of so many readings each.
const PHONES: usize = 2000;
const FEW: usize = 10;
/// Requests of somebody who reads.
const ASKED: usize = 60;

const EPOCH: Epoch = Epoch(Uuid::from_u128(1));

/// An instance of a hub.
struct Instance {
    api: Api,
    store: Box<dyn Store>,
}

impl Instance {
    fn on_disk(folder: &Path) -> Result<Self, Broken> {
        let api = Api::open(&folder.join("hub"), Host::system())?.shared();
        Ok(Self { api, store: Box::new(SqliteStore::open(&folder.join("entries.sqlite"), EPOCH)?) })
    }

    fn over(store: PostgresStore, folder: &Path) -> Result<Self, Broken> {
        Ok(Self { api: Api::open(&folder.join("hub"), Host::system())?.shared(), store: Box::new(store) })
    }

    /// What a phone has to send, piece by piece, packed.
    fn pieces(&mut self, phone: &Api) -> Result<Vec<Vec<u8>>, Broken> {
        let (tell, _, _) = phone.desk().with(told)?;
        let lacking = lacks(&mut *self.store, &tell)?;
        let mut plan = phone.desk().with(|record, _| Plan::of(&record.view(), &lacking))?;
        let mut pieces = Vec::new();
        while let Some(piece) = phone.desk().with(|record, by| plan.next(record, by, PIECE_BYTES))? {
            let of = piece.keys().next().copied();
            pieces.extend(of.map(|of| write(None, of, &piece)).transpose().map_err(NoAnswer::from)?);
        }
        Ok(pieces)
    }

    fn take(&mut self, piece: &[u8]) -> Result<(), Broken> {
        let bundle = Bundle::open(piece).map_err(|error| Broken::Bundle(error.to_string()))?;
        receive(&mut self.api.desk(), &mut *self.store, &bundle)?;
        Ok(())
    }
}

pub(crate) fn rows() -> Result<Vec<Row>, Broken> {
    let folder = tempfile::tempdir()?;
    let mut rows = vec![days("SQLite", Instance::on_disk(folder.path())?)?];
    let server = Postgres::start();
    let runtime = tokio::runtime::Runtime::new()?;
    let store = PostgresStore::open(&server.url, EPOCH, runtime.handle().clone())?;
    let other = tempfile::tempdir()?;
    rows.push(days("PostgreSQL", Instance::over(store, other.path())?)?);
    rows.push(many()?);
    rows.push(beside_writers()?);
    Ok(rows)
}

/// A day's work sent and kept, beside the same bytes appended to a file and flushed.
fn days(engine: &str, mut hub: Instance) -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut bare = OpenOptions::new().create(true).append(true).open(folder.path().join("bare"))?;
    let mut phone = Job::make(&folder.path().join("phone"), 5, DAY * DAYS / 15)?;
    let mut pairs = Pairs::default();
    for _ in 0..DAYS {
        phone.record(DAY)?;
        let pieces = hub.pieces(phone.api())?;
        let append = || {
            pieces.iter().try_for_each(|piece| bare.write_all(piece))?;
            bare.sync_all()?;
            Ok(())
        };
        pairs.measure::<Broken>(|| pieces.iter().try_for_each(|piece| hub.take(piece)), append)?;
    }
    let what = format!("a hub takes in a day of {DAY} readings, {engine}");
    Ok(pairs.row(what, "append and flush the same bytes"))
}

/// All phones, one after the other at one hub, beside a minute.
fn many() -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut hub = Instance::on_disk(folder.path())?;
    let mut all = Vec::new();
    let papers = tempfile::tempdir()?;
    for nth in 0..PHONES {
        let phone = Api::in_memory(Host::system(), papers.path())?;
        let mut job = Job::on(phone, &format!("Phone {nth}"), 1, FEW.div_ceil(3))?;
        job.record(FEW)?;
        all.push(hub.pieces(job.api())?);
    }
    let begun = Instant::now();
    all.iter().flatten().try_for_each(|piece| hub.take(piece))?;
    let mut pairs = Pairs::default();
    pairs.add(begun.elapsed(), Duration::from_secs(60));
    Ok(pairs.row(format!("a hub takes in a job of {FEW} readings from each of {PHONES} phones"), "a minute"))
}

/// The list of jobs asked for while phones send, beside the same with nobody sending.
fn beside_writers() -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut hub = Instance::on_disk(folder.path())?;
    let mut phone = Job::make(&folder.path().join("phone"), 20, 60)?;
    let mut waiting = Vec::new();
    for _ in 0..ASKED / 2 {
        phone.record(60)?;
        waiting.push(hub.pieces(phone.api())?);
        // Each day is sent once it is known to be lacking; the next one begins behind it.
        for piece in waiting.last().into_iter().flatten() {
            hub.take(piece)?;
        }
    }
    let alone = asked(&hub.api, ASKED)?;
    let reader = Api::open(&folder.path().join("hub"), Host::system())?.shared();
    let over = AtomicBool::new(false);
    let beside = std::thread::scope(|threads| {
        let writer = threads.spawn(|| {
            while !over.load(Ordering::Relaxed) {
                waiting.iter().flatten().try_for_each(|piece| hub.take(piece))?;
            }
            Ok::<(), Broken>(())
        });
        let beside = asked(&reader, ASKED);
        over.store(true, Ordering::Relaxed);
        let wrote = writer.join().unwrap_or_else(|_| Err(Broken::Bundle("the writer stopped".to_owned())));
        wrote.and(beside)
    })?;
    let mut pairs = Pairs::default();
    alone.into_iter().zip(beside).for_each(|(alone, beside)| pairs.add(beside, alone));
    Ok(pairs.row("the list of jobs, while phones send", "the same, while nobody does"))
}

fn asked(api: &Api, times: usize) -> Result<Vec<Duration>, Broken> {
    let mut took = Vec::new();
    for _ in 0..times {
        let begun = Instant::now();
        api.call("jobs", json!({}))?;
        took.push(begun.elapsed());
    }
    Ok(took)
}
