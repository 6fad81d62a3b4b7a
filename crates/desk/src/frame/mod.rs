//! What stands around every page: banner, theatre list, tabs, findings, status.

pub mod aside_band;
pub mod banner;
pub mod conflict;
pub mod day;
pub mod file_panel;
pub mod findings;
pub mod first_run;
pub mod left_behind;
pub mod lock_band;
pub mod reference;
pub mod shortcuts;
pub mod status;
pub mod tabs;
pub mod theatre_list;
