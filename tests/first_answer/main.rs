//! The first answer from a fresh start, counted in taps and entries through the virtual DOM.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.
#![cfg(feature = "ui")]

mod hand;

use hand::Hand;

/// An oven that was found: at most six taps, nothing typed, to a verdict either way.
#[test]
fn an_oven_has_its_verdict_in_six_taps() {
    for (answers, verdict) in [
        (&[("Iron block seen inside", "yes")][..], "Take it"),
        (
            &[
                ("The word \"inverter\"", "yes"),
                ("Circuit board seen inside", "yes"),
                ("Iron block seen inside", "no"),
            ],
            "Take it for parts",
        ),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let mut hand = Hand::open(folder.path());
        hand.tap_id("ui-new-find");
        for (question, word) in answers {
            hand.choose(question, word);
        }
        let shown = hand.words_of("verdict");
        assert!(
            matches!(shown.as_slice(), [shown] if shown.contains(&format!("{verdict}Chance"))),
            "{shown:?}"
        );
        assert!(hand.taps <= 6 && hand.entries == 0, "{} taps", hand.taps);
        println!("{verdict}: {} taps", hand.taps);
    }
}

/// A bare core: three entries to windings that rest on them.
#[test]
fn a_core_has_its_winding_in_three_entries() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = Hand::open(folder.path());
    hand.tap_id("ui-door-core");
    hand.tap("Start a job");
    let measure = |hand: &mut Hand, length: &str, value: &str| {
        hand.tap_id(&format!("on-core-{length}-mm"));
        hand.enter("sheet-value", value);
        hand.tap_id("sheet-save");
    };
    for (length, value) in [("tongue", "38"), ("stack", "72"), ("window-width", "19")] {
        measure(&mut hand, length, value);
    }
    hand.tap_id("stage-rewind");
    let windings = hand.words_of("answer-card");
    assert!(!windings.is_empty(), "{}", hand.words());
    assert!(
        hand.entries == 3 && hand.taps <= 9,
        "{} entries, {} taps",
        hand.entries,
        hand.taps
    );
    println!("{} entries, {} taps: {}", hand.entries, hand.taps, windings[0]);
    // They rest on what was entered: another core has others.
    hand.tap_id("stage-measure");
    measure(&mut hand, "stack", "40");
    hand.tap_id("stage-rewind");
    assert_ne!(windings, hand.words_of("answer-card"));
}
