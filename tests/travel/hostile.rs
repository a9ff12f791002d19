//! Files that are cut off, altered, or made to harm: each is refused with a sentence, and nothing
//! of it is taken in.

use std::io::{Cursor, Read, Write};
use std::path::{Path, PathBuf};

use curbcore::app::sync::Sending;
use curbcore::exchange::Reader;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::carry::{TestDevice, pair};

pub type Parts = Vec<(String, Vec<u8>)>;

pub fn parts(path: &Path) -> Parts {
    let mut zip = ZipArchive::new(std::fs::File::open(path).unwrap()).unwrap();
    (0..zip.len())
        .map(|at| {
            let mut part = zip.by_index(at).unwrap();
            let mut bytes = Vec::new();
            part.read_to_end(&mut bytes).unwrap();
            (part.name().unwrap().into_owned(), bytes)
        })
        .collect()
}

pub fn packed(parts: &Parts) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        zip.start_file(name.as_str(), options).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// A good file's parts, and a device that never saw it.
fn good() -> (TestDevice, PathBuf, Parts, TestDevice) {
    let (mut phone, _, _) = pair();
    let path = phone.pack(&Sending::All);
    let parts = parts(&path);
    (phone, path, parts, TestDevice::new("bench"))
}

fn refused(bench: &mut TestDevice, bytes: &[u8]) -> String {
    let path = bench.folder.path().join("hostile.curbshelf");
    std::fs::write(&path, bytes).unwrap();
    let error = bench
        .workspace
        .import_shelf(&path, None, |_| ())
        .unwrap_err()
        .to_string();
    assert_eq!(bench.workspace.store().job_count().unwrap(), 0, "{error}");
    assert!(bench.workspace.store().donors().unwrap().is_empty(), "{error}");
    assert!(error.len() > 20 && !error.contains("panicked"), "{error}");
    error
}

#[test]
fn the_parts_packed_again_are_a_good_file() {
    let (_phone, _, parts, mut bench) = good();
    let path = bench.folder.path().join("again.curbshelf");
    std::fs::write(&path, packed(&parts)).unwrap();
    bench.workspace.import_shelf(&path, None, |_| ()).unwrap();
    assert_eq!(bench.workspace.store().job_count().unwrap(), 1);
}

#[test]
fn a_file_cut_off_anywhere_is_refused() {
    let (_phone, path, _, mut bench) = good();
    let whole = std::fs::read(path).unwrap();
    for keep in (0..whole.len()).step_by(whole.len() / 40 + 1) {
        refused(&mut bench, &whole[..keep]);
    }
}

#[test]
fn a_byte_changed_anywhere_is_refused_or_means_nothing() {
    let (phone, path, _, _) = good();
    let whole = std::fs::read(path).unwrap();
    let job = phone.workspace.store().job_summaries(1, None).unwrap()[0].id;
    for at in (0..whole.len()).step_by(whole.len() / 60 + 1) {
        let mut bench = TestDevice::new("bench");
        let mut bytes = whole.clone();
        bytes[at] ^= 0x5a;
        let path = bench.folder.path().join("changed.curbshelf");
        std::fs::write(&path, bytes).unwrap();
        match bench.workspace.import_shelf(&path, None, |_| ()) {
            Ok(_) => assert_eq!(
                bench.workspace.store().job_file(job).unwrap(),
                phone.workspace.store().job_file(job).unwrap(),
                "byte {at}"
            ),
            Err(_) => assert_eq!(bench.workspace.store().job_count().unwrap(), 0),
        }
    }
}

#[test]
fn what_has_no_place_in_it_is_refused_by_name() {
    let (_phone, _, parts, mut bench) = good();
    for name in [
        "../../evil.sh",
        "/etc/passwd",
        "photos/../x.jpg",
        "photos/photo-1.jpg",
        "extra.txt",
        "photos/",
    ] {
        let mut more = parts.clone();
        more.push((name.to_owned(), b"x".to_vec()));
        let error = refused(&mut bench, &packed(&more));
        assert!(error.contains(name), "{error}");
    }
}

#[test]
fn two_parts_of_one_name_are_refused() {
    let (_phone, _, parts, mut bench) = good();
    // The writer makes no such file: a second name of the same length is written over.
    let mut more = parts.clone();
    more.push(("records.jsonX".to_owned(), b"{}\n".to_vec()));
    let mut bytes = packed(&more);
    let (from, to) = (b"records.jsonX", b"records.jsonl");
    for at in 0..bytes.len() - from.len() {
        if &bytes[at..at + from.len()] == from {
            bytes[at..at + to.len()].copy_from_slice(to);
        }
    }
    let error = refused(&mut bench, &bytes);
    assert!(error.contains("one name"), "{error}");
}

#[test]
fn a_bomb_is_refused_before_it_is_unpacked() {
    let (_phone, _, mut parts, mut bench) = good();
    for part in &mut parts {
        if part.0 == "records.jsonl" {
            part.1 = vec![b' '; 64 << 20];
        }
    }
    let error = refused(&mut bench, &packed(&parts));
    assert!(error.contains("larger"), "{error}");
}

pub fn with_records(parts: &Parts, change: impl Fn(String) -> String) -> Vec<u8> {
    use sha2::Digest;
    let mut parts = parts.clone();
    let mut sum = String::new();
    let mut count = 0;
    for part in &mut parts {
        if part.0 == "records.jsonl" {
            part.1 = change(String::from_utf8(part.1.clone()).unwrap()).into_bytes();
            sum = sha2::Sha256::digest(&part.1)
                .iter()
                .map(|byte| format!("{byte:02x}"))
                .collect();
            count = part.1.split(|byte| *byte == b'\n').count() - 1;
        }
    }
    for part in &mut parts {
        if part.0 == "manifest.json" {
            let mut manifest: serde_json::Value = serde_json::from_slice(&part.1).unwrap();
            manifest["records_sha256"] = sum.clone().into();
            manifest["records"] = count.into();
            part.1 = manifest.to_string().into_bytes();
        }
    }
    packed(&parts)
}

#[test]
fn records_that_are_not_accepted_are_named() {
    let (_phone, _, parts, mut bench) = good();
    let cases: &[(&str, &str, &str)] = &[
        ("\"rated_hertz\":60", "\"rated_hertz\":-60", "rated_hertz"),
        ("\"rated_hertz\":60", "\"rated_hertz\":1e999", "line"),
        ("\"rated_hertz\":60", "\"rated_hertz\":\"60\"", "rated_hertz"),
        ("\"rated_hertz\":60", "\"rated_hertz\":61", "core"),
        ("\"shunts_kept\":", "\"colour\":1,\"shunts_kept\":", "colour"),
        ("\"kind\":\"core\"", "\"kind\":\"lathe\"", "line"),
        ("\"origin\":\"calipers\"", "\"origin\":\"guess\"", "origin"),
        ("\"plus_minus\":", "\"plus_minus\":-", "plus_minus"),
        ("\"plus_minus\":", "\"plus_minus\":99999", "value"),
        ("\"use\":\"spot_welder\"", "\"use\":\"time_machine\"", "job"),
    ];
    for (from, to, named) in cases {
        let bytes = with_records(&parts, |text| {
            assert!(text.contains(from), "{from} is not in the file");
            text.replacen(from, to, 1)
        });
        let error = refused(&mut bench, &bytes);
        assert!(error.contains(named), "{from} -> {to}: {error}");
    }
}

#[test]
fn long_texts_deep_values_and_endless_lines_are_refused() {
    let (_phone, _, parts, mut bench) = good();
    let long = "x".repeat(10 << 20);
    let error = refused(
        &mut bench,
        &with_records(&parts, |text| {
            text.replacen("\"notes\":\"", &format!("\"notes\":\"{long}"), 1)
        }),
    );
    assert!(error.contains("larger") || error.contains("1 MiB"), "{error}");
    let medium = "x".repeat(30_000);
    let error = refused(
        &mut bench,
        &with_records(&parts, |text| {
            text.replacen("\"notes\":\"", &format!("\"notes\":\"{medium}"), 1)
        }),
    );
    assert!(error.contains("notes"), "{error}");
    let deep = format!("{}{}", "[".repeat(5_000), "]".repeat(5_000));
    refused(
        &mut bench,
        &with_records(&parts, |text| {
            text.replacen("\"goal\":{", &format!("\"goal\":{{\"x\":{deep},"), 1)
        }),
    );
}

#[test]
fn a_file_that_says_another_sum_count_or_version_is_refused() {
    let (_phone, _, parts, mut bench) = good();
    for (key, value, named) in [
        ("records_sha256", serde_json::json!("0".repeat(64)), "SHA-256"),
        ("records", serde_json::json!(3), "lines"),
        ("photos", serde_json::json!(1), "photos"),
        ("curbcore_shelf", serde_json::json!(9), "version"),
        ("colour", serde_json::json!(9), "colour"),
    ] {
        let mut parts = parts.clone();
        for part in &mut parts {
            if part.0 == "manifest.json" {
                let mut manifest: serde_json::Value = serde_json::from_slice(&part.1).unwrap();
                manifest[key] = value.clone();
                part.1 = manifest.to_string().into_bytes();
            }
        }
        let error = refused(&mut bench, &packed(&parts));
        assert!(error.contains(named), "{key}: {error}");
    }
}

#[test]
fn a_record_that_belongs_to_itself_or_to_none_is_kept_back() {
    let (_phone, _, parts, mut bench) = good();
    // A job whose core is the job itself: nothing of the sort is here, so it is not shown.
    let bytes = with_records(&parts, |text| {
        let core = text.split("\"kind\":\"core\",\"id\":\"").nth(1).unwrap()[..36].to_owned();
        let job = text.split("\"kind\":\"job\",\"id\":\"").nth(1).unwrap()[..36].to_owned();
        text.replace(
            &format!("\"core\":\"{core}\",\"created"),
            &format!("\"core\":\"{job}\",\"created"),
        )
    });
    let path = bench.folder.path().join("cyclic.curbshelf");
    std::fs::write(&path, bytes).unwrap();
    if let Ok(parcel) = bench.workspace.import_shelf(&path, None, |_| ()) {
        assert!(parcel.arrival.held > 0, "{:?}", parcel.arrival);
    }
    assert_eq!(bench.workspace.store().job_count().unwrap(), 0);
}

#[test]
fn no_bytes_make_the_reader_fall() {
    let mut seed = 7_u64;
    for length in [0, 1, 22, 100, 5_000] {
        let bytes: Vec<u8> = (0..length)
            .map(|_| {
                seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                (seed >> 33) as u8
            })
            .collect();
        assert!(Reader::new(Cursor::new(bytes)).is_err());
    }
}

#[test]
fn names_with_markup_formulas_and_turned_text_do_no_harm() {
    let evil = "<script>alert(1)</script> \u{202e}=cmd|'/C calc'!A0";
    let mut phone = TestDevice::new(evil);
    let job = phone.workspace.open_demo().unwrap();
    phone.workspace.rename(job, evil).unwrap();
    let mut bench = TestDevice::new("bench");
    bench.take_from(&mut phone);
    let file = bench.workspace.store().job_file(job).unwrap();
    assert_eq!(file.name, evil);
    let answer = curbcore::app::evaluation::evaluate(&file).unwrap();
    let page = curbcore::report::page(&answer, None, &[], curbcore::quantity::LengthUnit::Millimetre).unwrap();
    assert!(!page.contains("<script"), "the page has a script");
    assert!(page.contains("<bdi>&lt;script"), "turned text is not kept apart");
}
