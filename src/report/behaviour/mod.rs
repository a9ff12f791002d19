//! What a rebuilt core really does, told in words, numbers and plots: for a screen's panel and for
//! the page alike.

mod direct_current;
mod heat;
mod idle;
mod inductor;
mod inrush;
mod json;
mod pairs;
mod shunts;

pub use direct_current::direct_current;
pub use heat::heat;
pub use idle::idle;
pub use inductor::{inductor, inductor_build, inductor_trouble, stack_text};
pub use inrush::{fuse_label, inrush, protection_label};
pub use json::json_of;
pub use pairs::{pair_joints, pairs};
pub use shunts::{shunt_sentence, shunts};

use super::draw::{Curve, Plot, plot};
use super::inputs::widened_by;
use super::numbers::{Shown, show};
use crate::quantity::{Number, format_significant};
use crate::text::{Arg, Texts};

/// A sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// True where it is a caution.
    pub danger: bool,
    /// The words.
    pub text: String,
}

/// One topic, told.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TopicView {
    /// What it comes to, cautions among it.
    pub remarks: Vec<Remark>,
    /// Its numbers, each with what widens it.
    pub numbers: Vec<(Shown, String)>,
    /// Its plots, as SVG.
    pub figures: Vec<String>,
}

impl TopicView {
    fn say(&mut self, texts: &Texts, key: &str, args: &[(&str, Arg<'_>)]) {
        self.remarks.push(Remark {
            danger: false,
            text: texts.text_with(key, args),
        });
    }
    fn remark(&mut self, text: String) {
        self.remarks.push(Remark { danger: false, text });
    }
    fn warn(&mut self, texts: &Texts, key: &str, args: &[(&str, Arg<'_>)]) {
        self.remarks.push(Remark {
            danger: true,
            text: texts.text_with(key, args),
        });
    }
    fn numbers(&mut self, texts: &Texts, numbers: &[Number]) {
        self.numbers.extend(
            numbers
                .iter()
                .map(|number| (show(texts, number), widened_by(texts, &number.variance_shares))),
        );
    }
}

/// A value with three digits and its unit, for a sentence.
fn three(value: f64, unit: &str) -> String {
    format!("{} {unit}", format_significant(value, 3)).trim_end().to_owned()
}

/// A plot with texts by their ids.
fn plotted(texts: &Texts, title: &str, across: &str, up: &str, rest: Plot) -> String {
    plot(&Plot {
        title: texts.text(title),
        across: texts.text(across),
        up: texts.text(up),
        ..rest
    })
}

fn curve(class: &'static str, name: String, points: impl IntoIterator<Item = (f64, f64)>) -> Curve {
    Curve {
        class,
        name,
        points: points.into_iter().collect(),
    }
}
