//! What a hostile bundle can make the program take hold of. One test alone in its program: the highest mark is that of
//! the whole process.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
#![cfg(target_os = "linux")]

mod support;

use provenohm_exchange::bundle::{Bundle, Head, MAGIC, Manifest, Packed, VERSION, limits};
use provenohm_logbook::entry::{Coded, Hash, LogId, Seq};
use std::io::Write;
use support::{JOB, id};

/// The most memory this process ever had, in MiB.
fn highest() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
    line.trim().trim_end_matches(" kB").parse::<u64>().unwrap() >> 10
}

fn file(entries: u64, unpacked: u64, frame: &[u8]) -> Vec<u8> {
    let head = Head { log: LogId(id(1)), seq: Seq(0), hash: Hash([1; 32]) };
    let packed = Packed { book: JOB.into(), entries, unpacked, packed: frame.len() as u64, heads: vec![head] };
    let manifest = Manifest { of: JOB.into(), books: vec![packed], by: None }.to_value().encode();
    let length = (manifest.len() as u32).to_be_bytes();
    let told = [&MAGIC[..], &VERSION.to_be_bytes(), &length, &manifest, frame].concat();
    let digest = Hash::of(&[&told]);
    [&told[..], &digest.0].concat()
}

/// Packed without ever being whole in memory.
fn packed(start: &[u8], then: u8, bytes: u64) -> Vec<u8> {
    let mut encoder = zstd::stream::write::Encoder::new(Vec::new(), 1).unwrap();
    encoder.write_all(start).unwrap();
    let block = [then; 1 << 16];
    for _ in 0..bytes >> 16 {
        encoder.write_all(&block).unwrap();
    }
    encoder.finish().unwrap()
}

#[test]
fn no_bundle_takes_hold_of_more_than_its_limits_allow() {
    const GIB: u64 = 1 << 30;
    let mut bombs = Vec::new();
    // A gibibyte of nothing, said or not said.
    let zeros = packed(&[], 0, GIB);
    for unpacked in [GIB, zeros.len() as u64 * limits::MOST_RATIO, 1000] {
        bombs.push(file(10, unpacked, &zeros));
    }
    // Entries as long as may be, of which each byte is an item of its own: the dearest to read.
    let long = (limits::MOST_ENTRY_BYTES as u32).to_be_bytes();
    for start in
        [&[0x82, 0x5a, 0, 0x0f, 0xff, 0xf0, 0x9a, 0, 0x0f, 0xff, 0xe0][..], &[0x9a, 0, 0x0f, 0xff, 0xf0], &[0x81]]
    {
        let mut frame = packed(&[&long[..], start].concat(), 0x01, limits::MOST_ENTRY_BYTES);
        // As if it were hardly packed at all.
        frame.resize(frame.len().max(1 << 16), 0);
        bombs.push(file(100, frame.len() as u64 * limits::MOST_RATIO, &frame));
    }
    // A manifest that says much.
    for length in [u32::MAX, 1 << 20] {
        let mut told =
            [&MAGIC[..], &VERSION.to_be_bytes(), &length.to_be_bytes(), &[0x9a, 0xff, 0xff, 0xff, 0xff]].concat();
        told.resize(2 << 20, 0x01);
        let digest = Hash::of(&[&told]);
        bombs.push([&told[..], &digest.0].concat());
    }
    let before = highest();
    for bomb in &bombs {
        Bundle::open(bomb).map(drop).unwrap_err();
    }
    let more = highest() - before;
    assert!(more < 96, "{more} MiB");
}
