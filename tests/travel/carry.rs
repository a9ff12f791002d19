//! What a file carries, how two shelves become one, and what never travels.

use std::path::PathBuf;

use curbcore::app::evaluation::evaluate;
use curbcore::app::reach;
use curbcore::app::start::{demo_job, goal_of};
use curbcore::app::sync::Sending;
use curbcore::app::wind::wind_plan_of;
use curbcore::app::workspace::{Entry, Workspace};
use curbcore::job::{DonorId, JobId, Joining, PairChoice};
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::merge::Kind;
use curbcore::quantity::{LengthUnit, Origin};
use curbcore::safety::{Gate, Moment};
use curbcore::store::JobProcedure;
use curbcore::teardown::{Event, Step};
use curbcore::wind::{self, CoreOfPair, PairPart, WindPlan, WindStep};

/// A device with its folder.
pub struct TestDevice {
    pub workspace: Workspace,
    pub folder: tempfile::TempDir,
}

impl TestDevice {
    pub fn new(name: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut workspace = Workspace::open(folder.path()).unwrap();
        workspace.name_device(name).unwrap();
        Self { workspace, folder }
    }

    pub fn pack(&mut self, sending: &Sending) -> PathBuf {
        let path = self.folder.path().join("parcel.curbshelf");
        self.workspace.export_shelf(&path, sending, None, |_| ()).unwrap();
        path
    }

    /// Takes in all that another device has.
    pub fn take_from(&mut self, other: &mut TestDevice) -> curbcore::store::ImportSummary {
        let path = other.pack(&Sending::All);
        self.workspace.import_shelf(&path, None, |_| ()).unwrap().arrival
    }

    pub fn measure(&mut self, job: JobId, path: &str, text: &str) {
        let entry = Entry {
            path,
            text,
            plus_minus: "",
            origin: Some(Origin::Calipers),
        };
        self.workspace.set_number(job, &entry, LengthUnit::Millimetre).unwrap();
    }

    pub fn name(&self, job: JobId) -> String {
        self.workspace.store().job_file(job).unwrap().name
    }
}

/// Two devices that both have the demo job.
pub fn pair() -> (TestDevice, TestDevice, JobId) {
    let (mut phone, mut bench) = (TestDevice::new("phone"), TestDevice::new("bench"));
    let job = phone.workspace.open_demo().unwrap();
    bench.take_from(&mut phone);
    (phone, bench, job)
}

#[test]
fn a_job_arrives_as_it_left() {
    let (phone, bench, job) = pair();
    let (there, here) = (
        phone.workspace.store().job_file(job).unwrap(),
        bench.workspace.store().job_file(job).unwrap(),
    );
    assert_eq!(there, here);
}

#[test]
fn the_same_file_twice_changes_nothing() {
    let (mut phone, mut bench, _) = pair();
    let again = bench.take_from(&mut phone);
    assert!(again.is_nothing(), "{again:?}");
    assert!(again.same > 0);
}

/// Every row of a device's readings, as SQLite shows them.
fn readings(desktop: &TestDevice) -> Vec<String> {
    let data = rusqlite::Connection::open(desktop.folder.path().join("curbcore.db")).unwrap();
    data.prepare(
        "SELECT hex(id) || hex(core_id) || field || ' ' || value || ' ' || plus_minus || ' ' || origin || is_current
         FROM measurement WHERE core_id IS NOT NULL ORDER BY id",
    )
    .unwrap()
    .query_map([], |row| row.get(0))
    .unwrap()
    .collect::<Result<_, _>>()
    .unwrap()
}

/// Records are entered many at a time: what is new among known ones must still be told apart.
#[test]
fn hundreds_of_readings_come_over_and_only_the_new_ones_count() {
    let (mut phone, mut bench) = (TestDevice::new("phone"), TestDevice::new("bench"));
    let job = phone.workspace.open_demo().unwrap();
    let measure = |desktop: &mut TestDevice, from: u32, to: u32| {
        for tenths in from..to {
            desktop.measure(job, "core.stack_mm", &format!("{:.1}", f64::from(tenths) / 10.0));
        }
    };
    measure(&mut phone, 500, 700);
    let first = bench.take_from(&mut phone);
    assert_eq!((first.same, first.held), (0, 0));
    assert!(first.tallies[&Kind::Measurement].new > 200, "{first:?}");
    assert_eq!(readings(&bench), readings(&phone));

    // Both go on, so that in a file known and unknown readings stand between each other.
    measure(&mut bench, 300, 400);
    measure(&mut phone, 700, 770);
    let before = readings(&bench).len() as u64;
    let second = bench.take_from(&mut phone);
    let tally = second.tallies[&Kind::Measurement];
    assert_eq!((tally.new, tally.changed, tally.removed), (70, 0, 0), "{second:?}");
    assert_eq!(readings(&bench).len() as u64, before + 70);
    phone.take_from(&mut bench);
    let third = bench.take_from(&mut phone);
    assert!(third.is_nothing(), "{third:?}");
    assert_eq!(readings(&bench), readings(&phone));
}

#[test]
fn changes_of_different_fields_come_together() {
    let (mut phone, mut bench, job) = pair();
    phone.workspace.rename(job, "tab welder").unwrap();
    bench.workspace.set_note(job, "heavy").unwrap();
    bench.measure(job, "core.tongue_mm", "36.5");
    bench.take_from(&mut phone);
    phone.take_from(&mut bench);
    for desktop in [&phone, &bench] {
        let file = desktop.workspace.store().job_file(job).unwrap();
        assert_eq!((file.name.as_str(), file.note.as_str()), ("tab welder", "heavy"));
        assert_eq!(file.core.tongue_mm.value, 36.5);
        assert_eq!(desktop.workspace.store().conflict_count().unwrap(), 0);
    }
}

/// A page that is printed before a conflict is settled names the value and what it uses; afterwards it does not.
#[test]
fn the_page_marks_values_in_conflict_until_they_are_settled() {
    let (mut phone, mut bench, job) = pair();
    phone.measure(job, "core.tongue_mm", "36.5");
    bench.measure(job, "core.tongue_mm", "35.0");
    bench.take_from(&mut phone);
    let page = |desktop: &TestDevice| {
        let answer = curbcore::app::evaluation::evaluate(&desktop.workspace.store().job_file(job).unwrap()).unwrap();
        let unsettled = desktop.workspace.conflicts_of(Some(job), None).unwrap();
        curbcore::report::page(&answer, None, &unsettled, curbcore::quantity::LengthUnit::Millimetre).unwrap()
    };
    let used = bench.workspace.store().job_file(job).unwrap().core.tongue_mm.value;
    let (before, _) = page(&bench)
        .split_once("Cautions")
        .map(|(top, rest)| (top.to_owned(), rest.len()))
        .unwrap();
    assert!(before.contains("Two devices differ."), "{before}");
    assert!(before.contains(&format!("<li>Tongue width: {used} ± ")), "{before}");
    let conflict = bench.workspace.store().conflicts(10).unwrap().remove(0);
    bench
        .workspace
        .resolve_conflict(conflict.kind, conflict.id, &conflict.field, 0)
        .unwrap();
    assert!(!page(&bench).contains("Two devices differ."));
}

#[test]
fn two_values_of_one_field_are_both_kept_until_the_person_chooses() {
    let (mut phone, mut bench, job) = pair();
    phone.measure(job, "core.tongue_mm", "36.5");
    bench.measure(job, "core.tongue_mm", "35.0");
    let arrival = bench.take_from(&mut phone);
    assert_eq!(arrival.conflicting.len(), 1, "{arrival:?}");
    let conflicts = bench.workspace.store().conflicts(10).unwrap();
    assert_eq!(conflicts.len(), 1);
    let values: Vec<f64> = conflicts[0]
        .sides
        .iter()
        .map(|side| side.value["value"].as_f64().unwrap())
        .collect();
    assert!(values.contains(&36.5) && values.contains(&35.0), "{values:?}");
    let names: Vec<&str> = conflicts[0].sides.iter().map(|side| side.device.as_str()).collect();
    assert!(names.contains(&"phone") && names.contains(&"bench"), "{names:?}");
    // Both devices show the same one meanwhile.
    phone.take_from(&mut bench);
    let shown = |desktop: &TestDevice| desktop.workspace.store().job_file(job).unwrap().core.tongue_mm.value;
    assert_eq!(shown(&phone), shown(&bench));
    // The person takes the other one, and that goes back too.
    let other = conflicts[0]
        .sides
        .iter()
        .position(|side| side.value["value"] != shown(&bench))
        .unwrap();
    let wanted = values[other];
    bench
        .workspace
        .resolve_conflict(conflicts[0].kind, conflicts[0].id, &conflicts[0].field, other)
        .unwrap();
    assert_eq!(
        (shown(&bench), bench.workspace.store().conflict_count().unwrap()),
        (wanted, 0)
    );
    // Undo brings the choice back.
    bench.workspace.undo().unwrap();
    assert_eq!(bench.workspace.store().conflict_count().unwrap(), 1);
    bench.workspace.redo().unwrap();
    assert_eq!(bench.workspace.store().conflict_count().unwrap(), 0);
    phone.take_from(&mut bench);
    assert_eq!(
        (shown(&phone), phone.workspace.store().conflict_count().unwrap()),
        (wanted, 0)
    );
}

#[test]
fn what_was_removed_does_not_come_back() {
    let (mut phone, mut bench, job) = pair();
    bench.workspace.rename(job, "changed meanwhile").unwrap();
    phone.workspace.remove_job(job).unwrap();
    let arrival = bench.take_from(&mut phone);
    assert!(
        arrival
            .removed
            .iter()
            .any(|(kind, name)| *kind == Kind::Job && name == "changed meanwhile")
    );
    assert!(bench.workspace.store().job_file(job).is_err());
    phone.take_from(&mut bench);
    assert!(phone.workspace.store().job_file(job).is_err());
    // Unless it is put back.
    phone.workspace.undo().unwrap();
    assert!(phone.workspace.store().job_file(job).is_ok());
    bench.take_from(&mut phone);
    assert!(bench.workspace.store().job_file(job).is_ok());
}

#[test]
fn one_undo_takes_the_whole_arrival_back_and_the_file_can_come_again() {
    let (mut phone, mut bench, job) = pair();
    let before = bench.workspace.store().job_file(job).unwrap();
    phone.workspace.rename(job, "renamed").unwrap();
    phone.measure(job, "core.stack_mm", "61");
    let second = phone.workspace.start_job("second", &OUTLETS[0]).unwrap();
    bench.take_from(&mut phone);
    assert_eq!(bench.name(job), "renamed");
    bench.workspace.undo().unwrap();
    assert_eq!(bench.workspace.store().job_file(job).unwrap(), before);
    assert!(bench.workspace.store().job_file(second).is_err());
    assert_eq!(bench.workspace.store().job_count().unwrap(), 1);
    bench.take_from(&mut phone);
    assert_eq!(
        bench.workspace.store().job_file(job).unwrap(),
        phone.workspace.store().job_file(job).unwrap()
    );
    assert!(bench.workspace.store().job_file(second).is_ok());
}

#[test]
fn looking_into_a_file_keeps_nothing() {
    let (mut phone, mut bench, job) = pair();
    phone.workspace.rename(job, "renamed").unwrap();
    let path = phone.pack(&Sending::All);
    let before = bench.workspace.store().job_file(job).unwrap();
    let parcel = bench.workspace.preview_shelf(&path, None, |_| ()).unwrap();
    assert_eq!(parcel.arrival.tallies[&Kind::Job].changed, 1);
    assert_eq!(parcel.manifest.from.name, "phone");
    assert_eq!(bench.workspace.store().job_file(job).unwrap(), before);
    let taken = bench.workspace.import_shelf(&path, None, |_| ()).unwrap();
    assert_eq!(taken.arrival, parcel.arrival);
}

#[test]
fn a_file_of_changes_carries_only_those_and_needs_what_came_before() {
    let (mut phone, mut bench, job) = pair();
    // The phone learns of the bench by a file from it.
    phone.take_from(&mut bench);
    let to_bench = Sending::NewFor(bench.workspace.store().own().unwrap().device);
    let first = phone.pack(&to_bench);
    bench.workspace.import_shelf(&first, None, |_| ()).unwrap();
    phone.workspace.rename(job, "later").unwrap();
    let path = phone.folder.path().join("changes.curbshelf");
    let manifest = phone.workspace.export_shelf(&path, &to_bench, None, |_| ()).unwrap();
    assert_eq!(manifest.records, 1);
    let mut stranger = TestDevice::new("stranger");
    let refused = stranger
        .workspace
        .import_shelf(&path, None, |_| ())
        .unwrap_err()
        .to_string();
    assert!(refused.contains("whole shelf"), "{refused}");
    bench.workspace.import_shelf(&path, None, |_| ()).unwrap();
    assert_eq!(bench.name(job), "later");
}

#[test]
fn chosen_jobs_travel_with_their_core_and_donor_alone() {
    let mut phone = TestDevice::new("phone");
    let first = phone.workspace.open_demo().unwrap();
    let second = phone.workspace.start_job("second", &OUTLETS[0]).unwrap();
    let path = phone.pack(&Sending::Jobs(vec![first]));
    let mut bench = TestDevice::new("bench");
    bench.workspace.import_shelf(&path, None, |_| ()).unwrap();
    let (there, here) = (
        phone.workspace.store().job_file(first).unwrap(),
        bench.workspace.store().job_file(first).unwrap(),
    );
    assert_eq!(
        (there.core, there.donor, there.goal),
        (here.core, here.donor, here.goal)
    );
    assert!(bench.workspace.store().job_file(second).is_err());
}

#[test]
fn a_pair_travels_with_its_job() {
    let mut phone = TestDevice::new("phone");
    let job = phone.workspace.open_demo().unwrap();
    let other = phone.workspace.start_job("other", &OUTLETS[0]).unwrap();
    let pair = PairChoice {
        name: "other".into(),
        core: Box::new(phone.workspace.store().job_file(other).unwrap().core),
        windings: Joining::Series,
    };
    phone
        .workspace
        .take_steps(job, &[reach::Step::Pair(pair.clone())])
        .unwrap();
    let path = phone.pack(&Sending::Jobs(vec![job]));
    let mut bench = TestDevice::new("bench");
    bench.workspace.import_shelf(&path, None, |_| ()).unwrap();
    // The second core is in the job: the other job need not come.
    assert_eq!(
        bench.workspace.store().job_file(job).unwrap().conditions.pair,
        Some(pair)
    );
    assert!(bench.workspace.store().job_file(other).is_err());
    bench.workspace.undo().unwrap();
    assert!(bench.workspace.store().job_file(job).is_err());
    // Undo takes the second core back on the device that chose it.
    phone.workspace.undo().unwrap();
    assert_eq!(phone.workspace.store().job_file(job).unwrap().conditions.pair, None);
}

#[test]
fn three_devices_agree_whatever_the_order() {
    let (mut a, mut b, job) = pair();
    let mut c = TestDevice::new("cellar");
    c.take_from(&mut a);
    a.workspace.rename(job, "from a").unwrap();
    b.workspace.rename(job, "from b").unwrap();
    c.measure(job, "core.tongue_mm", "37");
    b.measure(job, "core.tongue_mm", "38");
    let file = |desktop: &mut TestDevice| desktop.pack(&Sending::All);
    let (fa, fb, fc) = (file(&mut a), file(&mut b), file(&mut c));
    for path in [&fb, &fc] {
        a.workspace.import_shelf(path, None, |_| ()).unwrap();
    }
    for path in [&fc, &fa] {
        b.workspace.import_shelf(path, None, |_| ()).unwrap();
    }
    for path in [&fa, &fb] {
        c.workspace.import_shelf(path, None, |_| ()).unwrap();
    }
    let expected = a.workspace.store().job_file(job).unwrap();
    assert_eq!(b.workspace.store().job_file(job).unwrap(), expected);
    assert_eq!(c.workspace.store().job_file(job).unwrap(), expected);
    for desktop in [&a, &b, &c] {
        assert_eq!(
            desktop.workspace.store().conflict_count().unwrap(),
            2,
            "name and tongue"
        );
    }
}

#[test]
fn a_sealed_file_opens_with_its_passphrase_alone() {
    use curbcore::exchange::Passphrase;
    let mut phone = TestDevice::new("phone");
    let job = phone.workspace.open_demo().unwrap();
    let path = phone.folder.path().join("sealed.curbshelf");
    let phrase = Passphrase::typed("rust never sleeps in a damp garage");
    phone
        .workspace
        .export_shelf(&path, &Sending::All, phrase.as_ref(), |_| ())
        .unwrap();
    let bytes = std::fs::read(&path).unwrap();
    assert!(
        !bytes.windows(8).any(|part| part == b"manifest"),
        "it can be read without"
    );
    let mut bench = TestDevice::new("bench");
    let without = bench
        .workspace
        .import_shelf(&path, None, |_| ())
        .unwrap_err()
        .to_string();
    assert!(without.contains("passphrase"), "{without}");
    let wrong = Passphrase::typed("wrong");
    let wrong = bench
        .workspace
        .import_shelf(&path, wrong.as_ref(), |_| ())
        .unwrap_err()
        .to_string();
    assert!(wrong.contains("not its passphrase"), "{wrong}");
    bench.workspace.import_shelf(&path, phrase.as_ref(), |_| ()).unwrap();
    assert_eq!(
        bench.workspace.store().job_file(job).unwrap(),
        phone.workspace.store().job_file(job).unwrap()
    );
    // Cut off, it is refused.
    std::fs::write(&path, &bytes[..bytes.len() - 40]).unwrap();
    let mut third = TestDevice::new("third");
    assert!(third.workspace.import_shelf(&path, phrase.as_ref(), |_| ()).is_err());
}

const MORNING: Moment = Moment {
    unix_ms: 1_800_000_000_000,
    local_day: 20_833,
};

/// What was passed and done on one device is a record on another, and opens no gate there.
#[test]
fn no_gate_is_passed_by_a_file() {
    let now = MORNING;
    let mut phone = TestDevice::new("phone");
    let donor = phone.workspace.start_donor("Green oven").unwrap();
    let (gate, step) = pass_a_gate(&mut phone, donor, now);
    assert_ne!(
        phone.workspace.teardown(donor).unwrap().gate_before(step, now),
        Some(gate)
    );
    let confirmed = |desktop: &TestDevice| {
        desktop
            .workspace
            .teardown(donor)
            .unwrap()
            .confirmed(step, gate, now)
            .len()
    };
    let lines = phone.workspace.teardown(donor).unwrap().history().len();
    assert!(lines > 0, "nothing was done on the phone");
    let mut bench = TestDevice::new("bench");
    bench.take_from(&mut phone);
    assert_eq!(confirmed(&bench), 0);
    assert!(
        bench
            .workspace
            .teardown(donor)
            .unwrap()
            .gate_before(step, now)
            .is_some()
    );
    assert!(bench.workspace.teardown(donor).unwrap().history().is_empty());
    let carried = bench.workspace.store().remote_teardowns(donor).unwrap();
    assert_eq!(carried.len(), 1);
    assert_eq!(
        (carried[0].device_name.as_str(), carried[0].lines.len()),
        ("phone", lines)
    );
    // And back: the phone's own history is as it was, and the bench's own steps do not mix in.
    phone.take_from(&mut bench);
    assert_eq!(phone.workspace.teardown(donor).unwrap().history().len(), lines);
    assert!(phone.workspace.store().remote_teardowns(donor).unwrap().is_empty());
}

/// A winding counted on two devices: each keeps its own count, shows the other's presses as a record, and no
/// gate that was passed on one opens on the other.
#[test]
fn two_devices_that_wind_keep_their_own_counts() {
    let now = MORNING;
    let plan = {
        let mut file = demo_job();
        file.goal = goal_of("battery_charger");
        wind_plan_of(&evaluate(&file).unwrap(), CoreOfPair::First)
            .unwrap()
            .unwrap()
    };
    let mut phone = TestDevice::new("phone");
    let job = phone.workspace.start_job("charger", &OUTLETS[0]).unwrap();
    let mut bench = TestDevice::new("bench");
    bench.take_from(&mut phone);
    for (device, presses) in [(&mut phone, 5), (&mut bench, 3)] {
        device.workspace.begin_winding((job, CoreOfPair::First), &plan).unwrap();
        wind_to_the_turns(device, job, now);
        for _ in 0..presses {
            device
                .workspace
                .event((job, CoreOfPair::First), wind::Event::Act(wind::Act::Turn), now)
                .unwrap();
        }
    }
    // A note and a photo of the step go along, as records.
    phone
        .workspace
        .note_on_step((job, CoreOfPair::First), "Two turns lie loose", now)
        .unwrap();
    let photo = phone
        .workspace
        .add_core_photo(job, WindStep::WindTurns.key(), PICTURE)
        .unwrap();
    let kept = wind::Event::Act(wind::Act::Photo(photo.0.as_u128()));
    phone.workspace.event((job, CoreOfPair::First), kept, now).unwrap();
    bench.take_from(&mut phone);
    phone.take_from(&mut bench);
    assert_eq!(bench.workspace.notes(job).unwrap()[0].1, "Two turns lie loose");
    assert_eq!(bench.workspace.store().core_photo_bytes(photo).unwrap(), PICTURE);
    assert!(
        bench
            .workspace
            .run::<WindPlan>((job, CoreOfPair::First))
            .unwrap()
            .unwrap()
            .facts()
            .notes
            .is_empty()
    );
    for (device, presses, other, others) in [(&phone, 5, "bench", 3), (&bench, 3, "phone", 5)] {
        let run = device
            .workspace
            .run::<WindPlan>((job, CoreOfPair::First))
            .unwrap()
            .unwrap();
        assert_eq!(run.facts().counter.turns(), presses);
        let carried = device
            .workspace
            .store()
            .remote_job_runs(job, JobProcedure::Wind)
            .unwrap();
        let turns = |lines: &[String]| lines.iter().filter(|line| line.ends_with(" turn")).count();
        let seen: Vec<(&str, usize)> = carried
            .iter()
            .map(|run| (run.device_name.as_str(), turns(&run.lines)))
            .collect();
        assert_eq!(seen, [(other, others)], "on the device of {presses} presses");
    }
    // The second core of a pair has a count of its own, which travels as its own record.
    let second = WindPlan {
        pair: Some(PairPart::Second),
        ..plan
    };
    let of_second = (job, CoreOfPair::Second);
    phone.workspace.begin_winding(of_second, &second).unwrap();
    let kept = wind::Event::Act(wind::Act::Photo(photo.0.as_u128()));
    phone.workspace.event(of_second, kept, now).unwrap();
    bench.take_from(&mut phone);
    let lines = |procedure| bench.workspace.store().remote_job_runs(job, procedure).unwrap();
    assert_eq!(lines(JobProcedure::WindSecond)[0].lines.len(), 1);
    assert!(lines(JobProcedure::Wind)[0].lines.len() > 5);
    assert!(bench.workspace.run::<WindPlan>(of_second).unwrap().is_none());
    // A device that only has the record begins with no gate passed and no turn wound.
    let mut third = TestDevice::new("third");
    third.take_from(&mut phone);
    assert!(
        third
            .workspace
            .run::<WindPlan>((job, CoreOfPair::First))
            .unwrap()
            .is_none()
    );
    third.workspace.begin_winding((job, CoreOfPair::First), &plan).unwrap();
    let run = third
        .workspace
        .run::<WindPlan>((job, CoreOfPair::First))
        .unwrap()
        .unwrap();
    assert_eq!((run.step(now), run.facts().counter.turns()), (WindStep::Prepare, 0));
    assert!(run.gate_before(WindStep::CleanCore, now).is_some());
}

/// From the first step of a winding to its turns, through every gate.
fn wind_to_the_turns(device: &mut TestDevice, job: JobId, now: Moment) {
    loop {
        let run = device
            .workspace
            .run::<WindPlan>((job, CoreOfPair::First))
            .unwrap()
            .unwrap();
        let here = run.step(now);
        if here == WindStep::WindTurns {
            return;
        }
        let next = run.next(here).unwrap();
        let event = match run.gate_before(next, now) {
            Some(gate) => {
                let confirmed = run.confirmed(next, gate, now);
                let item = gate.items().iter().copied().find(|item| !confirmed.contains(item));
                wind::Event::Confirm {
                    toward: next,
                    item: item.unwrap(),
                }
            }
            None if here == WindStep::ProvePrimary && run.facts().primary.resistance.is_none() => {
                wind::Event::Act(wind::Act::PrimaryResistance(run.plan().primary.unwrap().expected))
            }
            None if here == WindStep::ProvePrimary && run.facts().primary.insulation.is_none() => {
                wind::Event::Act(wind::Act::PrimaryInsulation(run.plan().primary.unwrap().insulation))
            }
            None => wind::Event::Go(next),
        };
        device.workspace.event((job, CoreOfPair::First), event, now).unwrap();
    }
}

/// On to the first step behind a gate, and through the gate.
fn pass_a_gate(phone: &mut TestDevice, donor: DonorId, now: Moment) -> (Gate, Step) {
    let (gate, step) = loop {
        let state = phone.workspace.teardown(donor).unwrap();
        let next = state.next(state.step(now)).unwrap();
        if let Some(gate) = state.gate_before(next, now) {
            break (gate, next);
        }
        phone.workspace.event(donor, Event::Go(next), now).unwrap();
    };
    for item in gate.items() {
        phone
            .workspace
            .event(
                donor,
                Event::Confirm {
                    toward: step,
                    item: *item,
                },
                now,
            )
            .unwrap();
    }
    (gate, step)
}

/// A small PNG file's first bytes are enough: the store keeps what the camera gave.
const PICTURE: &[u8] = b"\x89PNG\r\n\x1a\n and the rest of a picture";

#[test]
fn photos_travel_as_they_are_and_only_once() {
    let (mut phone, mut bench, job) = pair();
    let donor = phone.workspace.store().donor_of(job).unwrap().unwrap();
    let of_donor = phone.workspace.add_photo(donor, "label", PICTURE).unwrap();
    let of_core = phone.workspace.add_core_photo(job, "measure", PICTURE).unwrap();
    bench.take_from(&mut phone);
    assert_eq!(bench.workspace.store().photo_bytes(of_donor).unwrap(), PICTURE);
    assert_eq!(bench.workspace.store().core_photo_bytes(of_core).unwrap(), PICTURE);
    assert!(bench.take_from(&mut phone).is_nothing());
    // An undo takes them back too, and the file brings them again.
    let (mut phone, mut third) = (phone, TestDevice::new("third"));
    third.take_from(&mut phone);
    third.workspace.undo().unwrap();
    assert!(third.workspace.store().photo_bytes(of_donor).is_err());
    third.take_from(&mut phone);
    assert_eq!(third.workspace.store().photo_bytes(of_donor).unwrap(), PICTURE);
}

#[test]
fn photos_come_back_with_a_donor_that_was_put_back() {
    let (mut phone, mut bench, job) = pair();
    let donor = phone.workspace.store().donor_of(job).unwrap().unwrap();
    let photo = phone.workspace.add_photo(donor, "label", PICTURE).unwrap();
    bench.take_from(&mut phone);
    phone.workspace.remove_donor(donor).unwrap();
    bench.take_from(&mut phone);
    assert!(bench.workspace.store().photo_bytes(photo).is_err());
    phone.workspace.undo().unwrap();
    bench.take_from(&mut phone);
    assert_eq!(bench.workspace.store().photo_bytes(photo).unwrap(), PICTURE);
}

#[test]
fn an_arrival_with_work_hanging_on_it_is_not_taken_back() {
    let mut phone = TestDevice::new("phone");
    let donor = phone.workspace.start_donor("Green oven").unwrap();
    let mut bench = TestDevice::new("bench");
    bench.take_from(&mut phone);
    bench.workspace.add_photo(donor, "label", PICTURE).unwrap();
    let refused = bench.workspace.undo().unwrap_err().to_string();
    assert!(refused.contains("cannot be undone"), "{refused}");
    assert!(bench.workspace.store().donor(donor).is_ok());
}

#[test]
fn a_folder_that_was_copied_gets_a_number_of_its_own() {
    let (mut phone, _, job) = pair();
    let own = phone.workspace.store().own().unwrap().device;
    // The copy of an old state, which goes on by itself.
    let copy = tempfile::tempdir().unwrap();
    let TestDevice { workspace, folder } = phone;
    drop(workspace);
    std::fs::copy(folder.path().join("curbcore.db"), copy.path().join("curbcore.db")).unwrap();
    phone = TestDevice {
        workspace: Workspace::open(folder.path()).unwrap(),
        folder,
    };
    phone.workspace.rename(job, "later").unwrap();
    phone.workspace.rename(job, "later still").unwrap();
    let mut cloned = TestDevice {
        workspace: Workspace::open(copy.path()).unwrap(),
        folder: copy,
    };
    assert_ne!(cloned.workspace.store().own().unwrap().device, own);
    // Where the copy cannot be told from the first, such as a copy of a whole disk.
    let TestDevice {
        workspace,
        folder: copy,
    } = cloned;
    drop(workspace);
    let file = rusqlite::Connection::open(copy.path().join("curbcore.db")).unwrap();
    file.execute("UPDATE own SET device = ?1", [own.to_string()]).unwrap();
    drop(file);
    std::fs::write(copy.path().join("curbcore.lock"), format!("{own} {:020}\n", 0)).unwrap();
    cloned = TestDevice {
        workspace: Workspace::open(copy.path()).unwrap(),
        folder: copy,
    };
    assert_eq!(cloned.workspace.store().own().unwrap().device, own);
    cloned.take_from(&mut phone);
    assert_ne!(cloned.workspace.store().own().unwrap().device, own);
    assert_eq!(cloned.name(job), "later still");
}

/// A gate counts only where it was confirmed: neither in a copy of the folder, nor after the way
/// back to an earlier copy, since what was done after it is not in it.
#[test]
fn no_gate_is_passed_in_a_copy() {
    use curbcore::app::sync::copies;
    let now = MORNING;
    let mut phone = TestDevice::new("phone");
    let donor = phone.workspace.start_donor("Green oven").unwrap();
    let (gate, step) = pass_a_gate(&mut phone, donor, now);
    let passed = |workspace: &Workspace| workspace.teardown(donor).unwrap().passed(step, gate, now).is_some();
    let TestDevice { workspace, folder } = phone;
    drop(workspace);
    let workspace = Workspace::open(folder.path()).unwrap();
    assert!(passed(&workspace), "in the same place it counts");
    assert!(copies::check(folder.path()).unwrap());
    let lines = workspace.teardown(donor).unwrap().history().len();
    drop(workspace);

    let copy = tempfile::tempdir().unwrap();
    std::fs::copy(folder.path().join("curbcore.db"), copy.path().join("curbcore.db")).unwrap();
    let cloned = Workspace::open(copy.path()).unwrap();
    assert!(!passed(&cloned));
    assert_eq!(cloned.teardown(donor).unwrap().history().len(), lines + 1);
    assert_eq!(
        cloned.store().undo_op().unwrap(),
        None,
        "an undo could bring a history back without its line"
    );
    drop(cloned);
    // Once is enough.
    let cloned = Workspace::open(copy.path()).unwrap();
    assert_eq!(cloned.teardown(donor).unwrap().history().len(), lines + 1);

    let kept = copies::of(folder.path());
    copies::go_back(folder.path(), &kept[0]).unwrap();
    assert!(!passed(&Workspace::open(folder.path()).unwrap()));
}

#[test]
fn the_way_back_to_a_copy() {
    use curbcore::app::sync::copies;
    let mut desktop = TestDevice::new("desktop");
    let job = desktop.workspace.open_demo().unwrap();
    let before = desktop.name(job);
    assert!(copies::check(desktop.folder.path()).unwrap());
    assert!(!copies::check(desktop.folder.path()).unwrap(), "one a day");
    desktop.workspace.rename(job, "after").unwrap();
    let TestDevice { workspace, folder } = desktop;
    let kept = copies::of(folder.path());
    assert_eq!(kept.len(), 1);
    assert!(copies::go_back(folder.path(), &kept[0]).is_err(), "while it is open");
    drop(workspace);
    // The file is damaged in the middle.
    let path = folder.path().join("curbcore.db");
    let mut bytes = std::fs::read(&path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..].fill(0x5a);
    std::fs::write(&path, bytes).unwrap();
    copies::go_back(folder.path(), &kept[0]).unwrap();
    let desktop = TestDevice {
        workspace: Workspace::open(folder.path()).unwrap(),
        folder,
    };
    assert_eq!(desktop.name(job), before);
    let aside = |name: &str| name.starts_with("before-going-back-") && !name.contains("-wal") && !name.contains("-shm");
    let names = std::fs::read_dir(desktop.folder.path()).unwrap();
    let names = names.map(|entry| entry.unwrap().file_name().into_string().unwrap());
    assert_eq!(names.filter(|name| aside(name)).count(), 1);
}

/// Both measure a core, one removes the oven that it came from, and they exchange: the conflict can be
/// settled on either.
#[test]
fn a_conflict_on_a_core_whose_oven_was_removed_is_settled() {
    for (settles, side) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
        let (mut phone, mut bench, job) = pair();
        let donor = phone.workspace.store().donor_of(job).unwrap().unwrap();
        phone.measure(job, "core.tongue_mm", "36.5");
        bench.measure(job, "core.tongue_mm", "35.0");
        phone.workspace.remove_donor(donor).unwrap();
        bench.take_from(&mut phone);
        phone.take_from(&mut bench);
        let desktop = if settles == 0 { &mut phone } else { &mut bench };
        let conflicts = desktop.workspace.store().conflicts(10).unwrap();
        assert_eq!(conflicts.len(), 1);
        let wanted = conflicts[0].sides[side].value["value"].as_f64().unwrap();
        desktop
            .workspace
            .resolve_conflict(conflicts[0].kind, conflicts[0].id, &conflicts[0].field, side)
            .unwrap();
        bench.take_from(&mut phone);
        phone.take_from(&mut bench);
        for desktop in [&phone, &bench] {
            assert_eq!(desktop.workspace.store().conflict_count().unwrap(), 0);
            assert_eq!(
                desktop.workspace.store().job_file(job).unwrap().core.tongue_mm.value,
                wanted
            );
        }
    }
}

/// Nothing is made for a device that nobody here has heard of.
#[test]
fn no_file_is_made_for_an_unknown_device() {
    let (mut phone, ..) = pair();
    let path = phone.folder.path().join("nobody.curbshelf");
    let to = Sending::NewFor("0123456700000000".parse().unwrap());
    let refused = phone
        .workspace
        .export_shelf(&path, &to, None, |_| ())
        .unwrap_err()
        .to_string();
    assert!(refused.contains("0123456700000000"), "{refused}");
    assert!(!path.exists());
}

/// A file of changes builds on one file that was taken in. Neither another file of the same sender nor
/// one that was taken back stands for it.
#[test]
fn a_file_of_changes_needs_the_very_file_that_it_builds_on() {
    let (mut phone, mut bench, job) = pair();
    phone.take_from(&mut bench);
    let to_bench = Sending::NewFor(bench.workspace.store().own().unwrap().device);
    let name = |name: &str| phone.folder.path().join(name);
    let paths = [name("1.curbshelf"), name("2.curbshelf"), name("3.curbshelf")];
    for (at, path) in paths.iter().enumerate() {
        phone.workspace.rename(job, &format!("name {at}")).unwrap();
        phone.workspace.export_shelf(path, &to_bench, None, |_| ()).unwrap();
    }
    let gap = |bench: &mut TestDevice, path: &PathBuf| bench.workspace.import_shelf(path, None, |_| ()).is_err();
    assert!(gap(&mut bench, &paths[1]), "the first was lost");
    bench.workspace.import_shelf(&paths[0], None, |_| ()).unwrap();
    assert!(gap(&mut bench, &paths[2]), "the second was lost");
    bench.workspace.import_shelf(&paths[1], None, |_| ()).unwrap();
    bench.workspace.undo().unwrap();
    assert!(gap(&mut bench, &paths[2]), "the second was taken back");
    bench.take_from(&mut phone);
    assert_eq!(bench.name(job), "name 2");
}
