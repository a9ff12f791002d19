//! What the ± of a number comes from, as a person reads it.

use crate::quantity::{InputValue, VarianceShare, WIDEST, format_with_spread};
use crate::text::Texts;

/// An input of a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputShown {
    /// Its name.
    pub name: String,
    /// Its value with its ± and unit; empty where it is not at hand.
    pub value: String,
    /// Its share of the variance.
    pub share: String,
}

/// Every input, most first.
#[must_use]
pub fn inputs_of(texts: &Texts, variance_shares: &[VarianceShare]) -> Vec<InputShown> {
    let read = |InputValue { si, unit, .. }: InputValue| {
        let (value, half) = format_with_spread(si.0 / unit.si, si.1 / unit.si);
        format!("{value} ± {half} {}", unit.symbol).trim_end().to_owned()
    };
    variance_shares
        .iter()
        .map(|share| InputShown {
            name: texts.text(share.input.key()),
            value: share.value.map_or_else(String::new, read),
            share: percent(share),
        })
        .collect()
}

/// The widest in one line: "tongue 61 %, stack 30 %".
#[must_use]
pub fn widened_by(texts: &Texts, variance_shares: &[VarianceShare]) -> String {
    let widest: Vec<String> = variance_shares
        .iter()
        .take(WIDEST)
        .map(|share| format!("{} {}", texts.text(share.input.key()), percent(share)))
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
                        share.value.is_some(),
                        "{}: {:?} has no value",
                        number.kind.name,
                        share.input
                    );
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
        let shown = inputs_of(&Texts::english().unwrap(), &area.variance_shares);
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
