//! The lenses chosen for one eye: the planned one, and those that lie ready if it cannot be used.

use core::fmt;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::CommandRefused;
use crate::lens::{LensRecord, OtherRecord, Place, ToricChoice};
use crate::plain_text;
use crate::quantity::{HundredthDiopters, Text, checked_when_read};

/// What a lens was chosen for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slot {
    /// The lens to implant, in the capsular bag.
    Planned,
    /// A lens that lies ready, for this place.
    Backup(Place),
}

impl Slot {
    /// Every slot, in the order lenses are written.
    pub const ALL: [Self; 4] = [
        Self::Planned,
        Self::Backup(Place::Bag),
        Self::Backup(Place::Sulcus),
        Self::Backup(Place::AnteriorChamber),
    ];

    /// Where a lens of this slot is meant to sit.
    pub const fn place(self) -> Place {
        match self {
            Self::Planned => Place::Bag,
            Self::Backup(place) => place,
        }
    }
}

impl fmt::Display for Slot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Planned => "planned lens",
            Self::Backup(Place::Bag) => "backup lens for the bag",
            Self::Backup(Place::Sulcus) => "backup lens for the sulcus",
            Self::Backup(Place::AnteriorChamber) => "anterior chamber IOL",
        })
    }
}

/// A lens with what was chosen of it.
#[derive(Clone, Debug, PartialEq)]
pub struct ChosenLens {
    /// The lens, copied in, so that a later change of the clinic's records changes no plan.
    pub record: LensRecord,
    /// Chosen power.
    pub power: Option<HundredthDiopters>,
    /// Chosen cylinder and axis of a toric lens.
    pub toric: Option<ToricChoice>,
    /// What the clinic's other records of the model said when it was chosen.
    pub others: Vec<OtherRecord>,
}

impl From<LensRecord> for ChosenLens {
    fn from(record: LensRecord) -> Self {
        Self {
            record,
            power: None,
            toric: None,
            others: Vec::new(),
        }
    }
}

/// The chosen lenses, at most one for each slot. Each may sit where it is meant to.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Vec<Entry>", into = "Vec<Entry>")]
pub struct Lenses(BTreeMap<Slot, ChosenLens>);

impl Lenses {
    /// The lens of a slot.
    pub fn get(&self, slot: Slot) -> Option<&ChosenLens> {
        self.0.get(&slot)
    }

    /// The same, to choose its power or cylinder.
    pub fn get_mut(&mut self, slot: Slot) -> Option<&mut ChosenLens> {
        self.0.get_mut(&slot)
    }

    /// The lens to implant.
    pub fn planned(&self) -> Option<&ChosenLens> {
        self.get(Slot::Planned)
    }

    /// The lens that lies ready for a place.
    pub fn backup(&self, place: Place) -> Option<&ChosenLens> {
        self.get(Slot::Backup(place))
    }

    /// Whether none is chosen.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Every lens with its slot, the planned one first.
    pub fn iter(&self) -> impl Iterator<Item = (Slot, &ChosenLens)> {
        self.0.iter().map(|(&slot, lens)| (slot, lens))
    }

    /// Chooses a lens, or none; power and cylinder chosen for another one are cleared.
    pub fn choose(&mut self, slot: Slot, record: Option<LensRecord>) {
        match record {
            None => {
                self.0.remove(&slot);
            }
            Some(record) => {
                if self.get(slot).is_none_or(|lens| lens.record != record) {
                    self.0.insert(slot, record.into());
                }
            }
        }
    }

    /// Keeps beside the lens of a slot what the clinic's other records of its model say.
    pub fn set_others(&mut self, slot: Slot, others: Vec<OtherRecord>) {
        if let Some(lens) = self.get_mut(slot) {
            lens.others = others;
        }
    }

    /// Clears what was chosen for one eye and may not pass to the other; the lenses stay.
    pub(super) fn clear_powers(&mut self) {
        for lens in self.0.values_mut() {
            (lens.power, lens.toric) = (None, None);
        }
    }

    /// Refuses a lens where it is not made to sit.
    pub(super) fn check(&self) -> Result<(), CommandRefused> {
        for (_, lens) in self.iter() {
            plain_text::check_count("other records of a lens", lens.others.len())?;
        }
        match self
            .iter()
            .find(|(slot, lens)| !lens.record.may_sit_in(slot.place()))
        {
            None => Ok(()),
            Some((slot, lens)) => Err(CommandRefused::Site {
                slot,
                site: lens.record.site,
            }),
        }
    }
}

/// A chosen lens, as stored.
#[serde_as]
#[skip_serializing_none]
#[derive(Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
struct Entry {
    chosen_as: ChosenAs,
    place: Place,
    record: LensRecord,
    #[serde_as(as = "Option<Text>")]
    power: Option<HundredthDiopters>,
    toric: Option<ToricChoice>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    others: Vec<OtherRecord>,
}

#[derive(Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum ChosenAs {
    Planned,
    Backup,
}

impl Entry {
    const fn slot(&self) -> Slot {
        match self.chosen_as {
            ChosenAs::Planned => Slot::Planned,
            ChosenAs::Backup => Slot::Backup(self.place),
        }
    }

    /// The planned lens is computed for the bag and for no other place.
    fn check(&self) -> Result<(), &'static str> {
        if self.slot().place() == self.place {
            return Ok(());
        }
        Err("the planned lens is for the bag")
    }
}

checked_when_read!(Entry, Entry::check);

impl From<Lenses> for Vec<Entry> {
    fn from(lenses: Lenses) -> Self {
        let entry = |(slot, lens): (Slot, ChosenLens)| Entry {
            chosen_as: match slot {
                Slot::Planned => ChosenAs::Planned,
                Slot::Backup(_) => ChosenAs::Backup,
            },
            place: slot.place(),
            record: lens.record,
            power: lens.power,
            toric: lens.toric,
            others: lens.others,
        };
        lenses.0.into_iter().map(entry).collect()
    }
}

impl TryFrom<Vec<Entry>> for Lenses {
    type Error = CommandRefused;

    fn try_from(entries: Vec<Entry>) -> Result<Self, CommandRefused> {
        let mut lenses = Self::default();
        for entry in entries {
            let slot = entry.slot();
            let lens = ChosenLens {
                record: entry.record,
                power: entry.power,
                toric: entry.toric,
                others: entry.others,
            };
            if lenses.0.insert(slot, lens).is_some() {
                return Err(CommandRefused::TwoLenses { slot });
            }
        }
        lenses.check()?;
        Ok(lenses)
    }
}
