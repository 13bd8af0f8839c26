//! Rules that lead back to themselves.

use std::collections::{BTreeMap, BTreeSet};

/// What is left after taking away, again and again, every rule that points at none that is left, or that none that is
/// left points at: a circle, if there is any. Each rule and each arrow is looked at once (Kahn's topological sort, from
/// both ends), so that a thousand rules of two hundred arrows each take no time.
pub(crate) fn circle(edges: &BTreeMap<String, BTreeSet<String>>) -> Option<Vec<String>> {
    let mut back: BTreeMap<&str, Vec<&str>> = edges.keys().map(|id| (id.as_str(), Vec::new())).collect();
    let known = |to: &BTreeSet<String>| to.iter().filter(|t| edges.contains_key(*t)).count();
    let mut out: BTreeMap<&str, usize> = edges.iter().map(|(id, to)| (id.as_str(), known(to))).collect();
    for (id, to) in edges {
        for other in to {
            if let Some(from) = back.get_mut(other.as_str()) {
                from.push(id);
            }
        }
    }
    let mut into: BTreeMap<&str, usize> = back.iter().map(|(id, from)| (*id, from.len())).collect();
    let mut left: BTreeSet<&str> = edges.keys().map(String::as_str).collect();
    let mut loose: Vec<&str> =
        left.iter().copied().filter(|id| into.get(id) == Some(&0) || out.get(id) == Some(&0)).collect();
    while let Some(id) = loose.pop() {
        if !left.remove(id) {
            continue;
        }
        let ahead = edges.get(id).into_iter().flatten().map(String::as_str);
        for (others, count) in [(ahead.collect::<Vec<_>>(), &mut into), (back.remove(id).unwrap_or_default(), &mut out)]
        {
            for other in others {
                if let Some(n) = count.get_mut(other) {
                    *n = n.saturating_sub(1);
                    if *n == 0 {
                        loose.push(other);
                    }
                }
            }
        }
    }
    Some(left.into_iter().map(str::to_owned).collect::<Vec<_>>()).filter(|c| !c.is_empty())
}

#[cfg(test)]
mod tests {
    use super::circle;
    use std::collections::{BTreeMap, BTreeSet};

    fn edges(of: &[(&str, &[&str])]) -> BTreeMap<String, BTreeSet<String>> {
        of.iter().map(|(id, to)| ((*id).to_owned(), to.iter().map(|t| (*t).to_owned()).collect())).collect()
    }

    #[test]
    fn a_circle_is_found_and_what_leads_to_it_or_away_is_not_of_it() {
        let of =
            edges(&[("in", &["a"]), ("a", &["b"]), ("b", &["a", "out"]), ("out", &["elsewhere"]), ("own", &["own"])]);
        assert_eq!(circle(&of), Some(vec!["a".to_owned(), "b".to_owned(), "own".to_owned()]));
        assert_eq!(circle(&edges(&[("a", &["b", "c"]), ("b", &["c"]), ("c", &[])])), None);
    }

    #[test]
    fn a_thousand_rules_with_two_hundred_arrows_each_are_no_circle() {
        let id = |i: usize| format!("r{i:04}");
        let of = (0..1_000).map(|i| (id(i), (i + 1..(i + 201).min(1_000)).map(id).collect())).collect();
        assert_eq!(circle(&of), None);
    }
}
