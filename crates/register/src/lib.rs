//! Keeps cases, and every saved change of each, in one file that two running copies may share.
//!
//! A save adds a revision and changes none; what a list shows is the newest revision of each case.
//! The crate reads no clock and knows no person: who saves, when, and with which program is an
//! argument ([`Stamp`]). Nobody else in Millrace knows SQL.
//!
//! [`Register::open`] → [`Register::save`] → [`Register::load`], [`Register::list`],
//! [`Register::search`], [`Register::history`] → [`Register::sign`], [`Register::verify`] → [`Register::check`], [`Register::backup`].

mod backup;
mod begin;
mod belongs;
mod case_id;
mod catalog;
mod chain;
mod check;
mod clock;
mod entry;
mod error;
mod fold;
mod head;
mod identity;
mod journal;
mod list;
mod look;
mod open;
mod order;
mod patients;
mod place;
mod problem;
mod read;
mod repair;
mod restore;
mod save;
mod schema;
mod search;
mod seen;
mod sheet;
mod stamp;
mod system;
mod wording;

pub use backup::Pages;
pub use belongs::belongs_to_a_register;
pub use case_id::{CaseId, NotACaseId};
pub use check::{CheckProblem, CheckReport, Checked};
pub use clock::{Clock, SetBack};
pub use entry::{CaseEntry, Revision, RevisionEntry, RevisionHash, Sequence};
pub use error::{Fault, RegisterError, SaveError, SignError};
pub use head::{Head, HeadStanding, NotAHead, PrintedHead};
pub use list::{Cases, OnDay, Window};
pub use look::ReadOnly;
pub use open::Register;
pub use order::Placed;
pub use patients::PatientDoubt;
pub use problem::{Index, Mismatch, Problem, SignedProblem, Wanted};
pub use schema::NEWEST_SCHEMA;
pub use seen::SeenHeads;
pub use sheet::{Sheet, SheetEntry, SheetStanding, Signing};
pub use stamp::Stamp;
