//! The screens, one folder per part of the job. They show what `app` returns and never compute.

mod aside;
mod bench;
#[cfg(all(feature = "web", target_family = "wasm"))]
mod browser;
mod controls;
mod desk;
mod guided;
mod measure;
mod phone;
mod rewind;
mod shelf;
mod sizeup;
mod teardown;
mod words;

use std::path::PathBuf;

use dioxus::prelude::*;

#[cfg(all(feature = "web", target_family = "wasm"))]
pub use browser::launch_in_browser;
pub use desk::{Desk, Held, Screen};
#[cfg(feature = "mobile")]
pub use phone::launch_on_phone;

/// The folder that holds the person's data; the root context of [`App`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DataFolder(pub PathBuf);

/// The whole app.
#[allow(non_snake_case)]
pub fn App() -> Element {
    let folder = use_context::<DataFolder>();
    let desk = use_signal(move || Desk::open(&folder.0));
    use_context_provider(|| desk);
    use_context_provider(words::Words::english);
    #[cfg(all(feature = "web", target_family = "wasm"))]
    browser::tell_of_trouble(desk);
    let theme = desk.read().theme();
    rsx! {
        Styles {}
        div { class: "app", "data-theme": "{theme}",
            match desk.read().failure() {
                Some(message) => rsx! { Refused { message } },
                None => rsx! { Opened {} },
            }
        }
    }
}

/// The stylesheet, in a component without props so that it is written once.
#[component]
fn Styles() -> Element {
    rsx! {
        style { dangerous_inner_html: concat!(include_str!("../../assets/app.css"), include_str!("../../assets/drawing.css")) }
    }
}

#[component]
fn Refused(message: String) -> Element {
    rsx! {
        main { class: "sheet",
            h1 { "Curbcore cannot open your data" }
            p { class: "danger", role: "alert", "{message}." }
            p { "Nothing was changed. Mend it as the message says, then start the app again." }
        }
    }
}

#[component]
fn Opened() -> Element {
    let desk = use_context::<Signal<Desk>>();
    let screen = use_memo(move || desk.read().screen());
    phone::follow(desk);
    // A new screen starts at its top.
    use_effect(move || {
        let shown = screen();
        document::eval("window.scrollTo(0, 0)");
        tracing::debug!("shown: {}", shown.label());
    });
    let screen = screen();
    rsx! {
        Header {}
        Notice {}
        main { class: "sheet",
            match screen {
                Screen::Shelf => rsx! { shelf::Shelf {} },
                Screen::SizeUp => rsx! { sizeup::SizeUp {} },
                Screen::Teardown => rsx! { teardown::TeardownScreen {} },
                Screen::Measure => rsx! { measure::Measure {} },
                Screen::Rewind => rsx! { rewind::Rewind {} },
                Screen::Bench => rsx! { bench::BenchScreen {} },
                Screen::Page => rsx! { rewind::BenchPage {} },
            }
        }
        Rail {}
    }
}

#[component]
fn Header() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let title = desk.read().title();
    let undo = desk.read().undo_name();
    let redo = desk.read().redo_name();
    rsx! {
        header { class: "head",
            h1 { "{title}" }
            if let Some(name) = undo {
                button { class: "quiet", aria_label: undo_text("ui-undo", &name), title: undo_text("ui-undo", &name), onclick: move |_| desk.write().undo(), {words::say("ui-undo-short")} }
            }
            if let Some(name) = redo {
                button { class: "quiet", aria_label: undo_text("ui-redo", &name), title: undo_text("ui-redo", &name), onclick: move |_| desk.write().redo(), {words::say("ui-redo-short")} }
            }
        }
    }
}

/// "Undo: …" with the change's name: the id of a text where it is one, else the name itself.
fn undo_text(key: &str, name: &str) -> String {
    words::say_with(key, &[("what", crate::text::Arg::Text(&words::say(name)))])
}

#[component]
fn Notice() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let notice = desk.read().notice();
    rsx! {
        if let Some(text) = notice {
            div { class: "notice", role: "alert",
                p { "{text}" }
                button { class: "quiet", onclick: move |_| desk.write().dismiss(), "Close" }
            }
        }
    }
}

/// The ways to the parts of the job, at the bottom where a thumb reaches.
#[component]
fn Rail() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let (here, shown) = {
        let desk = desk.read();
        // The page hangs below the bench: it has no place of its own here.
        let shown: Vec<Screen> = Screen::ALL
            .into_iter()
            .filter(|screen| *screen != Screen::Page)
            .filter(|screen| !screen.of_donor() || desk.donor_id().is_some())
            .filter(|screen| !screen.of_job() || desk.has_job())
            .collect();
        (desk.screen(), shown)
    };
    let here = if here == Screen::Page { Screen::Bench } else { here };
    let crowded = if shown.len() > 4 { "rail crowded" } else { "rail" };
    rsx! {
        nav { class: "{crowded}", aria_label: "Parts of the job",
            for screen in shown {
                button {
                    key: "{screen.label()}",
                    class: if screen == here { "here" } else { "" },
                    aria_current: if screen == here { "page" } else { "false" },
                    onclick: move |_| desk.write().go(screen),
                    "{screen.label()}"
                }
            }
        }
    }
}

/// Opens the window and runs the app until it is closed.
#[cfg(feature = "app")]
pub fn launch(folder: &std::path::Path, size: (f64, f64)) {
    use dioxus::desktop::{Config, LogicalSize, WindowBuilder};
    let window = WindowBuilder::new()
        .with_title("Curbcore")
        .with_inner_size(LogicalSize::new(size.0, size.1))
        .with_min_inner_size(LogicalSize::new(320.0, 480.0));
    let config = Config::new()
        .with_menu(None)
        .with_window(window)
        .with_data_directory(folder.join("window"))
        .with_disable_context_menu(true);
    dioxus::LaunchBuilder::desktop()
        .with_cfg(config)
        .with_context(DataFolder(folder.to_owned()))
        .launch(App);
}
