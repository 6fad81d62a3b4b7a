//! The pages as they print: pictures of the very document that becomes the file.

use egui::{ColorImage, Stroke, StrokeKind, TextureHandle, TextureOptions, Ui, vec2};
use millrace_wording::desk::sheet as say;

use super::SheetView;
use crate::exchange::{PagePicture, PagesOf, SheetUse, Which};
use crate::message::Message;
use crate::theme::{Palette, measures};
use crate::widgets::{muted, problem, section};
use crate::words::in_use;

/// The pictures at hand and what was asked for.
#[derive(Default)]
pub(crate) struct Preview {
    asked: Option<PagesOf>,
    arrived: Option<PagesOf>,
    fresh: Vec<PagePicture>,
    pages: Vec<TextureHandle>,
    problem: Option<String>,
}

impl Preview {
    /// Takes the pictures of a sheet in, or why there are none; those nobody waits for any more are
    /// left alone.
    pub(crate) fn take(&mut self, of: PagesOf, pages: Result<Vec<PagePicture>, String>) {
        if self.asked.take_if(|asked| *asked == of).is_none() {
            return;
        }
        self.arrived = Some(of);
        self.pages = Vec::new();
        (self.fresh, self.problem) = match pages {
            Ok(pages) => (pages, None),
            Err(why) => (Vec::new(), Some(why)),
        };
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

    /// Shows the pages at hand; asks for those of another state.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        view: &SheetView<'_>,
        which: Which,
    ) -> Option<Message> {
        let words = in_use(ui);
        section(ui, say::as_it_prints(words));
        let wanted = PagesOf {
            case: view.session.case().clone(),
            which,
            version: match which {
                Which::Draft => view.session.version(),
                Which::Signed(_) => 0,
            },
            paper: view.settings.paper,
            words,
        };
        let is_there = self.arrived.as_ref() == Some(&wanted);
        // One state of a sheet at a time, so that quick changes do not queue up.
        let waits = self.asked.as_ref().is_some_and(|it| it.which == which);
        let asks = (!is_there && !waits).then(|| {
            self.asked = Some(wanted.clone());
            view.ask(which, SheetUse::Show(wanted))
        });
        self.textures(ui);
        // The pages of another sheet are never drawn in place of these.
        let is_of_it = self.arrived.as_ref().is_some_and(|it| it.which == which);
        if !is_there {
            let text = if is_of_it {
                say::being_set_anew(words)
            } else {
                say::being_set(words)
            };
            muted(ui, text);
        }
        if is_of_it {
            if let Some(why) = &self.problem {
                problem(ui, why);
            }
            paint(ui, &self.pages);
        }
        asks
    }
}

fn paint(ui: &mut Ui, pages: &[TextureHandle]) {
    let width = ui.available_width().min(820.0);
    for (index, page) in pages.iter().enumerate() {
        let [across, down] = page.size();
        let aspect = ratio(down, across);
        let size = vec2(width, width * aspect);
        let response = ui.image((page.id(), size));
        let name = say::page_of(in_use(ui), index + 1, pages.len());
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Image, true, &name));
        // White on white has no edge.
        let edge = Stroke::new(1.0, Palette::current(ui).outline);
        ui.painter()
            .rect_stroke(response.rect, 0.0, edge, StrokeKind::Inside);
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
