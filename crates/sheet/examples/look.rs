//! Draws pages of demo cases to look at: `cargo run -p millrace-sheet --example look -- OUT CASE.ron …`
use std::path::Path;

use millrace_core::case_file;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_sheet::{Paper, Setting, Sheet, Template};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let out = arguments.next().ok_or("OUT")?;
    for case in arguments {
        let draft = case_file::read(&std::fs::read_to_string(&case)?)?;
        let plan = Plan::of(&draft, Limits::shipped())?;
        let template = Template::shipped();
        let setting = Setting { paper: Paper::A4, template: &template };
        let sheet = Sheet::draft(&draft, (&plan, Limits::shipped()), "2026-12-01T10:00:00Z".parse()?, setting)?;
        let name = Path::new(&case).file_stem().ok_or("name")?.to_string_lossy().into_owned();
        std::fs::write(format!("{out}/{name}.pdf"), sheet.pdf()?)?;
        for (index, page) in sheet.pages(2.0).into_iter().enumerate() {
            image::save_buffer(format!("{out}/{name}-{}.png", index + 1), &page.rgba, page.width, page.height, image::ExtendedColorType::Rgba8)?;
        }
        for pair in sheet.overlaps() { println!("{name}: {:?}", pair.map(|p| (p.text, p.bounds))); }
        println!("{name}: {} pages", sheet.page_count());
    }
    Ok(())
}
