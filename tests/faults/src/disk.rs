//! The disk: what is asked of it is counted, and goes wrong where it was told to.

use crate::platter::{FlushedPart, Left, Node, Platter};
use crate::vfs;
use rusqlite::ffi;
use std::collections::BTreeMap;
use std::ffi::c_int;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use tempfile::TempDir;

/// What SQLite asks of a disk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Call {
    /// A file is opened, and made where there is none.
    Open,
    /// Bytes are read.
    Read,
    /// Bytes are written.
    Write,
    /// What was written is flushed.
    Sync,
    /// A file is cut.
    Truncate,
    /// A file is deleted.
    Delete,
    /// Memory is shared with other programs, in a file.
    Map,
}

impl Call {
    /// All of them.
    pub const ALL: [Self; 7] =
        [Self::Open, Self::Read, Self::Write, Self::Sync, Self::Truncate, Self::Delete, Self::Map];

    fn error(self) -> c_int {
        match self {
            Self::Open => ffi::SQLITE_CANTOPEN,
            Self::Read => ffi::SQLITE_IOERR_READ,
            Self::Write => ffi::SQLITE_IOERR_WRITE,
            Self::Sync => ffi::SQLITE_IOERR_FSYNC,
            Self::Truncate => ffi::SQLITE_IOERR_TRUNCATE,
            Self::Delete => ffi::SQLITE_IOERR_DELETE,
            Self::Map => ffi::SQLITE_IOERR_SHMMAP,
        }
    }

    /// Whether it leaves something that a cut of the power could undo or tear.
    fn changes(self) -> bool {
        !matches!(self, Self::Read | Self::Map)
    }
}

/// How a call goes wrong. Whoever asked is told in every case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// Nothing is done.
    Once,
    /// Half of it is done.
    Half,
    /// Nothing is done, nor of any later call of its kind, until the disk is mended.
    Onwards,
}

/// What a call meets.
enum Met {
    Nothing,
    Half,
    Refused,
    PowerCut,
}

#[derive(Default)]
struct State {
    platter: Platter,
    asked: BTreeMap<Call, usize>,
    changes: usize,
    fault: Option<(Call, usize, Wrong)>,
    cut_at: Option<usize>,
    /// How many bytes its files may still grow by.
    room: Option<usize>,
    /// The most its files ever took.
    most: usize,
    /// How much memory is shared about a file.
    shared: BTreeMap<Node, usize>,
    struck: bool,
    off: bool,
    open: usize,
}

impl State {
    fn shared(&self, node: Node) -> usize {
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

    fn state(&self) -> MutexGuard<'_, State> {
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

    fn meet(state: &mut State, call: Call) -> Met {
        let asked = state.asked.entry(call).or_default();
        let nth = *asked;
        *asked += 1;
        if state.off {
            return Met::Refused;
        }
        let change = state.changes;
        state.changes += usize::from(call.changes());
        if call.changes() && state.cut_at == Some(change) {
            (state.off, state.struck) = (true, true);
            return Met::PowerCut;
        }
        let met = match state.fault {
            Some((faulty, at, Wrong::Once)) if faulty == call && at == nth => Met::Refused,
            Some((faulty, at, Wrong::Half)) if faulty == call && at == nth => Met::Half,
            Some((faulty, at, Wrong::Onwards)) if faulty == call && at <= nth => Met::Refused,
            _ => return Met::Nothing,
        };
        state.struck = true;
        met
    }
}

/// What the VFS asks. Each takes the real call, does it as far as it is to be done, and says what SQLite is told.
impl Disk {
    pub(crate) fn open(&self, path: &Path, real: impl FnOnce() -> c_int, close: impl FnOnce()) -> Result<Node, c_int> {
        let mut state = self.state();
        let met = Self::meet(&mut state, Call::Open);
        if matches!(met, Met::Refused) {
            return Err(Call::Open.error());
        }
        let known = state.platter.find(path);
        let before = if known.is_none() { std::fs::read(path).ok() } else { None };
        let told = real();
        if told != ffi::SQLITE_OK {
            return Err(told);
        }
        let node = known.unwrap_or_else(|| match before {
            Some(bytes) => state.platter.adopt(path, bytes),
            None => state.platter.create(path),
        });
        if !matches!(met, Met::Nothing) {
            close();
            return Err(Call::Open.error());
        }
        state.open += 1;
        Ok(node)
    }

    pub(crate) fn closed(&self) {
        self.state().open -= 1;
    }

    pub(crate) fn read(&self, bytes: usize, real: impl FnOnce(usize) -> c_int) -> c_int {
        let met = Self::meet(&mut self.state(), Call::Read);
        match met {
            Met::Nothing => real(bytes),
            Met::Half => {
                real(bytes / 2);
                Call::Read.error()
            }
            Met::Refused | Met::PowerCut => Call::Read.error(),
        }
    }

    pub(crate) fn write(&self, node: Node, at: usize, bytes: &[u8], real: impl FnOnce(&[u8]) -> c_int) -> c_int {
        let mut state = self.state();
        let (part, mut told) = match Self::meet(&mut state, Call::Write) {
            Met::Nothing => (bytes, ffi::SQLITE_OK),
            Met::Half => (&bytes[..bytes.len() / 2], Call::Write.error()),
            Met::PowerCut => (bytes, Call::Write.error()),
            Met::Refused => return Call::Write.error(),
        };
        let length = state.platter.length(node);
        let mut part = part;
        if let Some(room) = state.room {
            let end = (at + part.len()).min(length.saturating_add(room)).max(at);
            if end < at + part.len() {
                (part, told, state.struck) = (&part[..end - at], ffi::SQLITE_FULL, true);
            }
            state.room = Some(room - (at + part.len()).saturating_sub(length).min(room));
        }
        let done = real(part);
        if done != ffi::SQLITE_OK {
            return done;
        }
        state.platter.write(node, at, part);
        state.most = state.most.max(state.platter.taken() + state.shared.values().sum::<usize>());
        told
    }

    pub(crate) fn truncate(&self, node: Node, length: usize, real: impl FnOnce() -> c_int) -> c_int {
        let mut state = self.state();
        let met = Self::meet(&mut state, Call::Truncate);
        if matches!(met, Met::Refused | Met::Half) {
            return Call::Truncate.error();
        }
        let done = real();
        if done == ffi::SQLITE_OK {
            let freed = state.platter.length(node).saturating_sub(length);
            state.room = state.room.map(|room| room + freed);
            state.platter.resize(node, length);
        }
        if matches!(met, Met::Nothing) { done } else { Call::Truncate.error() }
    }

    /// The first flush of a journal reaches its folder too. Nothing is flushed in truth, which would only
    /// take time: the disk's own word counts.
    pub(crate) fn sync(&self, node: Node, with_names: bool) -> c_int {
        let mut state = self.state();
        match Self::meet(&mut state, Call::Sync) {
            Met::Nothing => {
                state.platter.flush(node, FlushedPart::All);
                if with_names {
                    state.platter.flush_names();
                }
                return ffi::SQLITE_OK;
            }
            Met::Half => state.platter.flush(node, FlushedPart::Half),
            Met::Refused if !state.off => state.platter.flush(node, FlushedPart::None),
            Met::Refused | Met::PowerCut => {}
        }
        Call::Sync.error()
    }

    pub(crate) fn delete(&self, path: &Path, with_names: bool, real: impl FnOnce() -> c_int) -> c_int {
        let mut state = self.state();
        let met = Self::meet(&mut state, Call::Delete);
        if matches!(met, Met::Refused | Met::Half) {
            return Call::Delete.error();
        }
        let done = real();
        if done == ffi::SQLITE_OK {
            let freed = state.platter.find(path).map_or(0, |node| state.platter.length(node));
            state.room = state.room.map(|room| room + freed);
            state.platter.delete(path);
        }
        match met {
            Met::Nothing if with_names && done == ffi::SQLITE_OK => state.platter.flush_names(),
            Met::Nothing => {}
            _ => return Call::Delete.error(),
        }
        done
    }

    /// Shared memory is asked for up to a length; its file takes room like any other.
    pub(crate) fn map(&self, node: Node, length: usize, extend: bool, real: impl FnOnce() -> c_int) -> c_int {
        let mut state = self.state();
        if !matches!(Self::meet(&mut state, Call::Map), Met::Nothing) {
            return Call::Map.error();
        }
        let more = if extend { length.saturating_sub(state.shared(node)) } else { 0 };
        if state.room.is_some_and(|room| room < more) {
            state.struck = true;
            return ffi::SQLITE_IOERR_SHMSIZE;
        }
        state.room = state.room.map(|room| room - more);
        *state.shared.entry(node).or_default() += more;
        real()
    }

    pub(crate) fn unmap(&self, node: Node, delete: bool, real: impl FnOnce() -> c_int) -> c_int {
        if delete {
            let mut state = self.state();
            let freed = state.shared.remove(&node).unwrap_or_default();
            state.room = state.room.map(|room| room + freed);
        }
        real()
    }
}
