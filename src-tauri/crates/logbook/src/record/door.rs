//! The one door: everything that changes the record goes through [`Record::write`]. What was asked comes with its
//! moment, person and randomness; entries are appended and projected in one transaction; what changed comes back.

use super::{Record, own_log};
use crate::entry::body::{Book, LogOpened, OpenedWhy, Person};
use crate::entry::{
    Body, ENVELOPE_VERSION, Entry, EntryRef, Envelope, Fact, Hash, Kind, Lamport, LogId, Object, Salt, Seq, time,
};
use crate::project;
use crate::random::{self, NoRandomness, Randomness};
use crate::seal::LONGEST_UNSEALED;
use crate::store::{blob, counter, is_damage, is_full, number};
use provenohm_assess::ids::PersonId;
use provenohm_assess::moment::Moment;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use std::collections::BTreeMap;
use uuid::Builder;

/// By whom and when, and the randomness for it.
pub struct By<'a> {
    /// The person who acts.
    pub person: PersonId,
    /// The clock on the wall.
    pub at: Moment,
    /// Randomness for salts and log ids.
    pub random: &'a mut dyn Randomness,
}

/// One entry that was appended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Appended {
    /// Its name.
    pub entry: EntryRef,
    /// Its kind.
    pub kind: Kind,
    /// What it is about.
    pub about: Vec<Object>,
}

/// What came of a write: it is on the disk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Receipt<T> {
    /// What the caller's part returned.
    pub value: T,
    /// The entries appended, in order.
    pub appended: Vec<Appended>,
    /// Whether the device's own file noted the new heads. If not, the entries are saved all the same, and the file
    /// catches up when the record is next opened.
    pub noted: bool,
}

/// Why nothing was written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// A newer version has written this record.
    #[error("this record was written by a newer version: it can be read here, not changed")]
    NewerRecord,
    /// The disk is full.
    #[error("the disk is full: what was recorded so far is saved")]
    DiskFull,
    /// The acting person is known neither to the book nor to this device.
    #[error("the person who acts is not known to this record")]
    UnknownPerson(PersonId),
    /// A named entry is not here.
    #[error("the entry {0} is not in this record")]
    UnknownEntry(EntryRef),
    /// What is written does not belong into that book.
    #[error("this does not belong into that book")]
    WrongBook,
    /// The limit set's bytes are not those its name gives the hash of.
    #[error("the limit set is not the one it is named as")]
    OtherSet,
    /// A withdrawal, correction, erasure, request, acceptance or statement about a recalled reading without a reason.
    #[error("a reason is needed")]
    NoReason,
    /// A choice between live values that keeps none.
    #[error("one of the values has to stay")]
    NothingKept,
    /// The entry named cannot be withdrawn, erased or replaced by this.
    #[error("the entry {0} cannot be changed that way")]
    NotThat(EntryRef),
    /// What an entry began cannot be taken back: others' work, or work done since, stands about it.
    #[error("work that stands would be left without what it is about")]
    LeavesWork,
    /// Whether what an entry began was worked on since is known only to the record that it was begun in.
    #[error("that was begun in another record")]
    BegunElsewhere,
    /// It is larger than any entry may be.
    #[error("this is longer than the record keeps in one piece")]
    TooLong,
    /// What is already in the record cannot be read.
    #[error("{0}")]
    Unreadable(String),
    /// The randomness failed.
    #[error(transparent)]
    NoRandomness(#[from] NoRandomness),
    /// SQLite refuses.
    #[error("the record cannot be written: {0}")]
    Sqlite(rusqlite::Error),
}

impl WriteError {
    /// Whether the record is not what was written: another try changes nothing.
    #[must_use]
    pub fn is_damage(&self) -> bool {
        match self {
            Self::Unreadable(_) => true,
            Self::Sqlite(error) => is_damage(error),
            _ => false,
        }
    }
}

impl From<rusqlite::Error> for WriteError {
    fn from(error: rusqlite::Error) -> Self {
        if is_full(&error) { Self::DiskFull } else { Self::Sqlite(error) }
    }
}

/// The door while it is open: appends go through here.
pub struct Writer<'w> {
    pub(super) tx: &'w Connection,
    pub(super) device: &'w crate::store::device::Device,
    pub(super) person: PersonId,
    at: Moment,
    random: &'w mut dyn Randomness,
    lamport: Lamport,
    act: i64,
    appended: Vec<Appended>,
    ends: BTreeMap<LogId, (Seq, Hash)>,
    /// Whether dropped bytes are to leave the write-ahead log too.
    pub(super) erases: bool,
}

impl Record {
    /// Lets `change` append, then commits: all of it or nothing. When this returns, it is on the disk.
    ///
    /// # Errors
    /// Whatever `change` returns; then nothing was written. [`WriteError`] if the record cannot be written. An erasure that
    /// fails may be on record all the same, with the dropped bytes left beside it: asking for it again drops them.
    pub fn write<T, E: From<WriteError>>(
        &mut self,
        by: By<'_>,
        change: impl FnOnce(&mut Writer<'_>) -> Result<T, E>,
    ) -> Result<Receipt<T>, E> {
        self.writable()?;
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(WriteError::from)?;
        // Read inside the writing transaction: a counter read before it could be given twice.
        let (lamport, act) = counters(&tx).map_err(WriteError::from)?;
        let mut writer = Writer {
            tx: &tx,
            device: &self.device,
            person: by.person,
            at: time::kept(&by.at),
            random: by.random,
            lamport,
            act,
            appended: Vec::new(),
            ends: BTreeMap::new(),
            erases: false,
        };
        let value = change(&mut writer)?;
        let (appended, ends, erases) = (writer.appended, writer.ends, writer.erases);
        tx.commit().map_err(WriteError::from)?;
        let noted = ends.into_iter().all(|(log, (seq, hash))| self.device.note(log, seq, hash).is_ok());
        if erases {
            // The dropped bytes leave the write-ahead log too.
            self.connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).map_err(WriteError::from)?;
        }
        Ok(Receipt { value, appended, noted })
    }
}

fn counters(tx: &Connection) -> rusqlite::Result<(Lamport, i64)> {
    let one = |sql| tx.prepare_cached(sql)?.query_row([], |row| row.get::<_, i64>(0));
    let lamport = one("SELECT coalesce(max(lamport), 0) FROM entry")?;
    let act = one("SELECT coalesce(max(act), 0) + 1 FROM own_act")?;
    Ok((Lamport(counter(lamport)), act))
}

impl Writer<'_> {
    /// The person who acts.
    #[must_use]
    pub fn person(&self) -> PersonId {
        self.person
    }

    /// The moment everything here is recorded at.
    #[must_use]
    pub fn at(&self) -> Moment {
        self.at
    }

    /// What was appended so far.
    #[must_use]
    pub fn appended(&self) -> &[Appended] {
        &self.appended
    }

    /// What the record says now, with what was appended so far.
    #[must_use]
    pub fn view(&self) -> crate::view::View<'_> {
        crate::view::View::new(self.tx)
    }

    /// Appends a fact to the book it belongs to.
    ///
    /// # Errors
    /// [`WriteError::WrongBook`] if the fact does not say which; else as [`Writer::append_in`].
    pub fn append(&mut self, fact: impl Into<Fact>) -> Result<EntryRef, WriteError> {
        let fact = fact.into();
        let book = fact.body.book().ok_or(WriteError::WrongBook)?;
        self.append_in(book, fact)
    }

    /// Appends a fact to a book.
    ///
    /// # Errors
    /// [`WriteError`] in words; nothing of the whole write is kept then, unless the caller goes on.
    pub fn append_in(&mut self, book: Book, fact: impl Into<Fact>) -> Result<EntryRef, WriteError> {
        let fact = fact.into();
        if fact.body.book().is_some_and(|own| own != book) {
            return Err(WriteError::WrongBook);
        }
        self.check(&fact)?;
        self.introduce(book, &fact)?;
        self.erases |= fact.body.kind() == Kind::Erasure;
        let entry = self.append_to_log(book, &fact, Some(self.person))?;
        self.tx
            .prepare_cached("INSERT INTO own_act (act, entry, device, person) SELECT ?1, id, ?2, ?3 FROM entry WHERE log = ?4 AND seq = ?5 AND substr(hash, 1, 8) = ?6")?
            .execute(params![
                self.act,
                blob(&self.device.id().0),
                blob(&self.person.0),
                blob(&entry.log.0),
                number(entry.seq.0),
                entry.short
            ])?;
        Ok(entry)
    }

    /// Signs the head of this device's log in a book. Nothing where all is sealed, or nothing was written. A closed log
    /// takes no seal any more: where its end has none, a new log is opened that vouches for it.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn seal(&mut self, book: Book) -> Result<Option<EntryRef>, WriteError> {
        let log = match own_log::open_log(self.tx, book)? {
            Some(log) => log,
            None if own_log::leaves_unsealed(self.tx, book)? => self.open_log(book)?,
            None => return Ok(None),
        };
        if log.sealed_to > log.seq.0 {
            return Ok(None);
        }
        let sealed = self.device.key().seal(log.log, log.seq, log.hash);
        self.append_to_log(book, &Body::Seal(sealed).into(), None).map(Some)
    }

    /// The acting person's card goes into the book ahead of their first entry there, so that the book can travel alone.
    fn introduce(&mut self, book: Book, fact: &Fact) -> Result<(), WriteError> {
        let person = self.person;
        if matches!(&fact.body, Body::Person(card) if card.person == person) {
            return Ok(());
        }
        self.introduce_to(book)
    }

    /// The same where nothing else is written yet.
    pub(super) fn introduce_to(&mut self, book: Book) -> Result<(), WriteError> {
        let person = self.person;
        if self.view().names(book, person)? {
            return Ok(());
        }
        let card: Person = self.view().card(person)?.ok_or(WriteError::UnknownPerson(person))?;
        self.append_to_log(book, &Body::Person(card).into(), Some(person)).map(drop)
    }

    fn append_to_log(&mut self, book: Book, fact: &Fact, person: Option<PersonId>) -> Result<EntryRef, WriteError> {
        let mut log = match own_log::open_log(self.tx, book)? {
            Some(log) => log,
            None => self.open_log(book)?,
        };
        log.seq = Seq(log.seq.0 + 1);
        log.hash = self.put(log.log, log.seq, log.hash, fact, person)?;
        let entry = log.head();
        if matches!(fact.body, Body::Seal(_)) {
            // A seal is itself signed: it and all before it are covered.
            log.sealed_to = log.seq.0 + 1;
        } else if log.seq.0 + 2 - log.sealed_to >= LONGEST_UNSEALED {
            let sealed = Body::Seal(self.device.key().seal(log.log, log.seq, log.hash));
            log.seq = Seq(log.seq.0 + 1);
            log.hash = self.put(log.log, log.seq, log.hash, &sealed.into(), None)?;
            log.sealed_to = log.seq.0 + 1;
        }
        own_log::note(self.tx, book, self.device.id(), &log)?;
        self.ends.insert(log.log, (log.seq, log.hash));
        Ok(entry)
    }

    /// Goes on in a new log that names another's end, and so proves what leads up to it.
    pub(super) fn vouch(&mut self, book: Book, end: EntryRef) -> Result<(), WriteError> {
        if let Some(open) = own_log::open_log(self.tx, book)? {
            self.seal(book)?;
            own_log::close(self.tx, open.log, "restored")?;
        }
        let opening = own_log::opening(self.tx, book, self.device.id(), self.device.key().public())?;
        self.begin_log(book, LogOpened { why: OpenedWhy::Restored, after: Some(end), ..opening })?;
        self.seal(book).map(drop)
    }

    fn open_log(&mut self, book: Book) -> Result<own_log::OwnLog, WriteError> {
        let opening = own_log::opening(self.tx, book, self.device.id(), self.device.key().public())?;
        self.begin_log(book, opening)
    }

    fn begin_log(&mut self, book: Book, opening: LogOpened) -> Result<own_log::OwnLog, WriteError> {
        let log = LogId(Builder::from_random_bytes(random::bytes(self.random)?).into_uuid());
        let first = self.put(log, Seq(0), Hash::NONE, &Body::LogOpened(opening).into(), None)?;
        let log = own_log::OwnLog { log, seq: Seq(0), hash: first, sealed_to: 0 };
        own_log::note(self.tx, book, self.device.id(), &log)?;
        Ok(log)
    }

    fn put(
        &mut self,
        log: LogId,
        seq: Seq,
        prev: Hash,
        fact: &Fact,
        person: Option<PersonId>,
    ) -> Result<Hash, WriteError> {
        let kind = fact.body.kind();
        self.lamport = Lamport(self.lamport.0 + 1);
        let envelope = Envelope {
            version: ENVELOPE_VERSION,
            log,
            seq,
            prev,
            kind: kind.number(),
            kind_version: crate::entry::body::CONTENT_VERSION,
            critical: kind.critical(),
            lamport: self.lamport,
            recorded: self.at,
            person,
            body_hash: Hash::NONE,
        };
        let entry = Entry::new(envelope, Salt(random::bytes(self.random)?), fact.encode());
        if entry.is_too_large() {
            return Err(WriteError::TooLong);
        }
        project::arrive(self.tx, &entry)?;
        self.appended.push(Appended { entry: entry.reference(), kind, about: fact.body.objects() });
        Ok(entry.hash())
    }

    /// Refuses what could never take effect, or lacks what the record asks of it.
    fn check(&self, fact: &Fact) -> Result<(), WriteError> {
        use crate::entry::Role;
        let kind = fact.body.kind();
        let reason_needed =
            matches!(kind, Kind::Correction | Kind::Erasure | Kind::Request | Kind::RecallResolved | Kind::Accepted);
        if reason_needed && fact.reason.as_deref().is_none_or(|reason| reason.trim().is_empty()) {
            return Err(WriteError::NoReason);
        }
        if let Body::JobRules(rules) = &fact.body
            && Hash::of(&[&rules.bytes.0]).to_string() != rules.set.sha256
        {
            return Err(WriteError::OtherSet);
        }
        for naming in &fact.names {
            let named = self.kind_of(naming.entry)?.ok_or(WriteError::UnknownEntry(naming.entry))?;
            let fits = match naming.role {
                Role::Replaces => Some(kind) == named,
                Role::Withdraws => kind == Kind::Withdrawal && named.is_none_or(Kind::withdrawable),
                Role::Keeps | Role::SetsAside => kind == Kind::Settlement,
                Role::Corrects => kind == Kind::Correction && named == Some(Kind::Reading),
                Role::Overrules => kind == Kind::Correction && named == Some(Kind::Correction),
                Role::Erases => kind == Kind::Erasure && named.is_some_and(Kind::erasable),
            };
            if !fits {
                return Err(WriteError::NotThat(naming.entry));
            }
        }
        Ok(())
    }

    /// The kind of an entry that is here, `Some(None)` where this version does not know it.
    fn kind_of(&self, entry: EntryRef) -> rusqlite::Result<Option<Option<Kind>>> {
        self.tx
            .prepare_cached("SELECT kind FROM entry WHERE log = ?1 AND seq = ?2 AND substr(hash, 1, 8) = ?3")?
            .query_row(params![blob(&entry.log.0), number(entry.seq.0), entry.short], |row| row.get(0))
            .optional()
            .map(|kind: Option<i64>| kind.map(|kind| Kind::from_number(counter(kind))))
    }
}
