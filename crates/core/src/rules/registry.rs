//! Every rule, in the order it is shown.

use super::{Rule, approach, believable, identity, lens_choice, risk};

/// Every rule.
pub const ALL: &[&Rule] = &[
    &identity::id_01::RULE,
    &identity::id_02::RULE,
    &identity::id_03::RULE,
    &identity::id_04::RULE,
    &identity::id_05::RULE,
    &believable::al_01::RULE,
    &believable::al_02::RULE,
    &believable::al_03::RULE,
    &believable::km_01::RULE,
    &believable::km_02::RULE,
    &believable::km_03::RULE,
    &believable::km_04::RULE,
    &believable::km_05::RULE,
    &believable::wt_01::RULE,
    &believable::ma_01::RULE,
    &believable::fl_01::RULE,
    &believable::hs_01::RULE,
    &believable::hs_02::RULE,
    &believable::hs_03::RULE,
    &believable::hs_04::RULE,
    &believable::hs_05::RULE,
    &believable::hs_06::RULE,
    &believable::po_01::RULE,
    &believable::po_02::RULE,
    &believable::po_03::RULE,
    &believable::po_04::RULE,
    &believable::po_05::RULE,
    &believable::po_06::RULE,
    &believable::us_01::RULE,
    &believable::us_02::RULE,
    &believable::us_03::RULE,
    &believable::us_04::RULE,
    &believable::de_01::RULE,
    &believable::so_01::RULE,
    &believable::so_02::RULE,
    &believable::rs_01::RULE,
    &believable::rs_02::RULE,
    &believable::rs_03::RULE,
    &believable::se_01::RULE,
];

/// The rule with this permanent id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::Limits;

    #[test]
    fn ids_are_unique() {
        let mut ids: Vec<_> = ALL.iter().map(|rule| rule.id).collect();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), ALL.len());
    }

    #[test]
    fn rules_stand_in_the_order_of_their_groups() {
        assert!(ALL.is_sorted_by_key(|rule| rule.group));
    }

    #[test]
    fn limits_they_name_exist() {
        let entries = Limits::shipped().entries();
        for rule in ALL {
            for limit in rule.limits {
                let known = entries.iter().any(|(name, _)| name == limit);
                assert!(known, "{}: {limit}", rule.id);
            }
        }
    }
}
