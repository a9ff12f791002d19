//! The power goes at any moment, the disk is full, a sync fails: every write that was acknowledged
//! is there afterwards, and the store opens clean. The work is done by a second process, which is
//! this test program itself.
#![cfg(target_os = "linux")]

use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use curbcore::app::sync::Sending;
use curbcore::app::workspace::{Workspace, WorkspaceError};
use curbcore::exchange::{self, ExchangeError};
use curbcore::job::JobId;
use curbcore::magnetics::circuit::mains::OUTLETS;
use curbcore::store::{Store, StoreError};

use crate::carry::TestDevice;

/// Kills of each of the three kinds of work: a thousand in all.
const KILLS: u64 = 334;

fn say(text: &str) {
    let mut out = std::io::stdout();
    writeln!(out, "{text}").unwrap();
    out.flush().unwrap();
}

/// The second process: works on a folder until it is killed, or says why it ended.
#[test]
#[ignore = "run by the tests of this file as a process of its own"]
fn child() {
    let folder = PathBuf::from(std::env::var_os("CHILD_FOLDER").unwrap());
    let parcel = folder.join("parcel.curbshelf");
    say("ready");
    let ended = match std::env::var("CHILD_WORK").unwrap().as_str() {
        "save" => save(&folder),
        "import" => import(&folder, &parcel),
        _ => export(&folder, &parcel),
    };
    say(&format!("ended {}", ended.unwrap_err()));
}

fn save(folder: &Path) -> Result<(), Box<dyn std::error::Error>> {
    let mut workspace = open(folder)?;
    let job = workspace.store().job_summaries(1, None)?[0].id;
    for number in next_number(&workspace, job).. {
        workspace.rename(job, &format!("job {number}"))?;
        say(&format!("did {number}"));
    }
    Ok(())
}

fn next_number(workspace: &Workspace, job: JobId) -> u64 {
    let name = workspace
        .store()
        .job_file(job)
        .map(|file| file.name)
        .unwrap_or_default();
    name.strip_prefix("job ")
        .and_then(|number| number.parse::<u64>().ok())
        .map_or(1, |number| number + 1)
}

fn import(folder: &Path, parcel: &Path) -> Result<(), Box<dyn std::error::Error>> {
    let mut workspace = open(folder)?;
    loop {
        if workspace.store().job_count()? == 0 {
            workspace.import_shelf(parcel, None, |_| ())?;
            say("did in");
        }
        workspace.undo()?;
        say("did out");
    }
}

fn export(folder: &Path, parcel: &Path) -> Result<(), Box<dyn std::error::Error>> {
    let mut workspace = open(folder)?;
    loop {
        workspace.export_shelf(parcel, &Sending::All, None, |_| ())?;
        say("did out");
    }
}

fn start(work: &str, folder: &Path, with: impl FnOnce(&mut Command)) -> Child {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command
        .args(["--exact", "faults::child", "--ignored", "--nocapture"])
        .env("CHILD_WORK", work)
        .env("CHILD_FOLDER", folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null());
    with(&mut command);
    command.spawn().unwrap()
}

/// What the child said that it did, until it was killed some time after it was ready.
fn live_and_die(mut child: Child, after: Duration) -> Vec<String> {
    let mut lines = BufReader::new(child.stdout.take().unwrap());
    let mut line = String::new();
    while !line.starts_with("ready") {
        line.clear();
        assert!(lines.read_line(&mut line).unwrap() > 0, "the child did not start");
    }
    std::thread::sleep(after);
    child.kill().unwrap();
    child.wait().unwrap();
    let mut rest = String::new();
    lines.read_to_string(&mut rest).unwrap();
    // A line that was cut off was not acknowledged.
    let whole = rest.rfind('\n').map_or("", |end| &rest[..end]);
    let did: Vec<String> = whole
        .lines()
        .filter_map(|line| line.strip_prefix("did "))
        .map(str::to_owned)
        .collect();
    assert!(!whole.contains("ended"), "{whole}");
    did
}

/// Moments to kill at: spread over twice the time that the child takes for two pieces of work on
/// this machine, as loaded as it is.
fn moments(work: &str, folder: &Path) -> impl Iterator<Item = Duration> {
    let mut child = start(work, folder, |_| ());
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let mut wait_for = |word: &str| {
        lines
            .by_ref()
            .map(Result::unwrap)
            .find(|line| line.starts_with(word))
            .unwrap()
    };
    wait_for("ready");
    let begun = Instant::now();
    wait_for("did");
    wait_for("did");
    let span = begun.elapsed() * 2;
    child.kill().unwrap();
    child.wait().unwrap();
    let mut seed = 11_u64;
    (0..KILLS).map(move |_| {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        span.mul_f64((seed >> 33) as f64 / f64::from(1_u32 << 31))
    })
}

#[test]
fn killed_while_saving() {
    let mut desktop = TestDevice::new("desktop");
    let job = desktop.workspace.open_demo().unwrap();
    let TestDevice { workspace, folder } = desktop;
    drop(workspace);
    let mut acknowledged = 0;
    for after in moments("save", folder.path()) {
        let did = live_and_die(start("save", folder.path(), |_| ()), after);
        if let Some(last) = did.last() {
            acknowledged = last.parse().unwrap();
        }
        store(folder.path()).verify().unwrap();
        let workspace = crate::faults::workspace(folder.path());
        assert!(
            next_number(&workspace, job) > acknowledged,
            "an acknowledged write is gone"
        );
    }
    assert!(acknowledged > KILLS / 10, "the children did nothing: {acknowledged}");
}

/// Opens what another process had open. A process that another test starts at this moment holds
/// on to this one's files until it becomes itself.
fn free<T>(with: impl Fn() -> Result<T, WorkspaceError>) -> Result<T, WorkspaceError> {
    for _ in 0..200 {
        match with() {
            Err(WorkspaceError::Store(StoreError::InUseElsewhere { .. })) => {
                std::thread::sleep(Duration::from_millis(10));
            }
            other => return other,
        }
    }
    with()
}

fn open(folder: &Path) -> Result<Workspace, WorkspaceError> {
    free(|| Workspace::open(folder))
}

fn workspace(folder: &Path) -> Workspace {
    open(folder).unwrap()
}

fn store(folder: &Path) -> Store {
    free(|| Ok(Store::open(folder)?)).unwrap()
}

/// A folder with a file of some jobs to take in.
fn with_parcel() -> (tempfile::TempDir, u32) {
    let mut phone = TestDevice::new("phone");
    phone.workspace.open_demo().unwrap();
    for number in 0..6 {
        phone
            .workspace
            .start_job(&format!("job {number}"), &OUTLETS[0])
            .unwrap();
    }
    let made = phone.pack(&Sending::All);
    let folder = tempfile::tempdir().unwrap();
    std::fs::copy(made, folder.path().join("parcel.curbshelf")).unwrap();
    (folder, phone.workspace.store().job_count().unwrap())
}

#[test]
fn killed_while_a_file_is_taken_in() {
    let (folder, all) = with_parcel();
    let mut seen = [0, 0];
    let mut did_something = 0;
    for after in moments("import", folder.path()) {
        let did = live_and_die(start("import", folder.path(), |_| ()), after);
        did_something += did.len();
        let store = crate::faults::store(folder.path());
        store.verify().unwrap();
        let count = store.job_count().unwrap();
        assert!(count == 0 || count == all, "half a file: {count} of {all}");
        seen[usize::from(count == all)] += 1;
    }
    assert!(
        did_something as u64 > KILLS / 10,
        "the children did nothing: {did_something}"
    );
    assert!(seen[0] > 0, "{seen:?}");
}

fn is_whole(path: &Path) -> u64 {
    let mut reader = exchange::open(path, None).unwrap();
    let mut count = 0;
    let read: Result<(), ExchangeError> = reader.records(|_| {
        count += 1;
        Ok(())
    });
    read.unwrap();
    count
}

#[test]
fn killed_while_a_file_is_made() {
    let mut desktop = TestDevice::new("desktop");
    desktop.workspace.open_demo().unwrap();
    let made = desktop.pack(&Sending::All);
    let records = is_whole(&made);
    let TestDevice { workspace, folder } = desktop;
    drop(workspace);
    for after in moments("export", folder.path()) {
        live_and_die(start("export", folder.path(), |_| ()), after);
        assert_eq!(is_whole(&made), records);
    }
}

/// The failing disk, built where there is a C compiler.
fn failing_disk(folder: &Path) -> PathBuf {
    let library = folder.join("disk.so");
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/travel/disk.c");
    let built = Command::new("cc")
        .args(["-shared", "-fPIC", "-O1", "-o"])
        .arg(&library)
        .arg(source)
        .arg("-ldl")
        .status()
        .unwrap();
    assert!(built.success());
    library
}

/// Lets a child work until the disk fails; gives what it did and what it said at the end.
fn until_it_fails(work: &str, folder: &Path, library: &Path, what: &str, after: u64) -> (Vec<String>, String) {
    let mut child = start(work, folder, |command| {
        command.env("LD_PRELOAD", library).env(what, after.to_string());
    });
    let mut said = String::new();
    child.stdout.take().unwrap().read_to_string(&mut said).unwrap();
    child.wait().unwrap();
    let did = said
        .lines()
        .filter_map(|line| line.strip_prefix("did "))
        .map(str::to_owned)
        .collect();
    let end = said
        .lines()
        .find_map(|line| line.strip_prefix("ended "))
        .unwrap_or_default()
        .to_owned();
    (did, end)
}

#[test]
fn a_full_disk_and_a_failing_sync_lose_nothing_acknowledged() {
    let tools = tempfile::tempdir().unwrap();
    let library = failing_disk(tools.path());
    for (what, steps) in [("DISK_BYTES", 40_000), ("DISK_SYNCS", 3)] {
        let mut failed = 0;
        for step in 0..12_u64 {
            let mut desktop = TestDevice::new("desktop");
            let job = desktop.workspace.open_demo().unwrap();
            let TestDevice { workspace, folder } = desktop;
            drop(workspace);
            let (did, end) = until_it_fails("save", folder.path(), &library, what, step * steps);
            assert!(!end.is_empty(), "it fell instead of saying why: {what} {step} {did:?}");
            failed += 1;
            let workspace = crate::faults::workspace(folder.path());
            let acknowledged: u64 = did.last().map_or(0, |last| last.parse().unwrap());
            assert!(
                next_number(&workspace, job) > acknowledged,
                "{what} after {step}: {end}"
            );
            drop(workspace);
            store(folder.path()).verify().unwrap();
        }
        assert_eq!(failed, 12);
    }
}

#[test]
fn a_full_disk_leaves_no_half_file_and_the_old_one_whole() {
    let tools = tempfile::tempdir().unwrap();
    let library = failing_disk(tools.path());
    let mut desktop = TestDevice::new("desktop");
    desktop.workspace.open_demo().unwrap();
    let made = desktop.pack(&Sending::All);
    let records = is_whole(&made);
    let TestDevice { workspace, folder } = desktop;
    drop(workspace);
    for after in [1_000, 3_000, 30_000] {
        let (_, end) = until_it_fails("export", folder.path(), &library, "DISK_BYTES", after);
        assert!(!end.is_empty());
        assert_eq!(is_whole(&made), records);
    }
}

#[test]
fn a_place_that_cannot_be_written_is_said() {
    let mut desktop = TestDevice::new("desktop");
    desktop.workspace.open_demo().unwrap();
    for place in ["/proc/x.curbshelf", "/no/such/folder/x.curbshelf"] {
        let error = desktop
            .workspace
            .export_shelf(Path::new(place), &Sending::All, None, |_| ())
            .unwrap_err();
        assert!(error.to_string().contains(place), "{error}");
    }
}
