//! What the computer is called: the name of its desk until somebody gives it one.

/// Its name on the network; empty where it has none that can be written as text.
pub(crate) fn computer() -> String {
    gethostname::gethostname().into_string().unwrap_or_default()
}

/// The same as the name of a desk, if it is one.
pub(crate) fn desk() -> Option<String> {
    Some(computer()).filter(|name| !name.trim().is_empty())
}
