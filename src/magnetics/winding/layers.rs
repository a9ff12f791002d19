//! The new winding in the window: where it lies, how it is layered, what wire it takes.

use crate::magnetics::core::EiCore;
use crate::magnetics::winding::primary::Primary;
use crate::magnetics::winding::skin::{resistance_factor, skin_depth};
use crate::quantity::{Area, Frequency, Length, Mass, Ratio, Resistance, Temperature};
use crate::wire::{Conductor, Envelope, Family};

/// Where the new winding goes. The primary stays in the core.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Placement {
    /// Next to the primary along the tongue, where the old secondary was.
    BesidePrimary,
    /// Round the primary, in what is left of the window's width.
    OverPrimary,
    /// At the other end of the tongue, as far from the primary as the window allows.
    FarEnd,
}

impl Placement {
    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Placement::BesidePrimary => "beside_primary",
            Placement::OverPrimary => "over_primary",
            Placement::FarEnd => "far_end",
        }
    }
}

/// Insulation round the new winding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Insulation {
    /// Between the winding and any iron.
    pub ground: Length,
    /// Between two layers.
    pub interlayer: Length,
    /// Between the winding and the primary.
    pub barrier: Length,
}

impl Default for Insulation {
    /// 1 mm to iron, 2 mm to the primary, 0.1 mm between layers. Common practice, no source;
    /// what the local code asks between mains and a touchable winding comes first.
    fn default() -> Self {
        Self {
            ground: Length::from_mm(1.0),
            interlayer: Length::from_mm(0.1),
            barrier: Length::from_mm(2.0),
        }
    }
}

/// The room for the new winding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Space {
    /// Along the limb.
    pub breadth: Length,
    /// Away from the limb.
    pub build: Length,
    /// From the limb to the winding's inside.
    pub start: Length,
}

impl Space {
    /// The room left by the primary, the shunts that stay, and the insulation. Either measure is
    /// zero or less where nothing is left.
    #[must_use]
    pub fn left_in(
        core: &EiCore,
        primary: &Primary,
        shunts_height: Length,
        insulation: &Insulation,
        at: Placement,
    ) -> Self {
        let (width, height) = (core.window_width.value, core.window_height.value);
        match at {
            Placement::BesidePrimary | Placement::FarEnd => Self {
                breadth: height - primary.height.value - shunts_height - insulation.barrier - insulation.ground,
                build: width - 2.0 * insulation.ground,
                start: insulation.ground,
            },
            Placement::OverPrimary => Self {
                breadth: height - 2.0 * insulation.ground,
                build: width - primary.build.value - insulation.barrier - insulation.ground,
                start: primary.build.value + insulation.barrier,
            },
        }
    }
}

/// What is wound: so many turns of so many conductors in parallel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Winding {
    /// The conductor.
    pub conductor: Conductor,
    /// Turns.
    pub turns: u32,
    /// Conductors wound together.
    pub parallel: u32,
}

impl Winding {
    /// Metal section of all conductors together.
    #[must_use]
    pub fn section(&self, breadth: Length) -> Area {
        self.conductor.section(breadth) * f64::from(self.parallel)
    }
}

/// How the turns are stacked up: whole numbers, decided once for the best values and then held
/// while the measures move within their uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Layers {
    /// Turns in a full layer.
    pub turns_per_layer: u32,
    /// Layers begun.
    pub layers: u32,
    /// Conductors that lie side by side along the limb in one row of a turn.
    pub abreast: u32,
    /// Rows of conductors that lie on one another in one turn; the last may not be full.
    pub stacked: u32,
}

/// How much thicker layers come out than their wire: 5 %. Common practice, no source.
pub const LAYER_BULGE: f64 = 1.05;

impl Layers {
    /// Layers the winding, the conductors of a turn in as many rows as make it flattest, as hands lay
    /// them. `None` where not even one conductor fits along the limb.
    #[must_use]
    pub fn of(winding: &Winding, space: &Space) -> Option<Self> {
        Self::with_room(winding, Self::conductors_abreast(&winding.conductor, space)?)
    }

    /// How many of a conductor go side by side on the limb: the same for any winding of it. `None`
    /// where not even one does.
    #[must_use]
    pub fn conductors_abreast(conductor: &Conductor, space: &Space) -> Option<u32> {
        let fit = (space.breadth / conductor.width_on_limb(space.breadth) + 1e-9).floor();
        (space.breadth.si() > 0.0 && fit.is_finite() && fit >= 1.0).then(|| fit.min(1e6) as u32)
    }

    /// [`Layers::of`] where so many of its conductor go side by side. `None` for no turns or no
    /// conductors.
    #[must_use]
    pub fn with_room(winding: &Winding, fit: u32) -> Option<Self> {
        if winding.turns == 0 || winding.parallel == 0 {
            return None;
        }
        // Of two ways with as many rows in all, the one with fewer rows in a turn.
        let in_rows = |stacked: u32| {
            let abreast = winding.parallel.div_ceil(stacked);
            let turns_per_layer = (fit / abreast).min(winding.turns);
            (turns_per_layer > 0).then(|| Self {
                turns_per_layer,
                layers: winding.turns.div_ceil(turns_per_layer),
                abreast,
                stacked,
            })
        };
        (1..=winding.parallel)
            .filter_map(in_rows)
            .min_by_key(|layers| u64::from(layers.layers) * u64::from(layers.stacked))
    }
}

impl Layers {
    /// How far the layers reach from their inside: every row [`LAYER_BULGE`] thicker than its
    /// conductor, with `interlayer` between two layers, and the lead-out of a flat conductor's inner
    /// end where layers lie over it.
    #[must_use]
    pub fn build(&self, conductor: &Conductor, interlayer: Length) -> Length {
        let rows = f64::from(self.layers * self.stacked);
        let lead_out = if self.layers > 1 {
            conductor.lead_out()
        } else {
            Length::ZERO
        };
        conductor.layer_height() * rows * LAYER_BULGE + interlayer * f64::from(self.layers.max(1) - 1) + lead_out
    }

    /// Length of a turn in each layer, the innermost first: at the middle of the layer. In full
    /// layers their mean is [`Coil::mean_turn`].
    #[must_use]
    pub fn turn_lengths(&self, core: &EiCore, space: &Space, conductor: &Conductor, interlayer: Length) -> Vec<Length> {
        let thick = conductor.layer_height() * f64::from(self.stacked) * LAYER_BULGE;
        (0..self.layers)
            .map(|layer| core.turn_length(space.start + (thick + interlayer) * f64::from(layer) + thick / 2.0))
            .collect()
    }
}

/// The wound coil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coil {
    /// How far it reaches from its inside, interlayer insulation included.
    pub build: Length,
    /// How much of the limb it takes.
    pub breadth: Length,
    /// Mean length of a turn.
    pub mean_turn: Length,
    /// Length of one conductor, leads included.
    pub wire_length: Length,
    /// Metal in all conductors.
    pub mass: Mass,
    /// Metal section of all conductors together.
    pub section: Area,
    /// Metal in the room that was left for it.
    pub fill: Ratio,
}

impl Coil {
    /// Winds it: build from the layers, mean turn at the middle of the build, `leads` for both
    /// ends together.
    #[must_use]
    pub fn wind(
        core: &EiCore,
        space: &Space,
        winding: &Winding,
        layers: &Layers,
        interlayer: Length,
        leads: Length,
    ) -> Self {
        let conductor = &winding.conductor;
        let build = layers.build(conductor, interlayer);
        let breadth = match conductor.envelope {
            Envelope::FullWidth { .. } => space.breadth,
            _ => conductor.width_on_limb(space.breadth) * f64::from(layers.turns_per_layer * layers.abreast),
        };
        let mean_turn = core.turn_length(space.start + build / 2.0);
        let wire_length = mean_turn * f64::from(winding.turns) + leads;
        let section = winding.section(space.breadth);
        Self {
            build,
            breadth,
            mean_turn,
            wire_length,
            mass: conductor.metal_mass(space.breadth, wire_length) * f64::from(winding.parallel),
            section,
            fill: Ratio::from_si(f64::from(winding.turns) * section.si() / (space.breadth.si() * space.build.si())),
        }
    }

    /// Resistance to direct current at a temperature.
    #[must_use]
    pub fn resistance(&self, winding: &Winding, space: &Space, at: Temperature) -> Resistance {
        winding.conductor.resistance_per_length(space.breadth, at) * self.wire_length / f64::from(winding.parallel)
    }
}

/// Resistance factor of the winding at mains frequency: Dowell's, with strands counted one by
/// one (they are thin) and a round wire as the square of the same section.
#[must_use]
pub fn ac_factor(winding: &Winding, layers: &Layers, frequency: Frequency, at: Temperature) -> Ratio {
    let conductor = &winding.conductor;
    let depth = skin_depth(conductor.metal.resistivity(at), frequency);
    let (thickness, rows) = match conductor.family {
        Family::Stranded | Family::WeldingCable => (conductor.solid_thickness, 1),
        Family::Rectangular | Family::Strip | Family::Busbar | Family::Foil => {
            (conductor.solid_thickness, layers.layers * layers.stacked)
        }
        Family::Enamelled | Family::Solid | Family::Own => (
            conductor.solid_thickness * std::f64::consts::FRAC_PI_4.sqrt(),
            layers.layers * layers.stacked,
        ),
    };
    resistance_factor(thickness, rows, depth)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Measured, Origin};
    use crate::wire::{Catalogue, Metal};

    fn mm(v: f64) -> Measured<Length> {
        Measured::exact(Length::from_mm(v), Origin::Calipers)
    }

    fn space() -> Space {
        Space {
            breadth: Length::from_mm(30.0),
            build: Length::from_mm(18.0),
            start: Length::from_mm(1.0),
        }
    }

    /// By hand: 4 mm² flexible wire is 4.8 mm across: 6 in 30 mm, so 14 turns make 3 layers of
    /// 4.8 mm, 5 % bulge and two interlayers: 15.32 mm.
    #[test]
    fn layers_by_hand() {
        let conductor = Catalogue::standard().find("mm2-4-flexible", Metal::Copper).unwrap();
        let winding = Winding {
            conductor,
            turns: 14,
            parallel: 1,
        };
        let layers = Layers::of(&winding, &space()).unwrap();
        assert_eq!((layers.turns_per_layer, layers.layers), (6, 3));
        let core = EiCore::new(mm(32.0), mm(50.0), mm(20.0), mm(55.0));
        let coil = Coil::wind(&core, &space(), &winding, &layers, Length::from_mm(0.1), Length::ZERO);
        assert!((coil.build.mm() - (3.0 * 4.8 * 1.05 + 0.2)).abs() < 1e-9);
        let mean_turn = 2.0 * (32.0 + 50.0) + std::f64::consts::TAU * (1.0 + coil.build.mm() / 2.0);
        assert!((coil.mean_turn.mm() - mean_turn).abs() < 1e-9);
        assert!((coil.wire_length.mm() - 14.0 * mean_turn).abs() < 1e-6);
        // The innermost layer lies 1 mm and half a layer away; the next ones a layer and 0.1 mm more.
        let turns = layers.turn_lengths(&core, &space(), &conductor, Length::from_mm(0.1));
        let by_hand = |away: f64| 2.0 * (32.0 + 50.0) + std::f64::consts::TAU * away;
        for (turn, away) in turns.iter().zip([3.52, 8.66, 13.80]) {
            assert!((turn.mm() - by_hand(away)).abs() < 1e-9, "{turn:?} at {away}");
        }
        let mean = turns.iter().map(|turn| turn.mm()).sum::<f64>() / 3.0;
        assert!((mean - coil.mean_turn.mm()).abs() < 1e-9);
    }

    /// By hand: 10 mm² flexible wire is 6.8 mm across, four abreast in 33 mm. Five to eight of them lie in
    /// two rows: 2 x 6.8 mm, 5 % bulge, 14.3 mm in a window with 17 mm. And three turns of four thin wires
    /// go in two rows, two abreast, where six wires fit: not in three rows.
    #[test]
    fn parallel_wires_lie_as_hands_lay_them() {
        let flexible = Catalogue::standard().find("mm2-10-flexible", Metal::Copper).unwrap();
        let room = Space {
            breadth: Length::from_mm(33.0),
            build: Length::from_mm(17.0),
            ..space()
        };
        for parallel in 5..=8 {
            let winding = Winding {
                conductor: flexible,
                turns: 1,
                parallel,
            };
            let layers = Layers::of(&winding, &room).unwrap();
            assert_eq!((layers.layers, layers.stacked), (1, 2), "{parallel}");
            let build = layers.build(&flexible, Length::from_mm(0.1));
            assert!((build.mm() - 2.0 * 6.8 * 1.05).abs() < 1e-9, "{build:?}");
        }
        let winding = Winding {
            conductor: flexible,
            turns: 3,
            parallel: 4,
        };
        let layers = Layers::with_room(&winding, 6).unwrap();
        assert_eq!((layers.layers, layers.abreast, layers.stacked), (1, 2, 2));
    }

    /// Every way of laying up to 40 turns of up to 12 wires in a room for up to 30 abreast, tried one by one:
    /// a turn is a block of `rows` rows, its wires dealt out row by row, and each layer takes blocks until the
    /// next one no longer fits. The layers found need no more rows in all than the best of these ways, hold
    /// every wire, and are no wider than the room.
    #[test]
    fn no_other_way_of_laying_takes_fewer_rows() {
        let conductor = Catalogue::standard().find("mm2-4-flexible", Metal::Copper).unwrap();
        for room in [1, 2, 3, 5, 6, 8, 13, 21, 30] {
            for parallel in 1..=12 {
                for turns in [1, 2, 3, 5, 7, 11, 14, 23, 40] {
                    let winding = Winding {
                        conductor,
                        turns,
                        parallel,
                    };
                    let mut best: Option<u32> = None;
                    for rows in 1..=parallel {
                        let mut lengths = vec![0; rows as usize];
                        (0..parallel).for_each(|wire| lengths[(wire % rows) as usize] += 1);
                        let wide = lengths.into_iter().max().unwrap();
                        if wide > room {
                            continue;
                        }
                        let (mut layers, mut taken) = (1, 0);
                        for _ in 0..turns {
                            if taken + wide > room {
                                (layers, taken) = (layers + 1, 0);
                            }
                            taken += wide;
                        }
                        let in_all = layers * rows;
                        best = Some(best.map_or(in_all, |best| best.min(in_all)));
                    }
                    let found = Layers::with_room(&winding, room).unwrap();
                    let what = format!("{turns} turns of {parallel} in {room}: {found:?}");
                    assert_eq!(Some(found.layers * found.stacked), best, "{what}");
                    assert!(found.abreast * found.stacked >= parallel, "{what}");
                    assert!(found.abreast * found.turns_per_layer <= room, "{what}");
                    assert!(found.turns_per_layer * found.layers >= turns, "{what}");
                }
            }
        }
    }

    #[test]
    fn bundles_lie_in_rows() {
        let conductor = Catalogue::standard().find("mm2-16-flexible", Metal::Copper).unwrap();
        let of = |parallel| {
            Layers::of(
                &Winding {
                    conductor,
                    turns: 2,
                    parallel,
                },
                &space(),
            )
            .unwrap()
        };
        // 8.1 mm across: three go side by side in 30 mm.
        assert_eq!((of(3).abreast, of(3).stacked), (3, 1));
        assert_eq!((of(4).abreast, of(4).stacked), (2, 2));
        assert_eq!((of(6).abreast, of(6).stacked), (3, 2));
        let thick = Catalogue::standard().find("mm2-95-welding", Metal::Copper).unwrap();
        let narrow = Space {
            breadth: Length::from_mm(10.0),
            ..space()
        };
        assert_eq!(
            Layers::of(
                &Winding {
                    conductor: thick,
                    turns: 2,
                    parallel: 1
                },
                &narrow
            ),
            None
        );
    }
}
