//! The one door: an operation by name, JSON in and out.

use crate::attend::Attending;
use crate::failure::Failure;
use crate::host::Host;
use crate::long_work::LongWork;
use crate::operations;
use crate::ops::bundle::{self, write_bundle};
use crate::ops::job_file::job_text;
use crate::ops::long_work::meanwhile;
use crate::ops::recall::write_recall;
use crate::ops::schedule::schedule_into;
use crate::ops::tester_report::{format_of, write_tester_report};
use crate::seat::Seat;
use crate::state::State;
use crate::views::{BundleView, RecallFormat};
use provenohm_assess::ids::{JobId, TesterId};
use provenohm_logbook::record::{Place, Record};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// The record's file in its folder.
pub(crate) const RECORD: &str = "record.sqlite";

/// The program behind its door. May be called from several threads; one call runs at a time, and only what asks about long work
/// does not wait for it.
pub struct Api {
    pub(crate) state: Mutex<State>,
    long_work: Arc<LongWork>,
    pub(crate) attending: Arc<Attending>,
}

impl Api {
    /// Whether a folder holds a record.
    #[must_use]
    pub fn is_record(folder: &Path) -> bool {
        folder.join(RECORD).is_file()
    }

    /// Opens the record in `folder`, or makes it.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn open(folder: &Path, host: Host) -> Result<Self, Failure> {
        let api = Self::open_or_say(folder, host)?;
        match api.not_opened() {
            Some(failure) => Err(failure),
            None => Ok(api),
        }
    }

    /// The same for a person at a screen: where the record does not open, every operation says why, except those that
    /// need none and the one that is the way on.
    ///
    /// # Errors
    /// A [`Failure`] in words, where there is not even a record in memory.
    pub fn open_or_say(folder: &Path, mut host: Host) -> Result<Self, Failure> {
        let english = provenohm_words::Words::new(provenohm_words::Locale::ENGLISH);
        let place = Place { record: folder.join(RECORD), device: folder.join("device.sqlite") };
        let papers = host.papers().cloned().unwrap_or_else(|| folder.join("papers"));
        let opened = std::fs::create_dir_all(folder)
            .map_err(|error| Failure::of("storage").because(error))
            .and_then(|()| Ok(Record::open(&place, &mut host)?));
        let state = || -> Result<State, Failure> {
            let (record, not_opened) = match opened {
                Ok(record) => (record, None),
                Err(failure) => (Record::in_memory(&mut host)?, Some(failure)),
            };
            let mut state = State::new(record, host, papers);
            if let Err(failure) = state.read_locale() {
                state.closed(failure)?;
            }
            state.not_opened = not_opened.or(state.not_opened);
            state.place = Some(place);
            Ok(state)
        };
        state().map(Self::over).map_err(|failure| failure.worded(&english))
    }

    /// Why the record is not open.
    fn not_opened(&self) -> Option<Failure> {
        let state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        state.not_opened.clone().map(|failure| failure.worded(&state.words))
    }

    /// A record that lives as long as the program, for batch commands and tests. Files go to `papers`.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn in_memory(mut host: Host, papers: &Path) -> Result<Self, Failure> {
        let record = Record::in_memory(&mut host)?;
        Ok(Self::over(State::new(record, host, papers.to_owned())))
    }

    fn over(state: State) -> Self {
        let (long_work, attending) = (Arc::clone(&state.long_work), Arc::clone(&state.attending));
        Self { long_work, attending, state: Mutex::new(state) }
    }

    /// For what a host does by itself, at nobody's seat.
    fn unseated(&self) -> Result<MutexGuard<'_, State>, Failure> {
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        state.sit(None).map_err(|failure| failure.worded(&state.words))?;
        Ok(state)
    }

    /// The text of a job's file, for hosts that write it themselves.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn job_file(&self, job: &str) -> Result<String, Failure> {
        let mut state = self.unseated()?;
        let job = job.parse().map(JobId).map_err(|_| Failure::of("not_found"));
        let text = job.and_then(|job| job_text(&mut state, job));
        text.map_err(|failure| failure.worded(&state.words))
    }

    /// Writes a job as a bundle to a file, for hosts that choose the place themselves. What of it stays out, in words.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn bundle_file(&self, job: &str, path: &Path) -> Result<Option<String>, Failure> {
        let mut state = self.unseated()?;
        let job = job.parse().map(JobId).map_err(|_| Failure::of("not_found"));
        let written = job.and_then(|job| write_bundle(&mut state, job, &[], path));
        written.map_err(|failure| failure.worded(&state.words))
    }

    /// Writes the schedule of a job as it is now into a folder, for hosts that choose the place themselves. The files, in order.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn schedule_files(&self, job: &str, format: &str, folder: &Path) -> Result<Vec<PathBuf>, Failure> {
        let mut state = self.unseated()?;
        let job = job.parse().map(JobId).map_err(|_| Failure::of("not_found"));
        let written = job.and_then(|job| schedule_into(&mut state, job, format, folder));
        written.map_err(|failure| failure.worded(&state.words))
    }

    /// Takes the bytes of a bundle in; only looks at them if `look`.
    ///
    /// # Errors
    /// A [`Failure`] in words; nothing was taken then.
    pub fn receive(&self, bundle: &[u8], look: bool) -> Result<BundleView, Failure> {
        let mut state = self.unseated()?;
        let told = if look { bundle::look(&mut state, bundle) } else { bundle::take_in(&mut state, bundle) };
        told.map_err(|failure| failure.worded(&state.words))
    }

    /// Writes the recall list of a tester to a file; its ending says which format, `.pdf` or `.csv`.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn recall_file(&self, tester: &str, path: &Path) -> Result<(), Failure> {
        let mut state = self.unseated()?;
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
        let format = match ending.as_str() {
            "pdf" => Ok(RecallFormat::Pdf),
            "csv" => Ok(RecallFormat::Csv),
            _ => Err(Failure::of("recall_format").because(path.display())),
        };
        let tester = tester.parse().map(TesterId).map_err(|_| Failure::of("not_found"));
        let written = format.and_then(|format| write_recall(&mut state, tester?, format, path));
        written.map_err(|failure| failure.worded(&state.words))
    }

    /// Writes the report of a run of a tester, named by id or serial number, to a file; its ending says which format. Of the
    /// run named, else of the latest that became a verification.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn tester_report_file(&self, tester: &str, bench: Option<&str>, path: &Path) -> Result<(), Failure> {
        let state = self.unseated()?;
        let format = format_of(path)
            .ok_or_else(|| Failure::of("tester_report_format").saying(state.words.text("office-tester-report-ending")));
        let written = format.and_then(|format| write_tester_report(&state, tester, bench, format, path));
        written.map_err(|failure| failure.worded(&state.words))
    }

    /// Does one operation. What it says was saved is on the disk when this returns.
    ///
    /// # Errors
    /// A [`Failure`] with a stable code and the person's words; nothing of the operation was recorded then.
    pub fn call(&self, operation: &str, input: Value) -> Result<Value, Failure> {
        self.call_at(None, operation, input)
    }

    /// The same for somebody who logged in where several people do: recorded is their person, and theirs are the choices.
    ///
    /// # Errors
    /// As [`Api::call`].
    pub fn call_as(&self, seat: &Seat, operation: &str, input: Value) -> Result<Value, Failure> {
        self.call_at(Some(seat), operation, input)
    }

    /// Makes a login's person known, so that others can name them before they first work here.
    ///
    /// # Errors
    /// A [`Failure`] in words.
    pub fn know(&self, seat: &Seat) -> Result<(), Failure> {
        let mut state = self.unseated()?;
        state.know(seat).map_err(|failure| failure.worded(&state.words))
    }

    fn call_at(&self, seat: Option<&Seat>, operation: &str, input: Value) -> Result<Value, Failure> {
        if let Some(told) = meanwhile(&self.long_work, operation) {
            return operations::write(&told);
        }
        // A panic elsewhere cannot leave the record half written, so what it held is used on.
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let answer = match state.refuses(operation) {
            Some(failure) => Err(failure),
            None => state.sit(seat).and_then(|()| operations::dispatch(&mut state, operation, input)),
        };
        answer.map_err(|failure| failure.worded(&state.words))
    }
}
