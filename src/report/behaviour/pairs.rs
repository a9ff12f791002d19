//! Two donors together, told.

use super::super::draw::phasing;
use super::{TopicView, three};
use crate::app::behaviour::pairs::{PHASING_SUPPLY, PairingAnswer};
use crate::magnetics::pairs::Joined;
use crate::magnetics::pairs::checks::{PairCheck, Which, joint, joint_open};
use crate::text::{Arg, Texts};
use crate::wind::PairJoints;

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

/// The joints of a pair while it is put together, the last one of the windings open; `names` are those of the
/// two jobs.
#[must_use]
pub fn pair_joints(pair: PairJoints, names: [&str; 2], texts: &Texts) -> String {
    let joined = |in_series: bool| if in_series { Joined::Series } else { Joined::Parallel };
    phasing(
        &texts.text("ui-pair-joints"),
        &joint(joined(pair.primaries_in_series)),
        &joint_open(joined(pair.windings_in_series)),
        [
            &short(1, names[0]),
            &short(2, names[1]),
            &texts.text("ui-phasing-mains"),
            &texts.text("ui-pair-free"),
        ],
    )
}

/// Two donors together; `names` are those of the two jobs.
#[must_use]
pub fn pairs(answer: &PairingAnswer, names: [&str; 2], texts: &Texts) -> TopicView {
    let mut view = TopicView::default();
    let amps = |current: crate::quantity::Current| three(current.si(), "A");
    let volts = |voltage: crate::quantity::Voltage| three(voltage.si(), "V");
    for check in &answer.checks {
        let which = |donor: &Which| names[usize::from(*donor == Which::Second)].to_owned();
        let (key, a, b, c) = match check {
            PairCheck::TestPhasing => (
                "ui-pair-test",
                volts(answer.phasing[0]),
                volts(answer.phasing[1]),
                volts(PHASING_SUPPLY),
            ),
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
        view.warn(
            texts,
            key,
            &[("a", Arg::Text(&a)), ("b", Arg::Text(&b)), ("c", Arg::Text(&c))],
        );
    }
    view.figures.push(phasing(
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
    view.numbers(texts, &answer.numbers);
    view
}
