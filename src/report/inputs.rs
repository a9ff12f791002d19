//! What the ± of a number comes from, as a person reads it.

use crate::quantity::{VarianceShare, WIDEST, format_with_spread};

/// An input of a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputShown {
    /// Its name.
    pub name: &'static str,
    /// Its value with its ± and unit; empty where it is not at hand.
    pub value: String,
    /// Its share of the variance.
    pub share: String,
}

const MM: (f64, &str) = (1e-3, "mm");
const KG: (f64, &str) = (1.0, "kg");
const OHM: (f64, &str) = (1.0, "Ω");
const MILLIOHM: (f64, &str) = (1e-3, "mΩ");
const VOLT: (f64, &str) = (1.0, "V");
const AMPERE: (f64, &str) = (1.0, "A");
const CELSIUS: (f64, &str) = (1.0, "°C");
const KELVIN: (f64, &str) = (1.0, "K");
const WATT: (f64, &str) = (1.0, "W");
const PLAIN: (f64, &str) = (1.0, "");

/// What an input counts in: how many of the SI unit, and its symbol. `None` for one that is not known.
#[must_use]
pub fn counted_in(input: &str) -> Option<(f64, &'static str)> {
    Some(match input {
        "tongue"
        | "stack"
        | "window width"
        | "window height"
        | "outer limb"
        | "yoke"
        | "primary wire"
        | "primary height"
        | "primary build"
        | "primary length"
        | "winding length"
        | "winding build"
        | "lead length"
        | "gap at the faces"
        | "shim"
        | "gap ground in the tongue"
        | "shunt thickness"
        | "shunt stack"
        | "shunt width"
        | "shunt air gap"
        | "first coil's thickness"
        | "second coil's thickness"
        | "gap between coils"
        | "gap between the coils"
        | "coil breadth"
        | "window"
        | "clearance"
        | "turn inside"
        | "turn outside" => MM,
        "core mass" | "primary mass" | "winding mass" => KG,
        "primary resistance"
        | "supply resistance"
        | "loop resistance"
        | "source resistance"
        | "first donor's magnetising reactance"
        | "second donor's magnetising reactance" => OHM,
        "winding resistance"
        | "coil resistance"
        | "battery resistance"
        | "load resistance"
        | "diode slope"
        | "first donor's resistance"
        | "second donor's resistance"
        | "first donor's reactance"
        | "second donor's reactance" => MILLIOHM,
        "mains voltage"
        | "voltage"
        | "supply"
        | "open-circuit voltage"
        | "back voltage"
        | "diode threshold"
        | "polarisation" => VOLT,
        "idle current" | "load current" => AMPERE,
        "winding temperature" | "ambient" | "air of the room" => CELSIUS,
        "hot spot" => KELVIN,
        "coercivity" => (1.0, "A/m"),
        "core loss" => WATT,
        "frequency" => (1.0, "Hz"),
        "capacitor" => (1e-6, "µF"),
        "choke" | "leakage inductance" => (1e-3, "mH"),
        "capacity" => (3600.0, "Ah"),
        "air speed" | "fan" => (1.0, "m/s"),
        "contact with the core" | "contact of coil and core" => (1.0, "W/(m²·K)"),
        "turns"
        | "primary turns"
        | "stacking factor"
        | "shunt stacking factor"
        | "leakage formula"
        | "leakage model"
        | "window leakage"
        | "wire resistance"
        | "steel grade"
        | "steel magnetisation"
        | "steel loss"
        | "surface coefficient"
        | "cooling by the air"
        | "emissivity"
        | "charge efficiency"
        | "rest voltage"
        | "remanence" => PLAIN,
        _ => return None,
    })
}

/// Every input, most first.
#[must_use]
pub fn inputs_of(variance_shares: &[VarianceShare]) -> Vec<InputShown> {
    variance_shares
        .iter()
        .map(|share| InputShown {
            name: share.input,
            value: share
                .si
                .zip(counted_in(share.input))
                .map_or_else(String::new, |((value, half), (unit, symbol))| {
                    let (value, half) = format_with_spread(value / unit, half / unit);
                    format!("{value} ± {half} {symbol}").trim_end().to_owned()
                }),
            share: percent(share),
        })
        .collect()
}

/// The widest in one line: "tongue 61 %, stack 30 %".
#[must_use]
pub fn widened_by(variance_shares: &[VarianceShare]) -> String {
    let widest: Vec<String> = variance_shares
        .iter()
        .take(WIDEST)
        .map(|share| format!("{} {}", share.input, percent(share)))
        .collect();
    widest.join(", ")
}

fn percent(share: &VarianceShare) -> String {
    format!("{:.0}\u{a0}%", share.share * 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of};
    use crate::app::summary::MeasuresNumber;
    use crate::job::Goal;
    use crate::quantity::Number;

    fn numbers(file: &crate::job::JobFile) -> Vec<Number> {
        let answer = evaluate(file).unwrap();
        let mut found = Vec::new();
        found.extend(
            answer
                .heat()
                .into_iter()
                .flat_map(|a| [a.numbers.clone(), a.cycle.clone()].concat()),
        );
        found.extend(answer.idle().into_iter().flat_map(|a| a.numbers.clone()));
        found.extend(answer.inrush().into_iter().flat_map(|a| a.numbers.clone()));
        found.extend(
            answer
                .shunts()
                .into_iter()
                .flat_map(|a| [a.with_numbers.clone(), a.without_numbers.clone()].concat()),
        );
        found.extend(answer.direct_current().into_iter().flat_map(|a| a.numbers.clone()));
        found.extend(answer.inductor().into_iter().flatten().flat_map(|a| a.numbers.clone()));
        found
    }

    /// Every input that counts in a number is told with its value, and the shares come to the whole.
    #[test]
    fn inputs_come_with_their_values_and_shares() {
        let mut seen = 0;
        for word in Goal::USES {
            let mut file = demo_job();
            file.goal = goal_of(word);
            for number in numbers(&file) {
                for share in &number.variance_shares {
                    assert!(
                        counted_in(share.input).is_some(),
                        "{}: {}",
                        number.kind.name,
                        share.input
                    );
                    assert!(share.si.is_some(), "{}: {} has no value", number.kind.name, share.input);
                }
                let told: f64 = number.variance_shares.iter().map(|w| w.share).sum();
                let empty = number.variance_shares.is_empty();
                assert!(
                    empty || (0.8..1.0 + 1e-9).contains(&told),
                    "{}: {told}",
                    number.kind.name
                );
                seen += usize::from(!empty);
            }
        }
        assert!(seen > 60, "{seen}");
    }

    /// Every name that an input has in the code is known here, also where it counts for little in the demo.
    #[test]
    fn every_input_has_its_unit() {
        let mut folders = ["src/app", "src/magnetics"]
            .map(|f| std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(f))
            .to_vec();
        let mut seen = 0;
        while let Some(folder) = folders.pop() {
            for entry in std::fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    folders.push(path);
                    continue;
                }
                let source = std::fs::read_to_string(path).unwrap();
                for part in source.split(".visit(\"").skip(1) {
                    let name = part.split('"').next().unwrap();
                    assert!(counted_in(name).is_some(), "{name}");
                    seen += 1;
                }
            }
        }
        assert!(seen > 70, "{seen}");
    }

    /// By hand: the net steel area of the demo's core is a product of three measures, so that each one's
    /// share goes with the square of its relative ±.
    #[test]
    fn shares_of_a_product_by_hand() {
        let told = evaluate(&demo_job()).unwrap().summary().clone();
        let area = told
            .rows
            .iter()
            .find(|row| row.kind == MeasuresNumber::NetArea.kind())
            .unwrap();
        let parts = [0.2 / 35.1, 0.5 / 69.5, 0.03 / 0.95].map(|relative: f64| relative * relative);
        let shown = inputs_of(&area.variance_shares);
        for (name, part, value) in [
            ("stacking factor", parts[2], "0.950 ± 0.030"),
            ("stack", parts[1], "69.50 ± 0.50 mm"),
        ] {
            let input = shown.iter().find(|input| input.name == name).unwrap();
            let share = format!("{:.0}\u{a0}%", part / parts.iter().sum::<f64>() * 100.0);
            assert_eq!((input.value.as_str(), &input.share), (value, &share));
        }
    }
}
