//! The page for the bench: one HTML document with its drawings. It prints on two sheets of A4 or
//! Letter, one to make the part and one to prove it; what stands below them is for the screen.

mod coil;
mod drawings;
mod make;
mod more;
mod prove;
mod work;

use std::fmt::Write;

pub use drawings::{drawings, voltage_drawing, wiring};
pub(super) use prove::status_word;

use super::draw::escape;
use super::materials;
use crate::app::bench::Tests;
use crate::app::evaluation::Evaluation;
use crate::app::materials::Amount;
use crate::job::JobFile;
use crate::quantity::LengthUnit;
use crate::rewind::limits::LimitSet;
use crate::store::Conflict;
use crate::text::{Arg, TextError, Texts};

/// The whole page, complete in itself: styles and drawings inside, nothing fetched. With the
/// tests of the job, what was read is in their boxes; else the boxes are to be filled. `unsettled` are the values
/// that differ between devices: the page names each with the value that it uses.
///
/// # Errors
/// [`TextError`] where the texts cannot be read, which a test rules out for those built in.
pub fn page(
    answer: &Evaluation,
    tests: Option<&Tests>,
    unsettled: &[Conflict],
    unit: LengthUnit,
) -> Result<String, TextError> {
    let file = answer.file();
    let page = Page {
        file,
        answer,
        unsettled,
        unit,
        texts: Texts::english()?,
    };
    let mut html = String::with_capacity(96 * 1024);
    let title = escape(&file.name);
    let _ = write!(
        html,
        "<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>{title}</title>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><style>{}{}</style></head>\
         <body class=\"paper\">",
        include_str!("../../../assets/drawing.css"),
        include_str!("../../../assets/page.css"),
    );
    let coil = answer.inductor();
    make::sheet(&mut html, &page, coil);
    match coil {
        Some(Ok(found)) => coil::prove(&mut html, &page, found, tests),
        Some(Err(_)) => {}
        None => prove::sheet(&mut html, &page, tests),
    }
    more::below(&mut html, &page);
    html.push_str("</body></html>\n");
    Ok(html)
}

/// What all parts of the page draw from.
struct Page<'a> {
    file: &'a JobFile,
    answer: &'a Evaluation,
    unsettled: &'a [Conflict],
    unit: LengthUnit,
    texts: Texts,
}

impl Page<'_> {
    /// A stop for each limit that a winding or a coil breaks.
    fn stops(&self, html: &mut String, broken: LimitSet) {
        for limit in broken.iter() {
            let stop = self.say_with("page-stop", &[("limit", &self.say(limit.key()))]);
            let _ = write!(html, "<p class=\"danger\">{stop}</p>");
        }
    }

    /// A text, safe in HTML.
    fn say(&self, key: &str) -> String {
        escape(&self.texts.text(key))
    }

    /// A text with values, safe in HTML.
    fn say_with(&self, key: &str, args: &[(&str, &str)]) -> String {
        let args: Vec<(&str, Arg<'_>)> = args.iter().map(|&(name, value)| (name, Arg::Text(value))).collect();
        escape(&self.texts.text_with(key, &args))
    }

    /// The head of a sheet: the job's name, and which sheet it is.
    fn head(&self, html: &mut String, sheet: &str) {
        let _ = write!(
            html,
            "<section class=\"sheet\"><header><h1><bdi>{}</bdi></h1><p>{}</p></header>",
            escape(&self.file.name),
            self.say(sheet)
        );
    }
}

/// What to get.
fn material_table(html: &mut String, page: &Page<'_>) {
    let _ = write!(
        html,
        "<h2>{}</h2><table class=\"materials\"><tbody>",
        page.say("page-materials")
    );
    for material in materials(page.answer, &page.texts) {
        let amount = match material.amount {
            Amount::Wire { length, mass } => format!("{:.2} m, {:.2} kg", length.si(), mass.si()),
            Amount::Sheet { width, length } => format!("{:.0} × {:.0} mm", width.mm(), length.mm()),
            Amount::Pieces(n) => n.to_string(),
        };
        let _ = write!(
            html,
            "<tr><td>{} <small>({})</small></td><td class=\"n\">{amount}</td></tr>",
            escape(&page.texts.message(&material.what)),
            page.say(material.purpose.key())
        );
    }
    html.push_str("</tbody></table>");
}
