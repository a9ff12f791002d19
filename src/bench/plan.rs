//! What the design predicts for the bench.

use super::amounts::{Amount, Direction};
use super::stage::{Load, Stage};

/// A predicted reading and its band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// The stage that reads it.
    pub stage: Stage,
    /// Which winding of the design it is of: 0 is the primary. For insulation: 0 is the primary
    /// to the core, others are the winding to everything else.
    pub of: u8,
    /// The predicted value.
    pub value: Amount,
    /// The low end of the band.
    pub low: Amount,
    /// The high end; infinite for insulation resistance.
    pub high: Amount,
}

impl Prediction {
    /// Where an amount lies outside the band, if it does. Something that is not a number lies
    /// outside.
    #[must_use]
    pub fn outside(&self, amount: Amount) -> Option<Direction> {
        let (value, low, high) = (amount.si(), self.low.si(), self.high.si());
        if value >= low && value <= high {
            None
        } else if value < 0.0 && low > 0.0 && self.stage == Stage::RatioPolarity {
            Some(Direction::Reversed)
        } else if value > high {
            Some(Direction::TooHigh)
        } else {
            Some(Direction::TooLow)
        }
    }

    fn fault(&self) -> bool {
        let kinds = [self.value, self.low, self.high].iter().all(|a| a.fits(self.stage));
        let (value, low, high) = (self.value.si(), self.low.si(), self.high.si());
        let open_ended = self.stage == Stage::Insulation;
        !(kinds && low.is_finite() && low <= value && value <= high && (high.is_finite() || open_ended))
    }
}

/// Every prediction for one rebuilt core.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    predictions: Vec<Prediction>,
    load: Load,
}

/// Why a set of predictions makes no plan.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// A band is not one.
    #[error("the prediction for this stage has no band; calculate the design again")]
    Band {
        /// The stage.
        stage: Stage,
        /// The winding.
        of: u8,
    },
    /// Two predictions for the same reading.
    #[error("two predictions for one reading; calculate the design again")]
    Twice {
        /// The stage.
        stage: Stage,
        /// The winding.
        of: u8,
    },
    /// A stage that can't be left out has no prediction.
    #[error("a stage that can't be left out has no prediction; complete the design first")]
    Missing(Stage),
}

impl Plan {
    /// A plan from its predictions.
    ///
    /// Continuity and insulation are always tested. With more than one winding ratio and
    /// polarity are. If any stage puts mains on the core, the lamp and the idle test at full
    /// mains come before it. A choke or a ballast has no idle test: its impedance at a low voltage
    /// comes before its rated current.
    ///
    /// # Errors
    /// [`PlanError`]: a band that is not low ≤ value ≤ high in the stage's kind, a reading
    /// predicted twice, or one of those stages missing.
    pub fn new(mut predictions: Vec<Prediction>) -> Result<Self, PlanError> {
        predictions.sort_by_key(|p| (p.stage, p.of));
        for prediction in &predictions {
            if !prediction.stage.takes_readings() || prediction.fault() {
                let (stage, of) = (prediction.stage, prediction.of);
                return Err(PlanError::Band { stage, of });
            }
        }
        for (first, second) in predictions.iter().zip(predictions.iter().skip(1)) {
            if (first.stage, first.of) == (second.stage, second.of) {
                let (stage, of) = (first.stage, first.of);
                return Err(PlanError::Twice { stage, of });
            }
        }
        let plan = Self {
            predictions,
            load: Load::Plain,
        };
        let mut needed = vec![Stage::Continuity, Stage::Insulation];
        if plan.of_stage(Stage::Continuity).count() > 1 {
            needed.push(Stage::RatioPolarity);
        }
        let predicts = |stage: Stage| plan.of_stage(stage).next().is_some();
        if predicts(Stage::RatedCurrent) {
            needed.push(Stage::Impedance);
        }
        let transformer = predicts(Stage::MainsIdle) || predicts(Stage::Loaded) || predicts(Stage::ShortCircuit);
        let on_mains = plan.predictions.iter().any(|p| p.stage.on_mains());
        if transformer || (on_mains && !predicts(Stage::RatedCurrent)) {
            needed.extend([Stage::LampIdle, Stage::MainsIdle]);
        }
        match needed.into_iter().find(|stage| plan.of_stage(*stage).next().is_none()) {
            Some(stage) => Err(PlanError::Missing(stage)),
            None => Ok(plan),
        }
    }

    /// The same for a load that brings hazards of its own.
    #[must_use]
    pub fn under(mut self, load: Load) -> Self {
        self.load = load;
        self
    }

    /// What the core feeds when it is tested under load.
    #[must_use]
    pub const fn load(&self) -> Load {
        self.load
    }

    /// All predictions, in the order of the stages.
    #[must_use]
    pub fn predictions(&self) -> &[Prediction] {
        &self.predictions
    }

    /// The predictions of one stage.
    pub fn of_stage(&self, stage: Stage) -> impl Iterator<Item = &Prediction> {
        self.predictions.iter().filter(move |p| p.stage == stage)
    }

    /// The same with another band for the current through the series lamp. Unchanged where that
    /// is not predicted.
    ///
    /// # Errors
    /// [`PlanError::Band`] for a band that is not low ≤ value ≤ high.
    pub(super) fn with_lamp(&self, value: Amount, low: Amount, high: Amount) -> Result<Self, PlanError> {
        let mut plan = self.clone();
        for prediction in plan.predictions.iter_mut().filter(|p| p.stage == Stage::LampIdle) {
            *prediction = Prediction {
                value,
                low,
                high,
                ..*prediction
            };
            if prediction.fault() {
                let (stage, of) = (prediction.stage, prediction.of);
                return Err(PlanError::Band { stage, of });
            }
        }
        Ok(plan)
    }

    pub(super) fn find(&self, stage: Stage, of: u8) -> Option<&Prediction> {
        self.of_stage(stage).find(|p| p.of == of)
    }
}
