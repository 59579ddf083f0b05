//! What was typed.

use crate::commands;
use crate::terminal::{ColorWish, CommandResult, Failure, Terminal};
use clap::{ColorChoice, CommandFactory, FromArgMatches, Parser, Subcommand};
use std::ffi::OsString;
use std::process::ExitCode;

/// Friendship bracelets as text: tie a pattern before you cut a thread
#[derive(Debug, Parser)]
#[command(name = "knotwright", version, arg_required_else_help = true, subcommand_required = true)]
#[command(
    after_help = "Exit codes: 0, all is well; 1, something to fix in a pattern; 2, a problem with the command line, the settings, \
                  or reading or writing a file."
)]
struct Arguments {
    /// When to use color
    #[arg(long, global = true, value_enum, default_value_t, value_name = "WHEN")]
    color: ColorWish,

    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Check(commands::check::CheckArguments),
    Format(commands::format::FormatArguments),
    Measure(commands::measure::MeasureArguments),
    Kit(commands::kit::KitArguments),
    Plan(commands::plan::PlanArguments),
    Chart(commands::chart::ChartArguments),
    Compare(commands::compare::CompareArguments),
    Review(commands::review::ReviewArguments),
    GitDiff(commands::git_diff::GitDiffArguments),
    Merge(commands::merge::MergeArguments),
    Locate(commands::locate::LocateArguments),
    StartFor(commands::start_for::StartForArguments),
    Draw(commands::draw::DrawArguments),
    Write(commands::write::WriteArguments),
    Sheet(commands::sheet::SheetArguments),
    Gallery(commands::gallery::GalleryArguments),
    Preview(commands::preview::PreviewArguments),
    Refresh(commands::refresh::RefreshArguments),
    Export(commands::export::ExportArguments),
    Explain(commands::explain::ExplainArguments),
    New(commands::new::NewArguments),
    Design(commands::design::DesignArguments),
    Serve(commands::serve::ServeArguments),
    Completions(commands::completions::CompletionsArguments),
    Man(commands::man::ManArguments),
}

impl Command {
    fn run(self, terminal: &Terminal) -> CommandResult {
        match self {
            Self::Check(typed) => commands::check::run(typed, terminal),
            Self::Format(typed) => commands::format::run(typed, terminal),
            Self::Measure(typed) => commands::measure::run(typed, terminal),
            Self::Kit(typed) => commands::kit::run(typed, terminal),
            Self::Plan(typed) => commands::plan::run(typed, terminal),
            Self::Chart(typed) => commands::chart::run(typed, terminal),
            Self::Compare(typed) => commands::compare::run(typed, terminal),
            Self::Review(typed) => commands::review::run(typed, terminal),
            Self::GitDiff(typed) => commands::git_diff::run(&typed, terminal),
            Self::Merge(typed) => commands::merge::run(&typed, terminal),
            Self::Locate(typed) => commands::locate::run(typed, terminal),
            Self::StartFor(typed) => commands::start_for::run(typed, terminal),
            Self::Draw(typed) => commands::draw::run(typed, terminal),
            Self::Write(typed) => commands::write::run(typed, terminal),
            Self::Sheet(typed) => commands::sheet::run(typed, terminal),
            Self::Gallery(typed) => commands::gallery::run(typed, terminal),
            Self::Preview(typed) => commands::preview::run(typed, terminal),
            Self::Refresh(typed) => commands::refresh::run(typed, terminal),
            Self::Export(typed) => commands::export::run(typed, terminal),
            Self::Explain(typed) => commands::explain::run(&typed, terminal),
            Self::Design(typed) => commands::design::run(&typed, terminal),
            Self::New(typed) => commands::new::run(&typed, terminal),
            Self::Serve(typed) => commands::serve::run(&typed),
            Self::Completions(typed) => commands::completions::run(&typed, terminal),
            Self::Man(typed) => commands::man::run(&typed, terminal),
        }
    }
}

/// The whole program as it is typed: help, completions and the manual are made from it.
pub(crate) fn program() -> clap::Command {
    Arguments::command()
}

/// Reads what was typed, and does it.
pub(crate) fn run(typed: impl Iterator<Item = OsString>) -> ExitCode {
    match read(typed.collect()) {
        Ok(Arguments { color, command }) => {
            let terminal = Terminal::new(color);
            match command.run(&terminal) {
                Ok(exit) => exit.into(),
                Err(failure) => fail(&failure, &terminal),
            }
        }
        Err(error) => {
            // A closed output is no reason to fail: whoever asked for help has seen enough.
            let _ = error.print();
            ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2))
        }
    }
}

fn read(typed: Vec<OsString>) -> Result<Arguments, clap::Error> {
    match started_by_an_editor(&typed) {
        Some(command) => Ok(Arguments { color: ColorWish::default(), command }),
        None => read_by_definition(typed),
    }
}

fn read_by_definition(typed: Vec<OsString>) -> Result<Arguments, clap::Error> {
    let program = program().color(color_of_help(&typed));
    program.try_get_matches_from(typed).and_then(|matches| Arguments::from_arg_matches(&matches))
}

/// The server, as editors start it. They wait for it, so it does not wait for the definition of all other commands.
fn started_by_an_editor(typed: &[OsString]) -> Option<Command> {
    let stdio = match typed.get(1..)? {
        [serve] if serve == "serve" => false,
        [serve, stdio] if serve == "serve" && stdio == "--stdio" => true,
        _ => return None,
    };
    Some(Command::Serve(commands::serve::ServeArguments { stdio }))
}

fn fail(failure: &Failure, terminal: &Terminal) -> ExitCode {
    terminal.error(&failure.0);
    ExitCode::from(2)
}

/// Help and complaints about what was typed are printed before `--color` is understood: it is looked up by hand.
fn color_of_help(typed: &[OsString]) -> ColorChoice {
    let wish = typed.iter().enumerate().find_map(|(at, word)| match word.to_str()? {
        "--color" => typed.get(at + 1)?.to_str(),
        word => word.strip_prefix("--color="),
    });
    match wish {
        Some("always") => ColorChoice::Always,
        Some("never") => ColorChoice::Never,
        _ => ColorChoice::Auto,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_definition_is_sound() {
        program().debug_assert();
    }

    #[test]
    fn what_editors_type_means_what_the_definition_says() {
        for words in ["knotwright serve", "knotwright serve --stdio"] {
            let typed: Vec<OsString> = words.split(' ').map(OsString::from).collect();
            let (Some(serve), Ok(defined)) = (started_by_an_editor(&typed), read_by_definition(typed)) else {
                panic!("{words}")
            };
            assert_eq!(format!("{serve:?}"), format!("{:?}", defined.command));
        }
    }

    #[test]
    fn every_command_shows_an_example() {
        for command in program().get_subcommands() {
            let help = command.clone().render_long_help().to_string();
            assert!(
                help.contains("knotwright ") && help.contains("Example"),
                "{}:\n{help}",
                command.get_name()
            );
        }
    }
}
