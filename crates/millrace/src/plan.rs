//! `millrace plan`.

use std::process::ExitCode;

use millrace_core::document::PlanDocument;
use millrace_core::plan::Plan;

use crate::cli::{Format, PlanArguments};
use crate::failure::{Failure, read_limits};
use crate::plan_text::Extent;
use crate::register::{PROGRAM, json};
use crate::terminal::print;
use crate::{Around, STOPPED, named_case, page, plan_text, recompute};

pub(crate) fn run(arguments: &PlanArguments, around: &Around) -> Result<ExitCode, Failure> {
    let path = match (&arguments.case, arguments.recompute) {
        (_, Some(number)) => return recompute::run(number, arguments, around),
        (Some(path), None) => path,
        (None, None) => return Err(Failure::NoCase),
    };
    let draft = named_case::read(path, around)?;
    let limits = read_limits(arguments.limits.as_deref())?;
    let plan = Plan::of(&draft, &limits).map_err(|error| Failure::Plan {
        path: path.clone(),
        error,
    })?;

    let printed = match arguments.format {
        Format::Text => {
            let width = page::width(arguments.width);
            plan_text::write(&plan, Extent::from(arguments.full), (width, around.words))
        }
        Format::Json => json(&PlanDocument::of(&plan, PROGRAM))?,
    };
    match print(&printed) {
        // A reader that went away early still learns from the status whether a Stop finding stands.
        Err(failure) if !failure.is_closed_pipe() => return Err(failure),
        _ => {}
    }
    Ok(if plan.is_stopped() {
        ExitCode::from(STOPPED)
    } else {
        ExitCode::SUCCESS
    })
}
