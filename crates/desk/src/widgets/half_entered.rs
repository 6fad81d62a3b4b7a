//! What takes several fields to enter, and is recorded once it is whole.

use super::number_field::Commit;

/// The parts of something, as entered so far.
pub trait Parts: Clone + Default + PartialEq {
    type Whole: PartialEq;

    /// The parts of something whole.
    fn of(whole: &Self::Whole) -> Self;

    /// What they make; nothing while a part is missing or the parts contradict each other.
    fn whole(&self) -> Option<Self::Whole>;
}

/// Parts that make nothing whole yet, kept beside what is recorded.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HalfEntered<P> {
    kept: P,
}

#[derive(Clone, Debug, PartialEq)]
pub struct Entered<P: Parts> {
    /// The parts as they stand now.
    pub parts: P,
    /// What is to be recorded instead, if that changed. Parts that make nothing take the old one out:
    /// what the fields show and what is recorded never disagree.
    pub change: Option<Commit<P::Whole>>,
}

impl<P: Parts> HalfEntered<P> {
    #[cfg(test)]
    fn is_blank(&self) -> bool {
        self.kept == P::default()
    }

    /// Shows the parts of what is recorded, or those kept, in the fields of `show`; keeps them or tells
    /// what they make.
    pub fn enter(&mut self, recorded: Option<&P::Whole>, show: impl FnOnce(&mut P)) -> Entered<P> {
        let before = recorded.map_or_else(|| self.kept.clone(), P::of);
        let mut parts = before.clone();
        show(&mut parts);
        let mut change = None;
        if recorded.is_some() {
            self.kept = P::default();
        }
        if parts != before {
            let whole = parts.whole();
            self.kept = if whole.is_some() {
                P::default()
            } else {
                parts.clone()
            };
            change = (whole.as_ref() != recorded)
                .then(|| whole.map_or(Commit::Cleared, Commit::Entered));
        }
        Entered { parts, change }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Clone, Debug, Default, PartialEq)]
    struct Both(Option<u8>, Option<u8>);

    impl Parts for Both {
        type Whole = (u8, u8);

        fn of(whole: &(u8, u8)) -> Self {
            Self(Some(whole.0), Some(whole.1))
        }

        fn whole(&self) -> Option<(u8, u8)> {
            Some((self.0?, self.1?))
        }
    }

    #[test]
    fn parts_wait_until_they_are_whole_and_take_the_old_one_out() {
        let mut half = HalfEntered::<Both>::default();
        let entered = half.enter(None, |both| both.0 = Some(1));
        assert_eq!(entered.change, None);
        assert!(!half.is_blank());
        let entered = half.enter(None, |both| both.1 = Some(2));
        assert_eq!(entered.change, Some(Commit::Entered((1, 2))));
        assert!(half.is_blank());
        let entered = half.enter(Some(&(1, 2)), |_| ());
        assert_eq!(
            (entered.parts, entered.change),
            (Both(Some(1), Some(2)), None)
        );
        let entered = half.enter(Some(&(1, 2)), |both| both.1 = None);
        assert_eq!(entered.change, Some(Commit::Cleared));
        let entered = half.enter(None, |both| both.0 = None);
        assert_eq!(entered.change, None);
        assert!(half.is_blank());
    }
}
