//! The parts of the job that can be shown.

use crate::report::draw::Icon;

/// The part of the job that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// A card for each oven and core.
    Home,
    /// Where a donor and its job stand, and the next thing to do.
    Donor,
    /// The verdict on a find.
    SizeUp,
    /// Taking a donor apart.
    Teardown,
    /// Core, primary and outlet.
    Measure,
    /// Use, windings, design.
    Rewind,
    /// The winding, step by step.
    Wind,
    /// The staged tests.
    Bench,
    /// The page for the bench.
    Page,
    /// Cores beside one another.
    Compare,
    /// Words of the trade.
    Glossary,
    /// To and from other devices.
    Sync,
    /// Own wire, other devices, words of the trade, units and theme.
    More,
}

impl Screen {
    /// All of them, in the order of the job.
    pub const ALL: [Screen; 13] = [
        Screen::Home,
        Screen::Donor,
        Screen::SizeUp,
        Screen::Teardown,
        Screen::Measure,
        Screen::Rewind,
        Screen::Wind,
        Screen::Bench,
        Screen::Page,
        Screen::Compare,
        Screen::Glossary,
        Screen::Sync,
        Screen::More,
    ];

    /// The id of its name.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Screen::Home => "ui-screen-home",
            Screen::Donor => "ui-screen-donor",
            Screen::SizeUp => "ui-screen-size-up",
            Screen::Teardown => "ui-screen-teardown",
            Screen::Measure => "ui-screen-measure",
            Screen::Rewind => "ui-screen-rewind",
            Screen::Wind => "ui-screen-wind",
            Screen::Bench => "ui-screen-bench",
            Screen::Page => "ui-screen-page",
            Screen::Compare => "ui-screen-compare",
            Screen::Glossary => "ui-screen-words",
            Screen::Sync => "ui-screen-sync",
            Screen::More => "ui-screen-more",
        }
    }

    /// The places of the bar, always these in this order.
    pub const PLACES: [Screen; 4] = [Screen::Home, Screen::Donor, Screen::Compare, Screen::More];

    /// The stages of a job, in order.
    pub const STAGES: [Screen; 6] = [
        Screen::SizeUp,
        Screen::Teardown,
        Screen::Measure,
        Screen::Rewind,
        Screen::Wind,
        Screen::Bench,
    ];

    /// The icon of a place of the bar, or of a stage.
    #[must_use]
    pub const fn icon(self) -> Option<Icon> {
        match self {
            Screen::Home => Some(Icon::Home),
            Screen::Donor => Some(Icon::InHand),
            Screen::Compare => Some(Icon::Compare),
            Screen::More => Some(Icon::More),
            Screen::SizeUp => Some(Icon::SizeUp),
            Screen::Teardown => Some(Icon::Teardown),
            Screen::Measure => Some(Icon::Measure),
            Screen::Rewind => Some(Icon::Rewind),
            Screen::Wind => Some(Icon::Wind),
            Screen::Bench => Some(Icon::Bench),
            Screen::Page | Screen::Glossary | Screen::Sync => None,
        }
    }

    /// The place of the bar that a screen belongs to.
    #[must_use]
    pub const fn place(self) -> Screen {
        match self {
            Screen::Home => Screen::Home,
            Screen::Compare => Screen::Compare,
            Screen::More | Screen::Glossary | Screen::Sync => Screen::More,
            Screen::Donor
            | Screen::SizeUp
            | Screen::Teardown
            | Screen::Measure
            | Screen::Rewind
            | Screen::Wind
            | Screen::Bench
            | Screen::Page => Screen::Donor,
        }
    }

    /// The word that is stored for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Screen::Home => "home",
            Screen::Donor => "donor",
            Screen::SizeUp => "size-up",
            Screen::Teardown => "teardown",
            Screen::Measure => "measure",
            Screen::Rewind => "rewind",
            Screen::Wind => "wind",
            Screen::Bench => "bench",
            Screen::Page => "page",
            Screen::Compare => "compare",
            Screen::Glossary => "words",
            Screen::Sync => "sync",
            Screen::More => "more",
        }
    }

    /// True where it needs a job in hand.
    #[must_use]
    pub const fn of_job(self) -> bool {
        matches!(
            self,
            Screen::Measure | Screen::Rewind | Screen::Wind | Screen::Bench | Screen::Page
        )
    }
}
