//! Verdicts as a table, and guesses against transformers that others measured.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;

use super::*;
use crate::quantity::{ApparentPower, Area, Frequency, Mass, Money, Power, Voltage, VoltsPerTurn};
use crate::wire::Metal;

fn signs(list: &[(Sign, bool)]) -> BTreeMap<Sign, bool> {
    list.iter().copied().collect()
}

fn judge(sighting: &Sighting) -> SizeUp {
    size_up(sighting, &Experience::default(), None, &[], &[]).unwrap()
}

#[test]
fn verdicts() {
    let no_word = || Sighting {
        signs: signs(&[(Sign::Word, false)]),
        ..Sighting::default()
    };
    let word = || Sighting {
        signs: signs(&[(Sign::Word, true)]),
        ..Sighting::default()
    };
    let damaged = |damage| Sighting {
        damage: BTreeSet::from([damage]),
        ..no_word()
    };
    let priced = |sighting: Sighting, price| Sighting {
        price: Some(Money::from_si(price)),
        ..sighting
    };
    use VerdictWord::{Leave, LookCloser, Take, TakeForParts};
    let cases = [
        (Sighting::default(), LookCloser, Reason::CoreUncertain),
        // Three taps: open, size up, "no such word".
        (no_word(), Take, Reason::CoreLikely),
        (word(), TakeForParts, Reason::InverterLikely),
        (priced(word(), 5.0), Leave, Reason::InverterLikely),
        (priced(word(), 0.0), TakeForParts, Reason::InverterLikely),
        (priced(no_word(), 5.0), LookCloser, Reason::NoPrices),
        (damaged(Damage::Crushed), Leave, Reason::Crushed),
        (damaged(Damage::Flooded), LookCloser, Reason::Flooded),
        (damaged(Damage::Burnt), Take, Reason::Burnt),
        (damaged(Damage::PartsMissing), LookCloser, Reason::PartsMissing),
        (
            Sighting {
                rust: Some(Rust::Deep),
                ..no_word()
            },
            LookCloser,
            Reason::DeepRust,
        ),
        (
            Sighting {
                age_years: Some(50),
                ..Sighting::default()
            },
            Take,
            Reason::VeryOld,
        ),
    ];
    for (sighting, verdict, reason) in cases {
        let got = judge(&sighting);
        assert_eq!(got.verdict, verdict, "{sighting:?} {:?}", got.reasons);
        assert!(got.reasons.contains(&reason), "{sighting:?} {:?}", got.reasons);
    }
    assert_eq!(judge(&Sighting::default()).ask, Some(Question::Word));
    assert_eq!(judge(&no_word()).ask, Some(Question::Power));
}

/// Transformers that others took apart and described on public pages:
/// - "Investigations on using a salvaged microwave oven transformer" (2003): ovens of 600 to
///   1200 W, 117 V, centre limb 3.5 square inches, that is 22.6 cm² gross;
/// - "Resistance soldering: transformer" (2010): about 120 turns for 120 V;
/// - "Rewound microwave transformer" (600 W, 120 V): about 5 turns gave a little over 4 V.
#[test]
fn guesses_hold_what_others_measured() {
    let seen = |output: Option<f64>| {
        let sighting = Sighting {
            output: output.map(Power::from_si),
            mains_voltage: Some(Voltage::from_si(120.0)),
            mains_frequency: Some(Frequency::from_si(60.0)),
            ..Sighting::default()
        };
        judge(&sighting).transformer
    };
    let holds = |name: &str, low: f64, high: f64, value: f64| {
        assert!(low <= value && value <= high, "{name}: {low} {value} {high}");
    };
    let of_900 = seen(Some(900.0)).net_area;
    holds("area", of_900.low.cm2(), of_900.high.cm2(), 22.6 * 0.95);
    let any = seen(None).volts_per_turn;
    holds("volts per turn", any.low.si(), any.high.si(), 1.0);
    let of_600 = seen(Some(600.0)).volts_per_turn;
    holds("volts per turn, 600 W", of_600.low.si(), of_600.high.si(), 4.1 / 5.0);
}

/// The area of the guess and its volts per turn imply a flux density that steel can carry:
/// 4.44 f B A (any machines textbook) gives 1.2 to 1.9 T.
#[test]
fn area_and_volts_per_turn_agree() {
    for watts in [700.0, 1000.0, 1300.0, 1800.0] {
        for hertz in [50.0, 60.0] {
            let sighting = Sighting {
                microwave_input: Some(Power::from_si(watts)),
                mains_frequency: Some(Frequency::from_si(hertz)),
                ..Sighting::default()
            };
            let guess = judge(&sighting).transformer;
            let tesla = guess.volts_per_turn.likely.si() / (4.4429 * hertz * guess.net_area.likely.si());
            assert!((1.2..1.9).contains(&tesla), "{watts} W {hertz} Hz {tesla} T");
        }
    }
}

#[test]
fn a_combination_is_sized_from_its_microwave_part() {
    let grill = Sighting {
        kind: Some(OvenKind::Combination),
        whole_input: Some(Power::from_si(3400.0)),
        output: Some(Power::from_si(900.0)),
        ..Sighting::default()
    };
    let got = judge(&grill);
    assert!(got.reasons.contains(&Reason::SizedFromMicrowavePart));
    let alone = Sighting {
        kind: Some(OvenKind::Solo),
        whole_input: None,
        ..grill.clone()
    };
    assert_eq!(got.transformer, judge(&alone).transformer);
    let unknown = Sighting { output: None, ..grill };
    assert_eq!(
        judge(&unknown).ask.map(|q| q == Question::Power || q == Question::Word),
        Some(true)
    );
    assert!(judge(&unknown).transformer.input.high.si() < 2200.0, "not 3400 W");
}

#[test]
fn own_donors_move_and_narrow_the_guess() {
    let donor = |watts: f64, kilograms: f64| PastDonor {
        input: Power::from_si(watts),
        frequency: Frequency::from_si(50.0),
        mass: Some(Mass::from_si(kilograms)),
        net_area: Some(Area::from_cm2(26.0)),
        volts_per_turn: Some(VoltsPerTurn::from_si(0.95)),
        primary: Some(Metal::Aluminium),
    };
    let sighting = Sighting {
        microwave_input: Some(Power::from_si(1200.0)),
        ..Sighting::default()
    };
    let before = Experience::default().guess(&sighting);
    let after = Experience::learn(&[donor(1200.0, 5.5), donor(1100.0, 5.2), donor(1400.0, 6.1)]).guess(&sighting);
    assert_eq!(after.learned_from, 3);
    assert!(after.mass.likely > before.mass.likely && after.mass.likely.si() < 5.5);
    assert!(after.mass.high / after.mass.low < before.mass.high / before.mass.low);
    assert!(after.volts_per_turn.likely > before.volts_per_turn.likely);
    // Beta-binomial: (4 · 0.35 + 3) / (4 + 3).
    assert!((after.aluminium.si() - 4.4 / 7.0).abs() < 1e-12);
    let nonsense = PastDonor {
        input: Power::from_si(f64::NAN),
        ..donor(1.0, 1.0)
    };
    assert_eq!(Experience::learn(&[nonsense]), Experience::default());
}

#[test]
fn price_against_a_new_one() {
    let prices = Prices {
        new_per_100_va: Money::from_si(20.0),
        copper_per_kg: Money::from_si(15.0),
    };
    let at = |price: f64| {
        let sighting = Sighting {
            signs: signs(&[(Sign::Word, false), (Sign::CoreSeen, true)]),
            microwave_input: Some(Power::from_si(1200.0)),
            price: Some(Money::from_si(price)),
            ..Sighting::default()
        };
        size_up(&sighting, &Experience::default(), Some(&prices), &[], &[]).unwrap()
    };
    // 600 VA without a pause cost 120 new; the copper for a winding about 5.
    let cheap = at(10.0);
    assert_eq!(
        (cheap.verdict, cheap.pay_back.unwrap().pays),
        (VerdictWord::Take, Pays::Yes)
    );
    let likely = cheap.pay_back.unwrap().likely.si();
    assert!((likely - (120.0 - 4.13 * 0.08 * 15.0 - 10.0)).abs() < 1.5, "{likely}");
    assert_eq!(at(100.0).verdict, VerdictWord::LookCloser);
    assert_eq!(at(160.0).verdict, VerdictWord::Leave);
    assert_eq!(at(0.0).pay_back.unwrap().pays, Pays::Yes);
}

#[test]
fn uses_alone_and_with_the_shelf() {
    let want = |va: f64| Want {
        continuous: ApparentPower::from_si(va),
        may_share: true,
    };
    let shelf = [900.0, 450.0, 100.0].map(|va| ShelfDonor {
        continuous: ApparentPower::from_si(va),
    });
    let sighting = Sighting {
        signs: signs(&[(Sign::CoreSeen, true)]),
        microwave_input: Some(Power::from_si(1200.0)),
        ..Sighting::default()
    };
    let wants = [want(300.0), want(850.0), want(3000.0)];
    let got = size_up(&sighting, &Experience::default(), None, &wants, &shelf).unwrap();
    let how: Vec<_> = got.fits.iter().map(|fit| (fit.how, fit.shelf)).collect();
    assert_eq!(
        how,
        [
            (FitHow::Alone, None),
            (FitHow::WithShelf, Some(1)),
            (FitHow::TooSmall, None)
        ]
    );
    assert_eq!(got.verdict, VerdictWord::Take);
    let too_big = size_up(&sighting, &Experience::default(), None, &wants[2..], &shelf).unwrap();
    assert_eq!(too_big.verdict, VerdictWord::TakeForParts);
}

#[test]
fn numbers_off_the_label_are_refused() {
    let wrong = [
        Sighting {
            output: Some(Power::from_si(80.0)),
            ..Sighting::default()
        },
        Sighting {
            mains_voltage: Some(Voltage::from_si(12.0)),
            ..Sighting::default()
        },
        Sighting {
            weight: Some(Mass::from_si(f64::NAN)),
            ..Sighting::default()
        },
        Sighting {
            price: Some(Money::from_si(-1.0)),
            ..Sighting::default()
        },
    ];
    for sighting in wrong {
        assert!(
            size_up(&sighting, &Experience::default(), None, &[], &[]).is_err(),
            "{sighting:?}"
        );
    }
}

proptest! {
    /// Any subset of inputs gives a verdict with a reason, ordered ranges and a chance.
    #[test]
    fn any_subset_gives_a_verdict(
        kind in prop::option::of(0usize..3), seen in prop::collection::vec((0usize..4, any::<bool>()), 0..4),
        input in prop::option::of(300.0..4000.0), whole in prop::option::of(300.0..8000.0), output in prop::option::of(200.0..3000.0),
        weight in prop::option::of(5.0..60.0), age in prop::option::of(0u16..80), damage in prop::collection::vec(0usize..6, 0..3),
        price in prop::option::of(0.0..500.0), volts in prop::option::of(90.0..260.0),
    ) {
        let sighting = Sighting {
            kind: kind.map(|i| OvenKind::ALL[i]),
            signs: seen.into_iter().map(|(i, there)| (Sign::ALL[i], there)).collect(),
            microwave_input: input.map(Power::from_si),
            whole_input: whole.map(Power::from_si),
            output: output.map(Power::from_si),
            mains_voltage: volts.map(Voltage::from_si),
            weight: weight.map(Mass::from_si),
            age_years: age,
            damage: damage.into_iter().map(|i| Damage::ALL[i]).collect(),
            price: price.map(Money::from_si),
            ..Sighting::default()
        };
        let got = judge(&sighting);
        prop_assert!(!got.reasons.is_empty());
        prop_assert!((0.0..=1.0).contains(&got.iron_core));
        let mass = got.transformer.mass;
        prop_assert!(0.0 < mass.low.si() && mass.low < mass.likely && mass.likely < mass.high);
        // A price without prices to compare with is never a plain "take".
        prop_assert!(!(sighting.price.is_some_and(|p| p.si() > 0.0) && got.verdict == VerdictWord::Take));
    }
}
