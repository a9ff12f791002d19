//! The bench explored whole, tried at random, and read back from forgeries.

mod explored;
mod lived;

use super::*;
use crate::procedure::advance;
use crate::procedure::explore::{Explored, MORNING as NOON, walk};
use crate::quantity::{Current, Ratio, Resistance, Temperature, TemperatureRise, Voltage};
use crate::safety::{Gate, Moment};
use crate::wire::Metal;

fn amount(stage: Stage, si: f64) -> Amount {
    match stage {
        Stage::RatioPolarity => Amount::Ratio(Ratio::from_si(si)),
        Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => Amount::Current(Current::from_si(si)),
        Stage::Loaded => Amount::Voltage(Voltage::from_si(si)),
        Stage::TemperatureRise => Amount::Rise(TemperatureRise::from_si(si)),
        _ => Amount::Resistance(Resistance::from_si(si)),
    }
}

fn prediction(stage: Stage, of: u8, low: f64, value: f64, high: f64) -> Prediction {
    let [low, value, high] = [low, value, high].map(|si| amount(stage, si));
    Prediction {
        stage,
        of,
        value,
        low,
        high,
    }
}

fn full() -> Vec<Prediction> {
    vec![
        prediction(Stage::Continuity, 0, 1.8, 2.0, 2.2),
        prediction(Stage::Continuity, 1, 0.009, 0.010, 0.011),
        prediction(Stage::Insulation, 0, 2e6, 1e8, f64::INFINITY),
        prediction(Stage::RatioPolarity, 1, 0.049, 0.05, 0.051),
        prediction(Stage::LampIdle, 0, 0.05, 0.1, 0.2),
        prediction(Stage::MainsIdle, 0, 0.5, 1.0, 2.0),
        prediction(Stage::ShortCircuit, 1, 300.0, 400.0, 500.0),
        prediction(Stage::TemperatureRise, 1, 20.0, 60.0, 80.0),
    ]
}

fn cold(ohms: f64) -> Reading {
    Reading::Winding {
        resistance: Resistance::from_si(ohms),
        at: Temperature::from_si(20.0),
        metal: Metal::Copper,
    }
}

/// A reading of a stage: inside its band, or `factor` times what was predicted.
fn reading(of: &Prediction, factor: f64) -> Reading {
    let si = of.value.si() * factor;
    match of.stage {
        Stage::Continuity => cold(si),
        Stage::Insulation => Reading::Insulation(Resistance::from_si(si)),
        Stage::RatioPolarity => Reading::Ratio(Ratio::from_si(si)),
        Stage::Impedance | Stage::RatedCurrent => Reading::Impedance {
            volts: Voltage::from_si(si),
            amps: Current::from_si(1.0),
        },
        Stage::Loaded => Reading::Voltage(Voltage::from_si(si)),
        Stage::TemperatureRise => Reading::Warm(WarmRun {
            cold: Resistance::from_si(1.0),
            cold_at: Temperature::from_si(20.0),
            hot: Resistance::from_si(1.0 + si / 254.5),
            air: Temperature::from_si(20.0),
            current: Current::from_si(5.0),
            metal: Metal::Copper,
        }),
        _ => Reading::Current(Current::from_si(si)),
    }
}

impl Explored for Plan {
    /// Of each reading whether it lets the person go on.
    type Key = Vec<((Stage, u8), bool)>;

    fn key(outcomes: &Outcomes) -> Self::Key {
        let fine = |outcome: &Outcome| !matches!(outcome.status, Status::Outside(_));
        outcomes.iter().map(|(&of, outcome)| (of, fine(outcome))).collect()
    }

    /// The stage's gates, and every earlier reading inside its band or explained. From the first test on
    /// also that the old winding is out and the core together, said apart.
    fn guarded(&self, outcomes: &Outcomes, stage: Stage, held: &dyn Fn(Gate) -> bool) -> bool {
        let gates = stage
            .hazards_under(self.load())
            .iter()
            .all(|hazard| held(hazard.gate()));
        let built = !stage.takes_readings() || (held(Gate::OldWindingOut) && held(Gate::Reassembly));
        let tested = self.predictions().iter().filter(|p| p.stage < stage).all(|p| {
            let status = outcomes.get(&(p.stage, p.of)).map(|outcome| outcome.status);
            matches!(status, Some(Status::InBand | Status::Explained(..)))
        });
        gates && built && tested
    }

    fn acts(&self) -> Vec<Act> {
        let mut acts = vec![
            Act::Reopened {
                fixed: Some(Cause::ShortedTurn),
            },
            Act::Explain {
                of: 0,
                cause: Cause::MeterLeads,
            },
            Act::Explain {
                of: 0,
                cause: Cause::ShortedTurn,
            },
            Act::Explain {
                of: 1,
                cause: Cause::ThinLeads,
            },
        ];
        for prediction in self.predictions() {
            acts.extend([1.0, 0.01].map(|factor| Act::Read {
                of: prediction.of,
                reading: reading(prediction, factor),
            }));
        }
        acts
    }

    fn all_gates(&self, stage: Stage) -> Vec<Gate> {
        stage.gates_under(self.load())
    }
}

/// A core tested from start to end in one day, every reading in its band.
fn whole() -> Bench {
    walk(Plan::new(full()).unwrap(), |bench, stage| {
        let read = |prediction: &Prediction| Act::Read {
            of: prediction.of,
            reading: reading(prediction, 1.0),
        };
        bench.plan().of_stage(stage).map(read).collect()
    })
}
