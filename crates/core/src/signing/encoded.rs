//! A signed plan as text. Its form is in `docs/signed-plan.md`; once released, version 1 is never
//! changed.

use serde::{Deserialize, Serialize};

use super::signed_plan::{Content, FrozenLimit};
use super::{NotASignedPlan, Obstacle, Results, SheetNumber, Signature};
use crate::calendar::Moment;
use crate::case::Reserve;
use crate::case_file::{CaseFileError, StoredCase};
use crate::quantity::{HundredthDiopters, MeasureError};
use crate::rules::{Severity, Verdict, by_id};

const FORMAT: &str = "millrace signed plan";
const VERSION: u32 = 1;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Document {
    format: String,
    version: u32,
    number: u32,
    supersedes: Option<u32>,
    program: String,
    signature: StoredSignature,
    case: StoredCase,
    limits: Vec<StoredLimit>,
    results: Results,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StoredSignature {
    name: String,
    role: String,
    at: Moment,
    consented_target: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StoredLimit {
    name: String,
    in_use: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    shipped: Option<String>,
}

/// Writes the plan in one line and always in the same order: equal plans have equal bytes.
pub(super) fn write(content: &Content) -> Result<String, CaseFileError> {
    let Content {
        signature, limits, ..
    } = content;
    let document = Document {
        format: FORMAT.to_owned(),
        version: VERSION,
        number: content.number.get(),
        supersedes: content.supersedes.map(SheetNumber::get),
        program: content.program.clone(),
        signature: StoredSignature {
            name: signature.name.clone(),
            role: signature.role.clone(),
            at: Moment(signature.at),
            // The minus of the keyboard, as in every file.
            consented_target: signature
                .consented_target
                .to_string()
                .replace('\u{2212}', "-"),
        },
        case: StoredCase::of(&content.draft),
        limits: limits
            .iter()
            .map(|limit| StoredLimit {
                name: limit.name.clone(),
                in_use: limit.in_use.clone(),
                shipped: limit.shipped.clone(),
            })
            .collect(),
        results: content.results.clone(),
    };
    serde_json::to_string(&document).map_err(|error| CaseFileError::WriteJson {
        problem: error.to_string(),
    })
}

#[derive(Deserialize)]
struct Head {
    format: String,
    version: u32,
}

impl Document {
    pub(super) fn read(text: &str) -> Result<Content, CaseFileError> {
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
        let document: Self = serde_json::from_str(text).map_err(json)?;
        document.content()
    }

    fn content(self) -> Result<Content, CaseFileError> {
        let number = |number| {
            SheetNumber::new(number).ok_or(CaseFileError::Json {
                line: 1,
                column: 0,
                problem: "no sheet has the number 0".to_owned(),
            })
        };
        let target: HundredthDiopters =
            self.signature
                .consented_target
                .parse()
                .map_err(|error: MeasureError| {
                    CaseFileError::at("signature.consented_target")(error.into())
                })?;
        let limits = self.limits.into_iter().map(|limit| FrozenLimit {
            name: limit.name,
            in_use: limit.in_use,
            shipped: limit.shipped,
        });
        Ok(Content {
            number: number(self.number)?,
            supersedes: self.supersedes.map(number).transpose()?,
            program: self.program,
            signature: Signature {
                name: self.signature.name,
                role: self.signature.role,
                at: self.signature.at.0,
                consented_target: target,
            },
            draft: self.case.into_draft()?,
            limits: limits.collect(),
            results: self.results,
        })
    }
}

impl Content {
    /// Refuses what no signed plan says. The rules are not asked again: their results are frozen, and
    /// a later program may see it otherwise.
    pub(super) fn check(&self) -> Result<(), NotASignedPlan> {
        let (number, draft) = (self.number, &self.draft);
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
        let (Some(record), Some(power)) = (&lens.record, lens.power) else {
            return impossible(Obstacle::NoPower);
        };
        let spare = (Reserve::Spare, lens.spare.as_ref(), lens.spare_power);
        let sulcus = (Reserve::Sulcus, lens.spare.as_ref(), lens.sulcus_power);
        let chamber = (
            Reserve::Chamber,
            lens.chamber_lens.as_ref(),
            lens.chamber_power,
        );
        for (which, record, power) in [spare, sulcus, chamber] {
            if let Some(power) = power
                && record.is_none_or(|record| !record.powers.contains(power))
            {
                let lens = Some(which);
                return impossible(Obstacle::PowerNotMade { lens, power });
            }
        }
        if !record.powers.contains(power) {
            let lens = None;
            return impossible(Obstacle::PowerNotMade { lens, power });
        }
        if draft.operation.eye.is_none() {
            return impossible(Obstacle::NoEye);
        }
        match self.open_rule() {
            Some(obstacle) => impossible(obstacle),
            None => Ok(()),
        }
    }

    /// A Stop finding, or a Review finding without a reason, among the frozen results.
    fn open_rule(&self) -> Option<Obstacle> {
        self.results.rules.iter().find_map(|result| {
            let Verdict::Finding(finding) = &result.verdict else {
                return None;
            };
            match (result.severity, &result.reason) {
                (Severity::Note, _) | (Severity::Review, Some(_)) => None,
                (Severity::Stop, _) | (Severity::Review, None) => {
                    Some(by_id(&result.id).map_or_else(
                        || Obstacle::UnknownRule {
                            rule: result.id.clone(),
                        },
                        |rule| Obstacle::Stop {
                            rule: rule.id,
                            finding: finding.clone(),
                        },
                    ))
                }
            }
        })
    }
}
