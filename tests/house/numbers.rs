//! Every number that a screen shows tells what it is, its formula and its source, and no such text lies
//! unused.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use curbcore::app::summary::LABELS;
use curbcore::magnetics::circuit::performance::Performance;
use curbcore::report::show;
use curbcore::text::{ENGLISH, Texts};

/// The ids of the labels that `app::behaviour` gives to its numbers.
fn behaviour_labels() -> BTreeSet<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/app/behaviour");
    let mut labels = BTreeSet::new();
    for entry in fs::read_dir(folder).unwrap() {
        let source = fs::read_to_string(entry.unwrap().path()).unwrap();
        for part in source.split("\"ui-").skip(1) {
            labels.insert(part.split('"').next().unwrap().to_owned());
        }
    }
    assert!(labels.len() > 50, "{labels:?}");
    labels
}

#[test]
fn every_number_tells_what_it_is() {
    let texts = Texts::english().unwrap();
    let mut asked: BTreeSet<String> = behaviour_labels()
        .iter()
        .map(|label| format!("behaves-{label}"))
        .collect();
    asked.extend(
        Performance::FIELDS
            .iter()
            .map(|field| show(field, (1.0, 0.1)).unwrap().about),
    );
    asked.extend(LABELS.iter().map(|(about, ..)| format!("measures-{about}")));
    for about in &asked {
        for part in ["what", "formula", "source"] {
            let text = texts.find(&format!("{about}.{part}"), &[]);
            assert!(text.is_some_and(|text| text.len() > 4), "{about} has no {part}");
        }
    }
    let (_, file) = ENGLISH.iter().find(|(name, _)| *name == "numbers.ftl").unwrap();
    for id in file.lines().filter_map(|line| line.strip_suffix(" =")) {
        assert!(asked.contains(id), "{id} is told of no number");
    }
}

/// A work that a source names is named in the code that computes the number too.
#[test]
fn sources_are_those_of_the_code() {
    let mut code = String::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src/magnetics")];
    folders.push(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rewind"));
    folders.push(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/app/translate"));
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                code.push_str(&fs::read_to_string(path).unwrap());
            }
        }
    }
    let (_, file) = ENGLISH.iter().find(|(name, _)| *name == "numbers.ftl").unwrap();
    let named = |line: &str| {
        line.split(|c: char| !c.is_alphanumeric() && c != '-')
            .filter(|word| {
                let year = word.len() == 4 && word.starts_with(['1', '2']) && word.chars().all(|c| c.is_ascii_digit());
                let standard = word.contains('-') && word.starts_with("60");
                year || standard
            })
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    let mut checked = 0;
    for line in file.lines().filter(|line| line.starts_with("    .source")) {
        for word in named(line) {
            assert!(code.contains(&word), "{word} of {line} is in no function");
            checked += 1;
        }
    }
    assert!(checked > 30, "{checked}");
    for work in [
        "Rogowski",
        "Dowell",
        "Chapman",
        "Bertotti",
        "Fröhlich",
        "Roters",
        "Churchill",
        "Gelb",
        "Birge",
    ] {
        assert!(file.contains(work) && code.contains(work), "{work}");
    }
}
