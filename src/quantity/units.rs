//! The units, as types.
//!
//! Own newtypes and not a units crate: the set is small, some of the kinds are not
//! distinguished by SI dimension (turns, volts per turn, reactance beside resistance), and
//! an error such as "expected `Area`, found `Length`" reads better than a type-level
//! exponent vector.

use std::fmt::Debug;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A unit that a person reads a quantity in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Symbol behind the number; empty for a plain ratio.
    pub symbol: &'static str,
    /// How many of the SI unit one of it is.
    pub si: f64,
}

/// A number with its unit in the type.
pub trait Quantity: Copy + Debug + PartialEq + PartialOrd + Send + Sync + 'static {
    /// Ending of the name that a file gives to a value in the SI unit; empty for a plain ratio.
    const FILE_ENDING: &'static str;
    /// The unit that a person reads a value of this size in.
    fn read_in(si: f64) -> Unit;
    /// The value in its SI unit.
    fn si(self) -> f64;
    /// A quantity from a value in its SI unit.
    fn from_si(value: f64) -> Self;
}

macro_rules! quantities {
    ($( $(#[$doc:meta])* $name:ident, $unit:literal, $ending:literal, $([ $( $read:ident $symbol:literal $size:literal ),+ $(| small $small:ident)? ])? { $( $from:ident / $to:ident = $factor:expr ),* $(,)? } )*) => { $(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl Quantity for $name {
            const FILE_ENDING: &'static str = $ending;
            #[allow(unused_variables)]
            fn read_in(si: f64) -> Unit {
                $( $( if si.abs() < 0.1 { return Self::$small; } )? )?
                [ $( $( Self::$read, )+ )? Unit { symbol: $unit, si: 1.0 } ][0]
            }
            fn si(self) -> f64 { self.0 }
            fn from_si(value: f64) -> Self { Self(value) }
        }

        impl $name {
            $( $(
                #[doc = concat!("Read in ", $symbol, " (1 of it = ", stringify!($size), " ", $unit, ").")]
                pub const $read: Unit = Unit { symbol: $symbol, si: $size };
            )+ )?
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            /// The value in its SI unit.
            #[must_use]
            pub const fn si(self) -> f64 { self.0 }
            /// A quantity from a value in its SI unit.
            #[must_use]
            pub const fn from_si(value: f64) -> Self { Self(value) }
            /// The size without its sign.
            #[must_use]
            pub const fn abs(self) -> Self { Self(self.0.abs()) }
            /// The smaller of two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
            /// The larger of two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
            /// True unless it is infinite or not a number.
            #[must_use]
            pub const fn is_finite(self) -> bool { self.0.is_finite() }
            $(
                #[doc = concat!("From a value counted in the unit that the name ends with (1 of it = ", stringify!($factor), " ", $unit, ").")]
                #[must_use]
                pub const fn $from(value: f64) -> Self { Self(value * $factor) }
                #[doc = concat!("The value in the unit named (1 of it = ", stringify!($factor), " ", $unit, ").")]
                #[must_use]
                pub const fn $to(self) -> f64 { self.0 / $factor }
            )*
        }

        impl Add for $name { type Output = Self; fn add(self, other: Self) -> Self { Self(self.0 + other.0) } }
        impl Sub for $name { type Output = Self; fn sub(self, other: Self) -> Self { Self(self.0 - other.0) } }
        impl AddAssign for $name { fn add_assign(&mut self, other: Self) { self.0 += other.0; } }
        impl SubAssign for $name { fn sub_assign(&mut self, other: Self) { self.0 -= other.0; } }
        impl Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl Mul<f64> for $name { type Output = Self; fn mul(self, factor: f64) -> Self { Self(self.0 * factor) } }
        impl Mul<$name> for f64 { type Output = $name; fn mul(self, q: $name) -> $name { $name(self * q.0) } }
        impl Div<f64> for $name { type Output = Self; fn div(self, divisor: f64) -> Self { Self(self.0 / divisor) } }
        impl Div for $name { type Output = f64; fn div(self, other: Self) -> f64 { self.0 / other.0 } }
        impl std::iter::Sum for $name { fn sum<I: Iterator<Item = Self>>(iter: I) -> Self { iter.fold(Self::ZERO, |a, b| a + b) } }
    )* };
}

quantities! {
    /// A length, in metres.
    Length, "m", "_m", [ MM "mm" 1e-3, M "m" 1.0 ] { from_mm / mm = 1e-3, from_inches / inches = 0.0254 }
    /// An area, in square metres.
    Area, "m²", "_m2", [ CM2 "cm²" 1e-4 ] { from_mm2 / mm2 = 1e-6, from_cm2 / cm2 = 1e-4 }
    /// A volume, in cubic metres.
    Volume, "m³", "_m3", { from_cm3 / cm3 = 1e-6 }
    /// A mass, in kilograms.
    Mass, "kg", "_kg", [ KG "kg" 1.0 ] { from_grams / grams = 1e-3, from_pounds / pounds = 0.453_592_37 }
    /// Mass per volume, in kilograms per cubic metre.
    Density, "kg/m³", "_kg_per_m3", {}
    /// A time, in seconds.
    Time, "s", "_s", [ MIN "min" 60.0, H "h" 3600.0 ] { from_ms / ms = 1e-3, from_minutes / minutes = 60.0 }
    /// A frequency, in hertz.
    Frequency, "Hz", "_hz", [ HZ "Hz" 1.0 ] {}
    /// A speed of air, in metres per second.
    Velocity, "m/s", "_m_per_s", [ M_PER_S "m/s" 1.0 ] {}
    /// A voltage, in volts. Alternating voltages are r.m.s. unless the name says otherwise.
    Voltage, "V", "_v", [ V "V" 1.0 ] { from_mv / mv = 1e-3, from_kv / kv = 1e3 }
    /// Volts induced in one turn, r.m.s.
    VoltsPerTurn, "V/turn", "_v", [ V "V" 1.0 ] {}
    /// A current, in amperes. Alternating currents are r.m.s. unless the name says otherwise.
    Current, "A", "_a", [ A "A" 1.0 ] { from_ma / ma = 1e-3 }
    /// Resistance, reactance or impedance, in ohms.
    Resistance, "Ω", "_ohm", [ OHM "Ω" 1.0, MILLIOHM "mΩ" 1e-3 | small MILLIOHM ] { from_milliohms / milliohms = 1e-3, from_megohms / megohms = 1e6 }
    /// Resistance of a metre of conductor, in ohms per metre.
    ResistancePerLength, "Ω/m", "_ohm_per_m", { from_milliohms_per_m / milliohms_per_m = 1e-3 }
    /// Resistivity, in ohm metres.
    Resistivity, "Ω·m", "_ohm_m", {}
    /// Relative change per kelvin.
    PerKelvin, "1/K", "_per_k", {}
    /// Active power, in watts.
    Power, "W", "_w", [ W "W" 1.0 ] {}
    /// Apparent power, in volt-amperes.
    ApparentPower, "VA", "_va", [ VA "VA" 1.0 ] {}
    /// Energy, in joules.
    Energy, "J", "_j", {}
    /// Electric charge, in coulombs.
    Charge, "C", "_coulomb", [ AH "Ah" 3600.0 ] { from_microcoulombs / microcoulombs = 1e-6, from_amp_hours / amp_hours = 3600.0 }
    /// Capacitance, in farads.
    Capacitance, "F", "_f", [ MICROFARAD "µF" 1e-6 ] { from_microfarads / microfarads = 1e-6 }
    /// Inductance, in henries.
    Inductance, "H", "_h", [ MH "mH" 1e-3 ] { from_millihenries / millihenries = 1e-3, from_nanohenries / nanohenries = 1e-9 }
    /// Magnetic flux, in webers, peak.
    Flux, "Wb", "_wb", { from_milliwebers / milliwebers = 1e-3 }
    /// Magnetic flux density, in teslas, peak.
    FluxDensity, "T", "_t", [ T "T" 1.0 ] {}
    /// Magnetic field strength, in amperes per metre.
    FieldStrength, "A/m", "_a_per_m", [ A_PER_M "A/m" 1.0 ] {}
    /// Reluctance of a magnetic path, in ampere-turns per weber.
    Reluctance, "A/Wb", "_a_per_wb", {}
    /// Current per conductor section, in amperes per square metre.
    CurrentDensity, "A/m²", "_a_per_m2", [ A_PER_MM2 "A/mm²" 1e6 ] { from_a_per_mm2 / a_per_mm2 = 1e6 }
    /// Loss per mass of steel, in watts per kilogram.
    SpecificLoss, "W/kg", "_w_per_kg", {}
    /// A number of turns; fractions occur in estimates.
    Turns, "turns", "", [ COUNT "" 1.0 ] {}
    /// A temperature on the Celsius scale.
    Temperature, "°C", "_c", [ CELSIUS "°C" 1.0 ] {}
    /// A difference of temperatures, in kelvins.
    TemperatureRise, "K", "_k", [ K "°C" 1.0 ] {}
    /// Kelvins for each watt that flows.
    ThermalResistance, "K/W", "_k_per_w", {}
    /// Watts that flow for each kelvin.
    ThermalConductance, "W/K", "_w_per_k", {}
    /// Watts that leave each square metre of a surface for each kelvin.
    FilmCoefficient, "W/(m²·K)", "_w_per_m2_k", {}
    /// Heat that one kelvin takes, in joules per kelvin.
    HeatCapacity, "J/K", "_j_per_k", {}
    /// A plain ratio (stacking factor, fill factor, duty, efficiency).
    Ratio, "1", "", [ PLAIN "" 1.0, PERCENT "%" 0.01 ] { from_percent / percent = 0.01 }
    /// An angle, in radians.
    Angle, "rad", "_rad", { from_degrees / degrees = std::f64::consts::PI / 180.0 }
    /// Money in the person's own currency.
    Money, "money", "", {}
}

macro_rules! products {
    ($( $a:ident * $b:ident = $c:ident ; )*) => { $(
        impl Mul<$b> for $a { type Output = $c; fn mul(self, other: $b) -> $c { $c(self.0 * other.0) } }
        impl Mul<$a> for $b { type Output = $c; fn mul(self, other: $a) -> $c { $c(self.0 * other.0) } }
        impl Div<$a> for $c { type Output = $b; fn div(self, other: $a) -> $b { $b(self.0 / other.0) } }
        impl Div<$b> for $c { type Output = $a; fn div(self, other: $b) -> $a { $a(self.0 / other.0) } }
    )* };
}

products! {
    Length * Area = Volume;
    Density * Volume = Mass;
    VoltsPerTurn * Turns = Voltage;
    Resistance * Current = Voltage;
    ResistancePerLength * Length = Resistance;
    Voltage * Current = ApparentPower;
    Power * Time = Energy;
    Capacitance * Voltage = Charge;
    FluxDensity * Area = Flux;
    CurrentDensity * Area = Current;
    SpecificLoss * Mass = Power;
    ThermalResistance * Power = TemperatureRise;
    ThermalConductance * TemperatureRise = Power;
    FilmCoefficient * Area = ThermalConductance;
    HeatCapacity * TemperatureRise = Energy;
    ResistancePerLength * Area = Resistivity;
}

impl Mul for Length {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area(self.0 * other.0)
    }
}

impl Div<Length> for Area {
    type Output = Length;
    fn div(self, other: Length) -> Length {
        Length(self.0 / other.0)
    }
}

impl Area {
    /// The side of the square that has this area.
    #[must_use]
    pub fn sqrt(self) -> Length {
        Length(self.0.sqrt())
    }
}

impl Frequency {
    /// Angular frequency 2πf, in radians per second.
    #[must_use]
    pub fn angular(self) -> f64 {
        std::f64::consts::TAU * self.0
    }
}

impl Inductance {
    /// Reactance ωL.
    #[must_use]
    pub fn reactance(self, frequency: Frequency) -> Resistance {
        Resistance(frequency.angular() * self.0)
    }
}

impl Add<TemperatureRise> for Temperature {
    type Output = Temperature;
    fn add(self, rise: TemperatureRise) -> Temperature {
        Temperature(self.0 + rise.0)
    }
}

impl Temperature {
    /// How much hotter this is than `other`.
    #[must_use]
    pub fn above(self, other: Temperature) -> TemperatureRise {
        TemperatureRise(self.0 - other.0)
    }
    /// On the absolute scale, in kelvins.
    #[must_use]
    pub fn kelvins(self) -> f64 {
        self.0 + 273.15
    }
}

impl Current {
    /// Heat that this current makes in a resistance, I²R.
    #[must_use]
    pub fn heating(self, resistance: Resistance) -> Power {
        Power(self.0 * self.0 * resistance.0)
    }
}

impl From<u32> for Turns {
    fn from(count: u32) -> Self {
        Turns(f64::from(count))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn products_and_quotients_agree() {
        let area = Length::from_mm(30.0) * Length::from_mm(50.0);
        assert!((area.cm2() - 15.0).abs() < 1e-12);
        assert!(((area / Length::from_mm(30.0)).mm() - 50.0).abs() < 1e-12);
        assert!(((Voltage::from_si(12.0) / Current::from_si(4.0)).si() - 3.0).abs() < 1e-12);
    }

    /// An input is read in the unit of the trade: resistance below a tenth of an ohm in milliohms, a plain
    /// ratio without a symbol, what has no unit of its own in its SI unit.
    #[test]
    fn a_value_is_read_in_its_usual_unit() {
        let symbols = [
            Length::read_in(0.07).symbol,
            Resistance::read_in(0.38).symbol,
            Resistance::read_in(0.012).symbol,
            Ratio::read_in(0.95).symbol,
            FilmCoefficient::read_in(8.0).symbol,
        ];
        assert_eq!(symbols, ["mm", "Ω", "mΩ", "", "W/(m²·K)"]);
        assert!((0.07 / Length::MM.si - 70.0).abs() < 1e-9);
    }

    /// 1 inch is 25.4 mm and 1 lb is 0.453 592 37 kg exactly (international yard and pound, 1959).
    #[test]
    fn inch_and_pound_are_exact() {
        assert!((Length::from_inches(1.0).mm() - 25.4).abs() < 1e-12);
        assert!((Mass::from_pounds(1.0).grams() - 453.592_37).abs() < 1e-9);
    }
}
