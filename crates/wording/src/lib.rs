//! Every word that Millrace shows: sentences, labels, and how a number is written.
//!
//! The core knows facts and no sentence. Here a fact becomes a text: a [`Message`] is written once,
//! in English, under a name; the text on the terminal, the desk and the sheet call it by that name
//! and hand it facts. [`Words`] says in which language and with which decimal sign.
//!
//! A second language is a table of the same names. The pseudo-language, [`Language::Pseudo`], changes
//! every letter it can and no number: what stays plain English in it was not written here.
//!
//! ```
//! use millrace_core::quantity::Micrometers;
//! use millrace_wording::{Show as _, Words};
//!
//! let words = Words::ENGLISH;
//! assert_eq!(Micrometers::new(23_450).show(words), "23.45 mm");
//! ```

#[macro_use]
mod message;
pub mod astigmatism;
mod catalog;
pub mod certainty;
pub mod check;
pub mod command_line;
pub mod dates;
pub mod desk;
pub mod entry;
pub mod iol_power;
pub mod lens;
pub mod limits;
pub mod measurements;
pub mod number;
pub mod patients;
pub mod press;
mod pseudo;
pub mod quantity;
pub mod register;
pub mod rules;
pub mod sheet;
mod show;
pub mod signing;
pub mod simulation;
pub mod stored;
pub mod tabulate;
pub mod terms;
pub mod text;
pub mod window;
mod words;

pub use catalog::messages;
pub use message::{Message, Template};
pub use number::DecimalSign;
pub use show::Show;
pub use words::{Language, Words, sentence};
