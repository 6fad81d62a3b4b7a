//! What theatre needs, for other programs.

use millrace_core::case::{Draft, Told};
use millrace_core::quantity::HundredthDiopters;
use serde::Serialize;

/// Nothing stands for what nobody entered; an empty list of allergies or medicines for "none known".
#[derive(Serialize)]
pub(super) struct TheatrePart {
    anesthesia: Option<String>,
    technique: Vec<String>,
    viscoelastic: Option<String>,
    in_room: Vec<String>,
    allergies: Option<Vec<String>>,
    medicines: Option<Vec<String>>,
    spare_power_d: Option<f64>,
    sulcus_power_d: Option<f64>,
    chamber_power_d: Option<f64>,
}

impl TheatrePart {
    pub(super) fn of(draft: &Draft) -> Self {
        let (theatre, lens) = (&draft.theatre, &draft.lens);
        let told = |told: &Option<Told>| {
            told.as_ref().map(|told| match told {
                Told::NoneKnown => Vec::new(),
                Told::These(these) => these.clone(),
            })
        };
        let power = |power: Option<HundredthDiopters>| power.map(|it| it.diopters().d());
        Self {
            anesthesia: theatre.anesthesia.map(|kind| kind.to_string()),
            technique: theatre.technique.clone(),
            viscoelastic: theatre.viscoelastic.clone(),
            in_room: theatre.in_room.clone(),
            allergies: told(&theatre.allergies),
            medicines: told(&theatre.medicines),
            spare_power_d: power(lens.spare_power),
            sulcus_power_d: power(lens.sulcus_power),
            chamber_power_d: power(lens.chamber_power),
        }
    }
}
