//! The real window under a virtual display: from an empty store to a saved design, by mouse and
//! keyboard, with a screenshot of each screen in `artefacts/` (not in git).
//!
//! Needs Xvfb, xdotool and `ImageMagick`: ignored by `cargo test`, run by `platform/test.sh`.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.
#![cfg(feature = "app")]

mod whole_job;

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use curbcore::app::workspace::Workspace;
use curbcore::exchange::ENDING;
use curbcore::job::{JobFile, JobId};
use curbcore::quantity::Origin;
use curbcore::store::Store;
use curbcore::ui::{App, DataFolder};
use dioxus::prelude::VirtualDom;

/// Generous: the test machine may be busy.
const PATIENCE: Duration = Duration::from_secs(120);

/// A process that ends with the test.
struct Running(Child);
impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

struct Display {
    name: String,
    _server: Running,
}

impl Display {
    fn start() -> Self {
        Self::of_size(1280, 800)
    }

    fn of_size(width: u32, height: u32) -> Self {
        let screen = format!("{width}x{height}x24");
        let mut server = Command::new("Xvfb")
            // It takes a number that is free, and writes it once it is ready: tests run side by side. No key
            // repeat: on a busy machine a key would seem held down.
            .args(["-displayfd", "1", "-screen", "0", &screen, "-r"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb is installed (platform/test.sh installs it)");
        let mut number = String::new();
        BufReader::new(server.stdout.take().expect("a pipe"))
            .read_line(&mut number)
            .expect("the display's number");
        assert!(!number.trim().is_empty(), "no virtual display could be started");
        Self {
            name: format!(":{}", number.trim()),
            _server: Running(server),
        }
    }

    fn run(&self, program: &str, arguments: &[&str]) -> Option<String> {
        let out = Command::new(program)
            .args(arguments)
            .env("DISPLAY", &self.name)
            .output()
            .ok()?;
        out.status
            .success()
            .then(|| String::from_utf8_lossy(&out.stdout).trim().to_owned())
    }
}

/// The app in its window, and what it logs.
struct Window<'d> {
    display: &'d Display,
    size: (u32, u32),
    folder: PathBuf,
    log: Receiver<String>,
    app: Running,
}

impl<'d> Window<'d> {
    fn open(display: &'d Display, folder: &Path, size: (u32, u32)) -> Self {
        let mut app = Command::new(env!("CARGO_BIN_EXE_curbcore"))
            .args(["--window", &format!("{}x{}", size.0, size.1)])
            .env("DISPLAY", &display.name)
            .env("CURBCORE_DATA", folder)
            .env("CURBCORE_LOG", "curbcore=debug")
            .stderr(Stdio::piped())
            .spawn()
            .expect("the app starts");
        let stderr = app.stderr.take().expect("a pipe");
        let (sender, log) = channel();
        std::thread::spawn(move || {
            for line in BufReader::new(stderr).lines().map_while(Result::ok) {
                if sender.send(line).is_err() {
                    break;
                }
            }
        });
        let window = Self {
            display,
            size,
            folder: folder.to_owned(),
            log,
            app: Running(app),
        };
        window.wait_for("shown");
        window.wait_for_paint();
        window
    }

    /// Waits for a line of the log.
    fn wait_for(&self, part: &str) {
        let until = Instant::now() + PATIENCE;
        while Instant::now() < until {
            match self.log.recv_timeout(Duration::from_millis(500)) {
                Ok(line) if line.contains(part) => return,
                _ => {}
            }
        }
        self.screenshot("stuck");
        panic!("the app never logged \"{part}\"");
    }

    /// Waits until there is more on the display than a bare background.
    fn wait_for_paint(&self) {
        let until = Instant::now() + PATIENCE;
        while Instant::now() < until {
            let path = self.screenshot("opening");
            let colours = self
                .display
                .run("identify", &["-format", "%k", path.to_str().expect("a path")]);
            if colours
                .and_then(|text| text.parse::<u32>().ok())
                .is_some_and(|count| count > 20)
            {
                return;
            }
            std::thread::sleep(Duration::from_millis(500));
        }
        panic!("the window stayed empty");
    }

    fn key(&self, keys: &[&str]) {
        let mut arguments = vec!["key", "--delay", "30"];
        arguments.extend(keys);
        self.display.run("xdotool", &arguments).expect("xdotool presses keys");
        std::thread::sleep(Duration::from_millis(300));
    }

    fn type_text(&self, text: &str) {
        // As fast as it goes: no keystroke may be lost.
        self.display
            .run("xdotool", &["type", "--delay", "1", text])
            .expect("xdotool types");
        // Keys go through the input method, which a click may overtake on a busy machine.
        std::thread::sleep(Duration::from_millis(2500));
    }

    fn click(&self, x: u32, y: u32) {
        let (x, y) = (x.to_string(), y.to_string());
        self.display
            .run("xdotool", &["mousemove", &x, &y, "click", "1"])
            .expect("xdotool clicks");
        std::thread::sleep(Duration::from_millis(300));
    }

    /// Goes to a place of the bar or a stage of the job, by its word, with the keyboard alone. A stage is on the path
    /// of the job's screens, and on the page of what is in hand.
    fn go(&self, word: &str) {
        let stage = ["size-up", "teardown", "measure", "rewind", "wind", "bench"].contains(&word);
        let on_path = format!("id=\"stage-{word}\"");
        if !stage {
            self.focus(&format!("id=\"place-{word}\""));
        } else if self.html().contains(&on_path) {
            self.focus(&on_path);
        } else {
            self.focus("id=\"place-donor\"");
            self.key(&["Return"]);
            self.wait_for("shown: donor");
            std::thread::sleep(Duration::from_secs(3));
            self.focus(&format!("id=\"way-{word}\""));
        }
        self.key(&["Return"]);
        self.wait_for(&format!("shown: {word}"));
        // From the log's line to pixels on the display.
        std::thread::sleep(Duration::from_secs(4));
        self.screenshot(word);
    }

    /// Moves the keyboard's focus to the control that follows `marker` in the page, as a person
    /// would with the tab key.
    fn focus(&self, marker: &str) {
        // A corner of the head, from where the tab key goes through the page.
        self.click(if self.size.0 >= 1000 { 140 } else { 6 }, 6);
        let tabs = tabs_to(&self.html(), marker);
        for _ in 0..tabs {
            self.key(&["Tab"]);
        }
    }

    /// The screen as the virtual DOM renders it from a copy of the data.
    fn html(&self) -> String {
        let copy = tempfile::tempdir().expect("a folder");
        for entry in std::fs::read_dir(&self.folder).expect("the data folder").flatten() {
            if entry.path().is_file() {
                std::fs::copy(entry.path(), copy.path().join(entry.file_name())).expect("a copy");
            }
        }
        at_home(copy.path());
        let mut dom = VirtualDom::new(App).with_root_context(DataFolder(copy.path().to_owned()));
        dom.rebuild_in_place();
        dioxus_ssr::render(&dom)
    }

    fn screenshot(&self, name: &str) -> PathBuf {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("artefacts");
        std::fs::create_dir_all(&folder).expect("a folder for screenshots");
        let (w, h) = self.size;
        let path = folder.join(format!("{w}x{h}-{name}.png"));
        let crop = format!("{w}x{h}+0+0");
        self.display
            .run(
                "import",
                &[
                    "-window",
                    "root",
                    "-crop",
                    &crop,
                    "+repage",
                    path.to_str().expect("a path"),
                ],
            )
            .expect("ImageMagick takes a screenshot");
        path
    }

    /// Waits until the saved job is as it should be.
    fn wait_until_saved(&self, what: &str, saved: impl Fn(&JobFile) -> bool) {
        let until = Instant::now() + PATIENCE;
        while !saved(&self.job()) {
            if Instant::now() > until {
                self.screenshot("stuck");
                panic!("{what} was never saved: {:?}", self.job());
            }
            std::thread::sleep(Duration::from_millis(500));
        }
        // From the store to pixels on the display.
        std::thread::sleep(Duration::from_secs(2));
    }

    /// Waits for the shelf file that the window makes.
    fn made_file(&self) -> PathBuf {
        let until = Instant::now() + PATIENCE;
        loop {
            let mut files = std::fs::read_dir(&self.folder).expect("the data folder").flatten();
            let made = files.find(|entry| entry.path().extension().is_some_and(|ending| ending == ENDING));
            if let Some(made) = made {
                return made.path();
            }
            assert!(Instant::now() < until, "no file was made");
            std::thread::sleep(Duration::from_millis(500));
        }
    }

    fn job(&self) -> JobFile {
        let store = Store::open_read_only(&self.folder).expect("the store is readable beside the app");
        let id: JobId = store.job_summaries(1, None).expect("a list").first().expect("a job").id;
        store.job_file(id).expect("the job")
    }
}

/// Lets a copy pass for the original, so that it shows gates as they are: a copied folder passes
/// none (`Store::is_at_home`), which is tested elsewhere.
fn at_home(copy: &Path) {
    let lock = std::fs::metadata(copy.join("curbcore.lock")).expect("the folder's lock");
    let made = lock.created().expect("a file system that tells when a file was made");
    let made = made
        .duration_since(std::time::UNIX_EPOCH)
        .expect("after 1970")
        .as_nanos();
    let data = rusqlite::Connection::open(copy.join("curbcore.db")).expect("the copy");
    data.execute("UPDATE own SET home = ?1", [format!("made {made}")])
        .expect("the copy is writable");
}

/// How many times the tab key goes from the page's start to the first control at or after
/// `marker`: controls that are not disabled and not folded away.
fn tabs_to(html: &str, marker: &str) -> usize {
    let at = html
        .find(marker)
        .unwrap_or_else(|| panic!("{marker} is not on the screen"));
    // The folds round a place, one within another: whether each is closed.
    let mut folds: Vec<bool> = Vec::new();
    let mut count = 0;
    for (start, _) in html.match_indices('<') {
        let tag = &html[start..start + html[start..].find('>').unwrap_or(0)];
        let name: String = tag[1..]
            .chars()
            .take_while(|c| c.is_alphanumeric() || *c == '/')
            .collect();
        let control = match name.as_str() {
            "details" => {
                folds.push(!tag.contains(" open"));
                false
            }
            "/details" => {
                folds.pop();
                false
            }
            // A fold's own title is outside it.
            "summary" => !folds.iter().rev().skip(1).any(|closed| *closed),
            "button" | "input" | "select" => {
                let enabled = !tag.contains(" disabled") || tag.contains("disabled=false");
                enabled && !folds.contains(&true)
            }
            _ => false,
        };
        if control {
            count += 1;
            if start + tag.len() >= at {
                return count;
            }
        }
    }
    panic!("no control after {marker}");
}

#[test]
fn tabs_are_counted_past_folds() {
    let html = r#"<button>a</button><details><summary>s</summary><input></details><button disabled="true">b</button><select></select><button id="x">"#;
    assert_eq!(tabs_to(html, "id=\"x\""), 4);
    let nested =
        r#"<details><summary>s</summary><details><summary>t</summary></details><input></details><button id="x">"#;
    assert_eq!(tabs_to(nested, "id=\"x\""), 2);
}

#[test]
#[ignore = "needs a display, xdotool and ImageMagick; platform/test.sh runs it"]
fn from_an_empty_store_to_a_saved_design() {
    let folder = tempfile::tempdir().expect("a folder");
    let display = Display::start();
    {
        let window = Window::open(&display, folder.path(), (360, 800));
        window.screenshot("empty");
        window.focus("id=\"ui-door-core\"");
        window.key(&["Return"]);
        std::thread::sleep(Duration::from_secs(2));
        // The question that opens has the focus on its first field: the name, then the outlet, then the button.
        window.type_text("Garage tab welder, second try");
        window.key(&["Tab", "Tab", "Return"]);
        window.wait_for("shown: measure");
        std::thread::sleep(Duration::from_secs(3));
        assert_eq!(
            window.job().name,
            "Garage tab welder, second try",
            "typed at full speed, nothing lost"
        );
        for (key, text) in [
            ("tongue", "36.2"),
            ("stack", "61.5"),
            ("window_width", "18.6"),
            ("window_height", "57"),
        ] {
            if key == "tongue" {
                // The list of lengths, the other way in beside the drawing.
                window.focus("data-fold=\"lengths\"");
                window.key(&["Return"]);
                std::thread::sleep(Duration::from_secs(2));
            }
            window.focus(&format!("id=\"core-{key}_mm\""));
            window.key(&["ctrl+a"]);
            window.type_text(text);
            window.key(&["Tab"]);
            window.wait_until_saved(key, |job| {
                let core = &job.core;
                let held = match key {
                    "tongue" => core.tongue_mm,
                    "stack" => core.stack_mm,
                    "window_width" => core.window_width_mm,
                    _ => core.window_height_mm,
                };
                held.value.to_string() == text && held.origin == Origin::Calipers
            });
        }
        window.screenshot("measure-filled");
        window.go("rewind");
        window.focus("id=\"take-winding\"");
        window.key(&["Return"]);
        window.wait_until_saved("the winding", |job| job.choice.is_some());
        window.screenshot("rewind-chosen");
        window.go("bench");
        window.focus(">Open the page");
        window.key(&["Return"]);
        window.wait_for("shown: page");
        std::thread::sleep(Duration::from_secs(3));
        window.screenshot("page");
        // The stages stand above the page, whose own frame takes a stop of the tab key.
        window.go("rewind");
    }
    // Closed and opened again, larger: it is all still there.
    let window = Window::open(&display, folder.path(), (1280, 800));
    window.screenshot("opened-again");
    let job = window.job();
    assert!(job.choice.is_some() && (job.core.tongue_mm.value - 36.2).abs() < 1e-9);
    window.go("more");
    // The shelf leaves in a file, and another device takes it in.
    window.focus(">Import or export files");
    window.key(&["Return"]);
    window.wait_for("shown: sync");
    std::thread::sleep(Duration::from_secs(3));
    window.focus(">Make the file");
    window.key(&["Return"]);
    let parcel = window.made_file();
    std::thread::sleep(Duration::from_secs(3));
    window.screenshot("file-made");
    let elsewhere = tempfile::tempdir().expect("a folder");
    let mut workspace = Workspace::open(elsewhere.path()).expect("another device");
    workspace.import_shelf(&parcel, None, |_| ()).expect("it is taken in");
    let id = workspace.store().job_summaries(1, None).expect("a list")[0].id;
    assert_eq!(workspace.store().job_file(id).expect("the job").choice, job.choice);
}

/// What the window's page can reach, tried by a page of its own (`examples/window_policy.rs`): no file of
/// this machine, no network, no developer tools; its styles and the framed page for the bench work.
#[test]
#[ignore = "needs a display, xdotool and ImageMagick; platform/test.sh runs it"]
fn the_page_reaches_no_file_and_no_network() {
    let display = Display::of_size(640, 480);
    let folder = tempfile::tempdir().unwrap();
    let secret = folder.path().join("secret.js");
    std::fs::write(&secret, "window.reached = 'secret'; // secret").unwrap();
    let program = Path::new(env!("CARGO_BIN_EXE_curbcore-window"))
        .with_file_name("examples")
        .join("window_policy");
    assert!(program.exists(), "build it first: cargo build --example window_policy");
    let mut child = Running(
        Command::new(program)
            .arg(&secret)
            .env("DISPLAY", &display.name)
            .env("CURBCORE_DATA", folder.path())
            .env("WEBKIT_DISABLE_COMPOSITING_MODE", "1")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap(),
    );
    let (send, lines) = channel();
    let out = BufReader::new(child.0.stdout.take().unwrap());
    std::thread::spawn(move || out.lines().map_while(Result::ok).for_each(|line| drop(send.send(line))));
    let mut said = Vec::new();
    while let Ok(line) = lines.recv_timeout(PATIENCE) {
        said.push(line);
    }
    for wanted in [
        "tools: false",
        "fetch: kept out",
        "request: kept out",
        "script: kept out",
        "frame: kept out",
        "network: kept out",
        "style: 123",
        "page: 77",
    ] {
        assert!(said.iter().any(|line| line == wanted), "{wanted} is not in {said:?}");
    }
}
