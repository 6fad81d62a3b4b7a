//! The reference texts: what `millrace formulas`, `millrace rules` and the pages in `docs/` print.

pub mod astigmatism;
mod uncertainty;

use core::fmt::Write as _;

pub use uncertainty::uncertainty;

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
    pub key: &'static str,
    pub title: &'static str,
    /// How the equation was come by.
    pub standing: Standing,
    /// Where it holds, in a few words.
    pub validity: &'static str,
    /// Where it is known to differ, from its authors or from other programs, and why.
    pub known_differences: &'static str,
    /// The text, in Markdown, from its title line on.
    pub text: &'static str,
}

/// The table, a formula an entry.
macro_rules! formulas {
    ($($key:literal $title:literal $standing:ident: $validity:literal, $known:literal, $text:expr;)*) => {
        /// Every formula, in the order of every table.
        pub const FORMULAS: [FormulaText; [$($key),*].len()] = [$(FormulaText {
            key: $key,
            title: $title,
            standing: Standing::$standing,
            validity: $validity,
            known_differences: $known,
            text: $text,
        }),*];
    };
}

formulas! {
    "thin_lens_eye" "One eye, one equation" Derived:
        "paraxial, vertex distance 12 mm",
        "none known", thin_lens_eye::REFERENCE;
    "srk_t" "SRK/T" Memory:
        "no printed range; refused where the corneal height has no real value",
        "not monotonic within 0.25 mm of a refused eye, for corneas of 45 D or more", srk_t::REFERENCE;
    "t2" "T2" Memory:
        "no printed range",
        "none known", t2::REFERENCE;
    "holladay_1" "Holladay 1" Memory:
        "its own caps on radius and chamber diameter, with a caution",
        "none known", holladay_1::REFERENCE;
    "hoffer_q" "Hoffer Q" Memory:
        "its own limits on axial length, with a caution",
        "limits of 2.5 and 6.5 mm on the predicted depth stand in some texts only: applied, with a caution", hoffer_q::REFERENCE;
    "haigis" "Haigis" Memory:
        "needs a measured chamber depth",
        "none known", haigis::REFERENCE;
    "thick_lens" "Thick-lens paraxial eye" Derived:
        "no fitted constant: a physical check, not a replacement",
        "equiconvex lens assumed; axial length as measured; in the demo cases up to 2.6 D more power than formulas with a fitted constant, most in short eyes and deep chambers; marked as a caution", thick_lens::REFERENCE;
    "no_history_k" "No-history K" Printed:
        "after laser surgery for myopia or hyperopia",
        "none known", no_history_k::REFERENCE;
    "double_k" "Double-K SRK/T" Memory:
        "after laser surgery, with keratometry from before it",
        "corneal power after surgery by the no-history K or the known correction", double_k::REFERENCE;
    "haigis_modified_radius" "Haigis, modified radius" Memory:
        "after laser surgery for myopia",
        "none known", modified_haigis_radius::REFERENCE;
    "conversions" "Conversions of lens constants" Memory:
        "starting values of the ultrasound era",
        "with constants for optical biometry Haigis lands about 1 D from the others", conversions::REFERENCE;
    "sulcus" "Power for the ciliary sulcus" Printed:
        "positive powers; the stepwise rule from 9 D",
        "the two published rules disagree at the edges", sulcus::REFERENCE;
    "power_vectors" "Power vectors" Printed:
        "any spherocylinder; axes after ISO 8429",
        "whole cylinders at twice the angle are shown, halves in the paper", astigmatism::POWER_VECTORS;
    "posterior_astigmatism" "Posterior cornea" Printed:
        "measured, or estimated by choice; the multiplier for lens cylinders up to 2 D",
        "a measured back is added without correcting the front, about a tenth too weak at index 1.3375", astigmatism::POSTERIOR_ASTIGMATISM;
    "incision" "Incision" Printed:
        "temporal, up to 2.8 mm; any other by the surgeon's own figures only",
        "published centroid at 97, applied at right angles to the incision (assumption)", astigmatism::INCISION;
    "toric_eye" "Toric eye" Derived:
        "regular, untouched corneas; thin-lens formulas",
        "one lens position for both meridians", astigmatism::TORIC_EYE;
    "second_eye" "Second eye" Printed:
        "seven conditions; shown beside the unrefined prediction",
        "five of the conditions are ours", astigmatism::SECOND_EYE;
}

impl FormulaText {
    /// The entry as a section of a longer page.
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
pub fn standings() -> String {
    Standing::ALL
        .iter()
        .fold(String::new(), |mut text, standing| {
            let _ = writeln!(text, "- *{}*: {}", standing.word(), standing.meaning());
            text
        })
}

/// A rule as a section of a longer page, with the shipped limits.
pub fn rule_section(rule: &Rule) -> String {
    let mut text = format!("### {} {}\n\n", rule.id, rule.title);
    let _ = write!(text, "**{:?}**", rule.severity);
    if let Some(bearing) = rule.bearing {
        let side = match bearing {
            Bearing::Phacoemulsification => "phacoemulsification",
            Bearing::SmallIncision => "manual small-incision surgery",
        };
        let _ = write!(text, " · a finding speaks in favor of {side}");
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_stands_once_and_under_the_question_it_answers() {
        let text = rules();
        let parts: Vec<_> = text.split("## ").collect();
        let mut group = "";
        let mut found = Vec::new();
        for part in parts {
            // "### ID" is taken apart as "#" and "ID".
            match part.split_once('\n') {
                Some((head, _)) if Group::ALL.iter().any(|it| it.question() == head) => {
                    group = head;
                }
                Some((head, _)) => {
                    let rule = ALL.iter().find(|rule| head.starts_with(rule.id));
                    found.extend(rule.map(|rule| (group, rule)));
                }
                None => {}
            }
        }
        assert_eq!(found.len(), ALL.len());
        for (question, rule) in found {
            assert_eq!(rule.group.question(), question, "{}", rule.id);
        }
    }
}
