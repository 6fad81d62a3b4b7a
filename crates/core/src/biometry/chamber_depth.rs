//! Anterior chamber depth (ACD), with the surface it starts from.

use super::CornealThickness;
use crate::quantity::Micrometers;

super::measured_length!(
    /// A depth from a corneal surface to the lens front.
    AnteriorChamberDepth,
    "anterior chamber depth",
    1_000..=8_000,
    "\"3.12 mm\""
);

/// The corneal surface a depth is measured from. The two differ by the corneal thickness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DepthStart {
    /// Front of the cornea: what most biometers print.
    Epithelium,
    /// Back of the cornea: the aqueous depth.
    Endothelium,
}

/// A depth that says where it starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChamberDepth {
    #[serde(rename = "value")]
    pub depth: AnteriorChamberDepth,
    /// Its first surface.
    #[serde(rename = "from")]
    pub start: DepthStart,
}

impl ChamberDepth {
    /// The depth from the epithelium; one measured from the endothelium needs the thickness.
    pub fn from_epithelium(self, thickness: Option<CornealThickness>) -> Option<Micrometers> {
        match self.start {
            DepthStart::Epithelium => Some(self.depth.get()),
            DepthStart::Endothelium => Some(self.depth.get() + thickness?.get()),
        }
    }

    /// The aqueous depth; one measured from the epithelium needs the thickness.
    pub fn aqueous(self, thickness: Option<CornealThickness>) -> Option<Micrometers> {
        match self.start {
            DepthStart::Epithelium => Some(self.depth.get() - thickness?.get()),
            DepthStart::Endothelium => Some(self.depth.get()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_depths_differ_by_the_thickness_and_nothing_is_assumed() {
        let thickness: CornealThickness = "540 µm".parse().unwrap();
        let printed = ChamberDepth {
            depth: "2.80 mm".parse().unwrap(),
            start: DepthStart::Epithelium,
        };
        let aqueous = ChamberDepth {
            depth: "2.26 mm".parse().unwrap(),
            start: DepthStart::Endothelium,
        };
        assert_eq!(
            printed.aqueous(Some(thickness)),
            Some(Micrometers::new(2_260))
        );
        assert_eq!(
            aqueous.from_epithelium(Some(thickness)),
            Some(Micrometers::new(2_800))
        );
        assert_eq!(printed.aqueous(None), None);
        assert_eq!(aqueous.from_epithelium(None), None);
        assert_eq!(printed.from_epithelium(None), Some(Micrometers::new(2_800)));
    }
}
