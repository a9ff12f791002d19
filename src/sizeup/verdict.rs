//! The verdict and its reasons.

use super::estimate::{Experience, TransformerGuess};
use super::fit::{Fit, FitHow, ShelfDonor, Want, fits};
use super::iron::chance_of_iron_core;
use super::parts::{PullPart, parts_to_pull};
use super::payback::{PayBack, Pays, Prices, pay_back};
use super::sighting::{Damage, OvenKind, Rust, Sighting, SightingError, Sign};
use crate::words::words;

words! {
    /// What to do with the find.
    pub enum VerdictWord, "verdict" {
        /// Take it: there is likely a core that suits.
        Take = "take",
        /// Take it for its parts.
        TakeForParts = "take-for-parts",
        /// Leave it.
        Leave = "leave",
        /// Look closer first.
        LookCloser = "look-closer",
    }
}

words! {
    /// Why.
    pub enum Reason, "reason" {
        /// An iron core was seen.
        CoreSeen = "core-seen",
        /// An iron core is likely.
        CoreLikely = "core-likely",
        /// It may be either.
        CoreUncertain = "core-uncertain",
        /// An inverter is likely: no iron core.
        InverterLikely = "inverter-likely",
        /// Sized from the microwave part, not from grill or hot air.
        SizedFromMicrowavePart = "sized-from-microwave-part",
        /// Crushed: the magnetron may be broken.
        Crushed = "crushed",
        /// It stood in water.
        Flooded = "flooded",
        /// Burnt: the old winding may be gone, the core seldom is.
        Burnt = "burnt",
        /// Parts are missing.
        PartsMissing = "parts-missing",
        /// Deep rust.
        DeepRust = "deep-rust",
        /// It pays back.
        PaysBack = "pays-back",
        /// It does not pay back.
        DoesNotPayBack = "does-not-pay-back",
        /// It may pay back, or not.
        MayPayBack = "may-pay-back",
        /// A price is asked, and the prices to compare with are not set.
        NoPrices = "no-prices",
        /// It suits a wanted use.
        Suits = "suits",
        /// It suits a wanted use with a donor on the shelf.
        SuitsWithShelf = "suits-with-shelf",
        /// Too small for every wanted use.
        TooSmall = "too-small",
        /// So old that its capacitor may hold PCB oil.
        VeryOld = "very-old",
    }
}

words! {
    /// What to look at next.
    pub enum Question, "ask" {
        /// Is the word there?
        Word = "word",
        /// What is seen through the vents?
        Vents = "vents",
        /// Is one side heavier?
        HeavySide = "heavy-side",
        /// What power does the label give?
        Power = "power",
        /// What is asked for it?
        Price = "price",
        /// Which prices to compare with?
        Prices = "prices",
        /// Can it be opened here, through the gates?
        Open = "open",
    }
}

/// Everything that is said about a find.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeUp {
    /// The verdict.
    pub verdict: VerdictWord,
    /// Its reasons, weightiest first.
    pub reasons: Vec<Reason>,
    /// The chance of an iron core, 0 to 1.
    pub iron_core: f64,
    /// The likely transformer, if there is one.
    pub transformer: TransformerGuess,
    /// How it suits each wanted use.
    pub fits: Vec<Fit>,
    /// What else to look at.
    pub parts: Vec<PullPart>,
    /// Whether it pays back, if price and prices are known.
    pub pay_back: Option<PayBack>,
    /// The most useful thing to look at next.
    pub ask: Option<Question>,
}

/// Age in years from which the capacitor may hold PCB oil: made before about 1980 (common
/// practice, no source).
const VERY_OLD: u16 = 45;
/// Chance of a core from which it is taken as there, and below which as not there.
const LIKELY: f64 = 0.8;
const UNLIKELY: f64 = 0.3;

/// Sizes up a find from whatever is known of it.
///
/// # Errors
/// [`SightingError`] for a number outside its range.
pub fn size_up(
    sighting: &Sighting,
    experience: &Experience,
    prices: Option<&Prices>,
    wants: &[Want],
    shelf: &[ShelfDonor],
) -> Result<SizeUp, SightingError> {
    sighting.check()?;
    let iron_core = chance_of_iron_core(sighting);
    let transformer = experience.guess(sighting);
    let fits = fits(&transformer, wants, shelf);
    let pay_back = match (sighting.price, prices) {
        (Some(asked), Some(prices)) => Some(pay_back(&transformer, iron_core, asked, prices)),
        _ => None,
    };
    let asked = sighting.price.is_some_and(|price| price.si() > 0.0);
    let mut reasons = Vec::new();
    let core = core_reason(sighting, iron_core, &mut reasons);
    let blocked = damage_reasons(sighting, &mut reasons);
    let pays = price_reason(asked, pay_back.as_ref(), &mut reasons);
    let suits = fit_reason(&fits, &mut reasons);
    if sighting.age_years.is_some_and(|age| age >= VERY_OLD) {
        reasons.push(Reason::VeryOld);
    }
    if matches!(sighting.kind, Some(OvenKind::Grill | OvenKind::Combination)) {
        reasons.push(Reason::SizedFromMicrowavePart);
    }
    let verdict = if blocked == Some(VerdictWord::Leave) || pays == Pays::No {
        VerdictWord::Leave
    } else if core == Reason::InverterLikely || !suits {
        // Without a core that suits, it is worth the carrying but no money.
        if asked {
            VerdictWord::Leave
        } else {
            VerdictWord::TakeForParts
        }
    } else if core == Reason::CoreUncertain || blocked.is_some() || pays == Pays::Unsure {
        VerdictWord::LookCloser
    } else {
        VerdictWord::Take
    };
    let ask = next_question(sighting, core, asked && prices.is_none());
    Ok(SizeUp {
        verdict,
        reasons,
        iron_core,
        transformer,
        fits,
        parts: parts_to_pull(sighting),
        pay_back,
        ask,
    })
}

fn core_reason(sighting: &Sighting, iron_core: f64, reasons: &mut Vec<Reason>) -> Reason {
    let reason = if iron_core >= LIKELY && sighting.signs.get(&Sign::CoreSeen) == Some(&true) {
        Reason::CoreSeen
    } else if iron_core >= LIKELY {
        Reason::CoreLikely
    } else if iron_core <= UNLIKELY {
        Reason::InverterLikely
    } else {
        Reason::CoreUncertain
    };
    reasons.push(reason);
    reason
}

/// What damage says by itself: leave, or look closer.
fn damage_reasons(sighting: &Sighting, reasons: &mut Vec<Reason>) -> Option<VerdictWord> {
    let mut worst = None;
    let mut found = |there: bool, reason, verdict: Option<VerdictWord>| {
        if there {
            reasons.push(reason);
            if worst != Some(VerdictWord::Leave) {
                worst = verdict.or(worst);
            }
        }
    };
    let has = |damage| sighting.damage.contains(&damage);
    found(has(Damage::Crushed), Reason::Crushed, Some(VerdictWord::Leave));
    found(
        sighting.rust == Some(Rust::Deep),
        Reason::DeepRust,
        Some(VerdictWord::LookCloser),
    );
    found(has(Damage::Flooded), Reason::Flooded, Some(VerdictWord::LookCloser));
    found(has(Damage::PartsMissing), Reason::PartsMissing, None);
    found(has(Damage::Burnt), Reason::Burnt, None);
    worst
}

fn price_reason(asked: bool, pay_back: Option<&PayBack>, reasons: &mut Vec<Reason>) -> Pays {
    if !asked {
        return Pays::Yes;
    }
    let (pays, reason) = match pay_back.map(|p| p.pays) {
        Some(Pays::Yes) => (Pays::Yes, Reason::PaysBack),
        Some(Pays::No) => (Pays::No, Reason::DoesNotPayBack),
        Some(Pays::Unsure) => (Pays::Unsure, Reason::MayPayBack),
        None => (Pays::Unsure, Reason::NoPrices),
    };
    reasons.push(reason);
    pays
}

/// False if there are wants and none is suited.
fn fit_reason(fits: &[Fit], reasons: &mut Vec<Reason>) -> bool {
    let any = |how| fits.iter().any(|fit| fit.how == how);
    let reason = if any(FitHow::Alone) {
        Reason::Suits
    } else if any(FitHow::WithShelf) {
        Reason::SuitsWithShelf
    } else if fits.is_empty() {
        return true;
    } else {
        Reason::TooSmall
    };
    reasons.push(reason);
    reason != Reason::TooSmall
}

/// The most useful thing not looked at yet. Once core or inverter is settled, size and price
/// matter.
fn next_question(sighting: &Sighting, core: Reason, prices_missing: bool) -> Option<Question> {
    let unseen = |sign| !sighting.signs.contains_key(&sign);
    let unsettled = core == Reason::CoreUncertain;
    let no_power = sighting.microwave_input.is_none()
        && sighting.output.is_none()
        && (sighting.whole_input.is_none() || sighting.kind.is_some_and(|kind| kind != OvenKind::Solo));
    let candidates = [
        (unsettled && unseen(Sign::Word), Question::Word),
        (unsettled && unseen(Sign::CoreSeen), Question::Vents),
        (unsettled && unseen(Sign::HeavySide), Question::HeavySide),
        (core != Reason::InverterLikely && no_power, Question::Power),
        (sighting.price.is_none(), Question::Price),
        (prices_missing, Question::Prices),
        (unsettled && sighting.openable_here == Some(true), Question::Open),
    ];
    candidates
        .into_iter()
        .find(|(useful, _)| *useful)
        .map(|(_, question)| question)
}
