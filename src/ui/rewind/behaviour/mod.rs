//! What a rebuilt core really does: one panel a topic, computed while it stands open.

mod inductor;
mod inputs;

pub use inductor::InductorView;

use dioxus::prelude::*;

use super::super::controls::{Fold, Numbers, Terms};
use super::super::state::AppState;
use super::super::words::{say, told};
use crate::app::guard::guarded;
use crate::app::translate::pair_of;
use crate::job::{Goal, JobFile};
use crate::report;
use crate::report::behaviour::TopicView;
use crate::text::Term;

/// A panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// No-load current and working point.
    Idle,
    /// Switching on.
    Inrush,
    /// Shunts.
    Shunts,
    /// Heat and duty.
    Heat,
    /// Behind diodes.
    Direct,
    /// Two donors together.
    Pairs,
}

impl Topic {
    const ALL: [Topic; 6] = [
        Topic::Heat,
        Topic::Idle,
        Topic::Inrush,
        Topic::Shunts,
        Topic::Direct,
        Topic::Pairs,
    ];

    const fn word(self) -> &'static str {
        match self {
            Topic::Idle => "idle",
            Topic::Inrush => "inrush",
            Topic::Shunts => "shunts",
            Topic::Heat => "heat",
            Topic::Direct => "direct",
            Topic::Pairs => "pairs",
        }
    }

    const fn title(self) -> &'static str {
        match self {
            Topic::Idle => "ui-panel-idle",
            Topic::Inrush => "ui-panel-inrush",
            Topic::Shunts => "ui-panel-shunts",
            Topic::Heat => "ui-panel-heat",
            Topic::Direct => "ui-panel-direct",
            Topic::Pairs => "ui-panel-pairs",
        }
    }

    /// The words of the trade that it is told in.
    const fn words(self) -> &'static [Term] {
        match self {
            Topic::Idle => &[
                Term::IdleCurrent,
                Term::Knee,
                Term::PowerFactor,
                Term::CoreLoss,
                Term::AirGap,
            ],
            Topic::Inrush => &[Term::Inrush, Term::Remanence, Term::Breaker],
            Topic::Shunts => &[Term::Shunt, Term::LeakageReactance, Term::Regulation],
            Topic::Heat => &[Term::DutyCycle, Term::HotSpot, Term::InsulationClass, Term::CutOut],
            Topic::Direct => &[Term::Ripple, Term::Rms, Term::Choke],
            Topic::Pairs => &[Term::Dot, Term::CirculatingCurrent],
        }
    }

    /// Whether it has something to say of a use.
    fn applies(self, file: &JobFile) -> bool {
        match self {
            Topic::Direct => !matches!(file.goal, Goal::SpotWelder { .. }),
            Topic::Pairs => pair_of(file).is_some(),
            _ => true,
        }
    }
}

/// All panels of the job in hand.
#[component]
pub fn Behaviour() -> Element {
    let app = use_context::<Signal<AppState>>();
    let topics: Vec<Topic> = {
        let app = app.read();
        let designed = matches!(app.answer(), Some(Ok(answer)) if answer.design.is_some());
        let Some(file) = app.file().filter(|_| designed) else {
            return rsx! {};
        };
        Topic::ALL.into_iter().filter(|topic| topic.applies(file)).collect()
    };
    // A topic with a caution is named outside the fold.
    let cautions = {
        let app = app.read();
        let with_caution = |topic: &&Topic| answer_of(&app, **topic).is_some_and(|view| line_of(&view, **topic).1);
        let titles = topics.iter().filter(with_caution).map(|topic| say(topic.title()));
        titles.collect::<Vec<_>>().join("; ")
    };
    rsx! {
        details { class: "panels",
            summary {
                {say("ui-behaviour")}
                if !cautions.is_empty() { small { class: "answer-line has-caution", "{cautions}" } }
            }
            for topic in topics { Panel { key: "{topic.word()}", topic } }
        }
    }
}

#[component]
fn Panel(topic: Topic) -> Element {
    let app = use_context::<Signal<AppState>>();
    let (answer, caution) = match answer_of(&app.read(), topic) {
        Some(view) => line_of(&view, topic),
        None => (say(none_text(topic)), false),
    };
    rsx! {
        Fold { word: topic.word(), title: say(topic.title()), answer, caution,
            Terms { words: topic.words().to_vec() }
            Open { topic }
        }
    }
}

/// The number that answers a topic in one line; the first one for the others.
const fn answering(topic: Topic) -> &'static str {
    match topic {
        Topic::Heat => super::answer::DUTY,
        Topic::Inrush => "behaves-inrush-peak",
        _ => "",
    }
}

/// A topic in one line, and whether a caution stands in it.
fn line_of(view: &TopicView, topic: Topic) -> (String, bool) {
    let numbers = || view.numbers.iter().map(|(shown, _)| shown);
    let number = numbers()
        .find(|shown| shown.about == answering(topic))
        .or_else(|| numbers().next());
    let line = match number {
        Some(shown) => format!("{}: {} {}", shown.label, shown.value, shown.unit)
            .trim_end()
            .to_owned(),
        None => view
            .remarks
            .first()
            .map(|remark| remark.text.clone())
            .unwrap_or_default(),
    };
    (line, view.remarks.iter().any(|remark| remark.danger))
}

/// What is shown where a topic has no answer.
const fn none_text(topic: Topic) -> &'static str {
    match topic {
        Topic::Shunts => "ui-none-shunts",
        Topic::Direct => "ui-none-direct",
        _ => "ui-none",
    }
}

/// What a topic says of a job; none where it has no answer.
fn answer_of(app: &AppState, topic: Topic) -> Option<TopicView> {
    let answer = app.answer()?.ok()?;
    let answered = guarded(|| {
        told(|texts| {
            Some(match topic {
                Topic::Idle => report::behaviour::idle(answer.idle()?, texts),
                Topic::Inrush => report::behaviour::inrush(answer.inrush()?, texts),
                Topic::Shunts => report::behaviour::shunts(answer.shunts()?, texts),
                Topic::Heat => report::behaviour::heat(answer.heat()?, texts),
                Topic::Direct => report::behaviour::direct_current(answer.direct_current()?, texts),
                Topic::Pairs => {
                    let second = answer.second.as_ref()?;
                    report::behaviour::pairs(answer.pair()?, [&answer.file().name, &second.name], texts)
                }
            })
        })
    });
    answered.ok().flatten()
}

#[component]
fn Open(topic: Topic) -> Element {
    let app = use_context::<Signal<AppState>>();
    let found = answer_of(&app.read(), topic);
    let none = none_text(topic);
    rsx! {
        match found {
            Some(found) => rsx! { TopicPanel { view: found } },
            None => rsx! { p { class: "hint", {say(none)} } },
        }
        inputs::Inputs { topic }
    }
}

/// Remarks, plots and numbers of a topic.
#[component]
pub fn TopicPanel(view: TopicView) -> Element {
    rsx! {
        TopicText { view: view.clone() }
        Numbers { rows: view.numbers }
    }
}

/// A topic's sentences and figures, without its numbers.
#[component]
pub fn TopicText(view: TopicView) -> Element {
    rsx! {
        for remark in view.remarks.iter() {
            p { key: "{remark.text}", class: if remark.danger { "caution" } else { "" }, "{remark.text}" }
        }
        for (index, figure) in view.figures.iter().enumerate() {
            figure { key: "{index}", dangerous_inner_html: "{figure}" }
        }
    }
}
