//! The screens, one folder per part of the job. They show what `app` returns and never compute.

#[cfg(all(feature = "mobile", target_os = "android"))]
mod android;
mod asked;
mod background;
mod bench;
#[cfg(all(feature = "web", target_family = "wasm"))]
mod browser;
mod compare;
mod controls;
mod donor;
mod glossary;
mod guided;
mod home;
mod keys;
mod measure;
mod more;
mod phone;
#[cfg(test)]
mod pictures;
mod rewind;
mod share;
mod sizeup;
mod state;
mod sync;
mod teardown;
mod trouble;
mod wind;
mod words;

use std::path::PathBuf;

use dioxus::prelude::*;

use crate::store::Op;
use controls::{Unreadable, or_why};

#[cfg(all(feature = "web", target_family = "wasm"))]
pub use browser::launch_in_browser;
pub use measure::LiveState;
#[cfg(feature = "mobile")]
pub use phone::launch_on_phone;
pub use state::{AppState, Asked, CardWay, Evaluate, InHand, Pending, Screen, Trouble, Troubled, Unread, Voiding};

/// The folder that holds the person's data; the root context of [`App`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DataFolder(pub PathBuf);

/// Another evaluation than the app's, as a root context of [`App`]: for tests of what fails.
#[derive(Debug, Clone, Copy)]
pub struct EvaluateWith(pub Evaluate);

/// The whole app.
#[allow(non_snake_case, clippy::missing_errors_doc)] // A component never fails.
pub fn App() -> Element {
    let folder = use_context::<DataFolder>();
    let evaluation = try_consume_context::<EvaluateWith>();
    let app = use_signal(move || match evaluation {
        Some(EvaluateWith(evaluate)) => AppState::open_with(&folder.0, evaluate),
        None => AppState::open(&folder.0),
    });
    use_context_provider(|| app);
    use_context_provider(words::Words::english);
    use_hook(move || spawn(check_beside(app)));
    #[cfg(all(feature = "app", target_os = "linux"))]
    use_hook(switch_off_developer_tools);
    #[cfg(all(feature = "web", target_family = "wasm"))]
    browser::tell_of_trouble(app);
    let theme = app.read().theme();
    rsx! {
        Styles {}
        div { class: "app", "data-theme": "{theme}",
            match app.read().failure() {
                Some(message) => rsx! { Refused { message } },
                None => rsx! { Opened {} },
            }
        }
    }
}

/// Checks the data, and keeps a copy of it where none is new, beside the person's work. A browser
/// keeps its data in a place of its own, of which the app can make no copy.
async fn check_beside(mut app: Signal<AppState>) {
    if cfg!(target_family = "wasm") || app.peek().failure().is_some() {
        return;
    }
    let folder = app.peek().folder();
    if let Some(found) = background::run_in_background(move || crate::app::sync::copies::check(&folder)).await {
        app.write().checked(&found);
    }
}

/// The stylesheet, in a component without props so that it is written once.
#[component]
fn Styles() -> Element {
    rsx! {
        style { dangerous_inner_html: concat!(include_str!("../../assets/theme.css"), include_str!("../../assets/app.css"), include_str!("../../assets/drawing.css")) }
    }
}

#[component]
fn Refused(message: String) -> Element {
    rsx! {
        main { class: "sheet",
            h1 { {words::say("ui-cannot-open")} }
            p { class: "caution", role: "alert", "{message}" }
            p { {words::say("ui-cannot-open-help")} }
            Copies {}
        }
    }
}

/// The way back to a copy of the data, where the data cannot be opened.
#[component]
pub(crate) fn Copies() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let copies = app.read().copies();
    if copies.is_empty() {
        return rsx! {};
    }
    let mut asked = use_signal(|| None::<crate::store::Backup>);
    rsx! {
        section {
            h2 { {words::say("ui-copies")} }
            p { {words::say("ui-copies-help")} }
            if let Some(copy) = asked() {
                p { class: "caution", {words::say_with("ui-copy-sure", &[("time", crate::text::Arg::Text(&crate::app::sync::local_time(copy.made_ms)))])} }
                div { class: "row",
                    button { class: "main", onclick: move |_| app.write().restore_backup(&copy), {words::say("ui-copy-go")} }
                    button { class: "second", onclick: move |_| asked.set(None), {words::say("ui-copy-stay")} }
                }
            }
            for copy in copies {
                button {
                    class: "second wide",
                    onclick: {
                        let copy = copy.clone();
                        move |_| asked.set(Some(copy.clone()))
                    },
                    {words::say_with("ui-copy-of", &[("time", crate::text::Arg::Text(&crate::app::sync::local_time(copy.made_ms)))])}
                }
            }
        }
    }
}

#[component]
fn Opened() -> Element {
    let app = use_context::<Signal<AppState>>();
    let screen = use_memo(move || app.read().screen());
    phone::follow(app);
    keys::follow(app);
    // A new screen starts at its top.
    use_effect(move || {
        let shown = screen();
        document::eval("window.scrollTo(0, 0)");
        tracing::debug!("shown: {}", shown.word());
    });
    // The start has got over the job that it opened.
    use_effect(move || {
        let mut app = app;
        if app.peek().is_starting() {
            app.write().settle_start();
        }
    });
    let screen = screen();
    let busy = app.read().is_busy();
    rsx! {
        if !busy {
            Header {}
            Notice {}
        }
        main { class: "sheet",
            keys::Keys {}
            trouble::JobInTrouble {}
            asked::Question {}
            if screen.place() == Screen::Donor && screen != Screen::Donor {
                donor::StagePath {}
            }
            match screen {
                Screen::Home => rsx! { home::Home {} },
                Screen::Donor => rsx! { donor::DonorPage {} },
                Screen::SizeUp => rsx! { sizeup::SizeUp {} },
                Screen::Teardown => rsx! { teardown::TeardownScreen {} guided::FromElsewhere {} },
                Screen::Measure => rsx! { measure::Measure {} },
                Screen::Rewind => rsx! { rewind::Rewind {} },
                Screen::Wind => rsx! { wind::WindScreen {} guided::FromElsewhere {} },
                Screen::Bench => rsx! { bench::BenchScreen {} guided::FromElsewhere {} },
                Screen::Page => rsx! { rewind::BenchPage {} },
                Screen::Compare => rsx! { compare::Compare {} },
                Screen::Glossary => rsx! { glossary::Glossary {} },
                Screen::Sync => rsx! { sync::SyncScreen {} },
                Screen::More => rsx! { more::More {} },
            }
        }
        if !busy {
            Rail {}
        }
    }
}

#[component]
fn Header() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let title = app.read().title();
    let (undo, unread) = or_why(app.read().query(|workspace| workspace.store().undo_op()));
    let (redo, _) = or_why(app.read().query(|workspace| workspace.store().redo_op()));
    rsx! {
        header { class: "head",
            h1 { "{title}" }
            if let Some(op) = undo {
                button { class: "quiet", aria_label: undo_text("ui-undo", op), title: undo_text("ui-undo", op), onclick: move |_| app.write().undo(), {words::say("ui-undo-short")} }
            }
            if let Some(op) = redo {
                button { class: "quiet", aria_label: undo_text("ui-redo", op), title: undo_text("ui-redo", op), onclick: move |_| app.write().redo(), {words::say("ui-redo-short")} }
            }
            Unreadable { why: unread }
        }
    }
}

/// "Undo: …" with the operation's name.
fn undo_text(key: &str, op: Op) -> String {
    words::say_with(key, &[("what", crate::text::Arg::Text(&words::op_text(op)))])
}

#[component]
fn Notice() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let notice = app.read().notice();
    rsx! {
        if let Some(text) = notice {
            div { class: "notice", role: "alert",
                p { "{text}" }
                button { class: "quiet", onclick: move |_| app.write().dismiss(), {words::say("ui-close")} }
            }
        }
    }
}

/// The places of the app, always the same: at the bottom where a thumb reaches, on a desktop at the left.
#[component]
fn Rail() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let here = app.read().screen().place();
    rsx! {
        nav { class: "rail", aria_label: words::say("ui-places"),
            for screen in Screen::PLACES {
                button {
                    key: "{screen.word()}",
                    id: "place-{screen.word()}",
                    class: if screen == here { "here" } else { "" },
                    disabled: !app.read().can_show(screen),
                    aria_current: if screen == here { "page" } else { "false" },
                    onclick: move |_| app.write().go(screen),
                    if let Some(drawn) = screen.icon() { span { class: "icon-of", dangerous_inner_html: crate::report::draw::icon(drawn) } }
                    span { {words::say(screen.key())} }
                }
            }
            button { class: "keys-open", id: "place-keys", title: words::say("ui-keys"), aria_label: words::say("ui-keys"), onclick: move |_| app.write().press("keys"), "?" }
        }
    }
}

/// What the window's page may load and reach: nothing but itself. The script that feeds the page is
/// written into it, with a port and a key that change at each start, so that inline scripts have to be
/// allowed; but none can be loaded, and of the page's own address only the two names that the framework
/// answers itself can be asked for, since everything else there is a path on the disk.
#[cfg(feature = "app")]
const POLICY: &str = "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; \
    script-src 'unsafe-inline' 'unsafe-eval'; style-src 'unsafe-inline'; img-src data: blob:; \
    connect-src ws://127.0.0.1:* dioxus://index.html//__events dioxus://index.html//__file_dialog; \
    frame-src about:; base-uri 'none'; form-action 'none'\">";

/// The window's settings.
#[cfg(feature = "app")]
#[must_use]
pub fn window_config(folder: &std::path::Path, size: (f64, f64)) -> dioxus::desktop::Config {
    use dioxus::desktop::{Config, LogicalSize, WindowBuilder};
    let window = WindowBuilder::new()
        .with_title("Curbcore")
        .with_inner_size(LogicalSize::new(size.0, size.1))
        .with_min_inner_size(LogicalSize::new(320.0, 480.0));
    Config::new()
        .with_menu(None)
        .with_window(window)
        .with_data_directory(folder.join("window"))
        .with_custom_head(POLICY.to_owned())
        // The page is the app, and the bench page a frame within it: nothing leads away from them.
        .with_navigation_handler(|address| address.starts_with("about:"))
        // Developer tools come with the context menu.
        .with_disable_context_menu(true)
}

/// Switches the developer tools of the window's web view off, which the framework builds in and switches
/// on; returns whether they are off. Nothing happens where there is no window.
#[cfg(all(feature = "app", target_os = "linux"))]
#[must_use]
pub fn switch_off_developer_tools() -> bool {
    use dioxus::desktop::DesktopContext;
    use dioxus::desktop::wry::WebViewExtUnix;
    use webkit2gtk::{SettingsExt, WebViewExt};
    let Some(window) = try_consume_context::<DesktopContext>() else {
        return true;
    };
    let settings = WebViewExt::settings(&window.webview.webview());
    settings.is_some_and(|settings| {
        settings.set_enable_developer_extras(false);
        !settings.enables_developer_extras()
    })
}

/// Opens the window and runs the app until it is closed.
#[cfg(feature = "app")]
pub fn launch(folder: &std::path::Path, size: (f64, f64)) {
    dioxus::LaunchBuilder::desktop()
        .with_cfg(window_config(folder, size))
        .with_context(DataFolder(folder.to_owned()))
        .launch(App);
}
