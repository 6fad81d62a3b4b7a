//! All the layout engine can reach: the template, one data file, the shipped typefaces. No file
//! system, no packages, no clock.

use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use crate::fonts;
use crate::template::Template;

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// Where the data lies.
const DATA: &str = "/data.json";

pub(crate) struct SheetWorld {
    main: Source,
    others: Vec<Source>,
    data: (FileId, Bytes),
}

impl SheetWorld {
    pub(crate) fn new(template: &Template, data: Vec<u8>) -> Result<Self, FileError> {
        let mut sources = Vec::new();
        for (path, text) in template.sources() {
            sources.push(Source::new(id(path)?, text.to_owned()));
        }
        let main = sources.remove(0);
        Ok(Self {
            main,
            others: sources,
            data: (id(DATA)?, Bytes::new(data)),
        })
    }
}

fn id(path: &str) -> Result<FileId, FileError> {
    let path = VirtualPath::new(path).map_err(|_| FileError::Other(None))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for SheetWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        fonts::book()
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        core::iter::once(&self.main)
            .chain(&self.others)
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
