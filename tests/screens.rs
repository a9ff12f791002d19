//! Every screen rendered through the virtual DOM, with no display. The app is the same that the
//! screens' buttons call; clicks and typing in the real window are in `tests/window`.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.
#![cfg(feature = "ui")]

#[path = "common/readings.rs"]
mod readings;

use std::cell::Cell;
use std::fs;
use std::path::Path;

use curbcore::app::reach::Step;
use curbcore::app::workspace::Entry;
use curbcore::store::Op;
use curbcore::ui::{App, AppState, Asked, DataFolder, Screen, Unread};
use dioxus::prelude::VirtualDom;
use readings::as_predicted;

/// The app as it opens on a data folder. What was rendered is left in `artefacts/html/` to be
/// looked at (`platform/look.sh`): a file for each rendering, named by its test.
fn render(folder: &Path) -> String {
    let mut dom = VirtualDom::new(App).with_root_context(DataFolder(folder.to_owned()));
    dom.rebuild_in_place();
    let html = dioxus_ssr::render(&dom);
    keep(&html);
    html
}

fn keep(html: &str) {
    thread_local!(static COUNT: Cell<u32> = const { Cell::new(0) });
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("artefacts/html");
    let test = std::thread::current().name().unwrap_or("screen").to_owned();
    let count = COUNT.replace(COUNT.get() + 1);
    let page = format!(
        "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" \
         content=\"width=device-width\"></head><body><div id=\"main\">{html}</div></body></html>"
    );
    fs::create_dir_all(&folder).unwrap();
    fs::write(folder.join(format!("{test}-{count}.html")), page).unwrap();
}

fn with_demo(screen: Screen) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.go(screen);
    drop(app);
    let html = render(folder.path());
    (folder, html)
}

fn has(html: &str, parts: &[&str]) {
    for part in parts {
        assert!(html.contains(part), "{part} is missing in {html}");
    }
}

#[test]
fn the_first_start_shows_the_ways_in() {
    let folder = tempfile::tempdir().unwrap();
    let html = render(folder.path());
    has(
        &html,
        &[
            "class=\"drawing step\"",
            "The work can kill",
            "I found an oven",
            "Oven on the bench",
            "Bare core in hand",
            "Open the demo job",
        ],
    );
    // One caution, and nothing of what belongs to More.
    assert_eq!(count(&html, "class=\"caution\""), 1, "{html}");
    for elsewhere in ["<select", ">AWG", "other devices<", ">Show all words"] {
        assert!(!html.contains(elsewhere), "{elsewhere}: {html}");
    }
    let mut app = AppState::open(folder.path());
    app.ask_for_core();
    assert_eq!(app.asked(), Some(Asked::Core));
    no_ids(&html);
}

/// A grey photo.
fn small_photo() -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, 96, 80);
    encoder.set_color(png::ColorType::Grayscale);
    let shades: Vec<u8> = (0..96 * 80).map(|at| (at % 96) as u8 * 2).collect();
    encoder.write_header().unwrap().write_image_data(&shades).unwrap();
    file
}

/// One card for an oven and its job, with its core drawn, its stage and its next step.
#[test]
fn home_has_a_card_for_each_oven_and_core() {
    use curbcore::app::next_step::Next;
    let (folder, html) = with_demo(Screen::Home);
    has(
        &html,
        &[
            "Demo: tab welder",
            "Spot welder",
            "Stage 4 of 6: Rewind",
            "Choose a winding",
            "drawing isometric",
        ],
    );
    assert_eq!(count(&html, "<li class=\"card\""), 1, "{html}");
    assert!(!html.contains("id=\"find-job\""), "nothing to look through yet: {html}");
    // Jobs that are not in hand are evaluated beside the screen.
    let mut app = AppState::open(folder.path());
    let outlet = &curbcore::magnetics::circuit::mains::OUTLETS[0];
    for name in ["One", "Two", "Three", "Four"] {
        app.start_job(name, outlet);
    }
    app.start_find("Wet one behind the shop", Screen::Home);
    drop(app);
    let html = render(folder.path());
    assert_eq!(count(&html, "<li class=\"card\""), 6, "{html}");
    assert!(count(&html, "class=\"busy\"") >= 4, "{html}");
    let html = render_when_done(folder.path());
    assert_eq!(count(&html, "class=\"busy\""), 0, "{html}");
    assert_eq!(count(&html, "Measure the core"), 4, "{html}");
    has(
        &html,
        &[
            "Choose a winding",
            "Wet one behind the shop",
            "Look closer",
            "id=\"find-job\"",
        ],
    );
    no_ids(&html);
    let mut app = AppState::open(folder.path());
    app.want("GREEN");
    let found: Vec<String> = app.cards().0.into_iter().map(|(card, _)| card.name).collect();
    assert!(
        matches!(found.as_slice(), [name] if name.starts_with("Demo:")),
        "{found:?}"
    );
    app.want("");
    // The button of a card opens it where its next step is done.
    let cards = app.cards().0;
    let two = cards.iter().find(|(card, _)| card.name == "Two").unwrap().0.clone();
    app.go_on_with(&two, Next::MeasureCore);
    assert_eq!((app.screen(), app.job_id()), (Screen::Measure, two.job));
    // A photo of the person's own stands in the place of the drawing.
    let drawn = count(&html, "drawing isometric");
    assert_eq!((drawn, count(&html, "data:image/png")), (5, 0), "{html}");
    app.add_core_photo("core", &small_photo()).unwrap();
    app.go(Screen::Home);
    drop(app);
    let html = render_until(folder.path(), |html| html.contains("data:image/png"));
    assert_eq!(
        (count(&html, "drawing isometric"), count(&html, "data:image/png")),
        (4, 1),
        "{html}"
    );
    let mut app = AppState::open(folder.path());
    app.go_on_with(&two, Next::MeasureCore);
    app.go(Screen::Donor);
    app.remove_in_hand();
    assert_eq!((app.screen(), app.cards().0.len()), (Screen::Home, 5));
    app.undo();
    app.go(Screen::Home);
    assert_eq!(app.cards().0.len(), 6);
}

/// Bench, winding and teardown open with their whole path: every step, the stops before it, what is needed.
#[test]
fn guided_work_opens_with_its_whole_path() {
    use curbcore::bench::Bench;
    use curbcore::text::Texts;
    let texts = Texts::english().unwrap();
    let (bench_folder, html) = with_demo(Screen::Bench);
    has(
        &html,
        &[
            "What you need",
            "Begin the tests",
            "The whole path: ",
            "Old winding out",
            "Ready for mains",
        ],
    );
    let path = &html[html.find("whole-path\"").unwrap()..];
    let plan = AppState::open(bench_folder.path()).planned().unwrap().unwrap();
    let stages = Bench::start(plan).steps();
    assert!(stages.len() > 7, "{stages:?}");
    for stage in stages {
        let name = texts.text(stage.key());
        assert!(path.contains(&name), "{name} is missing in {path}");
    }
    let (folder, _) = with_demo(Screen::Rewind);
    let mut app = AppState::open(folder.path());
    let best = app.answer().unwrap().unwrap().found.ranked[0];
    let answer = app.answer().unwrap().unwrap();
    let choice = curbcore::app::basis::as_choice(&best, &answer.problem.rebuild, &answer.catalogue);
    app.choose(Some(choice));
    app.go(Screen::Wind);
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &[
            "What you need",
            "The whole path: ",
            "class=\"stop-of small\"",
            "Prepare",
        ],
    );
    let html = with_find(Screen::Teardown, |_| {});
    has(
        &html,
        &[
            "The whole path: 15 steps",
            "Plug out, in sight",
            "Capacitor discharged, proved, shorted",
        ],
    );
}

/// What a core becomes depends on finding it: where, by whose permission, and what it may cost.
#[test]
fn sizing_up_says_where_ovens_are_free() {
    let html = with_find(Screen::SizeUp, |_| {});
    has(
        &html,
        &[
            "Curb days",
            "Recycling yards",
            "Repair shops",
            "Notices",
            "local rules",
            "What never to pay",
        ],
    );
}

/// What stood on one page with the jobs is one tap away.
#[test]
fn more_leads_to_all_the_rest() {
    let html = with_demo(Screen::More).1;
    has(
        &html,
        &[
            "Add a wire",
            "Import or export files",
            "Show all words",
            "AWG",
            "inch",
            "Theme",
            "Remove the demo",
        ],
    );
    no_ids(&html);
}

/// A read that fails is shown where its rows would stand, and never looks like an empty shelf.
#[test]
fn a_shelf_that_cannot_be_read_says_so() {
    let (folder, html) = with_demo(Screen::Home);
    const UNREAD: &str = "A part of your data cannot be read. The data file is damaged";
    assert!(!html.contains(UNREAD) && html.contains("Demo: tab welder"), "{html}");
    for (damage, hidden, screen) in [
        (
            "UPDATE stock SET conductor = CAST(x'ff' AS TEXT)",
            "flexible, ",
            Screen::More,
        ),
        ("UPDATE donor SET look = '[1]'", "The work can kill", Screen::Home),
        (
            "UPDATE job SET name = CAST(x'ff' AS TEXT)",
            "The work can kill",
            Screen::Home,
        ),
    ] {
        let data = rusqlite::Connection::open(folder.path().join("curbcore.db")).unwrap();
        data.execute(damage, []).unwrap();
        drop(data);
        AppState::open(folder.path()).go(screen);
        let html = render(folder.path());
        assert!(html.contains(UNREAD) && !html.contains(hidden), "{damage}: {html}");
        let app = AppState::open(folder.path());
        assert!(app.failure().is_none(), "the rest can still be used");
    }
    let mut app = AppState::open(folder.path());
    let failed = |unread: Unread| matches!(unread, Unread::Failed(why) if why.contains("damaged"));
    assert!(app.stock().is_err_and(failed) && app.jobs().is_err_and(failed));
    assert!(!app.cards().1.is_empty());
    let taken = app.take_workspace().unwrap();
    assert!(app.is_busy() && app.failure().is_none() && app.take_workspace().is_none());
    assert_eq!(app.stock().map(|rows| rows.len()), Err(Unread::Busy));
    app.restore_workspace(taken);
    assert!(!app.is_busy() && app.stock().is_err_and(failed));
}

/// Measure on the demo, with the folds of these words open.
fn measure_with(folds: &[&str]) -> String {
    let (folder, _) = with_demo(Screen::Measure);
    let mut app = AppState::open(folder.path());
    for fold in folds {
        app.toggle_panel(fold);
    }
    drop(app);
    render(folder.path())
}

/// Two photos of one core, its tongue marked on both: their mean with its ± in two parts, and the photo that is
/// still to be compared is left out and counted.
#[test]
fn photos_of_one_core_are_combined() {
    use curbcore::app::photo::MEASURED;
    use curbcore::job::{DimensionMark, PhotoFound, PhotoMarks, PhotoReference, Reading};
    use curbcore::quantity::Origin;
    let (folder, _) = with_demo(Screen::Measure);
    let mut app = AppState::open(folder.path());
    // A card seen from straight above at ten pixels to the millimetre: 85.6 by 53.98 mm (ISO/IEC 7810 ID-1).
    let marks = |width: f64, doubts: &[&str]| PhotoMarks {
        frame: [4000.0, 3000.0],
        focal_35mm: None,
        reference: PhotoReference::Card,
        found: Some(PhotoFound::Rectangle {
            corners: [[200.0, 200.0], [1056.0, 200.0], [1056.0, 739.8], [200.0, 739.8]],
        }),
        height_mm: Reading::new(0.0, 1.0, Origin::Typical),
        face: None,
        straight: Vec::new(),
        marks: vec![DimensionMark {
            dimension: "tongue".to_owned(),
            points: vec![
                [1500.0, 1000.0],
                [1500.0, 1600.0],
                [1500.0 + 10.0 * width, 1000.0],
                [1500.0 + 10.0 * width, 1600.0],
            ],
        }],
        angles: Vec::new(),
        object_doubts: Vec::new(),
        doubts: doubts.iter().map(|doubt| (*doubt).to_owned()).collect(),
    };
    for marks in [marks(30.0, &[]), marks(30.2, &[]), marks(40.0, &["core-second"])] {
        let photo = app.add_core_photo(MEASURED, &small_photo()).unwrap();
        app.set_marks(photo, &marks);
    }
    app.toggle_panel("photo");
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &[
            "All photos together",
            "2 photos: ± 0.",
            "mm common to all",
            "One photo is left out",
            "Use the combined lengths",
        ],
    );
    let (_, row) = html.split_once("All photos together").unwrap();
    let (_, value) = row.split_once("<dd>").unwrap();
    let value: f64 = value.split_whitespace().next().unwrap().parse().unwrap();
    assert!((value - 30.1).abs() < 0.06, "{value}");
    no_ids(&html);
}

#[test]
fn measure_shows_fields_ranges_and_the_drawing() {
    has(
        &measure_with(&[]),
        &["class=\"drawing core-form\"", "Peak flux density", "35.1 mm"],
    );
    let html = measure_with(&["lengths", "mass", "primary", "outlet"]);
    has(
        &html,
        &[
            "Tongue width",
            "5 to 200 mm",
            "id=\"core-tongue_mm\"",
            "inputmode=\"decimal\"",
            "35.1",
            "Mass, bare core",
            "No-load current",
            "id=\"outlet\"",
        ],
    );
    no_ids(&html);
}

/// The drawing is the form: a button for each length, with a name that makes sense without the picture; what
/// nobody measured is dashed and called usual, and one is marked to be measured next.
#[test]
fn each_length_on_the_drawing_is_a_button() {
    let demo = measure_with(&[]);
    assert_eq!(demo.matches("id=\"on-core").count(), 8);
    has(
        &demo,
        &["aria-label=\"Tongue width 35.1 mm, plus or minus 0.2, calipers. Measured.\""],
    );
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_job("new", &curbcore::magnetics::circuit::mains::OUTLETS[0]);
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &[
            "class=\"length usual\"",
            "class=\"length next\"",
            "class=\"target usual\"",
            ">usual</span>",
            "mm usual Measure this next, not measured.\"",
            "Measure next: ",
            "falls from",
        ],
    );
    assert_eq!(html.matches(">Measure this next<").count(), 1, "one at a time");
    no_ids(&html);
}

#[test]
fn rewind_ranks_windings_and_shows_one_in_full() {
    has(
        &with_demo(Screen::Rewind).1,
        &[
            "class=\"answer-card\"",
            "Other windings (",
            "windings tried",
            "As much as possible",
            "The window limits the current",
            "Recommended",
            "Your own wire",
            "Sold in common shops",
            "The winding fits.",
            "Add one turn",
            "keep every limit",
            "class=\"turns-around\"",
            "Outlet: NEMA",
        ],
    );
    compared_windings_stand_in_two_columns();
    has(
        &with_panels("spot_welder", |app| {
            app.toggle_panel("winding-numbers");
            app.toggle_panel("shop-windings");
        }),
        &[
            "less current",
            "class=\"drawing plot\"",
            "Short-circuit current",
            "± from:",
        ],
    );
}

/// A second core of the same make is not typed again: its job begins with the first one's measures.
#[test]
fn the_same_core_again_has_the_same_measures() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let (first, core) = (app.job_id(), app.file().unwrap().core.clone());
    let outlet = &curbcore::magnetics::circuit::mains::OUTLETS[0];
    app.start_job_with_core("The other", outlet, first);
    assert_ne!(app.job_id(), first);
    assert_eq!(
        (&app.file().unwrap().core, app.file().unwrap().name.as_str()),
        (&core, "The other")
    );
    assert_eq!(app.file().unwrap().goal.word(), "spot_welder");
    app.undo();
    assert_eq!(app.query(|workspace| workspace.store().job_count()).unwrap(), 1);
}

fn compared_windings_stand_in_two_columns() {
    let html = with_panels("spot_welder", |app| {
        app.toggle_panel("shop-windings");
        let answer = app.answer().unwrap().unwrap();
        let listed = curbcore::app::listing::listing(answer, false).rows;
        let other = listed.iter().skip(1).find(|row| row.group.word() == "common").unwrap();
        let word = format!("beside-{}", other.conductor);
        app.toggle_panel(&word);
    });
    has(
        &html,
        &[
            "class=\"side-by-side\"",
            "Current at the tips",
            "Heat margin",
            "Window fill",
            "Ease of winding",
            "Wire to cut",
            "Close the comparison",
        ],
    );
    assert_eq!(count(&html, "class=\"side-by-side\""), 1);
}

#[test]
fn the_page_is_shown_as_it_prints() {
    has(&with_demo(Screen::Page).1, &["<iframe", "Save the page"]);
}

#[test]
fn it_opens_where_it_was_closed_and_undo_is_still_there() {
    let (folder, _) = with_demo(Screen::Measure);
    let mut app = AppState::open(folder.path());
    assert_eq!(app.screen(), Screen::Measure);
    let entry = |text| Entry {
        path: "core.tongue_mm",
        text,
        plus_minus: "",
        origin: None,
    };
    assert_eq!(app.enter(&[entry("1 1/2 in")]), None);
    assert!((app.file().unwrap().core.tongue_mm.value - 38.1).abs() < 1e-9);
    drop(app);
    let html = render(folder.path());
    has(&html, &["38.1", "Undo: Change Tongue width"]);
    let mut app = AppState::open(folder.path());
    app.undo();
    assert!((app.file().unwrap().core.tongue_mm.value - 35.1).abs() < 1e-9);
    app.redo();
    assert!((app.file().unwrap().core.tongue_mm.value - 38.1).abs() < 1e-9);
}

#[test]
fn a_refused_number_names_field_and_range_and_loses_nothing() {
    let (folder, _) = with_demo(Screen::Measure);
    let mut app = AppState::open(folder.path());
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
        let message = app.enter(&[entry(text)]).expect("refused");
        assert!(
            message.contains("Tongue width") && message.contains(said),
            "{text}: {message}"
        );
        assert!((app.file().unwrap().core.tongue_mm.value - 35.1).abs() < 1e-9);
    }
}

#[test]
fn hostile_names_stay_text() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_job(
        "<script>alert(1)</script>",
        &curbcore::magnetics::circuit::mains::OUTLETS[0],
    );
    app.go(Screen::Page);
    drop(app);
    assert!(!render(folder.path()).contains("<script"));
}

#[test]
fn a_second_window_is_told_so() {
    let folder = tempfile::tempdir().unwrap();
    let _first = AppState::open(folder.path());
    has(&render(folder.path()), &["Data cannot be opened", "another window"]);
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
        let mut app = AppState::open(folder.path());
        app.set_use(word);
        let (found, dropped) = {
            let answer = app.answer().expect("a job").expect("an answer");
            (answer.found.ranked.len(), answer.found.dropped.len())
        };
        drop(app);
        let html = render(folder.path());
        assert!(found > 0 || dropped > 0, "{word}");
        assert!(
            html.contains("The nearest that can be had") || html.contains("mm to spare") || html.contains("No winding"),
            "{word}"
        );
        println!("{word}: {found} windings");
    }
}

/// An app with a find in hand, as it opens again.
fn with_find(screen: Screen, with: impl FnOnce(&mut AppState)) -> String {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_find("Oven, 12:00", Screen::SizeUp);
    with(&mut app);
    app.go(screen);
    drop(app);
    render(folder.path())
}

/// No text is missing: an id would show as itself.
fn no_ids(html: &str) {
    for start in [
        "ui-", "step-", "stage-", "item-", "gate-", "verdict-", "reason-", "refusal-", "part-", "hazard-",
    ] {
        let missing = html.find(&format!(">{start}"));
        let missing = missing.map(|at| &html[at..(at + 60).min(html.len())]);
        assert_eq!(missing, None, "a text is missing");
    }
}

#[test]
fn a_find_is_sized_up_with_nothing_known() {
    let html = with_find(Screen::SizeUp, |_| {});
    has(
        &html,
        &[
            "Look closer",
            "Chance of iron core",
            "Iron block seen",
            "Take the oven apart",
            "Probably inside",
        ],
    );
    no_ids(&html);
    let html = with_find(Screen::SizeUp, |app| {
        app.set_donor(Op::Seen, |donor| {
            donor.look.signs.insert(curbcore::job::Sign::CoreSeen, true);
        });
    });
    has(&html, &["Take it", "An iron core was seen."]);
}

#[test]
fn a_refused_label_says_so_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_find("Oven, 12:00", Screen::SizeUp);
    let entry = |text| Entry {
        path: "donor.microwave_watts",
        text,
        plus_minus: "",
        origin: None,
    };
    assert_eq!(app.enter_number(&entry("1250")), None);
    let message = app.enter_number(&entry("12")).unwrap();
    assert!(
        message.contains("Input power for microwaves") && message.contains("300 to 4000 W"),
        "{message}"
    );
    assert_eq!(app.donor().unwrap().unwrap().microwave_watts.unwrap().value, 1250.0);
}

#[test]
fn a_teardown_shows_its_step_and_its_stop() {
    let html = with_find(Screen::Teardown, |_| {});
    has(
        &html,
        &[
            "Step 1 of 15",
            "Clear a dry bench",
            "Next: Unplug",
            "class=\"drawing step\"",
        ],
    );
    no_ids(&html);
    let html = with_find(Screen::Teardown, |app| {
        use curbcore::app::guided::Blocked;
        use curbcore::safety::Item;
        use curbcore::teardown::{Event, Refusal, Step};
        app.event(Event::Go(Step::Unplug)).unwrap();
        let held = app.event(Event::Go(Step::Open));
        assert!(
            matches!(
                held,
                Err(Blocked::Refused(Refusal::GateNeeded { toward: Step::Open, .. }))
            ),
            "{held:?}"
        );
        app.event(Event::CouldNot { item: Item::PlugOut }).unwrap();
    });
    has(&html, &["Stopped", "Resume"]);
    assert!(!html.contains("Next:"), "a stop leads nowhere else");
    no_ids(&html);
}

/// Every step as it is shown, its actions and warnings a line each, what follows from the hand saw and
/// from nothing else; after an hour's pause the gates to renew.
#[test]
fn every_step_is_shown_and_a_pause_asks_again() {
    use curbcore::app::workspace::Workspace;
    use curbcore::safety::{Item, Moment, TouchLimit};
    use curbcore::teardown::{Act, Event, Finding, Proof, ShuntFate, Step, Supply, Way, Winding};
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_find("Oven, 12:00", Screen::SizeUp);
    app.go(Screen::Teardown);
    let now = app.moment();
    drop(app);
    let donor = Workspace::open(folder.path()).unwrap().store().donors().unwrap()[0]
        .meta
        .id;
    let at = |minutes: i64| Moment {
        unix_ms: now.unix_ms - 50 * 60_000 + minutes * 60_000,
        ..now
    };
    let volts = curbcore::quantity::Voltage::from_si(0.4);
    for (minutes, &step) in (0..).zip(Step::ALL) {
        let mut workspace = Workspace::open(folder.path()).unwrap();
        if step != Step::Prepare {
            loop {
                let state = workspace.teardown(donor).unwrap();
                let Some(gate) = state.gate_before(step, at(minutes)) else {
                    break;
                };
                let item = gate.items()[state.confirmed(step, gate, at(minutes)).len()];
                let event = match item {
                    _ if !state.repeated(step, at(minutes)).is_empty() => Event::Renew { toward: step },
                    Item::ProvedByMeter => Event::Act(Act::Prove(Proof {
                        between: volts,
                        first_to_chassis: volts,
                        second_to_chassis: volts,
                        limit: TouchLimit::default(),
                    })),
                    item => Event::Confirm { toward: step, item },
                };
                workspace.event(donor, event, at(minutes)).unwrap();
            }
            workspace.event(donor, Event::Go(step), at(minutes)).unwrap();
        }
        for finding in [
            Finding::Supply(Supply::Transformer),
            Finding::WindingAtBack(Winding::HighVoltage),
            Finding::Way(Way::Hacksaw),
            Finding::Shunts(ShuntFate::Keep),
        ] {
            // Only the step that asks for it takes it.
            let _ = workspace.event(donor, Event::Act(Act::Found(finding)), at(minutes));
        }
        drop(workspace);
        let html = render(folder.path());
        no_ids(&html);
        assert!(!html.contains("disc kicks"), "a hand saw has no disc: {step:?}");
        assert_eq!(html.contains("Ease it off whole"), step == Step::Remove, "{step:?}");
        assert_eq!(html.contains("Measures of the core"), step == Step::Measure, "{step:?}");
        match step {
            Step::CapacitorSafe => {
                let order = ["oven chassis", "first terminal", "second terminal", "across both"];
                let places: Vec<usize> = order.iter().map(|part| html.find(part).unwrap()).collect();
                assert!(places.is_sorted(), "{places:?}");
            }
            Step::Open => has(&html, &["Security screws"]),
            Step::Unbolt => has(&html, &["usually four", "on its back"]),
            Step::Split => has(&html, &["1.6 mm", "Strike lightly", "blade"]),
            _ => {}
        }
        if step == Step::Split {
            // The same an hour and more after the last entry.
            let mut workspace = Workspace::open(folder.path()).unwrap();
            let entries = workspace.teardown(donor).unwrap().history().to_vec();
            workspace.restart_teardown(donor).unwrap();
            for entry in entries {
                let earlier = Moment {
                    unix_ms: entry.at.unix_ms - 30 * 60_000,
                    ..entry.at
                };
                workspace.event(donor, entry.event, earlier).unwrap();
            }
            drop(workspace);
            let html = render(folder.path());
            has(
                &html,
                &[
                    "Is this still true?",
                    "Confirmed at",
                    "Heavy part held",
                    "All of this is still true",
                ],
            );
            no_ids(&html);
            assert!(!html.contains("Next:"), "nothing else before that");
        }
    }
}

/// The choice of the way into the core, with the physics' word on the shunts.
#[test]
fn the_way_is_chosen_with_the_shunts_in_mind() {
    use curbcore::safety::{Item, TouchLimit};
    use curbcore::teardown::{Act, Event, Finding, Proof, Step, Supply, Winding};
    let html = with_find(Screen::Teardown, |app| {
        for step in [
            Step::Unplug,
            Step::Open,
            Step::CapacitorSafe,
            Step::Disconnect,
            Step::Unbolt,
            Step::KeepParts,
            Step::Inspect,
            Step::ChooseWay,
        ] {
            loop {
                let state = app.teardown().unwrap().unwrap();
                let now = app.moment();
                let Some(gate) = state.gate_before(step, now) else {
                    break;
                };
                let item = gate.items()[state.confirmed(step, gate, now).len()];
                let volts = curbcore::quantity::Voltage::from_si(0.4);
                let event = if item == Item::ProvedByMeter {
                    Event::Act(Act::Prove(Proof {
                        between: volts,
                        first_to_chassis: volts,
                        second_to_chassis: volts,
                        limit: TouchLimit::default(),
                    }))
                } else {
                    Event::Confirm { toward: step, item }
                };
                app.event(event).unwrap();
            }
            app.event(Event::Go(step)).unwrap();
            for finding in [
                Finding::Supply(Supply::Transformer),
                Finding::WindingAtBack(Winding::Primary),
                Finding::PrimaryMetal(curbcore::wire::Metal::Copper),
            ] {
                // Only the step that asks for it takes it.
                let _ = app.event(Event::Act(Act::Found(finding)));
            }
        }
    });
    has(
        &html,
        &["with this core or a usual core", "Spot welder", "Pull the shunts"],
    );
    no_ids(&html);
}

#[test]
fn the_bench_shows_bands_and_causes() {
    use curbcore::app::guided::Blocked;
    use curbcore::bench::{Act, Event, Reading, Refusal, Stage};
    use curbcore::quantity::{Resistance, Temperature};
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.go(Screen::Bench);
    drop(app);
    has(&render(folder.path()), &["Tests in stages", "Begin the tests"]);
    let mut app = AppState::open(folder.path());
    app.begin_tests();
    drop(app);
    has(&render(folder.path()), &["Stage 1 of", "Commissioning record"]);
    let mut app = AppState::open(folder.path());
    let mut go = |stage: Stage| loop {
        match app.event(Event::Go(stage)) {
            Err(Blocked::Refused(Refusal::GateNeeded { toward, gate })) => {
                let tests = app.tests(None).unwrap().unwrap();
                let done = tests.bench.confirmed(toward, gate, app.moment()).len();
                let item = gate.items()[done];
                app.event(Event::Confirm { toward, item }).unwrap();
            }
            other => {
                other.unwrap();
                break;
            }
        }
    };
    go(Stage::Reassembly);
    go(Stage::Continuity);
    let reading = Reading::Winding {
        resistance: Resistance::from_si(50.0),
        at: Temperature::from_si(20.0),
        metal: curbcore::wire::Metal::Copper,
    };
    app.event(Event::Act(Act::Read { of: 0, reading })).unwrap();
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &[
            "above its band",
            "A joint or crimp is bad",
            "Fixed: restart the tests",
            "Expected:",
        ],
    );
    no_ids(&html);
}

/// Every stage of the bench with its caution in sight, above what to do, and an action a line; what a load
/// brings stands there too.
#[test]
fn every_stage_is_shown_with_its_caution() {
    use curbcore::app::guided::Blocked;
    use curbcore::bench::{Act, Event, Refusal, Stage};
    let texts = curbcore::text::Texts::english().unwrap();
    for word in ["spot_welder", "battery_charger", "choke"] {
        let folder = tempfile::tempdir().unwrap();
        let mut app = AppState::open(folder.path());
        app.open_demo();
        if word != "spot_welder" {
            app.set_use(word);
        }
        if let Some(curbcore::job::Goal::BatteryCharger {
            battery_volts,
            charge_current_a,
            ..
        }) = app.file().map(|f| f.goal)
        {
            app.begin_tests();
            assert!(app.tests(None).is_none(), "not before the kind of battery is confirmed");
            app.set_goal(
                curbcore::store::Op::ConfirmBattery,
                curbcore::job::Goal::BatteryCharger {
                    battery_volts,
                    charge_current_a,
                    confirmed: true,
                },
            );
        }
        app.go(Screen::Bench);
        app.begin_tests();
        let plan = app.planned().unwrap().unwrap();
        let stages = app.tests(None).unwrap().unwrap().bench.steps();
        for &stage in &stages {
            loop {
                match app.event(Event::Go(stage)) {
                    Err(Blocked::Refused(Refusal::GateNeeded { toward, gate })) => {
                        let tests = app.tests(None).unwrap().unwrap();
                        let now = app.moment();
                        let event = if tests.bench.repeated(toward, now).is_empty() {
                            let item = gate.items()[tests.bench.confirmed(toward, gate, now).len()];
                            Event::Confirm { toward, item }
                        } else {
                            Event::Renew { toward }
                        };
                        app.event(event).unwrap();
                    }
                    other => {
                        assert!(stage == Stage::Prepare || other.is_ok(), "{word} {stage:?}: {other:?}");
                        break;
                    }
                }
            }
            drop(app);
            let html = render(folder.path());
            no_ids(&html);
            let guide = stage.guide();
            let shown = |key: &str| texts.text(key).lines().map(str::to_owned).collect::<Vec<_>>();
            let load = plan.load().caution_at(stage).map(shown).unwrap_or_default();
            for line in shown(&guide.caution_key())
                .into_iter()
                .chain(load)
                .chain(shown(&guide.do_key(None)))
            {
                let line = line.replace('&', "&#38;").replace('\'', "&#39;");
                assert!(html.contains(&line), "{word} {stage:?}: {line} is missing in {html}");
            }
            assert!(
                html.find("class=\"caution\"").unwrap() < html.find("class=\"do\"").unwrap(),
                "{stage:?}"
            );
            app = AppState::open(folder.path());
            for prediction in plan.of_stage(stage) {
                app.event(Event::Act(Act::Read {
                    of: prediction.of,
                    reading: as_predicted(prediction),
                }))
                .unwrap();
            }
        }
    }
}

/// The test of the turns opens behind its gates alone, and a plasma cutter's voltage is confirmed item by
/// item, each held: nothing of either is one tap.
#[test]
fn a_test_turn_and_a_plasma_cutter_ask_for_holds() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.clear_group("core.primary.test_turn");
    app.go(Screen::Measure);
    drop(app);
    let html = render(folder.path());
    has(&html, &["Begin the test turn", "No supply of any kind"]);
    assert!(!html.contains("Test turns, voltage"), "behind the gates");
    let mut app = AppState::open(folder.path());
    app.set_use("plasma_cutter");
    app.go(Screen::Rewind);
    app.begin_tests();
    assert!(app.tests(None).is_none(), "no test before the items are held");
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &[
            "Plasma torch voltage",
            "Someone licensed oversees this build",
            "No test of this winding begins before every item is held.",
        ],
    );
    let section = html.split("must-confirm").nth(1).unwrap();
    let section = section.split("</section>").next().unwrap();
    assert_eq!(
        section.matches("<button").count(),
        section.matches("class=\"hold").count() / 3,
        "{section}"
    );
    assert!(
        section.contains("class=\"hold") && !section.contains("checkbox"),
        "{section}"
    );
    no_ids(&html);
}

/// A donor's page says where its job stands and the one next thing; the demo goes as it came.
#[test]
fn a_donors_page_says_what_comes_next() {
    use curbcore::app::next_step::Next;
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    assert_eq!(app.screen(), Screen::Donor);
    assert_eq!(app.next_thing(), Some(Next::Choose));
    drop(app);
    let html = render(folder.path());
    has(&html, &["Next:", "Choose a winding.", "Progress", "Teardown", "open"]);
    no_ids(&html);
    let mut app = AppState::open(folder.path());
    app.go_on(Next::Choose);
    assert_eq!(app.screen(), Screen::Rewind);
    app.start_find("Wet one behind the shop", Screen::SizeUp);
    app.go(Screen::Donor);
    drop(app);
    has(&render(folder.path()), &["Look closer", "Size up"]);
    let mut app = AppState::open(folder.path());
    assert!(app.has_demo().unwrap());
    app.remove_demo();
    assert!(!app.has_demo().unwrap() && app.jobs().unwrap().1 == 0);
    drop(app);
    has(&render(folder.path()), &["Wet one behind the shop"]);
}

/// The Rewind screen of the demo's core for a use, with every panel open.
fn with_panels(word: &str, with: impl FnOnce(&mut AppState)) -> String {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.set_use(word);
    app.go(Screen::Rewind);
    with(&mut app);
    for panel in [
        "idle",
        "inrush",
        "shunts",
        "heat",
        "direct",
        "pairs",
        "coil-numbers",
        "coil-inputs",
    ] {
        app.toggle_panel(panel);
    }
    drop(app);
    render(folder.path())
}

#[test]
fn panels_answer_with_ranges_and_plots() {
    let html = with_panels("spot_welder", |_| {});
    has(
        &html,
        &[
            "No-load current and knee",
            "field strength, A/m",
            "First peak, worst instant",
            "Limits of UL 489, from secondary sources",
            "with shunts: Short-circuit current",
            "Most pulses per minute",
            "Time, cold to limit",
            "Expected behaviour",
        ],
    );
    no_ids(&html);
    let html = with_panels("battery_charger", |_| {});
    has(
        &html,
        &[
            "Current, flat battery",
            "Charging time",
            "does not stop by itself",
            "Charging current, from flat to full",
        ],
    );
    no_ids(&html);
    let html = with_panels("stick_welder", |app| {
        let entry = Entry {
            path: "goal.arc_current_a",
            text: "30",
            plus_minus: "",
            origin: None,
        };
        assert_eq!(app.enter(&[entry]), None);
        app.set_conditions(Op::Diodes, |c| {
            c.rectifier = Some(curbcore::job::RectifierKind::CentreTap);
        });
    });
    has(&html, &["Diode reverse voltage", "an arc needs"]);
    no_ids(&html);
}

/// Typed on the idle panel, read back from the disk.
#[test]
fn an_idle_test_is_entered_and_told() {
    let html = with_panels("spot_welder", |app| {
        for (path, text) in [
            ("conditions.idle_low.volts", "80"),
            ("conditions.idle_low.amps", "1.19"),
            ("conditions.idle_low.watts", "11.2"),
            ("conditions.idle_full.volts", "118"),
            ("conditions.idle_full.amps", "3.29"),
            ("conditions.idle_full.watts", "30.1"),
        ] {
            let entry = Entry {
                path,
                text,
                plus_minus: "",
                origin: None,
            };
            assert_eq!(app.enter(&[entry]), None);
        }
    });
    has(
        &html,
        &[
            "Tested gap per face",
            "The test gives the gap better",
            "The design uses your no-load test",
            "no-load reading",
        ],
    );
    assert!(!html.contains("No gap and no steel explain"), "a sound core");
    no_ids(&html);
}

#[test]
fn a_choke_and_a_ballast_are_answered() {
    for (word, parts) in [
        (
            "choke",
            [
                "Coil, temperature rise",
                "under the whole I: ",
                "Inductance against current",
            ],
        ),
        ("ballast", ["Coil, temperature rise", "Spacer of", "Fringing factor"]),
    ] {
        let html = with_panels(word, |_| {});
        has(&html, &parts);
        assert!(!html.contains("Other windings ("), "{word}");
        no_ids(&html);
        // The demo's ballast runs too hot: the card says so as of any winding, and what helps.
        let state = match word {
            "choke" => ["The winding fits", "class=\"state\""],
            _ => [
                "Do not wind this design: the new winding runs too hot",
                "Give the coil a fan",
            ],
        };
        has(&html, &state);
    }
    let html = with_panels("choke", |app| {
        let entry = Entry {
            path: "goal.inductance_mh",
            text: "900",
            plus_minus: "",
            origin: None,
        };
        assert_eq!(app.enter(&[entry]), None);
    });
    has(&html, &["role=\"alert\"", "fit the window"]);
}

#[test]
fn two_jobs_are_joined() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let core = Box::new(app.file().unwrap().core.clone());
    assert_eq!(app.answer().unwrap().unwrap().pair(), None);
    app.set_use("stick_welder");
    app.take_steps(&[Step::Pair(curbcore::job::PairChoice {
        name: "The other".into(),
        core,
        windings: curbcore::job::Joining::Series,
    })]);
    let here = app.answer().unwrap().unwrap();
    assert_eq!(here.second.as_ref().unwrap().name, "The other");
    let found = here.pair().unwrap();
    let texts = curbcore::text::Texts::english().unwrap();
    let told = curbcore::report::behaviour::pairs(found, ["one", "two"], &texts);
    keep(&told.figures[0]);
    assert!(told.remarks.iter().any(|r| r.text.contains("Find the dots")));

    // Kept with the job, told on the panel after the app was opened anew, and on the page.
    app.go(Screen::Rewind);
    app.toggle_panel("pairs");
    let page = app.page().unwrap();
    has(&page, &["Two cores together", "Find the dots"]);
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &["Two cores together", "The other", "Use one core", "Find the dots"],
    );
    no_ids(&html);
}

/// A phone with the demo job, and a desktop that took it in and then differed.
fn differing() -> tempfile::TempDir {
    use curbcore::app::sync::Sending;
    use curbcore::app::workspace::Workspace;
    let (there, here) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let parcel = there.path().join("parcel.curbshelf");
    let mut phone = Workspace::open(there.path()).unwrap();
    phone.name_device("garage phone").unwrap();
    let job = phone.open_demo().unwrap();
    phone.export_shelf(&parcel, &Sending::All, None, |_| ()).unwrap();
    let mut app = Workspace::open(here.path()).unwrap();
    app.import_shelf(&parcel, None, |_| ()).unwrap();
    let tongue = |text| Entry {
        path: "core.tongue_mm",
        text,
        plus_minus: "0.2",
        origin: None,
    };
    phone
        .set_number(job, &tongue("36.5"), curbcore::quantity::LengthUnit::Millimetre)
        .unwrap();
    phone.rename(job, "Tab welder for the shed").unwrap();
    phone.set_note(job, "as measured").unwrap();
    app.set_number(job, &tongue("35.4"), curbcore::quantity::LengthUnit::Millimetre)
        .unwrap();
    app.rename(job, "Tab welder").unwrap();
    phone.export_shelf(&parcel, &Sending::All, None, |_| ()).unwrap();
    app.import_shelf(&parcel, None, |_| ()).unwrap();
    here
}

#[test]
fn a_file_for_other_devices_is_made_and_taken() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.go(Screen::Sync);
    drop(app);
    has(
        &render(folder.path()),
        &[
            "File to import",
            "Make the file",
            "The whole shelf",
            "Only &#34;Demo: tab welder",
            "Name of this device",
        ],
    );
}

/// A conflict says which core, which device, and each value with its labels and units; the values in use are marked
/// on every screen of the job until they are settled.
#[test]
fn two_values_stand_side_by_side() {
    let folder = differing();
    has(&render(folder.path()), &["two values from two devices"]);
    let mut app = AppState::open(folder.path());
    app.go(Screen::Sync);
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &[
            // Which name holds until it is settled is decided by the devices' numbers.
            "Tongue width, in Tab welder",
            "36.5 ± 0.2 mm",
            "35.4 ± 0.2 mm",
            "garage phone",
            "This device",
            "What is new for garage phone",
        ],
    );
    assert!(!html.contains("tongue mm") && !html.contains("_mm\""), "{html}");
    let mut app = AppState::open(folder.path());
    let job = app.jobs().unwrap().0[0].id;
    for screen in [Screen::Donor, Screen::Measure, Screen::Rewind, Screen::Page] {
        app.open_job(job, screen);
        drop(app);
        let html = render(folder.path());
        has(&html, &["Two devices differ here"]);
        // Which value is in use until then is decided by the devices' numbers.
        let in_use = ["36.5 ± 0.2 mm (garage phone)", "35.4 ± 0.2 mm (This device)"];
        let lines = in_use.map(|value| format!("Tongue width: {value}"));
        assert!(lines.iter().any(|line| html.contains(line.as_str())), "{html}");
        app = AppState::open(folder.path());
    }
    for conflict in app.query(|data| data.store().conflicts(100)).unwrap() {
        app.settle(conflict.kind, conflict.id, &conflict.field, 0);
    }
    drop(app);
    assert!(!render(folder.path()).contains("Two devices differ here"));
}

/// Another value may void what was tested with the one in use.
#[test]
fn a_settled_conflict_asks_before_it_voids_tests() {
    let folder = differing();
    let mut app = AppState::open(folder.path());
    let job = app.jobs().unwrap().0[0].id;
    app.open_job(job, Screen::Bench);
    app.begin_tests();
    let tongue = |app: &AppState| app.file().unwrap().core.tongue_mm.value;
    let before = tongue(&app);
    let open = app.query(|data| data.store().conflicts(100)).unwrap();
    let of_tongue = open.iter().find(|conflict| conflict.field.contains("tongue")).unwrap();
    let settle = |app: &mut AppState, side| app.settle(of_tongue.kind, of_tongue.id, &of_tongue.field, side);
    // The last is in use: to settle on that changes nothing that was tested.
    settle(&mut app, 0);
    assert!(matches!(app.asked(), Some(Asked::Change(_))), "{:?}", app.asked());
    let waiting = app.query(|data| data.store().conflicts(100)).unwrap();
    assert_eq!(
        (waiting.len(), tongue(&app)),
        (open.len(), before),
        "it waits for the answer"
    );
    app.answer_yes();
    let left = app.query(|data| data.store().conflicts(100)).unwrap();
    assert_eq!(left.len() + 1, open.len());
    assert!((tongue(&app) - before).abs() > 0.5, "{} after {before}", tongue(&app));
}

/// The app as [`render`] has it, after what it works out beside the screen has come back.
fn render_when_done(folder: &Path) -> String {
    render_until(folder, |html| !html.contains("class=\"busy\""))
}

/// The same until what is rendered is as it is to be.
fn render_until(folder: &Path, done: impl Fn(&str) -> bool) -> String {
    let mut dom = VirtualDom::new(App).with_root_context(DataFolder(folder.to_owned()));
    dom.rebuild_in_place();
    let waits = std::task::Waker::noop();
    let mut html = dioxus_ssr::render(&dom);
    for _ in 0..600 {
        let mut context = std::task::Context::from_waker(waits);
        let ready = {
            let work = std::pin::pin!(dom.wait_for_work());
            std::future::Future::poll(work, &mut context).is_ready()
        };
        if ready {
            dom.render_immediate_to_vec();
            html = dioxus_ssr::render(&dom);
        } else if !done(&html) {
            std::thread::sleep(std::time::Duration::from_millis(50));
        } else {
            break;
        }
    }
    keep(&html);
    html
}

/// Cores are compared for a use, and a core for every use; what is shown is what the app answers.
#[test]
fn cores_are_compared() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.go(Screen::Compare);
    drop(app);
    has(&render_when_done(folder.path()), &["There is no core on the shelf yet"]);
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.start_job(
        "Blue one, not measured",
        &curbcore::magnetics::circuit::mains::OUTLETS[0],
    );
    app.go(Screen::Compare);
    let cores = app.query(|data| data.cores_on_shelf(10)).unwrap();
    assert_eq!(cores.len(), 2);
    let goal = app.file().unwrap().goal;
    let found = curbcore::app::compare::for_use(&cores, &goal).unwrap();
    drop(app);
    let html = render_when_done(folder.path());
    has(
        &html,
        &[
            "Cores for the use",
            "Blue one, not measured",
            "windings in parallel",
            "Measures or turns are assumed",
            "drawing plot bar",
            "Uses of this core",
            "Plasma cutter",
        ],
    );
    let best = curbcore::app::compare::advised(&found).unwrap();
    let winding = &best.offer.as_ref().unwrap().winding;
    let texts = curbcore::text::Texts::english().unwrap();
    has(&html, &[texts.message(winding).as_str()]);
    no_ids(&html);
}

/// Every word of the trade is in the list, and asked for where it stands in a label, a step or a panel.
#[test]
fn words_of_the_trade_tell_their_meaning() {
    use curbcore::text::{Term, Texts};
    let texts = Texts::english().unwrap();
    let html = with_demo(Screen::Glossary).1;
    for term in Term::ALL {
        has(&html, &[&format!("<strong>{}</strong>", texts.text(term.key()))]);
    }
    has(&html, &["class=\"drawing term\"", "19 times in 20"]);
    assert!(!html.contains("term-"), "a text is missing");
    has(&with_demo(Screen::More).1, &["Show all words"]);
    has(
        &measure_with(&["lengths"]),
        &["aria-label=\"What is meant by “tongue”?\"", "aria-expanded=\"false\""],
    );
    has(
        &with_panels("spot_welder", |app| {
            let pair = curbcore::job::PairChoice {
                name: "The other".into(),
                core: Box::new(app.file().unwrap().core.clone()),
                windings: curbcore::job::Joining::Parallel,
            };
            app.take_steps(&[Step::Pair(pair)]);
        }),
        &["“remanence”?", "“circulating current”?"],
    );
    for (path, terms) in curbcore::job::fields::ALL
        .iter()
        .map(|f| (f.path, Term::of_field(f.path)))
    {
        assert!(terms.len() <= 1, "{path}: one row of words is enough");
    }
}

/// A number unfolds where it stands, and is kept so: what it is, its formula, its inputs, its source.
#[test]
fn a_number_opens_where_it_stands() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let words = [
        "winding-numbers",
        "number-short-circuit",
        "number-spare",
        "measures-flux-density",
        "behaves-inrush-peak",
        "inrush",
    ];
    app.go(Screen::Rewind);
    for word in words {
        app.toggle_panel(word);
    }
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &[
            "E / √(R² + X²)",
            "part of the answer&#39;s ± that comes",
            "lead length <strong>600 ± 100 mm</strong>",
            "Fourth-order Runge–Kutta method",
            "aria-expanded=\"true\"",
        ],
    );
    no_ids(&html);
    let mut app = AppState::open(folder.path());
    // The first screen was shown.
    app.settle_start();
    app.go(Screen::Measure);
    for word in words {
        assert!(!app.panel_open(word), "{word} is folded on another screen");
    }
    app.toggle_panel("measures-flux-density");
    drop(app);
    let html = render(folder.path());
    has(
        &html,
        &["The EMF equation, 4.44 f N B A = E", "stacking factor <strong>"],
    );
    let mut app = AppState::open(folder.path());
    app.go(Screen::Rewind);
    drop(app);
    assert!(!render(folder.path()).contains("E / √(R² + X²)"), "it is folded again");
}

/// How often a part stands in a text.
fn count(html: &str, part: &str) -> usize {
    html.matches(part).count()
}

/// Each use with each of its panels and every number open: one without its texts would show their ids.
#[test]
fn every_number_of_every_use_is_opened() {
    use curbcore::text::ENGLISH;
    let (_, file) = ENGLISH.iter().find(|(name, _)| *name == "numbers.ftl").unwrap();
    let lines: Vec<&str> = file.lines().collect();
    let ids: Vec<&str> = lines
        .windows(2)
        .filter(|pair| pair[1].starts_with("    .what"))
        .filter_map(|pair| Some(pair[0].split_once(" = ")?.0))
        .collect();
    for word in ["spot_welder", "battery_charger", "stick_welder", "choke", "ballast"] {
        let folder = tempfile::tempdir().unwrap();
        let mut app = AppState::open(folder.path());
        app.open_demo();
        let core = Box::new(app.file().unwrap().core.clone());
        app.set_use(word);
        if word == "stick_welder" {
            let entry = Entry {
                path: "goal.arc_current_a",
                text: "30",
                plus_minus: "",
                origin: None,
            };
            assert_eq!(app.enter(&[entry]), None);
        }
        app.set_conditions(Op::SecondCore, |c| {
            c.rectifier = (word == "stick_welder").then_some(curbcore::job::RectifierKind::CentreTap);
            c.pair = Some(curbcore::job::PairChoice {
                name: "The other".into(),
                core,
                windings: curbcore::job::Joining::Series,
            });
        });
        app.go(Screen::Rewind);
        for panel in [
            "idle",
            "inrush",
            "shunts",
            "heat",
            "direct",
            "pairs",
            "winding-numbers",
            "coil-numbers",
        ] {
            app.toggle_panel(panel);
        }
        for id in &ids {
            app.toggle_panel(id);
            app.toggle_panel(&format!("{id}-ui-with-shunts"));
        }
        drop(app);
        let html = render(folder.path());
        let (rows, opened) = (count(&html, "class=\"number\""), count(&html, "class=\"opened\""));
        // Those without shunts stay closed while the same ones with shunts are open.
        let closed = count(&html, "class=\"number\" aria-expanded=\"false\"");
        assert_eq!(rows, opened + closed, "{word}");
        assert_eq!(closed, count(&html, "<span>without: "), "{word}");
        assert!(opened > 10, "{word}: {opened}");
        for part in [".what<", ".formula<", ".source<", ".means<"] {
            assert!(!html.contains(part), "{word}: {part}");
        }
        no_ids(&html);
    }
}

/// Goes through the winding's gates with what the screen offers, then to a step.
fn wind_to(app: &mut AppState, step: curbcore::wind::WindStep) {
    use curbcore::app::guided::Blocked;
    use curbcore::wind::{Event, Refusal, WindPlan};
    loop {
        match app.event(Event::Go(step)) {
            Err(Blocked::Refused(Refusal::GateNeeded { toward, gate })) => {
                let run = app.run::<WindPlan>().unwrap().unwrap();
                let item = gate.items()[run.confirmed(toward, gate, app.moment()).len()];
                let repeated = run.repeated(toward, app.moment());
                let event = if repeated.is_empty() {
                    Event::Confirm { toward, item }
                } else {
                    Event::Renew { toward }
                };
                app.event::<WindPlan>(event).unwrap();
            }
            other => return other.unwrap(),
        }
    }
}

/// From a bare core to the bench: each step through its gates, every turn pressed, the program started
/// anew in the middle of a layer, the section with what is wound.
/// The reactor that a charger's winding needs is a choke's job with its inductance and current, on the same
/// outlet, and one step of undo.
#[test]
fn a_needed_reactor_starts_its_own_job() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.choose_use("battery_charger");
    let amps = Entry {
        path: "goal.charge_current_a",
        text: "10",
        plus_minus: "",
        origin: None,
    };
    assert_eq!(app.enter(&[amps]), None);
    let (of, plug) = (app.job_id(), app.file().unwrap().mains.circuit.plug.clone());
    let reactor = app.answer().unwrap().unwrap().circuit_parts().unwrap().reactor.unwrap();
    app.go(Screen::Rewind);
    drop(app);
    has(&render(folder.path()), &["reactor"]);
    let mut app = AppState::open(folder.path());
    app.start_reactor("Reactor", reactor);
    assert_ne!(app.job_id(), of);
    let file = app.file().unwrap();
    assert_eq!(file.mains.circuit.plug, plug);
    let (millihenries, amps) = match file.goal {
        curbcore::job::Goal::Choke {
            inductance_mh,
            ripple_a,
            dc_current_a,
            ..
        } => (
            inductance_mh,
            dc_current_a.max(ripple_a / (2.0 * std::f64::consts::SQRT_2)),
        ),
        other => panic!("{other:?}"),
    };
    assert!(
        (millihenries / reactor.inductance.millihenries() - 1.0).abs() < 0.05,
        "{millihenries}"
    );
    assert!((amps / reactor.current.si() - 1.0).abs() < 0.05, "{amps}");
    let made = app.job_id();
    app.undo();
    assert_ne!(app.job_id(), made);
    assert!(made.is_some() && app.file().is_none_or(|file| file.goal.word() != "choke"));
}

/// The wire that was wound is offered off the person's own once, and can be put back; never more than is
/// there.
#[test]
fn wound_wire_goes_off_the_shelf_once() {
    for (had, left) in [("50", Some(())), ("0.5", None)] {
        let folder = tempfile::tempdir().unwrap();
        let mut app = AppState::open(folder.path());
        app.open_demo();
        for wire in app.stock().unwrap() {
            app.remove_stock(wire.0);
        }
        assert_eq!(app.add_stock("awg-1-0-welding", had), None);
        // The winding held is of that wire, whatever the shelf's length makes of the list.
        let choice = {
            let answer = app.answer().unwrap().unwrap();
            let mut ranked = answer.found.ranked.iter();
            let own = ranked.find(|found| answer.catalogue.name(&found.winding.conductor) == "awg-1-0-welding");
            curbcore::app::basis::as_choice(own.unwrap(), &answer.problem.rebuild, &answer.catalogue)
        };
        app.choose(Some(choice));
        app.go(Screen::Wind);
        app.begin_winding();
        wind_to_the_ends(&mut app);
        let takes = app.wire_from_shelf().unwrap().takes;
        drop(app);
        offers_off_the_shelf(folder.path(), takes.si());
        let mut app = AppState::open(folder.path());
        assert_eq!(app.take_wire(), None);
        assert!(app.asked().is_none(), "a winding that was chosen stays");
        let stock = app.stock().unwrap();
        assert_eq!(stock.len(), usize::from(left.is_some()), "{stock:?}");
        if let Some((_, _, metres, _)) = stock.first() {
            assert!((metres + takes.si() - 50.0).abs() < 1e-9, "{metres}");
        }
        assert!(left.is_none() || app.take_wire().is_some(), "never twice");
        drop(app);
        let takes = takes.si();
        has(
            &render(folder.path()),
            &[&format!("Put {takes:.1} m back"), &format!("{takes:.1} m were taken")],
        );
        let mut app = AppState::open(folder.path());
        app.put_wire_back().unwrap();
        let back = app.stock().unwrap();
        let had: f64 = had.parse().unwrap();
        assert!(back.len() == 1 && (back[0].2 - had).abs() < 1e-9, "{back:?}");
        assert!(app.put_wire_back().is_err(), "nothing is out any more");
        drop(app);
        offers_off_the_shelf(folder.path(), takes);
    }
}

/// Winds what was begun up to its ends.
fn wind_to_the_ends(app: &mut AppState) {
    use curbcore::wind::{Act, Event, WindPlan, WindStep};
    let steps = app.run::<WindPlan>().unwrap().unwrap().steps();
    let plan = *app.run::<WindPlan>().unwrap().unwrap().plan();
    for &step in steps.iter().skip(1).take_while(|step| **step <= WindStep::LeadOut) {
        wind_to(app, step);
        match step {
            WindStep::ProvePrimary => {
                for act in proved(&plan) {
                    app.event::<WindPlan>(Event::Act(act)).unwrap();
                }
            }
            WindStep::WindTurns => {
                for _ in 0..plan.turns {
                    app.event::<WindPlan>(Event::Act(Act::Turn)).unwrap();
                }
            }
            _ => {}
        }
    }
}

/// Where the shelf decided on the winding, what is left of its wire may decide on another.
#[test]
fn wound_wire_asks_before_it_voids_the_winding() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    for wire in app.stock().unwrap() {
        app.remove_stock(wire.0);
    }
    assert_eq!(app.add_stock("own-80mm2-13.0", "2"), None);
    let design = app.answer().unwrap().unwrap().design.as_ref().unwrap();
    let had = (design.candidate.wire.si() * 11.0).ceil() / 10.0;
    let long = app.stock().unwrap()[0].0;
    app.remove_stock(long);
    assert_eq!(app.add_stock("own-80mm2-13.0", &had.to_string()), None);
    app.go(Screen::Wind);
    app.begin_winding();
    wind_to_the_ends(&mut app);
    assert_eq!(app.take_wire(), None);
    assert!(matches!(app.asked(), Some(Asked::Change(_))), "{:?}", app.asked());
    let metres = |app: &AppState| app.stock().unwrap()[0].2;
    assert!(
        app.winds_todays_design() && (metres(&app) - had).abs() < 1e-9,
        "it waits"
    );
    app.ask_no_more();
    assert_eq!(app.take_wire(), None);
    app.answer_yes();
    assert!(!app.winds_todays_design() && metres(&app) < had);
}

/// Readings that prove a primary whole.
fn proved(plan: &curbcore::wind::WindPlan) -> [curbcore::wind::Act; 2] {
    use curbcore::wind::Act;
    let band = plan.primary.unwrap();
    [
        Act::PrimaryResistance(band.expected),
        Act::PrimaryInsulation(band.insulation * 2.0),
    ]
}

/// The step of the lead-outs offers so many metres.
fn offers_off_the_shelf(folder: &std::path::Path, takes: f64) {
    has(&render(folder), &[&format!("Take {takes:.1} m off the shelf")]);
}

/// Photos and notes of a step are kept with it, are shown there after a restart, and a note can be taken back;
/// a winding with a centre tap stops between its halves.
#[test]
fn a_tapped_winding_keeps_its_photos_and_notes() {
    use curbcore::wind::{Act, Event, WindPlan, WindStep};
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.choose_use("battery_charger");
    app.set_conditions(curbcore::store::Op::Diodes, |conditions| {
        conditions.rectifier = Some(curbcore::job::RectifierKind::CentreTap);
    });
    app.choose(None);
    app.go(Screen::Wind);
    app.begin_winding();
    let steps = app.run::<WindPlan>().unwrap().unwrap().steps();
    let plan = *app.run::<WindPlan>().unwrap().unwrap().plan();
    assert!(plan.tapped);
    for &step in steps.iter().skip(1).take_while(|step| **step <= WindStep::LeadOut) {
        wind_to(&mut app, step);
        match step {
            WindStep::CleanCore => {
                app.note_on_step("One burr <filed> off").unwrap();
                let photo = app.add_core_photo(step.key(), b"\x89PNG\r\n\x1a\nrest").unwrap();
                app.event::<WindPlan>(Event::Act(Act::Photo(photo.0.as_u128())))
                    .unwrap();
                assert!(app.note_on_step(&"long ".repeat(5_000)).is_err());
                drop(app);
                let html = render(folder.path());
                has(
                    &html,
                    &["One burr &#60;filed&#62; off", "Photo of this step", "Show the photo"],
                );
                app = AppState::open(folder.path());
                assert!(app.core_photos(curbcore::app::photo::MEASURED).unwrap().is_empty());
                app.undo();
                drop(app);
                assert!(!render(folder.path()).contains("One burr"), "the note was taken back");
                app = AppState::open(folder.path());
                app.redo();
            }
            WindStep::ProvePrimary => {
                drop(app);
                has(
                    &render(folder.path()),
                    &["Continuity and resistance", "Insulation resistance", "MΩ"],
                );
                app = AppState::open(folder.path());
                for act in proved(&plan) {
                    app.event::<WindPlan>(Event::Act(act)).unwrap();
                }
            }
            WindStep::WindTurns => {
                for _ in 0..plan.turns / 2 {
                    app.event::<WindPlan>(Event::Act(Act::Turn)).unwrap();
                }
                assert!(app.event::<WindPlan>(Event::Act(Act::Turn)).is_err(), "the tap first");
                drop(app);
                has(&render(folder.path()), &["Confirm: both ends out"]);
                app = AppState::open(folder.path());
                app.event::<WindPlan>(Event::Act(Act::LeadTapOut)).unwrap();
                for _ in 0..plan.turns / 2 {
                    app.event::<WindPlan>(Event::Act(Act::Turn)).unwrap();
                }
            }
            _ => {}
        }
    }
    drop(app);
    let html = render(folder.path());
    has(&html, &["That lug is the tap"]);
    assert!(!html.contains("One burr"), "the note is another step's");
}

/// A choke and a ballast are wound, too: no primary, the sheets of the gap by their number, and no weld
/// offered; then the bench's own stages wait.
#[test]
fn a_coil_is_wound_with_its_gap() {
    use curbcore::wind::{Act, Closing, Event, Fixing, WindPlan, WindStep};
    for word in ["choke", "ballast"] {
        let folder = tempfile::tempdir().unwrap();
        let mut app = AppState::open(folder.path());
        app.open_demo();
        app.choose_use(word);
        if word == "ballast" {
            // Of the demo's core, a current that it carries without end.
            let few = Entry {
                path: "goal.current_a",
                text: "4",
                plus_minus: "",
                origin: None,
            };
            assert_eq!(app.enter(&[few]), None);
        }
        app.go(Screen::Wind);
        drop(app);
        has(&render(folder.path()), &["Begin the winding"]);
        let mut app = AppState::open(folder.path());
        app.begin_winding();
        let plan = *app.run::<WindPlan>().unwrap().unwrap().plan();
        let sheets = plan.sheets.unwrap();
        let steps = app.run::<WindPlan>().unwrap().unwrap().steps();
        assert!(!steps.contains(&WindStep::ProvePrimary) && steps.contains(&WindStep::CutShims));
        for &step in &steps[1..] {
            wind_to(&mut app, step);
            match step {
                WindStep::WindTurns => {
                    for turn in 0..plan.turns {
                        app.event::<WindPlan>(Event::Act(Act::Turn)).unwrap();
                        if turn == plan.turns / 2 {
                            drop(app);
                            let html = render(folder.path());
                            has(
                                &html,
                                &["class=\"count-turn", "class=\"direction\"", "class=\"conductor-skin\""],
                            );
                            no_ids(&html);
                            app = AppState::open(folder.path());
                        }
                    }
                }
                WindStep::Choose => {
                    drop(app);
                    let html = render(folder.path());
                    assert!(!html.contains("Weld along the seam"), "{word}");
                    app = AppState::open(folder.path());
                    assert!(app.event::<WindPlan>(Event::Act(Act::Closing(Closing::Weld))).is_err());
                    for act in [Act::Closing(Closing::Strap), Act::Fixing(Fixing::Tape)] {
                        app.event::<WindPlan>(Event::Act(act)).unwrap();
                    }
                }
                _ => {}
            }
            drop(app);
            let html = render(folder.path());
            no_ids(&html);
            if step == WindStep::CutShims {
                assert!(sheets >= 1);
                has(&html, &["Under each limb: "]);
            }
            app = AppState::open(folder.path());
        }
        app.event::<WindPlan>(Event::Finish).unwrap();
        drop(app);
        has(&render(folder.path()), &["Wound", "Go to the bench"]);
    }
}

#[test]
fn a_winding_is_counted_turn_by_turn() {
    use curbcore::wind::{Act, Closing, Event, Fixing, Phase, WindPlan, WindStep};
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.choose_use("battery_charger");
    // Wire that goes in layers of several turns.
    let choice = {
        let answer = app.answer().unwrap().unwrap();
        let layered = answer
            .found
            .ranked
            .iter()
            .find(|found| found.layers.turns_per_layer > 3);
        curbcore::app::basis::as_choice(layered.unwrap(), &answer.problem.rebuild, &answer.catalogue)
    };
    app.choose(Some(choice));
    app.go(Screen::Wind);
    drop(app);
    has(&render(folder.path()), &["Winding, step by step", "Begin the winding"]);
    let mut app = AppState::open(folder.path());
    app.begin_winding();
    let steps = app.run::<WindPlan>().unwrap().unwrap().steps();
    let refused = app.event::<WindPlan>(Event::Go(WindStep::WindTurns));
    assert!(refused.is_err(), "no turn before what comes first");
    let mut turns = 0;
    for &step in &steps[1..] {
        wind_to(&mut app, step);
        let acts = match step {
            WindStep::ProvePrimary => proved(app.run::<WindPlan>().unwrap().unwrap().plan()).to_vec(),
            WindStep::Choose => vec![Act::Closing(Closing::Weld), Act::Fixing(Fixing::Tape)],
            _ => vec![],
        };
        for act in acts {
            app.event::<WindPlan>(Event::Act(act)).unwrap();
        }
        if step == WindStep::WindTurns {
            let plan = *app.run::<WindPlan>().unwrap().unwrap().plan();
            turns = plan.turns;
            for turn in 0..plan.turns {
                // Stopped and started again at any press: the count goes on.
                if turn % 7 == 3 {
                    drop(app);
                    app = AppState::open(folder.path());
                }
                if turn == plan.turns / 2 {
                    drop(app);
                    let html = render(folder.path());
                    has(
                        &html,
                        &[
                            &format!("Turn {turn} of {}", plan.turns),
                            "class=\"count-turn",
                            "Take a press back",
                            "class=\"direction\"",
                            "Wire left to wind",
                        ],
                    );
                    no_ids(&html);
                    app = AppState::open(folder.path());
                }
                app.event::<WindPlan>(Event::Act(Act::Turn)).unwrap();
            }
            let run = app.run::<WindPlan>().unwrap().unwrap();
            assert_eq!(run.facts().counter.turns(), plan.turns);
        }
        drop(app);
        let html = render(folder.path());
        has(&html, &["All winding steps"]);
        no_ids(&html);
        app = AppState::open(folder.path());
    }
    assert!(turns > 1);
    app.event::<WindPlan>(Event::Finish).unwrap();
    let run = app.run::<WindPlan>().unwrap().unwrap();
    assert!(matches!(run.phase(), Phase::Ended(_)));
    drop(app);
    has(&render(folder.path()), &["Wound", "Go to the bench"]);
}

/// The live view's states as a person meets them: the camera offered with the reason, asked for, on with the object
/// drawn and a hint, taking the picture, refused, absent, off. The file stands beside each of them.
#[test]
fn the_live_view_in_each_of_its_states() {
    use curbcore::app::photo::LiveSight;
    use curbcore::job::PhotoFound;
    use curbcore::photo::live::Hint;
    use curbcore::ui::LiveState;
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.go(Screen::Measure);
    app.toggle_panel("photo");
    drop(app);
    let show = |state: Option<LiveState>| {
        let mut dom = VirtualDom::new(App).with_root_context(DataFolder(folder.path().to_owned()));
        if let Some(state) = state {
            dom.provide_root_context(state);
        }
        dom.rebuild_in_place();
        let html = dioxus_ssr::render(&dom);
        keep(&html);
        has(&html, &["id=\"core-photo\""]);
        html
    };
    // Where a place has no camera for its screens, the file alone.
    assert!(!show(None).contains("id=\"live-"));
    let sight = |hint, outline| {
        LiveState::On(Some(LiveSight {
            frame: [640.0, 480.0],
            outline,
            hint,
            take: false,
        }))
    };
    let card = PhotoFound::Rectangle {
        corners: [[200.0, 150.0], [420.0, 160.0], [410.0, 300.0], [195.0, 290.0]],
    };
    let why = "No picture leaves this device.";
    let cases: [(LiveState, &[&str], &[&str]); 9] = [
        (LiveState::Closed, &[why, "Use the camera"], &["id=\"live-video\""]),
        (
            LiveState::Asking,
            &["Allow the camera when the browser asks"],
            &["id=\"live-video\"", "Use the camera"],
        ),
        (
            LiveState::On(None),
            &["id=\"live-video\"", "The camera is starting", "id=\"live-shutter\""],
            &["<path class=\"object"],
        ),
        (
            sight(Hint::Closer, Some(card.clone())),
            &[
                "id=\"live-video\"",
                "Move closer.",
                "M200.0 150.0L420.0 160.0",
                "0 0 640 480",
                "Close the camera",
            ],
            &["Use the camera"],
        ),
        (
            sight(Hint::Nothing, None),
            &["Not found. Show the whole object."],
            &["<path class=\"object"],
        ),
        (
            sight(Hint::Good, Some(card)),
            &["the picture takes itself", "class=\"object good\""],
            &[],
        ),
        (LiveState::Taking, &["Taking the picture", "id=\"live-video\""], &[]),
        (
            LiveState::Refused,
            &[
                "The camera was refused. Take or choose a photo below",
                why,
                "Use the camera",
            ],
            &["id=\"live-video\""],
        ),
        (
            LiveState::Absent,
            &["No camera was found. Take or choose a photo below"],
            &["id=\"live-video\""],
        ),
    ];
    for (state, there, absent) in cases {
        let html = show(Some(state.clone()));
        has(&html, there);
        for part in absent {
            assert!(!html.contains(part), "{state:?} shows {part}");
        }
    }
}
