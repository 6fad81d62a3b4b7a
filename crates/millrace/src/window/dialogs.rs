//! Choosing files, on a thread of its own: a dialog stops nothing.

use std::path::PathBuf;
use std::thread;

use crossbeam_channel::{Receiver, Sender, unbounded};
use millrace_desk::exchange::{Place, Request, SheetUse};
use millrace_wording::{Words, window as say};

/// Dialogs that are open, and the requests whose place was chosen in one.
pub(crate) struct Dialogs {
    sender: Sender<Request>,
    chosen: Receiver<Request>,
}

impl Dialogs {
    pub(crate) fn new() -> Self {
        let (sender, chosen) = unbounded();
        Self { sender, chosen }
    }

    /// Requests that lack nothing now.
    pub(crate) fn chosen(&self) -> Vec<Request> {
        self.chosen.try_iter().collect()
    }

    /// Lets the person choose the place of a request; nothing comes of it if they do not.
    pub(crate) fn choose(
        &self,
        (mut request, words): (Request, Words),
        wake: impl FnOnce() + Send + 'static,
    ) {
        let sender = self.sender.clone();
        thread::spawn(move || {
            if let Some(path) = pick(&request, words)
                && let Some(place) = request.place_mut()
            {
                *place = Place::Chosen(path);
                let _ = sender.send(request);
                wake();
            }
        });
    }
}

fn pick(request: &Request, words: Words) -> Option<PathBuf> {
    let dialog = rfd::FileDialog::new();
    match request {
        Request::ImportFile(_) => {
            let dialog = dialog.add_filter(say::case_files(words), &["ron"]);
            dialog.set_title(say::open_case(words)).pick_file()
        }
        Request::ExportFile(..) => {
            let dialog = dialog.add_filter(say::case_files(words), &["ron"]);
            let dialog = dialog.set_title(say::write_case(words));
            dialog.set_file_name("case.ron").save_file()
        }
        Request::ReadLenses(_) => {
            let dialog = dialog.add_filter(say::lens_files(words), &["ron"]);
            dialog.set_title(say::open_lenses(words)).pick_file()
        }
        Request::WriteLenses(..) => {
            let dialog = dialog.add_filter(say::lens_files(words), &["ron"]);
            let dialog = dialog.set_title(say::write_lenses(words));
            dialog.set_file_name("lens-records.ron").save_file()
        }
        Request::Sheet(SheetUse::Write(_), _) => {
            let dialog = dialog.add_filter("PDF", &["pdf"]);
            let dialog = dialog.set_title(say::write_sheet(words));
            dialog.set_file_name("sheet.pdf").save_file()
        }
        Request::WriteDay(..) => {
            let dialog = dialog.set_title(say::folder_of_day(words));
            dialog.pick_folder()
        }
        _ => None,
    }
}
