//! Eyes of which no range and no chance is stated: the published scatter is that of healthy eyes with
//! the lens in the bag, and no figure was read that would widen it for these.

use crate::biometry::{EyeRecord, SiliconeOil};
use crate::evidence::{CLINICAL_NOTES, HOUSE, Source, Standing};
use crate::lens::LensSite;
use crate::limits::Limits;
use crate::quantity::Micrometers;

/// Why the distribution is withheld.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Withheld {
    IrregularCornea,
    SiliconeOil,
    Vitrectomy,
    /// The zonules are weak: the lens trembles.
    Phacodonesis,
    /// The lens lies off the axis by more than the clinic's limit.
    Decentration,
    /// The planned lens sits in the anterior chamber.
    AnteriorChamber,
}

impl Withheld {
    /// Every reason in this eye and for a lens made to sit there; what was not recorded is none, and a
    /// rule asks for it.
    pub fn of(eye: &EyeRecord, site: LensSite, limits: &Limits) -> Vec<Self> {
        let state = &eye.state;
        let is_filled = state
            .silicone_oil
            .is_some_and(|oil| oil != SiliconeOil::Absent);
        let is_decentered = state.lens_decentration.is_some_and(|decentration| {
            limits.pseudoexfoliation_decentration < decentration.abs_diff(Micrometers::new(0))
        });
        [
            (state.irregular_cornea == Some(true), Self::IrregularCornea),
            (is_filled, Self::SiliconeOil),
            (state.previous_vitrectomy == Some(true), Self::Vitrectomy),
            (state.phacodonesis == Some(true), Self::Phacodonesis),
            (is_decentered, Self::Decentration),
            (site == LensSite::AnteriorChamber, Self::AnteriorChamber),
        ]
        .into_iter()
        .filter_map(|(is_so, because)| is_so.then_some(because))
        .collect()
    }

    /// What it rests on.
    pub const fn source(self) -> Source {
        match self {
            Self::SiliconeOil => Standing::Printed.of(
                CLINICAL_NOTES,
                "silicone oil: only a third of eyes within ±1 D",
            ),
            _ => Standing::Assumption.of(
                HOUSE,
                "no scatter of such eyes was read, and that of healthy eyes is not theirs",
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::testing::ordinary_draft;

    type Change = fn(&mut EyeRecord);

    /// A healthy eye has a range; each of these states, by itself, has none and says why.
    #[test]
    fn the_range_of_a_healthy_eye_is_not_stated_for_these() {
        let limits = Limits::shipped();
        let of = |change: &dyn Fn(&mut EyeRecord), site| {
            let mut draft = ordinary_draft();
            let eye = draft.operated();
            change(eye);
            Withheld::of(eye, site, limits)
        };
        let bag = LensSite::Bag;
        assert_eq!(of(&|_| {}, bag), []);
        let cases: [(Change, Withheld); 7] = [
            (
                |eye| eye.state.irregular_cornea = Some(true),
                Withheld::IrregularCornea,
            ),
            (
                |eye| eye.state.silicone_oil = Some(SiliconeOil::LengthCorrected),
                Withheld::SiliconeOil,
            ),
            (
                |eye| eye.state.silicone_oil = Some(SiliconeOil::LengthUncorrected),
                Withheld::SiliconeOil,
            ),
            (
                |eye| eye.state.previous_vitrectomy = Some(true),
                Withheld::Vitrectomy,
            ),
            (
                |eye| eye.state.phacodonesis = Some(true),
                Withheld::Phacodonesis,
            ),
            (
                |eye| eye.state.lens_decentration = Some(Micrometers::new(261)),
                Withheld::Decentration,
            ),
            (
                |eye| eye.state.lens_decentration = Some(Micrometers::new(-261)),
                Withheld::Decentration,
            ),
        ];
        for (change, because) in cases {
            assert_eq!(of(&change, bag), [because]);
        }
        // 0.260 mm itself is no more than the limit.
        let at_limit = |eye: &mut EyeRecord| {
            eye.state.lens_decentration = Some(Micrometers::new(260));
        };
        assert_eq!(of(&at_limit, bag), []);
        assert_eq!(
            of(&|_| {}, LensSite::AnteriorChamber),
            [Withheld::AnteriorChamber]
        );
    }
}
