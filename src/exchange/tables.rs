//! Tables for a spreadsheet, as CSV (RFC 4180).

/// A table: its head and its rows, each as long as the head.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// The columns' names.
    pub head: Vec<String>,
    /// The rows.
    pub rows: Vec<Vec<String>>,
}

/// A table as CSV. A text that a spreadsheet would take for a formula gets an apostrophe before
/// it, as its person would type it; numbers stay as they are.
#[must_use]
pub fn table(table: &Table) -> String {
    let mut out = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .flexible(true)
        .from_writer(Vec::new());
    for row in std::iter::once(&table.head).chain(&table.rows) {
        // Writing to memory does not fail.
        let _ = out.write_record(row.iter().map(|cell| harmless(cell)));
    }
    let bytes = out.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

fn harmless(cell: &str) -> String {
    let starts = cell.trim_start().starts_with(['=', '+', '-', '@', '|', '%']) || cell.starts_with(['\t', '\r', '\n']);
    if starts && cell.parse::<f64>().is_err() {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(cell: &str) -> String {
        let table_of = Table {
            head: vec!["what".to_owned()],
            rows: vec![vec![cell.to_owned()]],
        };
        table(&table_of)
    }

    #[test]
    fn commas_quotes_and_lines_survive_a_reader() {
        for cell in ["a, b", "5\" wire", "two\nlines", "plain", ""] {
            let text = one(cell);
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            let row = reader.records().next().unwrap().unwrap();
            assert_eq!(&row[0], cell);
        }
    }

    #[test]
    fn formulas_stay_text_and_numbers_stay_numbers() {
        for formula in ["=1+1", "+cmd|' /C calc'!A0", "@SUM(A1)", "-2+3", "  =1", "\t=1"] {
            assert!(one(formula).contains('\''), "{formula}");
        }
        for number in ["-2.5", "+3", "1e-3", "0"] {
            assert_eq!(one(number), format!("what\r\n{number}\r\n"));
        }
    }
}
