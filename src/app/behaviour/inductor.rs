//! The core as a choke or a ballast: turns, wire, gap.

use super::heat::class_of;
use super::shim_stack::{ShimStack, papers};
use crate::app::basis::Basis;
use crate::app::translate::{gaps, steel};
use crate::job::{self, JobFile};
use crate::magnetics::inductor::design::{Ballast, InductorError, InductorWish};
use crate::magnetics::inductor::heat::{InductorHeat, InductorWarmthNumber};
use crate::magnetics::inductor::{Conductor, Inductor, InductorWorkNumber, Load};
use crate::quantity::{
    Area, Current, Estimate, FluxDensity, Frequency, Inductance, Length, Mass, Measured, Number, Origin, Ratio,
    Temperature, TemperatureRise, Turns, Velocity, Voltage, numbers,
};
use crate::rewind::limits::{Limit, LimitSet};
use crate::wire::{self, Envelope, Family};
use crate::words::Message;

const ROWS: [InductorWorkNumber; 7] = [
    InductorWorkNumber::Inductance,
    InductorWorkNumber::PeakDensity,
    InductorWorkNumber::Resistance,
    InductorWorkNumber::CopperLoss,
    InductorWorkNumber::CoreLoss,
    InductorWorkNumber::Fringing,
    InductorWorkNumber::WindowShare,
];

numbers! {
    /// What is chosen for an inductor and not computed from its build.
    pub enum CoilNumber {
        /// Shim in each of the three faces.
        Shim = shim: Length [MM, "behaves-shim"],
        /// The load's highest current.
        Crest = crest: Current [A, "behaves-crest"],
    }
}

/// Highest flux density that a choke of unknown steel is made for. Common practice, no source.
const LIMIT: FluxDensity = FluxDensity::from_si(1.2);

/// Equivalent steady current density of a coil in still air: 4 A/mm² of copper, for a coil that
/// fills the windows. Common practice, no source.
pub const DENSITY_A_PER_MM2: f64 = 4.0;

/// Most wires wound together.
pub const MOST_PARALLEL: u32 = 6;

/// Share of the window that the wire's square cells may take. Common practice, no source.
const USABLE: f64 = 0.75;

/// A choke or ballast that can be wound.
#[derive(Debug, Clone, PartialEq)]
pub struct InductorAnswer {
    /// Label of the wire.
    pub wire: Message,
    /// Its name in the catalogue.
    pub conductor: String,
    /// How many are wound together.
    pub parallel: u32,
    /// Turns.
    pub turns: u32,
    /// Shim in each of the three faces, with its half-width.
    pub shim: Estimate<Length>,
    /// The same as a stack of whole sheets.
    pub stack: ShimStack,
    /// How the coil lies.
    pub coil: CoilBuild,
    /// The coil on its gapped core, as it is to be built, its copper at its working temperature.
    pub built: Inductor,
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// How warm it gets.
    pub warm: Warm,
    /// How far the coil's mean temperature stands above the room; `None` where it burns out.
    pub rise: Option<Estimate<TemperatureRise>>,
    /// What its hottest spot may reach.
    pub limit: Temperature,
    /// Inductance against the direct current (or the alternating current's crest).
    pub curve: Vec<(Current, Inductance)>,
    /// The current asked for, at its crest.
    pub crest: Current,
    /// Inductance there, for small changes about it, as the curve has it.
    pub asked: Inductance,
}

impl InductorAnswer {
    /// The limits that it breaks: its layers reach further than the window is wide, or it runs too hot.
    #[must_use]
    pub fn broken(&self) -> LimitSet {
        let mut broken = LimitSet::default();
        broken.add_if(self.coil.build > self.coil.room, Limit::WindowFit);
        broken.add_if(matches!(self.warm, Warm::TooHot | Warm::BurnsOut), Limit::WindingHeat);
        broken
    }
}

/// How a coil of round wire lies in the windows: the wires of one turn side by side along the
/// limb, layer over layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoilBuild {
    /// Diameter of one wire over its enamel.
    pub outer: Length,
    /// Metal of one wire in section.
    pub area: Area,
    /// Room along the limb.
    pub breadth: Length,
    /// Room away from the limb.
    pub room: Length,
    /// A turn along the limb, its wires side by side where they fit so, else over one another.
    pub turn_width: Length,
    /// A layer, away from the limb.
    pub layer_height: Length,
    /// Turns in a full layer.
    pub per_layer: u32,
    /// Layers; the last may be shorter.
    pub layers: u32,
    /// Turns in the last layer.
    pub last_layer: u32,
    /// From the tongue's insulation to the outside, film between the layers included.
    pub build: Length,
    /// One turn, on average.
    pub mean_turn: Length,
    /// Length of each wire, both lead-outs in it.
    pub wire_length: Length,
    /// Metal of all wires.
    pub mass: Mass,
}

impl CoilBuild {
    /// Whether the wires of one turn lie over one another.
    #[must_use]
    pub fn is_stacked(&self, parallel: u32) -> bool {
        parallel > 1 && self.layer_height > self.outer
    }

    fn of(answer: &Basis, conductor: &wire::Conductor, outer: Length, parallel: u32, turns: u32) -> Self {
        let rebuild = &answer.problem.rebuild;
        let insulation = &rebuild.insulation;
        let breadth = (rebuild.core.window_height.value - insulation.ground * 2.0).max(outer);
        let abreast = outer * f64::from(parallel);
        let (pitch, height) = if abreast <= breadth {
            (abreast, outer)
        } else {
            (outer, abreast)
        };
        let per_layer = ((breadth / pitch).floor() as u32).max(1);
        let layers = turns.div_ceil(per_layer).max(1);
        let between = insulation.interlayer * f64::from(layers - 1);
        let build = height * f64::from(layers) + between;
        let mean_turn = rebuild.core.turn_length(insulation.ground + build / 2.0);
        let wire_length = mean_turn * f64::from(turns) + rebuild.leads.value;
        let volume = conductor.area.si() * wire_length.si() * f64::from(parallel);
        Self {
            outer,
            area: conductor.area,
            breadth,
            room: rebuild.core.window_width.value - insulation.ground,
            turn_width: pitch,
            layer_height: height,
            per_layer,
            layers,
            last_layer: turns - per_layer * (layers - 1),
            build,
            mean_turn,
            wire_length,
            mass: Mass::from_si(volume * conductor.metal.density().si()),
        }
    }
}

const WARM_ROWS: [InductorWarmthNumber; 4] = [
    InductorWarmthNumber::Coil,
    InductorWarmthNumber::CoilRise,
    InductorWarmthNumber::Hottest,
    InductorWarmthNumber::Core,
];

/// How warm it gets under continuous load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Warm {
    /// Below the limit of its insulation, the range counted in.
    Fine,
    /// The high end of its range is above that.
    Doubtful,
    /// It is above that.
    TooHot,
    /// There is no steady temperature: it burns out.
    BurnsOut,
}

/// Why there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Trouble {
    /// Core, window or gap do not allow it.
    Refused(InductorError),
    /// No wire carries the current at [`DENSITY_A_PER_MM2`], not even [`MOST_PARALLEL`] together.
    NoWire(Current),
    /// The gap would be thinner than the least that sheets make, and with that the turns do not
    /// fit. The gap wanted, the least, and the most inductance with it.
    ShimTooThin {
        /// The gap that would do.
        needed: Length,
        /// The least gap that the sheets make.
        sheet: Length,
        /// The most that the turns that fit give with it.
        most: Inductance,
    },
    /// The core's measures give no answer.
    NoAnswer,
}

impl Trouble {
    /// The word that files use.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Trouble::NoAnswer => "no_answer",
            Trouble::NoWire(_) => "no_wire",
            Trouble::ShimTooThin { .. } => "shim_too_thin",
            Trouble::Refused(InductorError::NotAboveZero(_)) => "not_above_zero",
            Trouble::Refused(InductorError::TooManyTurns { .. }) => "too_many_turns",
            Trouble::Refused(InductorError::ShimTooWide { .. }) => "shim_too_wide",
            Trouble::Refused(InductorError::ArcVoltageTooHigh { .. }) => "arc_voltage_too_high",
        }
    }
}

/// The choke or ballast of a job; none for another use. The thinnest enamelled copper wire
/// that carries the current is taken, and as few of it in parallel as will do.
#[must_use]
pub fn inductor(file: &JobFile, answer: &Basis) -> Option<Result<InductorAnswer, Trouble>> {
    let rebuild = &answer.problem.rebuild;
    let mains = &rebuild.mains;
    let (load, asked, ballast) = match file.goal {
        job::Goal::Choke {
            inductance_mh,
            dc_current_a,
            ripple_a,
            frequency_hz,
        } => (
            Load {
                direct: Current::from_si(dc_current_a),
                swing: Current::from_si(ripple_a / 2.0),
                frequency: Frequency::from_si(frequency_hz),
            },
            Inductance::from_millihenries(inductance_mh),
            None,
        ),
        job::Goal::Ballast { arc_volts, current_a } => {
            let current = Current::from_si(current_a);
            let ballast = Ballast {
                mains: mains.voltage.value,
                frequency: mains.frequency,
                arc: Voltage::from_si(arc_volts),
                current,
            };
            (
                Load::alternating(current, mains.frequency),
                Inductance::ZERO,
                Some(ballast),
            )
        }
        _ => return None,
    };
    let rms = load.rms().si();
    let mut wires: Vec<&wire::Conductor> = answer
        .catalogue
        .conductors()
        .iter()
        .filter(|c| c.family == Family::Enamelled && c.metal == wire::Metal::Copper)
        .collect();
    wires.sort_by(|a, b| a.area.si().total_cmp(&b.area.si()));
    let mut trouble = None;
    let papers = papers(&file.conditions);
    for parallel in 1..=MOST_PARALLEL {
        let count = f64::from(parallel);
        let carries = |c: &&&wire::Conductor| rms / (c.area * count).mm2() <= DENSITY_A_PER_MM2;
        let Some(conductor) = wires.iter().find(carries) else {
            continue;
        };
        let Envelope::Round { outer } = conductor.envelope else {
            continue;
        };
        let wish = InductorWish {
            core: rebuild.core,
            steel: steel(&file.conditions),
            gaps: gaps(&file.core),
            conductor: Conductor {
                metal: conductor.metal,
                section: conductor.area * count,
                insulated_diameter: outer * count.sqrt(),
            },
            usable: Ratio::from_si(USABLE),
            inductance: asked,
            load,
            limit: LIMIT,
            temperature: Measured::new(Temperature::from_si(80.0), Temperature::from_si(30.0), Origin::Typical),
        };
        match ballast.map_or_else(|| wish.design(), |ballast| ballast.design(&wish)) {
            Ok(built) => match whole_sheets(&built, wish.turns_that_fit(), &papers, ballast.is_some()) {
                Ok((built, stack)) => {
                    let found = told(file, answer, &built, stack, (conductor, outer, parallel));
                    return Some(found.ok_or(Trouble::NoAnswer));
                }
                Err(error) => trouble = Some(error),
            },
            Err(error) => trouble = Some(Trouble::Refused(error)),
        }
    }
    Some(Err(trouble.unwrap_or(Trouble::NoWire(load.rms()))))
}

/// The most inductance in millihenries, to two digits, that a choke of this core can be made with at the
/// current asked for, where the one asked for cannot; `None` for another use and where there is none.
#[must_use]
pub fn nearest_choke(file: &JobFile, answer: &Basis) -> Option<f64> {
    let (job::Goal::Choke { .. }, Some(Err(trouble))) = (file.goal, inductor(file, answer)) else {
        return None;
    };
    let most = match trouble {
        Trouble::Refused(InductorError::TooManyTurns { most, .. }) | Trouble::ShimTooThin { most, .. } => most,
        Trouble::Refused(InductorError::ShimTooWide { nearest, .. }) => nearest,
        _ => return None,
    };
    let mut henries = most.millihenries();
    // Whole sheets take a little of what the core would give.
    for _ in 0..12 {
        let step = 10.0_f64.powf(henries.log10().floor() - 1.0);
        let tried = (henries / step + 1e-9).floor() * step;
        let mut file = file.clone();
        if let job::Goal::Choke { inductance_mh, .. } = &mut file.goal {
            *inductance_mh = tried;
        }
        if matches!(inductor(&file, answer), Some(Ok(_))) {
            return Some(tried);
        }
        henries *= 0.9;
    }
    None
}

/// The same inductor with a shim of whole sheets: the stack next above the shim designed,
/// and as many turns as bring the inductance back, at most `fit`. A ballast takes
/// the count whose inductance is nearest, since its current follows it both ways; a choke the
/// fewest that give no less.
fn whole_sheets(
    designed: &Inductor,
    fit: f64,
    papers: &[Measured<Length>],
    nearest: bool,
) -> Result<(Inductor, ShimStack), Trouble> {
    let asked = designed.inductance_at(designed.load);
    let needed = designed.gaps.shim.value;
    let stack = ShimStack::at_least(needed, papers);
    let with = |turns: f64| Inductor {
        gaps: designed.gaps.with_shim(stack.thickness()),
        turns: Measured::exact(Turns::from_si(turns), Origin::Chosen),
        ..*designed
    };
    let inductance = |turns: f64| {
        let built = with(turns);
        built.inductance_at(built.load)
    };
    let mut turns = designed.turns.value.si();
    while inductance(turns) < asked {
        turns += 1.0;
        if turns > fit {
            let most = inductance(fit.max(1.0));
            let sheet = stack.thickness().value;
            return Err(Trouble::ShimTooThin { needed, sheet, most });
        }
    }
    let off = |turns: f64| (inductance(turns) - asked).abs();
    if nearest && turns > 1.0 && off(turns - 1.0) < off(turns) && with(turns - 1.0).turns_at(LIMIT).si() >= turns - 1.0
    {
        turns -= 1.0;
    }
    let built = with(turns);
    Ok((built, stack))
}

/// An inductor with its copper at its working temperature, and how warm it gets.
struct Warmed {
    built: Inductor,
    numbers: Vec<Number>,
    warm: Warm,
    rise: Option<Estimate<TemperatureRise>>,
}

/// What its warmth follows from.
pub(super) fn heat_of(file: &JobFile, built: &Inductor) -> Option<InductorHeat> {
    let (work, _) = built.work_with_uncertainty()?;
    let conditions = &file.conditions;
    Some(InductorHeat::of(
        built,
        work.window_share.value,
        Measured::new(work.core_loss.value, work.core_loss.plus_minus, Origin::Computed),
        conditions
            .ambient_c
            .map(|ambient| ambient.measured(Temperature::from_si)),
        conditions.fan_m_per_s.map(|fan| fan.measured(Velocity::from_si)),
    ))
}

/// How warm it gets, and its copper at that temperature in place of the usual one.
fn warmed(file: &JobFile, built: &Inductor) -> Option<Warmed> {
    let conditions = &file.conditions;
    let heat = heat_of(file, built)?;
    let Some((warmth, spread)) = heat.warmth_with_uncertainty() else {
        return Some(Warmed {
            built: *built,
            numbers: Vec::new(),
            warm: Warm::BurnsOut,
            rise: None,
        });
    };
    let limit = class_of(conditions.insulation).limit();
    let warm = if warmth.hottest.value > limit {
        Warm::TooHot
    } else if warmth.hottest.high() > limit {
        Warm::Doubtful
    } else {
        Warm::Fine
    };
    let built = Inductor {
        temperature: Measured::new(warmth.coil.value, warmth.coil.plus_minus, Origin::Computed),
        ..*built
    };
    Some(Warmed {
        built,
        numbers: WARM_ROWS.map(|number| number.of(&spread)).to_vec(),
        warm,
        rise: Some(warmth.coil_rise),
    })
}

fn told(
    file: &JobFile,
    answer: &Basis,
    built: &Inductor,
    stack: ShimStack,
    (conductor, outer, parallel): (&wire::Conductor, Length, u32),
) -> Option<InductorAnswer> {
    let warmed = warmed(file, built)?;
    let built = warmed.built;
    let (_, propagated) = built.work_with_uncertainty()?;
    let shim = built.gaps.shim.value;
    let turns = built.turns.value.si().round() as u32;
    let crest = built.load.crest();
    let curve = built.inductance_curve(crest * 2.0, 25);
    let mut rows = ROWS.map(|number| number.of(&propagated)).to_vec();
    // What the faces leave open by themselves is open in the shim too: their doubt is the shim's.
    let shim = Estimate {
        value: shim,
        plus_minus: Length::from_si(built.gaps.face.plus_minus.si().hypot(built.gaps.shim.plus_minus.si())),
    };
    rows.insert(0, CoilNumber::shim(shim));
    rows.extend(warmed.numbers);
    rows.push(CoilNumber::crest(Estimate::exact(crest)));
    Some(InductorAnswer {
        wire: answer.catalogue.label(conductor),
        conductor: answer.catalogue.name(conductor).to_owned(),
        parallel,
        turns,
        stack,
        shim,
        coil: CoilBuild::of(answer, conductor, outer, parallel, turns),
        built,
        asked: curve
            .iter()
            .min_by(|a, b| (a.0 - crest).si().abs().total_cmp(&(b.0 - crest).si().abs()))
            .map_or(Inductance::ZERO, |point| point.1),
        curve,
        numbers: rows,
        warm: warmed.warm,
        rise: warmed.rise,
        limit: class_of(file.conditions.insulation).limit(),
        crest,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::behaviour::shim_stack::LEAST_GAP;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::Goal;
    use crate::quantity::NumberKind;

    fn found(goal: Goal) -> Result<InductorAnswer, Trouble> {
        let mut file = demo_job();
        file.goal = goal;
        inductor(&file, &basis(&file).unwrap()).unwrap()
    }

    fn of(answer: &InductorAnswer, kind: NumberKind) -> (f64, f64) {
        answer.numbers.iter().find(|n| n.kind == kind).unwrap().si
    }

    /// Ohm's and Joule's laws by hand: copper of 17.24 nΩ·m at 20 °C and 0.00393 per kelvin (IEC
    /// 60028) at the temperature found, I² of 40 A and a ripple of 10 A from trough to crest.
    #[test]
    fn a_chokes_loss_is_that_of_its_warm_copper() {
        let choke = found(goal_of("choke")).unwrap();
        let (resistance, loss) = (
            of(&choke, InductorWorkNumber::Resistance.kind()),
            of(&choke, InductorWorkNumber::CopperLoss.kind()),
        );
        let square = 40.0 * 40.0 + 5.0 * 5.0 / 2.0;
        assert!((loss.0 / (square * resistance.0) - 1.0).abs() < 1e-9);
        let (coil, rise) = (
            of(&choke, InductorWarmthNumber::Coil.kind()),
            of(&choke, InductorWarmthNumber::CoilRise.kind()),
        );
        assert!((coil.0 - rise.0 - 25.0).abs() < 1e-9, "the room's 25 °C");
        assert!(rise.0 > 5.0 && rise.1 > 0.0, "{rise:?}");
        let cold = resistance.0 / (1.0 + 0.00393 * (coil.0 - 20.0));
        assert!(cold > 0.0 && cold < resistance.0);
    }

    /// Whole sheets only, and the inductance stays what was asked: by the sheets' thickness and by
    /// the inductance over the load's swing.
    #[test]
    fn a_shim_is_made_of_whole_sheets() {
        for (millihenries, sheet) in [(2.0, 0.1), (5.0, 0.1), (5.0, 0.25), (1.0, 0.05)] {
            let mut file = demo_job();
            file.goal = Goal::Choke {
                inductance_mh: millihenries,
                dc_current_a: 15.0,
                ripple_a: 2.0,
                frequency_hz: 120.0,
            };
            file.conditions.sheet_mm = Some(job::Reading::new(sheet, 0.0, Origin::Calipers));
            let choke = match inductor(&file, &basis(&file).unwrap()).unwrap() {
                Ok(choke) => choke,
                Err(Trouble::ShimTooThin { needed, .. }) => {
                    assert!(needed.mm() < sheet.max(LEAST_GAP.mm()), "{millihenries} mH: {needed:?}");
                    continue;
                }
                Err(other) => panic!("{millihenries} mH, {sheet} mm: {other:?}"),
            };
            assert!(choke.stack.sheets() >= 1);
            assert!((choke.shim.value.mm() - f64::from(choke.stack.sheets()) * sheet).abs() < 1e-9);
            let got = of(&choke, InductorWorkNumber::Inductance.kind()).0;
            let asked = millihenries * 1e-3;
            assert!(got >= asked * 0.999 && got < asked * 1.25, "{got} for {asked}");
            assert!(of(&choke, InductorWorkNumber::PeakDensity.kind()).0 <= LIMIT.si() * 1.001);
        }
    }

    /// A choke beyond the core is answered by the nearest that can be made, and that one can be made. No gap
    /// is below a tenth of a millimetre, however thin the sheets (common practice, no source).
    #[test]
    fn the_nearest_choke_can_be_made() {
        let mut file = demo_job();
        file.goal = Goal::Choke {
            inductance_mh: 500.0,
            dc_current_a: 20.0,
            ripple_a: 1.0,
            frequency_hz: 120.0,
        };
        let nearest = nearest_choke(&file, &basis(&file).unwrap()).unwrap();
        assert!(nearest > 0.1 && nearest < 500.0, "{nearest}");
        if let Goal::Choke { inductance_mh, .. } = &mut file.goal {
            *inductance_mh = nearest;
        }
        file.conditions.sheet_mm = Some(job::Reading::new(0.03, 0.003, Origin::Calipers));
        if let Some(Ok(choke)) = inductor(&file, &basis(&file).unwrap()) {
            assert!(choke.shim.value >= LEAST_GAP * 0.99, "{:?}", choke.shim);
            let sheets = f64::from(choke.stack.sheets()) * 0.003;
            assert!(choke.shim.plus_minus.mm() >= sheets, "the sheets' tolerance is in it");
        }
        file.conditions.sheet_mm = None;
        let made = inductor(&file, &basis(&file).unwrap()).unwrap().unwrap();
        assert!(made.shim.value >= LEAST_GAP * 0.999);
        assert!(nearest_choke(&file, &basis(&file).unwrap()).is_none());
    }

    /// The tolerance of the sheets is in the inductance's ±: about L/gap times the gap's (a gapped core's
    /// inductance goes as one over its gap, any textbook), and it widens with it.
    #[test]
    fn sheets_of_doubtful_thickness_widen_the_inductance() {
        let with = |half: f64| {
            let mut file = demo_job();
            file.goal = goal_of("choke");
            file.core.seam_gap_mm = Some(job::Reading::new(0.01, 0.0, Origin::Calipers));
            file.conditions.sheet_mm = Some(job::Reading::new(0.25, half, Origin::Calipers));
            file.conditions.second_sheet_mm = Some(job::Reading::new(0.1, half, Origin::Calipers));
            let choke = inductor(&file, &basis(&file).unwrap()).unwrap().unwrap();
            let (value, spread) = of(&choke, InductorWorkNumber::Inductance.kind());
            (value, spread, choke.shim, choke.stack)
        };
        let (value, exact, shim, stack) = with(0.0);
        let (_, wide, wider_shim, _) = with(0.03);
        let own = (wide * wide - exact * exact).sqrt();
        let of_gap = (wider_shim.plus_minus.si().powi(2) - shim.plus_minus.si().powi(2)).sqrt() / shim.value.si();
        assert!(wide > exact * 1.05, "{exact} {wide} {stack:?}");
        assert!(
            (0.3..1.1).contains(&(own / value / of_gap)),
            "{own} of {value}: {of_gap}"
        );
    }

    /// The turns in the layers are the coil's, and the wire is as long as they are.
    #[test]
    fn the_layers_hold_every_turn() {
        let choke = found(goal_of("choke")).unwrap();
        let coil = choke.coil;
        assert_eq!((coil.layers - 1) * coil.per_layer + coil.last_layer, choke.turns);
        assert!(coil.last_layer >= 1 && coil.last_layer <= coil.per_layer);
        let wound = coil.mean_turn.si() * f64::from(choke.turns);
        assert!(coil.wire_length.si() > wound && coil.wire_length.si() < wound + 2.0);
    }

    #[test]
    fn refusals_name_their_reason() {
        let ask = |dc_current_a: f64, inductance_mh: f64| {
            found(Goal::Choke {
                inductance_mh,
                dc_current_a,
                ripple_a: 1.0,
                frequency_hz: 120.0,
            })
        };
        assert!(matches!(ask(5000.0, 1.0), Err(Trouble::NoWire(_))));
        assert!(matches!(
            ask(40.0, 500.0),
            Err(Trouble::Refused(
                InductorError::TooManyTurns { .. } | InductorError::ShimTooWide { .. }
            ))
        ));
        let arc = found(Goal::Ballast {
            arc_volts: 118.0,
            current_a: 5.0,
        });
        assert!(matches!(
            arc,
            Err(Trouble::Refused(InductorError::ArcVoltageTooHigh { .. }))
        ));
    }
}
