//! Round coins by their diameters.

use crate::quantity::{Length, Measured, Origin};

/// A round coin of known diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coin {
    word: &'static str,
    mm: f64,
}

/// ± of a coin's diameter from manufacture and wear, in millimetres. Common practice, no source.
const SPREAD_MM: f64 = 0.1;

const fn coin(word: &'static str, mm: f64) -> Coin {
    Coin { word, mm }
}

impl Coin {
    /// All coins, by currency and then by value.
    ///
    /// Diameters as the mints publish them: those of US coins by R2 (public tables of coins), the
    /// others from memory (M). Only round ones: the 20 cent of the euro is notched; the British 20p,
    /// 50p and £1, the Canadian dollar and the Australian 50 cent have corners.
    pub const ALL: [Coin; 40] = [
        coin("eur-1c", 16.25),
        coin("eur-2c", 18.75),
        coin("eur-5c", 21.25),
        coin("eur-10c", 19.75),
        coin("eur-50c", 24.25),
        coin("eur-1", 23.25),
        coin("eur-2", 25.75),
        coin("usd-1c", 19.05),
        coin("usd-5c", 21.21),
        coin("usd-10c", 17.91),
        coin("usd-25c", 24.26),
        coin("usd-50c", 30.61),
        coin("usd-1", 26.49),
        coin("gbp-1p", 20.32),
        coin("gbp-2p", 25.91),
        coin("gbp-5p", 18.0),
        coin("gbp-10p", 24.5),
        coin("gbp-2", 28.4),
        coin("cad-5c", 21.2),
        coin("cad-10c", 18.03),
        coin("cad-25c", 23.88),
        coin("cad-2", 28.0),
        coin("aud-5c", 19.41),
        coin("aud-10c", 23.6),
        coin("aud-1", 25.0),
        coin("aud-2", 20.5),
        coin("chf-5c", 17.15),
        coin("chf-10c", 19.15),
        coin("chf-20c", 21.05),
        coin("chf-50c", 18.2),
        coin("chf-1", 23.2),
        coin("chf-2", 27.4),
        coin("chf-5", 31.45),
        coin("jpy-1", 20.0),
        coin("jpy-5", 22.0),
        coin("jpy-10", 23.5),
        coin("jpy-50", 21.0),
        coin("jpy-100", 22.6),
        coin("jpy-500", 26.5),
        coin("aud-20c", 28.52),
    ];

    /// The identifier used in files: currency, then value (`eur-2`, `usd-25c`).
    #[must_use]
    pub const fn word(self) -> &'static str {
        self.word
    }

    /// The coin with this identifier.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|coin| coin.word == word)
    }

    /// The diameter with its ±.
    #[must_use]
    pub fn diameter(self) -> Measured<Length> {
        Measured::new(Length::from_mm(self.mm), Length::from_mm(SPREAD_MM), Origin::Label)
    }
}
