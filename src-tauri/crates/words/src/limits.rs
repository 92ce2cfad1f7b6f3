//! What a limit set asks, and where it says so.

use crate::words::Words;
use provenohm_assess::limits::{Limit, Minimum, ReducedReason, Source, Tag};

impl Words {
    /// What is asked of a pair: `500 V d.c., at least 1.0 MΩ, IEC 60364-6:2016 Table 6.1`.
    #[must_use]
    pub fn demand(&self, limit: &Limit) -> String {
        let minimum = ("minimum", self.ohms(limit.minimum_ohm).into());
        let source = ("source", self.source(&limit.source).into());
        match limit.test_voltage_v {
            Some(volts) => self.text_with("said-limit-demand", &[("volts", self.volts(volts).into()), minimum, source]),
            None => self.text_with("said-limit-demand-no-voltage", &[minimum, source]),
        }
    }

    /// The test voltage asked for, or that the set states none: `500 V d.c.`.
    #[must_use]
    pub fn asked_voltage(&self, limit: &Limit) -> String {
        match limit.test_voltage_v {
            Some(volts) => self.text_with("said-limit-voltage", &[("volts", self.volts(volts).into())]),
            None => self.text("said-limit-voltage-not-stated"),
        }
    }

    /// A minimum as a set states it: `at least 1.0 MΩ`, or ohms for each volt.
    #[must_use]
    pub fn minimum(&self, minimum: Minimum) -> String {
        match minimum {
            Minimum::Ohm(ohms) => self.text_with("said-limit-minimum", &[("minimum", self.ohms(ohms).into())]),
            Minimum::OhmPerVolt(ohms) => {
                self.text_with("said-limit-ohms-per-volt", &[("ohms", self.ohms(ohms).into())])
            }
        }
    }

    /// A publication and the place in it: `IEC 60364-6:2016 Table 6.1`.
    #[must_use]
    pub fn source(&self, source: &Source) -> String {
        if source.place.is_empty() {
            return source.title.clone();
        }
        self.text_with("said-limit-source", &[("title", (&source.title).into()), ("place", (&source.place).into())])
    }

    /// Where a limit comes from, with the set it was taken from where that is not the publication itself.
    #[must_use]
    pub fn limit_source(&self, limit: &Limit) -> String {
        let source = self.source(&limit.source);
        if limit.set == limit.source.title {
            return source;
        }
        self.text_with("said-limit-source-of-set", &[("source", source.into()), ("set", (&limit.set).into())])
    }

    /// How a figure reached this program: `read in a published page`.
    #[must_use]
    pub fn tag(&self, tag: Tag) -> String {
        self.text(match tag {
            Tag::Seen => "said-tag-seen",
            Tag::MemoryHigh => "said-tag-memory-high",
            Tag::MemoryMedium => "said-tag-memory-medium",
            Tag::MemoryLow => "said-tag-memory-low",
            Tag::Calculated => "said-tag-calculated",
            Tag::Practice => "said-tag-practice",
            Tag::User => "said-tag-user",
        })
    }

    /// Why a lower test voltage was used.
    #[must_use]
    pub fn reduced_reason(&self, reason: ReducedReason) -> String {
        self.text(match reason {
            ReducedReason::SurgeProtector => "said-reduced-surge-protector",
            ReducedReason::Equipment => "said-reduced-equipment",
            ReducedReason::EquipmentConnected => "said-reduced-equipment-connected",
        })
    }
}
