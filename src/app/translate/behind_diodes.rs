//! What lies behind a winding's diodes: the diodes, the choke, the battery.

use crate::job::{Conditions, Goal, JobFile, RectifierKind};
use crate::magnetics::circuit::performance::DirectSide;
use crate::magnetics::rectifier::charger::{LeadAcid, typical_efficiency, typical_polarisation, typical_rest};
use crate::magnetics::rectifier::{Connection, DiodeLine, DirectLoad};
use crate::quantity::{Capacitance, Charge, Current, Inductance, Measured, Origin, Ratio, Resistance, Voltage};
use crate::rewind::goal::typical_reservoir;

/// A silicon diode on a heat sink: 0.8 ± 0.1 V and 5 ± 3 mΩ for 10 A, the slope falling with the
/// current. Common practice, no source; the diode's own sheet has better.
#[must_use]
pub fn diode(current: Current) -> DiodeLine {
    let slope = 0.05 / current.si().max(1.0);
    DiodeLine {
        threshold: Measured::new(Voltage::from_si(0.8), Voltage::from_si(0.1), Origin::Typical),
        slope: Measured::new(
            Resistance::from_si(slope),
            Resistance::from_si(slope * 0.6),
            Origin::Typical,
        ),
    }
}

/// How the diodes of a job are joined: a bridge where nothing was said.
#[must_use]
pub const fn connection(conditions: &Conditions) -> Connection {
    match conditions.rectifier {
        Some(RectifierKind::CentreTap) => Connection::CentreTap,
        Some(RectifierKind::Bridge) | None => Connection::Bridge,
    }
}

/// Whether the winding is two equal halves with a tap between them.
#[must_use]
pub const fn has_centre_tap(file: &JobFile) -> bool {
    let feeds_diodes = matches!(
        file.goal,
        Goal::BatteryCharger { .. }
            | Goal::PlainSupply { .. }
            | Goal::PlasmaCutter { .. }
            | Goal::StickWelder { .. }
            | Goal::ArcFurnace { .. }
    );
    feeds_diodes && matches!(connection(&file.conditions), Connection::CentreTap)
}

/// The choke behind the diodes; zero for none.
#[must_use]
pub fn choke(conditions: &Conditions) -> Measured<Inductance> {
    let none = Measured::exact(Inductance::ZERO, Origin::Chosen);
    conditions
        .choke_mh
        .map_or(none, |mh| mh.measured(Inductance::from_millihenries))
}

/// The battery: as the person gave it, else ten times the charging current in ampere-hours ± 20 %
/// and 0.05 Ω for each 12 V over its capacity in units of 10 Ah, ± 50 %. Common practice, no source.
#[must_use]
pub fn battery(conditions: &Conditions, volts: Voltage, current: Current) -> LeadAcid {
    let amp_hours = (current.si() * 10.0).max(1.0);
    let capacity = conditions.battery_ah.map_or(
        Measured::new(
            Charge::from_amp_hours(amp_hours),
            Charge::from_amp_hours(amp_hours * 0.2),
            Origin::Typical,
        ),
        |ah| ah.measured(Charge::from_amp_hours),
    );
    let usual = 0.05 * volts.si() / 12.0 * 10.0 / capacity.value.amp_hours().max(1.0) + 0.005;
    LeadAcid {
        cells: (volts.si() / 2.0).round().max(1.0) as u32,
        capacity,
        resistance: conditions.battery_milliohm.map_or(
            Measured::new(
                Resistance::from_si(usual),
                Resistance::from_si(usual * 0.5),
                Origin::Typical,
            ),
            |milliohm| milliohm.measured(Resistance::from_milliohms),
        ),
        polarisation: typical_polarisation(),
        rest: typical_rest(),
        efficiency: typical_efficiency(),
    }
}

/// A battery half full as a load behind the diodes.
fn half_full(battery: &LeadAcid, choke: Measured<Inductance>) -> DirectLoad {
    let half = Ratio::from_si(0.5);
    DirectLoad::BackVoltage {
        emf: Measured::new(
            battery.charging_emf(half),
            battery.charging_emf_spread(half),
            Origin::Computed,
        ),
        resistance: battery.resistance,
        choke,
    }
}

/// A charger's diodes, and its battery half full.
#[must_use]
pub fn charging_side(conditions: &Conditions, volts: Voltage, current: Current) -> DirectSide {
    DirectSide {
        connection: connection(conditions),
        diode: diode(current),
        load: half_full(&battery(conditions, volts, current), choke(conditions)),
    }
}

/// An arc behind a job's diodes: a back voltage with a slope, through the choke.
#[must_use]
pub fn arc_side(
    conditions: &Conditions,
    (volts, plus_minus, slope): (Voltage, Voltage, Resistance),
    current: Current,
) -> DirectSide {
    DirectSide {
        connection: connection(conditions),
        diode: diode(current),
        load: DirectLoad::BackVoltage {
            emf: Measured::new(volts, plus_minus, Origin::Typical),
            resistance: Measured::exact(slope, Origin::Computed),
            choke: choke(conditions),
        },
    }
}

/// A supply's load behind a job's diodes: beside a reservoir, or behind a choke where only that was given.
#[must_use]
pub fn supply_side(conditions: &Conditions, volts: Voltage, current: Current) -> DirectSide {
    let resistance = Measured::exact(volts / current, Origin::Chosen);
    let choke = choke(conditions);
    let load = match conditions.capacitor_uf {
        None if choke.value > Inductance::ZERO => DirectLoad::BackVoltage {
            emf: Measured::exact(Voltage::ZERO, Origin::Chosen),
            resistance,
            choke,
        },
        given => DirectLoad::Reservoir {
            capacitance: given.map_or_else(
                || typical_reservoir(current),
                |uf| uf.measured(Capacitance::from_microfarads),
            ),
            resistance,
        },
    };
    DirectSide {
        connection: connection(conditions),
        diode: diode(current),
        load,
    }
}
