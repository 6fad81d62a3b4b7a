//! The page of patient and measurements.

messages! {
    readings = "as \"{=43.25} D at {=1.3375}\" or \"{=7.80} mm\"";
}
