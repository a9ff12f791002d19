//! The second core of a pair that is unlike the first: both windings as one source.

use super::{Circuit, Prepared, Rebuild};
use crate::magnetics::numeric::linear::Complex;
use crate::magnetics::pairs::Joined;
use crate::magnetics::winding::{Layers, Winding};
use crate::quantity::{Current, Input, Measured, Origin, Resistance, UncertainInputs, Visitor, Voltage, propagate};

/// A core with its winding, seen from that winding, the mains loop left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OtherCore {
    /// Open-circuit voltage of the winding.
    pub emf: Voltage,
    /// Of winding and primary, hot.
    pub resistance: Measured<Resistance>,
    /// Leakage reactance, nothing saturated.
    pub reactance: Measured<Resistance>,
    /// New turns over primary turns.
    pub ratio: f64,
    /// No-load current of its primary.
    pub idle: Measured<Current>,
}

impl OtherCore {
    /// A winding on a core by itself. `None` where it cannot be layered.
    #[must_use]
    pub fn of(rebuild: &Rebuild, winding: &Winding) -> Option<Self> {
        let alone = Rebuild {
            together: None,
            other: None,
            supply_resistance: Measured::exact(Resistance::ZERO, Origin::Computed),
            ..*rebuild
        };
        let layers = Layers::of(winding, &Prepared::new(&alone).space)?;
        let circuit = |rebuild: &Rebuild| Prepared::new(rebuild).circuit(winding, &layers);
        let best = circuit(&alone);
        let spread = propagate(&alone, |moved| {
            let circuit = circuit(moved);
            Some([circuit.resistance.si(), circuit.reactance.si()])
        })?;
        let measured = |at: usize, value: Resistance| {
            Measured::new(value, Resistance::from_si(2.0 * spread.sigma[at]), Origin::Computed)
        };
        Some(Self {
            emf: best.emf,
            resistance: measured(0, best.resistance),
            reactance: measured(1, best.reactance),
            ratio: best.ratio,
            idle: rebuild.idle_current,
        })
    }

    fn impedance(&self) -> Complex {
        Complex::new(self.resistance.value.si(), self.reactance.value.si())
    }

    /// The circuit of one winding joined with this one: in series e.m.f.s and impedances add; in parallel
    /// `Z = Z₁Z₂/(Z₁ + Z₂)` and `E = (E₁Z₂ + E₂Z₁)/(Z₁ + Z₂)` (Millman; any textbook of networks). Both
    /// primaries lie side by side on a mains loop of `supply`.
    pub(super) fn joined_with(&self, own: Circuit, windings: Joined, supply: Resistance) -> Circuit {
        let joined = match windings {
            Joined::Series => {
                let ratio = own.ratio + self.ratio;
                Circuit {
                    emf: own.emf + self.emf,
                    resistance: own.resistance + self.resistance.value,
                    reactance: own.reactance + self.reactance.value,
                    share: 1.0,
                    own_part: own.ratio / ratio,
                    ratio,
                    ..own
                }
            }
            Joined::Parallel => {
                let (first, second) = (Complex::new(own.resistance.si(), own.reactance.si()), self.impedance());
                let whole = first + second;
                let weighed = |of_first: f64, of_second: f64| ((second * of_first + first * of_second) / whole).norm();
                let impedance = first * second / whole;
                let (share, ratio) = ((second / whole).norm(), weighed(own.ratio, self.ratio));
                Circuit {
                    emf: Voltage::from_si(weighed(own.emf.si(), self.emf.si())),
                    resistance: Resistance::from_si(impedance.re),
                    reactance: Resistance::from_si(impedance.im),
                    share,
                    own_part: (own.ratio * share / ratio).min(1.0),
                    ratio,
                    // Of the whole reactance a change of the first one's moves the square of its share.
                    shunts: own.shunts.map(|shunts| shunts.of_pair(share, share * share)),
                    ..own
                }
            }
        };
        Circuit {
            resistance: joined.resistance + supply * (joined.ratio * joined.ratio),
            ..joined
        }
    }
}

impl UncertainInputs for OtherCore {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.resistance.visit(Input::SecondDonorResistance, visitor);
        self.reactance.visit(Input::SecondDonorReactance, visitor);
    }
}
