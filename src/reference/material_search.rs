//! Finding materials by what a person writes: short names, designations of any standard, numbers and words.

use super::material_aliases::{SYSTEMS, alias, bare};
use super::materials::{Material, materials};

/// Words and numbers of a text, in lower case; a number keeps its points.
pub(super) fn tokens(text: &str) -> Vec<String> {
    text.to_lowercase()
        .split(|c: char| !(c.is_alphanumeric() || c == '.'))
        .map(|word| word.trim_matches('.').to_owned())
        .filter(|word| !word.is_empty())
        .collect()
}

/// The words of a text without the name of a designation's system; none where only one or two digits are left, which
/// name a class, a grade or a temper.
fn wanted(text: &str) -> Vec<String> {
    let mut wanted = tokens(text);
    if wanted.len() > 1 {
        wanted.retain(|word| !SYSTEMS.contains(&word.as_str()));
    }
    let number = |word: &String| word.len() <= 2 && word.chars().all(|c| c.is_ascii_digit());
    if wanted.iter().all(number) { Vec::new() } else { wanted }
}

/// The material whose short name a text is.
pub fn with_id(text: &str) -> Option<&'static Material> {
    let said = bare(text);
    materials().iter().find(|material| bare(material.id) == said)
}

/// The materials that have every word of a text among their own names; designations that are only near them are none.
pub fn with_words(text: &str) -> Vec<&'static Material> {
    let wanted = wanted(text);
    let has = |m: &&Material| !wanted.is_empty() && wanted.iter().all(|word| m.names.contains(word));
    materials().iter().filter(has).collect()
}

/// The materials of an alias.
pub fn of_ids(ids: &[&str]) -> Vec<&'static Material> {
    materials().iter().filter(|material| ids.contains(&material.id)).collect()
}

/// The materials that a text may mean, to be looked at: by short name, else by an alias, near ones too, else those
/// that have every word of it, else those that have words beginning with every word of it.
pub fn search(text: &str) -> Vec<&'static Material> {
    if let Some(one) = with_id(text) {
        return vec![one];
    }
    if let Some(alias) = alias(text).filter(|alias| !alias.materials.is_empty()) {
        // A word such as brass is also in the names of materials that its question does not list.
        let mut found = of_ids(&alias.materials);
        let also = with_words(text);
        found.extend(also.into_iter().filter(|one| !alias.materials.contains(&one.id)));
        return found;
    }
    let wanted = wanted(text);
    if wanted.is_empty() {
        return Vec::new();
    }
    let has = |m: &&Material| wanted.iter().all(|word| m.names.contains(word) || m.near.contains(word));
    let exactly: Vec<_> = materials().iter().filter(has).collect();
    if !exactly.is_empty() {
        return exactly;
    }
    let begins = |m: &&Material| {
        let begun = |word: &String| m.names.iter().chain(&m.near).any(|own| own.starts_with(word.as_str()));
        wanted.iter().all(|word| word.len() > 1 && begun(word))
    };
    materials().iter().filter(begins).collect()
}

/// Of several, the one that is hardest to cut: the careful one where it is open which is meant.
pub fn careful(found: &[&'static Material]) -> Option<&'static Material> {
    let ease = |m: &Material| m.machinability.as_ref().map_or(f64::INFINITY, |cited| cited.value);
    found.iter().copied().min_by(|a, b| ease(a).total_cmp(&ease(b)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ids(text: &str) -> Vec<&'static str> {
        search(text).iter().map(|material| material.id).collect()
    }

    #[test]
    fn a_material_is_found_by_any_of_its_names() {
        for text in ["1018", "AISI 1018", "G10180", "C22", "1.0402"] {
            assert_eq!(ids(text), ["1018"], "{text}");
        }
        assert_eq!(ids("1.1191"), ["1045-normalised", "1045-quenched"]);
        assert_eq!(ids("4140 annealed"), ["4140-annealed"]);
        assert_eq!(ids("42CrMo4"), ["4140-annealed", "4140-prehardened"]);
        assert_eq!(ids("6061-T6"), ["6061"]);
        assert_eq!(ids("brass"), ["c36000", "c38500", "c26000", "c46400"]);
        assert!(ids("stainless steel").len() > 8);
        assert!(ids("unobtainium").is_empty() && ids("  ").is_empty() && ids("-").is_empty() && ids("40").is_empty());
    }

    #[test]
    fn a_designation_that_is_only_near_names_no_material() {
        assert!(with_words("42CrMo4").is_empty() && with_words("1.4301").is_empty());
        assert_eq!(with_words("titanium grade 5").len(), 1);
        assert_eq!(careful(&search("titanium")).unwrap().id, "ti-6al-4v");
    }
}
