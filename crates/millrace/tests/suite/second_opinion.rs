//! `millrace tabulate` end to end on the eyes of the second implementation: file in, file out,
//! against closed forms at 50 digits.

use std::collections::HashMap;
use std::fmt::Write as _;
use std::fs;

use crate::support::{millrace_in, root};

const INPUTS: [&str; 13] = [
    "eye_id",
    "axial_length_mm",
    "k1_mm",
    "k2_mm",
    "acd_mm",
    "target_d",
    "a_constant",
    "pacd_mm",
    "surgeon_factor_mm",
    "a0_mm",
    "a1",
    "a2",
    "lens_power_d",
];

struct Table {
    columns: HashMap<String, usize>,
    rows: Vec<csv::StringRecord>,
}

impl Table {
    fn read(text: &str) -> Self {
        let mut reader = csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .from_reader(text.as_bytes());
        let header = reader.headers().unwrap().clone();
        let columns = header
            .iter()
            .enumerate()
            .map(|(at, name)| (name.to_owned(), at))
            .collect();
        Self {
            columns,
            rows: reader.records().map(Result::unwrap).collect(),
        }
    }

    fn get<'a>(&self, row: &'a csv::StringRecord, column: &str) -> &'a str {
        &row[self.columns[column]]
    }
}

#[test]
fn every_number_of_the_output_agrees_to_1e_9() {
    let oracle = fs::read_to_string(root().join("tests/check-values/oracle_eyes.csv")).unwrap();
    let oracle = Table::read(&oracle);
    let mut eyes = INPUTS.join(",");
    eyes.push('\n');
    for row in &oracle.rows {
        let cells: Vec<_> = INPUTS
            .iter()
            .map(|column| oracle.get(row, column))
            .collect();
        writeln!(eyes, "{}", cells.join(",")).unwrap();
    }
    let directory = tempfile::tempdir().unwrap();
    fs::write(directory.path().join("eyes.csv"), eyes).unwrap();
    let run = millrace_in(directory.path(), &["tabulate", "eyes.csv"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));

    let output = Table::read(&run.out);
    assert_eq!(output.rows.len(), oracle.rows.len() * 5);
    let mut compared = 0;
    for (index, row) in output.rows.iter().enumerate() {
        let expected = &oracle.rows[index / 5];
        assert_eq!(output.get(row, "eye_id"), oracle.get(expected, "eye_id"));
        let formula = output.get(row, "formula");
        let of = |name: &str| oracle.get(expected, &format!("{formula}_{name}"));
        let status = output.get(row, "status");
        let at = format!("{} {formula}", output.get(row, "eye_id"));
        // The oracle tells a lens without a place from a focus without an image; here both are
        // refused.
        let answered = of("status") != "no_position"
            && !of("power_d").is_empty()
            && !of("refraction_d").is_empty();
        if !answered {
            assert_eq!(status, "refused", "{at}");
            assert!(!output.get(row, "note").is_empty(), "{at}");
            continue;
        }
        assert_eq!(status, of("status"), "{at}");
        for (column, name) in [
            ("lens_position_mm", "lens_position_mm"),
            ("power_for_target_d", "power_d"),
            ("predicted_refraction_d", "refraction_d"),
        ] {
            let found: f64 = output.get(row, column).parse().unwrap();
            let wanted: f64 = of(name).parse().unwrap();
            assert!(
                (found - wanted).abs() < 1e-9,
                "{at} {column}: {found} {wanted}"
            );
            compared += 1;
        }
    }
    assert!(30_000 < compared, "{compared}");
}
