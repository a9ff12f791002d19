//! The test turn: its gates first, then the order of work and its three numbers.

use dioxus::prelude::*;

use super::super::controls::TestGroup;
use super::super::guided::BehindGates;
use super::super::words::say;
use crate::bench::TEST_TURN;

/// Lines of the order of work, by their ids.
const ORDER: [&str; 5] = [
    "ui-test-turn-clamp",
    "ui-test-turn-wind",
    "ui-test-turn-feed",
    "ui-test-turn-read",
    "ui-test-turn-off",
];

/// Numbers that were recorded stand open; a new test stands behind its gates.
#[component]
pub fn TestTurnForm(there: bool) -> Element {
    let group = rsx! {
        TestGroup {
            path: "core.primary.test_turn",
            title: say("ui-test-turn"),
            help: say("ui-test-turn-help"),
            there,
        }
    };
    if there {
        return group;
    }
    rsx! {
        BehindGates { gates: TEST_TURN, begin: "ui-test-turn-begin",
            p { class: "caution", {say("ui-test-turn-caution")} }
            ol { for line in ORDER { li { key: "{line}", {say(line)} } } }
            {group}
        }
    }
}
