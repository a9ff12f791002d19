//! The ± of what a job's core does, against draws of its inputs (JCGM 101:2008).

use std::fmt::Write as _;

use super::idle::{ReadIdle, idle_of};
use super::inductor::inductor;
use super::pairs::on_its_load;
use crate::app::basis::{Basis, basis};
use crate::app::start::{demo_job, goal_of};
use crate::job::{JobFile, Joining, LaminationGrade, PairChoice, Reading, RectifierKind};
use crate::magnetics::idle::IdleDraw;
use crate::magnetics::inductor::InductorWork;
use crate::magnetics::pairs::PairAnswer;
use crate::quantity::{Origin, Propagated, UncertainInputs};

const DRAWS: u32 = 3000;

/// In the steel's knee, and with a gap that may close, the answers are no straight lines of their inputs: what
/// is told is within 15 % of what is drawn, where elsewhere it is within a tenth.
const KNEE: f64 = 0.15;

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

/// Where the standard deviation of drawn answers is more than `within` off the one that is told.
fn off<T: UncertainInputs + Clone, const N: usize>(
    (what, within): (&str, f64),
    part: &T,
    names: &[&str],
    told: &Propagated<N>,
    answer: impl Fn(&T) -> Option<[f64; N]>,
) -> String {
    let mut random = Normal(5);
    let (mut sum, mut squares, mut count) = ([0.0; N], [0.0; N], 0.0);
    for _ in 0..DRAWS {
        let mut moved = part.clone();
        moved.visit(&mut |visited| {
            let drawn = *visited.si + visited.sigma * random.next();
            // What is above zero stays so.
            if *visited.si <= 0.0 || drawn > 0.0 {
                *visited.si = drawn;
            }
        });
        let Some(got) = answer(&moved) else { continue };
        count += 1.0;
        for k in 0..N {
            let from = got[k] - told.value[k];
            sum[k] += from;
            squares[k] += from * from;
        }
    }
    assert!(count > 0.98 * f64::from(DRAWS), "{what}: {count} answers");
    let mut failed = String::new();
    for k in 0..N {
        let sigma = (squares[k] / count - (sum[k] / count).powi(2)).max(0.0).sqrt();
        // No reader sees this part of the power.
        if names[k] == "copper_loss" {
            continue;
        }
        let scale = told.value[k].abs().max(1e-9);
        if (sigma - told.sigma[k]).abs() > within * sigma + 1e-5 * scale {
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
            Some(read) => off((what, KNEE), &read, IdleDraw::FIELDS, &told, |read| {
                Some(read.draw()?.to_si())
            }),
            None => off((what, KNEE), &idle, IdleDraw::FIELDS, &told, |idle| {
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
        failed += &off((word, KNEE), &found.built, InductorWork::FIELDS, &told, |built| {
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
            failed += &off((windings.word(), 0.1), &pair, PairAnswer::FIELDS, &told, |pair| {
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
