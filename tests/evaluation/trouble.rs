//! A job that cannot be evaluated does not keep the app from starting, and can be put right.

use std::path::Path;

use curbcore::app::evaluation::{Evaluation, evaluate};
use curbcore::app::repair::SetBack;
use curbcore::app::workspace::Workspace;
use curbcore::job::{Choice, JobFile, JobId, Pinned, Placement, WireMetal};
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::store::{Op, Setting, Store};
use curbcore::ui::{App, AppState, DataFolder, EvaluateWith, Screen, Trouble};
use curbcore::wire::UnknownConductor;
use dioxus::prelude::VirtualDom;

/// The evaluation of a program with a fault: it falls over a tongue of more than 36 mm.
fn faulty(file: &JobFile) -> Result<Evaluation, UnknownConductor> {
    assert!(
        file.core.tongue_mm.value < 36.0,
        "a tongue of {}",
        file.core.tongue_mm.value
    );
    evaluate(file)
}

fn render(folder: &Path) -> String {
    let mut dom = VirtualDom::new(App)
        .with_root_context(DataFolder(folder.to_owned()))
        .with_root_context(EvaluateWith(faulty));
    dom.rebuild_in_place();
    let html = dioxus_ssr::render(&dom);
    // For a person to look at (`platform/look.sh`).
    let place = Path::new(env!("CARGO_MANIFEST_DIR")).join("artefacts/html");
    let page = format!(
        "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" \
         content=\"width=device-width\"></head><body><div id=\"main\">{html}</div></body></html>"
    );
    if std::fs::create_dir_all(&place).is_ok() {
        let _ = std::fs::write(place.join("job-in-trouble.html"), page);
    }
    html
}

/// A shelf with the demo and a job that `faulty` falls over, which was open last.
fn with_fault() -> (tempfile::TempDir, JobId) {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    app.start_job("Wide tongue", &OUTLETS[0]);
    let job = app.job_id().unwrap();
    app.set_core(Op::Lengths, |core| core.tongue_mm.value = 40.0);
    app.go(Screen::Rewind);
    (folder, job)
}

#[test]
fn the_app_opens_on_the_shelf_and_names_the_job() {
    let (folder, job) = with_fault();
    let html = render(folder.path());
    for part in [
        "&quot;Wide tongue&quot; cannot be calculated",
        "a tongue of 40",
        "Repair the job",
        "Demo: tab welder",
    ] {
        let part = part.replace("&quot;", "\"");
        assert!(
            html.replace("&#34;", "\"").replace("&quot;", "\"").contains(&part),
            "{part} is missing in {html}"
        );
    }
    let app = AppState::open_with(folder.path(), faulty);
    assert_eq!(app.screen(), Screen::Home);
    assert_eq!(app.troubled(), None, "the shelf is where the person was now");
    assert!(!app.has_job() && app.failure().is_none());
    drop(app);
    let mut app = AppState::open_with(folder.path(), faulty);
    app.open_job(job, Screen::Measure);
    let troubled = app.troubled().unwrap();
    assert_eq!((troubled.job, troubled.name.as_str()), (job, "Wide tongue"));
    assert_eq!(troubled.why, Trouble::Fault("a tongue of 40".to_owned()));
}

#[test]
fn a_job_in_trouble_is_saved_repaired_or_removed() {
    let (folder, job) = with_fault();
    let mut app = AppState::open_with(folder.path(), faulty);
    let place = app.save_troubled().unwrap();
    let saved = std::fs::read_to_string(place.join("job.json")).unwrap();
    assert_eq!(JobFile::parse(&saved).unwrap().core.tongue_mm.value, 40.0);

    assert_eq!(app.repair(), Some(SetBack::Measures));
    assert_eq!((app.screen(), app.troubled()), (Screen::Measure, None));
    assert!(app.file().unwrap().core.tongue_mm.value < 36.0);
    assert_eq!(app.file().unwrap().name, "Wide tongue");
    app.undo();
    let troubled = app.troubled().unwrap();
    assert_eq!(troubled.job, job);
    assert_eq!(
        app.file().unwrap().core.tongue_mm.value,
        40.0,
        "undo brings the old values back"
    );

    app.remove_troubled();
    assert_eq!((app.screen(), app.troubled()), (Screen::Home, None));
    assert_eq!(app.jobs().unwrap().1, 1, "the demo is left");
    app.undo();
    assert_eq!(app.jobs().unwrap().1, 2);
}

/// A change that leads to a fault is told at once, with the way back; the start after it goes to the shelf.
#[test]
fn a_change_that_leads_to_a_fault_can_be_undone() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open_with(folder.path(), faulty);
    app.open_demo();
    app.go(Screen::Measure);
    app.set_core(Op::Lengths, |core| core.tongue_mm.value = 40.0);
    assert!(matches!(app.troubled().unwrap().why, Trouble::Fault(_)));
    assert_eq!(app.screen(), Screen::Measure);
    drop(app);
    let mut app = AppState::open_with(folder.path(), faulty);
    assert_eq!(app.screen(), Screen::Home);
    app.undo();
    let job = app.troubled().unwrap().job;
    app.open_job(job, Screen::Measure);
    assert_eq!(app.troubled(), None);
    assert!(app.has_job());
}

/// The same by a value that no program can use: a winding of a wire that no table has.
#[test]
fn a_winding_of_an_unknown_wire_is_repaired() {
    let folder = tempfile::tempdir().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    let job = workspace.open_demo().unwrap();
    let choice = Choice {
        turns: 12,
        conductor: "no-such-wire".to_owned(),
        parallel: 1,
        metal: WireMetal::Copper,
        placement: Placement::BesidePrimary,
        ground_mm: 1.0,
        interlayer_mm: 0.2,
        pinned: Pinned::default(),
    };
    workspace.choose(job, Some(choice)).unwrap();
    workspace
        .set_setting(Setting::Place, &format!("rewind {job} -"))
        .unwrap();
    drop(workspace);
    let mut app = AppState::open(folder.path());
    assert_eq!(app.screen(), Screen::Home);
    assert!(matches!(app.troubled().unwrap().why, Trouble::Value(what) if what.contains("no-such-wire")));
    assert_eq!(app.repair(), Some(SetBack::Winding));
    assert_eq!(app.file().unwrap().choice, None);
}

/// A stop that nothing can catch, such as an endless loop that the person ends: the mark of the start is
/// still there, and the next start does not open the job.
#[test]
fn a_start_that_never_ended_is_not_tried_again() {
    let (folder, job) = with_fault();
    let mut app = AppState::open(folder.path());
    assert!(app.is_starting() && app.has_job());
    let marked = Workspace::open_read_only(folder.path())
        .unwrap()
        .store()
        .setting(Setting::Place)
        .unwrap()
        .unwrap();
    assert_eq!(marked, format!("opening rewind {job} -"));
    app.settle_start();
    drop(app);
    Workspace::open(folder.path())
        .unwrap()
        .set_setting(Setting::Place, &marked)
        .unwrap();

    let mut app = AppState::open(folder.path());
    assert_eq!(app.screen(), Screen::Home);
    let troubled = app.troubled().unwrap();
    assert_eq!((troubled.job, troubled.why), (job, Trouble::Interrupted));
    app.open_troubled();
    assert_eq!((app.screen(), app.troubled()), (Screen::Measure, None));
}

/// A job that is gone is no trouble.
#[test]
fn a_place_on_a_job_that_is_gone_is_the_shelf() {
    let folder = tempfile::tempdir().unwrap();
    for mark in ["", "opening "] {
        let place = format!("{mark}rewind 018f0000-0000-7000-8000-000000000001 -");
        Workspace::open(folder.path())
            .unwrap()
            .set_setting(Setting::Place, &place)
            .unwrap();
        let app = AppState::open(folder.path());
        assert_eq!((app.screen(), app.troubled(), app.notice()), (Screen::Home, None, None));
    }
}

#[test]
fn a_wire_of_another_version_keeps_no_job_from_its_answer() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = AppState::open(folder.path());
    app.open_demo();
    let mut file = app.file().unwrap().clone();
    drop(app);
    "mm2-35-woven".clone_into(&mut file.stock[0].conductor);
    file.name = "From a newer version".to_owned();
    Store::open(folder.path()).unwrap().import_job_file(&file).unwrap();
    let app = AppState::open(folder.path());
    assert!(app.answer().unwrap().is_ok());
    let unknown: Vec<_> = app.stock().unwrap().into_iter().filter(|(.., known)| !known).collect();
    assert_eq!(unknown.len(), 1);
    assert_eq!(unknown[0].1, "mm2-35-woven");
}
