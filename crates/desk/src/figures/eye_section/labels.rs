//! What is written at the drawing and under it, and the same as text.

use egui::{Align2, FontId, Pos2, Ui, vec2};
use millrace_core::biometry::Item;
use millrace_core::chamber::LENS_DIAMETER;
use millrace_core::quantity::Millimeters;
use millrace_wording::desk::eye_section as say;
use millrace_wording::measurements::head;
use millrace_wording::{Show as _, Words, terms};

use super::{Canvas, EyeFigure, Missing};
use crate::figures::paint::Label as Written;
use crate::theme::measures;
use crate::widgets::{Ink, small};
use crate::words::in_use;

/// A length that is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Label {
    Diameter,
    Length,
    Depth,
    Lens,
}

impl Label {
    fn short(self, words: Words) -> &'static str {
        match self {
            Self::Diameter => say::short_diameter(words),
            Self::Length => say::short_length(words),
            Self::Depth => say::short_depth(words),
            Self::Lens => say::short_lens(words),
        }
    }
}

impl Canvas<'_> {
    /// The short name beside its length: over a level one, to the side away from the axis otherwise.
    pub(super) fn name(&self, ends: [Pos2; 2], label: Label) {
        let words = in_use(self.painter.ctx());
        let middle = ends[0].lerp(ends[1], 0.5);
        let (at, anchor) = match label {
            Label::Diameter => (middle - vec2(0.0, 3.0), Align2::CENTER_BOTTOM),
            Label::Length => (middle + vec2(5.0, 0.0), Align2::LEFT_CENTER),
            Label::Depth | Label::Lens => (middle - vec2(5.0, 0.0), Align2::RIGHT_CENTER),
        };
        self.write(at, anchor, label.short(words));
    }

    pub(super) fn write_scale(&self, beside: Pos2) {
        let words = in_use(self.painter.ctx());
        let at = beside + vec2(6.0, 0.0);
        self.write(at, Align2::LEFT_CENTER, say::five_millimeters(words));
    }

    fn write(&self, at: Pos2, anchor: Align2, text: &str) {
        let font = FontId::proportional(measures::SMALL);
        let label = Written {
            at,
            anchor,
            ink: Ink::new(font, self.palette.ink),
            ground: self.palette.surface,
        };
        label.write(self.painter, text.to_owned());
    }
}

impl EyeFigure<'_> {
    /// What is measured, each with its number: as it stands under the drawing.
    fn measured(&self, words: Words) -> Vec<String> {
        let eye = self.eye;
        let mut lines = Vec::new();
        if let Some(length) = &eye.axial_length {
            lines.push(say::length(words, length.value.get()));
        }
        if let Some(cornea) = self.places.cornea {
            lines.push(say::radius(words, Millimeters::new(cornea.radius)));
        }
        if let Some(thickness) = &eye.corneal_thickness {
            lines.push(say::thickness(words, thickness.value.show(words)));
        }
        if let (Some(depth), Some(_)) = (&eye.chamber_depth, self.places.chamber) {
            let start = depth.value.start;
            lines.push(say::depth(words, depth.value.depth.get(), start));
        }
        if let (Some(lens), Some(_)) = (&eye.lens_thickness, self.places.lens) {
            lines.push(say::lens(words, lens.value.get()));
        }
        let edge = self.places.cornea.and_then(|it| it.edge);
        if let (Some(diameter), Some(_)) = (&eye.corneal_diameter, edge) {
            lines.push(say::diameter(words, diameter.value.get()));
        }
        lines
    }

    /// What is not drawn, and what is drawn and was not measured.
    fn said(&self, words: Words) -> Vec<String> {
        let mut said = Vec::new();
        let missing = &self.places.missing;
        let items = missing.iter().filter_map(|it| match it {
            Missing::NotMeasured(item) => Some(head(words, *item)),
            _ => None,
        });
        let items: Vec<String> = items.collect();
        if !items.is_empty() {
            said.push(say::not_measured(words, words.list(items)));
        }
        for it in missing {
            said.extend(
                match it {
                    Missing::NotMeasured(Item::CornealDiameter) if self.places.cornea.is_some() => {
                        Some(say::open_cornea(words))
                    }
                    Missing::NotMeasured(_) => None,
                    Missing::DepthFromUnknown => Some(say::depth_from_unknown(words)),
                    Missing::LensNowhere => Some(say::lens_nowhere(words)),
                    Missing::TooWide => Some(say::too_wide(words)),
                }
                .map(str::to_owned),
            );
        }
        match (self.places.wall, self.places.lens) {
            (Some(_), Some(_)) => said.push(say::scheme_of_both(words, LENS_DIAMETER)),
            (Some(_), None) => said.push(say::scheme_of_globe(words).to_owned()),
            (None, Some(_)) => said.push(say::scheme_of_lens(words, LENS_DIAMETER)),
            (None, None) => {}
        }
        said
    }

    /// The same in words.
    pub fn words(&self, words: Words) -> String {
        let title = say::section(words, terms::eye_head(words, self.side));
        let measured = self.measured(words);
        let lines = [title, measured.join("; ")]
            .into_iter()
            .chain(self.said(words));
        lines
            .filter(|line| !line.is_empty())
            .collect::<Vec<_>>()
            .join(". ")
    }

    /// What is measured, under the drawing.
    pub(super) fn legend(&self, ui: &mut Ui) {
        let words = in_use(ui);
        ui.spacing_mut().item_spacing.y = 1.0;
        for line in self.measured(words) {
            // No number is parted from its unit where the line ends.
            let line = line.replace(" mm", "\u{a0}mm").replace(" µm", "\u{a0}µm");
            ui.label(egui::RichText::new(line).small());
        }
        ui.add_space(measures::TIGHT);
        for line in self.said(words) {
            small(ui, line);
        }
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::{EyeRecord, Side};
    use millrace_core::case_file;

    use super::*;

    const HARD: &str = include_str!("../../../../../demo-data/cases/hard-and-shallow.ron");

    #[test]
    fn words_hold_every_number_of_the_picture() {
        let eye = case_file::read(HARD).unwrap().eyes.right;
        let text = EyeFigure::of(Side::Right, &eye).words(Words::ENGLISH);
        let text = text.replace(['\u{a0}', '\u{202f}'], " ");
        for said in [
            "Right eye",
            "axial length 22.84 mm",
            "Corneal radius 7.56 mm",
            "538 µm",
            "chamber depth 2.55 mm from the epithelium",
            "lens thickness 5.05 mm",
            "corneal diameter 11.40 mm",
            "9.80 mm",
        ] {
            assert!(text.contains(said), "{said}: {text}");
        }
        assert!(!text.contains("Not measured"), "{text}");
    }

    #[test]
    fn what_is_missing_is_said() {
        let mut eye = case_file::read(HARD).unwrap().eyes.right;
        eye.lens_thickness = None;
        eye.corneal_diameter = None;
        let text = EyeFigure::of(Side::Left, &eye).words(Words::ENGLISH);
        for said in [
            "Left eye",
            "Not measured: corneal diameter",
            "lens thickness",
        ] {
            let found = text.to_lowercase().contains(&said.to_lowercase());
            assert!(found, "{said}: {text}");
        }
        let nothing = EyeRecord::default();
        let text = EyeFigure::of(Side::Right, &nothing).words(Words::ENGLISH);
        assert!(text.contains("Not measured"), "{text}");
        assert!(!text.contains("circle"), "{text}");
    }
}
