use super::*;

fn example() -> Fingerprint {
    Fingerprint::of("{\"number\":17}")
}

fn read(text: &str) -> Result<PrintedFingerprint, FingerprintError> {
    text.parse()
}

/// By hand from the bits: 32 bytes of 0x08 0x42 0x10 0x84 0x21 … are fives of 00001, so that every
/// letter is 1 and the last, of one bit and four zeros, is 0 (bit 255 is the first of its five).
#[test]
fn bits_become_letters_in_order() {
    let pattern = [0x08, 0x42, 0x10, 0x84, 0x21];
    let mut bytes = [0; 32];
    for (place, byte) in bytes.iter_mut().enumerate() {
        *byte = pattern[place % 5];
    }
    let text = Fingerprint::from_bytes(bytes).to_string().replace('-', "");
    assert_eq!(text.len(), 53);
    assert_eq!(text[..51], "1".repeat(51));
    assert_eq!(&text[51..52], "0");
    let short = Fingerprint::from_bytes(bytes).short().to_string();
    assert_eq!(short[..15], *"1111-1111-1111-");
    assert_eq!(short.len(), 19);
}

#[test]
fn every_way_it_is_written_reads_back() {
    let whole = example();
    let full = PrintedFingerprint::Full(whole);
    let short = PrintedFingerprint::Short(whole.short());
    for text in [whole.to_string(), whole.code()] {
        assert_eq!(read(&text), Ok(full));
        assert_eq!(read(&text.to_lowercase()), Ok(full));
        assert_eq!(read(&format!("  {text}\n")), Ok(full));
    }
    let text = whole.short().to_string();
    for text in [
        text.clone(),
        text.replace('-', ""),
        text.replace('-', " "),
        text.to_lowercase(),
        text.replace('1', "l").replace('0', "O"),
    ] {
        assert_eq!(read(&text), Ok(short), "{text}");
    }
    assert!(full.fits(&whole) && short.fits(&whole));
    let other = Fingerprint::of("{\"number\":18}");
    assert!(!full.fits(&other) && !short.fits(&other));
    let [lowest, highest] = whole.short().range();
    assert!(lowest <= whole && whole <= highest);
    assert_eq!(
        (lowest.short(), highest.short()),
        (whole.short(), whole.short())
    );
    assert!(lowest < highest);
}

/// Every other letter in every place, and every exchange of two neighbors that differ, in both forms.
#[test]
fn the_check_letter_catches_every_misread_letter_and_every_exchange_of_neighbors() {
    let mut tried = 0;
    for count in 0..20 {
        let whole = Fingerprint::of(&format!("{{\"number\":{count}}}"));
        for text in [whole.to_string(), whole.short().to_string()] {
            let letters: Vec<char> = text.chars().filter(|letter| *letter != '-').collect();
            for place in 0..letters.len() {
                for value in 0..32 {
                    let mut misread = letters.clone();
                    misread[place] = letter(value);
                    if misread != letters {
                        let misread: String = misread.into_iter().collect();
                        assert_eq!(read(&misread), Err(FingerprintError::Misread), "{misread}");
                        tried += 1;
                    }
                }
                let mut exchanged = letters.clone();
                if place + 1 < letters.len() {
                    exchanged.swap(place, place + 1);
                }
                if exchanged != letters {
                    let exchanged: String = exchanged.into_iter().collect();
                    assert_eq!(
                        read(&exchanged),
                        Err(FingerprintError::Misread),
                        "{exchanged}"
                    );
                    tried += 1;
                }
            }
        }
    }
    // 20 fingerprints of 53 and 16 letters with 31 others each, and the exchanges.
    assert!(20 * (53 + 16) * 31 < tried);
}

#[test]
fn what_is_none_is_refused_with_a_way_on() {
    let text = example().short().to_string();
    for (typed, error) in [
        (" - ", FingerprintError::Empty),
        ("7U2M", FingerprintError::Letter { letter: 'U' }),
        (&text[..18], FingerprintError::Length { found: 15 }),
        ("MILLRACE:2:ABC", FingerprintError::Newer),
    ] {
        assert_eq!(read(typed).unwrap_err(), error);
    }
    // 256 bits and four zeros: anything else in their place was never written by this program.
    let mut values = example().values().to_vec();
    values[51] |= 1;
    let text: String = letters_with_check(&values).collect();
    assert_eq!(read(&text), Err(FingerprintError::Misread));
}

/// Computed by `tests/oracle/signed_plan.py`, which knows nothing of this file.
#[test]
fn agrees_with_a_second_implementation() {
    let fingerprint = Fingerprint::of("{\"number\":17,\"name\":\"é\"}");
    assert_eq!(
        fingerprint.to_string(),
        "6D8Z-59WA-9EGT-8EC1-50RK-M9VR-RK9A-9D11-5C4W-04E5-32SA-B64W-ARZGV"
    );
    assert_eq!(fingerprint.short().to_string(), "6D8Z-59WA-9EGT-8ECV");
}
