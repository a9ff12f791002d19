//! The command line. Bad input ends with exit code 2 and one sentence that names the field.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{Parser, Subcommand};
use curbcore::app::answer::answer;
use curbcore::app::start::demo_job;
use curbcore::job::{JobFile, JobId, MAX_BYTES, job_schema};
use curbcore::quantity::LengthUnit;
use curbcore::report;
use curbcore::store::{Store, data_folder};

#[derive(Parser)]
#[command(
    name = "curbcore",
    version,
    about = "From a scrapped microwave oven's transformer to a winding that suits its new use."
)]
struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
    /// Size of the window, such as 360x800.
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = window_size)]
    window: Option<(f64, f64)>,
}

#[derive(Subcommand)]
enum Command {
    /// Print a job's page for the bench (HTML), or every result (JSON).
    Report {
        /// A stored job's id, or a job file.
        job: String,
        /// Every result, with its unit in the key, instead of the page.
        #[arg(long)]
        json: bool,
        /// Lengths in inches instead of millimetres.
        #[arg(long)]
        inches: bool,
    },
    /// Write the demo job file.
    Demo {
        /// Where to; to the terminal where it is left out.
        file: Option<PathBuf>,
    },
    /// Print the JSON Schema of a job file.
    JobSchema,
}

fn window_size(text: &str) -> Result<(f64, f64), String> {
    let wrong = || format!("\"{text}\" is not a size; write it like 360x800, each side from 200 to 10000");
    let (width, height) = text.split_once('x').ok_or_else(wrong)?;
    let side = |side: &str| {
        side.parse::<f64>()
            .ok()
            .filter(|v| (200.0..=10_000.0).contains(v))
            .ok_or_else(wrong)
    };
    Ok((side(width)?, side(height)?))
}

/// Runs what the command line asks.
pub fn run() -> ExitCode {
    let arguments = Arguments::parse();
    let result = match arguments.command {
        Some(Command::Report { job, json, inches }) => {
            let unit = if inches {
                LengthUnit::Inch
            } else {
                LengthUnit::Millimetre
            };
            print_report(&job, json, unit)
        }
        Some(Command::Demo { file }) => write_demo(file.as_deref()),
        Some(Command::JobSchema) => {
            let schema = serde_json::to_string_pretty(&job_schema()).unwrap_or_default();
            print(&schema)
        }
        None => return open_window(arguments.window),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => refuse(&sentence),
    }
}

fn refuse(sentence: &str) -> ExitCode {
    eprintln!("curbcore: {sentence}");
    ExitCode::from(2)
}

/// Prints, and takes a closed pipe for the reader's wish to stop.
fn print(text: &str) -> Result<(), String> {
    match writeln!(std::io::stdout(), "{}", text.trim_end()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(format!("cannot print: {error}")),
        _ => Ok(()),
    }
}

fn print_report(job: &str, json: bool, unit: LengthUnit) -> Result<(), String> {
    let file = read_job(job)?;
    let answer = answer(&file).map_err(|error| format!("choice.conductor or stock: {error}"))?;
    if json {
        print(&serde_json::to_string_pretty(&report::json(&file, &answer)).unwrap_or_default())
    } else {
        print(&report::page(&file, &answer, unit))
    }
}

/// A stored job where `job` is an id and no file of that name stands there, else the file.
fn read_job(job: &str) -> Result<JobFile, String> {
    let path = Path::new(job);
    if !path.exists() {
        let Ok(id) = job.parse() else {
            return Err(format!("{job} is neither a job file nor the id of a stored job"));
        };
        let folder = data_folder().map_err(|error| error.to_string())?;
        let store = Store::open_read_only(&folder).map_err(|error| error.to_string())?;
        return store.load_job_file(JobId(id)).map_err(|error| error.to_string());
    }
    let size = std::fs::metadata(path)
        .map_err(|error| format!("cannot read {job}: {error}"))?
        .len();
    if size > MAX_BYTES as u64 {
        return Err(format!("{job} has {size} bytes; a job file has at most {MAX_BYTES}"));
    }
    let bytes = std::fs::read(path).map_err(|error| format!("cannot read {job}: {error}"))?;
    let text = String::from_utf8(bytes).map_err(|_| format!("{job} is not text in UTF-8, so it is no job file"))?;
    JobFile::parse(&text).map_err(|error| format!("{job}: {error}"))
}

fn write_demo(file: Option<&Path>) -> Result<(), String> {
    let text = demo_job().to_json();
    match file {
        None => print(&text),
        Some(path) => {
            let options = std::fs::OpenOptions::new().write(true).create_new(true).open(path);
            let mut out = options.map_err(|error| format!("cannot write {}: {error}", path.display()))?;
            out.write_all(text.as_bytes())
                .map_err(|error| format!("cannot write {}: {error}", path.display()))
        }
    }
}

#[cfg(not(feature = "app"))]
fn open_window(_: Option<(f64, f64)>) -> ExitCode {
    refuse("this build has no window; name a command (see --help)")
}

#[cfg(feature = "app")]
fn open_window(size: Option<(f64, f64)>) -> ExitCode {
    let folder = match data_folder() {
        Ok(folder) => folder,
        Err(error) => return refuse(&error.to_string()),
    };
    let _log = log_to(&folder);
    tracing::info!("starting in {}", folder.display());
    curbcore::ui::launch(&folder, size.unwrap_or((1180.0, 820.0)));
    ExitCode::SUCCESS
}

/// Logs to a file in the data folder, a new one each day and the last seven kept, and to
/// stderr; `CURBCORE_LOG` sets what (as in `info` or `curbcore=debug`).
#[cfg(feature = "app")]
fn log_to(folder: &Path) -> Option<tracing_appender::non_blocking::WorkerGuard> {
    use tracing_subscriber::{EnvFilter, fmt, layer::SubscriberExt, util::SubscriberInitExt};
    let filter = EnvFilter::try_from_env("CURBCORE_LOG").unwrap_or_else(|_| EnvFilter::new("warn,curbcore=info"));
    // Where the folder cannot be made, the builder below says so.
    let _ = std::fs::create_dir_all(folder.join("log"));
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
