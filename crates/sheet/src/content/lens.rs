//! The lens, its power and what lies ready beside it.

use millrace_core::case::{ChosenLens, SecondEyeChoice, Slot};
use millrace_core::document::{
    LadderResult, Outcome, ResidualResult, SulcusResult, SulcusResults, ToricStep,
};
use millrace_core::lens::Place;
use millrace_core::optics::SpheroCylinder;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::certainty::tendency;
use millrace_wording::text::{certainty, lens as of_lens, plan};
use millrace_wording::{Show as _, Words, desk, sentence, sheet as say};

use super::{Subject, fact};
use crate::data::{Fact, Lens, OtherLens};

impl<'a> Subject<'a> {
    pub(super) fn lens(self) -> Lens {
        let (lens, words) = (&self.draft.lens, self.words);
        let record = lens.record();
        let toric = self.signed.then_some(lens.toric()).flatten();
        Lens {
            name: self.stated(record.map(|record| &record.name)),
            model: self.stated(record.map(|record| &record.model)),
            site: self.stated(record.map(|record| record.site)),
            make: record.map_or_else(String::new, |record| {
                say::make(words, record.material, record.haptic, record.optic_diameter)
            }),
            power: self.signed.then(|| self.stated(lens.power())),
            cylinder: toric.map(|toric| toric.cylinder.show(words).into_owned()),
            axis: toric.map(|toric| toric.axis.show(words).into_owned()),
            facts: self.lens_facts(),
            others: vec![
                self.backup(Place::Bag),
                self.backup(Place::Sulcus),
                self.backup(Place::AnteriorChamber),
            ],
        }
    }

    fn lens_facts(self) -> Vec<Fact> {
        let (lens, results, words) = (&self.draft.lens, self.results, self.words);
        let predicted = results.predicted_d.zip(lens.formula);
        let predicted =
            predicted.map(|(refraction, formula)| say::predicted_by(words, refraction, formula));
        let range = results.planned_spread().map(|spread| {
            let [low, high] = spread.interval_95_d;
            certainty::range(words, low, high)
        });
        let range = results.withheld().map_or_else(
            || self.stated(range),
            |because| because.show(words).into_owned(),
        );
        let strong = |fact: Fact| Fact {
            strong: true,
            ..fact
        };
        let mut facts = vec![
            strong(fact(
                say::predicted_refraction(words),
                self.stated(predicted),
            )),
            fact(certainty::range_95(words), range),
        ];
        facts.extend(results.planned_tendencies().iter().map(|known| {
            let text = tendency(words, known.eye, known.way);
            fact(certainty::known_tendency(words), text)
        }));
        if let Some(chosen) = self.chosen_cylinder() {
            let left = match &chosen.residual {
                Outcome::Answer(left) => written(words, left),
                Outcome::Refusal(refusal) => refusal.show(words).into_owned(),
            };
            facts.push(fact(say::leaves(words), left));
        }
        facts.extend(self.refined());
        facts.push(strong(fact(
            desk::lens::target(words),
            self.stated(lens.target),
        )));
        facts.push(strong(fact(
            desk::lens::consented_target(words),
            self.stated(lens.consented_target),
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
        let text = match second.choice {
            Some(SecondEyeChoice::Refined) => say::refined_chosen(self.words, refined),
            Some(SecondEyeChoice::Unrefined) => say::unrefined_chosen(self.words, refined),
            None => say::undecided(self.words, refined),
        };
        Some(fact(say::refined_by_first_eye(self.words), text))
    }

    /// A lens that lies ready: the power chosen for it, what it leaves, and what is proposed.
    fn backup(self, place: Place) -> OtherLens {
        let title = sentence(&Slot::Backup(place).show(self.words));
        let Some(chosen) = self.draft.lens.lenses.backup(place) else {
            return nothing(title, plan::not_stated(self.words));
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
        let (planned, words) = (self.results.planned_by, self.words);
        let mut lines = Vec::new();
        match planned.and_then(|formula| ladder.formula(formula)) {
            None => {}
            Some(Outcome::Refusal(refusal)) => lines.push(refusal.show(words).into_owned()),
            Some(Outcome::Answer(answer)) => {
                let predicted = answer.predicted_d;
                lines.extend(predicted.map(|predicted| say::predicted(words, predicted)));
                let proposed = answer.proposed_power_d.filter(|_| power.is_none());
                lines.extend(proposed.map(|proposed| say::proposed(words, proposed)));
            }
        }
        lines
    }

    fn in_sulcus(self, sulcus: &SulcusResults) -> Vec<String> {
        let powers = sulcus.powers.iter();
        powers
            .filter(|power| Some(power.formula) == self.results.planned_by)
            .flat_map(|power| sulcus_powers(self.words, power))
            .collect()
    }

    fn ready(self, title: String, chosen: &ChosenLens, lines: Vec<String>) -> OtherLens {
        let (words, record) = (self.words, &chosen.record);
        let toric = chosen
            .toric
            .map(|toric| say::cylinder_and_marks(words, toric.cylinder, toric.axis));
        let (power, lines) = if self.signed {
            let not_stated = || say::power_not_stated(words).to_owned();
            let power = chosen.power;
            let power = power.map_or_else(not_stated, |power| power.show(words).into_owned());
            (power, toric.into_iter().chain(lines).collect())
        } else {
            (say::power_withheld(words).to_owned(), Vec::new())
        };
        OtherLens {
            title,
            name: of_lens::model(words, &record.name, &record.model),
            power,
            lines,
        }
    }
}

fn nothing(title: String, name: &str) -> OtherLens {
    OtherLens {
        title,
        name: name.to_owned(),
        power: String::new(),
        lines: Vec::new(),
    }
}

/// Two published rules and vergence disagree: all stand here, none is chosen by the program.
fn sulcus_powers(words: Words, power: &SulcusResult) -> Vec<String> {
    let mut lines = Vec::new();
    let by_steps = of_lens::stepwise(words);
    lines.push(match power.stepwise {
        Some(stepwise) => say::by_rule(words, by_steps, stepwise),
        None => say::by_rule(words, by_steps, of_lens::not_for_weak_powers(words)),
    });
    if let Some(five_percent) = power.five_percent_d {
        lines.push(say::by_rule(
            words,
            of_lens::five_percent(words),
            five_percent,
        ));
    }
    let by_vergence = of_lens::by_vergence(words);
    lines.push(match &power.vergence {
        Outcome::Answer(vergence) => say::by_rule(words, by_vergence, vergence),
        Outcome::Refusal(refusal) => say::by_rule(words, by_vergence, refusal),
    });
    lines
}

/// "−0.26 D / −0.46 D × 148°".
fn written(words: Words, left: &ResidualResult) -> String {
    SpheroCylinder {
        sphere: left.sphere_d,
        cylinder: left.cylinder_d,
        axis_degrees: left.axis_degrees.unwrap_or(180.0),
    }
    .show(words)
    .into_owned()
}
