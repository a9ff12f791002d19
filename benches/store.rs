//! How long it takes until the list of jobs is on the screen.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use curbcore::job::{Circuit, Core, Goal, Job, Mains, Primary, PrimaryMetal, Reading, ShelfCore};
use curbcore::quantity::Origin;
use curbcore::store::{Op, Store, StoreError};

const JOBS: u32 = 10_000;

fn main() {
    divan::main();
}

fn job_number(number: u32, core: curbcore::job::CoreId) -> Job {
    Job {
        name: format!("Job {number}"),
        core,
        mains: Mains {
            volts: Reading::new(230.0, 10.0, Origin::Meter),
            hertz: 50,
            circuit: Circuit {
                breaker_a: 16.0,
                plug: String::new(),
            },
        },
        goal: Goal::BatteryCharger {
            battery_volts: 12.0,
            charge_current_a: 10.0,
            confirmed: true,
        },
        conditions: curbcore::job::Conditions::default(),
        choice: None,
        note: "A note of some length, as people write them. ".repeat(20),
    }
}

fn filled(folder: &std::path::Path) -> Result<(), StoreError> {
    let mm = |value| Reading::new(value, 0.2, Origin::Calipers);
    let core = Core {
        tongue_mm: mm(31.8),
        stack_mm: mm(60.0),
        window_width_mm: mm(16.0),
        window_height_mm: mm(47.0),
        outer_limb_mm: None,
        yoke_mm: None,
        stacking_factor: None,
        mass_kg: None,
        shunts_kept: false,
        shunt_thickness_mm: None,
        shunt_width_mm: None,
        shunt_gap_mm: None,
        seam_gap_mm: None,
        primary: Primary {
            metal: PrimaryMetal::Copper,
            wire_diameter_mm: None,
            height_mm: mm(20.0),
            build_mm: None,
            resistance_ohm: None,
            resistance_at_c: Reading::new(20.0, 5.0, Origin::Typical),
            rated_volts: 230.0,
            rated_hertz: 50,
            idle_current_a: None,
            test_turn: None,
            counted_turns: None,
            old_secondary: None,
        },
    };
    Store::open(folder)?.edit(Op::StartJob, |edit| {
        let core = edit.insert(&ShelfCore { donor: None, core })?;
        (0..JOBS).try_for_each(|number| edit.insert(&job_number(number, core)).map(|_| ()))
    })
}

/// Opening a store of 10,000 jobs, counting them and listing the first fifty.
#[divan::bench]
fn open_and_list(bencher: divan::Bencher) {
    let folder = tempfile::tempdir().expect("a folder");
    filled(folder.path()).expect("a filled store");
    bencher.bench_local(|| {
        let store = Store::open(folder.path()).expect("opens");
        let page = store.job_summaries(50, None).expect("lists");
        assert_eq!((store.job_count().expect("counts"), page.len()), (JOBS, 50));
        page
    });
}
