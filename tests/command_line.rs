//! The program without its window, run as a person runs it.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use std::ffi::OsStr;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::sync::Mutex;

use curbcore::app::sync::copies;
use curbcore::app::workspace::Workspace;

/// Held while a program starts and while a test has data open: a process that was forked and has not
/// become the program yet holds the lock of the data too.
static STARTING: Mutex<()> = Mutex::new(());

fn run(command: &mut Command) -> Output {
    command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let child = {
        let _alone = STARTING.lock();
        command.spawn().expect("the program starts")
    };
    child.wait_with_output().unwrap()
}

fn curbcore(arguments: &[&str]) -> Output {
    run(Command::new(env!("CARGO_BIN_EXE_curbcore")).args(arguments))
}

fn in_workspace<T>(data: &Path, work: impl FnOnce(&mut Workspace) -> T) -> T {
    let _alone = STARTING.lock();
    work(&mut Workspace::open(data).unwrap())
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn demo_file(folder: &tempfile::TempDir) -> std::path::PathBuf {
    let path = folder.path().join("demo.json");
    let out = curbcore(&["demo", path.to_str().unwrap()]);
    assert!(out.status.success(), "{}", text(&out.stderr));
    path
}

#[test]
fn the_page_is_complete_in_itself() {
    let folder = tempfile::tempdir().unwrap();
    let out = curbcore(&["report", demo_file(&folder).to_str().unwrap()]);
    assert!(out.status.success(), "{}", text(&out.stderr));
    let page = text(&out.stdout);
    for part in [
        "<!DOCTYPE html>",
        "class=\"drawing section\"",
        "class=\"drawing plot\"",
        "Materials",
        "No mains before core and enclosure are grounded",
    ] {
        assert!(page.contains(part), "{part} is missing");
    }
    assert!(
        !page.contains("http://")
            || page.matches("http://").count() == page.matches("http://www.w3.org/2000/svg").count()
    );
    assert!(!page.contains("<script"));
}

#[test]
fn json_has_units_in_its_keys() {
    let folder = tempfile::tempdir().unwrap();
    let out = curbcore(&["report", demo_file(&folder).to_str().unwrap(), "--json"]);
    let json: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    let results = json.pointer("/design/results").expect("a design");
    let open = results
        .pointer("/open_circuit_v/value")
        .and_then(serde_json::Value::as_f64)
        .expect("volts");
    let turns = json
        .pointer("/design/winding/turns")
        .and_then(serde_json::Value::as_f64)
        .expect("turns");
    let per_turn = results
        .pointer("/volts_per_turn_v/value")
        .and_then(serde_json::Value::as_f64)
        .expect("volts per turn");
    assert!((open - turns * per_turn).abs() < 1e-9 * open);
    for (key, value) in results.as_object().unwrap() {
        let spread = value.get("plus_minus").and_then(serde_json::Value::as_f64);
        assert!(spread.is_some_and(|s| s >= 0.0), "{key} has no uncertainty");
    }
}

/// Every numeric field that the demo has: bad input ends with 2 and one sentence with its path.
/// One kind of bad value a field here; every kind for every field is in `src/job/tests.rs`.
#[test]
fn bad_input_names_the_field() {
    let folder = tempfile::tempdir().unwrap();
    let demo: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(demo_file(&folder)).unwrap()).unwrap();
    let mut tried = 0;
    for field in curbcore::job::fields::ALL {
        let pointer = format!("/{}", field.path.replace('.', "/"));
        if field.only_for.is_some_and(|word| word != "spot_welder")
            || field.path.contains("[]")
            || demo.pointer(&pointer).is_none()
        {
            continue;
        }
        let kinds = [
            serde_json::json!(field.max * 10.0 + 1.0),
            serde_json::json!("much"),
            serde_json::json!(null),
        ];
        {
            let bad = &kinds[tried % 3];
            let mut document = demo.clone();
            *document.pointer_mut(&pointer).unwrap() = bad.clone();
            let path = folder.path().join("bad.json");
            std::fs::write(&path, document.to_string()).unwrap();
            let out = curbcore(&["report", path.to_str().unwrap()]);
            let message = text(&out.stderr);
            assert_eq!(out.status.code(), Some(2), "{} = {bad}: {message}", field.path);
            assert!(message.contains(field.path), "{} = {bad}: {message}", field.path);
            assert_eq!(message.trim().lines().count(), 1, "one sentence: {message}");
            tried += 1;
        }
    }
    assert!(tried > 20, "only {tried} fields were tried");
}

#[test]
fn refusals_are_one_sentence() {
    let folder = tempfile::tempdir().unwrap();
    for bad in ["nowhere.json", "not-an-id", "019300aa-0000-7000-8000-000000000000"] {
        let out = run(Command::new(env!("CARGO_BIN_EXE_curbcore"))
            .args(["report", bad])
            .env("CURBCORE_DATA", folder.path()));
        assert_eq!(out.status.code(), Some(2), "{bad}");
        assert_eq!(
            text(&out.stderr).trim().lines().count(),
            1,
            "{bad}: {}",
            text(&out.stderr)
        );
    }
}

#[test]
fn the_schema_is_json_schema() {
    let out = curbcore(&["job-schema"]);
    let schema: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    assert!(schema.get("$schema").is_some() && schema.pointer("/properties/core").is_some());
}

#[test]
fn the_demo_is_never_written_over_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = demo_file(&folder);
    let again = curbcore(&["demo", path.to_str().unwrap()]);
    assert_eq!(again.status.code(), Some(2));
}

/// The program on a data folder of its own, with a passphrase or without one.
fn on(data: &Path, passphrase: Option<&OsStr>, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_curbcore"));
    command
        .args(arguments)
        .env("CURBCORE_DATA", data)
        .env_remove("CURBCORE_PASSPHRASE");
    if let Some(passphrase) = passphrase {
        command.env("CURBCORE_PASSPHRASE", passphrase);
    }
    run(&mut command)
}

/// Refused with exit code 2, one line, and these words in it.
fn refused(out: &Output, words: &[&str]) {
    let message = text(&out.stderr);
    assert_eq!(out.status.code(), Some(2), "{message}");
    assert_eq!(message.trim_end().lines().count(), 1, "{message}");
    for word in words {
        assert!(message.contains(word), "{word} is not in: {message}");
    }
}

fn done(out: &Output) -> String {
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    text(&out.stdout)
}

/// A data folder with the demo, and a folder beside it for files.
fn with_demo() -> (tempfile::TempDir, std::path::PathBuf, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    std::fs::create_dir(&data).unwrap();
    in_workspace(&data, |workspace| workspace.open_demo()).unwrap();
    let out = folder.path().join("out.curbshelf");
    (folder, data, out)
}

#[test]
fn an_export_says_whether_it_is_sealed() {
    let (_folder, data, out) = with_demo();
    let file = out.to_str().unwrap();
    assert!(done(&on(&data, None, &["export", file])).contains(", not sealed"));
    let phrase = Some(OsStr::new("correct horse"));
    let sealed = done(&on(&data, phrase, &["export", file, "--replace"]));
    assert!(
        sealed.contains(", sealed") && !sealed.contains("not sealed"),
        "{sealed}"
    );
    assert!(std::fs::read(&out).unwrap().starts_with(b"age-encryption.org/v1"));

    // Reading it: the message says where the passphrase goes.
    let other = tempfile::tempdir().unwrap();
    let import = |phrase: Option<&str>| on(other.path(), phrase.map(OsStr::new), &["import", file, "--look"]);
    refused(&import(None), &["sealed", "CURBCORE_PASSPHRASE"]);
    refused(
        &import(Some("wrong")),
        &["CURBCORE_PASSPHRASE", "not that of this shelf file"],
    );
    done(&import(Some("correct horse")));
}

#[cfg(unix)]
#[test]
fn a_passphrase_that_cannot_be_used_never_gives_an_open_file() {
    use std::os::unix::ffi::OsStrExt;
    let (_folder, data, out) = with_demo();
    for bad in [OsStr::from_bytes(b"caf\xe9"), OsStr::new("")] {
        refused(
            &on(&data, Some(bad), &["export", out.to_str().unwrap()]),
            &["CURBCORE_PASSPHRASE"],
        );
        assert!(!out.exists(), "a file was written");
    }
}

#[cfg(unix)]
#[test]
fn an_export_replaces_only_what_it_is_told_to_and_keeps_it_private() {
    use std::os::unix::fs::PermissionsExt;
    let (folder, data, out) = with_demo();
    let mode = || std::fs::metadata(&out).unwrap().permissions().mode() & 0o777;
    let file = out.to_str().unwrap();
    done(&on(&data, None, &["export", file]));
    assert_eq!(mode(), 0o600);
    let before = std::fs::read(&out).unwrap();
    refused(&on(&data, None, &["export", file]), &["exists already", "--replace"]);
    assert_eq!(std::fs::read(&out).unwrap(), before);
    std::fs::set_permissions(&out, std::fs::Permissions::from_mode(0o640)).unwrap();
    done(&on(&data, None, &["export", file, "--replace"]));
    assert_eq!(mode(), 0o640, "the mode of the file that was there is kept");

    // Links, folders and devices, with the flag too; nothing behind them is touched.
    let precious = folder.path().join("precious");
    std::fs::write(&precious, "precious").unwrap();
    let (link, dangling) = (folder.path().join("link"), folder.path().join("dangling"));
    std::os::unix::fs::symlink(&precious, &link).unwrap();
    std::os::unix::fs::symlink(folder.path().join("nowhere"), &dangling).unwrap();
    for (place, kind) in [
        (link.as_path(), "a link"),
        (dangling.as_path(), "a link"),
        (folder.path(), "a folder"),
        (Path::new("/dev/null"), "a device"),
    ] {
        for arguments in [&["--replace"][..], &[]] {
            let arguments = [&["export", place.to_str().unwrap()], arguments].concat();
            refused(&on(&data, None, &arguments), &[kind, "nothing was written"]);
        }
    }
    assert_eq!(std::fs::read_to_string(&precious).unwrap(), "precious");
    assert!(!folder.path().join("nowhere").exists());
}

#[test]
fn nothing_is_written_into_the_data_folder() {
    let (folder, data, _) = with_demo();
    let before = std::fs::read(data.join("curbcore.db")).unwrap();
    for name in ["curbcore.db", "curbcore.lock", "new.curbshelf"] {
        let place = data.join(name);
        let place = place.to_str().unwrap();
        refused(&on(&data, None, &["export", place, "--replace"]), &["data folder"]);
        refused(&on(&data, None, &["demo", place]), &["data folder"]);
    }
    assert_eq!(std::fs::read(data.join("curbcore.db")).unwrap(), before);
    assert!(!data.join("new.curbshelf").exists());
    let back = data.join("../data/curbcore.db");
    refused(
        &on(&data, None, &["export", back.to_str().unwrap(), "--replace"]),
        &["data folder"],
    );
    drop(folder);
}

#[test]
fn an_export_names_what_it_does_not_know() {
    let (_folder, data, out) = with_demo();
    let file = out.to_str().unwrap();
    for (arguments, words) in [
        (["--for", "00000000000000aa"], &["00000000000000aa", "whole shelf"][..]),
        (["--for", "garage"], &["--for garage"]),
        (["--job", "tab-welder"], &["--job tab-welder"]),
        (["--job", "019300aa-0000-7000-8000-000000000000"], &["--job 019300aa"]),
    ] {
        refused(&on(&data, None, &["export", file, arguments[0], arguments[1]]), words);
        assert!(!out.exists(), "{arguments:?}");
    }
    let nowhere = data.join("no/such/folder.curbshelf");
    refused(
        &on(&data, None, &["export", nowhere.to_str().unwrap()]),
        &["no/such/folder"],
    );
}

#[test]
fn a_file_of_another_kind_is_named_and_no_library_is() {
    let (folder, data, out) = with_demo();
    done(&on(&data, None, &["export", out.to_str().unwrap()]));
    let shelf = std::fs::read(&out).unwrap();
    let cases: &[(&str, &[u8], &str)] = &[
        ("photo.jpg", b"\xff\xd8\xff\xe0\0\x10JFIF", "a photo"),
        ("job.json", b"{ \"curbcore_job\": 1 }", "a job file"),
        ("page.html", b"<!DOCTYPE html>", "a page"),
        ("paper.pdf", b"%PDF-1.7", "PDF"),
        ("notes.txt", b"buy wire", "another kind"),
        ("empty", b"", "empty"),
        ("cut.curbshelf", &shelf[..shelf.len() / 2], "cut off"),
        ("broken.curbshelf", b"PK\x03\x04 and nothing else", "cut off"),
    ];
    for (name, bytes, word) in cases {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        let out = on(&data, None, &["import", path.to_str().unwrap()]);
        refused(&out, &[word]);
        let message = text(&out.stderr);
        for library in ["Zip", "zip", "EOCD", "archive", "deflate", "age"] {
            let words = message.split(|c: char| !c.is_alphanumeric());
            assert!(words.clone().all(|word| word != library), "{library}: {message}");
        }
        assert!(
            message.contains("Choose a file") || message.contains("Copy it again"),
            "{message}"
        );
    }
    refused(
        &on(&data, None, &["import", "/nowhere.curbshelf"]),
        &["/nowhere.curbshelf"],
    );
    #[cfg(unix)]
    refused(&on(&data, None, &["import", "/dev/zero"]), &["a device"]);
}

/// Escape codes in names from elsewhere never reach the terminal.
#[test]
fn names_cannot_steer_the_terminal() {
    let (folder, data, out) = with_demo();
    let evil = "\u{1b}]0;owned\u{7}\u{1b}[31m\u{9b}2J\u{202e}red";
    let id = in_workspace(&data, |workspace| {
        // Where the store itself does not keep such a name, nothing can leave either.
        let _ = workspace.name_device(evil);
        let job = workspace.store().job_summaries(1, None).unwrap()[0].id;
        let _ = workspace.rename(job, evil);
        job.to_string()
    });
    done(&on(&data, None, &["export", out.to_str().unwrap()]));
    let other = folder.path().join("other");
    let mut outputs = Vec::new();
    outputs.push(on(&other, None, &["import", out.to_str().unwrap()]));
    outputs.push(on(&data, None, &["report", evil]));
    outputs.push(on(&data, None, &["import", evil]));
    outputs.push(on(&data, None, &["report", &id]));
    outputs.push(on(&data, None, &["csv", &id, "measurements"]));
    for out in outputs {
        for bytes in [&out.stdout, &out.stderr] {
            let steering = text(bytes)
                .chars()
                .find(|c| c.is_control() && !matches!(c, '\n' | '\r' | '\t'));
            assert_eq!(steering, None, "{}", text(bytes).escape_debug());
        }
        assert!(!text(&out.stderr).contains('\u{202e}'));
    }
}

#[test]
fn the_data_can_be_checked() {
    let (folder, data, _) = with_demo();
    assert!(done(&on(&data, None, &["check"])).contains("whole"));
    refused(&on(&folder.path().join("nothing"), None, &["check"]), &["nothing"]);
    let place = data.join("curbcore.db");
    let mut bytes = std::fs::read(&place).unwrap();
    let length = bytes.len();
    // Behind the first page, which has the file's head.
    bytes[8192 * 2..length - 8192].fill(0xa5);
    std::fs::write(&place, bytes).unwrap();
    let out = on(&data, None, &["check"]);
    assert_eq!(out.status.code(), Some(1), "{}", text(&out.stderr));
    assert!(text(&out.stderr).contains("damaged"), "{}", text(&out.stderr));
}

#[test]
fn copies_are_listed_and_gone_back_to() {
    let (_folder, data, _) = with_demo();
    assert!(done(&on(&data, None, &["copies"])).contains("no copy yet"));
    assert!(copies::check(&data).unwrap(), "a copy was made");
    let job = in_workspace(&data, |workspace| {
        let job = workspace.store().job_summaries(1, None).unwrap()[0].id;
        workspace.rename(job, "changed after the copy").unwrap();
        job
    });
    {
        let _open = Workspace::open(&data).unwrap();
        refused(
            &on(&data, None, &["copies", "--back", "1"]),
            &["open in another window"],
        );
    }
    let list = done(&on(&data, None, &["copies"]));
    assert!(list.starts_with("1  20") && list.lines().count() == 1, "{list}");
    for number in ["0", "2"] {
        refused(&on(&data, None, &["copies", "--back", number]), &["no such copy"]);
    }
    assert!(done(&on(&data, None, &["copies", "--back", "1"])).contains("before-going-back"));
    let name = in_workspace(&data, |workspace| workspace.store().job_file(job))
        .unwrap()
        .name;
    assert_ne!(name, "changed after the copy");
}

/// A file without an end is given up after the most that a job file may have; with a bound on memory,
/// since the fault was to read until there was none left.
#[cfg(target_os = "linux")]
#[test]
fn a_device_without_end_is_no_job_file() {
    let out = run(Command::new("sh")
        .args(["-c", "ulimit -v 2000000; exec \"$0\" report /dev/zero"])
        .arg(env!("CARGO_BIN_EXE_curbcore")));
    refused(&out, &["/dev/zero", "too large"]);
}

/// What clap refuses has the same code: a command or option that is not there, or a bad value.
#[test]
fn a_wrong_option_is_refused() {
    for arguments in [
        &["brew"][..],
        &["export"],
        &["report", "x", "--colour"],
        &["--window", "big"],
    ] {
        assert_eq!(curbcore(arguments).status.code(), Some(2), "{arguments:?}");
    }
}
