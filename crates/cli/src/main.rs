//! The program `knotwright`.

mod arguments;
mod checking;
mod commands;
mod exported;
mod formats;
mod inputs;
mod many;
mod outcome;
mod reckoning;
mod rewrite;
mod terminal;
mod visible;

fn main() -> std::process::ExitCode {
    arguments::run(std::env::args_os())
}
