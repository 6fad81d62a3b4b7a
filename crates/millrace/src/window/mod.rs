//! The window around the desk: clock, store, files, and nothing that plans.

mod app;
mod day;
mod demo;
mod dialogs;
mod files;
mod front;
mod icon;
mod kept;
mod left_behind;
mod list;
mod outside;
mod press;
mod register_store;
mod sheets;
#[cfg(all(test, target_os = "linux"))]
#[expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "evidence fails loudly, in helpers as in tests"
)]
mod testing;
mod watch;
mod worker;

use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use eframe::NativeOptions;
use egui::ViewportBuilder;
use front::Front;
pub(crate) use kept::Kept;
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_desk::exchange::Keeps;
use millrace_desk::settings::Settings;
use millrace_desk::whereabouts::Whereabouts;
use millrace_wording::command_line::failed;
use millrace_wording::{Language, Words, window as say};
use register_store::{RegisterStore, plain};

use crate::REFUSED;
use crate::failure::Failure;
use crate::register::Place;
use crate::terminal::tell;

/// Smallest window the desk is laid out for, in points.
const SMALLEST: [f32; 2] = [1100.0, 720.0];
const FIRST: [f32; 2] = [1280.0, 820.0];

/// What the desk opens on.
pub(crate) enum Opening {
    Register(PathBuf),
    /// The invented ones; nothing is kept.
    Demo,
}

impl Opening {
    /// The person's own register, also for the way back from the demo.
    fn own(&self) -> Option<PathBuf> {
        match self {
            Self::Register(path) => Some(path.clone()),
            Self::Demo => Place(None).path().ok(),
        }
    }

    const fn register(&self) -> Option<&PathBuf> {
        match self {
            Self::Register(path) => Some(path),
            Self::Demo => None,
        }
    }
}

/// What the desk is opened with.
struct World {
    store: RegisterStore,
    /// Where settings are kept; nowhere for the demo.
    kept: Option<Kept>,
    lenses: Vec<LensRecord>,
    keeps: Keeps,
    limits: Limits,
    settings: Settings,
    /// Where the desk is when it opens.
    first: Whereabouts,
}

impl World {
    fn open(opening: &Opening, words: Words) -> Result<Self, Failure> {
        let mut world = Self::of(opening, words)?;
        if words.language != Language::default() {
            world.settings.words.language = words.language;
        }
        Ok(world)
    }

    fn of(opening: &Opening, words: Words) -> Result<Self, Failure> {
        let path = match opening {
            Opening::Demo => {
                return Self::demo(words).map_err(Failure::Window);
            }
            Opening::Register(path) => path,
        };
        let kept = Kept::beside(path);
        let refused = Failure::Window;
        Ok(Self {
            keeps: Keeps::Everything,
            lenses: kept.lenses(words).map_err(refused)?,
            limits: kept.limits(words).map_err(refused)?,
            settings: kept.settings(words).map_err(refused)?,
            first: kept.last().whereabouts,
            kept: Some(kept),
            // Last: where anything is refused, no register is begun.
            store: RegisterStore::open(path)?,
        })
    }

    fn demo(words: Words) -> Result<Self, String> {
        let store = demo::store(words)?;
        Ok(Self {
            first: demo::first_look(&store),
            store,
            keeps: Keeps::Nothing,
            kept: None,
            lenses: demo::lenses().map_err(plain(words))?,
            limits: Limits::shipped().clone(),
            settings: Settings::default(),
        })
    }
}

/// Opens the desk until it is closed; in this language, where one was asked for. Where it cannot be opened, a
/// window says why: who starts it from a menu reads no terminal.
pub(crate) fn run(opening: Opening, words: Words) -> Result<ExitCode, Failure> {
    let last = opening.register().map(|path| Kept::beside(path).last());
    let size = last.and_then(|last| last.size).unwrap_or(FIRST);
    let viewport = ViewportBuilder::default()
        .with_app_id("millrace")
        .with_title("Millrace")
        .with_icon(icon::icon())
        .with_min_inner_size(SMALLEST.map(|points| points / 2.0))
        .with_inner_size(size);
    let options = NativeOptions {
        viewport,
        system_font_fallback: false,
        ..NativeOptions::default()
    };
    let stopped = Arc::new(AtomicBool::new(false));
    let told = Arc::clone(&stopped);
    eframe::run_native(
        "millrace",
        options,
        Box::new(move |context| {
            // Only in a window: where none opens, no register is begun.
            let opened = World::open(&opening, words);
            if let Err(failure) = &opened {
                tell(failed(words, failure));
            }
            millrace_desk::theme::install(&context.egui_ctx);
            let front = Front::new(&context.egui_ctx, (opening, words), opened, told)?;
            Ok(Box::new(front))
        }),
    )
    .map_err(|error| Failure::Window(plainly(&error, words)))?;
    Ok(if stopped.load(Ordering::Relaxed) {
        ExitCode::from(REFUSED)
    } else {
        ExitCode::SUCCESS
    })
}

/// The usual reason in plain words; the library's own texts name its source files.
fn plainly(error: &eframe::Error, words: Words) -> String {
    match error {
        eframe::Error::WinitEventLoop(_) => say::no_display(words).to_owned(),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_desk_that_is_refused_begins_no_register() {
        let directory = tempfile::tempdir().unwrap();
        let register = directory.path().join("register.sqlite3");
        for name in ["lenses.ron", "limits.ron", "settings.ron"] {
            let file = directory.path().join(name);
            std::fs::write(&file, "(half").unwrap();
            let opening = Opening::Register(register.clone());
            assert!(World::open(&opening, Words::ENGLISH).is_err(), "{name}");
            std::fs::remove_file(&file).unwrap();
            let left = std::fs::read_dir(directory.path()).unwrap();
            assert_eq!(left.count(), 0, "{name}");
        }
    }
}
