//! Every door by which a value comes in judges it, and whatever the database refuses is reported in the
//! program's own words.

use serde_json::{Value, json};
use uuid::Uuid;

use super::{file, fresh};
use crate::job::{
    Choice, CoreId, Design, DonorId, JobId, Measurement, Note, Owner, PhotoMarks, PhotoReference, Reading, ShelfCore,
    StockWire,
};
use crate::merge::{Device, Kind, MAX_COUNT, MAX_FOLLOWED, RecordHistory, RecordLine, Stamp};
use crate::quantity::Origin;
use crate::store::{History, ImportMode, JobProcedure, Op, Store, StoreError};

const OTHER: Device = Device(0xaa_0000_0001 << 24);

fn stamp(count: u64) -> Stamp {
    Stamp { count, device: OTHER }
}

/// Takes records in as a file brings them.
fn take(store: &mut Store, lines: &[RecordLine]) -> Result<(), StoreError> {
    store.import(ImportMode::Commit, |importer| {
        lines.iter().try_for_each(|line| importer.take(line.clone()))
    })?;
    Ok(())
}

fn wire(count: u64) -> RecordLine {
    let values = json!({ "conductor": "awg-8", "length_m": 3.0, "created_ms": 1, "edited_ms": 1 });
    line(Kind::Stock, Uuid::from_u128(7), stamp(count), values)
}

fn line(kind: Kind, id: Uuid, stamp: Stamp, values: Value) -> RecordLine {
    let Value::Object(values) = values else {
        panic!("no object")
    };
    RecordLine {
        kind,
        id,
        known: RecordHistory::new(stamp, values),
    }
}

/// Counts up to the largest come in, and the device goes on with counts that everybody reads.
#[test]
fn no_count_of_a_file_uses_up_the_stamps() {
    for count in [MAX_FOLLOWED - 1, MAX_FOLLOWED, MAX_FOLLOWED + 1, MAX_COUNT] {
        let (_folder, mut store) = fresh();
        take(&mut store, &[wire(count)]).unwrap();
        for which in 0..3 {
            store.import_job_file(&file(which)).unwrap();
            store.undo().unwrap();
            store.redo().unwrap();
        }
        let own = store.own().unwrap();
        assert!(own.stamps < MAX_FOLLOWED + 100, "{count}: {}", own.stamps);
        let mut other = fresh();
        let mut lines = Vec::new();
        let left: Result<(), StoreError> = store.export(&crate::store::ExportScope::All, |_, _, text| {
            lines.push(RecordLine::parse(text).unwrap());
            Ok(())
        });
        left.unwrap();
        take(&mut other.1, &lines).unwrap();
        assert_eq!(other.1.job_count().unwrap(), 3);
    }
    let (_folder, mut store) = fresh();
    let refused = take(&mut store, &[wire(MAX_COUNT + 1)]).unwrap_err();
    assert!(matches!(refused, StoreError::Refused(_)), "{refused}");
}

/// A device that has come to the end of the counts begins again under a new number.
#[test]
fn the_largest_stamp_is_never_passed() {
    let (_folder, mut store) = fresh();
    let before = store.own().unwrap().device;
    store
        .connection
        .execute("UPDATE own SET stamps = ?1", [MAX_COUNT.cast_signed()])
        .unwrap();
    store.import_job_file(&file(0)).unwrap();
    let own = store.own().unwrap();
    assert_ne!(own.device, before);
    assert!(own.stamps < 10);
    store.undo().unwrap();
    store.redo().unwrap();
}

/// The ids of a job, its core and its donor in a workspace with one job.
fn ids(store: &mut Store) -> (JobId, CoreId, DonorId) {
    let job = store.import_job_file(&file(0)).unwrap();
    let core = store.job(job).unwrap().body.core;
    let donor = store.core(core).unwrap().body.donor.unwrap();
    (job, core, donor)
}

/// What is known of a record here.
fn known(store: &Store, kind: Kind, id: Uuid) -> RecordHistory {
    crate::store::ledger::read(&store.connection, kind, id)
        .unwrap()
        .unwrap()
}

/// A value beside the one shown may be chosen by a person, so it is judged when it comes in: by the
/// same rows as if it were typed (the field table; IEC 60038 for the frequencies).
#[test]
fn values_beside_the_one_shown_are_judged() {
    let (_folder, mut store) = fresh();
    let (job, core, donor) = ids(&mut store);
    let cases = [
        (Kind::Job, job.0, "breaker_a", json!(-5.0)),
        (Kind::Job, job.0, "breaker_a", json!(1e300)),
        (Kind::Job, job.0, "mains_hertz", json!(61)),
        (Kind::Job, job.0, "name", json!("")),
        (Kind::Job, job.0, "name", json!("a\u{1b}[31m")),
        (Kind::Job, job.0, "goal", json!({ "use": "time_machine" })),
        (Kind::Job, job.0, "conditions.fan_m_s", json!(-1.0)),
        (Kind::Job, job.0, "choice", json!({ "turns": -1 })),
        (Kind::Job, job.0, "plug", json!("x".repeat(61))),
        (Kind::Core, core.0, "rated_volts", json!(-120.0)),
        (Kind::Core, core.0, "rated_hertz", json!(61)),
        (Kind::Core, core.0, "primary_metal", json!("gold")),
        (Kind::Donor, donor.0, "name", json!(" ")),
        (Kind::Donor, donor.0, "hertz", json!(61)),
        (Kind::Donor, donor.0, "look.rust", json!("green")),
    ];
    for (kind, id, field, value) in cases {
        let mut theirs = known(&store, kind, id);
        let kept = theirs.shown(field).cloned();
        // First alone, then as the other value of a conflict.
        theirs.write(stamp(1), field, value.clone());
        let alone = take(
            &mut store,
            &[RecordLine {
                kind,
                id,
                known: theirs.clone(),
            }],
        );
        assert!(
            matches!(alone, Err(StoreError::Refused(_))),
            "{field} {value}: {alone:?}"
        );
        let Some(kept) = kept else { continue };
        let mut other = known(&store, kind, id);
        let device = Device(0xbb << 40);
        other.write(Stamp { count: 9, device }, field, kept);
        let conflicting = other.merge(&theirs);
        assert!(conflicting.entries(field).len() > 1, "{field}");
        let beside = take(
            &mut store,
            &[RecordLine {
                kind,
                id,
                known: conflicting,
            }],
        );
        assert!(
            matches!(beside, Err(StoreError::Refused(_))),
            "{field} {value}: {beside:?}"
        );
    }
    assert_eq!(store.conflict_count().unwrap(), 0);
}

/// A data file that was put back may hold anything: what a person chooses is judged once more.
#[test]
fn a_value_that_is_chosen_is_judged() {
    let (_folder, mut store) = fresh();
    let (job, ..) = ids(&mut store);
    let before = store.job_file(job).unwrap();
    let first = known(&store, Kind::Job, job.0);
    let (mut one, mut two) = (first.clone(), first);
    one.write(stamp(8), "breaker_a", json!(16.0));
    let device = Device(0xbb << 40);
    two.write(Stamp { count: 9, device }, "breaker_a", json!(-5.0));
    let conflicting = one.merge(&two);
    crate::store::ledger::write(&store.connection, Kind::Job, job.0, &conflicting, 9, false).unwrap();
    assert_eq!(store.conflict_count().unwrap(), 1);
    let refused = store.resolve_conflict(Kind::Job, job.0, "breaker_a", 1).unwrap_err();
    assert!(matches!(refused, StoreError::Unreadable { .. }), "{refused}");
    assert_eq!(store.job_file(job).unwrap(), before);
    store.resolve_conflict(Kind::Job, job.0, "breaker_a", 0).unwrap();
    assert_eq!(store.conflict_count().unwrap(), 0);
    assert_eq!(store.job_file(job).unwrap().mains.circuit.breaker_a, 16.0);
}

const PICTURE: &[u8] = b"\x89PNG\r\n\x1a\n and the rest of a picture";

fn marks() -> PhotoMarks {
    PhotoMarks {
        frame: [4000.0, 3000.0],
        focal_35mm: None,
        reference: PhotoReference::Card,
        found: None,
        height_mm: Reading::new(0.0, 1.0, Origin::Typical),
        face: None,
        straight: Vec::new(),
        marks: Vec::new(),
        angles: Vec::new(),
        object_doubts: Vec::new(),
        doubts: Vec::new(),
    }
}

#[test]
fn marks_on_a_photo_are_judged_and_one_bad_set_spoils_no_other_photo() {
    let (_folder, mut store) = fresh();
    let (_, core, _) = ids(&mut store);
    let photos = [0, 1].map(|_| store.add_core_photo(core, "measure", PICTURE).unwrap());
    store.set_marks(photos[1], &marks()).unwrap();
    for spoil in [
        |marks: &mut PhotoMarks| marks.frame[0] = f64::NAN,
        |marks: &mut PhotoMarks| marks.height_mm.value = 1e300,
        |marks: &mut PhotoMarks| marks.height_mm.plus_minus = -1.0,
        |marks: &mut PhotoMarks| marks.face = Some([[1e12, 0.0]; 4]),
        |marks: &mut PhotoMarks| marks.doubts = vec!["x".repeat(1_000)],
        |marks: &mut PhotoMarks| marks.object_doubts = vec!["x".repeat(1_000)],
        |marks: &mut PhotoMarks| {
            marks.reference = PhotoReference::Coin {
                coin: "\u{1b}".to_owned(),
            }
        },
    ] {
        let mut spoilt = marks();
        spoil(&mut spoilt);
        let refused = store.set_marks(photos[0], &spoilt);
        assert!(matches!(refused, Err(StoreError::Field(_))), "{refused:?}");
    }
    // By a file.
    for spoilt in [json!({}), json!({ "frame": [1, 1] }), json!("red")] {
        let mut theirs = known(&store, Kind::CorePhoto, photos[0].0);
        theirs.write(stamp(9), "marks", spoilt.clone());
        let (kind, id) = (Kind::CorePhoto, photos[0].0);
        let refused = take(
            &mut store,
            &[RecordLine {
                kind,
                id,
                known: theirs,
            }],
        );
        assert!(matches!(refused, Err(StoreError::Refused(_))), "{spoilt}: {refused:?}");
    }
    // By hand in the data file.
    store
        .connection
        .execute(
            "UPDATE core_photo SET marks = '{}' WHERE id = ?1",
            [photos[0].0.as_bytes()],
        )
        .unwrap();
    let found = store.core_photos(core).unwrap();
    assert_eq!(found.iter().filter(|photo| photo.marks.is_some()).count(), 1);
}

#[test]
fn the_plan_of_a_job_run_is_judged() {
    let (_folder, mut store) = fresh();
    let (job, ..) = ids(&mut store);
    let good = json!([{ "stage": "continuity", "of": 0, "value": 1.0, "low": 0.9, "high": null }]);
    store
        .begin_job_run(job, JobProcedure::Bench, &good.to_string())
        .unwrap();
    for bad in [
        json!({}),
        json!({ "turns": "many" }),
        json!([1]),
        json!([{ "stage": "continuity", "of": 0, "value": 1.0, "low": 2.0, "high": null }]),
        json!([{ "stage": "continuity", "of": 300, "value": 1.0, "low": 0.9, "high": null }]),
    ] {
        assert!(
            store.begin_job_run(job, JobProcedure::Bench, &bad.to_string()).is_err(),
            "{bad}"
        );
        let values = json!({
            "job": job.0.to_string(), "device": OTHER.to_string(), "device_name": "", "procedure": "bench", "plan": bad,
            "lines": [], "created_ms": 1,
        });
        let run = line(Kind::JobRun, Uuid::from_u128(9), stamp(3), values);
        assert!(matches!(take(&mut store, &[run]), Err(StoreError::Refused(_))));
    }
}

/// Marks that were set after a photo came in are no step of undo: they do not go with the arrival.
#[test]
fn an_arrival_whose_photo_was_marked_since_is_not_taken_back() {
    let (_folder, mut phone) = fresh();
    let (_, core, _) = ids(&mut phone);
    let photo = phone.add_core_photo(core, "measure", PICTURE).unwrap();
    let send = |phone: &Store, bench: &mut Store| {
        let mut lines = Vec::new();
        let left: Result<(), StoreError> = phone.export(&crate::store::ExportScope::All, |_, _, text| {
            lines.push(RecordLine::parse(text).unwrap());
            Ok(())
        });
        left.unwrap();
        bench
            .import(ImportMode::Commit, |importer| -> Result<(), StoreError> {
                for line in &lines {
                    importer.take(line.clone())?;
                }
                importer.picture(Kind::CorePhoto, photo.0, PICTURE)
            })
            .unwrap();
    };
    let (_other, mut bench) = fresh();
    send(&phone, &mut bench);
    bench.undo().unwrap();
    send(&phone, &mut bench);
    bench.set_marks(photo, &marks()).unwrap();
    assert!(matches!(bench.undo(), Err(StoreError::WouldLose)));
    assert_eq!(bench.core_photos(core).unwrap()[0].marks, Some(marks()));
    // The same for a photo that was here, and whose marks a later file changed.
    let mut theirs = marks();
    theirs.frame = [800.0, 600.0];
    phone.set_marks(photo, &theirs).unwrap();
    let (_third, mut garage) = fresh();
    send(&bench, &mut garage);
    send(&phone, &mut garage);
    garage.undo().unwrap();
    send(&phone, &mut garage);
    let mut own = marks();
    own.frame = [640.0, 480.0];
    garage.set_marks(photo, &own).unwrap();
    assert!(matches!(garage.undo(), Err(StoreError::WouldLose)));
    assert_eq!(garage.core_photos(core).unwrap()[0].marks, Some(own));
}

/// What was undone before an arrival was taken back may build on it: it is not offered again.
#[test]
fn nothing_is_done_again_on_what_was_taken_back() {
    let (_folder, mut phone) = fresh();
    let (job, ..) = ids(&mut phone);
    let (_other, mut bench) = fresh();
    let mut lines = Vec::new();
    let left: Result<(), StoreError> = phone.export(&crate::store::ExportScope::All, |_, _, text| {
        lines.push(RecordLine::parse(text).unwrap());
        Ok(())
    });
    left.unwrap();
    take(&mut bench, &lines).unwrap();
    let choice = bench.job(job).unwrap().body.choice.unwrap();
    let design = Design {
        job,
        name: "Kept".to_owned(),
        choice,
        note: String::new(),
    };
    bench.edit(Op::Note, |edit| edit.insert(&design)).unwrap();
    bench.undo().unwrap();
    bench.undo().unwrap();
    assert_eq!(bench.redo_op().unwrap(), None);
    assert_eq!(bench.redo().unwrap(), None);
    assert_eq!(bench.job_count().unwrap(), 0);
}

/// A clock before 1970 makes records that another device takes in.
#[test]
fn a_clock_before_1970_counts_as_1970() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open_with_clock(folder.path(), crate::store::Clock::Steps(-10_000)).unwrap();
    let (job, ..) = ids(&mut store);
    let mut lines = Vec::new();
    let left: Result<(), StoreError> = store.export(&crate::store::ExportScope::All, |_, _, text| {
        lines.push(RecordLine::parse(text).unwrap());
        Ok(())
    });
    left.unwrap();
    let (_other, mut bench) = fresh();
    take(&mut bench, &lines).unwrap();
    assert!(bench.job(job).is_ok());
}

/// The tables that hold a person's work.
const TABLES: [&str; 14] = [
    "donor",
    "core",
    "job",
    "design",
    "note",
    "measurement",
    "stock",
    "photo",
    "core_photo",
    "teardown_entry",
    "job_run",
    "job_run_entry",
    "ledger",
    "operation",
];

/// Every public change of the store, on records that are there.
fn changes(store: &mut Store) -> Vec<(&'static str, Result<(), StoreError>)> {
    let job = store.job_summaries(1, None).unwrap()[0].id;
    let record = store.job(job).unwrap();
    let core = record.body.core;
    let shelf = store.core(core).unwrap();
    let donor_id = shelf.body.donor.unwrap();
    let donor = store.donor(donor_id).unwrap();
    let stock = store.stock().unwrap()[0].clone();
    let choice: Choice = record.body.choice.clone().unwrap();
    let design = Design {
        job,
        name: "Kept".to_owned(),
        choice,
        note: String::new(),
    };
    let note = Note {
        owner: Owner::Job(job),
        text: "hums".to_owned(),
    };
    let measured = Measurement {
        owner: Owner::Core(core),
        field: "tongue_mm".to_owned(),
        reading: Reading::new(33.0, 0.2, Origin::Rule),
    };
    let mut shelf_new: ShelfCore = shelf.body.clone();
    shelf_new.core.tongue_mm.value += 1.0;
    let mut job_new = record.body.clone();
    job_new.note = "other".to_owned();
    let mut donor_new = donor.body.clone();
    donor_new.notes = "other".to_owned();
    let less = StockWire {
        length_m: 1.0,
        ..stock.body.clone()
    };
    let plan = "[]";
    let wire = wire(20);
    vec![
        ("import_job_file", store.import_job_file(&file(1)).map(|_| ())),
        ("insert_design", store.edit(Op::Note, |e| e.insert(&design).map(|_| ()))),
        ("insert_note", store.edit(Op::Note, |e| e.insert(&note).map(|_| ()))),
        ("insert_stock", store.edit(Op::Note, |e| e.insert(&less).map(|_| ()))),
        (
            "insert_core",
            store.edit(Op::Note, |e| e.insert(&shelf_new).map(|_| ())),
        ),
        (
            "add_measurement",
            store.edit(Op::Note, |e| e.add_measurement(&measured).map(|_| ())),
        ),
        (
            "update_core",
            store.edit(Op::Note, |e| {
                e.update(core, shelf.meta.revision, &shelf_new).map(|_| ())
            }),
        ),
        (
            "update_job",
            store.edit(Op::Note, |e| e.update(job, record.meta.revision, &job_new).map(|_| ())),
        ),
        (
            "update_donor",
            store.edit(Op::Note, |e| {
                e.update(donor_id, donor.meta.revision, &donor_new).map(|_| ())
            }),
        ),
        (
            "update_stock",
            store.edit(Op::Note, |e| {
                e.update(stock.meta.id, stock.meta.revision, &less).map(|_| ())
            }),
        ),
        ("delete_stock", store.edit(Op::Note, |e| e.delete(stock.meta.id))),
        ("delete_job", store.edit(Op::Note, |e| e.delete(job))),
        ("delete_donor", store.edit(Op::Note, |e| e.delete(donor_id))),
        ("forget_teardown", store.edit(Op::Note, |e| e.forget_teardown(donor_id))),
        ("add_photo", store.add_photo(donor_id, "label", PICTURE).map(|_| ())),
        (
            "add_core_photo",
            store.add_core_photo(core, "measure", PICTURE).map(|_| ()),
        ),
        ("add_line", store.add_line(History::Teardown(donor_id), "line")),
        (
            "begin_job_run",
            store.begin_job_run(job, JobProcedure::Bench, plan).map(|_| ()),
        ),
        ("adopt_copy", store.adopt_copy("brought")),
        ("name_device", store.name_device("bench")),
        (
            "record_received",
            store.record_received(OTHER, "phone", Some(Uuid::from_u128(1))),
        ),
        ("note_sent", store.note_sent(OTHER, 1, Uuid::from_u128(2))),
        ("resolve_conflict", store.resolve_conflict(Kind::Job, job.0, "name", 0)),
        ("arrive", take(store, &[wire])),
        ("set", store.set(crate::store::Setting::Theme, "dark")),
        ("undo", store.undo().map(|_| ())),
        ("redo", store.redo().map(|_| ())),
    ]
}

/// Whatever the database refuses, in whatever change: no word of it reaches a person.
#[test]
fn no_word_of_the_database_reaches_a_person() {
    let mut failed = 0;
    for event in ["INSERT", "UPDATE", "DELETE"] {
        for table in TABLES.into_iter().chain(["own", "peer", "received", "setting"]) {
            let (_folder, mut store) = fresh();
            ids(&mut store);
            store.record_received(OTHER, "phone", None).unwrap();
            store
                .connection
                .execute_batch(&format!(
                    "CREATE TEMP TRIGGER refuse BEFORE {event} ON main.{table} BEGIN
                         SELECT RAISE(ABORT, 'FOREIGN KEY constraint failed: SQLite');
                     END;"
                ))
                .unwrap();
            for (what, done) in changes(&mut store) {
                let Err(error) = done else { continue };
                let text = error.to_string();
                failed += usize::from(matches!(error, StoreError::DoesNotFit));
                for word in [
                    "SQL",
                    "FOREIGN",
                    "constraint",
                    "NOT NULL",
                    "trigger",
                    "CHECK",
                    "UNIQUE",
                    "rusqlite",
                ] {
                    assert!(!text.contains(word), "{what} with {event} of {table}: {text}");
                }
                assert!(text.len() > 20, "{what}: {text}");
            }
        }
    }
    assert!(failed > 60, "the triggers refused only {failed} changes");
}

/// Undoing an import restores values that stand in the data file: rows, histories of the ledger and
/// histories of other devices are judged as they come back, and a refusal changes nothing.
#[test]
fn what_an_undone_import_brings_back_is_judged() {
    let other = OTHER.to_string();
    let remote = |donor: DonorId, words: &str| {
        let values = json!({ "donor": donor.0.to_string(), "device": other, "device_name": words, "lines": ["words"] });
        line(Kind::Teardown, Uuid::from_u128(11), stamp(8), values)
    };
    let cases = [
        ("job", "changed", "breaker_a", "-value"),
        (
            "ledger",
            "changed",
            "history",
            "replace(value, '\"breaker_a\":', '\"breaker_a\":-')",
        ),
        ("remote_history", "changed", "device_name", "'gar' || char(27) || 'age'"),
        ("measurement", "removed", "field", "'no_such_field'"),
    ];
    for (table, action, name, value) in cases {
        let (_folder, mut store) = fresh();
        let (job, core, donor) = ids(&mut store);
        let reading = Measurement {
            owner: Owner::Core(core),
            field: "tongue_mm".to_owned(),
            reading: Reading::new(33.0, 0.2, Origin::Rule),
        };
        store.edit(Op::Note, |edit| edit.add_measurement(&reading)).unwrap();
        take(&mut store, &[remote(donor, "garage")]).unwrap();
        // A file that changes the job and the other device's history, and removes a reading.
        let mut job_line = known(&store, Kind::Job, job.0);
        job_line.write(stamp(20), "breaker_a", json!(16.0));
        let measured = known(&store, Kind::Core, core.0)
            .shown("reading.tongue_mm")
            .and_then(Value::as_str)
            .and_then(|text| text.parse().ok())
            .unwrap();
        let mut gone = known(&store, Kind::Measurement, measured);
        gone.remove(stamp(20));
        let mut theirs = known(&store, Kind::Teardown, Uuid::from_u128(11));
        theirs.write(stamp(20), "device_name", json!("cellar"));
        let lines = [
            (Kind::Job, job.0, job_line),
            (Kind::Measurement, measured, gone),
            (Kind::Teardown, Uuid::from_u128(11), theirs),
        ];
        let lines = lines.map(|(kind, id, known)| RecordLine { kind, id, known });
        take(&mut store, &lines).unwrap();
        let altered = store
            .connection
            .execute(
                &format!(
                    "UPDATE operation_value SET value = {value} WHERE name = ?3 AND step_id IN (
                         SELECT id FROM operation_step WHERE operation_id = (SELECT max(id) FROM operation)
                         AND \"table\" = ?1 AND action = ?2
                     )"
                ),
                (table, action, name),
            )
            .unwrap();
        assert!(altered > 0, "{table}: nothing to alter");
        let before = super::dump(&store.connection);
        let refused = store.undo().unwrap_err();
        assert!(matches!(refused, StoreError::PutBack { .. }), "{table}: {refused}");
        assert_eq!(super::dump(&store.connection), before, "{table}");
    }
}

/// A data file that was put back may hold anything in the histories of other devices too.
#[test]
fn the_histories_of_other_devices_are_judged_in_a_data_file_that_was_put_back() {
    let (_folder, mut store) = fresh();
    let (_, _, donor) = ids(&mut store);
    let values = json!({
        "donor": donor.0.to_string(), "device": OTHER.to_string(), "device_name": "garage", "lines": ["words"],
    });
    take(
        &mut store,
        &[line(Kind::Teardown, Uuid::from_u128(11), stamp(8), values)],
    )
    .unwrap();
    store.verify().unwrap();
    for change in ["device_name = char(27)", "lines = '[1]'", "device = 'nobody'"] {
        store.connection.execute_batch("SAVEPOINT one").unwrap();
        store
            .connection
            .execute(&format!("UPDATE remote_history SET {change}"), [])
            .unwrap();
        let refused = store.verify().unwrap_err();
        assert!(matches!(refused, StoreError::PutBack { .. }), "{change}: {refused}");
        store.connection.execute_batch("ROLLBACK TO one; RELEASE one").unwrap();
    }
    store.verify().unwrap();
}

/// A large import rests the triggers in another way than a small one: afterwards changes are stamped and
/// undone as before, and the import can be taken back.
#[test]
fn after_a_large_import_changes_are_stamped_and_undone_as_after_a_small_one() {
    for count in [10, crate::store::undo::MANY_ROWS as u128 + 500] {
        let (_folder, mut store) = fresh();
        let values = json!({ "conductor": "awg-8", "length_m": 3.0, "created_ms": 1, "edited_ms": 1 });
        let lines: Vec<RecordLine> = (0..count)
            .map(|id| line(Kind::Stock, Uuid::from_u128(id), stamp(1), values.clone()))
            .collect();
        take(&mut store, &lines).unwrap();
        let changes = store.changes().unwrap();
        let job = store.import_job_file(&file(0)).unwrap();
        assert!(store.changes().unwrap() > changes);
        assert!(store.undo().unwrap().is_some());
        assert!(store.job(job).is_err());
        assert_eq!(store.undo().unwrap(), Some(Op::Import));
        assert!(store.stock().unwrap().is_empty());
        store.import_job_file(&file(1)).unwrap();
        store.undo().unwrap();
        assert_eq!(store.job_count().unwrap(), 0);
        assert!(store.redo().unwrap().is_some());
        assert_eq!(store.job_count().unwrap(), 1);
    }
}

/// Two histories of a reading, each of which is accepted, may not make one together that is not: what is
/// written once stays as it came first. The same for what says what a picture is.
#[test]
fn what_is_written_once_does_not_mix_with_what_a_later_file_says_of_it() {
    let (_folder, mut store) = fresh();
    let (job, core, _) = ids(&mut store);
    let reading: Uuid = known(&store, Kind::Core, core.0)
        .shown("reading.outer_limb_mm")
        .and_then(Value::as_str)
        .and_then(|text| text.parse().ok())
        .unwrap();
    let before = store.job_file(job).unwrap();
    let mut theirs = known(&store, Kind::Measurement, reading);
    // A sheet's thickness of 0.05 mm is accepted, a limb of 0.05 mm is not (the field table).
    theirs.write(stamp(1), "field", json!("seam_gap_mm"));
    theirs.write(stamp(900), "value", json!(0.05));
    theirs.write(stamp(900), "plus_minus", json!(0.01));
    let mut line = RecordLine {
        kind: Kind::Measurement,
        id: reading,
        known: theirs,
    };
    crate::merge::accept(&mut line).unwrap();
    take(&mut store, &[line.clone()]).unwrap();
    assert_eq!(store.job_file(job).unwrap(), before);
    line.known.write(stamp(901), "field", json!("outer_limb_mm"));
    line.known.write(stamp(901), "value", json!(44.0));
    take(&mut store, &[line]).unwrap();
    assert_eq!(store.job_file(job).unwrap(), before);
    store.verify().unwrap();

    let photo = store.add_core_photo(core, "measure", PICTURE).unwrap();
    let own = known(&store, Kind::CorePhoto, photo.0);
    let mut theirs = own.clone();
    theirs.write(stamp(950), "sha256", json!("0".repeat(64)));
    let (kind, id) = (Kind::CorePhoto, photo.0);
    take(
        &mut store,
        &[RecordLine {
            kind,
            id,
            known: theirs,
        }],
    )
    .unwrap();
    assert_eq!(known(&store, kind, id).shown("sha256"), own.shown("sha256"));
}
