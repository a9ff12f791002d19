//! What a panel of the Rewind screen asks when it opens, for one design, uncertainty included; and all
//! topics of a design on one core, wanted under 10 ms.

use curbcore::app::answer::{Answer, answer};
use curbcore::app::behaviour::{direct_current, everything, heat, idle, inductor, inrush, shunts};
use curbcore::app::start::{demo_job, goal_of};
use curbcore::job::JobFile;
use divan::Bencher;

fn main() {
    divan::main();
}

fn job(word: &str) -> (JobFile, Answer) {
    let mut file = demo_job();
    if file.goal.word() != word {
        file.goal = goal_of(word);
        file.choice = None;
    }
    let answer = answer(&file).expect("the demo's wires exist");
    (file, answer)
}

#[divan::bench]
fn idle_current(bencher: Bencher) {
    let (file, answer) = job("spot_welder");
    bencher.bench(|| idle::idle(&file, &answer).expect("an answer"));
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
    bencher.bench(|| everything(&file, &answer));
}
