//! What a message is, and how its text is made.

use std::borrow::Cow;

use crate::DecimalSign;

/// The English of a message, with the names of its arguments in braces: `"{measured} (limit: {limit})"`.
/// A number that is part of the text is marked, `{=0.50}`, so that it gets the decimal sign in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Template {
    english: &'static str,
    is_plain: bool,
}

impl Template {
    /// A template.
    #[must_use]
    pub const fn new(english: &'static str) -> Self {
        let bytes = english.as_bytes();
        let (mut index, mut is_plain) = (0, true);
        while index < bytes.len() {
            #[expect(clippy::indexing_slicing, reason = "below the length, in a constant")]
            if bytes[index] == b'{' {
                is_plain = false;
            }
            index += 1;
        }
        Self { english, is_plain }
    }

    /// As it is written.
    #[must_use]
    pub const fn english(self) -> &'static str {
        self.english
    }

    /// Whether it is its own text, without argument or marked number.
    #[must_use]
    pub const fn is_plain(self) -> bool {
        self.is_plain
    }
}

/// A message as translators, and the tests, see it.
#[derive(Clone, Copy, Debug)]
pub struct Message {
    /// Module and name: permanent, what a table of another language goes by.
    pub name: &'static str,
    /// Its English; with a second one where the first is for a count of one.
    pub english: &'static [&'static str],
    /// Names of its arguments.
    pub arguments: &'static [&'static str],
}

/// A template with its arguments filled in and its marked numbers written.
pub(crate) fn written(template: &str, decimals: DecimalSign, arguments: &[(&str, &str)]) -> String {
    let mut text = String::with_capacity(template.len() + 16 * arguments.len());
    let mut rest = template;
    while let Some((before, from)) = rest.split_once('{') {
        text.push_str(before);
        let (name, after) = from.split_once('}').unwrap_or((from, ""));
        rest = after;
        if let Some(number) = name.strip_prefix('=') {
            text.push_str(&decimals.write(number));
            continue;
        }
        let argument = arguments.iter().find(|(known, _)| *known == name);
        text.push_str(argument.map_or("", |(_, value)| value));
    }
    text.push_str(rest);
    text
}

/// A text of reference as a template: each of its decimal numbers marked, so that it gets the decimal
/// sign in use.
///
/// A number has one point and stands alone: "1.3375", not "0.12.3" and not the number of a
/// publication, "10.1000/182".
pub(crate) fn marked(reference: &'static str) -> Cow<'static, str> {
    if !reference.contains('.') || reference.contains('{') {
        return reference.into();
    }
    let mut template = String::with_capacity(reference.len() + 8);
    let mut rest = reference;
    while let Some(start) = rest.find(|letter: char| letter.is_ascii_digit()) {
        let (before, from) = rest.split_at(start);
        let is_number = |letter: char| letter.is_ascii_digit() || letter == '.';
        let end = from.find(|letter| !is_number(letter)).unwrap_or(from.len());
        let number = from.get(..end).unwrap_or_default().trim_end_matches('.');
        rest = from.get(number.len()..).unwrap_or_default();
        template.push_str(before);
        if number.split('.').count() == 2 && !rest.starts_with('/') {
            template.push_str("{=");
            template.push_str(number);
            template.push('}');
        } else {
            template.push_str(number);
        }
    }
    template.push_str(rest);
    template.into()
}

/// Writes messages: a function each, which takes [`Words`](crate::Words) and the arguments and
/// returns the text; and `MESSAGES`, all of the file.
///
/// ```text
/// messages! {
///     axial_length = "Axial length";
///     against_limit(measured, limit) = "{measured} (limit: {limit})";
///     findings(count) = "{count} finding" | "{count} findings";
/// }
/// ```
///
/// A count that is 1 takes the first of two forms; the count is the first argument.
macro_rules! messages {
    ($($name:ident $(($first:ident $(, $argument:ident)* $(,)?))? = $english:literal $(| $many:literal)?;)*) => {
        $(messages!(@one $name $(($first $(, $argument)*))? = $english $(| $many)?);)*

        /// Every message of this file.
        pub(crate) const MESSAGES: &[$crate::Message] = &[
            $($crate::Message {
                name: concat!(module_path!(), "::", stringify!($name)),
                english: &[$english $(, $many)?],
                arguments: &[$(stringify!($first) $(, stringify!($argument))*)?],
            }),*
        ];
    };

    (@one $name:ident = $english:literal) => {
        #[doc = concat!("\u{201c}`", $english, "`\u{201d}")]
        #[must_use]
        #[allow(unreachable_pub, reason = "reached where the file is public")]
        pub fn $name(words: $crate::Words) -> &'static str {
            const TEMPLATE: $crate::Template = $crate::Template::new($english);
            words.text(TEMPLATE)
        }
    };

    (@one $name:ident ($first:ident $(, $argument:ident)*) = $english:literal) => {
        #[doc = concat!("\u{201c}`", $english, "`\u{201d}")]
        #[must_use]
        #[allow(unreachable_pub, clippy::needless_pass_by_value, clippy::too_many_arguments, reason = "reached where the file is public; a fact or a text, whichever is at hand")]
        pub fn $name(words: $crate::Words, $first: impl $crate::Show $(, $argument: impl $crate::Show)*) -> String {
            const TEMPLATE: $crate::Template = $crate::Template::new($english);
            words.fill(TEMPLATE, &[
                (stringify!($first), &$crate::Show::show(&$first, words)),
                $((stringify!($argument), &$crate::Show::show(&$argument, words)),)*
            ])
        }
    };

    (@one $name:ident ($first:ident $(, $argument:ident)*) = $english:literal | $many:literal) => {
        #[doc = concat!("\u{201c}`", $many, "`\u{201d}; one: \u{201c}`", $english, "`\u{201d}")]
        #[must_use]
        #[allow(unreachable_pub, clippy::needless_pass_by_value, clippy::too_many_arguments, reason = "reached where the file is public; a fact or a text, whichever is at hand")]
        pub fn $name(words: $crate::Words, $first: usize $(, $argument: impl $crate::Show)*) -> String {
            const ONE: $crate::Template = $crate::Template::new($english);
            const MANY: $crate::Template = $crate::Template::new($many);
            let template = if $first == 1 { ONE } else { MANY };
            words.fill(template, &[
                (stringify!($first), &$crate::Show::show(&$first, words)),
                $((stringify!($argument), &$crate::Show::show(&$argument, words)),)*
            ])
        }
    };
}

/// A closed set whose members are messages: implements [`Show`](crate::Show) for it.
///
/// ```text
/// shown! { Limit, words {
///     Absent = "absent";
///     AtLeast(least) = "at least {least}";
///     Apart { apart: unsigned(words, *apart) } = "{apart} apart";
/// } else {
///     Self::MadeIn(spans) => words.list(spans).into(),
/// }}
/// ```
///
/// What a member holds is the argument of its message, by the name it is bound to, as it is shown or
/// as the expression behind the name gives it. What no one message says stands behind `else`, as arms
/// of the match.
macro_rules! shown {
    ($type:ident, $words:ident { $($arms:tt)* }) => {
        shown! { $type, $words { $($arms)* } else {} }
    };

    ($type:ident, $words:ident {
        $($member:ident
            $(( $($held:ident $(: $said:expr)?),* ))?
            $({ $($field:ident $(: $shown:expr)?),* $(,)? })?
            = $english:literal;)*
    } else { $($rest:tt)* }) => {
        impl $crate::Show for $type {
            fn show(&self, $words: $crate::Words) -> std::borrow::Cow<'_, str> {
                match self {
                    $(Self::$member $(( $($held),* ))? $({ $($field),* })? => {
                        const TEMPLATE: $crate::Template = $crate::Template::new($english);
                        shown!(@say $words, TEMPLATE,
                            [$($($held $(: $said)?),*)? $($($field $(: $shown)?),*)?])
                    })*
                    $($rest)*
                }
            }
        }

        impl $crate::message::Listed for $type {
            const MESSAGES: &'static [$crate::Message] = &[
                $($crate::Message {
                    name: concat!(module_path!(), "::", stringify!($type), ".", stringify!($member)),
                    english: &[$english],
                    arguments: &[$($(stringify!($held)),*)? $($(stringify!($field)),*)?],
                }),*
            ];
        }
    };

    (@say $words:ident, $template:ident, []) => {
        $words.text($template).into()
    };

    (@say $words:ident, $template:ident, [$($name:ident $(: $said:expr)?),*]) => {
        $words.fill($template, &[$((
            stringify!($name),
            &$crate::Show::show(shown!(@argument $name $(: $said)?), $words),
        )),*]).into()
    };

    (@argument $name:ident) => { $name };
    (@argument $name:ident : $said:expr) => { &$said };
}

/// The messages of a closed set, for the list of all.
pub(crate) trait Listed {
    /// A message for each member that is said by one.
    const MESSAGES: &'static [Message];
}

#[cfg(test)]
mod tests {
    use super::{marked, written};
    use crate::{DecimalSign, Words};

    messages! {
        plain = "Axial length";
        with_number = "under {=0.50} D";
        against(measured, limit) = "{measured} (limit: {limit})";
        findings(count, place) = "{count} finding in {place}" | "{count} findings in {place}";
    }

    const COMMA: Words = Words {
        decimals: DecimalSign::Comma,
        ..Words::ENGLISH
    };

    #[test]
    fn a_message_takes_its_arguments_by_name() {
        assert_eq!(plain(Words::ENGLISH), "Axial length");
        assert_eq!(
            against(Words::ENGLISH, "2.70 mm", "2.80 mm"),
            "2.70 mm (limit: 2.80 mm)"
        );
        assert_eq!(findings(Words::ENGLISH, 1, "A"), "1 finding in A");
        assert_eq!(findings(Words::ENGLISH, 0, "A"), "0 findings in A");
    }

    #[test]
    fn a_marked_number_gets_the_decimal_sign() {
        assert_eq!(with_number(Words::ENGLISH), "under 0.50 D");
        assert_eq!(with_number(COMMA), "under 0,50 D");
    }

    #[test]
    fn only_the_point_inside_a_number_is_marked() {
        for (text, comma) in [
            ("23.45 mm", "23,45 mm"),
            ("\u{2212}0.25 D", "\u{2212}0,25 D"),
            ("43.25 D at 1.3375", "43,25 D at 1,3375"),
            ("14.00 to 40.00 mm.", "14,00 to 40,00 mm."),
            ("limit 2.80.", "limit 2,80."),
            ("version 0.12.3", "version 0.12.3"),
            ("Eye 2016;30:1049", "Eye 2016;30:1049"),
            ("2026-12-03", "2026-12-03"),
            ("et al., Eye", "et al., Eye"),
            ("doi 10.1000/182, 0.5", "doi 10.1000/182, 0,5"),
            (".5 and 5.", ".5 and 5."),
            ("", ""),
            ("÷ 2.77 × ø 6.00", "÷ 2,77 × ø 6,00"),
        ] {
            assert_eq!(written(&marked(text), DecimalSign::Comma, &[]), comma);
            assert_eq!(written(&marked(text), DecimalSign::Point, &[]), text);
        }
    }

    #[test]
    fn an_argument_is_never_taken_for_a_template() {
        assert_eq!(
            against(Words::ENGLISH, "{limit}", "{=1.5}"),
            "{limit} (limit: {=1.5})"
        );
    }

    #[test]
    fn the_pseudo_language_alters_the_template_and_no_argument() {
        let text = against(Words::PSEUDO, "2.70 mm", "Okonjo");
        assert!(
            text.starts_with("2.70 mm (") && text.ends_with("Okonjo)"),
            "{text}"
        );
        assert!(!text.contains("limit"), "{text}");
    }

    #[test]
    fn a_file_lists_its_messages() {
        let names: Vec<_> = MESSAGES
            .iter()
            .map(|message| message.arguments.len())
            .collect();
        assert_eq!(names, [0, 0, 2, 2]);
    }
}
