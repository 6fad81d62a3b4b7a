//! Arrangements that take all memory, all time, or the process down: each ends in a refusal with its
//! reason, and the next sheet is printed.

use millrace_press::{PressError, Subject};
use millrace_sheet::SheetError;
use millrace_wording::{Show as _, Words};

use crate::support::{TIGHT, arrangement, by, plan, press, shipped};

/// How a sheet by this arrangement ends; the next sheet by the same press is printed.
fn ends(middle: &str) -> PressError {
    let (mut press, plan) = (press(), plan());
    let template = arrangement(middle);
    let subject = Subject::Signed(&plan);
    let error = press.pdf(&subject, by(&template)).unwrap_err();
    let next = press.pdf(&subject, shipped()).unwrap();
    assert!(next.starts_with(b"%PDF-"), "{middle}");
    error
}

/// What the layout engine refuses itself: the process goes on.
#[test]
fn an_arrangement_without_an_end_is_refused_by_the_engine() {
    for (middle, part) in [
        (
            "{ let again(x) = again(x); again(1) }",
            "maximum function call depth exceeded",
        ),
        (
            "{ let count = 0; while count >= 0 { count += 1 }; [] }",
            "loop seems to be infinite",
        ),
    ] {
        let PressError::Sheet(SheetError::Template { message }) = ends(middle) else {
            panic!("{middle}");
        };
        assert!(message.contains(part), "{middle}: {message}");
    }
}

#[test]
fn an_arrangement_that_takes_all_memory_is_refused() {
    let limit = TIGHT.memory;
    for middle in [
        "{ let text = \"a\" * 1000000000; [#text.len()] }",
        "{ let many = range(1000000000); [#many.len()] }",
        "{ let many = (0,); for _ in range(40) { many = many + many }; [#many.len()] }",
    ] {
        assert_eq!(ends(middle), PressError::OutOfMemory { limit }, "{middle}");
    }
    let text = PressError::OutOfMemory { limit }
        .show(Words::ENGLISH)
        .into_owned();
    assert_eq!(
        text,
        "setting the sheet took more than 512 MB of memory and was stopped; the usual reason is an \
         arrangement of your own"
    );
}

/// Loops within loops, and pages without an end: what is first, the end of the time or of the memory, is
/// said.
#[test]
fn an_arrangement_that_goes_on_for_ever_is_refused() {
    let limit = TIGHT.time;
    let endless =
        "{ for a in range(9999) { for b in range(9999) { let c = calc.pow(1.0, b) } }; [x] }";
    let error = ends(endless);
    assert_eq!(error, PressError::OutOfTime { limit });
    assert_eq!(
        error.show(Words::ENGLISH),
        "setting the sheet took longer than 20 s and was stopped; the usual reason is an \
         arrangement of your own"
    );
    let pages = ends("{ for _ in range(1000000) { block(height: 600pt)[x] } }");
    let at_an_end = matches!(
        pages,
        PressError::OutOfTime { .. } | PressError::OutOfMemory { .. }
    );
    assert!(at_an_end, "{pages:?}");
}

/// A stack that overflows cannot be caught: the system ends the process.
#[test]
fn an_arrangement_that_breaks_the_press_down_is_refused() {
    let error = ends("range(100000).fold([x], (inner, _) => [#inner y])");
    assert_eq!(error, PressError::Killed { signal: 6 });
    assert_eq!(
        error.show(Words::ENGLISH),
        "the process that sets the sheet was ended from outside or broke down (signal 6)"
    );
}

/// The engine takes a picture for granted whose size it cannot have.
#[test]
fn a_panic_is_told_with_its_place() {
    let (mut press, plan) = (press(), plan());
    let subject = Subject::Signed(&plan);
    let error = press.pages(&subject, shipped(), 1e6).unwrap_err();
    let PressError::Panicked { at } = &error else {
        panic!("{error:?}");
    };
    assert!(at.contains("typst-render"), "{at}");
    let text = error.show(Words::ENGLISH).into_owned();
    assert_eq!(
        text,
        format!("setting the sheet failed by a fault of this program, at {at}")
    );
    assert_eq!(press.pages(&subject, shipped(), 0.5).unwrap().len(), 2);
}
