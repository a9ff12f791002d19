//! Drawings against pictures that a person has looked at: `tests/golden/*.svg`.
//!
//! After a change that is meant, `CURBCORE_REDRAW=1 cargo test --test drawings` draws them again;
//! look at each before it is committed.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use curbcore::app::evaluation::evaluate;
use curbcore::app::start::{demo_job, goal_of};
use curbcore::bench::Stage;
use curbcore::job::{Goal, JobFile, Joining, PairChoice, RectifierKind};
use curbcore::quantity::LengthUnit;
use curbcore::report::draw::{Icon, icon};
use curbcore::report::{behaviour, core_picture, drawings, oven_becomes, oven_picture, stage_drawing, step_drawing};
use curbcore::teardown::Step;
use curbcore::text::Texts;

fn job(word: &str, with: impl FnOnce(&mut JobFile)) -> JobFile {
    let mut file = demo_job();
    if file.goal.word() != word {
        file.goal = goal_of(word);
        file.choice = None;
    }
    with(&mut file);
    file
}

/// A job's own drawings, without the styles that are written into each file.
fn own(name: &str, file: &JobFile, unit: LengthUnit, wanted: &[&str], into: &mut Vec<(String, String)>) {
    let answer = evaluate(file).unwrap();
    for (drawing, svg) in drawings(&answer, unit) {
        if wanted.contains(&drawing) {
            let (head, rest) = svg.split_once("<style>").unwrap();
            let (_, body) = rest.split_once("</style>").unwrap();
            into.push((format!("{name}-{drawing}"), format!("{head}{body}")));
        }
    }
}

fn all() -> Vec<(String, String)> {
    let texts = Texts::english().unwrap();
    let mut drawn = Vec::new();
    let welder = job("spot_welder", |_| ());
    let (mm, inch) = (LengthUnit::Millimetre, LengthUnit::Inch);
    own(
        "welder",
        &welder,
        mm,
        &["core", "section", "voltage", "wiring"],
        &mut drawn,
    );
    own("welder-inch", &welder, inch, &["section"], &mut drawn);
    let furnace = job("arc_furnace", |_| ());
    own("furnace", &furnace, mm, &["section", "wiring"], &mut drawn);
    let charger = job("battery_charger", |_| ());
    own("charger", &charger, mm, &["wiring"], &mut drawn);
    let tapped = job("plain_supply", |file| {
        file.conditions.rectifier = Some(RectifierKind::CentreTap);
        // Behind diodes with a reservoir this core gives less.
        if let Goal::PlainSupply { amps, .. } = &mut file.goal {
            *amps = 10.0;
        }
    });
    own("centre-tap", &tapped, mm, &["wiring"], &mut drawn);
    // What the parts do.
    let found = evaluate(&welder).unwrap();
    let mut told = |name: &str, figures: Vec<String>| {
        drawn.extend((1..).zip(figures).map(|(at, svg)| (format!("{name}-{at}"), svg)));
    };
    told("idle", behaviour::idle(found.idle().unwrap(), &texts).figures);
    told("inrush", behaviour::inrush(found.inrush().unwrap(), &texts).figures);
    told("shunts", behaviour::shunts(found.shunts().unwrap(), &texts).figures);
    told("heat", behaviour::heat(found.heat().unwrap(), &texts).figures);
    let direct = evaluate(&charger).unwrap().direct_current().unwrap().clone();
    told("charge", behaviour::direct_current(&direct, &texts).figures);
    let pair = job("spot_welder", |file| {
        file.conditions.pair = Some(PairChoice {
            name: "two".into(),
            core: Box::new(file.core.clone()),
            windings: Joining::Series,
        });
    });
    let joined = evaluate(&pair).unwrap();
    let pairing = joined.pair().unwrap();
    told("pair", behaviour::pairs(pairing, ["one", "two"], &texts).figures);
    drawn.extend(
        Step::ALL
            .iter()
            .map(|step| (format!("step-{}", step.word()), step_drawing(*step, &texts))),
    );
    drawn.extend(
        Stage::ALL
            .iter()
            .map(|stage| (format!("stage-{}", stage.word()), stage_drawing(*stage, &texts))),
    );
    drawn.push(("home-oven-becomes".to_owned(), oven_becomes(&texts)));
    drawn.push(("home-oven".to_owned(), oven_picture(&texts)));
    drawn.push((
        "home-core".to_owned(),
        core_picture(&found.problem.rebuild.core, &texts),
    ));
    drawn.extend(Icon::ALL.map(|of| (format!("icon-{of:?}").to_lowercase(), icon(of))));
    drawn
}

/// A number to a tenth: the last digit of a coordinate may differ from one machine to the next.
fn rounded(svg: &str) -> String {
    let mut out = String::with_capacity(svg.len());
    let mut rest = svg;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
        let length = rest[start..]
            .find(|c: char| !c.is_ascii_digit() && c != '.')
            .unwrap_or(rest.len() - start);
        let (number, after) = rest[start..].split_at(length);
        out.push_str(&rest[..start]);
        match number.parse::<f64>() {
            Ok(value) if number.contains('.') => out.push_str(&format!("{value:.1}")),
            _ => out.push_str(number),
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden")
}

#[test]
fn drawings_are_as_they_were_looked_at() {
    let redraw = std::env::var_os("CURBCORE_REDRAW").is_some();
    let mut names = BTreeSet::new();
    for (name, svg) in all() {
        let path = folder().join(format!("{name}.svg"));
        assert!(names.insert(path.clone()), "{name} is drawn twice");
        if redraw {
            std::fs::create_dir_all(folder()).unwrap();
            std::fs::write(&path, svg + "\n").unwrap();
            continue;
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        if rounded(kept.trim_end()) != rounded(svg.trim_end()) {
            let now = Path::new(env!("CARGO_MANIFEST_DIR")).join("artefacts/golden");
            std::fs::create_dir_all(&now).unwrap();
            std::fs::write(now.join(format!("{name}.svg")), svg).unwrap();
            panic!("{name} is drawn otherwise: artefacts/golden/{name}.svg");
        }
    }
    let kept: BTreeSet<PathBuf> = std::fs::read_dir(folder())
        .unwrap()
        .flatten()
        .map(|e| e.path())
        .collect();
    assert_eq!(kept, names, "tests/golden holds what is drawn, and nothing else");
}
