//! `millrace tabulate` on good eyes, on damaged ones, and on files that are none.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;

use crate::support::{Run, millrace_in, root};

const HEADER: &str = "eye_id,axial_length_mm,k1_mm,k2_mm,acd_mm,target_d,a_constant,pacd_mm,surgeon_factor_mm,a0_mm,a1,a2,lens_power_d";
const GOOD: &str = "23.5,7.7,7.7,3.1,0,118.7,5.37,1.62,1.3,0.4,0.1,20.5";

fn tabulate(text: impl AsRef<[u8]>) -> Run {
    let directory = tempfile::tempdir().expect("a directory");
    fs::write(directory.path().join("eyes.csv"), text).expect("written");
    millrace_in(directory.path(), &["tabulate", "eyes.csv"])
}

/// Status per eye and formula.
fn statuses(run: &Run) -> BTreeMap<(String, String), String> {
    let mut reader = csv::Reader::from_reader(run.out.as_bytes());
    reader
        .records()
        .map(|record| {
            let record = record.expect("well-formed output");
            (
                (record[0].to_owned(), record[1].to_owned()),
                record[2].to_owned(),
            )
        })
        .collect()
}

fn rows_of<'a>(run: &'a Run, eye: &str) -> Vec<&'a str> {
    let start = format!("{eye},");
    run.out
        .lines()
        .filter(|line| line.starts_with(&start))
        .collect()
}

/// A good eye before and after each damaged one: the message names line, column and value, and no
/// other row is lost.
#[test]
fn a_bad_cell_refuses_its_row_and_no_other() {
    for (line, message) in [
        (
            "bad,long,7.7,7.7,3.1,0,118.7,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: axial_length_mm \"long\" is not a number",
        ),
        (
            "bad,-23.5,7.7,7.7,3.1,0,118.7,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: axial_length_mm -23.5 is outside 14 to 40",
        ),
        (
            "bad,\"23,5\",7.7,7.7,3.1,0,118.7,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: axial_length_mm \"23,5\" is not a number; write a decimal point",
        ),
        (
            "bad,23.5,7.7,7.7,3.1,0,inf,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: a_constant \"inf\" is not a number",
        ),
        (
            "bad,23.5,7.7,7.7,3.1,0,NaN,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: a_constant \"NaN\" is not a number",
        ),
        (
            "bad,23.5,77,7.7,3.1,x,118.7,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: k1_mm 77 is outside 5 to 13; target_d \"x\" is not a number",
        ),
        (
            "bad,23.5,7.7",
            "line 3: 3 cells where the header has 13; the line may be cut short",
        ),
        (
            "bad,23.5,7.7,7.7,3.1,0,118.7,5.37,1.62,1.3,0.4,0.1,20.5,9",
            "line 3: 14 cells where the header has 13; the line may be cut short",
        ),
        (
            "bad,\"23.5,7.7,7.7,3.1,0,118.7,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: a quotation mark is not closed",
        ),
        (
            ",23.5,7.7,7.7,3.1,0,118.7,5.37,1.62,1.3,0.4,0.1,20.5",
            "line 3: eye_id is blank",
        ),
    ] {
        let run = tabulate(format!("{HEADER}\nfirst,{GOOD}\n{line}\nlast,{GOOD}\n"));
        assert_eq!(run.code, 2, "{line}");
        assert_eq!(run.err, format!("{message}\n"));
        assert_eq!(run.out.lines().count(), 1 + 15, "{line}");
        for eye in ["first", "last"] {
            assert!(
                rows_of(&run, eye).iter().all(|row| row.contains(",ok,")),
                "{line}"
            );
        }
        let in_note = message.replace('"', "\"\"");
        assert_eq!(run.out.matches(&in_note).count(), 5, "{line}: {}", run.out);
    }
}

/// A blank cell is not an error: the formulas that need it are refused and say so.
#[test]
fn a_missing_constant_refuses_its_formulas_only() {
    let run = tabulate(format!(
        "{HEADER}\ne,23.5,7.7,7.7,,0,,5.37,1.62,1.3,0.4,0.1,20.5\n"
    ));
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let rows = rows_of(&run, "e");
    assert_eq!(rows[0], "e,srk_t,refused,,,,blank: a_constant");
    assert_eq!(rows[1], "e,t2,refused,,,,blank: a_constant");
    assert!(rows[2].starts_with("e,holladay_1,ok,") && rows[3].starts_with("e,hoffer_q,ok,"));
    assert_eq!(rows[4], "e,haigis,refused,,,,blank: acd_mm");
}

#[test]
fn a_byte_order_mark_windows_endings_and_another_order_change_nothing() {
    let plain = tabulate(format!("{HEADER}\ne,{GOOD}\n"));
    let marked = tabulate(format!("\u{feff}{HEADER}\r\ne,{GOOD}\r\n\r\n"));
    assert_eq!((marked.code, &marked.out), (0, &plain.out));
    let reordered = tabulate(
        "lens_power_d,a2,a1,a0_mm,surgeon_factor_mm,pacd_mm,a_constant,target_d,acd_mm,k2_mm,k1_mm,axial_length_mm,eye_id\n\
         20.5,0.1,0.4,1.3,1.62,5.37,118.7,0,3.1,7.7,7.7,23.5,e\n",
    );
    assert_eq!(reordered.out, plain.out);
}

#[test]
fn a_truncated_last_line_is_refused_or_warned_of() {
    let cut = tabulate(format!("{HEADER}\nfirst,{GOOD}\nlast,23.5,7.7"));
    assert_eq!(cut.code, 2);
    assert!(
        cut.err.contains("line 3: 3 cells where the header has 13"),
        "{}",
        cut.err
    );
    let whole = tabulate(format!("{HEADER}\nfirst,{GOOD}\nlast,{GOOD}"));
    assert_eq!(whole.code, 0);
    assert_eq!(
        whole.err,
        "line 3: the last line has no ending; if the file was cut short, its last cell may be too\n"
    );
}

#[test]
fn keratometry_in_diopters_needs_its_index() {
    let header = "eye_id,axial_length_mm,k1_d,k2_d,k_index,a_constant,target_d,lens_power_d";
    let run = tabulate(format!(
        "{header}\na,23.5,43.83116883116883,43.83116883116883,1.3375,118.7,0,20.5\n\
         b,23.5,43.5,44,,118.7,0,20.5\nc,23.5,10,44,1.3375,118.7,0,20.5\n"
    ));
    assert_eq!(run.code, 2);
    // The hand-worked average eye: r 7.7 mm is 43.8312 D.
    assert!(
        rows_of(&run, "a")[0].starts_with("a,srk_t,ok,5.3468866616278"),
        "{}",
        run.out
    );
    assert!(
        run.err
            .contains("line 3: k1_d and k2_d need the k_index they were made with\n")
    );
    assert!(
        run.err.contains("line 4: k1_d 10 is outside 20 to 80\n"),
        "{}",
        run.err
    );
}

#[test]
fn headers_that_cannot_be_used_are_refused_whole() {
    let refused = |header: &str| {
        let run = tabulate(format!("{header}\n"));
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{header}");
        run.err
    };
    assert_eq!(
        refused("eye_id,axial_lenght_mm,k1_mm,k2_mm"),
        "millrace: header refused: column 2 \"axial_lenght_mm\" is unknown; did you mean \"axial_length_mm\"?: eyes.csv\n"
    );
    assert_eq!(
        refused("eye_id,axial_length_mm,k1_mm,k2_mm,k1_mm"),
        "millrace: header refused: column \"k1_mm\" stands twice, as column 3 and column 5: eyes.csv\n"
    );
    assert_eq!(
        refused("eye_id,k1_mm,k2_mm"),
        "millrace: header refused: column \"axial_length_mm\" is missing: eyes.csv\n"
    );
    assert_eq!(
        refused("eye_id,axial_length_mm,k1_d,k2_d"),
        "millrace: header refused: keratometry is missing: k1_mm and k2_mm, or k1_d, k2_d and k_index: eyes.csv\n"
    );
    assert!(refused("eye_id;axial_length_mm").contains("separated by \";\""));
    assert!(refused("").contains("the file is empty"));
    assert!(refused("shoe size,x").contains("known columns: eye_id, axial_length_mm"));
}

/// Numbers print so that they read back to the same bits as the program computed: printing what
/// was read changes nothing.
#[test]
fn numbers_read_back_to_the_same_bits() {
    let eyes = root().join("demo-data/eyes.csv");
    let run = millrace_in(&root(), &["tabulate", eyes.to_str().expect("a plain path")]);
    assert_eq!(run.code, 0, "{}", run.err);
    let mut reader = csv::Reader::from_reader(run.out.as_bytes());
    let mut numbers = 0;
    for record in reader.records() {
        for cell in record.expect("well-formed output").iter().skip(3).take(3) {
            if !cell.is_empty() {
                let number: f64 = cell.parse().expect("a number");
                assert_eq!(
                    format!("{number:?}")
                        .parse::<f64>()
                        .expect("a number")
                        .to_bits(),
                    number.to_bits()
                );
                assert!(number.is_finite());
                numbers += 1;
            }
        }
    }
    assert!(5_000 < numbers, "{numbers}");
}

#[test]
fn every_eye_gets_its_five_rows_in_order_across_many_blocks() {
    let mut text = format!("{HEADER}\n");
    for number in 0..20_000 {
        writeln!(text, "eye-{number},{GOOD}").expect("a string takes it");
    }
    let run = tabulate(&text);
    assert_eq!(run.code, 0);
    let formulas = ["srk_t", "t2", "holladay_1", "hoffer_q", "haigis"];
    let mut lines = run.out.lines().skip(1);
    for number in 0..20_000 {
        for formula in formulas {
            let line = lines.next().expect("a row");
            assert!(
                line.starts_with(&format!("eye-{number},{formula},ok,")),
                "{line}"
            );
        }
    }
    assert_eq!(lines.next(), None);
}

/// Lines of noise between good eyes: each is refused, and every good eye is there.
#[test]
fn noise_between_good_eyes_loses_none() {
    // A fixed sequence, so that a failure can be repeated.
    let mut state = 0x1234_5678_u64;
    let mut next = move || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        state >> 33
    };
    let mut text = format!("{HEADER}\n").into_bytes();
    let good = 500;
    for number in 0..good {
        text.extend_from_slice(format!("good-{number},{GOOD}\n").as_bytes());
        let length = next() % 120;
        text.push(b'#');
        text.extend(
            (0..length)
                .map(|_| next().to_le_bytes()[0])
                .filter(|byte| *byte != b'\n'),
        );
        text.push(b'\n');
    }
    let run = tabulate(&text);
    assert_eq!(run.code, 2);
    let statuses = statuses(&run);
    for number in 0..good {
        let key = (format!("good-{number}"), "haigis".to_owned());
        assert_eq!(
            statuses.get(&key).map(String::as_str),
            Some("ok"),
            "{key:?}"
        );
    }
    assert_eq!(run.err.lines().count(), good);
}

/// A record is a line: a carriage return inside one refuses it instead of hiding what follows,
/// with or without quotation marks.
#[test]
fn a_carriage_return_ends_no_record() {
    for id in ["\"e1\"", "e1"] {
        let run = tabulate(format!(
            "{HEADER}\n{id},{GOOD}\r\"e2\",{GOOD}\r\"e3\",{GOOD}\nlast,{GOOD}\n"
        ));
        assert_eq!(run.code, 2, "{id}");
        assert_eq!(
            run.err,
            "line 2: a carriage return stands inside the line\n"
        );
        assert_eq!(rows_of(&run, "last").len(), 5);
    }
    let refused = tabulate(format!("{HEADER}\re1,{GOOD}\r"));
    assert!(
        refused.err.contains("lines end in carriage returns only"),
        "{}",
        refused.err
    );
}
