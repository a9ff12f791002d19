//! Random job files from the whole range of the field table: every use, every choice, missing and
//! extreme values, a ± of nothing and the widest.

use curbcore::job::fields::{self, Field, Shape};
use curbcore::job::{Goal, InsulationClass, JobFile, Joining, LaminationGrade, RectifierKind};
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::quantity::Origin;
use curbcore::wire::Catalogue;
use serde_json::{Map, Value, json};

/// The generator `SplitMix64`: the same seed gives the same job on every machine.
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 to 1.
    pub fn part(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n.max(1) as u64) as usize
    }

    pub fn chance(&mut self, part: f64) -> bool {
        self.part() < part
    }

    pub fn one_of<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }
}

/// How far from the usual the values of one job lie.
#[derive(Clone, Copy)]
struct Style {
    /// The chance that a value lies at an end of its range.
    extreme: f64,
    /// The chance that an optional value is left out.
    left_out: f64,
    /// The chance that a reading's ± is drawn from its whole range, not the usual one.
    wide: f64,
    /// The chance that a value is the demo's, so that the rest meets a sane job.
    sane: f64,
}

/// A job file that the program accepts.
pub fn job(seed: u64) -> JobFile {
    let mut random = Random::new(seed);
    let style = Style {
        extreme: *random.one_of(&[0.0, 0.1, 0.5]),
        left_out: *random.one_of(&[0.1, 0.5, 0.9]),
        wide: *random.one_of(&[0.0, 0.3, 0.8]),
        sane: *random.one_of(&[0.0, 0.5, 0.9]),
    };
    let word = *random.one_of(Goal::USES);
    let demo = serde_json::to_value(curbcore::app::start::demo_job()).unwrap();
    let mut document = json!({ "curbcore_job": 1, "name": format!("Random {seed}"), "goal": { "use": word } });
    words(&mut document, &mut random, style);
    for field in fields::ALL {
        let applies = field.only_for.is_none_or(|of| of == word);
        let parents = field.path.rsplit_once('.').map_or("", |(parents, _)| parents);
        if !applies || parents.ends_with("[]") || !has(&document, parents) {
            continue;
        }
        if !field.required && random.chance(style.left_out) {
            continue;
        }
        let usual = demo.pointer(&format!("/{}", field.path.replace('.', "/")));
        let value = match usual {
            Some(usual) if random.chance(style.sane) => usual.clone(),
            _ => number(field, &mut random, style),
        };
        put(&mut document, field.path, value);
    }
    if let Some(pace) = document.pointer("/goal/pulses_per_minute").and_then(Value::as_f64) {
        let pulse = document["goal"]["pulse_s"].as_f64().unwrap();
        document["goal"]["pulses_per_minute"] = json!(pace.min(60.0 / pulse));
    }
    // The second core of a pair is like the first one, or any other.
    let second = if random.chance(0.5) {
        document["core"].clone()
    } else {
        demo["core"].clone()
    };
    if let Some(pair) = document.pointer_mut("/conditions/pair") {
        pair["core"] = second;
    }
    let text = document.to_string();
    JobFile::parse(&text).unwrap_or_else(|error| panic!("seed {seed}: {error} in {text}"))
}

/// A value of a field, with a ± that the field table accepts.
fn number(field: &Field, random: &mut Random, style: Style) -> Value {
    let (min, max) = (field.min, field.max);
    let value = match field.shape {
        Shape::OneOf(accepted) => *random.one_of(accepted),
        _ if random.chance(style.extreme) => *random.one_of(&[min, max]),
        // As likely small as large, where the range spans decades.
        _ if min > 0.0 && random.chance(0.6) => (min.ln() + random.part() * (max / min).ln()).exp().clamp(min, max),
        _ => min + random.part() * (max - min),
    };
    let value = if field.shape == Shape::Whole {
        value.round()
    } else {
        value
    };
    if field.shape != Shape::Reading {
        return json!(value);
    }
    if !random.chance(style.wide) {
        return json!(value);
    }
    // The field table is the judge: the widest of these that it accepts.
    let within = random.part() * value.abs();
    let wish = *random.one_of(&[max - min, 2.0 * value.abs(), value.abs(), within, 0.0]);
    let mut half = wish;
    while field.check(field.path, value, half).is_err() {
        half *= 0.999;
        if half < 1e-9 {
            half = 0.0;
        }
    }
    json!({ "value": value, "plus_minus": half, "origin": random.one_of(&Origin::ALL).word() })
}

/// What is no number: words, flags, lists, and which parts there are at all.
fn words(document: &mut Value, random: &mut Random, style: Style) {
    let there = |random: &mut Random| !random.chance(style.left_out);
    let mut primary = json!({ "metal": random.one_of(&["copper", "aluminium", "unknown"]) });
    for test in ["test_turn", "old_secondary"] {
        if there(random) {
            primary[test] = json!({});
        }
    }
    document["core"] = json!({ "shunts_kept": random.chance(0.5), "primary": primary });
    let plug = OUTLETS[random.below(OUTLETS.len())].word;
    document["mains"] = json!({ "circuit": { "plug": if random.chance(0.9) { plug } else { "" } } });
    if there(random) {
        document["donor"] = json!({ "name": "Found", "look": {} });
    }
    let goal = document["goal"]["use"].as_str().unwrap().to_owned();
    match goal.as_str() {
        "stick_welder" => {
            document["goal"]["user"] = json!(random.one_of(&["layman", "trained"]));
            document["goal"]["wet_or_cramped"] = json!(random.chance(0.5));
        }
        "plasma_cutter" | "battery_charger" => document["goal"]["confirmed"] = json!(random.chance(0.5)),
        _ => {}
    }
    let mut conditions = json!({ "idle_low": {}, "idle_middle": {}, "idle_full": {} });
    for test in ["idle_low", "idle_middle", "idle_full"] {
        if !there(random) {
            conditions.as_object_mut().unwrap().remove(test);
        }
    }
    if there(random) {
        conditions["steel"] = json!(random.one_of(LaminationGrade::ALL).word());
    }
    if there(random) {
        conditions["insulation"] = json!(random.one_of(InsulationClass::ALL).word());
    }
    if there(random) {
        conditions["rectifier"] = json!(random.one_of(RectifierKind::ALL).word());
    }
    if there(random) {
        conditions["aluminium"] = json!(random.chance(0.5));
        conditions["as_much"] = if random.chance(0.5) { json!([goal]) } else { json!([]) };
    }
    if there(random) {
        conditions["pair"] = json!({ "name": "Second", "windings": random.one_of(Joining::ALL).word() });
    }
    document["conditions"] = conditions;
    let catalogue = Catalogue::standard();
    let conductors = catalogue.conductors();
    let conductor = &conductors[random.below(conductors.len())];
    if random.chance(0.5) {
        document["choice"] = json!({
            "conductor": catalogue.name(conductor),
            "metal": match conductor.metal {
                curbcore::wire::Metal::Copper => "copper",
                curbcore::wire::Metal::Aluminium => "aluminium",
            },
            "placement": random.one_of(&["beside_primary", "over_primary", "far_end"]),
            "pinned": {
                "turns": random.chance(0.3), "conductor": random.chance(0.3), "parallel": random.chance(0.3),
            },
        });
    }
    if there(random) {
        let wire = &conductors[random.below(conductors.len())];
        document["stock"] = json!([{ "conductor": catalogue.name(wire), "length_m": random.part() * 100.0 }]);
    }
}

fn has(document: &Value, parents: &str) -> bool {
    parents.is_empty() || document.pointer(&format!("/{}", parents.replace('.', "/"))).is_some()
}

fn put(document: &mut Value, path: &str, value: Value) {
    let (parents, key) = path.rsplit_once('.').unwrap_or(("", path));
    let pointer = if parents.is_empty() {
        String::new()
    } else {
        format!("/{}", parents.replace('.', "/"))
    };
    let place = document.pointer_mut(&pointer).unwrap();
    if let Value::Object(members) = place {
        let members: &mut Map<String, Value> = members;
        members.insert(key.to_owned(), value);
    }
}
