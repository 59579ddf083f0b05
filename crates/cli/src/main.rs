//! The program `knotwright`.

mod anew;
mod arguments;
mod bands;
mod changed;
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
mod measures;
mod outcome;
mod output;
mod planned;
mod previewed;
mod rewrite;
mod selected;
mod table;
mod terminal;
mod tying;
mod visible;

/// A check builds and drops a tree a file, on all processors at once. The system's allocator takes a tenth of the time
/// for it, and that of static binaries most of it.
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> std::process::ExitCode {
    arguments::run(std::env::args_os())
}
