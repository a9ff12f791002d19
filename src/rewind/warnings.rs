//! What a person must know of a design besides its numbers.

use super::goal::{Goal, User};
use super::limits;
use crate::magnetics::circuit::performance::{PerformanceEstimate, Rebuild};
use crate::magnetics::circuit::protection::Tripping;
use crate::magnetics::winding::primary::{FluxVerdict, judge_flux};
use crate::quantity::Current;
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
    /// The arc's current is below what the thinnest electrode burns at.
    NoElectrode,
    /// The limb or yoke was not measured.
    LimbAssumed,
    /// Primary wire was not measured.
    IdleAssumed,
}

impl Warning {
    /// Every one.
    pub const ALL: &'static [Warning] = &[
        Warning::BeyondTouch,
        Warning::PlasmaVoltage,
        Warning::PlasmaUnconfirmed,
        Warning::ArcLimitFromMemory,
        Warning::HeavyCurrent,
        Warning::ArcLight,
        Warning::BatteryGas,
        Warning::AluminiumPrimary,
        Warning::FluxHigh,
        Warning::FluxDoubtful,
        Warning::FluxSaturates,
        Warning::FluxImpossible,
        Warning::FitUncertain,
        Warning::BreakerClose,
        Warning::NeedsReactance,
        Warning::NoElectrode,
        Warning::LimbAssumed,
        Warning::IdleAssumed,
    ];

    /// The id of its text.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Warning::BeyondTouch => "warning-beyond-touch",
            Warning::PlasmaVoltage => "warning-plasma-voltage",
            Warning::PlasmaUnconfirmed => "warning-plasma-unconfirmed",
            Warning::ArcLimitFromMemory => "warning-arc-limit-from-memory",
            Warning::HeavyCurrent => "warning-heavy-current",
            Warning::ArcLight => "warning-arc-light",
            Warning::BatteryGas => "warning-battery-gas",
            Warning::AluminiumPrimary => "warning-aluminium-primary",
            Warning::FluxHigh => "warning-flux-high",
            Warning::FluxDoubtful => "warning-flux-doubtful",
            Warning::FluxSaturates => "warning-flux-saturates",
            Warning::FluxImpossible => "warning-flux-impossible",
            Warning::FitUncertain => "warning-fit-uncertain",
            Warning::BreakerClose => "warning-breaker-close",
            Warning::NeedsReactance => "warning-needs-reactance",
            Warning::NoElectrode => "warning-no-electrode",
            Warning::LimbAssumed => "warning-limb-assumed",
            Warning::IdleAssumed => "warning-idle-assumed",
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

/// The least current of a covered electrode: 25 A, for one of 1.6 mm, the thinnest that is commonly sold.
/// Common practice, no source.
pub const LEAST_ELECTRODE: Current = Current::from_si(25.0);

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
    let stick = matches!(goal, Goal::StickWelder { .. });
    add(stick && p.working_current.value < LEAST_ELECTRODE, Warning::NoElectrode);
    add(
        p.spare.low().si() < 0.0 && p.spare.value.si() >= 0.0,
        Warning::FitUncertain,
    );
    add(rebuild.primary.metal == Metal::Aluminium, Warning::AluminiumPrimary);
    let required = goal.requirements();
    // What surely trips is refused; a warning says that it may.
    let high = required.draw(p.mains_current.high());
    add(
        rebuild.mains.protection.verdict_on(&high) != Tripping::Holds,
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
