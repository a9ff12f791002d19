//! The words that a person reads: all in the text files, one term for a thing.

use std::collections::BTreeMap;
use std::path::Path;

use curbcore::rewind::warnings::Warning;
use curbcore::text::{ENGLISH, Texts};

use crate::layering::sources;

const RETIRED: &str = include_str!("../../assets/text/en/retired.txt");

/// Files whose words are no texts of the program: data of the demo, and what the schema of the shelf file says to
/// programmers.
const LEFT_OUT: [&str; 2] = ["app/start.rs", "exchange/schema.rs"];

/// Rooms whose literals are searched for words.
const SEARCHED: [&str; 12] = [
    "app", "bench", "exchange", "merge", "report", "rewind", "sizeup", "store", "teardown", "ui", "wind", "wire",
];

/// What a statement for the database, or a part of one, begins with.
const STATEMENTS: [&str; 7] = ["CREATE", "DELETE", "DROP", "INSERT", "SELECT", "UPDATE", "WHERE"];

/// Lower case, every other sign a space.
fn words_of(text: &str) -> String {
    format!(" {} ", text.to_lowercase().replace(|c: char| !c.is_alphanumeric(), " "))
        .split_whitespace()
        .fold(String::from(" "), |all, word| all + word + " ")
}

#[test]
fn no_text_holds_a_retired_term() {
    let retired: Vec<(String, &str)> = RETIRED
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .map(|line| line.split_once(" = ").unwrap_or_else(|| panic!("{line}")))
        .map(|(old, new)| (words_of(old), new))
        .collect();
    assert!(retired.len() > 20);
    let mut found = Vec::new();
    for (file, content) in ENGLISH {
        let mut running = true;
        for line in content.lines().filter(|line| !line.starts_with('#')) {
            let text = match line.split_once(" =") {
                // What words are found by is no running text.
                Some((left, text)) => {
                    running = left.trim() != ".found";
                    text
                }
                None => line,
            };
            if !running {
                continue;
            }
            let text = words_of(text)
                .replace(" ground earth ", " ground ")
                .replace(" grounded earthed ", " grounded ")
                .replace(" dust mask ", " ");
            for (old, new) in &retired {
                if text.contains(old.as_str()) {
                    found.push(format!("{file}: \"{}\" is now \"{new}\": {line}", old.trim()));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// The string literals of a line, without escapes.
fn literals(line: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut rest = line;
    while let Some(start) = rest.find('"') {
        let after = &rest[start + 1..];
        let Some(end) = after.find('"') else { break };
        found.push(&after[..end]);
        rest = &after[end + 1..];
    }
    found
}

/// True where a literal reads like words for a person: two words, the first with a capital, or a
/// sentence. Markup, lists of classes, statements for the database, standards by their names and the program's own log
/// are none.
fn reads_like_words(line: &str, literal: &str) -> bool {
    let mark_up = literal.contains(['<', '>', '\\', '=', '/', '@', '_']);
    let log = [
        "tracing::",
        "expect(",
        "assert",
        "panic!",
        "class:",
        "debug_assert",
        "error(",
        "Provenance::Standard",
    ]
    .iter()
    .any(|word| line.contains(word));
    let mut words = literal.split(' ').filter(|word| !word.starts_with('{'));
    let first = words.next().unwrap_or_default();
    let capital = first.starts_with(char::is_uppercase) && first.len() > 1;
    let statement = STATEMENTS.contains(&first);
    !mark_up
        && !log
        && !statement
        && capital
        && words.any(|word| word.len() > 1 && word.chars().all(char::is_alphabetic))
}

#[test]
fn words_for_a_person_are_in_the_text_files() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    for room in SEARCHED {
        sources(&root.join(room), &mut files);
    }
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for path in files {
        let name = path.strip_prefix(&root).unwrap().to_string_lossy().into_owned();
        if LEFT_OUT.contains(&name.as_str()) {
            continue;
        }
        let code = std::fs::read_to_string(&path).unwrap();
        let (code, _) = code.split_once("#[cfg(test)]").unwrap_or((&code, ""));
        for line in code.lines().map(str::trim).filter(|line| !line.starts_with("//")) {
            for literal in literals(line)
                .into_iter()
                .filter(|literal| reads_like_words(line, literal))
            {
                found.entry(name.clone()).or_default().push(literal.to_owned());
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// A warning of a design is a sentence of the text files.
#[test]
fn every_warning_has_its_text() {
    let texts = Texts::english().unwrap();
    for warning in Warning::ALL {
        let text = texts
            .find(warning.key(), &[])
            .unwrap_or_else(|| panic!("{}", warning.key()));
        assert!(text.ends_with('.'), "{text}");
    }
}

/// The finder sees what it is for, and leaves markup and keys alone.
#[test]
fn the_finder_tells_words_from_code() {
    assert!(reads_like_words("p { \"Take this test away\" }", "Take this test away"));
    assert!(reads_like_words("label: \"Hold the turns\"", "Hold the turns"));
    for literal in [
        "ui-hold-turns",
        "main wide",
        "<p class=x>Two words</p>",
        "Curbcore",
        "{name} Ω",
        "SELECT count FROM job",
    ] {
        assert!(!reads_like_words("x", literal), "{literal}");
    }
}
