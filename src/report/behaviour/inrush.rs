//! Switching on, told.

use super::super::draw::Plot;
use super::{Told, curve, plotted, three};
use crate::app::behaviour::inrush::InrushAnswer;
use crate::magnetics::inrush::Tripping;
use crate::text::{Arg, Texts};

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
