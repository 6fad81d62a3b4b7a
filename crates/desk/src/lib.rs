//! The desk a surgeon plans at: pages, banner, theatre list and findings, drawn with egui.
//!
//! The crate opens no window, touches no file and reads no clock. Today's date, the person at the
//! desk and every stored case are handed in; what has to be done outside is asked for as a
//! [`Request`](exchange::Request). A page is a function of a view that returns commands; only
//! [`session::Session`] applies them, through `millrace_core::case::update`.

pub mod settings;
pub mod theme;
pub mod widgets;
pub mod words;

mod actions;
mod answers;
mod command_words;
pub mod desk;
pub mod exchange;
pub mod figures;
pub mod frame;
mod front;
mod open_case;
pub mod pages;
pub mod session;
pub mod whereabouts;
