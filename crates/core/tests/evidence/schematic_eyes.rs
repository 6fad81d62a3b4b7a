//! Le Grand's full theoretical eye and Gullstrand's exact eye No. 1, traced by the program.

use std::collections::BTreeMap;

use millrace_core::optics::paraxial_system::CardinalPoints;
use millrace_core::optics::{ParaxialSystem, Surface};
use millrace_core::quantity::Millimeters;

fn surfaces(rows: &[(f64, f64, f64)]) -> Vec<Surface> {
    rows.iter()
        .map(|&(vertex_mm, radius_mm, index_behind)| Surface {
            vertex: Millimeters::new(vertex_mm),
            radius: Millimeters::new(radius_mm),
            index_behind,
        })
        .collect()
}

fn system(index_before: f64, surfaces: &[Surface]) -> ParaxialSystem {
    ParaxialSystem::new(index_before, surfaces).expect("surfaces in order")
}

/// R, thickness to the next, index behind: 7.8/0.55/1.3771, 6.5/3.05/1.3374, 10.2/4/1.42,
/// −6/16.59655/1.336.
fn le_grand_surfaces() -> Vec<Surface> {
    surfaces(&[
        (0.0, 7.8, 1.3771),
        (0.55, 6.5, 1.3374),
        (3.60, 10.2, 1.42),
        (7.60, -6.0, 1.336),
    ])
}

const LE_GRAND_RETINA_MM: f64 = 7.60 + 16.59655;

pub(crate) fn le_grand(quantity: &str) -> f64 {
    let all = le_grand_surfaces();
    let points = system(1.0, &all).cardinal_points().unwrap();
    let stop = Millimeters::new(3.60);
    match quantity {
        // The stop stands at the lens front: seen through the cornea, and through the lens.
        "entrance_pupil_mm" => system(1.0, &all[..2])
            .conjugate_in_front(stop)
            .unwrap()
            .mm(),
        "exit_pupil_mm" => system(1.3374, &all[2..])
            .conjugate_behind(stop)
            .unwrap()
            .mm(),
        "height_2" => height(&all, 2),
        "height_3" => height(&all, 3),
        "height_4" => height(&all, 4),
        "height_5" => {
            // A surface without power at the retina.
            let mut with_retina = all.clone();
            with_retina.push(Surface {
                vertex: Millimeters::new(LE_GRAND_RETINA_MM),
                radius: Millimeters::new(-13.4),
                index_behind: 1.336,
            });
            height(&with_retina, 5)
        }
        other => cardinal(&points, other),
    }
}

fn height(surfaces: &[Surface], count: usize) -> f64 {
    system(1.0, &surfaces[..count]).height_at_last_surface()
}

fn cardinal(points: &CardinalPoints, quantity: &str) -> f64 {
    match quantity {
        "power_d" => points.power.d(),
        "front_focus_mm" => points.front_focus.mm(),
        "back_focus_mm" => points.back_focus.mm(),
        "front_principal_mm" => points.front_principal.mm(),
        "back_principal_mm" => points.back_principal.mm(),
        "front_nodal_mm" => points.front_nodal.mm(),
        "back_nodal_mm" => points.back_nodal.mm(),
        other => panic!("no quantity {other}"),
    }
}

fn gullstrand_surfaces() -> Vec<Surface> {
    surfaces(&[
        (0.0, 7.7, 1.376),
        (0.5, 6.8, 1.336),
        (3.6, 10.0, 1.386),
        (4.146, 7.911, 1.406),
        (6.565, -5.76, 1.386),
        (7.2, -6.0, 1.336),
    ])
}

pub(crate) fn gullstrand(quantity: &str, inputs: &BTreeMap<String, f64>) -> f64 {
    let all = gullstrand_surfaces();
    let (cornea, lens) = (system(1.0, &all[..2]), system(1.336, &all[2..]));
    match quantity {
        "cornea_power_d" => cornea.power().d(),
        "cornea_front_principal_mm" => cornea.cardinal_points().unwrap().front_principal.mm(),
        "lens_power_d" => lens.power().d(),
        "back_focus_from_parts_mm" => {
            back_focus_from_parts(&cornea, &lens, [inputs["cornea_d"], inputs["lens_d"]])
        }
        other => cardinal(&system(1.0, &all).cardinal_points().unwrap(), other),
    }
}

/// Second focus of two systems of printed powers, at their traced principal points:
/// `F = F1 + F2 − (e/n)·F1·F2`, `F′` behind the second principal point of the second by
/// `n·(1 − (e/n)·F1)/F`.
fn back_focus_from_parts(
    first: &ParaxialSystem,
    second: &ParaxialSystem,
    [f1, f2]: [f64; 2],
) -> f64 {
    let from = first.cardinal_points().unwrap().back_principal.mm();
    let second = second.cardinal_points().unwrap();
    let reduced_m = (second.front_principal.mm() - from) / 1000.0 / 1.336;
    let power_d = f1 + f2 - reduced_m * f1 * f2;
    second.back_principal.mm() + 1336.0 * (1.0 - reduced_m * f1) / power_d
}
