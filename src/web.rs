//! The app as a page of a browser (see platform/web/).

/// Where the page begins.
#[cfg(target_family = "wasm")]
fn main() {
    log_to_console();
    curbcore::ui::launch_in_browser();
}

/// There is nothing to run elsewhere: platform/web/build.sh builds the page.
#[cfg(not(target_family = "wasm"))]
fn main() {
    eprintln!("curbcore-web is built for a browser: platform/web/build.sh");
}

/// Writes the log, and where a panic came from, to the browser's console.
#[cfg(target_family = "wasm")]
fn log_to_console() {
    use tracing_subscriber::{EnvFilter, fmt};
    std::panic::set_hook(Box::new(|panic| web_sys::console::error_1(&panic.to_string().into())));
    let _ = fmt()
        .with_env_filter(EnvFilter::new("warn,curbcore=info"))
        .without_time()
        .with_ansi(false)
        .with_writer(|| Line(Vec::new()))
        .try_init();
}

/// A line of the log; written where it ends.
#[cfg(target_family = "wasm")]
struct Line(Vec<u8>);

#[cfg(target_family = "wasm")]
impl std::io::Write for Line {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[cfg(target_family = "wasm")]
impl Drop for Line {
    fn drop(&mut self) {
        web_sys::console::log_1(&String::from_utf8_lossy(&self.0).trim_end().into());
    }
}
