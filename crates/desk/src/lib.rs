//! The desk a surgeon plans at: pages, banner, theatre list and findings, drawn with egui.
//!
//! The crate opens no window, touches no file and reads no clock. Today's date, the person at the
//! desk and every stored case are handed in; what has to be done outside is asked for as a
//! [`Request`](exchange::Request), and answered by an [`Answer`](exchange::Answer).
//!
//! Everything that happens is a [`Message`](message::Message): pages and panels are functions of what
//! they are shown that return messages, and one `update` does them. The modules stand in layers, each
//! of which names only those before it.

mod answers;
pub mod desk;
pub mod exchange;
pub mod figures;
mod follow;
pub mod frame;
pub mod message;
mod next_entry;
mod order;
pub mod pages;
mod panels;
pub mod power_lines;
pub mod session;
pub mod settings;
pub mod signed;
mod state;
pub mod stop;
pub mod theme;
pub mod typing;
mod update;
pub mod whereabouts;
pub mod widgets;
pub mod words;
