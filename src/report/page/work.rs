//! The order of work: the steps of the winding, each in a line, then the bench.

use std::fmt::Write;

use super::Page;
use crate::app::wind::wind_steps;
use crate::quantity::{Length, format_significant};
use crate::wind::WindStep;

/// The order of work: the steps of the winding that this job has, each by its name, then the bench.
pub(super) fn work(html: &mut String, page: &Page<'_>, detail: impl Fn(WindStep) -> Option<String>, bench: &str) {
    let _ = write!(html, "<h2>{}</h2><ol class=\"work\">", page.say("page-work"));
    for step in wind_steps(page.answer) {
        if let Some(detail) = detail(step) {
            let _ = write!(html, "<li><b>{}.</b> {detail}</li>", page.say(step.key()));
        }
    }
    let _ = write!(
        html,
        "<li><b>{}.</b> {}</li></ol>",
        page.say("ui-screen-bench"),
        page.say(bench)
    );
}

/// A length in millimetres.
pub(super) fn millimetres(length: Length) -> String {
    format!("{} mm", format_significant(length.mm(), 2))
}
