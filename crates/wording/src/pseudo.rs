//! The pseudo-language: English that anybody can still read and no English text equals.

/// The text with every letter changed that has a relative with an accent; names of arguments and
/// marked numbers stay as they are. No word of English is without such a letter.
pub(crate) fn altered(english: &str) -> String {
    let mut depth = 0_u8;
    english
        .chars()
        .map(|letter| {
            match letter {
                '{' => depth = 1,
                '}' => depth = 0,
                _ => {}
            }
            if depth == 1 { letter } else { relative(letter) }
        })
        .collect()
}

/// The text with every such letter put back.
pub(crate) fn restored(text: &str) -> String {
    let back = |letter: char| {
        let mut plain = ('A'..='Z').chain('a'..='z');
        plain.find(|plain| relative(*plain) == letter)
    };
    text.chars()
        .map(|letter| back(letter).unwrap_or(letter))
        .collect()
}

/// Whether the pseudo-language changes this letter.
pub(crate) const fn has_relative(letter: char) -> bool {
    relative(letter) != letter
}

/// Letters that the typefaces of the desk and of the sheet hold.
const fn relative(letter: char) -> char {
    match letter {
        'a' => 'ä',
        'c' => 'ç',
        'e' => 'é',
        'i' => 'ï',
        'n' => 'ñ',
        'o' => 'ö',
        's' => 'š',
        'u' => 'ü',
        'y' => 'ý',
        'z' => 'ž',
        'A' => 'Ä',
        'C' => 'Ç',
        'E' => 'É',
        'I' => 'Ï',
        'N' => 'Ñ',
        'O' => 'Ö',
        'S' => 'Š',
        'U' => 'Ü',
        'Y' => 'Ý',
        'Z' => 'Ž',
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::{altered, restored};

    #[test]
    fn letters_change_and_numbers_and_names_of_arguments_do_not() {
        assert_eq!(
            altered("Sphere {sphere} under {=0.50} D, 2.8 mm"),
            "Šphéré {sphere} üñdér {=0.50} D, 2.8 mm"
        );
        let text = "The quick brown fox, 9°: jumps over the LAZY DOG";
        assert_eq!(restored(&altered(text)), text);
    }
}
