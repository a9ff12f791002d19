//! What flows behind diodes, told.

use super::super::draw::Plot;
use super::{TopicView, curve, plotted, three};
use crate::app::behaviour::direct_current::{DirectAnswer, Needed};
use crate::magnetics::rectifier::charger::ChargeWarning;
use crate::quantity::Current;
use crate::text::{Arg, Texts};

/// Behind diodes.
#[must_use]
pub fn direct_current(answer: &DirectAnswer, texts: &Texts) -> TopicView {
    let mut view = TopicView::default();
    view.warn(
        texts,
        if answer.charge.is_some() {
            "ui-battery-caution"
        } else {
            "ui-dc-caution"
        },
        &[],
    );
    if answer.reactor.si() > 0.0 {
        let reactance = three(answer.reactor.milliohms(), "mΩ");
        let amps = three(answer.held.map_or(0.0, Current::si), "A");
        let key = if answer.charge.is_some() {
            "ui-dc-reactor-held"
        } else {
            "ui-dc-reactor"
        };
        let with = [("reactance", Arg::Text(&reactance)), ("current", Arg::Text(&amps))];
        view.warn(texts, key, &with);
    }
    match answer.needs {
        Some(Needed::Choke(choke)) => {
            let inductance = three(choke.millihenries(), "mH");
            view.warn(texts, "ui-dc-needs-choke", &[("inductance", Arg::Text(&inductance))]);
        }
        Some(Needed::Reservoir(reservoir)) => {
            let capacitance = three(reservoir.microfarads(), "µF");
            view.say(
                texts,
                "ui-dc-needs-reservoir",
                &[("capacitance", Arg::Text(&capacitance))],
            );
        }
        None => {}
    }
    if let Some(charge) = &answer.charge {
        for warning in &charge.warnings {
            let percent = |ratio: crate::quantity::Ratio| three(ratio.si() * 100.0, "%");
            let amps = |current: Current| three(current.si(), "A");
            let (key, a, b) = match warning {
                ChargeWarning::TooMuchCurrent { current, limit } => {
                    ("ui-charge-too-much", amps(*current), amps(*limit))
                }
                ChargeWarning::Gassing { from } => ("ui-charge-gassing", percent(*from), String::new()),
                ChargeWarning::NeverFull { stops_at } => ("ui-charge-never-full", percent(*stops_at), String::new()),
                ChargeWarning::NoEnd { current } => ("ui-charge-no-end", amps(*current), String::new()),
            };
            view.warn(texts, key, &[("a", Arg::Text(&a)), ("b", Arg::Text(&b))]);
        }
        view.numbers(texts, &charge.numbers);
        let end = |which: usize| -> Vec<(f64, f64)> {
            let ends = charge.band.iter();
            ends.map(|(time, ends)| (time.si() / 3600.0, ends[which].si()))
                .collect()
        };
        view.figures.push(plotted(
            texts,
            "ui-plot-charge",
            "ui-axis-hours",
            "ui-axis-amperes",
            Plot {
                curves: vec![curve(
                    "curve",
                    String::new(),
                    charge.points.iter().map(|p| (p.elapsed.si() / 3600.0, p.current.si())),
                )],
                band: Some([end(0), end(1)]),
                ..Plot::default()
            },
        ));
    }
    view.numbers(texts, &answer.numbers);
    let period = answer.wave.last().map_or(1.0, |p| p.time.si()).max(1e-9);
    let over = |pick: fn(&crate::magnetics::rectifier::WavePoint) -> f64| {
        answer.wave.iter().map(move |p| (p.time.si() / period, pick(p)))
    };
    view.figures.push(plotted(
        texts,
        "ui-plot-diodes",
        "ui-axis-cycle",
        "ui-axis-amperes",
        Plot {
            curves: vec![
                curve("curve", texts.text("ui-diodes"), over(|p| p.direct.si())),
                curve("curve third", texts.text("ui-new-winding"), over(|p| p.winding.si())),
            ],
            ..Plot::default()
        },
    ));
    view
}
