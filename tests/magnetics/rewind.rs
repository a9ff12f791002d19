//! The search for a winding, end to end in the core: uncertainty, properties, ranking.

use curbcore::app::translate::{charging_side, transformer_goal};
use curbcore::job::{Conditions, Goal as Recorded, Reading, RectifierKind, User as RecordedUser};
use curbcore::magnetics::circuit::leakage::typical_leakage_factor;
use curbcore::magnetics::circuit::mains::{Mains, MainsRating, typical_supply_resistance};
use curbcore::magnetics::circuit::performance::*;
use curbcore::magnetics::circuit::protection::{DeviceKind, Protection};
use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::heat::thermal_class::ThermalClass;
use curbcore::magnetics::pairs::Joined;
use curbcore::magnetics::winding::primary::Primary;
use curbcore::magnetics::winding::{Insulation, Layers, Placement, Winding};
use curbcore::quantity::*;
use curbcore::rewind::goal::{Goal, Target, User};
use curbcore::rewind::handwork::Group;
use curbcore::rewind::heat::HeatConditions;
use curbcore::rewind::limits::Limit;
use curbcore::rewind::search::{OwnWire, SearchSpace, judge, search};
use curbcore::wire::{Catalogue, Family, Metal};
use proptest::prelude::*;

fn mm(v: f64, pm: f64) -> Measured<Length> {
    Measured::new(Length::from_mm(v), Length::from_mm(pm), Origin::Calipers)
}

/// An invented donor: 120 V, 60 Hz, about a kilowatt.
fn rebuild() -> Rebuild {
    let mut core = EiCore::new(mm(35.0, 0.2), mm(62.0, 0.5), mm(18.5, 0.2), mm(57.0, 0.3));
    core.outer_limb = mm(17.5, 0.2);
    core.yoke = mm(17.5, 0.2);
    Rebuild {
        core,
        primary: Primary {
            metal: Metal::Copper,
            turns: Measured::new(Turns::from_si(118.0), Turns::from_si(2.0), Origin::Counted),
            wire_diameter: mm(1.45, 0.03),
            height: mm(22.0, 0.5),
            build: mm(17.0, 0.5),
            resistance: None,
            idle_current: None,
            rated: MainsRating {
                voltage: Voltage::from_si(120.0),
                frequency: Frequency::from_si(60.0),
            },
        },
        mains: Mains {
            voltage: Measured::new(Voltage::from_si(120.0), Voltage::from_si(3.0), Origin::Meter),
            frequency: Frequency::from_si(60.0),
            protection: Protection {
                kind: DeviceKind::UlBreaker,
                rating: Current::from_si(20.0),
            },
        },
        supply_resistance: typical_supply_resistance(),
        idle_current: Measured::new(Current::from_si(2.0), Current::from_si(0.5), Origin::Meter),
        shunts_height: Length::ZERO,
        shunts: None,
        insulation: Insulation::default(),
        placement: Placement::BesidePrimary,
        temperature: Measured::new(Temperature::from_si(80.0), TemperatureSpread::K30, Origin::Typical),
        leads: Measured::new(Length::from_mm(600.0), Length::from_mm(100.0), Origin::Chosen),
        leakage_factor: typical_leakage_factor(),
        wire_factor: typical_wire_factor(),
        together: None,
        other: None,
    }
}

/// Half-widths of temperatures are temperatures too.
struct TemperatureSpread;
impl TemperatureSpread {
    const K30: Temperature = Temperature::from_si(30.0);
}

fn spot(amps: f64) -> Goal {
    Goal::SpotWelder {
        current: Current::from_si(amps),
        load: Resistance::from_milliohms(1.5),
        pulse: Time::from_si(0.5),
        per_minute: 6.0,
    }
}

/// Everything in copper, cooled by a fan and insulated for 180 °C.
fn cooled(catalogue: &Catalogue) -> SearchSpace<'_> {
    SearchSpace {
        heat: HeatConditions {
            air_speed: Some(Measured::new(
                Velocity::from_si(3.0),
                Velocity::from_si(1.0),
                Origin::Typical,
            )),
            class: ThermalClass::H,
            ..HeatConditions::default()
        },
        ..SearchSpace::all(catalogue.conductors())
    }
}

fn as_much(catalogue: &Catalogue) -> SearchSpace<'_> {
    SearchSpace {
        target: Target::AsMuch,
        ..SearchSpace::all(catalogue.conductors())
    }
}

/// A spot welder of one core of a 1 kW oven, as builders make it (common practice, no source): one to
/// three turns of 35 mm² cable or more, 600 to 1500 A or hardly more. Into less than half a milliohm one
/// turn gives more.
#[test]
fn a_spot_welder_is_a_few_turns_of_thick_cable() {
    let catalogue = Catalogue::standard();
    for milliohms in [0.5, 0.65, 0.8] {
        let goal = Goal::SpotWelder {
            current: Current::from_si(400.0),
            load: Resistance::from_milliohms(milliohms),
            pulse: Time::from_si(0.3),
            per_minute: 4.0,
        };
        let found = search(&rebuild(), &goal, &as_much(&catalogue));
        let best = found.ranked.first().expect("a winding fits");
        let label = catalogue.name(&best.winding.conductor);
        let amps = best.performance.working_current.si();
        println!(
            "{milliohms} mΩ: {} x {label} x {}, {amps:.0} A",
            best.winding.turns, best.winding.parallel
        );
        assert!((1..=3).contains(&best.winding.turns), "{milliohms}: {label}");
        let cable = matches!(best.winding.conductor.family, Family::WeldingCable | Family::Stranded);
        let section = best.winding.section(Length::ZERO);
        assert!(cable && section >= Area::from_mm2(35.0), "{milliohms}: {label}");
        assert!((600.0..=1600.0).contains(&amps), "{milliohms}: {amps} A");
        assert!(best.broken.is_empty() && best.heat_margin >= Some(TemperatureRise::ZERO));
    }
}

fn spot_welder_of_400_amps() -> Goal {
    Goal::SpotWelder {
        current: Current::from_si(400.0),
        load: Resistance::from_milliohms(1.4),
        pulse: Time::from_si(0.3),
        per_minute: 4.0,
    }
}

/// Own wire within 5 % of the best is recommended, and named as such; a coil too short of it is not.
#[test]
fn own_wire_is_taken_where_it_is_nearly_as_good() {
    let catalogue = Catalogue::standard();
    let goal = spot_welder_of_400_amps();
    let bought = search(&rebuild(), &goal, &as_much(&catalogue));
    let strongest = bought.ranked[0].performance.working_current;
    let mut near = 0;
    for candidate in bought.ranked.iter().filter(|c| c.group == Group::Common) {
        let needed = candidate.performance.wire_length * f64::from(candidate.winding.parallel);
        let with = |length: Length| {
            let own = [OwnWire {
                index: candidate.winding.conductor.index,
                length,
            }];
            let space = SearchSpace {
                own: &own,
                ..as_much(&catalogue)
            };
            let found = search(&rebuild(), &goal, &space);
            found.ranked[0]
        };
        let label = catalogue.name(&candidate.winding.conductor);
        let within = candidate.performance.working_current >= strongest * 0.95;
        near += u32::from(within);
        assert_eq!(with(needed * 3.0).group == Group::Own, within, "{label}");
        assert_ne!(with(needed * 0.2).group, Group::Own, "{label}: too short");
    }
    assert!(near > 1, "a test of more than the best one");
}

/// A cable of one's own that no shop has is recommended for no coil that it is too short for.
#[test]
fn own_cable_too_short_for_a_coil_changes_nothing() {
    let mut catalogue = Catalogue::standard();
    let goal = spot_welder_of_400_amps();
    let bought = search(&rebuild(), &goal, &as_much(&catalogue));
    let index = catalogue.find("own-80mm2-13.0", Metal::Copper).unwrap().index;
    let found = |length: Length| {
        let own = [OwnWire { index, length }];
        let space = SearchSpace {
            own: &own,
            sold: catalogue.sold(),
            ..as_much(&catalogue)
        };
        search(&rebuild(), &goal, &space)
    };
    assert_eq!(found(Length::from_mm(100.0)).ranked, bought.ranked);
    let long = found(Length::from_mm(1e5)).ranked[0];
    assert_eq!((long.group, long.winding.conductor.index), (Group::Own, index));
}

fn winding(name: &str, turns: u32, parallel: u32) -> Winding {
    Winding {
        conductor: Catalogue::standard().find(name, Metal::Copper).unwrap(),
        turns,
        parallel,
    }
}

/// The standard deviation of every answer about `best` over draws of the inputs; `draw` takes a value and its
/// sigma.
fn drawn_sigma(
    part: &UnderLoad,
    best: &[f64; Performance::COUNT],
    draws: u32,
    mut draw: impl FnMut(f64, f64) -> f64,
) -> [f64; Performance::COUNT] {
    let mut sum = [0.0; Performance::COUNT];
    let mut squares = [0.0; Performance::COUNT];
    for _ in 0..draws {
        let mut moved = *part;
        moved.visit(&mut |visited| *visited.si = draw(*visited.si, visited.sigma));
        let got = moved.perform().to_si();
        for k in 0..Performance::COUNT {
            let off = got[k] - best[k];
            sum[k] += off;
            squares[k] += off * off;
        }
    }
    let n = f64::from(draws);
    std::array::from_fn(|k| (squares[k] / n - (sum[k] / n).powi(2)).max(0.0).sqrt())
}

/// Propagation against 40,000 draws from normal distributions (JCGM 101:2008): the
/// half-width of every answer agrees to 10 %.
#[test]
fn uncertainty_agrees_with_monte_carlo() {
    let base = rebuild();
    let wound = winding("mm2-16-flexible", 3, 1);
    let demand = spot(500.0).requirements().demand;
    let (_, told) = answer(&base, &wound, &demand).unwrap();
    let part = UnderLoad::of(&base, &wound, &demand).unwrap();
    let mut random = SplitMix(7);
    let drawn = drawn_sigma(&part, &told.value, 40_000, |value, sigma| {
        value + sigma * random.normal()
    });
    for (k, sigma) in drawn.into_iter().enumerate() {
        let name = Performance::FIELDS[k];
        println!("{name}: propagated {:.6}, Monte Carlo {sigma:.6}", told.sigma[k]);
        let scale = told.value[k].abs().max(1e-9);
        assert!(
            (sigma - told.sigma[k]).abs() <= 0.1 * sigma + 1e-6 * scale,
            "{name}: propagated {}, Monte Carlo {sigma}",
            told.sigma[k]
        );
    }
}

/// Every use, on one core and on two joined in series and in parallel, on alternating current and behind
/// diodes with and without choke and reservoir: the ± of every number of its report is that of drawn inputs,
/// within 10 %.
#[test]
fn each_use_agrees_with_monte_carlo() {
    let catalogue = Catalogue::standard();
    let behind = |choke_mh: Option<f64>, capacitor_uf: Option<f64>| Conditions {
        rectifier: Some(RectifierKind::Bridge),
        choke_mh: choke_mh.map(|mh| Reading::new(mh, mh * 0.2, Origin::Computed)),
        capacitor_uf: capacitor_uf.map(|uf| Reading::new(uf, uf * 0.2, Origin::Label)),
        ..Conditions::default()
    };
    let plain = Conditions::default();
    let of = |goal: Recorded, conditions: &Conditions| transformer_goal(&goal, conditions).unwrap();
    let stick = Recorded::StickWelder {
        arc_current_a: 20.0,
        duty: 0.1,
        user: RecordedUser::Layman,
        wet_or_cramped: false,
    };
    let furnace = Recorded::ArcFurnace {
        current_a: 20.0,
        arc_volts: 25.0,
        minutes_on: 2.0,
        duty: 0.1,
    };
    let plasma = Recorded::PlasmaCutter {
        cut_current_a: 10.0,
        arc_volts: 100.0,
        open_circuit_volts: 250.0,
        duty: 0.2,
        confirmed: true,
    };
    let supply = Recorded::PlainSupply {
        volts: 24.0,
        amps: 15.0,
        duty: 0.3,
    };
    let cases = [
        ("spot welder", None, spot(400.0)),
        ("charger", None, charger(15.0)),
        ("stick", None, of(stick, &plain)),
        ("stick behind diodes", None, of(stick, &behind(None, None))),
        ("stick behind a choke", None, of(stick, &behind(Some(20.0), None))),
        ("furnace", None, of(furnace, &plain)),
        ("furnace behind diodes", None, of(furnace, &behind(None, None))),
        ("plasma", None, of(plasma, &plain)),
        ("plasma behind a choke", None, of(plasma, &behind(Some(40.0), None))),
        ("supply", None, of(supply, &plain)),
        ("supply, reservoir", None, of(supply, &behind(None, Some(30_000.0)))),
        ("supply, choke", None, of(supply, &behind(Some(20.0), None))),
        ("stick pair in series", Some(Joined::Series), of(stick, &plain)),
        ("furnace pair in parallel", Some(Joined::Parallel), of(furnace, &plain)),
        ("plasma pair in series", Some(Joined::Series), of(plasma, &plain)),
    ];
    let mut failed = String::new();
    for (name, together, goal) in cases {
        let mut base = rebuild();
        base.together = together;
        let demand = goal.requirements().demand;
        let found = search(&base, &goal, &cooled(&catalogue));
        let wound = found
            .ranked
            .first()
            .map_or_else(|| found.nearest.as_ref().unwrap().1.winding, |best| best.winding);
        let part = UnderLoad::of(&base, &wound, &demand).unwrap();
        let (_, told) = answer(&base, &wound, &demand).unwrap();
        let mut random = SplitMix(11);
        // A resistance that is above zero stays so: one draw in some thousands of a diode's would not.
        let drawn = drawn_sigma(&part, &told.value, 3_000, |value, sigma| {
            let drawn = value + sigma * random.normal();
            if drawn * value > 0.0 { drawn } else { value }
        });
        for (k, sigma) in drawn.into_iter().enumerate() {
            let scale = told.value[k].abs().max(1e-9);
            if (sigma - told.sigma[k]).abs() > 0.1 * sigma + 1e-5 * scale {
                failed += &format!(
                    "{name}: {}: propagated {}, Monte Carlo {sigma}, of {}\n",
                    Performance::FIELDS[k],
                    told.sigma[k],
                    told.value[k]
                );
            }
        }
    }
    assert!(failed.is_empty(), "{failed}");
}

/// A small generator of our own, so that the draws are the same on every machine
/// (`SplitMix64`, S. Vigna; normal deviates by Box and Muller).
struct SplitMix(u64);
impl SplitMix {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
    fn normal(&mut self) -> f64 {
        let u = self.uniform().max(1e-300);
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

#[test]
fn a_spot_welder_is_found() {
    let catalogue = Catalogue::standard();
    let found = search(&rebuild(), &spot(400.0), &SearchSpace::all(catalogue.conductors()));
    let best = found.ranked.first().expect("a winding fits");
    for c in found.ranked.iter().take(8) {
        let p = &c.performance;
        println!(
            "{} × {} ×{}: {:.2} V, {:.0} A, spare {:.1} mm, mains {:.1} A, score {:.3}",
            c.winding.turns,
            catalogue.name(&c.winding.conductor),
            c.winding.parallel,
            p.open_circuit.si(),
            p.working_current.si(),
            p.spare.mm(),
            p.mains_current.si(),
            c.score.total()
        );
    }
    assert!(best.broken.is_empty());
    // More than asked is no fault, less is.
    assert!(best.performance.working_current.si() > 0.95 * 400.0);
    assert_eq!(best.group, Group::Common);
    assert!(best.performance.spare.si() >= 0.0);
    println!("tried {}, dropped {:?}", found.tried, found.dropped);
}

fn charger(amps: f64) -> Goal {
    let (battery_volts, current) = (Voltage::from_si(12.0), Current::from_si(amps));
    Goal::BatteryCharger {
        battery_volts,
        current,
        side: charging_side(&Conditions::default(), battery_volts, current),
    }
}

/// A 12 V 15 A charger is a dozen and some turns at about a volt a turn, of wire that shops sell, and needs
/// no reactor. The crest of its open voltage lies above a battery at the end of its charge (14.4 V) and two
/// diodes, and its r.m.s. value below what would boil it. Common practice, no source; the exact current is
/// held to an integration in time in the topic's own test.
#[test]
fn a_charger_needs_no_reactor_where_turns_alone_do_it() {
    let catalogue = Catalogue::standard();
    let base = rebuild();
    let found = search(&base, &charger(15.0), &SearchSpace::all(catalogue.conductors()));
    let best = found.ranked.first().expect("a winding fits");
    let p = &best.performance;
    println!(
        "{} × {}: {:.2} V, {:.1} A mean, {:.1} A r.m.s.",
        best.winding.turns,
        catalogue.name(&best.winding.conductor),
        p.open_circuit.si(),
        p.working_current.si(),
        p.winding_current.si()
    );
    assert_eq!(best.group, Group::Common);
    assert_eq!(p.series_reactance, Resistance::ZERO, "{best:?}");
    assert!((13.5..17.3).contains(&p.working_current.si()), "{best:?}");
    let crest = p.open_circuit.si() * std::f64::consts::SQRT_2;
    assert!(crest > 14.4 + 1.6 && p.open_circuit.si() < 18.0, "{best:?}");
    // The pulses into a battery heat more than their mean: at least by the form factor of a full sine.
    assert!(p.winding_current / p.working_current > 1.11, "{best:?}");
    for candidate in &found.ranked {
        let amps = candidate.performance.working_current.si();
        assert!(
            candidate.broken.is_empty() && (13.5..=17.25).contains(&amps),
            "{candidate:?}"
        );
    }
}

#[test]
fn too_much_says_why_and_the_nearest() {
    let catalogue = Catalogue::standard();
    let found = search(&rebuild(), &spot(9000.0), &SearchSpace::all(catalogue.conductors()));
    assert!(found.ranked.is_empty());
    assert!(!found.dropped.is_empty());
    let (part, nearest) = found.nearest.expect("something smaller can be had");
    println!(
        "nearest: {part} of it, {:.0} A; most dropped by {:?}",
        nearest.performance.working_current.si(),
        found.dropped[0]
    );
    assert!(part < 1.0 && nearest.broken.is_empty());
}

#[test]
fn other_mains_that_saturate_are_refused() {
    let mut moved = rebuild();
    moved.mains.voltage.value = Voltage::from_si(230.0);
    moved.mains.frequency = Frequency::from_si(50.0);
    let catalogue = Catalogue::standard();
    let found = search(&moved, &spot(400.0), &SearchSpace::all(catalogue.conductors()));
    assert!(found.ranked.is_empty() && found.nearest.is_none());
    assert!(
        found
            .dropped
            .iter()
            .any(|(limit, count)| *limit == Limit::Saturation && *count == found.tried)
    );
}

#[test]
fn the_stricter_open_circuit_limit_holds_for_laymen() {
    let catalogue = Catalogue::standard();
    let goal = |user, hazard| Goal::StickWelder {
        current: Current::from_si(30.0),
        duty: Ratio::from_percent(10.0),
        user,
        hazard,
        side: None,
    };
    let highest = |user, hazard| {
        let found = search(&rebuild(), &goal(user, hazard), &cooled(&catalogue));
        assert!(!found.ranked.is_empty(), "{user:?} {hazard}: {:?}", found.dropped);
        found
            .ranked
            .iter()
            .map(|c| c.performance.open_circuit.si())
            .fold(0.0, f64::max)
    };
    assert!(highest(User::Layman, false) <= 48.0);
    assert!(highest(User::Trained, true) <= 48.0);
    assert!(highest(User::Trained, false) <= 80.0 && highest(User::Trained, false) > 48.0);
}

#[test]
fn a_pinned_winding_is_judged_even_where_it_breaks_limits() {
    let judged = judge(
        &rebuild(),
        &spot(400.0),
        &SearchSpace::all(&[]),
        winding("mm2-16-flexible", 40, 1),
    )
    .unwrap();
    assert!(judged.broken.has(Limit::WindowFit) && judged.broken.has(Limit::OpenCircuitTooHigh));
}

proptest! {
    /// What the search drops before it asks for the exact state of a rectifier flows in no such state.
    #[test]
    fn the_closed_form_behind_diodes_is_never_below_the_exact_state(turns in 8u32..40, wire in any::<prop::sample::Index>(), amps in 2.0f64..60.0) {
        let base = rebuild();
        let prepared = Prepared::new(&base);
        let demand = Demand { ballasted: false, ..charger(amps).requirements().demand };
        let conductor = *wire.get(Catalogue::standard().conductors());
        let winding = Winding { conductor, turns, parallel: 1 };
        let Some(layers) = Layers::of(&winding, &prepared.space) else { return Ok(()) };
        let circuit = prepared.circuit(&winding, &layers);
        let exact = prepared.at_work(&circuit, &winding, &demand);
        let screened = prepared.screened(&circuit, &winding, &demand);
        prop_assert!(screened.working_current >= exact.working_current * (1.0 - 1e-6), "{exact:?} {screened:?}");
    }

    /// More turns, more volts: open circuit, strictly.
    #[test]
    fn voltage_is_monotone_in_turns(turns in 1u32..300) {
        let base = rebuild();
        let prepared = Prepared::new(&base);
        prop_assert!(prepared.open_circuit(turns + 1) > prepared.open_circuit(turns));
    }

    /// Longer leads, more loss at the same current.
    #[test]
    fn loss_is_monotone_in_length(extra_mm in 1.0f64..5000.0) {
        let base = rebuild();
        let mut longer = base;
        longer.leads.value += Length::from_mm(extra_mm);
        let wound = winding("mm2-16-flexible", 3, 1);
        let demand = Demand { ballasted: true, current: Current::from_si(50.0), ..spot(50.0).requirements().demand };
        let loss = |r: &Rebuild| answer(r, &wound, &demand).unwrap().0.winding_loss.value;
        prop_assert!(loss(&longer) > loss(&base));
    }

    /// A stronger core never recommends less: with a thicker primary, a wider window or a larger breaker
    /// all there is only grows, within the 5 % that the easier winding may cost. At a pace
    /// at which heat decides nothing: a load that nothing holds down draws, and heats, more on such a core.
    #[test]
    fn a_stronger_core_never_recommends_less(
        thicker in 1.0f64..1.3, wider in 1.0f64..1.3, breaker in 1.0f64..2.0, milliohms in 0.3f64..2.0,
    ) {
        let catalogue = Catalogue::standard();
        let goal = Goal::SpotWelder {
            current: Current::from_si(400.0),
            load: Resistance::from_milliohms(milliohms),
            pulse: Time::from_si(0.3),
            per_minute: 0.2,
        };
        let weak = rebuild();
        let mut strong = weak;
        strong.primary.wire_diameter.value = weak.primary.wire_diameter.value * thicker;
        strong.core.window_width.value = weak.core.window_width.value * wider;
        strong.mains.protection.rating = weak.mains.protection.rating * breaker;
        let amps = |core: &Rebuild| search(core, &goal, &as_much(&catalogue)).ranked[0].performance.working_current;
        prop_assert!(amps(&strong) >= amps(&weak) * 0.95);
    }

    /// A longer duty never takes a thinner conductor.
    #[test]
    fn a_longer_duty_never_takes_a_thinner_conductor(duty in 0.05f64..0.5, longer in 1.2f64..2.0, amps in 8.0f64..20.0) {
        let catalogue = Catalogue::standard();
        let section = |duty: f64| {
            let goal = Goal::PlainSupply {
                volts: Voltage::from_si(24.0),
                current: Current::from_si(amps),
                duty: Ratio::from_si(duty),
                side: None,
            };
            let found = search(&rebuild(), &goal, &cooled(&catalogue));
            found.ranked.first().map(|best| best.winding.section(Length::ZERO))
        };
        if let (Some(short), Some(long)) = (section(duty), section((duty * longer).min(1.0))) {
            prop_assert!(long >= short * 0.999, "{short:?} {long:?}");
        }
    }

    /// What is offered passes the full heat model, and the counts add up.
    #[test]
    fn what_is_offered_was_judged(amps in 20.0f64..900.0, milliohms in 0.3f64..3.0, per_minute in 1.0f64..30.0) {
        let catalogue = Catalogue::standard();
        let goal = Goal::SpotWelder {
            current: Current::from_si(amps),
            load: Resistance::from_milliohms(milliohms),
            pulse: Time::from_si(0.3),
            per_minute,
        };
        let found = search(&rebuild(), &goal, &SearchSpace::all(catalogue.conductors()));
        for c in &found.ranked {
            prop_assert!(c.heat_margin >= Some(TemperatureRise::ZERO) && c.broken.is_empty());
            prop_assert!(c.performance.working_current.si() >= 0.95 * amps);
        }
        let dropped: u64 = found.dropped.iter().map(|(_, count)| count).sum();
        prop_assert_eq!(found.within_limits() + dropped, found.tried);
        prop_assert!(found.within_limits() >= found.ranked.len() as u64);
    }

    /// The order in which conductors are offered does not change the ranking.
    #[test]
    fn ranking_is_stable_under_reordering(seed in any::<u64>()) {
        let catalogue = Catalogue::standard();
        let mut shuffled = catalogue.conductors().to_vec();
        let mut random = SplitMix(seed);
        for i in (1..shuffled.len()).rev() {
            shuffled.swap(i, (random.uniform() * (i + 1) as f64) as usize);
        }
        let order = |conductors: &[curbcore::wire::Conductor]| {
            let mut space = SearchSpace::all(conductors);
            space.aluminium = true;
            search(&rebuild(), &spot(400.0), &space).ranked.iter().map(|c| c.winding.conductor.index).collect::<Vec<_>>()
        };
        prop_assert_eq!(order(catalogue.conductors()), order(&shuffled));
    }
}
