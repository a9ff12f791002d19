//! The sizes and their standards, each once.
//!
//! Cable diameters differ between makers by several per cent: a person with the cable in hand
//! measures it and enters it as their own conductor.

/// IEC 60317-0-1: largest overall diameter of enamelled round wire.
/// Columns: nominal conductor diameter, grade 1, grade 2; millimetres.
/// R2: 14 of the rows were found in makers' tables of wire to that standard and agree; the rest is M.
pub const ENAMELLED_OVERALL_MM: &[(f64, f64, f64)] = &[
    (0.500, 0.544, 0.566),
    (0.560, 0.606, 0.630),
    (0.630, 0.679, 0.704),
    (0.710, 0.762, 0.789),
    (0.800, 0.855, 0.884),
    (0.900, 0.959, 0.989),
    (1.000, 1.062, 1.094),
    (1.120, 1.184, 1.217),
    (1.250, 1.316, 1.349),
    (1.400, 1.468, 1.502),
    (1.600, 1.670, 1.706),
    (1.800, 1.872, 1.909),
    (2.000, 2.074, 2.112),
    (2.240, 2.316, 2.355),
    (2.500, 2.578, 2.618),
    (2.800, 2.880, 2.922),
    (3.150, 3.233, 3.276),
    (3.550, 3.635, 3.679),
    (4.000, 4.088, 4.133),
    (4.500, 4.591, 4.637),
    (5.000, 5.093, 5.141),
];

/// AWG gauges offered as enamelled wire, thick to thin.
pub const ENAMELLED_AWG: std::ops::RangeInclusive<i8> = 4..=24;

/// IEC 60228 class 1 (solid) copper: section in mm², highest resistance at 20 °C in Ω/km, and
/// the outer diameter in mm of a 450/750 V single-core wire (upper mean of EN 50525-2-31, M: 2 to
/// 6 % above a maker's table, so that a winding fits sooner than told). Resistances: R2, every row
/// agrees with makers' tables of class 1.
pub const SOLID_IEC: &[(f64, f64, f64)] = &[
    (1.5, 12.1, 3.2),
    (2.5, 7.41, 3.9),
    (4.0, 4.61, 4.4),
    (6.0, 3.08, 5.0),
    (10.0, 1.83, 6.4),
];

/// IEC 60228 class 5 (flexible) copper: section in mm², highest resistance at 20 °C in Ω/km,
/// outer diameter in mm of a 450/750 V single-core wire (upper mean of EN 50525-2-31, M: 2 to 6 %
/// above a maker's table). Resistances: R2, every row agrees with makers' tables of class 5.
pub const FLEXIBLE_IEC: &[(f64, f64, f64)] = &[
    (1.5, 13.3, 3.4),
    (2.5, 7.98, 4.1),
    (4.0, 4.95, 4.8),
    (6.0, 3.30, 5.3),
    (10.0, 1.91, 6.8),
    (16.0, 1.21, 8.1),
    (25.0, 0.780, 10.2),
    (35.0, 0.554, 11.7),
    (50.0, 0.386, 13.9),
    (70.0, 0.272, 16.0),
    (95.0, 0.206, 18.2),
    (120.0, 0.161, 20.2),
];

/// Welding cable: section in mm², highest resistance at 20 °C in Ω/km (IEC 60228 class 6 limits,
/// which equal class 5 at these sizes; R2, makers' tables), middle of the outer diameters in mm of
/// EN 50525-2-81 (M).
pub const WELDING_CABLE: &[(f64, f64, f64)] = &[
    (10.0, 1.91, 8.7),
    (16.0, 1.21, 9.9),
    (25.0, 0.780, 11.4),
    (35.0, 0.554, 12.8),
    (50.0, 0.386, 14.9),
    (70.0, 0.272, 17.3),
    (95.0, 0.206, 19.3),
];

/// Welding cable by AWG number: strands of AWG 30 and outer diameter in inches. R2: a maker's sheet of
/// welding cable to ASTM B172 and ICEA S-75-381. Other makers differ by 3 %.
pub const WELDING_CABLE_AWG: &[(i8, u32, f64)] = &[
    (6, 273, 0.320),
    (4, 427, 0.375),
    (2, 651, 0.440),
    (1, 840, 0.505),
    (0, 1044, 0.570),
    (-1, 1308, 0.605),
    (-2, 1653, 0.670),
    (-3, 2071, 0.720),
];

/// Extra length of a strand in a rope-laid cable: ASTM B172 allows some 5 % more resistance for the lay
/// (M).
pub const ROPE_LAY: f64 = 1.05;

/// Enamelled rectangular wire: width and thickness in mm (preferred sizes of IEC 60317-0-2, M), and the
/// radius of its corners there (M).
pub const RECTANGULAR_MM: &[(f64, f64, f64)] = &[
    (4.0, 2.0, 0.65),
    (5.0, 2.0, 0.65),
    (6.3, 2.0, 0.65),
    (8.0, 2.0, 0.65),
    (6.3, 2.5, 0.80),
    (8.0, 2.5, 0.80),
    (10.0, 2.5, 0.80),
    (8.0, 3.15, 0.80),
    (10.0, 3.15, 0.80),
    (12.5, 3.15, 0.80),
];

/// Increase over bare of rectangular wire by grade 2 enamel, in mm, both ways: IEC 60317-0-2 (M).
pub const RECTANGULAR_ENAMEL_MM: f64 = 0.17;

/// Stranded building wire by AWG number (0 and below: 1/0 and up) and its outer diameter in
/// inches over thermoplastic and nylon (NFPA 70, chapter 9, table 5; R2, every row agrees with
/// pages that reprint the table). Resistance
/// follows from the section, 2 % longer for the lay of the strands (common practice, no source).
pub const STRANDED_AWG: &[(i8, f64)] = &[
    (14, 0.111),
    (12, 0.130),
    (10, 0.164),
    (8, 0.216),
    (6, 0.254),
    (4, 0.324),
    (3, 0.352),
    (2, 0.384),
    (1, 0.446),
    (0, 0.486),
    (-1, 0.532),
    (-2, 0.584),
    (-3, 0.642),
];

/// Extra length of a strand over the conductor's axis. Common practice, no source.
pub const STRAND_LAY: f64 = 1.02;

/// Flat strip: width and thickness in mm of bar sold by metal dealers. Common practice, no
/// source.
pub const STRIPS_MM: &[(f64, f64)] = &[
    (10.0, 1.0),
    (10.0, 2.0),
    (12.0, 2.0),
    (12.0, 3.0),
    (15.0, 2.0),
    (15.0, 3.0),
    (20.0, 2.0),
    (20.0, 3.0),
    (25.0, 3.0),
];

/// Bar: width and thickness in mm of what metal dealers and switchgear shops sell. Common practice, no
/// source.
pub const BARS_MM: &[(f64, f64)] = &[
    (15.0, 5.0),
    (20.0, 5.0),
    (25.0, 5.0),
    (30.0, 5.0),
    (40.0, 5.0),
    (50.0, 5.0),
    (20.0, 10.0),
    (25.0, 10.0),
    (30.0, 10.0),
];

/// Wrap round a strip, on each side, in mm: two half-lapped layers of 0.09 mm polyester or
/// polyimide tape, rounded up. Common practice, no source.
pub const STRIP_WRAP_MM: f64 = 0.2;

/// Foil and sheet thicknesses in mm. Common practice, no source.
pub const FOILS_MM: &[f64] = &[0.1, 0.2, 0.3, 0.5, 0.8, 1.0];

/// Interleaf between foil turns, in mm. Common practice, no source.
pub const FOIL_INTERLEAF_MM: f64 = 0.1;
