//! What the press says of itself, as a text.

use std::borrow::Cow;

use millrace_wording::{Show, Words, press as say};

use crate::PressError;

impl Show for PressError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Sheet(error) => return error.show(words),
            Self::OutOfMemory { limit } => say::out_of_memory(words, megabytes(*limit)),
            Self::OutOfTime { limit } => say::out_of_time(words, limit.as_secs()),
            Self::Panicked { at } => say::panicked(words, at),
            Self::Killed { signal } => say::killed(words, signal),
            Self::Ended { code: Some(code) } => say::ended(words, code),
            Self::Ended { code: None } => return say::ended_unknown(words).into(),
            Self::NotStarted { problem } => say::not_started(words, problem),
            Self::NotLimited { problem } => say::not_limited(words, problem),
            Self::Unreadable => return say::unreadable(words).into(),
            Self::NotHandedOver => return say::not_handed_over(words).into(),
            Self::TooLarge { limit } => say::too_large(words, megabytes(*limit)),
            Self::GivenUp { after } => say::given_up(words, after),
        }
        .into()
    }
}

const fn megabytes(bytes: u64) -> u64 {
    bytes >> 20
}
