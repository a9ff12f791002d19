//! Conductors in times too short to lose heat.

use crate::quantity::{Area, Current, CurrentDensity, Length, Temperature, Time};
use crate::wire::Metal;

/// Melting point of copper, 1084.6 °C (ITS-90 fixed point of copper, 1084.62 °C).
pub const COPPER_MELTS: Temperature = Temperature::from_si(1084.62);

/// Current that fuses a copper wire in free air in the long run: `80 d^1.5` A, d in mm
/// (Preece, 1884; R2: public tables of fusing currents). Not a rating.
#[must_use]
pub fn preece_fusing_current(diameter: Length) -> Current {
    Current::from_si(80.0 * diameter.mm().powf(1.5))
}

/// Current that brings copper from `from` to `to` in `time`, no heat lost: Onderdonk's
/// `I = A √(log₁₀((Tm − Ta)/(234 + Ta) + 1)/(33 t))`, A in circular mils (Stauffacher, 1928;
/// R2: public tables of fusing currents). With `to` = [`COPPER_MELTS`] it is the fusing current. Meant for times up to
/// some 10 s. Zero where `to` is not above `from`.
#[must_use]
pub fn onderdonk_current(area: Area, time: Time, from: Temperature, to: Temperature) -> Current {
    let ratio = (to.si() - from.si()) / (234.0 + from.si());
    if ratio <= 0.0 || time.si() <= 0.0 {
        return Current::ZERO;
    }
    Current::from_si(circular_mils(area) * (ratio.ln_1p() / std::f64::consts::LN_10 / (33.0 * time.si())).sqrt())
}

/// An area in circular mils: areas of circles of 0.001 inch diameter.
#[must_use]
pub fn circular_mils(area: Area) -> f64 {
    area.si() / (std::f64::consts::FRAC_PI_4 * (0.0254e-3 * 0.0254e-3))
}

/// Temperature of a conductor after `time` at a current density, no heat lost.
///
/// With resistivity ρ20 (1 + α (T − 20)), density d and specific heat c:
/// `1 + α(T2 − 20) = (1 + α(T1 − 20)) exp(J² t ρ20 α/(c d))`, the integral of Joule's law.
#[must_use]
pub fn adiabatic_temperature(metal: Metal, density: CurrentDensity, time: Time, from: Temperature) -> Temperature {
    let alpha = metal.temperature_coefficient_20().si();
    let exponent = density.si().powi(2) * time.si() * heating_constant(metal);
    let start = 1.0 + alpha * (from.si() - 20.0);
    Temperature::from_si(from.si() + start / alpha * exponent.exp_m1())
}

/// How long a conductor takes from `from` to `to` at a current density, no heat lost; infinite
/// without current.
#[must_use]
pub fn adiabatic_time(metal: Metal, density: CurrentDensity, from: Temperature, to: Temperature) -> Time {
    let alpha = metal.temperature_coefficient_20().si();
    let at = |t: Temperature| 1.0 + alpha * (t.si() - 20.0);
    Time::from_si((at(to) / at(from)).ln().max(0.0) / (density.si().powi(2) * heating_constant(metal)))
}

/// ρ20 α/(c d), in m⁴/(A²·s).
fn heating_constant(metal: Metal) -> f64 {
    metal.resistivity_20().si() * metal.temperature_coefficient_20().si()
        / (metal.specific_heat() * metal.density().si())
}
