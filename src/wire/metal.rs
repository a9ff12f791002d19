//! Copper and aluminium as conductors.

use crate::quantity::{Density, PerKelvin, Resistivity, Temperature, TemperatureRise};

/// A conductor's metal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Metal {
    /// Annealed copper.
    Copper,
    /// Electrical aluminium.
    Aluminium,
}

impl Metal {
    /// Both metals.
    pub const ALL: [Metal; 2] = [Metal::Copper, Metal::Aluminium];

    /// The word that files and screens use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Metal::Copper => "copper",
            Metal::Aluminium => "aluminium",
        }
    }

    /// The metal of a [`Metal::word`].
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|metal| metal.word() == word)
    }

    /// Resistivity at 20 °C: copper 1.7241e-8 Ω·m (IEC 60028), aluminium 2.8264e-8 Ω·m, which
    /// is 61 % IACS (IEC 60889). R2: handbooks and makers' tables that quote both standards.
    #[must_use]
    pub const fn resistivity_20(self) -> Resistivity {
        Resistivity::from_si(match self {
            Metal::Copper => 1.7241e-8,
            Metal::Aluminium => 2.8264e-8,
        })
    }

    /// Temperature coefficient of resistance at 20 °C: copper 0.00393 /K (IEC 60028),
    /// aluminium 0.00403 /K (IEC 60889). R2, as the resistivity.
    #[must_use]
    pub const fn temperature_coefficient_20(self) -> PerKelvin {
        PerKelvin::from_si(match self {
            Metal::Copper => 0.003_93,
            Metal::Aluminium => 0.004_03,
        })
    }

    /// Resistivity at a temperature: `ρ20 (1 + α20 (T − 20 °C))`.
    #[must_use]
    pub fn resistivity(self, at: Temperature) -> Resistivity {
        self.resistivity_20() * (1.0 + self.temperature_coefficient_20().si() * (at.si() - 20.0))
    }

    /// The constant k of the resistance method for winding temperature: copper 234.5,
    /// aluminium 225. R2: test houses' texts on the rise-of-resistance method of UL standards quote
    /// both. Kelvins below 0 °C at which the straight line of resistance would reach zero.
    #[must_use]
    pub const fn resistance_method_constant(self) -> TemperatureRise {
        TemperatureRise::from_si(match self {
            Metal::Copper => 234.5,
            Metal::Aluminium => 225.0,
        })
    }

    /// Density: copper 8890 kg/m³ (IEC 60028, R2: handbooks that quote it), aluminium 2703 kg/m³
    /// (IEC 60889, M; secondary sources imply about 2710).
    #[must_use]
    pub const fn density(self) -> Density {
        Density::from_si(match self {
            Metal::Copper => 8890.0,
            Metal::Aluminium => 2703.0,
        })
    }

    /// Specific heat at room temperature in J/(kg·K): copper 385, aluminium 897
    /// (CRC Handbook of Chemistry and Physics, from memory).
    #[must_use]
    pub const fn specific_heat(self) -> f64 {
        match self {
            Metal::Copper => 385.0,
            Metal::Aluminium => 897.0,
        }
    }
}
