//! Every rule, in the order it is shown.

use super::{Rule, approach, believable, identity, lens_choice, risk};

/// Every rule.
pub const ALL: &[&Rule] = &[&believable::al_01::RULE, &believable::al_02::RULE];

/// The rule with this permanent id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}
