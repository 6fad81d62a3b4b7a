//! The reference texts: what `millrace formulas`, `millrace rules` and the pages in `docs/` print.

use core::fmt::Write as _;

use crate::evidence::Standing;
use crate::iol_power::after_corneal_surgery::{double_k, modified_haigis_radius, no_history_k};
use crate::iol_power::{
    conversions, haigis, hoffer_q, holladay_1, srk_t, sulcus, t2, thick_lens, thin_lens_eye,
};
use crate::limits::Limits;
use crate::rules::{ALL, Bearing, Group, Rule};

/// One entry of the formula reference.
#[derive(Clone, Copy, Debug)]
pub struct FormulaText {
    /// Permanent name.
    pub key: &'static str,
    /// Title, one line.
    pub title: &'static str,
    /// The text, in Markdown, from its title line on.
    pub text: &'static str,
}

/// Every formula, in the order of every table.
pub const FORMULAS: [FormulaText; 12] = [
    entry(
        "thin_lens_eye",
        "One eye, one equation",
        thin_lens_eye::REFERENCE,
    ),
    entry("srk_t", "SRK/T", srk_t::REFERENCE),
    entry("t2", "T2", t2::REFERENCE),
    entry("holladay_1", "Holladay 1", holladay_1::REFERENCE),
    entry("hoffer_q", "Hoffer Q", hoffer_q::REFERENCE),
    entry("haigis", "Haigis", haigis::REFERENCE),
    entry(
        "thick_lens",
        "Thick-lens paraxial eye",
        thick_lens::REFERENCE,
    ),
    entry("no_history_k", "No-history K", no_history_k::REFERENCE),
    entry("double_k", "Double-K SRK/T", double_k::REFERENCE),
    entry(
        "haigis_modified_radius",
        "Haigis, modified radius",
        modified_haigis_radius::REFERENCE,
    ),
    entry(
        "conversions",
        "Conversions of lens constants",
        conversions::REFERENCE,
    ),
    entry("sulcus", "Power for the ciliary sulcus", sulcus::REFERENCE),
];

const fn entry(key: &'static str, title: &'static str, text: &'static str) -> FormulaText {
    FormulaText { key, title, text }
}

impl FormulaText {
    /// The entry as a section of a longer page.
    #[must_use]
    pub fn section(&self) -> String {
        let mut section = format!("## {} (`{}`)\n\n", self.title, self.key);
        let mut in_code = false;
        for line in self.text.lines() {
            in_code ^= line.starts_with("```");
            if !in_code && line.starts_with("# ") {
                section.push_str("##");
            }
            section.push_str(line);
            section.push('\n');
        }
        section
    }
}

/// The words for standing, explained.
#[must_use]
pub fn standings() -> String {
    Standing::ALL
        .iter()
        .fold(String::new(), |mut text, standing| {
            let _ = writeln!(text, "- *{}*: {}", standing.word(), standing.meaning());
            text
        })
}

/// A rule as a section of a longer page, with the shipped limits.
#[must_use]
pub fn rule_section(rule: &Rule) -> String {
    let mut text = format!("### {} {}\n\n", rule.id, rule.title);
    let _ = write!(text, "**{}**", rule.severity);
    if let Some(bearing) = rule.bearing {
        let side = match bearing {
            Bearing::Phacoemulsification => "phacoemulsification",
            Bearing::SmallIncision => "manual small-incision surgery",
        };
        let _ = write!(text, " · a finding speaks for {side}");
    }
    let _ = writeln!(text, "\n\n- Checks: {}", rule.checks);
    let _ = writeln!(text, "- Why: {}", rule.why);
    let _ = writeln!(text, "- Options: {}", rule.options);
    let entries = Limits::shipped().entries();
    for name in rule.limits {
        if let Some((_, value)) = entries.iter().find(|(entry, _)| entry == name) {
            let _ = writeln!(text, "- Limit: `{name}` {value}");
        }
    }
    for source in rule.sources {
        let _ = writeln!(text, "- Source: {source}");
    }
    text
}

/// Every rule, under the questions they answer.
#[must_use]
pub fn rules() -> String {
    let mut text = String::new();
    for group in Group::ALL {
        let _ = writeln!(text, "## {}\n", group.question());
        for rule in ALL.iter().filter(|rule| rule.group == group) {
            let _ = writeln!(text, "{}", rule_section(rule));
        }
    }
    text
}
