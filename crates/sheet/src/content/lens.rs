//! The lens, its power and what lies ready beside it.

use millrace_core::case::SecondEyeChoice;
use millrace_core::document::{LadderResult, Outcome, ResidualResult, SulcusResult, ToricStep};
use millrace_core::lens::LensRecord;
use millrace_core::optics::SpheroCylinder;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::text::{certainty, lens as of_lens, plan};
use millrace_wording::{Show as _, Words, desk, sheet as say};

use super::{Subject, fact};
use crate::data::{Fact, Lens, OtherLens};

impl<'a> Subject<'a> {
    pub(super) fn lens(self) -> Lens {
        let (lens, words) = (&self.draft.lens, self.words);
        let record = lens.record.as_ref();
        let toric = self.signed.then_some(lens.toric).flatten();
        Lens {
            name: self.stated(record.map(|record| &record.name)),
            model: self.stated(record.map(|record| &record.model)),
            site: self.stated(record.map(|record| record.site)),
            make: record.map_or_else(String::new, |record| {
                say::make(words, record.material, record.haptic, record.optic_diameter)
            }),
            power: self.signed.then(|| self.stated(lens.power)),
            cylinder: toric.map(|toric| toric.cylinder.show(words).into_owned()),
            axis: toric.map(|toric| toric.axis.show(words).into_owned()),
            facts: self.lens_facts(),
            others: vec![self.spare(), self.sulcus(), self.chamber_lens()],
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
        let strong = |fact: Fact| Fact {
            strong: true,
            ..fact
        };
        let mut facts = vec![
            strong(fact(
                say::predicted_refraction(words),
                self.stated(predicted),
            )),
            fact(certainty::range_95(words), self.stated(range)),
        ];
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

    fn spare(self) -> OtherLens {
        let lens = &self.draft.lens;
        let spare = self.results.spare.as_ref();
        self.other(
            say::spare_bag(self.words),
            lens.spare.as_ref(),
            (lens.spare_power, spare.map(|spare| &spare.bag)),
        )
    }

    fn chamber_lens(self) -> OtherLens {
        let lens = &self.draft.lens;
        self.other(
            say::chamber_lens(self.words),
            lens.chamber_lens.as_ref(),
            (lens.chamber_power, self.results.chamber_lens.as_ref()),
        )
    }

    /// A lens that lies ready: the power chosen for it, what it leaves, and what is proposed.
    fn other(
        self,
        title: &'static str,
        record: Option<&LensRecord>,
        (power, ladder): (Option<HundredthDiopters>, Option<&LadderResult>),
    ) -> OtherLens {
        let words = self.words;
        let Some(record) = record else {
            return nothing(title, plan::not_stated(words));
        };
        let planned = self
            .results
            .planned_by
            .and_then(|formula| ladder?.formula(formula));
        let mut lines = Vec::new();
        match planned {
            None => {}
            Some(Outcome::Refusal(refusal)) => lines.push(refusal.show(words).into_owned()),
            Some(Outcome::Answer(answer)) => {
                let predicted = answer.predicted_d;
                lines.extend(predicted.map(|predicted| say::predicted(words, predicted)));
                let proposed = answer.proposed_power_d.filter(|_| power.is_none());
                lines.extend(proposed.map(|proposed| say::proposed(words, proposed)));
            }
        }
        self.ready(title, record, power, lines)
    }

    fn sulcus(self) -> OtherLens {
        let title = say::spare_sulcus(self.words);
        let Some(record) = &self.draft.lens.spare else {
            return nothing(title, plan::not_stated(self.words));
        };
        if !record.may_sit_in_sulcus {
            return nothing(title, of_lens::not_for_sulcus(self.words));
        }
        let powers = self.results.spare.iter().flat_map(|spare| &spare.sulcus);
        let lines = powers
            .filter(|power| Some(power.formula) == self.results.planned_by)
            .flat_map(|power| sulcus_powers(self.words, power))
            .collect();
        self.ready(title, record, self.draft.lens.sulcus_power, lines)
    }

    fn ready(
        self,
        title: &'static str,
        record: &LensRecord,
        power: Option<HundredthDiopters>,
        lines: Vec<String>,
    ) -> OtherLens {
        let words = self.words;
        let (power, lines) = if self.signed {
            let not_stated = || say::power_not_stated(words).to_owned();
            let power = power.map_or_else(not_stated, |power| power.show(words).into_owned());
            (power, lines)
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

fn nothing(title: &'static str, name: &str) -> OtherLens {
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
    if let Some(stepwise) = power.stepwise {
        lines.push(say::by_rule(words, of_lens::stepwise(words), stepwise));
    }
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
