//! Data put back from elsewhere: by hand, from a copy, or with the whole disk. Nothing that a device
//! still knows may be lost by it, no exchange may fail, and no conflict may be left that a person
//! cannot settle.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use curbcore::app::evaluation::evaluate;
use curbcore::app::start::demo_job;
use curbcore::app::sync::Sending;
use curbcore::app::wind::wind_plan_of;
use curbcore::app::workspace::{Entry, Workspace, WorkspaceError};
use curbcore::exchange::ExchangeError;
use curbcore::job::{DonorId, JobId};
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::merge::RecordLine;
use curbcore::quantity::{LengthUnit, Origin};
use curbcore::safety::Moment;
use curbcore::store::{JobProcedure, backups, restore_backup, verify_and_back_up};
use curbcore::teardown;
use curbcore::wind::{self, CoreOfPair, WindPlan};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::Value;

/// How many things of a job are changed: its name, its note, two measures, the history of the teardown
/// of the oven that it comes from, and the history of its winding.
const FIELDS: usize = 6;
/// The last two of them, which only grow.
const TEARDOWN: usize = 4;
const WINDING: usize = 5;

const DATA: &str = "curbcore.db";
const LOCK: &str = "curbcore.lock";

/// How data are put back.
#[derive(Debug, Clone, Copy)]
enum How {
    /// The data file alone.
    ByHand,
    /// The whole folder in its place, mark and all, as with a snapshot of the disk.
    Whole,
    /// A copy that the app made.
    Copy,
}

#[derive(Debug, Clone)]
enum Act {
    Edit {
        device: Index,
        place: Place,
    },
    Export {
        device: Index,
        what: usize,
        other: Index,
    },
    Import {
        device: Index,
        file: Index,
    },
    CutOff {
        device: Index,
        file: Index,
        keep: Index,
    },
    Lose {
        file: Index,
    },
    Keep {
        device: Index,
    },
    PutBack {
        device: Index,
        kept: Index,
        how: How,
    },
    Reopen {
        device: Index,
    },
    /// Kept and changed; the other device takes the changes in and goes on with changes of its own; put
    /// back, and changed in another way, before or after a file of the other device comes in.
    Fork {
        device: Index,
        other: Index,
        first: Vec<Place>,
        over: Vec<Place>,
        then: Vec<Place>,
        how: How,
        answered: bool,
    },
}

/// One of the two jobs, and what of it is changed.
type Place = (usize, usize);

fn act() -> impl Strategy<Value = Act> {
    let index = any::<Index>;
    let how = prop_oneof![Just(How::ByHand), Just(How::Whole), Just(How::Copy)];
    let place = || (0..2_usize, 0..FIELDS);
    prop_oneof![
        6 => (index(), place()).prop_map(|(device, place)| Act::Edit { device, place }),
        4 => (index(), 0..5_usize, index()).prop_map(|(device, what, other)| Act::Export { device, what, other }),
        4 => (index(), index()).prop_map(|(device, file)| Act::Import { device, file }),
        1 => (index(), index(), index()).prop_map(|(device, file, keep)| Act::CutOff { device, file, keep }),
        1 => index().prop_map(|file| Act::Lose { file }),
        2 => index().prop_map(|device| Act::Keep { device }),
        2 => (index(), index(), how.clone()).prop_map(|(device, kept, how)| Act::PutBack { device, kept, how }),
        1 => index().prop_map(|device| Act::Reopen { device }),
        4 => (
            (index(), index(), how, any::<bool>()),
            vec(place(), 1..4), vec(place(), 0..3), vec(place(), 1..4)
        ).prop_map(|((device, other, how, answered), first, over, then)| {
            Act::Fork { device, other, first, over, then, how, answered }
        }),
    ]
}

type RecordHistory = BTreeSet<usize>;

/// One change of one field; each has a value of its own.
struct Edit {
    place: Place,
    /// The changes that its writer knew of.
    knew: RecordHistory,
}

/// A state of a device that can be put back.
struct Kept {
    folder: tempfile::TempDir,
    /// The copy that the app made then.
    copy: Option<PathBuf>,
    known: RecordHistory,
}

struct Device {
    workspace: Option<Workspace>,
    folder: tempfile::TempDir,
    known: RecordHistory,
    kept: Vec<Kept>,
}

struct File {
    path: PathBuf,
    known: RecordHistory,
    /// Whether it holds changes only, so that a device may refuse it.
    may_gap: bool,
}

/// Devices, the files between them, and what every change should have done.
struct World {
    devices: Vec<Device>,
    jobs: [JobId; 2],
    /// The oven that the first job's core comes from.
    donor: DonorId,
    /// What each winding is begun with.
    plan: WindPlan,
    /// The numbers that devices had.
    numbers: BTreeSet<curbcore::merge::Device>,
    edits: Vec<Edit>,
    files: Vec<File>,
    post: tempfile::TempDir,
    day: i64,
    made: usize,
}

fn copy_files(from: &Path, to: &Path, only: impl Fn(&str) -> bool) {
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap();
        if path.is_file() && only(name) {
            // Into the file that is there, as a snapshot has it: it stays the one that it was.
            fs::write(to.join(name), fs::read(&path).unwrap()).unwrap();
        }
    }
}

fn places() -> impl Iterator<Item = Place> {
    (0..2).flat_map(|job| (0..FIELDS).map(move |field| (job, field)))
}

fn text_of(edit: usize) -> String {
    format!("change {edit}")
}

fn millimetres(edit: usize) -> f64 {
    (20.0_f64 + edit as f64 / 100.0).mul_add(1000.0, 0.5).floor() / 1000.0
}

/// The line of a change of the teardown's history.
fn line_of(edit: usize) -> teardown::Entry {
    let unix_ms = 1_000_000_000 + edit as i64;
    teardown::Entry {
        at: Moment { unix_ms, local_day: 11 },
        event: teardown::Event::Act(teardown::Act::PluggedIn),
    }
}

/// The line of a change of the winding's history: one that may happen at any moment.
fn wound_line_of(edit: usize) -> wind::Entry {
    let unix_ms = 1_000_000_000 + edit as i64;
    wind::Entry {
        at: Moment { unix_ms, local_day: 11 },
        event: wind::Event::Brought,
    }
}

/// A folder in memory, where the machine has a place for that: the test waits for no disk.
fn folder() -> tempfile::TempDir {
    tempfile::tempdir_in("/dev/shm")
        .or_else(|_| tempfile::tempdir())
        .unwrap()
}

impl World {
    fn new(count: usize) -> Self {
        let mut devices: Vec<Device> = (0..count)
            .map(|_| {
                let folder = folder();
                let workspace = Some(Workspace::open(folder.path()).unwrap());
                Device {
                    workspace,
                    folder,
                    known: RecordHistory::new(),
                    kept: Vec::new(),
                }
            })
            .collect();
        let first = devices[0].workspace.as_mut().unwrap();
        first.name_device("first").unwrap();
        let donor = first.start_donor("An oven").unwrap();
        let jobs = [
            first.start_job_from(donor, "one", &OUTLETS[0]).unwrap(),
            first.start_job("two", &OUTLETS[0]).unwrap(),
        ];
        let mut world = World {
            devices,
            jobs,
            donor,
            plan: wind_plan_of(&evaluate(&demo_job()).unwrap(), CoreOfPair::First)
                .unwrap()
                .unwrap(),
            numbers: BTreeSet::new(),
            edits: Vec::new(),
            files: Vec::new(),
            post: folder(),
            day: 20_000,
            made: 0,
        };
        world.exchange_all(0);
        (0..count).for_each(|device| world.check_number(device));
        world
    }

    fn workspace(&mut self, device: usize) -> &mut Workspace {
        let device = &mut self.devices[device];
        device
            .workspace
            .get_or_insert_with(|| Workspace::open(device.folder.path()).unwrap())
    }

    fn edit(&mut self, device: usize, (job, field): Place) {
        // Only the first job comes from an oven.
        let place = if field == TEARDOWN { (0, field) } else { (job, field) };
        let plan = self.plan;
        let edit = self.edits.len();
        let (id, donor) = (self.jobs[job], self.donor);
        let millimetres = millimetres(edit).to_string();
        let workspace = self.workspace(device);
        let mut measure = |path| {
            let entry = Entry {
                path,
                text: &millimetres,
                plus_minus: "",
                origin: Some(Origin::Calipers),
            };
            workspace.set_number(id, &entry, LengthUnit::Millimetre).unwrap();
        };
        match field {
            0 => workspace.rename(id, &text_of(edit)).unwrap(),
            1 => workspace.set_note(id, &text_of(edit)).unwrap(),
            2 => measure("core.tongue_mm"),
            3 => measure("core.stack_mm"),
            TEARDOWN => {
                let teardown::Entry { at, event } = line_of(edit);
                workspace.event(donor, event, at).unwrap();
            }
            _ => {
                if workspace.run::<WindPlan>((id, CoreOfPair::First)).unwrap().is_none() {
                    workspace.begin_winding((id, CoreOfPair::First), &plan).unwrap();
                }
                let wind::Entry { at, event } = wound_line_of(edit);
                workspace.event((id, CoreOfPair::First), event, at).unwrap();
            }
        }
        let known = &mut self.devices[device].known;
        let knew = known.clone();
        known.insert(edit);
        self.edits.push(Edit { place, knew });
    }

    fn export(&mut self, device: usize, sending: &Sending, only: Option<usize>) {
        self.made += 1;
        let path = self.post.path().join(format!("{}.curbshelf", self.made));
        match self.workspace(device).export_shelf(&path, sending, None, |_| ()) {
            Ok(_) => {}
            // Nothing came from that device yet.
            Err(WorkspaceError::Exchange(ExchangeError::UnknownDevice { .. })) => return,
            Err(error) => panic!("{error}"),
        }
        let mut known = self.devices[device].known.clone();
        known.retain(|edit| only.is_none_or(|job| self.edits[*edit].place.0 == job));
        self.files.push(File {
            path,
            known,
            may_gap: matches!(sending, Sending::NewFor(_)),
        });
    }

    fn import(&mut self, device: usize, file: usize) {
        let path = self.files[file].path.clone();
        match self.workspace(device).import_shelf(&path, None, |_| ()) {
            Ok(_) => {
                let known = self.files[file].known.clone();
                self.devices[device].known.extend(known);
            }
            Err(WorkspaceError::Exchange(ExchangeError::Gap { .. })) if self.files[file].may_gap => {}
            Err(error) => panic!("{error}"),
        }
    }

    /// Closes a device's data and keeps them, with a copy by the app.
    fn keep(&mut self, device: usize) {
        self.day += 1;
        let now_ms = self.day * 86_400_000;
        self.workspace(device);
        let device = &mut self.devices[device];
        device.workspace = None;
        let copied = verify_and_back_up(device.folder.path(), now_ms).unwrap();
        let copy = copied.then(|| backups(device.folder.path()).unwrap()[0].path.clone());
        let folder = folder();
        copy_files(device.folder.path(), folder.path(), |_| true);
        device.kept.push(Kept {
            folder,
            copy,
            known: device.known.clone(),
        });
    }

    fn put_back(&mut self, index: usize, kept: usize, how: How) {
        let now_ms = self.day * 86_400_000;
        let device = &mut self.devices[index];
        let kept = &device.kept[kept];
        device.workspace = None;
        let here = device.folder.path();
        match how {
            How::Copy => {
                let copies = backups(here).unwrap();
                let Some(copy) = copies.iter().find(|copy| Some(&copy.path) == kept.copy.as_ref()) else {
                    return;
                };
                restore_backup(here, copy, now_ms).unwrap();
            }
            How::ByHand | How::Whole => {
                for ending in ["", "-wal", "-shm"] {
                    let _ = fs::remove_file(here.join(format!("{DATA}{ending}")));
                }
                copy_files(kept.folder.path(), here, |name| {
                    name.starts_with(DATA) || matches!(how, How::Whole) && name == LOCK
                });
            }
        }
        let was_changed = device.known != kept.known;
        device.known = kept.known.clone();
        if was_changed && !matches!(how, How::Whole) {
            self.check_number(index);
        }
    }

    /// A device whose data were put back goes on under a number that no history has. (After a snapshot of
    /// the whole disk it cannot know; it takes one when it meets what it did before.)
    fn check_number(&mut self, device: usize) {
        let number = self.workspace(device).store().own().unwrap().device;
        assert!(
            self.numbers.insert(number),
            "device {device} goes on as {number}, as before"
        );
    }

    fn live(&mut self, act: &Act) {
        let count = self.devices.len();
        match act {
            Act::Edit { device, place } => self.edit(device.index(count), *place),
            Act::Export { device, what, other } => {
                let (device, other) = (device.index(count), other.index(count));
                let (sending, only) = match what {
                    0 | 1 => (Sending::All, None),
                    2 => (Sending::Jobs(vec![self.jobs[0]]), Some(0)),
                    _ => {
                        let to = self.workspace(other).store().own().unwrap().device;
                        (Sending::NewFor(to), None)
                    }
                };
                self.export(device, &sending, only);
            }
            Act::Import { device, file } if !self.files.is_empty() => {
                self.import(device.index(count), file.index(self.files.len()));
            }
            Act::CutOff { device, file, keep } if !self.files.is_empty() => {
                let bytes = fs::read(&file.get(&self.files).path).unwrap();
                let path = self.post.path().join("cut.curbshelf");
                fs::write(&path, &bytes[..keep.index(bytes.len())]).unwrap();
                let refused = self.workspace(device.index(count)).import_shelf(&path, None, |_| ());
                assert!(refused.is_err(), "a file that was cut off came in");
            }
            Act::Lose { file } if !self.files.is_empty() => {
                self.files.remove(file.index(self.files.len()));
            }
            Act::Keep { device } => self.keep(device.index(count)),
            Act::PutBack { device, kept, how } => {
                let device = device.index(count);
                let states = self.devices[device].kept.len();
                if states > 0 {
                    self.put_back(device, kept.index(states), *how);
                }
            }
            Act::Reopen { device } => self.devices[device.index(count)].workspace = None,
            Act::Fork {
                device,
                other,
                first,
                over,
                then,
                how,
                answered,
            } => {
                let (device, other) = (device.index(count), other.index(count));
                self.keep(device);
                let kept = self.devices[device].kept.len() - 1;
                for place in first {
                    self.edit(device, *place);
                }
                self.export(device, &Sending::All, None);
                self.import(other, self.files.len() - 1);
                for place in over {
                    self.edit(other, *place);
                }
                self.export(other, &Sending::All, None);
                let answer = self.files.len() - 1;
                self.put_back(device, kept, *how);
                if *answered {
                    self.import(device, answer);
                }
                for place in then {
                    self.edit(device, *place);
                }
            }
            Act::Import { .. } | Act::CutOff { .. } | Act::Lose { .. } => {}
        }
    }

    /// Whole shelves go to one device and from there to all, until nobody learns anything.
    fn exchange_all(&mut self, hub: usize) {
        let count = self.devices.len();
        let path = self.post.path().join("all.curbshelf");
        for _ in 0..4 {
            let mut new = false;
            for other in (0..count).filter(|other| *other != hub) {
                self.workspace(other)
                    .export_shelf(&path, &Sending::All, None, |_| ())
                    .unwrap();
                let import = self.workspace(hub).import_shelf(&path, None, |_| ()).unwrap();
                new |= !import.arrival.is_nothing();
            }
            self.workspace(hub)
                .export_shelf(&path, &Sending::All, None, |_| ())
                .unwrap();
            for other in (0..count).filter(|other| *other != hub) {
                let import = self.workspace(other).import_shelf(&path, None, |_| ()).unwrap();
                new |= !import.arrival.is_nothing();
            }
            if !new {
                return;
            }
        }
        panic!("the devices never agree");
    }

    /// All changes that some device knows of.
    fn known(&self) -> RecordHistory {
        self.devices.iter().flat_map(|device| device.known.clone()).collect()
    }

    /// The changes of a field that nobody who knew of them replaced.
    fn surviving(&self, place: Place) -> Vec<usize> {
        let here: Vec<usize> = self
            .known()
            .into_iter()
            .filter(|edit| self.edits[*edit].place == place)
            .collect();
        here.iter()
            .copied()
            .filter(|edit| !here.iter().any(|later| self.edits[*later].knew.contains(edit)))
            .collect()
    }

    /// The values that a field of a job must have: those of the changes that survive.
    fn expected(&self, place: Place) -> BTreeSet<String> {
        self.surviving(place)
            .into_iter()
            .map(|edit| match place.1 {
                0 | 1 => text_of(edit),
                _ => millimetres(edit).to_string(),
            })
            .collect()
    }

    /// A later change has a higher count than every change that its writer knew of.
    fn check_counts(&mut self, device: usize) {
        let path = self.post.path().join("counts.curbshelf");
        self.workspace(device)
            .export_shelf(&path, &Sending::All, None, |_| ())
            .unwrap();
        let mut counts = BTreeMap::new();
        let mut reader = curbcore::exchange::open(&path, None).unwrap();
        let read: Result<(), ExchangeError> = reader.records(|line: RecordLine| {
            for (field, _) in line.known.values() {
                for entry in line.known.entries(field) {
                    counts.insert(entry.value.to_string(), entry.stamp.count);
                }
            }
            Ok(())
        });
        read.unwrap();
        let mut found: Vec<(usize, u64)> = Vec::new();
        for place in places().filter(|place| place.1 < TEARDOWN) {
            for edit in self.surviving(place) {
                let value = match place.1 {
                    0 | 1 => Value::from(text_of(edit)),
                    _ => Value::from(millimetres(edit)),
                };
                found.push((edit, counts[&value.to_string()]));
            }
        }
        for (later, count) in &found {
            for (known, lower) in &found {
                if self.edits[*later].knew.contains(known) {
                    assert!(
                        count > lower,
                        "change {later} has {count}, change {known}, which it knew, {lower}"
                    );
                }
            }
        }
    }

    /// What happened in the teardown and in each winding is told on every device, here or among what other
    /// devices tell.
    fn check_histories(&mut self, device: usize) {
        let known = self.known();
        let (jobs, donor) = (self.jobs, self.donor);
        let edits = &self.edits;
        let of_place = |place: Place| known.iter().copied().filter(move |edit| edits[*edit].place == place);
        let torn: Vec<String> = of_place((0, TEARDOWN)).map(|edit| line_of(edit).to_line()).collect();
        let wound = [0, 1].map(|job| {
            of_place((job, WINDING))
                .map(|edit| wound_line_of(edit).to_line())
                .collect::<Vec<String>>()
        });
        let workspace = self.workspace(device);
        let own = workspace.teardown(donor).unwrap();
        let mut told: BTreeSet<String> = own.history().iter().map(teardown::Entry::to_line).collect();
        for history in workspace.store().remote_teardowns(donor).unwrap() {
            told.extend(history.lines);
        }
        for line in torn {
            assert!(told.contains(&line), "device {device} lost {line}; it tells {told:?}");
        }
        for (job, expected) in jobs.into_iter().zip(wound) {
            let own = workspace.run::<WindPlan>((job, CoreOfPair::First)).unwrap();
            let mut told: BTreeSet<String> = own
                .iter()
                .flat_map(|run| run.history().iter().map(wind::Entry::to_line))
                .collect();
            for history in workspace.store().remote_job_runs(job, JobProcedure::Wind).unwrap() {
                told.extend(history.lines);
            }
            for line in expected {
                assert!(told.contains(&line), "device {device} lost {line}; it tells {told:?}");
            }
        }
    }

    /// The values that a field has on a device: that shown, or all of a conflict.
    fn found(&mut self, device: usize, (job, field): Place) -> BTreeSet<String> {
        let id = self.jobs[job];
        let workspace = self.workspace(device);
        let file = workspace.store().job_file(id).unwrap();
        let shown = match field {
            0 => file.name.clone(),
            1 => file.note.clone(),
            2 => file.core.tongue_mm.value.to_string(),
            _ => file.core.stack_mm.value.to_string(),
        };
        let key = ["name", "note", "reading.tongue_mm", "reading.stack_mm"][field];
        let conflicts = workspace.store().conflicts(1_000).unwrap();
        let mut found = BTreeSet::from([shown]);
        for conflict in conflicts.iter().filter(|conflict| conflict.field == key) {
            let values: Vec<String> = conflict
                .sides
                .iter()
                .map(|side| match field {
                    0 | 1 => side.value.as_str().unwrap().to_owned(),
                    _ => side.value["value"].as_f64().unwrap().to_string(),
                })
                .collect();
            // Both jobs have such a field; the conflict is the one with the value shown.
            if values.iter().any(|value| found.contains(value)) {
                found.extend(values);
            }
        }
        found
    }

    fn check(&mut self, hub: usize) {
        self.exchange_all(hub);
        for device in 0..self.devices.len() {
            self.check_histories(device);
            for place in places().filter(|place| place.1 < TEARDOWN) {
                let expected = self.expected(place);
                let found = self.found(device, place);
                if expected.is_empty() {
                    assert_eq!(found.len(), 1, "device {device}, {place:?}: {found:?}");
                } else {
                    assert_eq!(found, expected, "device {device}, {place:?}");
                }
            }
        }
        self.check_counts(hub);
        // Every conflict can be settled, and then there is none anywhere.
        for conflict in self.workspace(0).store().conflicts(1_000).unwrap() {
            self.workspace(0)
                .resolve_conflict(conflict.kind, conflict.id, &conflict.field, 0)
                .unwrap();
        }
        self.exchange_all(hub);
        let files = self.jobs.map(|job| self.workspace(0).store().job_file(job).unwrap());
        for device in 0..self.devices.len() {
            let jobs = self.jobs;
            let workspace = self.workspace(device);
            assert_eq!(workspace.store().conflict_count().unwrap(), 0, "device {device}");
            assert_eq!(
                jobs.map(|job| workspace.store().job_file(job).unwrap()),
                files,
                "device {device}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 14, max_shrink_iters: 60, ..ProptestConfig::default() })]

    /// Among two to four devices, data are put back at random moments, while others have what was done
    /// since and go on with it. Then all devices agree, every change that nobody replaced is there or in a
    /// conflict that can be settled, and every line of a teardown is told.
    ///
    /// Each of these faults, put into the program by hand, made it fail within its cases: every session
    /// has the same number (`begin_session`); a device that goes back to a copy keeps its number
    /// (`restore_backup` and `adopt_copy`); a device that meets what its clone did keeps its number
    /// (`Importer::finish`); the counts of others are not followed (`LocalDevice::follow`).
    #[test]
    fn data_put_back_lose_and_block_nothing(count in 2..=4_usize, acts in vec(act(), 20..70)) {
        let mut world = World::new(count);
        for act in &acts {
            world.live(act);
        }
        world.check(acts.len() % count);
    }
}

/// The shortest case: a snapshot of the disk is put back, and the device goes on with another change
/// of the same record than the one that it had sent.
#[test]
fn a_snapshot_of_the_disk_gives_no_stamp_twice() {
    for how in [How::Whole, How::ByHand, How::Copy] {
        for fields in [[0, 0], [0, 1], [2, 3], [2, 2], [4, 4]] {
            let mut world = World::new(2);
            world.keep(0);
            world.edit(0, (0, fields[0]));
            world.export(0, &Sending::All, None);
            world.import(1, 0);
            world.put_back(0, 0, how);
            world.edit(0, (0, fields[1]));
            world.check(0);
        }
    }
}
