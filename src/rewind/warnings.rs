//! What a person must know of a design besides its numbers.

use super::goal::{Goal, User};
use super::limits;
use crate::magnetics::circuit::performance::{PerformanceEstimate, Rebuild};
use crate::magnetics::circuit::protection::Tripping;
use crate::magnetics::winding::primary::{FluxVerdict, judge_flux};
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
    /// The flux is deep in saturation on the donor's own mains.
    FluxDoubtful,
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
    /// What a person reads.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Warning::BeyondTouch => {
                "The open-circuit voltage is above 30 V r.m.s., the limit for dry skin. Cover every terminal. Pull the plug before you work on it."
            }
            Warning::PlasmaVoltage => {
                "Hundreds of volts: touching torch and work at once can kill. A licensed person must oversee the build. Interlock the torch and ground (earth) the enclosure."
            }
            Warning::PlasmaUnconfirmed => {
                "Do not go on until you have read the warning about its voltage and confirmed it."
            }
            Warning::ArcLimitFromMemory => {
                "Your local code decides the open-circuit voltage. Source: IEC 60974-1, from secondary sources. The limit of IEC 60974-6 for laymen was not found: 48 V is the cautious choice."
            }
            Warning::HeavyCurrent => {
                "Hundreds of amperes. Take off rings and watch. Clamp the leads down. Keep joints bright and tight. Keep anything that burns away. Keep people with a pacemaker or another implant away."
            }
            Warning::ArcLight => {
                "The arc burns eyes and skin, and its fumes are toxic. Wear a welding helmet with the shade for the current. Cover your skin. Shield bystanders. Vent outdoors. Clear away everything a spark can light. Never weld on zinc or cadmium plating, paint, or metal cleaned with a chlorinated solvent."
            }
            Warning::BatteryGas => {
                "Lead-acid only, never lithium. A charging battery gives off hydrogen, which explodes. Wear eye protection. Ventilate. Keep sparks away. Switch off before you clip on or unclip. Stay with it, and end the charge by a meter or a regulator."
            }
            Warning::AluminiumPrimary => {
                "An aluminium primary, or one of unknown metal, carries less current. Crimp or bolt its joints with joint compound. Plain solder does not hold."
            }
            Warning::FluxHigh => {
                "These mains drive the core harder than its own did: expect hum, heat and more no-load current."
            }
            Warning::FluxDoubtful => {
                "Such steel carries this flux density only with a heavy no-load current. Measure tongue and stack again. Count the primary's turns in a second way. Test behind a lamp before mains."
            }
            Warning::FluxSaturates => "Do not connect: this supply saturates the core and burns out the primary.",
            Warning::FluxImpossible => {
                "No steel carries this flux density. Measure tongue and stack again. Count the primary's turns in a second way."
            }
            Warning::FitUncertain => {
                "The room left is smaller than its ±. Measure the window and the wire again before you cut any."
            }
            Warning::BreakerClose => {
                "This outlet's breaker or fuse may open when the load comes on: its standard does not promise that it holds so much for so long."
            }
            Warning::NeedsReactance => {
                "Alone, this winding delivers more current than you want. Add the series reactor shown, or leave the shunts in."
            }
            Warning::LimbAssumed => "Outer limb or yoke was not measured. Half the tongue is assumed.",
            Warning::IdleAssumed => {
                "The no-load current was not measured. It is calculated from the flux density and typical steel."
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
        FluxVerdict::Doubtful => add(true, Warning::FluxDoubtful),
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
