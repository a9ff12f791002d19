//! The sign of a gate: one stop shape for all, and in it lines of our own for what can hurt there.

use std::fmt::Write as _;

use crate::safety::Gate;

/// What can hurt at a gate, as the data of one SVG path on a sheet of 24 by 24.
const fn lines(gate: Gate) -> &'static str {
    match gate {
        // A plug out of its socket.
        Gate::Unplugged => "M9 4V9M15 4V9M6 9H18V12A6 6 0 0 1 6 12ZM12 18V21",
        // A resistor between two leads.
        Gate::CapacitorTool => "M2 12H6L8 7L11 17L13 7L16 17L18 12H22",
        // The two plates of a capacitor.
        Gate::Capacitor => "M2 12H9M9 4V20M15 4V20M15 12H22",
        // A glove.
        Gate::Hands => "M8 21V15L4 11L6 9L8 11V5H11V11M11 5V3H14V11M14 5H17V11M17 7H20V16L17 21Z",
        // A saw's teeth.
        Gate::Cutting => "M2 7H22V12L19.5 17L17 12L14.5 17L12 12L9.5 17L7 12L4.5 17L2 12Z",
        // A disc and its sparks.
        Gate::Grinder => "M15 9A6 6 0 1 1 3 9A6 6 0 1 1 15 9ZM9 8V10M14 15L18 20M16 12L22 15M11 17L12 22",
        // Woven cloth.
        Gate::OldInsulation => "M3 7H21M3 12H21M3 17H21M7 3V21M12 3V21M17 3V21",
        // A flame.
        Gate::Sparks => {
            "M12 2C13 7 19 10 19 15.5A7 6.5 0 0 1 5 15.5C5 12 8 11 8 7C10.5 8.5 11 10.5 11 12C13.5 9.5 13 5.5 12 2Z"
        }
        // Three plumes.
        Gate::Fumes => {
            "M6 21C3 17 9 14 6 10C4 7 7 5 6 3M12 21C9 17 15 14 12 10C10 7 13 5 12 3M18 21C15 17 21 14 18 10C16 7 19 5 18 3"
        }
        // A thermometer.
        Gate::HotPart => "M9.5 13V5A2.5 2.5 0 0 1 14.5 5V13A5 5 0 1 1 9.5 13ZM12 8V17",
        // A block that falls.
        Gate::HeavyPart => "M4 12H20V21H4ZM12 2V9M8 6L12 10L16 6",
        // A magnet.
        Gate::MagnetronWhole => "M4 4V12A8 8 0 0 0 20 12V4H14.5V12A2.5 2.5 0 0 1 9.5 12V4ZM4 8H9.5M14.5 8H20",
        // A coil drawn out of its window.
        Gate::OldWindingOut => "M2 4H12V20H2ZM2 8H12M2 12H12M2 16H12M14 12H22M18 8L22 12L18 16",
        // A core that is closed.
        Gate::Reassembly => "M3 3H21V21H3ZM3 17H21M7.5 7H10V17H7.5ZM14 7H16.5V17H14Z",
        // A meter with two leads.
        Gate::InsulationTester => "M3 4H21V15H3ZM7 12A5 5 0 0 1 17 12M12 12L15 8M7 15V21M17 15V21",
        // Few turns beside many.
        Gate::LowVoltage => {
            "M3 8A4 4 0 0 1 3 16M10.5 3V21M13.5 3V21M21 3A2.2 2.2 0 0 0 21 7.5A2.2 2.2 0 0 0 21 12A2.2 2.2 0 0 0 21 16.5A2.2 2.2 0 0 0 21 21"
        }
        // A spark from above.
        Gate::MainsOnBench => "M14 2L5 13H11L9 22L19 10H12.5Z",
        // A conductor with its field.
        Gate::HeavyCurrent => {
            "M15.5 12A3.5 3.5 0 1 1 8.5 12A3.5 3.5 0 1 1 15.5 12ZM21 12A9 9 0 1 1 17 4.5M17.5 1V5H13.5"
        }
        // A rod, and light from its tip.
        Gate::Arc => "M20 2L13 11M3 21H21M12 14V18M8 13L10 15M16 13L14.5 14.5M6 17L9 18M18 17L15 18",
        // A battery's case and poles.
        Gate::Battery => "M2 8H22V20H2ZM5 8V4H9V8M15 8V4H19V8M5 13H9M15 13H19M17 11V15",
        // A crucible.
        Gate::Furnace => "M4 7H20L17 21H7ZM5 12C7.5 9 9.5 15 12 12C14.5 9 16.5 15 19 12M12 2V4",
        // A torch and its jet.
        Gate::PlasmaVoltage => "M8 2H16V8L13.5 12H10.5L8 8ZM12 14V22M8.5 15L6 20M15.5 15L18 20",
    }
}

/// Draws the sign; a screen reader passes it over, as the gate's name stands beside it.
#[must_use]
pub fn stop_sign(gate: Gate) -> String {
    let mut svg = String::from(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="stop-sign" viewBox="0 0 24 24" aria-hidden="true" focusable="false"><path class="shape" d="M7.6 1H16.4L23 7.6V16.4L16.4 23H7.6L1 16.4V7.6Z"/>"#,
    );
    // Within the stop shape.
    let _ = write!(
        svg,
        r#"<path class="within" transform="translate(4.8 4.8) scale(0.6)" d="{}"/></svg>"#,
        lines(gate)
    );
    svg
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_gate_has_a_sign_of_its_own_within_the_stop_shape() {
        let drawn: std::collections::BTreeSet<&str> = Gate::ALL.iter().map(|gate| lines(*gate)).collect();
        assert_eq!(drawn.len(), Gate::ALL.len());
        for gate in Gate::ALL {
            for number in lines(*gate).split(|c: char| !c.is_ascii_digit() && c != '.') {
                let Ok(number) = number.parse::<f64>() else { continue };
                assert!((0.0..=22.0).contains(&number), "{gate:?}: {number}");
            }
            assert_eq!(stop_sign(*gate).matches("class=\"shape\"").count(), 1, "{gate:?}");
        }
    }
}
