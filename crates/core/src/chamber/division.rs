//! Dividing the nucleus: sectors, rings and layers.
//!
//! ```text
//! n = sectors × rings × layers
//! ring boundaries at equal steps of the radius   layer boundary at the equator
//! ```

/// A way of dividing the nucleus.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Division {
    /// Wedges around the axis.
    pub sectors: u8,
    /// Rings of each wedge, cut at equal steps of its radius.
    pub rings: u8,
    /// Layers, split at the equatorial plane.
    pub layers: u8,
}

const fn division(sectors: u8, rings: u8, layers: u8) -> Division {
    Division {
        sectors,
        rings,
        layers,
    }
}

/// The divisions shown: 4, 6, 8, 12, 16, 24 and 32 pieces (assumption).
pub const DIVISIONS: [Division; 7] = [
    division(4, 1, 1),
    division(6, 1, 1),
    division(8, 1, 1),
    division(6, 2, 1),
    division(8, 2, 1),
    division(8, 3, 1),
    division(8, 2, 2),
];

impl Division {
    pub const fn pieces(self) -> u8 {
        self.sectors * self.rings * self.layers
    }

    /// The division with so many pieces, if it is one of [`DIVISIONS`].
    pub fn with_pieces(pieces: u8) -> Option<Self> {
        DIVISIONS
            .into_iter()
            .find(|division| division.pieces() == pieces)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_divisions_are_those_named() {
        assert_eq!(DIVISIONS.map(Division::pieces), [4, 6, 8, 12, 16, 24, 32]);
    }
}
