//! What the chosen design asks for when the winding begins.

use crate::quantity::{Length, Resistance};

/// What a meter and an insulation tester should show of the primary, cold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrimaryBand {
    /// Its resistance at 20 °C.
    pub expected: Resistance,
    /// The least of it.
    pub low: Resistance,
    /// The most of it.
    pub high: Resistance,
    /// The least insulation resistance from the primary to the core.
    pub insulation: Resistance,
}

impl PrimaryBand {
    /// Whether its numbers make sense.
    fn is_one(&self) -> bool {
        let [expected, low, high, insulation] =
            [self.expected, self.low, self.high, self.insulation].map(Resistance::si);
        low >= 0.0
            && low <= expected
            && expected <= high
            && expected > 0.0
            && high < 1e6
            && insulation > 0.0
            && insulation < 1e12
    }
}

/// What is wound, as far as its steps differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WindKind {
    /// The new winding of a transformer, in one piece.
    Winding,
    /// The new winding of a transformer, in two halves with a tap between them.
    TappedWinding,
    /// The coil of a choke or a ballast.
    Coil,
}

impl WindKind {
    /// Every kind.
    pub const ALL: [WindKind; 3] = [WindKind::Winding, WindKind::TappedWinding, WindKind::Coil];
}

/// How the coils of a pair of cores are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PairJoints {
    /// The primaries in series; else in parallel.
    pub primaries_in_series: bool,
    /// The new windings in series; else in parallel.
    pub windings_in_series: bool,
}

/// Which core of a job is wound: each has a run of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoreOfPair {
    /// The job's own core, the only one where there is no pair.
    First,
    /// The second core of a pair.
    Second,
}

/// What a core of a pair has to do with the other one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PairPart {
    /// The first core: once it is fixed, the second is joined to it and both are enclosed.
    First(PairJoints),
    /// The second core: its run ends once it is fixed.
    Second,
}

/// What is wound, in how many layers, and the room for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindPlan {
    /// The primary came out of the core and goes back.
    pub primary_back: bool,
    /// The shunts go back.
    pub shunts: bool,
    /// The core was opened and is closed again.
    pub core_opened: bool,
    /// What the primary should measure; none for a choke or a ballast.
    pub primary: Option<PrimaryBand>,
    /// Two halves of the same turns, with a tap between them.
    pub tapped: bool,
    /// Sheets of shim in each face of a choke or a ballast; none for a transformer.
    pub sheets: Option<u32>,
    /// Turns to wind.
    pub turns: u32,
    /// Turns in a full layer.
    pub turns_per_layer: u32,
    /// Its part in a pair of cores; none for a core alone.
    pub pair: Option<PairPart>,
    /// Room along the limb.
    pub breadth: Length,
    /// Room away from the limb.
    pub build: Length,
    /// From the limb to the winding's inside.
    pub start: Length,
    /// A turn along the limb, all its conductors side by side.
    pub turn_width: Length,
    /// A layer, away from the limb.
    pub layer_height: Length,
    /// The film between two layers.
    pub interlayer: Length,
    /// A turn that lies against the tongue: its perimeter.
    pub perimeter: Length,
    /// Wire for all lead-outs together: two, or four where there is a tap.
    pub leads: Length,
}

/// Why a plan is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum PlanFault {
    /// No turns, or more than a person can count.
    #[error("the plan has no turns, or more than 10000; choose the design again")]
    Turns,
    /// A primary without its band, a coil with one, or a band that is none.
    #[error("the plan does not say what the primary should measure; choose the design again")]
    Primary,
    /// Halves that are not equal.
    #[error("a winding with a centre tap needs an even number of turns; choose another number of turns")]
    Halves,
    /// A choke or a ballast as one of a pair.
    #[error("a choke or a ballast is no part of a pair; choose the design again")]
    Pair,
    /// A gap that is none.
    #[error("the plan's gap is none of 1 to 1000 sheets on an opened core; choose the design again")]
    Gap,
    /// A length that is none.
    #[error("a length of the plan is not between 0 and 10 m; choose the design again")]
    Length,
}

impl WindPlan {
    /// The plan, if it is one.
    ///
    /// # Errors
    /// [`PlanFault`] for turns outside 1 to 10000, more turns in a layer than there are, halves that are not
    /// equal, a primary without a band, a gap of more than 1000 sheets or on a core that is no coil's, a coil as
    /// one of a pair, and lengths outside 0 to 10 m (100 m for the lead-outs).
    pub fn checked(self) -> Result<Self, PlanFault> {
        let turns = (1..=10_000).contains(&self.turns) && (1..=self.turns).contains(&self.turns_per_layer);
        if !turns {
            return Err(PlanFault::Turns);
        }
        // A coil is alone on its core, and its gap needs a core that was opened.
        let coil = !self.primary_back && !self.shunts && self.core_opened;
        if self.sheets.is_some_and(|sheets| !(1..=1000).contains(&sheets) || !coil) {
            return Err(PlanFault::Gap);
        }
        if self.pair.is_some() && self.is_coil() {
            return Err(PlanFault::Pair);
        }
        if self.primary.is_some() == self.is_coil() || self.primary.is_some_and(|band| !band.is_one()) {
            return Err(PlanFault::Primary);
        }
        if self.tapped && (self.is_coil() || !self.turns.is_multiple_of(2)) {
            return Err(PlanFault::Halves);
        }
        let positive = [
            self.breadth,
            self.build,
            self.turn_width,
            self.layer_height,
            self.perimeter,
        ];
        let rest = [self.start, self.interlayer];
        let within = |length: &Length| (0.0..=10.0).contains(&length.si());
        let fine = positive.iter().all(|length| within(length) && length.si() > 0.0)
            && rest.iter().all(within)
            && (0.0..=100.0).contains(&self.leads.si());
        if fine { Ok(self) } else { Err(PlanFault::Length) }
    }

    /// Whether it is the coil of a choke or a ballast, with a gap in its core.
    #[must_use]
    pub const fn is_coil(&self) -> bool {
        self.sheets.is_some()
    }

    /// What is wound, as far as its steps differ.
    #[must_use]
    pub const fn kind(&self) -> WindKind {
        match (self.is_coil(), self.tapped) {
            (true, _) => WindKind::Coil,
            (false, true) => WindKind::TappedWinding,
            (false, false) => WindKind::Winding,
        }
    }

    /// Length of a turn in a layer, the innermost first: at the middle of the layer, with a quarter
    /// circle round each corner, as [`EiCore::turn_length`](crate::magnetics::core::EiCore::turn_length).
    #[must_use]
    pub fn turn_length(&self, layer: usize) -> Length {
        let away = self.start + (self.layer_height + self.interlayer) * layer as f64 + self.layer_height / 2.0;
        self.perimeter + std::f64::consts::TAU * away
    }

    /// How the second core is joined to this one; none for a core alone and for the second core itself.
    #[must_use]
    pub const fn joints(&self) -> Option<PairJoints> {
        match self.pair {
            Some(PairPart::First(joints)) => Some(joints),
            Some(PairPart::Second) | None => None,
        }
    }

    /// How far so many layers reach from the winding's inside.
    #[must_use]
    pub fn build_of(&self, layers: usize) -> Length {
        self.layer_height * layers as f64 + self.interlayer * layers.saturating_sub(1) as f64
    }
}
