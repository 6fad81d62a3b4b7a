//! The desk, topic by topic: what stands around the pages, the pages, their fields and pictures.

pub mod approach;
pub mod aside;
pub mod biometry;
pub mod changes;
pub mod day;
pub mod eye_section;
pub mod figures;
pub mod findings;
pub mod frame;
pub mod keys;
pub mod lens;
pub mod lens_records;
pub mod list;
pub mod outcome;
pub mod reference;
pub mod second_look;
pub mod settings;
pub mod sheet;
pub mod widgets;
