//! Days as a reader takes them in.

pub(crate) use millrace_core::words::day as date;
