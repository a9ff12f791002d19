//! One line drawing for each step of the teardown and each stage of the bench: 360 × 220, the
//! one thing that is asked for, clear at arm's length and in grey.

mod bench_cold;
mod bench_mains;
mod core_parts;
mod core_work;
mod donor;
mod donor_parts;
mod hand;
mod home;
mod marks;
mod opening;
mod symbols;
#[cfg(test)]
mod tests;
mod tools;

pub use home::{oven_becomes, oven_picture};

use crate::bench::Stage;
use crate::teardown::Step;
use crate::text::Texts;

/// The drawing of a step of the teardown, as SVG text.
#[must_use]
pub fn step_drawing(step: Step, texts: &Texts) -> String {
    match step {
        Step::Prepare => donor::prepare(texts),
        Step::Unplug => donor::unplug(texts),
        Step::Open => donor::open(texts),
        Step::CapacitorSafe => donor::capacitor_safe(texts),
        Step::Disconnect => donor::disconnect(texts),
        Step::Unbolt => donor::unbolt(texts),
        Step::KeepParts => donor::keep_parts(texts),
        Step::Inspect => opening::inspect(texts),
        Step::ChooseWay => opening::choose_way(texts),
        Step::Split => opening::split(texts),
        Step::Warm => core_work::warm(texts),
        Step::Remove => opening::remove(texts),
        Step::Clean => core_work::clean(texts),
        Step::Measure => core_work::measure(texts),
        Step::Store => core_work::store(texts),
    }
}

/// The drawing of a stage of the bench, as SVG text.
#[must_use]
pub fn stage_drawing(stage: Stage, texts: &Texts) -> String {
    match stage {
        Stage::Prepare => bench_cold::prepare(texts),
        Stage::Reassembly => bench_cold::reassembly(texts),
        Stage::Continuity => bench_cold::continuity(texts),
        Stage::Insulation => bench_cold::insulation(texts),
        Stage::RatioPolarity => bench_cold::ratio_polarity(texts),
        Stage::PairPhasing => bench_cold::pair_phasing(texts),
        Stage::Impedance => bench_cold::impedance(texts),
        Stage::LampIdle => bench_mains::lamp_idle(texts),
        Stage::MainsIdle => bench_mains::mains_idle(texts),
        Stage::Loaded => bench_mains::loaded(texts),
        Stage::ShortCircuit => bench_mains::short_circuit(texts),
        Stage::RatedCurrent => bench_mains::rated_current(texts),
        Stage::TemperatureRise => bench_mains::temperature_rise(texts),
    }
}
