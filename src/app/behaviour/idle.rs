//! The idle current: how far into the knee the core is run, and what an idle test tells of it.

use super::{Number, Row, numbers, single, steel};
use crate::app::answer::Answer;
use crate::app::translate;
use crate::job::{IdleTest, JobFile};
use crate::magnetics::idle::{Idle, IdleDraw};
use crate::magnetics::idle_fit::{IdleFit, IdleFitError, IdleReading, Told, fit_idle};
use crate::magnetics::steel::{Steel, SteelKind};
use crate::quantity::{Current, FieldStrength, FluxDensity, Origin, Power, Ratio, Voltage};

const ROWS: &[Row] = &[
    ("current", "ui-idle-current", 1.0, "A"),
    ("peak", "ui-idle-peak", 1.0, "A"),
    ("power", "ui-idle-power", 1.0, "W"),
    ("power_factor", "ui-power-factor", 1.0, ""),
    ("peak_density", "ui-peak-density", 1.0, "T"),
    ("core_loss", "ui-core-loss", 1.0, "W"),
];

/// A curve of magnetisation: field strength against flux density.
pub type Magnetising = Vec<(FieldStrength, FluxDensity)>;

/// What the idle current is, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct IdleAnswer {
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// The current through one cycle.
    pub waveform: Vec<Current>,
    /// The steel's curve, and the curves at the ends of its band (the same where it is known).
    pub steel: [Magnetising; 3],
    /// Where the core is run: peak field strength and flux density in the steel of the tongue.
    pub point: (FieldStrength, FluxDensity),
    /// What the person's idle test says; none without two readings.
    pub fit: Option<Result<FitAnswer, IdleFitError>>,
}

/// Gap and steel from an idle test.
#[derive(Debug, Clone, PartialEq)]
pub struct FitAnswer {
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// Whether it tells the gap.
    pub gap_told: bool,
    /// Whether it tells the steel.
    pub steel_told: bool,
    /// Whether the model does not explain the readings (misfit above 2 standard uncertainties).
    pub misfit: bool,
}

/// The primary at the mains with nothing on the new winding, with the steel that was named.
#[must_use]
pub fn idle_of(file: &JobFile, answer: &Answer) -> Idle {
    let rebuild = &answer.problem.rebuild;
    Idle {
        steel: steel(&file.conditions),
        ..translate::idle(&file.core, &rebuild.core, &rebuild.primary, &rebuild.mains)
    }
}

/// The idle current of a job's core; none where its numbers give none.
#[must_use]
pub fn idle(file: &JobFile, answer: &Answer) -> Option<IdleAnswer> {
    let idle = idle_of(file, answer);
    let (estimate, propagated) = idle.draw_with_uncertainty()?;
    let at = |position: f64| match idle.steel.kind {
        SteelKind::Unknown(reach) => Steel {
            kind: SteelKind::Unknown(crate::quantity::Measured::new(
                Ratio::from_si(position),
                reach.plus_minus,
                Origin::Typical,
            )),
            ..idle.steel
        },
        SteelKind::Grade(_) => idle.steel,
    };
    let density = estimate.peak_density.value;
    let curve = |position: f64| -> Magnetising {
        let magnetisation = at(position).magnetisation();
        let most = density.si().max(1.7) * 1.06;
        (0..=48)
            .map(|k| FluxDensity::from_si(most * f64::from(k) / 48.0))
            .map(|b| (magnetisation.field(b), b))
            .collect()
    };
    Some(IdleAnswer {
        numbers: numbers(IdleDraw::FIELDS, IdleDraw::UNITS, &propagated, ROWS),
        waveform: idle.waveform(),
        steel: [curve(0.0), curve(-1.0), curve(1.0)],
        point: (at(0.0).magnetisation().field(density), density),
        fit: readings(file).map(|readings| fit_idle(&idle, &readings).map(|fit| told(&fit))),
    })
}

/// The idle test as it was entered; none below two usable rows.
fn readings(file: &JobFile) -> Option<Vec<IdleReading>> {
    let c = &file.conditions;
    let row = |test: &IdleTest| {
        Some(IdleReading {
            voltage: test.volts?.measured(Voltage::from_si),
            current: test.amps?.measured(Current::from_si),
            power: test.watts.map(|watts| watts.measured(Power::from_si)),
        })
    };
    let rows: Vec<IdleReading> = [&c.idle_low, &c.idle_middle, &c.idle_full]
        .into_iter()
        .filter_map(row)
        .collect();
    (rows.len() >= 2).then_some(rows)
}

fn told(fit: &IdleFit) -> FitAnswer {
    FitAnswer {
        numbers: vec![
            single(("face_gap", "ui-fit-gap", 1e-3, "mm"), fit.face_gap),
            single(("steel_position", "ui-fit-steel", 1.0, ""), fit.steel_position),
        ],
        gap_told: fit.gap_told == Told::Yes,
        steel_told: fit.steel_told == Told::Yes,
        misfit: fit.misfit > 2.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{answer, start};
    use crate::job::Reading;

    /// Rows that the model draws at these voltages for a gap of 0.1 mm, as a person enters them.
    fn tested(volts: [f64; 2], plus_minus: f64) -> JobFile {
        let mut file = start::demo_job();
        let answer = answer::answer(&file).expect("the demo's wires exist");
        let [low, full] = volts.map(|volts| {
            let mut idle = idle_of(&file, &answer);
            idle.gaps.face.value = crate::quantity::Length::from_mm(0.1);
            idle.voltage.value = Voltage::from_si(volts);
            let draw = idle.draw().expect("a core with measures");
            let meter = |value: f64, part: f64| Some(Reading::new(value, value * part, Origin::Meter));
            IdleTest {
                volts: meter(volts, plus_minus),
                amps: meter(draw.current.si(), 0.02),
                watts: meter(draw.power.si(), 0.03),
            }
        });
        (file.conditions.idle_low, file.conditions.idle_full) = (low, full);
        file
    }

    fn gap_of(file: &JobFile) -> (f64, f64) {
        let answer = answer::answer(file).expect("the demo's wires exist");
        let fit = idle(file, &answer).expect("an answer").fit.expect("two rows");
        fit.expect("usable rows").numbers[0].si
    }

    #[test]
    fn an_entered_test_tells_the_gap() {
        let (gap, plus_minus) = gap_of(&tested([80.0, 118.0], 0.015));
        assert!(
            (gap - 1e-4).abs() < plus_minus && plus_minus < 6e-5,
            "{gap} {plus_minus}"
        );
        let (_, certain) = gap_of(&tested([80.0, 118.0], 0.0));
        assert!(certain < plus_minus, "the voltmeter's doubt counts");
    }

    #[test]
    fn one_row_tells_nothing() {
        let mut file = tested([80.0, 118.0], 0.015);
        file.conditions.idle_full.amps = None;
        let answer = answer::answer(&file).expect("the demo's wires exist");
        assert_eq!(idle(&file, &answer).expect("an answer").fit, None);
    }
}
