//! The whole job in the window, by mouse and keyboard: a find, the teardown with each item of its
//! gates held, the core's measures, a winding, every test, the commissioning record. At the end the
//! program's memory is held against that of an empty window.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use curbcore::app::bench::{PRIMARY, form_of, plan_from_json, plan_of};
use curbcore::app::evaluation::evaluate;
use curbcore::app::now::now;
use curbcore::app::wind::wind_plan_from_json;
use curbcore::bench::{Bench, End, Phase, Prediction, Stage};
use curbcore::safety::Gate;
use curbcore::store::{JobProcedure, JobRun, Store};
use curbcore::teardown::{self, Field, Teardown, TeardownProcedure};
use curbcore::wind::{self, Wind, WindStep};

use super::{Display, PATIENCE, Running, Window};

/// High enough that no gate and no step has to be scrolled.
const SIZE: (u32, u32) = (900, 3200);

impl Window<'_> {
    fn data(&self) -> Store {
        Store::open_read_only(&self.folder).expect("the store is readable beside the app")
    }

    fn teardown(&self) -> Teardown {
        let store = self.data();
        let donor = store.donors().expect("a list").first().expect("a find").meta.id;
        let lines = store.teardown_lines(donor).expect("a history");
        let entries: Vec<_> = lines
            .iter()
            .map(|line| teardown::Entry::from_line(line).expect("a line"))
            .collect();
        Teardown::replay(TeardownProcedure, &entries).expect("a teardown")
    }

    /// The newest run of a procedure of the job.
    fn job_run(&self, of: JobProcedure) -> JobRun {
        let store = self.data();
        let job = store.job_summaries(1, None).expect("a list").first().expect("a job").id;
        store.job_run(job, of).expect("a run").expect("it has begun")
    }

    fn bench(&self) -> Bench {
        let run = self.job_run(JobProcedure::Bench);
        let entries: Vec<_> = run
            .lines
            .iter()
            .map(|line| curbcore::bench::Entry::from_line(line).expect("a line"))
            .collect();
        Bench::replay(plan_from_json(&run.plan).expect("a plan"), &entries).expect("tests")
    }

    fn winding(&self) -> Wind {
        let run = self.job_run(JobProcedure::Wind);
        let entries: Vec<_> = run
            .lines
            .iter()
            .map(|line| wind::Entry::from_line(line).expect("a line"))
            .collect();
        Wind::replay(wind_plan_from_json(&run.plan).expect("a plan"), &entries).expect("a winding")
    }

    fn wait_until(&self, what: &str, done: impl Fn() -> bool) {
        let until = Instant::now() + PATIENCE;
        while !done() {
            if Instant::now() > until {
                self.screenshot("stuck");
                panic!("it never came to this: {what}");
            }
            std::thread::sleep(Duration::from_millis(200));
        }
    }

    /// Where the gate's button is: the one thing on its screen as light as paper, as large as that.
    fn hold_button(&self) -> Option<(u32, u32)> {
        let path = self.screenshot("gate");
        let told = self.display.run(
            "convert",
            &[
                path.to_str()?,
                "-sample",
                "25%",
                "-fill",
                "black",
                "+opaque",
                "#ffffff",
                "-define",
                "connected-components:verbose=true",
                "-define",
                "connected-components:area-threshold=1200",
                "-connected-components",
                "4",
                "null:",
            ],
        )?;
        // "  1: 846x100+27+180 450.0,230.0 84600 gray(255)": the last light one above the others.
        let mut found: Vec<(u32, u32)> = told
            .lines()
            .filter(|line| line.contains("(255") || line.contains("white"))
            .filter_map(|line| {
                let (size, place) = line.split_whitespace().nth(1)?.split_once('+')?;
                let (wide, high) = size.split_once('x')?;
                let (left, top) = place.split_once('+')?;
                let number = |text: &str| text.parse::<u32>().ok();
                let (wide, high) = (number(wide)?, number(high)?);
                (wide > 75 && high > 20).then_some((4 * number(left)? + 2 * wide, 4 * number(top)? + 2 * high))
            })
            .collect();
        found.sort_by_key(|(_, y)| *y);
        found.first().copied()
    }

    /// Holds the gate's next item with the mouse, as long as it wants to be held.
    fn hold(&self, count: impl Fn() -> usize) {
        let before = count();
        let until = Instant::now() + PATIENCE;
        while count() == before {
            assert!(Instant::now() < until, "no item was confirmed");
            let Some((x, y)) = self.hold_button() else {
                // Gates that are renewed are a long list with the button at its end.
                let wheel = ["mousemove", "300", "400", "click", "--repeat", "8", "5"];
                self.display.run("xdotool", &wheel).expect("xdotool");
                std::thread::sleep(Duration::from_millis(300));
                continue;
            };
            let (x, y) = (x.to_string(), y.to_string());
            self.display
                .run("xdotool", &["mousemove", &x, &y, "mousedown", "1"])
                .expect("xdotool");
            std::thread::sleep(Duration::from_millis(1700));
            self.display.run("xdotool", &["mouseup", "1"]).expect("xdotool");
            std::thread::sleep(Duration::from_millis(400));
        }
        // From the store to pixels on the display.
        std::thread::sleep(Duration::from_millis(700));
    }

    /// A tap on the gate's button confirms nothing, but puts the keyboard there.
    fn tap_hold(&self) {
        let until = Instant::now() + PATIENCE;
        loop {
            if let Some((x, y)) = self.hold_button() {
                return self.click(x, y);
            }
            assert!(Instant::now() < until, "no gate is shown");
            std::thread::sleep(Duration::from_millis(300));
        }
    }

    /// Presses the button that goes on to the next step or stage.
    fn press_next(&self) {
        self.focus("class=\"row step-nav\"");
        self.key(&["Return"]);
        std::thread::sleep(Duration::from_millis(700));
    }
}

/// What a field of a step is answered with.
fn answer_to(field: Field) -> Option<&'static str> {
    Some(match field {
        Field::Supply => "transformer",
        Field::WindingAtBack => "high-voltage",
        Field::Way => "hacksaw",
        Field::Shunts => "leave-out",
        _ => return None,
    })
}

fn take_apart(window: &Window) -> usize {
    let mut held = 0;
    let lines = || window.teardown().history().len();
    for _ in 0..40 {
        let state = window.teardown();
        if matches!(state.phase(), teardown::Phase::Ended(_)) {
            return held;
        }
        let here = state.step(now());
        for field in here.guide(state.findings()).must_record {
            if let (Some(word), false) = (answer_to(*field), state.findings().has(*field)) {
                let before = lines();
                window.focus(&format!("data-word=\"{word}\""));
                window.key(&["Return"]);
                window.wait_until("an answer", || lines() > before);
            }
        }
        let before = lines();
        let next = window.teardown().next(here);
        window.press_next();
        let Some(next) = next else {
            window.wait_until("the end", || lines() > before);
            continue;
        };
        while let Some(gate) = window.teardown().gate_before(next, now()) {
            let state = window.teardown();
            let confirmed = state.confirmed(next, gate, now());
            let item = gate.items()[confirmed.len()];
            if gate == Gate::Capacitor && item == curbcore::safety::Item::ProvedByMeter {
                let before = lines();
                window.tap_hold();
                assert_eq!(lines(), before, "a tap confirms nothing");
                window.key(&["shift+Tab", "shift+Tab", "shift+Tab"]);
                for _ in 0..3 {
                    window.type_text("0.4");
                    window.key(&["Tab"]);
                }
            }
            window.hold(lines);
            held += 1;
        }
        window.wait_until("the step", || window.teardown().step(now()) == next);
    }
    panic!("the teardown has no end");
}

/// What the meters show of a good core: the middle of the band, or twice the least.
fn middle(prediction: &Prediction) -> f64 {
    let (low, high) = (prediction.low.si(), prediction.high.si());
    if high.is_infinite() {
        2.0 * low
    } else {
        f64::midpoint(low, high)
    }
}

fn typed(prediction: &Prediction) -> Vec<String> {
    let value = middle(prediction);
    let shown = |key: &str| match key {
        "ui-read-cold-ohms" => "1".to_owned(),
        // By the resistance method, with copper's 234.5.
        "ui-read-hot-ohms" => format!("{:.5}", 1.0 + value / 254.5),
        "ui-read-cold-at" | "ui-read-winding-at" | "ui-read-air" => "20".to_owned(),
        "ui-read-fed" | "ui-read-run-amps" => "10".to_owned(),
        "ui-read-other" => format!("{:.5}", 10.0 * value),
        // Four wires: 5 A, and the millivolts that they make.
        "ui-read-test-amps" => "5".to_owned(),
        "ui-read-drop" => format!("{:.4}", 5000.0 * value),
        "ui-read-megohms" => format!("{:.3}", value / 1e6),
        "ui-read-ohms" => format!("{value:.6} ohm"),
        "ui-read-amps" => format!("{value:.5} A"),
        _ => format!("{value:.5}"),
    };
    form_of(prediction).fields.iter().map(|(key, _)| shown(key)).collect()
}

/// Types what the meters show into the fields of a reading, and records it.
fn read(window: &Window, prediction: &Prediction, lines: impl Fn() -> usize) {
    let form = form_of(prediction);
    let before = lines();
    window.focus(&format!("id=\"{}-{}\"", form.fields[0].0, prediction.of));
    for text in typed(prediction) {
        window.type_text(&text);
        window.key(&["Tab"]);
    }
    if form.signed {
        window.key(&["Return", "Tab", "Tab"]);
    }
    window.key(&["Return"]);
    window.wait_until("a reading", || lines() > before);
}

/// What the meters should show of the primary alone.
fn of_primary(window: &Window) -> Vec<Prediction> {
    let file = window.job();
    let answer = evaluate(&file).expect("an answer");
    let plan = plan_of(&file, &answer).expect("a design").expect("a plan");
    [Stage::Continuity, Stage::Insulation]
        .into_iter()
        .flat_map(|stage| {
            plan.of_stage(stage)
                .filter(|row| row.of == PRIMARY)
                .copied()
                .collect::<Vec<_>>()
        })
        .collect()
}

/// Presses the counter with the space bar until all turns are wound.
fn wind_turns(window: &Window) {
    let turns = || window.winding().facts().counter.turns();
    let all = window.winding().plan().turns;
    window.focus("class=\"count-turn");
    while turns() < all {
        let before = turns();
        window.key(&["space"]);
        window.wait_until("a turn", || turns() > before);
    }
    assert_eq!(turns(), all);
}

/// Winds the core from its bare faces to the closed enclosure.
fn wind_it(window: &Window) -> usize {
    let mut held = 0;
    let lines = || window.winding().history().len();
    for _ in 0..30 {
        let state = window.winding();
        if matches!(state.phase(), wind::Phase::Ended(_)) {
            return held;
        }
        let here = state.step(now());
        match here {
            WindStep::ProvePrimary => {
                for prediction in of_primary(window) {
                    read(window, &prediction, lines);
                }
            }
            WindStep::WindTurns => {
                wind_turns(window);
                window.screenshot("wound");
            }
            WindStep::Choose => {
                let words = state.plan().core_opened.then_some("bolts").into_iter().chain(["tape"]);
                for word in words {
                    let before = lines();
                    window.focus(&format!("data-word=\"{word}\""));
                    window.key(&["Return"]);
                    window.wait_until("a choice", || lines() > before);
                }
            }
            _ => {}
        }
        let before = lines();
        let next = window.winding().next(here);
        window.press_next();
        let Some(next) = next else {
            window.wait_until("the end", || lines() > before);
            continue;
        };
        while window.winding().gate_before(next, now()).is_some() {
            window.hold(lines);
            held += 1;
        }
        window.wait_until("the step", || window.winding().step(now()) == next);
    }
    panic!("the winding has no end");
}

fn prove(window: &Window) -> usize {
    let mut held = 0;
    let lines = || window.bench().history().len();
    for _ in 0..30 {
        let bench = window.bench();
        if bench.phase() == Phase::Ended(End::Commissioned) {
            return held;
        }
        let here = bench.step(now());
        for prediction in bench.plan().of_stage(here) {
            read(window, prediction, lines);
        }
        let before = lines();
        let next = bench.next(here);
        window.press_next();
        let Some(next) = next else {
            window.wait_until("the record", || lines() > before);
            continue;
        };
        while window.bench().gate_before(next, now()).is_some() {
            window.hold(lines);
            held += 1;
        }
        window.wait_until("the stage", || window.bench().step(now()) == next);
    }
    panic!("the tests have no end");
}

/// The memory of a process and all that it started, in MB: each page by its share.
fn memory(root: u32) -> f64 {
    let mut of = vec![root];
    let mut at = 0;
    while at < of.len() {
        let tasks = PathBuf::from(format!("/proc/{}/task", of[at]));
        for task in std::fs::read_dir(tasks).into_iter().flatten().flatten() {
            let children = std::fs::read_to_string(task.path().join("children")).unwrap_or_default();
            of.extend(
                children
                    .split_whitespace()
                    .filter_map(|child| child.parse::<u32>().ok()),
            );
        }
        at += 1;
    }
    let share = |process: &u32| {
        let told = std::fs::read_to_string(format!("/proc/{process}/smaps_rollup")).ok()?;
        let line = told.lines().find(|line| line.starts_with("Pss:"))?;
        line.split_whitespace().nth(1)?.parse::<f64>().ok()
    };
    of.iter().filter_map(share).sum::<f64>() / 1024.0
}

/// The example of an empty window, built as this test was.
fn build_empty_window() -> PathBuf {
    let build = Command::new(env!("CARGO"))
        .args(["build", "--locked", "--example", "empty_window"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .status()
        .expect("cargo starts");
    assert!(build.success(), "the empty window builds");
    Path::new(env!("CARGO_BIN_EXE_curbcore"))
        .with_file_name("examples")
        .join("empty_window")
}

/// Memory of the empty window, settled.
fn empty_window(program: &Path, display: &Display, folder: &Path) -> f64 {
    let app = Command::new(program)
        .env("DISPLAY", &display.name)
        .env("CURBCORE_DATA", folder)
        .stderr(Stdio::null())
        .spawn()
        .expect("the empty window starts");
    let app = Running(app);
    std::thread::sleep(Duration::from_secs(8));
    memory(app.0.id())
}

#[test]
#[ignore = "takes a quarter of an hour: cargo test --test window from_a_find -- --ignored"]
fn from_a_find_to_a_proved_core() {
    let (folder, other) = (
        tempfile::tempdir().expect("a folder"),
        tempfile::tempdir().expect("a folder"),
    );
    let bare = build_empty_window();
    let display = Display::of_size(SIZE.0, SIZE.1);
    let window = Window::open(&display, folder.path(), SIZE);
    window.focus("id=\"ui-new-find\"");
    window.key(&["Return"]);
    window.wait_for("shown: size-up");
    std::thread::sleep(Duration::from_secs(2));
    window.focus(">Take the oven apart");
    window.key(&["Return"]);
    window.wait_for("shown: teardown");
    std::thread::sleep(Duration::from_secs(2));
    let held = take_apart(&window);
    window.screenshot("apart");

    window.focus(">Start a job");
    window.key(&["Return"]);
    // The outlet is asked for first, and the answer has the focus.
    std::thread::sleep(Duration::from_secs(2));
    window.key(&["Return"]);
    window.wait_for("shown: measure");
    std::thread::sleep(Duration::from_secs(2));
    window.focus("data-fold=\"lengths\"");
    window.key(&["Return"]);
    std::thread::sleep(Duration::from_secs(2));
    for (key, text) in [
        ("tongue", "38.1"),
        ("stack", "71"),
        ("window_width", "19"),
        ("window_height", "57"),
    ] {
        window.focus(&format!("id=\"core-{key}_mm\""));
        window.key(&["ctrl+a"]);
        window.type_text(text);
        window.key(&["Tab"]);
    }
    window.wait_until_saved("the measures", |job| {
        (job.core.window_height_mm.value - 57.0).abs() < 1e-9
    });
    window.go("rewind");
    window.focus("data-word=\"plain_supply\"");
    window.key(&["Return"]);
    window.wait_until_saved("the use", |job| job.goal.word() == "plain_supply");
    window.focus("id=\"take-winding\"");
    window.key(&["Return"]);
    window.wait_until_saved("the winding", |job| job.choice.is_some());
    window.go("wind");
    window.focus(">Begin the winding");
    window.key(&["Return"]);
    std::thread::sleep(Duration::from_secs(2));
    let wound = wind_it(&window);
    assert_eq!(window.winding().facts().counter.turns(), window.winding().plan().turns);
    // From the end of the winding its button leads on.
    std::thread::sleep(Duration::from_secs(2));
    window.focus(">Go to the bench");
    window.key(&["Return"]);
    window.wait_for("shown: bench");
    std::thread::sleep(Duration::from_secs(2));
    window.focus(">Begin the tests");
    window.key(&["Return"]);
    std::thread::sleep(Duration::from_secs(2));
    let more = prove(&window);
    std::thread::sleep(Duration::from_secs(2));
    window.screenshot("proved");
    assert!(window.bench().record().iter().all(|line| line.outcome.is_some()));
    assert!(
        held >= 15 && wound >= 5 && more >= 15,
        "{held}, {wound} and {more} items were held"
    );

    let used = memory(window.app.0.id());
    let empty = empty_window(&bare, &display, other.path());
    println!(
        "{held} + {wound} + {more} items held; {used:.0} MB after the whole job, {empty:.0} MB for an empty window"
    );
    assert!(used < 1.5 * empty, "{used:.0} MB, {empty:.0} MB for an empty window");
}
