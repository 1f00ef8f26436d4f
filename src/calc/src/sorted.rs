//! Sorting by a number: one way for everything that is sorted, since the library's makes some six
//! thousand bytes of code anew for every kind of thing.

/// Things by a number of each, the least first; equal ones as they stood.
pub(crate) fn sorted_by<T>(things: Vec<T>, by: impl Fn(&T) -> f64) -> Vec<T> {
    let mut order: Vec<(f64, usize)> =
        things.iter().enumerate().map(|(place, thing)| (by(thing), place)).collect();
    sort(&mut order);
    let mut things: Vec<Option<T>> = things.into_iter().map(Some).collect();
    let take = |(_, place): (f64, usize)| things.get_mut(place).and_then(Option::take);
    order.into_iter().filter_map(take).collect()
}

fn sort(order: &mut [(f64, usize)]) {
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
}

#[cfg(test)]
mod tests {
    use super::sorted_by;
    use proptest::prelude::*;

    proptest! {
        /// As the standard library sorts, stable.
        #[test]
        fn it_is_the_library_s_order(numbers in proptest::collection::vec(-5_i32..5, 0..40)) {
            let things: Vec<(i32, usize)> = numbers.into_iter().zip(0..).collect();
            let mut wanted = things.clone();
            wanted.sort_by_key(|thing| thing.0);
            prop_assert_eq!(sorted_by(things, |thing| f64::from(thing.0)), wanted);
        }
    }
}
