//! What a person enters and chooses: nothing that was meant is lost, and nothing is done unasked.

use curbcore::app::start::goal_of;
use curbcore::app::sync::Sending;
use curbcore::app::voided::Voided;
use curbcore::app::workspace::{Entry, Workspace, outlet_of};
use curbcore::job::{Goal, JobFile, Reading};
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::quantity::{LengthUnit, Origin};
use curbcore::ui::{AppState, Asked, Screen};

fn entry<'a>(path: &'a str, text: &'a str, plus_minus: &'a str, origin: Option<Origin>) -> Entry<'a> {
    Entry {
        path,
        text,
        plus_minus,
        origin,
    }
}

#[test]
fn a_value_equal_to_the_usual_one_counts_as_measured() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_job("New", &OUTLETS[0]);
    let width = |app: &AppState| app.file().unwrap().core.window_width_mm;
    assert_eq!(width(&app), Reading::new(18.0, 3.0, Origin::Typical));
    assert_eq!(app.enter_number(&entry("core.window_width_mm", "18", "", None)), None);
    assert_eq!(width(&app), Reading::new(18.0, 0.2, Origin::Calipers));
}

/// A tool chosen beside a value that stays has the ± of that tool.
#[test]
fn a_tool_sets_its_usual_spread() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_job("New", &OUTLETS[0]);
    for (origin, plus_minus) in [
        (Origin::Calipers, 0.2),
        (Origin::Rule, 1.0),
        (Origin::Photo, 0.5),
        (Origin::Typical, 3.6),
    ] {
        let refused = app.enter_number(&entry("core.window_width_mm", "18", "", Some(origin)));
        assert_eq!(refused, None);
        let held = app.file().unwrap().core.window_width_mm;
        assert_eq!((held.origin, held.value), (origin, 18.0));
        assert!((held.plus_minus - plus_minus).abs() < 1e-9, "{held:?}");
    }
    // A job file judges alike.
    let text = app.file().unwrap().to_json();
    let mut document: serde_json::Value = serde_json::from_str(&text).unwrap();
    document["core"]["window_width_mm"] = serde_json::json!({ "value": 18.0, "origin": "rule" });
    let read = JobFile::parse(&document.to_string()).unwrap();
    assert_eq!(read.core.window_width_mm, Reading::new(18.0, 1.0, Origin::Rule));
}

/// The test turn is one of a low isolated source: mains at the primary is refused with the range.
#[test]
fn a_test_turn_takes_no_mains_voltage() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let path = "core.primary.test_turn.primary_volts";
    assert_eq!(app.enter_number(&entry(path, "23.8", "", None)), None);
    for volts in ["118", "230"] {
        let message = app.enter_number(&entry(path, volts, "", None)).expect("it is refused");
        assert!(message.contains("0.5") && message.contains("30"), "{message}");
    }
    assert_eq!(
        app.file().unwrap().core.primary.test_turn.unwrap().primary_volts.value,
        23.8
    );
}

#[test]
fn a_spread_that_is_too_wide_names_the_field_and_its_range() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let before = app.file().unwrap().core.tongue_mm;
    let message = app.enter_number(&entry("core.tongue_mm", "35", "70", None)).unwrap();
    assert_eq!(message, "± of Tongue width 70 is out of range: 0 to 35 mm");
    assert_eq!(app.file().unwrap().core.tongue_mm, before);
}

#[test]
fn going_back_to_a_use_brings_its_targets_and_its_winding_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    assert_eq!(app.enter_number(&entry("goal.weld_current_a", "420", "", None)), None);
    let best = app.answer().unwrap().unwrap().found.ranked[1];
    app.choose_candidate(&best);
    let (goal, choice) = (app.file().unwrap().goal, app.file().unwrap().choice.clone());
    assert!(choice.is_some());
    for word in ["battery_charger", "choke", "stick_welder"] {
        app.choose_use(word);
        assert_eq!(app.file().unwrap().goal, goal_of(word));
        assert_eq!(app.file().unwrap().choice, None);
    }
    assert_eq!(app.enter_number(&entry("goal.arc_current_a", "55", "", None)), None);
    drop(app);
    let mut app = AppState::open(folder.path());
    app.choose_use("spot_welder");
    assert_eq!((app.file().unwrap().goal, &app.file().unwrap().choice), (goal, &choice));
    app.choose_use("stick_welder");
    assert!(matches!(app.file().unwrap().goal, Goal::StickWelder { arc_current_a, .. } if arc_current_a == 55.0));
    // The file that travels keeps them too, and judges them.
    let text = app.file().unwrap().to_json();
    assert_eq!(&JobFile::parse(&text).unwrap(), app.file().unwrap());
    let wrong = text.replace("\"weld_current_a\": 420.0", "\"weld_current_a\": 1e9");
    assert_ne!(wrong, text);
    assert!(JobFile::parse(&wrong).is_err());
}

/// A change by a screen.
type Change<'a> = &'a dyn Fn(&mut AppState);

#[test]
fn tests_are_not_voided_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.begin_tests();
    let goal = app.file().unwrap().goal;
    let before = app.file().unwrap().clone();
    let other = app.answer().unwrap().unwrap().found.ranked[2];
    let changes: [(&str, Change<'_>); 7] = [
        ("a use", &|app| app.choose_use("choke")),
        ("a winding", &|app| app.choose_candidate(&other)),
        ("a number of the core", &|app| {
            assert_eq!(app.enter_number(&entry("core.stack_mm", "60", "", None)), None);
        }),
        ("several numbers at once", &|app| {
            assert_eq!(app.enter(&[entry("core.stack_mm", "61", "", None)]), None);
        }),
        ("the outlet", &|app| {
            app.set_outlet(&curbcore::magnetics::circuit::mains::OUTLETS[1]);
        }),
        ("the shunts", &|app| {
            app.set_core(curbcore::store::Op::Shunts, |core| core.shunts_kept = !core.shunts_kept);
        }),
        ("lengths of a photo", &|app| {
            let stack = curbcore::job::Reading::new(58.0, 1.0, curbcore::quantity::Origin::Photo);
            app.take_lengths(&[("core.stack_mm", stack)]);
        }),
    ];
    for (what, change) in changes {
        change(&mut app);
        assert!(matches!(app.asked(), Some(Asked::Change(_))), "{what} is asked about");
        assert_eq!(app.file(), Some(&before), "{what} waits for the answer");
        app.ask_no_more();
        assert!(!outdated(&app), "{what}");
    }
    assert!(
        app.enter_number(&entry("goal.weld_current_a", "0.0001", "", None))
            .is_some()
    );
    assert_eq!(app.asked(), None, "what is refused is not asked about");
    // What proves the same winding as before is stored at once.
    app.set_note("A note");
    assert_eq!((app.asked(), app.file().unwrap().note.as_str()), (None, "A note"));

    // On "Change the winding" it is stored as it was typed, as one step of undo.
    assert_eq!(app.enter_number(&entry("core.stack_mm", "60", "", None)), None);
    app.answer_yes();
    assert_eq!(app.file().unwrap().core.stack_mm.value, 60.0);
    assert!(outdated(&app));
    app.undo();
    assert!(!outdated(&app));
    app.choose_use("plain_supply");
    app.answer_yes();
    assert_eq!(app.file().unwrap().goal.word(), "plain_supply");
    assert!(outdated(&app));
    // Nothing counts any more, so nothing is asked; and back it counts again.
    app.choose_use("spot_welder");
    assert_eq!((app.file().unwrap().goal, app.asked()), (goal, None));
    assert!(!outdated(&app));
}

/// What would count no more, by the question that stands open.
fn lost(app: &AppState) -> Vec<(String, Option<usize>, bool)> {
    let Some(Asked::Change(asked)) = app.asked() else {
        return Vec::new();
    };
    let lost = asked.voided.iter();
    lost.map(|one| (one.name.clone(), one.tests, one.winding)).collect()
}

/// Whether the tests of the job in hand prove another winding than today's.
fn outdated(app: &AppState) -> bool {
    let planned = app.planned().and_then(Result::ok);
    app.tests(planned.as_ref()).unwrap().unwrap().outdated
}

/// Undo and redo change the winding as any change does.
#[test]
fn undo_and_redo_ask_before_they_void_tests() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let stack = |app: &AppState| app.file().unwrap().core.stack_mm.value;
    let before = stack(&app);
    assert_eq!(app.enter_number(&entry("core.stack_mm", "60", "", None)), None);
    app.begin_tests();
    let name = app.file().unwrap().name.clone();
    app.undo();
    assert_eq!(lost(&app), [(name.clone(), Some(0), false)]);
    assert_eq!((stack(&app), outdated(&app)), (60.0, false), "it waits for the answer");
    app.ask_no_more();
    assert_eq!(stack(&app), 60.0);
    app.undo();
    app.answer_yes();
    assert_eq!((stack(&app), outdated(&app)), (before, true));
    // Nothing counts any more, so nothing is asked; and with redo it counts again.
    app.redo();
    assert_eq!((app.asked(), stack(&app), outdated(&app)), (None, 60.0, false));
    // Tests of what undo brought back are voided by redo.
    app.undo();
    app.answer_yes();
    app.begin_tests();
    app.redo();
    assert_eq!(lost(&app), [(name, Some(0), false)]);
    assert_eq!((stack(&app), outdated(&app)), (before, false));
    app.answer_yes();
    assert_eq!((stack(&app), outdated(&app)), (60.0, true));
}

/// A wire on the shelf may be wound in place of the best that was found, and one that is gone may not.
#[test]
fn a_wire_on_the_shelf_asks_before_it_voids_tests() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let shelf = |app: &AppState| app.stock().unwrap().len();
    let (cable, _, metres, _) = app.stock().unwrap().remove(0);
    app.remove_stock(cable);
    app.begin_tests();
    assert_eq!((shelf(&app), outdated(&app)), (0, false));
    // A thin wire is no better: the design stays, and nothing is asked.
    assert_eq!(app.add_stock("own-0.30-0.34", "20"), None);
    assert_eq!((app.asked(), shelf(&app), outdated(&app)), (None, 1, false));
    assert_eq!(app.add_stock("own-80mm2-13.0", &format!("{metres}")), None);
    assert_eq!(lost(&app).len(), 1, "a cable that the window takes");
    assert_eq!((shelf(&app), outdated(&app)), (1, false), "it waits for the answer");
    app.answer_yes();
    assert_eq!((shelf(&app), outdated(&app)), (2, true));
    app.begin_tests();
    let (long, ..) = app.stock().unwrap().remove(1);
    app.remove_stock(long);
    assert_eq!(lost(&app).len(), 1, "the cable that is to be wound");
    assert_eq!((shelf(&app), outdated(&app)), (2, false));
    assert!(
        app.add_stock("no such wire", "1").is_some(),
        "what is refused says so at once"
    );
}

/// A winding that was begun is of one design.
#[test]
fn a_winding_under_way_is_not_voided_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let best = app.answer().unwrap().unwrap().found.ranked[0];
    app.choose_candidate(&best);
    app.begin_winding();
    assert!(app.winds_todays_design());
    let name = app.file().unwrap().name.clone();
    let other = app.answer().unwrap().unwrap().found.ranked[2];
    let changes: [Change<'_>; 3] = [
        &|app| app.choose_candidate(&other),
        &|app| app.choose_use("choke"),
        &|app| assert_eq!(app.enter_number(&entry("core.stack_mm", "60", "", None)), None),
    ];
    for change in changes {
        change(&mut app);
        assert_eq!(lost(&app), [(name.clone(), None, true)]);
        assert!(app.winds_todays_design());
        app.ask_no_more();
    }
    app.choose_candidate(&other);
    app.answer_yes();
    assert!(!app.winds_todays_design());
    // With undo it is the winding of today again: nothing is lost.
    app.undo();
    assert!(app.asked().is_none() && app.winds_todays_design());
}

/// A file from another device says before it is taken in which tests here it voids.
#[test]
fn the_preview_of_a_file_says_which_tests_it_voids() {
    let [mine, theirs, carried] = [(); 3].map(|()| tempfile::tempdir().unwrap());
    let file = carried.path().join("shelf.curbcore");
    let mut app = AppState::open(mine.path());
    app.open_demo();
    let mut here = app.take_workspace().unwrap();
    here.export_shelf(&file, &Sending::All, None, |_| ()).unwrap();
    let mut there = Workspace::open(theirs.path()).unwrap();
    there.import_shelf(&file, None, |_| ()).unwrap();
    let job = there.store().job_summaries(1, None).unwrap()[0].id;
    there
        .set_number(job, &entry("core.stack_mm", "60", "", None), LengthUnit::Millimetre)
        .unwrap();
    there.export_shelf(&file, &Sending::All, None, |_| ()).unwrap();
    let seen = here.preview_shelf(&file, None, |_| ()).unwrap();
    assert_eq!(seen.voided, [], "no tests have begun");
    app.restore_workspace(here);
    app.begin_tests();
    let before = app.file().unwrap().clone();
    let mut here = app.take_workspace().unwrap();
    let seen = here.preview_shelf(&file, None, |_| ()).unwrap();
    let voided = Voided {
        job,
        name: before.name.clone(),
        tests: Some(0),
        winding: false,
    };
    assert_eq!(seen.voided, [voided]);
    app.restore_workspace(here);
    assert_eq!(
        (app.file().unwrap(), outdated(&app)),
        (&before, false),
        "a preview changes nothing"
    );
    let mut here = app.take_workspace().unwrap();
    here.import_shelf(&file, None, |_| ()).unwrap();
    app.restore_workspace(here);
    assert!(outdated(&app));
}

#[test]
fn a_job_from_a_core_asks_for_the_outlet() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.start_find("Oven, 12:00", Screen::SizeUp);
    app.go(Screen::Teardown);
    let donor = app.donor_id().unwrap();
    app.start_job_from_donor();
    assert_eq!(app.asked(), Some(Asked::Outlet(donor)));
    assert!(!app.has_job(), "no outlet is taken for granted");
    let outlet = outlet_of("schuko-16");
    let european = OUTLETS.iter().find(|outlet| outlet.volts > 200.0).unwrap_or(outlet);
    app.start_job_with(donor, european);
    assert_eq!(
        app.screen(),
        Screen::Teardown,
        "its step Measure takes the numbers in place"
    );
    let file = app.file().unwrap();
    assert_eq!(
        (file.mains.volts.value, f64::from(file.mains.hertz)),
        (european.volts, european.hertz)
    );
    assert_eq!(file.core.primary.rated_volts, european.volts);
    drop(app);
    let mut app = AppState::open(folder.path());
    assert_eq!(app.outlet(), european, "the next job begins with it");
    app.start_job_from_donor();
    assert_eq!(app.outlet_of_donor(donor), european);
}

#[test]
fn a_wrong_file_is_refused_without_the_words_of_a_library() {
    let folder = tempfile::tempdir().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    for (name, bytes) in [
        ("picture.jpg", &[0xff_u8, 0xd8, 0xff, 0xe0, 0, 16][..]),
        ("empty.curbshelf", &[]),
        ("cut.curbshelf", b"PK\x03\x04\x14\x00"),
        ("text.txt", b"Dear all, here is the shelf."),
    ] {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        let message = workspace.preview_shelf(&path, None, |_| ()).unwrap_err().to_string();
        assert!(
            message.starts_with("this ") && message.contains("shelf file"),
            "{message}"
        );
        for word in ["Zip archive", "EOCD", "io error", "UnexpectedEof", "fill whole buffer"] {
            assert!(!message.contains(word), "{message}");
        }
    }
}
