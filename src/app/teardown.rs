//! The teardown's calculators: from what was typed to rows that are shown.

use crate::quantity::{Capacitance, Mass, Resistance, Temperature, Time, Voltage, parse_number};
use crate::safety::TouchLimit;
use crate::teardown::{Air, Bleeder, Findings, HvCapacitor, ResistorTool, Warming};
use crate::wire::Metal;
use crate::words::{Explain, Message};

/// What was typed about the capacitor and the resistor tool.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CapacitorSheet {
    /// Capacitance in microfarads, as printed.
    pub microfarads: String,
    /// Voltage it may start from.
    pub volts: String,
    /// Bleeder in megohms.
    pub bleeder_megohms: String,
    /// True where the bleeder is broken, missing or unknown.
    pub bleeder_failed: bool,
    /// The tool's resistance in kiloohms.
    pub tool_kilohms: String,
    /// The tool's rated voltage.
    pub tool_rated_volts: String,
}

impl Default for CapacitorSheet {
    /// 1 µF from 2970 V (a 2.1 kV winding's peak) with an unknown bleeder, a 20 kΩ tool for 5 kV
    /// (common practice, no source).
    fn default() -> Self {
        Self {
            microfarads: "1".to_owned(),
            volts: "2970".to_owned(),
            bleeder_megohms: "10".to_owned(),
            bleeder_failed: true,
            tool_kilohms: "20".to_owned(),
            tool_rated_volts: "5000".to_owned(),
        }
    }
}

/// A row of an answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetRow {
    /// The id of its text.
    pub key: &'static str,
    /// The value with its unit.
    pub value: String,
    /// True where it warns.
    pub danger: bool,
}

/// What the capacitor holds and what discharging asks of the tool.
///
/// # Errors
/// A sentence that names what was typed wrong and its range.
pub fn capacitor_sheet(sheet: &CapacitorSheet) -> Result<Vec<SheetRow>, Message> {
    let number = |field: &'static str, text: &str| {
        parse_number(text).map_err(|reason| {
            Message::new("refused-entry")
                .within("field", Message::new(field))
                .within("reason", reason.message())
        })
    };
    let capacitor = HvCapacitor {
        capacitance: Capacitance::from_microfarads(number("ui-cap-value", &sheet.microfarads)?),
        bleeder: if sheet.bleeder_failed {
            Bleeder::Failed
        } else {
            Bleeder::Present(Resistance::from_megohms(number(
                "ui-cap-bleeder",
                &sheet.bleeder_megohms,
            )?))
        },
        start: Voltage::from_si(number("ui-cap-volts", &sheet.volts)?),
    };
    let tool = ResistorTool {
        resistance: Resistance::from_si(1e3 * number("ui-cap-tool", &sheet.tool_kilohms)?),
        rated: Voltage::from_si(number("ui-cap-rated", &sheet.tool_rated_volts)?),
    };
    let limit = TouchLimit::default();
    let held = capacitor.discharge(limit).map_err(|error| error.message())?;
    let duty = capacitor.through(tool, limit).map_err(|error| error.message())?;
    let row = |key, value: String, danger| SheetRow { key, value, danger };
    Ok(vec![
        row("ui-cap-energy", format!("{:.1} J", held.energy.si()), true),
        row(
            "ui-cap-times",
            format!("{:.0} ×", held.times_charge_limit),
            held.times_charge_limit > 1.0,
        ),
        match held.by_bleeder {
            Some(time) => row("ui-cap-by-bleeder", shown_time(time), false),
            None => row("ui-cap-by-bleeder", "—".to_owned(), true),
        },
        row("ui-cap-tool-time", shown_time(duty.time), false),
        row(
            "ui-cap-tool-current",
            format!("{:.0} mA", duty.peak_current.ma()),
            false,
        ),
        row("ui-cap-tool-power", format!("{:.0} W", duty.peak_power.si()), false),
        row(
            "ui-cap-tool-rated",
            if duty.rated_enough { "✓" } else { "✕" }.to_owned(),
            !duty.rated_enough,
        ),
    ])
}

fn shown_time(time: Time) -> String {
    let seconds = time.si();
    if seconds < 1.0 {
        format!("{:.0} ms", seconds * 1e3)
    } else if seconds < 120.0 {
        format!("{seconds:.0} s")
    } else {
        format!("{:.0} min", seconds / 60.0)
    }
}

/// A transformer's mass where nobody weighed it (common practice, no source).
const USUAL_MASS: f64 = 3.6;

/// Shortest, likely and longest time to warm the core, in minutes. Four fifths of the mass count
/// as steel (common practice, no source).
///
/// # Errors
/// A sentence that names the range.
pub fn warming_minutes(
    found: &Findings,
    air: Air,
    setting: Temperature,
    target: Temperature,
) -> Result<(String, String, String), Message> {
    let mass = found.transformer_mass.unwrap_or(Mass::from_si(USUAL_MASS));
    let time = Warming {
        steel: mass * 0.8,
        winding: mass * 0.2,
        metal: found.primary_metal.unwrap_or(Metal::Copper),
        air,
        start: Temperature::from_si(20.0),
        setting,
        target,
    }
    .time()
    .map_err(|error| error.message())?;
    let minutes = |t: Time| format!("{:.0}", (t.minutes() / 5.0).ceil() * 5.0);
    Ok((minutes(time.shortest), minutes(time.likely), minutes(time.longest)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RC law by hand: ½·1 µF·(2970 V)² = 4.41 J; 20 kΩ·1 µF·ln(2970/42.4) = 85 ms; 2970 V/20 kΩ = 149 mA.
    #[test]
    fn the_sheet_as_it_opens() {
        let rows = capacitor_sheet(&CapacitorSheet::default()).unwrap();
        let value = |key: &str| rows.iter().find(|r| r.key == key).unwrap().value.clone();
        assert_eq!(value("ui-cap-energy"), "4.4 J");
        assert_eq!(value("ui-cap-tool-time"), "85 ms");
        assert_eq!(value("ui-cap-tool-current"), "148 mA");
        assert_eq!(value("ui-cap-by-bleeder"), "—");
        let bad = CapacitorSheet {
            microfarads: "50".to_owned(),
            ..CapacitorSheet::default()
        };
        assert_eq!(capacitor_sheet(&bad).unwrap_err().key, "refused-capacitance");
        let word = CapacitorSheet {
            volts: "much".to_owned(),
            ..CapacitorSheet::default()
        };
        assert!(capacitor_sheet(&word).unwrap_err().to_string().contains("ui-cap-volts"));
    }

    #[test]
    fn warming_needs_air_hotter_than_the_core() {
        let at = |setting, target| {
            warming_minutes(
                &Findings::default(),
                Air::FanOven,
                Temperature::from_si(setting),
                Temperature::from_si(target),
            )
        };
        assert!(at(120.0, 90.0).is_ok());
        assert_eq!(at(200.0, 90.0).unwrap_err().key, "refused-warm-setting");
        assert!(at(100.0, 110.0).is_err());
        assert!(at(f64::NAN, 90.0).is_err());
    }
}
