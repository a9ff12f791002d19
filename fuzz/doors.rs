//! The doors through which bytes from elsewhere come in. Nothing may make them fall, and what they
//! let in says the same when it is written and read again. Used by the fuzz targets, and by the
//! tests that go through the corpus again.
#![allow(dead_code, reason = "each fuzz target uses one door")]

use std::borrow::Cow;
use std::cell::RefCell;
use std::collections::HashSet;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::Cursor;
use std::sync::{Arc, OnceLock};

use curbcore::app::bench::plan;
use curbcore::app::evaluation::evaluate;
use curbcore::app::workspace::Workspace;
use curbcore::exchange::{ExchangeError, Holds, Incoming, Reader, Sender, Writer};
use curbcore::job::{Check, JobFile};
use curbcore::merge::{MAX_COUNT, RecordLine, accept};
use curbcore::photo::Photo;
use curbcore::quantity::{LengthUnit, parse_length, parse_number};
use curbcore::report;
use rusqlite::Connection;
use serde_json::{Map, Value, json};
use tempfile::TempDir;

/// A shelf file, read, and taken in by a device with an empty shelf.
pub fn shelf_file(bytes: &[u8]) {
    let Ok(mut reader) = Reader::new(Cursor::new(bytes)) else {
        return;
    };
    let accepted: Result<(), ExchangeError> = reader.records(|mut line| Ok(accept(&mut line).map(|_| ())?));
    let _: Result<(), ExchangeError> = reader.photos(|_, _, _| Ok(()));
    if accepted.is_ok() {
        with_shelf(Beginning::Empty, |workspace| take_in(workspace, bytes.to_vec()));
    }
}

/// A line of one.
pub fn record(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(mut line) = RecordLine::parse(text) else { return };
    assert_eq!(RecordLine::parse(&line.to_json()).as_ref(), Ok(&line));
    let mut merged = line.known.clone();
    assert!(!merged.merge_in(&line.known), "a merge with itself changed it");
    if accept(&mut line).is_ok() {
        assert_eq!(RecordLine::parse(&line.to_json()).as_ref(), Ok(&line));
    }
}

/// A job file.
pub fn job_file(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(file) = JobFile::parse(text) else { return };
    let again = JobFile::parse(&file.to_json());
    assert_eq!(again.as_ref().ok(), Some(&file));
    show(&file);
}

thread_local! {
    /// The jobs that were evaluated already, by a hash of their file. Nothing else has a part in what is
    /// worked out and drawn, so that a second time finds nothing new.
    static SHOWN: RefCell<HashSet<u64>> = RefCell::default();
}

/// All that is worked out and drawn of a job, once for each file in a process.
fn show(file: &JobFile) {
    let mut hasher = DefaultHasher::new();
    file.to_json().hash(&mut hasher);
    if !SHOWN.with_borrow_mut(|shown| shown.insert(hasher.finish())) {
        return;
    }
    let Ok(answer) = evaluate(file) else { return };
    if let Some(design) = &answer.design {
        let _ = plan(file, &answer, design);
    }
    let page = report::page(&answer, None, &[], LengthUnit::Millimetre);
    assert!(page.is_ok(), "{page:?}");
    let _ = report::json(&answer, None).to_string();
    let _ = report::drawings(&answer, LengthUnit::Inch);
}

/// An open shelf, in memory where the machine has a place for that, and what it may begin with.
struct Shelf {
    workspace: Workspace,
    /// Beside the workspace's own: makes the tables again as they are in a beginning.
    connection: Connection,
    tables: Vec<String>,
    _folder: TempDir,
}

/// What is on the shelf at the beginning.
#[derive(Clone, Copy)]
enum Beginning {
    Empty,
    /// The records of [`base`].
    Base,
}

impl Beginning {
    const fn name(self) -> &'static str {
        match self {
            Beginning::Empty => "empty",
            Beginning::Base => "base",
        }
    }
}

impl Shelf {
    fn new() -> Self {
        let folder = tempfile::tempdir_in("/dev/shm")
            .or_else(|_| tempfile::tempdir())
            .expect("a place for the shelf");
        let mut workspace = Workspace::open(folder.path()).expect("an empty shelf opens");
        let connection = Connection::open(folder.path().join("curbcore.db")).expect("its data file opens");
        let run = |sql: &str| connection.execute_batch(sql).expect(sql);
        run("PRAGMA synchronous = OFF; PRAGMA foreign_keys = OFF;");
        let keep = |beginning: Beginning| {
            let (name, path) = (beginning.name(), folder.path().join(beginning.name()));
            run(&format!("VACUUM INTO '{}'", path.display()));
            run(&format!("ATTACH '{}' AS {name}", path.display()));
        };
        keep(Beginning::Empty);
        let records: Vec<Record> = base().iter().map(Record::of).collect();
        let packed = pack(&records, "00000000000000aa").expect("the base is packed");
        workspace
            .import_shelf(Incoming::Bytes(Arc::from(packed)), None, |_| ())
            .expect("the base comes in");
        // What is undone is what comes in later.
        run("DELETE FROM operation_step; DELETE FROM operation;");
        keep(Beginning::Base);
        let tables = connection
            .prepare("SELECT name FROM main.sqlite_schema WHERE type = 'table' AND name NOT LIKE 'job_words%' AND name NOT LIKE 'sqlite_%'")
            .and_then(|mut statement| statement.query_map([], |row| row.get(0))?.collect())
            .expect("the tables are listed");
        connection.set_prepared_statement_cache_capacity(200);
        Shelf {
            workspace,
            connection,
            tables,
            _folder: folder,
        }
    }

    /// Puts the shelf back to a beginning. A new one would cost a schema, its triggers and a lock each time.
    fn begin(&self, beginning: Beginning) -> rusqlite::Result<()> {
        let transaction = self.connection.unchecked_transaction()?;
        for table in &self.tables {
            for sql in [
                format!("DELETE FROM main.{table}"),
                format!("INSERT INTO main.{table} SELECT * FROM {}.{table}", beginning.name()),
            ] {
                self.connection.prepare_cached(&sql)?.execute([])?;
            }
        }
        transaction.commit()
    }
}

/// Runs something on a shelf.
fn with_shelf(beginning: Beginning, work: impl FnOnce(&mut Workspace)) {
    thread_local! {
        static SHELF: RefCell<Shelf> = RefCell::new(Shelf::new());
    }
    SHELF.with_borrow_mut(|shelf| {
        shelf.begin(beginning).expect("the shelf begins");
        work(&mut shelf.workspace);
    });
}

/// Takes a shelf file in, settles all that two devices changed differently, evaluates every job, takes
/// all of it back and does it again. Only what was judged may have come in.
fn take_in(workspace: &mut Workspace, bytes: Vec<u8>) {
    let _ = workspace.import_shelf(Incoming::Bytes(Arc::from(bytes)), None, |_| ());
    for conflict in workspace.store().conflicts(50).expect("conflicts are listed") {
        for side in 0..conflict.sides.len() {
            if workspace
                .resolve_conflict(conflict.kind, conflict.id, &conflict.field, side)
                .is_ok()
            {
                break;
            }
        }
    }
    evaluate_all(workspace);
    let mut steps = 0;
    while steps < 60 && matches!(workspace.undo(), Ok(Some(_))) {
        steps += 1;
    }
    while steps > 0 && matches!(workspace.redo(), Ok(Some(_))) {
        steps -= 1;
    }
    evaluate_all(workspace);
}

fn evaluate_all(workspace: &Workspace) {
    for job in workspace.store().job_summaries(50, None).expect("jobs are listed") {
        let Ok(file) = workspace.store().job_file(job.id) else {
            continue;
        };
        if let Err(error) = file.check() {
            panic!("a job on the shelf was not judged: {error}");
        }
        show(&file);
    }
}

/// Records of two devices, changed as the bytes say, packed into valid shelf files and taken in.
pub fn merge(bytes: &[u8]) {
    let mut script = Script { bytes, at: 0 };
    let beginning = [Beginning::Base, Beginning::Empty][script.next() % 2];
    with_shelf(beginning, |workspace| {
        for sender in ["00000000000000aa", "00000000000000bb"] {
            let mut records: Vec<Record> = base().iter().map(Record::of).collect();
            let alterations = script.next() % 16;
            if alterations == 0 && matches!(beginning, Beginning::Base) {
                // All of it is there already.
                continue;
            }
            for _ in 0..alterations {
                alter(&mut records, &mut script, sender);
            }
            // A record that is not accepted refuses the whole file: most files are without any.
            if !script.next().is_multiple_of(8) {
                records.retain(Record::is_accepted);
            }
            let Some(packed) = pack(&records, sender) else { continue };
            take_in(workspace, packed);
        }
    });
}

/// The demo's shelf as two devices have it, with one conflict: what [`merge`] begins with. Each record with
/// its line.
fn base() -> &'static [(Value, &'static str)] {
    const BASE: &str = include_str!("base.jsonl");
    static RECORDS: OnceLock<Vec<(Value, &str)>> = OnceLock::new();
    RECORDS.get_or_init(|| {
        BASE.lines()
            .map(|line| (serde_json::from_str(line).expect("a record of the base"), line))
            .collect()
    })
}

/// A record of a file that is made.
struct Record {
    value: Cow<'static, Value>,
    /// Its line, while it is as in the base: that one is written and accepted as it is.
    line: Option<&'static str>,
}

impl Record {
    fn of((value, line): &'static (Value, &'static str)) -> Self {
        Record {
            value: Cow::Borrowed(value),
            line: Some(line),
        }
    }

    fn is_accepted(&self) -> bool {
        self.line.is_some()
            || RecordLine::parse(&self.value.to_string()).is_ok_and(|mut line| accept(&mut line).is_ok())
    }

    fn text(&self) -> Cow<'static, str> {
        self.line
            .map_or_else(|| Cow::Owned(self.value.to_string()), Cow::Borrowed)
    }
}

/// The bytes as small choices; zero where they end.
struct Script<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Script<'_> {
    fn next(&mut self) -> usize {
        let byte = self.bytes.get(self.at).copied().unwrap_or(0);
        self.at += 1;
        usize::from(byte)
    }

    fn of<'v, T>(&mut self, values: &'v [T]) -> Option<&'v T> {
        let at = self.next();
        (!values.is_empty()).then(|| &values[at % values.len()])
    }
}

/// One change of one record.
fn alter(records: &mut Vec<Record>, script: &mut Script, sender: &str) {
    if records.is_empty() {
        return;
    }
    let at = script.next() % records.len();
    let all = |key: &str| -> Vec<Value> { records.iter().map(|record| record.value[key].clone()).collect() };
    let (ids, kinds) = (all("id"), all("kind"));
    records[at].line = None;
    let record = records[at].value.to_mut();
    let fields: Vec<String> = record["values"]
        .as_object()
        .map(|v| v.keys().cloned().collect())
        .unwrap_or_default();
    let Some(field) = script.of(&fields).cloned() else {
        return;
    };
    let stamp = json!(format!(
        "{}@{sender}",
        [2, 3, 4, 9, 40, 9_007_199_254_740_991_u64, MAX_COUNT][script.next() % 7]
    ));
    match script.next() % 9 {
        0 | 1 => {
            record["values"][&field] = value(script, &ids);
            member(record, "stamps").insert(field, stamp);
        }
        // Inside a part, such as the goal or a choice.
        2 | 3 => {
            let new = value(script, &ids);
            if let Some(leaf) = leaf(&mut record["values"][&field], script) {
                *leaf = new;
            }
            member(record, "stamps").insert(field, stamp);
        }
        4 => {
            let other = json!({ "stamp": stamp, "value": value(script, &ids) });
            let others = member(record, "others").entry(field).or_insert_with(|| json!([]));
            if let Some(others) = others.as_array_mut() {
                others.push(other);
            }
            member(record, "seen").insert(sender.to_owned(), json!(60));
        }
        5 => {
            record["values"]["removed"] = json!(script.next().is_multiple_of(2));
            member(record, "stamps").insert("removed".to_owned(), stamp);
        }
        6 => {
            records.remove(at);
        }
        7 => {
            if let Some(id) = script.of(&ids) {
                record["id"] = id.clone();
            }
            if script.next().is_multiple_of(4)
                && let Some(kind) = script.of(&kinds)
            {
                record["kind"] = kind.clone();
            }
        }
        _ => {
            member(record, "seen").insert(sender.to_owned(), json!(script.next() * script.next()));
        }
    }
}

fn member<'v>(record: &'v mut Value, key: &str) -> &'v mut Map<String, Value> {
    let place = &mut record[key];
    if !place.is_object() {
        *place = json!({});
    }
    place.as_object_mut().expect("it was made one")
}

/// A leaf of a part, by the script's choices.
fn leaf<'v>(value: &'v mut Value, script: &mut Script) -> Option<&'v mut Value> {
    match value {
        Value::Object(members) => {
            let keys: Vec<String> = members.keys().cloned().collect();
            leaf(members.get_mut(script.of(&keys)?)?, script)
        }
        other => Some(other),
    }
}

/// A value that may matter to some field.
fn value(script: &mut Script, ids: &[Value]) -> Value {
    const NUMBERS: &[f64] = &[
        0.0,
        -0.0,
        -1.0,
        -300.0,
        1e-300,
        1e-9,
        0.005,
        0.05,
        0.2,
        0.7,
        1.0,
        2.0,
        5.0,
        6.0,
        12.0,
        20.0,
        35.0,
        50.0,
        60.0,
        61.0,
        90.0,
        120.0,
        200.0,
        264.0,
        480.0,
        1000.0,
        5000.0,
        1e4,
        1e6,
        9_007_199_254_740_991.0,
        1e18,
        1e300,
    ];
    const WORDS: &[&str] = &[
        "",
        " ",
        "calipers",
        "typical",
        "computed",
        "spot_welder",
        "choke",
        "ballast",
        "arc_furnace",
        "battery_charger",
        "plasma_cutter",
        "plain_supply",
        "stick_welder",
        "copper",
        "aluminium",
        "unknown",
        "over_primary",
        "awg-6",
        "tin",
        "strip-12x2",
        "own-1.80-1.95",
        "own-0-0",
        "own-1e9-2e9",
        "tongue_mm",
        "primary.test_turn.volts",
        "volts",
        "primary.resistance_ohm",
        "series",
        "M19",
        "bridge",
        "image/png",
        "<b>\u{202e}",
    ];
    match script.next() % 8 {
        0..=3 => json!(NUMBERS[script.next() % NUMBERS.len()]),
        4 => json!(WORDS[script.next() % WORDS.len()]),
        5 => script.of(ids).cloned().unwrap_or(Value::Null),
        6 => json!(script.next().is_multiple_of(2)),
        _ => [Value::Null, json!({}), json!([]), json!({ "core": "x" })][script.next() % 4].clone(),
    }
}

/// The id of a history that no device has.
const NO_HISTORY: &str = "00000000-0000-0000-0000-000000000000";

fn pack(records: &[Record], sender: &str) -> Option<Vec<u8>> {
    let mut writer = Writer::new(Vec::new()).ok()?;
    for record in records {
        writer.record(&format!("{}\n", record.text())).ok()?;
    }
    let from = Sender {
        device: serde_json::from_value(json!(sender)).ok()?,
        name: "Fuzzed".to_owned(),
    };
    Some(
        writer
            .finish(
                from,
                Holds::All,
                serde_json::from_value(json!(NO_HISTORY)).ok()?,
                1_795_660_633_154,
            )
            .ok()?
            .0,
    )
}

/// A photo's head; a picture that is large when unpacked has no place here.
pub fn image_header(bytes: &[u8]) {
    if bytes.len() <= 1 << 16 {
        let _ = Photo::decode(bytes);
    }
}

/// A number with its unit, as a person types it.
pub fn number(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Ok(number) = parse_number(text) {
        assert!(number.is_finite());
    }
    for unit in [LengthUnit::Millimetre, LengthUnit::Inch] {
        if let Ok(length) = parse_length(text, unit) {
            assert!(length.mm().is_finite());
        }
    }
}
