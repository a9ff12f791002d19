//! What the screens of the guided parts say: texts by their id, out of `assets/text`.

use std::sync::Arc;

use dioxus::prelude::*;

use crate::app::now::{clock_time, now};
use crate::job::fields::Field;
use crate::text::{Arg, Texts};

/// The texts of the person's language; a root context of the app.
#[derive(Clone)]
pub struct Words(Arc<Option<Texts>>);

impl Words {
    /// The English texts.
    pub fn english() -> Self {
        let texts = Texts::english();
        if let Err(error) = &texts {
            tracing::error!("no texts: {error}");
        }
        Self(Arc::new(texts.ok()))
    }

    fn find(&self, key: &str, args: &[(&str, Arg<'_>)]) -> String {
        match self.0.as_ref() {
            Some(texts) => texts.text_with(key, args),
            None => key.to_owned(),
        }
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

/// A field's `label` or `hint`: as the person's language has it under `field-` and the field's
/// path (points and low lines as hyphens), else the field table's own English.
pub fn field_text(field: &Field, part: &str) -> String {
    let id = format!("field-{}.{part}", field.path.replace(['.', '_'], "-").replace("[]", ""));
    let own = if part == "hint" { field.hint } else { field.label };
    told(|texts| texts.find(&id, &[])).unwrap_or_else(|| own.to_owned())
}

/// What a new find is called: by the time of day.
pub fn find_name() -> String {
    let time = clock_time(now());
    say_with("ui-find-of", &[("time", Arg::Text(&time))])
}
