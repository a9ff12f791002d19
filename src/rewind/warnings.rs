//! What a person must know of a design besides its numbers.

use super::goal::{Goal, User};
use super::limits;
use crate::magnetics::performance::{PerformanceEstimate, Rebuild};
use crate::magnetics::primary::{FluxVerdict, judge_flux};
use crate::magnetics::protection::Tripping;
use crate::wire::Metal;

/// A warning of a design.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Warning {
    /// The open-circuit voltage is beyond what may be touched when dry.
    BeyondTouch,
    /// Plasma: hundreds of volts; must be confirmed before the design is used.
    PlasmaVoltage,
    /// Plasma: not confirmed yet.
    PlasmaUnconfirmed,
    /// The limit for laymen was not found; a cautious one stands in.
    ArcLimitFromMemory,
    /// Hundreds of amperes: no rings or watch, leads jump, hot joints.
    HeavyCurrent,
    /// The arc blinds and burns; fumes.
    ArcLight,
    /// Charging makes explosive gas; never unattended or unregulated.
    BatteryGas,
    /// Aluminium primary: weak joints, less current.
    AluminiumPrimary,
    /// The flux is higher than the donor was made for.
    FluxHigh,
    /// The core saturates on these mains.
    FluxSaturates,
    /// Area or turns cannot be right.
    FluxImpossible,
    /// The fit is closer than its uncertainty.
    FitUncertain,
    /// The breaker may open: mains current within its uncertainty of the rating.
    BreakerClose,
    /// The arc needs a series reactance (choke) to hold its current.
    NeedsReactance,
    /// The limb or yoke was not measured.
    LimbAssumed,
    /// Primary wire was not measured.
    IdleAssumed,
}

impl Warning {
    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Warning::BeyondTouch => "beyond_touch",
            Warning::PlasmaVoltage => "plasma_voltage",
            Warning::PlasmaUnconfirmed => "plasma_unconfirmed",
            Warning::ArcLimitFromMemory => "arc_limit_from_memory",
            Warning::HeavyCurrent => "heavy_current",
            Warning::ArcLight => "arc_light",
            Warning::BatteryGas => "battery_gas",
            Warning::AluminiumPrimary => "aluminium_primary",
            Warning::FluxHigh => "flux_high",
            Warning::FluxSaturates => "flux_saturates",
            Warning::FluxImpossible => "flux_impossible",
            Warning::FitUncertain => "fit_uncertain",
            Warning::BreakerClose => "breaker_close",
            Warning::NeedsReactance => "needs_reactance",
            Warning::LimbAssumed => "limb_assumed",
            Warning::IdleAssumed => "idle_assumed",
        }
    }

    /// What a person reads.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Warning::BeyondTouch => {
                "The winding's open-circuit voltage is beyond what may be touched, even dry (30 V r.m.s.). Insulate every terminal and work on it only with the plug pulled."
            }
            Warning::PlasmaVoltage => {
                "Hundreds of volts, far beyond touch limits: one touch of torch and work can kill. Build it only under the eyes of someone licensed, with an interlocked torch and an earthed case."
            }
            Warning::PlasmaUnconfirmed => "Stop unless you have read the warning about its voltage and confirmed it.",
            Warning::ArcLimitFromMemory => {
                "The open-circuit limits are those of IEC 60974-1, from secondary sources. The one of IEC 60974-6 for laymen was not found: 48 V is the cautious choice. Your local code decides."
            }
            Warning::HeavyCurrent => {
                "Hundreds of amperes at a low voltage: no rings or watch, hold the leads down, keep joints bright and tight, nothing that burns near them."
            }
            Warning::ArcLight => {
                "The arc blinds and burns, and its fumes are poison: shade for the current, covered skin, moving air, nothing that burns within reach of sparks."
            }
            Warning::BatteryGas => {
                "A charging battery gives off explosive gas: moving air, no sparks, connect before switching on. Stop unless you stay with it and a meter or regulator ends the charge."
            }
            Warning::AluminiumPrimary => {
                "An aluminium primary (or one of unknown metal, taken as such) bears less current; its joints come loose and must be crimped, not soldered with plain solder."
            }
            Warning::FluxHigh => {
                "These mains drive the core harder than its own did: it will hum, run hot and draw more idle current."
            }
            Warning::FluxSaturates => {
                "Stop unless the mains suit: on these mains the core saturates, and the primary burns."
            }
            Warning::FluxImpossible => {
                "No steel carries this flux: measure the tongue and the stack again, and count the primary turns by a second way."
            }
            Warning::FitUncertain => {
                "It fits by less than the measurements are sure of: measure the window and the wire again before you cut any."
            }
            Warning::BreakerClose => {
                "This outlet's breaker or fuse may open when the load comes on: its standard does not promise that it holds so much for so long."
            }
            Warning::NeedsReactance => {
                "By itself this winding drives more current than you want: it needs the series reactance shown, or the shunts left in."
            }
            Warning::LimbAssumed => "Outer limb or yoke was not measured: half the tongue is assumed.",
            Warning::IdleAssumed => {
                "The idle current was not measured: it is worked out from the flux and typical steel."
            }
        }
    }

    /// True for a warning of danger to the person, not to the part.
    #[must_use]
    pub const fn is_danger(self) -> bool {
        matches!(
            self,
            Warning::BeyondTouch
                | Warning::PlasmaVoltage
                | Warning::PlasmaUnconfirmed
                | Warning::HeavyCurrent
                | Warning::ArcLight
                | Warning::BatteryGas
                | Warning::FluxSaturates
        )
    }
}

/// All warnings of a design, dangers first.
#[must_use]
pub fn warnings(rebuild: &Rebuild, goal: &Goal, p: &PerformanceEstimate) -> Vec<Warning> {
    use crate::quantity::Origin;
    let mut list = Vec::new();
    let mut add = |when: bool, warning: Warning| {
        if when {
            list.push(warning);
        }
    };
    if let Goal::PlasmaCutter { confirmed, .. } = goal {
        add(!confirmed, Warning::PlasmaUnconfirmed);
        add(true, Warning::PlasmaVoltage);
    } else {
        add(p.open_circuit.high() > limits::TOUCH_DRY.volts, Warning::BeyondTouch);
    }
    let arc = matches!(
        goal,
        Goal::StickWelder { .. } | Goal::ArcFurnace { .. } | Goal::PlasmaCutter { .. }
    );
    add(arc, Warning::ArcLight);
    add(p.short_circuit.high().si() > 100.0, Warning::HeavyCurrent);
    add(matches!(goal, Goal::BatteryCharger { .. }), Warning::BatteryGas);
    let mains = (rebuild.mains.voltage.value, rebuild.mains.frequency);
    match judge_flux(p.flux_density.value.si(), mains, rebuild.primary.rated) {
        FluxVerdict::Saturates => add(true, Warning::FluxSaturates),
        FluxVerdict::Impossible => add(true, Warning::FluxImpossible),
        FluxVerdict::High => add(true, Warning::FluxHigh),
        FluxVerdict::Fine => {}
    }
    let layman = matches!(
        goal,
        Goal::StickWelder {
            user: User::Layman | User::Trained,
            ..
        } | Goal::ArcFurnace { .. }
    );
    add(layman, Warning::ArcLimitFromMemory);
    add(p.series_reactance.value.si() > 0.0, Warning::NeedsReactance);
    add(
        p.spare.low().si() < 0.0 && p.spare.value.si() >= 0.0,
        Warning::FitUncertain,
    );
    add(rebuild.primary.metal == Metal::Aluminium, Warning::AluminiumPrimary);
    let required = goal.requirements();
    // What surely trips is refused; a warning says that it may.
    let high = required.draw(p.mains_current.high());
    add(
        rebuild.mains.protection.bears(&high) != Tripping::Holds,
        Warning::BreakerClose,
    );
    let assumed = |origin: Origin| matches!(origin, Origin::Computed | Origin::Typical);
    add(
        assumed(rebuild.core.outer_limb.origin) || assumed(rebuild.core.yoke.origin),
        Warning::LimbAssumed,
    );
    add(assumed(rebuild.idle_current.origin), Warning::IdleAssumed);
    list.sort_by_key(|warning| !warning.is_danger());
    list
}
