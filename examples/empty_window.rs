//! A Dioxus window with nothing in it but a line: what `platform/desktop/start.sh` holds the app's start
//! and memory against.

use dioxus::desktop::{Config, LogicalSize, WindowBuilder};
use dioxus::prelude::*;

fn main() {
    // As the app does it (`ui::launch`), the web view's data in a folder of its own.
    let folder = curbcore::store::data_folder().unwrap_or_default();
    let window = WindowBuilder::new()
        .with_title("Empty")
        .with_inner_size(LogicalSize::new(1180.0, 820.0));
    let config = Config::new()
        .with_menu(None)
        .with_window(window)
        .with_data_directory(folder.join("window"))
        .with_disable_context_menu(true);
    dioxus::LaunchBuilder::desktop()
        .with_cfg(config)
        .launch(|| rsx! { h1 { style: "color: #b00", "Empty" } });
}
