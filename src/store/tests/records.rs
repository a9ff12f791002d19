//! Records in and out.

use super::{file, fresh};
use crate::job::{Choice, CoreId, Design, Goal, Job, Measurement, Note, Owner, Reading, Record, ShelfCore, StockWire};
use crate::quantity::Origin;
use crate::store::{History, JobProcedure, Op, Setting, Store, StoreError, histories, ledger};

fn job_of(store: &Store) -> (CoreId, Record<crate::job::JobId, Job>) {
    let id = store.job_summaries(1, None).unwrap()[0].id;
    let job = store.job(id).unwrap();
    (job.body.core, job)
}

/// Every use's job file comes out as it went in.
#[test]
fn job_files_come_back() {
    for which in 0..Goal::USES.len() {
        let (_folder, mut store) = fresh();
        let file = file(which);
        let id = store.import_job_file(&file).unwrap();
        let back = store.job_file(id).unwrap();
        assert_eq!(back, file);
        assert_eq!(back.to_json(), file.to_json());
    }
}

/// With only what a file must have.
#[test]
fn bare_job_file_comes_back() {
    let (_folder, mut store) = fresh();
    let mut bare = file(0);
    (bare.donor, bare.choice, bare.stock, bare.note) = (None, None, Vec::new(), String::new());
    let core = &mut bare.core;
    (core.outer_limb_mm, core.yoke_mm, core.stacking_factor, core.mass_kg) = (None, None, None, None);
    (
        core.primary.test_turn,
        core.primary.counted_turns,
        core.primary.old_secondary,
    ) = (None, None, None);
    let id = store.import_job_file(&bare).unwrap();
    assert_eq!(store.job_file(id).unwrap(), bare);
    // The shelf does not get the same wire twice.
    store.import_job_file(&file(0)).unwrap();
    store.import_job_file(&file(0)).unwrap();
    assert_eq!(store.stock().unwrap().len(), 1);
}

#[test]
fn changes_count_revisions() {
    let (_folder, mut store) = fresh();
    store.import_job_file(&file(1)).unwrap();
    let (core_id, job) = job_of(&store);
    let core = store.core(core_id).unwrap();
    assert_eq!(core.meta.revision, 1);
    let mut changed = core.body.clone();
    changed.core.tongue_mm = Reading::new(31.25, 0.05, Origin::Photo);
    changed.core.yoke_mm = None;
    let next = store.edit(Op::Note, |edit| edit.update(core_id, 1, &changed)).unwrap();
    let now = store.core(core_id).unwrap();
    assert_eq!((next, now.meta.revision), (2, 2));
    assert!(now.meta.edited_ms > core.meta.edited_ms && now.meta.created_ms == core.meta.created_ms);
    assert_eq!(now.body, changed);
    // Made on the old revision: refused, nothing changed.
    let error = store
        .edit(Op::Note, |edit| edit.update(core_id, 1, &core.body))
        .unwrap_err();
    assert!(matches!(
        error,
        StoreError::StaleRevision {
            what: "core",
            expected: 1,
            found: 2
        }
    ));
    assert_eq!(store.core(core_id).unwrap(), now);
    let history = store.measurements(Owner::Core(core_id), Some("tongue_mm")).unwrap();
    let values: Vec<f64> = history.iter().map(|m| m.body.reading.value).collect();
    assert_eq!(values, [core.body.core.tongue_mm.value, 31.25]);
    // The others of the same kind.
    let mut other = job.body.clone();
    other.choice = None;
    other.mains.volts = Reading::new(117.5, 1.0, Origin::Meter);
    store
        .edit(Op::Note, |edit| edit.update(job.meta.id, 1, &other))
        .unwrap();
    assert_eq!(store.job(job.meta.id).unwrap().body, other);
    let donor_id = now.body.donor.unwrap();
    let mut donor = store.donor(donor_id).unwrap();
    donor.body.hertz = None;
    donor.body.mass_kg = None;
    store
        .edit(Op::Note, |edit| edit.update(donor_id, 1, &donor.body))
        .unwrap();
    assert_eq!(store.donor(donor_id).unwrap().body, donor.body);
    assert_eq!(store.donors().unwrap().len() + store.cores().unwrap().len(), 2);
}

#[test]
fn designs_notes_stock_settings() {
    let (_folder, mut store) = fresh();
    store.import_job_file(&file(2)).unwrap();
    let (_, job) = job_of(&store);
    let choice: Choice = job.body.choice.clone().unwrap();
    let design = Design {
        job: job.meta.id,
        name: "Two in hand".to_owned(),
        choice,
        note: String::new(),
    };
    let id = store.edit(Op::Note, |edit| edit.insert(&design)).unwrap();
    let mut more = design.clone();
    more.choice.turns += 1;
    store.edit(Op::Note, |edit| edit.update(id, 1, &more)).unwrap();
    assert_eq!(store.designs_of(job.meta.id).unwrap()[0].body, more);
    let owner = Owner::Design(id);
    let note = Note {
        owner,
        text: "hums".to_owned(),
    };
    let note_id = store.edit(Op::Note, |edit| edit.insert(&note)).unwrap();
    let louder = Note {
        text: "hums\nloudly".to_owned(),
        ..note
    };
    store.edit(Op::Note, |edit| edit.update(note_id, 1, &louder)).unwrap();
    assert_eq!(store.notes_of(owner).unwrap()[0].body, louder);
    let wire = store.stock().unwrap()[0].clone();
    let less = StockWire {
        length_m: 1.5,
        price_per_m: None,
        ..wire.body
    };
    store
        .edit(Op::Note, |edit| edit.update(wire.meta.id, 1, &less))
        .unwrap();
    assert_eq!(store.stock().unwrap()[0].body, less);
    assert_eq!(store.setting(Setting::Theme).unwrap(), None);
    for value in ["dark", "light"] {
        store.set(Setting::Theme, value).unwrap();
        assert_eq!(store.setting(Setting::Theme).unwrap().as_deref(), Some(value));
    }
    assert!(store.set(Setting::Theme, "a\0b").is_err());
    store.edit(Op::Note, |edit| edit.delete(job.meta.id)).unwrap();
    assert!(matches!(store.design(id), Err(StoreError::NotFound { what: "design" })));
    assert!(store.notes_of(owner).unwrap().is_empty());
}

#[test]
fn measurements_change_the_record() {
    let (_folder, mut store) = fresh();
    let mut bare = file(3);
    bare.core.primary.test_turn = None;
    store.import_job_file(&bare).unwrap();
    let (core, job) = job_of(&store);
    let owner = Owner::Core(core);
    let reading = Reading::new(33.0, 0.25, Origin::Rule);
    let taken = |owner, field: &str, reading| Measurement {
        owner,
        field: field.to_owned(),
        reading,
    };
    store
        .edit(Op::Note, |edit| {
            edit.add_measurement(&taken(owner, "tongue_mm", reading))
        })
        .unwrap();
    let now = store.core(core).unwrap();
    assert_eq!((now.body.core.tongue_mm, now.meta.revision), (reading, 2));
    for (field, value) in [
        ("tongue_mm", 3000.0),
        ("stack_mm", f64::NAN),
        ("bench.volts", f64::INFINITY),
        ("", 1.0),
    ] {
        let bad = taken(owner, field, Reading::new(value, 0.1, Origin::Rule));
        let error = store.edit(Op::Note, |edit| edit.add_measurement(&bad)).unwrap_err();
        assert!(matches!(error, StoreError::Field(_)), "{field}: {error}");
    }
    // One number of three makes no test turn.
    let alone = taken(owner, "primary.test_turn.volts", Reading::new(0.9, 0.01, Origin::Meter));
    let error = store.edit(Op::Note, |edit| edit.add_measurement(&alone)).unwrap_err();
    assert!(matches!(error, StoreError::Incomplete { .. }), "{error}");
    assert_eq!(store.core(core).unwrap(), now);
    // A bench value of a job has no row in the table and stays beside the record.
    let bench = taken(
        Owner::Job(job.meta.id),
        "bench.open_volts",
        Reading::new(2.9, 0.02, Origin::Meter),
    );
    store.edit(Op::Note, |edit| edit.add_measurement(&bench)).unwrap();
    let found = store.measurements(bench.owner, Some("bench.open_volts")).unwrap();
    assert_eq!(found[0].body, bench);
    assert_eq!(store.job(job.meta.id).unwrap().body, job.body);
}

#[test]
fn deleting_keeps_what_is_needed() {
    let (_folder, mut store) = fresh();
    store.import_job_file(&file(4)).unwrap();
    let (core, job) = job_of(&store);
    let error = store.edit(Op::Note, |edit| edit.delete(core)).unwrap_err();
    assert!(matches!(error, StoreError::CoreInUse { jobs: 1 }), "{error}");
    let donor = store.core(core).unwrap().body.donor.unwrap();
    store.edit(Op::Note, |edit| edit.delete(donor)).unwrap();
    assert_eq!(store.core(core).unwrap().body.donor, None);
    store.edit(Op::Note, |edit| edit.delete(job.meta.id)).unwrap();
    store.edit(Op::Note, |edit| edit.delete(core)).unwrap();
    assert!(store.measurements(Owner::Core(core), None).unwrap().is_empty());
    for error in [
        store.edit(Op::Note, |edit| edit.delete(core)).unwrap_err(),
        store.edit(Op::Note, |edit| edit.delete(donor)).unwrap_err(),
        store
            .edit(Op::Note, |edit| edit.update(job.meta.id, 1, &job.body).map(|_| ()))
            .unwrap_err(),
        store
            .edit(Op::Note, |edit| edit.insert(&job.body).map(|_| ()))
            .unwrap_err(),
    ] {
        assert!(matches!(error, StoreError::NotFound { .. }), "{error}");
    }
}

/// An operation that fails half way leaves nothing behind.
#[test]
fn all_or_nothing() {
    let (_folder, mut store) = fresh();
    let before = super::dump(&store.connection);
    let mut bad = file(5);
    bad.core.stack_mm.value = -1.0;
    let error = store.edit(Op::Note, |edit| {
        edit.insert_job_file(&file(0))?;
        edit.insert_job_file(&bad)
    });
    assert!(matches!(error, Err(StoreError::Field(_))));
    let shelf = ShelfCore {
        donor: None,
        core: bad.core,
    };
    assert!(store.edit(Op::Note, |edit| edit.insert(&shelf)).is_err());
    assert_eq!(super::dump(&store.connection), before);
    assert_eq!(store.undo_op().unwrap(), None);
}

/// Pages join without a gap or a double, the last changed first, from the index alone.
#[test]
fn pages() {
    let (_folder, mut store) = fresh();
    let first = store.import_job_file(&file(0)).unwrap();
    let job = store.job(first).unwrap().body;
    // One operation has one time: the order is then by id.
    store
        .edit(Op::Note, |edit| (0..56).try_for_each(|_| edit.insert(&job).map(|_| ())))
        .unwrap();
    store.edit(Op::Note, |edit| edit.update(first, 1, &job)).unwrap();
    let (mut listed, mut after) = (Vec::new(), None);
    loop {
        let page = store.job_summaries(10, after).unwrap();
        let Some(last) = page.last() else { break };
        after = Some(last.cursor());
        listed.extend(page);
    }
    assert_eq!((listed.len(), store.job_count().unwrap()), (57, 57));
    assert_eq!((listed[0].id, listed[0].goal_use.as_str()), (first, "spot_welder"));
    assert!(
        listed
            .windows(2)
            .all(|w| (w[0].edited_ms, w[0].id) > (w[1].edited_ms, w[1].id))
    );
    let plan: String = store
        .connection
        .query_row(
            "EXPLAIN QUERY PLAN SELECT id, name, goal_use, edited_ms FROM job
             WHERE (edited_ms, id) < (1, x'00') ORDER BY edited_ms DESC, id DESC LIMIT 3",
            [],
            |row| row.get("detail"),
        )
        .unwrap();
    assert!(plan.contains("COVERING INDEX job_newest"), "{plan}");
}

/// A history stops where a line of a shelf file (1 MiB) could no longer carry it, even joined with as long a
/// one of the same record.
#[test]
fn a_history_never_outgrows_a_line_of_a_file() {
    let (_folder, mut store) = fresh();
    let job = store.import_job_file(&file(0)).unwrap();
    let run = store.begin_job_run(job, JobProcedure::Wind, "[]").unwrap();
    let line = "1000000000 11 go \"é\" ".repeat(150);
    let mut lines = 0;
    let refused = loop {
        match store.add_line(History::Job(run), &line) {
            Ok(()) => lines += 1,
            Err(error) => break error,
        }
    };
    assert!(matches!(refused, StoreError::HistoryFull), "{refused}");
    assert_eq!(
        store.job_run(job, JobProcedure::Wind).unwrap().unwrap().lines.len(),
        lines
    );
    let own = ledger::own(&store.connection).unwrap();
    let record = histories::job_run(&store.connection, &own, run.0).unwrap().unwrap();
    let in_a_file = serde_json::to_string(&record).unwrap().len() as u64;
    assert!(in_a_file > 300_000 && 2 * in_a_file < 1 << 20, "{in_a_file}");
}
