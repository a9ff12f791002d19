//! Random jobs through all that reads an evaluation. `CURBCORE_RANDOM_JOBS` sets how many (40
//! without it), `CURBCORE_FIRST_SEED` where to begin.

use std::fmt::Write as _;
use std::sync::mpsc;
use std::time::Duration;

use curbcore::app::basis::as_choice;
use curbcore::app::bench::plan;
use curbcore::app::compare;
use curbcore::app::evaluation::evaluate;
use curbcore::app::listing::{headline, listing};
use curbcore::job::{Check, JobFile};
use curbcore::quantity::LengthUnit;
use curbcore::report;

use crate::random_job;

/// Far above what a job takes in a debug build; an endless loop ends here.
const PATIENCE: Duration = Duration::from_secs(120);

fn count_of(variable: &str, usual: u64) -> u64 {
    std::env::var(variable)
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(usual)
}

/// Goes through the seeds one by one; names the jobs that panic, do not end, or show a number that is
/// none.
fn every_job(jobs: u64, work: impl Fn(u64, &JobFile) -> String + Copy + Send + 'static) {
    let first = count_of("CURBCORE_FIRST_SEED", 0);
    let mut failed = String::new();
    for seed in first..first + jobs {
        let (done, waiting) = mpsc::channel();
        let begun = std::time::Instant::now();
        std::thread::Builder::new()
            .name(format!("job {seed}"))
            .spawn(move || {
                let file = random_job::job(seed);
                let shown = work(seed, &file);
                let _ = done.send(shown);
            })
            .unwrap();
        let found = match waiting.recv_timeout(PATIENCE) {
            Ok(shown) => no_number(&shown).map(|place| format!("shows {place:?}")),
            Err(mpsc::RecvTimeoutError::Timeout) => Some("did not end".to_owned()),
            Err(mpsc::RecvTimeoutError::Disconnected) => Some("panicked".to_owned()),
        };
        let seconds = begun.elapsed().as_secs_f64();
        if seconds > 3.0 {
            println!("seed {seed} took {seconds:.1} s");
        }
        if let Some(what) = found {
            let _ = writeln!(failed, "seed {seed} {what}");
        }
    }
    assert!(failed.is_empty(), "{failed}");
}

/// Where a text shows what is no number.
fn no_number(shown: &str) -> Option<&str> {
    let at = ["NaN", ">inf", "-inf", " inf", "Infinity"]
        .iter()
        .filter_map(|word| {
            shown.find(word).filter(|at| {
                let after = shown[at + word.len()..].chars().next();
                !after.is_some_and(char::is_alphabetic)
            })
        })
        .min()?;
    let from = (0..at.saturating_sub(60))
        .rev()
        .find(|i| shown.is_char_boundary(*i))
        .unwrap_or(0);
    let to = (at + 40..shown.len())
        .find(|i| shown.is_char_boundary(*i))
        .unwrap_or(shown.len());
    Some(&shown[from..to])
}

/// Everything that does not need a screen.
fn evaluated(seed: u64, file: &JobFile) -> String {
    file.check().unwrap();
    let answer = evaluate(file).unwrap();
    let mut shown = String::new();
    let measures = answer.summary();
    for row in &measures.rows {
        let _ = writeln!(shown, "{:?}", row.si);
    }
    let _ = listing(&answer, seed.is_multiple_of(2));
    shown += &headline(&answer, seed.is_multiple_of(2)).map_or_else(String::new, |line| line.to_string());
    if let (Some(design), Some(_)) = (&answer.design, &answer.goal) {
        let choice = as_choice(&design.candidate, &answer.problem.rebuild, &answer.catalogue);
        assert_eq!(choice.turns, design.candidate.winding.turns);
        let _ = plan(file, &answer, design);
    }
    let unit = if seed.is_multiple_of(2) {
        LengthUnit::Inch
    } else {
        LengthUnit::Millimetre
    };
    shown += &report::page(&answer, None, &[], unit).unwrap();
    for (_, drawing) in report::drawings(&answer, unit) {
        shown += &drawing;
    }
    shown += &report::json(&answer, None).to_string();
    if seed.is_multiple_of(10) {
        let _ = compare::for_every_use(file);
    }
    shown
}

#[test]
fn every_job_of_the_field_table_is_evaluated() {
    every_job(count_of("CURBCORE_RANDOM_JOBS", 40), evaluated);
}

/// The screens of a job with every panel open.
#[cfg(feature = "ui")]
mod screens {
    use super::{count_of, every_job};
    use curbcore::app::workspace::Workspace;
    use curbcore::job::JobFile;
    use curbcore::store::Setting;
    use curbcore::ui::{App, DataFolder};
    use dioxus::prelude::VirtualDom;

    fn rendered(seed: u64, file: &JobFile) -> String {
        let folder = tempfile::tempdir().unwrap();
        let id = {
            let mut workspace = Workspace::open(folder.path()).unwrap();
            let id = workspace.take_in(&file.to_json()).unwrap();
            workspace
                .set_setting(Setting::Panels, "idle inrush shunts heat direct pairs")
                .unwrap();
            workspace
                .set_setting(Setting::LengthUnit, if seed.is_multiple_of(2) { "inch" } else { "mm" })
                .unwrap();
            id
        };
        let mut shown = String::new();
        for screen in ["measure", "rewind", "bench"] {
            Workspace::open(folder.path())
                .unwrap()
                .set_setting(Setting::Place, &format!("{screen} {id} -"))
                .unwrap();
            let mut dom = VirtualDom::new(App).with_root_context(DataFolder(folder.path().to_owned()));
            dom.rebuild_in_place();
            let html = dioxus_ssr::render(&dom);
            assert!(html.contains(&file.name), "the {screen} screen shows the job");
            shown += &html;
        }
        shown
    }

    #[test]
    fn every_job_of_the_field_table_is_shown() {
        every_job(count_of("CURBCORE_RANDOM_JOBS", 40) / 2, rendered);
    }
}
