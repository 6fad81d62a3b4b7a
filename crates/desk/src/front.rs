//! What may stand in front of the pages: the settings, and a second look, during which nothing on
//! the desk shows a first number.

use egui::Ui;

use crate::desk::Desk;
use crate::exchange::{Request, SheetRequest};
use crate::frame::Action;
use crate::open_case::view;
use crate::pages::second_look;
use crate::pages::settings::{SettingsView, settings_page};
use crate::pages::sheet::{self, SheetAsk, SheetView};
use crate::session::SaveState;
use crate::widgets::waiting;

/// What stands in front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Front {
    /// A page of the case.
    Page,
    /// The second look at its critical numbers.
    SecondLook,
    /// The settings.
    Settings,
}

impl Desk {
    /// Whether a second look is being taken: then nothing on the desk may show a first number.
    pub(crate) fn is_blind(&self) -> bool {
        let open = self.open.as_ref();
        self.front == Front::SecondLook
            && open.is_some_and(|open| {
                let draft = open.session.draft();
                open.pages.second_look.is_being_taken(draft)
            })
    }

    /// Leaves out what would change the case behind the page in front: there undo belongs to the
    /// settings, and to nothing during a second look.
    pub(crate) fn only_for_the_front(&mut self, actions: &mut Vec<Action>) {
        if self.front == Front::Settings {
            let asked = actions.contains(&Action::Undo);
            self.settings_state.asks_to_undo |= asked;
            actions.retain(|action| !matches!(action, Action::Undo | Action::Redo));
        }
        if self.is_blind() {
            actions.retain(|action| {
                use Action::{NextPanel, Redo, Search, ShowSide, Undo};
                !matches!(action, Undo | Redo | Search | NextPanel | ShowSide(_))
            });
        }
    }

    /// Shows the settings.
    pub(crate) fn settings_in_front(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let view = SettingsView {
            settings: &self.settings,
            around: &self.around,
        };
        // Their fields belong to no case.
        waiting::belong_to(ui.ctx(), None);
        actions.extend(settings_page(ui, &view, &mut self.settings_state));
    }

    /// Shows the Sheet page of the open case.
    pub(crate) fn sheet_in_front(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let waiting = self.waiting(ui.ctx());
        let Some(open) = &mut self.open else {
            return;
        };
        let sheet_view = SheetView {
            case: view(&open.session, &self.around, &self.settings),
            is_saved: open.session.save_state() == SaveState::Saved,
            waiting: &waiting,
            of_case: open.session.case(),
            version: open.session.version(),
            settings: &self.settings,
        };
        let asked = sheet::sheet_page(ui, &sheet_view, &mut open.pages.sheet);
        actions.extend(asked.actions);
        let case = open.session.case().clone();
        let limits = Box::new(self.around.limits.clone());
        for ask in asked.asks {
            let set = |which| SheetRequest {
                which,
                draft: Box::new(open.session.draft().clone()),
                limits: limits.clone(),
                paper: self.settings.paper,
            };
            self.requests.push(match ask {
                SheetAsk::List => Request::ListSheets(case.clone()),
                SheetAsk::Sign { role, target } => Request::Sign {
                    case: case.clone(),
                    seen: open.session.revision().clone(),
                    name: self.settings.author.clone(),
                    role,
                    target,
                    limits: limits.clone(),
                },
                SheetAsk::Show(of) => {
                    let sheet = set(of.which);
                    Request::ShowSheet(of, sheet)
                }
                SheetAsk::Write(which, place) => Request::WriteSheet(set(which), place),
                SheetAsk::View(which) => Request::ViewSheet(set(which)),
                SheetAsk::Print(which) => Request::PrintSheet(set(which)),
            });
        }
        for command in asked.commands {
            open.session.apply(command, &self.around.limits);
        }
    }

    /// Shows the second look at the open case.
    pub(crate) fn second_look_in_front(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let Some(open) = &mut self.open else {
            return;
        };
        let view = view(&open.session, &self.around, &self.settings);
        let asked = second_look::second_look_page(ui, &view, &mut open.pages.second_look);
        if asked.leaves {
            actions.push(Action::ShowSecondLook);
        }
        if let Some(command) = asked.command {
            open.session.apply(command, &self.around.limits);
        }
    }
}
