//! Which column of the input holds what, by its header.

use std::borrow::Cow;

use millrace_core::biometry::{
    AnteriorChamberDepth, AxialLength, ChamberDepth, CornealRadius, CornealThickness,
    LensThickness, MeasuredLength, Tabulated,
};
use millrace_core::iol_power::{
    AConstant, HaigisConstants, PersonalizedAcd, PowerRange, SurgeonFactor,
};
use millrace_core::quantity::KeratometricIndex;
use millrace_wording::{Show, Words, tabulate as say};

/// The input columns: what each is called, and what its number can be by the types of the core: for
/// measurements, what an instrument can report. No limits for text.
macro_rules! columns {
    ($($column:ident: $name:expr, $limits:expr;)*) => {
        /// An input column.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(crate) enum Column {
            $($column,)*
        }

        impl Column {
            const ALL: [Self; Self::COUNT] = [$(Self::$column,)*];
            pub(crate) const COUNT: usize = [$($name),*].len();

            pub(crate) const fn name(self) -> &'static str {
                match self {
                    $(Self::$column => $name,)*
                }
            }

            pub(crate) fn limits(self) -> Option<[f64; 2]> {
                match self {
                    $(Self::$column => $limits,)*
                }
            }
        }
    };
}

columns! {
    EyeId: "eye_id", None;
    AxialLength: AxialLength::COLUMN, Some(mm::<AxialLength>());
    K1Radius: "k1_mm", Some(mm::<CornealRadius>());
    K2Radius: "k2_mm", Some(mm::<CornealRadius>());
    // Wider than any radius and index in range give: the radius decides.
    K1Power: "k1_d", Some([20.0, 80.0]);
    K2Power: "k2_d", Some([20.0, 80.0]);
    KIndex: "k_index",
        Some([KeratometricIndex::MIN, KeratometricIndex::MAX].map(KeratometricIndex::value));
    Acd: ChamberDepth::COLUMN, Some(mm::<AnteriorChamberDepth>());
    LensThickness: LensThickness::COLUMN, Some(mm::<LensThickness>());
    CornealThickness: CornealThickness::COLUMN,
        Some([CornealThickness::MIN, CornealThickness::MAX].map(|limit| f64::from(limit.um())));
    // A refraction that spectacles can correct (house value).
    Target: "target_d", Some([-30.0, 30.0]);
    AConstant: "a_constant", Some(AConstant::RANGE);
    Pacd: "pacd_mm", Some(PersonalizedAcd::RANGE);
    SurgeonFactor: "surgeon_factor_mm", Some(SurgeonFactor::RANGE);
    A0: "a0_mm", Some(HaigisConstants::A0_RANGE);
    A1: "a1", Some(HaigisConstants::FACTOR_RANGE);
    A2: "a2", Some(HaigisConstants::FACTOR_RANGE);
    LensPower: "lens_power_d",
        Some([PowerRange::WEAKEST, PowerRange::STRONGEST].map(|power| power.diopters().d()));
}

fn mm<T: MeasuredLength>() -> [f64; 2] {
    [T::SMALLEST, T::LARGEST].map(|limit| limit.millimeters().mm())
}

/// Why a header cannot be used.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum HeaderError {
    Empty,
    NotText,
    Unknown {
        position: usize,
        name: String,
    },
    Twice {
        name: &'static str,
        first: usize,
        second: usize,
    },
    Missing {
        name: &'static str,
    },
    NoKeratometry,
    CarriageReturns,
    Separator {
        separator: char,
    },
}

impl Show for HeaderError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Empty => return say::empty(words).into(),
            Self::NotText => return say::not_text(words).into(),
            Self::Unknown { position, name } => {
                if let Some(nearest) = meant(name) {
                    say::unknown_did_you_mean(words, position, name, nearest)
                } else {
                    let known = words.list(Column::ALL.map(Column::name));
                    say::unknown(words, position, name, known)
                }
            }
            Self::Twice {
                name,
                first,
                second,
            } => say::twice(words, *name, first, second),
            Self::Missing { name } => say::missing(words, *name),
            Self::NoKeratometry => {
                let [k1, k2] = [Column::K1Radius, Column::K2Radius].map(Column::name);
                let radii = say::names_two(words, k1, k2);
                let [k1, k2, index] =
                    [Column::K1Power, Column::K2Power, Column::KIndex].map(Column::name);
                say::no_keratometry(words, radii, say::names_three(words, k1, k2, index))
            }
            Self::CarriageReturns => return say::carriage_returns(words).into(),
            Self::Separator { separator } => say::separator(words, *separator),
        }
        .into()
    }
}

/// The nearest column name, if one is near enough to have been meant.
fn meant(name: &str) -> Option<&'static str> {
    let names = Column::ALL.into_iter().map(Column::name);
    let nearest = names.map(|known| (strsim::damerau_levenshtein(name, known), known));
    let (edits, nearest) = nearest.min()?;
    (edits <= 3).then_some(nearest)
}

/// Position of every column, by header.
#[derive(Clone, Debug)]
pub(crate) struct Columns {
    /// In the order of the file.
    order: Vec<Column>,
}

impl Columns {
    pub(crate) fn from_header(line: &[u8]) -> Result<Self, HeaderError> {
        let text = std::str::from_utf8(line).map_err(|_| HeaderError::NotText)?;
        if text.trim().is_empty() {
            return Err(HeaderError::Empty);
        }
        if let Some(separator) = [';', '\t'].into_iter().find(|&other| text.contains(other)) {
            return Err(HeaderError::Separator { separator });
        }
        if text.contains('\r') {
            return Err(HeaderError::CarriageReturns);
        }
        let mut order: Vec<Column> = Vec::new();
        for (index, name) in text.split(',').enumerate() {
            let name = name.trim().trim_matches('"');
            let Some(column) = Column::ALL.into_iter().find(|column| column.name() == name) else {
                return Err(HeaderError::Unknown {
                    position: index + 1,
                    name: name.chars().take(40).collect(),
                });
            };
            if let Some(first) = order.iter().position(|&earlier| earlier == column) {
                let (first, second) = (first + 1, index + 1);
                return Err(HeaderError::Twice {
                    name: column.name(),
                    first,
                    second,
                });
            }
            order.push(column);
        }
        let columns = Self { order };
        columns.check_complete()?;
        Ok(columns)
    }

    fn check_complete(&self) -> Result<(), HeaderError> {
        for column in [Column::EyeId, Column::AxialLength] {
            if !self.order.contains(&column) {
                return Err(HeaderError::Missing {
                    name: column.name(),
                });
            }
        }
        let has = |columns: &[Column]| columns.iter().all(|column| self.order.contains(column));
        if has(&[Column::K1Radius, Column::K2Radius])
            || has(&[Column::K1Power, Column::K2Power, Column::KIndex])
        {
            return Ok(());
        }
        Err(HeaderError::NoKeratometry)
    }

    /// The columns in the order of the file.
    pub(crate) fn order(&self) -> &[Column] {
        &self.order
    }
}
