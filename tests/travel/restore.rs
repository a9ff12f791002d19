//! Data put back from elsewhere: by hand, from a copy, or with the whole disk. Nothing that a device
//! still knows may be lost by it, no exchange may fail, and no conflict may be left that a person
//! cannot settle.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use curbcore::app::sync::Sending;
use curbcore::app::workspace::{Entry, Workspace, WorkspaceError};
use curbcore::exchange::ExchangeError;
use curbcore::job::JobId;
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::quantity::{LengthUnit, Origin};
use curbcore::store::{backups, restore_backup, verify_and_back_up};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;

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
        job: usize,
        field: usize,
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
    /// Kept, changed, sent and taken in elsewhere, put back, and changed in another way.
    Fork {
        device: Index,
        other: Index,
        first: (usize, usize),
        then: (usize, usize),
        how: How,
    },
}

fn act() -> impl Strategy<Value = Act> {
    let index = any::<Index>;
    let how = prop_oneof![Just(How::ByHand), Just(How::Whole), Just(How::Copy)];
    prop_oneof![
        8 => (index(), 0..2_usize, 0..4_usize).prop_map(|(device, job, field)| Act::Edit { device, job, field }),
        5 => (index(), 0..5_usize, index()).prop_map(|(device, what, other)| Act::Export { device, what, other }),
        6 => (index(), index()).prop_map(|(device, file)| Act::Import { device, file }),
        1 => (index(), index(), index()).prop_map(|(device, file, keep)| Act::CutOff { device, file, keep }),
        1 => index().prop_map(|file| Act::Lose { file }),
        3 => index().prop_map(|device| Act::Keep { device }),
        3 => (index(), index(), how.clone()).prop_map(|(device, kept, how)| Act::PutBack { device, kept, how }),
        1 => index().prop_map(|device| Act::Reopen { device }),
        2 => (index(), index(), (0..2_usize, 0..4_usize), (0..2_usize, 0..4_usize), how.clone())
            .prop_map(|(device, other, first, then, how)| Act::Fork { device, other, first, then, how }),
    ]
}

type RecordHistory = BTreeSet<usize>;

/// One change of one field; each has a value of its own.
struct Edit {
    place: (usize, usize),
    /// The changes of this field that its writer knew of.
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

fn text_of(edit: usize) -> String {
    format!("change {edit}")
}

fn millimetres(edit: usize) -> f64 {
    (20.0_f64 + edit as f64 / 100.0).mul_add(1000.0, 0.5).floor() / 1000.0
}

impl World {
    fn new(count: usize) -> Self {
        let mut devices: Vec<Device> = (0..count)
            .map(|_| {
                let folder = tempfile::tempdir().unwrap();
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
        let jobs = ["one", "two"].map(|name| first.start_job(name, &OUTLETS[0]).unwrap());
        let mut world = World {
            devices,
            jobs,
            edits: Vec::new(),
            files: Vec::new(),
            post: tempfile::tempdir().unwrap(),
            day: 20_000,
            made: 0,
        };
        world.exchange_all();
        world
    }

    fn workspace(&mut self, device: usize) -> &mut Workspace {
        let device = &mut self.devices[device];
        device
            .workspace
            .get_or_insert_with(|| Workspace::open(device.folder.path()).unwrap())
    }

    fn edit(&mut self, device: usize, job: usize, field: usize) {
        let edit = self.edits.len();
        let id = self.jobs[job];
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
            _ => measure("core.stack_mm"),
        }
        let place = (job, field);
        let known = &mut self.devices[device].known;
        let knew = known
            .iter()
            .copied()
            .filter(|edit| self.edits[*edit].place == place)
            .collect();
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
        let folder = tempfile::tempdir().unwrap();
        copy_files(device.folder.path(), folder.path(), |_| true);
        device.kept.push(Kept {
            folder,
            copy,
            known: device.known.clone(),
        });
    }

    fn put_back(&mut self, device: usize, kept: usize, how: How) {
        let now_ms = self.day * 86_400_000;
        let device = &mut self.devices[device];
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
        device.known = kept.known.clone();
    }

    fn live(&mut self, act: &Act) {
        let count = self.devices.len();
        match act {
            Act::Edit { device, job, field } => self.edit(device.index(count), *job, *field),
            Act::Export { device, what, other } => {
                let (device, other) = (device.index(count), other.index(count));
                let (sending, only) = match what {
                    0 | 1 => (Sending::All, None),
                    2 => (Sending::Jobs(vec![self.jobs[0]]), Some(0)),
                    _ => {
                        let to = self.workspace(other).own_device().unwrap().device;
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
                then,
                how,
            } => {
                let (device, other) = (device.index(count), other.index(count));
                self.keep(device);
                self.edit(device, first.0, first.1);
                self.export(device, &Sending::All, None);
                self.import(other, self.files.len() - 1);
                self.put_back(device, self.devices[device].kept.len() - 1, *how);
                self.edit(device, then.0, then.1);
            }
            Act::Import { .. } | Act::CutOff { .. } | Act::Lose { .. } => {}
        }
    }

    /// Whole shelves go round until nobody learns anything.
    fn exchange_all(&mut self) {
        let count = self.devices.len();
        for _ in 0..2 * count {
            let mut new = false;
            for from in 0..count {
                let path = self.post.path().join("all.curbshelf");
                self.workspace(from)
                    .export_shelf(&path, &Sending::All, None, |_| ())
                    .unwrap();
                for to in (0..count).filter(|to| *to != from) {
                    let parcel = self.workspace(to).import_shelf(&path, None, |_| ()).unwrap();
                    new |= !parcel.arrival.is_nothing();
                }
            }
            if !new {
                return;
            }
        }
        panic!("the devices never agree");
    }

    /// The values that a field of a job must have: those of the changes that nobody who knew of them
    /// replaced.
    fn expected(&self, place: (usize, usize)) -> BTreeSet<String> {
        let known: RecordHistory = self.devices.iter().flat_map(|device| device.known.clone()).collect();
        let here: Vec<usize> = known
            .into_iter()
            .filter(|edit| self.edits[*edit].place == place)
            .collect();
        here.iter()
            .filter(|edit| !here.iter().any(|later| self.edits[*later].knew.contains(edit)))
            .map(|edit| match place.1 {
                0 | 1 => text_of(*edit),
                _ => millimetres(*edit).to_string(),
            })
            .collect()
    }

    /// The values that a field has on a device: that shown, or all of a conflict.
    fn found(&mut self, device: usize, (job, field): (usize, usize)) -> BTreeSet<String> {
        let id = self.jobs[job];
        let workspace = self.workspace(device);
        let file = workspace.job(id).unwrap();
        let shown = match field {
            0 => file.name.clone(),
            1 => file.note.clone(),
            2 => file.core.tongue_mm.value.to_string(),
            _ => file.core.stack_mm.value.to_string(),
        };
        let key = ["name", "note", "reading.tongue_mm", "reading.stack_mm"][field];
        let conflicts = workspace.conflicts(1_000).unwrap();
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

    fn check(&mut self) {
        self.exchange_all();
        for place in (0..2).flat_map(|job| (0..4).map(move |field| (job, field))) {
            let expected = self.expected(place);
            for device in 0..self.devices.len() {
                let found = self.found(device, place);
                if expected.is_empty() {
                    assert_eq!(found.len(), 1, "device {device}, {place:?}: {found:?}");
                } else {
                    assert_eq!(found, expected, "device {device}, {place:?}");
                }
            }
        }
        // Every conflict can be settled, and then there is none anywhere.
        for conflict in self.workspace(0).conflicts(1_000).unwrap() {
            self.workspace(0)
                .resolve_conflict(conflict.kind, conflict.id, &conflict.field, 0)
                .unwrap();
        }
        self.exchange_all();
        let files = self.jobs.map(|job| self.workspace(0).job(job).unwrap());
        for device in 0..self.devices.len() {
            let jobs = self.jobs;
            let workspace = self.workspace(device);
            assert_eq!(workspace.conflict_count().unwrap(), 0, "device {device}");
            assert_eq!(jobs.map(|job| workspace.job(job).unwrap()), files, "device {device}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, max_shrink_iters: 60, ..ProptestConfig::default() })]

    #[test]
    fn data_put_back_lose_and_block_nothing(count in 2..=4_usize, acts in vec(act(), 20..70)) {
        let mut world = World::new(count);
        for act in &acts {
            world.live(act);
        }
        world.check();
    }
}

/// The shortest case: a snapshot of the disk is put back, and the device goes on with another change
/// of the same record than the one that it had sent.
#[test]
fn a_snapshot_of_the_disk_gives_no_stamp_twice() {
    for how in [How::Whole, How::ByHand, How::Copy] {
        for fields in [[0, 0], [0, 1], [2, 3], [2, 2]] {
            let mut world = World::new(2);
            world.keep(0);
            world.edit(0, 0, fields[0]);
            world.export(0, &Sending::All, None);
            world.import(1, 0);
            world.put_back(0, 0, how);
            world.edit(0, 0, fields[1]);
            world.check();
        }
    }
}
