//! What rules say, as values: no word of any language. Stored reasons, signed plans and JSON hold
//! these under stable codes; sentences are made from them elsewhere.

mod because;
mod condition;
mod detail;
mod limit;
mod measured;
mod missing;
mod nucleus;
mod other_case;
mod place;
mod quantity;
mod risk;
mod rule_id;
mod verdict;

pub use because::Because;
pub use condition::{Asks, Found, Lacking, Outcome};
pub use detail::{Astigmatism, Detail, SpreadOf};
pub use limit::{Limit, NamedFor, PowerSpan};
pub use measured::{
    ConstantValue, Contradiction, Drift, Fact, Identifier, LensConstant, NoAnswer, TwoLooks,
    WeakZonules,
};
pub use missing::{Eyes, Missing, Which};
pub use nucleus::{HardNucleus, WhyHard, WhyNotHard, WhyUnclear};
pub use other_case::{Doubt, OtherCase};
pub use place::Place;
pub use quantity::Quantity;
pub use risk::{Band, BorderlineDepth, OddsFactor, RiskItem};
pub use rule_id::is_rule_id;
pub use verdict::{Certainty, Finding, Verdict};
