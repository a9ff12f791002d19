//! Every limit that can refuse a winding, in one table.
//!
//! The texts of the standards named here were not read: their numbers come from secondary sources,
//! each named, or from memory. The screens say which, and that the local code decides.

use crate::quantity::{CurrentDensity, Ratio, TemperatureRise, Voltage};
use crate::wire::Metal;

/// A limit that a winding may break.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum Limit {
    /// The conductor does not go into the window's free height at all.
    ConductorTooWide,
    /// The layers reach further than the window is wide.
    WindowFit,
    /// Open-circuit voltage above what the standard or the person allows.
    OpenCircuitTooHigh,
    /// Open-circuit voltage too low to strike or hold the arc.
    OpenCircuitTooLow,
    /// The current (or voltage) is too far from the target.
    OffTarget,
    /// The new winding runs too hot.
    WindingHeat,
    /// The primary runs too hot.
    PrimaryHeat,
    /// The branch circuit's breaker would open.
    BranchCircuit,
    /// The core saturates on these mains.
    Saturation,
    /// The turn is tighter than the conductor is bent.
    BendTooTight,
    /// More or thicker conductors together than hands wind.
    TooMuchForHands,
}

impl Limit {
    /// All limits.
    pub const ALL: [Limit; 11] = [
        Limit::ConductorTooWide,
        Limit::WindowFit,
        Limit::OpenCircuitTooHigh,
        Limit::OpenCircuitTooLow,
        Limit::OffTarget,
        Limit::WindingHeat,
        Limit::PrimaryHeat,
        Limit::BranchCircuit,
        Limit::Saturation,
        Limit::BendTooTight,
        Limit::TooMuchForHands,
    ];

    /// The order in which a winding that breaks several limits is told to break one: what the core and
    /// the turns decide, then what the room does, then the target and the heat.
    const TOLD_FIRST: [Limit; 11] = [
        Limit::Saturation,
        Limit::OpenCircuitTooHigh,
        Limit::OpenCircuitTooLow,
        Limit::ConductorTooWide,
        Limit::WindowFit,
        Limit::BendTooTight,
        Limit::TooMuchForHands,
        Limit::OffTarget,
        Limit::BranchCircuit,
        Limit::PrimaryHeat,
        Limit::WindingHeat,
    ];

    /// The word that reports use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Limit::ConductorTooWide => "conductor_too_wide",
            Limit::WindowFit => "window_fit",
            Limit::OpenCircuitTooHigh => "open_circuit_too_high",
            Limit::OpenCircuitTooLow => "open_circuit_too_low",
            Limit::OffTarget => "off_target",
            Limit::WindingHeat => "winding_heat",
            Limit::PrimaryHeat => "primary_heat",
            Limit::BranchCircuit => "branch_circuit",
            Limit::Saturation => "saturation",
            Limit::BendTooTight => "bend_too_tight",
            Limit::TooMuchForHands => "too_much_for_hands",
        }
    }

    /// The id of its text.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Limit::ConductorTooWide => "limit-conductor-too-wide",
            Limit::WindowFit => "limit-window-fit",
            Limit::OpenCircuitTooHigh => "limit-open-circuit-too-high",
            Limit::OpenCircuitTooLow => "limit-open-circuit-too-low",
            Limit::OffTarget => "limit-off-target",
            Limit::WindingHeat => "limit-winding-heat",
            Limit::PrimaryHeat => "limit-primary-heat",
            Limit::BranchCircuit => "limit-branch-circuit",
            Limit::Saturation => "limit-saturation",
            Limit::BendTooTight => "limit-bend-too-tight",
            Limit::TooMuchForHands => "limit-too-much-for-hands",
        }
    }
}

/// A set of limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LimitSet(u16);

impl LimitSet {
    /// Adds a limit.
    pub fn add(&mut self, limit: Limit) {
        self.0 |= 1 << limit as u8;
    }
    /// Adds a limit where `broken`.
    pub fn add_if(&mut self, broken: bool, limit: Limit) {
        if broken {
            self.add(limit);
        }
    }
    /// True where it holds `limit`.
    #[must_use]
    pub const fn has(self, limit: Limit) -> bool {
        self.0 & (1 << limit as u8) != 0
    }
    /// True where it holds none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }
    /// The limits in it.
    pub fn iter(self) -> impl Iterator<Item = Limit> {
        Limit::ALL.into_iter().filter(move |limit| self.has(*limit))
    }
}

impl From<Limit> for LimitSet {
    fn from(limit: Limit) -> Self {
        let mut set = Self::default();
        set.add(limit);
        set
    }
}

impl LimitSet {
    /// The one that a person is told of, where it holds several.
    #[must_use]
    pub fn first(self) -> Option<Limit> {
        Limit::TOLD_FIRST.into_iter().find(|limit| self.has(*limit))
    }
}

/// How many windings were left out for which limit: each counts once, for the first that it breaks in
/// `Limit::TOLD_FIRST`, so that the counts add up to what was left out.
#[derive(Debug, Clone, Default)]
pub(super) struct Tally([u64; Limit::ALL.len()]);

impl Tally {
    /// Counts one winding.
    pub(super) fn count(&mut self, broken: LimitSet) {
        if let Some(count) = broken.first().and_then(|limit| self.0.get_mut(limit as usize)) {
            *count += 1;
        }
    }

    /// How many were left out for each limit, most first.
    pub(super) fn by_limit(&self) -> Vec<(Limit, u64)> {
        let mut counts: Vec<(Limit, u64)> = Limit::ALL.into_iter().zip(self.0).collect();
        counts.retain(|(_, count)| *count > 0);
        counts.sort_by_key(|(limit, count)| (std::cmp::Reverse(*count), *limit));
        counts
    }
}

/// Where a limit's number comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Provenance {
    /// The standard named, as a secondary source quotes it.
    StandardQuoted(&'static str),
    /// The standard named, from memory: neither its text nor a quotation was read.
    StandardFromMemory(&'static str),
    /// What the trade does; no source.
    CommonPractice,
    /// The person set it.
    Chosen,
}

/// A voltage limit with its provenance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VoltageLimit {
    /// The limit, volts r.m.s.
    pub volts: Voltage,
    /// Where it comes from.
    pub provenance: Provenance,
}

/// Open-circuit limit of an a.c. arc welding source used by trained people: 80 V r.m.s. R2: EN 60974-1,
/// table 13, in the manuals of two makers' testers for EN 60974-4; the same 80 V in the State of
/// Washington's code for manual arc welding (WAC 296-307-49003).
pub const ARC_TRAINED: VoltageLimit = VoltageLimit {
    volts: Voltage::from_si(80.0),
    provenance: Provenance::StandardQuoted("IEC 60974-1"),
};
/// The same where the hazard of shock is increased (wet, cramped, hot): 48 V r.m.s. R2, as above.
pub const ARC_HAZARD: VoltageLimit = VoltageLimit {
    volts: Voltage::from_si(48.0),
    provenance: Provenance::StandardQuoted("IEC 60974-1, increased hazard of shock"),
};
/// The same for equipment used by laymen. IEC 60974-6 is the stricter one; its number was found
/// nowhere, so the strictest a.c. value that IEC 60974-1 knows stands in (M, the cautious choice).
pub const ARC_LAYMAN: VoltageLimit = VoltageLimit {
    volts: Voltage::from_si(48.0),
    provenance: Provenance::StandardFromMemory("IEC 60974-6 (held at the strictest value of IEC 60974-1)"),
};
/// Voltage that may be touched when dry: 30 V r.m.s. (IEC 61010-1, IEC 62368-1 tables 4 and 5; R2:
/// instrument makers' pages).
pub const TOUCH_DRY: VoltageLimit = VoltageLimit {
    volts: Voltage::from_si(30.0),
    provenance: Provenance::StandardQuoted("IEC 61010-1"),
};

/// How the windings are cooled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Cooling {
    /// Still air.
    #[default]
    StillAir,
    /// A fan blows on it.
    Fan,
}

/// Highest equivalent steady current density of a winding inside a core: copper 6 A/mm² in
/// still air, half as much again with a fan, aluminium as much less as its resistivity asks.
/// Common practice, no source; the heat model and the bench's temperature test have the last word.
#[must_use]
pub fn steady_density_limit(metal: Metal, cooling: Cooling) -> CurrentDensity {
    let copper = CurrentDensity::from_a_per_mm2(match cooling {
        Cooling::StillAir => 6.0,
        Cooling::Fan => 9.0,
    });
    copper * (Metal::Copper.resistivity_20() / metal.resistivity_20()).sqrt()
}

/// Highest rise of the conductor in one pull of current, taken as adiabatic: 60 K.
/// Common practice, no source.
pub const RISE_IN_ONE_PULL: TemperatureRise = TemperatureRise::from_si(60.0);

/// How far below its wanted current a winding may be and still be offered: a twentieth, within what the
/// load and the mains are known to. Common practice, no source.
pub const SHORT_OF_TARGET: Ratio = Ratio::from_si(0.05);

/// How far below its wanted current a charger may be and still be offered: a tenth. Common practice, no
/// source.
pub const SHORT_OF_CHARGE: Ratio = Ratio::from_si(0.1);

/// How far off its wanted voltage a supply's winding may be at the wanted load and still be offered: a
/// tenth. Common practice, no source.
pub const OFF_VOLTAGE: Ratio = Ratio::from_si(0.1);

#[cfg(test)]
mod tests {
    use super::*;

    /// A winding that breaks two limits counts once, for the one that is told first; the most broken
    /// come first, ties in the table's order.
    #[test]
    fn a_tally_counts_each_winding_once() {
        let mut tally = Tally::default();
        let mut both = LimitSet::from(Limit::WindowFit);
        both.add(Limit::Saturation);
        for broken in [
            both,
            both,
            Limit::Saturation.into(),
            Limit::OffTarget.into(),
            Limit::BranchCircuit.into(),
        ] {
            tally.count(broken);
        }
        let expected = [(Limit::Saturation, 3), (Limit::OffTarget, 1), (Limit::BranchCircuit, 1)];
        assert_eq!(tally.by_limit(), expected);
        let mut told = Limit::TOLD_FIRST.to_vec();
        told.sort_unstable();
        assert_eq!(told, Limit::ALL);
    }
}
