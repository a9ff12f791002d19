//! What the laminations are made of: field strength and loss against flux density.

use crate::magnetics::core::steel_grades::{Listed, SteelGrade};
use crate::magnetics::numeric::log_curve::LogCurve;
use crate::magnetics::numeric::tabulated::TabulatedCurve;
use crate::quantity::{
    FieldStrength, FluxDensity, Frequency, Input, Measured, Origin, Ratio, SpecificLoss, UncertainInputs, Visitor,
};

/// Permeability of free space in H/m, 4π × 10⁻⁷ (SI before 2019; the measured value since then
/// agrees to nine digits).
pub const MU_0: f64 = 4.0e-7 * std::f64::consts::PI;

/// The frequency that the loss tables were measured at.
const LISTED_FREQUENCY: f64 = 50.0;

/// Which steel the laminations are of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SteelKind {
    /// A known grade.
    Grade(SteelGrade),
    /// Not known: a position between the best steel that a donor's core may have (−1, M400-50A),
    /// the middle (0, M530-50A) and the worst (+1, M800-50A), clamped to that range.
    Unknown(Measured<Ratio>),
}

/// A steel with the scatter of its samples.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steel {
    /// The grade, or a position in the band of grades.
    pub kind: SteelKind,
    /// Field strength of this sample over that of the table.
    pub field_factor: Measured<Ratio>,
    /// Loss of this sample over that of the table.
    pub loss_factor: Measured<Ratio>,
}

impl Steel {
    /// Unknown: the band over the grades, position 0 ± 1 (k = 2), and on top of it the sample's
    /// scatter. The grades' curves cross near 1.35 T (a poorer steel saturates later), so the
    /// position alone would feign certainty there: the field factor is 1 ± 0.3, the loss factor
    /// 1 ± 0.2 (punching, welds and a missing anneal; common practice, no source).
    pub const UNKNOWN: Self = Self {
        kind: SteelKind::Unknown(typical(0.0, 1.0)),
        field_factor: typical(1.0, 0.3),
        loss_factor: typical(1.0, 0.2),
    };

    /// A known grade: field factor 1 ± 0.2 (two open tables of M400-50A differ by up to 16 %
    /// between 0.5 and 1.8 T), loss factor 1 ± 0.1 (a data sheet's typical value against the
    /// limit in the grade's name; from memory).
    #[must_use]
    pub const fn of(grade: SteelGrade) -> Self {
        Self {
            kind: SteelKind::Grade(grade),
            field_factor: typical(1.0, 0.2),
            loss_factor: typical(1.0, 0.1),
        }
    }

    /// A grade exactly as its table has it.
    #[must_use]
    pub const fn exactly(grade: SteelGrade) -> Self {
        Self {
            kind: SteelKind::Grade(grade),
            field_factor: typical(1.0, 0.0),
            loss_factor: typical(1.0, 0.0),
        }
    }

    /// The magnetisation curve of this steel.
    #[must_use]
    pub fn magnetisation(&self) -> Magnetisation {
        let factor = self.field_factor.value.si().max(0.1);
        let curve = match self.kind {
            SteelKind::Grade(grade) => LogCurve::through(field_points(grade).map(|(b, h)| (b, h * factor)), 1.0),
            SteelKind::Unknown(position) => {
                let (middle, side, share) = between(position.value.si());
                let side = Magnetisation::of(side);
                let point = |(b, h): (f64, f64)| (b, h * (side.at(b).0 / h).powf(share) * factor);
                LogCurve::through(field_points(middle).map(point), 1.0)
            }
        };
        Magnetisation { curve }
    }

    /// The loss curve of this steel.
    #[must_use]
    pub fn loss(&self) -> LossCurve {
        let factor = self.loss_factor.value.si().max(0.1);
        match self.kind {
            SteelKind::Grade(grade) => LossCurve {
                eddy_share: grade.eddy_share(),
                curve: LogCurve::through(loss_points(grade).map(|(b, p)| (b, p * factor)), 2.0),
            },
            SteelKind::Unknown(position) => {
                let (middle, side, share) = between(position.value.si());
                let side_loss = Steel::exactly(side).loss();
                let point = |(b, p): (f64, f64)| (b, p * (side_loss.at_50_hz(b) / p).powf(share) * factor);
                LossCurve {
                    eddy_share: middle.eddy_share() * (1.0 - share) + side.eddy_share() * share,
                    curve: LogCurve::through(loss_points(middle).map(point), 2.0),
                }
            }
        }
    }
}

impl UncertainInputs for Steel {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        if let SteelKind::Unknown(position) = &mut self.kind {
            position.visit(Input::SteelGrade, visitor);
        }
        self.field_factor.visit(Input::SteelMagnetisation, visitor);
        self.loss_factor.visit(Input::SteelLoss, visitor);
    }
}

/// The middle of the band, the grade at the end that a position leans to, and how far it leans.
fn between(position: f64) -> (SteelGrade, SteelGrade, f64) {
    let side = if position < 0.0 {
        SteelGrade::M400_50A
    } else {
        SteelGrade::M800_50A
    };
    (SteelGrade::M530_50A, side, position.abs().min(1.0))
}

const fn typical(value: f64, plus_minus: f64) -> Measured<Ratio> {
    Measured {
        value: Ratio::from_si(value),
        plus_minus: Ratio::from_si(plus_minus),
        origin: Origin::Typical,
    }
}

/// Flux density in T and field strength in A/m, from what the table lists.
fn field_points(grade: SteelGrade) -> impl Iterator<Item = (f64, f64)> {
    let (listed, points) = grade.listed_field();
    points.iter().map(move |&(h, listed_value)| match listed {
        Listed::Polarization => (listed_value + MU_0 * h, h),
        Listed::FluxDensity => (listed_value, h),
    })
}

fn loss_points(grade: SteelGrade) -> impl Iterator<Item = (f64, f64)> {
    grade.listed_loss().iter().copied()
}

/// Field strength against flux density, without hysteresis: the curve through the tips of the
/// loops. Both are peak values or instants; odd in B.
///
/// Between listed points a monotone cubic in ln H against ln B (see `numeric::log_curve`); below the
/// first point H is proportional to B; above the last one (2.0 to 2.1 T, for M19 2.3 T) dB/dH =
/// μ₀. The sheet's polarization still rises by 0.04 to 0.05 T there, so that H is that much too
/// high (3 % at 3 T).
#[derive(Debug, Clone, PartialEq)]
pub struct Magnetisation {
    curve: LogCurve,
}

impl Magnetisation {
    /// The curve of a grade, as its table has it.
    #[must_use]
    pub fn of(grade: SteelGrade) -> Self {
        Steel::exactly(grade).magnetisation()
    }

    /// H and dH/dB in SI units at a flux density in T.
    pub(crate) fn at(&self, density: f64) -> (f64, f64) {
        let size = density.abs();
        let (top_b, top_h) = self.curve.last();
        let (h, slope) = if size > top_b {
            (top_h + (size - top_b) / MU_0, 1.0 / MU_0)
        } else {
            // In the last interval the cubic may be steeper than free space, which no steel is.
            let (h, slope) = self.curve.at(size);
            (h, slope.min(1.0 / MU_0))
        };
        (h.copysign(density), slope)
    }

    /// Field strength that the steel needs at a flux density.
    #[must_use]
    pub fn field(&self, density: FluxDensity) -> FieldStrength {
        FieldStrength::from_si(self.at(density.si()).0)
    }

    /// [`Magnetisation::field`] laid down once up to 3 T, for many evaluations: within 0.2 % of it
    /// above 10 mT.
    pub fn tabulated(&self) -> impl Fn(FluxDensity) -> FieldStrength + use<> {
        let curve = TabulatedCurve::through(3.0, |density| self.at(density));
        move |density| FieldStrength::from_si(curve.at(density.si()).0)
    }

    /// Differential permeability dB/dH over that of free space.
    #[must_use]
    pub fn differential_permeability(&self, density: FluxDensity) -> Ratio {
        Ratio::from_si(1.0 / (self.at(density.si()).1 * MU_0))
    }

    /// Flux density at a field strength: the inverse of [`Magnetisation::field`] by bisection,
    /// to 1e-9 T; not a number for a field that isn't finite.
    #[must_use]
    pub fn density(&self, field: FieldStrength) -> FluxDensity {
        let size = field.si().abs();
        if !size.is_finite() {
            return FluxDensity::from_si(f64::NAN);
        }
        let (mut low, mut high) = (0.0, self.curve.last().0 + MU_0 * size);
        while high - low > 1e-9 * high.max(1.0) {
            let middle = 0.5 * (low + high);
            if self.at(middle).0 > size {
                high = middle;
            } else {
                low = middle;
            }
        }
        FluxDensity::from_si((0.5 * (low + high)).copysign(field.si()))
    }

    /// Peak polarization B − μ₀H, which steel makers list in place of the flux density.
    #[must_use]
    pub fn polarization(&self, density: FluxDensity) -> FluxDensity {
        FluxDensity::from_si(density.si() - MU_0 * self.at(density.si()).0)
    }
}

/// Core loss against peak flux density, sinusoidal flux.
///
/// At 50 Hz a monotone cubic in ln P against ln B; below the first and above the last listed
/// point the loss goes with B². At other frequencies by loss separation,
/// `P(f) = P₅₀ ((1 − e) f/50 + e (f/50)²)`, e the eddy share (Bertotti, Hysteresis in Magnetism,
/// without his excess term; within 3 % of the 60 Hz column of M19). Good from 40 to some 200 Hz;
/// above that it underrates what e stands for at 50 Hz only.
#[derive(Debug, Clone, PartialEq)]
pub struct LossCurve {
    curve: LogCurve,
    eddy_share: f64,
}

impl LossCurve {
    /// W/kg at 50 Hz and a flux density in T.
    fn at_50_hz(&self, density: f64) -> f64 {
        let size = density.abs();
        let (top_b, top_p) = self.curve.last();
        if size > top_b {
            top_p * (size / top_b).powi(2)
        } else {
            self.curve.at(size).0
        }
    }

    /// Loss of a kilogram of steel at a peak flux density and a frequency.
    #[must_use]
    pub fn at(&self, density: FluxDensity, frequency: Frequency) -> SpecificLoss {
        let times = frequency.si() / LISTED_FREQUENCY;
        let separation = (1.0 - self.eddy_share) * times + self.eddy_share * times * times;
        SpecificLoss::from_si(self.at_50_hz(density.si()) * separation)
    }
}
