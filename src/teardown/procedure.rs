//! What is the teardown's own in the guided procedure: its events and what they do, its ends and the
//! reasons not to go on.

use super::findings::{Field, Finding, Findings, ShuntFate, Supply, Way, Winding};
use super::guide::gates;
use super::step::Step;
use crate::procedure::{self, Procedure, Run, Situation};
use crate::quantity::Voltage;
use crate::safety::{Disturbance, Gate, Item, Moment, Place, TouchLimit, Words};
use crate::wire::Metal;
use crate::words::words;

/// The teardown as a procedure. Nothing is fixed before it begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TeardownProcedure;

/// One donor's teardown: where it stands and everything that happened.
pub type Teardown = Run<TeardownProcedure>;
/// Something that a person did in a teardown.
pub type Event = procedure::Event<TeardownProcedure>;
/// An event and when it happened.
pub type Entry = procedure::Entry<TeardownProcedure>;
/// Whether a teardown goes on.
pub type Phase = procedure::Phase<End>;
/// Why an event is refused.
pub type Refusal = procedure::Refusal<TeardownProcedure>;

words! {
    /// How a teardown ended.
    pub enum End, "end" {
        /// The core is measured and put away.
        Stored = "stored",
        /// There is no iron core in this donor.
        NoCore = "no-core",
    }
}

/// Readings that prove the capacitor, with a meter and probe rated for its voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Proof {
    /// Between the two terminals.
    pub between: Voltage,
    /// From the first terminal to the oven chassis.
    pub first_to_chassis: Voltage,
    /// From the second terminal to the oven chassis.
    pub second_to_chassis: Voltage,
    /// The limit that they must all lie below.
    pub limit: TouchLimit,
}

impl Proof {
    fn readings(&self) -> [Voltage; 3] {
        [self.between, self.first_to_chassis, self.second_to_chassis]
    }
}

/// An event that only a teardown has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Act {
    /// Measured the capacitor after discharging it. Readings that are not all below the limit
    /// send the person back to discharging. This, and no press, confirms [`Item::ProvedByMeter`].
    Prove(Proof),
    /// Recorded something at the step.
    Found(Finding),
    /// The donor was plugged in again.
    PluggedIn,
}

impl procedure::Act for Act {
    fn to_words(self) -> String {
        match self {
            Act::Prove(p) => format!(
                "prove {} {} {} {}",
                p.between.si(),
                p.first_to_chassis.si(),
                p.second_to_chassis.si(),
                p.limit.volts().si()
            ),
            Act::Found(finding) => format!("found {} {}", finding.field().word(), value(finding)),
            Act::PluggedIn => "plugged-in".to_owned(),
        }
    }

    fn from_words(name: &str, words: &mut Words<'_>) -> Option<Self> {
        Some(match name {
            "prove" => Act::Prove(Proof {
                between: words.quantity()?,
                first_to_chassis: words.quantity()?,
                second_to_chassis: words.quantity()?,
                limit: TouchLimit::new(words.quantity()?).ok()?,
            }),
            "found" => Act::Found(finding(words)?),
            "plugged-in" => Act::PluggedIn,
            _ => return None,
        })
    }
}

fn value(finding: Finding) -> String {
    match finding {
        Finding::Photo(id) => id.to_string(),
        Finding::Supply(supply) => supply.word().to_owned(),
        Finding::WireCount(count) | Finding::Terminals(count) => count.to_string(),
        Finding::TransformerMass(mass) => mass.si().to_string(),
        Finding::WindingAtBack(winding) => winding.word().to_owned(),
        Finding::PrimaryMetal(metal) => metal.word().to_owned(),
        Finding::SeamThickness(thickness) => thickness.si().to_string(),
        Finding::Way(way) => way.word().to_owned(),
        Finding::Shunts(fate) => fate.word().to_owned(),
    }
}

fn finding(words: &mut Words<'_>) -> Option<Finding> {
    Some(match Field::from_word(words.word()?)? {
        Field::Photo => Finding::Photo(words.parse()?),
        Field::Supply => Finding::Supply(Supply::from_word(words.word()?)?),
        Field::WireCount => Finding::WireCount(words.parse()?),
        Field::Terminals => Finding::Terminals(words.parse()?),
        Field::TransformerMass => Finding::TransformerMass(words.quantity()?),
        Field::WindingAtBack => Finding::WindingAtBack(Winding::from_word(words.word()?)?),
        Field::PrimaryMetal => Finding::PrimaryMetal(Metal::from_word(words.word()?)?),
        Field::SeamThickness => Finding::SeamThickness(words.quantity()?),
        Field::Way => Finding::Way(Way::from_word(words.word()?)?),
        Field::Shunts => Finding::Shunts(ShuntFate::from_word(words.word()?)?),
    })
}

/// A reason not to go on that only a teardown has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// Something must be recorded first.
    MustRecord(Field),
    /// The capacitor is proved by readings, not by a press.
    NeedsReadings,
    /// A reading is not a number.
    NoReading,
    /// The capacitor's gate is passed at the capacitor, nowhere else.
    OnlyAtCapacitor,
}

impl procedure::Reason for Reason {
    fn key(self) -> &'static str {
        match self {
            Reason::MustRecord(_) => "refusal-must-record",
            Reason::NeedsReadings => "refusal-needs-readings",
            Reason::NoReading => "refusal-no-reading",
            Reason::OnlyAtCapacitor => "refusal-only-at-capacitor",
        }
    }
}

/// What a teardown records.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    pub(super) findings: Findings,
    pub(super) failed_proof: Option<Voltage>,
}

impl Run<TeardownProcedure> {
    /// What was found.
    #[must_use]
    pub fn findings(&self) -> &Findings {
        &self.facts().findings
    }

    /// The largest voltage of the last try to prove the capacitor, if it was too high: it must
    /// be discharged again from the first item.
    #[must_use]
    pub fn failed_proof(&self) -> Option<Voltage> {
        self.facts().failed_proof
    }
}

impl Procedure for TeardownProcedure {
    type Step = Step;
    type Facts = Facts;
    type Act = Act;
    type End = End;
    type Reason = Reason;

    const FIRST: Step = Step::Prepare;

    fn place(&self, facts: &Facts, step: Step) -> Place {
        step.place(facts.findings.way)
    }

    fn gates(&self, facts: &Facts, step: Step) -> Vec<Gate> {
        gates(step, facts.findings.way)
    }

    fn applies(&self, facts: &Facts, step: Step) -> bool {
        step.applies(&facts.findings)
    }

    fn complete(&self, facts: &Facts, step: Step) -> Result<(), Reason> {
        let must = step.guide(&facts.findings).must_record;
        match must.iter().find(|&&field| !facts.findings.has(field)) {
            Some(&field) => Err(Reason::MustRecord(field)),
            None => Ok(()),
        }
    }

    fn may_press(&self, here: Step, gate: Gate, item: Item) -> Result<(), Reason> {
        if item == Item::ProvedByMeter {
            Err(Reason::NeedsReadings)
        } else if gate == Gate::Capacitor && here != Step::CapacitorSafe {
            Err(Reason::OnlyAtCapacitor)
        } else {
            Ok(())
        }
    }

    fn act(&mut self, situation: &mut Situation<Self>, act: Act, at: Moment) -> Result<(), Refusal> {
        match act {
            Act::Prove(proof) => self.prove(situation, &proof, at),
            Act::Found(finding) => found(situation, finding),
            Act::PluggedIn => {
                situation.passes.disturb(Disturbance::PluggedIn);
                situation.facts.failed_proof = None;
                Ok(())
            }
        }
    }

    fn finish(&self, situation: &mut Situation<Self>) -> End {
        situation.passes.clear();
        End::Stored
    }

    fn resume(&self, facts: &mut Facts) -> bool {
        if facts.findings.supply == Some(Supply::Inverter) {
            facts.findings.supply = None;
        }
        true
    }
}

impl TeardownProcedure {
    fn prove(self, situation: &mut Situation<Self>, proof: &Proof, at: Moment) -> Result<(), Refusal> {
        if situation.position != Step::CapacitorSafe {
            return Err(Refusal::Own(Reason::OnlyAtCapacitor));
        }
        let readings = proof.readings();
        if readings.iter().any(|reading| !reading.is_finite()) {
            return Err(Refusal::Own(Reason::NoReading));
        }
        if readings.iter().all(|&reading| proof.limit.holds(reading)) {
            situation.take_item(&self, Step::Disconnect, Item::ProvedByMeter, false, at)?;
            situation.facts.failed_proof = None;
        } else {
            situation.passes.disturb(Disturbance::StillCharged);
            situation.facts.failed_proof = readings.into_iter().map(Voltage::abs).reduce(Voltage::max);
        }
        Ok(())
    }
}

fn found(situation: &mut Situation<TeardownProcedure>, finding: Finding) -> Result<(), Refusal> {
    let findings = &mut situation.facts.findings;
    if !situation.position.guide(findings).records.contains(&finding.field()) {
        return Err(Refusal::NotAskedHere);
    }
    if let Some(range) = finding.out_of_range() {
        return Err(Refusal::OutOfRange { range });
    }
    findings.take(finding);
    if findings.supply == Some(Supply::Inverter) {
        situation.phase = Phase::Ended(End::NoCore);
        situation.passes.clear();
    }
    Ok(())
}
