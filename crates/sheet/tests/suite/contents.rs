//! What stands on the sheet, read from the finished PDF by a reader that knows nothing of the layout.

use crate::support::{cases, document, reader, sheet, signed};
use millrace_core::biometry::Side;
use millrace_core::rules::{Verdict, by_id};
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Paper, Setting, Sheet, Template};
use millrace_wording::{Show as _, Words};

/// As a sheet must say it.
fn capitals(side: Side) -> &'static str {
    match side {
        Side::Right => "RIGHT EYE",
        Side::Left => "LEFT EYE",
    }
}

/// Without spaces and break places: a word may stand on two lines.
fn close(text: &str) -> String {
    text.chars()
        .filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}')
        .collect()
}

/// The cases of the demo that can be signed; the two others have what the program stops.
fn signable() -> Vec<(String, SignedPlan)> {
    let all: Vec<_> = cases()
        .into_iter()
        .filter_map(|(name, draft)| Some((name, signed(&draft).ok()?)))
        .collect();
    assert_eq!((cases().len(), all.len()), (15, 13));
    all
}

#[test]
fn the_pdf_of_every_demo_case_holds_what_theatre_reads() {
    for (name, plan) in signable() {
        let pdf = sheet(&plan).pdf().unwrap();
        let pages = reader::pages(&pdf);
        let whole = close(&pages.concat());
        let draft = plan.draft();
        let lens = draft.lens.record().unwrap();
        let side = draft.operation.eye.unwrap();
        let mut wanted = vec![
            draft.patient.name.clone().unwrap(),
            draft.patient.number.clone().unwrap(),
            Words::ENGLISH.day(draft.patient.birth_date.unwrap()),
            capitals(side).to_owned(),
            lens.name.clone(),
            lens.model.clone(),
            lens.site.to_string(),
            draft.lens.power().unwrap().to_string(),
            draft.lens.target.unwrap().to_string(),
            plan.signature().name.clone(),
            plan.signature().role.clone(),
            plan.fingerprint().short().to_string(),
            "Sheet 41 supersedes sheet 38".to_owned(),
            "1 Dec 2026, 16:40 UTC".to_owned(),
            "NASAL".to_owned(),
            "TEMPORAL".to_owned(),
            "SUPERIOR".to_owned(),
            "INFERIOR".to_owned(),
            "Not a certified medical device".to_owned(),
        ];
        for (_, lens) in draft.lens.lenses.iter().skip(1) {
            wanted.push(format!("{}, model {}", lens.record.name, lens.record.model));
        }
        if let Some(toric) = draft.lens.toric() {
            wanted.push(format!("cylinder {}", toric.cylinder));
            wanted.push(format!("marks at {}", toric.axis));
        }
        if let Some(direction) = draft.approach.incision_direction {
            wanted.push(format!(
                "{} at {direction}",
                side.sector(direction).show(Words::ENGLISH)
            ));
        }
        for rule in &plan.plan().results.rules {
            let title = by_id(&rule.id).unwrap().title;
            if let Verdict::Finding(finding) = &rule.verdict {
                wanted.push(format!(
                    "{} {} {title}",
                    rule.severity.show(Words::ENGLISH),
                    rule.id
                ));
                wanted.push(finding.show(Words::ENGLISH).into_owned());
                let reason = plan.plan().reason(rule).cloned();
                wanted.extend(reason.map(|recorded| recorded.reason));
            }
            if let Verdict::NotEvaluated(missing) = rule.verdict {
                let missing = missing.show(Words::ENGLISH);
                wanted.push(format!("{} {title}", rule.id));
                wanted.push(format!("{missing} is missing"));
            }
        }
        for text in wanted {
            assert!(whole.contains(&close(&text)), "{name}: {text}");
        }
    }
}

#[test]
fn identity_and_eye_stand_on_every_page() {
    let mut several = 0;
    for (name, plan) in signable() {
        let pages = reader::pages(&sheet(&plan).pdf().unwrap());
        several += usize::from(1 < pages.len());
        let count = pages.len();
        for (index, page) in pages.iter().enumerate() {
            let page = close(page);
            let draft = plan.draft();
            let number = format!("page {} of {count}", index + 1);
            for text in [
                draft.patient.name.as_deref().unwrap(),
                draft.patient.number.as_deref().unwrap(),
                &Words::ENGLISH.day(draft.patient.birth_date.unwrap()),
                capitals(draft.operation.eye.unwrap()),
                &plan.fingerprint().short().to_string(),
                &number,
            ] {
                assert!(page.contains(&close(text)), "{name}, page {index}: {text}");
            }
            let other = capitals(draft.operation.eye.unwrap().other());
            assert!(!page.contains(&close(other)), "{name}: {other}");
        }
    }
    assert!(0 < several, "no case has a second page to look at");
}

/// The largest words, and on the side where that eye is seen, facing the patient.
#[test]
fn the_eye_is_the_largest_and_on_its_side() {
    use millrace_core::biometry::Side;
    let mut seen = Vec::new();
    for (name, plan) in signable() {
        let texts = sheet(&plan).texts();
        let largest = texts
            .iter()
            .max_by(|one, other| one.size.total_cmp(&other.size))
            .unwrap();
        let side = plan.draft().operation.eye.unwrap();
        assert_eq!(close(&largest.text), close(capitals(side)), "{name}");
        // A4 is 595 points wide.
        let [left, _, right, _] = largest.bounds;
        match side {
            Side::Right => assert!(right < 595.0 / 2.0, "{name}: {right}"),
            Side::Left => assert!(595.0 / 2.0 < left, "{name}: {left}"),
        }
        seen.push(side);
    }
    assert!(seen.contains(&Side::Right) && seen.contains(&Side::Left));
}

#[test]
fn every_power_on_the_sheet_has_its_sign_and_no_hyphen_stands_for_minus() {
    for (name, plan) in signable() {
        let whole = reader::pages(&sheet(&plan).pdf().unwrap()).concat();
        let power = plan.draft().lens.power().unwrap().to_string();
        assert!(power.starts_with(['+', '\u{2212}']), "{name}");
        let letters: Vec<char> = whole.chars().collect();
        for three in letters.windows(3) {
            let hyphen = three[0].is_whitespace() && three[1] == '-' && three[2].is_ascii_digit();
            assert!(!hyphen, "{name}: a hyphen before a digit");
        }
    }
}

#[test]
fn a_draft_says_draft_and_no_lens_power_in_the_box() {
    let template = Template::shipped();
    for (name, draft) in cases() {
        for paper in Paper::ALL {
            let setting = Setting {
                paper,
                template: &template,
                words: Words::ENGLISH,
            };
            let at = "2026-12-01T10:00:00Z".parse().unwrap();
            let sheet = Sheet::draft(&document(&draft), at, setting).unwrap();
            let pages = reader::pages(&sheet.pdf().unwrap());
            for page in &pages {
                assert!(close(page).contains("DRAFT,notsigned"), "{name}");
            }
            // Nothing as large as a signed power holds a number of diopters.
            let large: Vec<_> = sheet
                .texts()
                .into_iter()
                .filter(|text| 11.0 <= text.size)
                .collect();
            assert!(large.iter().any(|text| text.text == "DRAFT"), "{name}");
            for text in large {
                assert!(!text.text.ends_with(" D"), "{name}: {}", text.text);
            }
        }
    }
}

#[test]
fn the_same_signed_plan_gives_the_same_bytes() {
    for (name, plan) in signable() {
        let first = sheet(&plan).pdf().unwrap();
        let again = SignedPlan::read(plan.encoded(), plan.fingerprint()).unwrap();
        assert!(sheet(&again).pdf().unwrap() == first, "{name}");
    }
}

/// What the codes on its pages say. `rqrr` has nothing in common with the crate that wrote the code.
pub(crate) fn codes(sheet: &Sheet) -> Vec<String> {
    let pages = 0..sheet.page_count();
    pages.flat_map(|index| code_on(sheet, index)).collect()
}

/// What the codes on one of its pages say.
pub(crate) fn code_on(sheet: &Sheet, index: usize) -> Vec<String> {
    let pages = sheet.page(index, 2.5).into_iter();
    let read = pages.flat_map(|page| {
        let gray = crate::support::gray(&page);
        let mut picture = rqrr::PreparedImage::prepare_from_greyscale(
            gray.width() as usize,
            gray.height() as usize,
            |x, y| gray.as_raw()[y * gray.width() as usize + x],
        );
        let grids = picture.detect_grids();
        grids
            .into_iter()
            .filter_map(|grid| Some(grid.decode().ok()?.1))
            .collect::<Vec<_>>()
    });
    read.collect()
}

#[test]
fn the_code_reads_back_as_the_fingerprint() {
    for (name, plan) in signable() {
        assert_eq!(codes(&sheet(&plan)), [plan.fingerprint().code()], "{name}");
    }
}

/// The claims of the file; that they hold is enforced by the exporter, which refuses to write else.
#[test]
fn the_pdf_is_tagged_and_claims_both_standards() {
    let plan = signed(&crate::support::case("ordinary-eye")).unwrap();
    let pdf = sheet(&plan).pdf().unwrap();
    let document = lopdf::Document::load_mem(&pdf).unwrap();
    let catalog = document.catalog().unwrap();
    assert!(catalog.get(b"StructTreeRoot").is_ok() && catalog.get(b"MarkInfo").is_ok());
    assert_eq!(catalog.get(b"Lang").unwrap().as_str().unwrap(), b"en");
    let metadata = catalog.get(b"Metadata").unwrap().as_reference().unwrap();
    let stream = document.get_object(metadata).unwrap().as_stream().unwrap();
    let text = String::from_utf8(stream.content.clone()).unwrap();
    for claim in [
        "<pdfaid:part>2</",
        "<pdfaid:conformance>A</",
        "<pdfuaid:part>1</",
    ] {
        assert!(text.contains(claim), "{claim}: {text}");
    }
}
