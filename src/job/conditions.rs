//! How the rebuilt part is run: what its no-load current, heat and direct current depend on besides
//! the core and the goal. What is left out is taken as usual, with a wide band.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::choice::Choice;
use super::core::Core;
use super::goal::{Goal, Use};
use super::place::{no_places, records};
use super::reading::Reading;

macro_rules! words {
    ($( $(#[$meta:meta])* $name:ident { $( $(#[$doc:meta])* $member:ident = $word:literal, )* } )*) => { $(
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
        pub enum $name { $( $(#[$doc])* #[serde(rename = $word)] $member, )* }

        no_places! { $name }

        impl $name {
            /// Every one, in the order that a person is offered them.
            pub const ALL: &[Self] = &[ $( Self::$member ),* ];
            /// The word that files and screens use.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $( Self::$member => $word ),* }
            }
            /// The one that a word names.
            #[must_use]
            pub fn from_word(word: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.word() == word)
            }
        }
    )* };
}

words! {
    /// Grade of the laminations; left out where nobody knows it.
    LaminationGrade {
        /// AISI M19.
        M19 = "M19",
        /// M400-50A of EN 10106.
        M400 = "M400-50A",
        /// M530-50A.
        M530 = "M530-50A",
        /// M800-50A.
        M800 = "M800-50A",
    }
    /// Thermal class of the windings' insulation (IEC 60085).
    InsulationClass {
        /// 105 °C.
        A = "A",
        /// 120 °C.
        E = "E",
        /// 130 °C.
        B = "B",
        /// 155 °C.
        F = "F",
        /// 180 °C.
        H = "H",
    }
    /// How diodes are joined to the winding.
    RectifierKind {
        /// Four diodes.
        Bridge = "bridge",
        /// Two half windings, two diodes.
        CentreTap = "centre_tap",
    }
    /// How the new windings of two cores are joined.
    Joining {
        /// End to end.
        Series = "series",
        /// Side by side.
        Parallel = "parallel",
    }
}

/// A second core that works with the job's own: its measures as they were when it was chosen, so that
/// the job is whole by itself. Both primaries lie side by side on the mains.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PairChoice {
    /// What the core is called.
    pub name: String,
    /// The core.
    pub core: Box<Core>,
    /// How the new windings are joined.
    pub windings: Joining,
}

records! {
    /// One row of an idle test: nothing on the new winding.
    #[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct IdleTest {
        /// Voltage at the primary, in volts r.m.s.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub volts: Option<Reading>,
        /// Current, in amperes r.m.s.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub amps: Option<Reading>,
        /// Power, in watts, where a wattmeter was at hand.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub watts: Option<Reading>,
    }
}

impl IdleTest {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// A use that the job had before: its targets, and the winding chosen for them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EarlierUse {
    /// The use with its targets.
    pub goal: Goal,
    /// The winding chosen for it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub choice: Option<Choice>,
}

records! {
    /// How it is run.
    #[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Conditions {
        /// Grade of the laminations.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub steel: Option<LaminationGrade>,
        /// Resistance of the mains loop up to the outlet, in ohms.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub mains_loop_ohm: Option<Reading>,
        /// An idle test at a low voltage.
        #[serde(default, skip_serializing_if = "IdleTest::is_empty")]
        pub idle_low: IdleTest,
        /// An idle test at a middle voltage.
        #[serde(default, skip_serializing_if = "IdleTest::is_empty")]
        pub idle_middle: IdleTest,
        /// An idle test at full voltage.
        #[serde(default, skip_serializing_if = "IdleTest::is_empty")]
        pub idle_full: IdleTest,
        /// Air of the room, in °C.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub ambient_c: Option<Reading>,
        /// Speed of a fan's air over the windings, in metres per second.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub fan_m_per_s: Option<Reading>,
        /// Thermal class of the insulation.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub insulation: Option<InsulationClass>,
        /// How the diodes are joined.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub rectifier: Option<RectifierKind>,
        /// Capacity of the battery, in ampere-hours.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub battery_ah: Option<Reading>,
        /// Internal resistance of the battery with leads and clamps, in milliohms.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub battery_milliohm: Option<Reading>,
        /// Length of each of the two leads of the new winding, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub lead_mm: Option<Reading>,
        /// Reservoir capacitor behind the diodes, in microfarads.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub capacitor_uf: Option<Reading>,
        /// Choke behind the diodes, in millihenries.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub choke_mh: Option<Reading>,
        /// Power of the filament lamp of the first mains test, in watts.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub lamp_watts: Option<Reading>,
        /// Thickness of the paper that a shim is made of, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub sheet_mm: Option<Reading>,
        /// Thickness of a second paper that its stack may have beside the first, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub second_sheet_mm: Option<Reading>,
        /// Whether aluminium conductors are offered beside copper ones.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        pub aluminium: bool,
        /// Uses whose target is as much as the core gives, whatever current their goal names.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub as_much: Vec<Use>,
        /// A second core, and how the windings of both are joined.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub pair: Option<PairChoice>,
        /// Uses that the job had before, each once: going back to one brings its targets and its winding
        /// back.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub earlier_uses: Vec<EarlierUse>,
    }
}

no_places! { PairChoice }

impl Conditions {
    /// Whether the target of a goal's use is as much as the core gives.
    #[must_use]
    pub fn wants_as_much(&self, goal: &Goal) -> bool {
        self.as_much.contains(&goal.as_use())
    }

    /// Sets whether the target of a goal's use is as much as the core gives.
    pub fn want_as_much(&mut self, goal: &Goal, on: bool) {
        let word = goal.as_use();
        self.as_much.retain(|one| *one != word);
        if on {
            self.as_much.push(word);
        }
    }

    /// True where everything is left at what is usual.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each use has its own target; where nothing is said, the number counts and copper alone is wound.
    #[test]
    fn a_target_belongs_to_its_use() {
        let ballast = Goal::Ballast {
            arc_volts: 30.0,
            current_a: 12.0,
        };
        let supply = Goal::PlainSupply {
            volts: 24.0,
            amps: 20.0,
            duty: 0.5,
        };
        let mut conditions = Conditions::default();
        assert!(!conditions.wants_as_much(&supply) && !conditions.aluminium && conditions.is_usual());
        conditions.want_as_much(&supply, true);
        conditions.want_as_much(&supply, true);
        assert!(conditions.wants_as_much(&supply) && !conditions.wants_as_much(&ballast));
        let text = serde_json::to_string(&conditions).unwrap();
        assert_eq!(text, r#"{"as_much":["plain_supply"]}"#);
        assert_eq!(serde_json::from_str::<Conditions>(&text).unwrap(), conditions);
        assert!(serde_json::from_str::<Conditions>(r#"{"as_much":["teapot"]}"#).is_err());
        conditions.want_as_much(&supply, false);
        assert!(conditions.is_usual());
    }
}
