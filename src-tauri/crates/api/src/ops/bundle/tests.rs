#![allow(clippy::unwrap_used)]
//! What is missing of a job is said, whatever was lost on the way.

use super::*;
use crate::operations::dispatch;
use crate::testing;
use serde_json::json;
use std::collections::BTreeMap;

#[test]
fn what_is_missing_of_a_job_is_said_where_it_is_handed_over() {
    let mut here = testing::state();
    let demo = dispatch(&mut here, "make_demo", json!({})).unwrap();
    let job: JobId = serde_json::from_value(demo["id"].clone()).unwrap();
    assert_eq!(lacking(&here, job).unwrap(), [] as [String; 0]);

    // The job's book alone, with two entries between two seals lost on the way.
    let handed = |state: &mut State| {
        let by = By { person: PersonId(Uuid::nil()), at: state.host.now(), random: &mut state.host };
        state.record.hand_over(by, &[job.into()]).unwrap().remove(0)
    };
    let sealed = handed(&mut here).1.last().unwrap().envelope().seq.0;
    for name in ["DB-8", "DB-9"] {
        dispatch(&mut here, "add_board", json!({ "job": job, "name": name })).unwrap();
    }
    let (book, entries) = handed(&mut here);
    let lost = sealed + 1..=sealed + 2;
    let later: Vec<_> = entries.into_iter().filter(|entry| !lost.contains(&entry.envelope().seq.0)).collect();
    let bytes = bundle::write(None, book, &BTreeMap::from([(book, later)])).unwrap();
    let mut there = testing::state();
    take_in(&mut there, &bytes).unwrap();
    let said = lacking(&there, job).unwrap();
    assert_eq!(said[0], "2 entries in between are missing: another bundle may bring them");
    assert!(said[1].starts_with("Readings rely on "), "{said:?}");
}
