//! The winding of a job: what its design asks for, and the run as it is stored.

use serde_json::{Value, json};

use super::basis::Design;
use super::behaviour::inductor::InductorAnswer;
use super::bench::{PRIMARY, primary_predictions};
use super::evaluation::Evaluation;
use super::guided::{Blocked, Stored, StoredRun};
use super::translate::has_centre_tap;
use super::workspace::{Workspace, WorkspaceError};
use crate::bench::Amount;
use crate::job::{JobId, Note, Owner, Record, StockId, StockWire};
use crate::magnetics::circuit::performance::Prepared;
use crate::magnetics::pairs::Joined;
use crate::magnetics::winding::LAYER_BULGE;
use crate::quantity::{Length, Resistance};
use crate::safety::Moment;
use crate::store::{History, JobProcedure, Op, Store};
use crate::wind::{
    Act, CoreOfPair, End, Event, PairJoints, PairPart, Phase, PlanFault, PrimaryBand, Reason, Refusal, Wind, WindPlan,
    WindStep,
};
use crate::words::Message;

/// What one core of a job asks for: the chosen winding of a transformer, or the coil of a choke or a ballast.
/// `None` where the job has no winding, or no such core. What the teardown did not record is taken as it costs
/// a step more: the core was opened.
///
/// # Errors
/// A sentence for the person where the design is none that hands can wind.
#[must_use]
pub fn wind_plan_of(answer: &Evaluation, core: CoreOfPair) -> Option<Result<WindPlan, Message>> {
    match core {
        CoreOfPair::First => first_plan(answer),
        CoreOfPair::Second => {
            // Whatever keeps the first from being wound keeps the pair from it.
            let second = answer.of_second()?;
            let plan = first_plan(answer)?.and_then(|_| {
                let design = second
                    .design
                    .as_ref()
                    .ok_or_else(|| Message::new("refused-pair-without-winding"))?;
                checked(WindPlan {
                    pair: Some(PairPart::Second),
                    ..transformer_plan(&second, design)
                })
            });
            Some(plan)
        }
    }
}

fn first_plan(answer: &Evaluation) -> Option<Result<WindPlan, Message>> {
    // The bench can test the joint of two windings only where it knows both.
    let lacks_second = answer.second.as_ref().is_some_and(|second| second.design.is_none());
    if answer.design.is_some() && lacks_second {
        tracing::debug!("a pair whose other core has no winding");
        return Some(Err(Message::new("refused-pair-without-winding")));
    }
    let plan = match (&answer.design, answer.inductor()) {
        (Some(design), _) => transformer_plan(answer, design),
        (None, Some(Ok(coil))) if answer.core_opened() == Some(false) => {
            tracing::debug!("a coil of {} turns on a whole core", coil.turns);
            return Some(Err(Message::new("refused-coil-on-whole-core")));
        }
        (None, Some(Ok(coil))) => coil_plan(answer, coil),
        (None, _) => return None,
    };
    Some(checked(plan))
}

fn checked(plan: WindPlan) -> Result<WindPlan, Message> {
    plan.checked().map_err(|fault| {
        tracing::error!("no winding: {fault}");
        Message::new(match fault {
            PlanFault::Halves => "refused-wind-halves",
            _ => "refused-wind-plan",
        })
    })
}

/// The steps of a job's winding. Where the teardown did not say, the primary may have to go back; where the
/// design is none that hands can wind, every step.
#[must_use]
pub fn wind_steps(answer: &Evaluation) -> Vec<WindStep> {
    let mut steps = match wind_plan_of(answer, CoreOfPair::First) {
        Some(Ok(plan)) => Wind::start(plan).steps(),
        _ => {
            let is_pair = answer.second.is_some();
            let all = WindStep::ALL.iter().copied();
            all.filter(|step| is_pair || *step != WindStep::JoinPair).collect()
        }
    };
    if answer.design.is_some() && answer.primary_came_off().is_none() && !steps.contains(&WindStep::PrimaryBack) {
        steps.push(WindStep::PrimaryBack);
        steps.sort_unstable();
    }
    steps
}

fn transformer_plan(answer: &Evaluation, design: &Design) -> WindPlan {
    let (winding, layers) = (&design.candidate.winding, &design.candidate.layers);
    let rebuild = &answer.problem.rebuild;
    let space = Prepared::new(rebuild).space;
    let tapped = has_centre_tap(answer.file());
    WindPlan {
        primary_back: answer.primary_came_off() == Some(true),
        shunts: rebuild.shunts_height.si() > 0.0,
        core_opened: answer.core_opened() != Some(false),
        primary: Some(primary_band(answer)),
        tapped,
        sheets: None,
        turns: winding.turns,
        turns_per_layer: layers.turns_per_layer,
        pair: answer.second.as_ref().map(|second| {
            PairPart::First(PairJoints {
                primaries_in_series: false,
                windings_in_series: second.windings == Joined::Series,
            })
        }),
        breadth: space.breadth,
        build: space.build,
        start: space.start,
        turn_width: winding.conductor.width_on_limb(space.breadth) * f64::from(layers.abreast),
        layer_height: winding.conductor.layer_height() * f64::from(layers.stacked) * LAYER_BULGE,
        interlayer: rebuild.insulation.interlayer,
        perimeter: rebuild.core.turn_length(Length::ZERO),
        // Each half has its own two ends.
        leads: rebuild.leads.value * if tapped { 2.0 } else { 1.0 },
    }
}

/// What the primary should measure: as the first tests on the bench expect it.
fn primary_band(answer: &Evaluation) -> PrimaryBand {
    let [resistance, insulation] = primary_predictions(answer, PRIMARY);
    let ohms = |amount: Amount| Resistance::from_si(amount.si());
    PrimaryBand {
        expected: ohms(resistance.value),
        low: ohms(resistance.low),
        high: ohms(resistance.high),
        insulation: ohms(insulation.low),
    }
}

/// A coil has the windows to itself, but for the sheet that lines them on both sides.
fn coil_plan(answer: &Evaluation, found: &InductorAnswer) -> WindPlan {
    let (rebuild, coil) = (&answer.problem.rebuild, &found.coil);
    let ground = rebuild.insulation.ground;
    WindPlan {
        primary_back: false,
        shunts: false,
        core_opened: true,
        primary: None,
        tapped: false,
        sheets: Some(found.stack.sheets()),
        turns: found.turns,
        turns_per_layer: coil.per_layer.min(found.turns),
        pair: None,
        breadth: coil.breadth,
        build: rebuild.core.window_width.value - ground * 2.0,
        start: ground,
        turn_width: coil.turn_width,
        layer_height: coil.layer_height,
        interlayer: rebuild.insulation.interlayer,
        perimeter: rebuild.core.turn_length(Length::ZERO),
        leads: rebuild.leads.value,
    }
}

/// Wire of the person's own that a winding takes.
#[derive(Debug, Clone, PartialEq)]
pub struct FromShelf {
    /// The wire on the shelf.
    pub wire: Record<StockId, StockWire>,
    /// How much the winding takes, all its conductors together; no more than is there.
    pub takes: Length,
}

/// The name of the conductor that a job is wound with; `None` where it has no winding.
#[must_use]
pub fn wound_conductor(answer: &Evaluation) -> Option<String> {
    wound_with(answer).map(|(name, _)| name)
}

/// Conductor and number wound together.
fn wound_with(answer: &Evaluation) -> Option<(String, u32)> {
    match (&answer.design, answer.inductor()) {
        (Some(design), _) => {
            let winding = &design.candidate.winding;
            Some((answer.catalogue.name(&winding.conductor).to_owned(), winding.parallel))
        }
        (None, Some(Ok(coil))) => Some((coil.conductor.clone(), coil.parallel)),
        (None, _) => None,
    }
}

/// The wire on the shelf that the winding is of, and how much of it: the layers as they were counted, both
/// lead-outs, each conductor that is wound together. `None` where the shelf has none of it.
#[must_use]
pub fn from_shelf(answer: &Evaluation, wind: &Wind, shelf: Vec<Record<StockId, StockWire>>) -> Option<FromShelf> {
    let (name, parallel) = wound_with(answer)?;
    let wire = shelf.into_iter().find(|wire| wire.body.conductor == name)?;
    let (plan, counter) = (wind.plan(), &wind.facts().counter);
    let one = counter.wire_used(plan) + counter.wire_left(plan);
    let takes = (one * f64::from(parallel)).min(Length::from_si(wire.body.length_m));
    Some(FromShelf { wire, takes })
}

/// The plan as it is stored, lengths in metres; without sheets where no gap is laid.
#[must_use]
pub fn wind_plan_to_json(plan: &WindPlan) -> String {
    let mut stored = json!({
        "primary_back": plan.primary_back, "shunts": plan.shunts, "core_opened": plan.core_opened,
        "turns": plan.turns, "turns_per_layer": plan.turns_per_layer,
        "breadth": plan.breadth.si(), "build": plan.build.si(), "start": plan.start.si(),
        "tapped": plan.tapped, "turn_width": plan.turn_width.si(), "layer_height": plan.layer_height.si(),
        "interlayer": plan.interlayer.si(), "perimeter": plan.perimeter.si(), "leads": plan.leads.si(),
    });
    if let Some(sheets) = plan.sheets {
        stored["sheets"] = json!(sheets);
    }
    match plan.pair {
        Some(PairPart::First(joints)) => {
            stored["primaries_in_series"] = json!(joints.primaries_in_series);
            stored["windings_in_series"] = json!(joints.windings_in_series);
        }
        Some(PairPart::Second) => stored["second_core"] = json!(true),
        None => {}
    }
    if let Some(band) = plan.primary {
        stored["primary"] = json!({
            "expected": band.expected.si(), "low": band.low.si(), "high": band.high.si(),
            "insulation": band.insulation.si(),
        });
    }
    stored.to_string()
}

/// A stored plan.
///
/// # Errors
/// A sentence for the person where it cannot be read.
pub fn wind_plan_from_json(text: &str) -> Result<WindPlan, Message> {
    let damaged = || Message::new("refused-winding-damaged");
    let stored: Value = serde_json::from_str(text).map_err(|_| damaged())?;
    let read = || {
        let yes = |key: &str| stored.get(key)?.as_bool();
        let count = |key: &str| u32::try_from(stored.get(key)?.as_u64()?).ok();
        let length = |key: &str| stored.get(key)?.as_f64().map(Length::from_si);
        Some(WindPlan {
            primary_back: yes("primary_back")?,
            shunts: yes("shunts")?,
            core_opened: yes("core_opened")?,
            primary: match stored.get("primary") {
                None => None,
                Some(band) => {
                    let ohms = |key: &str| band.get(key)?.as_f64().map(Resistance::from_si);
                    Some(PrimaryBand {
                        expected: ohms("expected")?,
                        low: ohms("low")?,
                        high: ohms("high")?,
                        insulation: ohms("insulation")?,
                    })
                }
            },
            tapped: yes("tapped")?,
            sheets: match stored.get("sheets") {
                None => None,
                Some(_) => Some(count("sheets")?),
            },
            turns: count("turns")?,
            turns_per_layer: count("turns_per_layer")?,
            pair: match (stored.get("second_core"), stored.get("primaries_in_series")) {
                (Some(_), _) => yes("second_core")?.then_some(PairPart::Second),
                (None, Some(_)) => Some(PairPart::First(PairJoints {
                    primaries_in_series: yes("primaries_in_series")?,
                    windings_in_series: yes("windings_in_series")?,
                })),
                (None, None) => None,
            },
            breadth: length("breadth")?,
            build: length("build")?,
            start: length("start")?,
            turn_width: length("turn_width")?,
            layer_height: length("layer_height")?,
            interlayer: length("interlayer")?,
            perimeter: length("perimeter")?,
            leads: length("leads")?,
        })
    };
    read().ok_or_else(damaged)?.checked().map_err(|_| damaged())
}

/// The procedure that a core's winding is stored under.
#[must_use]
pub const fn procedure_of(core: CoreOfPair) -> JobProcedure {
    match core {
        CoreOfPair::First => JobProcedure::Wind,
        CoreOfPair::Second => JobProcedure::WindSecond,
    }
}

impl Stored for WindPlan {
    type Owner = (JobId, CoreOfPair);

    fn stored(store: &Store, (job, core): Self::Owner) -> Result<Option<StoredRun<Self>>, WorkspaceError> {
        let Some(run) = store.job_run(job, procedure_of(core))? else {
            return Ok(None);
        };
        let plan = wind_plan_from_json(&run.plan).map_err(WorkspaceError::History)?;
        Ok(Some((History::Job(run.id), plan, run.lines)))
    }
}

impl Workspace {
    /// Begins the winding of a core of a job with what its design asks for. Earlier ones stay on the disk.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`].
    pub fn begin_winding(&mut self, (job, core): (JobId, CoreOfPair), plan: &WindPlan) -> Result<(), WorkspaceError> {
        self.store
            .begin_job_run(job, procedure_of(core), &wind_plan_to_json(plan))?;
        Ok(())
    }

    /// Records that the second core of a pair is joined to the first. `planned` is what the design asks of the
    /// second core now.
    ///
    /// # Errors
    /// [`Blocked`] with [`Reason::SecondNotWound`] unless the second core's own run is finished and wound as
    /// planned; as [`Workspace::event`].
    pub fn join_pair(&mut self, job: JobId, planned: &WindPlan, now: Moment) -> Result<(), Blocked<WindPlan>> {
        let stored = self
            .store
            .job_run(job, JobProcedure::WindSecond)
            .map_err(WorkspaceError::from)?;
        let run = self.run::<WindPlan>((job, CoreOfPair::Second))?;
        let wound = run.is_some_and(|run| run.plan() == planned && matches!(run.phase(), Phase::Ended(End::Wound)));
        match stored.filter(|_| wound) {
            Some(run) => {
                let joined = Event::Act(Act::PairJoined(run.id.0.as_u128()));
                self.event((job, CoreOfPair::First), joined, now)?;
                Ok(())
            }
            None => Err(Blocked::Refused(Refusal::Own(Reason::SecondNotWound))),
        }
    }

    /// Takes the wire that was wound off the person's own, and records it, both or none. What is left of less
    /// than a hand's breadth is none. It is put back by [`Workspace::put_wire_back`].
    ///
    /// # Errors
    /// [`Blocked`], also where the wire was changed meanwhile; nothing is changed then.
    pub fn take_wire(
        &mut self,
        of: (JobId, CoreOfPair),
        from: &FromShelf,
        now: Moment,
    ) -> Result<(), Blocked<WindPlan>> {
        let FromShelf { wire, takes } = from;
        let left = Length::from_si(wire.body.length_m) - *takes;
        self.event_with(of, now, None, |edit, _| {
            if left < LEFT_OVER {
                edit.delete(wire.meta.id)?;
            } else {
                edit.update(wire.meta.id, wire.meta.revision, &with_length(&wire.body, left))?;
            }
            Ok(Event::Act(Act::OffShelf {
                wire: wire.meta.id.0.as_u128(),
                takes: *takes,
            }))
        })
    }

    /// Puts the wire that a winding took back on the shelf, and records it, both or none: to what is left of
    /// it there, else as a wire of its own named `conductor`.
    ///
    /// # Errors
    /// [`Blocked`]; nothing is changed then.
    pub fn put_wire_back(
        &mut self,
        of: (JobId, CoreOfPair),
        conductor: &str,
        now: Moment,
    ) -> Result<(), Blocked<WindPlan>> {
        let shelf = self.store.stock()?;
        self.event_with(of, now, None, |edit, run: &Wind| {
            // Where nothing was taken the procedure refuses the event.
            if let Some((id, takes)) = run.facts().off_shelf {
                match shelf.iter().find(|wire| wire.meta.id.0.as_u128() == id) {
                    Some(wire) => {
                        let whole = Length::from_si(wire.body.length_m) + takes;
                        edit.update(wire.meta.id, wire.meta.revision, &with_length(&wire.body, whole))?;
                    }
                    None => {
                        edit.insert(&StockWire {
                            conductor: conductor.to_owned(),
                            length_m: takes.si(),
                            price_per_m: None,
                        })?;
                    }
                }
            }
            Ok(Event::Act(Act::BackOnShelf))
        })
    }

    /// Keeps a note on the step where the winding stands.
    ///
    /// # Errors
    /// [`Blocked`], also for a text that is too long; nothing is changed then.
    pub fn note_on_step(
        &mut self,
        (job, core): (JobId, CoreOfPair),
        text: &str,
        now: Moment,
    ) -> Result<(), Blocked<WindPlan>> {
        self.event_with((job, core), now, Some(Op::AddNote), |edit, _| {
            let note = edit.insert(&Note {
                owner: Owner::Job(job),
                text: text.to_owned(),
            })?;
            Ok(Event::Act(Act::Note(note.0.as_u128())))
        })
    }

    /// The notes on a job: id and words. One that was taken back is not among them.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`].
    pub fn notes(&self, job: JobId) -> Result<Vec<(u128, String)>, WorkspaceError> {
        let notes = self.store.notes_of(Owner::Job(job))?.into_iter();
        Ok(notes.map(|note| (note.meta.id.0.as_u128(), note.body.text)).collect())
    }
}

/// Less wire than this is none.
const LEFT_OVER: Length = Length::from_si(0.1);

fn with_length(wire: &StockWire, length: Length) -> StockWire {
    StockWire {
        length_m: length.si(),
        ..wire.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::materials::{Amount, cut_length};
    use crate::app::start::{demo_job, goal_of};
    use crate::job::PairChoice;
    use crate::teardown::{Findings, Way};
    use crate::wind::Counter;

    fn demo_plan() -> (Evaluation, WindPlan) {
        let answer = evaluate(&demo_job()).unwrap();
        let plan = wind_plan_of(&answer, CoreOfPair::First).unwrap().unwrap();
        (answer, plan)
    }

    #[test]
    fn a_plan_survives_being_stored() {
        let (_, plan) = demo_plan();
        assert_eq!(wind_plan_from_json(&wind_plan_to_json(&plan)), Ok(plan));
        let forged = wind_plan_to_json(&plan).replace("\"turns\":", "\"turns\":-");
        for damaged in ["", "[]", "{}", forged.as_str()] {
            assert!(wind_plan_from_json(damaged).is_err(), "{damaged}");
        }
    }

    /// Each core of a pair has a plan of its own, and both are joined as the job says.
    #[test]
    fn each_core_of_a_pair_has_its_plan() {
        let mut file = demo_job();
        file.conditions.pair = Some(PairChoice {
            name: "the other".into(),
            core: Box::new(file.core.clone()),
            windings: crate::job::Joining::Series,
        });
        let answer = evaluate(&file).unwrap();
        let [first, second] =
            [CoreOfPair::First, CoreOfPair::Second].map(|core| wind_plan_of(&answer, core).unwrap().unwrap());
        let joints = PairJoints {
            primaries_in_series: false,
            windings_in_series: true,
        };
        assert_eq!(first.joints(), Some(joints));
        // The other core has the same measures here: what differs is its part in the pair.
        let part = Some(PairPart::Second);
        assert_eq!(second, WindPlan { pair: part, ..first });
        for plan in [first, second] {
            assert_eq!(wind_plan_from_json(&wind_plan_to_json(&plan)), Ok(plan));
        }
        assert!(wind_plan_of(&demo_plan().0, CoreOfPair::Second).is_none());
    }

    /// The turns, layers and room are the design's, and the wire by layers, with what is spared of it, is
    /// what the page's materials have: turns times the mean turn (any transformer handbook, M), within the
    /// part of a turn that a last layer which is not full lies nearer or farther out.
    #[test]
    fn the_plan_is_the_designs() {
        let (answer, plan) = demo_plan();
        let design = answer.design.as_ref().unwrap();
        let winding = &design.candidate.winding;
        assert_eq!(plan.turns, winding.turns);
        let forecast = Counter::default().forecast(&plan);
        assert_eq!(forecast.layers, design.candidate.layers.layers as usize);
        assert!(forecast.fits(), "{forecast:?}");
        let wire = Counter::default().wire_left(&plan).si();
        let of_page = design.materials.iter().find_map(|material| match material.amount {
            Amount::Wire { length, .. } => Some(length.si()),
            _ => None,
        });
        let of_page = of_page.unwrap() / f64::from(winding.parallel);
        let cut = cut_length(Length::from_si(wire), design.estimate.mean_turn.value).si();
        assert!((cut / of_page - 1.0).abs() < 0.03, "{cut} m, the page has {of_page} m");
    }

    /// With a centre tap every winding that is offered has two equal halves, the plan stops between them, and
    /// its wire with four ends is that of the page's materials.
    #[test]
    fn a_centre_tap_makes_two_equal_halves() {
        let mut file = demo_job();
        file.goal = goal_of("battery_charger");
        file.conditions.rectifier = Some(crate::job::RectifierKind::CentreTap);
        file.choice = None;
        let answer = evaluate(&file).unwrap();
        assert!(!answer.found.ranked.is_empty());
        for listed in &answer.found.ranked {
            assert!(listed.winding.turns.is_multiple_of(2), "{:?}", listed.winding);
        }
        let design = answer.design.as_ref().unwrap();
        let plan = wind_plan_of(&answer, CoreOfPair::First).unwrap().unwrap();
        assert!(plan.tapped);
        assert_eq!(wind_plan_from_json(&wind_plan_to_json(&plan)).unwrap(), plan);
        let around = answer.turns_around().unwrap();
        for neighbour in [around.fewer(), around.more()].into_iter().flatten() {
            assert_eq!(neighbour.turns.abs_diff(around.turns), 2);
        }
        let wire = Counter::default().wire_left(&plan).si();
        let of_page = design.materials.iter().find_map(|material| match material.amount {
            Amount::Wire { length, .. } => Some(length.si()),
            _ => None,
        });
        let of_page = of_page.unwrap() / f64::from(design.candidate.winding.parallel);
        let cut = cut_length(Length::from_si(wire), design.estimate.mean_turn.value).si();
        assert!((cut / of_page - 1.0).abs() < 0.03, "{cut} m, the page has {of_page} m");
        // Odd turns that a person holds cannot be halved.
        let mut odd = file.clone();
        let choice = crate::app::basis::as_choice(&design.candidate, &answer.problem.rebuild, &answer.catalogue);
        odd.choice = Some(crate::job::Choice {
            turns: choice.turns + 1,
            ..choice
        });
        let refused = wind_plan_of(&evaluate(&odd).unwrap(), CoreOfPair::First)
            .unwrap()
            .unwrap_err();
        assert_eq!(refused.key, "refused-wind-halves");
    }

    /// A choke and a ballast are wound as their page says: turns, sheets, layers, build and the wire of its
    /// materials, turn by turn against the mean turn. A core that was kept whole takes no gap.
    #[test]
    fn a_coils_plan_follows_its_page() {
        for word in ["choke", "ballast"] {
            let mut file = demo_job();
            file.goal = goal_of(word);
            if let crate::job::Goal::Ballast { current_a, .. } = &mut file.goal {
                *current_a = 4.0;
            }
            file.choice = None;
            let answer = evaluate(&file).unwrap();
            let found = answer.inductor().unwrap().as_ref().unwrap();
            let plan = wind_plan_of(&answer, CoreOfPair::First).unwrap().unwrap();
            assert_eq!(
                (plan.turns, plan.sheets),
                (found.turns, Some(found.stack.sheets())),
                "{word}"
            );
            assert_eq!(wind_plan_from_json(&wind_plan_to_json(&plan)).unwrap(), plan);
            let layers = found.coil.layers as usize;
            assert!((plan.build_of(layers) / found.coil.build - 1.0).abs() < 1e-9, "{word}");
            assert!(plan.build_of(layers) <= plan.build, "{word}: {plan:?} {:?}", found.coil);
            let forecast = Counter::default().forecast(&plan);
            assert!(forecast.layers == layers && forecast.fits(), "{word}: {forecast:?}");
            let wire = Counter::default().wire_left(&plan) / found.coil.wire_length;
            assert!((wire - 1.0).abs() < 0.04, "{word}: {wire}");
            let whole = Findings {
                way: Some(Way::DriveOut),
                ..Findings::default()
            };
            file.core.seam_gap_mm = None;
            let whole = evaluate(&file).unwrap().from_teardown(Some(whole));
            assert_eq!(
                wind_plan_of(&whole, CoreOfPair::First).unwrap().unwrap_err().key,
                "refused-coil-on-whole-core",
                "{word}"
            );
        }
    }
}
