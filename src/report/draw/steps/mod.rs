//! One line drawing for each step of the teardown and each stage of the bench: 360 × 220, the
//! one thing that is asked for, clear at arm's length and in grey.

mod bench_cold;
mod bench_mains;
mod core_parts;
mod core_work;
mod donor;
mod donor_parts;
mod hand;
mod marks;
mod opening;
mod symbols;
#[cfg(test)]
mod tests;
mod tools;

use crate::bench::Stage;
use crate::teardown::Step;

/// The drawing of a step of the teardown, as SVG text.
#[must_use]
pub fn step_drawing(step: Step) -> String {
    match step {
        Step::Prepare => donor::prepare(),
        Step::Unplug => donor::unplug(),
        Step::Open => donor::open(),
        Step::CapacitorSafe => donor::capacitor_safe(),
        Step::Disconnect => donor::disconnect(),
        Step::Unbolt => donor::unbolt(),
        Step::Inspect => opening::inspect(),
        Step::ChooseWay => opening::choose_way(),
        Step::Split => opening::split(),
        Step::Warm => core_work::warm(),
        Step::Remove => opening::remove(),
        Step::Clean => core_work::clean(),
        Step::Measure => core_work::measure(),
        Step::Store => core_work::store(),
    }
}

/// The drawing of a stage of the bench, as SVG text.
#[must_use]
pub fn stage_drawing(stage: Stage) -> String {
    match stage {
        Stage::Prepare => bench_cold::prepare(),
        Stage::Reassembly => bench_cold::reassembly(),
        Stage::Continuity => bench_cold::continuity(),
        Stage::Insulation => bench_cold::insulation(),
        Stage::RatioPolarity => bench_cold::ratio_polarity(),
        Stage::LampIdle => bench_mains::lamp_idle(),
        Stage::MainsIdle => bench_mains::mains_idle(),
        Stage::Loaded => bench_mains::loaded(),
        Stage::ShortCircuit => bench_mains::short_circuit(),
        Stage::TemperatureRise => bench_mains::temperature_rise(),
    }
}
