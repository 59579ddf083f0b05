//! `knotwright explain`

use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_checker::rules;

/// Explain a rule: what it means, why it matters, an example, and how to fix it; without a name, list all rules
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright explain\n  knotwright explain set-does-not-close")]
pub(crate) struct ExplainArguments {
    /// The name of a rule, as shown in brackets in a report
    rule: Option<String>,
}

pub(crate) fn run(typed: &ExplainArguments, terminal: &Terminal) -> CommandResult {
    let text = match &typed.rule {
        None => list(),
        Some(name) => rules::named(name).map(rules::write_page).ok_or_else(|| unknown(name))?,
    };
    let mut out = terminal.out();
    out.write(&text)?;
    out.flush()?;
    Ok(Exit::Clean)
}

fn unknown(name: &str) -> Failure {
    let names: Vec<&str> = rules::all().iter().map(|rule| rule.name).collect();
    match similar::get_close_matches(name, &names, 1, 0.7).first() {
        Some(nearest) => Failure::said(format_args!("there is no rule `{name}`; did you mean `{nearest}`?")),
        None => Failure::said(format_args!("there is no rule `{name}`; `knotwright explain` lists them all")),
    }
}

fn list() -> String {
    let width = rules::all().iter().map(|rule| rule.name.len()).max().unwrap_or_default();
    rules::all().iter().map(|rule| format!("{:width$}  {}\n", rule.name, rule.summary)).collect()
}
