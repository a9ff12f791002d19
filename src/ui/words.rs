//! What the screens of the guided parts say: texts by their id, out of `assets/text`.

use std::sync::{Arc, LazyLock};

use dioxus::prelude::*;

use crate::app::now::{clock_time, now};
use crate::job::fields::Field;
use crate::store::Op;
use crate::text::{Arg, Texts};
use crate::words::{Explain, Message};

/// The texts of the person's language; a root context of the app.
#[derive(Clone)]
pub struct Words(Arc<Option<Texts>>);

impl Words {
    /// The English texts, read once.
    pub fn english() -> Self {
        static ENGLISH: LazyLock<Words> = LazyLock::new(|| {
            let texts = Texts::english();
            if let Err(error) = &texts {
                tracing::error!("no texts: {error}");
            }
            Words(Arc::new(texts.ok()))
        });
        ENGLISH.clone()
    }

    fn find(&self, key: &str, args: &[(&str, Arg<'_>)]) -> String {
        match self.0.as_ref() {
            Some(texts) => texts.text_with(key, args),
            None => key.to_owned(),
        }
    }
}

/// What is made of the texts; empty where there are none.
pub fn with_texts<T: Default>(made: impl FnOnce(&Texts) -> T) -> T {
    Words::english().0.as_ref().as_ref().map(made).unwrap_or_default()
}

/// What an error says to a person.
pub fn explain(error: &impl Explain) -> String {
    tell(&error.message())
}

/// A sentence that comes as data. Not only while a component renders: the state shows messages too.
pub fn tell(message: &Message) -> String {
    match Words::english().0.as_ref() {
        Some(texts) => texts.message(message),
        None => message.to_string(),
    }
}

/// The text with an id. Only while a component renders or handles an event.
pub fn say(key: &str) -> String {
    consume_context::<Words>().find(key, &[])
}

/// The text with an id, with values put in.
pub fn say_with(key: &str, args: &[(&str, Arg<'_>)]) -> String {
    consume_context::<Words>().find(key, args)
}

/// The part of a text after the dot, such as `step-open.do`.
pub fn say_part(key: &str, part: &str) -> String {
    say(&format!("{key}.{part}"))
}

/// A drawing, by what draws it in the person's language; nothing where there are no texts.
pub fn drawn(draw: impl FnOnce(&Texts) -> String) -> String {
    consume_context::<Words>()
        .0
        .as_ref()
        .as_ref()
        .map(draw)
        .unwrap_or_default()
}

/// What is told in the person's language; none where there are no texts.
pub fn told<T>(tell: impl FnOnce(&Texts) -> Option<T>) -> Option<T> {
    consume_context::<Words>().0.as_ref().as_ref().and_then(tell)
}

/// A field's `label` or `hint`.
pub fn field_text(field: &Field, part: &str) -> String {
    say(&format!("{}.{part}", field.text()))
}

/// What a person reads of an operation.
pub fn op_text(op: Op) -> String {
    match op {
        Op::Number(field) => say_with(op.key(), &[("field", Arg::Text(&field_text(field, "label")))]),
        _ => say(op.key()),
    }
}

/// What a person reads of a use.
pub fn use_label(word: &str) -> String {
    say(&format!("use-{}", word.replace('_', "-")))
}

/// What a new find is called: by the time of day.
pub fn find_name() -> String {
    let time = clock_time(now());
    say_with("ui-find-of", &[("time", Arg::Text(&time))])
}
