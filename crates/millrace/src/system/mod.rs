//! Everything that only some systems have, in one place; beside it stands what the others do.
//!
//! Built and tested on Linux; what stands in `other.rs` compiles elsewhere and was run by nobody.

#[cfg(not(unix))]
#[path = "other.rs"]
mod kind;
#[cfg(unix)]
#[path = "unix.rs"]
mod kind;

pub(crate) use kind::{private_directory, with_rights_of};
