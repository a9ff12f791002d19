//! What a file from anybody may cost: memory, measured as the most that a process of its own had at
//! once, and room on the disk. The numbers stand in docs/shelf-file.md, section "What a file may cost".
#![cfg(target_os = "linux")]

use std::io::{Cursor, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

use curbcore::app::photo::OpenedPhoto;
use curbcore::app::sync::Sending;
use curbcore::app::workspace::Workspace;
use curbcore::exchange::{Passphrase, Reader};
use curbcore::job::PhotoReference;
use curbcore::merge::{Device, Kind, RecordHistory, RecordLine, Stamp};
use serde_json::json;
use uuid::Uuid;

use crate::carry::TestDevice;
use crate::hostile::{packed, parts, with_records};

/// What a process of this program takes before it does anything, in MiB.
const IDLE_MIB: u64 = 40;

/// The second process: does one thing, and says what it took.
#[test]
#[ignore = "run by the tests of this file as a process of its own"]
fn child() {
    let file = PathBuf::from(std::env::var_os("CHILD_FILE").unwrap());
    let said = match std::env::var("CHILD_WORK").unwrap().as_str() {
        "photo" => match OpenedPhoto::new(&std::fs::read(&file).unwrap()) {
            Ok(opened) => {
                let _ = opened.find(&PhotoReference::Card);
                format!("opened {} x {}", opened.frame()[0], opened.frame()[1])
            }
            Err(message) => message.to_string(),
        },
        work => {
            let data = file.with_extension("data");
            let mut workspace = Workspace::open(&data).unwrap();
            let phrase = Passphrase::typed("open sesame");
            let done = if work == "look" {
                workspace.preview_shelf(&file, phrase.as_ref(), |_| ())
            } else {
                workspace.import_shelf(&file, phrase.as_ref(), |_| ())
            };
            drop(workspace);
            done.map_or_else(|error| error.to_string(), |_| "imported".to_owned())
        }
    };
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
    let kib: u64 = peak.trim().trim_end_matches(" kB").parse().unwrap();
    println!("\npeak {} said {}", kib / 1024, said.replace('\n', " "));
}

/// The most memory that the work took, in MiB beside what an idle process has, and what came of it.
fn measured(work: &str, file: &Path) -> (u64, String) {
    let out = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "bounds::child", "--ignored", "--nocapture"])
        .env("CHILD_WORK", work)
        .env("CHILD_FILE", file)
        .output()
        .unwrap();
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    let line = text.lines().find_map(|line| line.strip_prefix("peak "));
    let (peak, said) = line.and_then(|line| line.split_once(" said ")).unwrap_or_else(|| {
        panic!("{text}{}", String::from_utf8_lossy(&out.stderr));
    });
    (peak.parse::<u64>().unwrap().saturating_sub(IDLE_MIB), said.to_owned())
}

fn file(folder: &tempfile::TempDir, name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).unwrap();
    path
}

/// A zip file's list of parts, made by hand: so many parts without bytes, each with a comment.
fn many_parts(count: u32, comment: usize) -> Vec<u8> {
    let local: &[u8] = b"PK\x03\x04\x14\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\x01\0\0\0x";
    let mut bytes = local.to_vec();
    let start = bytes.len() as u32;
    let note = vec![b'c'; comment];
    for _ in 0..count {
        bytes.extend(b"PK\x01\x02\x14\0\x14\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\x08\0\0\0");
        bytes.extend((comment as u16).to_le_bytes());
        bytes.extend([0; 12]);
        // Its name: a number of its own.
        let number = bytes.len();
        bytes.extend(format!("{number:08x}").as_bytes());
        bytes.extend(&note);
    }
    let size = bytes.len() as u32 - start;
    let large = count > u32::from(u16::MAX);
    if large {
        let at = bytes.len() as u64;
        bytes.extend(b"PK\x06\x06");
        bytes.extend(44_u64.to_le_bytes());
        bytes.extend([45, 0, 45, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
        for number in [u64::from(count), u64::from(count), u64::from(size), u64::from(start)] {
            bytes.extend(number.to_le_bytes());
        }
        bytes.extend(b"PK\x06\x07\0\0\0\0");
        bytes.extend(at.to_le_bytes());
        bytes.extend(1_u32.to_le_bytes());
    }
    bytes.extend(b"PK\x05\x06\0\0\0\0");
    let short = if large { u16::MAX } else { count as u16 };
    bytes.extend(short.to_le_bytes());
    bytes.extend(short.to_le_bytes());
    bytes.extend((if large { u32::MAX } else { size }).to_le_bytes());
    bytes.extend((if large { u32::MAX } else { start }).to_le_bytes());
    bytes.extend([0, 0]);
    bytes
}

#[test]
fn a_list_of_many_parts_takes_little_memory() {
    let folder = tempfile::tempdir().unwrap();
    for (name, count, comment) in [
        ("million.curbshelf", 1_000_000, 0),
        ("many.curbshelf", 60_000, 0),
        ("notes.curbshelf", 15_000, 4_000),
    ] {
        let path = file(&folder, name, &many_parts(count, comment));
        let (peak, said) = measured("look", &path);
        assert!(said.contains("larger than a shelf file may have"), "{name}: {said}");
        assert!(peak <= 60, "{name}: {peak} MiB");
    }
}

#[test]
fn what_a_file_unpacks_to_is_bounded_in_sum() {
    let mut phone = TestDevice::new("phone");
    phone.workspace.open_demo().unwrap();
    let path = phone.pack(&Sending::All);
    let mut with = parts(&path);
    // Photos of zeros: each is allowed alone.
    for number in 0..40 {
        let name = format!("photos/photo-{}.jpg", Uuid::from_u128(number));
        with.push((name, vec![0; 4 << 20]));
    }
    let folder = tempfile::tempdir().unwrap();
    let path = file(&folder, "zeros.curbshelf", &packed(&with));
    assert!(path.metadata().unwrap().len() < 1 << 20);
    let (peak, said) = measured("look", &path);
    assert!(said.contains("what it unpacks to"), "{said}");
    assert!(peak <= 20, "{peak} MiB");
}

/// A part that holds more than the list of parts says: it is read as far as that, and then refused.
#[test]
fn a_part_that_holds_more_than_it_says_is_not_read_on() {
    let mut phone = TestDevice::new("phone");
    phone.workspace.open_demo().unwrap();
    let path = phone.pack(&Sending::All);
    let mut with = parts(&path);
    let at = with.iter().position(|(name, _)| name == "records.jsonl").unwrap();
    let said = with[at].1.len() as u32;
    // A length that nothing else in the file looks like.
    const LARGE: u32 = 0x03AB_CD17;
    with[at].1.resize(LARGE as usize, b' ');
    let mut bytes = packed(&with);
    let (large, small) = (LARGE.to_le_bytes(), said.to_le_bytes());
    let mut changed = 0;
    for at in 0..bytes.len() - 4 {
        if bytes[at..at + 4] == large {
            bytes[at..at + 4].copy_from_slice(&small);
            changed += 1;
        }
    }
    assert_eq!(changed, 2, "the size stands before the part and in the list");
    let folder = tempfile::tempdir().unwrap();
    let path = file(&folder, "more.curbshelf", &bytes);
    let mut bench = TestDevice::new("bench");
    // What is read is what the manifest says, so that it may even be taken in; no more is unpacked.
    let _ = bench.workspace.import_shelf(&path, None, |_| ());
    let (peak, _) = measured("import", &path);
    assert!(peak <= 60, "{peak} MiB");
}

#[test]
fn a_sealed_file_takes_a_fixed_amount_of_memory() {
    let mut phone = TestDevice::new("phone");
    phone.workspace.open_demo().unwrap();
    let phrase = Passphrase::typed("open sesame");
    let path = phone.folder.path().join("sealed.curbshelf");
    phone
        .workspace
        .export_shelf(&path, &Sending::All, phrase.as_ref(), |_| ())
        .unwrap();
    let bytes = std::fs::read(&path).unwrap();
    // The work factor stands at the end of the second line, in plain digits.
    let line: Vec<u8> = bytes.split(|byte| *byte == b'\n').nth(1).unwrap().to_vec();
    assert!(
        line.starts_with(b"-> scrypt ") && line.ends_with(b" 17"),
        "{}",
        String::from_utf8_lossy(&line)
    );
    let (peak, said) = measured("look", &path);
    assert_eq!(said, "imported");
    assert!((100..=190).contains(&peak), "{peak} MiB");

    let end = bytes.iter().position(|byte| *byte == b'\n').unwrap() + 1 + line.len();
    let folder = tempfile::tempdir().unwrap();
    for (factor, word, most) in [
        (b"18", "passphrase", 300),
        (b"19", "work factor 19, at most 18", 20),
        (b"20", "work factor 20", 20),
    ] {
        let mut asks = bytes.clone();
        asks[end - 2..end].copy_from_slice(factor);
        let path = file(&folder, "asks.curbshelf", &asks);
        let (peak, said) = measured("look", &path);
        assert!(said.contains(word), "{said}");
        assert!(peak <= most, "{peak} MiB");
    }
}

/// A JPEG of one grey, baseline, by ITU-T T.81: each block has two bits.
fn grey_jpeg(width: u16, height: u16) -> Vec<u8> {
    let mut bytes = vec![0xFF, 0xD8];
    let mut segment = |marker: u8, body: &[u8]| {
        bytes.extend([0xFF, marker]);
        bytes.extend((body.len() as u16 + 2).to_be_bytes());
        bytes.extend(body);
    };
    segment(0xDB, &[vec![0], vec![1; 64]].concat());
    let [h, w] = [height.to_be_bytes(), width.to_be_bytes()];
    segment(0xC0, &[8, h[0], h[1], w[0], w[1], 1, 1, 0x11, 0]);
    for class in [0x00, 0x10] {
        segment(0xC4, &[vec![class, 1], vec![0; 15], vec![0]].concat());
    }
    segment(0xDA, &[1, 1, 0x00, 0, 63, 0]);
    let blocks = usize::from(width.div_ceil(8)) * usize::from(height.div_ceil(8));
    bytes.extend(vec![0; blocks.div_ceil(4)]);
    bytes.extend([0xFF, 0xD9]);
    bytes
}

/// The head of a JPEG with components of its own, and zeros for its scan.
fn promising_jpeg(side: u16, marker: u8, components: &[[u8; 3]], length: usize) -> Vec<u8> {
    let mut bytes = grey_jpeg(side, side);
    let at = bytes.windows(2).position(|pair| pair == [0xFF, 0xC0]).unwrap();
    bytes[at + 1] = marker;
    bytes[at + 3] = 8 + 3 * components.len() as u8;
    bytes[at + 9] = components.len() as u8;
    bytes.splice(at + 10..at + 13, components.concat());
    let scan = bytes.windows(2).position(|pair| pair == [0xFF, 0xDA]).unwrap();
    let selectors: Vec<u8> = components.iter().flat_map(|component| [component[0], 0]).collect();
    bytes[scan + 3] = 6 + 2 * components.len() as u8;
    bytes[scan + 4] = components.len() as u8;
    bytes.splice(scan + 5..scan + 7, selectors);
    let end = bytes.len() - 2;
    bytes.truncate(end.min(scan + 20));
    bytes.resize(bytes.len() + length, 0);
    bytes.extend([0xFF, 0xD9]);
    bytes
}

#[test]
fn a_picture_takes_a_bounded_amount_of_memory() {
    let folder = tempfile::tempdir().unwrap();
    let component = |number: u8, factors: u8| [number, factors, 0];
    let four = |factors: u8| {
        [
            component(1, factors),
            component(2, 0x11),
            component(3, 0x11),
            component(4, 0x11),
        ]
    };
    let cases = [
        // The largest that is accepted: what it takes is what docs/shelf-file.md says.
        ("largest.jpg", grey_jpeg(10_000, 10_000), "opened"),
        // 250 bytes that promise as much.
        (
            "tiny.jpg",
            promising_jpeg(10_000, 0xC0, &[component(1, 0x11)], 40),
            "refused-picture-cut",
        ),
        (
            "cmyk.jpg",
            promising_jpeg(9_000, 0xC0, &four(0x11), 600_000),
            "refused-picture-memory",
        ),
        (
            "progressive.jpg",
            promising_jpeg(8_000, 0xC2, &four(0x11), 600_000),
            "refused-picture-memory",
        ),
        (
            "sampled.jpg",
            promising_jpeg(9_999, 0xC2, &four(0x44), 600_000),
            "refused-picture-memory",
        ),
    ];
    for (name, bytes, word) in cases {
        let path = file(&folder, name, &bytes);
        let (peak, said) = measured("photo", &path);
        assert!(said.contains(word), "{name}: {said}");
        assert!(peak <= 300, "{name}: {peak} MiB");
    }
}

/// A note as long as one may be, about the demo's job.
fn note(number: u128, job: &str, text: &str) -> String {
    let stamp = Stamp {
        count: 3,
        device: Device(0xaa),
    };
    let values = json!({ "owner": { "job": job }, "text": text, "created_ms": 1, "edited_ms": 1 });
    let serde_json::Value::Object(values) = values else {
        unreachable!()
    };
    RecordLine {
        kind: Kind::Note,
        id: Uuid::from_u128(number),
        known: RecordHistory::new(stamp, values),
    }
    .to_json()
}

/// Bytes of the data file and what SQLite has beside it.
fn on_disk(data: &Path) -> u64 {
    std::fs::read_dir(data)
        .unwrap()
        .filter_map(|entry| {
            entry
                .unwrap()
                .metadata()
                .ok()
                .filter(|it| it.is_file())
                .map(|it| it.len())
        })
        .sum()
}

/// Records of 12 MiB: the data file grows by at most four times what they unpack to.
#[test]
fn records_take_at_most_four_times_their_room() {
    let mut phone = TestDevice::new("phone");
    phone.workspace.open_demo().unwrap();
    let path = phone.pack(&Sending::All);
    let with = parts(&path);
    let job = phone.workspace.store().job_summaries(1, None).unwrap()[0]
        .id
        .to_string();
    // Words of all lengths: the index of words takes the most room for them.
    let mut seed = 7_u64;
    let mut text = || {
        let mut words = String::new();
        while words.len() < 3_900 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            words.push_str(&format!("{:x} ", seed >> 40));
        }
        words
    };
    let lines: Vec<String> = (1..=3_000).map(|number| note(number, &job, &text())).collect();
    let bytes = with_records(&with, |before| {
        let (first, last): (Vec<&str>, Vec<&str>) =
            before.lines().partition(|line| !line.contains("\"kind\":\"note\""));
        let mut all: Vec<String> = first.into_iter().chain(last).map(str::to_owned).collect();
        all.extend(lines.iter().cloned());
        all.iter().map(|line| format!("{line}\n")).collect()
    });
    let unpacked = Reader::new(Cursor::new(&bytes)).unwrap().unpacked();
    let folder = tempfile::tempdir().unwrap();
    let path = file(&folder, "notes.curbshelf", &bytes);
    let (peak, said) = measured("import", &path);
    assert_eq!(said, "imported");
    assert!(peak <= 180, "{peak} MiB");
    let grown = on_disk(&path.with_extension("data"));
    assert!(grown <= 4 * unpacked + (2 << 20), "{grown} bytes for {unpacked}");
}

/// Spaces in a line are written nowhere: what was 1 MiB as a line is a few hundred bytes in the data.
#[test]
fn lines_are_written_anew() {
    let mut phone = TestDevice::new("phone");
    phone.workspace.open_demo().unwrap();
    let path = phone.pack(&Sending::All);
    let spaces = " ".repeat(900_000);
    let few = with_records(&parts(&path), |text| {
        let mut out = String::new();
        for (number, line) in text.lines().enumerate() {
            let spaces = if number < 20 { spaces.as_str() } else { "" };
            out.push_str(&format!("{}{spaces}}}\n", line.strip_suffix('}').unwrap()));
        }
        out
    });
    let mut bench = TestDevice::new("bench");
    let path = file(&bench.folder, "spaces.curbshelf", &few);
    bench.workspace.import_shelf(&path, None, |_| ()).unwrap();
    std::fs::remove_file(&path).unwrap();
    assert!(
        on_disk(bench.folder.path()) < 4 << 20,
        "{} bytes",
        on_disk(bench.folder.path())
    );
    let again = bench.pack(&Sending::All);
    assert!(
        !parts(&again)
            .iter()
            .any(|(_, bytes)| bytes.windows(20).any(|part| part == [b' '; 20]))
    );
}

/// The work tells its stages, and stops at each of them with nothing left behind.
#[test]
fn long_work_can_be_cancelled_at_every_stage() {
    use curbcore::app::sync::Stage;
    let mut phone = TestDevice::new("phone");
    let job = phone.workspace.open_demo().unwrap();
    phone
        .workspace
        .add_core_photo(job, "measure", &grey_jpeg(64, 64))
        .unwrap();
    let phrase = Passphrase::typed("open sesame");
    let out = phone.folder.path().join("out.curbshelf");
    let files = |folder: &Path| std::fs::read_dir(folder).unwrap().count();
    let before = files(phone.folder.path());
    for stage in [Stage::Key, Stage::Records, Stage::Photos] {
        let stopped = phone
            .workspace
            .export_shelf(&out, &Sending::All, phrase.as_ref(), |progress| {
                if progress.stage == stage {
                    progress.cancel();
                }
            });
        assert!(stopped.unwrap_err().to_string().contains("cancelled"), "{stage:?}");
        assert_eq!(files(phone.folder.path()), before, "a file is left");
    }
    phone
        .workspace
        .export_shelf(&out, &Sending::All, phrase.as_ref(), |_| ())
        .unwrap();
    let mut bench = TestDevice::new("bench");
    for stage in [Stage::Key, Stage::Records, Stage::Photos] {
        let mut stop = |progress: &curbcore::app::sync::Progress| {
            if progress.stage == stage {
                progress.cancel();
            }
        };
        assert!(bench.workspace.preview_shelf(&out, phrase.as_ref(), &mut stop).is_err());
        let stopped = bench.workspace.import_shelf(&out, phrase.as_ref(), stop);
        assert!(
            stopped.unwrap_err().to_string().contains("nothing was changed"),
            "{stage:?}"
        );
        assert_eq!(bench.workspace.store().job_count().unwrap(), 0);
        assert_eq!(bench.workspace.store().undo_op().unwrap(), None);
    }
    bench.workspace.import_shelf(&out, phrase.as_ref(), |_| ()).unwrap();
    assert_eq!(bench.workspace.store().job_count().unwrap(), 1);
}

/// No part of a file that this program writes is beyond the bounds that it reads by, and its parts are
/// counted in the plain form of zip files.
#[test]
fn an_export_is_within_the_bounds() {
    let mut phone = TestDevice::new("phone");
    let job = phone.workspace.open_demo().unwrap();
    for _ in 0..3 {
        phone
            .workspace
            .add_core_photo(job, "measure", &grey_jpeg(64, 64))
            .unwrap();
    }
    let path = phone.pack(&Sending::All);
    let bytes = std::fs::read(&path).unwrap();
    assert!(!bytes.windows(4).any(|part| part == b"PK\x06\x07"));
    let reader = Reader::new(Cursor::new(&bytes)).unwrap();
    let sum: usize = parts(&path).iter().map(|(_, bytes)| bytes.len()).sum();
    assert_eq!(reader.unpacked(), sum as u64);
    let _ = std::io::stdout().flush();
}
