//! A choke or a ballast, told.

use super::super::draw::Plot;
use super::{TopicView, curve, plotted, three};
use crate::app::behaviour::inductor::{DENSITY_A_PER_MM2, InductorAnswer, MOST_PARALLEL, Trouble, Warm};
use crate::app::behaviour::shim_stack::ShimStack;
use crate::magnetics::inductor::design::InductorError;
use crate::quantity::LengthUnit;
use crate::text::{Arg, Texts};

/// Why there is no choke or ballast, and what to do.
#[must_use]
pub fn inductor_trouble(trouble: &Trouble, texts: &Texts) -> String {
    let whole = |value: f64| format!("{value:.0}");
    let mm = |length: crate::quantity::Length| format!("{:.2}", length.mm());
    let mm3 = |length: crate::quantity::Length| crate::quantity::format_significant(length.mm(), 1);
    let volts = |voltage: crate::quantity::Voltage| three(voltage.si(), "V");
    let mh = |inductance: crate::quantity::Inductance| three(inductance.millihenries(), "mH");
    let (key, a, b, c) = match trouble {
        Trouble::NoAnswer => ("ui-inductor-no-answer", String::new(), String::new(), String::new()),
        Trouble::NoWire(current) => (
            "ui-inductor-no-wire",
            three(current.si(), "A"),
            format!("{DENSITY_A_PER_MM2} A/mm²"),
            MOST_PARALLEL.to_string(),
        ),
        Trouble::ShimTooThin { needed, sheet, most } => ("ui-inductor-shim-thin", mm3(*needed), mm(*sheet), mh(*most)),
        Trouble::Refused(InductorError::NotAboveZero(_)) => (
            "ui-inductor-not-above-zero",
            String::new(),
            String::new(),
            String::new(),
        ),
        Trouble::Refused(InductorError::TooManyTurns { needed, fit, most }) => {
            ("ui-inductor-turns", whole(*needed), whole(*fit), mh(*most))
        }
        Trouble::Refused(InductorError::ShimTooWide {
            needed,
            widest,
            nearest,
        }) => ("ui-inductor-shim-wide", mm(*needed), mm(*widest), mh(*nearest)),
        Trouble::Refused(InductorError::ArcVoltageTooHigh { arc, mains, most }) => {
            ("ui-inductor-arc", volts(*arc), volts(*mains), volts(*most))
        }
    };
    texts.text_with(key, &[("a", Arg::Text(&a)), ("b", Arg::Text(&b)), ("c", Arg::Text(&c))])
}

/// The sheets of a stack, thickest first: "0.25 mm + 2 × 0.1 mm".
#[must_use]
pub fn stack_text(stack: &ShimStack, unit: LengthUnit) -> String {
    let sheet = |(paper, count): &(crate::quantity::Measured<crate::quantity::Length>, u32)| {
        let thick = crate::quantity::format_significant(unit.count(paper.value), 2);
        let thick = format!("{thick} {}", unit.symbol());
        if *count == 1 {
            thick
        } else {
            format!("{count} × {thick}")
        }
    };
    stack.papers.iter().map(sheet).collect::<Vec<_>>().join(" + ")
}

/// What to wind, and the gap: two lines.
#[must_use]
pub fn inductor_build(answer: &InductorAnswer, texts: &Texts) -> [String; 2] {
    let shim = crate::quantity::format_significant(answer.shim.value.mm(), 2);
    let stack = stack_text(&answer.stack, LengthUnit::Millimetre);
    let wind = texts.text_with(
        "ui-inductor-wind",
        &[
            ("turns", Arg::Number(f64::from(answer.turns))),
            ("wire", Arg::Text(&texts.message(&answer.wire))),
            ("parallel", Arg::Number(f64::from(answer.parallel))),
        ],
    );
    let gap = texts.text_with(
        "ui-inductor-shim",
        &[("shim", Arg::Text(&shim)), ("stack", Arg::Text(&stack))],
    );
    [wind, gap]
}

/// A choke or a ballast.
#[must_use]
pub fn inductor(answer: &InductorAnswer, texts: &Texts) -> TopicView {
    let mut view = TopicView::default();
    for line in inductor_build(answer, texts) {
        view.remark(line);
    }
    view.warn(texts, "ui-inductor-caution", &[]);
    let limit = three(answer.limit.si(), "°C");
    let limit = [("limit", Arg::Text(&limit))];
    match answer.warm {
        Warm::Fine => view.say(texts, "ui-inductor-fine", &limit),
        Warm::Doubtful => view.warn(texts, "ui-inductor-doubtful", &limit),
        Warm::TooHot => view.warn(texts, "ui-inductor-hot", &limit),
        Warm::BurnsOut => view.warn(texts, "ui-inductor-burns", &[]),
    }
    view.numbers(texts, &answer.numbers);
    view.figures.push(plotted(
        texts,
        "ui-plot-inductance",
        "ui-axis-amperes-across",
        "ui-axis-millihenries",
        Plot {
            curves: vec![curve(
                "curve",
                String::new(),
                answer.curve.iter().map(|(i, l)| (i.si(), l.millihenries())),
            )],
            point: Some((answer.crest.si(), answer.asked.millihenries())),
            ..Plot::default()
        },
    ));
    view
}
