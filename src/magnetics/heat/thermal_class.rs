//! Thermal classes of insulation.

use crate::quantity::Temperature;

/// Thermal class of electrical insulation, IEC 60085, and of cables whose plastic is rated lower.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ThermalClass {
    /// 70 °C: polyvinyl chloride of building wire (EN 50525-2-31, M).
    Polyvinyl,
    /// 85 °C: rubber of welding cable (EN 50525-2-81, M).
    Rubber,
    /// 90 °C: class Y, and the thermoplastic of building wire by gauge (NFPA 70, table 310.4(1), M).
    Y,
    /// 105 °C: impregnated paper, cotton, oil-modified enamel.
    A,
    /// 120 °C.
    E,
    /// 130 °C.
    B,
    /// 155 °C: most polyester enamels.
    F,
    /// 180 °C: ester-imide enamels and better.
    H,
}

impl ThermalClass {
    /// All, coolest first.
    pub const ALL: [ThermalClass; 8] = [
        Self::Polyvinyl,
        Self::Rubber,
        Self::Y,
        Self::A,
        Self::E,
        Self::B,
        Self::F,
        Self::H,
    ];

    /// The temperature that the hottest spot may reach: 105, 120, 130, 155, 180 °C (IEC 60085;
    /// R2: makers' tables of insulation classes), and of cables what their standard gives.
    #[must_use]
    pub const fn limit(self) -> Temperature {
        Temperature::from_si(match self {
            Self::Polyvinyl => 70.0,
            Self::Rubber => 85.0,
            Self::Y => 90.0,
            Self::A => 105.0,
            Self::E => 120.0,
            Self::B => 130.0,
            Self::F => 155.0,
            Self::H => 180.0,
        })
    }
}
