//! Calls that fail, and a disk that is full.

use crate::places;
use crate::story::Story;
use provenohm_faults::{Call, Left, Wrong};

/// Each call of a kind goes wrong once, by half, or from there on until the disk is mended.
fn whichever_fails(call: Call, share: usize) {
    let calm = Story::calm();
    let mut told = 0;
    for nth in places(calm.disk.asked(call), share) {
        for wrong in [Wrong::Once, Wrong::Half, Wrong::Onwards] {
            println!("{call:?} {nth} {wrong:?}");
            let mut story = Story::new();
            story.disk.fail(call, nth, wrong);
            story.tell(|_| told += 1);
            assert!(story.disk.struck());
            assert_eq!(story.readings(), calm.readings(), "it was told to its end");
            story.power_cut(Left::Flushed);
        }
    }
    assert!(told > 0, "some of it was felt");
}

#[test]
fn an_open_that_fails_is_told_and_loses_nothing() {
    whichever_fails(Call::Open, 10);
}

#[test]
fn a_read_that_fails_is_told_and_loses_nothing() {
    whichever_fails(Call::Read, 20);
}

#[test]
fn a_write_that_fails_is_told_and_loses_nothing() {
    whichever_fails(Call::Write, 20);
}

#[test]
fn a_flush_that_fails_is_told_and_loses_nothing() {
    whichever_fails(Call::Sync, 20);
}

#[test]
fn a_truncation_that_fails_is_told_and_loses_nothing() {
    whichever_fails(Call::Truncate, 10);
}

#[test]
fn a_deletion_that_fails_is_told_and_loses_nothing() {
    whichever_fails(Call::Delete, 10);
}

#[test]
fn shared_memory_that_fails_is_told_and_loses_nothing() {
    whichever_fails(Call::Map, 10);
}

#[test]
fn a_full_disk_is_told_and_work_goes_on_once_there_is_room() {
    let calm = Story::calm();
    // Writes are of pages and of frames around them; a prime gets to every place within one.
    let step = 97;
    for room in places(calm.disk.most() / step, 40) {
        println!("room for {} bytes", room * step);
        let mut story = Story::new();
        story.disk.leave_room(room * step);
        let mut told = Vec::new();
        story.tell(|failure| told.push(failure.to_owned()));
        assert!(story.disk.struck());
        assert!(told.iter().all(|failure| failure.contains("full")), "{told:?}");
        assert_eq!(story.readings(), calm.readings(), "it was told to its end");
        story.power_cut(Left::Flushed);
    }
}
