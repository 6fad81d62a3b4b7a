//! Is this the right patient, eye and target?
