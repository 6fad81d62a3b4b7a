//! How a person likes the desk, and how a surgeon usually plans, as stored.

use millrace_core::astigmatism::IncisionEffect;
use millrace_core::calendar::Day;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::quantity::HundredthDiopters;
use millrace_desk::settings::{OwnWays, PaperSize, Settings, TextSize, ThemeChoice};
use millrace_wording::{DecimalSign, Language, Show as _, Words, window as say};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Liked {
    author: String,
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
    formulas: Vec<String>,
    convention: Option<Proposed>,
    phaco_incision: Option<Incision>,
    small_incision: Option<Incision>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Proposed {
    FirstMyopic,
    FirstHyperopic,
    Nearest,
}

const CONVENTIONS: [(Convention, Proposed); 3] = [
    (Convention::FirstMyopic, Proposed::FirstMyopic),
    (Convention::FirstHyperopic, Proposed::FirstHyperopic),
    (Convention::Nearest, Proposed::Nearest),
];

/// Effect of an incision; powers in hundredths of a diopter.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Incision {
    flattening_hundredths: i32,
    scatter_hundredths: i32,
    eyes: u32,
    on: Option<Day>,
}

impl Liked {
    pub(super) fn from_settings(settings: &Settings) -> Self {
        let own = &settings.own;
        Self {
            author: settings.author.clone(),
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
                formulas: own
                    .formulas
                    .iter()
                    .map(|formula| formula.name().to_owned())
                    .collect(),
                convention: own.convention.and_then(|mine| {
                    let mut pairs = CONVENTIONS.into_iter();
                    pairs
                        .find_map(|(convention, proposed)| (convention == mine).then_some(proposed))
                }),
                phaco_incision: own.phaco_incision.map(Incision::from_effect),
                small_incision: own.small_incision.map(Incision::from_effect),
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
            own: self.own.into_ways(words)?,
        })
    }
}

impl Own {
    fn into_ways(self, words: Words) -> Result<OwnWays, String> {
        let formulas = self.formulas.iter().map(|name| {
            let mut known = Formula::ALL.into_iter();
            known
                .find(|formula| formula.name() == name)
                .ok_or_else(|| say::no_such_formula(words, name))
        });
        let effect = |it: Option<Incision>| it.map(|it| it.into_effect(words)).transpose();
        Ok(OwnWays {
            formulas: formulas.collect::<Result<_, _>>()?,
            convention: self.convention.map(|stored| match stored {
                Proposed::FirstMyopic => Convention::FirstMyopic,
                Proposed::FirstHyperopic => Convention::FirstHyperopic,
                Proposed::Nearest => Convention::Nearest,
            }),
            phaco_incision: effect(self.phaco_incision)?,
            small_incision: effect(self.small_incision)?,
        })
    }
}

impl Incision {
    fn from_effect(effect: IncisionEffect) -> Self {
        Self {
            flattening_hundredths: effect.flattening().hundredths(),
            scatter_hundredths: effect.scatter().hundredths(),
            eyes: effect.eyes(),
            on: effect.on().map(Day),
        }
    }

    fn into_effect(self, words: Words) -> Result<IncisionEffect, String> {
        let [flattening, scatter] =
            [self.flattening_hundredths, self.scatter_hundredths].map(HundredthDiopters::new);
        let on = self.on.map(|day| day.0);
        IncisionEffect::new(flattening, scatter, self.eyes, on)
            .map_err(|error| error.show(words).into_owned())
    }
}
