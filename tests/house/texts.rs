//! Every text that the guided parts ask for exists, and none lies unused.

use std::collections::BTreeSet;

use curbcore::bench::{self, Cause, Direction, Load, Stage};
use curbcore::safety::{Arises, Gate, Hazard, Item};
use curbcore::sizeup::{
    Damage, FitHow, OvenKind, PartWorth, Pays, PullPart, Question, Reason, Rust, Sign, VerdictWord,
};
use curbcore::store::Op;
use curbcore::teardown::{self, Air, End, Field, Findings, Note, Part, ShuntFate, Step, Supply, Tool, Way, Winding};
use curbcore::text::{ENGLISH, Texts};
use curbcore::wind::{self, Closing, Fixing, WindKind, WindStep, WindStepGuide};

/// The files whose texts belong to the guided parts.
const GUIDED: [&str; 5] = ["safety.ftl", "teardown.ftl", "wind.ftl", "bench.ftl", "sizeup.ftl"];

/// Ids that the files define: `message` and `message.attribute`.
fn defined() -> BTreeSet<String> {
    let mut ids = BTreeSet::new();
    for (_, content) in ENGLISH.iter().filter(|(file, _)| GUIDED.contains(file)) {
        let mut message = String::new();
        for line in content.lines() {
            let Some((left, _)) = line.split_once(" =") else {
                continue;
            };
            if let Some(attribute) = left.strip_prefix("    .") {
                ids.insert(format!("{message}.{attribute}"));
            } else if left.starts_with(|c: char| c.is_ascii_lowercase()) {
                left.clone_into(&mut message);
                ids.insert(message.clone());
            }
        }
    }
    ids
}

/// Ids that the steps, gates, verdicts and causes ask for.
fn asked() -> BTreeSet<String> {
    let mut ids = BTreeSet::new();
    let mut ask = |keys: Vec<&'static str>, attributes: &[&str]| {
        for key in keys {
            ids.insert(key.to_owned());
            ids.extend(attributes.iter().map(|attribute| format!("{key}.{attribute}")));
        }
    };
    let texts_of = |way| {
        let findings = Findings {
            way,
            ..Findings::default()
        };
        Step::ALL.iter().flat_map(move |step| {
            let guide = step.guide(&findings);
            let tool = guide.tool_key();
            [guide.do_key(), guide.wrong_key(), guide.caution_key()]
                .into_iter()
                .chain(tool)
        })
    };
    let ways = Way::ALL.iter().copied().map(Some).chain([None]);
    let mut of_steps: Vec<String> = ways.flat_map(texts_of).collect();
    for guide in wind_guides() {
        of_steps.extend([guide.do_key(), guide.wrong_key(), guide.caution_key()]);
    }
    macro_rules! all {
        ($($kind:ident $attributes:expr),* $(,)?) => {
            $( ask($kind::ALL.iter().map(|member| member.key()).collect(), &$attributes); )*
        };
    }
    ask(refusals(), &[]);
    all!(
        Hazard ["arises", "harm"], Arises [], Gate ["why"], Item ["stop"],
        Step [], Tool [], Field [], Supply [], Way [], Winding [], ShuntFate [],
        Part [], Note [], End ["next"], Air [],
        WindStep [], Closing [], Fixing [],
        Stage ["do", "wrong", "caution"], Direction [], Cause ["fix"],
        VerdictWord ["next"], Reason [], Question [], Sign [], Damage [], Rust [], OvenKind [],
        PullPart ["worth"], PartWorth [], FitHow [], Pays [],
    );
    ids.extend(of_steps);
    ids.insert(Stage::Reassembly.guide().do_key(Some(false)));
    for (load, caution) in Load::ALL.iter().filter_map(|load| Some((load, load.caution_key()?))) {
        ids.extend([load.key().to_owned(), caution.to_owned()]);
    }
    ids
}

/// The steps of the winding, however the core is closed and the winding fixed.
fn wind_guides() -> Vec<WindStepGuide> {
    let guides = |&step: &WindStep| {
        let closings = Closing::ALL.iter();
        closings.flat_map(move |&closing| {
            let fixings = Fixing::ALL.iter();
            fixings.flat_map(move |&fixing| WindKind::ALL.map(|kind| step.guide(kind, Some(closing), Some(fixing))))
        })
    };
    WindStep::ALL.iter().flat_map(guides).collect()
}

/// One refusal of each kind.
fn refusals() -> Vec<&'static str> {
    use curbcore::procedure::Reason as _;
    use curbcore::safety::ConfirmError;
    let (gate, item) = (Gate::Hands, Item::GlovesOn);
    let common = [
        teardown::Refusal::GateNeeded {
            toward: Step::Open,
            gate,
        },
        teardown::Refusal::NotFromHere { standing: Step::Open },
        teardown::Refusal::NotAskedHere,
        teardown::Refusal::OutOfRange { range: "" },
        teardown::Refusal::Item(ConfirmError::NotThisGate),
        teardown::Refusal::Item(ConfirmError::NotYet { first: item }),
        teardown::Refusal::Stopped,
        teardown::Refusal::Finished,
        teardown::Refusal::GoingOn,
    ];
    let of_teardown = [
        teardown::Reason::MustRecord(Field::Supply),
        teardown::Reason::NeedsReadings,
        teardown::Reason::NoReading,
        teardown::Reason::OnlyAtCapacitor,
    ];
    let of_bench = [
        bench::Reason::NotRead { of: 0 },
        bench::Reason::OutsideBand { of: 0 },
        bench::Reason::NoExplanation,
    ];
    let of_wind = [
        wind::Reason::SecondNotWound,
        wind::Reason::PrimaryNotMeasured,
        wind::Reason::PrimaryDamaged,
        wind::Reason::TurnsMissing,
        wind::Reason::AllWound,
        wind::Reason::NothingToTakeBack,
        wind::Reason::NoLayer,
        wind::Reason::FirstLayerFirst,
        wind::Reason::NotChosen,
        wind::Reason::WeldOverGap,
        wind::Reason::OffShelfAlready,
        wind::Reason::PairNotJoined,
        wind::Reason::NotOffShelf,
        wind::Reason::TapFirst,
        wind::Reason::NoTap,
    ];
    let common = common.iter().map(teardown::Refusal::key);
    let own = of_teardown.map(|reason| reason.key()).into_iter();
    let of_others = of_bench.map(|reason| reason.key()).into_iter();
    let of_wind = of_wind.map(|reason| reason.key());
    common.chain(own).chain(of_others).chain(of_wind).collect()
}

#[test]
fn every_text_exists_and_none_is_unused() {
    let (defined, asked) = (defined(), asked());
    let missing: Vec<_> = asked.difference(&defined).collect();
    let unused: Vec<_> = defined.difference(&asked).collect();
    assert!(missing.is_empty(), "missing: {missing:#?}");
    assert!(unused.is_empty(), "unused: {unused:#?}");
}

/// The undo button has a name for every operation, and no name lies unused.
#[test]
fn every_operation_has_its_name() {
    let (_, screens) = ENGLISH.iter().find(|(file, _)| *file == "screens.ftl").unwrap();
    let ids = screens
        .lines()
        .filter_map(|line| line.split_once(" =").map(|(id, _)| id));
    let names: BTreeSet<&str> = ids.filter(|id| id.starts_with("undo-")).collect();
    let number = Op::Number(&curbcore::job::fields::ALL[0]);
    let asked: BTreeSet<&str> = Op::ALL.iter().chain([&number]).map(|op| op.key()).collect();
    assert_eq!(names, asked);
}

#[test]
fn every_text_can_be_shown() {
    let texts = Texts::english().unwrap();
    for key in asked() {
        let text = texts.find(&key, &[]).unwrap_or_else(|| panic!("no text {key}"));
        assert!(text.len() > 2, "{key}");
    }
}

/// A step or stage with a hazard shows a caution; what it shows is asked for by the same keys.
#[test]
fn a_hazard_never_comes_without_a_caution() {
    let texts = Texts::english().unwrap();
    for &step in Step::ALL {
        let guide = step.guide(&Findings::default());
        for key in [guide.do_key(), guide.wrong_key(), guide.caution_key()] {
            assert!(texts.find(&key, &[]).is_some(), "{key}");
        }
    }
    for &stage in Stage::ALL {
        let guide = stage.guide();
        for key in [guide.do_key(None), guide.wrong_key(), guide.caution_key()] {
            assert!(texts.find(&key, &[]).is_some(), "{key}");
        }
    }
}

/// Nobody is told that it is safe: the app can't know.
#[test]
fn no_text_says_that_it_is_safe() {
    for (file, content) in ENGLISH {
        for line in content.lines().filter(|line| !line.starts_with('#')) {
            let lower = line.to_lowercase();
            for phrase in [
                "is safe",
                "safe now",
                "perfectly safe",
                "now safe",
                "no danger",
                "no risk",
            ] {
                assert!(!lower.contains(phrase), "{file}: {line}");
            }
        }
    }
}

/// What a sentence that forbids or asks for something begins with.
const ORDERS: &[&str] = &[
    "Hold",
    "Wear",
    "Let",
    "Follow",
    "Do",
    "Never",
    "Clear",
    "Disconnect",
    "Hands",
    "Keep",
    "Leave",
    "Look",
    "Stand",
    "Stay",
    "Switch",
    "Treat",
    "Unplug",
    "Vent",
    "Pull",
    "Store",
    "Choose",
    "Cut",
    "Wipe",
    "Clamp",
    "Stop",
    "Someone",
];

/// Every gate and every caution of a step, a stage or a load has a sentence that begins with an order: a
/// prohibition or an action, verb first.
#[test]
fn every_caution_orders_or_forbids() {
    let texts = Texts::english().unwrap();
    let gates = Gate::ALL.iter().map(|gate| format!("{}.why", gate.key()));
    let cautions = |way| {
        let findings = Findings {
            way,
            ..Findings::default()
        };
        Step::ALL.iter().map(move |step| step.guide(&findings).caution_key())
    };
    let steps = Way::ALL.iter().copied().map(Some).flat_map(cautions);
    let steps = steps.chain(wind_guides().into_iter().map(|guide| guide.caution_key()));
    let stages = Stage::ALL.iter().map(|stage| stage.guide().caution_key());
    let loads = Load::ALL
        .iter()
        .filter_map(|load| load.caution_key())
        .map(str::to_owned);
    for key in gates.chain(steps).chain(stages).chain(loads) {
        let text = texts.text(&key);
        let orders = text
            .split(['.', ':', ';', '\n'])
            .any(|sentence| ORDERS.contains(&sentence.trim().split(' ').next().unwrap_or_default()));
        assert!(orders, "{key} neither orders nor forbids: {text}");
    }
}

/// The cautions table: each hazard that a step or stage names arises there by its own account.
#[test]
fn hazards_arise_where_they_say() {
    for &step in Step::ALL {
        for hazard in step.guide(&Findings::default()).hazards {
            assert!(hazard.arises().contains(&Arises::Teardown), "{hazard:?} at {step:?}");
        }
    }
    for &stage in Stage::ALL {
        for hazard in stage.guide().hazards {
            assert!(hazard.arises().contains(&Arises::Bench), "{hazard:?} at {stage:?}");
            assert!(stage.gates().contains(&hazard.gate()), "{hazard:?} at {stage:?}");
        }
    }
    for guide in wind_guides() {
        for hazard in guide.hazards {
            assert!(
                hazard.arises().contains(&Arises::Wind),
                "{hazard:?} at {:?}",
                guide.step
            );
            assert!(guide.gates.contains(&hazard.gate()), "{hazard:?} at {:?}", guide.step);
        }
    }
    for &part in PullPart::ALL {
        for hazard in part.hazards() {
            assert!(hazard.arises().contains(&Arises::Parts), "{hazard:?} of {part:?}");
        }
    }
}

/// Every text that a file of `rooms` asks for by name is in one of `files`, and none lies there
/// unused. Such names start with one of `prefixes`.
fn exist_and_are_used(files: &[&str], rooms: &[&str], prefixes: &[&str]) {
    let named = |id: &str| prefixes.iter().any(|prefix| id.starts_with(prefix));
    let mut asked = BTreeSet::new();
    let src = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut folders: Vec<_> = rooms.iter().map(|room| src.join(room)).collect();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let code = std::fs::read_to_string(&path).unwrap();
            for part in code.split('"').filter(|part| named(part) && !part.contains('{')) {
                asked.insert(part.trim_end_matches('\\').to_owned());
            }
        }
    }
    let there: BTreeSet<String> = ENGLISH
        .iter()
        .filter(|(file, _)| files.contains(file))
        .flat_map(|(_, content)| content.lines())
        .filter_map(|line| line.split_once(" =").map(|(id, _)| id.to_owned()))
        .filter(|id| named(id))
        .collect();
    let missing: Vec<_> = asked.difference(&there).collect();
    // What an error is about is named by its own word.
    let by_word = |id: &&String| !id.starts_with("refused-what-");
    let unused: Vec<_> = there.difference(&asked).filter(by_word).collect();
    assert!(
        missing.is_empty() && unused.is_empty(),
        "missing {missing:?}, unused {unused:?}"
    );
    assert!(!there.is_empty());
}

#[test]
fn the_screens_own_texts_exist_and_are_used() {
    exist_and_are_used(&["screens.ftl"], &["ui", "app", "report"], &["ui-"]);
}

#[test]
fn the_drawings_words_exist_and_are_used() {
    exist_and_are_used(&["drawings.ftl"], &["report/draw"], &["drawn-", "drawing-"]);
}

#[test]
fn the_refusals_exist_and_are_used() {
    exist_and_are_used(
        &["refusals.ftl"],
        &[
            "quantity",
            "wire",
            "photo",
            "job",
            "merge",
            "exchange",
            "store",
            "sizeup",
            "teardown",
            "magnetics",
            "app",
            "ui",
        ],
        &[
            "refused-",
            "summary-",
            "assumed-",
            "plan-no",
            "plan-too-hot",
            "plan-fault",
            "photo-too-flat",
            "photo-small-reference",
            "photo-does-not-fit",
            "photo-uneven",
            "photo-lean",
            "photo-tilt",
            "page-saved-as",
        ],
    );
}
