//! The parts of the job that can be shown.

use crate::report::draw::Icon;

/// The part of the job that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The donors and jobs.
    Shelf,
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
}

impl Screen {
    /// All of them, in the order of the job.
    pub const ALL: [Screen; 12] = [
        Screen::Shelf,
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
    ];

    /// The id of its name.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Screen::Shelf => "ui-screen-shelf",
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
        }
    }

    /// The icon of those that the rail shows.
    #[must_use]
    pub const fn icon(self) -> Option<Icon> {
        match self {
            Screen::Shelf => Some(Icon::Shelf),
            Screen::SizeUp => Some(Icon::SizeUp),
            Screen::Teardown => Some(Icon::Teardown),
            Screen::Measure => Some(Icon::Measure),
            Screen::Rewind => Some(Icon::Rewind),
            Screen::Wind => Some(Icon::Wind),
            Screen::Bench => Some(Icon::Bench),
            Screen::Donor | Screen::Page | Screen::Compare | Screen::Glossary | Screen::Sync => None,
        }
    }

    /// The word that is stored for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Screen::Shelf => "shelf",
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
        }
    }

    /// True where the rail shows a way to it: the page hangs below the bench, a donor, cores
    /// compared, the words and the way to other devices below the shelf.
    #[must_use]
    pub const fn on_rail(self) -> bool {
        !matches!(
            self,
            Screen::Donor | Screen::Page | Screen::Compare | Screen::Glossary | Screen::Sync
        )
    }

    /// True where it needs a donor in hand.
    #[must_use]
    pub const fn of_donor(self) -> bool {
        matches!(self, Screen::Donor | Screen::Teardown)
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
