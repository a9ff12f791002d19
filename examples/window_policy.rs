//! A window with the app's own settings, whose page tries to leave them. What it could do is printed, a
//! line for each try; `tests/window` reads them.

use curbcore::ui::window_config;
use dioxus::prelude::*;

/// Tries to read a file of this machine in each way that a page has, and to load a script.
const TRIES: &str = r#"
const file = await dioxus.recv();
const tries = {
    fetch: async () => (await fetch(file)).text(),
    request: () => new Promise((yes, no) => {
        const request = new XMLHttpRequest();
        request.onload = () => yes(request.responseText);
        request.onerror = () => no("error");
        request.open("GET", file);
        request.send();
    }),
    script: () => new Promise((yes, no) => {
        const script = document.createElement("script");
        script.src = file;
        script.onload = () => yes(String(window.reached));
        script.onerror = () => no("error");
        document.head.append(script);
    }),
    frame: () => new Promise((yes, no) => {
        const frame = document.createElement("iframe");
        frame.src = file;
        frame.onload = () => {
            const text = frame.contentDocument && frame.contentDocument.body.innerText;
            text ? yes(text) : no("empty");
        };
        document.body.append(frame);
        setTimeout(() => no("nothing came"), 2000);
    }),
    network: async () => (await fetch("http://127.0.0.1:1/")).text(),
};
for (const [name, attempt] of Object.entries(tries)) {
    let got;
    try { got = "reached " + (await attempt()).trim(); } catch (error) { got = "kept out"; }
    dioxus.send(name + ": " + got);
}
const style = document.createElement("style");
style.textContent = "h1 { width: 123px }";
document.head.append(style);
dioxus.send("style: " + document.querySelector("h1").offsetWidth);
const bench = document.createElement("iframe");
bench.srcdoc = "<style>p { width: 77px }</style><p>page</p>";
bench.onload = () => dioxus.send("page: " + bench.contentDocument.querySelector("p").offsetWidth);
document.body.append(bench);
"#;

fn main() {
    let folder = curbcore::store::data_folder().unwrap_or_default();
    dioxus::LaunchBuilder::desktop()
        .with_cfg(window_config(&folder, (600.0, 400.0)))
        .launch(Page);
}

#[allow(non_snake_case)]
fn Page() -> Element {
    use_future(|| async {
        let mut page = document::eval(TRIES);
        let file = std::env::args().nth(1).unwrap_or_default();
        if page.send(file).is_err() {
            return;
        }
        while let Ok(line) = page.recv::<String>().await {
            println!("{line}");
            if line.starts_with("page:") {
                std::process::exit(0);
            }
        }
    });
    #[cfg(target_os = "linux")]
    use_hook(|| println!("tools: {}", !curbcore::ui::switch_off_developer_tools()));
    rsx! { h1 { "Policy" } }
}
