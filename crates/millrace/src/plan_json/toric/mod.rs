//! Astigmatism: the terms of the cornea, every cylinder by every formula, and how sure they are.

mod certainty;
mod cornea;
mod prediction;

use millrace_core::astigmatism::rotation::no_better_from;
use millrace_core::astigmatism::toric_eye::{PUBLISHED_RATIO, PUBLISHED_RATIO_SOURCE};
use millrace_core::astigmatism::{ADDITION_SOURCE, AXIS_SOURCE, cloud, rotation, toric_eye};
use millrace_core::case::Draft;
use millrace_core::evidence::Source;
use millrace_core::lens::{LensRecord, PowerLabel};
use millrace_core::plan::{AlternativePlan, Plan, ToricPlan};
use serde::Serialize;

use certainty::{RotationPart, SpreadsPart, StepPart};
use cornea::{CorneaPart, VectorPart};
use prediction::FormulaPart;

#[derive(Serialize)]
pub(super) struct ToricPart {
    cornea: CorneaPart,
    spreads: SpreadsPart,
    /// What the label of a toric lens names; null for a lens that is not toric.
    label: Option<&'static str>,
    chosen_cylinder_d: Option<f64>,
    chosen_axis_degrees: Option<u16>,
    formulas: Vec<FormulaPart>,
    steps: Vec<StepPart>,
    chosen: Option<StepPart>,
    rotations: Vec<RotationPart>,
    no_better_than_none_from_degrees: Option<f64>,
    steep_incision: Option<IncisionPart>,
    steep_incision_refusal: Option<String>,
    published_ratio: RatioPart,
    sources: Vec<SourcePart>,
}

/// The incision on the steep meridian, with a lens without a cylinder.
#[derive(Serialize)]
struct IncisionPart {
    direction_degrees: u16,
    place: &'static str,
    cornea: VectorPart,
    cautions: Vec<String>,
    without_cylinder: Option<StepPart>,
    refusal: Option<String>,
}

/// Published ratio of cylinder at the lens plane to cylinder at the corneal plane.
#[derive(Serialize)]
struct RatioPart {
    from: f64,
    to: f64,
    source: SourcePart,
}

#[derive(Serialize)]
pub(super) struct SourcePart {
    source: String,
    standing: &'static str,
}

impl ToricPart {
    pub(super) fn of(draft: &Draft, plan: &Plan) -> Self {
        let (toric, lens) = (&plan.toric, &draft.lens);
        let planned = toric.planned(lens.formula).ok();
        let made = |record: &LensRecord| record.toric.as_ref().map(|steps| label(steps.label()));
        let [from, to] = PUBLISHED_RATIO;
        let at_cornea = planned.and_then(|planned| {
            Some(planned.at_corneal_plane(planned.chosen?.choice.cylinder.diopters()))
        });
        Self {
            cornea: CorneaPart::of(toric),
            spreads: SpreadsPart::of(toric),
            label: lens.record.as_ref().and_then(made),
            chosen_cylinder_d: lens.toric.map(|choice| choice.cylinder.diopters().d()),
            chosen_axis_degrees: lens.toric.map(|choice| choice.axis.degrees()),
            formulas: toric.formulas.iter().map(FormulaPart::of).collect(),
            steps: toric
                .steps
                .iter()
                .map(|step| StepPart::of(step, planned))
                .collect(),
            chosen: toric
                .chosen
                .as_ref()
                .map(|step| StepPart::of(step, planned)),
            rotations: toric
                .rotations
                .iter()
                .map(|turn| RotationPart::of(turn, at_cornea))
                .collect(),
            no_better_than_none_from_degrees: planned
                .zip(at_cornea)
                .and_then(|(planned, lens)| no_better_from(planned.net.cylinder(), lens)),
            steep_incision: toric.alternative.as_ref().ok().map(IncisionPart::of),
            steep_incision_refusal: toric.alternative.as_ref().err().map(ToString::to_string),
            published_ratio: RatioPart {
                from,
                to,
                source: SourcePart::of(PUBLISHED_RATIO_SOURCE),
            },
            sources: sources(toric),
        }
    }
}

impl IncisionPart {
    fn of(moved: &AlternativePlan) -> Self {
        let without = &moved.without_cylinder;
        Self {
            direction_degrees: moved.alternative.direction.degrees(),
            place: moved.alternative.terms.incision.place,
            cornea: VectorPart::of(moved.alternative.terms.total()),
            cautions: moved.cautions.iter().map(ToString::to_string).collect(),
            without_cylinder: without.as_ref().ok().map(|step| StepPart::of(step, None)),
            refusal: without.as_ref().err().map(ToString::to_string),
        }
    }
}

impl SourcePart {
    fn of(source: Source) -> Self {
        Self {
            source: source.to_string(),
            standing: source.standing.word(),
        }
    }
}

const fn label(label: PowerLabel) -> &'static str {
    match label {
        PowerLabel::SphericalEquivalent => "spherical_equivalent",
        PowerLabel::WeakestMeridian => "weakest_meridian",
    }
}

/// Everything but the terms of the cornea, which carry their own.
fn sources(toric: &ToricPlan) -> Vec<SourcePart> {
    if toric.cornea.is_err() {
        return Vec::new();
    }
    let mut sources = vec![AXIS_SOURCE, ADDITION_SOURCE, toric_eye::SOURCE];
    sources.extend(cloud::SOURCES);
    sources.extend([rotation::ADDED_SOURCE, rotation::PRINTED_SOURCE]);
    sources.into_iter().map(SourcePart::of).collect()
}
