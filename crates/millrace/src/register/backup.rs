//! `millrace register backup`.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::ExitCode;

use millrace_register::Register;

use super::{print, progress_bar};
use crate::failure::Failure;

pub(crate) fn run(path: &Path, file: &Path) -> Result<ExitCode, Failure> {
    let register = Register::open_existing(path)?;
    let bar = progress_bar("pages");
    register.backup(file, &mut |pages| {
        bar.set_length(pages.total);
        bar.set_position(pages.done);
        ControlFlow::Continue(())
    })?;
    bar.finish_and_clear();
    print(&format!("copied and read back: {}\n", file.display()))?;
    Ok(ExitCode::SUCCESS)
}
