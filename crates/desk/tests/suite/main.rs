//! The desk, driven through its accessibility tree and drawn without a display.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod approach;
mod approach_pictures;
mod approach_sides;
mod aside;
mod dangers;
mod day;
mod day_order;
mod decisions;
mod eye_figure;
mod fields;
mod focus_visible;
mod go_to_field;
mod journeys;
mod keyboard;
mod leaving;
mod left_behind;
mod lens;
mod lens_import;
mod lens_pictures;
mod lens_records;
mod lens_table;
mod list_days;
mod measuring_acts;
mod measuring_room;
mod pictures;
mod pictures_settings;
mod pseudo;
mod reach;
mod reach_measurements;
mod reach_state;
mod scripts;
mod second_look;
mod settings;
mod sheet;
mod signed;
mod stop;
mod support;
mod two_roles;
mod two_windows;
mod waiting;
