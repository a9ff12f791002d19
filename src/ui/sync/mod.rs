//! The screen for other devices: export a file, preview and import one, settle conflicts.

mod conflicts;
mod preview;

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

pub use conflicts::ConflictsHere;
use dioxus::prelude::*;

use super::background::run_in_background;
use super::controls::{Choices, FilePick, Picked, Switch, Unreadable, or_why};
use super::share;
use super::state::{AppState, Screen};
use super::words::{say, say_with};
use crate::app::sync::{Export, ExportedFile, ImportResult, Progress, Sending, Stage};
use crate::app::workspace::{Workspace, WorkspaceError};
use crate::exchange::{ENDING, ExchangeError, Existing, Incoming, Passphrase};
use crate::job::JobId;
use crate::text::Arg;

/// The largest file that can be imported, in bytes: a browser's page and a phone hold it in memory.
const MAX_IMPORT_BYTES: u64 = if cfg!(any(target_family = "wasm", target_os = "android")) {
    512 << 20
} else {
    1 << 50
};

/// What may be picked: a phone's own dialog knows no ending but the common ones, and would show
/// shelf files in grey.
fn pickable() -> String {
    if cfg!(any(target_family = "wasm", target_os = "android")) {
        String::new()
    } else {
        format!(".{ENDING},application/zip")
    }
}

/// The state of the screen's long operation.
#[derive(Clone, Copy)]
struct Work {
    app: Signal<AppState>,
    /// Its progress; `None` if nothing runs.
    progress: Signal<Option<Progress>>,
    /// Set when the person cancels it.
    cancel: Signal<Arc<AtomicBool>>,
    /// Its outcome, as a sentence.
    told: Signal<Option<String>>,
    /// The passphrase for export and import; kept no longer than this screen.
    phrase: Signal<String>,
    /// A previewed file that waits for confirmation.
    waiting: Signal<Option<(Incoming, ImportResult)>>,
    /// An exported file that can be shared.
    made: Signal<Option<ExportedFile>>,
}

enum Step<T> {
    On(Progress),
    Done(Box<Workspace>, Result<T, WorkspaceError>),
}

impl Work {
    /// Runs an operation on the data in the background; returns its result, or shows the error.
    async fn run<T: Send + 'static>(
        mut self,
        work: impl FnOnce(&mut Workspace, &mut dyn FnMut(&Progress)) -> Result<T, WorkspaceError> + Send + 'static,
    ) -> Option<T> {
        let taken = self.app.write().take_workspace();
        let mut workspace = taken?;
        self.told.set(None);
        self.progress.set(Some(Progress::default()));
        let cancel = Arc::new(AtomicBool::new(false));
        self.cancel.set(cancel.clone());
        let (tell, mut told) = futures_channel::mpsc::unbounded();
        spawn(async move {
            run_in_background(move || {
                let result = work(&mut workspace, &mut |progress| {
                    if cancel.load(Ordering::Relaxed) {
                        progress.cancel();
                    }
                    let _ = tell.unbounded_send(Step::On(progress.clone()));
                });
                let _ = tell.unbounded_send(Step::Done(Box::new(workspace), result));
            })
            .await;
        });
        let mut found = None;
        while let Ok(step) = told.recv().await {
            match step {
                Step::On(progress) => self.progress.set(Some(progress)),
                Step::Done(workspace, result) => {
                    self.app.write().restore_workspace(*workspace);
                    match result {
                        Ok(value) => found = Some(value),
                        Err(WorkspaceError::Exchange(ExchangeError::Cancelled)) => {
                            self.told.set(Some(say("ui-sync-cancelled")));
                        }
                        Err(error) => self.told.set(Some(error.to_string())),
                    }
                    break;
                }
            }
        }
        self.progress.set(None);
        found
    }

    async fn export(mut self, export: Export) {
        let folder = self.app.peek().folder();
        let phrase = Passphrase::typed(&self.phrase.peek());
        let sealed = if phrase.is_some() {
            "ui-sync-is-sealed"
        } else {
            "ui-sync-not-sealed"
        };
        self.made.set(None);
        let handed = self
            .run(move |workspace, tell| workspace.export_file(&folder, &export, phrase.as_ref(), tell))
            .await;
        if let Some(handed) = handed {
            let made = say_with(
                "ui-sync-made",
                &[
                    ("path", Arg::Text(&handed.place.display().to_string())),
                    ("records", Arg::Number(handed.manifest.records as f64)),
                    ("photos", Arg::Number(handed.manifest.photos as f64)),
                ],
            );
            self.told.set(Some(format!("{made} {}", say(sealed))));
            share::share_files(vec![handed.place.clone()]);
            if share::is_possible(&handed) {
                self.made.set(Some(handed));
            }
        }
    }

    async fn pick(mut self, file: Picked) {
        if file.size() > MAX_IMPORT_BYTES {
            return self.told.set(Some(say("ui-sync-too-large")));
        }
        match file.incoming().await {
            Some(from) => self.preview(from).await,
            None => self.told.set(Some(say("ui-sync-unread"))),
        }
    }

    async fn preview(mut self, file: Incoming) {
        self.waiting.set(None);
        let from = file.clone();
        let phrase = Passphrase::typed(&self.phrase.peek());
        if let Some(parcel) = self
            .run(move |workspace, tell| workspace.preview_shelf(from, phrase.as_ref(), tell))
            .await
        {
            self.waiting.set(Some((file, parcel)));
        }
    }

    async fn import(mut self, file: Incoming) {
        self.waiting.set(None);
        let phrase = Passphrase::typed(&self.phrase.peek());
        if self
            .run(move |workspace, tell| workspace.import_shelf(file, phrase.as_ref(), tell))
            .await
            .is_some()
        {
            self.told.set(Some(say("ui-sync-taken")));
        }
    }
}

/// The screen.
#[component]
pub fn SyncScreen() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut work = Work {
        app,
        progress: use_signal(|| None),
        cancel: use_signal(Arc::default),
        told: use_signal(|| None),
        phrase: use_signal(String::new),
        waiting: use_signal(|| None),
        made: use_signal(|| None),
    };
    if let Some(progress) = (work.progress)() {
        let cancelled = work.cancel.read().load(Ordering::Relaxed);
        return rsx! {
            Working {
                progress, cancelled,
                oncancel: move |()| work.cancel.write().store(true, Ordering::Relaxed),
            }
        };
    }
    let waiting = (work.waiting)();
    rsx! {
        p { class: "soft", {say("ui-sync-what")} }
        if let Some(text) = (work.told)() {
            p { class: "told", role: "status", "{text}" }
        }
        if let Some(handed) = (work.made)() {
            button { class: "second wide", onclick: move |_| share::share(&handed), {say("ui-sync-pass-on")} }
        }
        if let Some((file, parcel)) = waiting {
            preview::Preview {
                parcel,
                ontake: move |()| { spawn(work.import(file.clone())); },
                onleave: move |()| work.waiting.set(None),
            }
        }
        conflicts::Conflicts {}
        div { class: "columns files",
            div { class: "form",
                section {
                    h2 { {say("ui-sync-in")} }
                    FilePick {
                        id: "sync-in", label: say("ui-sync-pick"), accept: pickable(), most: MAX_IMPORT_BYTES,
                        onpick: move |file: Picked| { spawn(work.pick(file)); },
                    }
                }
                details { class: "seal",
                    summary { {say("ui-sync-seal")} }
                    p { class: "soft", {say("ui-sync-seal-help")} }
                    div { class: "field",
                        label { r#for: "passphrase", {say("ui-sync-phrase")} }
                        input {
                            id: "passphrase",
                            class: "value long",
                            r#type: "password",
                            autocomplete: "off",
                            initial_value: "",
                            onchange: move |event| work.phrase.set(event.value()),
                        }
                    }
                }
            }
            div { class: "rest",
                Out { onmake: move |export: Export| { spawn(work.export(export)); } }
                super::Copies {}
                button { class: "second wide", onclick: move |_| app.write().go(Screen::Home), {say("ui-to-home")} }
            }
        }
    }
}

/// How far a longer piece of work is, as a text.
fn stage_text(progress: &Progress) -> String {
    let counts = [
        ("done", Arg::Number(progress.done as f64)),
        ("of", Arg::Number(progress.of as f64)),
    ];
    match progress.stage {
        Stage::Key => say("ui-sync-key"),
        Stage::Photos => say_with("ui-sync-photos-done", &counts),
        Stage::Records if progress.of > 0 => say_with("ui-sync-progress", &counts),
        Stage::Records => say_with("ui-sync-done", &counts[..1]),
    }
}

/// How far a longer piece of work is, and the way to cancel it. In a browser the work holds the page's
/// one thread until it ends.
#[component]
fn Working(progress: Progress, cancelled: bool, oncancel: EventHandler<()>) -> Element {
    let text = if cancelled {
        say("ui-sync-cancelling")
    } else {
        stage_text(&progress)
    };
    rsx! {
        section { class: "working", role: "status",
            h2 { {say("ui-sync-working")} }
            if progress.of > 0 {
                progress { max: "{progress.of}", value: "{progress.done}" }
            } else {
                progress {}
            }
            p { "{text}" }
            if cfg!(not(target_family = "wasm")) {
                button { class: "second wide", disabled: cancelled, onclick: move |_| oncancel.call(()), {say("ui-cancel")} }
            }
        }
    }
}

/// The export form: this device's name, the records to export, and the button.
#[component]
fn Out(onmake: EventHandler<Export>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut chosen = use_signal(|| "all".to_owned());
    // The jobs that were ticked, for a file with some of them.
    let mut ticked = use_signal(Vec::<JobId>::new);
    let mut keep_position = use_signal(|| false);
    let (jobs, unread): (Vec<(JobId, String)>, _) = {
        let app = app.read();
        let listed = app
            .jobs()
            .map(|(jobs, _)| jobs.iter().map(|job| (job.id, job.name.clone())).collect());
        or_why(listed)
    };
    let some = chosen() == "some";
    let (name, options, unread) = {
        let app = app.read();
        let mut options = vec![("all".to_owned(), say("ui-sync-all"))];
        if let Some(file) = app.file() {
            options.push((
                "job".to_owned(),
                say_with("ui-sync-job", &[("name", Arg::Text(&file.name))]),
            ));
        }
        if app.jobs().is_ok_and(|(_, count)| count > 1) {
            options.push(("some".to_owned(), say("ui-sync-some")));
        }
        let (peers, no_peers) = or_why(app.query(|workspace| workspace.store().peers()));
        for peer in peers {
            let number = peer.device.to_string();
            let called = if peer.name.is_empty() { &number } else { &peer.name };
            let text = say_with("ui-sync-new-for", &[("name", Arg::Text(called))]);
            options.push((number.clone(), text));
        }
        let (own, no_own) = or_why(app.query(|data| Ok::<_, WorkspaceError>(data.store().own()?.name)));
        (own, options, unread.or(no_peers).or(no_own))
    };
    rsx! {
        section {
            h2 { {say("ui-sync-out")} }
            Unreadable { why: unread }
            div { class: "field",
                label { r#for: "device-name", {say("ui-sync-device")} }
                input {
                    id: "device-name",
                    class: "value long",
                    autocomplete: "off",
                    maxlength: "60",
                    initial_value: "{name}",
                    placeholder: say("ui-sync-device-hint"),
                    onchange: move |event| app.write().name_device(&event.value()),
                }
            }
            Choices {
                label: say("ui-sync-which"), options, chosen: chosen(),
                onchoose: move |word: String| chosen.set(word),
            }
            if some {
                for (id, name) in jobs {
                    Switch {
                        key: "{id}",
                        label: name,
                        on: ticked.read().contains(&id),
                        onswitch: move |on: bool| {
                            let mut ticked = ticked.write();
                            ticked.retain(|job| *job != id);
                            if on {
                                ticked.push(id);
                            }
                        },
                    }
                }
            }
            Switch {
                label: say("ui-sync-position"), on: keep_position(),
                onswitch: move |on: bool| keep_position.set(on),
            }
            p { class: "soft", {say("ui-sync-position-help")} }
            button {
                class: "main wide",
                disabled: some && ticked.read().is_empty(),
                onclick: move |_| {
                    let sending = if chosen() == "some" {
                        Sending::Jobs(ticked.read().clone())
                    } else {
                        app.read().sending(&chosen())
                    };
                    onmake.call(Export { sending, keep_position: keep_position(), existing: Existing::Refuse });
                },
                {say("ui-sync-make")}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(progress: Progress, cancelled: bool) -> String {
        #[derive(Props, Clone, PartialEq)]
        struct Given {
            progress: Progress,
            cancelled: bool,
        }
        #[allow(non_snake_case)]
        fn Screen(given: Given) -> Element {
            use_context_provider(super::super::words::Words::english);
            rsx! {
                Working { progress: given.progress, cancelled: given.cancelled, oncancel: |()| () }
            }
        }
        let mut dom = VirtualDom::new_with_props(Screen, Given { progress, cancelled });
        dom.rebuild_in_place();
        dioxus_ssr::render(&dom)
    }

    /// Each stage has its line, and each can be cancelled.
    #[test]
    fn the_work_shows_its_stage_and_can_be_cancelled() {
        let at = |stage, done, of| {
            let mut progress = Progress::default();
            (progress.stage, progress.done, progress.of) = (stage, done, of);
            progress
        };
        for (progress, text) in [
            (at(Stage::Key, 0, 0), "Calculating the key"),
            (at(Stage::Records, 500, 0), "500 records"),
            (at(Stage::Records, 500, 900), "500 of 900 records"),
            (at(Stage::Photos, 2, 7), "2 of 7 photos"),
        ] {
            let html = shown(progress.clone(), false);
            assert!(html.contains(text) && html.contains("Cancel"), "{html}");
            assert!(shown(progress, true).contains("Stopping"));
        }
    }
}
