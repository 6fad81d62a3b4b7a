//! Letters and digits a fingerprint is written in, and the letter that checks them.

/// Digits and letters without `I`, `L`, `O` and `U`, which are misread.
const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// The letter for five bits; only the lowest five count.
pub(super) fn letter(five_bits: u8) -> char {
    let index = usize::from(five_bits & 31);
    LETTERS.get(index).map_or('0', |letter| char::from(*letter))
}

/// The five bits of a letter, small or capital. `I` and `L` are taken for 1 and `O` for 0, since
/// nothing else can be meant.
pub(super) fn five_bits(letter: char) -> Option<u8> {
    let letter = match letter.to_ascii_uppercase() {
        'I' | 'L' => '1',
        'O' => '0',
        other => other,
    };
    let index = LETTERS
        .iter()
        .position(|known| char::from(*known) == letter)?;
    u8::try_from(index).ok()
}

/// The check of a row of five-bit values: the sum of each by its weight, 2, 4, 8 … in the field of 32
/// elements. Weights are never zero and neighbors never have the same, so that one misread letter
/// and two exchanged neighbors both change the sum.
pub(super) fn check(values: &[u8]) -> u8 {
    let mut weight = 1;
    let mut sum = 0;
    for value in values {
        weight = product(weight, 2);
        sum ^= product(weight, *value);
    }
    sum
}

/// Product in the field of 32 elements, of polynomials modulo x⁵ + x² + 1.
fn product(left: u8, right: u8) -> u8 {
    let (mut shifted, mut sum) = (left & 31, 0);
    for place in 0..5 {
        if (right >> place) & 1 == 1 {
            sum ^= shifted;
        }
        shifted <<= 1;
        if 31 < shifted {
            shifted ^= 0b10_0101;
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_letter_reads_back_small_and_capital() {
        for value in 0..32 {
            let written = letter(value);
            assert_eq!(five_bits(written), Some(value));
            assert_eq!(five_bits(written.to_ascii_lowercase()), Some(value));
        }
        for (misread, meant) in [('I', '1'), ('l', '1'), ('o', '0')] {
            assert_eq!(five_bits(misread), five_bits(meant));
        }
        for none in ['U', 'u', '*', 'É', ' '] {
            assert_eq!(five_bits(none), None, "{none}");
        }
    }

    /// By hand: 2·2 = 4; 16·2 = 32, less 37 (x⁵ + x² + 1) is 5; 4·9 = 36, less 37 is 1, so that 9
    /// undoes 4. The powers of 2 meet every element but zero before they return to 1.
    #[test]
    fn the_field_is_one() {
        assert_eq!(product(2, 2), 4);
        assert_eq!(product(16, 2), 5);
        assert_eq!(product(4, 9), 1);
        let mut seen = [false; 32];
        let mut power = 1;
        for _ in 0..31 {
            power = product(power, 2);
            assert!(power != 0 && !seen[usize::from(power)], "{power}");
            seen[usize::from(power)] = true;
        }
        assert_eq!(power, 1);
    }
}
