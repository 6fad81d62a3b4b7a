//! The four verdicts of a rule.

/// What a rule says of a case.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Looked at, nothing to say.
    Satisfied,
    /// Looked at, something to say.
    Finding(Finding),
    /// Does not concern this case.
    NotApplicable {
        /// Why not.
        because: &'static str,
    },
    /// Could not be looked at. Silence is not a pass.
    NotEvaluated {
        /// What is missing.
        missing: &'static str,
    },
}

/// What a rule found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What was measured, with its unit.
    pub measured: String,
    /// The limit it met, with its unit, or what else it stands against.
    pub limit: String,
    /// What that is.
    pub against: Against,
    /// More to know, in one sentence without a full stop.
    pub detail: Option<String>,
    /// Whether the measurement is clearly beyond the limit.
    pub certainty: Certainty,
}

/// What a finding is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// A limit.
    Limit,
    /// What would be proposed instead.
    Proposal,
    /// No limit: how things stand.
    State,
}

/// How sure a finding is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Certainty {
    /// As measured.
    AsMeasured,
    /// Beyond the limit with at least the chance a clinic calls clear.
    Clear {
        /// Chance that the true value lies beyond the limit.
        chance: f64,
    },
    /// Too near to the limit to tell.
    Borderline {
        /// Chance that the true value lies beyond the limit.
        chance: f64,
    },
}

impl Certainty {
    /// How sure a finding is, as the end of a sentence; nothing for one that is as measured.
    #[must_use]
    pub fn ending(self) -> String {
        match self {
            Self::AsMeasured => String::new(),
            Self::Clear { chance } => format!(
                "; {} chance that the true depth is under the limit",
                percent(chance)
            ),
            Self::Borderline { chance } => format!(
                "; BORDERLINE, {} chance that the true depth is under the limit",
                percent(chance)
            ),
        }
    }
}

/// A chance as a text, in whole percent; one that rounds to none or to certainty is not shown as such.
#[must_use]
pub fn percent(chance: f64) -> String {
    if 0.995 <= chance {
        "over 99 %".to_owned()
    } else if chance < 0.005 {
        "under 1 %".to_owned()
    } else {
        format!("{:.0} %", chance * 100.0)
    }
}

impl Finding {
    /// A finding as measured.
    #[expect(
        clippy::needless_pass_by_value,
        reason = "a value or a text, whichever is at hand"
    )]
    pub fn new(measured: impl ToString, limit: impl ToString) -> Self {
        Self {
            measured: measured.to_string(),
            limit: limit.to_string(),
            against: Against::Limit,
            detail: None,
            certainty: Certainty::AsMeasured,
        }
    }

    /// Held against something else than a limit.
    #[must_use]
    pub const fn against(mut self, against: Against) -> Self {
        self.against = against;
        self
    }

    /// What was found and what it stands against, in one sentence without a full stop.
    #[must_use]
    pub fn sentence(&self) -> String {
        let Self {
            measured, limit, ..
        } = self;
        match self.against {
            Against::Limit => format!("{measured} (limit: {limit})"),
            Against::Proposal => format!("{measured} (proposed: {limit})"),
            Against::State => format!("{measured}; {limit}"),
        }
    }

    /// With more to know.
    #[must_use]
    pub fn with_detail(self, detail: impl Into<String>) -> Self {
        Self {
            detail: Some(detail.into()),
            ..self
        }
    }
}

impl From<Finding> for Verdict {
    fn from(finding: Finding) -> Self {
        Self::Finding(finding)
    }
}

impl Verdict {
    /// The same, with more to know if it is a finding.
    #[must_use]
    pub(super) fn detailed(self, detail: impl FnOnce() -> String) -> Self {
        match self {
            Self::Finding(finding) => finding.with_detail(detail()).into(),
            other => other,
        }
    }
}

/// Shorthand for a verdict that says what is missing.
pub(super) const fn not_evaluated(missing: &'static str) -> Verdict {
    Verdict::NotEvaluated { missing }
}

/// Shorthand for a verdict that says why the rule does not apply.
pub(super) const fn not_applicable(because: &'static str) -> Verdict {
    Verdict::NotApplicable { because }
}
