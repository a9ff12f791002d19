//! Values with their uncertainty, and how it goes through a computation.

use super::input::Input;
use super::units::{Quantity, Unit};

/// How a value was got.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Origin {
    /// Calipers or a micrometer on the part.
    Calipers,
    /// A rule of steel, laid on.
    Rule,
    /// A tape measure.
    Tape,
    /// Points marked in a photo with an object of known size.
    Photo,
    /// A meter reading.
    Meter,
    /// A scale (mass).
    Scale,
    /// Counted by eye or hand.
    Counted,
    /// Printed on a label or plate.
    Label,
    /// A usual value for such parts; nobody measured this one.
    Typical,
    /// Worked out from other values.
    Computed,
    /// Chosen by the person: not a measurement.
    Chosen,
}

impl Origin {
    /// Every origin, in the order that a person is offered them.
    pub const ALL: [Origin; 11] = [
        Origin::Calipers,
        Origin::Rule,
        Origin::Tape,
        Origin::Photo,
        Origin::Meter,
        Origin::Scale,
        Origin::Counted,
        Origin::Label,
        Origin::Typical,
        Origin::Computed,
        Origin::Chosen,
    ];

    /// The word that files and screens use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Origin::Calipers => "calipers",
            Origin::Rule => "rule",
            Origin::Tape => "tape",
            Origin::Photo => "photo",
            Origin::Meter => "meter",
            Origin::Scale => "scale",
            Origin::Counted => "counted",
            Origin::Label => "label",
            Origin::Typical => "typical",
            Origin::Computed => "computed",
            Origin::Chosen => "chosen",
        }
    }

    /// The origin that a word names.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|origin| origin.word() == word)
    }
}

/// A value, its uncertainty and its origin.
///
/// `plus_minus` is the half-width that holds the truth about 95 times in 100 (two standard
/// uncertainties, k = 2 in the words of JCGM 100:2008, the GUM). Zero means exact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured<Q> {
    /// Best value.
    pub value: Q,
    /// Half-width at about 95 % (k = 2).
    pub plus_minus: Q,
    /// How it was got.
    pub origin: Origin,
}

impl<Q: Quantity> Measured<Q> {
    /// A value with its half-width at about 95 %.
    #[must_use]
    pub fn new(value: Q, plus_minus: Q, origin: Origin) -> Self {
        Self {
            value,
            plus_minus,
            origin,
        }
    }

    /// A value with no uncertainty of its own.
    #[must_use]
    pub fn exact(value: Q, origin: Origin) -> Self {
        Self {
            value,
            plus_minus: Q::from_si(0.0),
            origin,
        }
    }

    /// One standard uncertainty, in the SI unit.
    #[must_use]
    pub fn sigma_si(&self) -> f64 {
        self.plus_minus.si() / 2.0
    }

    /// Shows this value to a visitor of [`UncertainInputs`]; an exact value is passed over.
    pub fn visit(&mut self, input: Input, visitor: &mut Visitor<'_>) {
        let sigma = self.sigma_si();
        if sigma > 0.0 {
            let mut si = self.value.si();
            let unit = Q::read_in(si);
            visitor(Visited {
                input,
                si: &mut si,
                sigma,
                unit,
            });
            self.value = Q::from_si(si);
        }
    }
}

/// A computed value with its half-width at about 95 % (k = 2).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<Q> {
    /// Best value.
    pub value: Q,
    /// Half-width at about 95 %.
    pub plus_minus: Q,
}

impl<Q: Quantity> Estimate<Q> {
    /// A value without a range: a count or a limit.
    #[must_use]
    pub fn exact(value: Q) -> Self {
        Self {
            value,
            plus_minus: Q::from_si(0.0),
        }
    }
    /// The lower end of the range.
    #[must_use]
    pub fn low(&self) -> Q {
        Q::from_si(self.value.si() - self.plus_minus.si())
    }
    /// The upper end of the range.
    #[must_use]
    pub fn high(&self) -> Q {
        Q::from_si(self.value.si() + self.plus_minus.si())
    }
}

/// Something whose uncertain numbers can be walked, always in the same order.
///
/// Exact inputs are passed over. Inputs are taken as independent.
pub trait UncertainInputs: Clone {
    /// Walks every uncertain input.
    fn visit(&mut self, visitor: &mut Visitor<'_>);
}

/// What walks the inputs of [`UncertainInputs`].
pub type Visitor<'a> = dyn FnMut(Visited<'_>) + 'a;

/// An uncertain input, as a visitor sees it.
#[derive(Debug)]
pub struct Visited<'a> {
    /// Which input it is.
    pub input: Input,
    /// Its value in its SI unit; a visitor may change it.
    pub si: &'a mut f64,
    /// One standard uncertainty.
    pub sigma: f64,
    /// The unit that a person reads it in.
    pub unit: Unit,
}

/// An uncertain input's value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InputValue {
    /// Which input it is.
    pub input: Input,
    /// Value and half-width (k = 2) in the SI unit.
    pub si: (f64, f64),
    /// The unit that a person reads it in.
    pub unit: Unit,
}

/// Answers with their standard uncertainties and what each input adds to them.
#[derive(Debug, Clone, PartialEq)]
pub struct Propagated<const M: usize> {
    /// The answers at the best inputs.
    pub value: [f64; M],
    /// One standard uncertainty of each answer.
    pub sigma: [f64; M],
    /// For each uncertain input: which it is, and the standard uncertainty that it brings to each answer, with
    /// the sign of the answer's slope.
    pub shares: Vec<(Input, [f64; M])>,
    /// The inputs themselves, where they are at hand.
    pub inputs: Vec<InputValue>,
}

/// How many standard uncertainties an input is moved. The three points 0 and ± h u, weighted 1 − 1/h² and
/// 1/(2 h²), have the mean and the variance of any input, and with 1.5 a fourth moment of 2.25 u⁴: about that of
/// a triangular distribution (2.4; a rectangular one has 1.8, a normal one 3), as of an input that has bounds.
const STEP: f64 = 1.5;

/// Propagation of uncertainty, the second-order term of each input in it.
///
/// Each input x with standard uncertainty u is moved by ± h u (h = 1.5). Half the difference of
/// both answers, over h, is `u ∂f/∂x` (JCGM 100:2008, 5.1.2 equation 10, with the numerical
/// derivative of its 5.1.3 note 2). Where the answer bends, half the sum of both changes is
/// `h² u² ∂²f/∂x² / 2`; its square counts with 1/h² − 1/h⁴, the term of higher order that 5.1.2's note asks
/// for where f is far from a straight line. The terms that two inputs have together are left out. Costs two
/// evaluations an input. Where a moved input has no answer (`None`), the one-sided difference stands in.
///
/// The tests hold what is told to draws of the inputs (JCGM 101:2008), within a tenth.
///
/// Returns `None` where the best inputs themselves have no answer.
pub fn propagate<I: UncertainInputs, const M: usize>(
    inputs: &I,
    answer: impl Fn(&I) -> Option<[f64; M]>,
) -> Option<Propagated<M>> {
    let value = answer(inputs)?;
    let mut walked = Vec::new();
    inputs.clone().visit(&mut |visited| {
        walked.push(InputValue {
            input: visited.input,
            si: (*visited.si, 2.0 * visited.sigma),
            unit: visited.unit,
        });
    });
    let mut variance = [0.0; M];
    let mut shares = Vec::with_capacity(walked.len());
    for (index, input) in walked.iter().map(|walked| walked.input).enumerate() {
        let up = answer(&moved(inputs, index, STEP));
        let down = answer(&moved(inputs, index, -STEP));
        let mut share = [0.0; M];
        for (k, slot) in share.iter_mut().enumerate() {
            let rise = up.as_ref().map(|up| up[k] - value[k]);
            let fall = down.as_ref().map(|down| value[k] - down[k]);
            let (slope, bend) = match (rise, fall) {
                (Some(rise), Some(fall)) => (f64::midpoint(rise, fall), (rise - fall) / 2.0),
                (Some(slope), None) | (None, Some(slope)) => (slope, 0.0),
                (None, None) => (0.0, 0.0),
            };
            let own = (slope * slope + bend * bend * (1.0 - STEP.powi(-2))) / STEP.powi(2);
            *slot = own.sqrt().copysign(slope);
            variance[k] += own;
        }
        shares.push((input, share));
    }
    Some(Propagated {
        value,
        sigma: variance.map(f64::sqrt),
        shares,
        inputs: walked,
    })
}

fn moved<I: UncertainInputs>(inputs: &I, index: usize, sigmas: f64) -> I {
    let mut copy = inputs.clone();
    let mut at = 0;
    copy.visit(&mut |visited| {
        if at == index {
            *visited.si += sigmas * visited.sigma;
        }
        at += 1;
    });
    copy
}

/// An input and the part of an answer's variance that it brings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VarianceShare {
    /// Which input it is.
    pub input: Input,
    /// Its share of the variance, 0 to 1.
    pub share: f64,
    /// Its value, where it is at hand.
    pub value: Option<InputValue>,
}

/// How many inputs stand beside a number; every one that counts is told where it is opened.
pub const WIDEST: usize = 3;

/// The (at most [`WIDEST`]) inputs that widen answer `index` most, widest first.
#[must_use]
pub fn widest_inputs<const M: usize>(answers: &Propagated<M>, index: usize) -> Vec<VarianceShare> {
    let mut variance_shares = widening_inputs(answers, index);
    variance_shares.truncate(WIDEST);
    variance_shares
}

/// Every input that brings more than a hundredth of the variance of answer `index`, widest first.
#[must_use]
pub fn widening_inputs<const M: usize>(answers: &Propagated<M>, index: usize) -> Vec<VarianceShare> {
    let total = answers.sigma[index].powi(2);
    if total <= 0.0 {
        return Vec::new();
    }
    let mut variance_shares: Vec<VarianceShare> = answers
        .shares
        .iter()
        .map(|(input, share)| VarianceShare {
            input: *input,
            share: share[index].powi(2) / total,
            value: answers.inputs.iter().find(|value| value.input == *input).copied(),
        })
        .filter(|share| share.share > 0.01)
        .collect();
    variance_shares.sort_by(|a, b| b.share.total_cmp(&a.share));
    variance_shares
}

#[cfg(test)]
mod tests {
    use super::super::units::Length;
    use super::*;

    #[derive(Clone)]
    struct Box3 {
        a: Measured<Length>,
        b: Measured<Length>,
        c: Measured<Length>,
    }
    impl UncertainInputs for Box3 {
        fn visit(&mut self, visitor: &mut Visitor<'_>) {
            self.a.visit(Input::Tongue, visitor);
            self.b.visit(Input::Stack, visitor);
            self.c.visit(Input::Yoke, visitor);
        }
    }

    fn side(mm: f64, pm: f64) -> Measured<Length> {
        Measured::new(Length::from_mm(mm), Length::from_mm(pm), Origin::Calipers)
    }

    /// A product's relative variances add (JCGM 100:2008, 5.1.6).
    #[test]
    fn product_rule() {
        let block = Box3 {
            a: side(30.0, 0.6),
            b: side(50.0, 1.0),
            c: side(20.0, 0.0),
        };
        let got = propagate(&block, |x| Some([x.a.value.si() * x.b.value.si() * x.c.value.si()])).unwrap();
        let expected = got.value[0] * (0.01f64.powi(2) + 0.01f64.powi(2)).sqrt();
        assert!(
            (got.sigma[0] / expected - 1.0).abs() < 1e-9,
            "{} {expected}",
            got.sigma[0]
        );
        assert_eq!(got.shares.len(), 2, "an exact input is passed over");
        let widest = widest_inputs(&got, 0);
        assert_eq!(widest.len(), 2);
        assert!((widest[0].share - 0.5).abs() < 1e-9);
    }

    /// The square of a normally spread x of mean m: its variance is 4 m² u² + 2 u⁴ (moments of the normal
    /// distribution, any textbook). A straight line through it has the first term alone.
    #[test]
    fn what_bends_is_wider_than_its_slope() {
        let block = Box3 {
            a: side(30.0, 36.0),
            b: side(50.0, 0.0),
            c: side(20.0, 0.0),
        };
        let got = propagate(&block, |x| Some([x.a.value.mm().powi(2)])).unwrap();
        let (slope, exact) = (4.0 * 900.0 * 324.0_f64, 2.0 * 324.0_f64.powi(2));
        let sigma = (slope + exact).sqrt();
        assert!((got.sigma[0] / sigma - 1.0).abs() < 0.1, "{} {sigma}", got.sigma[0]);
        assert!(got.sigma[0] > slope.sqrt() * 1.04, "{} {slope}", got.sigma[0]);
        assert!((got.shares[0].1[0] / got.sigma[0] - 1.0).abs() < 1e-12);
        let lower = propagate(&block, |x| Some([-x.a.value.mm()])).unwrap();
        assert!(lower.shares[0].1[0] < 0.0, "a falling answer has a falling share");
        // Where one side has no answer, the other stands in for it.
        let one_sided = propagate(&block, |x| (x.a.value.mm() < 31.0).then(|| [x.a.value.mm()])).unwrap();
        assert!((one_sided.sigma[0] - 18.0).abs() < 1e-9, "{}", one_sided.sigma[0]);
    }

    #[test]
    fn origin_words_round_trip() {
        for origin in Origin::ALL {
            assert_eq!(Origin::from_word(origin.word()), Some(origin));
        }
        assert_eq!(Origin::from_word("guess"), None);
    }
}
