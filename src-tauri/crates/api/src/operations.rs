//! The one list of operations: name, what is asked, what is told.

use crate::typescript::Collector;
use crate::views::*;

macro_rules! operations {
    ($($(#[doc = $doc:literal])+ $name:ident: $asked:ty => $told:ty;)+) => {
        /// The names of all operations.
        pub const OPERATIONS: &[&str] = &[$(stringify!($name)),+];

        /// Tells the collector every operation with its types, in the order of the list.
        pub(crate) fn describe(collector: &mut Collector) {
            $(collector.operation::<$asked, $told>(stringify!($name), &[$($doc),+]);)+
        }
    };
}

operations! {
    /// The catalogue of a language, as Fluent source.
    catalogue: CatalogueAsk => CatalogueView;
    /// Settings of this device.
    settings: NoInput => SettingsView;
    /// Keeps settings of this device.
    set_settings: Settings => SettingsView;
    /// Where the person was.
    place: NoInput => Place;
    /// Keeps where the person is.
    set_place: Place => Nothing;

    /// The jobs on this device.
    jobs: NoInput => JobsView;
    /// Starts a job.
    start_job: StartJob => JobView;
    /// Puts the invented demo job into the record.
    make_demo: NoInput => JobView;
    /// One job.
    job: OfJob => JobView;
    /// Another name or place.
    set_job_names: SetJobNames => JobView;
    /// Another limit set or other policies.
    set_job_rules: SetJobRules => JobView;
    /// A person more.
    add_person: AddPerson => JobView;
    /// Says who records on this device.
    be_person: BePerson => JobView;
    /// A board more.
    add_board: AddBoard => JobView;
    /// Another name for a board.
    rename_board: RenameBoard => JobView;
    /// Takes a board away; its readings stay in the record.
    remove_board: OfBoard => JobView;
    /// Chooses between two live values.
    settle: Settle => JobView;
    /// The limit sets there are.
    limit_sets: NoInput => SetsView;
    /// Takes a limit set of one's own.
    load_set: LoadSet => SetsView;

    /// A board's circuits with what follows from each.
    circuits: OfBoard => CircuitsView;
    /// What follows from a form, or what is wrong with it.
    check_circuit: CheckCircuit => CircuitChecked;
    /// A new circuit, or a change to one.
    save_circuit: SaveCircuit => CircuitsChanged;
    /// Many numbered circuits of one kind.
    add_many_circuits: AddManyCircuits => CircuitsChanged;
    /// What a pasted or imported table would make.
    preview_circuits: CircuitTable => CircuitsPreview;
    /// Takes a pasted or imported table, whole or not at all.
    import_circuits: CircuitTable => CircuitsChanged;
    /// One place up or down.
    move_circuit: MoveCircuit => CircuitsView;
    /// Takes a circuit away; its readings stay in the record.
    remove_circuit: OfCircuit => CircuitsChanged;
    /// Brings a circuit back.
    restore_circuit: OfCircuit => CircuitsChanged;
    /// Takes an act back.
    undo: UndoAsk => Done;

    /// Opens Run, or jumps in it.
    run: RunAsk => RunView;
    /// Keeps half-typed digits; told at each key.
    draft: Draft => DraftView;
    /// Saves a reading and moves on.
    save_reading: SaveReading => Saved;
    /// Marks a pair *not tested* and moves on.
    mark_not_tested: MarkNotTested => Saved;
    /// Takes back this person's last act on this board; without end.
    undo_reading: OfBoard => Undone;
    /// A note on a slot.
    set_note: SetNote => RunView;
    /// The tester in hand.
    choose_tester: ChooseTester => RunView;
    /// The tester is set to this test voltage.
    set_volts: SetVolts => RunView;
    /// Before or after equipment is connected.
    set_stage: SetStage => RunView;
    /// Conditions from now on.
    set_conditions: SetConditions => RunView;
    /// Lives joined for the test to earth, or singly.
    set_joined: SetJoined => RunView;
    /// Leads shorted or open.
    record_lead_check: LeadCheckAsk => LeadChecked;

    /// The testers on this device.
    testers: NoInput => TestersView;
    /// One tester.
    tester: OfTester => TesterView;
    /// A new tester, or a change to one.
    save_tester: SaveTester => TesterView;
    /// Records a verification.
    record_verification: RecordVerification => TesterView;
    /// Withdraws a verification.
    withdraw_verification: WithdrawVerification => TesterView;

    /// Things to look at, worst first, and the boards at a glance.
    look: OfJob => LookView;
    /// Where a slot's readings come from.
    origin: OfSlot => OriginView;
    /// Readings to choose from for a correction.
    readings: ReadingsAsk => ReadingsView;
    /// Corrects tester, test voltage, time or conditions of many readings.
    correct_readings: CorrectReadings => Done;
    /// A reading in place of another.
    replace_reading: ReplaceReading => Done;
    /// Withdraws a reading.
    withdraw_reading: WithdrawReading => Done;

    /// What the schedule will say, as a list.
    schedule: OfJob => ScheduleView;
    /// A page of the schedule as a picture.
    preview_page: PageAsk => PageView;
    /// Writes the schedule to a file.
    make_schedule: MakeSchedule => Written;
    /// Writes a job file.
    export_job: OfJob => Written;
    /// What a job file holds.
    preview_job_file: JobFileText => JobFilePreview;
    /// Makes a new job from a job file.
    import_job_file: JobFileText => Imported;
    /// The cautions.
    cautions: OfJob => CautionsView;
    /// This person has read the cautions for this job.
    confirm_cautions: OfJob => CautionsView;
}
