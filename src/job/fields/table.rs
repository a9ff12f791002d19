//! The rows. Ranges are wide enough for any donor of the kind and for any use offered here, and
//! narrow enough to catch a slipped decimal point or inches typed as millimetres. The usual ±
//! of each tool is common practice, no source; a person who knows better writes their own.

use super::{Field, Shape, Spread, UnitKind};
use crate::quantity::Origin;

use Spread::{Absolute, Percent, PercentOrAtLeast};
use UnitKind::{
    AmpereHours, Count, Current, Frequency, Inductance, Length, Mass, MicroFarads, Minutes, Money, MoneyPerMetre,
    PerMinute, Power, Ratio, Resistance, SmallResistance, Speed, Temperature, Time, Voltage, WireLength, Years,
};

const FIFTY_SIXTY: &[f64] = &[50.0, 60.0];
const BATTERIES: &[f64] = &[6.0, 12.0, 24.0, 36.0, 48.0];

/// A field that the person chooses: exact, required.
const fn number(path: &'static str, label: &'static str, kind: UnitKind, range: (f64, f64)) -> Field {
    Field {
        path,
        only_for: None,
        label,
        kind,
        shape: Shape::Number,
        min: range.0,
        max: range.1,
        spread: Absolute(0.0),
        origin: Origin::Chosen,
        required: true,
    }
}

impl Field {
    /// Read off a part: with a usual ± and origin.
    const fn reading(mut self, spread: Spread, origin: Origin) -> Self {
        self.shape = Shape::Reading;
        self.spread = spread;
        self.origin = origin;
        self
    }
    /// A length read with calipers.
    const fn calipers(self, half_width_mm: f64) -> Self {
        self.reading(Absolute(half_width_mm), Origin::Calipers)
    }
    const fn optional(mut self) -> Self {
        self.required = false;
        self
    }
    const fn whole(mut self) -> Self {
        self.shape = Shape::Whole;
        self
    }
    const fn one_of(mut self, accepted: &'static [f64]) -> Self {
        self.shape = Shape::OneOf(accepted);
        self
    }
    const fn used_by(mut self, goal_use: &'static str) -> Self {
        self.only_for = Some(goal_use);
        self
    }
}

/// A duty cycle of a use.
const fn duty(goal_use: &'static str) -> Field {
    number("goal.duty", "Duty cycle", Ratio, (0.01, 1.0)).used_by(goal_use)
}

/// Every numeric field of a job file, in the order of the file.
#[rustfmt::skip]
pub const ALL: &[Field] = &[
    number("donor.mains_volts", "Mains voltage on label", Voltage, (90.0, 480.0))
        .reading(Percent(5.0), Origin::Label).optional(),
    number("donor.hertz", "Mains frequency on label", Frequency, (50.0, 60.0))
        .one_of(FIFTY_SIXTY).optional(),
    number("donor.input_watts", "Input power, whole oven", Power, (100.0, 8000.0))
        .reading(Percent(10.0), Origin::Label).optional(),
    number("donor.microwave_watts", "Input power for microwaves", Power, (300.0, 4000.0))
        .reading(Percent(10.0), Origin::Label).optional(),
    number("donor.output_watts", "Cooking power on label", Power, (100.0, 3000.0))
        .reading(Percent(10.0), Origin::Label).optional(),
    number("donor.mass_kg", "Mass of the oven", Mass, (3.0, 100.0))
        .reading(Percent(5.0), Origin::Label).optional(),
    number("donor.look.age_years", "Age", Years, (0.0, 80.0)).whole().optional(),
    number("donor.look.price", "Price asked", Money, (0.0, 1e6)).optional(),
    number("core.tongue_mm", "Tongue width", Length, (5.0, 200.0))
        .calipers(0.1),
    number("core.stack_mm", "Stack", Length, (5.0, 300.0))
        .calipers(0.5),
    number("core.window_width_mm", "Window width", Length, (2.0, 150.0))
        .calipers(0.2),
    number("core.window_height_mm", "Window height", Length, (5.0, 300.0))
        .calipers(0.2),
    number("core.outer_limb_mm", "Outer limb width", Length, (2.0, 150.0))
        .calipers(0.1).optional(),
    number("core.yoke_mm", "Yoke width", Length, (2.0, 150.0))
        .calipers(0.1).optional(),
    number("core.stacking_factor", "Stacking factor", Ratio, (0.7, 1.0))
        .reading(Absolute(0.03), Origin::Typical).optional(),
    number("core.mass_kg", "Mass, bare core", Mass, (0.1, 60.0))
        .reading(PercentOrAtLeast(0.5, 0.01), Origin::Scale).optional(),
    number("core.shunt_thickness_mm", "Shunt thickness", Length, (0.5, 50.0))
        .calipers(0.1).optional(),
    number("core.shunt_width_mm", "Shunt length along stack", Length, (1.0, 300.0))
        .calipers(0.2).optional(),
    number("core.shunt_gap_mm", "Shunt gap", Length, (0.01, 10.0))
        .reading(PercentOrAtLeast(20.0, 0.05), Origin::Calipers).optional(),
    number("core.seam_gap_mm", "Seam gap", Length, (0.0, 3.0))
        .reading(PercentOrAtLeast(50.0, 0.05), Origin::Calipers).optional(),
    number("core.primary.wire_diameter_mm", "Primary wire diameter", Length, (0.1, 6.0))
        .calipers(0.03).optional(),
    number("core.primary.height_mm", "Primary height", Length, (1.0, 300.0))
        .calipers(0.5),
    number("core.primary.build_mm", "Primary build", Length, (0.5, 150.0))
        .calipers(0.5).optional(),
    number("core.primary.resistance_ohm", "Primary resistance", Resistance, (0.01, 200.0))
        .reading(PercentOrAtLeast(2.0, 0.1), Origin::Meter).optional(),
    number("core.primary.resistance_at_c", "Temperature at that reading", Temperature, (-20.0, 150.0))
        .reading(Absolute(5.0), Origin::Meter).optional(),
    number("core.primary.rated_volts", "Rated voltage, primary", Voltage, (90.0, 480.0)),
    number("core.primary.rated_hertz", "Rated frequency, primary", Frequency, (50.0, 60.0))
        .one_of(FIFTY_SIXTY),
    number("core.primary.idle_current_a", "No-load current", Current, (0.05, 30.0))
        .reading(Percent(3.0), Origin::Meter).optional(),
    number("core.primary.test_turn.turns", "Test turns", Count, (1.0, 100.0))
        .reading(Absolute(0.0), Origin::Counted),
    number("core.primary.test_turn.volts", "Test turns, voltage", Voltage, (0.05, 100.0))
        .reading(PercentOrAtLeast(1.0, 0.005), Origin::Meter),
    number("core.primary.test_turn.primary_volts", "Test turns, primary voltage", Voltage, (0.5, 30.0))
        .reading(Percent(1.0), Origin::Meter),
    number("core.primary.counted_turns", "Primary turns, counted", Count, (20.0, 1000.0))
        .reading(Percent(2.0), Origin::Counted).optional(),
    number("core.primary.old_secondary.turns", "Old winding, turns", Count, (1.0, 10_000.0))
        .reading(Percent(1.0), Origin::Counted),
    number("core.primary.old_secondary.volts", "Old winding, voltage", Voltage, (0.1, 3000.0))
        .reading(Percent(5.0), Origin::Label),
    number("core.primary.old_secondary.primary_volts", "Primary voltage on label", Voltage, (0.1, 480.0))
        .reading(Percent(1.0), Origin::Label),
    number("mains.volts", "Mains voltage", Voltage, (90.0, 264.0))
        .reading(Percent(5.0), Origin::Meter),
    number("mains.hertz", "Mains frequency", Frequency, (50.0, 60.0)).one_of(FIFTY_SIXTY),
    number("mains.circuit.breaker_a", "Breaker", Current, (1.0, 125.0)),
    number("goal.weld_current_a", "Weld current", Current, (50.0, 10_000.0))
        .used_by("spot_welder"),
    number("goal.load_milliohm", "Resistance of the work", SmallResistance, (0.05, 50.0))
        .used_by("spot_welder"),
    number("goal.pulse_s", "Pulse", Time, (0.005, 10.0))
        .used_by("spot_welder"),
    number("goal.pulses_per_minute", "Pulses per minute", PerMinute, (0.01, 120.0))
        .used_by("spot_welder"),
    number("goal.arc_current_a", "Arc current", Current, (15.0, 300.0))
        .used_by("stick_welder"),
    duty("stick_welder"),
    number("goal.current_a", "Arc current", Current, (10.0, 400.0))
        .used_by("arc_furnace"),
    number("goal.arc_volts", "Arc voltage", Voltage, (10.0, 80.0))
        .used_by("arc_furnace"),
    number("goal.minutes_on", "Longest melt", Minutes, (0.1, 240.0))
        .used_by("arc_furnace"),
    duty("arc_furnace"),
    number("goal.cut_current_a", "Cutting current", Current, (10.0, 100.0))
        .used_by("plasma_cutter"),
    number("goal.arc_volts", "Arc voltage", Voltage, (60.0, 200.0))
        .used_by("plasma_cutter"),
    number("goal.open_circuit_volts", "Open-circuit voltage", Voltage, (80.0, 400.0))
        .used_by("plasma_cutter"),
    duty("plasma_cutter"),
    number("goal.battery_volts", "Battery", Voltage, (6.0, 48.0))
        .one_of(BATTERIES).used_by("battery_charger"),
    number("goal.charge_current_a", "Charging current", Current, (0.5, 200.0))
        .used_by("battery_charger"),
    number("goal.volts", "Voltage", Voltage, (1.0, 480.0)).used_by("plain_supply"),
    number("goal.amps", "Current", Current, (0.1, 2000.0)).used_by("plain_supply"),
    duty("plain_supply"),
    number("goal.inductance_mh", "Inductance", Inductance, (0.001, 10_000.0))
        .used_by("choke"),
    number("goal.dc_current_a", "Direct current", Current, (0.0, 1000.0))
        .used_by("choke"),
    number("goal.ripple_a", "Ripple", Current, (0.0, 1000.0)).used_by("choke"),
    number("goal.frequency_hz", "Ripple frequency", Frequency, (10.0, 20_000.0))
        .used_by("choke"),
    number("goal.arc_volts", "Voltage of the lamp", Voltage, (5.0, 400.0))
        .used_by("ballast"),
    number("goal.current_a", "Current", Current, (0.1, 200.0)).used_by("ballast"),
    number("conditions.mains_loop_ohm", "Mains loop resistance", Resistance, (0.01, 5.0))
        .reading(Percent(20.0), Origin::Meter).optional(),
    number("conditions.idle_low.volts", "No-load test, low voltage", Voltage, (5.0, 480.0))
        .reading(Percent(1.5), Origin::Meter).optional(),
    number("conditions.idle_low.amps", "No-load current, low voltage", Current, (0.005, 60.0))
        .reading(PercentOrAtLeast(3.0, 0.005), Origin::Meter).optional(),
    number("conditions.idle_low.watts", "No-load power, low voltage", Power, (0.1, 3000.0))
        .reading(PercentOrAtLeast(5.0, 0.5), Origin::Meter).optional(),
    number("conditions.idle_middle.volts", "No-load test, middle voltage", Voltage, (5.0, 480.0))
        .reading(Percent(1.5), Origin::Meter).optional(),
    number("conditions.idle_middle.amps", "No-load current, middle voltage", Current, (0.005, 60.0))
        .reading(PercentOrAtLeast(3.0, 0.005), Origin::Meter).optional(),
    number("conditions.idle_middle.watts", "No-load power, middle voltage", Power, (0.1, 3000.0))
        .reading(PercentOrAtLeast(5.0, 0.5), Origin::Meter).optional(),
    number("conditions.idle_full.volts", "No-load test, full voltage", Voltage, (5.0, 480.0))
        .reading(Percent(1.5), Origin::Meter).optional(),
    number("conditions.idle_full.amps", "No-load current, full voltage", Current, (0.005, 60.0))
        .reading(PercentOrAtLeast(3.0, 0.005), Origin::Meter).optional(),
    number("conditions.idle_full.watts", "No-load power, full voltage", Power, (0.1, 3000.0))
        .reading(PercentOrAtLeast(5.0, 0.5), Origin::Meter).optional(),
    number("conditions.ambient_c", "Room temperature", Temperature, (-20.0, 60.0))
        .reading(Absolute(3.0), Origin::Meter).optional(),
    number("conditions.fan_m_per_s", "Speed of fan air", Speed, (0.1, 20.0))
        .reading(Percent(30.0), Origin::Typical).optional(),
    number("conditions.battery_ah", "Battery capacity", AmpereHours, (1.0, 1000.0))
        .reading(Percent(10.0), Origin::Label).optional(),
    number("conditions.battery_milliohm", "Battery and leads", SmallResistance, (0.5, 500.0))
        .reading(Percent(30.0), Origin::Meter).optional(),
    number("conditions.lead_mm", "Length of each lead", Length, (50.0, 5000.0))
        .reading(PercentOrAtLeast(3.0, 10.0), Origin::Tape).optional(),
    number("conditions.capacitor_uf", "Reservoir capacitor", MicroFarads, (10.0, 1e6))
        .reading(Percent(20.0), Origin::Label).optional(),
    number("conditions.choke_mh", "Choke behind the diodes", Inductance, (0.01, 1000.0))
        .reading(Percent(20.0), Origin::Computed).optional(),
    number("conditions.lamp_watts", "Series lamp", Power, (15.0, 1000.0))
        .reading(Percent(5.0), Origin::Label).optional(),
    number("conditions.sheet_mm", "Paper for the spacer", Length, (0.02, 2.0))
        .reading(PercentOrAtLeast(5.0, 0.005), Origin::Calipers).optional(),
    number("conditions.second_sheet_mm", "Second paper", Length, (0.02, 2.0))
        .reading(PercentOrAtLeast(5.0, 0.005), Origin::Calipers).optional(),
    number("choice.turns", "Turns", Count, (1.0, 5000.0)).whole(),
    number("choice.parallel", "Conductors in parallel", Count, (1.0, 50.0))
        .whole(),
    number("choice.ground_mm", "Insulation to the core", Length, (0.0, 10.0)),
    number("choice.interlayer_mm", "Insulation between layers", Length, (0.0, 5.0)),
    number("stock[].length_m", "Length on the shelf", WireLength, (0.0, 10_000.0)),
    number("stock[].price_per_m", "Price per metre", MoneyPerMetre, (0.0, 100_000.0))
        .optional(),
];
