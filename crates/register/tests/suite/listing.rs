//! The theatre list and the search.

use crate::support::{check, date, demo, patient, stamp};
use millrace_core::biometry::Side;
use millrace_core::case::State;
use millrace_register::{CaseEntry, CaseId, Cases, Fault, OnDay, Register, Window};
use millrace_wording::{Show as _, Words};

fn list() -> (tempfile::TempDir, Register) {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let drafts = vec![
        patient(Some("Ångström, Élise"), "40-2291", Some("2026-12-10")),
        patient(Some("zeller, Anna"), "40-2292", Some("2026-12-03")),
        patient(Some("Adler, Ida"), "41-0007", None),
        patient(Some("Sørensen-O’Neill, Åse"), "12/77", Some("2026-12-10")),
        patient(None, "7", Some("2026-12-10")),
        patient(Some("王小明"), "88", Some("2027-01-04")),
        patient(Some("राजेश्वरी शर्मा"), "89", Some("2027-01-04")),
    ];
    register.import(&drafts, stamp()).unwrap();
    (directory, register)
}

fn numbers(entries: &[CaseEntry]) -> Vec<&str> {
    entries
        .iter()
        .map(|entry| entry.number.as_deref().unwrap())
        .collect()
}

#[test]
fn the_list_goes_by_day_then_name_and_ends_with_cases_without_a_day() {
    let (_directory, register) = list();
    let all = register.list(Cases::InUse, Window::ALL).unwrap();
    // By hand: 3 Dec; 10 Dec without a name, Ångström, Sørensen; 4 Jan in the order of the scripts;
    // no day.
    let order = ["40-2292", "7", "40-2291", "12/77", "89", "88", "41-0007"];
    assert_eq!(numbers(&all), order);
    assert_eq!(register.count().unwrap(), 7);
    for (offset, limit) in [(0, 2), (2, 3), (5, 10), (7, 1), (100, 1), (0, 0)] {
        let part = register
            .list(Cases::InUse, Window { offset, limit })
            .unwrap();
        let from = usize::try_from(offset).unwrap().min(7);
        let to = (from + usize::try_from(limit).unwrap()).min(7);
        assert_eq!(part, all[from..to]);
    }
}

/// By hand, from the days of [`list`].
#[test]
fn days_are_told_once_each_with_their_cases_and_each_case_with_its_place() {
    let (_directory, register) = list();
    let days = [
        (Some(date(2026, 12, 3)), 1),
        (Some(date(2026, 12, 10)), 3),
        (Some(date(2027, 1, 4)), 2),
        (None, 1),
    ];
    let told = days.map(|(day, cases)| OnDay { day, cases });
    assert_eq!(register.by_day().unwrap(), told);
    let all = register.list(Cases::InUse, Window::ALL).unwrap();
    for (entry, place) in all.iter().zip(0..) {
        assert_eq!(register.place_of(entry.case).unwrap(), Some(place));
    }
    let unknown = CaseId::random().unwrap();
    assert_eq!(register.place_of(unknown).unwrap(), None);
}

#[test]
fn an_entry_shows_what_the_case_holds() {
    let (_directory, mut register) = list();
    let draft = demo("hard-and-shallow");
    let saved = register.import([&draft], stamp()).unwrap();
    let found = register.search("okonjo", Window::ALL).unwrap();
    assert_eq!(
        found,
        [CaseEntry {
            case: saved[0].case,
            revision: 1,
            sequence: saved[0].sequence,
            saved_at: stamp().at,
            saved_by: "A. Okafor".to_owned(),
            state: State::Planned,
            sheet: None,
            eye: Some(Side::Right),
            operation_date: Some(date(2026, 12, 3)),
            list_number: None,
            name: Some("Okonjo, Adaeze".to_owned()),
            number: Some("40-2291".to_owned()),
            birth_date: Some(date(1951, 3, 14)),
        }]
    );
}

#[test]
fn search_finds_by_beginnings_of_name_and_number() {
    let (_directory, register) = list();
    for (typed, found) in [
        ("angstrom", vec!["40-2291"]),
        ("ÅNGSTRÖM eli", vec!["40-2291"]),
        ("eli ang", vec!["40-2291"]),
        ("an", vec!["40-2292", "40-2291"]),
        ("a", vec!["40-2292", "40-2291", "12/77", "41-0007"]),
        ("oneill", vec!["12/77"]),
        ("o'neill", vec!["12/77"]),
        ("soren ase", vec!["12/77"]),
        ("40", vec!["40-2292", "40-2291"]),
        ("40-22", vec!["40-2292", "40-2291"]),
        ("40-2291", vec!["40-2291"]),
        ("402291", vec!["40-2291"]),
        ("12/77", vec!["12/77"]),
        ("小明", vec!["88"]),
        ("王", vec!["88"]),
        ("राजे", vec!["89"]),
        ("ngstrom", vec![]),
        ("angstrom zeller", vec![]),
        ("\"", vec![]),
        ("NOT a", vec![]),
        ("", vec![]),
    ] {
        let entries = register.search(typed, Window::ALL).unwrap();
        assert_eq!(numbers(&entries), found, "{typed}");
        let count = u64::try_from(found.len()).unwrap();
        assert_eq!(register.count_found(typed).unwrap(), count, "{typed}");
        let window = Window {
            offset: 1,
            limit: 1,
        };
        let second = register.search(typed, window).unwrap();
        assert_eq!(
            numbers(&second),
            found.iter().skip(1).take(1).copied().collect::<Vec<_>>()
        );
    }
}

/// Few hits are sorted, many are met by walking the list: either way a search is the list without
/// the others.
#[test]
fn a_search_is_the_list_without_the_others() {
    let directory = tempfile::tempdir().unwrap();
    let mut register = Register::open(&directory.path().join("register.sqlite3")).unwrap();
    let drafts: Vec<_> = (0..2_500)
        .map(|index| {
            let family = ["Weir", "Sluice", "Ångström"]
                [usize::from(index % 7 == 0) + usize::from(index % 50 == 0)];
            let day = format!("2026-{:02}-{:02}", 1 + index % 12, 1 + index % 28);
            let date = (index % 5 != 0).then_some(&*day);
            patient(
                Some(&format!("{family}, {index}")),
                &format!("HN {index:05}"),
                date,
            )
        })
        .collect();
    register.import(&drafts, stamp()).unwrap();
    let all = register.list(Cases::InUse, Window::ALL).unwrap();
    // Of 2,500 indices 358 are multiples of 7, 50 of 50 and 8 of both: 2,500 - 358 - 50 + 8 = 2,100.
    for (typed, begins, count) in [
        ("hn", "", 2_500),
        ("wei", "Weir", 2_100),
        ("angstrom", "Ångström", 8),
    ] {
        let name = |entry: &&CaseEntry| entry.name.as_deref().unwrap().starts_with(begins);
        let expected: Vec<_> = all.iter().filter(name).cloned().collect();
        assert_eq!(expected.len(), count, "{typed}");
        assert_eq!(
            register.search(typed, Window::ALL).unwrap(),
            expected,
            "{typed}"
        );
        for offset in [0, 3, 1_999, 2_499] {
            let part = register.search(typed, Window { offset, limit: 2 }).unwrap();
            let from = usize::try_from(offset).unwrap().min(count);
            assert_eq!(
                part,
                expected[from..(from + 2).min(count)],
                "{typed} {offset}"
            );
        }
    }
}

#[test]
fn a_changed_name_is_found_by_the_new_one_only() {
    let (_directory, mut register) = list();
    let case = register.search("zeller", Window::ALL).unwrap()[0].case;
    let married = patient(Some("Lindqvist, Anna"), "40-2292", Some("2026-12-20"));
    register.save(case, Some(1), &married, stamp()).unwrap();
    assert_eq!(register.search("zeller", Window::ALL).unwrap(), []);
    let found = register.search("lindqvist", Window::ALL).unwrap();
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].case, found[0].revision), (case, 2));
    assert_eq!(found[0].operation_date, Some(date(2026, 12, 20)));
    assert_eq!(register.count().unwrap(), 7);
    assert_eq!(check(&mut register).problems, []);
}

#[test]
fn a_case_is_found_by_what_a_person_types() {
    let (_directory, mut register) = list();
    let case = register.search("zeller", Window::ALL).unwrap()[0].case;
    let name = case.to_string();
    for typed in [&*name, &*name.to_uppercase(), &case.short(), " 40-2292 "] {
        assert_eq!(register.find(typed).unwrap(), case, "{typed}");
    }
    // Three letters would fit by chance; half a number is no number.
    for typed in ["", &name[..3], "40-229", "zeller", "uuuu"] {
        let error = register.find(typed).unwrap_err();
        assert!(matches!(error.fault, Fault::NoSuchCase), "{typed}: {error}");
    }
    // The other eye of the same patient.
    let other = patient(Some("zeller, Anna"), "40-2292", None);
    let other = register.import([&other], stamp()).unwrap()[0].case;
    let error = register.find("40-2292").unwrap_err();
    let mut both = [case, other];
    both.sort();
    let Fault::ManyCases { cases } = &error.fault else {
        panic!("{error}");
    };
    assert_eq!(cases.as_slice(), both);
    let [first, second] = both.map(CaseId::short);
    let message = format!("more than one case fits; name one of them: {first}, {second}: ");
    assert!(error.show(Words::ENGLISH).starts_with(&message), "{error}");
}
