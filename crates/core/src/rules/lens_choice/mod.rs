//! Does this lens fit?
