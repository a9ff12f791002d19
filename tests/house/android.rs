//! Keeps out calls of Rust's standard library that compile for Android and do nothing good there.
//! `platform/android/native/prove.sh` asks the same of the linked library, dependencies included.

use std::path::Path;

use super::layering::{code, sources};

/// A call that Android lacks: how it is written, and what it does there. Read in the standard
/// library's source, versions 1.89 to 1.97: `library/std/src/sys/fs/unix.rs`, `sys/paths/unix.rs`.
const LACKING: &[(&str, &str)] = &[
    (".lock()", "File::lock is refused as not supported"),
    (".lock_shared()", "File::lock_shared is refused as not supported"),
    (".try_lock()", "File::try_lock is refused as not supported"),
    (
        ".try_lock_shared()",
        "File::try_lock_shared is refused as not supported",
    ),
    (".unlock()", "File::unlock is refused as not supported"),
    ("temp_dir()", "env::temp_dir is a folder that no app may write to"),
    ("home_dir()", "env::home_dir is none"),
    (".created()", "Metadata::created is refused as not supported"),
];

/// What stands before an item that is not compiled for Android.
const ELSEWHERE: &[&str] = &[
    "#[cfg(not(unix))]",
    "#[cfg(not(target_os = \"android\"))]",
    "#[cfg(target_family = \"wasm\")]",
];

/// The code without the items that are not compiled for Android.
fn on_android(code: &str) -> String {
    let mut kept = code.to_owned();
    for attribute in ELSEWHERE {
        while let Some(start) = kept.find(attribute) {
            let item = &kept[start..];
            let length = match item.find(['{', ';']) {
                Some(at) if item[at..].starts_with('{') => at + block(&item[at..]),
                Some(at) => at + 1,
                None => item.len(),
            };
            kept.replace_range(start..start + length, "");
        }
    }
    kept
}

/// The length of the block in braces that the text begins with.
fn block(text: &str) -> usize {
    let mut depth = 0;
    for (at, letter) in text.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' if depth == 1 => return at + 1,
            '}' => depth -= 1,
            _ => {}
        }
    }
    text.len()
}

/// What a file calls that Android lacks. A mutex has locks of the same names; they count only where
/// the file works with files. Whoever takes a refusal of `created` for an answer may ask.
fn lacking(code: &str) -> Vec<&'static str> {
    let code = on_android(code).replace(".created().ok()", "");
    let files = code.contains("File");
    LACKING
        .iter()
        .filter(|(call, _)| code.contains(call) && (files || !call.contains("lock")))
        .map(|(_, why)| *why)
        .collect()
}

#[test]
fn nothing_that_androids_standard_library_lacks() {
    let mut files = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut files);
    assert!(files.len() > 100, "the scan found almost nothing: it must be broken");
    let wrong: Vec<String> = files
        .iter()
        // The command line and the window are programs of the desktop.
        .filter(|file| !file.ends_with("command_line.rs"))
        .flat_map(|file| {
            lacking(&code(file))
                .into_iter()
                .map(move |why| format!("{}: on Android {why}", file.display()))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_scan_sees_what_android_lacks() {
    let refused = "use std::fs::File;\nfn take(file: &File) { match file.try_lock() { Ok(()) => {} } }";
    assert_eq!(lacking(refused), ["File::try_lock is refused as not supported"]);
    assert_eq!(lacking("std::env::temp_dir()").len(), 1);
    assert_eq!(lacking("metadata.created()?").len(), 1);
    assert!(lacking("metadata.created().ok()").is_empty());
    let elsewhere =
        "use std::fs::File;\n#[cfg(not(unix))]\nfn take(file: &File) { if true { file.try_lock(); } }\nfn x() {}";
    assert_eq!(on_android(elsewhere), "use std::fs::File;\n\nfn x() {}");
    assert!(lacking(elsewhere).is_empty());
    assert!(lacking("static X: Mutex<u8>; X.lock()").is_empty());
}
