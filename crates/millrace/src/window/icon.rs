//! The icon: an eye seen from the front, a ring and a pupil on petrol.

use egui::IconData;

const SIDE: u32 = 64;
const PETROL: [u8; 4] = [0x0b, 0x5a, 0x64, 0xff];
const WHITE: [u8; 4] = [0xff, 0xff, 0xff, 0xff];
const CLEAR: [u8; 4] = [0, 0, 0, 0];

pub(super) fn icon() -> IconData {
    let places = (0..SIDE).flat_map(|y| (0..SIDE).map(move |x| (x, y)));
    IconData {
        rgba: places.flat_map(|(x, y)| color(x, y)).collect(),
        width: SIDE,
        height: SIDE,
    }
}

/// Distances are compared as squares of half pixels, so that whole numbers do.
fn color(x: u32, y: u32) -> [u8; 4] {
    let off = |at: u32| (2 * at + 1).abs_diff(SIDE);
    let (across, down) = (off(x), off(y));
    let squared = across * across + down * down;
    let within = |radius: u32| squared < (2 * radius) * (2 * radius);
    if !within(31) {
        return CLEAR;
    }
    if within(11) || (within(24) && !within(19)) {
        return WHITE;
    }
    PETROL
}
