//! What others define: the schemas of reports and of files for GitHub, GitLab and pre-commit. Not a part of
//! `cargo xtask test`, as the tools take minutes to install the first time.

mod files;
mod hooks;
mod reports;
mod tools;

use crate::run::{build, program};

pub(crate) fn validate() -> Result<(), String> {
    let tools = tools::ValidateTools::install()?;
    build()?;
    let program = std::path::PathBuf::from(program());
    files::validate(&tools)?;
    reports::validate(&tools, &program)?;
    hooks::validate(&tools, &program)
}
