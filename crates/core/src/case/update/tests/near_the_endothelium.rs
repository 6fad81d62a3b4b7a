//! What is entered of pieces, plane, deepening and tunnel.

use super::*;

#[test]
fn only_the_models_divisions_are_chosen() {
    assert!(update(&Draft::default(), Command::SetPieces(Some(16))).is_ok());
    assert_eq!(
        update(&Draft::default(), Command::SetPieces(Some(7)))
            .unwrap_err()
            .to_string(),
        "the model divides the nucleus into 4, 6, 8, 12, 16, 24 or 32 pieces, not 7"
    );
}

#[test]
fn working_plane_deepening_and_delivery_are_kept() {
    use crate::chamber::{Delivery, Nucleus, NucleusSize, WorkingPlane};
    use crate::quantity::Micrometers;

    let um = Micrometers::new;
    let nucleus = Nucleus::new(um(8_500), um(4_000)).ok();
    let mut draft = Draft::default();
    for command in [
        Command::ChooseApproach(Some(Approach::SmallIncision)),
        Command::SetNucleus(nucleus),
        Command::SetNucleusSize(Some(NucleusSize::Measured)),
        Command::ChoosePlane(Some(WorkingPlane::Bag)),
        Command::SetDeepening(Some(um(330))),
        Command::ChooseDelivery(Some(Delivery::Halves)),
        Command::SetTunnelLips(Some(um(8_000))),
    ] {
        draft = update(&draft, command).unwrap();
    }
    let plan = &draft.approach;
    assert_eq!(plan.nucleus_size, Some(NucleusSize::Measured));
    assert_eq!(plan.working_plane, Some(WorkingPlane::Bag));
    assert_eq!(plan.deepening, Some(um(330)));
    assert_eq!(plan.delivery, Some(Delivery::Halves));
    assert_eq!(plan.lips(), Some(um(8_000)));
    // Nothing is known of the size of a nucleus without one.
    let without = update(&draft, Command::SetNucleus(None)).unwrap();
    assert_eq!(without.approach.nucleus_size, None);
}

#[test]
fn the_lips_of_a_tunnel_are_its_width_unless_they_are_longer() {
    use crate::quantity::Micrometers;

    let (width, lips) = (Micrometers::new(6_500), Micrometers::new(8_000));
    let mut draft = Draft::default();
    assert_eq!(draft.approach.lips(), None);
    draft.approach.incision_width = Some(width);
    draft.approach.approach = Some(Approach::Phacoemulsification);
    assert_eq!(draft.approach.lips(), None, "no tunnel");
    draft.approach.approach = Some(Approach::SmallIncision);
    assert_eq!(draft.approach.lips(), Some(width));
    draft.approach.tunnel_lips = Some(lips);
    assert_eq!(draft.approach.lips(), Some(lips));
}

#[test]
fn a_deepening_and_lips_that_cannot_be_are_refused() {
    use crate::quantity::Micrometers;

    let set = |um| {
        update(
            &Draft::default(),
            Command::SetDeepening(Some(Micrometers::new(um))),
        )
    };
    assert!(set(0).is_ok() && set(2_000).is_ok());
    for um in [-1, 2_001] {
        let deepening = Micrometers::new(um);
        assert_eq!(set(um), Err(CommandRefused::Deepening { deepening }));
    }
    let lips = Micrometers::new(0);
    assert_eq!(
        update(&Draft::default(), Command::SetTunnelLips(Some(lips))),
        Err(CommandRefused::TunnelLips { lips })
    );
}
