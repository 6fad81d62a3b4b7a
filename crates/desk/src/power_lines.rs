//! Every power of the planned lens with what is said of it: of each, once for a plan, when it first
//! comes into sight. A lens is made in some sixty powers, and a table shows a quarter of them.

use core::cell::OnceCell;

use millrace_core::plan::{Plan, PowerLine};
use millrace_core::quantity::HundredthDiopters;

use crate::figures::interval_chart::Together;

/// What is said of one power, and the ranges that are drawn of it.
#[derive(Clone, Debug)]
pub struct Line {
    pub said: PowerLine,
    pub together: Option<Together>,
}

impl Line {
    fn of(plan: &Plan, power: HundredthDiopters) -> Option<Self> {
        let said = plan.power_line(power)?;
        let together = said.together.as_ref().map(Together::of);
        Some(Self { said, together })
    }
}

/// The powers of one plan, rising.
#[derive(Debug, Default)]
pub struct PowerLines {
    lines: Vec<(HundredthDiopters, OnceCell<Option<Line>>)>,
    /// The chosen power may be one that the lens is not made in.
    chosen: OnceCell<Option<Line>>,
}

impl PowerLines {
    /// Those of a plan; nothing is computed yet.
    pub fn of(plan: &Plan) -> Self {
        let powers = plan.powers_made().into_iter();
        Self {
            lines: powers.map(|power| (power, OnceCell::new())).collect(),
            chosen: OnceCell::new(),
        }
    }

    pub const fn count(&self) -> usize {
        self.lines.len()
    }

    pub fn power(&self, index: usize) -> Option<HundredthDiopters> {
        self.lines.get(index).map(|(power, _)| *power)
    }

    /// Where a power stands among them.
    pub fn position(&self, power: HundredthDiopters) -> Option<usize> {
        self.lines.iter().position(|(made, _)| *made == power)
    }

    /// Where the power stands that lies nearest to `power_d` diopters.
    pub fn nearest(&self, power_d: f64) -> Option<usize> {
        let off = |(power, _): &(HundredthDiopters, _)| (power.diopters().d() - power_d).abs();
        let lines = self.lines.iter().enumerate();
        let nearest = lines.min_by(|(_, one), (_, other)| off(one).total_cmp(&off(other)));
        nearest.map(|(index, _)| index)
    }

    /// What is said of one of them in `plan`, the plan they were made of.
    pub fn line(&self, index: usize, plan: &Plan) -> Option<&Line> {
        let (power, line) = self.lines.get(index)?;
        line.get_or_init(|| Line::of(plan, *power)).as_ref()
    }

    /// What is said of the chosen power, whether the lens is made in it or not.
    pub fn chosen(&self, plan: &Plan) -> Option<&Line> {
        let power = plan.draft.lens.power()?;
        if let Some(index) = self.position(power) {
            return self.line(index, plan);
        }
        self.chosen.get_or_init(|| Line::of(plan, power)).as_ref()
    }
}
