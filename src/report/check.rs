//! The check sum of a plan: two papers with the same one were printed from the same plan.

use crate::plan::Plan;

/// Eight hexadecimal digits in two groups, "3f2a-91bc": Adler-32 (RFC 1950) over the plan's file without
/// spaces. It tells an accidental difference, not a forger.
pub fn check_sum(plan: &Plan) -> String {
    let text = serde_json::to_vec(plan).unwrap_or_default();
    let sum = adler2::adler32_slice(&text);
    format!("{:04x}-{:04x}", sum >> 16, sum & 0xffff)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plan_and_its_copy_have_one_check_sum_and_an_edit_gives_another() {
        let mut plan = Plan::new("North line");
        let sum = check_sum(&plan);
        assert_eq!(sum.len(), 9);
        assert_eq!(check_sum(&plan.clone()), sum);
        plan.name.push('s');
        assert_ne!(check_sum(&plan), sum);
    }
}
