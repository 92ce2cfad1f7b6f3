//! Something stated in an entry, where that entry stands, and the live values of a facet.

use crate::entry::{EntryRef, Kind, Naming, Role};
use provenohm_assess::ids::{DeviceId, PersonId};
use provenohm_assess::moment::Moment;

/// Where an entry stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Standing {
    /// Taken back.
    pub withdrawn: bool,
    /// Another of the same kind took its place.
    pub replaced: bool,
    /// A person chose another.
    pub set_aside: bool,
}

impl Standing {
    /// Current: neither withdrawn, replaced nor set aside.
    #[must_use]
    pub fn is_live(self) -> bool {
        !(self.withdrawn || self.replaced || self.set_aside)
    }
}

/// Something stated in an entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stated<T> {
    /// The entry.
    pub entry: EntryRef,
    /// Who recorded it; absent for what a device does by itself.
    pub by: Option<PersonId>,
    /// On which device, where its log's first entry is here.
    pub device: Option<DeviceId>,
    /// When it was recorded.
    pub recorded: Moment,
    /// Where it stands.
    pub standing: Standing,
    /// The reason given with it.
    pub reason: Option<String>,
    /// The entries it names.
    pub names: Vec<Naming>,
    /// Whether any other entry names it.
    pub named: bool,
    /// Whether the writer's clock stood earlier than at the entry it follows, by more than a minute.
    pub clock_back: bool,
    /// What it says.
    pub value: T,
}

impl<T> Stated<T> {
    /// Whether it is current.
    #[must_use]
    pub fn is_live(&self) -> bool {
        self.standing.is_live()
    }

    /// The same about a part of the value.
    pub fn map<U>(self, part: impl FnOnce(T) -> U) -> Stated<U> {
        let Self { entry, by, device, recorded, standing, reason, names, named, clock_back, value } = self;
        Stated { entry, by, device, recorded, standing, reason, names, named, clock_back, value: part(value) }
    }

    /// The same about a part that the value may not have.
    pub(super) fn filter_map<U>(self, part: impl FnOnce(T) -> Option<U>) -> Option<Stated<U>> {
        let Self { entry, by, device, recorded, standing, reason, names, named, clock_back, value } = self;
        part(value).map(|value| Stated {
            entry,
            by,
            device,
            recorded,
            standing,
            reason,
            names,
            named,
            clock_back,
            value,
        })
    }
}

/// What bears on an entry: the withdrawal, replacement, settlement or correction that names it and acts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Acting {
    /// What it does.
    pub role: Role,
    /// The entry that does it.
    pub entry: EntryRef,
    /// Its kind.
    pub kind: Kind,
    /// Who recorded it.
    pub by: Option<PersonId>,
    /// When.
    pub recorded: Moment,
    /// The reason given.
    pub reason: Option<String>,
}

/// A facet: its live values and the earlier ones, each in the one order that holds on every device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Facet<T> {
    /// Current values. Two of them differ and wait for a person to settle them.
    pub live: Vec<Stated<T>>,
    /// Values that are no longer current, or say the same as a live one.
    pub earlier: Vec<Stated<T>>,
}

impl<T> Default for Facet<T> {
    fn default() -> Self {
        Self { live: Vec::new(), earlier: Vec::new() }
    }
}

impl<T: PartialEq> Facet<T> {
    /// Sorts statements of one facet into live and earlier ones.
    #[must_use]
    pub fn of(stated: Vec<Stated<T>>) -> Self {
        let mut facet = Self::default();
        for one in stated {
            if one.is_live() && !facet.live.iter().any(|live| live.value == one.value) {
                facet.live.push(one);
            } else {
                facet.earlier.push(one);
            }
        }
        facet
    }

    /// The value, if there is exactly one.
    #[must_use]
    pub fn one(&self) -> Option<&T> {
        match &self.live[..] {
            [one] => Some(&one.value),
            _ => None,
        }
    }

    /// The first live value: to name a thing by while two wait to be settled.
    #[must_use]
    pub fn first(&self) -> Option<&T> {
        self.live.first().map(|one| &one.value)
    }

    /// Whether two values wait for a person to settle them.
    #[must_use]
    pub fn is_unsettled(&self) -> bool {
        self.live.len() > 1
    }

    /// The entries a new value has to replace to be the only one.
    #[must_use]
    pub fn current(&self) -> Vec<EntryRef> {
        self.live.iter().chain(self.earlier.iter().filter(|one| one.is_live())).map(|one| one.entry).collect()
    }
}
