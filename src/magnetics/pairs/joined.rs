//! Two donors joined: primaries in parallel or in series on the mains, windings in series or
//! in parallel on the load.
//!
//! Each donor is the usual L circuit: magnetising impedance across its primary, ratio, and all
//! its series impedance on the side of the new winding. Six unknown phasors fall to four linear
//! equations, solved as they stand; equal donors share equally, unequal ones as their
//! impedances divide.

use crate::magnetics::numeric::linear::{Complex, imaginary, real, solve};
use crate::quantity::{
    Current, Input, Measured, Propagated, Resistance, Turns, UncertainInputs, Visitor, Voltage, estimates, propagate,
};

/// How two coils are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Joined {
    /// End to end: one current.
    Series,
    /// Side by side: one voltage.
    Parallel,
}

/// Whether the second core's winding helps the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Phasing {
    /// In series the voltages add; in parallel they stand against each other and nothing flows.
    Right,
    /// The second winding is turned round.
    Reversed,
}

/// A donor as seen from its terminals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Donor {
    /// Turns of the primary.
    pub primary_turns: Turns,
    /// Turns of the new winding.
    pub winding_turns: Turns,
    /// Series resistance, seen from the new winding.
    pub resistance: Measured<Resistance>,
    /// Leakage reactance, seen from the new winding.
    pub reactance: Measured<Resistance>,
    /// Magnetising reactance, seen from the primary: idle voltage over no-load current.
    pub magnetising: Measured<Resistance>,
}

/// Two donors on the mains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// The two.
    pub donors: [Donor; 2],
    /// How their primaries are joined.
    pub primaries: Joined,
    /// How their new windings are joined.
    pub windings: Joined,
    /// Whether the second winding is the right way round.
    pub phasing: Phasing,
    /// Mains.
    pub supply: Measured<Voltage>,
}

/// What hangs on the pair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PairLoad {
    /// Nothing.
    Open,
    /// A load of this resistance and reactance.
    Impedance(Resistance, Resistance),
}

estimates! {
    /// How a pair behaves, open and under load.
    pub struct PairAnswer / PairEstimate / PairNumber {
        /// Voltage of the pair without load.
        open_voltage: Voltage [OpenVoltage, V, "behaves-open-voltage"],
        /// Current that goes round between the donors without load.
        circulating: Current [Circulating, A, "behaves-circulating"],
        /// Resistance of the pair, seen from the load.
        resistance: Resistance,
        /// Reactance of the pair, seen from the load.
        reactance: Resistance,
        /// Voltage on the first primary without load.
        first_primary: Voltage [FirstPrimary, V, "behaves-first-primary"],
        /// Voltage on the second primary without load.
        second_primary: Voltage [SecondPrimary, V, "behaves-second-primary"],
        /// Load current.
        load_current: Current [LoadCurrent, A, "behaves-pair-current"],
        /// Voltage at the load.
        load_voltage: Voltage [LoadVoltage, V, "behaves-pair-voltage"],
        /// Current in the first new winding under load.
        first_current: Current [FirstCurrent, A, "behaves-first-current"],
        /// Current in the second new winding under load.
        second_current: Current [SecondCurrent, A, "behaves-second-current"],
    }
}

struct Solved {
    primary: [Complex; 2],
    current: [Complex; 2],
    voltage: Complex,
}

impl Pair {
    fn solved(&self, load_admittance: Complex, supply: Complex, injected: Complex) -> Option<Solved> {
        let [a, b] = self.donors;
        let ratio = |d: &Donor| d.winding_turns / d.primary_turns;
        let (ra, rb) = (ratio(&a), ratio(&b));
        let z = |d: &Donor| Complex::new(d.resistance.value.si(), d.reactance.value.si());
        let (za, zb) = (z(&a), z(&b));
        let ym = |d: &Donor| Complex::ONE / imaginary(d.magnetising.value.si());
        let way = match self.phasing {
            Phasing::Right => Complex::ONE,
            Phasing::Reversed => -Complex::ONE,
        };
        let one = Complex::ONE;
        let none = Complex::ZERO;
        // Unknown: both primary voltages, both winding currents. The terminal voltage of a
        // winding is ratio × primary − Z × current.
        let mut m = [[none; 4]; 4];
        let mut right = [none; 4];
        match self.primaries {
            Joined::Parallel => {
                m[0][0] = one;
                m[1][1] = one;
                right[0] = supply;
                right[1] = supply;
            }
            Joined::Series => {
                m[0][0] = one;
                m[0][1] = one;
                right[0] = supply;
                m[1] = [ym(&a), -ym(&b), real(ra), real(-rb)];
            }
        }
        match self.windings {
            Joined::Series => {
                m[2] = [none, none, one, -way];
                // (Va + way Vb) Y = current of the first; a current injected from outside adds.
                let y = load_admittance;
                m[3] = [y * ra, way * y * rb, -(y * za) - one, -(way * y * zb)];
                right[3] = -injected;
            }
            Joined::Parallel => {
                m[2] = [real(ra), -(way * rb), -za, way * zb];
                let y = load_admittance;
                m[3] = [y * ra, none, -(y * za) - one, -way];
                right[3] = -injected;
            }
        }
        let [va, vb, ia, ib] = solve(m, right)?;
        let first = va * ra - za * ia;
        let second = vb * rb - zb * ib;
        let voltage = match self.windings {
            Joined::Series => first + way * second,
            Joined::Parallel => first,
        };
        let all = [va, vb, ia, ib, voltage];
        all.iter().all(|c| c.norm().is_finite()).then_some(Solved {
            primary: [va, vb],
            current: [ia, ib],
            voltage,
        })
    }

    /// How the pair behaves; `None` where the numbers make no sense (turns or magnetising
    /// reactance at zero, no impedance between unequal windings in parallel).
    #[must_use]
    pub fn answer(&self, load: PairLoad) -> Option<PairAnswer> {
        let supply = real(self.supply.value.si());
        let open = self.solved(Complex::ZERO, supply, Complex::ZERO)?;
        // One ampere pushed in at the terminals with the mains short-circuited reads the impedance.
        let probe = self.solved(Complex::ZERO, Complex::ZERO, -Complex::ONE)?;
        let admittance = match load {
            PairLoad::Open => Complex::ZERO,
            PairLoad::Impedance(r, x) => Complex::ONE / Complex::new(r.si(), x.si()),
        };
        let loaded = self.solved(admittance, supply, Complex::ZERO)?;
        let circulating = match self.windings {
            Joined::Series => 0.0,
            Joined::Parallel => open.current[0].norm(),
        };
        Some(PairAnswer {
            open_voltage: Voltage::from_si(open.voltage.norm()),
            circulating: Current::from_si(circulating),
            resistance: Resistance::from_si(probe.voltage.re),
            reactance: Resistance::from_si(probe.voltage.im),
            first_primary: Voltage::from_si(open.primary[0].norm()),
            second_primary: Voltage::from_si(open.primary[1].norm()),
            load_current: Current::from_si((loaded.voltage * admittance).norm()),
            load_voltage: Voltage::from_si(loaded.voltage.norm()),
            first_current: Current::from_si(loaded.current[0].norm()),
            second_current: Current::from_si(loaded.current[1].norm()),
        })
    }

    /// [`Pair::answer`] with uncertainty, and what each input adds to it.
    #[must_use]
    pub fn answer_with_uncertainty(&self, load: PairLoad) -> Option<(PairEstimate, Propagated<{ PairAnswer::COUNT }>)> {
        let answers = propagate(self, |pair| pair.answer(load).map(|a| a.to_si()))?;
        Some((PairEstimate::from_propagated(&answers), answers))
    }
}

impl UncertainInputs for Pair {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        let [first, second] = &mut self.donors;
        first.resistance.visit(Input::FirstDonorResistance, visitor);
        first.reactance.visit(Input::FirstDonorReactance, visitor);
        first.magnetising.visit(Input::FirstDonorMagnetisingReactance, visitor);
        second.resistance.visit(Input::SecondDonorResistance, visitor);
        second.reactance.visit(Input::SecondDonorReactance, visitor);
        second
            .magnetising
            .visit(Input::SecondDonorMagnetisingReactance, visitor);
        self.supply.visit(Input::MainsVoltage, visitor);
    }
}
