//! What the core is to become, and what that asks of the winding.

use super::limits::{self, Provenance, VoltageLimit};
use crate::magnetics::circuit::mains::Draw;
use crate::magnetics::circuit::performance::{Demand, DirectSide, LoadLine};
use crate::magnetics::circuit::protection::LoadKind;
use crate::magnetics::rectifier::DirectLoad;
use crate::quantity::{Capacitance, Current, Measured, Origin, Ratio, Resistance, Time, Voltage};

/// Who uses an arc power source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum User {
    /// Not trained: the stricter limits hold.
    Layman,
    /// Trained in arc welding.
    Trained,
}

/// How much current a search is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Target {
    /// The current that the goal names, or more where more is no fault.
    #[default]
    Number,
    /// As much as the core gives, whatever current the goal names.
    AsMuch,
}

/// A use and its targets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Goal {
    /// Short pulses of high current through two sheets.
    SpotWelder {
        /// Current through the weld.
        current: Current,
        /// Resistance of electrodes, contacts and sheets together; the leads are the winding's.
        load: Resistance,
        /// Length of one pulse.
        pulse: Time,
        /// Pulses in a minute.
        per_minute: f64,
    },
    /// Manual arc welding with covered electrodes.
    StickWelder {
        /// Arc current.
        current: Current,
        /// Duty cycle over 10 minutes.
        duty: Ratio,
        /// Who welds.
        user: User,
        /// Wet, cramped or hot surroundings.
        hazard: bool,
        /// Diodes, and the arc behind them, where it burns on direct current.
        side: Option<DirectSide>,
    },
    /// A small arc between carbon electrodes that melts metal.
    ArcFurnace {
        /// Arc current.
        current: Current,
        /// Voltage of the arc.
        arc_volts: Voltage,
        /// Part of the time that the arc burns.
        duty: Ratio,
        /// How long it burns at a stretch.
        stretch: Time,
        /// Diodes, and the arc behind them, where it burns on direct current.
        side: Option<DirectSide>,
    },
    /// Plasma cutting: rectified, and beyond touch limits.
    PlasmaCutter {
        /// Current of the cutting arc, direct.
        current: Current,
        /// Voltage of the cutting arc, direct.
        arc_volts: Voltage,
        /// Open-circuit voltage wanted of the winding, r.m.s.
        open_circuit: Voltage,
        /// Duty cycle over 10 minutes.
        duty: Ratio,
        /// The person has confirmed the warning about its voltage.
        confirmed: bool,
        /// The diodes, and the arc behind them.
        side: DirectSide,
    },
    /// Lead-acid battery charger.
    BatteryCharger {
        /// Nominal battery voltage.
        battery_volts: Voltage,
        /// Mean charging current into a battery half full.
        current: Current,
        /// The diodes, and the battery half full behind them.
        side: DirectSide,
    },
    /// So many volts at so many amperes.
    PlainSupply {
        /// Volts under load: r.m.s., or the mean behind diodes.
        volts: Voltage,
        /// Load current, likewise.
        current: Current,
        /// Part of the time under load.
        duty: Ratio,
        /// Diodes, and the reservoir or the choke with the load behind them, where it is on direct current.
        side: Option<DirectSide>,
    },
}

/// What a [`Goal`] asks of the winding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Requirements {
    /// Load and current.
    pub demand: Demand,
    /// Open-circuit voltage must be at least this.
    pub open_circuit_least: Option<Voltage>,
    /// Open-circuit voltage must not be above this.
    pub open_circuit_most: Option<VoltageLimit>,
    /// Open-circuit voltage that would be best.
    pub open_circuit_best: Option<Voltage>,
    /// How long one pull of current lasts.
    pub on_time: Time,
    /// What it is to the rules for branch circuits.
    pub load_kind: LoadKind,
}

impl Requirements {
    /// What the finished machine draws at a mains current.
    #[must_use]
    pub fn draw(&self, current: Current) -> Draw {
        Draw {
            current,
            on_time: self.on_time,
            duty: self.demand.duty,
            load: self.load_kind,
        }
    }
}

/// Form factor of a full-wave rectified sine, π/(2√2): r.m.s. over mean.
/// (Any power electronics textbook.)
pub const FORM_FACTOR: f64 = std::f64::consts::PI / (2.0 * std::f64::consts::SQRT_2);

/// Drop of a silicon bridge, two diodes in series: 2 V at working current.
/// Common practice, no source.
pub const BRIDGE_DROP: Voltage = Voltage::from_si(2.0);

/// Highest charging voltage of a lead-acid battery for each volt of nominal voltage: 2.40 V a
/// cell over 2 V. From memory; the battery's own sheet decides.
pub const FULL_OVER_NOMINAL: f64 = 1.2;

/// How far the resistance of weld, electrodes and clamped sheets may be off: a fifth, as force, coating and
/// wear change it. Common practice, no source.
pub const WORK_WITHIN: Ratio = Ratio::from_si(0.2);

/// Ten minutes: the cycle of IEC 60974-1.
pub const DUTY_CYCLE: Time = Time::from_minutes(10.0);

impl Goal {
    /// The word that files use.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Goal::SpotWelder { .. } => "spot_welder",
            Goal::StickWelder { .. } => "stick_welder",
            Goal::ArcFurnace { .. } => "arc_furnace",
            Goal::PlasmaCutter { .. } => "plasma_cutter",
            Goal::BatteryCharger { .. } => "battery_charger",
            Goal::PlainSupply { .. } => "plain_supply",
        }
    }

    /// The current aimed at.
    #[must_use]
    pub fn current(&self) -> Current {
        match *self {
            Goal::SpotWelder { current, .. }
            | Goal::StickWelder { current, .. }
            | Goal::ArcFurnace { current, .. }
            | Goal::PlainSupply { current, .. }
            | Goal::BatteryCharger { current, .. }
            | Goal::PlasmaCutter { current, .. } => current,
        }
    }

    /// The same goal with its current times `factor`: the nearest that can be had is searched so.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        let mut goal = self;
        match &mut goal {
            Goal::SpotWelder { current, .. }
            | Goal::StickWelder { current, .. }
            | Goal::ArcFurnace { current, .. }
            | Goal::PlasmaCutter { current, .. }
            | Goal::BatteryCharger { current, .. }
            | Goal::PlainSupply { current, .. } => *current = *current * factor,
        }
        goal
    }

    /// What the goal asks of the winding.
    #[must_use]
    pub fn requirements(&self) -> Requirements {
        let current = self.current();
        let line = |fixed: f64, slope: f64| LoadLine {
            fixed: Voltage::from_si(fixed),
            slope: Resistance::from_si(slope),
        };
        let demand = |load, duty, ballasted| Demand {
            load,
            slope_within: Ratio::ZERO,
            direct: None,
            current,
            duty,
            ballasted,
            excess: Ratio::ZERO,
            reactor: None,
        };
        let load_kind = match self {
            Goal::SpotWelder { .. } | Goal::StickWelder { .. } | Goal::PlasmaCutter { .. } => LoadKind::Welder,
            Goal::ArcFurnace { .. } | Goal::BatteryCharger { .. } | Goal::PlainSupply { .. } => LoadKind::CordAndPlug,
        };
        match *self {
            Goal::SpotWelder {
                load,
                pulse,
                per_minute,
                ..
            } => Requirements {
                demand: Demand {
                    slope_within: WORK_WITHIN,
                    ..demand(
                        LoadLine {
                            fixed: Voltage::ZERO,
                            slope: load,
                        },
                        Ratio::from_si((pulse.si() * per_minute / 60.0).min(1.0)),
                        false,
                    )
                },
                open_circuit_least: None,
                open_circuit_most: Some(limits::TOUCH_DRY),
                open_circuit_best: None,
                on_time: pulse,
                load_kind,
            },
            // The conventional load of manual arc welding, IEC 60974-1 (R2: welding makers' manuals).
            Goal::StickWelder {
                duty,
                user,
                hazard,
                side,
                ..
            } => Requirements {
                demand: Demand {
                    direct: side,
                    ..demand(line(STICK_FIXED, STICK_SLOPE), duty, true)
                },
                open_circuit_least: Some(Voltage::from_si(STRIKE_STICK)),
                open_circuit_most: Some(match (user, hazard) {
                    (User::Layman, _) => limits::ARC_LAYMAN,
                    (User::Trained, true) => limits::ARC_HAZARD,
                    (User::Trained, false) => limits::ARC_TRAINED,
                }),
                open_circuit_best: Some(Voltage::from_si(match (user, hazard) {
                    (User::Trained, false) => 60.0,
                    _ => 47.0,
                })),
                on_time: DUTY_CYCLE * duty.si(),
                load_kind,
            },
            Goal::ArcFurnace {
                arc_volts,
                duty,
                stretch,
                side,
                ..
            } => Requirements {
                demand: Demand {
                    direct: side,
                    ..demand(
                        LoadLine {
                            fixed: arc_volts,
                            slope: Resistance::ZERO,
                        },
                        duty,
                        true,
                    )
                },
                open_circuit_least: Some(arc_volts * STRIKE_OVER_ARC),
                open_circuit_most: Some(limits::ARC_LAYMAN),
                open_circuit_best: Some(arc_volts * 1.7),
                on_time: stretch,
                load_kind,
            },
            // About where the winding's volts lie: the mean of the rectified sine is 0.9 of its r.m.s. value.
            Goal::PlasmaCutter {
                arc_volts,
                open_circuit,
                duty,
                side,
                ..
            } => Requirements {
                demand: Demand {
                    direct: Some(side),
                    ..demand(
                        LoadLine {
                            fixed: (arc_volts + BRIDGE_DROP) * FORM_FACTOR,
                            slope: Resistance::ZERO,
                        },
                        duty,
                        true,
                    )
                },
                open_circuit_least: Some(open_circuit * 0.95),
                open_circuit_most: Some(VoltageLimit {
                    volts: open_circuit * 1.1,
                    provenance: Provenance::Chosen,
                }),
                open_circuit_best: Some(open_circuit),
                on_time: DUTY_CYCLE * duty.si(),
                load_kind,
            },
            // Crest charging of a battery takes about its highest voltage, r.m.s.; with a centre tap, twice.
            Goal::BatteryCharger {
                battery_volts, side, ..
            } => Requirements {
                demand: Demand {
                    direct: Some(side),
                    excess: MUCH_MORE,
                    ..demand(
                        LoadLine {
                            fixed: battery_volts * FULL_OVER_NOMINAL / side.connection.share_of_turns(),
                            slope: Resistance::ZERO,
                        },
                        Ratio::from_si(1.0),
                        true,
                    )
                },
                open_circuit_least: None,
                open_circuit_most: None,
                open_circuit_best: None,
                on_time: Time::from_minutes(600.0),
                load_kind,
            },
            Goal::PlainSupply { volts, duty, side, .. } => Requirements {
                demand: Demand {
                    direct: side.map(|side| fed(side, volts, current)),
                    ..demand(
                        LoadLine {
                            fixed: Voltage::ZERO,
                            slope: volts / current / side.map_or(1.0, |side| side.connection.share_of_turns()),
                        },
                        duty,
                        false,
                    )
                },
                open_circuit_least: None,
                open_circuit_most: None,
                open_circuit_best: None,
                on_time: DUTY_CYCLE * duty.si(),
                load_kind,
            },
        }
    }
}

/// A supply's direct side with the load that takes `current` at `volts`; a reservoir that nobody chose is
/// [`typical_reservoir`] of that current.
fn fed(side: DirectSide, volts: Voltage, current: Current) -> DirectSide {
    let taken = Measured::exact(volts / current, Origin::Chosen);
    let load = match side.load {
        DirectLoad::Reservoir { capacitance, .. } => DirectLoad::Reservoir {
            capacitance: match capacitance.origin {
                Origin::Typical => typical_reservoir(current),
                _ => capacitance,
            },
            resistance: taken,
        },
        DirectLoad::BackVoltage { emf, choke, .. } => DirectLoad::BackVoltage {
            emf,
            resistance: taken,
            choke,
        },
    };
    DirectSide { load, ..side }
}

/// A reservoir that nobody chose: 2000 ± 400 µF for each ampere. Common practice, no source.
#[must_use]
pub fn typical_reservoir(current: Current) -> Measured<Capacitance> {
    let farads = |per_ampere: f64| Capacitance::from_microfarads(per_ampere * current.si());
    Measured::new(farads(2000.0), farads(400.0), Origin::Typical)
}

/// How much more than is wanted may flow into a battery before a reactor is asked for: 15 %. The rates that
/// batteries take lie much further apart. Common practice, no source.
pub const MUCH_MORE: Ratio = Ratio::from_si(0.15);

/// Volts of the conventional load of manual arc welding at no current (IEC 60974-1, R2: welding makers'
/// manuals).
pub const STICK_FIXED: f64 = 20.0;

/// Ohms by which they rise with the current (IEC 60974-1, R2: welding makers' manuals).
pub const STICK_SLOPE: f64 = 0.04;

/// Open-circuit voltage that strikes a covered electrode on a.c.: 45 V r.m.s. at the least.
/// Common practice, no source.
pub const STRIKE_STICK: f64 = 45.0;

/// Open-circuit over arc voltage that keeps a carbon arc burning: 1.3 at the least.
/// Common practice, no source.
pub const STRIKE_OVER_ARC: f64 = 1.3;
