//! Where a donor and its job stand on the way from the curb to the proved part, and the one next
//! thing to do.

use super::bench::Tests;
use super::design_state::{DesignState, NeededParts};
use super::evaluation::Evaluation;
use super::translate::Assumed;
use crate::bench::{self, Stage};
use crate::job::JobFile;
use crate::safety::Moment;
use crate::sizeup::VerdictWord;
use crate::teardown::{End, Phase, Step, Teardown};
use crate::wind::{self, CoreOfPair, Wind, WindStep};

/// A part of the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Station {
    /// Take it or leave it.
    SizeUp,
    /// Out of the oven, and open.
    Teardown,
    /// What the core is.
    Measure,
    /// What it becomes.
    Rewind,
    /// The winding itself.
    Wind,
    /// What it really does.
    Bench,
}

impl Station {
    /// All of them, in order.
    pub const ALL: [Station; 6] = [
        Station::SizeUp,
        Station::Teardown,
        Station::Measure,
        Station::Rewind,
        Station::Wind,
        Station::Bench,
    ];
}

/// How a station stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Behind.
    Done,
    /// The next thing is here.
    Here,
    /// Ahead.
    ToCome,
    /// Nothing is recorded of it: the core came from elsewhere, or the job went past it.
    NotRecorded,
}

/// The one next thing to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Next {
    /// Look closer before deciding.
    Look,
    /// Leave it where it is.
    Leave,
    /// Take it apart.
    TakeApart,
    /// Go on with the teardown at this step.
    GoOn(Step),
    /// The teardown was stopped; its screen says what to do.
    Stopped,
    /// No core came of it: the other parts.
    Parts,
    /// Start a job with the core.
    StartJob,
    /// Measure the core: some of its main measures are typical values.
    MeasureCore,
    /// Find the primary's turns: they are assumed.
    FindTurns,
    /// No winding reaches the target.
    ChangeTarget,
    /// Choose a winding.
    Choose,
    /// The winding in hand breaks a limit: take another, or change the target.
    ChangeWinding,
    /// Wind it.
    Wind,
    /// The same, and make or buy the reactor that it needs.
    WindWithReactor,
    /// Go on with the winding at this step.
    WindOn(WindStep),
    /// Wind the second core of a pair, or go on with it.
    WindSecond,
    /// The winding was stopped; its screen says what to do.
    WindingStopped,
    /// It is wound: begin the tests.
    BeginTests,
    /// No choke or ballast of this kind can be made of the core.
    ChangeChoke,
    /// Wind the choke or ballast.
    WindChoke,
    /// Go on with the tests at this stage.
    Test(Stage),
    /// The tests were stopped; their screen says what to do.
    TestsStopped,
    /// The tests prove an earlier design.
    TestAgain,
    /// Nothing: it is proved.
    Proved,
}

impl Next {
    /// The station that it is done at.
    #[must_use]
    pub const fn station(self) -> Station {
        match self {
            Next::Look | Next::Leave | Next::Parts => Station::SizeUp,
            Next::TakeApart | Next::GoOn(_) | Next::Stopped => Station::Teardown,
            Next::StartJob | Next::MeasureCore | Next::FindTurns => Station::Measure,
            Next::ChangeTarget | Next::Choose | Next::ChangeWinding | Next::ChangeChoke => Station::Rewind,
            Next::Wind
            | Next::WindWithReactor
            | Next::WindChoke
            | Next::WindOn(_)
            | Next::WindSecond
            | Next::WindingStopped => Station::Wind,
            Next::BeginTests | Next::Test(_) | Next::TestsStopped | Next::TestAgain | Next::Proved => Station::Bench,
        }
    }

    /// The id of the text that says it; the name of its step or stage goes into it as `place`.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Next::Look => "way-look",
            Next::Leave => "way-leave",
            Next::TakeApart => "way-take-apart",
            Next::GoOn(_) => "way-go-on",
            Next::Stopped => "way-stopped",
            Next::Parts => "way-parts",
            Next::StartJob => "way-start-job",
            Next::MeasureCore => "way-measure-core",
            Next::FindTurns => "way-find-turns",
            Next::ChangeTarget => "way-change-target",
            Next::Choose => "way-choose",
            Next::ChangeWinding => "way-change-winding",
            Next::Wind => "way-wind",
            Next::WindOn(_) => "way-wind-on",
            Next::WindSecond => "way-wind-second",
            Next::WindingStopped => "way-winding-stopped",
            Next::BeginTests => "way-begin-tests",
            Next::WindWithReactor => "way-wind-with-reactor",
            Next::ChangeChoke => "way-change-choke",
            Next::WindChoke => "way-wind-choke",
            Next::Test(_) => "way-test",
            Next::TestsStopped => "way-tests-stopped",
            Next::TestAgain => "way-test-again",
            Next::Proved => "way-proved",
        }
    }

    /// The id of the name of its step or stage.
    #[must_use]
    pub const fn place(self) -> Option<&'static str> {
        match self {
            Next::GoOn(step) => Some(step.key()),
            Next::WindOn(step) => Some(step.key()),
            Next::Test(stage) => Some(stage.key()),
            _ => None,
        }
    }
}

/// A donor as far as it is known.
#[derive(Debug, Clone, Copy)]
pub struct DonorState<'a> {
    /// The verdict; none where its record gives none.
    pub verdict: Option<VerdictWord>,
    /// Its teardown.
    pub teardown: &'a Teardown,
}

/// The windings of a job that have begun, of the design that it has now.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Windings {
    /// On its own core.
    pub first: Option<Wind>,
    /// On the second core of a pair.
    pub second: Option<Wind>,
}

impl Windings {
    /// The core whose winding comes next: the second once the first waits to be joined to it, else the one where
    /// something happened last.
    #[must_use]
    pub fn at_hand(&self, now: Moment) -> CoreOfPair {
        let last = |wind: &Wind| wind.history().last().map(|entry| entry.at.unix_ms);
        match (&self.first, &self.second) {
            (_, Some(second)) if is_wound(second) => CoreOfPair::First,
            (Some(first), _) if first.plan().joints().is_some() && first.step(now) >= WindStep::JoinPair => {
                CoreOfPair::Second
            }
            (Some(first), Some(second)) if last(first) >= last(second) => CoreOfPair::First,
            (_, second) => second.as_ref().map_or(CoreOfPair::First, |_| CoreOfPair::Second),
        }
    }

    /// What comes next of what has begun.
    fn next(&self, now: Moment) -> Option<Next> {
        let of = self.at_hand(now);
        let wind = match of {
            CoreOfPair::First => self.first.as_ref()?,
            CoreOfPair::Second => match &self.second {
                Some(second) => second,
                None => return Some(Next::WindSecond),
            },
        };
        Some(match (wind.phase(), of) {
            (wind::Phase::Working, CoreOfPair::First) => Next::WindOn(wind.step(now)),
            (wind::Phase::Working, CoreOfPair::Second) => Next::WindSecond,
            (wind::Phase::Stopped { .. }, _) => Next::WindingStopped,
            (wind::Phase::Ended(wind::End::Wound), _) => Next::BeginTests,
        })
    }
}

/// Whether a winding is finished.
#[must_use]
pub fn is_wound(wind: &Wind) -> bool {
    matches!(wind.phase(), wind::Phase::Ended(wind::End::Wound))
}

/// A job as far as it is known.
#[derive(Debug, Clone, Copy)]
pub struct JobState<'a> {
    /// Its file.
    pub file: &'a JobFile,
    /// Its answer.
    pub answer: &'a Evaluation,
    /// Its windings, as far as they have begun.
    pub windings: &'a Windings,
    /// Its tests, if they have begun.
    pub tests: Option<&'a Tests>,
}

/// The one next thing for a donor, a job, or both.
#[must_use]
pub fn next(donor: Option<DonorState<'_>>, job: Option<JobState<'_>>, now: Moment) -> Next {
    match (donor, job) {
        (Some(donor), None) => next_of_donor(donor, now),
        // A teardown that was begun comes before the job, which may have been planned ahead.
        (Some(donor), Some(job)) => match next_of_donor(donor, now) {
            first @ (Next::GoOn(_) | Next::Stopped) => first,
            _ => next_of_job(job, now),
        },
        (None, Some(job)) => next_of_job(job, now),
        (None, None) => Next::Look,
    }
}

fn next_of_donor(donor: DonorState<'_>, now: Moment) -> Next {
    let teardown = donor.teardown;
    match teardown.phase() {
        Phase::Ended(End::Stored) => Next::StartJob,
        Phase::Ended(End::NoCore) => Next::Parts,
        Phase::Stopped { .. } => Next::Stopped,
        Phase::Working if !teardown.history().is_empty() => Next::GoOn(teardown.step(now)),
        Phase::Working => match donor.verdict {
            Some(VerdictWord::Take | VerdictWord::TakeForParts) => Next::TakeApart,
            Some(VerdictWord::Leave) => Next::Leave,
            Some(VerdictWord::LookCloser) | None => Next::Look,
        },
    }
}

fn next_of_job(job: JobState<'_>, now: Moment) -> Next {
    let assumed = &job.answer.problem.assumed;
    if let Some(tests) = job.tests {
        return match tests.bench.phase() {
            _ if tests.outdated => Next::TestAgain,
            bench::Phase::Working => Next::Test(tests.bench.step(now)),
            bench::Phase::Stopped { .. } => Next::TestsStopped,
            bench::Phase::Ended(bench::End::Commissioned) => Next::Proved,
        };
    }
    if assumed.contains(&Assumed::CoreMeasures) {
        return Next::MeasureCore;
    }
    if assumed.contains(&Assumed::PrimaryTurns) && job.answer.goal.is_some() {
        return Next::FindTurns;
    }
    match (&job.answer.goal, &job.answer.design) {
        (None, _) => match job.answer.design_state() {
            Some(DesignState::Fits | DesignState::FitsWith(_)) => job.windings.next(now).unwrap_or(Next::WindChoke),
            Some(DesignState::Breaks(_)) | None => Next::ChangeChoke,
        },
        (Some(_), None) => Next::ChangeTarget,
        (Some(_), Some(design)) => match (job.answer.design_state(), job.windings.next(now)) {
            (Some(DesignState::Breaks(_)), _) => Next::ChangeWinding,
            _ if !design.chosen => Next::Choose,
            (Some(DesignState::FitsWith(NeededParts { reactor: Some(_), .. })), None) => Next::WindWithReactor,
            (_, next) => next.unwrap_or(Next::Wind),
        },
    }
}

/// How each station stands, when this is next.
#[must_use]
pub fn stations(next: Next, donor: Option<DonorState<'_>>) -> [(Station, Standing); 6] {
    let here = next.station();
    let apart = donor.is_some_and(|donor| matches!(donor.teardown.phase(), Phase::Ended(_)));
    Station::ALL.map(|station| {
        let unknown = match station {
            Station::SizeUp => donor.is_none(),
            Station::Teardown => !apart && here > Station::Teardown,
            _ => false,
        };
        let standing = if unknown {
            Standing::NotRecorded
        } else if next == Next::Proved || station < here {
            Standing::Done
        } else if station == here {
            Standing::Here
        } else {
            Standing::ToCome
        };
        (station, standing)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::{as_choice, basis};
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of, new_job};
    use crate::app::wind::wind_plan_of;
    use crate::magnetics::circuit::mains::OUTLETS;
    use crate::procedure::explore::{MORNING, walk};
    use crate::teardown::{self, Entry, Event, TeardownProcedure};
    use crate::wind::{Act, Closing, Fixing};

    const NOW: Moment = Moment {
        unix_ms: 1_728_000_000_000,
        local_day: 20_000,
    };

    fn of_job(file: &JobFile) -> Next {
        let answer = evaluate(file).unwrap();
        let job = JobState {
            file,
            answer: &answer,
            windings: &Windings::default(),
            tests: None,
        };
        next(None, Some(job), NOW)
    }

    /// A job goes from measuring to winding, one thing at a time.
    #[test]
    fn a_job_goes_on_step_by_step() {
        let mut file = new_job("new", &OUTLETS[0]);
        assert_eq!(of_job(&file), Next::MeasureCore);
        let demo = demo_job();
        file.core = demo.core.clone();
        file.core.primary.test_turn = None;
        file.core.primary.counted_turns = None;
        file.core.primary.old_secondary = None;
        assert_eq!(of_job(&file), Next::FindTurns);
        file.core = demo.core;
        assert_eq!(of_job(&file), Next::Choose);
        let answered = basis(&file).unwrap();
        let best = answered.found.ranked[0];
        file.choice = Some(as_choice(&best, &answered.problem.rebuild, &answered.catalogue));
        assert_eq!(of_job(&file), Next::Wind);
        let answered = evaluate(&file).unwrap();
        let plan = wind_plan_of(&answered, CoreOfPair::First).unwrap().unwrap();
        let winding = |events: &[wind::Event]| {
            let entry = |&event| wind::Entry { at: NOW, event };
            let entries: Vec<_> = events.iter().map(entry).collect();
            let windings = Windings {
                first: Some(Wind::replay(plan, &entries).unwrap()),
                second: None,
            };
            let job = JobState {
                file: &file,
                answer: &answered,
                windings: &windings,
                tests: None,
            };
            next(None, Some(job), NOW)
        };
        assert_eq!(winding(&[]), Next::WindOn(WindStep::Prepare));
        let item = crate::safety::Item::GlovesOn;
        assert_eq!(winding(&[wind::Event::CouldNot { item }]), Next::WindingStopped);
        // Printing waits where the winding in hand breaks a limit.
        let whole = file.choice.clone();
        if let Some(choice) = &mut file.choice {
            choice.turns = 40;
        }
        assert_eq!(of_job(&file), Next::ChangeWinding);
        file.choice = whole;
        file.goal = goal_of("choke");
        assert_eq!(of_job(&file), Next::WindChoke);
        // More turns are needed than fit: nothing is to be wound.
        file.goal = crate::job::Goal::Choke {
            inductance_mh: 500.0,
            dc_current_a: 20.0,
            ripple_a: 1.0,
            frequency_hz: 120.0,
        };
        assert_eq!(of_job(&file), Next::ChangeChoke);
    }

    /// Of a pair the core where something happened last is at hand, the second once the first waits to be joined.
    #[test]
    fn the_second_core_comes_before_the_joint() {
        let mut file = demo_job();
        file.conditions.pair = Some(crate::job::PairChoice {
            name: "the other".into(),
            core: Box::new(file.core.clone()),
            windings: crate::job::Joining::Parallel,
        });
        let answer = evaluate(&file).unwrap();
        let plan = |core| wind_plan_of(&answer, core).unwrap().unwrap();
        let later = |minutes: i64| Moment {
            unix_ms: MORNING.unix_ms + minutes * 60_000,
            ..MORNING
        };
        let photo = |at| wind::Entry {
            at,
            event: wind::Event::Act(Act::Photo(1)),
        };
        let begun = |core, at| Wind::replay(plan(core), &[photo(at)]).unwrap();
        let first = begun(CoreOfPair::First, later(2));
        let at_hand = |first: &Wind, second: Option<&Wind>| {
            let windings = Windings {
                first: Some(first.clone()),
                second: second.cloned(),
            };
            (windings.at_hand(later(9)), windings.next(later(9)))
        };
        let on = Some(Next::WindOn(WindStep::Prepare));
        assert_eq!(at_hand(&first, None), (CoreOfPair::First, on));
        let earlier = begun(CoreOfPair::Second, later(1));
        assert_eq!(at_hand(&first, Some(&earlier)), (CoreOfPair::First, on));
        let second = begun(CoreOfPair::Second, later(3));
        assert_eq!(
            at_hand(&first, Some(&second)),
            (CoreOfPair::Second, Some(Next::WindSecond))
        );
        let wound = |core| {
            walk(plan(core), |wind, step| match step {
                WindStep::ProvePrimary => {
                    let band = wind.plan().primary.unwrap();
                    vec![
                        Act::PrimaryResistance(band.expected),
                        Act::PrimaryInsulation(band.insulation),
                    ]
                }
                WindStep::WindTurns => vec![Act::Turn; wind.plan().turns as usize],
                WindStep::Choose => vec![Act::Closing(Closing::Bolts), Act::Fixing(Fixing::Tape)],
                WindStep::JoinPair => vec![Act::PairJoined(2)],
                _ => vec![],
            })
        };
        let first = wound(CoreOfPair::First);
        let join = wind::Event::Go(WindStep::JoinPair);
        let reached = first.history().iter().position(|entry| entry.event == join).unwrap();
        let waits = Wind::replay(*first.plan(), &first.history()[..=reached]).unwrap();
        assert_eq!(at_hand(&waits, None), (CoreOfPair::Second, Some(Next::WindSecond)));
        let second = wound(CoreOfPair::Second);
        assert!(is_wound(&second));
        let join = Some(Next::WindOn(WindStep::JoinPair));
        assert_eq!(at_hand(&waits, Some(&second)), (CoreOfPair::First, join));
        assert_eq!(at_hand(&first, Some(&second)).1, Some(Next::BeginTests));
        // A second core that is begun again is to be wound again, though the first is enclosed.
        assert_eq!(at_hand(&first, Some(&earlier)).1, Some(Next::WindSecond));
    }

    #[test]
    fn a_donor_goes_on_from_its_verdict_to_its_core() {
        let of = |verdict, teardown: &Teardown| {
            let donor = DonorState {
                verdict: Some(verdict),
                teardown,
            };
            next(Some(donor), None, NOW)
        };
        let fresh = Teardown::replay(TeardownProcedure, &[]).unwrap();
        assert_eq!(of(VerdictWord::LookCloser, &fresh), Next::Look);
        assert_eq!(of(VerdictWord::Leave, &fresh), Next::Leave);
        assert_eq!(of(VerdictWord::Take, &fresh), Next::TakeApart);
        let begun = [Entry {
            at: NOW,
            event: Event::Act(teardown::Act::PluggedIn),
        }];
        let begun = Teardown::replay(TeardownProcedure, &begun).unwrap();
        assert!(matches!(of(VerdictWord::Leave, &begun), Next::GoOn(_)));
    }

    #[test]
    fn what_is_behind_is_done_and_what_is_ahead_is_not() {
        use Standing::{Done, Here, NotRecorded, ToCome};
        let fresh = Teardown::replay(TeardownProcedure, &[]).unwrap();
        let donor = DonorState {
            verdict: None,
            teardown: &fresh,
        };
        let of = |next, donor| stations(next, donor).map(|(_, standing)| standing);
        assert_eq!(
            of(Next::TakeApart, Some(donor)),
            [Done, Here, ToCome, ToCome, ToCome, ToCome]
        );
        // A teardown that nobody recorded is not called done.
        let past = [Done, NotRecorded, Done, Here, ToCome, ToCome];
        assert_eq!(of(Next::Choose, Some(donor)), past);
        let alone = [NotRecorded, NotRecorded, Done, Here, ToCome, ToCome];
        assert_eq!(of(Next::Choose, None), alone);
        assert_eq!(of(Next::Proved, None)[2..], [Done; 4]);
    }
}
