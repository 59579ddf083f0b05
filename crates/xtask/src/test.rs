//! Everything that must hold, in tiers.

use crate::run::{build, program, run};
use crate::tiers::{self, Tier};
use crate::tools::{self, NodeJs, ask_for};
use crate::{browser, colors, editors, fuzz, run::is_there, soak, vscode};

/// Seconds for each fuzz target: seven of them make a minute.
const FUZZ_SECONDS: u32 = 9;

const LINTS: Tier = Tier {
    name: "lints",
    needs: "`rustup component add rustfmt clippy`",
    install: &|| {
        let there = is_there(&["cargo", "fmt", "--version"]) && is_there(&["cargo", "clippy", "--version"]);
        if there { Ok(()) } else { run(&["rustup", "component", "add", "rustfmt", "clippy"]) }
    },
    run: &|| {
        run(&["cargo", "fmt", "--all", "--check"])?;
        run(&["cargo", "clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"])
    },
};

const RUST: Tier = Tier {
    name: "rust",
    needs: "nothing",
    install: &|| Ok(()),
    run: &|| {
        run(&["cargo", "test", "--workspace", "--locked"])?;
        build()?;
        run(&[&program(), "check", "--deny", "warnings", "shared/patterns"])?;
        run(&[&program(), "format", "--check", "shared/patterns"])
    },
};

/// `cargo test` alone passes over these tests.
const GIT: Tier = Tier {
    name: "git",
    needs: "git and bash on the path",
    install: &|| ask_for(&["git", "bash"], &["git", "bash"]),
    run: &|| {
        let line = ["cargo", "test", "--locked", "--package", "knotwright-cli", "--test", "program"];
        run(&[&line[..], &["--", "--ignored", "with_git::"]].concat())
    },
};

const TEXTMATE: Tier = Tier {
    name: "textmate",
    needs: "Python 3.9 or newer with its module venv, which installs Node",
    install: &|| NodeJs::installed().map(|_| ()),
    run: &colors::textmate,
};

const BROWSER: Tier = Tier {
    name: "browser",
    needs: "Chromium, on the path or named by the variable CHROMIUM; Python with its module venv, which installs Node and Neovim",
    install: &|| tools::browser().and(NodeJs::installed()).and(tools::neovim()).map(|_| ()),
    run: &browser::browser,
};

const EDITORS: Tier = Tier {
    name: "editors",
    needs: "Neovim 0.7, Vim, Emacs with eglot and Kate's highlighter as Debian 12 has them; Python with its module venv",
    install: &editors::install,
    run: &editors::editors,
};

const VSCODE: Tier = Tier {
    name: "vscode",
    needs: "Chromium, on the path or named by the variable CHROMIUM; Python with its module venv, which installs Node and VS Code",
    install: &vscode::install,
    run: &vscode::vscode,
};

/// The seed of the tier: a test does the same every time. `cargo xtask soak` takes the time for one.
const SOAK_SEED: u64 = 1;

const SOAK: Tier = Tier {
    name: "soak",
    needs: "Linux or macOS",
    install: &|| if cfg!(unix) { Ok(()) } else { Err("there are no signals to send here".to_owned()) },
    run: &|| soak::soak(60, Some(SOAK_SEED)),
};

const FUZZ: Tier = Tier {
    name: "fuzz",
    needs: "`cargo install --locked cargo-fuzz`, on Linux or macOS",
    install: &fuzz::install,
    run: &|| fuzz::fuzz(FUZZ_SECONDS),
};

/// Runs all tiers; without those that take long if `quick`.
pub(crate) fn test(quick: bool) -> Result<(), String> {
    let all = [LINTS, RUST, GIT, TEXTMATE, BROWSER, EDITORS, VSCODE, SOAK, FUZZ];
    let wanted = if quick { &all[..5] } else { &all };
    some(wanted)
}

/// Runs one tier.
pub(crate) fn editors() -> Result<(), String> {
    some(&[EDITORS])
}

/// Runs one tier.
pub(crate) fn browser() -> Result<(), String> {
    some(&[BROWSER])
}

/// Runs one tier.
pub(crate) fn textmate() -> Result<(), String> {
    some(&[TEXTMATE])
}

/// Runs one tier.
pub(crate) fn vscode() -> Result<(), String> {
    some(&[VSCODE])
}

fn some(tiers: &[Tier]) -> Result<(), String> {
    let report = tiers::run(tiers, tiers::in_ci())?;
    eprint!("{report}");
    Ok(())
}
