//! What the person is typing into a field: when it is entered, and what the field shows meanwhile.

/// What stands in a field and is not in the job: typed and not entered yet, or refused.
///
/// A browser tells of a change only where the text differs from what stood there before, so a value that
/// equals the usual one would never be entered: leaving the field enters what was typed in it as well.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft<H> {
    typed: Option<String>,
    refused: Option<Refused<H>>,
}

/// A text that was refused, and why.
#[derive(Debug, Clone, PartialEq)]
struct Refused<H> {
    text: String,
    message: String,
    /// What the job held then: once it holds something else, the message is stale.
    held: H,
}

impl<H> Default for Draft<H> {
    fn default() -> Self {
        Self {
            typed: None,
            refused: None,
        }
    }
}

impl<H: PartialEq> Draft<H> {
    /// A key was pressed: this stands in the field now.
    pub fn typed(&mut self, text: String) {
        self.typed = Some(text);
    }

    /// The field is left: the text to enter, where one was typed and not entered.
    pub fn left(&mut self) -> Option<String> {
        self.typed.take()
    }

    /// A text was entered while the job held `held`; `message` where it was refused.
    pub fn entered(&mut self, text: &str, held: H, message: Option<String>) {
        self.typed = None;
        self.refused = message.map(|message| Refused {
            text: text.to_owned(),
            message,
            held,
        });
    }

    /// The refused text that stays in the field, unless the job holds something else by now.
    pub fn kept(&self, held: &H) -> Option<&str> {
        self.current(held).map(|refused| refused.text.as_str())
    }

    /// Why it was refused.
    pub fn message(&self, held: &H) -> Option<&str> {
        self.current(held).map(|refused| refused.message.as_str())
    }

    fn current(&self, held: &H) -> Option<&Refused<H>> {
        self.refused.as_ref().filter(|refused| refused.held == *held)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 18 typed where 18 stands: no change is told, and it is entered all the same, once.
    #[test]
    fn a_text_equal_to_what_stood_there_is_entered_on_leaving() {
        let mut draft = Draft::<u32>::default();
        assert_eq!(draft.left(), None, "nothing was typed");
        draft.typed("1".to_owned());
        draft.typed("18".to_owned());
        assert_eq!(draft.left(), Some("18".to_owned()));
        assert_eq!(draft.left(), None);
        draft.typed("19".to_owned());
        draft.entered("19", 18, None);
        assert_eq!(draft.left(), None, "a change that was told is not entered twice");
    }

    #[test]
    fn a_refused_text_stays_until_another_is_entered_or_the_job_changes() {
        let mut draft = Draft::default();
        draft.entered("3000", 35, Some("5 to 200 mm".to_owned()));
        assert_eq!(
            (draft.kept(&35), draft.message(&35)),
            (Some("3000"), Some("5 to 200 mm"))
        );
        assert_eq!(
            (draft.kept(&36), draft.message(&36)),
            (None, None),
            "undone, or entered elsewhere"
        );
        // The value that stood there before is entered again.
        draft.entered("35", 35, None);
        assert_eq!((draft.kept(&35), draft.message(&35)), (None, None));
    }
}
