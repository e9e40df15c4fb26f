//! What a person calls a field, a result and a word to choose: one place for pages, drawings, sheets, notes and practice.

use super::Member;

/// Words that are written otherwise than their letters.
const WRITTEN: &[(&str, &str)] = &[("hss", "HSS"), ("cbn", "CBN"), ("pcd", "PCD"), ("x", "X"), ("y", "Y"), ("z", "Z")];

/// A word to choose from, as a person writes it: `x_axis` is `X axis`, `coated_carbide` is `coated carbide`.
pub fn said_word(word: &str) -> String {
    let written = |part: &str| {
        let known = WRITTEN.iter().find(|(short, _)| *short == part);
        known.map_or_else(|| part.to_owned(), |(_, written)| (*written).to_owned())
    };
    word.split('_').map(written).collect::<Vec<_>>().join(" ")
}

/// A label inside of a sentence: `Minor diameter` is `minor diameter`, while `X` and `HSS tool` keep their capitals.
pub fn in_sentence(label: &str) -> String {
    let mut rest = label.chars();
    match (rest.next(), rest.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() => {
            first.to_lowercase().collect::<String>() + rest.as_str()
        }
        _ => label.to_owned(),
    }
}

/// The label of a field or result by its name; its name in words where there is none of that name.
pub fn label_of(members: &[Member], name: &str) -> String {
    members.iter().find(|member| member.name == name).map_or_else(|| said_word(name), |member| member.label.to_owned())
}

/// The label of what lies at a path, its parts parted by `/` or `.`: `positions/2/x` is `Position 3, X`,
/// `limits.external.pitch_max` may be `External thread, pitch diameter, greatest`, and a column of a list,
/// `positions.x`, is `X`. What no member is called stands as words.
pub fn label(members: &[Member], path: &str) -> String {
    let mut members = members;
    let mut labels: Vec<String> = Vec::new();
    let mut parts = path.split(['/', '.']).filter(|part| !part.is_empty()).peekable();
    while let Some(part) = parts.next() {
        let Some(member) = members.iter().find(|member| member.name == part) else {
            labels.push(said_word(part));
            continue;
        };
        members = member.of.shape.members();
        match parts.next_if(|next| next.parse::<usize>().is_ok()).and_then(|number| number.parse::<usize>().ok()) {
            Some(at) => labels.push(format!("{} {}", member.row, at + 1)),
            None if member.of.shape.rows().is_some() && parts.peek().is_some() => {}
            None if member.label.is_empty() => {}
            None => labels.push(member.label.to_owned()),
        }
    }
    let joined = labels.iter().enumerate();
    let joined = joined.map(|(at, label)| if at == 0 { capital(label) } else { in_sentence(label) });
    joined.collect::<Vec<_>>().join(", ")
}

/// `a`, `a and b`, `a, b and c`; `last` stands before the last.
pub fn one_after_another(parts: &[impl AsRef<str>], last: &str) -> String {
    let parts: Vec<&str> = parts.iter().map(AsRef::as_ref).collect();
    match parts.as_slice() {
        [before @ .., end] if !before.is_empty() => format!("{} {last} {end}", before.join(", ")),
        _ => parts.concat(),
    }
}

/// A label with a capital in front.
pub fn capital(label: &str) -> String {
    let mut rest = label.chars();
    rest.next().map(|first| first.to_uppercase().chain(rest).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn capitals_stay_where_they_belong() {
        for (label, within) in [("Minor diameter", "minor diameter"), ("X", "X"), ("HSS tool", "HSS tool")] {
            assert_eq!(in_sentence(label), within);
        }
        assert_eq!((said_word("x_axis"), said_word("coated_carbide")), ("X axis".into(), "coated carbide".into()));
    }
}
