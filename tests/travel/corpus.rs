//! The fuzzers' corpus goes through the doors again, without a fuzzer.

use std::path::Path;

#[path = "../../fuzz/doors.rs"]
mod doors;

#[test]
fn every_input_of_the_corpus_is_read_or_refused() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus");
    type Door = fn(&[u8]);
    let all: [(&str, Door); 6] = [
        ("shelf_file", doors::shelf_file),
        ("record", doors::record),
        ("job_file", doors::job_file),
        ("image_header", doors::image_header),
        ("number", doors::number),
        ("merge", doors::merge),
    ];
    for (name, door) in all {
        let mut inputs: Vec<_> = std::fs::read_dir(corpus.join(name))
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .collect();
        inputs.sort();
        assert!(inputs.len() >= 5, "{name} has no corpus");
        for input in inputs {
            door(&std::fs::read(input).unwrap());
        }
    }
}

/// Writes the corpus' first inputs anew, after a change of a format.
#[test]
#[ignore = "run by hand after a change of a format"]
fn plant() {
    use crate::carry::TestDevice;
    use curbcore::app::sync::Sending;
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus");
    let mut desktop = TestDevice::new("seed");
    let empty = desktop.pack(&Sending::All);
    std::fs::copy(empty, corpus.join("shelf_file/empty")).unwrap();
    let job = desktop.workspace.open_demo().unwrap();
    let whole = desktop.pack(&Sending::All);
    let bytes = std::fs::read(&whole).unwrap();
    std::fs::write(corpus.join("shelf_file/demo"), &bytes).unwrap();
    for (name, part) in [("half", &bytes[..bytes.len() / 2]), ("tail", &bytes[bytes.len() / 2..])] {
        std::fs::write(corpus.join("shelf_file").join(name), part).unwrap();
    }
    let mut other = TestDevice::new("other");
    other.take_from(&mut desktop);
    other.workspace.rename(job, "there").unwrap();
    desktop.workspace.rename(job, "here").unwrap();
    other.take_from(&mut desktop);
    let forked = other.pack(&Sending::All);
    std::fs::copy(&forked, corpus.join("shelf_file/forked")).unwrap();
    let mut reader = curbcore::exchange::open(&forked, None).unwrap();
    let (mut seen, mut lines) = (std::collections::BTreeMap::new(), Vec::new());
    let read: Result<(), curbcore::exchange::ExchangeError> = reader.records(|line| {
        lines.push(line.to_json());
        seen.insert(line.kind, line.to_json());
        Ok(())
    });
    read.unwrap();
    let lines: Vec<String> = lines.into_iter().map(|line| line + "\n").collect();
    std::fs::write(corpus.join("../base.jsonl"), lines.concat()).unwrap();
    for (kind, line) in seen {
        std::fs::write(corpus.join("record").join(kind.word()), line).unwrap();
    }
    let file = desktop.workspace.store().job_file(job).unwrap().to_json();
    std::fs::write(corpus.join("job_file/demo"), &file).unwrap();
    for (at, word) in ["battery_charger", "stick_welder", "choke", "plain_supply"]
        .into_iter()
        .enumerate()
    {
        desktop.workspace.set_use(job, word).unwrap();
        let file = desktop.workspace.store().job_file(job).unwrap().to_json();
        std::fs::write(corpus.join(format!("job_file/use{at}")), file).unwrap();
    }
}
