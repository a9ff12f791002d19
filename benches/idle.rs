//! Speed of the no-load current, its uncertainty and the inrush.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::core::gap::Gaps;
use curbcore::magnetics::core::steel::Steel;
use curbcore::magnetics::idle::inrush::{Inrush, remanence_of};
use curbcore::magnetics::idle::{Idle, typical_window_leakage};
use curbcore::quantity::{FluxDensity, Frequency, Length, Measured, Origin, Resistance, Turns, Voltage};

fn main() {
    divan::main();
}

fn idle() -> Idle {
    let mm = |mm: f64| Measured::new(Length::from_mm(mm), Length::from_mm(0.2), Origin::Calipers);
    Idle {
        core: EiCore::new(mm(30.0), mm(50.0), mm(15.0), mm(45.0)),
        steel: Steel::UNKNOWN,
        gaps: Gaps::REASSEMBLED,
        turns: Measured::exact(Turns::from_si(250.0), Origin::Counted),
        voltage: Measured::exact(Voltage::from_si(125.0), Origin::Meter),
        frequency: Frequency::from_si(50.0),
        resistance: Measured::exact(Resistance::from_si(0.8), Origin::Meter),
        window_leakage: typical_window_leakage(),
    }
}

#[divan::bench]
fn draw(bencher: divan::Bencher) {
    let idle = idle();
    bencher.bench(|| divan::black_box(&idle).draw());
}

#[divan::bench]
fn draw_with_uncertainty(bencher: divan::Bencher) {
    let idle = idle();
    bencher.bench(|| divan::black_box(&idle).draw_with_uncertainty());
}

#[divan::bench]
fn worst_first_peak(bencher: divan::Bencher) {
    let Idle {
        core,
        steel,
        gaps,
        turns,
        voltage,
        frequency,
        resistance,
        ..
    } = idle();
    let remanence = remanence_of(&core, &gaps, FluxDensity::from_si(1.6));
    let inrush = Inrush {
        core,
        steel,
        gaps,
        turns,
        voltage,
        frequency,
        resistance,
        remanence,
    };
    bencher.bench(|| divan::black_box(&inrush).worst_first_peak());
}
