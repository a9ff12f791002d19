//! The table of cautions in DEVELOPERS.md is the one that the code holds.

use curbcore::safety::Hazard;
use curbcore::text::Texts;

const BEGIN: &str = "<!-- cautions: kept by tests/house/cautions.rs -->\n";
const END: &str = "<!-- end of cautions -->";

fn table() -> String {
    let texts = Texts::english().unwrap();
    let mut table = String::from("| hazard | where it arises | gate | source |\n| --- | --- | --- | --- |\n");
    for hazard in Hazard::ALL {
        let gate = match hazard.stand_in() {
            Some(stand_in) => format!(
                "{}; until that is possible: {}",
                texts.text(hazard.gate().key()),
                texts.text(stand_in.key())
            ),
            None => texts.text(hazard.gate().key()),
        };
        let (name, arises) = (
            texts.text(hazard.key()),
            texts.text(&format!("{}.arises", hazard.key())),
        );
        table.push_str(&format!("| {name} | {arises} | {gate} | {} |\n", hazard.source()));
    }
    table
}

#[test]
fn the_table_in_the_guide_is_the_one_in_the_code() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/DEVELOPERS.md");
    let guide = std::fs::read_to_string(path).unwrap();
    let (_, after) = guide
        .split_once(BEGIN)
        .expect("DEVELOPERS.md has the cautions' begin mark");
    let (kept, _) = after.split_once(END).expect("DEVELOPERS.md has the cautions' end mark");
    let wanted = table();
    assert!(kept == wanted, "put this between the marks in DEVELOPERS.md:\n{wanted}");
}
