//! The check sum of a plan: two papers with the same one were printed from the same plan.

use crate::plan::Plan;

/// Eight hexadecimal digits in two groups, "3f2a-91bc": the CRC-32 of ISO 3309 over the plan's file without
/// spaces. It tells an accidental difference, not a forger.
pub fn check_sum(plan: &Plan) -> String {
    let text = serde_json::to_vec(plan).unwrap_or_default();
    let sum = crc32fast::hash(&text);
    format!("{:04x}-{:04x}", sum >> 16, sum & 0xffff)
}
