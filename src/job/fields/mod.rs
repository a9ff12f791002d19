//! The one table of numeric fields: label, range, usual ±, how to measure.

mod error;
mod table;
mod units;

pub use error::FieldError;
pub use table::ALL;
pub use units::{typed_units, zero_of};

use crate::quantity::Origin;

/// What a field counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitKind {
    /// Millimetres.
    Length,
    /// Metres of wire.
    WireLength,
    /// Volts.
    Voltage,
    /// Amperes.
    Current,
    /// Ohms.
    Resistance,
    /// Milliohms.
    SmallResistance,
    /// Millihenries.
    Inductance,
    /// Watts.
    Power,
    /// Kilograms.
    Mass,
    /// A plain ratio.
    Ratio,
    /// A count, such as turns.
    Count,
    /// Counts in a minute.
    PerMinute,
    /// Degrees Celsius.
    Temperature,
    /// Seconds.
    Time,
    /// Minutes.
    Minutes,
    /// Hertz.
    Frequency,
    /// The person's own money, for each metre.
    MoneyPerMetre,
    /// The person's own money.
    Money,
    /// Years.
    Years,
    /// Metres per second.
    Speed,
    /// Ampere-hours.
    AmpereHours,
    /// Microfarads.
    MicroFarads,
}

impl UnitKind {
    /// The symbol of the unit that the key counts in; empty for ratios and counts.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            UnitKind::Length => "mm",
            UnitKind::WireLength => "m",
            UnitKind::Voltage => "V",
            UnitKind::Current => "A",
            UnitKind::Resistance => "Ω",
            UnitKind::SmallResistance => "mΩ",
            UnitKind::Inductance => "mH",
            UnitKind::Power => "W",
            UnitKind::Mass => "kg",
            UnitKind::Ratio | UnitKind::Count | UnitKind::Money => "",
            UnitKind::Years => "years",
            UnitKind::Speed => "m/s",
            UnitKind::AmpereHours => "Ah",
            UnitKind::MicroFarads => "µF",
            UnitKind::PerMinute => "per minute",
            UnitKind::Temperature => "°C",
            UnitKind::Time => "s",
            UnitKind::Minutes => "min",
            UnitKind::Frequency => "Hz",
            UnitKind::MoneyPerMetre => "per metre",
        }
    }
}

/// The ± that a field gets where none was given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spread {
    /// A fixed half-width, in the unit of the key.
    Absolute(f64),
    /// Percent of the value.
    Percent(f64),
    /// Percent of the value, but at least so much in the unit of the key.
    PercentOrAtLeast(f64, f64),
}

/// How a field is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// A [`super::Reading`]: a number, or an object with ± and origin.
    Reading,
    /// A number.
    Number,
    /// A whole number.
    Whole,
    /// A number out of a few.
    OneOf(&'static [f64]),
}

/// One numeric field of a job file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Field {
    /// Where it stands in a job file, such as `core.tongue_mm`; `stock[].length_m` for every
    /// member of a list.
    pub path: &'static str,
    /// For a key of `goal`: the use that it belongs to.
    pub only_for: Option<&'static str>,
    /// Its name in English, for the schema, the command line and the log; what a screen shows is under
    /// [`Field::text`].
    pub label: &'static str,
    /// What it counts.
    pub kind: UnitKind,
    /// How it is written.
    pub shape: Shape,
    /// Smallest accepted value, in the unit of the key.
    pub min: f64,
    /// Largest accepted value, in the unit of the key.
    pub max: f64,
    /// ± where none was given; only readings have one.
    pub spread: Spread,
    /// Origin where none was given; only readings have one.
    pub origin: Origin,
    /// Whether its parent cannot do without it.
    pub required: bool,
}

impl Field {
    /// Half-width for `value` where none was given, got in the field's usual way. Never more than
    /// [`Field::widest`].
    #[must_use]
    pub fn default_plus_minus(&self, value: f64) -> f64 {
        self.usual_plus_minus(value, self.origin)
    }

    /// Half-width for `value` got in some way, where none was given: the field's own for its usual way,
    /// else what is usual for the tool. Never more than [`Field::widest`].
    #[must_use]
    pub fn usual_plus_minus(&self, value: f64, origin: Origin) -> f64 {
        let spread = if origin == self.origin {
            self.spread
        } else {
            usual_spread(origin, self.kind)
        };
        let half_width = match spread {
            Spread::Absolute(half_width) => half_width,
            Spread::Percent(percent) => value.abs() * percent / 100.0,
            Spread::PercentOrAtLeast(percent, least) => (value.abs() * percent / 100.0).max(least),
        };
        half_width.min(self.widest(value))
    }

    /// The largest ± accepted beside `value`: the width of the range, and of what is always above
    /// zero at most the value itself.
    ///
    /// A ± is two standard uncertainties, and inputs are moved by one: so no length, count or
    /// resistance moves to zero or below.
    #[must_use]
    pub fn widest(&self, value: f64) -> f64 {
        let width = self.max - self.min;
        if self.min > 0.0 { width.min(value.abs()) } else { width }
    }

    /// The id of its texts: `.label` and `.hint`, how to measure it.
    #[must_use]
    pub fn text(&self) -> String {
        let path = self.path.replace("[]", "");
        let path = match (self.only_for, path.strip_prefix("goal.")) {
            (Some(goal_use), Some(key)) => format!("goal-{goal_use}-{key}"),
            _ => path,
        };
        format!("field-{}", path.replace(['.', '_'], "-"))
    }

    /// The last part of the path: the key itself.
    #[must_use]
    pub fn key(&self) -> &'static str {
        self.path.rsplit('.').next().unwrap_or(self.path)
    }

    /// Checks a value and, for a reading, its ±. `path` is where it stands, for the message.
    ///
    /// # Errors
    /// [`FieldError`] unless the value is finite and within `min` to `max` (both accepted), one
    /// of the few, or whole where it must be; and unless the ± is from 0 to [`Field::widest`].
    pub fn check(&self, path: &str, value: f64, plus_minus: f64) -> Result<(), FieldError> {
        let path = || path.to_owned();
        let unit = self.kind.symbol();
        let (min, max) = (self.min, self.max);
        if let Shape::OneOf(accepted) = self.shape
            && !accepted.contains(&value)
        {
            return Err(FieldError::NotOneOf {
                path: path(),
                value,
                accepted,
                unit,
            });
        }
        if !value.is_finite() {
            return Err(FieldError::NotFinite {
                path: path(),
                min,
                max,
                unit,
            });
        }
        if !(min..=max).contains(&value) {
            return Err(FieldError::OutOfRange {
                path: path(),
                value,
                min,
                max,
                unit,
            });
        }
        if self.shape == Shape::Whole && value.fract() != 0.0 {
            return Err(FieldError::NotWhole { path: path(), value });
        }
        if self.shape == Shape::Reading && !(0.0..=self.widest(value)).contains(&plus_minus) {
            return Err(FieldError::BadSpread {
                path: path(),
                plus_minus,
                widest: self.widest(value),
                unit,
            });
        }
        Ok(())
    }
}

/// The ± of a tool for what it is not the usual one. Common practice, no source; a person who knows
/// better writes their own.
const fn usual_spread(origin: Origin, kind: UnitKind) -> Spread {
    use Spread::{Absolute, Percent, PercentOrAtLeast};
    match (origin, kind) {
        (Origin::Chosen, _) => Absolute(0.0),
        (Origin::Typical, UnitKind::Temperature) => Absolute(10.0),
        (_, UnitKind::Temperature) => Absolute(3.0),
        (Origin::Typical, _) => Percent(20.0),
        (Origin::Calipers, UnitKind::Length) => Absolute(0.2),
        (Origin::Rule, UnitKind::Length) => Absolute(1.0),
        (Origin::Tape, UnitKind::Length) => Absolute(2.0),
        (Origin::Photo, UnitKind::Length) => PercentOrAtLeast(2.0, 0.5),
        (Origin::Scale, UnitKind::Mass) => PercentOrAtLeast(1.0, 0.05),
        (Origin::Counted, UnitKind::Count) => Percent(2.0),
        (Origin::Meter, _) => Percent(3.0),
        (Origin::Label, _) => Percent(5.0),
        _ => Percent(10.0),
    }
}

/// The row for a path. A path below `goal` that several uses share gives the first use's row;
/// [`find_for`] tells them apart.
///
/// ```
/// use curbcore::job::fields;
/// let tongue = fields::find("core.tongue_mm").unwrap();
/// let error = tongue.check(tongue.path, 3000.0, 0.1).unwrap_err();
/// assert_eq!(error.to_string(), "core.tongue_mm is 3000; it must be between 5 and 200 mm");
/// ```
#[must_use]
pub fn find(path: &str) -> Option<&'static Field> {
    ALL.iter().find(|field| field.path == path)
}

/// The row for a key of `goal` under a use, such as `("stick_welder", "duty")`.
#[must_use]
pub fn find_for(goal_use: &str, key: &str) -> Option<&'static Field> {
    ALL.iter()
        .find(|field| field.only_for == Some(goal_use) && field.key() == key)
}

/// The most characters that a text field may have, by its path; `[]` as in [`Field::path`].
/// `true`: it must not be blank, and it is one line.
pub const TEXTS: &[(&str, usize, bool)] = &[
    ("name", 200, true),
    ("note", 20_000, false),
    ("donor.name", 200, true),
    ("donor.notes", 20_000, false),
    ("mains.circuit.plug", 60, false),
    ("choice.conductor", 60, true),
    ("stock[].conductor", 60, true),
];
