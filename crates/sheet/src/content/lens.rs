//! The lens, its power and what lies ready beside it.

use millrace_core::certainty::Level;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::lens::LensRecord;
use millrace_core::plan::{Because, SparePlan};

use super::{NOT_STATED, Subject, fact, stated};
use crate::data::{Fact, Lens, OtherLens};

/// Stands where a power would, as long as nobody signed.
pub(crate) const WITHHELD: &str = "no power on a draft";

impl Subject<'_> {
    pub(super) fn lens(self) -> Lens {
        let lens = &self.draft.lens;
        let record = lens.record.as_ref();
        let toric = self.signed.then_some(lens.toric).flatten();
        Lens {
            name: stated(record.map(|record| &record.name)),
            model: stated(record.map(|record| &record.model)),
            site: stated(record.map(|record| record.site)),
            make: record.map_or_else(String::new, |record| {
                format!(
                    "{}, {}, optic {}",
                    record.material, record.haptic, record.optic_diameter
                )
            }),
            power: self.signed.then(|| stated(lens.power)),
            cylinder: toric.map(|toric| toric.cylinder.to_string()),
            axis: toric.map(|toric| toric.axis.to_string()),
            facts: self.lens_facts(),
            others: vec![self.spare(), self.sulcus(), self.chamber_lens()],
        }
    }

    fn lens_facts(self) -> Vec<Fact> {
        let (lens, plan) = (&self.draft.lens, self.plan);
        let predicted = plan.predicted_for_chosen(self.draft).zip(lens.formula);
        let predicted = match predicted {
            Some((refraction, formula)) => format!("{refraction} by {}", formula.name()),
            None => NOT_STATED.to_owned(),
        };
        let strong = |mut fact: Fact| {
            fact.strong = true;
            fact
        };
        let mut facts = vec![
            strong(fact("Predicted refraction", predicted)),
            fact("95 % range", self.range()),
        ];
        if let Some(chosen) = &plan.toric.chosen {
            let left = chosen.residual.spectacles().to_string();
            facts.push(fact("Leaves", left));
        }
        facts.push(strong(fact("Target", stated(lens.target))));
        facts.push(strong(fact(
            "Consented target",
            stated(lens.consented_target),
        )));
        facts
    }

    /// The range of the formula planned by, for the chosen power and no other.
    fn range(self) -> String {
        let closely = self
            .plan
            .certainty
            .as_ref()
            .and_then(|certainty| certainty.closely.as_ref())
            .filter(|closely| closely.because == Because::Chosen);
        let planned_by = self.draft.lens.formula;
        let own = closely.and_then(|closely| {
            closely
                .predictions
                .iter()
                .find(|(formula, _)| Some(*formula) == planned_by)
        });
        own.map_or_else(
            || NOT_STATED.to_owned(),
            |(_, prediction)| {
                let [low, high] = prediction.distribution().interval(Level::NinetyFive);
                format!("{low} to {high}")
            },
        )
    }

    fn spare(self) -> OtherLens {
        let record = self.draft.lens.spare.as_ref();
        let ladder = self.plan.spare.as_ref().map(|spare| &spare.bag);
        self.other("Spare, capsular bag", record, ladder)
    }

    fn chamber_lens(self) -> OtherLens {
        let record = self.draft.lens.chamber_lens.as_ref();
        self.other("Anterior chamber", record, self.plan.chamber_lens.as_ref())
    }

    /// A lens that lies ready, with the power that the formula planned by proposes.
    fn other(
        self,
        title: &'static str,
        record: Option<&LensRecord>,
        ladder: Option<&Ladder>,
    ) -> OtherLens {
        let Some(record) = record else {
            return OtherLens {
                title,
                name: NOT_STATED.to_owned(),
                power: String::new(),
                lines: Vec::new(),
            };
        };
        let formula = self.draft.lens.formula;
        let answer = ladder
            .zip(formula)
            .and_then(|(ladder, formula)| ladder.column(formula))
            .and_then(|column| column.answer.as_ref().ok());
        let proposed = answer.and_then(|answer| answer.proposed);
        let mut lines = Vec::new();
        if let (Some(_), Some(formula)) = (proposed, formula) {
            lines.push(format!("proposed by {}", formula.name()));
        }
        OtherLens {
            title,
            name: format!("{}, model {}", record.name, record.model),
            power: self.shown(stated(proposed)),
            lines,
        }
    }

    fn sulcus(self) -> OtherLens {
        let title = "Spare, ciliary sulcus";
        let nothing = |name: &str| OtherLens {
            title,
            name: name.to_owned(),
            power: String::new(),
            lines: Vec::new(),
        };
        let Some(record) = &self.draft.lens.spare else {
            return nothing(NOT_STATED);
        };
        if !record.may_sit_in_sulcus {
            return nothing("The maker does not allow this lens in the ciliary sulcus.");
        }
        OtherLens {
            title,
            name: format!("{}, model {}", record.name, record.model),
            power: String::new(),
            lines: self.sulcus_powers(self.plan.spare.as_ref()),
        }
    }

    /// Two published rules and vergence disagree: all stand here, none is chosen.
    fn sulcus_powers(self, spare: Option<&SparePlan>) -> Vec<String> {
        let formula = self.draft.lens.formula;
        let own = spare.and_then(|spare| {
            spare
                .sulcus
                .iter()
                .find(|power| Some(power.formula) == formula)
        });
        let Some(power) = own else {
            return vec![NOT_STATED.to_owned()];
        };
        if !self.signed {
            return vec![WITHHELD.to_owned()];
        }
        let none = || "not for ≤ 0 D".to_owned();
        let stepwise = power
            .stepwise
            .map_or_else(none, |change| change.in_words(power.bag));
        let five = power
            .five_percent
            .map_or_else(none, |power| power.to_string());
        let vergence = power
            .vergence
            .map_or_else(|refused| refused.to_string(), |power| power.to_string());
        vec![
            format!("stepwise rule {stepwise}"),
            format!("minus 5 % {five}"),
            format!("by vergence {vergence}"),
        ]
    }

    fn shown(self, power: String) -> String {
        if self.signed {
            power
        } else {
            WITHHELD.to_owned()
        }
    }
}
