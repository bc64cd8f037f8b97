//! Who comes before whom, for one craft.

/// A place in the tables before another.
pub(super) type Pair = (usize, usize);

/// The plain order of the rows that are there: what stands behind a row that is not there follows
/// what stood before it, and what the rest says already is left out. `named` is what each row comes
/// after, `waits` is what a wait keeps apart and so puts in order.
pub(super) fn order(named: &[Vec<usize>], there: &[bool], waits: &[Pair]) -> Vec<Pair> {
    let places = 0..there.len();
    let before: Vec<Vec<usize>> = (places.clone())
        .map(|at| {
            let mut found = Vec::new();
            if there[at] {
                foregoers(at, named, there, &mut found);
                found.extend(waits.iter().filter(|wait| wait.1 == at).map(|wait| wait.0));
            }
            found.sort_unstable();
            found.dedup();
            found
        })
        .collect();
    let pairs = places.flat_map(|then| before[then].iter().map(move |first| (*first, then)));
    let said = |&(first, then): &Pair| {
        let mut others = before[then].iter().filter(|other| **other != first);
        waits.contains(&(first, then)) || others.any(|other| is_above(first, *other, &before))
    };
    pairs.filter(|pair| !said(pair)).collect()
}

/// The rows there directly before one.
fn foregoers(at: usize, named: &[Vec<usize>], there: &[bool], found: &mut Vec<usize>) {
    for &before in &named[at] {
        if there[before] {
            found.push(before);
        } else {
            foregoers(before, named, there, found);
        }
    }
}

/// Whether a row stands anywhere before another.
fn is_above(first: usize, then: usize, before: &[Vec<usize>]) -> bool {
    let mut seen = vec![false; before.len()];
    let mut open = vec![then];
    while let Some(at) = open.pop() {
        if at == first {
            return true;
        }
        if !std::mem::replace(&mut seen[at], true) {
            open.extend(&before[at]);
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_what_is_not_there_hands_its_order_on() {
        let named = [vec![], vec![0], vec![1], vec![1, 2]];
        let chain = [(0, 1), (1, 2), (2, 3)];
        assert_eq!(order(&named, &[true; 4], &[]), chain);
        let without = order(&named, &[true, false, true, true], &[]);
        assert_eq!(without, [(0, 2), (2, 3)]);
        let none = order(&named, &[true, false, false, true], &[]);
        assert_eq!(none, [(0, 3)]);
    }

    #[test]
    fn law_a_wait_says_the_order_as_well() {
        let named = [vec![], vec![0], vec![0, 1]];
        assert_eq!(order(&named, &[true; 3], &[(0, 1)]), [(1, 2)]);
    }
}
