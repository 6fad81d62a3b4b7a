//! What is out of the ordinary with patient and eye, as it was recorded.

use millrace_core::biometry::Sign;
use millrace_core::case::Special;
use millrace_wording::{Show as _, sheet as say};

use super::Subject;

impl Subject<'_> {
    /// Everything recorded that is not ordinary, whatever the rules say of it; what limits sight stands
    /// together at the end, as what it means. What keeps the blood from clotting stands beside the lens.
    pub(super) fn special(self) -> Vec<String> {
        let (mut texts, mut guarding) = (Vec::new(), Vec::new());
        for special in Special::all(self.draft, self.side) {
            let text = special.show(self.words).into_owned();
            match special {
                Special::Sign(sign) if Sign::GUARDING.contains(&sign) => guarding.push(text),
                Special::Anticoagulant => {}
                Special::Diabetes => guarding.push(text),
                _ => texts.push(text),
            }
        }
        if !guarding.is_empty() {
            texts.push(say::guarded_prognosis(
                self.words,
                self.words.list(guarding),
            ));
        }
        texts
    }
}
