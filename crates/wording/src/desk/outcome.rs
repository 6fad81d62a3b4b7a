//! The page of what became of the operation.

messages! {
    comes_later = "Refraction, acuity and cornea after the operation come with the next release";
}
