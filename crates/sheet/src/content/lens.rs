//! The lens, its power and what lies ready beside it.

use millrace_core::iol_power::sulcus::stepwise;
use millrace_core::lens::LensRecord;
use millrace_core::optics::SpheroCylinder;
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_core::signing::results::{ReserveResult, ResidualResult, SulcusResult};

use super::{NOT_STATED, Subject, diopters, fact, stated};
use crate::data::{Fact, Lens, OtherLens};

/// Stands where a power would, as long as nobody signed.
const WITHHELD: &str = "no power on a draft";

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
        let (lens, results) = (&self.draft.lens, self.results);
        let predicted = results.predicted_d.zip(lens.formula);
        let predicted = predicted
            .map(|(refraction, formula)| format!("{} by {}", diopters(refraction), formula.name()));
        let range = results.planned.as_ref().map(|spread| {
            let [low, high] = spread.interval_95_d.map(diopters);
            format!("{low} to {high}")
        });
        let strong = |fact: Fact| Fact {
            strong: true,
            ..fact
        };
        let mut facts = vec![
            strong(fact("Predicted refraction", stated(predicted))),
            fact("95 % range", stated(range)),
        ];
        if let Some(chosen) = &results.toric.chosen {
            let left = chosen.residual.as_ref().map(written);
            let left = left.or_else(|| chosen.refusal.clone());
            facts.push(fact("Leaves", stated(left)));
        }
        if let Some(refined) = results.refined_d {
            let decided = match results.second_eye.as_deref() {
                Some(chosen) => format!("{chosen} chosen"),
                None => "undecided".to_owned(),
            };
            let text = format!("{}, {decided}", diopters(refined));
            facts.push(fact("Refined by first eye", text));
        }
        facts.push(strong(fact("Target", stated(lens.target))));
        facts.push(strong(fact(
            "Consented target",
            stated(lens.consented_target),
        )));
        facts
    }

    fn spare(self) -> OtherLens {
        let lens = &self.draft.lens;
        self.other(
            "Spare, capsular bag",
            lens.spare.as_ref(),
            (lens.spare_power, &self.results.spare),
        )
    }

    fn chamber_lens(self) -> OtherLens {
        let lens = &self.draft.lens;
        self.other(
            "Anterior chamber lens",
            lens.chamber_lens.as_ref(),
            (lens.chamber_power, &self.results.chamber_lens),
        )
    }

    /// A lens that lies ready: the power chosen for it, what it leaves, and what is proposed.
    fn other(
        self,
        title: &'static str,
        record: Option<&LensRecord>,
        (power, results): (Option<HundredthDiopters>, &[ReserveResult]),
    ) -> OtherLens {
        let Some(record) = record else {
            return nothing(title, NOT_STATED);
        };
        let Some(result) = self.by_the_planned(results, |result| &result.formula) else {
            return self.ready(title, record, power, Vec::new());
        };
        let mut lines = Vec::new();
        if let Some(predicted) = result.predicted_d {
            lines.push(format!("predicted {}", diopters(predicted)));
        }
        if power.is_none()
            && let Some(proposed) = result.proposed_power_d
        {
            lines.push(format!("proposed {}", diopters(proposed)));
        }
        lines.extend(result.refusal.clone());
        self.ready(title, record, power, lines)
    }

    fn sulcus(self) -> OtherLens {
        let title = "Spare, ciliary sulcus";
        let Some(record) = &self.draft.lens.spare else {
            return nothing(title, NOT_STATED);
        };
        if !record.may_sit_in_sulcus {
            return nothing(
                title,
                "The maker does not allow this lens in the ciliary sulcus.",
            );
        }
        let power = self
            .by_the_planned(&self.results.sulcus, |result| &result.formula)
            .map_or_else(Vec::new, sulcus_powers);
        self.ready(title, record, self.draft.lens.sulcus_power, power)
    }

    fn ready(
        self,
        title: &'static str,
        record: &LensRecord,
        power: Option<HundredthDiopters>,
        lines: Vec<String>,
    ) -> OtherLens {
        let (power, lines) = if self.signed {
            let power = power.map_or_else(|| "power not stated".to_owned(), |p| p.to_string());
            (power, lines)
        } else {
            (WITHHELD.to_owned(), Vec::new())
        };
        OtherLens {
            title,
            name: format!("{}, model {}", record.name, record.model),
            power,
            lines,
        }
    }

    fn by_the_planned<T>(self, results: &[T], key: impl Fn(&T) -> &String) -> Option<&T> {
        let planned_by = self.results.planned_by.as_ref()?;
        results.iter().find(|result| key(result) == planned_by)
    }
}

fn nothing(title: &'static str, name: &str) -> OtherLens {
    OtherLens {
        title,
        name: name.to_owned(),
        power: String::new(),
        lines: Vec::new(),
    }
}

/// Two published rules and vergence disagree: all stand here, none is chosen by the program.
fn sulcus_powers(power: &SulcusResult) -> Vec<String> {
    let bag = Diopters::new(power.bag_power_d);
    let mut lines = Vec::new();
    if power.stepwise_d.is_some() {
        lines.push(format!("stepwise rule: {}", stepwise(bag).in_words(bag)));
    }
    if let Some(five_percent) = power.five_percent_d {
        lines.push(format!("minus 5 %: {}", diopters(five_percent)));
    }
    let vergence = power.vergence_d.map(diopters);
    let vergence = vergence.or_else(|| power.vergence_refusal.clone());
    lines.push(format!("by vergence: {}", stated(vergence)));
    lines
}

/// "−0.26 D / −0.46 D × 148°".
fn written(left: &ResidualResult) -> String {
    SpheroCylinder {
        sphere: Diopters::new(left.sphere_d),
        cylinder: Diopters::new(left.cylinder_d),
        axis_degrees: left.axis_degrees.unwrap_or(180.0),
    }
    .to_string()
}
