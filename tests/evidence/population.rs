//! The simulated population against `population.toml`, which an independent script wrote.

use millrace_simulate::Population;
use serde::Deserialize;

use crate::support::read;

#[derive(Deserialize)]
struct Expected {
    order: Vec<String>,
    pearson: Vec<Vec<f64>>,
}

/// Pearson correlations of the normal variables, as the script has them, to its 15 digits.
#[test]
fn correlations_are_as_printed() {
    let expected: Expected =
        toml::from_str(&read("tests/check-values/population.toml")).expect("the table reads");
    let order = [
        "chamber_depth",
        "axial_length",
        "lens_thickness",
        "corneal_diameter",
    ];
    let place = |name: &str| {
        let found = expected.order.iter().position(|known| known == name);
        found.expect("a variable of the table")
    };
    let matrix = Population::printed()
        .expect("positive definite")
        .correlations();
    for (row, one) in matrix.iter().zip(order) {
        for (value, other) in row.iter().zip(order) {
            let wanted = expected.pearson[place(one)][place(other)];
            assert!(
                (value - wanted).abs() < 1e-14,
                "{one} {other}: {value} {wanted}"
            );
        }
    }
}
