//! The command line. Exit code 0: done; 1: `check` found the data damaged; 2: refused, with one
//! sentence that says what is wrong and what to do. docs/commands.md has the table.

use std::fs::File;
use std::io::{IsTerminal, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};

use clap::{Parser, Subcommand};
use curbcore::app::bench::plan_of;
use curbcore::app::evaluation::{Evaluation, evaluate};
use curbcore::app::materials::materials_table;
use curbcore::app::start::demo_job;
use curbcore::app::sync::{Export, Progress, Sending, Stage, copies, local_time, size_text};
use curbcore::app::workspace::{Workspace, WorkspaceError};
use curbcore::exchange::{ExchangeError, Existing, Passphrase, create_private, manifest_schema, record_schema, table};
use curbcore::job::{JobFile, JobId, MAX_BYTES, job_schema};
use curbcore::photo::Sheet;
use curbcore::quantity::LengthUnit;
use curbcore::report;
use curbcore::store::{StoreError, data_folder};
use curbcore::text::Texts;
use curbcore::wire::Catalogue;

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
        /// File to write; the terminal if left out.
        file: Option<PathBuf>,
    },
    /// Print the JSON Schema of a job file.
    JobSchema {
        /// A job file, or a part of a shelf file
        #[arg(default_value = "job", value_parser = ["job", "manifest", "record"])]
        of: String,
    },
    /// Write the shelf, or some jobs of it, to a file for another device. The passphrase in the environment
    /// variable `CURBCORE_PASSPHRASE` seals the file
    Export {
        /// The file, such as garage.curbshelf
        file: PathBuf,
        /// Only this job, by its id; may be given more than once
        #[arg(long = "job", value_name = "ID")]
        jobs: Vec<String>,
        /// Only what is new for a device that sent a file before, by its number
        #[arg(long = "for", value_name = "DEVICE", conflicts_with = "jobs")]
        device: Option<String>,
        /// Replace the file if there is one
        #[arg(long)]
        replace: bool,
        /// Keep the positions in the photos
        #[arg(long)]
        keep_position: bool,
    },
    /// Import a file from another device. The passphrase in the environment variable `CURBCORE_PASSPHRASE`
    /// opens a sealed file
    Import {
        /// The file
        file: PathBuf,
        /// Only show what importing the file would do
        #[arg(long)]
        look: bool,
    },
    /// Check that the data are whole: exit code 0 if they are, 1 if not
    Check,
    /// List the copies of the data, or restore one. The present data stay in the folder
    Copies {
        /// The number of the copy in the list
        #[arg(long, value_name = "NUMBER")]
        back: Option<usize>,
    },
    /// Print a job's tables for a spreadsheet, as CSV
    Csv {
        /// A job file, or the id of a stored job
        job: String,
        /// `measurements` of a stored job, or `materials` to get
        #[arg(value_parser = ["measurements", "materials"])]
        table: String,
    },
    /// Write a job's drawings into a folder, as SVG
    Drawings {
        /// A job file, or the id of a stored job
        job: String,
        /// The folder. It is made if it does not exist
        folder: PathBuf,
        /// Lengths in inches
        #[arg(long)]
        inches: bool,
    },
    /// Write the target for photos (HTML). Print it at its actual size.
    Target {
        /// File to write; the terminal if left out.
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
    Sheet::from_word(word).ok_or_else(|| format!("\"{word}\" is not a paper of the target; use a4 or letter"))
}

/// Why a command was not done: the exit code, and the sentence for the person.
struct Failure(u8, String);

impl From<String> for Failure {
    fn from(sentence: String) -> Self {
        Failure(2, sentence)
    }
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
        Some(Command::Export {
            file,
            jobs,
            device,
            replace,
            keep_position,
        }) => sending(&jobs, device.as_deref()).and_then(|sending| {
            let existing = if replace { Existing::Replace } else { Existing::Refuse };
            export(
                &file,
                &Export {
                    sending,
                    keep_position,
                    existing,
                },
            )
        }),
        Some(Command::Import { file, look }) => import(&file, look),
        Some(Command::Check) => {
            return match check() {
                Ok(()) => ExitCode::SUCCESS,
                Err(Failure(code, sentence)) => refuse(code, &sentence),
            };
        }
        Some(Command::Copies { back: None }) => list_copies(),
        Some(Command::Copies { back: Some(number) }) => go_back(number),
        Some(Command::Csv { job, table }) => print_table(&job, &table),
        Some(Command::Drawings { job, folder, inches }) => write_drawings(&job, &folder, unit_of(inches)),
        None => return open_window(arguments.window),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => refuse(2, &sentence),
    }
}

fn refuse(code: u8, sentence: &str) -> ExitCode {
    eprintln!("curbcore: {}", plain(sentence));
    ExitCode::from(code)
}

/// A text in one line that a terminal shows and does nothing else with: names come from files of other
/// people. Control characters, and those that turn the direction of writing, become question marks.
fn plain(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\n' | '\t' => ' ',
            '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
            c if c.is_control() => '\u{fffd}',
            c => c,
        })
        .collect()
}

/// Prints one line, made plain.
fn print_line(line: &str) -> Result<(), String> {
    print(&plain(line))
}

/// Prints a document, and takes a closed pipe for the reader's wish to stop. Control characters that are
/// no ends of lines become question marks: a terminal would obey them.
fn print(text: &str) -> Result<(), String> {
    let harmless = |c: char| {
        if c.is_control() && !matches!(c, '\n' | '\r' | '\t') {
            '\u{fffd}'
        } else {
            c
        }
    };
    let text: String = text.trim_end().chars().map(harmless).collect();
    match writeln!(std::io::stdout(), "{text}") {
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

fn open_workspace() -> Result<Workspace, String> {
    let folder = data_folder().map_err(|error| error.to_string())?;
    Workspace::open(&folder).map_err(|error| error.to_string())
}

/// Where the passphrase of a sealed file comes from: no list of commands shows it there.
const PASSPHRASE: &str = "CURBCORE_PASSPHRASE";

/// The passphrase of a sealed file, where one is set.
fn passphrase() -> Result<Option<Passphrase>, String> {
    let Some(text) = std::env::var_os(PASSPHRASE) else {
        return Ok(None);
    };
    let text = text
        .into_string()
        .map_err(|_| format!("{PASSPHRASE} is not text in UTF-8; nothing was done. Set it again"))?;
    match Passphrase::typed(&text) {
        Some(passphrase) => Ok(Some(passphrase)),
        None => Err(format!(
            "{PASSPHRASE} is set but empty; nothing was done. Set a passphrase, or unset it"
        )),
    }
}

/// What an export or import says, with the way to give a passphrase here.
fn said(error: &WorkspaceError) -> String {
    match error {
        WorkspaceError::Exchange(ExchangeError::Sealed { tried: false }) => format!(
            "this shelf file is sealed; nothing was done. Set its passphrase in the environment variable {PASSPHRASE}"
        ),
        WorkspaceError::Exchange(ExchangeError::Sealed { tried: true }) => {
            format!("the passphrase in {PASSPHRASE} is not that of this shelf file; nothing was done. Set it again")
        }
        other => other.to_string(),
    }
}

/// Shows on a terminal how far longer work is: nothing in the first half second, then five times a second.
struct ProgressLine {
    next: Instant,
    shown: bool,
}

impl ProgressLine {
    fn new() -> Self {
        Self {
            next: Instant::now() + Duration::from_millis(500),
            shown: false,
        }
    }

    fn show(&mut self, progress: &Progress) {
        if Instant::now() < self.next || !std::io::stderr().is_terminal() {
            return;
        }
        self.next = Instant::now() + Duration::from_millis(200);
        self.shown = true;
        let what = match progress.stage {
            Stage::Key => "key".to_owned(),
            Stage::Records => format!("{} records", progress.done),
            Stage::Photos => format!("{} of {} photos", progress.done, progress.of),
        };
        eprint!("\r\x1b[K{what} (Ctrl-C cancels)");
    }
}

impl Drop for ProgressLine {
    fn drop(&mut self) {
        if self.shown {
            eprint!("\r\x1b[K");
        }
    }
}

fn sending(jobs: &[String], device: Option<&str>) -> Result<Sending, String> {
    Ok(match device {
        Some(number) => Sending::NewFor(number.parse().map_err(|error| format!("--for {number}: {error}"))?),
        None if jobs.is_empty() => Sending::All,
        None => Sending::Jobs(
            jobs.iter()
                .map(|id| {
                    id.parse()
                        .map(JobId)
                        .map_err(|_| format!("--job {id}: this is not the id of a job"))
                })
                .collect::<Result<_, _>>()?,
        ),
    })
}

/// Refuses a place in the data folder, whose files belong to the program alone.
fn refuse_data_folder(file: &Path) -> Result<(), String> {
    let Ok(Ok(data)) = data_folder().map(|folder| folder.canonicalize()) else {
        return Ok(());
    };
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty());
    let inside = folder
        .unwrap_or(Path::new("."))
        .canonicalize()
        .is_ok_and(|folder| folder.starts_with(&data));
    if inside {
        return Err(format!(
            "{} is in the data folder, where Curbcore keeps its own files; nothing was written. Name a place elsewhere",
            file.display()
        ));
    }
    Ok(())
}

fn export(file: &Path, export: &Export) -> Result<(), String> {
    let passphrase = passphrase()?;
    let mut workspace = open_workspace()?;
    refuse_data_folder(file)?;
    if let Sending::Jobs(jobs) = &export.sending {
        for job in jobs {
            workspace
                .store()
                .job_file(*job)
                .map_err(|error| format!("--job {job}: {error}"))?;
        }
    }
    let mut line = ProgressLine::new();
    let manifest = workspace
        .export_shelf(file, export, passphrase.as_ref(), |progress| line.show(progress))
        .map_err(|error| said(&error))?;
    drop(line);
    let position = match (manifest.photos, export.keep_position) {
        (0, _) => "",
        (_, true) => " with their position",
        (_, false) => " without their position",
    };
    print_line(&format!(
        "{}: {} records, {} photos{position}, {}",
        file.display(),
        manifest.records,
        manifest.photos,
        if passphrase.is_some() { "sealed" } else { "not sealed" }
    ))
}

fn import(file: &Path, look: bool) -> Result<(), String> {
    let passphrase = passphrase()?;
    let mut workspace = open_workspace()?;
    let mut line = ProgressLine::new();
    let told = |progress: &Progress| line.show(progress);
    let parcel = if look {
        workspace.preview_shelf(file, passphrase.as_ref(), told)
    } else {
        workspace.import_shelf(file, passphrase.as_ref(), told)
    }
    .map_err(|error| said(&error))?;
    drop(line);
    let (manifest, arrival) = (parcel.manifest, parcel.arrival);
    print_line(&format!(
        "from {} ({}), made {}, {} unpacked",
        if manifest.from.name.is_empty() {
            "a device without a name"
        } else {
            &manifest.from.name
        },
        manifest.from.device,
        local_time(manifest.made_ms),
        size_text(parcel.unpacked),
    ))?;
    for (kind, tally) in &arrival.tallies {
        print_line(&format!(
            "{}: {} new, {} changed, {} removed",
            kind.word(),
            tally.new,
            tally.changed,
            tally.removed
        ))?;
    }
    for (kind, name) in &arrival.conflicting {
        print_line(&format!("two values: {} \"{name}\"", kind.word()))?;
    }
    print_line(&format!("{} records were known already", arrival.same))?;
    print_line(if look {
        "only looked at: nothing was changed"
    } else {
        "imported"
    })
}

fn check() -> Result<(), Failure> {
    let folder = data_folder().map_err(|error| error.to_string())?;
    match copies::verify(&folder) {
        Ok(()) => Ok(print("the data are whole")?),
        Err(error @ (StoreError::Damaged { .. } | StoreError::PutBack { .. })) => Err(Failure(1, error.to_string())),
        Err(error) => Err(Failure(2, error.to_string())),
    }
}

fn list_copies() -> Result<(), String> {
    let folder = data_folder().map_err(|error| error.to_string())?;
    let found = copies::of(&folder);
    if found.is_empty() {
        return print("there is no copy yet; the app makes one on each day that it is opened");
    }
    for (number, copy) in (1..).zip(found) {
        print_line(&format!(
            "{number}  {}  {}",
            local_time(copy.made_ms),
            copy.path.display()
        ))?;
    }
    Ok(())
}

fn go_back(number: usize) -> Result<(), String> {
    let folder = data_folder().map_err(|error| error.to_string())?;
    let found = copies::of(&folder);
    let copy = number.checked_sub(1).and_then(|at| found.get(at)).ok_or_else(|| {
        format!(
            "--back {number}: there is no such copy; the list has {} (see: curbcore copies)",
            found.len()
        )
    })?;
    copies::go_back(&folder, copy).map_err(|error| error.to_string())?;
    print_line(&format!(
        "the data are those of {}; the data from before stay in {}, in the file before-going-back with today's date",
        local_time(copy.made_ms),
        folder.display()
    ))
}

/// Evaluates a job file, every wire of whose stock must be in the catalogue.
fn evaluated(file: &JobFile) -> Result<Evaluation, String> {
    let mut catalogue = Catalogue::standard();
    for (index, wire) in file.stock.iter().enumerate() {
        catalogue
            .find_in_any_metal(&wire.conductor)
            .map_err(|error| format!("stock[{index}].conductor: {error}"))?;
    }
    evaluate(file).map_err(|error| format!("choice.conductor: {error}"))
}

fn print_table(job: &str, which: &str) -> Result<(), String> {
    let (file, stored) = read_job(job)?;
    let found = if which == "measurements" {
        let (workspace, id) = stored.ok_or("a job file has no history of measurements; name a stored job by its id")?;
        workspace.measurements_table(id).map_err(|error| error.to_string())?
    } else {
        let answer = evaluated(&file)?;
        let texts = Texts::english().map_err(|error| error.to_string())?;
        let materials = report::materials(&answer, &texts);
        if materials.is_empty() {
            return Err("no winding was found for this job, so there is nothing to get".to_owned());
        }
        materials_table(&materials, &texts)
    };
    print(&table(&found))
}

fn write_drawings(job: &str, folder: &Path, unit: LengthUnit) -> Result<(), String> {
    let (file, _) = read_job(job)?;
    let answer = evaluated(&file)?;
    std::fs::create_dir_all(folder).map_err(|error| format!("cannot make {}: {error}", folder.display()))?;
    for (name, svg) in report::drawings(&answer, unit) {
        write_or_print(Some(&folder.join(format!("{name}.svg"))), &svg)?;
    }
    Ok(())
}

fn print_report(job: &str, json: bool, unit: LengthUnit) -> Result<(), String> {
    let (file, stored) = read_job(job)?;
    let answer = evaluated(&file)?;
    let answer = match &stored {
        Some((workspace, id)) => answer.from_teardown(workspace.core_findings(*id)),
        None => answer,
    };
    let unsettled = match &stored {
        Some((workspace, id)) => workspace
            .conflicts_of(Some(*id), None)
            .map_err(|error| error.to_string())?,
        None => Vec::new(),
    };
    let tests = match stored {
        Some((workspace, id)) => {
            let planned = plan_of(&file, &answer).and_then(Result::ok);
            workspace
                .tests(id, planned.as_ref())
                .map_err(|error| error.to_string())?
        }
        None => None,
    };
    if json {
        let document = report::json(&answer, tests.as_ref());
        print(&serde_json::to_string_pretty(&document).unwrap_or_default())
    } else {
        print(&report::page(&answer, tests.as_ref(), &unsettled, unit).map_err(|error| error.to_string())?)
    }
}

/// A stored job where `job` is an id and no file of that name is there, with where it is
/// stored, else the file.
fn read_job(job: &str) -> Result<(JobFile, Option<(Workspace, JobId)>), String> {
    let path = Path::new(job);
    if !path.exists() {
        let Ok(id) = job.parse() else {
            return Err(format!("{job} is neither a job file nor the id of a stored job"));
        };
        let folder = data_folder().map_err(|error| error.to_string())?;
        let workspace = Workspace::open_read_only(&folder).map_err(|error| error.to_string())?;
        let file = workspace
            .store()
            .job_file(JobId(id))
            .map_err(|error| error.to_string())?;
        return Ok((file, Some((workspace, JobId(id)))));
    }
    let cannot = |error: std::io::Error| format!("cannot read {job}: {error}");
    // What a file says of its length is not believed: a device has none, and a pipe no end.
    let mut bytes = Vec::new();
    File::open(path)
        .map_err(cannot)?
        .take(MAX_BYTES as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(cannot)?;
    if bytes.len() > MAX_BYTES {
        return Err(format!(
            "{job} is too large for a job file, which has at most {MAX_BYTES} bytes"
        ));
    }
    let text = String::from_utf8(bytes).map_err(|_| format!("{job} is not text in UTF-8, so it is no job file"))?;
    let file = JobFile::parse(&text).map_err(|error| format!("{job}: {error}"))?;
    Ok((file, None))
}

fn write_demo(file: Option<&Path>) -> Result<(), String> {
    write_or_print(file, &demo_job().to_json())
}

fn write_or_print(file: Option<&Path>, text: &str) -> Result<(), String> {
    let Some(path) = file else { return print(text) };
    refuse_data_folder(path)?;
    // What is there already is left alone.
    create_private(path)
        .and_then(|mut out| out.write_all(text.as_bytes()))
        .map_err(|error| match error.kind() {
            std::io::ErrorKind::AlreadyExists => format!(
                "{} exists already; nothing was written. Choose another name",
                path.display()
            ),
            _ => format!("cannot write {}: {error}", path.display()),
        })
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
        return refuse(2, "this build has no window; name a command (see --help)");
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
    refuse(2, &format!("cannot start {}: {error}", program.display()))
}

#[cfg(not(unix))]
fn run_instead(mut window: std::process::Command, program: &Path) -> ExitCode {
    match window.status() {
        Ok(status) if status.success() => ExitCode::SUCCESS,
        Ok(_) => ExitCode::FAILURE,
        Err(error) => refuse(2, &format!("cannot start {}: {error}", program.display())),
    }
}
