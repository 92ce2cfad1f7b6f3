//! The power goes.

use crate::story::Story;
use crate::{leavings, places};
use provenohm_faults::Left;

#[test]
fn wherever_the_power_goes_what_was_acknowledged_is_there() {
    let calm = Story::calm();
    for change in places(calm.disk.changes(), 40) {
        for left in leavings(change) {
            println!("change {change} {left:?}");
            let mut story = Story::new();
            story.disk.cut_power_after(change);
            // Where a record is closed, nobody is there to be told.
            let _ = story.until_a_failure();
            assert!(story.disk.struck());
            story.power_cut(left);
            story.tell(|failure| panic!("{failure}"));
            story.power_cut(Left::Flushed);
        }
    }
}
