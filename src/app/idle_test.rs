//! The person's idle test: what it tells of the core, and what it foretells.

use crate::job::{self, JobFile};
use crate::magnetics::idle::fit::{IdleFit, IdleFitError, IdleReading, fit_idle};
use crate::magnetics::idle::{Idle, IdleDraw};
use crate::quantity::{Current, Power, Propagated, Voltage};

/// An idle test, read.
#[derive(Debug, Clone, PartialEq)]
pub struct IdleTest {
    /// Gap and steel that explain it.
    pub fit: IdleFit,
    /// What it foretells on the mains at hand; `None` where the fitted core gives no draw.
    pub foretold: Option<Propagated<{ IdleDraw::COUNT }>>,
}

/// Above this misfit, in standard uncertainties, the model does not explain a test.
const EXPLAINED: f64 = 2.0;

impl IdleTest {
    /// Whether the model explains the readings.
    #[must_use]
    pub fn explained(&self) -> bool {
        self.fit.misfit <= EXPLAINED
    }

    /// What is carried into the design: what it foretells, where the model explains it.
    #[must_use]
    pub fn carried(&self) -> Option<&Propagated<{ IdleDraw::COUNT }>> {
        self.foretold.as_ref().filter(|_| self.explained())
    }
}

/// The idle test that the person entered, read from what `idle` holds without it; none below two
/// usable rows.
pub(super) fn idle_test(file: &JobFile, idle: &Idle) -> Option<Result<IdleTest, IdleFitError>> {
    let c = &file.conditions;
    let row = |test: &job::IdleTest| {
        Some(IdleReading {
            voltage: test.volts?.measured(Voltage::from_si),
            current: test.amps?.measured(Current::from_si),
            power: test.watts.map(|watts| watts.measured(Power::from_si)),
        })
    };
    let readings: Vec<IdleReading> = [&c.idle_low, &c.idle_middle, &c.idle_full]
        .into_iter()
        .filter_map(row)
        .collect();
    if readings.len() < 2 {
        return None;
    }
    Some(fit_idle(idle, &readings).map(|fit| IdleTest {
        foretold: fit.forecast(idle, &readings),
        fit,
    }))
}
