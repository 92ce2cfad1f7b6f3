//! SQLite's way to the disk: a VFS in front of the system's own. What lies on no [`Disk`] goes straight to that.

use crate::disk::Disk;
use crate::platter::Node;
use rusqlite::ffi::{self, sqlite3_file, sqlite3_filename, sqlite3_int64, sqlite3_io_methods, sqlite3_vfs};
use std::ffi::{CStr, OsStr, c_char, c_int, c_void};
use std::os::unix::ffi::OsStrExt;
use std::path::{Path, PathBuf};
use std::ptr;
use std::sync::atomic::{AtomicPtr, Ordering};
use std::sync::{Arc, Once};

/// A file as SQLite holds it, in memory of SQLite's; the system's own part lies right behind it.
#[repr(C)]
struct File {
    methods: *const sqlite3_io_methods,
    here: *mut Here,
}

/// What this crate knows of an open file.
struct Here {
    disk: Arc<Disk>,
    node: Node,
    /// A journal not flushed yet: as the system's, its first flush reaches the folder too.
    names: bool,
}

static SYSTEM: AtomicPtr<sqlite3_vfs> = AtomicPtr::new(ptr::null_mut());

/// Stands in for the system's VFS in this process.
pub(crate) fn install() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        // SAFETY: both functions may be called at any time; what they take and give is registered for good. The copied
        // functions of the system's VFS read of it only what is copied with them.
        unsafe {
            let system = ffi::sqlite3_vfs_find(ptr::null());
            assert!(!system.is_null(), "SQLite knows the system");
            SYSTEM.store(system, Ordering::Release);
            let mut ours = *system;
            ours.zName = c"faults".as_ptr();
            ours.pNext = ptr::null_mut();
            ours.szOsFile += size_of::<File>() as c_int;
            ours.xOpen = Some(open);
            ours.xDelete = Some(delete);
            assert_eq!(ffi::sqlite3_vfs_register(Box::leak(Box::new(ours)), 1), ffi::SQLITE_OK);
        }
    });
}

/// # Safety
/// `name` is null or a string.
unsafe fn on_a_disk(name: *const c_char) -> Option<(Arc<Disk>, PathBuf)> {
    if name.is_null() {
        return None;
    }
    // SAFETY: said above.
    let path = Path::new(OsStr::from_bytes(unsafe { CStr::from_ptr(name) }.to_bytes()));
    Some((Disk::of(path)?, path.to_owned()))
}

/// The system's part of a file that `open` gave to SQLite.
fn behind(file: *mut sqlite3_file) -> *mut sqlite3_file {
    file.wrapping_byte_add(size_of::<File>())
}

/// # Safety
/// `open` gave the file to SQLite, which has not closed it and asks one thing of it at a time.
unsafe fn here<'f>(file: *mut sqlite3_file) -> &'f mut Here {
    // SAFETY: then it begins with a `File`, whose `here` lives until it is closed.
    unsafe { &mut *(*file.cast::<File>()).here }
}

/// Calls one of the system's functions on its part of a file.
macro_rules! system {
    ($file:ident, $method:ident $(, $given:expr)*) => {{
        let real = behind($file);
        // The system's VFS leaves none of these out.
        (*(*real).pMethods).$method.expect("a function of the system's")(real $(, $given)*)
    }};
}

// SAFETY, here and below: SQLite calls each with what its documentation of a VFS says: files that `open` gave it and that
// are not closed, and memory as long as it says. All of it is passed on as it came, or in part.

unsafe extern "C" fn open(
    _: *mut sqlite3_vfs,
    name: sqlite3_filename,
    file: *mut sqlite3_file,
    flags: c_int,
    out: *mut c_int,
) -> c_int {
    let system = SYSTEM.load(Ordering::Acquire);
    // SAFETY: as above.
    unsafe {
        let real = |file| (*system).xOpen.expect("a function of the system's")(system, name, file, flags, out);
        let Some((disk, path)) = on_a_disk(name) else { return real(file) };
        (*file).pMethods = ptr::null();
        let close = || {
            system!(file, xClose);
        };
        let node = match disk.open(&path, || real(behind(file)), close) {
            Ok(opened) => opened,
            Err(told) => return told,
        };
        let journal =
            flags & (ffi::SQLITE_OPEN_WAL | ffi::SQLITE_OPEN_MAIN_JOURNAL | ffi::SQLITE_OPEN_SUPER_JOURNAL) != 0;
        let here = Here { disk, node, names: flags & ffi::SQLITE_OPEN_CREATE != 0 && journal };
        file.cast::<File>().write(File { methods: &METHODS, here: Box::into_raw(Box::new(here)) });
    }
    ffi::SQLITE_OK
}

unsafe extern "C" fn delete(_: *mut sqlite3_vfs, name: *const c_char, flush_folder: c_int) -> c_int {
    let system = SYSTEM.load(Ordering::Acquire);
    // SAFETY: as above.
    unsafe {
        let real = || (*system).xDelete.expect("a function of the system's")(system, name, 0);
        match on_a_disk(name) {
            Some((disk, path)) => disk.delete(&path, flush_folder != 0, real),
            None => real(),
        }
    }
}

unsafe extern "C" fn close(file: *mut sqlite3_file) -> c_int {
    // SAFETY: as above; the box was made by `open`, and this is the last time that SQLite names the file.
    unsafe {
        let told = system!(file, xClose);
        Box::from_raw((*file.cast::<File>()).here).disk.closed();
        told
    }
}

unsafe extern "C" fn read(file: *mut sqlite3_file, into: *mut c_void, bytes: c_int, at: sqlite3_int64) -> c_int {
    // SAFETY: as above.
    unsafe { here(file).disk.read(bytes as usize, |part| system!(file, xRead, into, part as c_int, at)) }
}

unsafe extern "C" fn write(file: *mut sqlite3_file, from: *const c_void, bytes: c_int, at: sqlite3_int64) -> c_int {
    // SAFETY: as above.
    unsafe {
        let Here { disk, node, .. } = here(file);
        let whole = std::slice::from_raw_parts(from.cast::<u8>(), bytes as usize);
        disk.write(*node, at as usize, whole, |part| {
            system!(file, xWrite, part.as_ptr().cast(), part.len() as c_int, at)
        })
    }
}

unsafe extern "C" fn truncate(file: *mut sqlite3_file, size: sqlite3_int64) -> c_int {
    // SAFETY: as above.
    unsafe {
        let Here { disk, node, .. } = here(file);
        disk.truncate(*node, size as usize, || system!(file, xTruncate, size))
    }
}

unsafe extern "C" fn sync(file: *mut sqlite3_file, _: c_int) -> c_int {
    // SAFETY: as above.
    let Here { disk, node, names } = unsafe { here(file) };
    let told = disk.sync(*node, *names);
    *names &= told != ffi::SQLITE_OK;
    told
}

unsafe extern "C" fn map(
    file: *mut sqlite3_file,
    region: c_int,
    size: c_int,
    extend: c_int,
    to: *mut *mut c_void,
) -> c_int {
    // SAFETY: as above.
    unsafe {
        let Here { disk, node, .. } = here(file);
        let length = (region as usize + 1) * size as usize;
        disk.map(*node, length, extend != 0, || system!(file, xShmMap, region, size, extend, to))
    }
}

unsafe extern "C" fn unmap(file: *mut sqlite3_file, delete: c_int) -> c_int {
    // SAFETY: as above.
    unsafe {
        let Here { disk, node, .. } = here(file);
        disk.unmap(*node, delete != 0, || system!(file, xShmUnmap, delete))
    }
}

/// Functions that are the system's alone.
macro_rules! passed_on {
    ($($name:ident: $method:ident($($given:ident: $of:ty),*) $(-> $told:ty)?;)*) => {$(
        unsafe extern "C" fn $name(file: *mut sqlite3_file, $($given: $of),*) $(-> $told)? {
            // SAFETY: as above.
            unsafe { system!(file, $method $(, $given)*) }
        }
    )*};
}

passed_on! {
    length: xFileSize(size: *mut sqlite3_int64) -> c_int;
    lock: xLock(level: c_int) -> c_int;
    unlock: xUnlock(level: c_int) -> c_int;
    is_reserved: xCheckReservedLock(told: *mut c_int) -> c_int;
    control: xFileControl(what: c_int, with: *mut c_void) -> c_int;
    sector: xSectorSize() -> c_int;
    traits: xDeviceCharacteristics() -> c_int;
    lock_shared: xShmLock(offset: c_int, count: c_int, flags: c_int) -> c_int;
    barrier: xShmBarrier();
}

/// Version 2 ends before memory-mapped files, past which no write could be told.
static METHODS: sqlite3_io_methods = sqlite3_io_methods {
    iVersion: 2,
    xClose: Some(close),
    xRead: Some(read),
    xWrite: Some(write),
    xTruncate: Some(truncate),
    xSync: Some(sync),
    xFileSize: Some(length),
    xLock: Some(lock),
    xUnlock: Some(unlock),
    xCheckReservedLock: Some(is_reserved),
    xFileControl: Some(control),
    xSectorSize: Some(sector),
    xDeviceCharacteristics: Some(traits),
    xShmMap: Some(map),
    xShmLock: Some(lock_shared),
    xShmBarrier: Some(barrier),
    xShmUnmap: Some(unmap),
    xFetch: None,
    xUnfetch: None,
};
