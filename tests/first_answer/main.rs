//! The first answer from a fresh start, counted in taps and entries through the virtual DOM.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.
#![cfg(feature = "ui")]

mod hand;

use hand::Hand;

/// An oven that was found: at most six taps, nothing typed, to a verdict either way.
#[test]
fn an_oven_has_its_verdict_in_six_taps() {
    for (answers, verdict) in [
        (&[("Iron block seen through the vents", "yes")][..], "Take it"),
        (
            &[
                ("The word \"inverter\"", "yes"),
                ("Circuit board seen through the vents", "yes"),
                ("Iron block seen through the vents", "no"),
            ],
            "Take it for parts",
        ),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let mut hand = Hand::open(folder.path());
        hand.tap("I found an oven");
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
    hand.tap("A bare core in hand");
    hand.tap("Start a job");
    for (id, value) in [
        ("core-tongue_mm", "38"),
        ("core-stack_mm", "72"),
        ("core-window_width_mm", "19"),
    ] {
        hand.enter(id, value);
    }
    hand.tap_id("stage-rewind");
    let windings = hand.words_of("winding-card");
    assert!(!windings.is_empty(), "{}", hand.words());
    assert!(
        hand.entries == 3 && hand.taps <= 6,
        "{} entries, {} taps",
        hand.entries,
        hand.taps
    );
    println!("{} entries, {} taps: {}", hand.entries, hand.taps, windings[0]);
    // They rest on what was entered: another core has others.
    hand.tap_id("stage-measure");
    hand.enter("core-stack_mm", "40");
    hand.tap_id("stage-rewind");
    assert_ne!(windings, hand.words_of("winding-card"));
}
