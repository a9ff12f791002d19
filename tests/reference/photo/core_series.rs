//! A series of rendered cores: how often the face is found by itself, and how its lengths agree with the
//! truth.

use std::fmt::Write as _;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use curbcore::app::photo::{OpenedPhoto, read_marks};
use curbcore::photo::Point;

use super::scenes::Plan;
use super::series::{off, photo};

/// Largest distance of a corner from the true one, in millimetres on the face, of a face that is found.
const FOUND_MM: f64 = 1.2;

/// The result of one photo whose reference was found.
pub struct CoreOutcome {
    number: u64,
    /// Kind of reference.
    name: &'static str,
    /// Whether the photo is as the instructions ask.
    good: bool,
    /// Largest distance of the twelve found corners from the true ones, in millimetres on the face.
    off: Option<f64>,
    /// Reasons for doubt, of the reference too.
    doubts: Vec<String>,
    lengths: Vec<Length>,
}

/// A dimension: its true value, the measured one and its ±, in millimetres.
struct Length {
    what: &'static str,
    truth: f64,
    got: f64,
    plus_minus: f64,
}

impl Length {
    fn is_beyond(&self, times: f64) -> bool {
        (self.got - self.truth).abs() > times * self.plus_minus
    }
}

impl CoreOutcome {
    fn is_found(&self) -> bool {
        self.off.is_some_and(|off| off <= FOUND_MM)
    }

    fn is_flagged(&self) -> bool {
        !self.doubts.is_empty()
    }

    fn is_wrong(&self) -> bool {
        self.off.is_some() && !self.is_found()
    }

    /// Without a doubt, another face that gives a length beyond its ±, or a length beyond three times it.
    fn is_silently_wrong(&self) -> bool {
        let beyond = |times: f64| self.lengths.iter().any(|length| length.is_beyond(times));
        !self.is_flagged() && (self.is_wrong() && beyond(1.0) || beyond(3.0))
    }

    pub fn line(&self) -> String {
        let mut line = format!(
            "{} {} {} ",
            self.number,
            self.name,
            if self.good { "good" } else { "poor" }
        );
        let _ = match self.off {
            None => write!(line, "MISSED"),
            Some(off) if self.is_found() => write!(line, "found {off:.2} mm"),
            Some(off) => write!(line, "WRONG {off:.1} mm"),
        };
        let silent = if self.is_silently_wrong() { " SILENT" } else { "" };
        let _ = write!(line, " {:?}{silent}", self.doubts);
        for length in &self.lengths {
            let beyond = if length.is_beyond(1.0) { "!" } else { "" };
            let _ = write!(
                line,
                " {} {:.2} is {:.2}±{:.2}{beyond}",
                length.what, length.truth, length.got, length.plus_minus
            );
        }
        line
    }
}

/// Which photos of a series are taken.
#[derive(Debug, Clone, Copy)]
pub struct Choice {
    pub seed: u64,
    /// The long side of all photos, in pixels; each its own without.
    pub long: Option<usize>,
    /// Whether photos that are not good are passed over.
    pub good_only: bool,
}

/// What came of one photo.
pub enum Searched {
    /// It is not good, and was passed over.
    PassedOver,
    /// The reference itself was not found right.
    NoReference,
    /// The core was searched.
    Core(CoreOutcome),
}

/// Finds the core in one photo.
pub fn searched(choice: Choice, number: u64) -> Searched {
    let plan = Plan::of_core(choice.seed, number, choice.long);
    if choice.good_only && !plan.is_good_of_core() {
        return Searched::PassedOver;
    }
    core_outcome(&plan, choice.seed, number).map_or(Searched::NoReference, Searched::Core)
}

/// Finds the core in one photo; `None` where the reference itself is not found right.
fn core_outcome(plan: &Plan, seed: u64, number: u64) -> Option<CoreOutcome> {
    let opened = OpenedPhoto::new(&photo(plan, &format!("core-{seed}"), number)).unwrap();
    let mut marks = opened.empty_marks(plan.reference.clone());
    if let Some(height) = plan.height {
        marks.height_mm = height;
    }
    let object = opened.find(&plan.reference).ok()?;
    if off::off(plan, &object.found) > off::excused(plan) {
        return None;
    }
    let mut outcome = CoreOutcome {
        number,
        name: plan.name,
        good: plan.is_good_of_core(),
        off: None,
        doubts: Vec::new(),
        lengths: Vec::new(),
    };
    if object.doubtful {
        outcome.doubts.push("reference".to_owned());
    }
    marks.found = Some(object.found);
    let Some(found) = opened.find_core(&marks, &|| false) else {
        return Some(outcome);
    };
    outcome
        .doubts
        .extend(found.doubts.iter().map(|doubt| (*doubt).to_owned()));
    let boxes = [found.face, found.windows[0], found.windows[1]];
    outcome.off = Some(corners_off(plan, &boxes) / plan.pixels_per_mm());
    marks.face = Some(found.face);
    marks.marks = found.marks;
    let core = plan.core();
    for row in read_marks(&marks).map(|answer| answer.rows).unwrap_or_default() {
        let truth = match row.dimension {
            "tongue" => core.tongue,
            "window_width" => core.window_width,
            "window_height" => core.window_height,
            "outer_limb" => core.limb,
            _ => core.yoke,
        };
        if let Ok(reading) = row.reading {
            outcome.lengths.push(Length {
                what: row.dimension,
                truth,
                got: reading.value,
                plus_minus: reading.plus_minus,
            });
        }
    }
    Some(outcome)
}

/// Largest distance of the found corners from the true ones, in pixels. A face looks the same turned by
/// half a turn.
fn corners_off(plan: &Plan, [outline, left, right]: &[[[f64; 2]; 4]; 3]) -> f64 {
    let truth = plan.core_corners();
    let off = |boxes: [&[[f64; 2]; 4]; 3], turn: usize| {
        let mut most = 0.0_f64;
        for (which, corners) in boxes.into_iter().enumerate() {
            for index in 0..4 {
                let [x, y] = corners[(index + turn) % 4];
                most = most.max(Point::new(x, y).distance(truth[4 * which + index]));
            }
        }
        most
    };
    off([outline, left, right], 0).min(off([outline, right, left], 2))
}

/// The totals of a series: of good photos, and of all.
pub struct Totals {
    pub photos: usize,
    pub found: usize,
    pub flagged: usize,
    pub found_and_flagged: usize,
    /// Of those, with a doubt about the reference alone.
    pub reference_alone: usize,
    pub wrong_and_flagged: usize,
    pub silently_wrong: usize,
    /// Relative errors of the lengths of faces that were found, sorted.
    pub errors: Vec<f64>,
    pub within: usize,
}

impl Totals {
    pub fn of<'a>(outcomes: impl Iterator<Item = &'a CoreOutcome>) -> Self {
        let mut sum = Self {
            photos: 0,
            found: 0,
            flagged: 0,
            found_and_flagged: 0,
            reference_alone: 0,
            wrong_and_flagged: 0,
            silently_wrong: 0,
            errors: Vec::new(),
            within: 0,
        };
        for outcome in outcomes {
            sum.photos += 1;
            sum.flagged += usize::from(outcome.is_flagged());
            sum.wrong_and_flagged += usize::from(outcome.is_wrong() && outcome.is_flagged());
            sum.silently_wrong += usize::from(outcome.is_silently_wrong());
            if outcome.is_found() {
                sum.found += 1;
                sum.found_and_flagged += usize::from(outcome.is_flagged());
                sum.reference_alone += usize::from(outcome.doubts == ["reference"]);
                let part = |length: &Length| (length.got / length.truth - 1.0).abs();
                sum.errors.extend(outcome.lengths.iter().map(part));
                sum.within += outcome.lengths.iter().filter(|length| !length.is_beyond(1.0)).count();
            }
        }
        sum.errors.sort_by(f64::total_cmp);
        sum
    }

    pub fn percent(&self, count: usize) -> f64 {
        100.0 * count as f64 / self.photos.max(1) as f64
    }

    /// Median error of the lengths, in per cent.
    pub fn median(&self) -> f64 {
        100.0 * self.errors.get(self.errors.len() / 2).copied().unwrap_or(f64::NAN)
    }

    /// Share of the lengths within their ±, in per cent.
    pub fn covered(&self) -> f64 {
        100.0 * self.within as f64 / self.errors.len().max(1) as f64
    }

    pub fn line(&self, name: &str) -> String {
        format!(
            "{name:5} {:4} photos, found {:.1} % ({:.1} % of them flagged, {:.1} % for the reference alone), wrong and flagged {:.1} %, wrong and silent {} ({:.2} %); {} lengths, error {:.2} % median, within their ± {:.1} %",
            self.photos,
            self.percent(self.found),
            100.0 * self.found_and_flagged as f64 / self.found.max(1) as f64,
            100.0 * self.reference_alone as f64 / self.found.max(1) as f64,
            self.percent(self.wrong_and_flagged),
            self.silently_wrong,
            self.percent(self.silently_wrong),
            self.errors.len(),
            self.median(),
            self.covered(),
        )
    }
}

/// The outcomes of a series, on two threads, and the number of photos whose reference was not found right.
pub fn run(choice: Choice, numbers: std::ops::Range<u64>) -> (Vec<CoreOutcome>, usize) {
    let next = AtomicU64::new(numbers.start);
    let done = Mutex::new((Vec::new(), 0));
    let take = || {
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= numbers.end {
                break;
            }
            match searched(choice, number) {
                Searched::PassedOver => {}
                Searched::NoReference => done.lock().unwrap().1 += 1,
                Searched::Core(outcome) => {
                    println!("{}", outcome.line());
                    done.lock().unwrap().0.push(outcome);
                }
            }
        }
    };
    std::thread::scope(|scope| {
        scope.spawn(take);
        take();
    });
    let (mut outcomes, missed) = done.into_inner().unwrap();
    outcomes.sort_by_key(|outcome| outcome.number);
    (outcomes, missed)
}

/// The whole series, of `SCENES` photos (200) from `SEED` (1) and `FIRST` (0), by
/// `tests/reference/photo/cores.sh`; `LONG` gives all photos one long side, `GOOD` leaves out those that are not
/// good before they are rendered.
#[test]
#[ignore = "minutes"]
fn whole_cores() {
    let number = |name: &str| std::env::var(name).ok().and_then(|text| text.parse::<u64>().ok());
    let first = number("FIRST").unwrap_or(0);
    let choice = Choice {
        seed: number("SEED").unwrap_or(1),
        long: number("LONG").map(|long| long as usize),
        good_only: std::env::var_os("GOOD").is_some(),
    };
    let (outcomes, missed) = run(choice, first..first + number("SCENES").unwrap_or(200));
    println!("{missed} photos whose reference was not found right");
    println!("{}", Totals::of(outcomes.iter().filter(|one| one.good)).line("good"));
    println!("{}", Totals::of(outcomes.iter()).line("all"));
}

/// Writes `core.jpg`, the photo that the test of the screen opens (`src/ui/measure/photo/lengths.rs`): a coin
/// on the bench, the face 52.4 ± 1 mm above it.
#[test]
#[ignore = "writes a picture"]
fn the_screens_photo() {
    let plan = Plan::of_core(1, 1, Some(640));
    println!("{:?} {:?} {:?}", plan.reference, plan.height, plan.core());
    std::fs::write("tests/reference/photo/core.jpg", plan.scene.photo()).unwrap();
}

/// A core in a small photo, from the file to the lengths: found without a doubt, every length within its ±.
#[test]
fn a_small_core() {
    let choice = Choice {
        seed: 1,
        long: Some(400),
        good_only: true,
    };
    let (outcomes, missed) = run(choice, 3..4);
    for outcome in &outcomes {
        assert!(outcome.good && outcome.is_found() && !outcome.is_flagged());
        assert_eq!(outcome.lengths.len(), 5);
        assert!(outcome.lengths.iter().all(|length| !length.is_beyond(1.0)));
    }
    let all = Totals::of(outcomes.iter());
    assert_eq!((outcomes.len(), missed, all.silently_wrong), (1, 0, 0));
    assert!(all.median() < 3.0, "{}", all.median());
}
