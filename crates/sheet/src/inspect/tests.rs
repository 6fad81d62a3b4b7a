use proptest::prelude::*;

use super::*;

/// Texts on two pages, at places that often touch, nest, or begin at the same height.
fn texts() -> impl Strategy<Value = Vec<PlacedText>> {
    let places = (0_usize..2, 0_u8..30, 0_u8..30, 0_u8..12, 0_u8..12);
    let text = (places, prop::sample::select(vec![7.0, 9.0, 190.0]));
    prop::collection::vec(text, 0..40).prop_map(|texts| {
        let texts = texts.into_iter().enumerate();
        texts
            .map(|(order, ((page, left, top, width, height), size))| {
                let [left, top, width, height] =
                    [left, top, width, height].map(|tenths| f64::from(tenths) * 0.3);
                PlacedText {
                    page,
                    text: "text".to_owned(),
                    bounds: [left, top, left + width, top + height],
                    size,
                    black: true,
                    order,
                }
            })
            .collect()
    })
}

proptest! {
    /// Looking from the top down finds what comparing each text with each other finds.
    #[test]
    fn no_overlap_is_missed(texts in texts(), cover in (0_usize..40, 0_u8..30, 0_u8..30)) {
        let (order, left, top) = cover;
        let [left, top] = [left, top].map(|tenths| f64::from(tenths) * 0.3);
        let cover = Cover { page: 0, bounds: [left, top, left + 3.0, top + 3.0], order };
        let mut pairs = Vec::new();
        for (index, one) in texts.iter().enumerate() {
            for (other_index, other) in texts.iter().enumerate().skip(index + 1) {
                if collide(one, other) {
                    pairs.push([index, other_index]);
                }
            }
        }
        let lone = |(index, text): (usize, &PlacedText)| {
            !cover.hides(text) && !pairs.iter().flatten().any(|&collided| collided == index)
        };
        let clear: Vec<_> = texts.iter().enumerate().map(lone).collect();
        let all = Inspection { texts, covers: vec![cover], sizes: Vec::new() };
        prop_assert_eq!(all.collisions(), pairs);
        prop_assert_eq!(all.clear(), clear);
    }
}

/// By hand: only the first two share more than a touch.
#[test]
fn a_touch_is_no_overlap() {
    let placed = |order, bounds| PlacedText {
        page: 0,
        text: "text".to_owned(),
        bounds,
        size: 9.0,
        black: true,
        order,
    };
    let all = Inspection {
        texts: vec![
            placed(1, [0.0, 0.0, 30.0, 10.0]),
            placed(2, [29.0, 9.0, 60.0, 19.0]),
            placed(3, [0.0, 9.5, 28.0, 19.5]),
            placed(4, [61.0, 0.0, 90.0, 19.0]),
        ],
        covers: vec![],
        sizes: vec![],
    };
    assert_eq!(all.collisions(), [[0, 1]]);
    assert_eq!(all.clear(), [false, false, true, true]);
}
