//! Every message there is, in one list: what a table of another language answers.

use millrace_core::astigmatism::{
    Orientation, PosteriorBasis, Seat, ToricCaution, ToricNeeds, ToricRefusal,
};
use millrace_core::biometry::{
    ContactLensKind, CornealSurgeryKind, DepthStart, LengthMethod, Method, RefractionError, Sector,
    Side, Sign,
};
use millrace_core::case::{
    Anesthesia, Approach, Critical, Slot, Special, State, SurgeonGrade, TextRefused, TheatreRefused,
};
use millrace_core::certainty::{
    ErrorSource, NoDistribution, NoSpread, Origin, UnusualEye, Way, Withheld,
};
use millrace_core::chamber::{Delivery, NucleusError, NucleusSize, SectionError, WorkingPlane};
use millrace_core::evidence::Standing;
use millrace_core::finding::{Asks, Found, HardNucleus, Lacking, WhyHard, WhyNotHard, WhyUnclear};
use millrace_core::iol_power::ladder::Convention;
use millrace_core::iol_power::{
    Caution, Formula, MadeFor, Needed, NeededConstant, PowerRangeError, Refusal,
};
use millrace_core::lens::{
    BiometryKind, Haptic, LensSite, Material, Obtained, PowerLabel, ToricStepsError,
};
use millrace_core::plan::{LadderMissing, PlanRefused, Trial};
use millrace_core::quantity::keratometric::IndexError;
use millrace_core::quantity::{DecimalError, MeasureError};
use millrace_core::rules::risk::{Band, OddsFactor, RiskItem};
use millrace_core::rules::{
    Because, Contradiction, Detail, Drift, Eyes, Fact, Identifier, Limit, Missing, NoAnswer, Place,
    Quantity, Severity, SpreadOf, WeakZonules, Which,
};
use millrace_core::signing::{
    CannotRecompute, FingerprintError, NotASignedPlan, Obstacle, SignatureEntry,
};

use crate::message::Listed;
use crate::{
    Message, certainty, command_line, dates, desk, entry, iol_power, lens, limits, measurements,
    number, patients, press, quantity, register, rules, sheet, signing, simulation, stored,
    tabulate, terms, text, window,
};

/// The messages written one by one, file by file.
macro_rules! files {
    ($($($part:ident)::+),*) => { &[$($($part::)+MESSAGES),*] };
}

const FILES: &[&[Message]] = files! {
    certainty, command_line, dates, desk::approach, desk::aside, desk::biometry, desk::changes,
    desk::day, desk::eye_section, desk::figures, desk::findings, desk::frame, desk::keys, desk::lens, desk::lens_records,
    desk::list, desk::outcome, desk::reference, desk::second_look, desk::settings, desk::sheet, desk::widgets,
    entry, iol_power, lens, limits, measurements, number, patients, press, quantity, register, rules,
    rules::detail, rules::fact, rules::limit, rules::missing, rules::quantity, rules::risk,
    rules::second_eye, sheet, signing, simulation, stored, tabulate, terms, text::banner,
    text::certainty, text::lens, text::plan, text::proximity, text::second_eye, text::state, text::toric, window
};

/// The closed sets, each member a message.
macro_rules! sets {
    ($($set:ident),*) => { &[$(<$set as Listed>::MESSAGES),*] };
}

const SETS: &[&[Message]] = sets! {
    Anesthesia, Approach, Asks, Band, Because, BiometryKind, CannotRecompute, Caution,
    ContactLensKind,
    Contradiction, Convention, CornealSurgeryKind, Critical, DecimalError, Delivery, DepthStart, Detail,
    Drift, ErrorSource, Eyes, FingerprintError, Fact, Formula, Found, Haptic, HardNucleus, Identifier,
    IndexError, Lacking, LadderMissing, LengthMethod, LensSite, Limit, MadeFor, Material,
    Method, MeasureError, Missing, Needed, NeededConstant, NoAnswer, NoDistribution, NoSpread,
    NotASignedPlan, NucleusError, NucleusSize, Obstacle, Obtained, OddsFactor, Orientation, Origin,
    Place, PosteriorBasis, PlanRefused, PowerLabel, PowerRangeError, Quantity, RefractionError,
    Refusal, RiskItem, Seat, SectionError, Sector, Severity, Side, Sign, SignatureEntry, Slot,
    Special, SpreadOf, Standing, State, SurgeonGrade, TextRefused, TheatreRefused, ToricCaution,
    ToricNeeds, ToricRefusal, ToricStepsError, Trial, UnusualEye, Way, WeakZonules, Which, WhyHard,
    WhyNotHard, WhyUnclear, Withheld, WorkingPlane
};

/// Every message there is.
pub fn messages() -> impl Iterator<Item = &'static Message> {
    FILES.iter().chain(SETS).copied().flatten()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;
    use std::path::Path;

    use super::messages;

    fn named(template: &str) -> BTreeSet<&str> {
        let parts = template.split('{').skip(1);
        let names = parts.map(|part| part.split_once('}').expect("every brace is closed").0);
        names.filter(|name| !name.starts_with('=')).collect()
    }

    #[test]
    fn every_form_names_exactly_the_arguments_of_its_message() {
        for message in messages() {
            let wanted: BTreeSet<_> = message.arguments.iter().copied().collect();
            let (last, one) = message.english.split_last().unwrap();
            assert_eq!(named(last), wanted, "{}", message.name);
            for form in one {
                // "one day" may leave out the count.
                assert!(named(form).is_subset(&wanted), "{}", message.name);
            }
        }
    }

    #[test]
    fn a_marked_number_is_a_number() {
        for message in messages() {
            for form in message.english {
                for part in form.split("{=").skip(1) {
                    let (number, _) = part.split_once('}').unwrap();
                    assert!(number.parse::<f64>().is_ok(), "{}: {number}", message.name);
                }
            }
        }
    }

    #[test]
    fn no_number_with_decimals_stands_unmarked() {
        for message in messages() {
            for form in message.english {
                let bytes = form.as_bytes();
                let bare = bytes.windows(3).enumerate().any(|(at, three)| {
                    let is_number =
                        three[0].is_ascii_digit() && three[1] == b'.' && three[2].is_ascii_digit();
                    let before = form.get(..=at).unwrap_or_default();
                    let open = before.rfind("{=");
                    is_number
                        && open
                            .is_none_or(|open| before.get(open..).unwrap_or_default().contains('}'))
                });
                assert!(!bare, "{}: {form}", message.name);
            }
        }
    }

    #[test]
    fn names_are_unique() {
        let mut seen = BTreeSet::new();
        for message in messages() {
            assert!(seen.insert(message.name), "{} is there twice", message.name);
        }
    }

    /// A file that is not in the list has messages that no other language is asked for.
    #[test]
    fn every_file_of_messages_is_in_the_list() {
        let mut files = Vec::new();
        below(
            &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
            &mut files,
        );
        let listed: BTreeSet<_> = messages()
            .filter_map(|message| message.name.rsplit_once("::"))
            .map(|(module, _)| module.to_owned())
            .collect();
        for (module, text) in files {
            let declares = text.lines().any(|line| line.trim_end() == "messages! {");
            let sets = text
                .lines()
                .filter_map(|line| line.strip_prefix("shown! { "));
            let sets: BTreeSet<_> = sets.filter_map(|line| line.split(',').next()).collect();
            assert_eq!(
                declares || !sets.is_empty(),
                listed.contains(&module),
                "{module}"
            );
            for set in sets {
                let name = format!("{module}::{set}.");
                let is_listed = messages().any(|message| message.name.starts_with(&name));
                assert!(is_listed, "{name}");
            }
        }
    }

    fn below(directory: &Path, found: &mut Vec<(String, String)>) {
        for entry in std::fs::read_dir(directory).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                below(&path, found);
                continue;
            }
            let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
            let relative = path.strip_prefix(source).unwrap().with_extension("");
            let parts: Vec<_> = relative
                .iter()
                .filter_map(|part| part.to_str())
                .filter(|part| *part != "mod")
                .collect();
            let module = format!("millrace_wording::{}", parts.join("::"));
            found.push((module, std::fs::read_to_string(&path).unwrap()));
        }
    }
}
