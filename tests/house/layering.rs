//! One crate cannot enforce its rooms by itself: this test reads every `crate::` path and
//! refuses an arrow that the house rules forbid.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Room, and the rooms that it may use besides itself.
const BELOW: &[(&str, &[&str])] = &[
    ("quantity", &["words"]),
    ("wire", &["quantity", "words"]),
    ("magnetics", &["quantity", "wire", "words"]),
    ("rewind", &["quantity", "wire", "magnetics", "words"]),
    ("words", &[]),
    ("safety", &["quantity", "words"]),
    ("procedure", &["quantity", "safety", "words"]),
    (
        "teardown",
        &["quantity", "wire", "magnetics", "safety", "words", "procedure"],
    ),
    ("wind", &["quantity", "safety", "words", "procedure"]),
    ("sizeup", &["quantity", "wire", "magnetics", "safety", "words"]),
    (
        "bench",
        &["quantity", "wire", "magnetics", "safety", "words", "procedure"],
    ),
    ("text", &["words"]),
    ("photo", &["quantity", "words"]),
    ("job", &["quantity", "words"]),
    ("merge", &["quantity", "job", "words"]),
    ("exchange", &["quantity", "job", "merge", "words"]),
    ("store", &["quantity", "photo", "job", "merge", "words"]),
];

/// Rooms that may use every room of `BELOW`, and of these those before them.
const ABOVE: &[&str] = &["app", "report", "ui"];

/// Every room with the rooms that it may use besides itself.
fn rooms() -> Vec<(&'static str, Vec<&'static str>)> {
    let mut rooms: Vec<_> = BELOW.iter().map(|(room, uses)| (*room, uses.to_vec())).collect();
    for room in ABOVE {
        let before = rooms.iter().map(|(name, _)| *name).collect();
        rooms.push((room, before));
    }
    rooms
}

/// What a room of the pure core may not touch: clock, disk, network, globals, logging.
const PURE: &[&str] = &[
    "words",
    "quantity",
    "wire",
    "magnetics",
    "rewind",
    "photo",
    "teardown",
    "sizeup",
    "bench",
    "wind",
    "procedure",
    "safety",
    "job",
    "merge",
];
const IMPURE: &[&str] = &[
    "std::fs",
    "std::net",
    "std::env",
    "SystemTime",
    "Instant::now",
    "thread_local!",
    "static mut",
    "tracing::",
    "println!",
    "rusqlite",
    "dioxus",
];

/// Where a person's change is typed from the key to the store: the store alone makes JSON of it.
const TYPED: &[&str] = &["app/workspace", "app/donors.rs", "app/repair.rs", "app/guided.rs", "ui"];

#[test]
fn a_change_is_typed_up_to_the_store() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for place in TYPED {
        let (path, mut files) = (src.join(place), Vec::new());
        if path.is_dir() {
            sources(&path, &mut files);
        } else {
            files.push(path);
        }
        for file in files {
            let code = fs::read_to_string(&file).unwrap();
            assert!(!code.contains("serde_json"), "{}", file.display());
        }
    }
}

/// Crates that come with the feature `ui`: without it everything below the screens must build.
const SCREENS_ONLY: &[&str] = &["dioxus", "base64::", "crate::ui"];

pub fn sources(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        // Tests print and read files as they like.
        if path.file_stem().is_some_and(|name| name == "tests") {
            continue;
        }
        if path.is_dir() {
            sources(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            into.push(path);
        }
    }
}

/// The code of a file without its comments and without its test module.
pub fn code(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    let text = text
        .split("#[cfg(test)]\nmod tests {")
        .next()
        .unwrap_or_default()
        .to_owned();
    text.lines()
        .map(|line| line.split("//").next().unwrap_or_default())
        .collect::<Vec<_>>()
        .join("\n")
}

/// Rooms named after `crate::` or, in a list, after `crate::{`.
fn arrows(code: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        // `$crate::` in a macro and `othercrate::` are not arrows of this file.
        if code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_') {
            continue;
        }
        let rest = &code[at + 7..];
        let name: String = rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
        if !name.is_empty() {
            found.push(name);
        }
    }
    found
}

#[test]
fn arrows_go_one_way() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let rooms = rooms();
    let mut seen = 0;
    let mut wrong = Vec::new();
    let mut unknown = Vec::new();
    for entry in fs::read_dir(&src).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() && !rooms.iter().any(|(room, _)| *room == name) {
            unknown.push(name);
        }
    }
    assert!(unknown.is_empty(), "rooms that this test does not know: {unknown:?}");
    for (room, allowed) in &rooms {
        let (folder, file) = (src.join(room), src.join(room).with_extension("rs"));
        let mut files = Vec::new();
        if folder.is_dir() {
            sources(&folder, &mut files);
        } else {
            assert!(file.is_file(), "no folder and no file for the room {room}");
            files.push(file);
        }
        for file in files {
            let code = code(&file);
            for arrow in arrows(&code) {
                seen += 1;
                let is_room = rooms.iter().any(|(name, _)| *name == arrow);
                if is_room && arrow != *room && !allowed.contains(&arrow.as_str()) {
                    wrong.push(format!("{} uses {arrow}", file.display()));
                }
            }
            if *room != "ui" {
                for word in SCREENS_ONLY {
                    if code.contains(word) {
                        wrong.push(format!("{} touches {word}", file.display()));
                    }
                }
            }
            if PURE.contains(room) {
                for word in IMPURE {
                    if code.contains(word) {
                        wrong.push(format!("{} touches {word}", file.display()));
                    }
                }
            }
        }
    }
    assert!(seen > 50, "the scan found almost nothing: it must be broken");
    assert!(wrong.is_empty(), "forbidden:\n{}", wrong.join("\n"));
}

/// The one file with a line that the compiler cannot vouch for; its reason stands beside it.
#[test]
fn one_file_is_not_safe() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&src, &mut files);
    let word = concat!("unsafe", "_code");
    let named: Vec<_> = files.iter().filter(|file| code(file).contains(word)).collect();
    assert_eq!(named, [&src.join("store/web/vfs.rs")]);
}

#[test]
fn the_scan_sees_an_arrow() {
    assert_eq!(arrows("use crate::store::Store; let x = mycrate::no;"), ["store"]);
}

/// The files of a room as modules, without what the tests in a file use.
fn modules(room: &str) -> BTreeMap<String, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(room);
    let mut files = Vec::new();
    sources(&root, &mut files);
    files
        .iter()
        .map(|path| {
            let name = path.strip_prefix(&root).unwrap().with_extension("");
            let name = name.to_str().unwrap().replace('/', "::");
            let name = name.trim_end_matches("::mod").to_owned();
            let text = code(path);
            (name, text.split("#[cfg(test)]").next().unwrap_or_default().to_owned())
        })
        .filter(|(name, _)| name != "mod")
        .collect()
}

/// The modules of a room that a piece of code names, by `crate::room::`, `super::` and the names in the list behind
/// either.
fn named<'a>(modules: &'a BTreeMap<String, String>, room: &str, file: &str, code: &str) -> Vec<&'a str> {
    // `super` of a file, and of a folder's `mod.rs`, is what both are in.
    let mut folder: Vec<&str> = file.split("::").collect();
    folder.pop();
    let mut found = Vec::new();
    let start = format!("crate::{room}::");
    let starts = code.match_indices(&start).map(|(at, _)| (at + start.len(), None));
    let supers = code
        .match_indices("super::")
        .filter(|(at, _)| !code[..*at].ends_with("super::"));
    for (at, base) in starts.chain(supers.map(|(at, _)| (at, Some(())))) {
        let mut rest = &code[at..];
        let mut base = base.map_or(Vec::new(), |()| {
            let mut place = folder.clone();
            place.push("self");
            place
        });
        while let Some(after) = rest.strip_prefix("super::") {
            base.pop();
            rest = after;
        }
        let names: Vec<&str> = match rest.strip_prefix('{') {
            Some(list) => list.split(['}', ';']).next().unwrap_or_default().split(',').collect(),
            None => vec![rest],
        };
        for name in names {
            let word: String = name
                .trim()
                .chars()
                .take_while(|c| c.is_alphanumeric() || matches!(c, '_' | ':'))
                .collect();
            let mut path = base.iter().map(|part| (*part).to_owned()).collect::<Vec<_>>();
            path.extend(word.split("::").map(str::to_owned));
            while !path.is_empty() {
                let joined = path.join("::");
                if let Some((known, _)) = modules.get_key_value(&joined) {
                    // A folder's own `mod.rs` may name its files, and they what is in it.
                    let within = |one: &str, other: &str| one == other || one.starts_with(&format!("{other}::"));
                    if !within(known, file) && !within(file, known) {
                        found.push(known.as_str());
                    }
                    break;
                }
                path.pop();
            }
        }
    }
    found
}

fn reaches<'a>(uses: &BTreeMap<&'a str, Vec<&'a str>>, from: &str, to: &str, seen: &mut BTreeSet<&'a str>) -> bool {
    uses.get(from).is_some_and(|next| {
        next.iter()
            .any(|file| *file == to || seen.insert(*file) && reaches(uses, file, to, seen))
    })
}

/// No file of these rooms imports another in a circle: what one does can be read from the top down.
#[test]
fn no_file_of_a_room_imports_another_in_a_circle() {
    let mut circles = Vec::new();
    for room in ["app", "report", "ui"] {
        let modules = modules(room);
        let uses: BTreeMap<&str, Vec<&str>> = modules
            .iter()
            .map(|(file, code)| (file.as_str(), named(&modules, room, file, code)))
            .collect();
        let seen = |file: &str, other: &str| assert!(uses[file].contains(&other), "{file}: {:?}", uses[file]);
        match room {
            "app" => {
                seen("evaluation", "basis");
                seen("basis", "problem");
            }
            "report" => {
                seen("page::prove", "numbers");
                seen("behaviour::heat", "draw");
            }
            _ => seen("rewind::design", "controls"),
        }
        let in_circle = |file: &&&str| reaches(&uses, file, file, &mut BTreeSet::new());
        circles.extend(
            uses.keys()
                .filter(in_circle)
                .map(|file| format!("{room}::{file} uses {:?}", uses[file])),
        );
    }
    assert!(circles.is_empty(), "in a circle: {circles:#?}");
}

/// Every room has its row in the guide's table.
#[test]
fn every_room_is_in_the_guide() {
    let guide = include_str!("../../DEVELOPERS.md");
    for (room, _) in rooms() {
        assert!(
            guide.contains(&format!("\n| `{room}` |")),
            "{room} is not in DEVELOPERS.md"
        );
    }
}

/// Paths in the guide: what stands in backticks, has a slash and consists of names; without placeholders (`NAME`,
/// `000N`) and without what a run makes (`artefacts`).
fn paths(guide: &str) -> Vec<&str> {
    let letters = |c: char| c.is_ascii_alphanumeric() || "_-./".contains(c);
    guide
        .lines()
        .flat_map(|line| line.split('`').skip(1).step_by(2))
        .filter_map(|quoted| quoted.split_whitespace().next())
        .filter(|path| path.contains('/') && path.chars().all(letters))
        .filter(|path| !path.starts_with("artefacts/") && !path.contains("NAME") && !path.contains("000N"))
        .collect()
}

/// A file or folder that the guide names is there, from the repository's root or from `src`.
#[test]
fn every_path_in_the_guide_exists() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let there = |path: &str| root.join(path).exists() || root.join("src").join(path).exists();
    let named = paths(include_str!("../../DEVELOPERS.md"));
    assert!(named.len() > 100, "the scan found only {named:?}");
    let missing: Vec<_> = named.into_iter().filter(|path| !there(path)).collect();
    assert!(missing.is_empty(), "not in the repository: {missing:?}");
}

#[test]
fn the_scan_sees_a_path() {
    let guide = "`ui/gone.rs`: see `app::start`, `platform/look.sh [WORD]`, `tests/NAME.rs` and `artefacts/web`.";
    assert_eq!(paths(guide), ["ui/gone.rs", "platform/look.sh"]);
}
