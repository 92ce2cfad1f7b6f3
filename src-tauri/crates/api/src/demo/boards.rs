//! The demo's boards and circuits.

use crate::failure::Failure;
use crate::ops::{circuits, jobs};
use crate::state::State;
use crate::views::{CircuitForm, SaveCircuit};
use provenohm_assess::circuit::{Conductors, Current, Loads};
use provenohm_assess::ids::{BoardId, JobId};
use provenohm_assess::limits::MeasureName;

/// The boards of the demo.
pub(super) struct Boards {
    /// Recorded without a fault of value.
    pub(super) main: BoardId,
    /// Nothing recorded: 54 pairs to read.
    pub(super) east: BoardId,
    /// Recorded with everything there is to look at.
    pub(super) workshop: BoardId,
}

/// A kind of circuit.
#[derive(Clone, Copy)]
enum Kind {
    Single,
    SingleJoined,
    Three,
    ThreeN,
    ThreeNJoined,
    Motor690,
    SurgeProtector,
    Selv,
    SelvDc,
    Pelv,
    Felv,
    Separation,
}

use Kind::{
    Felv, Motor690, Pelv, Selv, SelvDc, Separation, Single, SingleJoined, SurgeProtector, Three, ThreeN, ThreeNJoined,
};

const MAIN: [(Kind, &str); 24] = [
    (ThreeN, "demo-submain-east"),
    (ThreeN, "demo-submain-workshop"),
    (SurgeProtector, "demo-surge-protector"),
    (Three, "demo-lift"),
    (Motor690, "demo-fan-motor"),
    (ThreeN, "demo-range"),
    (Single, "demo-sockets-hall"),
    (Single, "demo-sockets-office"),
    (Single, "demo-sockets-kitchen"),
    (Single, "demo-boiler"),
    (Single, "demo-lighting-hall"),
    (Single, "demo-lighting-office"),
    (SingleJoined, "demo-lighting-stairs"),
    (SingleJoined, "demo-lighting-cellar"),
    (Selv, "demo-display-lighting"),
    (Selv, "demo-cabinet-lighting"),
    (Felv, "demo-control"),
    (Pelv, "demo-door-control"),
    (Separation, "demo-shaver"),
    (Single, "demo-sockets-cellar"),
    (Single, "demo-water-heater"),
    (SingleJoined, "demo-sign"),
    (SingleJoined, "demo-lighting-outside"),
    (Single, "demo-spare"),
];

const EAST: [(Kind, &str); 12] = [
    (Single, "demo-sockets-east"),
    (Single, "demo-sockets-west"),
    (Single, "demo-sockets-kitchen"),
    (Single, "demo-lighting-hall"),
    (Single, "demo-lighting-stairs"),
    (Single, "demo-lighting-office"),
    (Single, "demo-oven"),
    (Single, "demo-dishwasher"),
    (Single, "demo-water-heater"),
    (ThreeN, "demo-range"),
    (ThreeN, "demo-charging"),
    (ThreeNJoined, "demo-submain-annex"),
];

const WORKSHOP: [(Kind, &str); 24] = [
    (ThreeN, "demo-lathe"),
    (ThreeN, "demo-mill"),
    (Three, "demo-compressor"),
    (Three, "demo-saw"),
    (Three, "demo-hoist"),
    (ThreeN, "demo-welding"),
    (Three, "demo-pump"),
    (ThreeN, "demo-oven-drying"),
    (Single, "demo-sockets-bench"),
    (Single, "demo-sockets-wall"),
    (Single, "demo-sockets-store"),
    (Single, "demo-lighting-hall"),
    (Single, "demo-lighting-bench"),
    (Single, "demo-lighting-store"),
    (Single, "demo-heater"),
    (Single, "demo-fan"),
    (SingleJoined, "demo-lighting-yard"),
    (SingleJoined, "demo-gate"),
    (Single, "demo-sockets-office"),
    (Single, "demo-lighting-office"),
    (SelvDc, "demo-sensors"),
    (Felv, "demo-control"),
    (Separation, "demo-hand-lamp"),
    (Single, "demo-spare"),
];

/// Puts the boards with their circuits into the job.
pub(super) fn make(state: &mut State, job: JobId) -> Result<Boards, Failure> {
    let mut board = |name: &str, circuits: &[(Kind, &str)]| -> Result<BoardId, Failure> {
        let name = state.words.text(name);
        let board = jobs::put_board(state, job, &name)?;
        for (index, (kind, key)) in circuits.iter().enumerate() {
            let description = state.words.text(key);
            let form = CircuitForm { reference: (index + 1).to_string(), description, ..kind.form() };
            circuits::save_circuit(state, SaveCircuit { board, circuit: None, form })?;
        }
        Ok(board)
    };
    Ok(Boards {
        main: board("demo-board-main", &MAIN)?,
        east: board("demo-board-east", &EAST)?,
        workshop: board("demo-board-workshop", &WORKSHOP)?,
    })
}

impl Kind {
    /// The form it is typed as.
    fn form(self) -> CircuitForm {
        let plain = CircuitForm {
            reference: String::new(),
            description: String::new(),
            nominal: "230".to_owned(),
            current: Current::Ac,
            to_earth: String::new(),
            measure: MeasureName::None,
            felv_supply: String::new(),
            conductors: Conductors::SinglePhase,
            loads: Loads::Out,
            joined_to_earth: false,
            spd_stays: false,
            item: None,
            location: None,
            notes: String::new(),
        };
        let three = |conductors| CircuitForm {
            nominal: "400".to_owned(),
            to_earth: "230".to_owned(),
            conductors,
            ..plain.clone()
        };
        let low = |measure| CircuitForm { nominal: "24".to_owned(), measure, ..plain.clone() };
        match self {
            Single => plain,
            SingleJoined => CircuitForm { joined_to_earth: true, ..plain },
            Three => three(Conductors::ThreePhase),
            ThreeN => three(Conductors::ThreePhaseN),
            ThreeNJoined => CircuitForm { joined_to_earth: true, ..three(Conductors::ThreePhaseN) },
            SurgeProtector => CircuitForm { joined_to_earth: true, spd_stays: true, ..three(Conductors::ThreePhaseN) },
            Motor690 => {
                CircuitForm { nominal: "690".to_owned(), to_earth: "400".to_owned(), ..three(Conductors::ThreePhase) }
            }
            Selv => low(MeasureName::Selv),
            SelvDc => CircuitForm { current: Current::Dc, conductors: Conductors::Dc, ..low(MeasureName::Selv) },
            Pelv => low(MeasureName::Pelv),
            Felv => CircuitForm { felv_supply: "230".to_owned(), ..low(MeasureName::Felv) },
            Separation => CircuitForm { measure: MeasureName::Separation, ..plain },
        }
    }
}
