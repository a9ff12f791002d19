//! The no-load current: how far into the knee the core is run, and what an idle test tells of it.

use super::found_by_test;
use crate::app::basis::Basis;
use crate::app::idle_test::IdleTest;
use crate::app::translate;
use crate::job::JobFile;
use crate::magnetics::core::steel::{Steel, SteelKind};
use crate::magnetics::idle::fit::{Determined, IdleFitError};
use crate::magnetics::idle::{Idle, IdleDraw, IdleDrawEstimate, IdleDrawNumber};
use crate::quantity::{
    Current, FieldStrength, FluxDensity, Input, Length, Measured, Number, Origin, Propagated, Ratio, UncertainInputs,
    Visitor, numbers, propagate,
};

const ROWS: [IdleDrawNumber; 6] = [
    IdleDrawNumber::Current,
    IdleDrawNumber::Peak,
    IdleDrawNumber::Power,
    IdleDrawNumber::PowerFactor,
    IdleDrawNumber::PeakDensity,
    IdleDrawNumber::CoreLoss,
];

numbers! {
    /// What an idle test says of the core.
    pub enum FitNumber {
        /// Gap at each face.
        FaceGap = face_gap: Length [MM, "behaves-fit-gap"],
        /// Place of the steel between the best and the poorest.
        SteelPosition = steel_position: Ratio [PLAIN, "behaves-fit-steel"],
    }
}

/// A curve of magnetisation: field strength against flux density.
pub type Magnetising = Vec<(FieldStrength, FluxDensity)>;

/// What the no-load current is, and why.
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
    pub gap_determined: bool,
    /// Whether it tells the steel.
    pub steel_determined: bool,
    /// Whether the model does not explain the readings (misfit above 2 standard uncertainties).
    pub misfit: bool,
    /// Whether what it foretells is carried into the design: no-load current, its heat and the numbers
    /// here.
    pub carried: bool,
}

/// The primary at the mains with nothing on the new winding, with the steel that was named.
#[must_use]
pub fn idle_of(file: &JobFile, answer: &Basis) -> Idle {
    let rebuild = &answer.problem.rebuild;
    translate::idle(file, &rebuild.core, &rebuild.primary, &rebuild.mains)
}

/// A core whose no-load current was read on the mains at hand: the reading stands for the model's current,
/// and the rest follows from it.
#[derive(Debug, Clone, Copy)]
pub(super) struct ReadIdle {
    idle: Idle,
    current: Measured<Current>,
}

impl ReadIdle {
    /// The reading of a job's core, where its design goes by it.
    pub(super) fn of(answer: &Basis, idle: &Idle) -> Option<Self> {
        let rebuild = &answer.problem.rebuild;
        let current = rebuild
            .primary
            .idle_current
            .filter(|read| *read == rebuild.idle_current)?;
        (current.value > Current::ZERO).then_some(Self { idle: *idle, current })
    }

    /// What was read over what the model gives.
    fn over_model(&self) -> Option<f64> {
        Some(self.current.value / self.idle.draw()?.current)
    }

    pub(super) fn draw(&self) -> Option<IdleDraw> {
        let model = self.idle.draw()?;
        let current = self.current.value;
        let copper_loss = current.heating(self.idle.resistance.value);
        let power = model.core_loss + copper_loss;
        let apparent = self.idle.voltage.value * current;
        let loss = model.loss_current.si().min(current.si());
        Some(IdleDraw {
            current,
            magnetising: Current::from_si((current.si().powi(2) - loss * loss).sqrt()),
            peak: model.peak * (current / model.current),
            copper_loss,
            power,
            power_factor: Ratio::from_si((power.si() / apparent.si()).min(1.0)),
            ..model
        })
    }
}

impl UncertainInputs for ReadIdle {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.idle.visit(visitor);
        self.current.visit(Input::IdleCurrent, visitor);
    }
}

/// The draw on the mains with its range: by the reading on these mains, else what an idle test foretells
/// where the model explains it, else worked out from the core's measures, its steel and its gaps.
pub(super) fn draw(file: &JobFile, answer: &Basis) -> Option<Propagated<{ IdleDraw::COUNT }>> {
    let model = found_by_test(&answer.problem)
        .copied()
        .unwrap_or_else(|| idle_of(file, answer));
    if let Some(read) = ReadIdle::of(answer, &model) {
        return propagate(&read, |read| read.draw().map(|draw| draw.to_si()));
    }
    let carried = answer
        .problem
        .idle_test
        .as_ref()
        .and_then(|test| test.as_ref().ok()?.carried());
    match carried {
        Some(foretold) => Some(foretold.clone()),
        None => idle_of(file, answer).draw_with_uncertainty().map(|(_, spread)| spread),
    }
}

/// The no-load current of a job's core; none where its numbers give none.
#[must_use]
pub fn idle(file: &JobFile, answer: &Basis) -> Option<IdleAnswer> {
    let test = answer.problem.idle_test.as_ref();
    // Where a test is carried, the wave and the working point are those of the core that it found.
    let idle = found_by_test(&answer.problem)
        .copied()
        .unwrap_or_else(|| idle_of(file, answer));
    let propagated = draw(file, answer)?;
    let estimate = IdleDrawEstimate::from_propagated(&propagated);
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
    // The band of steels: as far as the test, or nobody, tells it.
    let (centre, reach) = match idle.steel.kind {
        SteelKind::Unknown(position) => (position.value.si(), position.plus_minus.si()),
        SteelKind::Grade(_) => (0.0, 0.0),
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
    // A reading stretches the model's wave to what was read.
    let stretched = ReadIdle::of(answer, &idle).and_then(|read| read.over_model());
    let wave = idle.waveform().into_iter();
    Some(IdleAnswer {
        numbers: ROWS.map(|number| number.of(&propagated)).to_vec(),
        waveform: wave.map(|at| at * stretched.unwrap_or(1.0)).collect(),
        steel: [
            curve(centre),
            curve((centre - reach).max(-1.0)),
            curve((centre + reach).min(1.0)),
        ],
        point: (at(centre).magnetisation().field(density), density),
        fit: test.map(|test| match test {
            Ok(test) => Ok(told(test)),
            Err(error) => Err(*error),
        }),
    })
}

fn told(test: &IdleTest) -> FitAnswer {
    let fit = &test.fit;
    FitAnswer {
        carried: test.carried().is_some(),
        numbers: vec![
            FitNumber::face_gap(fit.face_gap),
            FitNumber::steel_position(fit.steel_position),
        ],
        gap_determined: fit.gap_determined == Determined::Yes,
        steel_determined: fit.steel_determined == Determined::Yes,
        misfit: !test.explained(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{basis, start};
    use crate::job::{IdleTest, Reading};
    use crate::quantity::Voltage;

    /// Rows that the model draws at these voltages for a gap of 0.1 mm, as a person enters them.
    fn tested(volts: [f64; 2], plus_minus: f64) -> JobFile {
        let mut file = start::demo_job();
        let answer = basis::basis(&file).expect("the demo's wires exist");
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
        let answer = basis::basis(file).expect("the demo's wires exist");
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

    /// A test on the mains at hand foretells what it read there, as well as it was read and far
    /// better than the core's measures alone; the readings are what widens it.
    #[test]
    fn a_test_is_carried_into_the_design() {
        let file = tested([80.0, 121.5], 0.0);
        let read = file.conditions.idle_full.amps.expect("a reading");
        let with = basis::basis(&file).expect("the demo's wires exist").problem;
        let without = basis::basis(&start::demo_job())
            .expect("the demo's wires exist")
            .problem;
        let (tested, assumed) = (with.rebuild.idle_current, without.rebuild.idle_current);
        assert_eq!(tested.origin, Origin::Meter);
        assert!(
            (tested.value.si() - read.value).abs() < tested.plus_minus.si(),
            "{tested:?} for {read:?}"
        );
        assert!(tested.plus_minus < assumed.plus_minus, "{tested:?} {assumed:?}");
        let answer = basis::basis(&file).expect("the demo's wires exist");
        let current = idle(&file, &answer).expect("an answer").numbers.remove(0);
        assert_eq!(current.si.0, tested.value.si());
        let named = [Input::MainsVoltage, Input::AmperesOfTheSecondIdleReading];
        assert!(
            current.variance_shares.iter().any(|w| named.contains(&w.input)),
            "{:?}",
            current.variance_shares
        );
    }

    /// A current read on the mains at hand is the one told, with its own ±, and the power factor is the power
    /// over the volt-amperes that were read (definition).
    #[test]
    fn a_reading_is_told_as_it_was_read() {
        let mut file = start::demo_job();
        file.core.primary.idle_current_a = Some(Reading::new(3.1, 0.1, Origin::Meter));
        let answer = basis::basis(&file).expect("the demo's wires exist");
        let rebuild = answer.problem.rebuild;
        assert_eq!(rebuild.idle_current.value, Current::from_si(3.1));
        let found = idle(&file, &answer).expect("an answer");
        let told = |kind: IdleDrawNumber| found.numbers.iter().find(|n| n.kind == kind.kind()).expect("a row").si;
        let (amps, half) = told(IdleDrawNumber::Current);
        assert!((amps - 3.1).abs() < 1e-9 && (half - 0.1).abs() < 1e-9, "{amps} {half}");
        let (volts, watts) = (rebuild.mains.voltage.value.si(), told(IdleDrawNumber::Power).0);
        let factor = told(IdleDrawNumber::PowerFactor).0;
        assert!((factor - watts / (volts * 3.1)).abs() < 1e-9, "{factor} {watts} W");
        let squares: f64 = found.waveform.iter().map(|at| at.si().powi(2)).sum();
        let rms = (squares / found.waveform.len() as f64).sqrt();
        assert!((rms / 3.1 - 1.0).abs() < 1e-3, "{rms}");
    }

    #[test]
    fn one_row_tells_nothing() {
        let mut file = tested([80.0, 118.0], 0.015);
        file.conditions.idle_full.amps = None;
        let answer = basis::basis(&file).expect("the demo's wires exist");
        assert_eq!(idle(&file, &answer).expect("an answer").fit, None);
    }
}
