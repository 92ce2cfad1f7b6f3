//! Bundles: refused, or opened, written again to the same entries, and refused or taken in by a record.
use std::collections::BTreeMap;
use std::ops::ControlFlow;

use provenohm_exchange::bundle::{Bundle, write};
use provenohm_exchange::join::{look, take_in};
use provenohm_logbook::entry::Hash;
use provenohm_logbook::record::Record;

/// The first byte chooses whether the rest is a whole file, or one that lacks its digest.
pub(crate) fn holds(bytes: &[u8]) {
    let Some((choice, bytes)) = bytes.split_first() else { return };
    let digest = Hash::of(&[bytes]);
    let bytes = if *choice == 0 { bytes.to_vec() } else { [bytes, &digest.0].concat() };
    let Ok(bundle) = Bundle::open(&bytes) else { return };
    let mut books = BTreeMap::new();
    for packed in &bundle.manifest().books {
        let Ok(Some(entries)) = bundle.entries(packed.book) else { panic!("a book that was opened cannot be read") };
        let Ok(entries) = entries.collect::<Result<Vec<_>, _>>() else { panic!("read once and not again") };
        books.insert(packed.book, entries);
    }
    let Ok(again) = write(bundle.manifest().by, bundle.manifest().of, &books) else {
        panic!("what was read cannot be written")
    };
    assert_eq!(Bundle::open(&again).map(|it| it.manifest().of), Ok(bundle.manifest().of));

    let mut count = 0_u8;
    let opened = Record::in_memory(&mut |bytes: &mut [u8]| {
        for byte in bytes {
            count = count.wrapping_mul(5).wrapping_add(113);
            *byte = count;
        }
        Ok(())
    });
    let Ok(mut record) = opened else { panic!("the record does not open") };
    let told = look(&mut record, &bundle, &mut |_| ControlFlow::Continue(()));
    assert!(record.view().books().is_ok_and(|books| books.is_empty()), "looking takes nothing");
    let taken = take_in(&mut record, &bundle, &mut |_| ControlFlow::Continue(()));
    match (told, taken) {
        (Ok(told), Ok(taken)) => {
            assert_eq!(told, taken, "it comes out as told");
            assert!(taken.sum().adds_up());
            let projected = record.projection();
            assert!(record.rebuild().is_ok() && projected.is_ok() && record.projection() == projected, "made anew");
        }
        (Err(_), Err(_)) => assert!(record.view().books().is_ok_and(|books| books.is_empty()), "nothing of it is here"),
        (told, taken) => panic!("told {told:?}, done {taken:?}"),
    }
}
