//! The closed world a page is made in: the template, its data, the model to attach, our fonts; no file, clock or network.

use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use super::fonts;
use crate::PaperError;

/// What is placed on the pages.
#[derive(Clone, Copy)]
pub(super) enum Template {
    Schedule,
    Recall,
    Tester,
}

impl Template {
    const fn source(self) -> &'static str {
        match self {
            Self::Schedule => concat!(include_str!("fitted.typ"), include_str!("schedule.typ")),
            Self::Recall => include_str!("recall.typ"),
            Self::Tester => concat!(include_str!("fitted.typ"), include_str!("tester.typ")),
        }
    }

    const fn path(self) -> &'static str {
        match self {
            Self::Schedule => "/schedule.typ",
            Self::Recall => "/recall.typ",
            Self::Tester => "/tester.typ",
        }
    }
}

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));
static BOOK: LazyLock<LazyHash<FontBook>> = LazyLock::new(|| LazyHash::new(FontBook::from_fonts(fonts::all())));

/// One document's world.
pub(super) struct PaperWorld {
    template: Source,
    /// What the template prints.
    view: (FileId, Bytes),
    /// What is attached.
    model: (FileId, Bytes),
}

impl PaperWorld {
    pub(super) fn new(template: Template, view: Vec<u8>, model: Vec<u8>) -> Result<Self, PaperError> {
        Ok(Self {
            template: Source::new(id(template.path())?, template.source().to_owned()),
            view: (id("/view.json")?, Bytes::new(view)),
            model: (id("/model.json")?, Bytes::new(model)),
        })
    }
}

fn id(path: &str) -> Result<FileId, PaperError> {
    let path = VirtualPath::new(path).map_err(|error| PaperError::Typeset(format!("{error:?}")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for PaperWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }
    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }
    fn main(&self) -> FileId {
        self.template.id()
    }
    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.template.id() { Ok(self.template.clone()) } else { Err(FileError::AccessDenied) }
    }
    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let known = [&self.view, &self.model].into_iter().find(|(known, _)| *known == id);
        known.map(|(_, bytes)| bytes.clone()).ok_or(FileError::AccessDenied)
    }
    fn font(&self, index: usize) -> Option<Font> {
        fonts::all().get(index).cloned()
    }
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
