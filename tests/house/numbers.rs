//! Every number that a screen shows tells what it is, its formula and its source, and no such text lies
//! unused.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use curbcore::app::behaviour::heat::{CycleNumber, PulseNumber};
use curbcore::app::behaviour::idle::FitNumber;
use curbcore::app::behaviour::inductor::CoilNumber;
use curbcore::app::behaviour::shunts::ShuntNumber;
use curbcore::app::summary::MeasuresNumber;
use curbcore::magnetics::circuit::ShellNumber;
use curbcore::magnetics::circuit::performance::PerformanceNumber;
use curbcore::magnetics::heat::duty::DutyNumber;
use curbcore::magnetics::idle::IdleDrawNumber;
use curbcore::magnetics::idle::inrush::FirstPeakNumber;
use curbcore::magnetics::inductor::InductorWorkNumber;
use curbcore::magnetics::inductor::heat::InductorWarmthNumber;
use curbcore::magnetics::pairs::PairNumber;
use curbcore::magnetics::rectifier::RectifierNumber;
use curbcore::magnetics::rectifier::charger::ChargeNumber;
use curbcore::quantity::Input;
use curbcore::text::{ENGLISH, Texts};

/// The ids of the texts of all numbers, from the enums that declare them.
fn ids() -> BTreeSet<&'static str> {
    let mut ids = BTreeSet::new();
    macro_rules! of {
        ($($numbers:ident),*) => { $( ids.extend($numbers::ALL.iter().map(|number| number.kind().text)); )* };
    }
    of!(
        PerformanceNumber,
        MeasuresNumber,
        IdleDrawNumber,
        FitNumber,
        FirstPeakNumber,
        ShellNumber,
        ShuntNumber,
        DutyNumber,
        CycleNumber,
        PulseNumber,
        RectifierNumber,
        ChargeNumber,
        InductorWorkNumber,
        InductorWarmthNumber,
        CoilNumber,
        PairNumber
    );
    ids
}

#[test]
fn every_number_says_what_it_is() {
    let texts = Texts::english().unwrap();
    let ids = ids();
    for id in &ids {
        for part in ["", ".what", ".formula", ".source"] {
            let text = texts.find(&format!("{id}{part}"), &[]);
            assert!(text.is_some_and(|text| text.len() > 2), "{id} has no {part}");
        }
    }
    let (_, file) = ENGLISH.iter().find(|(name, _)| *name == "numbers.ftl").unwrap();
    let mut message = "";
    for line in file.lines() {
        match line.split_once(" = ") {
            Some((id, _)) if !id.starts_with([' ', '#']) => message = id,
            Some(("    .what", _)) => assert!(ids.contains(message), "{message} is the text of no number"),
            _ => {}
        }
    }
}

/// Every input of a computation has its name in the text file, and no such name lies unused.
#[test]
fn every_input_has_its_name() {
    let texts = Texts::english().unwrap();
    for input in Input::ALL {
        assert!(texts.find(input.key(), &[]).is_some(), "{}", input.key());
    }
    let (_, file) = ENGLISH.iter().find(|(name, _)| *name == "numbers.ftl").unwrap();
    for word in file
        .lines()
        .filter_map(|line| line.strip_prefix("input-")?.split_once(" = "))
        .map(|(word, _)| word)
    {
        assert!(Input::from_word(word).is_some(), "input-{word} is the name of no input");
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
