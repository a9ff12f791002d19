//! A series of rendered photos: what is found in each, what is measured, and how often both are right.

use std::fmt::Write as _;
use std::path::PathBuf;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use curbcore::app::photo::{Opened, measured};
use curbcore::job::{DimensionMark, PhotoFound, Place};
use curbcore::photo::Point;

use super::scenes::Plan;

/// How far a person's point is from where it was meant, each way: the ± of 1.5 pixels (k = 2) that
/// the program takes for a marked point.
const HAND: f64 = 0.75;
/// A snapped point farther off than this is seen in the close-up and set by hand.
const SEEN: f64 = 3.0;

/// A length that was measured.
pub struct Length {
    what: &'static str,
    truth: f64,
    got: f64,
    plus_minus: f64,
}

impl Length {
    fn within(&self) -> bool {
        (self.got - self.truth).abs() <= self.plus_minus
    }

    fn part(&self) -> f64 {
        (self.got / self.truth - 1.0).abs()
    }
}

/// What became of one photo.
pub struct Outcome {
    number: u64,
    name: &'static str,
    /// Largest distance of the found outline from the true one, in pixels; none where none was found.
    off: Option<f64>,
    /// What of it the pixels, the reference's rim and its thickness excuse.
    excused: f64,
    /// Distances of the target's corners from the true ones, in pixels.
    corners: Vec<f64>,
    flags: Vec<String>,
    lengths: Vec<Length>,
    refused: Option<String>,
    straight: bool,
}

impl Outcome {
    fn right(&self) -> bool {
        self.off.is_some_and(|off| off <= self.excused)
    }

    /// A wrong find that nothing was said about and that gives a length beyond its ±.
    fn wrong_silently(&self) -> bool {
        self.off.is_some() && !self.right() && self.flags.is_empty() && !self.lengths.iter().all(Length::within)
    }

    fn line(&self) -> String {
        let mut line = format!("{} {} ", self.number, self.name);
        let _ = match self.off {
            Some(off) => write!(
                line,
                "{} {off:.2} of {:.2} px",
                if self.right() { "found" } else { "WRONG" },
                self.excused
            ),
            None => write!(
                line,
                "MISSED {}",
                self.refused
                    .as_deref()
                    .unwrap_or_default()
                    .split('.')
                    .next()
                    .unwrap_or_default()
            ),
        };
        let _ = write!(line, " {:?}", self.flags);
        for length in &self.lengths {
            let beyond = if length.within() { "" } else { "!" };
            let _ = write!(
                line,
                " {} {:.2} is {:.2}±{:.2}{beyond}",
                length.what, length.truth, length.got, length.plus_minus
            );
        }
        line
    }
}

/// The bytes of a scene's photo; kept where `PICTURES` names a folder.
fn photo(plan: &Plan, seed: u64, number: u64) -> Vec<u8> {
    let Ok(folder) = std::env::var("PICTURES") else {
        return plan.scene.photo();
    };
    let path = PathBuf::from(folder).join(format!("{seed}-{number}.jpg"));
    std::fs::read(&path).unwrap_or_else(|_| {
        let bytes = plan.scene.photo();
        std::fs::write(&path, &bytes).unwrap();
        bytes
    })
}

/// Takes one photo and measures in it as a person does.
pub fn outcome(seed: u64, number: u64, long: Option<usize>) -> Outcome {
    let mut plan = Plan::of(seed, number, long);
    let bytes = photo(&plan, seed, number);
    let opened = Opened::new(&bytes).unwrap();
    let mut marks = opened.fresh(plan.reference.clone());
    assert_eq!(
        marks.frame,
        [plan.scene.camera.width as f64, plan.scene.camera.height as f64]
    );
    if let Some(height) = plan.height {
        marks.height_mm = height;
    }
    let mut outcome = Outcome {
        number,
        name: plan.name,
        off: None,
        excused: excused(&plan),
        corners: Vec::new(),
        flags: Vec::new(),
        lengths: Vec::new(),
        refused: None,
        straight: !plan.straight.is_empty(),
    };
    match opened.find(&plan.reference) {
        Ok(seen) => {
            outcome.off = Some(off(&plan, &seen.found));
            outcome.corners = corner_offs(&plan, &seen.found);
            if seen.doubtful {
                outcome
                    .flags
                    .extend(seen.doubts.iter().map(|doubt| (*doubt).to_owned()));
            }
            marks.found = Some(seen.found);
        }
        Err(message) => {
            outcome.refused = Some(message);
            return outcome;
        }
    }
    let snaps = number.is_multiple_of(2);
    // The face's corners are marked first where they are in sight; edges that are straight where
    // the person sees that they are bent.
    let hand = |plan: &mut Plan, place| {
        let [x, y] = plan.sees(place);
        [x + HAND * plan.hand.normal(), y + HAND * plan.hand.normal()]
    };
    marks.face = plan.face().map(|corners| corners.map(|corner| hand(&mut plan, corner)));
    for edge in plan.straight.clone() {
        marks
            .straight
            .push(edge.into_iter().map(|place| hand(&mut plan, place)).collect());
    }
    for (dimension, ends, _) in &plan.spans.clone() {
        let truth = ends.map(|end| plan.sees(end));
        let points = [0, 1].map(|end| put(&mut plan, &opened, truth[end], truth[1 - end], snaps));
        marks.marks.push(DimensionMark {
            dimension: (*dimension).to_owned(),
            points: points.to_vec(),
        });
    }
    match measured(&marks) {
        Ok(answer) => {
            outcome
                .flags
                .extend(answer.warnings.iter().filter(|warning| is_alarm(warning)).cloned());
            for ((what, _, truth), row) in plan.spans.iter().zip(sorted(&plan, answer.rows)) {
                if let Ok(reading) = row.reading {
                    outcome.lengths.push(Length {
                        what,
                        truth: *truth,
                        got: reading.value,
                        plus_minus: reading.plus_minus,
                    });
                }
            }
        }
        Err(message) => outcome.refused = Some(message),
    }
    outcome
}

/// What is said of every disc is no alarm.
fn is_alarm(warning: &str) -> bool {
    !warning.starts_with("A disc does not show")
}

fn sorted(plan: &Plan, rows: Vec<curbcore::app::photo::PhotoRow>) -> Vec<curbcore::app::photo::PhotoRow> {
    let row = |what: &str| rows.iter().find(|row| row.dimension == what).unwrap().clone();
    plan.spans.iter().map(|(what, ..)| row(what)).collect()
}

/// A point as a person sets it: on the edge with the program's help, or by hand where that help is
/// not wanted or is seen to be wrong.
fn put(plan: &mut Plan, opened: &Opened, truth: Place, other: Place, snaps: bool) -> Place {
    let hand = &mut plan.hand;
    let mut near = |sigma: f64| [truth[0] + sigma * hand.normal(), truth[1] + sigma * hand.normal()];
    let (rough, fine) = (near(2.5), near(HAND));
    let way = Point::new(other[0] - truth[0], other[1] - truth[1]);
    let snapped = opened.snapped(rough);
    let across = Point::new(snapped[0] - truth[0], snapped[1] - truth[1]).dot(way) / way.length();
    if snaps && across.abs() < SEEN { snapped } else { fine }
}

/// How far a found outline may be from that of the upper face and still be the reference's: its rim
/// as this camera sees it, and two pixels of a photo of 1200.
fn excused(plan: &Plan) -> f64 {
    let thing = &plan.scene.things[plan.object];
    let long = plan.scene.camera.width.max(plan.scene.camera.height) as f64;
    let rim = plan.outline().into_iter().map(|[x, y, _]| {
        let at = |height: f64| plan.scene.camera.sees([x, y, height]);
        at(thing.high).distance(at(thing.high - plan.thickness()))
    });
    2.0 * (long / 1200.0).max(0.5) + 1.1 * rim.fold(0.0, f64::max)
}

/// Largest distance of what was found from the truth, in pixels.
fn off(plan: &Plan, found: &PhotoFound) -> f64 {
    let truth: Vec<Point> = plan
        .outline()
        .into_iter()
        .map(|place| plan.scene.camera.sees(place))
        .collect();
    match found {
        PhotoFound::Rectangle { corners } => {
            let corners = corners.map(|[x, y]| Point::new(x, y));
            let turned = |by: usize| {
                (0..4)
                    .map(|k| corners[(k + by) % 4].distance(truth[k]))
                    .fold(0.0, f64::max)
            };
            (0..4).map(turned).fold(f64::INFINITY, f64::min)
        }
        PhotoFound::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let (sine, cosine) = angle.sin_cos();
            let outside = |place: &Point| {
                let from = *place - Point::new(centre[0], centre[1]);
                let (x, y) = (from.x * cosine + from.y * sine, from.y * cosine - from.x * sine);
                let level = (x / half_axes[0]).hypot(y / half_axes[1]);
                (from.length() * (1.0 - 1.0 / level)).abs()
            };
            truth.iter().map(outside).fold(0.0, f64::max)
        }
        PhotoFound::Lattice { .. } => corner_offs(plan, found).into_iter().fold(0.0, f64::max),
        PhotoFound::Marks { .. } => f64::INFINITY,
    }
}

/// How far each found corner of the target's squares is from the nearest true one, in pixels.
fn corner_offs(plan: &Plan, found: &PhotoFound) -> Vec<f64> {
    let PhotoFound::Lattice { corners } = found else {
        return Vec::new();
    };
    let nodes: Vec<Point> = (0..30)
        .flat_map(|column| (0..30).map(move |row| (column, row)))
        .filter_map(|(column, row)| Some(plan.scene.camera.sees(plan.lattice(column, row)?)))
        .collect();
    let near = |(_, _, x, y): &(i32, i32, f64, f64)| {
        let off = nodes.iter().map(|node| node.distance(Point::new(*x, *y)));
        off.fold(f64::INFINITY, f64::min)
    };
    corners.iter().map(near).collect()
}

/// What a series came to.
pub struct Sum {
    pub scenes: usize,
    pub found: usize,
    pub wrong_silently: usize,
    /// Lengths of right finds: their errors as parts, in order; how many within their ±.
    pub errors: Vec<f64>,
    pub within: usize,
    /// Lengths off by more than three times their ± without a flag.
    pub far: usize,
    pub flagged: usize,
    /// Distances of right finds' corners of the target from the true ones, in order.
    pub corners: Vec<f64>,
}

impl Sum {
    pub fn of<'a>(outcomes: impl Iterator<Item = &'a Outcome>) -> Self {
        let mut sum = Self {
            scenes: 0,
            found: 0,
            wrong_silently: 0,
            errors: Vec::new(),
            within: 0,
            far: 0,
            flagged: 0,
            corners: Vec::new(),
        };
        for outcome in outcomes {
            sum.scenes += 1;
            sum.flagged += usize::from(!outcome.flags.is_empty());
            sum.wrong_silently += usize::from(outcome.wrong_silently());
            if outcome.right() {
                sum.found += 1;
                sum.corners.extend(&outcome.corners);
                sum.errors.extend(outcome.lengths.iter().map(Length::part));
                sum.within += outcome.lengths.iter().filter(|length| length.within()).count();
                let far = |length: &&Length| (length.got - length.truth).abs() > 3.0 * length.plus_minus;
                sum.far += outcome.lengths.iter().filter(far).count() * usize::from(outcome.flags.is_empty());
            }
        }
        sum.errors.sort_by(f64::total_cmp);
        sum.corners.sort_by(f64::total_cmp);
        sum
    }

    fn at(&self, part: f64) -> f64 {
        self.errors
            .get(((self.errors.len() as f64 - 1.0) * part) as usize)
            .copied()
            .unwrap_or(f64::NAN)
    }

    pub fn percent(&self, part: usize) -> f64 {
        100.0 * part as f64 / self.scenes as f64
    }

    pub fn covered(&self) -> f64 {
        100.0 * self.within as f64 / self.errors.len() as f64
    }

    pub fn median(&self) -> f64 {
        100.0 * self.at(0.5)
    }

    /// The share of the target's corners within 0.3 pixel of the true ones, in per cent.
    pub fn sharp(&self) -> f64 {
        100.0 * self.corners.partition_point(|off| *off <= 0.3) as f64 / self.corners.len() as f64
    }

    pub fn told(&self, name: &str) -> String {
        format!(
            "{name:10} {:4} scenes, found {:.1} %, flagged {:.1} %, wrong and silent {} ({:.2} %); {} lengths, error {:.3} % median, {:.3} % at 95, within their ± {:.1} %, far beyond {}",
            self.scenes,
            self.percent(self.found),
            self.percent(self.flagged),
            self.wrong_silently,
            self.percent(self.wrong_silently),
            self.errors.len(),
            self.median(),
            100.0 * self.at(0.95),
            self.covered(),
            self.far,
        )
    }
}

/// The outcomes of a series, side by side on two threads.
pub fn run(seed: u64, count: u64, long: Option<usize>) -> Vec<Outcome> {
    let next = AtomicU64::new(0);
    let done = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    if number >= count {
                        break;
                    }
                    let outcome = outcome(seed, number, long);
                    done.lock().unwrap().push(outcome);
                }
            });
        }
    });
    let mut outcomes = done.into_inner().unwrap();
    outcomes.sort_by_key(|outcome| outcome.number);
    outcomes
}

/// The whole series, of `SCENES` photos (500) from `SEED` (1), by
/// `tests/reference/photo/scenes.sh`.
#[test]
#[ignore = "minutes"]
fn whole() {
    let number = |name: &str, usual: u64| {
        std::env::var(name)
            .ok()
            .and_then(|text| text.parse().ok())
            .unwrap_or(usual)
    };
    let (seed, count) = (number("SEED", 1), number("SCENES", 500));
    let outcomes = run(seed, count, None);
    for outcome in &outcomes {
        println!("{}", outcome.line());
    }
    for name in ["card", "paper", "rectangle", "coin", "disc", "target"] {
        println!(
            "{}",
            Sum::of(outcomes.iter().filter(|outcome| outcome.name == name)).told(name)
        );
    }
    println!(
        "{}",
        Sum::of(outcomes.iter().filter(|outcome| outcome.straight)).told("bent lens")
    );
    for (name, rest) in [("snapped", 0), ("by hand", 1)] {
        let some = outcomes.iter().filter(|outcome| outcome.number % 2 == rest);
        println!("{}", Sum::of(some).told(name));
    }
    let all = Sum::of(outcomes.iter());
    println!("{}", all.told("all"));
    println!(
        "{} corners of targets, within 0.3 pixel {:.1} %",
        all.corners.len(),
        all.sharp()
    );
    assert!(all.sharp() >= 90.0);
    assert!(all.percent(all.found) >= 95.0);
    assert!(all.percent(all.wrong_silently) < 0.5);
    assert!(all.median() < 0.5);
    assert!((90.0..=99.0).contains(&all.covered()));
}

/// Twelve small photos of the series, as every test run takes them: not wrong silently, nothing far
/// beyond its ± without a flag, three in four found.
#[test]
fn a_few() {
    let outcomes = run(1, 12, Some(480));
    for outcome in &outcomes {
        println!("{}", outcome.line());
    }
    let all = Sum::of(outcomes.iter());
    println!("{}", all.told("all"));
    assert_eq!((all.wrong_silently, all.far), (0, 0));
    assert!(all.found * 4 >= all.scenes * 3);
    assert!(all.covered() >= 85.0);
}

/// A target in a photo of 1000 pixels: its squares' corners within 0.3 pixel of the true ones.
#[test]
fn corners_of_a_target() {
    let outcome = outcome(1, 5, Some(1000));
    let sum = Sum::of(std::iter::once(&outcome));
    println!("{}", outcome.line());
    assert!(sum.corners.len() >= 50, "{} corners", sum.corners.len());
    assert!(sum.sharp() >= 95.0, "{:.1} % of corners within 0.3 pixel", sum.sharp());
}
