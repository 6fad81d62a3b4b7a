//! Draws pages of cases to look at: `cargo run -p millrace-sheet --example look -- OUT CASE.ron …`.
//! A case that can be signed is; every open finding gets a reason, as a person would record one.

#![expect(
    clippy::too_many_lines,
    clippy::print_stdout,
    reason = "a tool at the developer's terminal, read from top to bottom"
)]

use std::path::Path;

use millrace_core::case_file;
use millrace_sheet::{Paper, Setting, Sheet, Template};
use millrace_wording::Words;

#[allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "it belongs to the tests, and this takes what it needs of it"
)]
#[path = "../tests/suite/support/mod.rs"]
mod support;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let out = arguments.next().ok_or("say where to")?;
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    let mut drafts = Vec::new();
    for case in arguments {
        if case == "full" {
            let full = support::hard::full_theatre(support::case("ordinary-eye"));
            let plan = support::signed(&full).map_err(|found| format!("{found:?}"))?;
            let letter = Setting {
                paper: Paper::Letter,
                template: &template,
                words: Words::ENGLISH,
            };
            save(&Sheet::signed(&plan, letter)?, Path::new(&out), "letter")?;
            let plans: Vec<_> = support::cases()
                .iter()
                .filter_map(|(_, draft)| support::signed(draft).ok())
                .collect();
            let page = Sheet::list_page(
                (&plans, &[]),
                (support::date(2026, 12, 3), "2026-12-02T18:00:00Z".parse()?),
                setting,
            )?;
            save(&page, Path::new(&out), "list")?;
            let draft = support::case("hard-and-shallow");
            let sheet = Sheet::draft(
                &support::document(&draft),
                "2026-12-01T10:00:00Z".parse()?,
                setting,
            )?;
            save(&sheet, Path::new(&out), "draft")?;
            continue;
        }
        if case == "hard" {
            drafts.push(("toric-and-hard".to_owned(), support::hard::toric_and_hard()));
            drafts.push(("thirty".to_owned(), support::hard::thirty_findings()));
            for (name, text) in support::hard::NAMES {
                drafts.push((name.to_owned(), support::hard::named(text)));
            }
            continue;
        }
        let draft = case_file::read(&std::fs::read_to_string(&case)?)?;
        let name = Path::new(&case)
            .file_stem()
            .ok_or("a name")?
            .to_string_lossy()
            .into_owned();
        drafts.push((name, draft));
    }
    for (name, draft) in drafts {
        let sheet = match support::signed(&draft) {
            Ok(signed) => Sheet::signed(&signed, setting)?,
            Err(obstacles) => {
                println!("{name}: {obstacles:?}");
                Sheet::draft(
                    &support::document(&draft),
                    "2026-12-01T10:00:00Z".parse()?,
                    setting,
                )?
            }
        };
        save(&sheet, Path::new(&out), &name)?;
        for pair in sheet.overlaps() {
            println!("{name}: {:?}", pair.map(|text| (text.text, text.bounds)));
        }
        println!("{name}: {} pages", sheet.page_count());
    }
    Ok(())
}

/// Writes the PDF and a picture of each page.
fn save(sheet: &Sheet, out: &Path, name: &str) -> Result<(), Box<dyn std::error::Error>> {
    std::fs::write(out.join(format!("{name}.pdf")), sheet.pdf()?)?;
    for (index, page) in sheet.pages(2.0).into_iter().enumerate() {
        image::save_buffer(
            out.join(format!("{name}-{}.png", index + 1)),
            &page.rgba,
            page.width,
            page.height,
            image::ExtendedColorType::Rgba8,
        )?;
    }
    Ok(())
}
