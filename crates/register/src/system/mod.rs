//! Everything that only some systems have, in one place; beside each file stands what the others do.
//!
//! Built and tested on Linux; what stands in `other.rs` compiles elsewhere and was run by nobody.

#[cfg(target_os = "linux")]
mod drive;
#[cfg(not(target_os = "linux"))]
#[path = "any_drive.rs"]
mod drive;
#[cfg(not(unix))]
#[path = "other.rs"]
mod kind;
#[cfg(unix)]
#[path = "unix.rs"]
mod kind;

pub(crate) use drive::network_drive;
pub(crate) use kind::{FileId, as_address, let_owner_write, private_directory, sync_directory};
