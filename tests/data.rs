//! The tables and checks are the committed ones: a change in any cell turns a test red until it is
//! meant and blessed.

mod common;

use common::{golden, root};
use sha2::{Digest, Sha256};

fn sums() -> String {
    let mut lines = Vec::new();
    for folder in ["data", "data/checks"] {
        for file in std::fs::read_dir(root().join(folder)).expect("a folder") {
            let path = file.expect("a file").path();
            let is_table = path.extension().is_some_and(|ext| ext == "csv" || ext == "toml");
            if is_table {
                let bytes = std::fs::read(&path).expect("a table");
                let sum: String = Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect();
                let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
                lines.push(format!("{sum}  {folder}/{name}\n"));
            }
        }
    }
    lines.sort_by(|a, b| a[64..].cmp(&b[64..]));
    lines.concat()
}

#[test]
fn no_cell_of_a_table_or_check_has_changed_unnoticed() {
    golden("data/checksums.txt", &sums());
}

#[test]
fn every_table_is_compiled_in() {
    for file in std::fs::read_dir(root().join("data")).expect("data") {
        let path = file.expect("a file").path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if name.ends_with(".csv") || name.ends_with(".toml") {
            let table = shop_reckoner::reference::TABLES.iter().find(|(known, _)| *known == name);
            let (_, text) = table.unwrap_or_else(|| panic!("{name} is in data/ but not compiled in"));
            assert_eq!(*text, std::fs::read_to_string(&path).expect("a table"), "{name}");
        }
    }
}
