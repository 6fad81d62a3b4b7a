//! The terms of the corneal astigmatism, each alone.

use millrace_core::astigmatism::{
    CornealTerms, IncisionBasis, IncisionTerm, Orientation, PosteriorBasis, PosteriorTerm,
};
use millrace_core::optics::DoubleAngle;
use millrace_core::plan::ToricPlan;
use serde::Serialize;

use super::SourcePart;

#[derive(Serialize)]
pub(super) struct CorneaPart {
    /// Why there is no sum.
    refusal: Option<String>,
    cautions: Vec<String>,
    /// By keratometry, at index 1.3375.
    front: Option<VectorPart>,
    front_refusal: Option<String>,
    posterior: Option<PosteriorPart>,
    posterior_refusal: Option<String>,
    incision: Option<TermPart>,
    incision_refusal: Option<String>,
    total: Option<VectorPart>,
    orientation: Option<&'static str>,
}

/// A size and its steep meridian, null where the size is nothing.
#[derive(Serialize)]
pub(super) struct VectorPart {
    cylinder_d: f64,
    steep_degrees: Option<f64>,
}

#[derive(Serialize)]
struct PosteriorPart {
    basis: &'static str,
    adds: VectorPart,
    largest_lens_cylinder_d: Option<f64>,
    sources: Vec<SourcePart>,
}

#[derive(Serialize)]
struct TermPart {
    basis: &'static str,
    eyes: Option<u32>,
    direction_degrees: u16,
    place: &'static str,
    adds: VectorPart,
    scatter_d: f64,
    sources: Vec<SourcePart>,
}

impl CorneaPart {
    pub(super) fn of(toric: &ToricPlan) -> Self {
        let terms = &toric.terms;
        let total = toric.cornea.as_ref().ok().map(CornealTerms::total);
        let front = terms.front.as_ref().ok();
        Self {
            refusal: toric.cornea.as_ref().err().map(ToString::to_string),
            cautions: toric.cautions.iter().map(ToString::to_string).collect(),
            front: front.map(|front| VectorPart::of(front.at_standard_index())),
            front_refusal: terms.front.as_ref().err().map(ToString::to_string),
            posterior: terms.posterior.as_ref().ok().map(PosteriorPart::of),
            posterior_refusal: terms.posterior.as_ref().err().map(ToString::to_string),
            incision: terms.incision.as_ref().ok().map(TermPart::of),
            incision_refusal: terms.incision.as_ref().err().map(ToString::to_string),
            total: total.map(VectorPart::of),
            orientation: total.and_then(orientation),
        }
    }
}

impl VectorPart {
    pub(super) fn of(vector: DoubleAngle) -> Self {
        Self {
            cylinder_d: vector.cylinder().d(),
            steep_degrees: vector.steep_degrees(),
        }
    }
}

impl PosteriorPart {
    fn of(term: &PosteriorTerm) -> Self {
        Self {
            basis: match term.basis {
                PosteriorBasis::Measured => "measured",
                PosteriorBasis::NotMeasured => "not_measured",
                PosteriorBasis::LeftOut => "left_out",
                PosteriorBasis::Regression(_) => "regression",
                PosteriorBasis::Multiplier(_) => "multiplier",
            },
            adds: VectorPart::of(term.astigmatism),
            largest_lens_cylinder_d: term
                .largest_lens_cylinder
                .map(|largest| largest.diopters().d()),
            sources: vec![SourcePart::of(term.basis.source())],
        }
    }
}

impl TermPart {
    fn of(term: &IncisionTerm) -> Self {
        let (basis, eyes) = match term.basis {
            IncisionBasis::Surgeon(own) => ("surgeon", Some(own.eyes())),
            IncisionBasis::Published => ("published", None),
        };
        Self {
            basis,
            eyes,
            direction_degrees: term.direction.degrees(),
            place: term.place,
            adds: VectorPart::of(term.astigmatism),
            scatter_d: term.scatter.d(),
            sources: term
                .basis
                .sources()
                .iter()
                .map(|source| SourcePart::of(*source))
                .collect(),
        }
    }
}

fn orientation(total: DoubleAngle) -> Option<&'static str> {
    Some(match Orientation::of(total.steep_degrees()?) {
        Orientation::WithTheRule => "with_the_rule",
        Orientation::AgainstTheRule => "against_the_rule",
        Orientation::Oblique => "oblique",
    })
}
