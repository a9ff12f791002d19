//! The command line. Bad input ends with exit code 2 and one sentence that names the field.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{Parser, Subcommand};
use curbcore::app::answer::answer;
use curbcore::app::bench::plan;
use curbcore::app::materials::materials_table;
use curbcore::app::shop::Shop;
use curbcore::app::start::demo_job;
use curbcore::app::travel::Sending;
use curbcore::exchange::{Passphrase, manifest_schema, record_schema, table};
use curbcore::job::{JobFile, JobId, MAX_BYTES, job_schema};
use curbcore::photo::Sheet;
use curbcore::quantity::LengthUnit;
use curbcore::report;
use curbcore::store::data_folder;

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
    JobSchema {
        /// Of what: a job file, or a part of a shelf file
        #[arg(default_value = "job", value_parser = ["job", "manifest", "record"])]
        of: String,
    },
    /// Write the shelf, or some jobs of it, to a file that another device can take in; sealed with the
    /// passphrase in the environment variable `CURBCORE_PASSPHRASE`, if there is one
    Export {
        /// The file, such as garage.curbshelf
        file: PathBuf,
        /// Only this job, by its id; may be given more than once
        #[arg(long = "job", value_name = "ID")]
        jobs: Vec<String>,
        /// Only what is new for a device that sent a file before, by its number
        #[arg(long = "for", value_name = "DEVICE", conflicts_with = "jobs")]
        device: Option<String>,
    },
    /// Take in a file from another device
    Import {
        /// The file
        file: PathBuf,
        /// Only tell what it would do
        #[arg(long)]
        look: bool,
    },
    /// Print a job's tables for a spreadsheet, as CSV
    Csv {
        /// A job file, or the id of a stored job
        job: String,
        /// What was measured (of a stored job), or what to get
        #[arg(value_parser = ["measurements", "materials"])]
        table: String,
    },
    /// Write a job's drawings into a folder, as SVG
    Drawings {
        /// A job file, or the id of a stored job
        job: String,
        /// The folder; it is made where it does not exist
        folder: PathBuf,
        /// Lengths in inches
        #[arg(long)]
        inches: bool,
    },
    /// Write the target that a photo is measured by, to be printed at its actual size (HTML).
    Target {
        /// Where to; to the terminal where it is left out.
        file: Option<PathBuf>,
        /// The paper: a4 or letter.
        #[arg(long, default_value = "a4", value_parser = sheet)]
        paper: Sheet,
    },
}

/// What tells the web view of a Linux desktop not to compose its page on the graphics processor.
const NO_COMPOSITING: &str = "WEBKIT_DISABLE_COMPOSITING_MODE";

/// Width and height of the window where none is given.
const WINDOW_SIZE: (f64, f64) = (1180.0, 820.0);

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

fn sheet(word: &str) -> Result<Sheet, String> {
    Sheet::from_word(word).ok_or_else(|| format!("\"{word}\" is no paper of the target; it is a4 or letter"))
}

/// Runs what the command line asks.
pub fn run() -> ExitCode {
    let arguments = Arguments::parse();
    let result = match arguments.command {
        Some(Command::Report { job, json, inches }) => print_report(&job, json, unit_of(inches)),
        Some(Command::Demo { file }) => write_demo(file.as_deref()),
        Some(Command::Target { file, paper }) => report::target_page(paper)
            .map_err(|error| error.to_string())
            .and_then(|page| write_or_print(file.as_deref(), &page)),
        Some(Command::JobSchema { of }) => {
            let schema = match of.as_str() {
                "manifest" => serde_json::to_string_pretty(&manifest_schema()),
                "record" => serde_json::to_string_pretty(&record_schema()),
                _ => serde_json::to_string_pretty(&job_schema()),
            };
            print(&schema.unwrap_or_default())
        }
        Some(Command::Export { file, jobs, device }) => export(&file, &jobs, device.as_deref()),
        Some(Command::Import { file, look }) => import(&file, look),
        Some(Command::Csv { job, table }) => print_table(&job, &table),
        Some(Command::Drawings { job, folder, inches }) => write_drawings(&job, &folder, unit_of(inches)),
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

const fn unit_of(inches: bool) -> LengthUnit {
    if inches {
        LengthUnit::Inch
    } else {
        LengthUnit::Millimetre
    }
}

fn open_shop() -> Result<Shop, String> {
    let folder = data_folder().map_err(|error| error.to_string())?;
    Shop::open(&folder).map_err(|error| error.to_string())
}

/// The passphrase of a sealed file: out of the environment, so that no list of commands shows it.
fn passphrase() -> Option<Passphrase> {
    Passphrase::typed(&std::env::var("CURBCORE_PASSPHRASE").unwrap_or_default())
}

fn export(file: &Path, jobs: &[String], device: Option<&str>) -> Result<(), String> {
    let sending = match device {
        Some(number) => Sending::NewFor(number.parse().map_err(|error| format!("--for {number}: {error}"))?),
        None if jobs.is_empty() => Sending::All,
        None => Sending::Jobs(
            jobs.iter()
                .map(|id| {
                    id.parse()
                        .map(JobId)
                        .map_err(|_| format!("--job {id}: this is no id of a job"))
                })
                .collect::<Result<_, _>>()?,
        ),
    };
    let manifest = open_shop()?
        .write_shelf(file, &sending, passphrase().as_ref(), |_| ())
        .map_err(|error| error.to_string())?;
    print(&format!(
        "{}: {} records, {} photos",
        file.display(),
        manifest.records,
        manifest.photos
    ))
}

fn import(file: &Path, look: bool) -> Result<(), String> {
    let mut shop = open_shop()?;
    let parcel = if look {
        shop.look_into(file, passphrase().as_ref(), |_| ())
    } else {
        shop.take_in_shelf(file, passphrase().as_ref(), |_| ())
    }
    .map_err(|error| error.to_string())?;
    let arrival = parcel.arrival;
    for (kind, tally) in &arrival.tallies {
        let line = format!(
            "{}: {} new, {} changed, {} removed",
            kind.word(),
            tally.new,
            tally.changed,
            tally.removed
        );
        print(&line)?;
    }
    for (kind, name) in &arrival.forked {
        print(&format!("two values: {} \"{name}\"", kind.word()))?;
    }
    print(&format!("{} records were known already", arrival.same))
}

fn print_table(job: &str, which: &str) -> Result<(), String> {
    let (file, stored) = read_job(job)?;
    let found = if which == "measurements" {
        let (shop, id) = stored.ok_or("a job file has no history of measurements; name a stored job by its id")?;
        shop.measurements_table(id).map_err(|error| error.to_string())?
    } else {
        let answer = answer(&file).map_err(|error| format!("choice.conductor or stock: {error}"))?;
        let design = answer
            .design
            .as_ref()
            .ok_or("no winding was found for this job, so there is nothing to get")?;
        materials_table(design)
    };
    print(&table(&found))
}

fn write_drawings(job: &str, folder: &Path, unit: LengthUnit) -> Result<(), String> {
    let (file, _) = read_job(job)?;
    let answer = answer(&file).map_err(|error| format!("choice.conductor or stock: {error}"))?;
    std::fs::create_dir_all(folder).map_err(|error| format!("cannot make {}: {error}", folder.display()))?;
    for (name, svg) in report::drawings(&file, &answer, unit) {
        write_or_print(Some(&folder.join(format!("{name}.svg"))), &svg)?;
    }
    Ok(())
}

fn print_report(job: &str, json: bool, unit: LengthUnit) -> Result<(), String> {
    let (file, stored) = read_job(job)?;
    let answer = answer(&file).map_err(|error| format!("choice.conductor or stock: {error}"))?;
    let answer = match &stored {
        Some((shop, _)) => answer.joined_with(&file, |id| shop.job(id).ok()),
        None => answer,
    };
    let tests = match stored {
        Some((shop, id)) => {
            let planned = answer.design.as_ref().and_then(|d| plan(&file, &answer, d).ok());
            shop.tests(id, planned.as_ref()).map_err(|error| error.to_string())?
        }
        None => None,
    };
    if json {
        let document = report::json(&file, &answer, tests.as_ref());
        print(&serde_json::to_string_pretty(&document).unwrap_or_default())
    } else {
        print(&report::page(&file, &answer, tests.as_ref(), unit).map_err(|error| error.to_string())?)
    }
}

/// A stored job where `job` is an id and no file of that name stands there, with where it is
/// stored, else the file.
fn read_job(job: &str) -> Result<(JobFile, Option<(Shop, JobId)>), String> {
    let path = Path::new(job);
    if !path.exists() {
        let Ok(id) = job.parse() else {
            return Err(format!("{job} is neither a job file nor the id of a stored job"));
        };
        let folder = data_folder().map_err(|error| error.to_string())?;
        let shop = Shop::open_read_only(&folder).map_err(|error| error.to_string())?;
        let file = shop.job(JobId(id)).map_err(|error| error.to_string())?;
        return Ok((file, Some((shop, JobId(id)))));
    }
    let size = std::fs::metadata(path)
        .map_err(|error| format!("cannot read {job}: {error}"))?
        .len();
    if size > MAX_BYTES as u64 {
        return Err(format!("{job} has {size} bytes; a job file has at most {MAX_BYTES}"));
    }
    let bytes = std::fs::read(path).map_err(|error| format!("cannot read {job}: {error}"))?;
    let text = String::from_utf8(bytes).map_err(|_| format!("{job} is not text in UTF-8, so it is no job file"))?;
    let file = JobFile::parse(&text).map_err(|error| format!("{job}: {error}"))?;
    Ok((file, None))
}

fn write_demo(file: Option<&Path>) -> Result<(), String> {
    write_or_print(file, &demo_job().to_json())
}

fn write_or_print(file: Option<&Path>, text: &str) -> Result<(), String> {
    match file {
        // What is there already is left alone.
        Some(path) => std::fs::OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(path)
            .and_then(|mut out| out.write_all(text.as_bytes()))
            .map_err(|error| format!("cannot write {}: {error}", path.display())),
        None => print(text),
    }
}

/// Runs the window, which is a program of its own beside this one: its libraries take longer to
/// load than a report takes to print.
fn open_window(size: Option<(f64, f64)>) -> ExitCode {
    let name = format!("curbcore-window{}", std::env::consts::EXE_SUFFIX);
    let program = match std::env::current_exe() {
        Ok(here) => here.with_file_name(&name),
        Err(_) => PathBuf::from(&name),
    };
    if !program.exists() {
        return refuse("this build has no window; name a command (see --help)");
    }
    let (width, height) = size.unwrap_or(WINDOW_SIZE);
    let mut window = std::process::Command::new(&program);
    window.arg(format!("{width}x{height}"));
    // The screens are papers that scroll: the processor paints them sooner than a graphics library is
    // up, in less memory, and no driver can spoil them. Who sets it otherwise has it otherwise.
    if std::env::var_os(NO_COMPOSITING).is_none() {
        window.env(NO_COMPOSITING, "1");
    }
    run_instead(window, &program)
}

/// Becomes the other program; comes back only where that fails.
#[cfg(unix)]
fn run_instead(mut window: std::process::Command, program: &Path) -> ExitCode {
    use std::os::unix::process::CommandExt;
    let error = window.exec();
    refuse(&format!("cannot start {}: {error}", program.display()))
}

#[cfg(not(unix))]
fn run_instead(mut window: std::process::Command, program: &Path) -> ExitCode {
    match window.status() {
        Ok(status) if status.success() => ExitCode::SUCCESS,
        Ok(_) => ExitCode::FAILURE,
        Err(error) => refuse(&format!("cannot start {}: {error}", program.display())),
    }
}
