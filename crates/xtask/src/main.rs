//! Chores of the workspace: `cargo xtask test` is what CI and people run.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::print_stdout,
    reason = "chores run programs and talk"
)]

mod bench;
mod bless;
mod browser;
mod colors;
mod dist;
mod editors;
mod fuzz;
mod pictures;
mod plugins;
mod run;
mod test;
mod validate;
mod vscode;

use clap::{Parser, Subcommand};
use std::process::ExitCode;

#[derive(Parser)]
#[command(name = "cargo xtask", about = "Chores of the workspace")]
struct Arguments {
    #[command(subcommand)]
    chore: Chore,
}

#[derive(Subcommand)]
enum Chore {
    /// Everything that must hold: format, lints, tests, the sample patterns, the sheet in a browser, a minute of fuzzing.
    Test {
        /// Leave out the fuzzing.
        #[arg(long)]
        quick: bool,
    },
    /// How fast, as ratios against floors and peers; prints Markdown for docs/performance.md.
    Bench {
        /// Only the language server, beside others.
        #[arg(long)]
        serve: bool,
    },
    /// What is handed out: program, archive, packages, checksums, bill of materials, in target/dist; tries them out.
    Dist {
        /// What the program is to run on; without it, Linux on this machine's processor.
        #[arg(long, value_name = "TRIPLE")]
        target: Option<String>,
    },
    /// Sessions of real editors with the language server; installs what they need.
    Editors,
    /// A language server that does nothing, for the benchmark.
    #[command(hide = true)]
    NullServer,
    /// Write anew what is made from other files: the pages of the rules, the grammars and queries of editors.
    Bless,
    /// Go through the sheet in a real browser; installs what is missing.
    Browser,
    /// The TextMate grammar against the parser; installs what it needs.
    Textmate,
    /// Draw anew the pictures of the documentation.
    Pictures,
    /// Feed random bytes to the parser, the checker and the formatter.
    Fuzz {
        /// Seconds for each target.
        #[arg(long, default_value_t = 60)]
        seconds: u32,
    },
    /// Pack the extension for VS Code, and go through it in VS Code itself; installs what is missing.
    Vscode {
        /// Only write target/vscode/knotwright.vsix.
        #[arg(long)]
        pack: bool,
    },
    /// Reports, hooks, workflow and pipeline against the schemas and tools of others.
    Validate,
}

fn main() -> ExitCode {
    let done = match Arguments::parse().chore {
        Chore::Test { quick } => test::test(quick),
        Chore::Bench { serve: false } => bench::bench(),
        Chore::Bench { serve: true } => bench::bench_serve(),
        Chore::Dist { target } => dist::dist(target),
        Chore::Editors => test::editors(),
        Chore::NullServer => bench::null_server(),
        Chore::Bless => bless::bless(),
        Chore::Browser => browser::browser(),
        Chore::Textmate => colors::textmate(),
        Chore::Pictures => pictures::pictures(),
        Chore::Fuzz { seconds } => fuzz::fuzz(seconds),
        Chore::Validate => validate::validate(),
        Chore::Vscode { pack } => vscode::alone(pack),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(step) => {
            eprintln!("\nfailed: {step}");
            ExitCode::FAILURE
        }
    }
}
