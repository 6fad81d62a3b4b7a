//! Whether the nucleus counts as hard.

use millrace_core::finding::{HardNucleus, WhyHard, WhyNotHard, WhyUnclear};

shown! { HardNucleus, words {
    Yes(why) = "hard, {why}";
    No(why) = "not hard, {why}";
    Unclear(why) = "unclear: {why}";
}}

shown! { WhyHard, words {
    Grade = "by its grade";
    Color = "by its color";
    Brunescent = "since it is brunescent";
    Judged = "as somebody judged it";
}}

shown! { WhyNotHard, words {
    Grade = "by its grade";
    Judged = "as somebody judged it";
}}

shown! { WhyUnclear, words {
    NotGraded = "it was not graded";
    White = "the cataract is white and the nucleus not graded";
    Dense = "the cataract is dense and the nucleus not graded";
    BrunescentGradedSoft = "it is brunescent, and its grade is not a hard one";
    WhiteGradedSoft = "the cataract is white, which hides it, and its grade is not a hard one";
    DenseGradedSoft = "the cataract is dense, and its grade is not a hard one";
}}
