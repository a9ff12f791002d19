//! The no-load current, told.

use super::super::draw::Plot;
use super::{TopicView, curve, plotted, three};
use crate::app::behaviour::idle::{IdleAnswer, Magnetising};
use crate::text::{Arg, Texts};

/// The no-load current.
#[must_use]
pub fn idle(answer: &IdleAnswer, texts: &Texts) -> TopicView {
    let mut view = TopicView::default();
    let density = answer.point.1.si();
    // The knee of poor sheet begins near 1.4 T, and little is left above 1.75 T (the tables of
    // magnetics::steel_grades).
    let key = match density {
        b if b < 1.4 => "ui-idle-below",
        b if b < 1.75 => "ui-idle-knee",
        _ => "ui-idle-above",
    };
    view.say(texts, key, &[("tesla", Arg::Text(&three(density, "T")))]);
    view.numbers(texts, &answer.numbers);
    let points = |curve: &Magnetising| curve.iter().map(|(h, b)| (h.si(), b.si())).collect::<Vec<_>>();
    view.figures.push(plotted(
        texts,
        "ui-plot-steel",
        "ui-axis-field",
        "ui-axis-density",
        Plot {
            band: Some([points(&answer.steel[1]), points(&answer.steel[2])]),
            curves: vec![curve("curve", String::new(), points(&answer.steel[0]))],
            point: Some((answer.point.0.si(), density)),
            ..Plot::default()
        },
    ));
    let count = answer.waveform.len().max(1) as f64;
    view.figures.push(plotted(
        texts,
        "ui-plot-wave",
        "ui-axis-cycle",
        "ui-axis-amperes",
        Plot {
            curves: vec![curve(
                "curve",
                String::new(),
                answer
                    .waveform
                    .iter()
                    .enumerate()
                    .map(|(k, i)| (k as f64 / count, i.si())),
            )],
            ..Plot::default()
        },
    ));
    match &answer.fit {
        None => view.say(texts, "ui-fit-none", &[]),
        Some(Err(error)) => view.warn(texts, "ui-fit-failed", &[("why", Arg::Text(&texts.explain(error)))]),
        Some(Ok(fit)) => {
            view.numbers(texts, &fit.numbers);
            if fit.misfit {
                view.warn(texts, "ui-fit-misfit", &[]);
            }
            if fit.carried {
                view.say(texts, "ui-fit-carried", &[]);
            }
            view.say(
                texts,
                if fit.gap_determined {
                    "ui-fit-gap-determined"
                } else {
                    "ui-fit-gap-open"
                },
                &[],
            );
            view.say(
                texts,
                if fit.steel_determined {
                    "ui-fit-steel-determined"
                } else {
                    "ui-fit-steel-open"
                },
                &[],
            );
        }
    }
    view
}
