//! What an idle test foretells of the core on its mains.

use crate::magnetics::idle::fit::{IdleFit, IdleReading};
use crate::magnetics::idle::rows::{Rows, UNKNOWNS, Vector, beside, normal, solve, with};
use crate::magnetics::idle::{Idle, IdleDraw};
use crate::quantity::{Input, Propagated};

/// What a row of the fit is called: the readings in their order, then what was held to a range.
const AMPERES: [Input; 3] = [
    Input::AmperesOfTheFirstIdleReading,
    Input::AmperesOfTheSecondIdleReading,
    Input::AmperesOfTheThirdIdleReading,
];
const WATTS: [Input; 3] = [
    Input::WattsOfTheFirstIdleReading,
    Input::WattsOfTheSecondIdleReading,
    Input::WattsOfTheThirdIdleReading,
];
const HELD: [Input; UNKNOWNS] = [
    Input::GapAtTheFaces,
    Input::SteelGrade,
    Input::SteelMagnetisation,
    Input::SteelLoss,
    Input::Turns,
    Input::Stack,
    Input::Voltmeter,
];

impl IdleFit {
    /// The draw at the voltage of `idle`, which the test was fitted to with `readings`, its range,
    /// and what each reading and each assumption adds to it.
    ///
    /// Readings and assumed ranges are independent, each a row of the fit with a standard
    /// uncertainty of one. A row's reading that is off by that moves the unknowns by `(JᵀJ)⁻¹ jᵀ`, j
    /// the row of J, and the draw by its gradient times that: the squares of these add up to
    /// `g (JᵀJ)⁻¹ gᵀ` (JCGM 100:2008, annex H.3; least squares). The voltage's own ± is a further
    /// input. `None` where the fitted core gives no draw.
    #[must_use]
    pub fn forecast(&self, idle: &Idle, readings: &[IdleReading]) -> Option<Propagated<{ IdleDraw::COUNT }>> {
        const M: usize = IdleDraw::COUNT;
        let prior = Rows::new(idle, readings).prior;
        let draw = |x: &Vector| with(idle, x).draw().map(|draw| draw.to_si());
        let value = draw(&self.at)?;
        let columns = &self.columns;
        let matrix = normal(columns);
        // The gradient of each figure, through the inverse normal matrix.
        let mut weights = [[0.0; UNKNOWNS]; M];
        let mut gradient = [[0.0; UNKNOWNS]; M];
        for (k, column) in columns.iter().enumerate() {
            if column.is_none() {
                continue;
            }
            let (up, down, width) = beside(&self.at, k);
            let (up, down) = (draw(&up)?, draw(&down)?);
            for (m, row) in gradient.iter_mut().enumerate() {
                row[k] = (up[m] - down[m]) / width;
            }
        }
        for (weight, row) in weights.iter_mut().zip(gradient) {
            *weight = solve(&matrix, row)?;
        }
        let mut shares: Vec<(Input, [f64; M])> = Vec::new();
        for (row, name) in names(readings, &prior).into_iter().enumerate() {
            let share = weights.map(|weight| {
                let terms = columns.iter().zip(weight);
                terms
                    .map(|(column, w)| column.as_ref().and_then(|c| c.get(row)).map_or(0.0, |j| j * w))
                    .sum()
            });
            shares.push((name, share));
        }
        let at_voltage = |sigmas: f64| {
            let mut moved = *idle;
            moved.voltage.value += moved.voltage.plus_minus * (sigmas / 2.0);
            with(&moved, &self.at).draw().map(|draw| draw.to_si())
        };
        let (up, down) = (at_voltage(1.0)?, at_voltage(-1.0)?);
        shares.push((Input::MainsVoltage, std::array::from_fn(|m| (up[m] - down[m]) / 2.0)));
        let sigma = std::array::from_fn(|m| shares.iter().map(|(_, share)| share[m] * share[m]).sum::<f64>().sqrt());
        // The rows of a fit are no inputs with a value of their own.
        let inputs = Vec::new();
        Some(Propagated {
            value,
            sigma,
            shares,
            inputs,
        })
    }
}

/// The rows of the fit by name.
fn names(readings: &[IdleReading], prior: &Vector) -> Vec<Input> {
    let mut names = Vec::new();
    for (index, reading) in readings.iter().enumerate() {
        names.push(AMPERES.get(index).copied().unwrap_or(Input::AmperesOfALaterIdleReading));
        if reading.power.is_some() {
            names.push(WATTS.get(index).copied().unwrap_or(Input::WattsOfALaterIdleReading));
        }
    }
    names.extend((1..UNKNOWNS).filter(|k| prior[*k] > 0.0).map(|k| HELD[k]));
    names
}
