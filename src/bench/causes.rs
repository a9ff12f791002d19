//! Why a reading may lie outside its band, by stage and direction, likeliest first.
//!
//! The order is common practice, no source; each cause follows from the physics of the stage.

use super::amounts::Direction;
use super::stage::Stage;
use crate::words::words;

words! {
    /// A probable cause.
    pub enum Cause, "cause" {
        /// A wire is broken or not joined.
        OpenWinding = "open-winding",
        /// A joint or crimp is bad, or enamel was not scraped off under it.
        BadJoint = "bad-joint",
        /// The number of turns is not the design's.
        WrongCount = "wrong-count",
        /// The wire is not the design's size or metal.
        WrongWire = "wrong-wire",
        /// Turns touch each other through damaged enamel.
        ShortedTurn = "shorted-turn",
        /// The resistance of the meter's leads was not taken off.
        MeterLeads = "meter-leads",
        /// The winding was not at the temperature that was entered.
        WindingTemperature = "winding-temperature",
        /// Insulation was nicked by the core's edge.
        NickedInsulation = "nicked-insulation",
        /// Damp paper or varnish.
        Damp = "damp",
        /// Dust or chips bridge the windings.
        Chips = "chips",
        /// A winding's ends are swapped.
        Phasing = "phasing",
        /// The core is not closed tight or its clamp is slack.
        LooseCore = "loose-core",
        /// The gap is wider than designed.
        WideGap = "wide-gap",
        /// The gap is narrower than designed.
        NarrowGap = "narrow-gap",
        /// The weld or burrs join the laminations.
        JoinedLaminations = "joined-laminations",
        /// The shunts are in though the design has none, or loose.
        ShuntsIn = "shunts-in",
        /// The shunts are out though the design counts on them.
        ShuntsMissing = "shunts-missing",
        /// The steel is poorer than assumed, or the core saturates.
        PoorSteel = "poor-steel",
        /// The mains is not at the voltage that was assumed.
        MainsVoltage = "mains-voltage",
        /// The lamp is not the one assumed.
        WrongLamp = "wrong-lamp",
        /// The load is not the one assumed.
        WrongLoad = "wrong-load",
        /// Leads are longer or thinner than assumed.
        ThinLeads = "thin-leads",
        /// A fuse or switch is open.
        FuseOpen = "fuse-open",
        /// The resistance was read too late after switching off.
        LateReading = "late-reading",
        /// The winding was not cold through and through at the start.
        NotCold = "not-cold",
        /// The load was heavier or longer than designed.
        Overloaded = "overloaded",
        /// Air can't get at the windings.
        NoAir = "no-air",
    }
}

impl Cause {
    /// True if it is a fault of the measurement, not of the core: it may explain a reading.
    #[must_use]
    pub const fn of_the_measurement(self) -> bool {
        matches!(
            self,
            Cause::MeterLeads
                | Cause::WindingTemperature
                | Cause::MainsVoltage
                | Cause::WrongLamp
                | Cause::WrongLoad
                | Cause::ThinLeads
                | Cause::LateReading
                | Cause::NotCold
        )
    }

    /// True if naming this cause lets the next stage begin. A reading that may be a shorted
    /// turn or bad insulation is never explained away: fix it or read it again.
    #[must_use]
    pub fn explains(self, stage: Stage, direction: Direction) -> bool {
        let never = match stage {
            Stage::Insulation | Stage::PairPhasing => true,
            Stage::Impedance => direction == Direction::TooLow,
            Stage::LampIdle | Stage::MainsIdle | Stage::TemperatureRise => direction == Direction::TooHigh,
            Stage::RatioPolarity => direction == Direction::Reversed,
            _ => false,
        };
        !never && self.of_the_measurement() && stage.causes(direction).contains(&self)
    }
}

impl Stage {
    /// The probable causes of a reading outside its band, likeliest first. Empty for stages
    /// without readings, and for directions that the stage doesn't know.
    #[must_use]
    pub const fn causes(self, direction: Direction) -> &'static [Cause] {
        use Cause as C;
        use Direction::{Reversed, TooHigh, TooLow};
        match (self, direction) {
            (Stage::Continuity, TooHigh) => &[
                C::BadJoint,
                C::OpenWinding,
                C::MeterLeads,
                C::WrongCount,
                C::WrongWire,
                C::WindingTemperature,
            ],
            (Stage::Continuity, TooLow) => &[
                C::WrongCount,
                C::ShortedTurn,
                C::WrongWire,
                C::MeterLeads,
                C::WindingTemperature,
            ],
            (Stage::Insulation, TooLow) => &[C::NickedInsulation, C::Damp, C::Chips],
            (Stage::RatioPolarity, TooLow) => &[C::WrongCount, C::ShortedTurn, C::LooseCore, C::ShuntsIn],
            (Stage::RatioPolarity, TooHigh) => &[C::WrongCount, C::ShortedTurn],
            (Stage::RatioPolarity, Reversed) => &[C::Phasing],
            (Stage::PairPhasing, TooHigh) => &[C::Phasing, C::WrongCount],
            (Stage::PairPhasing, TooLow) => &[C::Phasing, C::BadJoint, C::WrongCount],
            (Stage::Impedance, TooHigh) => &[C::NarrowGap, C::WrongCount, C::MeterLeads],
            (Stage::Impedance, TooLow) => &[C::ShortedTurn, C::WideGap, C::WrongCount, C::LooseCore],
            (Stage::RatedCurrent, TooHigh) => &[C::NarrowGap, C::BadJoint, C::WrongCount, C::WrongWire],
            (Stage::RatedCurrent, TooLow) => &[C::ShortedTurn, C::WideGap, C::WrongCount, C::NarrowGap],
            (Stage::LampIdle, TooHigh) => &[
                C::ShortedTurn,
                C::Phasing,
                C::WrongCount,
                C::LooseCore,
                C::WideGap,
                C::WrongLamp,
            ],
            (Stage::LampIdle, TooLow) => &[C::FuseOpen, C::OpenWinding, C::WrongLamp, C::WrongCount, C::NarrowGap],
            (Stage::MainsIdle, TooHigh) => &[
                C::ShortedTurn,
                C::WrongCount,
                C::WideGap,
                C::LooseCore,
                C::JoinedLaminations,
                C::PoorSteel,
                C::MainsVoltage,
            ],
            (Stage::MainsIdle, TooLow) => &[C::WrongCount, C::NarrowGap, C::MainsVoltage],
            (Stage::Loaded, TooLow) => &[
                C::MainsVoltage,
                C::WrongCount,
                C::ThinLeads,
                C::ShuntsIn,
                C::BadJoint,
                C::WrongWire,
                C::WrongLoad,
            ],
            (Stage::Loaded, TooHigh) => &[C::MainsVoltage, C::WrongCount, C::WrongLoad, C::ShuntsMissing],
            (Stage::ShortCircuit, TooLow) => &[C::ThinLeads, C::BadJoint, C::ShuntsIn, C::WrongCount, C::MainsVoltage],
            (Stage::ShortCircuit, TooHigh) => &[C::ShuntsMissing, C::WrongCount, C::MainsVoltage],
            (Stage::TemperatureRise, TooHigh) => &[
                C::Overloaded,
                C::NoAir,
                C::BadJoint,
                C::WrongWire,
                C::JoinedLaminations,
                C::ShortedTurn,
                C::NotCold,
            ],
            (Stage::TemperatureRise, TooLow) => &[C::LateReading, C::WrongLoad, C::NotCold],
            (Stage::Prepare | Stage::Reassembly, _)
            | (Stage::Insulation, TooHigh | Reversed)
            | (
                Stage::Continuity
                | Stage::LampIdle
                | Stage::MainsIdle
                | Stage::Loaded
                | Stage::ShortCircuit
                | Stage::PairPhasing
                | Stage::Impedance
                | Stage::RatedCurrent
                | Stage::TemperatureRise,
                Reversed,
            ) => &[],
        }
    }
}
