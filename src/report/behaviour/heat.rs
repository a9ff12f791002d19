//! Heat and duty, told.

use super::super::draw::Plot;
use super::{TopicView, curve, plotted, three};
use crate::app::behaviour::heat::HeatAnswer;
use crate::text::{Arg, Texts};

/// Heat and duty.
#[must_use]
pub fn heat(answer: &HeatAnswer, texts: &Texts) -> TopicView {
    let mut view = TopicView::default();
    let limit = three(answer.limit.si(), "°C");
    if answer.hot_idle {
        view.warn(texts, "ui-heat-idle", &[("limit", Arg::Text(&limit))]);
    } else if answer.never_hot {
        view.say(texts, "ui-heat-never", &[("limit", Arg::Text(&limit))]);
    } else if answer.duty_in_doubt {
        view.warn(texts, "ui-heat-doubt", &[("limit", Arg::Text(&limit))]);
    } else {
        view.say(texts, "ui-heat-fine", &[("limit", Arg::Text(&limit))]);
    }
    if answer.burns_out {
        view.warn(texts, "ui-heat-burns", &[]);
    }
    if let Some(time) = answer.time_at_least {
        let minutes = three(time.si() / 60.0, "min");
        view.say(texts, "ui-heat-time-open", &[("minutes", Arg::Text(&minutes))]);
    }
    if let Some(duty) = answer.duty_at_least {
        let percent = three(duty.si() * 100.0, "%");
        view.say(texts, "ui-heat-duty-open", &[("percent", Arg::Text(&percent))]);
    }
    view.say(texts, "ui-heat-watch", &[]);
    view.numbers(texts, &answer.cycle);
    view.numbers(texts, &answer.numbers);
    let line = |pick: fn(&crate::magnetics::heat::network::Temperatures) -> f64| {
        answer.history.iter().map(move |(time, t)| (time.si() / 60.0, pick(t)))
    };
    let end = |which: usize| {
        let points = answer.band.iter();
        points
            .map(|(time, ends)| (time.si() / 60.0, ends[which].si()))
            .collect()
    };
    view.figures.push(plotted(
        texts,
        "ui-plot-heat",
        "ui-axis-minutes",
        "ui-axis-celsius",
        Plot {
            band: Some([end(0), end(1)]),
            curves: vec![
                curve("curve", texts.text("ui-new-winding"), line(|t| t.winding.si())),
                curve("curve second", texts.text("ui-primary"), line(|t| t.primary.si())),
                curve("curve third", texts.text("ui-core"), line(|t| t.core.si())),
            ],
            limit: Some((answer.limit.si(), limit)),
            ..Plot::default()
        },
    ));
    view
}
