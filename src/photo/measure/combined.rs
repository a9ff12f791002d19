//! One length from several photos of the same core: common errors kept apart from each photo's own.
//!
//! A reference that is 0.3 % smaller than assumed makes a length 0.3 % too large in every photo, however many
//! are taken; a corner found half a pixel off does not. The mean of the photos therefore has two parts of
//! uncertainty: the own parts, which average out, and the common ones, which do not. Begin at [`combined`].

use super::PhotoLength;
use crate::quantity::{Input, Length, Measured, Origin, VarianceShare};

/// A length from one photo.
#[derive(Debug, Clone, PartialEq)]
pub struct OnePhoto {
    /// The length and the standard uncertainties that make up its ±.
    pub length: PhotoLength,
    /// Photos with the same number have the same reference, and share the errors of its size, its rim and its
    /// height. Lens and focal length are the camera's and common to all photos.
    pub group: usize,
}

/// A length from several photos.
#[derive(Debug, Clone, PartialEq)]
pub struct CombinedLength {
    /// The mean and its ±, own and common errors together.
    pub length: Measured<Length>,
    /// Half-width at about 95 % from the photos' own errors alone: more photos make it smaller.
    pub own: Length,
    /// The same from the errors common to the photos: more photos of this kind do not make it smaller.
    pub common: Length,
    /// The common causes, with their shares of the variance, largest first.
    pub variance_shares: Vec<VarianceShare>,
    /// The photos whose mean it is, by their place in the list; a photo that would widen the ± is left out.
    pub taken: Vec<usize>,
    /// Whether the photos differ more than their own errors explain: something in one of them is marked wrong.
    pub differ: bool,
}

/// Causes that are the same in photos of one reference: its size, how high it lies, a disc's bevelled rim.
const OF_THE_REFERENCE: [Input; 3] = [Input::ReferenceSize, Input::HeightOfTheFace, Input::RimOfTheDisc];
/// Causes that are the same in all photos: the camera's, and how the core's own places differ.
const OF_ALL: [Input; 3] = [Input::Lens, Input::FocalLength, Input::PlacesDiffer];

fn is_common(cause: Input) -> bool {
    OF_THE_REFERENCE.contains(&cause) || OF_ALL.contains(&cause)
}

/// Ratio of the photos' scatter to their own standard uncertainties above which they differ.
const DIFFER: f64 = 2.0;
/// Least standard uncertainty of a photo's own errors that weights and scatter are computed with, as a part of
/// the length.
const LEAST_OWN: f64 = 1e-4;

/// The mean of a length over photos, each weighed by the inverse of its variance.
///
/// With weights w (their sum 1), own standard uncertainties u and common ones s, the variance is
/// Σ w² u² + Σ over causes and groups of (Σ w s)²: JCGM 100:2008, 5.2.2, with a correlation of 1 between photos
/// of a group for a common cause and 0 otherwise. That is an upper limit, as a common cause may act on two
/// photos with opposite signs. The scatter of the photos widens the own part where it is larger than stated.
///
/// `None` where there is no photo.
#[must_use]
pub fn combined(photos: &[OnePhoto]) -> Option<CombinedLength> {
    let mut order: Vec<usize> = (0..photos.len()).collect();
    order.sort_by(|a, b| total(&photos[*a]).total_cmp(&total(&photos[*b])));
    // By the stated uncertainties alone, never by the values: that would favour a chance agreement.
    let variance = |count: usize| Mean::of(photos, &order[..count]).variance();
    let best = (1..=order.len()).min_by(|a, b| variance(*a).total_cmp(&variance(*b)).then(b.cmp(a)))?;
    let mut taken = order[..best].to_vec();
    taken.sort_unstable();
    let mean = Mean::of(photos, &taken);
    let ratio = mean.scatter(photos, &taken).unwrap_or(0.0);
    let own = mean.own * ratio.max(1.0);
    let common: f64 = mean.common.iter().map(|(_, variance)| variance).sum();
    let variance = own * own + common;
    let mut variance_shares: Vec<VarianceShare> = mean
        .common
        .iter()
        .map(|(input, part)| VarianceShare {
            input: *input,
            share: part / variance.max(f64::MIN_POSITIVE),
            value: None,
        })
        .filter(|share| share.share > 0.01)
        .collect();
    variance_shares.sort_by(|a, b| b.share.total_cmp(&a.share));
    let wide = |sigma: f64| Length::from_mm(2.0 * sigma);
    Some(CombinedLength {
        length: Measured::new(Length::from_mm(mean.mm), wide(variance.sqrt()), Origin::Photo),
        own: wide(own),
        common: wide(common.sqrt()),
        variance_shares,
        taken,
        differ: ratio > DIFFER,
    })
}

fn mm(photo: &OnePhoto) -> f64 {
    photo.length.length.value.mm()
}

/// The standard uncertainty of a photo's length.
fn total(photo: &OnePhoto) -> f64 {
    photo.length.length.plus_minus.mm() / 2.0
}

/// The part of it from the photo's own errors.
fn own(photo: &OnePhoto) -> f64 {
    let parts = photo.length.parts.iter().filter(|(input, _)| !is_common(*input));
    parts
        .map(|(_, sigma)| sigma * sigma)
        .sum::<f64>()
        .sqrt()
        .max(LEAST_OWN * mm(photo).abs())
}

/// A weighed mean, the standard uncertainty from own errors, and the variance from each common cause.
struct Mean {
    mm: f64,
    own: f64,
    common: Vec<(Input, f64)>,
}

impl Mean {
    fn of(photos: &[OnePhoto], taken: &[usize]) -> Self {
        let weight = |index: &usize| 1.0 / total(&photos[*index]).max(own(&photos[*index])).powi(2);
        let sum: f64 = taken.iter().map(weight).sum();
        let weight = |index: &usize| weight(index) / sum;
        let own_variance: f64 = taken
            .iter()
            .map(|index| (weight(index) * own(&photos[*index])).powi(2))
            .sum();
        let mut groups: Vec<usize> = taken.iter().map(|index| photos[*index].group).collect();
        groups.sort_unstable();
        groups.dedup();
        let summed = |cause: Input, group: Option<usize>| -> f64 {
            let members = taken
                .iter()
                .filter(|index| group.is_none_or(|group| photos[**index].group == group));
            let sigma = |index: &usize| {
                let parts = photos[*index].length.parts.iter();
                parts
                    .filter(|(input, _)| *input == cause)
                    .map(|(_, sigma)| sigma)
                    .sum::<f64>()
            };
            members.map(|index| weight(index) * sigma(index)).sum()
        };
        let of_groups = |cause: Input| groups.iter().map(|group| summed(cause, Some(*group)).powi(2)).sum();
        let common = OF_THE_REFERENCE
            .iter()
            .map(|cause| (*cause, of_groups(*cause)))
            .chain(OF_ALL.iter().map(|cause| (*cause, summed(*cause, None).powi(2))))
            .collect();
        Self {
            mm: taken.iter().map(|index| weight(index) * mm(&photos[*index])).sum(),
            own: own_variance.sqrt(),
            common,
        }
    }

    fn variance(&self) -> f64 {
        self.own * self.own + self.common.iter().map(|(_, variance)| variance).sum::<f64>()
    }

    /// Ratio of the photos' scatter about the mean to their own standard uncertainties; `None` for one photo.
    fn scatter(&self, photos: &[OnePhoto], taken: &[usize]) -> Option<f64> {
        let freedom = taken.len().checked_sub(1).filter(|freedom| *freedom > 0)?;
        let part = |index: &usize| ((mm(&photos[*index]) - self.mm) / own(&photos[*index])).powi(2);
        Some((taken.iter().map(part).sum::<f64>() / freedom as f64).sqrt())
    }
}
