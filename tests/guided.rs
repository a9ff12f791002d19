//! The guided parts end to end, without a window: a find from the curb to a core on the shelf,
//! the tests of a rebuilt one, and what is left of both after the device died.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use std::path::Path;

use curbcore::app::guided::Blocked;
use curbcore::app::workspace::Workspace;
use curbcore::bench::{self, Stage, Status};
use curbcore::job::{DonorId, Sign};
use curbcore::quantity::{Resistance, Temperature, Voltage};
use curbcore::safety::{Gate, Item, Moment, TouchLimit};
use curbcore::sizeup::VerdictWord;
use curbcore::store::Op;
use curbcore::teardown::{Act, Event, Finding, Phase, Proof, Refusal, ShuntFate, Step, Supply, Way, Winding};
use curbcore::text::Texts;
use curbcore::wire::Metal;

const NOON: Moment = Moment {
    unix_ms: 1_700_000_000_000,
    local_day: 19_675,
};

fn later(minutes: i64) -> Moment {
    Moment {
        unix_ms: NOON.unix_ms + minutes * 60_000,
        ..NOON
    }
}

fn proof(volts: f64) -> Proof {
    let volts = Voltage::from_si(volts);
    Proof {
        between: volts,
        first_to_chassis: volts,
        second_to_chassis: volts,
        limit: TouchLimit::default(),
    }
}

/// Holds every item of every gate before a step, then goes there.
fn go(workspace: &mut Workspace, donor: DonorId, step: Step, at: Moment) {
    while let Some(gate) = workspace.teardown(donor).unwrap().gate_before(step, at) {
        let confirmed = workspace.teardown(donor).unwrap().confirmed(step, gate, at);
        let item = gate.items()[confirmed.len()];
        let event = if item == Item::ProvedByMeter {
            Event::Act(Act::Prove(proof(0.4)))
        } else {
            Event::Confirm { toward: step, item }
        };
        workspace.event(donor, event, at).unwrap();
    }
    workspace.event(donor, Event::Go(step), at).unwrap();
}

fn find(finding: Finding, workspace: &mut Workspace, donor: DonorId, at: Moment) {
    workspace.event(donor, Event::Act(Act::Found(finding)), at).unwrap();
}

/// A donor taken apart as far as the way into the core.
fn up_to_the_core(folder: &Path) -> (Workspace, DonorId) {
    let mut workspace = Workspace::open(folder).unwrap();
    let donor = workspace.start_donor("White one").unwrap();
    for step in [Step::Unplug, Step::Open] {
        go(&mut workspace, donor, step, NOON);
    }
    find(Finding::Supply(Supply::Transformer), &mut workspace, donor, NOON);
    for step in [
        Step::CapacitorSafe,
        Step::Disconnect,
        Step::Unbolt,
        Step::KeepParts,
        Step::Inspect,
    ] {
        go(&mut workspace, donor, step, NOON);
    }
    find(Finding::WindingAtBack(Winding::Primary), &mut workspace, donor, NOON);
    find(Finding::PrimaryMetal(Metal::Aluminium), &mut workspace, donor, NOON);
    go(&mut workspace, donor, Step::ChooseWay, NOON);
    find(Finding::Way(Way::Hacksaw), &mut workspace, donor, NOON);
    find(Finding::Shunts(ShuntFate::Keep), &mut workspace, donor, NOON);
    (workspace, donor)
}

#[test]
fn a_verdict_from_three_signs_and_it_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    let donor = workspace.start_donor("At the curb").unwrap();
    let word = |workspace: &Workspace| {
        let record = workspace.store().donor(donor).unwrap().body;
        workspace.verdict(Some(donor), &record).unwrap().answer.verdict
    };
    assert_eq!(word(&workspace), VerdictWord::LookCloser, "nothing is known yet");
    workspace
        .set_donor(donor, Op::Seen, |d| {
            d.look.signs.insert(Sign::CoreSeen, true);
        })
        .unwrap();
    assert_eq!(word(&workspace), VerdictWord::Take);
    workspace
        .set_donor(donor, Op::Seen, |d| {
            d.look.signs.clear();
            d.look.signs.insert(Sign::Word, true);
            d.look.signs.insert(Sign::BoardSeen, true);
        })
        .unwrap();
    assert_eq!(word(&workspace), VerdictWord::TakeForParts);
    drop(workspace);
    let mut workspace = Workspace::open(folder.path()).unwrap();
    assert_eq!(word(&workspace), VerdictWord::TakeForParts, "it is on the disk");
    workspace.undo().unwrap();
    assert_eq!(word(&workspace), VerdictWord::Take, "undo takes one answer back");
}

#[test]
fn a_core_comes_out_through_its_gates_and_starts_a_job() {
    let folder = tempfile::tempdir().unwrap();
    let (mut workspace, donor) = up_to_the_core(folder.path());
    for step in [
        Step::Split,
        Step::Warm,
        Step::Remove,
        Step::Clean,
        Step::Measure,
        Step::Store,
    ] {
        go(&mut workspace, donor, step, later(30));
    }
    workspace.event(donor, Event::Finish, later(40)).unwrap();
    let job = workspace
        .start_job_from(donor, "Its core", &curbcore::magnetics::circuit::mains::OUTLETS[0])
        .unwrap();
    let file = workspace.store().job_file(job).unwrap();
    assert_eq!(file.donor.as_ref().map(|d| d.name.as_str()), Some("White one"));
    assert!(file.core.shunts_kept, "the shunts that the teardown keeps");
    assert_eq!(file.core.primary.metal, curbcore::job::PrimaryMetal::Aluminium);
    assert_eq!(workspace.store().donor_of(job).unwrap(), Some(donor));
    assert_eq!(workspace.store().jobs_from(donor).unwrap(), [job]);
}

/// Takes an oven apart as a careful person does in one go, with what the screens offer: repeated gates are
/// renewed by one hold, all others held item by item.
fn take_apart(workspace: &mut Workspace, donor: DonorId, way: Way, at_back: Winding) {
    let mut minute = 0;
    loop {
        minute += 1;
        let at = later(minute);
        let state = workspace.teardown(donor).unwrap();
        let here = state.step(at);
        let findings = match here {
            Step::Open => vec![Finding::Supply(Supply::Transformer)],
            Step::Inspect => vec![Finding::WindingAtBack(at_back)],
            Step::ChooseWay => vec![Finding::Way(way), Finding::Shunts(ShuntFate::LeaveOut)],
            _ => vec![],
        };
        for finding in findings {
            find(finding, workspace, donor, at);
        }
        let state = workspace.teardown(donor).unwrap();
        let Some(toward) = state.next(here) else {
            workspace.event(donor, Event::Finish, at).unwrap();
            return;
        };
        if !state.repeated(toward, at).is_empty() {
            workspace.event(donor, Event::Renew { toward }, at).unwrap();
        }
        go(workspace, donor, toward, at);
    }
}

/// From the demo's closed oven to its clean core put away, a button is held at most thirty times, and
/// each gate that the steps ask for was confirmed item by item at least once.
#[test]
fn the_demos_teardown_takes_at_most_thirty_holds() {
    for way in [Way::Hacksaw, Way::DriveOut] {
        let folder = tempfile::tempdir().unwrap();
        let mut workspace = Workspace::open(folder.path()).unwrap();
        let job = workspace.open_demo().unwrap();
        let donor = workspace.store().donor_of(job).unwrap().expect("the demo has its oven");
        assert_eq!(workspace.teardown(donor).unwrap().history(), [], "it begins closed");
        take_apart(&mut workspace, donor, way, Winding::Primary);
        let state = workspace.teardown(donor).unwrap();
        assert_eq!(state.phase(), Phase::Ended(curbcore::teardown::End::Stored));
        let holds = state
            .history()
            .iter()
            .filter(|entry| {
                matches!(
                    entry.event,
                    Event::Confirm { .. } | Event::Act(Act::Prove(_)) | Event::Renew { .. }
                )
            })
            .count();
        println!("{way:?}: {holds} holds");
        assert!(holds <= 30, "{way:?}: {holds} holds");
        for step in state.steps() {
            for item in step.guide(state.findings()).gates.iter().flat_map(|gate| gate.items()) {
                let held = state.history().iter().any(|entry| match entry.event {
                    Event::Confirm { item: held, .. } => held == *item,
                    Event::Act(Act::Prove(_)) => *item == Item::ProvedByMeter,
                    _ => false,
                });
                assert!(held, "{item:?} before {step:?}");
            }
        }
    }
}

/// The page asks to close a core that the teardown opened, and to leave alone one that was kept whole; to
/// put back a primary that came off, and says nothing of one that stayed.
#[test]
fn the_order_of_work_follows_the_teardown() {
    let texts = curbcore::text::Texts::english().unwrap();
    let says = |page: &str, key: &str| page.contains(&texts.text(key));
    let closing = ["page-work-close", "page-work-close-whole", "page-work-close-if-opened"];
    let primary = ["page-work-primary-back", "page-work-primary-back-if-off"];
    for (way, at_back, close, back) in [
        (Way::Hacksaw, Winding::HighVoltage, Some(0), Some(0)),
        (Way::Hacksaw, Winding::Primary, Some(0), None),
        (Way::DriveOut, Winding::HighVoltage, Some(1), None),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let mut workspace = Workspace::open(folder.path()).unwrap();
        let job = workspace.open_demo().unwrap();
        let page = |workspace: &Workspace| {
            let answer = curbcore::app::evaluation::evaluate(&workspace.store().job_file(job).unwrap())
                .unwrap()
                .from_teardown(workspace.core_findings(job));
            curbcore::report::page(&answer, None, &[], curbcore::quantity::LengthUnit::Millimetre).unwrap()
        };
        let unknown = page(&workspace);
        assert!(
            says(&unknown, closing[2]) && says(&unknown, primary[1]),
            "nothing says so"
        );
        let donor = workspace.store().donor_of(job).unwrap().unwrap();
        take_apart(&mut workspace, donor, way, at_back);
        let page = page(&workspace);
        for (at, key) in closing.iter().enumerate() {
            assert_eq!(says(&page, key), close == Some(at), "{way:?} {at_back:?} {key}");
        }
        for (at, key) in primary.iter().enumerate() {
            assert_eq!(says(&page, key), back == Some(at), "{way:?} {at_back:?} {key}");
        }
    }
}

/// The device dies at any moment: the next start stands at the same step with the same gates.
#[test]
fn it_stands_where_it_stood_after_the_device_died() {
    let folder = tempfile::tempdir().unwrap();
    let (workspace, donor) = up_to_the_core(folder.path());
    let before = workspace.teardown(donor).unwrap();
    drop(workspace);
    let workspace = Workspace::open(folder.path()).unwrap();
    let after = workspace.teardown(donor).unwrap();
    assert_eq!(after, before);
    assert_eq!(after.step(later(1)), Step::ChooseWay);
    assert!(after.passed(Step::Disconnect, Gate::Capacitor, later(1)).is_some());
}

/// The next day, and after the donor was plugged in, the stored pass of the capacitor's gate is
/// worth nothing.
#[test]
fn a_stored_pass_expires() {
    let folder = tempfile::tempdir().unwrap();
    let (mut workspace, donor) = up_to_the_core(folder.path());
    let tomorrow = Moment {
        unix_ms: NOON.unix_ms + 86_400_000,
        local_day: NOON.local_day + 1,
    };
    let state = workspace.teardown(donor).unwrap();
    assert_eq!(state.passed(Step::Disconnect, Gate::Capacitor, tomorrow), None);
    assert!(matches!(
        workspace.event(donor, Event::Go(Step::Disconnect), tomorrow),
        Err(Blocked::Refused(
            Refusal::GateNeeded { .. } | Refusal::NotFromHere { .. }
        ))
    ));
    workspace.event(donor, Event::Act(Act::PluggedIn), later(2)).unwrap();
    let state = workspace.teardown(donor).unwrap();
    assert_eq!(state.passed(Step::Disconnect, Gate::Capacitor, later(3)), None);
    // The transformer lies on the bench by then; back in the oven nothing opens without its gates.
    assert!(matches!(
        workspace.event(donor, Event::Go(Step::Disconnect), later(3)),
        Err(Blocked::Refused(Refusal::GateNeeded { .. }))
    ));
}

/// Undo is for records. It gives no gate back, and the removal of a donor brings its history
/// back as it was.
#[test]
fn undo_never_passes_a_gate() {
    let folder = tempfile::tempdir().unwrap();
    let (mut workspace, donor) = up_to_the_core(folder.path());
    let before = workspace.teardown(donor).unwrap();
    workspace.remove_donor(donor).unwrap();
    assert!(workspace.store().donor(donor).is_err());
    workspace.undo().unwrap();
    assert_eq!(workspace.teardown(donor).unwrap(), before);
    workspace.restart_teardown(donor).unwrap();
    assert_eq!(workspace.teardown(donor).unwrap().step(NOON), Step::Prepare);
    workspace.undo().unwrap();
    assert_eq!(workspace.teardown(donor).unwrap(), before);
    workspace.event(donor, Event::Act(Act::PluggedIn), later(1)).unwrap();
    while workspace.undo().unwrap().is_some() {}
    while workspace.redo().unwrap().is_some() {}
    let state = workspace.teardown(donor).unwrap();
    assert_eq!(state.passed(Step::Disconnect, Gate::Capacitor, later(2)), None);
}

/// A line written into the file by hand: the history is refused, and nothing hazardous opens.
#[test]
fn a_forged_history_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    let donor = workspace.start_donor("Forged").unwrap();
    workspace.event(donor, Event::Go(Step::Unplug), NOON).unwrap();
    drop(workspace);
    let file = std::fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .find(|path| path.extension().is_some_and(|e| e == "db"))
        .expect("the data file");
    let forged = rusqlite::Connection::open(file).unwrap();
    let line = format!("{} {} go unbolt", NOON.unix_ms, NOON.local_day);
    forged
        .execute(
            "INSERT INTO teardown_entry (donor_id, line) SELECT id, ?1 FROM donor",
            [line],
        )
        .unwrap();
    forged.close().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    let error = Texts::english()
        .unwrap()
        .explain(&workspace.teardown(donor).unwrap_err());
    assert!(error.contains("damaged at entry 1"), "{error}");
    assert!(workspace.event(donor, Event::Go(Step::Open), NOON).is_err());
    workspace.restart_teardown(donor).unwrap();
    assert_eq!(workspace.teardown(donor).unwrap().phase(), Phase::Working);
}

#[test]
fn photos_are_kept_and_junk_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    let donor = workspace.start_donor("With a label").unwrap();
    let png = b"\x89PNG\r\n\x1a\nrest";
    let id = workspace.add_photo(donor, "label", png).unwrap();
    assert_eq!(workspace.store().photo_bytes(id).unwrap(), png);
    assert_eq!(workspace.store().photos(donor).unwrap()[0].kind, "image/png");
    for junk in [&b""[..], b"GIF89a", b"<svg onload='x'/>", &[0xff; 3]] {
        let error = workspace.add_photo(donor, "label", junk).unwrap_err().to_string();
        assert!(error.contains("16 MiB"), "{error}");
    }
    workspace.remove_donor(donor).unwrap();
    workspace.undo().unwrap();
    assert_eq!(workspace.store().photo_bytes(id).unwrap(), png);
}

/// Holds every item of every gate before a stage, then goes there.
fn test_on(workspace: &mut Workspace, job: curbcore::job::JobId, stage: Stage, at: Moment) {
    loop {
        let tests = workspace.tests(job, None).unwrap().unwrap();
        let Some(gate) = tests.bench.gate_before(stage, at) else {
            break;
        };
        let item = gate.items()[tests.bench.confirmed(stage, gate, at).len()];
        workspace
            .event(job, bench::Event::Confirm { toward: stage, item }, at)
            .unwrap();
    }
    workspace.event(job, bench::Event::Go(stage), at).unwrap();
}

#[test]
fn a_rebuilt_core_is_proved_in_stages() {
    let folder = tempfile::tempdir().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    let job = workspace.open_demo().unwrap();
    let file = workspace.store().job_file(job).unwrap();
    let answer = curbcore::app::evaluation::evaluate(&file).unwrap();
    let plan = curbcore::app::bench::plan(&file, &answer, answer.design.as_ref().unwrap()).unwrap();
    workspace.begin_tests(job, &plan).unwrap();
    let at = |stage| plan.of_stage(stage).copied().collect::<Vec<_>>();
    test_on(&mut workspace, job, Stage::Reassembly, NOON);
    test_on(&mut workspace, job, Stage::Continuity, NOON);
    for prediction in at(Stage::Continuity) {
        let metal = curbcore::app::bench::wound_metal(&answer, prediction.of).unwrap();
        let reading = |ohms| bench::Reading::Winding {
            resistance: Resistance::from_si(ohms),
            at: Temperature::from_si(20.0),
            metal,
        };
        let read = |ohms| {
            bench::Event::Act(bench::Act::Read {
                of: prediction.of,
                reading: reading(ohms),
            })
        };
        // Far too high: the next stage stays shut until it is fixed or read again.
        workspace.event(job, read(prediction.high.si() * 3.0), NOON).unwrap();
        let shut = workspace.event(job, bench::Event::Go(Stage::Insulation), NOON);
        assert!(shut.is_err());
        workspace.event(job, read(prediction.value.si()), NOON).unwrap();
    }
    test_on(&mut workspace, job, Stage::Insulation, NOON);
    drop(workspace);
    let workspace = Workspace::open(folder.path()).unwrap();
    let tests = workspace.tests(job, Some(&plan)).unwrap().unwrap();
    assert!(!tests.outdated);
    assert_eq!(tests.bench.step(later(1)), Stage::Insulation);
    let read: Vec<_> = tests.bench.record().iter().filter_map(|line| line.outcome).collect();
    assert_eq!(read.len(), 2);
    assert!(read.iter().all(|outcome| outcome.status == Status::InBand));
}

/// Tests prove one design: with another winding they say so.
#[test]
fn tests_know_that_the_design_changed() {
    let folder = tempfile::tempdir().unwrap();
    let mut workspace = Workspace::open(folder.path()).unwrap();
    let job = workspace.open_demo().unwrap();
    let plan = |workspace: &Workspace| {
        let file = workspace.store().job_file(job).unwrap();
        let answer = curbcore::app::evaluation::evaluate(&file).unwrap();
        curbcore::app::bench::plan(&file, &answer, answer.design.as_ref().unwrap()).unwrap()
    };
    let first = plan(&workspace);
    workspace.begin_tests(job, &first).unwrap();
    let answer = curbcore::app::evaluation::evaluate(&workspace.store().job_file(job).unwrap()).unwrap();
    let other = &answer.found.ranked[1];
    let choice = curbcore::app::basis::as_choice(other, &answer.problem.rebuild, &answer.catalogue);
    workspace.choose(job, Some(choice)).unwrap();
    let second = plan(&workspace);
    assert!(workspace.tests(job, Some(&second)).unwrap().unwrap().outdated);
    assert!(!workspace.tests(job, Some(&first)).unwrap().unwrap().outdated);
}

/// What becomes of the shunts follows from the use: an arc wants its current held, a spot welder
/// wants all that there is.
#[test]
fn the_shunts_follow_from_the_use() {
    use curbcore::magnetics::circuit::shunt_advice::ShuntAdvice;
    let folder = tempfile::tempdir().unwrap();
    let (workspace, donor) = up_to_the_core(folder.path());
    let advice = workspace.shunt_advice(donor).unwrap();
    let of = |word: &str| advice.iter().find(|(w, _)| *w == word).map(|(_, advice)| *advice);
    println!("{advice:?}");
    assert!(matches!(of("spot_welder"), Some(ShuntAdvice::Pull(_))), "{advice:?}");
    assert!(matches!(of("stick_welder"), Some(ShuntAdvice::Keep(_))), "{advice:?}");
    assert!(matches!(
        of("battery_charger"),
        Some(ShuntAdvice::Pull(_) | ShuntAdvice::Keep(_))
    ));
    let texts = curbcore::text::Texts::english().unwrap();
    for (word, one) in &advice {
        let sentence = curbcore::report::behaviour::shunt_sentence(one, &texts);
        assert!(sentence.ends_with('.') && !sentence.contains('{'), "{word}: {sentence}");
        let figures = sentence.split(' ').filter(|part| part.parse::<f64>().is_ok()).count();
        assert_eq!(figures, 2, "{word}, with them and without: {sentence}");
        println!("{word}: {sentence}");
    }
}
