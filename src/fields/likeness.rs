//! How like a name is to one that is known: the one place where names are compared, and where those too long to be
//! anybody's slip are not.

/// Longest name that is compared, in bytes; no name of ours is half as long.
const LONGEST: usize = 64;

/// How like two names are, from 0 to 1; 0 where `wanted` is too long to be meant for any.
pub fn likeness(wanted: &str, name: &str) -> f64 {
    if wanted.len() > LONGEST { 0.0 } else { strsim::jaro_winkler(wanted, name) }
}

/// The name nearest to `wanted`, if any is near.
pub fn nearest<'n>(wanted: &str, names: impl Iterator<Item = &'n str>) -> Option<&'n str> {
    names
        .map(|name| (likeness(wanted, name), name))
        .filter(|(near, _)| *near > 0.7)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// Whether a word is another but for slips of the finger, one in every five letters.
pub fn is_slip(wanted: &str, word: &str) -> bool {
    let slips = wanted.len() / 5;
    wanted.len() <= LONGEST
        && wanted.len() >= 4
        && word.len() >= 4
        && strsim::damerau_levenshtein(wanted, word) <= slips
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_near_name_is_found_and_one_too_long_is_not_looked_for() {
        assert_eq!(nearest("diamter", ["depth", "diameter"].into_iter()), Some("diameter"));
        assert_eq!(nearest("xyz", ["depth", "diameter"].into_iter()), None);
        let long = "diameter".repeat(9);
        assert_eq!(nearest(&long, [long.as_str()].into_iter()), None);
        assert!(is_slip("piont", "point") && !is_slip("pint", "point") && !is_slip(&long, &long));
    }
}
