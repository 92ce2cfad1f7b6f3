//! The command line.

use clap::{Args, Parser, Subcommand};
use provenohm_api::headless;
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Accuracy, Farads, Ohms, Percent, Shown, Volts};
use std::net::SocketAddr;
use std::path::PathBuf;

/// Insulation resistance: limits, judgements and schedules without a window.
#[derive(Parser)]
#[command(name = "provenohm-office", version)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// How a hub is started.
#[derive(Args)]
pub(crate) struct Serve {
    /// Folder of the record; absent: one in the folder this system keeps data in
    #[arg(long)]
    pub(crate) record: Option<PathBuf>,
    /// Address and port; port 0 takes a free one. Encrypted unless it is this machine's own address
    #[arg(long, default_value = "127.0.0.1:7117")]
    pub(crate) listen: SocketAddr,
    /// A name by which it is reached; may be given several times
    #[arg(long)]
    pub(crate) name: Vec<String>,
    /// The firm's certificate, as a PEM file; absent: one of its own
    #[arg(long, requires = "key")]
    pub(crate) certificate: Option<PathBuf>,
    /// The key of that certificate, as a PEM file
    #[arg(long, requires = "certificate")]
    pub(crate) key: Option<PathBuf>,
    /// Where the entries are kept, `postgres://…`; absent: beside the record. Encrypted unless the database is on this machine
    /// or its address says sslmode=disable; SSL_CERT_FILE names its root where this machine does not trust it
    #[arg(long)]
    pub(crate) store: Option<String>,
}

#[derive(Subcommand)]
pub(crate) enum Command {
    /// The limit sets that come with the program
    Sets {
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// What a set asks of a circuit: test voltage, minimum, required pairs, source
    Limit {
        #[command(flatten)]
        circuit: Circuit,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// One reading judged against one limit, with every figure used
    Explain(Explain),
    /// Every circuit and pair of a job file, judged
    Judge {
        /// The job file
        file: PathBuf,
        /// With what was recorded until then, for example 2026-11-25T12:00:00+01:00
        #[arg(long, value_parser = moment, allow_hyphen_values = true)]
        at: Option<Moment>,
        /// As JSON
        #[arg(long)]
        json: bool,
        /// Exit 3, and say why, unless every required pair meets, is proved, and has no fault of method
        #[arg(long)]
        strict: bool,
    },
    /// A verification of a tester, computed: errors, budgets, requirements, where indications hold
    Bench {
        /// The verification file
        file: PathBuf,
        /// As JSON, with every step
        #[arg(long)]
        json: bool,
    },
    /// The report of a verification: every input, step and source
    TesterReport {
        /// The verification file
        #[arg(required_unless_present = "record", conflicts_with = "record")]
        file: Option<PathBuf>,
        /// Folder of a record, in place of a file
        #[arg(long, requires = "tester")]
        record: Option<PathBuf>,
        /// Of a record: id or serial number of the tester
        #[arg(long, requires = "record")]
        tester: Option<String>,
        /// Of a record: id of the run; absent: the latest that became a verification
        #[arg(long, requires = "record")]
        bench: Option<String>,
        /// Where to: .pdf, .xlsx or .json
        #[arg(short, long)]
        output: PathBuf,
    },
    /// The schedule of a job file
    Schedule {
        /// The job file
        file: PathBuf,
        /// Where to: .pdf, .xlsx or .csv
        #[arg(short, long)]
        output: PathBuf,
    },
    /// Makes a new job in a record from a job file
    Import {
        /// The job file
        file: PathBuf,
        /// Folder of the record
        #[arg(long)]
        record: PathBuf,
    },
    /// Writes a job of a record as a job file
    Export {
        /// Id or name of the job; not needed where there is only one
        #[arg(long)]
        job: Option<String>,
        /// Folder of the record
        #[arg(long)]
        record: PathBuf,
        /// Where to; absent: to the standard output
        #[arg(short, long)]
        output: Option<PathBuf>,
    },
    /// Writes a job of a record, with the testers its readings rely on, as a bundle for another device
    Bundle {
        /// Id or name of the job; not needed where there is only one
        #[arg(long)]
        job: Option<String>,
        /// Folder of the record
        #[arg(long)]
        record: PathBuf,
        /// Where to
        #[arg(short, long)]
        output: PathBuf,
    },
    /// Takes a bundle into a record, whole or not at all
    Receive {
        /// The bundle
        file: PathBuf,
        /// Folder of the record
        #[arg(long)]
        record: PathBuf,
        /// Only tells what it holds, and takes nothing
        #[arg(long)]
        look: bool,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// Whether a schedule's PDF, a bundle or a record is what was signed, by whom and when; exit 3 if it is not
    Verify {
        /// The file, the folder of a record, or all parts of one schedule
        #[arg(required = true)]
        files: Vec<PathBuf>,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// What circuits read together: 1/R = Σ 1/Rᵢ
    Parallel {
        /// Their resistances, for example '1.5 MΩ' '> 999 MΩ'
        #[arg(required = true, value_parser = shown)]
        members: Vec<Shown>,
        /// Expanded uncertainty (95 %) of each, for example '3 %'
        #[arg(long, value_parser = percent)]
        uncertainty: Option<Percent>,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// What a circuit has by itself, from its group read with it and without it
    Own {
        /// The group with the circuit, for example '1.50 MΩ'
        #[arg(long, value_parser = shown)]
        with: Shown,
        /// The group without it
        #[arg(long, value_parser = shown)]
        without: Shown,
        /// Expanded uncertainty (95 %) of each reading, for example '3 %'
        #[arg(long, value_parser = percent)]
        uncertainty: Percent,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// How long a cable holds its charge: t = R·C·ln(V₀/V). A figure to plan with, never a proof that it is discharged
    Discharge {
        /// The resistance it discharges through, for example '750 kΩ'
        #[arg(long, value_parser = ohms)]
        through: Ohms,
        /// Capacitance of the cable, for example '0.3 µF'
        #[arg(long, value_parser = farads)]
        capacitance: Farads,
        /// The test voltage, V
        #[arg(long, value_parser = volts, allow_hyphen_values = true)]
        from: Volts,
        /// The voltage it falls to, V
        #[arg(long, value_parser = volts, allow_hyphen_values = true)]
        to: Volts,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// The readings a failed tester puts in doubt, on every job of a record
    Recall {
        /// Id or serial number of the tester
        #[arg(long)]
        tester: String,
        /// Folder of the record
        #[arg(long)]
        record: PathBuf,
        /// As JSON
        #[arg(long)]
        json: bool,
        /// As a file too: .pdf or .csv
        #[arg(short, long)]
        output: Option<PathBuf>,
    },
    /// The hub: the same screens in a browser, behind a login, and phones kept in step
    Serve(Serve),
    /// Backs up a hub, while it runs, and holds the backup against it
    Backup {
        /// Folder of the hub's record; of one in a database that of an instance, for its certificate and key
        #[arg(long, required_unless_present = "store")]
        record: Option<PathBuf>,
        /// The database it is served with, `postgres://…`
        #[arg(long)]
        store: Option<String>,
        /// Folder of the backup; an earlier one of the same hub is brought up to date
        #[arg(long)]
        output: PathBuf,
    },
    /// Brings a backup of a hub back into an empty folder. From there `move` carries it into a database
    Restore {
        /// Folder of the backup
        #[arg(long)]
        from: PathBuf,
        /// Folder of the new record
        #[arg(long)]
        record: PathBuf,
    },
    /// Moves a hub into PostgreSQL; it must not run. Stopped, it goes on where it was
    Move {
        /// Folder of the hub's record
        #[arg(long)]
        record: PathBuf,
        /// The database, `postgres://…`
        #[arg(long)]
        to: String,
    },
    /// Puts the invented demo job into a record
    Demo {
        /// Folder of the record
        #[arg(long)]
        record: PathBuf,
    },
}

/// A circuit, as far as its limit needs it.
#[derive(Args)]
pub(crate) struct Circuit {
    /// Id of the limit set, as `sets` tells
    #[arg(long, required_unless_present = "set_file")]
    pub(crate) set: Option<String>,
    /// A limit set of one's own: its file, in place of --set
    #[arg(long, conflicts_with = "set")]
    pub(crate) set_file: Option<PathBuf>,
    /// Nominal voltage, V
    #[arg(long, value_parser = volts, allow_hyphen_values = true)]
    pub(crate) nominal: Volts,
    /// Protective measure: none, selv, pelv, felv, separation
    #[arg(long, default_value = "none")]
    pub(crate) measure: String,
    /// Kind of current: ac, dc
    #[arg(long, default_value = "ac")]
    pub(crate) current: String,
    /// Voltage to earth, V
    #[arg(long, value_parser = volts, allow_hyphen_values = true)]
    pub(crate) to_earth: Option<Volts>,
    /// FELV: nominal voltage of the supply, V
    #[arg(long, value_parser = volts, allow_hyphen_values = true)]
    pub(crate) supply: Option<Volts>,
    /// Loads: out, connected, electronics
    #[arg(long, default_value = "out")]
    pub(crate) loads: String,
    /// A special item: heating_element, functional_earth
    #[arg(long)]
    pub(crate) item: Option<String>,
    /// Live conductors, for example single_phase, three_phase_n
    #[arg(long)]
    pub(crate) conductors: Option<String>,
    /// Equipment: before it is connected, or after
    #[arg(long, default_value = "before")]
    pub(crate) stage: String,
}

#[derive(Args)]
pub(crate) struct Explain {
    /// What the display shows, for example '1.05 MΩ' or '> 999 MΩ'
    #[arg(long, value_parser = shown, allow_hyphen_values = true)]
    pub(crate) reading: Shown,
    #[command(flatten)]
    pub(crate) circuit: Circuit,
    /// The pair, for example L-PE; absent: the one with the highest minimum
    #[arg(long)]
    pub(crate) pair: Option<String>,
    /// Stated accuracy, for example '3 % + 2'
    #[arg(long, value_parser = accuracy, allow_hyphen_values = true)]
    pub(crate) accuracy: Option<Accuracy>,
    /// Step of the display there, for example '0.01 MΩ'
    #[arg(long, value_parser = ohms, allow_hyphen_values = true)]
    pub(crate) resolution: Option<Ohms>,
    /// How the value is compared: simple, guarded
    #[arg(long, default_value = "simple")]
    pub(crate) policy: String,
    /// Test voltage it was taken at, V; absent: the one the set asks for
    #[arg(long, value_parser = volts, allow_hyphen_values = true)]
    pub(crate) taken: Option<Volts>,
    /// Why a lower test voltage was used: surge_protector, equipment, equipment_connected
    #[arg(long)]
    pub(crate) reduced: Option<String>,
    /// As JSON
    #[arg(long)]
    pub(crate) json: bool,
}

fn volts(text: &str) -> Result<Volts, String> {
    let above_zero = Volts::parse(text).ok().filter(|volts| *volts > Volts::default());
    above_zero.ok_or_else(headless::no_volts)
}

fn shown(text: &str) -> Result<Shown, String> {
    Shown::parse(text).map_err(|refusal| headless::refusal(refusal, text))
}

fn ohms(text: &str) -> Result<Ohms, String> {
    Ohms::parse(text).map_err(|refusal| headless::refusal(refusal, text))
}

fn farads(text: &str) -> Result<Farads, String> {
    Farads::parse(text).map_err(|_| headless::no_farads())
}

fn percent(text: &str) -> Result<Percent, String> {
    Percent::parse(text).map_err(|_| headless::no_percent())
}

fn accuracy(text: &str) -> Result<Accuracy, String> {
    Accuracy::parse(text).map_err(|_| headless::no_accuracy())
}

fn moment(text: &str) -> Result<Moment, String> {
    text.parse().map_err(|_| headless::no_moment())
}
