//! In which language, and with which decimal sign.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::RwLock;

use crate::message::{marked, written};
use crate::{DecimalSign, Show, Template, pseudo};

/// A language that Millrace speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Language {
    /// English, in American spelling.
    #[default]
    English,
    /// English with every letter changed that has a relative with an accent: for tests, and for who
    /// looks for texts that no language can reach.
    Pseudo,
}

impl Language {
    /// Every language.
    pub const ALL: [Self; 2] = [Self::English, Self::Pseudo];

    /// Its code, as in settings and on the command line: BCP 47, and for the pseudo-language the
    /// private region that CLDR uses for it.
    pub const fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Pseudo => "en-XA",
        }
    }

    /// The language with this code.
    pub fn with_code(code: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|language| language.code() == code)
    }
}

/// How everything is said: handed to whatever makes a text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Words {
    /// The language.
    pub language: Language,
    /// The sign between whole numbers and decimals.
    pub decimals: DecimalSign,
}

/// Texts made from a template without arguments, kept as long as the program runs: there are as many
/// as there are messages.
static KEPT: RwLock<BTreeMap<(Words, &'static str), &'static str>> = RwLock::new(BTreeMap::new());

impl Words {
    /// English with a decimal point: what files of reference and documentation are written in.
    pub const ENGLISH: Self = Self {
        language: Language::English,
        decimals: DecimalSign::Point,
    };

    /// The pseudo-language with a decimal point.
    pub const PSEUDO: Self = Self {
        language: Language::Pseudo,
        decimals: DecimalSign::Point,
    };

    /// A text without arguments.
    pub fn text(self, template: Template) -> &'static str {
        if self.language == Language::English && template.is_plain() {
            return template.english();
        }
        self.kept(template.english(), Into::into)
    }

    /// A text of reference that stands where its subject does, in the core: the title of a rule, the
    /// place in a work, the equation of a formula. Its numbers get their sign here, whether they are
    /// marked as in a message or not.
    pub fn reference(self, english: &'static str) -> &'static str {
        let is_as_written = self == Self::ENGLISH && !english.contains('{');
        if is_as_written {
            return english;
        }
        self.kept(english, marked)
    }

    /// The same of a text that is put together when the program starts, such as the help of a command.
    pub fn reference_made(self, english: &str) -> String {
        written(&self.spoken(english), self.decimals, &[])
    }

    /// A text with its arguments, each under its name.
    pub fn fill(self, template: Template, arguments: &[(&str, &str)]) -> String {
        let spoken = self.spoken(template.english());
        written(&spoken, self.decimals, arguments)
    }

    /// Several in one line: "one, two, three".
    pub fn list<T: Show>(self, items: impl IntoIterator<Item = T>) -> String {
        self.joined(items, ", ")
    }

    /// Several that may hold commas themselves: "one; two; three".
    pub fn clauses<T: Show>(self, items: impl IntoIterator<Item = T>) -> String {
        self.joined(items, "; ")
    }

    fn joined<T: Show>(self, items: impl IntoIterator<Item = T>, between: &str) -> String {
        let shown: Vec<_> = items
            .into_iter()
            .map(|item| item.show(self).into_owned())
            .collect();
        shown.join(between)
    }

    fn spoken(self, english: &str) -> Cow<'_, str> {
        match self.language {
            Language::English => english.into(),
            Language::Pseudo => pseudo::altered(english).into(),
        }
    }

    fn kept(
        self,
        english: &'static str,
        template: fn(&'static str) -> Cow<'static, str>,
    ) -> &'static str {
        let key = (self, english);
        let known = KEPT.read().map(|kept| kept.get(&key).copied());
        if let Ok(Some(text)) = known {
            return text;
        }
        let spoken = self.spoken(&template(english)).into_owned();
        let text: &'static str = written(&spoken, self.decimals, &[]).leak();
        if let Ok(mut kept) = KEPT.write() {
            // Whoever came first stays, so that every caller holds the same text.
            return kept.entry(key).or_insert(text);
        }
        text
    }
}

/// The same text with a capital first letter.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_language_is_found_by_its_code_and_by_no_other() {
        for language in Language::ALL {
            assert_eq!(Language::with_code(language.code()), Some(language));
        }
        assert_eq!(Language::with_code("EN"), None);
        assert_eq!(Language::with_code(""), None);
    }

    #[test]
    fn a_text_of_reference_keeps_its_numbers() {
        let text = "limit {=2.80} mm, from the epithelium";
        let comma = Words {
            decimals: DecimalSign::Comma,
            ..Words::ENGLISH
        };
        assert_eq!(
            Words::ENGLISH.reference(text),
            "limit 2.80 mm, from the epithelium"
        );
        assert_eq!(comma.reference(text), "limit 2,80 mm, from the epithelium");
        let altered = Words::PSEUDO.reference(text);
        assert!(
            altered.contains("2.80") && !altered.contains("epithelium"),
            "{altered}"
        );
        // Kept once, handed out again.
        assert!(core::ptr::eq(altered, Words::PSEUDO.reference(text)));
    }

    #[test]
    fn a_text_of_reference_need_not_mark_its_numbers() {
        let comma = Words {
            decimals: DecimalSign::Comma,
            ..Words::ENGLISH
        };
        assert_eq!(
            comma.reference("ratio 1.45, doi 10.1000/182"),
            "ratio 1,45, doi 10.1000/182"
        );
    }

    #[test]
    fn several_stand_in_one_line() {
        assert_eq!(Words::ENGLISH.list(["one", "two"]), "one, two");
        assert_eq!(
            Words::ENGLISH.clauses(["one, two", "three"]),
            "one, two; three"
        );
        assert_eq!(Words::ENGLISH.list(Vec::<&str>::new()), "");
    }
}
