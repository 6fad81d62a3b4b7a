//! The alternative to a toric lens: the incision on the steep meridian, which it flattens.

use super::{CornealTerms, Incision, IncisionTerm, ToricRefusal};
use crate::biometry::{Sector, Side};
use crate::quantity::Direction;

/// The cornea with the incision on its steep meridian.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alternative {
    /// Where the incision would lie: the temporal end of the steep meridian, as was published, and
    /// where neither end is temporal the upper one.
    pub direction: Direction,
    /// The terms of the corneal astigmatism with that incision.
    pub terms: CornealTerms,
}

/// The planned incision moved to the steep meridian of front and back.
pub fn incision_on_the_steep_meridian(
    terms: &CornealTerms,
    incision: Incision,
    side: Side,
) -> Result<Alternative, ToricRefusal> {
    let steep = terms.before_incision().steep_meridian();
    let steep = steep.ok_or(ToricRefusal::NoSteepMeridian)?;
    let upper = Direction::new(steep.degrees()).map_err(|_| ToricRefusal::NoSteepMeridian)?;
    let lower = upper.turned(180);
    // A temporal end is the one that was published; above the other two lies the surgeon's own seat.
    let direction = if side.sector(lower) == Sector::Temporal {
        lower
    } else {
        upper
    };
    let incision = IncisionTerm::at(incision, side, direction)?;
    Ok(Alternative {
        direction,
        terms: terms.with_incision(incision),
    })
}
