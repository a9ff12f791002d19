//! The units that a number of each kind may be typed in.

use super::UnitKind;

/// A pound and an ounce in kilograms, by definition (International Yard and Pound Agreement, 1959).
const POUND: f64 = 0.453_592_37;
const FOOT: f64 = 0.3048;
/// A degree Fahrenheit in degrees Celsius, and 0 °F.
const FAHRENHEIT: (f64, f64) = (5.0 / 9.0, -160.0 / 9.0);

/// What the zero of a unit is in the field's unit.
#[must_use]
pub fn zero_of(symbol: &str) -> f64 {
    if matches!(symbol, "°F" | "F") {
        FAHRENHEIT.1
    } else {
        0.0
    }
}

/// The units of a kind, each with how many of the field's unit it is, the field's own first; a person may leave
/// them out. Lengths are read by
/// [`parse_length`](crate::quantity::parse_length), which knows the person's unit.
#[must_use]
pub const fn typed_units(kind: UnitKind) -> &'static [(&'static str, f64)] {
    match kind {
        UnitKind::Length => &[("mm", 1.0), ("cm", 10.0), ("m", 1e3), ("in", 25.4)],
        UnitKind::WireLength => &[("m", 1.0), ("cm", 0.01), ("ft", FOOT), ("'", FOOT), ("in", 0.0254)],
        UnitKind::Voltage => &[("V", 1.0), ("mV", 1e-3), ("kV", 1e3), ("v", 1.0), ("volts", 1.0)],
        UnitKind::Current => &[("A", 1.0), ("mA", 1e-3), ("kA", 1e3), ("a", 1.0), ("amps", 1.0)],
        UnitKind::Resistance => &[
            ("Ω", 1.0),
            ("mΩ", 1e-3),
            ("kΩ", 1e3),
            ("ohm", 1.0),
            ("ohms", 1.0),
            ("mohm", 1e-3),
        ],
        UnitKind::SmallResistance => &[
            ("mΩ", 1.0),
            ("Ω", 1e3),
            ("µΩ", 1e-3),
            ("mohm", 1.0),
            ("ohm", 1e3),
            ("ohms", 1e3),
        ],
        UnitKind::Inductance => &[("mH", 1.0), ("H", 1e3), ("µH", 1e-3), ("μH", 1e-3), ("uH", 1e-3)],
        UnitKind::Power => &[("W", 1.0), ("kW", 1e3), ("w", 1.0), ("kw", 1e3), ("watts", 1.0)],
        UnitKind::Mass => &[
            ("kg", 1.0),
            ("g", 1e-3),
            ("lb", POUND),
            ("lbs", POUND),
            ("oz", POUND / 16.0),
        ],
        UnitKind::Ratio => &[("%", 0.01)],
        UnitKind::Count => &[("turns", 1.0)],
        UnitKind::PerMinute => &[("per minute", 1.0), ("/min", 1.0)],
        UnitKind::Temperature => &[("°C", 1.0), ("°F", FAHRENHEIT.0), ("C", 1.0), ("F", FAHRENHEIT.0)],
        UnitKind::Time => &[("s", 1.0), ("ms", 1e-3), ("min", 60.0)],
        UnitKind::Minutes => &[("min", 1.0), ("s", 1.0 / 60.0), ("h", 60.0)],
        UnitKind::Frequency => &[("Hz", 1.0), ("kHz", 1e3), ("hz", 1.0)],
        UnitKind::MoneyPerMetre => &[("per metre", 1.0), ("/m", 1.0)],
        UnitKind::Money => &[],
        UnitKind::Years => &[("years", 1.0), ("year", 1.0)],
        UnitKind::Speed => &[("m/s", 1.0), ("km/h", 1.0 / 3.6), ("mph", 1609.344 / 3600.0)],
        UnitKind::AmpereHours => &[("Ah", 1.0), ("mAh", 1e-3)],
        UnitKind::MicroFarads => &[("µF", 1.0), ("μF", 1.0), ("uF", 1.0), ("mF", 1e3), ("nF", 1e-3)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against fixed points: 32 °F and 212 °F are 0 °C and 100 °C; 16 oz are a pound.
    #[test]
    fn units_meet_their_fixed_points() {
        for (typed, celsius) in [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0)] {
            let read: f64 = typed * FAHRENHEIT.0 + zero_of("°F");
            assert!((read - celsius).abs() < 1e-9, "{read}");
        }
        assert!((16.0 * POUND / 16.0 - 0.453_592_37).abs() < 1e-12);
    }
}
