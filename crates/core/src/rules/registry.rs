//! Every rule, in the order it is shown.

use super::{Rule, approach, believable, identity, lens_choice, risk, second_eye};

pub const ALL: &[&Rule] = &[
    &identity::id_01::RULE,
    &identity::id_02::RULE,
    &identity::id_03::RULE,
    &identity::id_04::RULE,
    &identity::id_05::RULE,
    &identity::id_06::RULE,
    &identity::sl_01::RULE,
    &identity::sl_02::RULE,
    &believable::al_01::RULE,
    &believable::al_02::RULE,
    &believable::al_03::RULE,
    &believable::km_01::RULE,
    &believable::km_02::RULE,
    &believable::km_03::RULE,
    &believable::km_04::RULE,
    &believable::km_05::RULE,
    &believable::km_06::RULE,
    &believable::wt_01::RULE,
    &believable::ma_01::RULE,
    &believable::fl_01::RULE,
    &believable::strict::LENGTH,
    &believable::strict::MEAN_K,
    &believable::strict::POWER,
    &believable::strict::MEAN_K_APART,
    &believable::strict::LENGTHS_APART,
    &believable::strict::POWERS_APART,
    &believable::population::LENGTH,
    &believable::population::RADIUS,
    &believable::population::DEPTH,
    &believable::population::LENS,
    &believable::population::DIAMETER,
    &believable::population::THICKNESS,
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
    &believable::rs_04::RULE,
    &believable::to_02::RULE,
    &approach::dp_01::RULE,
    &approach::dp_02::RULE,
    &approach::dp_03::RULE,
    &approach::en_01::RULE,
    &approach::fu_01::RULE,
    &approach::fu_02::RULE,
    &approach::fu_03::RULE,
    &approach::px_01::RULE,
    &approach::px_02::RULE,
    &approach::px_03::RULE,
    &approach::px_04::RULE,
    &approach::ab_01::RULE,
    &approach::wc_01::RULE,
    &approach::tr_01::RULE,
    &approach::ng_01::RULE,
    &approach::in_01::RULE,
    &approach::cl_01::RULE,
    &approach::cc_01::RULE,
    &approach::ap_01::RULE,
    &risk::rk_01::RULE,
    &risk::rk_02::RULE,
    &lens_choice::pw_01::RULE,
    &lens_choice::pw_02::RULE,
    &lens_choice::pw_03::RULE,
    &lens_choice::pw_04::RULE,
    &lens_choice::ct_01::RULE,
    &lens_choice::ct_02::RULE,
    &lens_choice::tg_02::RULE,
    &lens_choice::su_01::RULE,
    &lens_choice::ac_01::RULE,
    &lens_choice::ha_01::RULE,
    &lens_choice::fd_01::RULE,
    &lens_choice::to_01::RULE,
    &lens_choice::to_03::RULE,
    &lens_choice::to_04::RULE,
    &lens_choice::to_05::RULE,
    &lens_choice::to_06::RULE,
    &lens_choice::to_07::RULE,
    &lens_choice::to_08::RULE,
    &lens_choice::to_09::RULE,
    &lens_choice::to_10::RULE,
    &lens_choice::to_11::RULE,
    &lens_choice::to_12::RULE,
    &second_eye::se_01::RULE,
    &second_eye::se_02::RULE,
    &second_eye::se_03::RULE,
];

/// The rule with this permanent id.
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{ALL, by_id};
    use crate::limits::Limits;

    #[test]
    fn ids_are_unique_and_found() {
        let ids: BTreeSet<_> = ALL.iter().map(|rule| rule.id).collect();
        assert_eq!(ids.len(), ALL.len());
        for rule in ALL {
            assert_eq!(by_id(rule.id).unwrap().title, rule.title);
        }
        assert!(by_id("XX-99").is_none());
    }

    #[test]
    fn rules_stand_in_the_order_of_their_groups() {
        assert!(ALL.is_sorted_by_key(|rule| rule.group));
    }

    #[test]
    fn every_rule_has_its_texts_and_sources_and_names_limits_that_exist() {
        let entries = Limits::shipped().entries();
        for rule in ALL {
            assert!(!rule.sources.is_empty(), "{}", rule.id);
            for text in [rule.title, rule.checks, rule.why, rule.options] {
                assert!(!text.is_empty(), "{}", rule.id);
            }
            assert!(!rule.title.ends_with('.'), "{}", rule.id);
            for limit in rule.limits {
                let exists = entries.iter().any(|(name, _)| name == limit);
                assert!(exists, "{}: {limit}", rule.id);
            }
        }
    }
}
