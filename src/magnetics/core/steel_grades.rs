//! Open tables of non-oriented lamination steels. Each is listed once, as its source gives it.
//!
//! Magnetisation: Modelica Standard Library (BSD 3-Clause), Modelica.Magnetic.FluxTubes.Material.
//! SoftMagnetic.SSEE, records `M400_50A`, `M530_50A` and `M800_50A`, raw points HD and JD (field
//! strength in A/m, polarization in T, 50 Hz); and pyleecan 1.4.2
//! (Apache License 2.0), Data/Material/M19 (field strength in A/m, flux density in T). That
//! library's M400-50A is up to three times off at the knee against the other and isn't used.
//!
//! Loss at 50 Hz, peak flux density in T and W/kg: pyleecan 1.4.2, M19, M400-50A, M530-65A and M800-50A.

/// A grade of fully processed, non-oriented electrical steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SteelGrade {
    /// AISI M19, 29 gauge (0.36 mm): better than a donor's.
    M19,
    /// M400-50A of EN 10106 (0.50 mm, at most 4.00 W/kg at 1.5 T, 50 Hz).
    M400_50A,
    /// M530-50A of EN 10106 (0.50 mm, at most 5.30 W/kg).
    M530_50A,
    /// M800-50A of EN 10106 (0.50 mm, at most 8.00 W/kg): cheap motor and transformer sheet.
    M800_50A,
}

impl SteelGrade {
    /// Every grade, best first.
    pub const ALL: [SteelGrade; 4] = [Self::M19, Self::M400_50A, Self::M530_50A, Self::M800_50A];

    /// The word that files and screens use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::M19 => "M19",
            Self::M400_50A => "M400-50A",
            Self::M530_50A => "M530-50A",
            Self::M800_50A => "M800-50A",
        }
    }

    /// The grade that a word names.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|grade| grade.word() == word)
    }

    /// Listed points: field strength in A/m and polarization or flux density in T.
    pub(crate) const fn listed_field(self) -> (Listed, &'static [(f64, f64)]) {
        match self {
            Self::M19 => (Listed::FluxDensity, M19_FIELD),
            Self::M400_50A => (Listed::Polarization, M400_50A_FIELD),
            Self::M530_50A => (Listed::Polarization, M530_50A_FIELD),
            Self::M800_50A => (Listed::Polarization, M800_50A_FIELD),
        }
    }

    /// Listed loss at 50 Hz. The open tables have no loss curve of M530-50A, which takes that of
    /// M530-65A (the same loss class).
    pub(crate) const fn listed_loss(self) -> &'static [(f64, f64)] {
        match self {
            Self::M19 => M19_LOSS,
            Self::M400_50A => M400_50A_LOSS,
            Self::M530_50A => M530_65A_LOSS,
            Self::M800_50A => M800_50A_LOSS,
        }
    }

    /// Share of the 50 Hz loss that goes with the square of the frequency (eddy currents); the
    /// rest goes with the frequency (hysteresis). From the tables: M19 by its 50 and 60 Hz
    /// columns, 1.0 to 1.7 T, 0.06 to 0.20; M400-50A by its 50 and 100 Hz columns, 1.0 to 1.5 T, 0.37
    /// to 0.41. The other two are taken as M400-50A, which has their thickness.
    pub(crate) const fn eddy_share(self) -> f64 {
        match self {
            Self::M19 => 0.13,
            Self::M400_50A | Self::M530_50A | Self::M800_50A => 0.38,
        }
    }
}

/// What the second column of a magnetisation table is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Listed {
    /// J = B − μ₀H.
    Polarization,
    /// B.
    FluxDensity,
}

#[rustfmt::skip]
const M400_50A_FIELD: &[(f64, f64)] = &[
    (10.01, 0.01174), (20.02, 0.02872), (30.0, 0.05212), (40.04, 0.08379), (50.02, 0.13713), (60.0, 0.25006),
    (70.04, 0.3969), (79.95, 0.53434), (90.15, 0.68837), (100.02, 0.81912), (125.04, 1.03212), (150.75, 1.15089),
    (174.99, 1.21926), (200.15, 1.26636), (249.42, 1.32261), (349.8, 1.38007), (500.2, 1.42283), (749.73, 1.46237),
    (1000.16, 1.48822), (1250.83, 1.50816), (1501.27, 1.52464), (1999.42, 1.55179), (2498.48, 1.57443), (4994.23, 1.65894),
    (7499.53, 1.72245), (9982.33, 1.77386), (15038.84, 1.85521), (19660.14, 1.90918), (24012.14, 1.94542), (28095.98, 1.96853),
    (31507.13, 1.98122), (32584.33, 1.98429),
];

#[rustfmt::skip]
const M530_50A_FIELD: &[(f64, f64)] = &[
    (10.0, 0.00229), (20.03, 0.00586), (30.03, 0.00982), (40.03, 0.01655), (50.02, 0.03309), (59.93, 0.06403),
    (69.88, 0.1282), (80.02, 0.25536), (89.94, 0.40536), (100.01, 0.57295), (124.81, 0.90788), (149.97, 1.11364),
    (175.1, 1.20571), (199.71, 1.26027), (250.48, 1.32725), (351.57, 1.39377), (499.51, 1.4406), (749.27, 1.48251),
    (1000.28, 1.50887), (1247.99, 1.52852), (1499.57, 1.54479), (2005.78, 1.57137), (2500.07, 1.59287), (4996.96, 1.67423),
    (7500.1, 1.73621), (10006.19, 1.78775), (14995.66, 1.86961), (19703.32, 1.92726), (24121.22, 1.96751), (28575.49, 1.99658),
    (32579.79, 2.01417), (33875.16, 2.01873),
];

#[rustfmt::skip]
const M800_50A_FIELD: &[(f64, f64)] = &[
    (10.06, 0.00496), (20.03, 0.01142), (30.0, 0.01907), (40.02, 0.02777), (50.0, 0.03783), (60.01, 0.04946),
    (70.05, 0.06266), (80.04, 0.07981), (90.02, 0.09993), (100.11, 0.12973), (125.42, 0.37353), (149.84, 0.74319),
    (174.13, 0.9989), (199.83, 1.14296), (249.64, 1.28154), (349.71, 1.3948), (499.88, 1.46505), (749.16, 1.51909),
    (1000.28, 1.55021), (1250.15, 1.57233), (1498.09, 1.58983), (1998.51, 1.61762), (2500.3, 1.64), (4993.33, 1.72097),
    (7471.69, 1.78069), (9978.92, 1.83023), (14925.21, 1.90759), (19789.68, 1.9641), (24212.13, 2.00248), (28468.68, 2.02932),
    (32059.37, 2.0454), (34411.49, 2.0531),
];

#[rustfmt::skip]
const M19_FIELD: &[(f64, f64)] = &[
    (15.121, 0.05), (22.718, 0.1), (27.843, 0.15), (31.871, 0.2), (35.365, 0.25),
    (38.601, 0.3), (41.736, 0.35), (44.874, 0.4), (48.088, 0.45), (51.437, 0.5),
    (54.975, 0.55), (58.753, 0.6), (62.824, 0.65), (67.245, 0.7), (72.084, 0.75),
    (77.42, 0.8), (83.35, 0.85), (90.0, 0.9), (97.537, 0.95), (106.201, 1.0),
    (116.348, 1.05), (128.547, 1.1), (143.765, 1.15), (163.754, 1.2), (191.868, 1.25),
    (234.834, 1.3), (306.51, 1.35), (435.255, 1.4), (674.912, 1.45), (1108.326, 1.5),
    (1813.085, 1.55), (2801.217, 1.6), (4053.653, 1.65), (5591.107, 1.7), (7448.318, 1.75),
    (9708.816, 1.8), (12486.932, 1.85), (16041.484, 1.9), (21249.421, 1.95), (31313.496, 2.0),
    (53589.447, 2.05), (88477.485, 2.1), (124329.411, 2.15), (159968.569, 2.2), (197751.604, 2.25),
    (234024.751, 2.3),
];

#[rustfmt::skip]
const M400_50A_LOSS: &[(f64, f64)] = &[
    (0.1, 0.02), (0.2, 0.09), (0.3, 0.19), (0.4, 0.31), (0.5, 0.46), (0.6, 0.62), (0.7, 0.81), (0.8, 1.01), (0.9, 1.24),
    (1.0, 1.49), (1.1, 1.76), (1.2, 2.09), (1.3, 2.46), (1.4, 2.96), (1.5, 3.57), (1.6, 4.38), (1.7, 5.02), (1.8, 5.47),
];

#[rustfmt::skip]
const M530_65A_LOSS: &[(f64, f64)] = &[
    (0.1, 0.02), (0.2, 0.11), (0.3, 0.23), (0.4, 0.38), (0.5, 0.56), (0.6, 0.76), (0.7, 0.98), (0.8, 1.24), (0.9, 1.53),
    (1.0, 1.85), (1.1, 2.12), (1.2, 2.62), (1.3, 3.07), (1.4, 3.63), (1.5, 4.26), (1.6, 4.97), (1.7, 5.59), (1.8, 6.1),
];

#[rustfmt::skip]
const M800_50A_LOSS: &[(f64, f64)] = &[
    (0.1, 0.05), (0.2, 0.18), (0.3, 0.43), (0.4, 0.7), (0.5, 1.01), (0.6, 1.35), (0.7, 1.72), (0.8, 2.13), (0.9, 2.56),
    (1.0, 3.05), (1.1, 3.59), (1.2, 4.2), (1.3, 4.91), (1.4, 5.7), (1.5, 6.6), (1.6, 7.54), (1.7, 8.3), (1.8, 8.83),
];

#[rustfmt::skip]
const M19_LOSS: &[(f64, f64)] = &[
    (0.1, 0.0209), (0.2, 0.0808), (0.3, 0.1832), (0.4, 0.2774), (0.5, 0.4093), (0.6, 0.5303), (0.7, 0.6781), (0.8, 0.8339), (0.9, 0.9992),
    (1.0, 1.1973), (1.1, 1.3977), (1.2, 1.6317), (1.3, 1.9299), (1.4, 2.2825), (1.5, 2.7349), (1.6, 3.1108), (1.7, 3.4475),
];
