//! The plan for other programs: every number with its unit in its name.

mod certainty;
mod document;
mod risk;
mod second_eye;
mod theatre;
mod toric;

use millrace_core::case::Draft;
use millrace_core::plan::Plan;

/// Writes the plan as one JSON document with a line ending.
pub(crate) fn write(draft: &Draft, plan: &Plan) -> String {
    let document = document::Document::of(draft, plan);
    // Only strings, finite numbers and lists of them: there is nothing that could fail.
    let mut text = serde_json::to_string_pretty(&document).unwrap_or_default();
    text.push('\n');
    text
}
