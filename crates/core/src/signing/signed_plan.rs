//! A signed plan: made by signing, or read back as it was signed, and in no other way.

use serde::{Deserialize, Serialize};

use super::encoded::{FORMAT, VERSION};
use super::{Fingerprint, Obstacle, SheetNumber, Signature, SignatureEntry, ready};
use crate::case::{Draft, plain_text};
use crate::case_file::CaseFileError;
use crate::document::PlanDocument;
use crate::limits::Limits;
use crate::plan::Plan;

/// A plan as it was signed. Nothing in it ever changes; a later one supersedes it by number.
#[derive(Clone, Debug, PartialEq)]
pub struct SignedPlan {
    pub(super) content: Content,
    encoded: String,
    fingerprint: Fingerprint,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Content {
    format: String,
    version: u32,
    pub(super) number: SheetNumber,
    pub(super) supersedes: Option<SheetNumber>,
    pub(super) signature: Signature,
    pub(super) plan: PlanDocument,
}

/// What a signature is put under.
#[derive(Clone, Copy, Debug)]
pub struct ToSign<'a> {
    pub number: SheetNumber,
    /// The sheet of the same case that it takes the place of.
    pub supersedes: Option<SheetNumber>,
    pub draft: &'a Draft,
    /// The limits it is planned by.
    pub limits: &'a Limits,
    pub program: &'a str,
}

/// Why a stored plan is not taken for a signed one.
#[derive(Clone, Debug, PartialEq)]
pub enum NotASignedPlan {
    /// It is not what was signed.
    OtherFingerprint,
    Unreadable(Box<CaseFileError>),
    Impossible(Box<Obstacle>),
    /// It supersedes a sheet that came no earlier.
    Order {
        number: SheetNumber,
        /// The number it claims to supersede.
        supersedes: SheetNumber,
    },
}

/// Signs: computes the plan from the draft and freezes it, unless something stands against it.
///
/// # Errors
///
/// Every [`Obstacle`].
pub fn sign(to_sign: ToSign<'_>, signature: Signature) -> Result<SignedPlan, Vec<Obstacle>> {
    let ToSign { draft, limits, .. } = to_sign;
    let mut obstacles = of_signature(&signature, draft);
    if let Err(hidden) = plain_text::check("name of the program", to_sign.program) {
        obstacles.push(hidden.into());
    }
    let plan = Plan::of(draft, limits).map_err(|_| vec![Obstacle::NoEye])?;
    obstacles.extend(ready(&plan));
    if !obstacles.is_empty() {
        return Err(obstacles);
    }
    let content = Content {
        format: FORMAT.to_owned(),
        version: VERSION,
        number: to_sign.number,
        supersedes: to_sign.supersedes,
        signature,
        plan: PlanDocument::of(&plan, to_sign.program),
    };
    let not_finite = |what: String| vec![Obstacle::NotFinite { what }];
    let encoded = content
        .write()
        .map_err(|error| not_finite(error.to_string()))?;
    let fingerprint = Fingerprint::of(&encoded);
    let signed = SignedPlan {
        content,
        encoded,
        fingerprint,
    };
    // What would not be read back as the same is not signed: a number that is none, for one.
    match SignedPlan::read(&signed.encoded, fingerprint) {
        Ok(back) if back == signed => Ok(signed),
        Err(NotASignedPlan::Unreadable(error)) => Err(not_finite(error.to_string())),
        Ok(_) | Err(_) => Err(not_finite("a result".to_owned())),
    }
}

fn of_signature(signature: &Signature, draft: &Draft) -> Vec<Obstacle> {
    let mut found = Vec::new();
    for (what, name, text) in [
        (SignatureEntry::Name, "name", &signature.name),
        (SignatureEntry::Role, "role", &signature.role),
    ] {
        if text.trim().is_empty() {
            found.push(Obstacle::Unsigned { what });
        }
        if let Err(hidden) = plain_text::check(name, text) {
            found.push(hidden.into());
        }
    }
    let entered = signature.consented_target;
    if let Some(target) = draft.lens.target
        && target != entered
    {
        found.push(Obstacle::EnteredDiffers { target, entered });
    }
    found
}

impl SignedPlan {
    /// Reads a stored plan and holds it against the fingerprint it was signed with.
    ///
    /// # Errors
    ///
    /// [`NotASignedPlan`]; also for one that says what no signed plan says, whatever its fingerprint.
    pub fn read(encoded: &str, fingerprint: Fingerprint) -> Result<Self, NotASignedPlan> {
        if Fingerprint::of(encoded) != fingerprint {
            return Err(NotASignedPlan::OtherFingerprint);
        }
        let unreadable = |error| NotASignedPlan::Unreadable(Box::new(error));
        let content = Content::read(encoded).map_err(unreadable)?;
        content.check()?;
        Ok(Self {
            content,
            encoded: encoded.to_owned(),
            fingerprint,
        })
    }

    pub const fn number(&self) -> SheetNumber {
        self.content.number
    }

    pub const fn supersedes(&self) -> Option<SheetNumber> {
        self.content.supersedes
    }

    pub const fn draft(&self) -> &Draft {
        &self.content.plan.case
    }

    /// The plan that was signed, with all that was computed.
    pub const fn plan(&self) -> &PlanDocument {
        &self.content.plan
    }

    pub const fn signature(&self) -> &Signature {
        &self.content.signature
    }

    /// Program and version it was computed with.
    pub fn program(&self) -> &str {
        &self.content.plan.program
    }

    /// SHA-256 of all that.
    pub const fn fingerprint(&self) -> Fingerprint {
        self.fingerprint
    }

    /// All that as one line of JSON: what is stored, and what the fingerprint is of.
    pub fn encoded(&self) -> &str {
        &self.encoded
    }
}
