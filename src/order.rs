//! Sorting of short lists. The standard library's sort is made for long ones and writes 4 kB of code for
//! each type that it sorts; what is sorted here are findings, plans and lines of a map, tens at most.

use std::cmp::Ordering;

/// Sorts by comparison; equals keep their order. The time goes with the square of the length, unless the
/// list is nearly in order already.
pub fn sort<T>(items: &mut [T], mut compare: impl FnMut(&T, &T) -> Ordering) {
    for end in 1..items.len() {
        let mut at = end;
        while at > 0 && compare(&items[at - 1], &items[at]) == Ordering::Greater {
            items.swap(at - 1, at);
            at -= 1;
        }
    }
}

/// The same by a key.
pub fn sort_by_key<T, K: Ord>(items: &mut [T], mut key: impl FnMut(&T) -> K) {
    sort(items, |a, b| key(a).cmp(&key(b)));
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn gives_what_the_standard_librarys_stable_sort_gives(
            mut items in proptest::collection::vec((0_u8..6, any::<u8>()), 0..40)
        ) {
            let mut theirs = items.clone();
            theirs.sort_by_key(|(key, _)| *key);
            sort_by_key(&mut items, |(key, _)| *key);
            prop_assert_eq!(items, theirs);
        }
    }
}
