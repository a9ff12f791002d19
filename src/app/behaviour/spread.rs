//! The ± of what a job's core does, against draws of its inputs (JCGM 101:2008).

use std::fmt::Write as _;

use super::coil;
use super::heat::{Pulses, duty_of, heat, pulses_of, rises};
use super::heat_run::{Run, run};
use super::idle::{ReadIdle, idle_of};
use super::inductor::{heat_of, inductor};
use super::pairs::on_its_load;
use crate::app::basis::{Basis, basis};
use crate::app::start::{demo_job, goal_of};
use crate::job::{JobFile, Joining, LaminationGrade, PairChoice, Reading, RectifierKind};
use crate::magnetics::heat::RUNAWAY;
use crate::magnetics::heat::duty::{DutyAnswer, DutyNumber};
use crate::magnetics::idle::IdleDraw;
use crate::magnetics::inductor::InductorWork;
use crate::magnetics::inductor::heat::InductorWarmth;
use crate::magnetics::pairs::PairAnswer;
use crate::quantity::{Origin, Propagated, UncertainInputs, propagate};

const DRAWS: u32 = 3000;

/// What is told is within this part of what is drawn.
const WITHIN: f64 = 0.1;

/// Normal deviates, the same on every machine (`SplitMix64`, S. Vigna; Box and Muller).
struct Normal(u64);

impl Normal {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn next(&mut self) -> f64 {
        let u = self.uniform().max(1e-300);
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

/// Stands for the name of an answer that no reader sees.
const NOT_SHOWN: &str = "copper_loss";

/// Where the standard deviation of drawn answers is more than [`WITHIN`] off the one that is told.
fn off<T: UncertainInputs + Clone, const N: usize>(
    (what, draws): (&str, u32),
    part: &T,
    names: &[&str],
    told: &Propagated<N>,
    answer: impl Fn(&T) -> Option<[f64; N]>,
) -> String {
    let mut random = Normal(5);
    let (mut sum, mut squares, mut count) = ([0.0; N], [0.0; N], 0.0);
    for _ in 0..draws {
        let mut moved = part.clone();
        moved.visit(&mut |visited| {
            let drawn = *visited.si + visited.sigma * random.next();
            // What is above zero gets no lower than next to nothing: a gap that closes.
            let least = if *visited.si > 0.0 {
                1e-3 * *visited.si
            } else {
                f64::NEG_INFINITY
            };
            *visited.si = drawn.max(least);
        });
        let Some(got) = answer(&moved) else { continue };
        count += 1.0;
        for k in 0..N {
            let from = got[k] - told.value[k];
            sum[k] += from;
            squares[k] += from * from;
        }
    }
    assert!(count > 0.98 * f64::from(draws), "{what}: {count} answers");
    let mut failed = String::new();
    for k in 0..N {
        let sigma = (squares[k] / count - (sum[k] / count).powi(2)).max(0.0).sqrt();
        if names[k] == NOT_SHOWN {
            continue;
        }
        let scale = told.value[k].abs().max(1e-9);
        if sigma > 0.0 {
            println!("{what}: {}: {:.3}", names[k], told.sigma[k] / sigma);
        }
        if (sigma - told.sigma[k]).abs() > WITHIN * sigma + 1e-5 * scale {
            let _ = writeln!(
                failed,
                "{what}: {}: {} told, {sigma} drawn, of {}",
                names[k], told.sigma[k], told.value[k]
            );
        }
    }
    failed
}

fn job(word: &str, behind_diodes: bool) -> (JobFile, Basis) {
    let mut file = demo_job();
    if file.goal.word() != word {
        file.goal = goal_of(word);
        file.choice = None;
    }
    let goal = file.goal;
    file.conditions.want_as_much(&goal, true);
    file.conditions.rectifier = behind_diodes.then_some(RectifierKind::Bridge);
    let answer = basis(&file).unwrap();
    (file, answer)
}

/// No-load current, power, power factor and loss: steel unknown and known, gap assumed and measured, current
/// computed and read.
#[test]
fn idle_is_as_wide_as_drawn() {
    let mut failed = String::new();
    for (what, grade, gap, read) in [
        ("nothing known", None, None, None),
        ("steel known", Some(LaminationGrade::M530), None, None),
        ("gap known", Some(LaminationGrade::M530), Some(0.05), None),
        ("current read", None, None, Some(3.0)),
    ] {
        let mut file = demo_job();
        file.conditions.steel = grade;
        file.core.seam_gap_mm = gap.map(|mm| Reading::new(mm, 0.02, Origin::Calipers));
        file.core.primary.idle_current_a = read.map(|amps| Reading::new(amps, 0.1, Origin::Meter));
        let answer = basis(&file).unwrap();
        let told = super::idle::draw(&file, &answer).unwrap();
        let idle = idle_of(&file, &answer);
        failed += &match ReadIdle::of(&answer, &idle) {
            Some(read) => off((what, DRAWS), &read, IdleDraw::FIELDS, &told, |read| {
                Some(read.draw()?.to_si())
            }),
            None => off((what, DRAWS), &idle, IdleDraw::FIELDS, &told, |idle| {
                Some(idle.draw()?.to_si())
            }),
        };
    }
    assert!(failed.is_empty(), "{failed}");
}

/// A choke and a ballast.
#[test]
fn an_inductor_is_as_wide_as_drawn() {
    let mut failed = String::new();
    for word in ["choke", "ballast"] {
        let mut file = demo_job();
        file.goal = goal_of(word);
        file.choice = None;
        let answer = basis(&file).unwrap();
        let found = inductor(&file, &answer).unwrap().unwrap();
        let (_, told) = found.built.work_with_uncertainty().unwrap();
        let heat = heat_of(&file, &found.built).unwrap();
        let (_, warmth) = heat.warmth_with_uncertainty().unwrap();
        failed += &off((word, DRAWS), &heat, InductorWarmth::FIELDS, &warmth, |heat| {
            Some(heat.warmth()?.to_si())
        });
        failed += &off((word, DRAWS), &found.built, InductorWork::FIELDS, &told, |built| {
            Some(built.work()?.to_si())
        });
    }
    assert!(failed.is_empty(), "{failed}");
}

/// Two cores, in series and in parallel.
#[test]
fn a_pair_is_as_wide_as_drawn() {
    let mut failed = String::new();
    for windings in Joining::ALL {
        for behind_diodes in [false, true] {
            let (mut file, _) = job("stick_welder", behind_diodes);
            file.conditions.pair = Some(PairChoice {
                name: "the other".into(),
                core: Box::new(file.core.clone()),
                windings: *windings,
            });
            let answer = basis(&file).unwrap();
            let (pair, load) = on_its_load(&answer).unwrap();
            let (_, told) = pair.answer_with_uncertainty(load).unwrap();
            failed += &off((windings.word(), DRAWS), &pair, PairAnswer::FIELDS, &told, |pair| {
                Some(pair.answer(load)?.to_si())
            });
            // What flows in one winding is the design's own number, but for the no-load current's share.
            let told = pair.answer(load).unwrap().first_current;
            let own = answer.design.unwrap().estimate.winding_current.value;
            assert!(
                (told / own - 1.0).abs() < 0.02,
                "{windings:?} {behind_diodes}: {told:?} {own:?}"
            );
        }
    }
    assert!(failed.is_empty(), "{failed}");
}

/// Heat of every use, of some also behind diodes or of two cores: temperatures, times, permitted duty, a spot
/// welder's pulses and the rises that the bench expects, each that is told.
#[test]
fn heat_is_as_wide_as_drawn() {
    const RISES: usize = DutyAnswer::COUNT + Pulses::COUNT;
    let mut failed = String::new();
    for (word, behind_diodes, paired) in [
        ("spot_welder", false, false),
        ("battery_charger", true, false),
        ("stick_welder", false, false),
        ("stick_welder", true, false),
        ("stick_welder", false, true),
        ("arc_furnace", false, true),
        ("plasma_cutter", true, false),
        ("plain_supply", false, false),
    ] {
        let (mut file, mut answer) = job(word, behind_diodes);
        if paired {
            file.conditions.pair = Some(PairChoice {
                name: "the other".into(),
                core: Box::new(file.core.clone()),
                windings: Joining::Series,
            });
            answer = basis(&file).unwrap();
        }
        let (design, goal) = (answer.design.as_ref().unwrap(), answer.goal.as_ref().unwrap());
        let section = coil(&answer, design).section;
        let heat = heat(&file, &answer).unwrap();
        let of = |run: &Run| {
            let duty = duty_of(run)?;
            // What runs away has no temperature.
            if !heat.burns_out && duty[DutyNumber::WindingSteady.index()] >= RUNAWAY.si() {
                return None;
            }
            let pulses = pulses_of(run, goal, section).unwrap_or_default();
            let rises = rises(run, goal)?;
            let all = duty.into_iter().chain(pulses).chain(rises).collect::<Vec<_>>();
            <[f64; RISES + 2]>::try_from(all).ok()
        };
        let run = run(&file, &answer, design).unwrap();
        let told = propagate(&run, of).unwrap();
        let shown: Vec<_> = heat.numbers.iter().chain(&heat.cycle).map(|n| n.kind.name).collect();
        let names: Vec<&str> = DutyAnswer::FIELDS.iter().chain(Pulses::FIELDS).copied().collect();
        let names: Vec<&str> = names
            .into_iter()
            .map(|name| if shown.contains(&name) { name } else { NOT_SHOWN })
            .chain(["rise of the primary", "rise of the winding"])
            .collect();
        assert!(
            names.iter().filter(|name| **name != NOT_SHOWN).count() > 4,
            "{word}: {names:?}"
        );
        let what = format!("{word}, diodes {behind_diodes}, pair {paired}");
        failed += &off((&what, 300), &run, &names, &told, of);
    }
    assert!(failed.is_empty(), "{failed}");
}
