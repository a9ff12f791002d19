//! Keep the shunts or pull them, told.

use super::super::draw::Plot;
use super::{Remark, TopicView, curve, plotted, three};
use crate::app::behaviour::OutputCurve;
use crate::app::behaviour::shunts::ShuntAnswer;
use crate::magnetics::circuit::shunt_advice::{KeepReason, PullReason, ShuntAdvice};
use crate::text::{Arg, Texts};

/// The word of an advice in a file.
pub(super) const fn advice_word(advice: &ShuntAdvice) -> &'static str {
    match advice {
        ShuntAdvice::Keep(_) => "keep",
        ShuntAdvice::Pull(_) => "pull",
    }
}

/// What becomes of the shunts, with the figures that say so.
#[must_use]
pub fn shunt_sentence(advice: &ShuntAdvice, texts: &Texts) -> String {
    let amps = |current: crate::quantity::Current| three(current.si(), "A");
    let volts = |voltage: crate::quantity::Voltage| three(voltage.si(), "V");
    let percent = |share: crate::quantity::Ratio| three(share.si() * 100.0, "%");
    let (key, with, without) = match advice {
        ShuntAdvice::Keep(KeepReason::HardlyFelt { with, without }) => {
            ("ui-shunts-hardly-felt", percent(*with), percent(*without))
        }
        ShuntAdvice::Keep(KeepReason::HoldsTheCurrent { with, without }) => {
            ("ui-shunts-hold", amps(*with), amps(*without))
        }
        ShuntAdvice::Pull(PullReason::VoltageSags { with, without }) => {
            ("ui-shunts-sag", volts(*with), volts(*without))
        }
        ShuntAdvice::Pull(PullReason::TooLittleCurrent { with, without }) => {
            ("ui-shunts-too-little", amps(*with), amps(*without))
        }
    };
    texts.text_with(key, &[("with", Arg::Text(&with)), ("without", Arg::Text(&without))])
}

/// Keep the shunts or pull them.
#[must_use]
pub fn shunts(answer: &ShuntAnswer, texts: &Texts) -> TopicView {
    let mut view = TopicView::default();
    view.remarks.push(Remark {
        danger: false,
        text: shunt_sentence(&answer.advice, texts),
    });
    if answer.unsure {
        view.warn(texts, "ui-shunts-unsure", &[]);
    }
    if answer.assumed {
        view.say(texts, "ui-shunts-assumed", &[]);
    }
    view.numbers(texts, std::slice::from_ref(&answer.deciding));
    let points = |curve: &OutputCurve| curve.iter().map(|(a, v)| (a.si(), v.si())).collect::<Vec<_>>();
    view.figures.push(plotted(
        texts,
        "ui-plot-shunts",
        "ui-axis-load",
        "ui-axis-volts",
        Plot {
            curves: vec![
                curve("curve", texts.text("ui-with-shunts"), points(&answer.with)),
                curve("curve second", texts.text("ui-without-shunts"), points(&answer.without)),
            ],
            ..Plot::default()
        },
    ));
    for (key, numbers) in [
        ("ui-with-shunts", &answer.with_numbers),
        ("ui-without-shunts", &answer.without_numbers),
    ] {
        let mut part = TopicView::default();
        part.numbers(texts, numbers);
        let which = texts.text(key);
        view.numbers
            .extend(part.numbers.into_iter().map(|(mut shown, widened)| {
                shown.label = format!("{}: {}", which, shown.label);
                shown.kept = format!("{}-{key}", shown.about);
                (shown, widened)
            }));
    }
    view
}
