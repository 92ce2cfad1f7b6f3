//! Which role may ask for which operation.
//!
//! Every operation is classed here by hand: what stands in no list is for the office alone,
//! and a test lists what is meant to be.

use crate::role::Role;

/// Reading, papers of what is here, and what is a person's own: language, theme, place.
const ANYBODY: &[&str] = &[
    "after_sign_off",
    "bench",
    "bench_result",
    "benches",
    "catalogue",
    "cautions",
    "check_circuit",
    "circuits",
    "compare",
    "copy_out",
    "devices",
    "drift",
    "export_job",
    "files_folder",
    "grid",
    "group_form",
    "handed",
    "job",
    "jobs",
    "limit_sets",
    "long_work",
    "look",
    "make_recall",
    "make_schedule",
    "make_tester_report",
    "origin",
    "overview",
    "place",
    "plan_bench",
    "preview_bundle",
    "preview_circuits",
    "preview_job_file",
    "preview_page",
    "preview_readings",
    "pulse",
    "quick_check",
    "read_spreadsheet",
    "readings",
    "recall",
    "references",
    "schedule",
    "set_place",
    "set_settings",
    "settings",
    "settling",
    "sign_off_view",
    "stop_long_work",
    "suggest_last_day",
    "tester",
    "testers",
    "unproved",
    "verify_file",
    "written_file",
    "written_files",
];

/// Jobs, circuits, readings, testers and benches, and carrying work between devices.
const RECORDING: &[&str] = &[
    "add_board",
    "add_many_circuits",
    "add_person",
    "be_person",
    "bench_draft",
    "choose_tester",
    "close_bench",
    "confirm_cautions",
    "draft",
    "hand_over",
    "import_circuits",
    "import_job_file",
    "import_readings",
    "make_demo",
    "mark_not_tested",
    "measure",
    "move_circuit",
    "record_lead_check",
    "record_quick_check",
    "record_verification",
    "remove_board",
    "remove_circuit",
    "rename_board",
    "report_damage",
    "restore_circuit",
    "run",
    "save_circuit",
    "save_reading",
    "save_reference",
    "save_tester",
    "set_bench_look",
    "set_board_people",
    "set_conditions",
    "set_job_names",
    "set_job_rules",
    "set_joined",
    "set_meter",
    "set_note",
    "set_plan",
    "set_series",
    "set_stage",
    "set_temperature",
    "set_volts",
    "skip_step",
    "start_bench",
    "start_group",
    "start_job",
    "stop_group",
    "take_in_bundle",
    "undo_measured",
    "undo_reading",
    "withdraw_check",
    "withdraw_measured",
];

/// Review, corrections, settling, signing.
const REVIEWING: &[&str] = &[
    "accept",
    "ask_reading",
    "correct_readings",
    "resolve_recall",
    "settle",
    "sign_off",
    "withdraw_review",
    "withdraw_sign_off",
];

/// What a person does to their own work, whether they record or review.
const EITHER: &[&str] = &["replace_reading", "undo", "withdraw_reading"];

/// Whether an operation is a device's own way to its office: a hub has none.
pub(crate) fn is_of_devices(operation: &str) -> bool {
    OF_DEVICES.contains(&operation)
}

const OF_DEVICES: &[&str] = &["enrol", "fetch_job", "keep_in_step", "leave_office", "office"];

/// Whether a role may ask for an operation.
///
/// # Errors
/// The role that is needed.
pub(crate) fn may(role: Role, operation: &str) -> Result<(), Role> {
    let of = |class: &[&str]| class.contains(&operation);
    let needed = if of(RECORDING) {
        Role::Recorder
    } else if of(REVIEWING) {
        Role::Reviewer
    } else if of(ANYBODY) || of(EITHER) {
        return Ok(());
    } else {
        Role::Office
    };
    if role == needed || role == Role::Office { Ok(()) } else { Err(needed) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use provenohm_api::OPERATIONS;

    /// What proves testers taken back, devices trusted, and the hub itself.
    const OFFICE: &[&str] = &[
        "load_set",
        "remove_reference",
        "set_files_folder",
        "set_record_aside",
        "vouch_for_device",
        "withdraw_verification",
    ];

    const CLASSES: [&[&str]; 6] = [ANYBODY, RECORDING, REVIEWING, EITHER, OF_DEVICES, OFFICE];

    #[test]
    fn every_operation_was_classed_by_hand_once() {
        for operation in OPERATIONS {
            let classed = CLASSES.iter().filter(|class| class.contains(operation)).count();
            assert_eq!(classed, 1, "{operation}: class it in may.rs");
        }
        for operation in CLASSES.concat() {
            assert!(OPERATIONS.contains(&operation), "{operation} is none");
        }
    }

    #[test]
    fn each_role_does_its_part_and_what_is_not_classed_is_the_offices() {
        use Role::{Office, Recorder, Reviewer};
        for (operation, refused) in [
            ("jobs", [None, None, None]),
            ("withdraw_reading", [None, None, None]),
            ("save_reading", [None, Some(Recorder), None]),
            ("sign_off", [Some(Reviewer), None, None]),
            ("set_files_folder", [Some(Office), Some(Office), None]),
            ("not there yet", [Some(Office), Some(Office), None]),
        ] {
            assert_eq!(Role::ALL.map(|role| may(role, operation).err()), refused, "{operation}");
        }
    }
}
