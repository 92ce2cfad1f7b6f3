//! Someone who walks along a board and records what the tester shows.

use super::Clock;
use crate::failure::Failure;
use crate::ops::run;
use crate::state::State;
use crate::views::{
    ChooseTester, Indication, LeadCheckAsk, LeadIndication, RunAsk, RunView, SaveReading, SetConditions, SetVolts,
    SlotId, Typed, UnitKey,
};
use chrono::Duration;
use provenohm_assess::ids::{BoardId, TesterId};
use provenohm_assess::quantity::Comparator;
use provenohm_assess::tester::LeadEnd;

/// One recorder at one board.
pub(super) struct Recorder<'a> {
    pub(super) state: &'a mut State,
    pub(super) clock: &'a Clock,
    pub(super) board: BoardId,
}

impl Recorder<'_> {
    /// Takes a tester and checks its leads.
    pub(super) fn take(&mut self, tester: TesterId) -> Result<(), Failure> {
        self.clock.wait(Duration::minutes(4));
        run::choose_tester(self.state, ChooseTester { board: self.board, tester })?;
        run::set_volts(self.state, SetVolts { board: self.board, volts: 500 })?;
        let loads = provenohm_assess::circuit::Loads::Out;
        let conditions = SetConditions { board: self.board, loads, n_isolated: Some(true), reduced: None };
        run::set_conditions(self.state, conditions)?;
        for (leads, indication) in
            [(LeadEnd::Shorted, LeadIndication::NearZero), (LeadEnd::Open, LeadIndication::OverRange)]
        {
            self.clock.wait(Duration::seconds(20));
            run::record_lead_check(self.state, LeadCheckAsk { board: self.board, leads, indication })?;
        }
        Ok(())
    }

    /// The screen now.
    pub(super) fn screen(&mut self) -> Result<RunView, Failure> {
        run::run(self.state, RunAsk { board: self.board, slot: None, circuit: None })
    }

    /// Reads pairs until the circuit of that reference has none open. `shows` says what the tester shows at each:
    /// nothing for over-range, else megohms as typed.
    pub(super) fn through(
        &mut self,
        last: u32,
        mut shows: impl FnMut(u32, &str) -> Option<&'static str>,
    ) -> Result<(), Failure> {
        loop {
            let screen = self.screen()?;
            let (Some(circuit), Some(slot)) = (&screen.circuit, &screen.slot) else { return Ok(()) };
            let number: u32 = circuit.reference.parse().unwrap_or(u32::MAX);
            if number > last {
                return Ok(());
            }
            if let Some(ask) = &screen.ask_volts {
                self.clock.wait(Duration::seconds(10));
                run::set_volts(self.state, SetVolts { board: self.board, volts: ask.volts })?;
            }
            let name = screen.slots.iter().find(|one| one.id == *slot).map_or("", |one| one.name.as_str());
            self.save(slot.clone(), shows(number, name))?;
        }
    }

    fn save(&mut self, slot: SlotId, megohms: Option<&str>) -> Result<(), Failure> {
        self.clock.wait(Duration::seconds(25));
        let indication = match megohms {
            None => Indication::OverRange,
            Some(text) => {
                Indication::Typed(Typed { text: text.to_owned(), comparator: Comparator::Exact, unit: UnitKey::M })
            }
        };
        run::save_reading(self.state, SaveReading { board: self.board, slot, indication })?;
        Ok(())
    }
}
