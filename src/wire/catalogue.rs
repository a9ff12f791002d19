//! Every conductor offered, by name.

use std::borrow::Cow;

use super::conductor::{Conductor, Envelope, Family};
use super::gauge::{AwgSize, round_area};
use super::{Metal, tables};
use crate::quantity::{Area, Length, ResistancePerLength, parse_number};
use crate::words::{Explain, Message};

/// No conductor has this name.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error(
    "no conductor is called \"{name}\"; {hint}, or give your own solid wire, bare up to 5 mm, as \"own-BARE-OVER\", like \"own-1.80-1.95\", a stranded cable by its section, as \"own-35mm2-12.5\""
)]
pub struct UnknownConductor {
    /// The name that was looked up.
    pub name: String,
    /// The nearest name there is.
    pub hint: String,
}

impl Explain for UnknownConductor {
    fn message(&self) -> Message {
        Message::new("refused-conductor").with("name", &self.name)
    }
}

/// The conductors offered: those of the standards, and the person's own.
#[derive(Debug, Clone, PartialEq)]
pub struct Catalogue {
    conductors: Vec<Conductor>,
    /// Name without its metal, and label, by the conductor's index.
    names: Vec<(String, Message)>,
}

impl Default for Catalogue {
    fn default() -> Self {
        Self::standard()
    }
}

impl Catalogue {
    /// All standard sizes, in copper, and enamelled wire, strip and foil in aluminium as well.
    #[must_use]
    pub fn standard() -> Self {
        let mut catalogue = Self {
            conductors: Vec::new(),
            names: Vec::new(),
        };
        for metal in Metal::ALL {
            for number in tables::ENAMELLED_AWG {
                if let Ok(size) = AwgSize::new(number) {
                    catalogue.add_enamelled(
                        format!("awg-{number}-enamelled"),
                        sized("conductor-enamelled", size.label()),
                        metal,
                        size.diameter(),
                    );
                }
            }
            for (bare, _, _) in tables::ENAMELLED_OVERALL_MM {
                let name = format!("mm-{bare:.2}-enamelled");
                let label = sized("conductor-enamelled", format!("{bare:.2} mm"));
                catalogue.add_enamelled(name, label, metal, Length::from_mm(*bare));
            }
            for (width, thickness) in tables::STRIPS_MM {
                catalogue.add_strip(Family::Strip, metal, *width, *thickness);
            }
            for (width, thickness) in tables::BARS_MM {
                catalogue.add_strip(Family::Busbar, metal, *width, *thickness);
            }
            for thickness in tables::FOILS_MM {
                catalogue.add_foil(metal, *thickness);
            }
        }
        for (width, thickness, corner) in tables::RECTANGULAR_MM {
            catalogue.add_rectangular(*width, *thickness, *corner);
        }
        for (number, strands, outer_inches) in tables::WELDING_CABLE_AWG {
            if let Ok(size) = AwgSize::new(*number) {
                catalogue.add_welding_awg(size, *strands, *outer_inches);
            }
        }
        for (area, resistance, outer) in tables::SOLID_IEC {
            catalogue.add_cable("solid", Family::Solid, *area, *resistance, *outer);
        }
        for (area, resistance, outer) in tables::FLEXIBLE_IEC {
            catalogue.add_cable("flexible", Family::Stranded, *area, *resistance, *outer);
        }
        for (area, resistance, outer) in tables::WELDING_CABLE {
            catalogue.add_cable("welding", Family::WeldingCable, *area, *resistance, *outer);
        }
        for (number, outer_inches) in tables::STRANDED_AWG {
            if let Ok(size) = AwgSize::new(*number) {
                let per_metre = Metal::Copper.resistivity_20().si() * tables::STRAND_LAY / size.area().si();
                let name = format!("awg-{}-stranded", size.digits().replace('/', "-"));
                catalogue.add(name, sized("conductor-stranded", size.label()), |index| Conductor {
                    index,
                    family: Family::Stranded,
                    metal: Metal::Copper,
                    area: size.area(),
                    envelope: Envelope::Round {
                        outer: Length::from_inches(*outer_inches),
                    },
                    solid_thickness: Length::from_mm(1.0),
                    stated_resistance_20: Some(ResistancePerLength::from_si(per_metre)),
                });
            }
        }
        catalogue
    }

    /// Every conductor.
    #[must_use]
    pub fn conductors(&self) -> &[Conductor] {
        &self.conductors
    }

    /// The name that files use for a conductor ("awg-6-stranded").
    #[must_use]
    pub fn name(&self, conductor: &Conductor) -> &str {
        self.names
            .get(usize::from(conductor.index))
            .map_or("", |(name, _)| name)
    }

    /// What a person reads ("AWG 6 stranded").
    #[must_use]
    pub fn label(&self, conductor: &Conductor) -> Message {
        self.names
            .get(usize::from(conductor.index))
            .map_or_else(|| Message::new("conductor-unknown"), |(_, label)| label.clone())
    }

    /// How many conductors, from the first, are of the standards; what follows is the person's own.
    #[must_use]
    pub fn sold(&self) -> usize {
        let own = |conductor: &&Conductor| self.name(conductor).starts_with("own-");
        self.conductors().iter().take_while(|conductor| !own(conductor)).count()
    }

    /// Finds a conductor by its name and metal; a name of the form `own-BARE-OVER` (bare and
    /// overall diameter in millimetres) makes the person's own solid wire and adds it, one of the form
    /// `own-SECTIONmm2-OVER` (section in mm², overall diameter) their own stranded cable.
    ///
    /// # Errors
    /// [`UnknownConductor`] where there is none; its message names the nearest.
    pub fn find(&mut self, name: &str, metal: Metal) -> Result<Conductor, UnknownConductor> {
        let found = self
            .conductors
            .iter()
            .find(|c| c.metal == metal && self.name(c) == name)
            .copied();
        if let Some(conductor) = found {
            return Ok(conductor);
        }
        if let Some(own) = self.own(name, metal) {
            return Ok(own);
        }
        Err(UnknownConductor {
            name: name.chars().take(60).collect(),
            hint: self.hint(name, metal),
        })
    }

    /// Finds a conductor by its name alone, copper before aluminium; otherwise as [`Catalogue::find`].
    ///
    /// # Errors
    /// [`UnknownConductor`] where there is none of either metal; its message names the nearest in copper.
    pub fn find_in_any_metal(&mut self, name: &str) -> Result<Conductor, UnknownConductor> {
        self.find(name, Metal::Copper)
            .or_else(|unknown| self.find(name, Metal::Aluminium).map_err(|_| unknown))
    }

    /// The person's own wire: `own-BARE-OVER`, solid, or `own-SECTIONmm2-OVER`, stranded. A cable taken for
    /// solid by its bare diameter would have a third more copper than it has.
    fn own(&mut self, name: &str, metal: Metal) -> Option<Conductor> {
        let (first, over) = name.strip_prefix("own-")?.split_once('-')?;
        let over = parse_number(over).ok()?;
        if let Some(section) = first.strip_suffix("mm2") {
            return self.own_cable(name, metal, parse_number(section).ok()?, over);
        }
        let bare = parse_number(first).ok()?;
        if !(0.1..=THICKEST_SOLID_MM).contains(&bare) || !(bare..=40.0).contains(&over) {
            return None;
        }
        let label = sized("conductor-own-wire", bare).with("over", over);
        self.add(name.to_owned(), label, |index| Conductor {
            index,
            family: Family::Own,
            metal,
            area: round_area(Length::from_mm(bare)),
            envelope: Envelope::Round {
                outer: Length::from_mm(over),
            },
            solid_thickness: Length::from_mm(bare),
            stated_resistance_20: None,
        })
    }

    fn own_cable(&mut self, name: &str, metal: Metal, section: f64, over: f64) -> Option<Conductor> {
        let tightest = (section * 4.0 / std::f64::consts::PI).sqrt();
        if !(0.2..=400.0).contains(&section) || !(tightest..=40.0).contains(&over) {
            return None;
        }
        let label = sized("conductor-own-cable", section).with("over", over);
        let area = Area::from_mm2(section);
        let per_metre = metal.resistivity_20().si() * tables::STRAND_LAY / area.si();
        self.add(name.to_owned(), label, |index| Conductor {
            index,
            family: Family::Stranded,
            metal,
            area,
            envelope: Envelope::Round {
                outer: Length::from_mm(over),
            },
            solid_thickness: Length::from_mm(0.5),
            stated_resistance_20: Some(ResistancePerLength::from_si(per_metre)),
        })
    }

    fn hint(&self, name: &str, metal: Metal) -> String {
        let shared = |other: &str| other.chars().zip(name.chars()).take_while(|(a, b)| a == b).count();
        let other_metal = self.conductors.iter().any(|c| c.metal != metal && self.name(c) == name);
        if other_metal {
            return format!("it is not offered in {}", metal.word());
        }
        self.conductors
            .iter()
            .filter(|c| c.metal == metal)
            .map(|c| self.name(c))
            .max_by_key(|other| (shared(other), std::cmp::Reverse(other.len())))
            .map_or_else(String::new, |nearest| format!("the nearest is \"{nearest}\""))
    }

    fn add(&mut self, name: String, label: Message, make: impl FnOnce(u16) -> Conductor) -> Option<Conductor> {
        let index = u16::try_from(self.conductors.len()).ok()?;
        let conductor = make(index);
        let label = match conductor.metal {
            Metal::Copper => label,
            Metal::Aluminium => Message::new("conductor-aluminium").within("conductor", label),
        };
        self.names.push((name, label));
        self.conductors.push(conductor);
        Some(conductor)
    }

    fn add_enamelled(&mut self, name: String, label: Message, metal: Metal, bare: Length) {
        self.add(name, label, |index| Conductor {
            index,
            family: Family::Enamelled,
            metal,
            area: round_area(bare),
            envelope: Envelope::Round {
                outer: enamelled_overall(bare),
            },
            solid_thickness: bare,
            stated_resistance_20: None,
        });
    }

    /// Enamelled rectangular copper wire; the corners' rounding is taken off its section.
    fn add_rectangular(&mut self, width: f64, thickness: f64, corner: f64) {
        let rounding = (4.0 - std::f64::consts::PI) * corner * corner;
        self.add(
            format!("rectangular-{width}x{thickness}"),
            sized("conductor-rectangular", format!("{width} × {thickness} mm")),
            |index| Conductor {
                index,
                family: Family::Rectangular,
                metal: Metal::Copper,
                area: Area::from_mm2(width * thickness - rounding),
                envelope: Envelope::Flat {
                    width: Length::from_mm(width + tables::RECTANGULAR_ENAMEL_MM),
                    thickness: Length::from_mm(thickness + tables::RECTANGULAR_ENAMEL_MM),
                },
                solid_thickness: Length::from_mm(thickness),
                stated_resistance_20: None,
            },
        );
    }

    /// Welding cable of strands of AWG 30.
    fn add_welding_awg(&mut self, size: AwgSize, strands: u32, outer_inches: f64) {
        let Ok(strand) = AwgSize::new(30) else { return };
        let area = strand.area() * f64::from(strands);
        let per_metre = Metal::Copper.resistivity_20().si() * tables::ROPE_LAY / area.si();
        let name = format!("awg-{}-welding", size.digits().replace('/', "-"));
        self.add(name, sized("conductor-welding", size.label()), |index| Conductor {
            index,
            family: Family::WeldingCable,
            metal: Metal::Copper,
            area,
            envelope: Envelope::Round {
                outer: Length::from_inches(outer_inches),
            },
            solid_thickness: strand.diameter(),
            stated_resistance_20: Some(ResistancePerLength::from_si(per_metre)),
        });
    }

    fn add_strip(&mut self, family: Family, metal: Metal, width: f64, thickness: f64) {
        let wrap = 2.0 * tables::STRIP_WRAP_MM;
        let (word, key) = match family {
            Family::Busbar => ("bar", "conductor-bar"),
            _ => ("strip", "conductor-strip"),
        };
        self.add(
            format!("{word}-{width}x{thickness}"),
            sized(key, format!("{width} × {thickness} mm")),
            |index| Conductor {
                index,
                family,
                metal,
                area: Area::from_mm2(width * thickness),
                envelope: Envelope::Flat {
                    width: Length::from_mm(width + wrap),
                    thickness: Length::from_mm(thickness + wrap),
                },
                solid_thickness: Length::from_mm(thickness),
                stated_resistance_20: None,
            },
        );
    }

    fn add_foil(&mut self, metal: Metal, thickness: f64) {
        self.add(
            format!("foil-{thickness}"),
            sized("conductor-foil", format!("{thickness} mm")),
            |index| Conductor {
                index,
                family: Family::Foil,
                metal,
                area: Area::ZERO,
                envelope: Envelope::FullWidth {
                    thickness: Length::from_mm(thickness + tables::FOIL_INTERLEAF_MM),
                },
                solid_thickness: Length::from_mm(thickness),
                stated_resistance_20: None,
            },
        );
    }

    fn add_cable(&mut self, suffix: &str, family: Family, area: f64, ohm_per_km: f64, outer: f64) {
        let solid = if family == Family::Solid {
            (area * 4.0 / std::f64::consts::PI).sqrt()
        } else {
            0.5
        };
        let label = sized(format!("conductor-{suffix}"), format!("{area} mm²"));
        self.add(format!("mm2-{area}-{suffix}"), label, |index| Conductor {
            index,
            family,
            metal: Metal::Copper,
            area: Area::from_mm2(area),
            envelope: Envelope::Round {
                outer: Length::from_mm(outer),
            },
            solid_thickness: Length::from_mm(solid),
            stated_resistance_20: Some(ResistancePerLength::from_milliohms_per_m(ohm_per_km)),
        });
    }
}

/// The label of a conductor with a size: the text with an id.
fn sized(key: impl Into<Cow<'static, str>>, size: impl std::fmt::Display) -> Message {
    Message::new(key).with("size", size)
}

/// The thickest wire of one's own that counts as solid: IEC 60317-0-1 ends at 5 mm, and what is thicker is
/// a cable.
const THICKEST_SOLID_MM: f64 = 5.0;

/// Overall diameter of enamelled round wire, grade 2: the table of IEC 60317-0-1 where it has
/// the size; an intermediate size takes the increase over bare of the next larger one, as that
/// standard has it. Beyond the ends the increase is held.
#[must_use]
pub(crate) fn enamelled_overall(bare: Length) -> Length {
    let table = tables::ENAMELLED_OVERALL_MM;
    let mm = bare.mm();
    let increase = |row: &(f64, f64, f64)| row.2 - row.0;
    // A hair below a size counts as that size: 1.000 mm may come as 0.999_999_9.
    let next = table.iter().find(|row| row.0 >= mm - 1e-6).or_else(|| table.last());
    Length::from_mm(mm + next.map_or(0.0, increase))
}

/// Bare diameter of enamelled round wire of which the diameter over the enamel was measured: the
/// inverse of `enamelled_overall`. The few micrometres by which the increase steps up above a size
/// count as that size.
#[must_use]
pub fn bare_diameter(over_enamel: Length) -> Length {
    let table = tables::ENAMELLED_OVERALL_MM;
    let over = over_enamel.mm();
    let above = table.iter().position(|row| row.2 >= over - 1e-6);
    let increase = |index: usize| table.get(index).map_or(0.0, |row| row.2 - row.0);
    let bare = match above {
        Some(0) => over - increase(0),
        Some(index) => (over - increase(index)).max(table.get(index - 1).map_or(0.0, |row| row.0)),
        None => over - increase(table.len() - 1),
    };
    Length::from_mm(bare).max(over_enamel * 0.5)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Temperature;

    const COLD: Temperature = Temperature::from_si(20.0);

    fn milliohms_per_metre(name: &str) -> f64 {
        let conductor = Catalogue::standard().find(name, Metal::Copper).unwrap();
        conductor.resistance_per_length(Length::ZERO, COLD).milliohms_per_m()
    }

    /// Resistance at 20 °C from ASTM B258 diameters and IEC 60028 copper: Ω/km.
    #[test]
    fn resistance_of_b258_wire() {
        for (name, expected) in [
            ("awg-6-enamelled", 1.296),
            ("awg-10-enamelled", 3.277),
            ("awg-12-enamelled", 5.211),
            ("awg-18-enamelled", 20.95),
            ("awg-24-enamelled", 84.21),
        ] {
            let got = milliohms_per_metre(name);
            assert!(
                (got / expected - 1.0).abs() < 2e-3,
                "{name}: {got}, expected {expected}"
            );
        }
    }

    /// Welding cable by AWG against the same sizes of ASTM B258: the strands give the section within 6 %,
    /// and their lay makes the resistance at most a tenth more than that of a solid wire of the size
    /// (B258, Ω per 1000 ft at 20 °C: AWG 2 0.1563, 1/0 0.0983, 4/0 0.0490; R2: handbooks).
    #[test]
    fn welding_cable_by_gauge() {
        let mut catalogue = Catalogue::standard();
        for (name, number, ohms_per_kft) in [
            ("awg-2-welding", 2, 0.1563),
            ("awg-1-0-welding", 0, 0.0983),
            ("awg-4-0-welding", -3, 0.0490),
        ] {
            let cable = catalogue.find(name, Metal::Copper).unwrap();
            let gauge = AwgSize::new(number).unwrap().area();
            assert!((cable.area / gauge - 1.0).abs() < 0.06, "{name}: {:?}", cable.area);
            let per_metre = cable.resistance_per_length(Length::ZERO, COLD).si();
            let more = per_metre * 304.8 / ohms_per_kft - 1.0;
            assert!((0.0..0.1).contains(&more), "{name}: {more}");
        }
    }

    /// Rectangular wire of 10 x 2.5 mm has 24.45 mm² by IEC 60317-0-2's table, corners rounded (M).
    #[test]
    fn rectangular_wire_has_round_corners() {
        let wire = Catalogue::standard().find("rectangular-10x2.5", Metal::Copper).unwrap();
        assert!((wire.area.mm2() - 24.45).abs() < 0.02, "{:?}", wire.area);
    }

    /// IEC 60228 class 1 and class 5 highest resistances: a conductor of the nominal section in
    /// IEC 60028 copper stays below the limit that the standard sets, and within 12 % of it.
    #[test]
    fn iec_sizes_agree_with_their_copper() {
        for (area, limit, _) in tables::SOLID_IEC
            .iter()
            .chain(tables::FLEXIBLE_IEC)
            .chain(tables::WELDING_CABLE)
        {
            let copper = 17.241 / area;
            assert!(
                *limit > copper * 0.99 && *limit < copper * 1.2,
                "{area} mm²: limit {limit}, copper {copper}"
            );
        }
    }

    /// IS 13730-0-1 (adopts IEC 60317-0-1), inch-sized wires: 1.016 mm at most 1.113 mm, 0.508 mm
    /// at most 0.578 mm over grade 2 enamel. 0.508 mm lies between sizes, and takes 0.560's increase.
    #[test]
    fn enamel_of_iec_60317() {
        for (bare, over) in [(1.016, 1.113), (0.508, 0.578), (1.000, 1.094)] {
            let got = enamelled_overall(Length::from_mm(bare)).mm();
            assert!((got - over).abs() < 0.001, "{bare}: {got}, standard {over}");
        }
    }

    /// IEC 60317-0-1 grade 2: 1.094 mm over the enamel is a 1.000 mm wire.
    #[test]
    fn bare_from_over() {
        for (bare, _, over) in tables::ENAMELLED_OVERALL_MM {
            let got = bare_diameter(Length::from_mm(*over)).mm();
            assert!((got - bare).abs() < 0.002, "{over} over: {got}, standard {bare}");
        }
    }

    /// IEC 60228: 35 mm² of class 5 or 6 has at most 0.554 Ω/km, and its copper some 7.8 mm across. By section it
    /// comes within 10 % of that limit and never above; as 7.8 mm of solid copper it would be a third below.
    #[test]
    fn ones_own_cable_is_stranded() {
        let mut catalogue = Catalogue::standard();
        let cable = catalogue.find("own-35mm2-12.5", Metal::Copper).unwrap();
        let cold = crate::quantity::Temperature::from_si(20.0);
        let per_km = cable.resistance_per_length(Length::ZERO, cold).si() * 1000.0;
        assert!(per_km < 0.554 && per_km > 0.9 * 0.554, "{per_km}");
        assert_eq!(cable.family, Family::Stranded);
        let refused = catalogue.find("own-7.8-12.5", Metal::Copper).unwrap_err();
        assert!(refused.to_string().contains("own-35mm2-12.5"), "{refused}");
        // A section that its own outside cannot hold.
        assert!(catalogue.find("own-35mm2-6", Metal::Copper).is_err());
    }

    #[test]
    fn names_are_unique_and_found() {
        let mut catalogue = Catalogue::standard();
        for conductor in catalogue.conductors().to_vec() {
            let name = catalogue.name(&conductor).to_owned();
            assert_eq!(catalogue.find(&name, conductor.metal), Ok(conductor), "{name}");
        }
        let own = catalogue.find("own-1.80-1.95", Metal::Copper).unwrap();
        assert!((own.area.mm2() - 2.545).abs() < 1e-3);
        let error = catalogue.find("awg-6-strandid", Metal::Copper).unwrap_err();
        assert!(error.to_string().contains("awg-6-stranded"), "{error}");
        assert!(
            catalogue
                .find("mm2-16-flexible", Metal::Aluminium)
                .unwrap_err()
                .to_string()
                .contains("not offered")
        );
    }
}
