//! Every rule, in the order it is shown.

use super::{Rule, approach, believable, identity, lens_choice, risk, second_eye};

/// The rules of each group: a file's own, or one of a family by its name.
macro_rules! registry {
    (@rule $group:ident $file:ident) => { &$group::$file::RULE };
    (@rule $group:ident $file:ident $name:ident) => { &$group::$file::$name };
    ($($group:ident: $($file:ident $($name:ident)?),*;)*) => {
        pub const ALL: &[&Rule] = &[$($(registry!(@rule $group $file $($name)?)),*),*];
    };
}

registry! {
    identity:
        id_01, id_02, id_03, id_04, id_05, id_06, id_07, id_08, sl_01, sl_02;
    believable:
        al_01, al_02, al_03, km_01, km_02, km_03, km_04, km_05, km_06, wt_01, ma_01, fl_01, ic_01, seen KERATOCONUS,
        seen SURFACE, sp_01, cw_01, rf_01,
        strict LENGTH, strict MEAN_K, strict POWER, strict MEAN_K_APART, strict LENGTHS_APART,
        strict POWERS_APART, population LENGTH, population RADIUS, population DEPTH,
        population LENS, population DIAMETER, population THICKNESS,
        population DEPTH_EXTREME, population LENS_EXTREME, population THICKNESS_EXTREME, us_01, us_02, us_03, us_04,
        de_01, so_01, so_02, rs_01, rs_02, rs_03, rs_04, to_02;
    approach:
        dp_01, dp_02, dp_03, dp_04, en_01, fuchs PRINTED, fuchs OLDER, fu_03, px_01, px_02,
        px_03, px_04, zn_01, pu_01, pp_01, seen PLAQUE, seen VITRECTOMY, seen INJECTIONS, seen SCAR,
        seen ONLY_EYE, seen INTUMESCENT, ab_01, bl_01, wc_01, tr_01, ng_01, ng_02, in_01, cl_01,
        cl_02, cl_03, capsulorhexis STRETCHES, capsulorhexis TEARS, cc_01, ap_01;
    risk:
        rk_01, rk_02, gp_01, ag_01;
    lens_choice:
        pw_01, pw_02, pw_03, pw_04, pw_05, pw_06, pw_07, ct_01, ct_02, constants CONVERTED,
        constants RANGE, constants APART, constants FAR_APART, constants OTHER_RECORD, tg_02, tg_03,
        an_01, su_01, su_02, ac_01, ac_02, chamber_seat IRIS, chamber_seat ANGLE, ac_05, ha_01, fd_01, fd_02, to_01, to_03,
        to_04, to_05, to_06, to_07, to_08, to_09, to_10, to_11, to_12, to_13;
    second_eye:
        se_01, se_02, se_03;
}

/// Rules that look at every lens of the case, the planned one and those that lie ready, one by one.
pub(crate) const OF_EVERY_LENS: &[&str] = &[
    "PW-01", "PW-04", "PW-05", "PW-06", "PW-07", "CT-01", "CT-03", "CT-04", "CT-05", "CT-06",
    "HA-01", "TO-07",
];

/// The rule with this permanent id.
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{ALL, OF_EVERY_LENS, by_id};
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
    fn rules_of_every_lens_exist() {
        for id in OF_EVERY_LENS {
            assert!(by_id(id).is_some(), "{id}");
        }
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
