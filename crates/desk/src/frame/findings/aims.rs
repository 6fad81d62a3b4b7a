//! Where the entry is that a finding is about.

use millrace_core::biometry::{Item, Sign};
use millrace_core::case::Slot;
use millrace_core::lens::Place;
use millrace_core::plan::Evaluated;
use millrace_wording::desk::{approach, biometry, lens, sheet};
use millrace_wording::{Show as _, Words, measurements, sentence};

use crate::whereabouts::{Aim, Page};

/// What is entered in a field.
#[derive(Clone, Copy)]
enum Entry {
    /// A field by what its page calls it.
    Named(Page, fn(Words) -> &'static str),
    Measured(Item),
    /// The cornea, which is entered as readings and meridians.
    Cornea,
    Seen(Sign),
    PlannedLens,
    /// The backup lens of this place.
    Backup(Place),
}

/// The entry of a finding; nothing where no single entry is meant, or none of the case: the act is another.
pub(super) fn aim(words: Words, evaluated: &Evaluated) -> Option<Aim> {
    let entry = match evaluated.backup {
        Some(place) => Entry::Backup(place),
        None => entry(evaluated.rule.id)?,
    };
    Some(entry.aim(words))
}

impl Entry {
    fn aim(self, words: Words) -> Aim {
        let (page, name) = match self {
            Self::Named(page, name) => (page, name(words).to_owned()),
            Self::Measured(item) => (Page::Biometry, measurements::head(words, item)),
            Self::Cornea => (
                Page::Biometry,
                biometry::flat_reading_head(words).to_owned(),
            ),
            Self::Seen(sign) => (Page::Biometry, sentence(&sign.show(words))),
            Self::PlannedLens => {
                let slot = Slot::Planned;
                (Page::Lens, sentence(&slot.show(words)))
            }
            Self::Backup(place) => {
                let slot = Slot::Backup(place);
                let title = sentence(&slot.show(words));
                (Page::Sheet, sheet::power_of(words, title))
            }
        };
        Aim { page, name }
    }
}

fn entry(rule: &str) -> Option<Entry> {
    of_patient(rule)
        .or_else(|| of_measurement(rule))
        .or_else(|| of_state(rule))
        .or_else(|| of_lens(rule))
        .or_else(|| of_approach(rule))
}

fn of_patient(rule: &str) -> Option<Entry> {
    let name = match rule {
        "ID-01" => biometry::name,
        "ID-06" | "AG-01" => biometry::birth_date,
        "ID-08" => biometry::number,
        "AB-01" => biometry::alpha_blocker,
        "TR-01" => biometry::surgeon,
        _ => return None,
    };
    Some(Entry::Named(Page::Biometry, name))
}

fn of_measurement(rule: &str) -> Option<Entry> {
    let item = match rule {
        "KM-01" | "KM-02" | "KM-03" | "KM-04" | "KM-05" | "KM-06" | "HS-02" | "HS-04" | "PO-02"
        | "TO-02" | "TO-04" | "RS-04" | "CW-01" => return Some(Entry::Cornea),
        "ID-05" | "AL-01" | "AL-02" | "AL-03" | "HS-01" | "HS-03" | "HS-05" | "HS-06" | "PO-01"
        | "MA-01" | "SP-01" | "US-01" | "US-03" | "US-04" | "SO-01" => Item::AxialLength,
        "PO-03" | "EX-01" | "DE-01" | "DP-01" | "DP-02" | "DP-03" | "DP-04" | "CL-01" | "CL-02"
        | "AC-02" => Item::ChamberDepth,
        "PO-04" | "EX-02" => Item::LensThickness,
        "WT-01" | "PO-05" | "AC-01" => Item::CornealDiameter,
        "PO-06" | "EX-03" | "FU-01" | "FU-02" => Item::CornealThickness,
        "EN-01" | "FU-03" | "AC-05" => Item::Endothelium,
        _ => return None,
    };
    Some(Entry::Measured(item))
}

fn of_state(rule: &str) -> Option<Entry> {
    let sign = match rule {
        "IC-01" | "TO-03" => Sign::IrregularCornea,
        "KC-01" => Sign::Keratoconus,
        "DS-01" => Sign::UnstableSurface,
        "PX-01" | "PX-02" | "PX-03" | "PX-04" => Sign::Pseudoexfoliation,
        "ZN-01" => Sign::Phacodonesis,
        "PP-01" => Sign::PosteriorPolar,
        "CP-01" => Sign::CapsulePlaque,
        "VX-01" => Sign::PreviousVitrectomy,
        "IV-01" => Sign::IntravitrealInjections,
        "CS-01" => Sign::CornealScarring,
        "OE-01" => Sign::OnlyEye,
        "WC-01" => Sign::WhiteCataract,
        "WC-02" => Sign::Intumescent,
        "HA-01" => Sign::KeratoplastyLikely,
        "AC-03" => Sign::IrisDefect,
        "AC-04" => Sign::NarrowAngle,
        _ => {
            let name = match rule {
                "SO-02" => biometry::silicone_oil,
                "RS-01" | "RS-02" | "RS-03" => biometry::corneal_surgery,
                "NG-01" | "NG-02" => biometry::nucleus_scale,
                _ => return None,
            };
            return Some(Entry::Named(Page::Biometry, name));
        }
    };
    Some(Entry::Seen(sign))
}

fn of_lens(rule: &str) -> Option<Entry> {
    let name = match rule {
        "ID-02" => lens::consented_target,
        "TG-02" | "TG-03" | "AN-01" => lens::target,
        "FL-01" | "FD-01" | "FD-02" | "PW-04" => lens::planned_by,
        "US-02" => lens::ultrasound_length,
        "PW-02" | "PW-03" | "PW-05" | "PW-06" | "PW-07" => lens::ladder,
        "TO-05" => lens::posterior_cornea,
        "TO-01" | "TO-06" | "TO-07" | "TO-08" | "TO-10" | "TO-11" | "TO-12" | "TO-13" => {
            lens::cylinder
        }
        "SE-02" | "SE-03" => lens::second_eye_prediction,
        "PW-01" | "CT-01" | "CT-02" | "CT-03" | "CT-04" | "CT-05" | "CT-06" | "CT-07" | "TO-09" => {
            return Some(Entry::PlannedLens);
        }
        _ => return None,
    };
    Some(Entry::Named(Page::Lens, name))
}

fn of_approach(rule: &str) -> Option<Entry> {
    let name = match rule {
        "AP-01" => approach::approach,
        "IN-01" => approach::incision_width,
        "CL-04" | "CL-05" | "CC-01" => approach::capsulorhexis,
        "CL-03" => approach::delivery,
        "BL-01" => return Some(Entry::Named(Page::Sheet, sheet::anesthesia)),
        _ => return None,
    };
    Some(Entry::Named(Page::Approach, name))
}

#[cfg(test)]
mod tests {
    use millrace_core::rules::ALL;

    use super::entry;

    /// Those whose act is no entry of one field, or another way than a field leads to it.
    #[test]
    fn every_rule_but_these_leads_to_a_field() {
        let ids = ALL.iter().map(|rule| rule.id);
        let without: Vec<_> = ids.filter(|id| entry(id).is_none()).collect();
        let none = [
            "ID-03", "ID-04", "ID-07", "SL-01", "SL-02", "RF-01", "PU-01", "RK-01", "RK-02",
            "GP-01", "SU-01", "SU-02", "SE-01",
        ];
        assert_eq!(without, none);
    }
}
