//! Every screen rendered through the virtual DOM, with no display. The desk is the same that the
//! screens' buttons call; clicks and typing in the real window are in `tests/window.rs`.
#![cfg(feature = "ui")]

use std::path::Path;

use curbcore::app::shop::Entry;
use curbcore::ui::{App, DataFolder, Desk, Screen};
use dioxus::prelude::VirtualDom;

/// The app as it opens on a data folder.
fn render(folder: &Path) -> String {
    let mut dom = VirtualDom::new(App).with_root_context(DataFolder(folder.to_owned()));
    dom.rebuild_in_place();
    dioxus_ssr::render(&dom)
}

fn with_demo(screen: Screen) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = Desk::open(folder.path());
    desk.open_demo();
    desk.go(screen);
    drop(desk);
    let html = render(folder.path());
    (folder, html)
}

fn has(html: &str, parts: &[&str]) {
    for part in parts {
        assert!(html.contains(part), "{part} is missing in {html}");
    }
}

#[test]
fn an_empty_shelf_says_what_to_do() {
    let folder = tempfile::tempdir().unwrap();
    has(
        &render(folder.path()),
        &[
            "Start a job",
            "Open the demo job",
            "The work can kill",
            "Name of the job",
        ],
    );
}

#[test]
fn the_shelf_lists_jobs() {
    has(
        &with_demo(Screen::Shelf).1,
        &["Demo: tab welder", "Spot welder", "Remove"],
    );
}

#[test]
fn measure_shows_fields_ranges_and_the_drawing() {
    let (_, html) = with_demo(Screen::Measure);
    has(
        &html,
        &[
            "Tongue width",
            "5 to 200 mm",
            "class=\"drawing section\"",
            "Peak flux density",
            "inputmode=\"decimal\"",
            "35.1",
        ],
    );
    assert!(
        !html.contains("Not measured yet"),
        "the demo's readings are all measured"
    );
}

#[test]
fn rewind_ranks_windings_and_shows_one_in_full() {
    has(
        &with_demo(Screen::Rewind).1,
        &[
            "Windings that fit",
            "windings tried",
            "Weld current",
            "class=\"drawing plot\"",
            "Short-circuit current",
            "± from:",
        ],
    );
}

#[test]
fn the_page_is_shown_as_it_prints() {
    has(&with_demo(Screen::Page).1, &["<iframe", "Save the page"]);
}

#[test]
fn it_opens_where_it_was_closed_and_undo_is_still_there() {
    let (folder, _) = with_demo(Screen::Measure);
    let mut desk = Desk::open(folder.path());
    assert_eq!(desk.screen(), Screen::Measure);
    let entry = |text| Entry {
        path: "core.tongue_mm",
        text,
        plus_minus: "",
        origin: None,
    };
    assert_eq!(desk.enter(&[entry("1 1/2 in")]), None);
    assert!((desk.file().unwrap().core.tongue_mm.value - 38.1).abs() < 1e-9);
    drop(desk);
    let html = render(folder.path());
    has(&html, &["38.1", "Undo: Change Tongue width"]);
    let mut desk = Desk::open(folder.path());
    desk.undo();
    assert!((desk.file().unwrap().core.tongue_mm.value - 35.1).abs() < 1e-9);
    desk.redo();
    assert!((desk.file().unwrap().core.tongue_mm.value - 38.1).abs() < 1e-9);
}

#[test]
fn a_refused_number_names_field_and_range_and_loses_nothing() {
    let (folder, _) = with_demo(Screen::Measure);
    let mut desk = Desk::open(folder.path());
    let entry = |text| Entry {
        path: "core.tongue_mm",
        text,
        plus_minus: "",
        origin: None,
    };
    for (text, said) in [
        ("3000", "5 to 200 mm"),
        ("wide", "is not a number"),
        ("", "nothing entered"),
        ("5 kg", "not a unit"),
    ] {
        let message = desk.enter(&[entry(text)]).expect("refused");
        assert!(
            message.contains("Tongue width") && message.contains(said),
            "{text}: {message}"
        );
        assert!((desk.file().unwrap().core.tongue_mm.value - 35.1).abs() < 1e-9);
    }
}

#[test]
fn hostile_names_stay_text() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = Desk::open(folder.path());
    desk.start_job("<script>alert(1)</script>", &curbcore::magnetics::mains::OUTLETS[0]);
    desk.go(Screen::Page);
    drop(desk);
    assert!(!render(folder.path()).contains("<script"));
}

#[test]
fn a_second_window_is_told_so() {
    let folder = tempfile::tempdir().unwrap();
    let _first = Desk::open(folder.path());
    has(&render(folder.path()), &["cannot open your data", "another window"]);
}

#[test]
fn every_use_gives_an_answer_or_says_why_not() {
    let (folder, _) = with_demo(Screen::Rewind);
    for word in [
        "spot_welder",
        "stick_welder",
        "arc_furnace",
        "plasma_cutter",
        "battery_charger",
        "plain_supply",
    ] {
        let mut desk = Desk::open(folder.path());
        desk.set_use(word);
        let (found, dropped) = {
            let answer = desk.answer().expect("a job").expect("an answer");
            (answer.found.ranked.len(), answer.found.dropped.len())
        };
        drop(desk);
        let html = render(folder.path());
        assert!(found > 0 || dropped > 0, "{word}");
        assert!(
            html.contains("The nearest that can be had") || html.contains("mm to spare") || html.contains("No winding"),
            "{word}"
        );
        println!("{word}: {found} windings");
    }
}
