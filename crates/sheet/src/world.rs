//! All the layout engine can reach: the template, one data file, the shipped typefaces. No file
//! system, no packages, no clock.

use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Binding, Bytes, Datetime, Duration, Module, Scope};
use typst::syntax::{FileId, Source};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use crate::{Template, fonts, template};

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(without_plugins()));

/// What a template may call: all of the layout engine but its plugins, which are programs. They are
/// taken out of the one scope that every other way to them (`std`, `eval`) looks into.
fn without_plugins() -> Library {
    let mut library = Library::default();
    let mut kept = Scope::new();
    for (name, binding) in library.global.scope().iter() {
        if name != "plugin" {
            kept.bind(name.clone(), binding.clone());
        }
    }
    library.global = Module::new("global", kept);
    library.std = Binding::detached(library.global.clone());
    library
}

/// Where the data lies.
const DATA: &str = "/data.json";

/// Nothing in it is read or hashed anew for a sheet but the data.
pub(crate) struct SheetWorld {
    sources: [Source; 3],
    main: FileId,
    data: (FileId, Bytes),
}

impl SheetWorld {
    pub(crate) fn new(template: &Template, data: Vec<u8>) -> FileResult<Self> {
        let sources = template.sources()?;
        let [main, ..] = &sources;
        Ok(Self {
            main: main.id(),
            sources,
            data: (template::id(DATA)?, Bytes::new(data)),
        })
    }
}

impl World for SheetWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        fonts::book()
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.sources
            .iter()
            .find(|source| source.id() == id)
            .cloned()
            .ok_or_else(|| not_here(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let (data, bytes) = &self.data;
        if *data == id {
            return Ok(bytes.clone());
        }
        Err(not_here(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts::font(index)
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn not_here(id: FileId) -> FileError {
    FileError::NotFound(id.get().vpath().get_with_slash().into())
}
