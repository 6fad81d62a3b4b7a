//! The sheets of a day, some of which end the press.

use millrace_press::PressError;
use millrace_sheet::{Sheet, Template};

use crate::support::{TIGHT, arrangement, by, plans, press, shipped};

/// An arrangement that takes all memory for the patients with these numbers.
fn greedy_for(numbers: &[&str]) -> Template {
    let numbers: Vec<_> = numbers.iter().map(|it| format!("\"{it}\",")).collect();
    arrangement(&format!(
        "{{ if data.identity.number in ({}) {{ [#(\"a\" * 1000000000).len()] }} else {{ [] }} }}",
        numbers.concat()
    ))
}

#[test]
fn the_sheets_of_a_day_are_the_sheets_one_by_one() {
    let plans = plans(11);
    let mut told = Vec::new();
    let made = press().pdfs(&plans, shipped(), |progress| told.push(progress.done));
    assert_eq!(told, [8, 11]);
    assert_eq!(made.len(), plans.len());
    for (plan, made) in plans.iter().zip(made) {
        let here = Sheet::signed(plan, shipped()).unwrap().pdf().unwrap();
        assert_eq!(made, Ok(here));
    }
}

/// One takes the press down, another is refused: each is named, and the others are there.
#[test]
fn one_sheet_that_ends_the_press_keeps_back_no_other() {
    let template = greedy_for(&["31-0003"]);
    let made = press().pdfs(&plans(11), by(&template), |_| ());
    let limit = TIGHT.memory;
    for (index, made) in made.iter().enumerate() {
        if index == 3 {
            assert_eq!(*made, Err(PressError::OutOfMemory { limit }));
        } else {
            assert!(
                made.as_ref().is_ok_and(|pdf| pdf.starts_with(b"%PDF-")),
                "{index}"
            );
        }
    }
}

/// After three in a row nobody waits for the rest; what was refused for itself does not count.
#[test]
fn after_three_in_a_row_the_rest_is_not_tried() {
    let limit = TIGHT.memory;
    let out_of_memory = Err(PressError::OutOfMemory { limit });
    let not_tried = Err(PressError::GivenUp { after: 3 });
    let template = greedy_for(&["31-0001", "31-0003", "31-0004", "31-0005"]);
    let made = press().pdfs(&plans(10), by(&template), |_| ());
    for index in [1, 3, 4, 5] {
        assert_eq!(made[index], out_of_memory, "{index}");
    }
    for index in [0, 2] {
        assert!(made[index].is_ok(), "{index}");
    }
    for made in &made[6..] {
        assert_eq!(*made, not_tried);
    }
}
