//! Testers and people as a table names them.

use crate::failure::Failure;
use crate::judged::Judged;
use crate::read::{NONE, ReadingLine, shortened};
use crate::seat::Seat;
use crate::state::State;
use provenohm_assess::ids::{PersonId, TesterId};
use provenohm_words::Words;

/// The testers on this device, by name and serial number.
pub(super) struct Testers(Vec<(TesterId, String, String)>);

impl Testers {
    pub(super) fn of(state: &State) -> Result<Self, Failure> {
        let named = |one: provenohm_logbook::view::Tester| {
            let identity = one.identity.first()?;
            Some((one.tester, identity.name.trim().to_owned(), identity.serial.trim().to_owned()))
        };
        Ok(Self(state.record.view().testers()?.into_iter().filter_map(named).collect()))
    }

    /// Every tester that is called so, by its name or its serial number; none among them where the table says so.
    pub(super) fn called(&self, tester: &str, serial: &str) -> Vec<Option<TesterId>> {
        let is = |own_name: &str, own_serial: &str| {
            let by_tester = tester.is_empty() || tester == own_name || tester == own_serial;
            by_tester && (serial.is_empty() || serial == own_serial)
        };
        let none = tester.eq_ignore_ascii_case(NONE) && serial.is_empty();
        let named = self.0.iter().filter(|(_, name, serial)| is(name, serial)).map(|(id, ..)| Some(*id));
        std::iter::once(None).filter(|_| none).chain(named).collect()
    }

    /// The one tester among those a line may mean.
    pub(super) fn one(
        words: &Words,
        called: &[Option<TesterId>],
        line: &ReadingLine,
    ) -> Result<Option<TesterId>, String> {
        let said = if line.tester.is_empty() { &line.serial } else { &line.tester };
        let tester = [("tester", shortened(said).into())];
        match called {
            [one] => Ok(*one),
            [] => Err(words.text_with("complaint-no-tester", &tester)),
            _ => Err(words.text_with("complaint-testers-alike", &tester)),
        }
    }

    /// A tester as the testers screen names it.
    pub(super) fn named(&self, words: &Words, tester: Option<TesterId>) -> String {
        match self.0.iter().find(|(id, ..)| Some(*id) == tester) {
            Some((_, name, serial)) => words.tester_named(name, serial),
            None => words.text("said-header-none"),
        }
    }
}

/// The people of a job, and who records here.
pub(super) struct People {
    me: PersonId,
    /// Whoever sits here records as themselves.
    seated: bool,
    all: Vec<(PersonId, String)>,
}

impl People {
    pub(super) fn of(judged: &Judged, seat: Option<&Seat>, me: PersonId) -> Self {
        let mut all: Vec<(PersonId, String)> =
            judged.file.people.iter().map(|person| (person.id, person.name.trim().to_owned())).collect();
        if let Some(seat) = seat.filter(|seat| all.iter().all(|(id, _)| *id != seat.person)) {
            all.push((seat.person, seat.name.trim().to_owned()));
        }
        Self { me, seated: seat.is_some(), all }
    }

    /// Who took a reading: whoever records, unless another one of the job's people is named.
    pub(super) fn one(&self, words: &Words, read_by: &str) -> Result<PersonId, String> {
        if read_by.is_empty() {
            return Ok(self.me);
        }
        let called: Vec<PersonId> = self.all.iter().filter(|(_, name)| name == read_by).map(|(id, _)| *id).collect();
        let person = [("person", shortened(read_by).into())];
        match &called[..] {
            all if all.contains(&self.me) => Ok(self.me),
            [] => Err(words.text_with("complaint-no-person", &person)),
            _ if self.seated => Err(words.text("complaint-read-by-another")),
            [one] => Ok(*one),
            _ => Err(words.text_with("complaint-people-alike", &person)),
        }
    }

    pub(super) fn named(&self, person: PersonId) -> String {
        self.all.iter().find(|(id, _)| *id == person).map(|(_, name)| name.clone()).unwrap_or_default()
    }
}
