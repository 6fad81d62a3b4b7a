//! Spaces, sizes and strokes, in points: one scale for every page.

/// Between things that belong together.
pub const TIGHT: f32 = 4.0;
/// Between neighbors.
pub const NEAR: f32 = 8.0;
/// Between groups.
pub const APART: f32 = 16.0;
/// Between sections.
pub const FAR: f32 = 24.0;

/// Text that explains other text.
pub const SMALL: f32 = 11.5;
/// Text.
pub const BODY: f32 = 13.5;
pub const SECTION: f32 = 15.5;
/// Heading of a page; name in the banner.
pub const HEADING: f32 = 19.0;
/// The operated eye in the banner.
pub const EYE: f32 = 25.0;

/// Height of a control.
pub const CONTROL: f32 = 28.0;
/// Rounding of a control.
pub const ROUNDING: u8 = 4;
/// A control's outline.
pub const OUTLINE: f32 = 1.0;
/// The ring around what has the focus.
pub const FOCUS: f32 = 2.0;

/// Width of the theatre list.
pub const LIST_WIDTH: f32 = 212.0;
/// Width of the findings panel.
pub const FINDINGS_WIDTH: f32 = 284.0;
/// Under this width of the window, list and findings make room and open by a button.
pub const NARROW: f32 = 1000.0;
/// Under this height of the window the banner is set smaller.
pub const LOW: f32 = 480.0;
