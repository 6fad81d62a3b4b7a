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

/// Every formula, in the order of every table.
pub const FORMULAS: [FormulaText; 17] = [
    FormulaText {
        key: "thin_lens_eye",
        title: "One eye, one equation",
        standing: Standing::Derived,
        validity: "paraxial, vertex distance 12 mm",
        known_differences: "none known",
        text: thin_lens_eye::REFERENCE,
    },
    FormulaText {
        key: "srk_t",
        title: "SRK/T",
        standing: Standing::Memory,
        validity: "no printed range; refused where the corneal height has no real value",
        known_differences: "not monotonic within 0.25 mm of a refused eye, for corneas of 45 D or more",
        text: srk_t::REFERENCE,
    },
    FormulaText {
        key: "t2",
        title: "T2",
        standing: Standing::Memory,
        validity: "no printed range",
        known_differences: "none known",
        text: t2::REFERENCE,
    },
    FormulaText {
        key: "holladay_1",
        title: "Holladay 1",
        standing: Standing::Memory,
        validity: "its own caps on radius and chamber diameter, with a caution",
        known_differences: "none known",
        text: holladay_1::REFERENCE,
    },
    FormulaText {
        key: "hoffer_q",
        title: "Hoffer Q",
        standing: Standing::Memory,
        validity: "its own limits on axial length, with a caution",
        known_differences: "limits of 2.5 and 6.5 mm on the predicted depth stand in some texts only: applied, with a caution",
        text: hoffer_q::REFERENCE,
    },
    FormulaText {
        key: "haigis",
        title: "Haigis",
        standing: Standing::Memory,
        validity: "needs a measured chamber depth",
        known_differences: "none known",
        text: haigis::REFERENCE,
    },
    FormulaText {
        key: "thick_lens",
        title: "Thick-lens paraxial eye",
        standing: Standing::Derived,
        validity: "no fitted constant: a physical check, not a replacement",
        known_differences: "equiconvex lens assumed; axial length as measured; in the demo cases up to 2.6 D more power than formulas with a fitted constant, most in short eyes and deep chambers; marked as a caution",
        text: thick_lens::REFERENCE,
    },
    FormulaText {
        key: "no_history_k",
        title: "No-history K",
        standing: Standing::Printed,
        validity: "after laser surgery for myopia or hyperopia",
        known_differences: "none known",
        text: no_history_k::REFERENCE,
    },
    FormulaText {
        key: "double_k",
        title: "Double-K SRK/T",
        standing: Standing::Memory,
        validity: "after laser surgery, with keratometry from before it",
        known_differences: "corneal power after surgery by the no-history K or the known correction",
        text: double_k::REFERENCE,
    },
    FormulaText {
        key: "haigis_modified_radius",
        title: "Haigis, modified radius",
        standing: Standing::Memory,
        validity: "after laser surgery for myopia",
        known_differences: "none known",
        text: modified_haigis_radius::REFERENCE,
    },
    FormulaText {
        key: "conversions",
        title: "Conversions of lens constants",
        standing: Standing::Memory,
        validity: "starting values of the ultrasound era",
        known_differences: "with constants for optical biometry Haigis lands about 1 D from the others",
        text: conversions::REFERENCE,
    },
    FormulaText {
        key: "sulcus",
        title: "Power for the ciliary sulcus",
        standing: Standing::Printed,
        validity: "positive powers",
        known_differences: "the two published rules disagree at the edges",
        text: sulcus::REFERENCE,
    },
    FormulaText {
        key: "power_vectors",
        title: "Power vectors",
        standing: Standing::Printed,
        validity: "any spherocylinder; axes after ISO 8429",
        known_differences: "whole cylinders at twice the angle are shown, halves in the paper",
        text: astigmatism::POWER_VECTORS,
    },
    FormulaText {
        key: "posterior_astigmatism",
        title: "Posterior cornea",
        standing: Standing::Printed,
        validity: "measured, or estimated by choice; the multiplier for lens cylinders up to 2 D",
        known_differences: "a measured back is added without correcting the front, about a tenth too weak at index 1.3375",
        text: astigmatism::POSTERIOR_ASTIGMATISM,
    },
    FormulaText {
        key: "incision",
        title: "Incision",
        standing: Standing::Printed,
        validity: "temporal, up to 2.8 mm; any other by the surgeon's own figures only",
        known_differences: "published centroid at 97, applied at right angles to the incision (assumption)",
        text: astigmatism::INCISION,
    },
    FormulaText {
        key: "toric_eye",
        title: "Toric eye",
        standing: Standing::Derived,
        validity: "regular, untouched corneas; thin-lens formulas",
        known_differences: "one lens position for both meridians",
        text: astigmatism::TORIC_EYE,
    },
    FormulaText {
        key: "second_eye",
        title: "Second eye",
        standing: Standing::Printed,
        validity: "four conditions; shown beside the unrefined prediction",
        known_differences: "two of the conditions are ours",
        text: astigmatism::SECOND_EYE,
    },
];

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
