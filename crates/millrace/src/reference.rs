//! `millrace formulas` and `millrace rules`: the texts of `docs/formulas.md` and `docs/rules.md`.

use std::process::ExitCode;

use millrace_core::reference::{self, FORMULAS};
use millrace_core::rules;

use crate::cli::ReferenceArguments;
use crate::failure::Failure;
use crate::terminal::print;

/// The name of the page on how sure a prediction is, beside those of the formulas.
const UNCERTAINTY: &str = "uncertainty";

pub(crate) fn formulas(arguments: &ReferenceArguments) -> Result<ExitCode, Failure> {
    let text = match &arguments.name {
        None => {
            let sections: Vec<_> = FORMULAS
                .iter()
                .map(reference::FormulaText::section)
                .collect();
            format!(
                "Standing of a number:\n{}\n{}",
                reference::standings(),
                sections.join("\n")
            )
        }
        Some(name) if name == UNCERTAINTY => {
            let lens = millrace_simulate::constants()
                .map_err(|error| Failure::Simulation(error.into()))?;
            reference::uncertainty(lens)
        }
        Some(name) => match FORMULAS.iter().find(|entry| entry.key == name) {
            Some(entry) => entry.section(),
            None => return Err(Failure::NoFormula { name: name.clone() }),
        },
    };
    print(&text)?;
    Ok(ExitCode::SUCCESS)
}

pub(crate) fn rules(arguments: &ReferenceArguments) -> Result<ExitCode, Failure> {
    let text = match &arguments.name {
        None => format!(
            "Standing of a number:\n{}\n{}",
            reference::standings(),
            reference::rules()
        ),
        Some(name) => match rules::by_id(&name.to_uppercase()) {
            Some(rule) => reference::rule_section(rule),
            None => return Err(Failure::NoRule { name: name.clone() }),
        },
    };
    print(&text)?;
    Ok(ExitCode::SUCCESS)
}
