//! How a person likes the desk, and how a surgeon usually plans, as stored.

use millrace_core::astigmatism::IncisionEffect;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_desk::settings::{OwnWays, PaperSize, Settings, TextSize, ThemeChoice, UsualLens};
use millrace_wording::{DecimalSign, Language, Words, window as say};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Liked {
    author: String,
    #[serde(default)]
    desk: String,
    #[serde(default)]
    role: String,
    theme: Theme,
    text_percent: u16,
    decimals: Sign,
    #[serde(default = "english")]
    language: String,
    #[serde(default)]
    paper: Paper,
    #[serde(default)]
    own: Own,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Theme {
    System,
    Light,
    Dark,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Sign {
    Point,
    Comma,
}

#[derive(Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Paper {
    #[default]
    A4,
    Letter,
}

fn english() -> String {
    Language::English.code().to_owned()
}

/// How a surgeon usually plans.
#[derive(Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
struct Own {
    formulas: Vec<Formula>,
    planned_by: Option<Formula>,
    lens: Option<Lens>,
    convention: Option<Convention>,
    phaco_incision: Option<IncisionEffect>,
    small_incision: Option<IncisionEffect>,
}

/// A lens by its name among the clinic's records.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Lens {
    name: String,
    model: String,
}

impl Liked {
    pub(super) fn from_settings(settings: &Settings) -> Self {
        let own = &settings.own;
        Self {
            author: settings.author.clone(),
            desk: settings.desk.clone(),
            role: settings.role.clone(),
            theme: match settings.theme {
                ThemeChoice::System => Theme::System,
                ThemeChoice::Light => Theme::Light,
                ThemeChoice::Dark => Theme::Dark,
            },
            text_percent: settings.text_size.percent(),
            decimals: match settings.words.decimals {
                DecimalSign::Point => Sign::Point,
                DecimalSign::Comma => Sign::Comma,
            },
            language: settings.words.language.code().to_owned(),
            paper: match settings.paper {
                PaperSize::A4 => Paper::A4,
                PaperSize::Letter => Paper::Letter,
            },
            own: Own {
                formulas: own.formulas.clone(),
                planned_by: own.planned_by,
                lens: own
                    .lens
                    .clone()
                    .map(|UsualLens { name, model }| Lens { name, model }),
                convention: own.convention,
                phaco_incision: own.phaco_incision,
                small_incision: own.small_incision,
            },
        }
    }

    pub(super) fn into_settings(self, words: Words) -> Result<Settings, String> {
        let percent = self.text_percent;
        let text_size =
            TextSize::new(percent).ok_or_else(|| say::no_such_text_size(words, percent))?;
        let code = &self.language;
        let language =
            Language::with_code(code).ok_or_else(|| say::no_such_language(words, code))?;
        Ok(Settings {
            author: self.author,
            desk: self.desk,
            role: self.role,
            theme: match self.theme {
                Theme::System => ThemeChoice::System,
                Theme::Light => ThemeChoice::Light,
                Theme::Dark => ThemeChoice::Dark,
            },
            text_size,
            words: Words {
                language,
                decimals: match self.decimals {
                    Sign::Point => DecimalSign::Point,
                    Sign::Comma => DecimalSign::Comma,
                },
            },
            paper: match self.paper {
                Paper::A4 => PaperSize::A4,
                Paper::Letter => PaperSize::Letter,
            },
            own: OwnWays {
                formulas: self.own.formulas,
                planned_by: self.own.planned_by,
                lens: self
                    .own
                    .lens
                    .map(|Lens { name, model }| UsualLens { name, model }),
                convention: self.own.convention,
                phaco_incision: self.own.phaco_incision,
                small_incision: self.own.small_incision,
            },
        })
    }
}
