//! A large shelf on its way: 10,000 jobs with 100 records each (another number as the first
//! argument). Targets, on one core: out and in at 100,000 records a second each, a merge of two
//! shelves with 1 % of two values within twice the time in, the list in 50 ms, a search in 20 ms,
//! peak memory under 128 MiB.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use std::io::BufWriter;
use std::path::Path;
use std::time::{Duration, Instant};

use curbcore::app::sync::Sending;
use curbcore::app::workspace::Workspace;
use curbcore::exchange::{Holds, Sender, Writer};
use curbcore::merge::{Device, Kind, RecordLine, Stamp};
use curbcore::store::{ExportScope, Store};
use serde_json::json;
use uuid::Uuid;

/// One job's records: the demo's, and notes to make up a hundred.
fn template(folder: &Path) -> Vec<RecordLine> {
    let mut workspace = Workspace::open(folder).unwrap();
    workspace.open_demo().unwrap();
    drop(workspace);
    let store = Store::open_read_only(folder).unwrap();
    let mut lines = Vec::new();
    store
        .export(
            &ExportScope::All,
            |kind, _, text| -> Result<(), curbcore::store::StoreError> {
                if kind != Kind::Stock {
                    lines.push(RecordLine::parse(text.trim_end()).unwrap());
                }
                Ok(())
            },
        )
        .unwrap();
    let job = lines.iter().find(|line| line.kind == Kind::Job).unwrap().clone();
    let stamp = job.known.seen().stamps().next().unwrap();
    for number in lines.len()..100 {
        let values = json!({
            "owner": { "job": job.id.to_string() }, "text": format!("Note {number}: layer checked, lead-out sleeved."),
            "created_ms": 1_800_000_000_000_u64, "edited_ms": 1_800_000_000_000_u64,
        });
        lines.push(RecordLine {
            kind: Kind::Note,
            id: Uuid::from_u128(number as u128),
            known: curbcore::merge::RecordHistory::new(stamp, values.as_object().unwrap().clone()),
        });
    }
    lines
}

fn pieces(line: &RecordLine, template: &[RecordLine]) -> Vec<(String, Option<Uuid>)> {
    let mut pieces = vec![(line.to_json(), None)];
    for old in template {
        let id = old.id.to_string();
        pieces = pieces
            .into_iter()
            .flat_map(|(text, after)| {
                let mut parts: Vec<(String, Option<Uuid>)> =
                    text.split(&id).map(|part| (part.to_owned(), Some(old.id))).collect();
                if let Some(last) = parts.last_mut() {
                    last.1 = after;
                }
                parts
            })
            .collect();
    }
    pieces
}

/// A file with that many jobs; in each hundredth record, a change that the other side lacks.
fn make(path: &Path, template: &[RecordLine], jobs: u128, changed_by: Option<Device>) {
    let file = BufWriter::new(std::fs::File::create(path).unwrap());
    let mut writer = Writer::new(file).unwrap();
    // The text of each, cut at the ids in it.
    type Pieces = Vec<(String, Option<Uuid>)>;
    let cut: Vec<(Kind, Pieces)> = template
        .iter()
        .map(|line| (line.kind, pieces(line, template)))
        .collect();
    for kind in Kind::ALL {
        for number in 1..=jobs {
            for (at, (_, pieces)) in cut.iter().enumerate().filter(|(_, (of, _))| *of == kind) {
                let mut text = String::new();
                for (plain, id) in pieces {
                    text.push_str(plain);
                    if let Some(id) = id {
                        text.push_str(&Uuid::from_u128(id.as_u128() ^ (number << 64)).to_string());
                    }
                }
                let changes = (number as usize + at).is_multiple_of(100) && matches!(kind, Kind::Note | Kind::Job);
                if let (Some(device), true) = (changed_by, changes || kind == Kind::Job) {
                    let mut line = RecordLine::parse(&text).unwrap();
                    let stamp = Stamp {
                        count: 90 + device.0,
                        device,
                    };
                    let field = if kind == Kind::Note { "text" } else { "note" };
                    line.known.write(stamp, field, json!(format!("changed by {device}")));
                    text = line.to_json();
                }
                text.push('\n');
                writer.record(&text).unwrap();
            }
        }
    }
    let sender = Sender {
        device: changed_by.unwrap_or(Device(1)),
        name: "bench".to_owned(),
    };
    writer.finish(sender, Holds::All, uuid::Uuid::nil(), 0).unwrap();
}

/// What a clock on the wall and this process's share of its processors say.
struct Clocks {
    wall: Instant,
    used: f64,
}

impl Clocks {
    fn start() -> Self {
        Self {
            wall: Instant::now(),
            used: processor_seconds(),
        }
    }

    /// Prints both rates; the second is that of one core with nothing else on it, but for waiting.
    fn rate(&self, what: &str, records: u64) -> Duration {
        let (took, used) = (self.wall.elapsed(), processor_seconds() - self.used);
        println!(
            "{what}: {records} records in {:.2} s, {:.0} records/s; of the processor {used:.2} s, {:.0} records/s",
            took.as_secs_f64(),
            records as f64 / took.as_secs_f64(),
            records as f64 / used
        );
        took
    }
}

/// Processor time of this process so far, by itself and in the system, in hundredths of a second.
fn processor_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // Behind the name, which may have anything in it, the times are the twelfth and thirteenth.
    let fields = stat.rsplit(')').next().unwrap_or_default().split_whitespace();
    let ticks = fields.skip(11).take(2).filter_map(|ticks| ticks.parse::<f64>().ok());
    ticks.sum::<f64>() / 100.0
}

fn peak_mib() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM:"));
    line.and_then(|line| line.split_whitespace().nth(1)?.parse::<f64>().ok())
        .unwrap_or(f64::NAN)
        / 1024.0
}

fn main() {
    let jobs: u128 = std::env::args().find_map(|word| word.parse().ok()).unwrap_or(10_000);
    let folder = tempfile::tempdir().unwrap();
    let template = template(&folder.path().join("template"));
    let (first, second, out) = (
        folder.path().join("1"),
        folder.path().join("2"),
        folder.path().join("3"),
    );
    make(&first, &template, jobs, Some(Device(0xa)));
    make(&second, &template, jobs, Some(Device(0xb)));
    println!("files of {} MiB", std::fs::metadata(&first).unwrap().len() >> 20);

    let mut workspace = Workspace::open(&folder.path().join("shelf")).unwrap();
    let records = template.len() as u64 * jobs as u64;
    let clocks = Clocks::start();
    workspace.import_shelf(&first, None, |_| ()).unwrap();
    let took_in = clocks.rate("in", records);

    let clocks = Clocks::start();
    workspace.export_shelf(&out, &Sending::All, None, |_| ()).unwrap();
    clocks.rate("out", records);

    let clocks = Clocks::start();
    let merged = workspace.import_shelf(&second, None, |_| ()).unwrap();
    let took = clocks.rate("merge", records);
    println!(
        "merge/in: {:.2}; {} with two values",
        took.as_secs_f64() / took_in.as_secs_f64(),
        workspace.store().conflict_count().unwrap()
    );
    assert!(merged.arrival.same > 0);
    drop(workspace);

    let start = Instant::now();
    let workspace = Workspace::open(&folder.path().join("shelf")).unwrap();
    let listed = workspace.store().job_summaries(40, None).unwrap();
    println!(
        "open and list: {:.1} ms, {} of {}",
        start.elapsed().as_secs_f64() * 1e3,
        listed.len(),
        workspace.store().job_count().unwrap()
    );
    let start = Instant::now();
    let found = workspace.store().search_jobs("tab weld", 40).unwrap();
    println!(
        "search: {:.1} ms, {} found",
        start.elapsed().as_secs_f64() * 1e3,
        found.len()
    );
    println!("peak memory: {:.0} MiB", peak_mib());
}
