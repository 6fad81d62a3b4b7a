//! One bit of a register is flipped on the drive: whatever is asked then is answered rightly, or refused.
//!
//! A bit in some thousands of a small register by default, more of them where places are found by;
//! `MILLRACE_FLIPS=1` flips every bit of it, which takes a day, another number every so manieth.

use std::fmt::Debug;
use std::fs::{self, File, OpenOptions};
use std::io::{Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use crate::support::{by, patient, signable, signable_aimed_at, signing};
use millrace_core::case::Patient;
use millrace_core::signing::{Fingerprint, PrintedFingerprint, SheetNumber};
use millrace_register::{CaseId, Cases, Fault, Register, RegisterError, Sequence, Window};
use rusqlite::Connection;

/// Primes, so that every place within a byte has its turn.
const STRIDE: usize = 4_001;
/// Where only bodies are, which their hashes guard.
const STRIDE_OF_BODIES: usize = 16_001;
/// Bits of a page of the file.
const PAGE: u64 = 8 * 4_096;

fn cases() -> [CaseId; 4] {
    [0x11, 0x32, 0x73, 0xf4].map(|byte| CaseId::from_bytes([byte; 16]))
}

/// One case signed twice and changed since, one signed and current, two never signed.
pub(crate) fn small(path: &Path) -> Vec<Fingerprint> {
    let mut register = Register::open(path).unwrap();
    let [first, second, third, fourth] = cases();
    let stamp = by("A. Okafor");
    register.save(first, None, &signable(), stamp).unwrap();
    let mut fingerprints = Vec::new();
    let mut signed = |register: &mut Register, case, revision, target| {
        let sheet = register.sign(case, revision, signing(target)).unwrap();
        fingerprints.push(sheet.entry.fingerprint);
    };
    signed(&mut register, first, 1, -30);
    let drafts = [
        patient(Some("Sluice, Ida"), "41-0007", Some("2026-12-03")),
        patient(Some("Weir, Anna"), "HN 17/A", None),
    ];
    register.save(second, None, &drafts[0], stamp).unwrap();
    register
        .save(first, Some(1), &signable_aimed_at(-25), stamp)
        .unwrap();
    signed(&mut register, first, 2, -25);
    register.save(third, None, &signable(), stamp).unwrap();
    signed(&mut register, third, 1, -30);
    register.save(fourth, None, &drafts[1], stamp).unwrap();
    register
        .save(first, Some(2), &signable_aimed_at(-20), stamp)
        .unwrap();
    fingerprints
}

/// An answer, or nothing if it was refused. That there is no such case, revision or sheet is an answer.
fn answer<T: Debug>(asked: Result<T, RegisterError>) -> Option<String> {
    match asked {
        Ok(answer) => Some(format!("{answer:?}")),
        Err(RegisterError { fault, .. }) => match fault {
            Fault::NoSuchCase
            | Fault::ManyCases { .. }
            | Fault::NoSuchRevision { .. }
            | Fault::NoSuchSheet { .. } => Some(format!("{fault:?}")),
            _ => None,
        },
    }
}

fn searched(register: &Register, note: &mut impl FnMut(String, Option<String>)) {
    for typed in [
        "okonjo",
        "oko",
        "sluice ida",
        "weir",
        "hn",
        "40-22",
        "410007",
        "17/a",
        "nobody",
    ] {
        note(
            format!("search {typed}"),
            answer(register.search(typed, Window::ALL)),
        );
        note(
            format!("found {typed}"),
            answer(register.count_found(typed)),
        );
    }
}

/// Everything that can be asked, with its answer.
pub(crate) fn answers(
    register: &Register,
    fingerprints: &[Fingerprint],
) -> Vec<(String, Option<String>)> {
    let mut all = Vec::new();
    let mut note = |what: String, answer| all.push((what, answer));
    note("count".into(), answer(register.count()));
    note(
        "list".into(),
        answer(register.list(Cases::InUse, Window::ALL)),
    );
    for offset in 0..5 {
        let window = Window { offset, limit: 1 };
        note(
            format!("list {offset}"),
            answer(register.list(Cases::InUse, window)),
        );
    }
    for day in ["2026-12-03", "2026-12-04"] {
        note(
            format!("on {day}"),
            answer(register.on(day.parse().unwrap())),
        );
    }
    searched(register, &mut note);
    // A number of the register under another name: no flip may hide whose it is.
    let patient = Patient {
        name: Some("Somebody, Else".to_owned()),
        number: Some("40-2291".to_owned()),
        ..Patient::default()
    };
    let other = CaseId::from_bytes([0x55; 16]);
    note(
        "others".into(),
        answer(register.other_cases(&patient, other)),
    );
    let typed = ["40-2291", "41-0007", "HN 17/A", "41-0008", "7zzzzz"].map(str::to_owned);
    let names = cases().map(|case| case.to_string());
    let short = cases().map(CaseId::short);
    for typed in typed.iter().chain(&names).chain(&short) {
        note(format!("find {typed}"), answer(register.find(typed)));
    }
    let unknown = CaseId::from_bytes([0x55; 16]);
    for case in cases().into_iter().chain([unknown]) {
        note(format!("load {case:?}"), answer(register.load(case)));
        note(format!("history {case:?}"), answer(register.history(case)));
        note(format!("sheets {case:?}"), answer(register.sheets_of(case)));
        for number in 0..5 {
            let revision = register.load_revision(case, number);
            note(format!("load {case:?} {number}"), answer(revision));
        }
    }
    let all_changed = register.changed_since(Sequence::START);
    note("changed".into(), answer(all_changed));
    let unknown = Fingerprint::from_bytes([0x55; 32]);
    for fingerprint in fingerprints.iter().copied().chain([unknown]) {
        let short = PrintedFingerprint::Short(fingerprint.short());
        for printed in [PrintedFingerprint::Full(fingerprint), short] {
            note(
                format!("verify {printed:?}"),
                answer(register.verify(&printed)),
            );
        }
    }
    for number in 1..5 {
        let number = SheetNumber::new(number).unwrap();
        note(
            format!("signed {number:?}"),
            answer(register.signed(number)),
        );
    }
    all
}

/// A small register that is flipped and put right again, in place.
pub(crate) struct Flipped {
    directory: tempfile::TempDir,
    path: PathBuf,
    file: File,
    sound: Vec<u8>,
    fingerprints: Vec<Fingerprint>,
    truth: Vec<(String, Option<String>)>,
}

impl Flipped {
    pub(crate) fn new() -> Self {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("register.sqlite3");
        let fingerprints = small(&path);
        let truth = answers(&Register::open(&path).unwrap(), &fingerprints);
        for (what, answer) in &truth {
            assert!(answer.is_some(), "{what}");
        }
        let file = OpenOptions::new()
            .read(true)
            .write(true)
            .open(&path)
            .unwrap();
        let sound = fs::read(&path).unwrap();
        Self {
            directory,
            path,
            file,
            sound,
            fingerprints,
            truth,
        }
    }

    fn bits(&self) -> u64 {
        8 * u64::try_from(self.sound.len()).unwrap()
    }

    fn put(&mut self, at: usize, byte: u8) {
        let place = SeekFrom::Start(u64::try_from(at).unwrap());
        self.file.seek(place).unwrap();
        self.file.write_all(&[byte]).unwrap();
    }

    /// Flips one bit, asks everything, and puts the file right: which answers were wrong, and whether
    /// anything was refused.
    fn flip(&mut self, bit: u64) -> (Vec<String>, bool) {
        let at = usize::try_from(bit / 8).unwrap();
        self.put(at, self.sound[at] ^ (1 << (bit % 8)));
        let told = match Register::open_existing(&self.path) {
            Err(_) => (Vec::new(), true),
            Ok(mut register) => {
                let (mut wrong, refused) = self.wrong(&register);
                // Whoever is told of damage and checks is told what it is.
                if refused && check_passes(&mut register) {
                    wrong.push("check".to_owned());
                }
                (wrong, refused)
            }
        };
        self.put(at, self.sound[at]);
        self.put_right();
        told
    }

    fn wrong(&self, register: &Register) -> (Vec<String>, bool) {
        let found = answers(register, &self.fingerprints);
        let mut wrong = Vec::new();
        let mut refused = false;
        for ((what, truth), (_, found)) in self.truth.iter().zip(found) {
            match found {
                None => refused = true,
                Some(found) if Some(&found) != truth.as_ref() => wrong.push(what.clone()),
                Some(_) => {}
            }
        }
        (wrong, refused)
    }

    /// Also if the program wrote to it, or left something beside it.
    fn put_right(&mut self) {
        let mut bytes = Vec::new();
        self.file.seek(SeekFrom::Start(0)).unwrap();
        self.file.read_to_end(&mut bytes).unwrap();
        if bytes != self.sound {
            self.file.set_len(0).unwrap();
            self.file.seek(SeekFrom::Start(0)).unwrap();
            self.file.write_all(&self.sound).unwrap();
        }
        for entry in fs::read_dir(self.directory.path()).unwrap() {
            let path = entry.unwrap().path();
            if path != self.path {
                fs::remove_file(path).unwrap();
            }
        }
    }
}

fn check_passes(register: &mut Register) -> bool {
    let report = register.check(&mut |_| std::ops::ControlFlow::Continue(()));
    report.is_ok_and(|report| report.problems.is_empty())
}

/// Which pages hold nothing but the rest of a long body.
fn body_pages(path: &Path) -> Vec<u64> {
    let connection = Connection::open(path).unwrap();
    let mut statement = connection
        .prepare("SELECT pageno - 1 FROM dbstat WHERE pagetype = 'overflow'")
        .unwrap();
    let pages = statement.query_map([], |row| row.get::<_, i64>(0)).unwrap();
    pages
        .map(|page| page.unwrap().try_into().unwrap())
        .collect()
}

/// The bits to flip.
fn chosen(register: &Flipped) -> Vec<u64> {
    let asked = std::env::var("MILLRACE_FLIPS").ok();
    let asked: Option<usize> = asked.map(|stride| stride.parse().unwrap());
    let bodies = body_pages(&register.path);
    let of = |is_body: bool, stride: usize| {
        let bits = (0..register.bits()).filter(|bit| bodies.contains(&(bit / PAGE)) == is_body);
        bits.step_by(stride).collect::<Vec<_>>()
    };
    let mut bits = of(false, asked.unwrap_or(STRIDE));
    bits.extend(of(true, asked.unwrap_or(STRIDE_OF_BODIES)));
    bits
}

#[test]
fn no_flipped_bit_changes_an_answer_silently() {
    let mut register = Flipped::new();
    let (mut flips, mut reported, mut silent) = (0, 0, Vec::new());
    for bit in chosen(&register) {
        let (wrong, refused) = register.flip(bit);
        flips += 1;
        reported += u32::from(refused && wrong.is_empty());
        if !wrong.is_empty() {
            silent.push((bit / 8, bit % 8, wrong));
        }
    }
    println!(
        "{flips} flips of {} bits: {reported} reported, {} answered wrongly",
        register.bits(),
        silent.len()
    );
    assert!(
        silent.is_empty(),
        "{} flips: {:#?}",
        silent.len(),
        &silent[..silent.len().min(20)]
    );
}
