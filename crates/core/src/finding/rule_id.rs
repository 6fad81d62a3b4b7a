//! Permanent ids of rules.

/// Every id that a rule has or ever had, a line each; none is used again.
const RULE_IDS: &str = include_str!("rule-ids.txt");

/// Whether a rule has, or ever had, this id.
pub fn is_rule_id(id: &str) -> bool {
    RULE_IDS.lines().any(|known| known == id)
}
