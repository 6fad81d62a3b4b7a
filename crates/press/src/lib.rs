//! The press: sets sheets in a process of its own. A clinic's own arrangement is a program that the layout
//! engine runs; whatever it does there ends that process and no other.
//!
//! The parent hands over signed plans or a draft and gets back files, pictures of pages, or a refusal. The
//! process stays for the next sheet, may take so much memory and so long, and when it dies the parent says
//! of what, and starts another for the next sheet. The register is no business of it: a sheet's number and
//! its fingerprint stay what they were.

mod child;
mod error;
mod frame;
mod message;
mod press;
mod running;
mod system;
mod wording;

pub use child::{is_asked_for, serve};
pub use error::PressError;
pub use press::{Bounds, Press, Program, Subject};
pub use system::of_this_program;
