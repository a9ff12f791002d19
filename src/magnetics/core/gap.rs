//! Air gaps in the core: what a saw, a rough face or a shim leaves, and what the flux sees of it.

use crate::magnetics::core::EiCore;
use crate::magnetics::core::steel::MU_0;
use crate::quantity::{Area, Input, Length, Measured, Origin, Ratio, Reluctance, UncertainInputs, Visitor};

/// The gaps of an E-I core, as thicknesses along the flux.
///
/// The E and the I meet at three faces: the tongue's and the two outer limbs'. A sheet laid
/// under the whole I is a shim in all three. The flux of the tongue crosses the tongue's face and
/// then, half of it each, the outer limbs': tongue and limbs in series, the limbs in parallel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gaps {
    /// What stays open at each of the three faces by itself: roughness, burrs, varnish, a saw's
    /// kerf that the clamps don't close.
    pub face: Measured<Length>,
    /// Shim laid in each of the three faces.
    pub shim: Measured<Length>,
    /// What was ground off the tongue alone, open at its face only.
    pub ground_tongue: Measured<Length>,
}

impl Gaps {
    /// A welded core that was never opened: 0.02 ± 0.02 mm at each face. Common practice, no
    /// source.
    pub const WELDED: Self = Self::of_face(0.02, 0.02);

    /// A core cut open along its seams, cleaned and clamped shut again: 0.06 ± 0.06 mm at each
    /// face. Common practice, no source; measure the no-load current to know better.
    pub const REASSEMBLED: Self = Self::of_face(0.06, 0.06);

    /// No gap at all.
    pub const NONE: Self = Self::of_face(0.0, 0.0);

    const fn of_face(mm: f64, plus_minus_mm: f64) -> Self {
        let nothing = Measured {
            value: Length::ZERO,
            plus_minus: Length::ZERO,
            origin: Origin::Chosen,
        };
        Self {
            face: Measured {
                value: Length::from_mm(mm),
                plus_minus: Length::from_mm(plus_minus_mm),
                origin: Origin::Typical,
            },
            shim: nothing,
            ground_tongue: nothing,
        }
    }

    /// The same faces with a shim of this thickness in all three.
    #[must_use]
    pub fn with_shim(mut self, shim: Measured<Length>) -> Self {
        self.shim = shim;
        self
    }

    /// Gap at the tongue's face.
    #[must_use]
    pub fn at_tongue(&self) -> Length {
        (self.at_outer_limb() + self.ground_tongue.value).max(Length::ZERO)
    }

    /// Gap at each outer limb's face.
    #[must_use]
    pub fn at_outer_limb(&self) -> Length {
        (self.face.value + self.shim.value).max(Length::ZERO)
    }

    /// Reluctance that the tongue's flux meets in the gaps, fringing included.
    #[must_use]
    pub fn reluctance(&self, core: &EiCore) -> Reluctance {
        let window = core.window_height.value;
        let face = |width: Length, gap: Length| {
            let area = width * core.stack.value;
            gap_reluctance(gap, area, fringing_factor(gap, area, window)).si()
        };
        let tongue = face(core.tongue.value, self.at_tongue());
        let limb = face(core.outer_limb.value, self.at_outer_limb());
        Reluctance::from_si(tongue + limb / 2.0)
    }

    /// The one gap in the tongue, without fringing, that would have the same reluctance:
    /// `R μ₀ (tongue × stack)`. A shim in all three faces of a core whose outer limbs are half
    /// the tongue comes to nearly twice its thickness.
    #[must_use]
    pub fn effective(&self, core: &EiCore) -> Length {
        Length::from_si(self.reluctance(core).si() * MU_0 * (core.tongue.value * core.stack.value).si())
    }
}

impl UncertainInputs for Gaps {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.face.visit(Input::GapAtTheFaces, visitor);
        self.shim.visit(Input::Shim, visitor);
        self.ground_tongue.visit(Input::GapGroundInTheTongue, visitor);
    }
}

/// Fringing factor of a gap, `F = 1 + (lg/√A) ln(2G/lg)`: by how much the flux spreads beyond the
/// faces. G is the window's height along the gap's flux. One for a gap that is closed or wider
/// than 2G (the form ends there).
///
/// Source: `McLyman`, Transformer and Inductor Design Handbook, gapped inductor (form from memory).
#[must_use]
pub fn fringing_factor(gap: Length, area: Area, window_height: Length) -> Ratio {
    let reach = 2.0 * window_height.si() / gap.si();
    if gap.si() <= 0.0 || area.si() <= 0.0 || reach <= 1.0 {
        return Ratio::from_si(1.0);
    }
    Ratio::from_si(1.0 + gap.si() / area.si().sqrt() * reach.ln())
}

/// Fringing factor of a gap between straight edges that reach into the page, both sides open:
/// `F = 1 + (lg / 2w) ln(2G/lg)`. `McLyman`'s form with its perimeter 4√A cut down to the two
/// edges of a face of width w; for comparison with plane field computations, which have no
/// fringing at the front and back.
#[must_use]
pub fn plane_fringing_factor(gap: Length, width: Length, window_height: Length) -> Ratio {
    fringing_factor(gap, (2.0 * width) * (2.0 * width), window_height)
}

/// Reluctance of a gap, `lg / (μ₀ A F)`. A is the gross face: the flux evens out over the
/// varnish between the sheets within a sheet's thickness (so a gap well below that thickness
/// has a little more reluctance than this).
#[must_use]
pub fn gap_reluctance(gap: Length, area: Area, fringing: Ratio) -> Reluctance {
    Reluctance::from_si(gap.si() / (MU_0 * area.si() * fringing.si()))
}

/// Permeance in H (per turn squared) of the flux that crosses the two windows from the tongue to
/// the outer limbs without passing the gaps, for a coil that fills the windows:
/// `2 μ₀ stack · height / (3 width)`, the slot leakage of any machines textbook. It adds to the
/// inductance; front and back overhang aren't counted.
#[must_use]
pub fn window_leakage_permeance(core: &EiCore) -> f64 {
    2.0 * MU_0 * core.stack.value.si() * core.window_height.value.si() / (3.0 * core.window_width.value.si())
}
