//! The program `knotwright`.

mod anew;
mod arguments;
mod bands;
mod checking;
mod commands;
mod compared;
mod exported;
mod formats;
mod git;
mod hang;
mod inputs;
mod lengths;
mod located;
mod many;
mod measured;
mod outcome;
mod planned;
mod reckoning;
mod rewrite;
mod table;
mod terminal;
mod visible;

fn main() -> std::process::ExitCode {
    arguments::run(std::env::args_os())
}
