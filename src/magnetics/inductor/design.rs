//! Turns and gap for an inductance at a current: chokes, and ballasts for a lamp or an arc.

use crate::magnetics::core::EiCore;
use crate::magnetics::core::gap::Gaps;
use crate::magnetics::core::path::CorePath;
use crate::magnetics::core::steel::Steel;
use crate::magnetics::inductor::{Conductor, Inductor, Load};
use crate::quantity::{
    Current, FluxDensity, Frequency, Inductance, Length, Measured, Origin, Ratio, Resistance, Temperature, Turns,
    Voltage,
};

/// The widest shim that the fringing form is used for, over the tongue's width: beyond it the
/// lumped gap drifts from field computation (within 2 % of it at 0.067, the widest compared).
pub const WIDEST_SHIM_SHARE: f64 = 0.1;

/// What an inductor is to be built from and to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InductorWish {
    /// The core.
    pub core: EiCore,
    /// Its steel.
    pub steel: Steel,
    /// Its gaps without the shim that is to be found.
    pub gaps: Gaps,
    /// The wire.
    pub conductor: Conductor,
    /// Share of the window that the wire's square cells may take; the rest is former, insulation
    /// and room for hands.
    pub usable: Ratio,
    /// Inductance over the load's swing.
    pub inductance: Inductance,
    /// The current.
    pub load: Load,
    /// Highest flux density in the tongue, at the current's crest.
    pub limit: FluxDensity,
    /// Temperature of the winding in work.
    pub temperature: Measured<Temperature>,
}

/// Why an inductor can't be had, and the nearest that can.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum InductorError {
    /// Something asked for is zero, negative or not a number.
    #[error("{0} must be above zero")]
    NotAboveZero(&'static str),
    /// The turns that keep the flux under its limit don't fit the window.
    #[error("{needed:.0} turns are needed and {fit:.0} fit the window; the most with this wire and core is \
             {:.3} mH at this current; use thinner wire, a larger core, or ask for less", most.millihenries())]
    TooManyTurns {
        /// Turns that the flux limit asks for.
        needed: f64,
        /// Turns that fit.
        fit: f64,
        /// The inductance that the turns that fit can have.
        most: Inductance,
    },
    /// The shim would be so wide that the gap model ends.
    #[error("a spacer of {:.2} mm in each limb is needed and {:.2} mm is the widest that can be calculated; the nearest \
             is {:.3} mH with that spacer; use a smaller core or fewer turns", needed.mm(), widest.mm(), nearest.millihenries())]
    ShimTooWide {
        /// The shim that would do.
        needed: Length,
        /// The widest that the model holds for.
        widest: Length,
        /// Inductance with the widest shim and as many turns.
        nearest: Inductance,
    },
    /// The lamp or arc needs more voltage than the mains leave beside it.
    #[error("the arc takes {:.0} V of {:.0} V mains; a series ballast holds a steady current up to about {:.0} V (0.85 \
             of the mains); use a lamp of less voltage or a step-up transformer", arc.si(), mains.si(), most.si())]
    ArcVoltageTooHigh {
        /// The arc's voltage.
        arc: Voltage,
        /// The mains'.
        mains: Voltage,
        /// The highest arc voltage taken here.
        most: Voltage,
    },
}

impl InductorWish {
    /// The fewest turns and the shim in all three legs that give the inductance within the flux
    /// limit and the window.
    ///
    /// For a count of turns the least shim is the one that brings the flux density at the
    /// current's crest down to the limit; from there the inductance falls as the shim grows, and
    /// the shim is bisected until it is that asked, steel, fringing and window leakage included.
    /// Where the least shim gives less than that, a turn is added (the turns come out near
    /// `N = L Î / (B A)`, `McLyman`, Transformer and Inductor Design Handbook).
    ///
    /// # Errors
    /// [`InductorError`], each naming the nearest that can be had.
    pub fn design(&self) -> Result<Inductor, InductorError> {
        self.check()?;
        let fit = self.turns_that_fit();
        let least = self.inductance.si() * self.load.crest().si() / self.core.flux(self.limit).si();
        // The steel's curves are made once for all turns and shims.
        let steel = &CorePath::new(&self.core, &self.steel, &self.gaps);
        // Leakage carries part of the linkage past the core: fewer turns may do than that.
        let mut turns = (0.5 * least).ceil().max(1.0);
        while turns <= fit {
            if let Some(built) = self.with_turns(turns, steel)? {
                return Ok(built);
            }
            turns += 1.0;
        }
        let most = match self.least_shim(fit, steel) {
            Some(shim) if fit >= 1.0 => self.built(fit, shim).inductance_at(self.load),
            _ => Inductance::ZERO,
        };
        let needed = if most > Inductance::ZERO {
            fit * (self.inductance / most)
        } else {
            least
        };
        Err(InductorError::TooManyTurns {
            needed: needed.ceil().max(turns),
            fit,
            most,
        })
    }

    /// Most turns of the wire that the usable share of the window takes.
    #[must_use]
    pub fn turns_that_fit(&self) -> f64 {
        let diameter = self.conductor.insulated_diameter;
        (self.usable.si() * (self.core.window_area() / (diameter * diameter))).floor()
    }

    fn check(&self) -> Result<(), InductorError> {
        let wanted = [
            ("the inductance", self.inductance.si()),
            ("the current", self.load.crest().si()),
            ("the flux density limit", self.limit.si()),
            ("the wire's section", self.conductor.section.si()),
            (
                "the wire's diameter over its insulation",
                self.conductor.insulated_diameter.si(),
            ),
            ("the usable share of the window", self.usable.si()),
            ("the frequency", self.load.frequency.si()),
            ("the tongue's steel area", self.core.net_area().si()),
            ("the outer limbs' steel area", self.core.outer_limb_area().si()),
            ("the yokes' steel area", self.core.yoke_area().si()),
            ("the window's area", self.core.window_area().si()),
        ];
        match wanted
            .into_iter()
            .find(|(_, value)| !(value.is_finite() && *value > 0.0))
        {
            Some((name, _)) => Err(InductorError::NotAboveZero(name)),
            None => Ok(()),
        }
    }

    fn built(&self, turns: f64, shim: Length) -> Inductor {
        Inductor {
            core: self.core,
            steel: self.steel,
            gaps: self
                .gaps
                .with_shim(Measured::new(shim, self.gaps.shim.plus_minus, Origin::Computed)),
            turns: Measured::exact(Turns::from_si(turns), Origin::Chosen),
            conductor: self.conductor,
            load: self.load,
            temperature: self.temperature,
        }
    }

    /// Widest shim that is reckoned with.
    fn widest_shim(&self) -> Length {
        self.core.tongue.value * WIDEST_SHIM_SHARE
    }

    /// The least shim at which the flux density keeps its limit; `None` where even the widest
    /// is too thin.
    fn least_shim(&self, turns: f64, steel: &CorePath) -> Option<Length> {
        let keeps = |shim: Length| self.built(turns, shim).turns_at_on(steel, self.limit).si() >= turns;
        if keeps(Length::ZERO) {
            return Some(Length::ZERO);
        }
        keeps(self.widest_shim()).then(|| bisect(self.widest_shim(), |shim| !keeps(shim)))
    }

    /// The inductor of so many turns, or `None` where they are too few.
    fn with_turns(&self, turns: f64, steel: &CorePath) -> Result<Option<Inductor>, InductorError> {
        let inductance = |shim: Length| self.built(turns, shim).inductance_on(steel);
        let widest = self.widest_shim();
        let least = self.least_shim(turns, steel);
        if least.is_some_and(|shim| inductance(shim) < self.inductance) {
            return Ok(None);
        }
        if least.is_none() || inductance(widest) > self.inductance {
            // More turns would ask for a wider gap still. The nearest: as many turns as keep the
            // flux density within its limit at the widest shim.
            let full = self.built(turns, widest).turns_at(self.limit).si().floor();
            let nearest = self.built(turns.min(full), widest).inductance_at(self.load);
            let needed = widest * (inductance(widest) / self.inductance).max(turns / full);
            return Err(InductorError::ShimTooWide {
                needed,
                widest,
                nearest,
            });
        }
        let too_much = |shim: Length| least.is_none_or(|least| shim < least) || inductance(shim) > self.inductance;
        Ok(Some(self.built(turns, bisect(widest, too_much))))
    }
}

/// The least length up to `most` at which `below` no longer holds, to 1e-9 of it.
fn bisect(most: Length, below: impl Fn(Length) -> bool) -> Length {
    let (mut low, mut high) = (Length::ZERO, most);
    for _ in 0..30 {
        let middle = 0.5 * (low + high);
        if below(middle) { low = middle } else { high = middle }
    }
    high
}

/// A lamp or an arc that needs a series reactor on the mains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ballast {
    /// Mains voltage, r.m.s.
    pub mains: Voltage,
    /// Mains frequency.
    pub frequency: Frequency,
    /// Voltage across the burning lamp or arc, r.m.s., in phase with the current.
    pub arc: Voltage,
    /// Current, r.m.s.
    pub current: Current,
}

impl Ballast {
    /// Highest arc voltage over the mains' that a plain series ballast is designed for here.
    /// Common practice, no source: above it a small dip of the mains puts the arc out.
    pub const MOST_ARC_SHARE: f64 = 0.85;

    /// Reactance for a series resistance of the winding,
    /// `X = √(V² − (V_arc + I R)²) / I`, the arc taken as a resistance. A real arc's voltage is
    /// nearer a square wave: the reference ballasts of mercury lamps (IEC 60188, from memory)
    /// have 13 to 16 % less reactance than this, so that the current comes out low. Begin with
    /// this gap and widen it while measuring.
    ///
    /// # Errors
    /// [`InductorError::ArcVoltageTooHigh`] where arc and winding take more than 0.85 of the
    /// mains, [`InductorError::NotAboveZero`] for a mains voltage, frequency or current that isn't.
    pub fn reactance(&self, winding: Resistance) -> Result<Resistance, InductorError> {
        let wanted = [
            ("the mains voltage", self.mains.si()),
            ("the frequency", self.frequency.si()),
            ("the current", self.current.si()),
            ("the arc's voltage", self.arc.si()),
        ];
        if let Some((name, _)) = wanted
            .into_iter()
            .find(|(_, value)| !(value.is_finite() && *value > 0.0))
        {
            return Err(InductorError::NotAboveZero(name));
        }
        let in_phase = self.arc + winding * self.current;
        let most = Self::MOST_ARC_SHARE * self.mains;
        if in_phase > most {
            let most = most - winding * self.current;
            return Err(InductorError::ArcVoltageTooHigh {
                arc: self.arc,
                mains: self.mains,
                most,
            });
        }
        let across = (self.mains.si().powi(2) - in_phase.si().powi(2)).sqrt();
        Ok(Resistance::from_si(across / self.current.si()))
    }

    /// The reactor: the wish's core, steel, wire and limits with this ballast's inductance and
    /// current in place of its own. The winding's resistance is found by going round three times.
    ///
    /// # Errors
    /// As [`Ballast::reactance`] and [`InductorWish::design`].
    pub fn design(&self, wish: &InductorWish) -> Result<Inductor, InductorError> {
        let mut wish = *wish;
        wish.load = Load::alternating(self.current, self.frequency);
        let mut winding = Resistance::ZERO;
        let mut built = None;
        for _ in 0..3 {
            let reactance = self.reactance(winding)?;
            wish.inductance = Inductance::from_si(reactance.si() / self.frequency.angular());
            let inductor = wish.design()?;
            winding = inductor.work().map_or(winding, |work| work.resistance);
            built = Some(inductor);
        }
        built.ok_or(InductorError::NotAboveZero("the current"))
    }
}
