//! Switching on, told.

use super::super::draw::Plot;
use super::{TopicView, curve, plotted, three};
use crate::app::behaviour::inrush::InrushAnswer;
use crate::magnetics::circuit::fuse::Fuse;
use crate::magnetics::circuit::protection::{DeviceKind, Protection, Tripping};
use crate::text::{Arg, Texts};

/// What a breaker or a fuse is called, with its standard; the letter only where that standard has
/// letters.
#[must_use]
fn device(kind: DeviceKind, texts: &Texts) -> String {
    let (id, letter) = match kind {
        DeviceKind::IecBreaker(curve) => ("device-iec-breaker", curve.letter()),
        DeviceKind::UlBreaker => ("device-ul-breaker", ""),
        DeviceKind::JapaneseBreaker => ("device-japanese-breaker", ""),
        DeviceKind::PlugFuse => ("device-plug-fuse", ""),
        DeviceKind::UnknownBreaker => ("device-unknown-breaker", ""),
        DeviceKind::TimeLagFuse => ("device-time-lag-fuse", ""),
        DeviceKind::GeneralFuse => ("device-general-fuse", ""),
        DeviceKind::TimeDelayFuse => ("device-time-delay-fuse", ""),
    };
    let standard = kind.standard();
    texts.text_with(id, &[("letter", Arg::Text(letter)), ("standard", Arg::Text(standard))])
}

/// A fuse to fit, with its standard and rating: for gates, the page and the list of materials.
#[must_use]
pub fn fuse_label(fuse: &Fuse, texts: &Texts) -> String {
    protection_label(&fuse.protection, texts)
}

/// A breaker or a fuse with its standard and rating.
#[must_use]
pub fn protection_label(protection: &Protection, texts: &Texts) -> String {
    // As printed on it: 6.3 A, 15 A.
    let rating = format!("{} A", protection.rating.si());
    let kind = device(protection.kind, texts);
    texts.text_with(
        "fuse-label",
        &[("device", Arg::Text(&kind)), ("rating", Arg::Text(&rating))],
    )
}

/// The first peak after switching on.
#[must_use]
pub fn inrush(answer: &InrushAnswer, texts: &Texts) -> TopicView {
    let mut view = TopicView::default();
    let rating = three(answer.rating.si(), "A");
    match answer.holds {
        Some(kind) => view.say(
            texts,
            "ui-inrush-holds",
            &[
                ("device", Arg::Text(&device(kind, texts))),
                ("rating", Arg::Text(&rating)),
            ],
        ),
        None => view.warn(texts, "ui-inrush-none", &[("rating", Arg::Text(&rating))]),
    }
    for (kind, likely, high) in &answer.devices {
        let key = match (likely, high) {
            (_, Tripping::Holds) => "ui-breaker-holds",
            (Tripping::Trips, _) => "ui-breaker-trips",
            _ => "ui-breaker-may",
        };
        view.say(texts, key, &[("device", Arg::Text(&device(*kind, texts)))]);
    }
    if let Some((kind, _, _)) = answer.devices.first() {
        view.say(texts, "ui-inrush-source", &[("standard", Arg::Text(kind.standard()))]);
        if matches!(kind, DeviceKind::UlBreaker | DeviceKind::JapaneseBreaker) {
            view.say(
                texts,
                "ui-inrush-no-instant",
                &[("standard", Arg::Text(kind.standard()))],
            );
        }
    }
    view.numbers(texts, &answer.numbers);
    view.figures.push(plotted(
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
    view.figures.push(plotted(
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
            point: Some((answer.mains.si(), answer.peak.value.si())),
            ..Plot::default()
        },
    ));
    view
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::magnetics::circuit::protection::{BreakerCurve, Protection};
    use crate::quantity::Current;

    /// Letters only where the standard has them: IEC 60898-1 does, UL 489 and BS 1362 do not.
    #[test]
    fn a_device_is_called_by_its_standard() {
        let texts = Texts::english().unwrap();
        let plain = |text: String| text.replace(['\u{2068}', '\u{2069}'], "");
        let name = |kind| plain(device(kind, &texts));
        assert_eq!(
            name(DeviceKind::IecBreaker(BreakerCurve::C)),
            "Breaker of type C (IEC 60898-1)"
        );
        assert_eq!(name(DeviceKind::UlBreaker), "Breaker (UL 489)");
        let fuse = Fuse {
            protection: Protection {
                kind: DeviceKind::TimeLagFuse,
                rating: Current::from_si(6.3),
            },
            time_delay: true,
            pull: Tripping::Holds,
            first_peak: None,
        };
        assert_eq!(plain(fuse_label(&fuse, &texts)), "Time-lag fuse T (IEC 60127-2), 6.3 A");
    }
}
