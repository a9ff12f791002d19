//! The table of cautions in DEVELOPERS.md is the one that the code holds.

use curbcore::bench::{Load, Stage};
use curbcore::safety::Hazard;
use curbcore::teardown::{Findings, Step, Way};
use curbcore::text::Texts;
use curbcore::wind::{Closing, Fixing, WindStep};

const BEGIN: &str = "<!-- cautions: kept by tests/house/cautions.rs -->\n";
const END: &str = "<!-- end of cautions -->";

fn table() -> String {
    let texts = Texts::english().unwrap();
    let mut table = String::from("| hazard | where it arises | gate | source |\n| --- | --- | --- | --- |\n");
    for hazard in Hazard::ALL {
        let gate = match hazard.stand_in() {
            Some(stand_in) => format!(
                "{}; until that is possible: {}",
                texts.text(hazard.gate().key()),
                texts.text(stand_in.key())
            ),
            None => texts.text(hazard.gate().key()),
        };
        let (name, arises) = (
            texts.text(hazard.key()),
            texts.text(&format!("{}.arises", hazard.key())),
        );
        table.push_str(&format!("| {name} | {arises} | {gate} | {} |\n", hazard.source()));
    }
    table
}

#[test]
fn the_table_in_the_guide_is_the_one_in_the_code() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/DEVELOPERS.md");
    let guide = std::fs::read_to_string(path).unwrap();
    let (_, after) = guide
        .split_once(BEGIN)
        .expect("DEVELOPERS.md has the cautions' begin mark");
    let (kept, _) = after.split_once(END).expect("DEVELOPERS.md has the cautions' end mark");
    let wanted = table();
    assert!(kept == wanted, "put this between the marks in DEVELOPERS.md:\n{wanted}");
}

/// Words of which a stage's caution has one for each of its hazards.
const fn named_by(hazard: Hazard) -> &'static [&'static str] {
    match hazard {
        Hazard::SharpEdges => &["edge", "sharp"],
        Hazard::HeavyPart => &["heavy and can fall"],
        Hazard::Fire => &["fire"],
        Hazard::HotSurface => &["hot"],
        Hazard::OldHighVoltage => &["old high-voltage winding"],
        Hazard::TesterVoltage => &["test voltage"],
        Hazard::SteppedUp => &["mains voltage", "high voltage"],
        Hazard::MainsOnBench => &["mains"],
        Hazard::HeavyCurrent => &["heavy current"],
        Hazard::OldInsulation => &["asbestos"],
        Hazard::FlyingPieces => &["fly"],
        Hazard::Dust => &["dust"],
        Hazard::Fumes | Hazard::WeldingFumes => &["fumes"],
        Hazard::ArcLight => &["arc burns"],
        Hazard::HeatLeftAlone => &["leave it alone"],
        Hazard::Hydrogen => &["hydrogen"],
        Hazard::WrongBattery => &["lithium"],
        Hazard::MoltenMetal => &["molten metal"],
        Hazard::CarbonMonoxide => &["carbon monoxide"],
        Hazard::PlasmaVoltage => &["torch"],
        _ => &[],
    }
}

/// Every stage of the bench names each of its hazards in the caution that stands open on it, whatever it
/// feeds, and a caution of a load begins with an order like any other.
#[test]
fn every_stage_shows_the_caution_of_each_hazard() {
    let texts = Texts::english().unwrap();
    let mut seen = 0;
    for &stage in Stage::ALL {
        for &load in Load::ALL {
            let of_load = load.caution_at(stage).map(|key| texts.text(key)).unwrap_or_default();
            let shown = format!("{} {of_load}", texts.text(&stage.guide().caution_key())).to_lowercase();
            for hazard in stage.hazards_under(load) {
                let words = named_by(hazard);
                assert!(
                    words.iter().any(|word| shown.contains(word)),
                    "{stage:?} under {load:?}: no word of {words:?} for {hazard:?} in {shown}"
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

/// The same for every step of the winding.
#[test]
fn every_step_of_the_winding_shows_the_caution_of_each_hazard() {
    let texts = Texts::english().unwrap();
    let mut seen = 0;
    for &step in WindStep::ALL {
        for (&closing, &fixing) in Closing::ALL.iter().zip(Fixing::ALL) {
            let guide = step.guide(Some(closing), Some(fixing));
            let shown = texts.text(&guide.caution_key()).to_lowercase();
            for hazard in guide.hazards {
                let words = named_by(hazard);
                assert!(
                    words.iter().any(|word| shown.contains(word)),
                    "{step:?}, {closing:?}, {fixing:?}: no word of {words:?} for {hazard:?} in {shown}"
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 60, "{seen}");
}

/// An action a line, at most twelve words each: steps of the teardown and stages of the bench alike.
#[test]
fn one_action_a_line() {
    let texts = Texts::english().unwrap();
    let ways = Way::ALL.iter().copied().map(Some);
    let steps = ways.flat_map(|way| {
        let findings = Findings {
            way,
            ..Findings::default()
        };
        Step::ALL.iter().map(move |step| step.guide(&findings).do_key())
    });
    let opened = [None, Some(true), Some(false)];
    let stages = Stage::ALL
        .iter()
        .flat_map(|stage| opened.map(|opened| stage.guide().do_key(opened)));
    let winding = WindStep::ALL.iter().flat_map(|step| {
        let both = Closing::ALL.iter().zip(Fixing::ALL);
        both.map(|(&closing, &fixing)| step.guide(Some(closing), Some(fixing)).do_key())
    });
    for key in steps.chain(stages).chain(winding) {
        for line in texts.text(&key).lines() {
            let words = line.split_whitespace().count();
            assert!((2..=12).contains(&words), "{key}: {words} words: {line}");
        }
    }
}
