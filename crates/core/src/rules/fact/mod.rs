//! What rules say, as values: no word of any language. Stored reasons, signed plans and JSON hold
//! these under stable codes; sentences are made from them elsewhere.

mod because;
mod detail;
mod limit;
mod measured;
mod missing;
mod quantity;

pub use because::Because;
pub use detail::{Astigmatism, Detail, SpreadOf};
pub use limit::{Limit, NamedFor, PowerSpan};
pub use measured::{Contradiction, Drift, Fact, Identifier, NoAnswer, TwoLooks, WeakZonules};
pub use missing::{Eyes, Missing, Which};
pub use quantity::Quantity;
