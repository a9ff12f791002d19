//! The page for the bench as a printer gets it: two sheets, of A4 and of Letter, for every use.
//! Chromium prints to PDF: ignored by `cargo test`, run by `platform/test.sh`. The files stay in `artefacts/print`
//! (not in git) for a person to look at.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use std::path::{Path, PathBuf};
use std::process::Command;

use curbcore::app::evaluation::{Evaluation, evaluate};
use curbcore::app::start::{demo_job, goal_of};
use curbcore::job::{JobFile, Joining, PairChoice, RectifierKind};
use curbcore::quantity::LengthUnit;
use curbcore::report::page;

const USES: [&str; 8] = [
    "spot_welder",
    "stick_welder",
    "arc_furnace",
    "plasma_cutter",
    "battery_charger",
    "plain_supply",
    "choke",
    "ballast",
];

fn job(word: &str) -> JobFile {
    let mut file = demo_job();
    file.goal = goal_of(word);
    file.choice = None;
    file
}

/// Pages of a PDF as Chromium writes it: its page objects are not packed.
fn pages(pdf: &Path) -> usize {
    let bytes = std::fs::read(pdf).unwrap();
    let text = String::from_utf8_lossy(&bytes);
    text.matches("/Type /Page").count() - text.matches("/Type /Pages").count()
}

struct Printer {
    profile: tempfile::TempDir,
    folder: PathBuf,
}

impl Printer {
    fn new() -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("artefacts/print");
        std::fs::create_dir_all(&folder).unwrap();
        Self {
            profile: tempfile::tempdir().unwrap(),
            folder,
        }
    }

    fn print(&self, name: &str, html: &str, paper: &str) -> PathBuf {
        let path = |ending: &str| self.folder.join(format!("{name}-{paper}.{ending}"));
        // What a person picks in the print dialog.
        let sized = html.replacen("@page {", &format!("@page {{ size: {paper};"), 1);
        assert_ne!(sized, html);
        std::fs::write(path("html"), sized).unwrap();
        let done = Command::new("chromium")
            .args(["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"])
            .args([
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
            ])
            .arg(format!("--user-data-dir={}", self.profile.path().display()))
            .arg("--no-pdf-header-footer")
            .arg(format!("--print-to-pdf={}", path("pdf").display()))
            .arg(format!("file://{}", path("html").display()))
            .output()
            .expect("chromium is installed (platform/test.sh installs it)");
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
        path("pdf")
    }

    /// The words of the drawings that are less than 2 mm high on paper, as Chromium lays the page out.
    fn small_words(&self, name: &str, html: &str) -> Vec<String> {
        const MEASURE: &str = "<script>addEventListener('load', () => {
            const found = [];
            for (const words of document.querySelectorAll('.sheet svg text')) {
                const matrix = words.getScreenCTM();
                const size = Math.hypot(matrix.a, matrix.b) * parseFloat(getComputedStyle(words).fontSize) * 25.4 / 96;
                const of = words.closest('svg').getAttribute('class');
                found.push(`${size.toFixed(2)} mm ${of}: ${words.textContent}`);
            }
            document.body.textContent = 'measured' + found.map((line) => '\\n' + line).join('');
        });</script>";
        let path = self.folder.join(format!("{name}-measured.html"));
        std::fs::write(&path, format!("{html}{MEASURE}")).unwrap();
        let done = Command::new("chromium")
            .args(["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"])
            .args(["--window-size=1000,1400", "--dump-dom"])
            .arg(format!("--user-data-dir={}", self.profile.path().display()))
            .arg(format!("file://{}", path.display()))
            .output()
            .expect("chromium is installed (platform/test.sh installs it)");
        let text = String::from_utf8_lossy(&done.stdout).into_owned();
        let (_, measured) = text.split_once("measured").expect("the page was measured");
        let lines: Vec<String> = measured.lines().skip(1).map(str::to_owned).collect();
        assert!(!lines.is_empty(), "{name}: no words in drawings");
        let size = |line: &String| line.split(' ').next().and_then(|size| size.parse::<f64>().ok());
        lines
            .into_iter()
            .filter(|line| size(line).is_some_and(|size| size < 2.0))
            .collect()
    }

    fn sheets(&self, name: &str, answer: &Evaluation, wanted: usize) {
        let html = page(answer, None, &[], LengthUnit::Millimetre).unwrap();
        for paper in ["A4", "letter"] {
            let pdf = self.print(name, &html, paper);
            // Letter is shorter: two cores take a third sheet there sooner than words below 2 mm.
            let most = if answer.second.is_some() { wanted + 1 } else { wanted };
            assert!(
                (wanted..=most).contains(&pages(&pdf)),
                "{}: {}",
                pdf.display(),
                pages(&pdf)
            );
        }
        if answer.design.is_some() || matches!(answer.inductor(), Some(Ok(_))) {
            assert_eq!(self.small_words(name, &html), Vec::<String>::new(), "{name}");
        }
    }
}

#[test]
#[ignore = "needs Chromium; platform/test.sh runs it"]
fn every_use_prints_on_two_sheets() {
    let printer = Printer::new();
    for word in USES {
        let file = job(word);
        let answer = evaluate(&file).unwrap();
        // No winding at all needs one sheet only.
        let coil = matches!(answer.inductor(), Some(Ok(_)));
        let wanted = if answer.design.is_some() || coil { 2 } else { 1 };
        printer.sheets(word, &answer, wanted);
    }
}

/// The fullest page: a pair behind diodes, with a long name, a long note and many layers.
#[test]
#[ignore = "needs Chromium; platform/test.sh runs it"]
fn the_fullest_page_prints_on_three_sheets_at_most() {
    let printer = Printer::new();
    let mut file = job("plain_supply");
    file.name = "Supply for the long bench at the back of the shed, second attempt, with both cores".to_owned();
    file.note = "From two ovens of one kind, found a week apart. ".repeat(12);
    file.conditions.rectifier = Some(RectifierKind::Bridge);
    file.conditions.pair = Some(PairChoice {
        name: "The core from the second oven".into(),
        core: Box::new(file.core.clone()),
        windings: Joining::Series,
    });
    let answer = evaluate(&file).unwrap();
    assert!(answer.design.is_some() && answer.second.is_some());
    printer.sheets("fullest", &answer, 2);
}
