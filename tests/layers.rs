//! The layers: a module uses only those below it, and calculators do not use each other.

mod common;

use common::root;
use std::path::{Path, PathBuf};

/// From the bottom upwards.
const ORDER: &[&str] = &[
    "refusal", "budget", "quantity", "json", "sources", "tree", "declared", "fields", "working", "drawing", "cautions",
    "arithmetic", "suggestion", "reference", "gauge_blocks", "fitting", "threading", "round_touches", "hole_pattern",
    "machine", "shop", "fastening", "calculators", "asking", "verification", "practice", "page", "service", "main",
];

/// The modules of the layers' order that are part of the library, from the top downwards.
fn downwards() -> Vec<&'static str> {
    ORDER.iter().rev().copied().filter(|name| *name != "main").collect()
}

/// Macros and constants that stand at the root of the crate.
const AT_ROOT: &[&str] = &["VERSION", "data_version"];

fn files(folder: &Path, out: &mut Vec<PathBuf>) {
    for file in std::fs::read_dir(folder).expect("a folder") {
        let path = file.expect("a file").path();
        if path.is_dir() {
            // A crate of its own is no layer.
            if !path.join("Cargo.toml").exists() {
                files(&path, out);
            }
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            out.push(path);
        }
    }
}

fn module(path: &Path) -> String {
    let inside = path.strip_prefix(root().join("src")).expect("under src");
    let first = inside.components().next().expect("a name").as_os_str().to_string_lossy().into_owned();
    first.trim_end_matches(".rs").to_owned()
}

fn used(line: &str) -> Vec<String> {
    let mut out = Vec::new();
    for part in line.split("crate::").skip(1) {
        if let Some(list) = part.strip_prefix('{') {
            let names = list.trim_end_matches([';', '}']).split(',');
            out.extend(names.map(|name| name.trim().split("::").next().unwrap_or_default().to_owned()));
        } else {
            out.push(part.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect());
        }
    }
    out
}

#[test]
fn no_module_uses_one_above_it() {
    let mut all = Vec::new();
    files(&root().join("src"), &mut all);
    assert!(all.len() > 20);
    let rank = |name: &str| ORDER.iter().position(|one| *one == name);
    let mut seen = 0;
    for file in all.iter().filter(|file| !file.ends_with("lib.rs")) {
        let own = module(file);
        let own_rank = rank(&own).unwrap_or_else(|| panic!("{own} has no place in the order of layers"));
        let text = std::fs::read_to_string(file).expect("a source file");
        for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
            for name in used(line) {
                // Macros stand at the root, whichever module they belong to.
                let name = match name.as_str() {
                    "choice" | "rules" => "declared".to_owned(),
                    "examples" | "exercises" => "calculators".to_owned(),
                    "tell" => "working".to_owned(),
                    _ => name,
                };
                if AT_ROOT.contains(&name.as_str()) || name.is_empty() {
                    continue;
                }
                let used = rank(&name).unwrap_or_else(|| panic!("{}: unknown module {name}", file.display()));
                assert!(used <= own_rank, "{}: {own} uses {name}, which lies above it", file.display());
                seen += 1;
            }
        }
    }
    assert!(seen > 100, "only {seen} uses were found");
}

#[test]
fn the_picture_of_the_layers_is_true_and_complete() {
    let developers = std::fs::read_to_string(root().join("DEVELOPERS.md")).expect("DEVELOPERS.md");
    let picture =
        developers.split("```\n").find(|block| block.starts_with("main ")).expect("the picture of the layers");
    let deep = |line: &str| line.len() - line.trim_start().len();
    let lines: Vec<(usize, &str)> =
        picture.lines().map(|line| (deep(line), line.split_whitespace().next().unwrap_or_default())).collect();
    let names: Vec<&str> = lines.iter().map(|(_, name)| *name).collect();
    assert_eq!(names, [vec!["main"], downwards()].concat(), "the picture in DEVELOPERS.md");
    assert!(lines.is_sorted_by_key(|(deep, _)| deep), "a lower layer stands further in: {lines:?}");
}

#[test]
fn the_library_names_its_layers_in_their_order() {
    let library = std::fs::read_to_string(root().join("src/lib.rs")).expect("src/lib.rs");
    let listed: Vec<&str> = library
        .lines()
        .filter_map(|line| line.strip_prefix("//! - [`")?.split_once("`]: "))
        .map(|(name, _)| name)
        .collect();
    assert_eq!(listed, downwards(), "the list at the top of src/lib.rs");
    let mut modules: Vec<&str> =
        library.lines().filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';')).collect();
    modules.sort_unstable();
    let mut layers = downwards();
    layers.sort_unstable();
    assert_eq!(modules, layers, "the modules of src/lib.rs");
}

#[test]
fn calculators_do_not_use_each_other() {
    let mut all = Vec::new();
    let house = root().join("src/calculators");
    files(&house, &mut all);
    for file in all.iter().filter(|file| **file != house.join("mod.rs")) {
        let text = std::fs::read_to_string(file).expect("a source file");
        for topic in
            ["datum", "patterns", "holes", "speeds", "geometry", "threads", "fits", "measure", "stock", "sheet"]
        {
            assert!(!text.contains(&format!("calculators::{topic}")), "{} uses {topic}", file.display());
        }
    }
}

#[test]
fn no_calculator_reaches_out_of_its_folder() {
    let house = root().join("src/calculators");
    let mut all = Vec::new();
    files(&house, &mut all);
    let mut seen = 0;
    // The register and the prelude belong to all.
    for file in all.iter().filter(|file| file.parent() != Some(&house)) {
        let inside = file.strip_prefix(&house).expect("under calculators");
        // A calculator is topic and name deep; a part of it lies one deeper.
        let parts = inside.components().count() - usize::from(file.ends_with("mod.rs"));
        let text = std::fs::read_to_string(file).expect("a source file");
        let code = text.split("mod tests {").next().unwrap_or_default();
        for line in code.lines() {
            let steps_up = line.matches("super::").count();
            assert!(steps_up <= parts - 2, "{} reaches out of its folder: {line}", file.display());
            seen += steps_up;
        }
    }
    assert!(seen > 50, "only {seen} uses were found");
}

#[test]
fn only_the_service_knows_http() {
    let mut all = Vec::new();
    files(&root().join("src"), &mut all);
    for file in all.iter().filter(|file| !["service", "main"].contains(&module(file).as_str())) {
        let text = std::fs::read_to_string(file).expect("a source file");
        assert!(!text.contains("actix"), "{} knows actix", file.display());
    }
}

#[test]
fn only_the_verification_reads_the_outside_values() {
    let mut all = Vec::new();
    files(&root().join("src"), &mut all);
    for file in all.iter().filter(|file| module(file) != "verification") {
        let text = std::fs::read_to_string(file).expect("a source file");
        let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
        assert!(!code.into_iter().any(|line| line.contains("data/checks")), "{} reads data/checks", file.display());
    }
}
