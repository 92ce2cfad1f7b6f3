//! What the VFS asks of a disk. Each takes the real call, does it as far as it is to be done, and says what SQLite is told.

use crate::call::{Call, Met};
use crate::disk::Disk;
use crate::platter::{FlushedPart, Node};
use rusqlite::ffi;
use std::ffi::c_int;
use std::path::Path;

impl Disk {
    pub(crate) fn open(&self, path: &Path, real: impl FnOnce() -> c_int, close: impl FnOnce()) -> Result<Node, c_int> {
        let mut state = self.state();
        let met = state.meet(Call::Open);
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
        let met = self.state().meet(Call::Read);
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
        let (mut part, mut told) = match state.meet(Call::Write) {
            Met::Nothing => (bytes, ffi::SQLITE_OK),
            Met::Half => (&bytes[..bytes.len() / 2], Call::Write.error()),
            Met::PowerCut => (bytes, Call::Write.error()),
            Met::Refused => return Call::Write.error(),
        };
        let length = state.platter.length(node);
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
        let met = state.meet(Call::Truncate);
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
        match state.meet(Call::Sync) {
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
        let met = state.meet(Call::Delete);
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
        if !matches!(state.meet(Call::Map), Met::Nothing) {
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
