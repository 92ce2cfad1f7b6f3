//! A device's side: what it tells, what it wants, what it takes in. Nothing here waits for a network.

use super::ask::{Page, Pull, Tell, Want};
use super::cursor::{Cursor, Epoch, Scope};
use crate::bundle::{Bundle, Head, NotABundle};
use crate::join::Joined;
use provenohm_logbook::entry::Value;
use provenohm_logbook::entry::{Coded, Fields, Malformed, MapOf};
use provenohm_logbook::record::{By, Record, TakeInError, WriteError};
use provenohm_logbook::view::{Point, ReadError};
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// The name of the choice that keeps it: dropped with any book that goes, since places in the order of arrival may then be
/// given again.
const KEPT: &str = "worked-out:hub";

/// What a device knows of its hub. It is kept in the record, so it is as old as that if the record is set back.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Link {
    /// The life of the hub's store that the rest is about.
    pub epoch: Option<Epoch>,
    /// What had come to this record when the hub had all of it.
    pub told: Point,
    /// Where it is in each scope.
    pub cursors: BTreeMap<Scope, Cursor>,
}

impl Link {
    /// The link as this record knows it; none of it if it cannot be read, which costs a comparison and no more.
    ///
    /// # Errors
    /// [`ReadError`].
    pub fn of(record: &Record) -> Result<Self, ReadError> {
        let kept = record.choice(KEPT)?.and_then(|text| unhex(&text));
        Ok(kept.and_then(|bytes| super::ask::read(&bytes).ok()).unwrap_or_default())
    }

    /// How far it is, in all scopes.
    fn came(&self) -> u128 {
        self.cursors.values().map(|cursor| u128::from(cursor.at)).sum()
    }

    fn kept(&self) -> String {
        super::ask::written(self).iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// Keeps that the hub had everything up to a point. One of another life begins anew.
    ///
    /// # Errors
    /// [`WriteError`].
    pub fn note(record: &mut Record, epoch: Epoch, told: Point) -> Result<(), WriteError> {
        let known = Self::of(record)?;
        let mut link = if known.epoch == Some(epoch) { known.clone() } else { Self::default() };
        (link.epoch, link.told) = (Some(epoch), told);
        if link == known { Ok(()) } else { record.choose(KEPT, Some(&link.kept())) }
    }

    /// Forgets all of it: whatever the hub has is compared again.
    ///
    /// # Errors
    /// [`WriteError`].
    pub fn forget(record: &mut Record) -> Result<(), WriteError> {
        record.choose(KEPT, None)
    }
}

fn unhex(text: &str) -> Option<Vec<u8>> {
    let digits = text.as_bytes().chunks(2);
    digits.map(|two| u8::from_str_radix(std::str::from_utf8(two).ok()?, 16).ok()).collect()
}

/// `{ 0: epoch, 1: told, 2: [[scope, cursor] …] }`.
impl Coded for Link {
    fn to_value(&self) -> Value {
        let mut map = MapOf::default();
        map.put_if(0, &self.epoch);
        map.put(1, &self.told.0);
        map.put(2, &self.cursors.iter().map(|(scope, from)| Want { scope: *scope, from: *from }).collect::<Vec<_>>());
        map.finish()
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let mut fields = Fields::of(value)?;
        let (epoch, told, cursors) = (fields.take_if(0)?, Point(fields.take(1)?), fields.take::<Vec<Want>>(2)?);
        fields.end()?;
        Ok(Self { epoch, told, cursors: cursors.into_iter().map(|one| (one.scope, one.from)).collect() })
    }
}

/// Seals what this device wrote, and gives what it has to tell: what the logs end with of which something came since the hub
/// had all. With it the point up to which that is all, and what was known of the hub then.
///
/// # Errors
/// [`WriteError`].
pub fn told(record: &mut Record, by: By<'_>) -> Result<(Tell, Point, Link), WriteError> {
    record.seal(by)?;
    let link = Link::of(record)?;
    let (tell, point) = record.at_once(|view| {
        let mut heads = Vec::new();
        for log in view.logs_since(link.told)? {
            heads.extend(view.heads_of(log)?.into_iter().map(|(seq, hash)| Head { log, seq, hash }));
        }
        Ok::<_, ReadError>((Tell { heads }, view.now()?))
    })?;
    Ok((tell, point, link))
}

/// What it has to ask for, of these scopes.
///
/// # Errors
/// [`ReadError`].
pub fn wants(record: &Record, scopes: &[Scope], most: u64) -> Result<Pull, ReadError> {
    let link = Link::of(record)?;
    let from = |scope: &Scope| link.cursors.get(scope).copied().unwrap_or_default();
    let wants = scopes.iter().map(|scope| Want { scope: *scope, from: from(scope) }).collect();
    Ok(Pull { epoch: link.epoch, wants, most })
}

/// What a page brought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pulled {
    /// It was taken in, and so the device is there.
    Taken {
        /// What came of it.
        joined: Joined,
        /// Whether there is more.
        more: bool,
    },
    /// The hub's store is in another life: everything has to be compared.
    Elsewhere,
}

/// Takes a page in, and moves the cursors, in one transaction.
///
/// # Errors
/// [`TakeInError`]; then nothing was taken, and the cursors are where they were.
pub fn take(record: &mut Record, asked: &Pull, page: &Page) -> Result<Pulled, TakeInError<NotABundle>> {
    let Some(upto) = &page.upto else { return Ok(Pulled::Elsewhere) };
    let known = Link::of(record)?;
    let from = |want: &Want| known.cursors.get(&want.scope).copied().unwrap_or_default();
    if asked.epoch.is_some_and(|of| of != page.epoch) {
        return Ok(Pulled::Elsewhere);
    }
    if asked.epoch != known.epoch || asked.wants.iter().any(|want| want.from != from(want)) {
        // A record in the place of the one that asked: it is somewhere else.
        return Ok(Pulled::Elsewhere);
    }
    let mut link = if known.epoch == Some(page.epoch) { known.clone() } else { Link::default() };
    link.epoch = Some(page.epoch);
    // Only what was asked for moves.
    link.cursors.extend(
        upto.iter().filter(|one| asked.wants.iter().any(|it| it.scope == one.scope)).map(|one| (one.scope, one.from)),
    );
    // A hub that says "more" and brings nobody on would be asked for ever.
    let more = page.more && link.came() > known.came();
    let kept = link.kept();
    let Some(bytes) = &page.bundle else {
        if link != known {
            record.choose(KEPT, Some(&kept))?;
        }
        return Ok(Pulled::Taken { joined: Joined::default(), more });
    };
    let bundle = Bundle::open(&bytes.0).map_err(TakeInError::Source)?;
    let asked_for = |book| asked.wants.iter().any(|want| want.scope.holds(book));
    if !bundle.manifest().books.iter().all(|packed| asked_for(packed.book)) {
        return Err(TakeInError::Source(NotABundle::Counts));
    }
    let joined = crate::join::take_in_with(record, &bundle, &mut |_| ControlFlow::Continue(()), |taking| {
        taking.choose(KEPT, &kept)
    })?;
    Ok(Pulled::Taken { joined, more })
}
