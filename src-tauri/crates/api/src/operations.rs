//! The one list of operations: name, what is asked, what is told.

use crate::failure::Failure;
use crate::ops;
use crate::state::State;
use crate::typescript::Collector;
use crate::views::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

fn read<T: DeserializeOwned>(input: Value) -> Result<T, Failure> {
    serde_json::from_value(input).map_err(|error| Failure::of("bad_input").because(error))
}

/// What is told, as the host carries it.
pub(crate) fn write<T: Serialize>(told: &T) -> Result<Value, Failure> {
    serde_json::to_value(told).map_err(|error| Failure::of("unexpected").because(error))
}

macro_rules! operations {
    ($($(#[doc = $doc:literal])+ $name:ident: $asked:ty => $told:ty, $noun:ident;)+) => {
        /// The names of all operations.
        pub const OPERATIONS: &[&str] = &[$(stringify!($name)),+];

        /// Tells the collector every operation with its types, in the order of the list.
        pub(crate) fn describe(collector: &mut Collector) {
            $(collector.operation::<$asked, $told>(stringify!($name), &[$($doc),+]);)+
        }

        /// Finds the operation, reads what is asked, writes what is told. An operation of the list without its
        /// function in `ops` does not compile.
        pub(crate) fn dispatch(state: &mut State, operation: &str, input: Value) -> Result<Value, Failure> {
            match operation {
                $(stringify!($name) => {
                    let asked: $asked = read(input)?;
                    let told: $told = ops::$noun::$name(state, asked)?;
                    write(&told)
                })+
                unknown => Err(Failure::of("unknown_operation").because(unknown)),
            }
        }
    };
}

operations! {
    /// The catalogue of a language, as Fluent source.
    catalogue: CatalogueAsk => CatalogueView, start;
    /// Settings of this device.
    settings: NoInput => SettingsView, start;
    /// Keeps settings of this device.
    set_settings: Settings => SettingsView, start;
    /// Where the person was.
    place: NoInput => Place, start;
    /// Keeps where the person is.
    set_place: Place => Nothing, start;

    /// The jobs on this device.
    jobs: NoInput => JobsView, jobs;
    /// Every job at a glance with what it lacks, the testers by when they are due, and the recalls.
    overview: NoInput => OverviewView, overview;
    /// The readings whose tester was not proved, job by job: of which tester, why, where, and what to do.
    unproved: UnprovedAsk => UnprovedView, overview;
    /// Starts a job.
    start_job: StartJob => JobView, jobs;
    /// Puts the invented demo job into the record.
    make_demo: NoInput => JobView, jobs;
    /// One job.
    job: OfJob => JobView, jobs;
    /// Another name or place.
    set_job_names: SetJobNames => JobView, jobs;
    /// Another limit set or other policies.
    set_job_rules: SetJobRules => JobView, rules;
    /// A person more.
    add_person: AddPerson => JobView, jobs;
    /// Says who records on this device.
    be_person: BePerson => JobView, jobs;
    /// The devices a job is recorded on, and which of them it knows.
    devices: OfJob => DevicesView, devices;
    /// Vouches for a device.
    vouch_for_device: VouchForDevice => DevicesView, devices;
    /// A board more.
    add_board: AddBoard => JobView, jobs;
    /// Another name for a board.
    rename_board: RenameBoard => JobView, jobs;
    /// Says who does a board; anybody may still record on it.
    set_board_people: SetBoardPeople => JobView, jobs;
    /// Takes a board away; its readings stay in the record.
    remove_board: OfBoard => Done, jobs;
    /// What waits to be settled in a job.
    settling: OfJob => SettlingView, settle;
    /// Chooses between what stands side by side; all of it stays in the record.
    settle: Settle => Settled, settle;
    /// The limit sets there are.
    limit_sets: NoInput => SetsView, rules;
    /// Takes a limit set of one's own.
    load_set: LoadSet => SetsView, rules;

    /// A board's circuits with what follows from each.
    circuits: OfBoard => CircuitsView, circuits;
    /// What follows from a form, or what is wrong with it.
    check_circuit: CheckCircuit => CircuitChecked, circuits;
    /// A new circuit, or a change to one.
    save_circuit: SaveCircuit => CircuitsChanged, circuits;
    /// Many numbered circuits of one kind.
    add_many_circuits: AddManyCircuits => CircuitsChanged, circuits;
    /// What a pasted or imported table would make.
    preview_circuits: CircuitTable => CircuitsPreview, table;
    /// Takes a pasted or imported table, whole or not at all.
    import_circuits: CircuitTable => CircuitsChanged, table;
    /// The first sheet of a spreadsheet file as the text of a table.
    read_spreadsheet: SpreadsheetFile => SheetText, spreadsheet;
    /// What a pasted or imported table of readings would make.
    preview_readings: ReadingTable => ReadingsPreview, readings_table;
    /// Takes a pasted or imported table of readings, whole or not at all.
    import_readings: ReadingTable => Done, readings_table;
    /// A board as a grid to record in.
    grid: OfBoard => GridView, grid;
    /// Moves a circuit up or down by some places.
    move_circuit: MoveCircuit => CircuitsView, circuits;
    /// A board's circuits or readings as a table to paste elsewhere.
    copy_out: CopyOut => CopiedOut, copy;
    /// Takes a circuit away; its readings stay in the record.
    remove_circuit: OfCircuit => CircuitsChanged, circuits;
    /// Brings a circuit back.
    restore_circuit: OfCircuit => CircuitsChanged, circuits;
    /// Takes an act back.
    undo: UndoAsk => Done, undo;

    /// Opens Run, or jumps in it.
    run: RunAsk => RunView, run;
    /// Keeps half-typed digits; told at each key.
    draft: Draft => DraftView, run;
    /// Saves a reading and moves on.
    save_reading: SaveReading => Saved, run;
    /// Marks a pair *not tested* and moves on.
    mark_not_tested: MarkNotTested => Saved, run;
    /// Takes back this person's last act on this board; without end.
    undo_reading: OfBoard => Undone, run;
    /// A note on a slot.
    set_note: SetNote => RunView, run;
    /// The tester in hand.
    choose_tester: ChooseTester => RunView, run;
    /// The tester is set to this test voltage.
    set_volts: SetVolts => RunView, run;
    /// Before or after equipment is connected.
    set_stage: SetStage => RunView, run;
    /// Conditions from now on.
    set_conditions: SetConditions => RunView, run;
    /// Lives joined for the test to earth, or singly.
    set_joined: SetJoined => RunView, run;
    /// Which circuits of a board one reading can serve, and why others cannot be among them.
    group_form: GroupAsk => GroupForm, run;
    /// Tests circuits together: all their live conductors joined, against earth.
    start_group: GroupAsk => RunView, run;
    /// Tests each circuit alone again.
    stop_group: OfBoard => RunView, run;
    /// Leads shorted or open.
    record_lead_check: LeadCheckAsk => LeadChecked, run;

    /// The testers on this device.
    testers: NoInput => TestersView, testers;
    /// One tester.
    tester: OfTester => TesterView, testers;
    /// A new tester, or a change to one.
    save_tester: SaveTester => TesterView, testers;
    /// Records a verification.
    record_verification: RecordVerification => TesterView, verifications;
    /// The last day that the tester's interval gives a verification of a day; nothing is filled in by it.
    suggest_last_day: SuggestLastDay => LastDay, interval;
    /// Withdraws a verification.
    withdraw_verification: WithdrawVerification => TesterView, verifications;

    /// What the quick check of a tester asks to connect, and what each is judged by.
    quick_check: OfTester => QuickCheckView, checks;
    /// Records a quick check: leads open and shorted, and the check box.
    record_quick_check: RecordQuickCheck => TesterView, checks;
    /// Reports damage to a tester: at a known instant, or at some time since its last good proof.
    report_damage: ReportDamage => TesterView, checks;
    /// Withdraws a quick check or a report of damage.
    withdraw_check: WithdrawCheck => TesterView, checks;
    /// The readings a failed tester puts in doubt, on every job.
    recall: RecallAsk => RecallView, recall;
    /// Says that nothing more has to be done about a reading put in doubt, and why.
    resolve_recall: ResolveRecall => RecallView, recall;
    /// Writes the recall list to a file.
    make_recall: MakeRecall => Written, recall;

    /// Whether something came that a screen does not show yet.
    pulse: NoInput => Pulse, office;
    /// How it stands with the office this device is kept in step with.
    office: NoInput => OfficeView, office;
    /// Asks to be enrolled at an office, with a code from there.
    enrol: Enrol => OfficeView, office;
    /// Asks to be brought in step now.
    keep_in_step: NoInput => OfficeView, office;
    /// Wants a job that is at the office.
    fetch_job: OfJob => OfficeView, office;
    /// Leaves the office; everything stays here.
    leave_office: NoInput => OfficeView, office;

    /// The references on this device: known resistors and meters.
    references: NoInput => ReferencesView, references;
    /// A new reference, or a change to one.
    save_reference: SaveReference => ReferencesView, references;
    /// Takes a reference away; what it proved stays.
    remove_reference: OfReference => ReferencesView, references;

    /// The bench runs of a tester, and what a new one can start with.
    benches: OfTester => BenchesView, bench;
    /// The usual points of a tester with the references at hand.
    plan_bench: PlanAsk => PlanView, bench;
    /// Begins a run.
    start_bench: StartBench => BenchView, bench;
    /// Opens a run where it was left, or jumps in it.
    bench: BenchAsk => BenchView, bench;
    /// Keeps half-typed digits; told at each key.
    bench_draft: BenchDraft => DraftView, bench;
    /// Saves what was measured and moves on.
    measure: Measure => BenchView, bench;
    /// Moves on without measuring; the point stays not tested.
    skip_step: OfStep => BenchView, bench;
    /// Takes back this person's last act of a run; without end.
    undo_measured: OfBench => BenchView, bench;
    /// Withdraws something measured, with a reason.
    withdraw_measured: WithdrawMeasured => BenchView, bench;
    /// The meter a figure is read on, or that stands across the resistor.
    set_meter: SetMeter => BenchView, bench;
    /// As found, or as left after an adjustment.
    set_series: SetSeries => BenchView, bench;
    /// Temperature of tester and references from now on.
    set_temperature: SetTemperature => BenchView, bench;
    /// What a look at the tester found.
    set_bench_look: SetLook => BenchView, bench;
    /// Another plan; what was measured stays.
    set_plan: SetPlan => BenchView, bench;
    /// What a run comes to, step by step.
    bench_result: BenchResultAsk => BenchResultView, bench;
    /// Records what a run comes to as a verification of its tester.
    close_bench: CloseBench => TesterView, bench;
    /// Drift of a tester over its runs.
    drift: OfTester => DriftView, bench;
    /// Testers side by side.
    compare: CompareAsk => CompareView, bench;
    /// Writes the report of a bench run to a file.
    make_tester_report: MakeTesterReport => Written, tester_report;

    /// Things to look at, worst first, and the boards at a glance.
    look: OfJob => LookView, look;
    /// Where a slot's readings come from.
    origin: OfSlot => OriginView, origin;
    /// Asks for a new reading of a slot, with a reason.
    ask_reading: ReviewAsk => Done, review;
    /// Accepts what asks for a look, with a reason.
    accept: ReviewAsk => Done, review;
    /// Takes a request or an acceptance back, with a reason.
    withdraw_review: WithdrawReview => Done, review;
    /// Readings to choose from for a correction.
    readings: ReadingsAsk => ReadingsView, correct;
    /// Corrects tester, test voltage, time or conditions of many readings.
    correct_readings: CorrectReadings => Done, correct;
    /// A reading in place of another.
    replace_reading: ReplaceReading => Done, correct;
    /// Withdraws a reading.
    withdraw_reading: WithdrawReading => Done, correct;

    /// What the schedule will say, as a list.
    schedule: OfJob => ScheduleView, schedule;
    /// A page of the schedule as a picture.
    preview_page: PageAsk => PageView, schedule;
    /// Writes the schedule to a file.
    make_schedule: MakeSchedule => Written, schedule;
    /// Where files go.
    files_folder: NoInput => FilesFolder, files;
    /// Lets files go to another folder.
    set_files_folder: SetFilesFolder => FilesFolder, files;
    /// A file that was written, whole, to be sent on by the system.
    written_file: WrittenFileAsk => WrittenFile, written;
    /// Several files that were written, in one archive.
    written_files: WrittenFilesAsk => WrittenFile, written;
    /// What would be signed, what stops it, and what was signed before.
    sign_off_view: OfJob => SignOffView, sign_off;
    /// Signs off all that is here of a job, under a name.
    sign_off: SignOffAsk => SignOffView, sign_off;
    /// Everything that came after a sign-off.
    after_sign_off: AfterSignOff => AfterSignOffView, sign_off;
    /// Takes a sign-off back, with a name and a reason; it stays on record.
    withdraw_sign_off: WithdrawSignOff => SignOffView, sign_off;
    /// Writes a job file.
    export_job: OfJob => Written, job_file;
    /// What a job file holds.
    preview_job_file: JobFileText => JobFilePreview, job_file;
    /// Makes a new job from a job file.
    import_job_file: JobFileText => Imported, job_file;
    /// Writes a job with its testers as a bundle, for another device to take in.
    hand_over: HandOverAsk => Written, bundle;
    /// Whether a job was handed over, and what of this device was not.
    handed: OfJob => HandedView, bundle;
    /// What a bundle holds, and what taking it in would do.
    preview_bundle: BundleFile => BundleView, bundle;
    /// Takes a bundle in, whole or not at all.
    take_in_bundle: BundleFile => BundleView, bundle;
    /// Sets a damaged record aside, and goes on with what of it is as it was written.
    set_record_aside: NoInput => SetAside, aside;
    /// How far the work in hand is; answered while it goes on.
    long_work: NoInput => LongWorkView, long_work;
    /// Stops the work in hand; then nothing of it was kept.
    stop_long_work: NoInput => LongWorkView, long_work;
    /// Whether a schedule's PDF or a bundle is what was signed.
    verify_file: VerifyAsk => VerifyView, verify;
    /// The cautions.
    cautions: OfJob => CautionsView, cautions;
    /// This person has read the cautions for this job.
    confirm_cautions: OfJob => CautionsView, cautions;
}
