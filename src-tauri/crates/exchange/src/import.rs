//! Making a new job from a job file: new ids for all that is the job's own, and the mark "from a file".
//!
//! Testers come in as new testers too: what the file says of them is a copy, and only a bundle carries the record that
//! would make them the same.

use crate::job_file::{AcceptedOf, Circuit, Fate, JobFile, Person, ReplacedWhy, Taken};
use provenohm_assess::circuit::{End, Pair, Terminal};
use provenohm_assess::ids::{
    BoardId, CheckId, CircuitId, DamageId, JobId, PersonId, ReadingId, TesterId, VerificationId,
};
use provenohm_assess::recall::FailingEntry;
use provenohm_assess::tester::Verification;
use provenohm_logbook::entry::body::{
    self, BoardNames, BoardPeople, BoardPresent, CircuitElectrical, CircuitLabel, CircuitPlace, CircuitPresent,
    Correction, JobNames, JobOpened, JobPeople, JobPerson, JobRules, Origin, ReadingTaken, TesterCard, TesterIdentity,
    VerificationMade,
};
use provenohm_logbook::entry::{Bytes, EntryRef, Fact, Hash, Noun, Object, ObjectId, Role};
use provenohm_logbook::random::NoRandomness;
use provenohm_logbook::record::{WriteError, Writer};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// A job file with a new id for each old one.
pub struct Plan {
    file: JobFile,
    sha256: Hash,
    job: JobId,
    ids: BTreeMap<Uuid, Uuid>,
}

impl Plan {
    /// Gives new ids.
    ///
    /// # Errors
    /// [`NoRandomness`] if `new` has none to give.
    pub fn of(
        file: &JobFile,
        bytes: &[u8],
        new: &mut dyn FnMut() -> Result<Uuid, NoRandomness>,
    ) -> Result<Self, NoRandomness> {
        let mut old: Vec<Uuid> = vec![file.job.id.0];
        old.extend(file.people.iter().map(|it| it.id.0));
        for tester in &file.testers {
            old.push(tester.id.0);
            old.extend(tester.verifications.iter().map(|it| it.verification.id.0));
            old.extend(tester.lead_checks.iter().map(|it| it.check.id.0));
            old.extend(tester.quick_checks.iter().map(|it| it.check.id.0));
            old.extend(tester.damages.iter().map(|it| it.damage.id.0));
        }
        for board in &file.boards {
            old.push(board.id.0);
            for circuit in board.circuits.iter().chain(&board.removed) {
                old.push(circuit.id.0);
                old.extend(circuit.notes.iter().map(|it| it.id.0));
            }
        }
        old.extend(file.readings.iter().map(|it| it.reading.id.0));
        let mut ids = BTreeMap::new();
        for id in old {
            if let std::collections::btree_map::Entry::Vacant(vacant) = ids.entry(id) {
                vacant.insert(new()?);
            }
        }
        let job = JobId(ids.get(&file.job.id.0).copied().unwrap_or(file.job.id.0));
        Ok(Self { file: file.clone(), sha256: Hash::of(&[bytes]), job, ids })
    }

    /// The new job.
    #[must_use]
    pub fn job(&self) -> JobId {
        self.job
    }

    /// The people of the file under their new ids.
    pub fn people(&self) -> impl Iterator<Item = Person> + '_ {
        self.file.people.iter().map(|it| Person { id: PersonId(self.renewed(it.id.0)), ..it.clone() })
    }

    fn renewed(&self, old: Uuid) -> Uuid {
        self.ids.get(&old).copied().unwrap_or(old)
    }

    fn pair(&self, pair: &Pair) -> Pair {
        let end = |end: &End| {
            End(end
                .0
                .iter()
                .map(|terminal| match terminal {
                    Terminal::Live { circuit, conductor } => {
                        Terminal::Live { circuit: CircuitId(self.renewed(circuit.0)), conductor: *conductor }
                    }
                    other => *other,
                })
                .collect())
        };
        let (a, b) = (end(&pair.a), end(&pair.b));
        if a <= b { Pair { a, b } } else { Pair { a: b, b: a } }
    }

    /// Appends the whole job.
    ///
    /// # Errors
    /// [`WriteError`].
    pub fn append(&self, writer: &mut Writer<'_>) -> Result<(), WriteError> {
        let job = self.job;
        let from = &self.file.job;
        let origin = Origin::FromFile { sha256: self.sha256, invented: from.invented };
        writer.append(JobOpened { job, origin })?;
        for person in self.people() {
            let card = body::Person { person: person.id, name: person.name, role: person.role };
            writer.append_in(job.into(), card)?;
        }
        writer.append(JobNames { job, name: from.name.clone(), place: from.place.clone() })?;
        writer.append(JobRules {
            job,
            set: from.limit_set.clone(),
            bytes: Bytes(from.limit_set_text.clone().into_bytes()),
            policies: from.policies,
        })?;
        // Two live values come in as two: neither names the other.
        for also in &from.rules_also {
            let (set, policies) = (also.limit_set.clone(), also.policies);
            writer.append(JobRules { job, set, bytes: Bytes(also.limit_set_text.clone().into_bytes()), policies })?;
        }
        let people = self.people().map(|it| JobPerson { person: it.id, part: it.role }).collect();
        writer.append(JobPeople { job, people })?;
        self.append_testers(writer)?;
        for board in &self.file.boards {
            let id = BoardId(self.renewed(board.id.0));
            writer.append(BoardNames { job, board: id, name: board.name.clone(), place: board.place.clone() })?;
            if !board.people.is_empty() {
                let people = board.people.iter().map(|person| PersonId(self.renewed(person.0))).collect();
                writer.append(BoardPeople { job, board: id, people })?;
            }
            if board.taken_away {
                writer.append(BoardPresent { job, board: id, present: false, known: Vec::new() })?;
            }
            for circuit in &board.circuits {
                self.append_circuit(writer, id, circuit, true)?;
            }
            for circuit in &board.removed {
                self.append_circuit(writer, id, circuit, false)?;
            }
        }
        self.append_readings(writer)
    }

    fn append_circuit(
        &self,
        writer: &mut Writer<'_>,
        board: BoardId,
        from: &Circuit,
        present: bool,
    ) -> Result<(), WriteError> {
        let (job, circuit) = (self.job, CircuitId(self.renewed(from.id.0)));
        let (reference, description) = (from.reference.clone(), from.description.clone());
        writer.append(CircuitLabel { job, circuit, reference, description })?;
        // Two live values come in as two: neither names the other.
        for electrical in std::iter::once(&from.electrical).chain(&from.electrical_also) {
            writer.append(CircuitElectrical { job, circuit, electrical: electrical.clone() })?;
        }
        writer.append(CircuitPlace { job, circuit, board })?;
        if !present {
            writer.append(CircuitPresent { job, circuit, present, known: Vec::new() })?;
        }
        for note in &from.notes {
            let of = Object { noun: Noun::Circuit, id: ObjectId(circuit.0) };
            let id = provenohm_assess::ids::NoteId(self.renewed(note.id.0));
            // Who noted it and when is what the file says, not who brought it in.
            let person = note.person.map(|id| PersonId(self.renewed(id.0)));
            let noted = body::Note { note: id, of, text: note.text.clone(), person, at: Some(note.at) };
            writer.append_in(job.into(), noted)?;
        }
        Ok(())
    }

    fn append_testers(&self, writer: &mut Writer<'_>) -> Result<(), WriteError> {
        for from in &self.file.testers {
            let tester = TesterId(self.renewed(from.id.0));
            let person = |id: PersonId| PersonId(self.renewed(id.0));
            let (name, model, serial) = (from.name.clone(), from.model.clone(), from.serial.clone());
            let invented = self.file.job.invented.then_some(true);
            writer.append(TesterIdentity { tester, name, model, serial, invented })?;
            for card in from.card.iter().chain(&from.card_also) {
                writer.append(TesterCard { tester, card: card.card.clone() })?;
            }
            for it in &from.verifications {
                let id = VerificationId(self.renewed(it.verification.id.0));
                writer.append(VerificationMade::of(Verification { id, tester, ..it.verification.clone() }))?;
            }
            for it in &from.lead_checks {
                let mut check = it.check.clone();
                check.id = CheckId(self.renewed(check.id.0));
                check.tester = tester;
                check.person = person(check.person);
                writer.append(check)?;
            }
            for it in &from.quick_checks {
                let mut check = it.check.clone();
                check.id = CheckId(self.renewed(check.id.0));
                check.tester = tester;
                writer.append(check)?;
            }
            for it in &from.damages {
                let mut damage = it.damage.clone();
                damage.id = DamageId(self.renewed(damage.id.0));
                damage.tester = tester;
                writer.append(damage)?;
            }
        }
        Ok(())
    }

    /// Readings with what replaced them, corrections, and withdrawals, in an order in which each names what is there.
    fn append_readings(&self, writer: &mut Writer<'_>) -> Result<(), WriteError> {
        let mut replaces: BTreeMap<ReadingId, Vec<ReadingId>> = BTreeMap::new();
        for taken in &self.file.readings {
            if let Some(by) = taken.replaced_by() {
                replaces.entry(by).or_default().push(taken.reading.id);
            }
        }
        let mut entries: BTreeMap<ReadingId, EntryRef> = BTreeMap::new();
        for taken in replaced_first(&self.file.readings, &replaces) {
            let named = replaces.get(&taken.reading.id).into_iter().flatten();
            let named: Vec<EntryRef> = named.filter_map(|old| entries.get(old).copied()).collect();
            entries.insert(taken.reading.id, self.append_reading(writer, taken, named)?);
        }
        for taken in &self.file.readings {
            if let Some(past) = taken.past.as_ref().filter(|past| past.fate == Fate::Withdrawn) {
                let entry: Vec<EntryRef> = entries.get(&taken.reading.id).copied().into_iter().collect();
                if past.reason.trim().is_empty() {
                    writer.take_back(&entry)?;
                } else {
                    writer.withdraw(&entry, &past.reason)?;
                }
            }
        }
        self.append_choices(writer, &entries)?;
        for said in &self.file.not_tested {
            writer.append(body::NotTested {
                job: self.job,
                pair: self.pair(&said.pair),
                stage: said.stage,
                reason: said.reason,
                words: (!said.words.is_empty()).then(|| said.words.clone()),
                person: PersonId(self.renewed(said.person.0)),
                at: said.at,
                beside: said.beside.iter().map(|id| ReadingId(self.renewed(id.0))).collect(),
            })?;
        }
        for said in &self.file.recall_resolved {
            let resolved = body::RecallResolved {
                job: self.job,
                reading: ReadingId(self.renewed(said.reading.0)),
                entry: self.found(said.entry),
                person: PersonId(self.renewed(said.person.0)),
                at: said.at,
            };
            writer.append(Fact::from(resolved).because(said.reason.as_str()))?;
        }
        self.append_review(writer)
    }

    /// What people chose of the readings of each slot: those they let stand, and those they did not.
    fn append_choices(
        &self,
        writer: &mut Writer<'_>,
        entries: &BTreeMap<ReadingId, EntryRef>,
    ) -> Result<(), WriteError> {
        let mut slots: BTreeMap<_, Vec<&Taken>> = BTreeMap::new();
        for taken in &self.file.readings {
            slots.entry((taken.reading.stage, &taken.reading.pair)).or_default().push(taken);
        }
        for readings in slots.values() {
            let those = |which: &dyn Fn(&Taken) -> bool| -> Vec<EntryRef> {
                let chosen = readings.iter().filter(|taken| which(taken));
                chosen.filter_map(|taken| entries.get(&taken.reading.id).copied()).collect()
            };
            let not_chosen = |taken: &Taken| taken.past.as_ref().is_some_and(|past| past.fate == Fate::NotChosen);
            let aside = those(&not_chosen);
            // What was chosen may itself have been replaced since; a choice names it all the same.
            let kept =
                those(&|taken| taken.kept_at.is_some() && !not_chosen(taken) && (taken.stands() || !aside.is_empty()));
            let reason = readings.iter().filter(|taken| not_chosen(taken)).find_map(|taken| taken.past.as_ref());
            let reason = reason.map(|past| past.reason.as_str()).filter(|reason| !reason.is_empty());
            if !kept.is_empty() {
                writer.settle(&kept, &aside, reason)?;
            } else if !aside.is_empty() {
                // A file that does not say what was chosen instead.
                writer.take_back(&aside)?;
            }
        }
        Ok(())
    }

    fn append_review(&self, writer: &mut Writer<'_>) -> Result<(), WriteError> {
        let (job, person) = (self.job, |id: PersonId| PersonId(self.renewed(id.0)));
        for from in &self.file.requested {
            let request = body::Request {
                job,
                pair: self.pair(&from.pair),
                stage: from.stage,
                readings: from.readings.iter().map(|id| ReadingId(self.renewed(id.0))).collect(),
                not_tested: from.not_tested.clone(),
                person: person(from.person),
                at: from.at,
            };
            writer.append(Fact::from(request).because(from.reason.as_str()))?;
        }
        for from in &self.file.accepted {
            let of = match &from.of {
                AcceptedOf::Reading { reading } => {
                    body::AcceptedOf::Reading { reading: ReadingId(self.renewed(reading.0)) }
                }
                AcceptedOf::NotTested { pair, stage, at } => {
                    body::AcceptedOf::NotTested { pair: self.pair(pair), stage: *stage, at: *at }
                }
            };
            let accepted =
                body::Accepted { job, of, codes: from.codes.clone(), person: person(from.person), at: from.at };
            writer.append(Fact::from(accepted).because(from.reason.as_str()))?;
        }
        Ok(())
    }

    /// The failing entry of a tester under its new id.
    fn found(&self, entry: FailingEntry) -> FailingEntry {
        match entry {
            FailingEntry::Verification { id } => FailingEntry::Verification { id: VerificationId(self.renewed(id.0)) },
            FailingEntry::QuickCheck { id } => FailingEntry::QuickCheck { id: CheckId(self.renewed(id.0)) },
            FailingEntry::Damage { id } => FailingEntry::Damage { id: DamageId(self.renewed(id.0)) },
        }
    }

    fn append_reading(
        &self,
        writer: &mut Writer<'_>,
        taken: &Taken,
        replaced: Vec<EntryRef>,
    ) -> Result<EntryRef, WriteError> {
        let mut reading = taken.reading.clone();
        reading.id = ReadingId(self.renewed(reading.id.0));
        reading.pair = self.pair(&reading.pair);
        reading.person = PersonId(self.renewed(reading.person.0));
        reading.tester = reading.tester.map(|id| TesterId(self.renewed(id.0)));
        let id = reading.id;
        let why = if replaced.is_empty() { None } else { Some(taken.why.map_or(body::ReplacedWhy::Repeated, why)) };
        let fact = Fact::naming(ReadingTaken { job: self.job, reading, why }, Role::Replaces, replaced);
        let entry = writer.append(fact)?;
        for it in &taken.corrections {
            let correction = Correction {
                job: self.job,
                readings: vec![id],
                tester: it.tester.map(|id| TesterId(self.renewed(id.0))),
                test_voltage_v: it.test_voltage_v,
                at: it.at,
                conditions: it.conditions,
            };
            if taken.live.is_empty() {
                writer.correct(correction, &it.reason)?;
            } else {
                // Two live values come in as two: no correction overrules another, the settled ones among them neither.
                writer.append(Fact::naming(correction, Role::Corrects, [entry]).because(it.reason.as_str()))?;
            }
        }
        Ok(entry)
    }
}

/// The readings in the order of the file, but none before those it takes the place of. No reading is in a circle of
/// replacements: such a file is not read.
fn replaced_first<'f>(readings: &'f [Taken], replaces: &BTreeMap<ReadingId, Vec<ReadingId>>) -> Vec<&'f Taken> {
    let by_id: BTreeMap<ReadingId, &Taken> = readings.iter().map(|taken| (taken.reading.id, taken)).collect();
    let mut ordered = Vec::with_capacity(readings.len());
    let mut done = BTreeSet::new();
    for taken in readings {
        let mut waiting = vec![taken];
        while let Some(next) = waiting.last().copied() {
            let olds = replaces.get(&next.reading.id).into_iter().flatten();
            let open: Vec<&Taken> =
                olds.filter(|old| !done.contains(*old)).filter_map(|old| by_id.get(old).copied()).collect();
            if !open.is_empty() {
                waiting.extend(open.into_iter().rev());
                continue;
            }
            waiting.pop();
            if done.insert(next.reading.id) {
                ordered.push(next);
            }
        }
    }
    ordered
}

fn why(why: ReplacedWhy) -> body::ReplacedWhy {
    match why {
        ReplacedWhy::Mistyped => body::ReplacedWhy::Mistyped,
        ReplacedWhy::Repaired => body::ReplacedWhy::Repaired,
        ReplacedWhy::Repeated => body::ReplacedWhy::Repeated,
    }
}
