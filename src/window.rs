//! The window. `curbcore` without a command runs this; its one argument is the size, `WIDTHxHEIGHT`.

use std::path::Path;
use std::process::ExitCode;

use curbcore::store::data_folder;

fn main() -> ExitCode {
    let folder = match data_folder() {
        Ok(folder) => folder,
        Err(error) => {
            eprintln!("curbcore: {error}");
            return ExitCode::from(2);
        }
    };
    let _log = log_to(&folder);
    tracing::info!("starting in {}", folder.display());
    let size = std::env::args().nth(1).and_then(|text| {
        let (width, height) = text.split_once('x')?;
        Some((width.parse().ok()?, height.parse().ok()?))
    });
    curbcore::ui::launch(&folder, size.unwrap_or((1180.0, 820.0)));
    ExitCode::SUCCESS
}

/// Logs to a file in the data folder, a new one each day and the last seven kept, and to
/// stderr; `CURBCORE_LOG` sets what (as in `info` or `curbcore=debug`).
fn log_to(folder: &Path) -> Option<tracing_appender::non_blocking::WorkerGuard> {
    use tracing_subscriber::{EnvFilter, fmt, layer::SubscriberExt, util::SubscriberInitExt};
    let filter = EnvFilter::try_from_env("CURBCORE_LOG")
        .unwrap_or_else(|_| EnvFilter::new("warn,curbcore=info,curbcore_window=info"));
    // Where the folder cannot be made, the builder below says so.
    let _ = curbcore::store::private_folder(&folder.join("log"));
    let file = tracing_appender::rolling::Builder::new()
        .rotation(tracing_appender::rolling::Rotation::DAILY)
        .filename_prefix("curbcore")
        .filename_suffix("log")
        .max_log_files(7)
        .build(folder.join("log"));
    let stderr = fmt::layer().with_writer(std::io::stderr).with_ansi(false);
    let registry = tracing_subscriber::registry().with(filter).with(stderr);
    match file {
        Ok(file) => {
            let _ = curbcore::store::private_files(&folder.join("log"));
            let (writer, guard) = tracing_appender::non_blocking(file);
            let _ = registry
                .with(fmt::layer().with_writer(writer).with_ansi(false))
                .try_init();
            Some(guard)
        }
        Err(error) => {
            let _ = registry.try_init();
            tracing::warn!("no log file: {error}");
            None
        }
    }
}
