//! Integrals and extremes of a rectifier's waveforms over half a period.

use crate::magnetics::rectifier::Connection;
use crate::magnetics::rectifier::cycle::Stretch;
use crate::magnetics::rectifier::state::{Circuit, DirectSide, Instant, Mode};

/// Points and weights of the five-point Gauss-Legendre rule on −1 to 1 (Abramowitz and Stegun,
/// table 25.4).
const GAUSS: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189),
    (-0.538_469_310_105_683, 0.478_628_670_499_366),
    (0.0, 0.568_888_888_888_889),
    (0.538_469_310_105_683, 0.478_628_670_499_366),
    (0.906_179_845_938_664, 0.236_926_885_056_189),
];

/// Integrals over the stretches shown so far, and extremes.
pub(super) struct Sums {
    connection: Connection,
    pub load: f64,
    pub direct: f64,
    pub direct2: f64,
    pub winding2: f64,
    pub power: f64,
    pub conducting: f64,
    pub lowest: f64,
    pub highest: f64,
    pub peak: f64,
    pub reverse: f64,
}

impl Sums {
    pub(super) const fn new(connection: Connection) -> Self {
        Self {
            connection,
            load: 0.0,
            direct: 0.0,
            direct2: 0.0,
            winding2: 0.0,
            power: 0.0,
            conducting: 0.0,
            lowest: f64::INFINITY,
            highest: f64::NEG_INFINITY,
            peak: 0.0,
            reverse: 0.0,
        }
    }

    pub(super) fn add(&mut self, circuit: &Circuit, stretch: &Stretch) {
        let (from, to) = (stretch.from.time, stretch.to.time);
        let (half, middle) = ((to - from) / 2.0, f64::midpoint(to, from));
        if stretch.mode != Mode::Off {
            self.conducting += 2.0 * half;
        }
        for (point, weight) in GAUSS {
            let at = circuit.instant(middle + half * point);
            let x = stretch.path.at(at);
            let (direct, load) = (circuit.direct_current(x), circuit.load_voltage(x));
            let w = half * weight;
            self.load += w * load;
            self.direct += w * direct;
            self.direct2 += w * direct * direct;
            self.winding2 += w * x[0] * x[0];
            self.power += w * match circuit.side {
                DirectSide::Reservoir { resistance, .. } => load * load / resistance,
                DirectSide::Stiff { .. } | DirectSide::Choked { .. } => load * direct,
            };
            self.extremes(circuit, stretch.mode, at, x);
        }
        self.extremes(circuit, stretch.mode, stretch.from, stretch.path.at(stretch.from));
        self.extremes(circuit, stretch.mode, stretch.to, stretch.path.at(stretch.to));
    }

    fn extremes(&mut self, circuit: &Circuit, mode: Mode, at: Instant, x: [f64; 2]) {
        let (direct, load) = (circuit.direct_current(x), circuit.load_voltage(x));
        self.lowest = self.lowest.min(load);
        self.highest = self.highest.max(load);
        self.peak = self.peak.max(direct);
        let bus = circuit.bus_voltage(mode, at, x);
        let drop = circuit.threshold + circuit.slope * direct;
        let reverse = match (self.connection, mode) {
            (_, Mode::Overlap) => 0.0,
            // A blocked pair shares the source; each diode sees at most the bus.
            (Connection::Bridge, Mode::Off) => f64::midpoint(bus, circuit.source(at).abs()),
            (Connection::Bridge, _) => bus + drop / 2.0,
            (Connection::CentreTap, Mode::Off) => bus + circuit.source(at).abs(),
            (Connection::CentreTap, _) => 2.0 * bus + drop,
        };
        self.reverse = self.reverse.max(reverse);
    }
}

/// The integrals alone that means come from, over the stretches shown so far.
#[derive(Debug, Default)]
pub(super) struct Means {
    pub load: f64,
    pub direct: f64,
    pub direct2: f64,
    pub winding2: f64,
}

impl Means {
    pub(super) fn add(&mut self, circuit: &Circuit, stretch: &Stretch) {
        let (from, to) = (stretch.from.time, stretch.to.time);
        let (half, middle) = ((to - from) / 2.0, f64::midpoint(to, from));
        if stretch.mode == Mode::Off && !matches!(circuit.side, DirectSide::Reservoir { .. }) {
            self.load += 2.0 * half * circuit.back_voltage(0.0);
            return;
        }
        for (point, weight) in GAUSS {
            let x = stretch.path.at(circuit.instant(middle + half * point));
            let direct = circuit.direct_current(x);
            let w = half * weight;
            self.load += w * circuit.load_voltage(x);
            self.direct += w * direct;
            self.direct2 += w * direct * direct;
            self.winding2 += w * x[0] * x[0];
        }
    }
}
