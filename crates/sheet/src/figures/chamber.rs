//! The anterior chamber of this eye, to scale; the geometry is core's.

use millrace_core::biometry::DepthStart;
use millrace_core::chamber::drawing::{IRIS_MM, ellipse, sphere};
use millrace_core::chamber::{ChamberSection, LENS_DIAMETER};
use millrace_core::quantity::Micrometers;
use millrace_core::rules::Verdict;
use millrace_wording::desk::{approach, figures};
use millrace_wording::{Show as _, sheet as say};

use super::{Figure, Shape, Words};
use crate::content::Subject;

/// Room for words beside the drawing and over it, points.
const BESIDE: f64 = 46.0;
const OVER: f64 = 14.0;
const WIDTH: f64 = 198.0;
const HEIGHT: f64 = 126.0;

struct Canvas {
    points_per_mm: f64,
    center: f64,
    figure: Figure,
}

impl Canvas {
    fn at(&self, [x, depth]: [f64; 2]) -> [f64; 2] {
        [
            self.center + x * self.points_per_mm,
            OVER + depth * self.points_per_mm,
        ]
    }

    fn points(&self, places: &[[f64; 2]]) -> Vec<[f64; 2]> {
        places.iter().map(|place| self.at(*place)).collect()
    }

    fn line(&mut self, places: &[[f64; 2]], width: f64) {
        let points = self.points(places);
        self.figure.shapes.push(Shape::line(points, width));
    }

    fn area(&mut self, places: &[[f64; 2]], width: f64, fill: u8) {
        let points = self.points(places);
        self.figure.shapes.push(Shape::area(points, width, fill));
    }
}

/// For a hard nucleus, or a chamber with a finding on its depth; nothing where the section lacks a
/// measurement, which the list of what was not measured names.
pub(super) fn section(subject: Subject<'_>) -> Option<Figure> {
    let (chamber, words) = (&subject.results.chamber, subject.words);
    let section = chamber.section.answer()?;
    if !concerns(subject) {
        return None;
    }
    let limit = (chamber.depth_limit_um, chamber.depth_limit_from);
    let nucleus = subject.draft.approach.nucleus;
    let [across, deep] = section.extent_mm(limit, nucleus);
    let points_per_mm = ((WIDTH - 2.0 * BESIDE) / across).min((HEIGHT - OVER - 10.0) / deep);
    let mut canvas = Canvas {
        points_per_mm,
        center: WIDTH / 2.0,
        figure: Figure {
            title: approach::to_scale(words).to_owned(),
            alt: in_words(subject, section),
            width: WIDTH,
            height: OVER + deep * points_per_mm + 6.0,
            shapes: Vec::new(),
            words: Vec::new(),
            caption: say::outline_only_helps(words).to_owned(),
        },
    };
    draw_lens(&mut canvas, subject, section);
    draw_cornea(&mut canvas, section);
    draw_iris(&mut canvas, section);
    draw_limit(&mut canvas, section, limit);
    label(&mut canvas, subject, section);
    Some(canvas.figure)
}

/// DP-01 does not apply to a nucleus that is not hard; DP-03 speaks of any depth.
fn concerns(subject: Subject<'_>) -> bool {
    subject.results.rules.iter().any(|rule| {
        let finding = matches!(rule.verdict, Verdict::Finding(_));
        match rule.id.as_str() {
            "DP-01" => finding || rule.verdict == Verdict::Satisfied,
            "DP-03" => finding,
            _ => false,
        }
    })
}

fn draw_cornea(canvas: &mut Canvas, section: &ChamberSection) {
    let half = section.half_cornea_mm();
    let front = sphere(0.0, section.front_radius.mm(), half);
    let inner = section.angle_mm().min(half);
    let back = sphere(section.endothelium.mm(), section.back_radius.mm(), inner);
    let mut outline = front;
    outline.extend(back.into_iter().rev());
    canvas.area(&outline, 1.0, 225);
}

fn draw_lens(canvas: &mut Canvas, subject: Subject<'_>, section: &ChamberSection) {
    let plane = section.pupil_plane.mm();
    let Some(back) = section.lens_back else {
        return;
    };
    let half_thickness = (back.mm() - plane) / 2.0;
    let center = [0.0, plane + half_thickness];
    canvas.area(
        &ellipse(center, [LENS_DIAMETER.mm() / 2.0, half_thickness]),
        1.0,
        255,
    );
    let Some(nucleus) = subject.draft.approach.nucleus else {
        return;
    };
    let half = [
        nucleus.equatorial_radius().mm(),
        nucleus.axial_radius().mm(),
    ];
    canvas.area(&ellipse(center, half), 0.8, 205);
    let at = canvas.at(center);
    canvas
        .figure
        .words
        .push(Words::new(at, "center", figures::nucleus(subject.words)));
}

fn draw_iris(canvas: &mut Canvas, section: &ChamberSection) {
    let Some(pupil) = section.pupil_diameter else {
        return;
    };
    let plane = section.pupil_plane.mm();
    let (inner, outer) = (pupil.mm() / 2.0, section.angle_mm());
    if outer <= inner {
        return;
    }
    for side in [-1.0, 1.0] {
        let leaf = [
            [side * inner, plane],
            [side * outer, plane],
            [side * outer, plane + IRIS_MM],
            [side * inner, plane + IRIS_MM],
        ];
        canvas.area(&leaf, 0.5, 90);
    }
}

fn draw_limit(canvas: &mut Canvas, section: &ChamberSection, limit: (Micrometers, DepthStart)) {
    let depth = section.limit_mm(limit);
    let half = section.half_cornea_mm();
    let points = canvas.points(&[[-half, depth], [half, depth]]);
    canvas.figure.shapes.push(Shape::line(points, 1.0).dashed());
}

/// Depth and limit on the left, aqueous and lens on the right.
fn label(canvas: &mut Canvas, subject: Subject<'_>, section: &ChamberSection) {
    let (chamber, words) = (&subject.results.chamber, subject.words);
    let limit = (chamber.depth_limit_um, chamber.depth_limit_from);
    let beside = section.half_cornea_mm().max(LENS_DIAMETER.mm() / 2.0);
    let plane = section.pupil_plane.mm();
    let start = match limit.1 {
        DepthStart::Epithelium => 0.0,
        DepthStart::Endothelium => section.endothelium.mm(),
    };
    measure(canvas, -beside, [start, plane]);
    measure(canvas, beside, [section.endothelium.mm(), plane]);
    let [left, middle] = canvas.at([-beside, f64::midpoint(start, plane)]);
    let [right, aqueous] = canvas.at([beside, f64::midpoint(section.endothelium.mm(), plane)]);
    let [_, limit_line] = canvas.at([0.0, section.limit_mm(limit)]);
    let depth = section.depth_from(limit.1);
    // The limit's words keep clear of the depth's, whichever of the two is deeper.
    let limit_at = limit_line.max(middle + 18.0);
    canvas.figure.words.extend([
        Words::new([left - 4.0, middle - 4.0], "right", say::depth(words)),
        Words::new([left - 4.0, middle + 4.5], "right", depth.show(words)).strong(7.0),
        Words::new(
            [left - 4.0, limit_at],
            "right",
            figures::limit(words, limit.0),
        ),
        Words::new([right + 4.0, aqueous - 4.0], "left", say::aqueous(words)),
        Words::new(
            [right + 4.0, aqueous + 4.5],
            "left",
            section.aqueous_depth.show(words),
        )
        .strong(7.0),
    ]);
    if let Some(back) = section.lens_back {
        measure(canvas, beside, [plane, back.mm()]);
        let [_, y] = canvas.at([0.0, f64::midpoint(plane, back.mm())]);
        let thickness = chamber.lens_thickness_mm;
        canvas.figure.words.extend([
            Words::new([right + 4.0, y - 4.0], "left", say::lens(words)),
            Words::new([right + 4.0, y + 4.5], "left", subject.stated(thickness)),
        ]);
    }
    let cornea = figures::cornea(words, section.endothelium);
    canvas
        .figure
        .words
        .push(Words::new([WIDTH / 2.0, OVER - 7.0], "center", cornea));
}

fn measure(canvas: &mut Canvas, x: f64, [from, to]: [f64; 2]) {
    canvas.line(&[[x, from], [x, to]], 0.6);
    for depth in [from, to] {
        canvas.line(&[[x - 0.25, depth], [x + 0.25, depth]], 0.6);
    }
}

fn in_words(subject: Subject<'_>, section: &ChamberSection) -> String {
    let (chamber, words) = (&subject.results.chamber, subject.words);
    let text = figures::section(
        words,
        section.endothelium,
        section.pupil_plane,
        section.aqueous_depth,
        chamber.depth_limit_um,
        chamber.depth_limit_from,
    );
    match chamber.lens_thickness_mm {
        Some(thickness) => format!("{text} {}", figures::lens_sentence(words, thickness)),
        None => text,
    }
}
