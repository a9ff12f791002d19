//! Idle current, inrush and heat, told.

use super::super::draw::Plot;
use super::{Told, curve, plotted, three};
use crate::app::behaviour::heat::HeatAnswer;
use crate::app::behaviour::idle::{IdleAnswer, Magnetising};
use crate::app::behaviour::inrush::InrushAnswer;
use crate::magnetics::inrush::Tripping;
use crate::text::{Arg, Texts};

/// The idle current.
#[must_use]
pub fn idle(answer: &IdleAnswer, texts: &Texts) -> Told {
    let mut told = Told::default();
    let density = answer.point.1.si();
    // The knee of poor sheet begins near 1.4 T, and little is left above 1.75 T (the tables of
    // magnetics::steel_grades).
    let key = match density {
        b if b < 1.4 => "ui-idle-below",
        b if b < 1.75 => "ui-idle-knee",
        _ => "ui-idle-above",
    };
    told.say(texts, key, &[("tesla", Arg::Text(&three(density, "T")))]);
    told.numbers(texts, &answer.numbers);
    let points = |curve: &Magnetising| curve.iter().map(|(h, b)| (h.si(), b.si())).collect::<Vec<_>>();
    told.figures.push(plotted(
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
    told.figures.push(plotted(
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
        None => told.say(texts, "ui-fit-none", &[]),
        Some(Err(error)) => told.warn(texts, "ui-fit-failed", &[("why", Arg::Text(&error.to_string()))]),
        Some(Ok(fit)) => {
            told.numbers(texts, &fit.numbers);
            if fit.misfit {
                told.warn(texts, "ui-fit-misfit", &[]);
            }
            if fit.carried {
                told.say(texts, "ui-fit-carried", &[]);
            }
            told.say(
                texts,
                if fit.gap_told {
                    "ui-fit-gap-told"
                } else {
                    "ui-fit-gap-open"
                },
                &[],
            );
            told.say(
                texts,
                if fit.steel_told {
                    "ui-fit-steel-told"
                } else {
                    "ui-fit-steel-open"
                },
                &[],
            );
        }
    }
    told
}

/// The first peak after switching on.
#[must_use]
pub fn inrush(answer: &InrushAnswer, texts: &Texts) -> Told {
    let mut told = Told::default();
    let rating = three(answer.rating.si(), "A");
    match answer.holds {
        Some(class) => told.say(
            texts,
            "ui-inrush-holds",
            &[
                ("class", Arg::Text(&format!("{class:?}"))),
                ("rating", Arg::Text(&rating)),
            ],
        ),
        None => told.warn(texts, "ui-inrush-none", &[("rating", Arg::Text(&rating))]),
    }
    for (class, likely, high) in &answer.breakers {
        let key = match (likely, high) {
            (_, Tripping::Holds) => "ui-breaker-holds",
            (Tripping::Trips, _) => "ui-breaker-trips",
            _ => "ui-breaker-may",
        };
        told.say(texts, key, &[("class", Arg::Text(&format!("{class:?}")))]);
    }
    told.say(texts, "ui-inrush-source", &[]);
    told.numbers(texts, &answer.numbers);
    told.figures.push(plotted(
        texts,
        "ui-plot-inrush",
        "ui-axis-angle",
        "ui-axis-first-peak",
        Plot {
            curves: vec![curve(
                "curve",
                String::new(),
                answer.by_angle.iter().map(|(angle, peak)| (angle.degrees(), peak.si())),
            )],
            ..Plot::default()
        },
    ));
    let own = answer.numbers.first().map(|peak| (answer.mains.si(), peak.si.0));
    told.figures.push(plotted(
        texts,
        "ui-plot-inrush-mains",
        "ui-axis-mains-loop",
        "ui-axis-first-peak",
        Plot {
            curves: vec![curve(
                "curve",
                String::new(),
                answer.by_mains.iter().map(|(mains, peak)| (mains.si(), peak.si())),
            )],
            point: own,
            ..Plot::default()
        },
    ));
    told
}

/// Heat and duty.
#[must_use]
pub fn heat(answer: &HeatAnswer, texts: &Texts) -> Told {
    let mut told = Told::default();
    let limit = three(answer.limit.si(), "°C");
    if answer.hot_idle {
        told.warn(texts, "ui-heat-idle", &[("limit", Arg::Text(&limit))]);
    } else if answer.never_hot {
        told.say(texts, "ui-heat-never", &[("limit", Arg::Text(&limit))]);
    } else if answer.duty_in_doubt {
        told.warn(texts, "ui-heat-doubt", &[("limit", Arg::Text(&limit))]);
    } else {
        told.say(texts, "ui-heat-fine", &[("limit", Arg::Text(&limit))]);
    }
    if answer.burns_out {
        told.warn(texts, "ui-heat-burns", &[]);
    }
    if let Some(time) = answer.time_at_least {
        let minutes = three(time.si() / 60.0, "min");
        told.say(texts, "ui-heat-time-open", &[("minutes", Arg::Text(&minutes))]);
    }
    if let Some(duty) = answer.duty_at_least {
        let percent = three(duty.si() * 100.0, "%");
        told.say(texts, "ui-heat-duty-open", &[("percent", Arg::Text(&percent))]);
    }
    told.say(texts, "ui-heat-watch", &[]);
    told.numbers(texts, &answer.cycle);
    told.numbers(texts, &answer.numbers);
    let line = |pick: fn(&crate::magnetics::heat_network::Temperatures) -> f64| {
        answer.history.iter().map(move |(time, t)| (time.si() / 60.0, pick(t)))
    };
    let end = |which: usize| {
        let points = answer.band.iter();
        points
            .map(|(time, ends)| (time.si() / 60.0, ends[which].si()))
            .collect()
    };
    told.figures.push(plotted(
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
    told
}
