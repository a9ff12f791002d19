//! Skin and proximity effect in a layered winding at mains frequency.

use crate::magnetics::core::steel::MU_0;
use crate::quantity::{Frequency, Length, Ratio, Resistivity};

/// Skin depth δ = √(ρ / (π f µ0)).
#[must_use]
pub fn skin_depth(resistivity: Resistivity, frequency: Frequency) -> Length {
    Length::from_si((resistivity.si() / (std::f64::consts::PI * frequency.si() * MU_0)).sqrt())
}

/// Resistance factor `R_ac/R_dc` of a winding of `layers` layers.
///
/// P. L. Dowell, "Effects of eddy currents in transformer windings", Proc. IEE 113 (1966)
/// 1387–1394: with Δ the layer's thickness in skin depths,
/// `F = Δ [ (sinh 2Δ + sin 2Δ)/(cosh 2Δ − cos 2Δ) + ⅔(m² − 1)(sinh Δ − sin Δ)/(cosh Δ + cos Δ) ]`.
/// A round wire of diameter d counts as a square of side d √(π/4). For strands one strand's
/// diameter is to be given and one layer. The porosity of the layer is taken as 1, which
/// overstates the loss a little.
#[must_use]
pub fn resistance_factor(layer_thickness: Length, layers: u32, depth: Length) -> Ratio {
    let d = layer_thickness / depth;
    let m = f64::from(layers.max(1));
    // Below 0.1 skin depths the closed form loses digits; the first terms of its series stand in.
    if d < 0.1 {
        return Ratio::from_si(1.0 + (5.0 * m * m - 1.0) / 45.0 * d.powi(4));
    }
    let own = ((2.0 * d).sinh() + (2.0 * d).sin()) / ((2.0 * d).cosh() - (2.0 * d).cos());
    let others = 2.0 / 3.0 * (m * m - 1.0) * (d.sinh() - d.sin()) / (d.cosh() + d.cos());
    Ratio::from_si(d * (own + others))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::Metal;

    /// Skin depth of copper at 20 °C: 9.35 mm at 50 Hz, 8.53 mm at 60 Hz, from δ = √(ρ/πfµ0).
    #[test]
    fn skin_depth_of_copper() {
        for (hertz, mm) in [(50.0, 9.35), (60.0, 8.53)] {
            let got = skin_depth(Metal::Copper.resistivity_20(), Frequency::from_si(hertz)).mm();
            assert!((got / mm - 1.0).abs() < 5e-3, "{hertz} Hz: {got} mm");
        }
    }

    /// The exact one-dimensional solution for a single layer and the series for thin layers
    /// meet at 0.1 skin depths, and a layer much thicker than δ behaves as if it were δ thick.
    #[test]
    fn limits_of_dowell() {
        let depth = Length::from_mm(9.35);
        let at = |x: f64, m| resistance_factor(depth * x, m, depth).si();
        assert!((at(0.0999, 5) - at(0.1001, 5)).abs() < 2e-5);
        assert!((at(8.0, 1) / 8.0 - 1.0).abs() < 1e-3, "{}", at(8.0, 1));
    }
}
