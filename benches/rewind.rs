//! Speed and memory of one design answer, and of the search.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use curbcore::app::evaluation::evaluate;
use curbcore::app::problem::problem;
use curbcore::app::start::{demo_job, goal_of};
use curbcore::app::translate::transformer_goal;
use curbcore::job::{JobFile, RectifierKind};
use curbcore::magnetics::circuit::performance::answer as answer_design;
use curbcore::magnetics::winding::Winding;
use curbcore::quantity::{Current, Ratio, Voltage};
use curbcore::report;
use curbcore::rewind::goal::Goal;
use curbcore::rewind::search::{SearchSpace, search};
use curbcore::wire::{Catalogue, Metal};
use divan::{AllocProfiler, Bencher};

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

fn main() {
    divan::main();
}

/// One winding with the uncertainty of all its numbers: to stay under 1 ms.
#[divan::bench]
fn one_design_with_uncertainty(bencher: Bencher) {
    let file = demo_job();
    let rebuild = problem(&file).rebuild;
    let demand = transformer_goal(&file.goal, &file.conditions)
        .expect("a transformer")
        .requirements()
        .demand;
    let conductor = Catalogue::standard()
        .find("mm2-16-flexible", Metal::Copper)
        .expect("a wire");
    bencher.bench(|| {
        answer_design(
            &rebuild,
            &Winding {
                conductor,
                turns: 3,
                parallel: 2,
            },
            &demand,
        )
    });
}

/// A search of at least 100,000 candidates: to stay under 100 ms and 64 MiB.
#[divan::bench]
fn search_of_a_hundred_thousand(bencher: Bencher) {
    let file = demo_job();
    let rebuild = problem(&file).rebuild;
    let goal = Goal::PlainSupply {
        volts: Voltage::from_si(24.0),
        current: Current::from_si(20.0),
        duty: Ratio::from_si(0.5),
        side: None,
    };
    let catalogue = Catalogue::standard();
    // More strands in hand than the screens offer, to have that many.
    let space = SearchSpace {
        most_parallel: Some(24),
        aluminium: true,
        ..SearchSpace::all(catalogue.conductors())
    };
    let tried = search(&rebuild, &goal, &space).tried;
    assert!(tried >= 100_000, "only {tried} candidates");
    bencher
        .counter(divan::counter::ItemsCount::new(tried))
        .bench(|| search(&rebuild, &goal, &space));
}

/// Everything about a job, search included, and its page.
#[divan::bench]
fn whole_job_and_page(bencher: Bencher) {
    let file = demo_job();
    bencher.bench(|| {
        let answer = evaluate(&file).expect("the demo's wires exist");
        report::page(&answer, None, &[], curbcore::quantity::LengthUnit::Millimetre).map(|page| page.len())
    });
}

/// What the Rewind screen asks for after a number was changed: to stay within a frame of 60 Hz.
#[divan::bench(args = ["spot_welder", "stick_welder", "arc_furnace", "plasma_cutter", "battery_charger", "plain_supply"])]
fn a_changed_number_on_the_screen(bencher: Bencher, word: &str) {
    let mut file = demo_job();
    if file.goal.word() != word {
        file.goal = goal_of(word);
    }
    changed_number(bencher, &file);
}

/// The same behind a rectifier.
#[divan::bench(args = ["stick_welder", "arc_furnace", "plain_supply"])]
fn a_changed_number_behind_diodes(bencher: Bencher, word: &str) {
    let mut file = demo_job();
    file.goal = goal_of(word);
    file.conditions.rectifier = Some(RectifierKind::Bridge);
    changed_number(bencher, &file);
}

/// The same where all that the core gives is wanted.
#[divan::bench(args = ["spot_welder", "stick_welder", "arc_furnace", "plasma_cutter", "battery_charger", "plain_supply"])]
fn a_changed_number_for_all_there_is(bencher: Bencher, word: &str) {
    let mut file = demo_job();
    if file.goal.word() != word {
        file.goal = goal_of(word);
    }
    let goal = file.goal;
    file.conditions.want_as_much(&goal, true);
    changed_number(bencher, &file);
}

fn changed_number(bencher: Bencher, file: &JobFile) {
    bencher.bench(|| {
        let answer = evaluate(file).expect("the demo's wires exist");
        let state = answer.design_state();
        let list = curbcore::app::listing::listing(&answer, false);
        (
            answer.strongest().is_some(),
            answer.turns_around().is_some(),
            state,
            list,
        )
    });
}
