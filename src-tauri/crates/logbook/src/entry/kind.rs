//! The kinds of entry and what may be done with each.

/// A kind of entry. Its number never changes and is never used again for another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u64)]
pub enum Kind {
    /// First entry of every log: its book, its device, its key.
    LogOpened = 1,
    /// A signature over the head of its log.
    Seal = 2,
    /// Takes entries back, with a reason.
    Withdrawal = 3,
    /// A choice between live values.
    Settlement = 4,
    /// Drops the body of personal data.
    Erasure = 5,
    /// Reserved: a file that belongs to something.
    Attachment = 6,
    /// A person's statement over an exact cut of the record.
    SignOff = 7,
    /// A new reading is asked for.
    Request = 8,

    /// A person's name and role.
    Person = 10,
    /// Two ids mean one person.
    SamePerson = 11,
    /// Two ids mean one tester.
    SameTester = 12,
    /// A note on something.
    Note = 13,
    /// Two ids mean one circuit.
    SameCircuit = 14,
    /// Two things that look like one are two.
    Different = 15,
    /// A person vouches for a device.
    DeviceKnown = 16,

    /// A job begins.
    JobOpened = 20,
    /// Facet of a job: its name and place.
    JobNames = 21,
    /// Facet of a job: its limit set and policies.
    JobRules = 22,
    /// Facet of a job: its people.
    JobPeople = 23,
    /// A person has read the cautions for a job.
    CautionsRead = 24,
    /// Facet of a job: its boards in order.
    BoardOrder = 25,

    /// Facet of a board: its name and place.
    BoardNames = 30,
    /// Facet of a board: whether it is there.
    BoardPresent = 31,
    /// Facet of a board: its circuits in the order one walks.
    CircuitOrder = 32,
    /// Facet of a board: who does it. A note, not a lock.
    BoardPeople = 33,

    /// Facet of a circuit: reference and description.
    CircuitLabel = 40,
    /// Facet of a circuit: what decides limit and pairs.
    CircuitElectrical = 41,
    /// Facet of a circuit: its board.
    CircuitPlace = 42,
    /// Facet of a circuit: whether it is there.
    CircuitPresent = 43,

    /// A reading.
    Reading = 50,
    /// Corrected circumstances of named readings.
    Correction = 51,
    /// A slot was not tested, and why.
    NotTested = 52,

    /// Facet of a tester: what it is.
    TesterIdentity = 60,
    /// Facet of a tester: its card.
    TesterCard = 61,
    /// A verification.
    Verification = 62,
    /// Leads shorted or open.
    LeadCheck = 63,
    /// A quick check between verifications.
    QuickCheck = 64,
    /// A damage report.
    Damage = 65,
    /// Facet of a reference: what it is, with its certificate.
    ReferenceCard = 66,
    /// Facet of a bench run: what is verified, by what, and how it is decided.
    BenchRun = 67,
    /// One thing measured at a bench.
    Measured = 68,

    /// A reading put in doubt is settled by a reasoned statement.
    RecallResolved = 70,
    /// What asks for a look is accepted, with a reason.
    Accepted = 71,
}

impl Kind {
    /// Every kind, in the order of their numbers.
    pub const ALL: [Self; 43] = [
        Self::LogOpened,
        Self::Seal,
        Self::Withdrawal,
        Self::Settlement,
        Self::Erasure,
        Self::Attachment,
        Self::SignOff,
        Self::Request,
        Self::Person,
        Self::SamePerson,
        Self::SameTester,
        Self::Note,
        Self::SameCircuit,
        Self::Different,
        Self::DeviceKnown,
        Self::JobOpened,
        Self::JobNames,
        Self::JobRules,
        Self::JobPeople,
        Self::CautionsRead,
        Self::BoardOrder,
        Self::BoardNames,
        Self::BoardPresent,
        Self::CircuitOrder,
        Self::BoardPeople,
        Self::CircuitLabel,
        Self::CircuitElectrical,
        Self::CircuitPlace,
        Self::CircuitPresent,
        Self::Reading,
        Self::Correction,
        Self::NotTested,
        Self::TesterIdentity,
        Self::TesterCard,
        Self::Verification,
        Self::LeadCheck,
        Self::QuickCheck,
        Self::Damage,
        Self::ReferenceCard,
        Self::BenchRun,
        Self::Measured,
        Self::RecallResolved,
        Self::Accepted,
    ];

    /// Its number in the envelope.
    #[must_use]
    pub const fn number(self) -> u64 {
        self as u64
    }

    /// The kind of a number, if it is known here.
    #[must_use]
    pub fn from_number(number: u64) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.number() == number)
    }

    /// Whether a version that cannot read it must not judge what it touches.
    #[must_use]
    pub const fn critical(self) -> bool {
        !matches!(
            self,
            Self::Seal
                | Self::Attachment
                | Self::Request
                | Self::Person
                | Self::Note
                | Self::DeviceKnown
                | Self::Different
                | Self::JobNames
                | Self::JobPeople
                | Self::CautionsRead
                | Self::BoardOrder
                | Self::BoardNames
                | Self::BoardPeople
                | Self::CircuitOrder
                | Self::CircuitLabel
                | Self::ReferenceCard
                | Self::BenchRun
                | Self::Measured
                | Self::RecallResolved
                | Self::Accepted
        )
    }

    /// Whether its body is personal data, which an erasure may drop. Readings and verifications never are.
    #[must_use]
    pub const fn erasable(self) -> bool {
        matches!(self, Self::Person | Self::Note)
    }

    /// Whether a withdrawal can take it back.
    #[must_use]
    pub const fn withdrawable(self) -> bool {
        !matches!(self, Self::LogOpened | Self::Seal | Self::Erasure)
    }

    /// Whether undo reaches it. Withdrawals are passed over: undoing again goes further back.
    #[must_use]
    pub const fn undoable(self) -> bool {
        self.withdrawable() && !matches!(self, Self::Withdrawal | Self::Person | Self::CautionsRead | Self::SignOff)
    }
}
