//! Thermal classes of insulation.

use crate::quantity::Temperature;

/// Thermal class of electrical insulation, IEC 60085.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ThermalClass {
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
    /// All classes, coolest first.
    pub const ALL: [ThermalClass; 5] = [Self::A, Self::E, Self::B, Self::F, Self::H];

    /// The temperature that the hottest spot may reach: 105, 120, 130, 155, 180 °C (IEC 60085;
    /// R2: makers' tables of insulation classes).
    #[must_use]
    pub const fn limit(self) -> Temperature {
        Temperature::from_si(match self {
            Self::A => 105.0,
            Self::E => 120.0,
            Self::B => 130.0,
            Self::F => 155.0,
            Self::H => 180.0,
        })
    }
}
