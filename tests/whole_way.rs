//! The whole way of every use, screen by screen through the virtual DOM: a bare core is measured, a winding
//! chosen, wound turn by turn, proved at the bench, and the commissioning record stands on the page.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.
#![cfg(feature = "ui")]

#[path = "common/readings.rs"]
mod readings;

use std::cell::RefCell;
use std::path::Path;

use curbcore::app::guided::Blocked;
use curbcore::app::next_step::Next;
use curbcore::app::reach::Step;
use curbcore::app::workspace::Entry;
use curbcore::bench::{self, Plan, Stage};
use curbcore::job::{Goal, Joining, PairChoice, RectifierKind};
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::procedure::{Event, Phase, Refusal, Run};
use curbcore::store::Op;
use curbcore::text::Texts;
use curbcore::ui::{App, AppState, DataFolder, InHand, Screen};
use curbcore::wind::{Act, Closing, CoreOfPair, Fixing, PairPart, Reason, WindPlan, WindStep};
use curbcore::words::Word;
use dioxus::prelude::VirtualDom;
use readings::as_predicted;

/// The measures of the core, as a caliper reads them, and its primary.
const CORE: &[(&str, &str)] = &[
    ("core.tongue_mm", "38.1"),
    ("core.stack_mm", "71"),
    ("core.window_width_mm", "19"),
    ("core.window_height_mm", "57"),
    ("core.primary.height_mm", "22"),
    ("core.primary.wire_diameter_mm", "1.2"),
    ("core.primary.resistance_ohm", "0.45"),
];

/// A job on its way: what is done, and what each screen shows in a program that starts anew for it.
struct Way {
    folder: tempfile::TempDir,
    texts: Texts,
    of: &'static str,
    app: RefCell<Option<AppState>>,
}

impl Way {
    fn begin(of: &'static str) -> Self {
        Self {
            folder: tempfile::tempdir().unwrap(),
            texts: Texts::english().unwrap(),
            of,
            app: RefCell::new(None),
        }
    }

    /// Does something in the program, which starts on what is stored where it does not run.
    fn with<T>(&self, act: impl FnOnce(&mut AppState) -> T) -> T {
        let mut app = self.app.borrow_mut();
        act(app.get_or_insert_with(|| AppState::open(self.folder.path())))
    }

    /// The program ends, and the screen is what it shows when it starts again: no text missing.
    fn shown(&self) -> String {
        *self.app.borrow_mut() = None;
        let html = render(self.folder.path());
        for id in ["ui-", "wind-", "stage-", "gate-", "item-", "refusal-", "page-"] {
            let missing = html.find(&format!(">{id}"));
            let missing = missing.map(|at| html[at..].chars().take(60).collect::<String>());
            assert_eq!(missing, None, "{}: a text is missing", self.of);
        }
        html
    }

    /// The screen shows each of these texts.
    fn shows(&self, parts: &[&str]) {
        let html = self.shown();
        for part in parts {
            let part = part.replace('&', "&#38;").replace('\'', "&#39;");
            if !html.contains(&part) {
                keep(self.of, &html);
                panic!(
                    "{}: {part} is missing in artefacts/html/whole-way-{}.html",
                    self.of, self.of
                );
            }
        }
    }

    fn text(&self, key: &str) -> String {
        self.texts.text(key)
    }

    fn run<P: InHand>(&self) -> Run<P> {
        self.with(|app| app.run::<P>()).unwrap().unwrap()
    }

    /// Goes on to a step as the screen does: each gate before it is shown and held item by item, or renewed.
    fn go<P: InHand>(&self, step: P::Step) {
        for _ in 0..200 {
            match self.with(|app| app.event::<P>(Event::Go(step))) {
                Ok(()) => return,
                Err(Blocked::Refused(Refusal::GateNeeded { toward, gate })) => self.with(|app| {
                    let run = app.run::<P>().unwrap().unwrap();
                    let now = app.moment();
                    let event = if run.repeated(toward, now).is_empty() {
                        let item = gate.items()[run.confirmed(toward, gate, now).len()];
                        Event::Confirm { toward, item }
                    } else {
                        Event::Renew { toward }
                    };
                    app.event::<P>(event).unwrap();
                }),
                Err(other) => panic!("{}: {step:?}: {other}", self.of),
            }
        }
        panic!("{}: the gates before {step:?} have no end", self.of);
    }

    /// Walks the steps of a procedure in order: each is shown by its name with the way to the next, and
    /// `does` what it asks for; then it is finished.
    fn walk<P: InHand>(&self, finish: &str, does: impl Fn(&Self, P::Step)) {
        let steps = self.run::<P>().steps();
        for (at, &step) in steps.iter().enumerate() {
            if at > 0 {
                self.go::<P>(step);
            }
            does(self, step);
            let on = match steps.get(at + 1) {
                Some(next) => self.text(next.key()),
                None => self.text(finish),
            };
            self.shows(&[&self.text(step.key()), "class=\"caution\"", &on]);
        }
        self.with(|app| app.event::<P>(Event::Finish)).unwrap();
        assert!(matches!(self.run::<P>().phase(), Phase::Ended(_)), "{}", self.of);
    }

    /// Types numbers, each accepted.
    fn enter(&self, numbers: &[(&'static str, &'static str)]) {
        for &(path, text) in numbers {
            let entry = Entry {
                path,
                text,
                plus_minus: "",
                origin: None,
            };
            assert_eq!(self.with(|app| app.enter(&[entry])), None, "{}: {path}", self.of);
        }
    }

    /// From an empty shelf to a core with its measures.
    fn measure(&self) {
        self.with(|app| app.start_job("Bare core", &OUTLETS[0]));
        self.shows(&[&self.text("ui-measure-tap"), "usual, not measured"]);
        self.enter(CORE);
        self.shows(&["38.1", "71", "19", "57"]);
    }

    /// The use with targets that this core can meet, and a winding that fits.
    fn design(&self, targets: &[(&'static str, &'static str)]) {
        self.with(|app| {
            app.go(Screen::Rewind);
            app.set_use(self.of);
        });
        self.enter(targets);
        self.with(|app| match app.file().unwrap().goal {
            Goal::PlasmaCutter { .. } => app.set_goal(Op::ConfirmPlasma, confirmed(app)),
            Goal::BatteryCharger { .. } => app.set_goal(Op::ConfirmBattery, confirmed(app)),
            _ => {}
        });
        self.shown();
        let design = self.with(|app| {
            let design = app.answer().unwrap().unwrap().design.clone();
            if let Some(design) = &design {
                app.choose_candidate(&design.candidate);
            }
            design
        });
        let fits = design.is_none_or(|design| design.candidate.broken.is_empty());
        assert!(fits, "{}: the targets are beyond this core", self.of);
    }

    fn wind(&self) {
        self.with(|app| app.go(Screen::Wind));
        self.shows(&[&self.text("ui-wind-begin")]);
        self.with(AppState::begin_winding);
        self.walk::<WindPlan>("ui-wind-finish", wind_step);
        self.shows(&[&self.text("ui-wound"), &self.text("ui-to-bench")]);
        let run = self.run::<WindPlan>();
        assert_eq!(run.facts().counter.turns(), run.plan().turns, "{}", self.of);
    }

    fn prove(&self) {
        self.with(|app| app.go(Screen::Bench));
        self.shows(&[&self.text("ui-begin-tests")]);
        self.with(AppState::begin_tests);
        self.walk::<Plan>("ui-commission", read_stage);
        self.shows(&[&self.text("ui-commissioned"), &self.text("ui-record-title")]);
        let record = self.run::<Plan>().record();
        assert!(record.len() > 4, "{}", self.of);
        for line in record {
            assert!(line.outcome.is_some(), "{}: {:?}", self.of, line.prediction);
        }
        let lines = self.run::<Plan>().record().len();
        self.with(|app| app.go(Screen::Page));
        let page = self.shown();
        assert_eq!(page.matches(&self.text("page-in-band")).count(), lines, "{}", self.of);
    }
}

fn render(folder: &Path) -> String {
    let mut dom = VirtualDom::new(App).with_root_context(DataFolder(folder.to_owned()));
    dom.rebuild_in_place();
    dioxus_ssr::render(&dom)
}

/// Leaves a screen where it can be looked at.
fn keep(of: &str, html: &str) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("artefacts/html");
    let page = format!(
        "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" \
         content=\"width=device-width\"></head><body><div id=\"main\">{html}</div></body></html>"
    );
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(format!("whole-way-{of}.html")), page).unwrap();
}

/// The goal of the job in hand, its warning confirmed.
fn confirmed(app: &AppState) -> Goal {
    let mut goal = app.file().unwrap().goal;
    if let Goal::PlasmaCutter { confirmed, .. } | Goal::BatteryCharger { confirmed, .. } = &mut goal {
        *confirmed = true;
    }
    goal
}

/// What a step of the winding asks for; the program ends in the middle of a layer.
fn wind_step(way: &Way, step: WindStep) {
    let act = |act: Act| way.with(|app| app.event::<WindPlan>(Event::Act(act))).unwrap();
    match step {
        WindStep::ProvePrimary => {
            way.shows(&[&way.text("stage-continuity"), &way.text("stage-insulation")]);
            let band = way.run::<WindPlan>().plan().primary.unwrap();
            act(Act::PrimaryResistance(band.expected));
            act(Act::PrimaryInsulation(band.insulation));
        }
        WindStep::WindTurns => {
            let (turns, tapped) = {
                let run = way.run::<WindPlan>();
                (run.plan().turns, run.plan().tapped)
            };
            for turn in 0..turns {
                if tapped && turn == turns / 2 {
                    way.shows(&[&way.text("ui-tap-is-out")]);
                    act(Act::LeadTapOut);
                }
                if turn == turns / 2 {
                    way.shows(&[&format!("Turn {turn} of {turns}"), "class=\"count-turn", "<svg"]);
                }
                act(Act::Turn);
            }
        }
        WindStep::Choose => {
            act(Act::Closing(Closing::Bolts));
            act(Act::Fixing(Fixing::Tape));
        }
        _ => {}
    }
}

/// Readings as predicted, each in the band that the screen shows.
fn read_stage(way: &Way, stage: Stage) {
    let plan = way.run::<Plan>().plan().clone();
    for prediction in plan.of_stage(stage) {
        let (of, reading) = (prediction.of, as_predicted(prediction));
        way.with(|app| app.event::<Plan>(Event::Act(bench::Act::Read { of, reading })))
            .unwrap();
    }
}

fn from_bare_core_to_record(of: &'static str, targets: &[(&'static str, &'static str)]) {
    let way = Way::begin(of);
    way.measure();
    way.design(targets);
    way.wind();
    way.prove();
}

macro_rules! ways {
    ($( $test:ident: $of:literal, $targets:expr; )*) => { $(
        #[test]
        fn $test() {
            from_bare_core_to_record($of, $targets);
        }
    )* };
}

ways! {
    a_spot_welder: "spot_welder", &[];
    a_stick_welder: "stick_welder", &[];
    an_arc_furnace: "arc_furnace", &[];
    a_plasma_cutter: "plasma_cutter", &[];
    a_battery_charger: "battery_charger", &[("goal.charge_current_a", "10")];
    a_plain_supply: "plain_supply", &[("goal.amps", "10")];
    a_choke: "choke", &[("goal.dc_current_a", "10"), ("goal.ripple_a", "3")];
    a_ballast: "ballast", &[("goal.current_a", "4")];
}

/// A supply with a centre tap: both halves are wound, the tap led out between them.
#[test]
fn a_supply_with_a_centre_tap() {
    let way = Way::begin("plain_supply");
    way.measure();
    way.with(|app| {
        app.set_use("plain_supply");
        app.set_conditions(Op::Diodes, |conditions| {
            conditions.rectifier = Some(RectifierKind::CentreTap);
        });
    });
    way.design(&[("goal.amps", "8")]);
    way.wind();
    let run = way.run::<WindPlan>();
    assert!(run.plan().tapped && run.plan().turns.is_multiple_of(2));
    way.prove();
}

/// Two cores as one design: each is wound in steps of its own, with its own count, gates and proof of its
/// primary; both are joined before the enclosure, and the bench tests either and reads the phasing while the
/// last joint is open.
#[test]
fn a_pair() {
    let way = Way::begin("stick_welder");
    way.measure();
    way.with(|app| {
        let core = Box::new(app.file().unwrap().core.clone());
        app.take_steps(&[Step::Pair(PairChoice {
            name: "The second oven".into(),
            core,
            windings: Joining::Parallel,
        })]);
    });
    way.design(&[("goal.arc_current_a", "30")]);
    way.with(|app| app.go(Screen::Wind));
    way.shows(&[
        &way.text("ui-pair-on-first"),
        "The second oven",
        &way.text("ui-wind-begin"),
    ]);
    way.with(AppState::begin_winding);
    let steps = way.run::<WindPlan>().steps();
    let joint = steps.iter().position(|step| *step == WindStep::JoinPair).unwrap();
    for &step in &steps[..joint] {
        if step != WindStep::Prepare {
            way.go::<WindPlan>(step);
        }
        wind_step(&way, step);
    }
    way.go::<WindPlan>(WindStep::JoinPair);
    // The first core waits: the screen leads to the second, and nobody joins or encloses anything before.
    let refused = |way: &Way, with: Reason, done: Result<(), Blocked<WindPlan>>| match done {
        Err(Blocked::Refused(Refusal::Own(reason))) => assert_eq!(reason, with),
        other => panic!("{}: {other:?}", way.of),
    };
    refused(&way, Reason::SecondNotWound, way.with(AppState::join_pair));
    let on = way.with(|app| app.event::<WindPlan>(Event::Go(WindStep::Enclose)));
    refused(&way, Reason::PairNotJoined, on);
    // The program starts anew with what comes next: the second core, with no gate passed and no turn wound.
    way.shows(&["not begun", &way.text("ui-wind-begin")]);
    keep("second-core", &way.shown());
    assert_eq!(way.with(|app| app.wound_core()), CoreOfPair::Second);
    way.with(AppState::begin_winding);
    let second = way.run::<WindPlan>();
    assert_eq!(second.plan().pair, Some(PairPart::Second));
    assert_eq!(second.facts().counter.turns(), 0);
    let gated = way.with(|app| app.event::<WindPlan>(Event::Go(WindStep::CleanCore)));
    assert!(matches!(gated, Err(Blocked::Refused(Refusal::GateNeeded { .. }))));
    way.walk::<WindPlan>("ui-wind-finish", wind_step);
    // Both are wound: the first goes on where it stood.
    way.with(|app| app.go_on(Next::WindSecond));
    assert_eq!(way.with(|app| app.wound_core()), CoreOfPair::First);
    way.shows(&["class=\"drawing plot phasing\"", &way.text("ui-pair-is-joined")]);
    keep("pair", &way.shown());
    way.with(AppState::join_pair).unwrap();
    way.go::<WindPlan>(WindStep::Enclose);
    way.with(|app| app.event::<WindPlan>(Event::Finish)).unwrap();
    way.prove();
    way.shows(&["With the other core. Primaries: In parallel. New windings: In parallel."]);
    let phasing = way.run::<Plan>().record();
    let phasing = phasing.iter().find(|line| line.prediction.stage == Stage::PairPhasing);
    assert!(phasing.is_some_and(|line| line.outcome.is_some()));
}
