//! The lens, its power and what lies ready beside it.

use millrace_core::case::{ChosenLens, SecondEyeChoice};
use millrace_core::document::{
    LadderResult, Outcome, ResidualResult, SulcusResult, SulcusResults, ToricStep,
};
use millrace_core::lens::{Place, ToricChoice};
use millrace_core::optics::SpheroCylinder;
use millrace_core::quantity::HundredthDiopters;

use super::{NOT_STATED, Subject, fact, stated};
use crate::data::{Fact, Lens, OtherLens};

/// Stands where a power would, as long as nobody signed.
const WITHHELD: &str = "no power on a draft";

impl<'a> Subject<'a> {
    pub(super) fn lens(self) -> Lens {
        let lens = &self.draft.lens;
        let record = lens.record();
        let toric = self.signed.then_some(lens.toric()).flatten();
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
            power: self.signed.then(|| stated(lens.power())),
            cylinder: toric.map(|toric| toric.cylinder.to_string()),
            axis: toric.map(|toric| toric.axis.to_string()),
            facts: self.lens_facts(),
            others: vec![
                self.backup("Backup lens, capsular bag", Place::Bag),
                self.backup("Backup lens, ciliary sulcus", Place::Sulcus),
                self.backup("Anterior chamber IOL", Place::AnteriorChamber),
            ],
        }
    }

    fn lens_facts(self) -> Vec<Fact> {
        let (lens, results) = (&self.draft.lens, self.results);
        let predicted = results.predicted_d.zip(lens.formula);
        let predicted =
            predicted.map(|(refraction, formula)| format!("{refraction} by {}", formula.name()));
        let range = results.planned_spread().map(|spread| {
            let [low, high] = spread.interval_95_d;
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
        if let Some(chosen) = self.chosen_cylinder() {
            let left = match &chosen.residual {
                Outcome::Answer(left) => written(left),
                Outcome::Refusal(refusal) => refusal.to_string(),
            };
            facts.push(fact("Leaves", left));
        }
        facts.extend(self.refined());
        facts.push(strong(fact("Target", stated(lens.target))));
        facts.push(strong(fact(
            "Consented target",
            stated(lens.consented_target),
        )));
        facts
    }

    fn chosen_cylinder(self) -> Option<&'a ToricStep> {
        let toric = &self.results.toric;
        let planned = toric.formula(self.results.planned_by?)?;
        planned.answer()?.chosen.as_ref()
    }

    fn refined(self) -> Option<Fact> {
        let second = self.results.second_eye.as_ref()?;
        let refined = second.refined.as_ref()?.chosen.as_ref()?.refined;
        let decided = match second.choice {
            Some(SecondEyeChoice::Refined) => "refined chosen",
            Some(SecondEyeChoice::Unrefined) => "unrefined chosen",
            None => "undecided",
        };
        let text = format!("{refined}, {decided}");
        Some(fact("Refined by first eye", text))
    }

    /// A lens that lies ready: the power chosen for it, what it leaves, and what is proposed.
    fn backup(self, title: &'static str, place: Place) -> OtherLens {
        let Some(chosen) = self.draft.lens.lenses.backup(place) else {
            return nothing(title, NOT_STATED);
        };
        let results = self.results.backups.iter();
        let result = results.into_iter().find(|result| result.place == place);
        let lines = result.map_or_else(Vec::new, |result| match &result.sulcus {
            Some(sulcus) => self.in_sulcus(sulcus),
            None => self.predicted(&result.ladder, chosen.power),
        });
        self.ready(title, chosen, lines)
    }

    fn predicted(self, ladder: &LadderResult, power: Option<HundredthDiopters>) -> Vec<String> {
        let planned = self.results.planned_by;
        let mut lines = Vec::new();
        match planned.and_then(|formula| ladder.formula(formula)) {
            None => {}
            Some(Outcome::Refusal(refusal)) => lines.push(refusal.to_string()),
            Some(Outcome::Answer(answer)) => {
                let predicted = answer.predicted_d;
                lines.extend(predicted.map(|predicted| format!("predicted {predicted}")));
                let proposed = answer.proposed_power_d.filter(|_| power.is_none());
                lines.extend(proposed.map(|proposed| format!("proposed {proposed}")));
            }
        }
        lines
    }

    fn in_sulcus(self, sulcus: &SulcusResults) -> Vec<String> {
        let powers = sulcus.powers.iter();
        powers
            .filter(|power| Some(power.formula) == self.results.planned_by)
            .flat_map(sulcus_powers)
            .collect()
    }

    fn ready(self, title: &'static str, chosen: &ChosenLens, lines: Vec<String>) -> OtherLens {
        let record = &chosen.record;
        let toric = chosen.toric.map(|toric| {
            let ToricChoice { cylinder, axis } = toric;
            format!("cylinder {cylinder} at {axis}")
        });
        let power = chosen.power;
        let (power, lines) = if self.signed {
            let power = power.map_or_else(|| "power not stated".to_owned(), |p| p.to_string());
            (power, toric.into_iter().chain(lines).collect())
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
    let mut lines = Vec::new();
    if let Some(stepwise) = power.stepwise {
        lines.push(format!("stepwise rule: {stepwise}"));
    }
    if let Some(five_percent) = power.five_percent_d {
        lines.push(format!("minus 5 %: {five_percent}"));
    }
    lines.push(match &power.vergence {
        Outcome::Answer(vergence) => format!("by vergence: {vergence}"),
        Outcome::Refusal(refusal) => format!("by vergence: {refusal}"),
    });
    lines
}

/// "−0.26 D / −0.46 D × 148°".
fn written(left: &ResidualResult) -> String {
    SpheroCylinder {
        sphere: left.sphere_d,
        cylinder: left.cylinder_d,
        axis_degrees: left.axis_degrees.unwrap_or(180.0),
    }
    .to_string()
}
