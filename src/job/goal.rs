//! What the transformer shall become.

use schemars::JsonSchema;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use super::place::{Entered, Held, Places, no_places, step};

/// Who will use the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum User {
    /// Anybody.
    Layman,
    /// Somebody trained for it.
    Trained,
}

macro_rules! goals {
    ($( $(#[$doc:meta])* $word:literal $variant:ident { $( $(#[$field_doc:meta])* $field:ident : $kind:ty ),* $(,)? } )*) => {
        /// The use, with what it must deliver. In a file, `use` tells which one.
        #[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
        #[serde(tag = "use", rename_all = "snake_case", deny_unknown_fields)]
        pub enum Goal { $( $(#[$doc])* $variant { $( $(#[$field_doc])* $field: $kind ),* } ),* }

        impl Goal {
            /// The words that `use` may be.
            pub const USES: &'static [&'static str] = &[ $( $word ),* ];

            /// The word that stands for `use` in a file.
            #[must_use]
            pub const fn word(&self) -> &'static str {
                match self { $( Goal::$variant { .. } => $word ),* }
            }

            /// The keys that go with a use, without `use` itself; none for a word not in [`Goal::USES`].
            #[must_use]
            pub fn keys(word: &str) -> &'static [&'static str] {
                match word { $( $word => &[ $( stringify!($field) ),* ], )* _ => &[] }
            }

            /// The goal from its use and all the keys that were given.
            fn from_keys(keys: &GoalKeys) -> Result<Self, String> {
                match keys.word {
                    $( Use::$variant => Ok(Goal::$variant {
                        $( $field: keys.$field.ok_or_else(|| missing(stringify!($field)))? ),*
                    }), )*
                }
            }
        }

        impl Places for Goal {
            fn get(&self, path: &str) -> Option<Held<'_>> {
                let (key, below) = step(path);
                match self { $( Goal::$variant { $( $field ),* } => match key {
                    $( stringify!($field) => $field.get(below), )*
                    _ => None,
                } ),* }
            }

            fn put(&mut self, path: &str, value: Option<Entered>) -> bool {
                let (key, below) = step(path);
                match self { $( Goal::$variant { $( $field ),* } => match key {
                    $( stringify!($field) => $field.put(below, value), )*
                    _ => false,
                } ),* }
            }
        }

        /// A use without its targets: the word after `use`.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
        pub enum Use { $( $(#[$doc])* #[serde(rename = $word)] $variant ),* }

        impl Use {
            const fn word(self) -> &'static str {
                match self { $( Use::$variant => $word ),* }
            }
        }

        impl Goal {
            /// The use alone, without its targets.
            #[must_use]
            pub const fn as_use(&self) -> Use {
                match self { $( Goal::$variant { .. } => Use::$variant ),* }
            }
        }
    };
}

goals! {
    /// Resistance spot welder.
    "spot_welder" SpotWelder {
        /// Current through the work, in amperes r.m.s.
        weld_current_a: f64,
        /// Resistance of electrodes and work, in milliohms.
        load_milliohm: f64,
        /// Length of one pulse, in seconds.
        pulse_s: f64,
        /// Pulses in a minute.
        pulses_per_minute: f64,
    }
    /// Manual metal arc welder.
    "stick_welder" StickWelder {
        /// Arc current, in amperes r.m.s.
        arc_current_a: f64,
        /// Share of a ten-minute period under load, 0 to 1.
        duty: f64,
        /// Who will use it.
        user: User,
        /// Whether it is used where shock is likelier: wet, hot or between conducting walls.
        wet_or_cramped: bool,
    }
    /// Small arc furnace.
    "arc_furnace" ArcFurnace {
        /// Arc current, in amperes r.m.s.
        current_a: f64,
        /// Arc voltage, in volts r.m.s.
        arc_volts: f64,
        /// Longest time under load at a stretch, in minutes.
        minutes_on: f64,
        /// Share of the time under load, 0 to 1.
        duty: f64,
    }
    /// Plasma cutter supply.
    "plasma_cutter" PlasmaCutter {
        /// Cutting current, in amperes.
        cut_current_a: f64,
        /// Arc voltage, in volts.
        arc_volts: f64,
        /// Open-circuit voltage, in volts.
        open_circuit_volts: f64,
        /// Share of a ten-minute period under load, 0 to 1.
        duty: f64,
        /// Whether the person has confirmed the warning about its open-circuit voltage.
        confirmed: bool,
    }
    /// Charger for lead batteries.
    "battery_charger" BatteryCharger {
        /// Nominal battery voltage: 6, 12, 24, 36 or 48 V.
        battery_volts: f64,
        /// Charging current, in amperes.
        charge_current_a: f64,
        /// Whether the person has confirmed that only lead-acid batteries are charged.
        confirmed: bool,
    }
    /// Isolated a.c. supply.
    "plain_supply" PlainSupply {
        /// Voltage under load, in volts r.m.s.
        volts: f64,
        /// Current, in amperes r.m.s.
        amps: f64,
        /// Share of a ten-minute period under load, 0 to 1.
        duty: f64,
    }
    /// Smoothing choke: the core with a gap, one winding.
    "choke" Choke {
        /// Inductance, in millihenries.
        inductance_mh: f64,
        /// Direct current through it, in amperes.
        dc_current_a: f64,
        /// Ripple, peak to peak, in amperes.
        ripple_a: f64,
        /// Frequency of the ripple, in hertz.
        frequency_hz: f64,
    }
    /// Series ballast: the core with a gap, one winding, at mains frequency.
    "ballast" Ballast {
        /// Voltage across the burning lamp or arc, in volts r.m.s.
        arc_volts: f64,
        /// Current through it, in amperes r.m.s.
        current_a: f64,
    }
}

no_places! { User }

/// Every key of every use. Read in one go so that an error inside keeps its path, which a
/// derived reader of a tagged enum would lose.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct GoalKeys {
    #[serde(rename = "use")]
    word: Use,
    weld_current_a: Option<f64>,
    load_milliohm: Option<f64>,
    pulse_s: Option<f64>,
    pulses_per_minute: Option<f64>,
    arc_current_a: Option<f64>,
    duty: Option<f64>,
    user: Option<User>,
    wet_or_cramped: Option<bool>,
    current_a: Option<f64>,
    arc_volts: Option<f64>,
    minutes_on: Option<f64>,
    cut_current_a: Option<f64>,
    open_circuit_volts: Option<f64>,
    confirmed: Option<bool>,
    battery_volts: Option<f64>,
    charge_current_a: Option<f64>,
    volts: Option<f64>,
    amps: Option<f64>,
    inductance_mh: Option<f64>,
    dc_current_a: Option<f64>,
    ripple_a: Option<f64>,
    frequency_hz: Option<f64>,
}

impl GoalKeys {
    /// The first key given that does not belong to the use.
    fn stranger(&self) -> Option<String> {
        let known = Goal::keys(self.word.word());
        let given = serde_json::to_value(self).ok()?;
        let given = given.as_object()?;
        given
            .iter()
            .find(|(key, value)| !value.is_null() && *key != "use" && !known.contains(&key.as_str()))
            .map(|(key, _)| key.clone())
    }
}

impl<'de> Deserialize<'de> for Goal {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let keys = GoalKeys::deserialize(deserializer)?;
        if let Some(key) = keys.stranger() {
            return Err(D::Error::unknown_field(&key, Goal::keys(keys.word.word())));
        }
        Goal::from_keys(&keys).map_err(D::Error::custom)
    }
}

/// The words of serde's own message, so that one place reads both.
fn missing(key: &str) -> String {
    format!("missing field `{key}`")
}
