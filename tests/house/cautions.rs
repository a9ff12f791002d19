//! The table of cautions in DEVELOPERS.md is the one that the code holds.

use curbcore::bench::{Load, Stage};
use curbcore::safety::Hazard;
use curbcore::teardown::{Findings, Step, Way};
use curbcore::text::Texts;
use curbcore::wind::{Closing, Fixing, WindKind, WindStep};

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
        Hazard::ArcLight => &["arc burns", "arc's light"],
        Hazard::HeatLeftAlone => &["leave the core alone", "leave the part alone"],
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
        let ways = Closing::ALL.iter().zip(Fixing::ALL);
        for (kind, (&closing, &fixing)) in WindKind::ALL
            .into_iter()
            .flat_map(|kind| ways.clone().map(move |way| (kind, way)))
        {
            let guide = step.guide(kind, Some(closing), Some(fixing));
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
        both.flat_map(|(&closing, &fixing)| {
            WindKind::ALL.map(|kind| step.guide(kind, Some(closing), Some(fixing)).do_key())
        })
    });
    for key in steps.chain(stages).chain(winding) {
        for line in texts.text(&key).lines() {
            let words = line.split_whitespace().count();
            assert!((2..=12).contains(&words), "{key}: {words} words: {line}");
        }
    }
}

/// What the texts at the worst places must say, whoever rewrites them: the text's id, and phrases that are
/// all in it.
const MUST_SAY: &[(&str, &[&str])] = &[
    // No supply on a core with its old winding.
    (
        "ui-turns-caution",
        &["No supply of any kind", "old winding", "Never probe"],
    ),
    ("ui-old-winding-help", &["label only", "Never probe"]),
    ("term-secondary.means", &["Never probe"]),
    ("ui-test-turn-caution", &["24 V a.c. at most", "isolated", "fused"]),
    ("ui-test-turn-clamp", &["Clamp E and I together"]),
    ("ui-idle-test-caution", &["bench stage", "behind its gates"]),
    (
        "page-caution-old-winding",
        &["old high-voltage winding", "before any mains"],
    ),
    // After a blown fuse.
    (
        "stage-mains-idle.wrong",
        &[
            "pull the plug",
            "lamp test",
            "time-delay fuse of the same rating",
            "Never fit a bigger fuse",
        ],
    ),
    // The capacitor: tool, order, hand, time, meter.
    (
        "step-capacitor-safe.tool",
        &[
            "resistors rated for high voltage",
            "insulated handle",
            "two prongs",
            "oven chassis",
            "screwdriver is no such tool",
        ],
    ),
    (
        "step-capacitor-safe.do",
        &[
            "one hand behind your back",
            "known source",
            "oven chassis",
            "Count slowly to ten",
            "magnetron terminal",
            "known source again",
            "clip lead",
        ],
    ),
    (
        "step-capacitor-safe.wrong",
        &[
            "in-line high-voltage fuse",
            "capacitor is charged",
            "creeps back by itself",
            "also where the bleeder is whole",
        ],
    ),
    (
        "step-capacitor-safe.caution",
        &[
            "bulges or leaks",
            "whole to hazardous waste",
            "Do not trust gloves against shock",
        ],
    ),
    (
        "gate-capacitor.why",
        &["in this order", "one hand", "Waiting does not discharge it"],
    ),
    (
        "item-chassis-clip-on",
        &["bare metal of the oven chassis", "other hand is behind my back"],
    ),
    ("item-first-terminal", &["slow count of ten"]),
    ("item-second-terminal", &["slow count of ten"]),
    ("item-across-terminals", &["slow count of ten"]),
    ("item-meter-proved-again", &["known source again straight after"]),
    ("ui-contact-time", &["slow count of ten"]),
    ("item-gloves-on", &["do not protect from shock"]),
    // Welding, plating, solvents, implants.
    ("item-helmet-on", &["welding helmet", "shade 10"]),
    ("item-bystanders-screened", &["everyone else"]),
    ("item-bare-steel", &["no zinc, cadmium, paint or varnish"]),
    ("item-no-chlorinated-cleaner", &["chlorinated cleaner"]),
    ("item-no-implant-at-current", &["pacemaker"]),
    ("item-no-implant-at-arc", &["pacemaker"]),
    (
        "warning-arc-light",
        &[
            "welding helmet",
            "zinc or cadmium plating",
            "chlorinated solvent",
            "bystanders",
        ],
    ),
    ("warning-heavy-current", &["Clamp the leads down", "pacemaker"]),
    // Battery and furnace.
    ("item-lead-acid-only", &["lead-acid, never lithium"]),
    ("item-eyes-for-acid", &["goggles"]),
    (
        "ui-battery-caution",
        &[
            "Lead-acid only, never lithium",
            "hydrogen",
            "eye protection",
            "Fuse at the battery",
        ],
    ),
    (
        "warning-battery-gas",
        &[
            "Lead-acid only, never lithium",
            "hydrogen",
            "eye protection",
            "Switch off before you clip",
        ],
    ),
    ("item-charge-dry", &["dry and warm"]),
    ("item-dry-floor", &["Dry sand"]),
    ("item-furnace-outdoors", &["carbon monoxide"]),
    // Old insulation, dust mask, grinder.
    ("item-no-grey-felt", &["grey or white", "woven or felted"]),
    ("gate-old-insulation.why", &["Do not cut, warm, scrape or brush"]),
    ("item-dust-mask-on", &["FFP2, N95 or better"]),
    ("item-disc-rated", &["rated at least for the grinder's speed"]),
    ("item-guard-on", &["side handle", "both my hands"]),
    ("item-grinder-unplugged", &["unplug the grinder each time"]),
    ("item-fire-watch", &["one hour after"]),
    // The bench's own tests.
    ("stage-insulation.do", &["500 V d.c."]),
    (
        "stage-continuity.do",
        &["1 to 10 A d.c.", "millivolts at the winding's own ends"],
    ),
    (
        "ui-four-wire",
        &["1 to 10 A d.c.", "millivolts at the winding's own ends"],
    ),
    ("stage-lamp-idle.do", &["watts of your filament lamp"]),
    ("cause-wrong-lamp.fix", &["Filament lamp, not LED"]),
    (
        "step-inspect.do",
        &["copper-clad aluminium is red only outside", "usually tied to the core"],
    ),
    ("ui-inductor-caution", &["unplug, change the spacer, and measure again"]),
    // The page.
    ("page-work-leads-strip", &["Drill and deburr", "Bolt"]),
    ("page-work-leads-strip-aluminium", &["joint compound", "Bolt"]),
    ("page-work-leads-aluminium", &["joint compound"]),
    // Teardown.
    ("step-open.do", &["Security screws"]),
    (
        "step-unbolt.do",
        &["on its back", "usually four, all but one", "Take the weight"],
    ),
    ("step-disconnect.do", &["usually four or five"]),
    (
        "step-keep-parts.do",
        &["cord", "fan", "door switches", "thermal cut-outs"],
    ),
    (
        "step-split.do-saw",
        &[
            "1.6 mm (1/16 in)",
            "deeper at the corners",
            "drift on the I",
            "warm the core first",
        ],
    ),
    (
        "step-remove.do-apart",
        &[
            "thin blade round the tongue",
            "evenly on both sides",
            "straight off",
            "Never strike the wire",
            "Snip the few insulated turns",
            "punch, while warm",
            "layer by layer with pliers",
            "old card",
        ],
    ),
    ("note-primary-goes-back", &["where it was, in front"]),
    ("page-work-primary-back", &["Where it was, in front"]),
];

#[test]
fn the_texts_say_what_protects() {
    let texts = Texts::english().unwrap();
    for (key, phrases) in MUST_SAY {
        let text = texts.text(key);
        for phrase in *phrases {
            assert!(text.contains(phrase), "{key} does not say \"{phrase}\": {text}");
        }
    }
}

/// What the teardown's own texts ask for lies on the bench before the oven is opened.
#[test]
fn the_first_step_lays_out_what_the_capacitor_asks_for() {
    let tools = Step::Prepare.guide(&Findings::default()).tools;
    for tool in Step::CapacitorSafe.guide(&Findings::default()).tools {
        assert!(tools.contains(&tool), "{tool:?}");
    }
}
