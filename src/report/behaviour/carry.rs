//! Shunts, direct current, chokes and pairs, told.

use super::super::draw::{Plot, phasing};
use super::{Told, curve, plotted, three};
use crate::app::behaviour::OutputCurve;
use crate::app::behaviour::direct_current::DirectAnswer;
use crate::app::behaviour::inductor::{DENSITY_A_PER_MM2, InductorAnswer, MOST_PARALLEL, Trouble, Warm};
use crate::app::behaviour::pairs::PairingAnswer;
use crate::app::behaviour::shunts::ShuntAnswer;
use crate::magnetics::charger::ChargeWarning;
use crate::magnetics::inductor_design::InductorError;
use crate::magnetics::pair_checks::{PairCheck, Which};
use crate::magnetics::shunt_advice::{KeepReason, PullReason, ShuntAdvice};
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
pub fn shunts(answer: &ShuntAnswer, texts: &Texts) -> Told {
    let mut told = Told::default();
    told.remarks.push(super::Remark {
        danger: false,
        text: shunt_sentence(&answer.advice, texts),
    });
    if answer.unsure {
        told.warn(texts, "ui-shunts-unsure", &[]);
    }
    if answer.assumed {
        told.say(texts, "ui-shunts-assumed", &[]);
    }
    told.numbers(texts, std::slice::from_ref(&answer.deciding));
    let points = |curve: &OutputCurve| curve.iter().map(|(a, v)| (a.si(), v.si())).collect::<Vec<_>>();
    told.figures.push(plotted(
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
        let mut part = Told::default();
        part.numbers(texts, numbers);
        let which = texts.text(key);
        told.numbers
            .extend(part.numbers.into_iter().map(|(mut shown, widened)| {
                shown.label = format!("{}: {}", which, shown.label).into();
                shown.kept = format!("{}-{key}", shown.about);
                (shown, widened)
            }));
    }
    told
}

/// Behind diodes.
#[must_use]
pub fn direct_current(answer: &DirectAnswer, texts: &Texts) -> Told {
    let mut told = Told::default();
    told.warn(
        texts,
        if answer.charge.is_some() {
            "ui-battery-caution"
        } else {
            "ui-dc-caution"
        },
        &[],
    );
    if answer.too_much {
        told.warn(texts, "ui-dc-too-much", &[]);
    }
    if answer.reactor.si() > 0.0 {
        let reactance = three(answer.reactor.milliohms(), "mΩ");
        match answer.held {
            Some(current) => {
                let amps = three(current.si(), "A");
                told.warn(
                    texts,
                    "ui-dc-reactor-held",
                    &[("reactance", Arg::Text(&reactance)), ("current", Arg::Text(&amps))],
                );
            }
            None => told.say(texts, "ui-dc-reactor", &[("reactance", Arg::Text(&reactance))]),
        }
    }
    if let Some(charge) = &answer.charge {
        for warning in &charge.warnings {
            let percent = |ratio: crate::quantity::Ratio| three(ratio.si() * 100.0, "%");
            let amps = |current: crate::quantity::Current| three(current.si(), "A");
            let (key, a, b) = match warning {
                ChargeWarning::TooMuchCurrent { current, limit } => {
                    ("ui-charge-too-much", amps(*current), amps(*limit))
                }
                ChargeWarning::Gassing { from } => ("ui-charge-gassing", percent(*from), String::new()),
                ChargeWarning::NeverFull { stops_at } => ("ui-charge-never-full", percent(*stops_at), String::new()),
                ChargeWarning::NoEnd { current } => ("ui-charge-no-end", amps(*current), String::new()),
            };
            told.warn(texts, key, &[("a", Arg::Text(&a)), ("b", Arg::Text(&b))]);
        }
        told.numbers(texts, &charge.numbers);
        let end = |which: usize| -> Vec<(f64, f64)> {
            let ends = charge.band.iter();
            ends.map(|(time, ends)| (time.si() / 3600.0, ends[which].si()))
                .collect()
        };
        told.figures.push(plotted(
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
    told.numbers(texts, &answer.numbers);
    let period = answer.wave.last().map_or(1.0, |p| p.time.si()).max(1e-9);
    let over = |pick: fn(&crate::magnetics::rectifier::WavePoint) -> f64| {
        answer.wave.iter().map(move |p| (p.time.si() / period, pick(p)))
    };
    told.figures.push(plotted(
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
    told
}

/// Why there is no choke or ballast, and what to do.
#[must_use]
pub fn inductor_trouble(trouble: &Trouble, texts: &Texts) -> String {
    let whole = |value: f64| format!("{value:.0}");
    let mm = |length: crate::quantity::Length| format!("{:.2}", length.mm());
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

/// A choke or a ballast.
#[must_use]
pub fn inductor(answer: &InductorAnswer, texts: &Texts) -> Told {
    let mut told = Told::default();
    let shim = crate::quantity::format_significant(answer.shim.value.mm(), 2);
    told.say(
        texts,
        "ui-inductor-wind",
        &[
            ("turns", Arg::Number(f64::from(answer.turns))),
            ("wire", Arg::Text(&answer.wire)),
            ("parallel", Arg::Number(f64::from(answer.parallel))),
        ],
    );
    told.say(
        texts,
        "ui-inductor-shim",
        &[
            ("shim", Arg::Text(&shim)),
            ("sheets", Arg::Text(&format!("{:.1}", answer.sheets))),
            (
                "sheet",
                Arg::Text(&crate::quantity::format_significant(answer.sheet.mm(), 2)),
            ),
        ],
    );
    told.warn(texts, "ui-inductor-caution", &[]);
    let limit = three(answer.limit.si(), "°C");
    let limit = [("limit", Arg::Text(&limit))];
    match answer.warm {
        Warm::Fine => told.say(texts, "ui-inductor-fine", &limit),
        Warm::Doubtful => told.warn(texts, "ui-inductor-doubtful", &limit),
        Warm::TooHot => told.warn(texts, "ui-inductor-hot", &limit),
        Warm::BurnsOut => told.warn(texts, "ui-inductor-burns", &[]),
    }
    told.numbers(texts, &answer.numbers);
    told.figures.push(plotted(
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
    told
}

/// A donor's number and as much of its job's name as a box of the drawing holds.
fn short(number: u8, name: &str) -> String {
    const MOST: usize = 12;
    let cut: String = name.chars().take(MOST).collect();
    let more = if name.chars().count() > MOST { "…" } else { "" };
    format!("{number}: {}{more}", cut.trim_end())
}

/// The word of a check in a file.
pub(super) const fn check_word(check: &PairCheck) -> &'static str {
    match check {
        PairCheck::TestPhasing => "test_phasing",
        PairCheck::FuseEach => "fuse_each",
        PairCheck::Circulates { .. } => "circulates",
        PairCheck::UnevenShare { .. } => "uneven_share",
        PairCheck::PrimaryOverfed { .. } => "primary_overfed",
        PairCheck::Reversed { .. } => "reversed",
        PairCheck::VoltageAbove { .. } => "voltage_above",
    }
}

/// Two donors together; `names` are those of the two jobs.
#[must_use]
pub fn pairs(answer: &PairingAnswer, names: [&str; 2], texts: &Texts) -> Told {
    let mut told = Told::default();
    let amps = |current: crate::quantity::Current| three(current.si(), "A");
    let volts = |voltage: crate::quantity::Voltage| three(voltage.si(), "V");
    for check in &answer.checks {
        let which = |donor: &Which| names[usize::from(*donor == Which::Second)].to_owned();
        let (key, a, b, c) = match check {
            PairCheck::TestPhasing => ("ui-pair-test", String::new(), String::new(), String::new()),
            PairCheck::FuseEach => ("ui-pair-fuse", String::new(), String::new(), String::new()),
            PairCheck::Circulates { current } => ("ui-pair-circulates", amps(*current), String::new(), String::new()),
            PairCheck::UnevenShare { share } => (
                "ui-pair-uneven",
                three(share.si() * 100.0, "%"),
                String::new(),
                String::new(),
            ),
            PairCheck::PrimaryOverfed { donor, voltage, rated } => {
                ("ui-pair-overfed", which(donor), volts(*voltage), volts(*rated))
            }
            PairCheck::Reversed { current } => ("ui-pair-reversed", amps(*current), String::new(), String::new()),
            PairCheck::VoltageAbove { voltage, limit } => {
                ("ui-pair-voltage-above", volts(*voltage), volts(*limit), String::new())
            }
        };
        told.warn(
            texts,
            key,
            &[("a", Arg::Text(&a)), ("b", Arg::Text(&b)), ("c", Arg::Text(&c))],
        );
    }
    told.figures.push(phasing(
        &texts.text("ui-plot-phasing"),
        &answer.primaries.1,
        &answer.windings.1,
        [
            &short(1, names[0]),
            &short(2, names[1]),
            &texts.text("ui-phasing-mains"),
            &texts.text("ui-phasing-load"),
        ],
    ));
    told.numbers(texts, &answer.numbers);
    told
}
