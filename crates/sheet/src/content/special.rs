//! What is out of the ordinary with patient and eye, as it was recorded.

use millrace_core::case::Special;
use millrace_wording::Show as _;

use super::Subject;

impl Subject<'_> {
    /// Everything recorded that is not ordinary, whatever the rules say of it.
    pub(super) fn special(self) -> Vec<String> {
        let special = Special::all(self.draft, self.side);
        let texts = special.iter().map(|it| it.show(self.words).into_owned());
        texts.collect()
    }
}
