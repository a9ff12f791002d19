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

/// The documents of the project: every `.md` file.
fn documents() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut folders = vec![root.to_owned()];
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            if path.is_dir() {
                if !name.starts_with('.') && !BUILT.contains(&name.as_str()) {
                    folders.push(path);
                }
            } else if name.ends_with(".md") {
                let shown = path.strip_prefix(root).unwrap().display().to_string();
                found.push((shown, std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    assert!(found.len() > 8, "{}", found.len());
    found
}

/// Folders of what a build or a test makes.
const BUILT: [&str; 4] = ["target", "artefacts", "node_modules", "build"];

/// Terms that are right with a word beside them.
const RIGHT_TOGETHER: [(&str, &str); 7] = [
    (" use case ", " use "),
    (" ground earth ", " ground "),
    (" grounded earthed ", " grounded "),
    (" dust mask ", " "),
    (" gfci rcd ", " "),
    (" old high voltage winding ", " old winding "),
    (" fine high voltage winding ", " fine winding "),
];

/// The words of a text in which a retired term is wrong.
fn judged(text: &str) -> String {
    RIGHT_TOGETHER
        .iter()
        .fold(words_of(text), |text, (right, plain)| text.replace(right, plain))
}

/// The terms that are retired, and what is said instead.
fn retired() -> Vec<(String, &'static str)> {
    let all: Vec<(String, &str)> = RETIRED
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .map(|line| line.split_once(" = ").unwrap_or_else(|| panic!("{line}")))
        .map(|(old, new)| (words_of(old), new))
        .collect();
    assert!(all.len() > 60, "{}", all.len());
    all
}

#[test]
fn no_text_holds_a_retired_term() {
    let retired = retired();
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
            let text = judged(&without_placeables(text));
            for (old, new) in &retired {
                if text.contains(old.as_str()) {
                    found.push(format!("{file}: \"{}\" is now \"{new}\": {line}", old.trim()));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// A text without what is filled in: `{ $legs }` is a name of the code.
fn without_placeables(text: &str) -> String {
    let mut parts = text.split("{ $");
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |all, part| {
        let rest = part.split_once([' ', '}']).map_or("", |(_, rest)| rest);
        format!("{all} {rest}")
    })
}

/// The running text of a document: no code, no address.
fn running_text(document: &str) -> String {
    let fenced = document.split("```").step_by(2).collect::<Vec<_>>().join(" ");
    let spans = fenced.split('`').step_by(2).collect::<Vec<_>>().join(" ");
    let mut parts = spans.split("](");
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |all, part| {
        all + " " + part.split_once(')').map_or("", |(_, rest)| rest)
    })
}

#[test]
fn no_document_holds_a_retired_term() {
    let mut found = Vec::new();
    for (file, content) in documents() {
        let text = judged(&running_text(&content));
        for (old, new) in retired() {
            if let Some(at) = text.find(&old) {
                let around: String = text[at..].chars().take(80).collect();
                found.push(format!("{file}: \"{}\" is now \"{new}\": {around}", old.trim()));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// The sentences of the errors, and the help of the command line: what a terminal shows.
fn said_on_a_terminal() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    let mut said = Vec::new();
    for path in files {
        let name = path.strip_prefix(&root).unwrap().display().to_string();
        let code = std::fs::read_to_string(&path).unwrap();
        let errors = code.split("#[error(").skip(1);
        let errors = errors.map(|rest| rest.split_once(")]").map_or(rest, |(error, _)| error).to_owned());
        let help = code
            .lines()
            .filter(|_| name == "command_line.rs")
            .filter_map(|line| line.trim().strip_prefix("/// ").map(str::to_owned));
        said.extend(errors.chain(help).map(|text| (name.clone(), text)));
    }
    assert!(said.len() > 150, "{}", said.len());
    said
}

#[test]
fn no_error_and_no_help_holds_a_retired_term() {
    let mut found = Vec::new();
    for (file, text) in said_on_a_terminal() {
        // A name of the code in braces is no word.
        let words = text
            .split('{')
            .enumerate()
            .map(|(at, part)| {
                if at == 0 {
                    part
                } else {
                    part.split_once('}').map_or("", |(_, rest)| rest)
                }
            })
            .collect::<Vec<_>>()
            .join(" ");
        let words = judged(&running_text(&words));
        for (old, new) in retired() {
            if words.contains(&old) {
                found.push(format!("{file}: \"{}\" is now \"{new}\": {text}", old.trim()));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn the_search_for_retired_terms_leaves_code_alone() {
    assert_eq!(
        running_text("a `donor` [of](donor.md) b\n```\nmask\n```\nc")
            .split_whitespace()
            .collect::<Vec<_>>(),
        ["a", "[of", "b", "c"]
    );
    assert_eq!(judged("An RCD"), " an rcd ");
    assert_eq!(judged("A GFCI (RCD) and a dust mask"), " a and a ");
    assert_eq!(without_placeables("of { $shim } mm { $sheets ->"), "of  } mm  ->");
}

/// The files of the guided work: what is read with gloves on.
const GUIDED: [&str; 5] = ["safety.ftl", "teardown.ftl", "wind.ftl", "bench.ftl", "sizeup.ftl"];

/// The sentences of a line. "a.c." and "d.c." end none; a placeable counts as a word.
fn sentences(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    let mut sentence: Vec<&str> = Vec::new();
    let mut in_braces = false;
    for word in text.split_whitespace() {
        match word {
            "{" => in_braces = true,
            _ if word.starts_with('}') => {
                in_braces = false;
                sentence.push(word);
            }
            _ if in_braces => {}
            _ => sentence.push(word),
        }
        if word.ends_with(['.', '!', '?']) && !word.ends_with(".c.") && !word.ends_with(".m.s.") {
            all.push(std::mem::take(&mut sentence).join(" "));
        }
    }
    all.push(sentence.join(" "));
    all
}

/// The lines of a file with their texts, comments left out.
fn texts_of(content: &str) -> impl Iterator<Item = &str> {
    content
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| line.split_once(" = ").map_or(line, |(_, text)| text))
}

#[test]
fn a_sentence_of_the_guided_work_has_twelve_words_at_most() {
    let mut seen = 0;
    let mut long = Vec::new();
    for (file, content) in ENGLISH.iter().filter(|(file, _)| GUIDED.contains(file)) {
        for sentence in texts_of(content).flat_map(sentences) {
            seen += 1;
            let words = sentence.split_whitespace().count();
            if words > 12 {
                long.push(format!("{file}: {words} words: {sentence}"));
            }
        }
    }
    assert!(seen > 1000, "{seen}");
    assert!(long.is_empty(), "{long:#?}");
}

/// Spellings of American English, and ways to write a number or a unit that the texts do not use: the texts are
/// British, a number has no comma between its thousands, a unit follows a space, and alternating current is "a.c.".
const OTHER_SPELLINGS: [&str; 20] = [
    "aluminum",
    "analyze",
    "behavior",
    "canceled",
    "center",
    "color",
    "fiber",
    "gray",
    "labeled",
    " liter ",
    "magnetiz",
    "mold",
    "organiz",
    "recogniz",
    "traveled",
    "vapor ",
    " ohms",
    " volts rms",
    " ac ",
    " dc ",
];

#[test]
fn spelling_and_units_are_the_same_throughout() {
    let mut found = Vec::new();
    let texts = ENGLISH
        .iter()
        .map(|(file, content)| ((*file).to_owned(), (*content).to_owned()));
    for (file, content) in texts.chain(documents()) {
        for line in content
            .lines()
            .filter(|line| !line.starts_with('#') || file.ends_with(".md"))
        {
            let lower = format!(" {} ", running_text(line).to_lowercase());
            let spelt = OTHER_SPELLINGS.iter().any(|word| lower.contains(word)) && !lower.contains("set to ohms");
            let characters: Vec<char> = line.chars().collect();
            let glued = characters
                .windows(3)
                .any(|three| three[0].is_ascii_digit() && (three[1] == '%' || three[1] == '°' && three[2] == 'C'));
            let comma = file.ends_with(".ftl")
                && characters.windows(5).any(|five| {
                    let digit = |at: usize| five[at].is_ascii_digit();
                    digit(0) && five[1] == ',' && digit(2) && digit(3) && digit(4)
                });
            if spelt || glued || comma {
                found.push(format!("{file}: {line}"));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// What a sentence does not begin with: a word that stands for its subject.
const NO_SUBJECT: [&str; 2] = ["It", "They"];

/// What names no subject unless a noun follows.
const POINTERS: [&str; 4] = ["This", "That", "These", "Those"];

/// What follows a pointer that has no noun: what the subject is or does.
const NO_NOUN: [&str; 18] = [
    "are", "can", "cannot", "changes", "decides", "does", "explains", "gives", "goes", "has", "is", "makes", "means",
    "needs", "removes", "was", "were", "will",
];

/// True where a sentence begins without naming its subject.
fn lacks_its_subject(sentence: &str) -> bool {
    let mut words = sentence.split_whitespace();
    let first = words.next().unwrap_or_default();
    NO_SUBJECT.contains(&first) || POINTERS.contains(&first) && words.next().is_some_and(|next| NO_NOUN.contains(&next))
}

/// Sentences that point at what is shown right there.
const POINTING: [&str; 3] = [
    // What a person holds to say that the readings beside it are theirs.
    "These are my readings",
    // What was just described in the sentence before.
    "That makes a short circuit.",
    "This changes the winding.",
];

#[test]
fn a_sentence_names_its_subject() {
    let mut seen = 0;
    let mut found = Vec::new();
    for (file, content) in ENGLISH {
        for line in content.lines().filter(|line| !line.starts_with('#')) {
            let (id, text) = line.split_once(" = ").unwrap_or(("", line));
            if [".formula", ".source", ".found"].contains(&id.trim()) {
                continue;
            }
            let text = text.trim_start().trim_start_matches('*');
            let text = text
                .split_once("] ")
                .filter(|_| text.starts_with('['))
                .map_or(text, |(_, text)| text);
            for sentence in sentences(text) {
                seen += 1;
                let after_colon = sentence.split_once(": ").map_or("", |(_, rest)| rest);
                let lacks = lacks_its_subject(&sentence) || lacks_its_subject(after_colon);
                if lacks && !POINTING.contains(&sentence.as_str()) {
                    found.push(format!("{file}: {sentence}"));
                }
            }
        }
    }
    assert!(seen > 3000, "{seen}");
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn a_sentence_of_the_readme_names_its_subject_and_is_short() {
    let readme = include_str!("../../README.md");
    // A row of a table, an entry of a list and a heading begin a text of their own.
    let readme = readme
        .replace("\n\n", ". ")
        .replace("\n- ", ". ")
        .replace("| ", ". ")
        .replace('#', "");
    let mut found = Vec::new();
    for sentence in sentences(&running_text(&readme)) {
        let words = sentence.split_whitespace().count();
        if lacks_its_subject(&sentence) || words > 22 {
            found.push(format!("{words} words: {sentence}"));
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn a_missing_subject_is_seen() {
    for sentence in [
        "It kills.",
        "They pinch.",
        "This is where it is cut.",
        "These were removed there.",
    ] {
        assert!(lacks_its_subject(sentence), "{sentence}");
    }
    for sentence in [
        "This core gives no answer.",
        "Its dust harms.",
        "Items follow.",
        "That person leaves first.",
    ] {
        assert!(!lacks_its_subject(sentence), "{sentence}");
    }
}

/// Every other text: a formula and its source are none.
#[test]
fn no_sentence_has_more_than_twenty_two_words() {
    let mut long = Vec::new();
    for (file, content) in ENGLISH {
        for line in content.lines().filter(|line| !line.starts_with('#')) {
            let (id, text) = line.split_once(" = ").unwrap_or(("", line));
            if [".formula", ".source", ".found"].contains(&id.trim()) || *file == "drawings.ftl" {
                continue;
            }
            for sentence in sentences(text) {
                let words = sentence.split_whitespace().count();
                if words > 22 {
                    long.push(format!("{file}: {words} words: {sentence}"));
                }
            }
        }
    }
    assert!(long.is_empty(), "{long:#?}");
}

/// Labels of numbers with more than four words: with the condition or the limit that the number is judged by.
const LONGER: [&str; 6] = [
    "number-cold-resistance",
    "number-winding-steady-density",
    "behaves-permitted-duty",
    "behaves-shunt-fall",
    "behaves-shunt-spare",
    "behaves-fit-steel",
];

#[test]
fn a_label_has_four_words_at_most() {
    let mut long = Vec::new();
    let mut seen = 0;
    for (file, content) in ENGLISH {
        for line in content.lines() {
            let Some((id, text)) = line.split_once(" = ") else {
                continue;
            };
            let number = ["number-", "measures-", "behaves-"]
                .iter()
                .any(|start| id.starts_with(start));
            let label = match *file {
                "fields.ftl" => id == "    .label",
                "numbers.ftl" => number && content.contains(&format!("{line}\n    .what")),
                "wind.ftl" | "teardown.ftl" | "bench.ftl" => ["closing-", "fixing-", "field-", "stage-"]
                    .iter()
                    .any(|start| id.starts_with(start)),
                _ => false,
            };
            if !label {
                continue;
            }
            seen += 1;
            if text.split_whitespace().count() > 4 && !LONGER.contains(&id) {
                long.push(format!("{file}: {line}"));
            }
        }
    }
    assert!(seen > 200, "{seen}");
    assert!(long.is_empty(), "{long:#?}");
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
