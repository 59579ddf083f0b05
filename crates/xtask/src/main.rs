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
mod pages;
mod parser;
mod pictures;
mod plugins;
mod run;
mod soak;
mod test;
mod tiers;
mod tools;
mod validate;
mod vscode;

use clap::{Parser, Subcommand};
use std::process::ExitCode;

#[derive(Parser)]
#[command(name = "cargo xtask", about = "Chores of the workspace")]
struct ChoreArguments {
    #[command(subcommand)]
    chore: Chore,
}

#[derive(Subcommand)]
enum Chore {
    /// Everything that must hold, in tiers; installs what they need, and says which were left out.
    Test {
        /// Leave out the editors and the fuzzing.
        #[arg(long)]
        quick: bool,
    },
    /// How fast, as ratios against floors and peers; prints Markdown for docs/performance.md.
    Bench {
        /// Only the language server, compared with others.
        #[arg(long, conflicts_with = "growth")]
        serve: bool,
        /// Only what must grow with the work and no faster, at two sizes.
        #[arg(long)]
        growth: bool,
        /// Only what a slip in each file costs.
        #[arg(long, conflicts_with_all = ["growth", "serve"])]
        slips: bool,
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
    /// Write again what is made from other files: the pages of the rules, the grammars and queries of editors.
    Bless,
    /// Go through the sheet, the live picture and the gallery in a real browser; installs what is missing.
    Browser,
    /// The TextMate grammar against the parser; installs what it needs.
    Textmate,
    /// Generate the tree-sitter parser again after a change of its grammar.
    Parser {
        /// The version of tree-sitter's interface; for another than this, the parser goes to target/parser-N.
        #[arg(long, value_name = "N", default_value_t = parser::ABI)]
        abi: usize,
    },
    /// Draw the pictures of the documentation again.
    Pictures,
    /// Feed random bytes to the parser, the checker and the formatter.
    Fuzz {
        /// Seconds for each target.
        #[arg(long, default_value_t = 60)]
        seconds: u32,
    },
    /// Attack everything with random edits, files, settings and interruptions, and keep what breaks for the tests.
    Soak {
        /// How long.
        #[arg(long, default_value_t = 1)]
        minutes: u64,
        /// The number from which all cases come; each run prints its own.
        #[arg(long)]
        seed: Option<u64>,
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
    let done = match ChoreArguments::parse().chore {
        Chore::Test { quick } => test::test(quick),
        Chore::Bench { growth: true, .. } => bench::bench_growth(),
        Chore::Bench { slips: true, .. } => bench::bench_slips(),
        Chore::Bench { serve: true, .. } => bench::bench_serve(),
        Chore::Bench { .. } => bench::bench(),
        Chore::Dist { target } => dist::dist(target),
        Chore::Editors => test::editors(),
        Chore::NullServer => bench::null_server(),
        Chore::Bless => bless::bless(),
        Chore::Browser => test::browser(),
        Chore::Textmate => test::textmate(),
        Chore::Parser { abi } => parser::parser(abi),
        Chore::Pictures => pictures::pictures(),
        Chore::Fuzz { seconds } => fuzz::fuzz(seconds),
        Chore::Soak { minutes, seed } => soak::soak(60 * minutes, seed),
        Chore::Validate => validate::validate(),
        Chore::Vscode { pack: false } => test::vscode(),
        Chore::Vscode { pack: true } => {
            run::released().and_then(|program| vscode::pack(&program)).map(|_| ())
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(step) => {
            eprintln!("\nfailed: {step}");
            ExitCode::FAILURE
        }
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory as _;

    #[test]
    fn every_chore_can_be_asked_for() {
        super::ChoreArguments::command().debug_assert();
    }
}
