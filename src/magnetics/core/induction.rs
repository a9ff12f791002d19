//! The EMF equation.

use crate::quantity::{Area, FluxDensity, Frequency, Turns, Voltage, VoltsPerTurn};
use std::f64::consts::{PI, SQRT_2};

/// Peak flux density behind a sinusoidal voltage: `B = e / (√2 π f A)`, e in volts r.m.s. per
/// turn, A the net steel area (the EMF equation, 4.44 f N B A = E, of any machines textbook).
#[must_use]
pub fn peak_flux_density(volts_per_turn: VoltsPerTurn, frequency: Frequency, net_area: Area) -> FluxDensity {
    FluxDensity::from_si(volts_per_turn.si() / (SQRT_2 * PI * frequency.si() * net_area.si()))
}

/// Volts r.m.s. that one turn gives at a peak flux density: the EMF equation solved for e.
#[must_use]
pub fn volts_per_turn(density: FluxDensity, frequency: Frequency, net_area: Area) -> VoltsPerTurn {
    VoltsPerTurn::from_si(SQRT_2 * PI * frequency.si() * net_area.si() * density.si())
}

/// Volts that one of `turns` turns takes at `voltage`.
#[must_use]
pub fn per_turn(voltage: Voltage, turns: Turns) -> VoltsPerTurn {
    voltage / turns
}
