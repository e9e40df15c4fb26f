//! What fuzzing found is tried again, and what it holds of any bytes is held of these.

mod common;
#[path = "fuzz/targets.rs"]
mod targets;

use common::root;
use shop_reckoner::calculators::REGISTER;

#[test]
fn what_fuzzing_found_is_mended() {
    let mut tried = 0;
    for (name, target) in targets::ALL {
        let Ok(folder) = std::fs::read_dir(root().join("tests/fuzz/found").join(name)) else { continue };
        for file in folder {
            let path = file.expect("a file").path();
            let bytes = std::fs::read(&path).expect("bytes");
            println!("{}", path.display());
            target(&bytes);
            tried += 1;
        }
    }
    println!("{tried} cases");
}

#[test]
fn the_targets_hold_of_every_example() {
    for (at, entry) in REGISTER.iter().enumerate() {
        for example in entry.examples {
            let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(example.fields).finish();
            let bytes: Vec<u8> = [at as u8].into_iter().chain(query.bytes()).collect();
            targets::query(&bytes);
            for (field, value) in example.fields {
                targets::quantity(value.as_bytes());
                if field.contains("thread") {
                    targets::designation(value.as_bytes());
                }
            }
        }
    }
}
