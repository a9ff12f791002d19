//! Undo and redo bring back every byte.

use proptest::prelude::*;

use super::{dump, file, fresh};
use crate::job::{Design, Measurement, Note, Owner, Reading, StockWire};
use crate::quantity::Origin;
use crate::store::undo::KEPT;
use crate::store::{Clock, Op, Store, StoreError};

/// One operation; `pick` chooses among the records there are. Some do nothing where there is none.
fn operate(store: &mut Store, what: u8, pick: usize, value: f64) {
    let jobs = store.job_summaries(100, None).unwrap();
    let (cores, donors, stock) = (store.cores().unwrap(), store.donors().unwrap(), store.stock().unwrap());
    let job = (!jobs.is_empty()).then(|| store.job(jobs[pick % jobs.len()].id).unwrap());
    let core = cores.get(pick % cores.len().max(1));
    let donor = donors.get(pick % donors.len().max(1));
    let wire = stock.get(pick % stock.len().max(1));
    let reading = Reading::new(20.0 + 10.0 * value, value, Origin::ALL[pick % Origin::ALL.len()]);
    let text = format!("it's {value} \"{pick}\"\n–");
    let result = store.edit(Op::ALL[usize::from(what)], |edit| {
        match (what, job, core, donor, wire) {
            (0, ..) => edit.insert_job_file(&file(pick)).map(|_| ())?,
            (1, Some(job), ..) => {
                let mut body = job.body;
                body.mains.volts.value = 100.0 + value;
                body.note = text;
                body.choice = None;
                edit.update(job.meta.id, job.meta.revision, &body)?;
            }
            (2, Some(job), ..) => edit.delete(job.meta.id)?,
            (3, _, Some(core), ..) => {
                let mut body = core.body.clone();
                body.core.tongue_mm = reading;
                body.core.seam_gap_mm = None;
                edit.update(core.meta.id, core.meta.revision, &body)?;
            }
            // Refused while a job needs it.
            (4, _, Some(core), ..) => edit.delete(core.meta.id).unwrap_or(()),
            (5, _, _, Some(donor), _) => {
                let mut body = donor.body.clone();
                body.notes = text;
                edit.update(donor.meta.id, donor.meta.revision, &body)?;
            }
            (6, _, _, Some(donor), _) => edit.delete(donor.meta.id)?,
            (7, Some(job), Some(core), ..) => {
                if let Some(choice) = job.body.choice {
                    let name = "One".to_owned();
                    let design = edit.insert(&Design {
                        job: job.meta.id,
                        name,
                        choice,
                        note: text.clone(),
                    })?;
                    edit.insert(&Note {
                        owner: Owner::Design(design),
                        text: text.clone(),
                    })?;
                }
                edit.insert(&Note {
                    owner: Owner::Core(core.meta.id),
                    text,
                })?;
            }
            (8, _, Some(core), ..) => {
                let field = ["stack_mm", "bench.free"][pick % 2].to_owned();
                edit.add_measurement(&Measurement {
                    owner: Owner::Core(core.meta.id),
                    field,
                    reading,
                })?;
            }
            (9, .., Some(wire)) => edit.delete(wire.meta.id)?,
            (10, ..) => {
                let conductor = format!("awg-{pick}");
                edit.insert(&StockWire {
                    conductor,
                    length_m: value,
                    price_per_m: Some(value / 3.0),
                })?;
            }
            _ => {}
        }
        Ok(())
    });
    result.unwrap_or_else(|e| panic!("operation {what}: {e}"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// Whatever was done: undone step by step every former state comes back, and redone every
    /// later one, also after closing and opening again.
    #[test]
    fn back_and_forth(steps in prop::collection::vec((0..11u8, 0..1000usize, 0.0..2.0f64), 1..25)) {
        let (folder, mut store) = fresh();
        let mut states = vec![(dump(&store.connection), None)];
        operate(&mut store, 0, 0, 0.0);
        states.push((dump(&store.connection), store.undo_op().unwrap()));
        for (what, pick, value) in steps {
            operate(&mut store, what, pick, value);
            let state = dump(&store.connection);
            if state != states.last().unwrap().0 {
                states.push((state, store.undo_op().unwrap()));
            }
        }
        for reopen in [false, true] {
            for pair in states.windows(2).rev() {
                prop_assert_eq!(store.undo().unwrap(), pair[1].1);
                prop_assert_eq!(&dump(&store.connection), &pair[0].0);
            }
            prop_assert_eq!(store.undo().unwrap(), None);
            if reopen {
                drop(store);
                store = Store::open_with_clock(folder.path(), Clock::Steps(0)).unwrap();
                store.connection.pragma_update(None, "synchronous", "OFF").unwrap();
            }
            for pair in states.windows(2) {
                prop_assert_eq!(store.redo_op().unwrap(), pair[1].1);
                prop_assert_eq!(store.redo().unwrap(), pair[1].1);
                prop_assert_eq!(&dump(&store.connection), &pair[1].0);
            }
            prop_assert_eq!(store.redo().unwrap(), None);
        }
        store.verify().unwrap();
    }
}

/// Numbers that need all their digits come back with all of them.
#[test]
fn every_digit() {
    let (_folder, mut store) = fresh();
    for value in [0.1 + 0.2, 1.0 / 3.0, 5e-324, 1e4 - 1e-12, 4e3, 0.0] {
        operate(&mut store, 10, 7, value);
        let id = store.stock().unwrap().last().unwrap().meta.id;
        let before = dump(&store.connection);
        store.edit(Op::Note, |edit| edit.delete(id)).unwrap();
        store.undo().unwrap();
        assert_eq!(dump(&store.connection), before);
        assert_eq!(
            store.stock().unwrap().last().unwrap().body.length_m.to_bits(),
            value.to_bits()
        );
    }
}

/// After something new, what was undone is gone for good.
#[test]
fn new_operation_ends_redo() {
    let (_folder, mut store) = fresh();
    operate(&mut store, 10, 1, 1.0);
    operate(&mut store, 0, 1, 1.0);
    assert_eq!(store.undo().unwrap(), Some(Op::ALL[0]));
    assert_eq!(store.redo_op().unwrap(), Some(Op::ALL[0]));
    operate(&mut store, 10, 2, 1.0);
    assert_eq!(store.redo().unwrap(), None);
    assert_eq!(store.undo().unwrap(), Some(Op::ALL[10]));
}

/// The last hundred are kept; one that changed nothing is not among them.
#[test]
fn a_hundred_are_kept() {
    let (_folder, mut store) = fresh();
    for which in 0..KEPT as usize + 5 {
        operate(&mut store, 10, which, 1.0);
    }
    store.edit(Op::Note, |_| Ok(())).unwrap();
    let mut undone = 0;
    while store.undo().unwrap().is_some() {
        undone += 1;
    }
    assert_eq!((undone, store.stock().unwrap().len()), (KEPT, 5));
    let steps: u32 = store
        .connection
        .query_row("SELECT count(*) FROM operation_step", [], |row| row.get(0))
        .unwrap();
    assert_eq!(steps, KEPT);
}

/// A step that no trigger writes is refused, not run.
#[test]
fn strange_steps_are_refused() {
    for strange in [
        "UPDATE operation_step SET \"table\" = 'operation'",
        "UPDATE operation_step SET \"table\" = 'photo'",
        "UPDATE operation_step SET \"table\" = 'stock; DROP TABLE stock'",
        "INSERT INTO operation_value (step_id, name, value)
         SELECT id, 'length_m = 1; DROP TABLE stock; --', 1 FROM operation_step",
    ] {
        let (_folder, mut store) = fresh();
        operate(&mut store, 10, 1, 1.0);
        assert!(store.connection.execute(strange, []).unwrap() > 0, "{strange}");
        let refused = store.undo().unwrap_err();
        assert!(matches!(refused, StoreError::Damaged { .. }), "{strange}: {refused}");
        assert_eq!(store.stock().unwrap().len(), 1);
    }
}
