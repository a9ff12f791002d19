//! Keys of a desktop: undo, redo, find, print, a stage by its number, a turn of the counter; and their list.

use dioxus::prelude::*;

use super::state::{AppState, Screen};
use super::words::say;

/// The keys as a person presses them, and the id of what they do.
const KEYS: [(&str, &str); 9] = [
    ("Ctrl Z", "ui-key-undo"),
    ("Ctrl Y", "ui-key-redo"),
    ("Ctrl F", "ui-find-job"),
    ("Ctrl P", "ui-key-print"),
    ("1 – 6", "ui-key-stage"),
    ("Space", "ui-key-turn"),
    ("Tab", "ui-key-tab"),
    ("?", "ui-key-keys"),
    ("Esc", "ui-key-close"),
];

/// Follows the keys, where there is a keyboard.
pub fn follow(mut app: Signal<AppState>) {
    use_future(move || async move {
        if !cfg!(any(feature = "app", feature = "web")) {
            return;
        }
        let mut keys = document::eval(include_str!("../../assets/keys.js"));
        while let Ok(word) = keys.recv::<String>().await {
            app.write().press(&word);
            match word.as_str() {
                "find" => {
                    document::eval("setTimeout(() => document.getElementById('find-job')?.focus(), 100)");
                }
                "print" => print_page(),
                _ => {}
            }
        }
    });
}

/// Prints the page for the bench that is on the screen.
pub fn print_page() {
    document::eval(include_str!("../../assets/print-page.js"));
}

/// The list of the keys, while it is open.
#[component]
pub fn Keys() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    if !app.read().shows_keys() {
        return rsx! {};
    }
    rsx! {
        section { class: "keys", role: "dialog", aria_label: say("ui-keys"),
            h2 { {say("ui-keys")} }
            dl {
                for (keys, what) in KEYS {
                    div { key: "{what}", dt { {say(what)} } dd { kbd { "{keys}" } } }
                }
            }
            button { class: "second", onclick: move |_| app.write().press("close"), {say("ui-close")} }
        }
    }
}

impl AppState {
    /// Does what a key of the keyboard stands for, where it can be done.
    pub fn press(&mut self, word: &str) {
        match word {
            "undo" => self.undo(),
            "redo" => self.redo(),
            "find" => {
                self.look_for_cards();
                self.go(Screen::Home);
            }
            "print" if self.has_job() => self.go(Screen::Page),
            "keys" => self.show_keys(!self.shows_keys()),
            "close" => {
                self.show_keys(false);
                self.ask_no_more();
            }
            number => {
                let at = number.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
                if let Some(stage) = at.and_then(|at| Screen::STAGES.get(at))
                    && self.can_open(*stage)
                {
                    self.go(*stage);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_do_what_the_list_says() {
        let folder = tempfile::tempdir().unwrap();
        let mut app = AppState::open(folder.path());
        // Nothing is in hand: no stage opens, nothing prints.
        for word in ["3", "0", "7", "print", "close"] {
            app.press(word);
            assert_eq!(app.screen(), Screen::Home, "{word}");
        }
        app.open_demo();
        for (word, screen) in ["1", "2", "3", "4", "5", "6"].into_iter().zip(Screen::STAGES) {
            app.press(word);
            assert_eq!(app.screen(), screen, "{word}");
        }
        app.press("print");
        assert_eq!(app.screen(), Screen::Page);
        app.rename("Bench top welder");
        app.press("undo");
        assert_ne!(app.file().unwrap().name, "Bench top welder");
        app.press("redo");
        assert_eq!(app.file().unwrap().name, "Bench top welder");
        app.press("keys");
        assert!(app.shows_keys());
        app.press("close");
        assert!(!app.shows_keys());
        app.ask_for_core();
        app.press("close");
        assert_eq!(app.asked(), None);
        app.press("find");
        assert!(app.screen() == Screen::Home && app.looks_for_cards());
    }

    /// Every word that the script sends is one that the app knows.
    #[test]
    fn the_script_sends_known_words() {
        let script = include_str!("../../assets/keys.js");
        for word in ["undo", "redo", "find", "print", "keys", "close"] {
            assert!(script.contains(&format!("\"{word}\"")), "{word}");
        }
    }
}
