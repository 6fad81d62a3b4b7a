//! Setting a case aside: it is no longer planned, it is kept, and it can be brought back.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::plain_text;
use super::update::check_said;
use super::{CommandRefused, Draft};
use crate::calendar::Day;
use crate::quantity::checked_when_read;

/// That a case is no longer planned: why, by whom, when. Nothing else of it changes until it is brought back.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct SetAside {
    /// Why; nothing where nothing had been entered, so that there is nothing to explain.
    pub reason: Option<String>,
    pub by: String,
    /// The day; passed in, since this crate reads no clock.
    #[serde_as(as = "Day")]
    pub on: NaiveDate,
}

checked_when_read!(SetAside, SetAside::check);

impl SetAside {
    pub(super) fn check(&self) -> Result<(), CommandRefused> {
        match &self.reason {
            Some(reason) => check_said(reason, &self.by),
            None if self.by.trim().is_empty() => Err(CommandRefused::AuthorMissing),
            None => Ok(plain_text::check("name of the person", &self.by)?),
        }
    }
}

/// Sets a case aside that is not set aside yet; one that holds anything needs a reason.
pub(super) fn set_aside(draft: &mut Draft, said: SetAside) -> Result<(), CommandRefused> {
    said.check()?;
    if said.reason.is_none() && !draft.is_empty() {
        return Err(CommandRefused::ReasonMissing);
    }
    draft.set_aside = Some(said);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::{Command, State, update};
    use super::*;
    use crate::biometry::Side;
    use crate::rules::testing::date;

    fn said(reason: Option<&str>) -> SetAside {
        SetAside {
            reason: reason.map(str::to_owned),
            by: "A. Okafor".to_owned(),
            on: date(2026, 12, 1),
        }
    }

    fn named() -> Draft {
        let mut draft = Draft::default();
        draft.patient.name = Some("Okonjo, Adaeze".to_owned());
        draft
    }

    fn refused(draft: &Draft, said: SetAside) -> CommandRefused {
        update(draft, Command::SetAside(said)).unwrap_err()
    }

    #[test]
    fn an_empty_draft_needs_no_reason_and_any_other_one() {
        let aside = update(&Draft::default(), Command::SetAside(said(None))).unwrap();
        assert_eq!(State::of(&aside), State::SetAside);
        let named = named();
        for reason in [None, Some(""), Some(" \t")] {
            assert_eq!(
                refused(&named, said(reason)),
                CommandRefused::ReasonMissing,
                "{reason:?}"
            );
        }
        let aside = update(&named, Command::SetAside(said(Some("moved away")))).unwrap();
        assert_eq!(State::of(&aside), State::SetAside);
    }

    #[test]
    fn somebody_says_it() {
        let by = |reason| SetAside {
            by: " ".to_owned(),
            ..said(reason)
        };
        let empty = Draft::default();
        for reason in [None, Some("moved away")] {
            assert_eq!(refused(&empty, by(reason)), CommandRefused::AuthorMissing);
        }
    }

    #[test]
    fn nothing_changes_until_it_is_brought_back_and_then_it_is_as_it_was() {
        let before = named();
        let aside = update(&before, Command::SetAside(said(Some("moved away")))).unwrap();
        for command in [
            Command::SetTarget(None),
            Command::ChooseEye(Side::Left),
            Command::SetAside(said(Some("twice"))),
        ] {
            assert_eq!(update(&aside, command), Err(CommandRefused::IsSetAside));
        }
        assert_eq!(update(&aside, Command::BringBack).unwrap(), before);
        assert_eq!(
            update(&before, Command::BringBack),
            Err(CommandRefused::NotSetAside)
        );
    }
}
