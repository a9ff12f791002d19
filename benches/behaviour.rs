//! What a panel of the Rewind screen asks when it opens, for one design, uncertainty included; and all
//! topics of a design on one core, wanted under 10 ms.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use curbcore::app::behaviour::{direct_current, heat, idle, inductor, inrush, shunts};
use curbcore::app::evaluation::{Evaluation, evaluate};
use curbcore::app::problem::problem;
use curbcore::app::start::{demo_job, goal_of};
use curbcore::app::translate;
use curbcore::job::{IdleTest, JobFile, Reading};
use curbcore::quantity::{Length, Origin, Voltage};
use divan::Bencher;

fn main() {
    divan::main();
}

fn job(word: &str) -> (JobFile, Evaluation) {
    let mut file = demo_job();
    if file.goal.word() != word {
        file.goal = goal_of(word);
        file.choice = None;
    }
    let answer = evaluate(&file).expect("the demo's wires exist");
    (file, answer)
}

/// Asks for every topic of an evaluation that nobody asked yet.
fn all(evaluation: Evaluation) -> [bool; 7] {
    [
        evaluation.heat().is_some(),
        evaluation.idle().is_some(),
        evaluation.inrush().is_some(),
        evaluation.shunts().is_some(),
        evaluation.direct_current().is_some(),
        evaluation.inductor().is_some(),
        evaluation.pair().is_some(),
    ]
}

#[divan::bench]
fn idle_current(bencher: Bencher) {
    let (file, answer) = job("spot_welder");
    bencher.bench(|| idle::idle(&file, &answer).expect("an answer"));
}

/// The same job with an idle test entered, as its core would give it with wider gaps.
fn tested(mut file: JobFile) -> JobFile {
    let rebuild = problem(&file).rebuild;
    let mut idle = translate::idle(&file, &rebuild.core, &rebuild.primary, &rebuild.mains);
    idle.gaps.face.value = Length::from_mm(0.1);
    let mut row = |volts: f64| {
        idle.voltage.value = Voltage::from_si(volts);
        let draw = idle.draw().expect("the demo's core has measures");
        let by_meter = |value: f64| Some(Reading::new(value, value * 0.02, Origin::Meter));
        IdleTest {
            volts: by_meter(volts),
            amps: by_meter(draw.current.si()),
            watts: by_meter(draw.power.si()),
        }
    };
    file.conditions.idle_low = row(60.0);
    file.conditions.idle_middle = row(90.0);
    file.conditions.idle_full = row(118.0);
    file
}

/// Every answer of a job with an idle test in it reads that test first.
#[divan::bench]
fn reading_an_idle_test(bencher: Bencher) {
    let file = tested(job("spot_welder").0);
    bencher.bench(|| problem(&file));
}

#[divan::bench]
fn switching_on(bencher: Bencher) {
    let (file, answer) = job("spot_welder");
    bencher.bench(|| inrush::inrush(&file, &answer).expect("an answer"));
}

#[divan::bench]
fn both_ways_of_the_shunts(bencher: Bencher) {
    let (file, answer) = job("spot_welder");
    bencher.bench(|| shunts::shunts(&file, &answer).expect("an answer"));
}

#[divan::bench]
fn heat_and_duty(bencher: Bencher) {
    let (file, answer) = job("battery_charger");
    bencher.bench(|| heat::heat(&file, &answer).expect("an answer"));
}

#[divan::bench]
fn battery(bencher: Bencher) {
    let (file, answer) = job("battery_charger");
    bencher.bench(|| direct_current::direct_current(&file, &answer).expect("an answer"));
}

#[divan::bench]
fn choke(bencher: Bencher) {
    let (file, answer) = job("choke");
    bencher.bench(|| inductor::inductor(&file, &answer).expect("a choke").expect("an answer"));
}

#[divan::bench(args = ["spot_welder", "battery_charger", "plain_supply", "choke"])]
fn all_topics(bencher: Bencher, word: &str) {
    let (file, answer) = job(word);
    drop(file);
    bencher.with_inputs(|| answer.clone()).bench_values(all);
}

#[divan::bench(args = ["spot_welder", "battery_charger"])]
fn all_topics_of_a_tested_core(bencher: Bencher, word: &str) {
    let file = tested(job(word).0);
    let answer = evaluate(&file).expect("the demo's wires exist");
    bencher.with_inputs(|| answer.clone()).bench_values(all);
}

/// What a changed value costs in all: the test read anew, the search, then every topic. Wanted within
/// one frame of a screen, 16 ms.
#[divan::bench(args = ["spot_welder", "battery_charger"])]
fn after_a_change(bencher: Bencher, word: &str) {
    let file = tested(job(word).0);
    bencher.bench(|| all(evaluate(&file).expect("the demo's wires exist")));
}
