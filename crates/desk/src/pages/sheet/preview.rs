//! The pages as they print: pictures of the very document that becomes the file.

use egui::{Button, ColorImage, TextEdit, TextureHandle, TextureOptions, Ui, vec2};
use millrace_core::signing::SheetNumber;

use super::{Asked, SheetAsk, SheetState, SheetView, Shown};
use crate::exchange::{PagePicture, Place, Which};
use crate::frame::Action;
use crate::settings::{PaperSize, Settings};
use crate::theme::measures;
use crate::widgets::{Segments, minor_button, muted, problem, section};

const PAPERS: [(PaperSize, &str); 2] = [(PaperSize::A4, "A4"), (PaperSize::Letter, "Letter")];

/// The pictures at hand and what was asked for.
#[derive(Default)]
pub(crate) struct Preview {
    asked: Option<Key>,
    arrived: Option<Key>,
    fresh: Vec<PagePicture>,
    pages: Vec<TextureHandle>,
    pub(crate) problem: Option<String>,
}

/// What the pictures are of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Key {
    /// The signed sheet; the draft if none.
    sheet: Option<SheetNumber>,
    /// Of the draft; a signed sheet has none.
    version: u64,
    paper: PaperSize,
}

impl Preview {
    pub(super) fn take(&mut self, pages: Vec<PagePicture>) {
        self.arrived = self.asked.take();
        self.fresh = pages;
        self.problem = None;
    }

    /// No pages: why.
    pub(crate) fn refuse(&mut self, why: String) {
        self.arrived = self.asked.take();
        self.pages = Vec::new();
        self.problem = Some(why);
    }

    fn textures(&mut self, ui: &Ui) {
        if self.fresh.is_empty() {
            return;
        }
        let fresh = core::mem::take(&mut self.fresh);
        let textures = fresh.into_iter().enumerate().map(|(index, page)| {
            let size = [page.width, page.height];
            let image = ColorImage::from_rgba_unmultiplied(size, &page.rgba);
            let name = format!("sheet page {index}");
            ui.ctx().load_texture(name, image, TextureOptions::LINEAR)
        });
        self.pages = textures.collect();
    }
}

pub(super) fn show(ui: &mut Ui, view: &SheetView<'_>, state: &mut SheetState, asked: &mut Asked) {
    section(ui, "As it prints");
    let current = state.sheets.as_ref().and_then(|sheets| sheets.last());
    let shown = match (state.shown, current) {
        (Some(shown), _) => shown,
        (None, Some(sheet)) if sheet.is_current() => Shown::Sheet(sheet.number),
        (None, _) => Shown::Draft,
    };
    let (which, words) = match shown {
        Shown::Draft => (
            Which::Draft,
            "A print of the draft, without a lens power".to_owned(),
        ),
        Shown::Sheet(number) => (Which::Signed(number), format!("Sheet {number}")),
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(words);
        if shown != Shown::Draft && minor_button(ui, "Look at the draft").clicked() {
            state.shown = Some(Shown::Draft);
        }
        let id = view.case.ground.with("paper");
        if let Some(paper) = Segments::new(id, "Paper", &PAPERS, Some(view.settings.paper)).show(ui)
        {
            asked.actions.push(Action::Follow(Settings {
                paper,
                ..view.settings.clone()
            }));
        }
        if ui.button("View…").clicked() {
            asked.asks.push(SheetAsk::View(which));
        }
        if ui.button("Print…").clicked() {
            asked.asks.push(SheetAsk::Print(which));
        }
        if ui.button("Save as…").clicked() {
            state.writes = match state.writes {
                None => Some(String::new()),
                Some(_) => None,
            };
        }
    });
    write_to(ui, which, state, asked);
    pages(ui, view, (shown, which), (&mut state.preview, asked));
}

/// Where the file goes: a path that is typed, or the system's dialog.
fn write_to(ui: &mut Ui, which: Which, state: &mut SheetState, asked: &mut Asked) {
    let Some(path) = &mut state.writes else {
        return;
    };
    let mut place = None;
    ui.horizontal_wrapped(|ui| {
        let field = TextEdit::singleline(path)
            .hint_text("path of the PDF")
            .desired_width(320.0);
        ui.add(field).accessible_name("Path of the PDF");
        let is_named = !path.trim().is_empty();
        if ui.add_enabled(is_named, Button::new("Write")).clicked() {
            place = Some(Place::Path(path.trim().to_owned()));
        }
        if ui.button("Choose…").clicked() {
            place = Some(Place::Dialog);
        }
    });
    if let Some(place) = place {
        state.writes = None;
        asked.asks.push(SheetAsk::Write(which, place));
    }
}

fn pages(
    ui: &mut Ui,
    view: &SheetView<'_>,
    (shown, which): (Shown, Which),
    (preview, asked): (&mut Preview, &mut Asked),
) {
    let wanted = match shown {
        Shown::Draft => Key {
            sheet: None,
            version: view.version,
            paper: view.settings.paper,
        },
        Shown::Sheet(number) => Key {
            sheet: Some(number),
            version: 0,
            paper: view.settings.paper,
        },
    };
    if preview.asked.is_none() && preview.arrived != Some(wanted) {
        preview.asked = Some(wanted);
        asked.asks.push(SheetAsk::Show(which));
    }
    preview.textures(ui);
    if let Some(why) = &preview.problem {
        problem(ui, why);
    }
    if preview.pages.is_empty() && preview.problem.is_none() {
        muted(ui, "The pages are being set…");
    }
    let width = ui.available_width().min(820.0);
    for (index, page) in preview.pages.iter().enumerate() {
        let [across, down] = page.size();
        let aspect = ratio(down, across);
        let size = vec2(width, width * aspect);
        let response = ui.image((page.id(), size));
        let words = format!("Page {} of {} as it prints", index + 1, preview.pages.len());
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Image, true, &words));
        ui.add_space(measures::NEAR);
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "pixels of a page, a few thousand"
)]
fn ratio(down: usize, across: usize) -> f32 {
    down as f32 / across.max(1) as f32
}
