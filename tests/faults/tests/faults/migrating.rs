//! A record of every earlier schema is brought to today's on a disk that fails.

use crate::story::open;
use crate::support::{Hand, taken};
use crate::{leavings, places};
use provenohm_faults::{Call, Disk, Wrong};
use provenohm_logbook::store::SCHEMA;
use std::path::Path;
use std::sync::Arc;

/// A disk with the record that is kept of a schema.
fn kept(schema: u32) -> Arc<Disk> {
    let disk = Disk::new().unwrap();
    let record = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join(format!("../../src-tauri/crates/logbook/tests/records/{schema}.sqlite"));
    std::fs::copy(record, disk.folder().join("record.sqlite")).unwrap();
    disk
}

/// What the record says, in tables that were made anew when it was opened.
fn said(hand: &Hand) -> String {
    hand.record.projection().unwrap()
}

#[test]
fn wherever_the_power_goes_an_earlier_record_is_brought_to_today() {
    for schema in 1..=SCHEMA {
        let disk = kept(schema);
        let calm = said(&open(&disk, 1).unwrap());
        for change in places(disk.changes(), 40) {
            for left in leavings(change) {
                println!("schema {schema} change {change} {left:?}");
                let disk = kept(schema);
                disk.cut_power_after(change);
                // Where a record is closed, nobody is there to be told.
                drop(open(&disk, 2));
                assert!(disk.struck());
                disk.power_on(left).unwrap();
                let mut hand = open(&disk, 3).unwrap();
                assert_eq!(said(&hand), calm);
                hand.minutes = 20;
                hand.append(taken(9, 100));
            }
        }
    }
}

#[test]
fn whatever_call_fails_an_earlier_record_is_brought_to_today_by_the_next_try() {
    for schema in 1..=SCHEMA {
        let disk = kept(schema);
        let calm = said(&open(&disk, 1).unwrap());
        for call in Call::ALL {
            for nth in places(disk.asked(call), 10) {
                println!("schema {schema} {call:?} {nth}");
                let disk = kept(schema);
                disk.fail(call, nth, Wrong::Half);
                drop(open(&disk, 2));
                disk.mend();
                let mut hand = open(&disk, 3).unwrap();
                assert_eq!(said(&hand), calm);
                hand.minutes = 20;
                hand.append(taken(9, 100));
            }
        }
    }
}
