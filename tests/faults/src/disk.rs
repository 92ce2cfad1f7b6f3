//! The disk: what is asked of it is counted, and goes wrong where it was told to.

use crate::call::{Call, Met, Wrong};
use crate::platter::{Left, Node, Platter};
use crate::vfs;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use tempfile::TempDir;

#[derive(Default)]
pub(crate) struct State {
    pub(crate) platter: Platter,
    pub(crate) asked: BTreeMap<Call, usize>,
    pub(crate) changes: usize,
    pub(crate) fault: Option<(Call, usize, Wrong)>,
    pub(crate) cut_at: Option<usize>,
    /// How many bytes its files may still grow by.
    pub(crate) room: Option<usize>,
    /// The most its files ever took.
    pub(crate) most: usize,
    /// How much memory is shared about a file.
    pub(crate) shared: BTreeMap<Node, usize>,
    pub(crate) struck: bool,
    pub(crate) off: bool,
    pub(crate) open: usize,
}

impl State {
    /// Counts a call, and says what it meets.
    pub(crate) fn meet(&mut self, call: Call) -> Met {
        let asked = self.asked.entry(call).or_default();
        let nth = *asked;
        *asked += 1;
        if self.off {
            return Met::Refused;
        }
        let change = self.changes;
        self.changes += usize::from(call.changes());
        if call.changes() && self.cut_at == Some(change) {
            (self.off, self.struck) = (true, true);
            return Met::PowerCut;
        }
        let met = match self.fault {
            Some((faulty, at, Wrong::Once)) if faulty == call && at == nth => Met::Refused,
            Some((faulty, at, Wrong::Half)) if faulty == call && at == nth => Met::Half,
            Some((faulty, at, Wrong::Onwards)) if faulty == call && at <= nth => Met::Refused,
            _ => return Met::Nothing,
        };
        self.struck = true;
        met
    }

    /// How much memory is shared about a file.
    pub(crate) fn shared(&self, node: Node) -> usize {
        self.shared.get(&node).copied().unwrap_or_default()
    }
}

/// A folder on a disk that fails. Dropped, it is gone.
pub struct Disk {
    _folder: TempDir,
    path: PathBuf,
    state: Mutex<State>,
}

static DISKS: Mutex<Vec<Weak<Disk>>> = Mutex::new(Vec::new());

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Disk {
    /// An empty disk that does as it is asked.
    ///
    /// # Errors
    /// The system has no room for a folder.
    pub fn new() -> std::io::Result<Arc<Self>> {
        vfs::install();
        let folder = TempDir::new()?;
        let disk = Arc::new(Self { path: folder.path().canonicalize()?, _folder: folder, state: Mutex::default() });
        let mut disks = locked(&DISKS);
        disks.retain(|disk| disk.strong_count() > 0);
        disks.push(Arc::downgrade(&disk));
        Ok(disk)
    }

    /// The disk a file lies on.
    pub(crate) fn of(file: &Path) -> Option<Arc<Self>> {
        locked(&DISKS).iter().filter_map(Weak::upgrade).find(|disk| file.starts_with(&disk.path))
    }

    /// Where it is.
    pub fn folder(&self) -> &Path {
        &self.path
    }

    pub(crate) fn state(&self) -> MutexGuard<'_, State> {
        locked(&self.state)
    }

    /// Lets the next, or the one after as many others, of these calls go wrong.
    pub fn fail(&self, call: Call, after: usize, wrong: Wrong) {
        let mut state = self.state();
        let nth = state.asked.get(&call).copied().unwrap_or_default() + after;
        state.fault = Some((call, nth, wrong));
    }

    /// Cuts the power at the next change, or at the one after as many others.
    pub fn cut_power_after(&self, changes: usize) {
        let mut state = self.state();
        state.cut_at = Some(state.changes + changes);
    }

    /// Cuts the power now.
    pub fn cut_power(&self) {
        self.state().off = true;
    }

    /// Leaves room for as many more bytes.
    pub fn leave_room(&self, bytes: usize) {
        self.state().room = Some(bytes);
    }

    /// From now on it does as it is asked, and has room.
    pub fn mend(&self) {
        let mut state = self.state();
        (state.fault, state.cut_at, state.room) = (None, None, None);
    }

    /// Whether what was to go wrong did.
    pub fn struck(&self) -> bool {
        self.state().struck
    }

    /// How many such calls there were.
    pub fn asked(&self, call: Call) -> usize {
        self.state().asked.get(&call).copied().unwrap_or_default()
    }

    /// How many changes there were.
    pub fn changes(&self) -> usize {
        self.state().changes
    }

    /// The most bytes its files ever took.
    pub fn most(&self) -> usize {
        self.state().most
    }

    /// The power comes back, and finds what was flushed and whatever was left of the rest. The files are overwritten where
    /// they are, as no file is born by a cut of the power.
    ///
    /// # Errors
    /// What the system says.
    ///
    /// # Panics
    /// A program still has a file open.
    pub fn power_on(&self, left: Left) -> std::io::Result<()> {
        let mut state = self.state();
        assert_eq!(state.open, 0, "no program outlives its power");
        let platter = std::mem::take(&mut state.platter);
        let named = platter.named();
        let files = platter.after_a_cut(left);
        for path in named.iter().filter(|path| !files.contains_key(*path)) {
            std::fs::remove_file(path)?;
        }
        for (path, bytes) in &files {
            std::fs::write(path, bytes)?;
        }
        for file in std::fs::read_dir(&self.path)? {
            let path = file?.path();
            // Whatever shared memory holds when the power goes is no more than scribble to who comes next.
            if path.as_os_str().as_encoded_bytes().ends_with(b"-shm") {
                std::fs::write(&path, [0xa5; 32 * 1024])?;
            }
        }
        *state = State { platter: Platter::of(files), ..State::default() };
        Ok(())
    }
}
