//! A signed plan as text. Its form is in `docs/plan-document.md`; once released, version 1 is never
//! changed.

use serde::Deserialize;

use super::signed_plan::Content;
use super::{NotASignedPlan, Obstacle};
use crate::case_file::CaseFileError;
use crate::document::ReasonResult;
use crate::rules::{Severity, Verdict, by_id};

pub(super) const FORMAT: &str = "millrace signed plan";
pub(super) const VERSION: u32 = 1;

#[derive(Deserialize)]
struct Head {
    format: String,
    version: u32,
}

impl Content {
    /// Writes it in one line and always in the same order: equal plans have equal bytes.
    pub(super) fn write(&self) -> Result<String, CaseFileError> {
        serde_json::to_string(self).map_err(|error| CaseFileError::WriteJson {
            problem: error.to_string(),
        })
    }

    pub(super) fn read(text: &str) -> Result<Self, CaseFileError> {
        let json = |error| CaseFileError::json(&error);
        let head: Head = serde_json::from_str(text).map_err(json)?;
        if head.format != FORMAT {
            return Err(CaseFileError::Format {
                found: head.format,
                wanted: FORMAT,
            });
        }
        if head.version != VERSION {
            return Err(CaseFileError::Version {
                found: head.version,
                newest: VERSION,
            });
        }
        serde_json::from_str(text).map_err(json)
    }

    /// Refuses what no signed plan says. The rules are not asked again: their results are frozen, and
    /// a later program may see it otherwise.
    pub(super) fn check(&self) -> Result<(), NotASignedPlan> {
        let (number, draft) = (self.number, &self.plan.case);
        if let Some(supersedes) = self.supersedes.filter(|earlier| number <= *earlier) {
            return Err(NotASignedPlan::Order { number, supersedes });
        }
        let impossible = |obstacle| Err(NotASignedPlan::Impossible(Box::new(obstacle)));
        let (lens, entered) = (&draft.lens, self.signature.consented_target);
        let (Some(target), Some(consented)) = (lens.target, lens.consented_target) else {
            return impossible(Obstacle::NoConsent);
        };
        if target != consented {
            return impossible(Obstacle::ConsentDiffers { target, consented });
        }
        if target != entered {
            return impossible(Obstacle::EnteredDiffers { target, entered });
        }
        if lens.power().is_none() {
            return impossible(Obstacle::NoPower);
        }
        for (lens, chosen) in lens.lenses.iter() {
            if let Some(power) = chosen.power
                && !chosen.record.powers.contains(power)
            {
                return impossible(Obstacle::PowerNotMade { lens, power });
            }
        }
        if draft.operation.eye != Some(self.plan.results.eye) {
            return impossible(Obstacle::NoEye);
        }
        match self.open_rule() {
            Some(obstacle) => impossible(obstacle),
            None => Ok(()),
        }
    }

    /// A Stop finding, or a Review finding without a reason, among the frozen results.
    fn open_rule(&self) -> Option<Obstacle> {
        self.plan.results.rules.iter().find_map(|result| {
            let Verdict::Finding(finding) = &result.verdict else {
                return None;
            };
            let has_reason =
                result.reason == ReasonResult::Standing && self.plan.reason(result).is_some();
            match (result.severity, has_reason) {
                (Severity::Note, _) | (Severity::Review, true) => None,
                (Severity::Stop, _) | (Severity::Review, false) => {
                    Some(by_id(&result.id).map_or_else(
                        || Obstacle::UnknownRule {
                            rule: result.id.clone(),
                        },
                        |rule| Obstacle::Stop {
                            rule: rule.id,
                            backup: result.backup,
                            finding: finding.clone(),
                        },
                    ))
                }
            }
        })
    }
}
