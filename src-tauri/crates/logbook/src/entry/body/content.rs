//! The content of every kind known here, and what each is about.

use super::frame::{Fact, Noun, Object};
use super::review::AcceptedOf;
use super::{bench, job, log, people, reading, recall, review, sign_off, tester};
use crate::entry::{Coded, Kind, Malformed, ObjectId, Value};
use provenohm_assess::circuit::{Pair, Terminal};
use provenohm_assess::ids::{CircuitId, TesterId};
use provenohm_assess::recall::FailingEntry;
use provenohm_assess::tester::{Damage, LeadCheck, QuickCheck};
use uuid::Uuid;

/// The content of one kind.
pub trait Content: Sized {
    /// The kind.
    const KIND: Kind;

    /// The content, if the body is of that kind.
    fn of(body: Body) -> Option<Self>;
}

macro_rules! bodies {
    ($($(#[$doc:meta])* $kind:ident($content:ty)),+ $(,)?) => {
        /// What an entry says.
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub enum Body {
            $($(#[$doc])* $kind($content),)+
        }

        impl Body {
            /// Its kind.
            #[must_use]
            pub fn kind(&self) -> Kind {
                match self { $(Self::$kind(_) => Kind::$kind),+ }
            }

            pub(super) fn content(&self) -> Value {
                match self { $(Self::$kind(content) => content.to_value()),+ }
            }

            pub(super) fn from_content(kind: Kind, content: Value) -> Result<Self, Malformed> {
                match kind {
                    $(Kind::$kind => <$content>::from_value(content).map(Self::$kind),)+
                }
            }
        }

        $(impl Content for $content {
            const KIND: Kind = Kind::$kind;

            fn of(body: Body) -> Option<Self> {
                match body {
                    Body::$kind(content) => Some(content),
                    _ => None,
                }
            }
        })+

        $(impl From<$content> for Body {
            fn from(content: $content) -> Self {
                Self::$kind(content)
            }
        }

        impl From<$content> for Fact {
            fn from(content: $content) -> Self {
                Body::from(content).into()
            }
        })+
    };
}

bodies! {
    /// A log begins.
    LogOpened(log::LogOpened),
    /// A log's head is signed.
    Seal(log::Sealed),
    /// Entries are taken back.
    Withdrawal(log::Withdrawal),
    /// Live values are chosen between.
    Settlement(log::Settlement),
    /// Personal data is dropped.
    Erasure(log::Erasure),
    /// Reserved: a file belongs to something.
    Attachment(log::Attachment),
    /// A person's statement over an exact cut of the record.
    SignOff(sign_off::SignOff),
    /// A new reading is asked for.
    Request(review::Request),
    /// A person's name and role.
    Person(people::Person),
    /// Two ids mean one person.
    SamePerson(people::SamePerson),
    /// Two ids mean one tester.
    SameTester(people::SameTester),
    /// A note.
    Note(people::Note),
    /// A device is vouched for.
    DeviceKnown(people::DeviceKnown),
    /// Two ids mean one circuit.
    SameCircuit(people::SameCircuit),
    /// Two things that look like one are two.
    Different(people::Different),
    /// A job begins.
    JobOpened(job::JobOpened),
    /// What a job is called.
    JobNames(job::JobNames),
    /// What a job is judged by.
    JobRules(job::JobRules),
    /// A job's people.
    JobPeople(job::JobPeople),
    /// The cautions were read.
    CautionsRead(job::CautionsRead),
    /// A job's boards in order.
    BoardOrder(job::BoardOrder),
    /// What a board is called.
    BoardNames(job::BoardNames),
    /// Whether a board is there.
    BoardPresent(job::BoardPresent),
    /// A board's circuits in order.
    CircuitOrder(job::CircuitOrder),
    /// Who does a board.
    BoardPeople(job::BoardPeople),
    /// What a circuit is called.
    CircuitLabel(job::CircuitLabel),
    /// What decides a circuit's limit and pairs.
    CircuitElectrical(job::CircuitElectrical),
    /// A circuit's board.
    CircuitPlace(job::CircuitPlace),
    /// Whether a circuit is there.
    CircuitPresent(job::CircuitPresent),
    /// A reading.
    Reading(reading::ReadingTaken),
    /// Circumstances corrected.
    Correction(reading::Correction),
    /// A slot was not tested.
    NotTested(reading::NotTested),
    /// What a tester is.
    TesterIdentity(tester::TesterIdentity),
    /// A tester's card.
    TesterCard(tester::TesterCard),
    /// A verification.
    Verification(tester::VerificationMade),
    /// Leads shorted or open.
    LeadCheck(LeadCheck),
    /// A quick check.
    QuickCheck(QuickCheck),
    /// Damage.
    Damage(Damage),
    /// What a reference is.
    ReferenceCard(bench::ReferenceCard),
    /// What a bench run is made of.
    BenchRun(bench::BenchOpened),
    /// One thing measured.
    Measured(bench::MeasuredAt),
    /// A recalled reading is settled.
    RecallResolved(recall::RecallResolved),
    /// What asks for a look is accepted.
    Accepted(review::Accepted),
}

fn object(noun: Noun, id: Uuid) -> Object {
    Object { noun, id: ObjectId(id) }
}

fn found(entry: FailingEntry) -> Object {
    match entry {
        FailingEntry::Verification { id } => object(Noun::Verification, id.0),
        FailingEntry::QuickCheck { id } => object(Noun::Check, id.0),
        FailingEntry::Damage { id } => object(Noun::Damage, id.0),
    }
}

fn circuits(pair: &Pair) -> impl Iterator<Item = Object> + '_ {
    pair.a.0.iter().chain(&pair.b.0).filter_map(|terminal| match terminal {
        Terminal::Live { circuit, .. } => Some(object(Noun::Circuit, circuit.0)),
        Terminal::OtherCircuits | Terminal::Earth => None,
    })
}

impl Body {
    /// What it is about, in rising order, each once.
    #[must_use]
    pub fn objects(&self) -> Vec<Object> {
        use Noun::{Board, Check, Circuit, Job, Person, Reading, Tester};
        let mut about = match self {
            Self::LogOpened(it) => vec![it.book.object()],
            Self::Seal(_) => Vec::new(),
            Self::Withdrawal(it) => it.about.clone(),
            Self::Settlement(it) => it.about.clone(),
            Self::Erasure(it) => it.about.clone(),
            Self::Attachment(it) => vec![it.of],
            Self::SignOff(it) => vec![object(Job, it.job.0), object(Person, it.person.0)],
            Self::Request(it) => {
                let readings = it.readings.iter().map(|reading| object(Reading, reading.0));
                circuits(&it.pair).chain(readings).chain([object(Job, it.job.0)]).collect()
            }
            Self::Person(it) => vec![object(Person, it.person.0)],
            Self::SamePerson(it) => vec![object(Person, it.one.0), object(Person, it.other.0)],
            Self::SameTester(it) => vec![object(Tester, it.one.0), object(Tester, it.other.0)],
            Self::Note(it) => vec![object(Noun::Note, it.note.0), it.of],
            Self::DeviceKnown(it) => vec![object(Job, it.job.0), object(Noun::Device, it.device.0)],
            Self::SameCircuit(it) => {
                vec![object(Job, it.job.0), object(Circuit, it.one.0), object(Circuit, it.other.0)]
            }
            Self::Different(it) => vec![it.one, it.other],
            Self::JobOpened(it) => vec![object(Job, it.job.0)],
            Self::JobNames(it) => vec![object(Job, it.job.0)],
            Self::JobRules(it) => vec![object(Job, it.job.0)],
            Self::JobPeople(it) => {
                let people = it.people.iter().map(|one| object(Person, one.person.0));
                people.chain([object(Job, it.job.0)]).collect()
            }
            Self::CautionsRead(it) => vec![object(Job, it.job.0), object(Person, it.person.0)],
            Self::BoardOrder(it) => vec![object(Job, it.job.0)],
            Self::BoardNames(it) => vec![object(Job, it.job.0), object(Board, it.board.0)],
            Self::BoardPresent(it) => vec![object(Job, it.job.0), object(Board, it.board.0)],
            Self::CircuitOrder(it) => vec![object(Job, it.job.0), object(Board, it.board.0)],
            Self::BoardPeople(it) => {
                let people = it.people.iter().map(|person| object(Person, person.0));
                people.chain([object(Job, it.job.0), object(Board, it.board.0)]).collect()
            }
            Self::CircuitLabel(it) => vec![object(Job, it.job.0), object(Circuit, it.circuit.0)],
            Self::CircuitElectrical(it) => vec![object(Job, it.job.0), object(Circuit, it.circuit.0)],
            Self::CircuitPlace(it) => {
                vec![object(Job, it.job.0), object(Board, it.board.0), object(Circuit, it.circuit.0)]
            }
            Self::CircuitPresent(it) => vec![object(Job, it.job.0), object(Circuit, it.circuit.0)],
            Self::Reading(it) => {
                let tester = it.reading.tester.map(|tester| object(Tester, tester.0));
                let own = [object(Job, it.job.0), object(Reading, it.reading.id.0)];
                own.into_iter().chain(tester).chain(circuits(&it.reading.pair)).collect()
            }
            Self::Correction(it) => {
                let tester = it.tester.map(|tester| object(Tester, tester.0));
                let readings = it.readings.iter().map(|reading| object(Reading, reading.0));
                readings.chain([object(Job, it.job.0)]).chain(tester).collect()
            }
            Self::NotTested(it) => circuits(&it.pair).chain([object(Job, it.job.0)]).collect(),
            Self::TesterIdentity(it) => vec![object(Tester, it.tester.0)],
            Self::TesterCard(it) => vec![object(Tester, it.tester.0)],
            Self::Verification(it) => {
                let bench = it.bench.map(|bench| object(Noun::Bench, bench.0));
                let own = [object(Tester, it.tester.0), object(Noun::Verification, it.id.0)];
                own.into_iter().chain(bench).collect()
            }
            Self::LeadCheck(it) => vec![object(Tester, it.tester.0), object(Check, it.id.0)],
            Self::QuickCheck(it) => vec![object(Tester, it.tester.0), object(Check, it.id.0)],
            Self::Damage(it) => vec![object(Tester, it.tester.0), object(Noun::Damage, it.id.0)],
            Self::ReferenceCard(it) => vec![object(Noun::Reference, it.reference.id.0)],
            Self::BenchRun(it) => {
                let used = it.references.iter().map(|one| object(Noun::Reference, one.id.0));
                used.chain([object(Tester, it.run.tester.0), object(Noun::Bench, it.run.id.0)]).collect()
            }
            Self::Measured(it) => {
                let own = [object(Noun::Bench, it.measured.bench.0), object(Noun::Measured, it.measured.id.0)];
                own.into_iter().chain([object(Tester, it.tester.0)]).collect()
            }
            Self::RecallResolved(it) => vec![object(Job, it.job.0), object(Reading, it.reading.0), found(it.entry)],
            Self::Accepted(it) => match &it.of {
                AcceptedOf::Reading { reading } => vec![object(Job, it.job.0), object(Reading, reading.0)],
                AcceptedOf::NotTested { pair, .. } => circuits(pair).chain([object(Job, it.job.0)]).collect(),
            },
        };
        about.sort_unstable();
        about.dedup();
        about
    }

    /// The one thing it is of: what it replaces must be of the same. A reading's is its job, a proof's its tester.
    #[must_use]
    pub fn subject(&self) -> Option<Object> {
        use Noun::{Board, Circuit, Job, Person, Tester};
        Some(match self {
            Self::LogOpened(_)
            | Self::Seal(_)
            | Self::Withdrawal(_)
            | Self::Settlement(_)
            | Self::Erasure(_)
            | Self::SamePerson(_)
            | Self::SameTester(_)
            | Self::SameCircuit(_)
            | Self::Different(_) => return None,
            Self::Attachment(it) => it.of,
            Self::SignOff(it) => object(Job, it.job.0),
            Self::Request(it) => object(Job, it.job.0),
            Self::Person(it) => object(Person, it.person.0),
            Self::Note(it) => it.of,
            Self::DeviceKnown(it) => object(Job, it.job.0),
            Self::JobOpened(it) => object(Job, it.job.0),
            Self::JobNames(it) => object(Job, it.job.0),
            Self::JobRules(it) => object(Job, it.job.0),
            Self::JobPeople(it) => object(Job, it.job.0),
            Self::CautionsRead(it) => object(Job, it.job.0),
            Self::BoardOrder(it) => object(Job, it.job.0),
            Self::BoardNames(it) => object(Board, it.board.0),
            Self::BoardPresent(it) => object(Board, it.board.0),
            Self::CircuitOrder(it) => object(Board, it.board.0),
            Self::BoardPeople(it) => object(Board, it.board.0),
            Self::CircuitLabel(it) => object(Circuit, it.circuit.0),
            Self::CircuitElectrical(it) => object(Circuit, it.circuit.0),
            Self::CircuitPlace(it) => object(Circuit, it.circuit.0),
            Self::CircuitPresent(it) => object(Circuit, it.circuit.0),
            Self::Reading(it) => object(Job, it.job.0),
            Self::Correction(it) => object(Job, it.job.0),
            Self::NotTested(it) => object(Job, it.job.0),
            Self::TesterIdentity(it) => object(Tester, it.tester.0),
            Self::TesterCard(it) => object(Tester, it.tester.0),
            Self::Verification(it) => object(Tester, it.tester.0),
            Self::LeadCheck(it) => object(Tester, it.tester.0),
            Self::QuickCheck(it) => object(Tester, it.tester.0),
            Self::Damage(it) => object(Tester, it.tester.0),
            Self::ReferenceCard(it) => object(Noun::Reference, it.reference.id.0),
            Self::BenchRun(it) => object(Noun::Bench, it.run.id.0),
            Self::Measured(it) => object(Noun::Bench, it.measured.bench.0),
            Self::RecallResolved(it) => object(Job, it.job.0),
            Self::Accepted(it) => object(Job, it.job.0),
        })
    }

    /// Whether two values of a facet, or two words on one slot, need no choice between them. What a removal knew of is no
    /// part of what it says, nor who said when why a pair was not tested.
    #[must_use]
    pub fn says_the_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::BoardPresent(one), Self::BoardPresent(other)) => {
                one.board == other.board && one.present == other.present
            }
            (Self::CircuitPresent(one), Self::CircuitPresent(other)) => {
                one.circuit == other.circuit && one.present == other.present
            }
            (Self::NotTested(one), Self::NotTested(other)) => one.reason == other.reason && one.words == other.words,
            _ => self == other,
        }
    }

    /// The same said of another circuit or tester: of one that is known by several ids, a facet is said of each.
    #[must_use]
    pub fn moved_to(mut self, id: ObjectId) -> Self {
        match &mut self {
            Self::CircuitLabel(it) => it.circuit = CircuitId(id.0),
            Self::CircuitElectrical(it) => it.circuit = CircuitId(id.0),
            Self::CircuitPlace(it) => it.circuit = CircuitId(id.0),
            Self::CircuitPresent(it) => it.circuit = CircuitId(id.0),
            Self::TesterIdentity(it) => it.tester = TesterId(id.0),
            Self::TesterCard(it) => it.tester = TesterId(id.0),
            _ => {}
        }
        self
    }

    /// The book it must stand in; `None` where the entries it names or the writer decide.
    #[must_use]
    pub fn book(&self) -> Option<log::Book> {
        Some(match self {
            Self::LogOpened(it) => it.book,
            Self::SignOff(it) => it.job.into(),
            Self::DeviceKnown(it) => it.job.into(),
            Self::Request(it) => it.job.into(),
            Self::JobOpened(it) => it.job.into(),
            Self::JobNames(it) => it.job.into(),
            Self::JobRules(it) => it.job.into(),
            Self::JobPeople(it) => it.job.into(),
            Self::CautionsRead(it) => it.job.into(),
            Self::SameCircuit(it) => it.job.into(),
            Self::BoardOrder(it) => it.job.into(),
            Self::BoardNames(it) => it.job.into(),
            Self::BoardPresent(it) => it.job.into(),
            Self::CircuitOrder(it) => it.job.into(),
            Self::BoardPeople(it) => it.job.into(),
            Self::CircuitLabel(it) => it.job.into(),
            Self::CircuitElectrical(it) => it.job.into(),
            Self::CircuitPlace(it) => it.job.into(),
            Self::CircuitPresent(it) => it.job.into(),
            Self::Reading(it) => it.job.into(),
            Self::Correction(it) => it.job.into(),
            Self::NotTested(it) => it.job.into(),
            Self::TesterIdentity(it) => it.tester.into(),
            Self::TesterCard(it) => it.tester.into(),
            Self::Verification(it) => it.tester.into(),
            Self::LeadCheck(it) => it.tester.into(),
            Self::QuickCheck(it) => it.tester.into(),
            Self::Damage(it) => it.tester.into(),
            Self::ReferenceCard(it) => it.reference.id.into(),
            Self::BenchRun(it) => it.run.tester.into(),
            Self::Measured(it) => it.tester.into(),
            Self::RecallResolved(it) => it.job.into(),
            Self::Accepted(it) => it.job.into(),
            Self::Seal(_)
            | Self::Withdrawal(_)
            | Self::Settlement(_)
            | Self::Erasure(_)
            | Self::Attachment(_)
            | Self::Person(_)
            | Self::SamePerson(_)
            | Self::SameTester(_)
            | Self::Different(_)
            | Self::Note(_) => return None,
        })
    }
}
