//! What a disk holds once its power is gone: what was flushed, and of the rest whatever chance leaves.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What a cut of the power leaves of that which was not flushed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Left {
    /// None of it.
    Flushed,
    /// All of it.
    All,
    /// By chance, from this seed: writes in any order, each whole, dropped or torn; names in their order.
    Some(u64),
}

/// The least a disk writes at once.
const SECTOR: usize = 512;

/// A file, under whatever name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Node(usize);

#[derive(Debug)]
enum Change {
    Write { at: usize, bytes: Vec<u8> },
    Resize(usize),
}

#[derive(Debug, Default)]
struct Bytes {
    flushed: Vec<u8>,
    since: Vec<Change>,
    length: usize,
}

/// The files of one folder.
#[derive(Debug, Default)]
pub(crate) struct Platter {
    nodes: Vec<Bytes>,
    /// The names that running programs see, and those that were flushed.
    seen: BTreeMap<PathBuf, Node>,
    flushed: BTreeMap<PathBuf, Node>,
    /// Names given and taken away since they were flushed.
    since: Vec<(PathBuf, Option<Node>)>,
}

impl Platter {
    /// A folder of flushed files.
    pub(crate) fn of(files: BTreeMap<PathBuf, Vec<u8>>) -> Self {
        let mut platter = Self::default();
        for (path, bytes) in files {
            platter.adopt(&path, bytes);
        }
        platter
    }

    /// A file that was there before.
    pub(crate) fn adopt(&mut self, path: &Path, bytes: Vec<u8>) -> Node {
        let node = self.node(bytes);
        self.seen.insert(path.to_owned(), node);
        self.flushed.insert(path.to_owned(), node);
        node
    }

    fn node(&mut self, flushed: Vec<u8>) -> Node {
        self.nodes.push(Bytes { length: flushed.len(), flushed, since: Vec::new() });
        Node(self.nodes.len() - 1)
    }

    pub(crate) fn find(&self, path: &Path) -> Option<Node> {
        self.seen.get(path).copied()
    }

    pub(crate) fn create(&mut self, path: &Path) -> Node {
        let node = self.node(Vec::new());
        self.seen.insert(path.to_owned(), node);
        self.since.push((path.to_owned(), Some(node)));
        node
    }

    pub(crate) fn delete(&mut self, path: &Path) {
        if self.seen.remove(path).is_some() {
            self.since.push((path.to_owned(), None));
        }
    }

    pub(crate) fn length(&self, node: Node) -> usize {
        self.nodes[node.0].length
    }

    /// The names there are now.
    pub(crate) fn named(&self) -> Vec<PathBuf> {
        self.seen.keys().cloned().collect()
    }

    /// How many bytes the files take.
    pub(crate) fn taken(&self) -> usize {
        self.seen.values().map(|node| self.length(*node)).sum()
    }

    pub(crate) fn write(&mut self, node: Node, at: usize, bytes: &[u8]) {
        let file = &mut self.nodes[node.0];
        file.length = file.length.max(at + bytes.len());
        file.since.push(Change::Write { at, bytes: bytes.to_owned() });
    }

    pub(crate) fn resize(&mut self, node: Node, length: usize) {
        self.nodes[node.0].length = length;
        self.nodes[node.0].since.push(Change::Resize(length));
    }

    /// Flushes this many of the changes to a file; the others are never tried again, as a system does whose disk refused.
    pub(crate) fn flush(&mut self, node: Node, parts: FlushedPart) {
        let file = &mut self.nodes[node.0];
        let count = match parts {
            FlushedPart::All => file.since.len(),
            FlushedPart::Half => file.since.len() / 2,
            FlushedPart::None => 0,
        };
        for change in file.since.drain(..).take(count) {
            apply(&mut file.flushed, &change);
        }
    }

    pub(crate) fn flush_names(&mut self) {
        for (path, node) in self.since.drain(..) {
            name(&mut self.flushed, path, node);
        }
    }

    /// The files there are when the power is back.
    pub(crate) fn after_a_cut(mut self, left: Left) -> BTreeMap<PathBuf, Vec<u8>> {
        let mut chance = match left {
            Left::Some(seed) => Some(fastrand::Rng::with_seed(seed)),
            Left::Flushed | Left::All => None,
        };
        let all = if left == Left::All { self.since.len() } else { 0 };
        let names = chance.as_mut().map_or(all, |chance| chance.usize(..=self.since.len()));
        for (path, node) in self.since.drain(..).take(names) {
            name(&mut self.flushed, path, node);
        }
        let nodes = &mut self.nodes;
        let bytes = |node: Node| {
            let Bytes { mut flushed, since, .. } = std::mem::take(&mut nodes[node.0]);
            for change in since {
                match &mut chance {
                    Some(chance) => survive(&mut flushed, change, chance),
                    None if left == Left::All => apply(&mut flushed, &change),
                    None => {}
                }
            }
            flushed
        };
        let (paths, found): (Vec<_>, Vec<_>) = self.flushed.into_iter().unzip();
        paths.into_iter().zip(found.into_iter().map(bytes)).collect()
    }
}

/// How much of what was not flushed yet a flush reaches.
#[derive(Clone, Copy, Debug)]
pub(crate) enum FlushedPart {
    All,
    Half,
    None,
}

fn name(names: &mut BTreeMap<PathBuf, Node>, path: PathBuf, node: Option<Node>) {
    match node {
        Some(node) => names.insert(path, node),
        None => names.remove(&path),
    };
}

fn apply(file: &mut Vec<u8>, change: &Change) {
    match change {
        Change::Write { at, bytes } => put(file, *at, bytes),
        Change::Resize(length) => file.resize(*length, 0),
    }
}

fn put(file: &mut Vec<u8>, at: usize, bytes: &[u8]) {
    if file.len() < at + bytes.len() {
        file.resize(at + bytes.len(), 0);
    }
    file[at..at + bytes.len()].copy_from_slice(bytes);
}

/// A change that was under way: all of it, nothing, or of a write some sectors, the last one perhaps in part. Bytes
/// beside a write stay as they were, which SQLite takes for granted of any disk of today.
fn survive(file: &mut Vec<u8>, change: Change, chance: &mut fastrand::Rng) {
    match (chance.u8(..4), change) {
        (0, _) => {}
        (1, Change::Write { at, bytes }) => {
            for (sector, part) in bytes.chunks(SECTOR).enumerate() {
                let kept =
                    if chance.bool() { part.len() } else { chance.usize(..=part.len()) * usize::from(chance.bool()) };
                if kept > 0 {
                    put(file, at + sector * SECTOR, &part[..kept]);
                }
            }
        }
        (_, change) => apply(file, &change),
    }
}
