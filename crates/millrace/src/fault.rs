//! Faults of the program itself: told in words, and never the end of more than they must be.

use std::any::Any;
use std::panic::{self, AssertUnwindSafe, PanicHookInfo};

use millrace_wording::{Words, command_line as say};

use crate::terminal::tell;

/// From here on a fault is told in these words on standard error, with its place for whoever mends it.
pub(crate) fn tell_by(words: Words) {
    panic::set_hook(Box::new(move |fault| tell(told(words, fault))));
}

fn told(words: Words, fault: &PanicHookInfo<'_>) -> String {
    let problem = text(fault.payload());
    let place = fault.location().map(ToString::to_string);
    let place = place.unwrap_or_else(|| say::broken_place_unknown(words).to_owned());
    say::failed(words, say::broken(words, problem, place))
}

/// Does a piece of work; if the program is at fault, hands back what the fault says. Whoever uses what was
/// worked on must be able to go on from any state of it.
pub(crate) fn caught<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    panic::catch_unwind(AssertUnwindSafe(work)).map_err(|payload| text(payload.as_ref()).to_owned())
}

fn text(payload: &(dyn Any + Send)) -> &str {
    let owned = payload.downcast_ref::<String>().map(String::as_str);
    let fixed = payload.downcast_ref::<&str>().copied();
    owned.or(fixed).unwrap_or("?")
}

#[cfg(test)]
mod tests {
    use super::*;

    type Work = fn(i32) -> i32;

    #[test]
    fn a_fault_is_caught_with_what_it_says() {
        assert_eq!(caught(|| 7), Ok(7));
        let number = 3;
        let faults: [(Work, &str); 3] = [
            (|_| panic!("fixed"), "fixed"),
            (|number| panic!("made of {number}"), "made of 3"),
            (
                |number| [1, 2][usize::try_from(number).unwrap()],
                "index out of bounds: the len is 2 but the index is 3",
            ),
        ];
        for (work, says) in faults {
            assert_eq!(caught(|| work(number)), Err(says.to_owned()));
        }
    }
}
