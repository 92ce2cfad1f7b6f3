//! The job as it was known at an earlier instant: what was recorded later is left out.

use super::JobFile;
use provenohm_assess::moment::Moment;

impl JobFile {
    /// The same job with everything left out that was recorded after `until`.
    #[must_use]
    pub fn known_at(mut self, until: Moment) -> Self {
        self.readings.retain(|taken| taken.recorded_at <= until);
        for taken in &mut self.readings {
            taken.corrections.retain(|correction| correction.recorded_at <= until);
            taken.live.retain(|circumstances| circumstances.recorded_at <= until);
            taken.kept_at.take_if(|kept| *kept > until);
            taken.past.take_if(|past| past.recorded_at > until);
        }
        self.job.rules_also.retain(|rules| rules.recorded_at <= until);
        self.not_tested.retain(|said| said.recorded_at <= until);
        self.recall_resolved.retain(|said| said.recorded_at <= until);
        self.requested.retain(|asked| asked.recorded_at <= until);
        self.accepted.retain(|said| said.recorded_at <= until);
        self.cautions_read.retain(|read| read.at <= until);
        for circuit in self.boards.iter_mut().flat_map(|board| board.circuits.iter_mut().chain(&mut board.removed)) {
            circuit.notes.retain(|note| note.at <= until);
        }
        for tester in &mut self.testers {
            tester.card_also.retain(|card| card.recorded_at <= until);
            if tester.card.take_if(|card| card.recorded_at > until).is_some() && !tester.card_also.is_empty() {
                tester.card = Some(tester.card_also.remove(0));
            }
            tester.verifications.retain(|it| it.recorded_at <= until);
            tester.lead_checks.retain(|it| it.recorded_at <= until);
            tester.quick_checks.retain(|it| it.recorded_at <= until);
            tester.damages.retain(|it| it.recorded_at <= until);
        }
        self
    }
}
