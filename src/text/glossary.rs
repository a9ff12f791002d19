//! The trade's terms that the screens use, each with its entry in `glossary.ftl`.

use super::Texts;

macro_rules! terms {
    ($($name:ident = $key:literal,)*) => {
        /// A term of the trade.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)] // What each means is its text.
        pub enum Term {
            $($name,)*
        }

        impl Term {
            /// All of them, by their ids.
            pub const ALL: &[Term] = &[$(Term::$name,)*];

            /// The id of its text: the term itself, and under `.means` what it means.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {
                    $(Term::$name => $key,)*
                }
            }
        }
    };
}

terms! {
    AirGap = "term-air-gap",
    Ballast = "term-ballast",
    Beryllia = "term-beryllia",
    Bleeder = "term-bleeder",
    Breaker = "term-breaker",
    Build = "term-build",
    Choke = "term-choke",
    CirculatingCurrent = "term-circulating-current",
    CoreLoss = "term-core-loss",
    CurrentDensity = "term-current-density",
    CutOut = "term-cut-out",
    Dot = "term-dot",
    DutyCycle = "term-duty-cycle",
    EnamelledWire = "term-enamelled-wire",
    FillFactor = "term-fill-factor",
    FluxDensity = "term-flux-density",
    Foil = "term-foil",
    Fringing = "term-fringing",
    GappedCore = "term-gapped-core",
    Gfci = "term-gfci",
    HotSpot = "term-hot-spot",
    IdleCurrent = "term-idle-current",
    Inrush = "term-inrush",
    InsulationClass = "term-insulation-class",
    InsulationTester = "term-insulation-tester",
    Interlayer = "term-interlayer",
    Inverter = "term-inverter",
    IsolatedSource = "term-isolated-source",
    Knee = "term-knee",
    Lamination = "term-lamination",
    LeadOut = "term-lead-out",
    LeakageReactance = "term-leakage-reactance",
    Limb = "term-limb",
    MeanTurn = "term-mean-turn",
    OpenCircuitVoltage = "term-open-circuit-voltage",
    PlusMinus = "term-plus-minus",
    PowerFactor = "term-power-factor",
    Primary = "term-primary",
    Reactor = "term-reactor",
    Regulation = "term-regulation",
    Remanence = "term-remanence",
    Ripple = "term-ripple",
    Rms = "term-rms",
    Saturation = "term-saturation",
    Seam = "term-seam",
    Secondary = "term-secondary",
    SeriesLamp = "term-series-lamp",
    SeriesReactance = "term-series-reactance",
    ShortCircuitCurrent = "term-short-circuit-current",
    Shunt = "term-shunt",
    SkinEffect = "term-skin-effect",
    Stack = "term-stack",
    StackingFactor = "term-stacking-factor",
    Strip = "term-strip",
    TestTurn = "term-test-turn",
    Tongue = "term-tongue",
    Turns = "term-turns",
    VoltsPerTurn = "term-volts-per-turn",
    Window = "term-window",
    WorkingPoint = "term-working-point",
    Yoke = "term-yoke",
}

impl Term {
    /// The terms that stand in a text, by what their entries give as `.found`: the beginnings of words.
    #[must_use]
    pub fn in_text(text: &str, texts: &Texts) -> Vec<Term> {
        let text = text.to_lowercase();
        let begins = |form: &str| {
            text.match_indices(form)
                .any(|(at, _)| !text[..at].ends_with(char::is_alphanumeric))
        };
        let stands = |term: &&Term| {
            let forms = texts.find(&format!("{}.found", term.key()), &[]);
            forms.is_some_and(|forms| forms.to_lowercase().split(", ").any(begins))
        };
        Term::ALL.iter().filter(stands).copied().collect()
    }

    /// The terms in a number that a person enters, by its path in a job file.
    #[must_use]
    pub fn of_field(path: &str) -> &'static [Term] {
        match path {
            "core.tongue_mm" => &[Term::Tongue],
            "core.stack_mm" => &[Term::Stack],
            "core.window_width_mm" => &[Term::Window],
            "core.outer_limb_mm" => &[Term::Limb],
            "core.yoke_mm" => &[Term::Yoke],
            "core.stacking_factor" => &[Term::StackingFactor],
            "core.shunt_thickness_mm" => &[Term::Shunt],
            "core.shunt_gap_mm" | "core.seam_gap_mm" => &[Term::AirGap],
            "core.primary.build_mm" => &[Term::Build],
            "core.primary.idle_current_a" => &[Term::IdleCurrent],
            "core.primary.counted_turns" => &[Term::Turns],
            "core.primary.test_turn.turns" => &[Term::TestTurn],
            "core.primary.old_secondary.turns" => &[Term::Secondary],
            "mains.circuit.breaker_a" => &[Term::Breaker],
            "goal.duty" => &[Term::DutyCycle],
            "goal.open_circuit_volts" => &[Term::OpenCircuitVoltage],
            "goal.ripple_a" => &[Term::Ripple],
            "choice.interlayer_mm" => &[Term::Interlayer],
            _ => &[],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::ENGLISH;

    #[test]
    fn a_text_tells_its_terms() {
        let texts = Texts::english().unwrap();
        let of = |text: &str| Term::in_text(text, &texts);
        assert_eq!(
            of("Grind along the weld lines; the Yoke comes off."),
            [Term::Seam, Term::Yoke]
        );
        assert_eq!(of("Nothing of it here: unseamed."), []);
    }

    /// Every term has its entry, and every entry its term.
    #[test]
    fn terms_and_entries_are_the_same() {
        let texts = Texts::english().unwrap();
        for term in Term::ALL {
            let (word, means) = (
                texts.find(term.key(), &[]),
                texts.find(&format!("{}.means", term.key()), &[]),
            );
            assert!(
                word.is_some_and(|w| !w.is_empty()) && means.is_some_and(|m| m.len() > 20),
                "{term:?}"
            );
        }
        let (_, file) = ENGLISH.iter().find(|(name, _)| *name == "glossary.ftl").unwrap();
        let entries: Vec<&str> = file
            .lines()
            .filter_map(|line| {
                line.split_once(" = ")
                    .map(|(id, _)| id)
                    .filter(|id| id.starts_with("term-"))
            })
            .collect();
        let known: Vec<&str> = Term::ALL.iter().map(|term| term.key()).collect();
        assert_eq!(entries, known);
    }
}
