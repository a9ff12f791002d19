//! Labels, headings and buttons: at most four words; a button says what it does, a heading names something.
//!
//! A text that ends as no sentence does is a label. What stands in a `button` of the screens' code is a button, what
//! stands in an `h1` to `h4` is a heading.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use curbcore::text::ENGLISH;

use crate::layering::sources;

/// The most words of a label. A placeable with its unit, and words in parentheses, do not count.
const MOST: usize = 4;

/// The files whose labels are judged here; those of the fields and the numbers have a test of their own.
const FILES: [&str; 9] = [
    "bench.ftl",
    "glossary.ftl",
    "numbers.ftl",
    "page.ftl",
    "safety.ftl",
    "screens.ftl",
    "sizeup.ftl",
    "teardown.ftl",
    "wind.ftl",
];

/// What ids begin with whose texts are no labels: parts of a sentence, rows of a list of things, descriptions of a
/// drawing for somebody who does not see it, formulas, and the terms by which the glossary finds a word.
const NO_LABELS: [&str; 12] = [
    "behaves-",
    "circuit-",
    "drawn-",
    "input-",
    "limit-",
    "material-",
    "measures-",
    "purpose-",
    "tool-",
    "ui-part-",
    "ui-plot-",
    "ui-repaired-",
];

/// Attributes whose texts are no labels.
const NO_LABEL_ATTRIBUTES: [&str; 4] = ["formula", "found", "source", "tool"];

/// Longer texts, each with why it may be so.
const LONGER: [&str; 18] = [
    // The condition that the number is judged by.
    "number-winding-steady-density",
    // A person states a fact that the record keeps, or that a gate asks for.
    "ui-could-not",
    "ui-pair-is-joined",
    "ui-plugged-in",
    "ui-reopened",
    "ui-repeated-hold",
    "ui-trained-only",
    // The oven chassis is one thing, named the same everywhere.
    "ui-proof-first",
    "ui-proof-second",
    // Rows of values with their units.
    "page-coil-gap",
    "page-far-end",
    "page-two-leads-shorter",
    "ui-photo-together-row",
    "ui-winding-room",
    // Drawings for somebody who does not see them.
    "ui-pair-joints",
    "ui-photo-stage",
    "ui-turns-around",
    // A verdict inside a line of the list.
    "fit-with-shelf",
];

/// What a button's text begins with.
const VERBS: [&str; 56] = [
    "Accept", "Add", "Ask", "Back", "Begin", "Cancel", "Change", "Check", "Choose", "Close", "Compare", "Confirm",
    "Decide", "Delete", "Design", "End", "Enter", "Find", "Finish", "Fixed", "Go", "Hide", "Import", "Keep", "Look",
    "Make", "Mark", "Measure", "Move", "Next", "No", "Open", "Press", "Print", "Put", "Reach", "Record", "Redo",
    "Reject", "Remove", "Rename", "Repair", "Restart", "Restore", "Resume", "Save", "See", "Set", "Share", "Show",
    "Size", "Start", "Take", "Test", "Undo", "Wind",
];

/// More verbs, of one button each.
const RARE_VERBS: [&str; 3] = ["Use", "Withdraw", "Yes"];

/// Texts of buttons that begin with no verb: answers to a question, what a person states, and what a button shows
/// beside its name.
const NO_VERB: [&str; 18] = [
    "glossary-ask",
    "number-widened",
    "ui-conflict-empty",
    "ui-conflict-shown",
    "ui-could-not",
    "ui-layer-count",
    "ui-new-find",
    "ui-new-job",
    "ui-own-metres",
    "ui-photo-edge-point",
    "ui-photo-from",
    "ui-photo-straight-point",
    "ui-photo-to",
    "ui-plugged-in",
    "ui-reopened",
    "ui-turn-count",
    "ui-usual",
    "way-stage",
];

/// Headings that ask what the person answers right below.
const QUESTIONS: [&str; 3] = ["ui-first-have", "ui-openable", "ui-repeated"];

/// Headings that begin as an action: what the action opens stands below it.
const HEADINGS_THAT_ACT: [&str; 2] = ["ui-photo-title", "way-next"];

/// Every text by its id, the lines of one text apart; ids of attributes are `message.attribute`.
fn texts() -> BTreeMap<String, Vec<String>> {
    let mut all: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (_, content) in ENGLISH.iter().filter(|(file, _)| FILES.contains(file)) {
        let (mut message, mut id) = (String::new(), String::new());
        for line in content.lines().filter(|line| !line.starts_with('#')) {
            let named = line.split_once(" =").filter(|(left, _)| {
                let name = left.strip_prefix("    .").unwrap_or(left);
                !name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric() || "-_".contains(c))
            });
            let text = match named {
                Some((left, text)) => {
                    if let Some(attribute) = left.strip_prefix("    .") {
                        id = format!("{message}.{attribute}");
                    } else {
                        left.clone_into(&mut message);
                        left.clone_into(&mut id);
                    }
                    text
                }
                None => line,
            };
            let text = text.trim();
            if !text.is_empty() && text != "}" && !text.ends_with("->") {
                all.entry(id.clone()).or_default().push(variant(text).to_owned());
            }
        }
    }
    all
}

/// A line without the name of its plural form: `*[other] Show` says "Show".
fn variant(line: &str) -> &str {
    match line.strip_prefix('*').unwrap_or(line).strip_prefix('[') {
        Some(rest) => rest.split_once("] ").map_or(line, |(_, text)| text),
        None => line,
    }
}

/// True where a text ends as a sentence or as the beginning of a list does.
fn ends_a_sentence(text: &str) -> bool {
    text.ends_with(['.', '!', '?', ':', '}'])
}

/// The words of a label that count: no placeable, no unit behind one, nothing in parentheses.
fn counted(label: &str) -> usize {
    let mut without = String::new();
    let mut depth = 0_usize;
    for c in label.chars() {
        match c {
            '{' | '(' => depth += 1,
            '}' | ')' => {
                depth = depth.saturating_sub(1);
                without.push_str(if c == '}' { " 0 " } else { " " });
            }
            _ if depth == 0 => without.push(c),
            _ => {}
        }
    }
    let units = ["A", "V", "m", "mm", "mH", "Hz", "°C", "°"];
    let mut after_number = false;
    without
        .split_whitespace()
        .filter(|word| {
            let unit = after_number && units.contains(&word.trim_end_matches([',', ';']));
            after_number = word.ends_with(|c: char| c.is_ascii_digit());
            !unit && word.contains(char::is_alphabetic)
        })
        .count()
}

#[test]
fn a_label_a_heading_and_a_button_have_four_words_at_most() {
    let (mut seen, mut long) = (0, Vec::new());
    for (id, lines) in texts() {
        let attribute = id.split_once('.').map_or("", |(_, attribute)| attribute);
        if NO_LABELS.iter().any(|start| id.starts_with(start)) || NO_LABEL_ATTRIBUTES.contains(&attribute) {
            continue;
        }
        for line in lines.iter().filter(|line| !ends_a_sentence(line)) {
            seen += 1;
            if counted(line) > MOST && !LONGER.contains(&id.as_str()) {
                long.push(format!("{id}: {} words: {line}", counted(line)));
            }
        }
    }
    assert!(seen > 700, "{seen}");
    assert!(long.is_empty(), "{long:#?}");
}

/// The ids of texts in the elements of one kind, in the code of the screens.
fn in_elements(kinds: &[&str]) -> BTreeSet<String> {
    let mut files = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/ui"), &mut files);
    let mut ids = BTreeSet::new();
    for path in files {
        let code = std::fs::read_to_string(&path).unwrap();
        let (code, _) = code.split_once("#[cfg(test)]").unwrap_or((&code, ""));
        for kind in kinds {
            for (at, _) in code.match_indices(&format!(" {kind} {{")) {
                ids.extend(ids_said(element(&code[at..])));
            }
        }
    }
    ids
}

/// An element with what is in its braces.
fn element(code: &str) -> &str {
    let mut depth = 0_usize;
    for (at, c) in code.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 1 => return &code[..=at],
            '}' => depth -= 1,
            _ => {}
        }
    }
    code
}

/// The literals that look like ids.
fn ids_said(code: &str) -> impl Iterator<Item = String> + '_ {
    code.split('"').skip(1).step_by(2).map(str::to_owned)
}

#[test]
fn a_button_begins_with_a_verb() {
    let texts = texts();
    let (mut seen, mut wrong) = (0, Vec::new());
    let buttons = in_elements(&["button"]);
    let next_steps = texts.keys().filter(|id| id.ends_with(".go"));
    let undone = texts.keys().filter(|id| id.starts_with("undo-"));
    for id in buttons.iter().chain(next_steps).chain(undone) {
        for line in texts.get(id).into_iter().flatten() {
            seen += 1;
            // A sentence in a button explains; it is no name.
            let first = line.split([' ', ':', ',']).next().unwrap_or_default();
            let verb = VERBS.contains(&first) || RARE_VERBS.contains(&first);
            if !verb && !line.ends_with('.') && !NO_VERB.contains(&id.as_str()) {
                wrong.push(format!("{id}: {line}"));
            }
        }
    }
    assert!(seen > 150, "{seen}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_heading_names_something() {
    let texts = texts();
    let (mut seen, mut wrong) = (0, Vec::new());
    for id in in_elements(&["h1", "h2", "h3", "h4"]) {
        for line in texts.get(&id).into_iter().flatten() {
            seen += 1;
            let first = line.split([' ', ':', ',']).next().unwrap_or_default();
            let acts = VERBS.contains(&first) && line.contains(' ') && !HEADINGS_THAT_ACT.contains(&id.as_str());
            let asks = line.ends_with('?') && !QUESTIONS.contains(&id.as_str());
            let riddles = line.contains('…') || format!(" {line} ").contains(" it ");
            if acts || asks || riddles {
                wrong.push(format!("{id}: {line}"));
            }
        }
    }
    assert!(seen > 60, "{seen}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A list of exceptions holds only what still needs one.
#[test]
fn the_exceptions_are_needed() {
    let texts = texts();
    let stale: Vec<&str> = LONGER
        .into_iter()
        .filter(|id| {
            texts
                .get(*id)
                .is_none_or(|lines| lines.iter().all(|line| counted(line) <= MOST))
        })
        .collect();
    assert!(stale.is_empty(), "{stale:?}");
    let buttons = in_elements(&["button"]);
    let gone: Vec<&str> = NO_VERB.into_iter().filter(|id| !buttons.contains(*id)).collect();
    assert!(gone.is_empty(), "{gone:?}");
}

#[test]
fn words_of_a_label_are_counted() {
    for (label, words) in [
        ("Take { $takes } m off the shelf", 4),
        ("Face above the object (below: minus)", 4),
        ("{ $amps } A at { $volts } V; { $open } V open", 2),
        ("Go back without passing", 4),
        ("All numbers with ±", 3),
    ] {
        assert_eq!(counted(label), words, "{label}");
    }
    assert_eq!(variant("*[other] Show { $count } photos"), "Show { $count } photos");
    assert_eq!(element(" button { a { b } c } d"), " button { a { b } c }");
}
