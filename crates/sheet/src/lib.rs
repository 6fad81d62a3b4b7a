//! The plan sheet: what is taped up in theatre. A signed plan or a draft becomes a document; the
//! document becomes a tagged PDF, and pictures of the same pages, so that preview and print cannot
//! differ.
//!
//! Pure: no file, clock or network. Typefaces and template are part of the program. The layout engine
//! is Typst, in this crate alone (decision 9).

mod arrangement;
mod content;
mod data;
mod error;
mod figures;
mod fonts;
mod inspect;
mod labels;
mod list;
mod outdated;
mod paper;
mod qr;
mod required;
mod sheet;
mod template;
mod wording;
mod world;

pub use error::{Block, Fault, SheetError, Spot, What};
pub use inspect::PlacedText;
pub use list::{Progress, WithoutSheet, pdfs};
pub use outdated::Outdated;
pub use paper::Paper;
pub use sheet::{PageImage, Setting, Sheet};
pub use template::Template;
