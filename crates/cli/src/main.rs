//! The program `knotwright`.
mod arguments;
mod bands;
mod baseline;
mod changed;
mod checking;
mod commands;
mod committed;
mod compared;
mod designing;
mod ends;
mod exported;
mod formats;
mod gallery;
mod git;
mod hang;
mod in_range;
mod inputs;
mod kept_address;
mod kits;
mod lengths;
mod lined;
mod located;
mod many;
mod markup;
mod measures;
mod merged;
mod outcome;
mod output;
mod planned;
mod previewed;
mod printed;
mod reviewed;
mod rewrite;
mod selected;
mod table;
mod terminal;
mod tying;
mod visible;
mod whole;

/// A check builds and drops a tree a file, on all processors at once. The system's allocator takes a tenth of the time
/// for it, and that of static binaries most of it.
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> std::process::ExitCode {
    arguments::run(std::env::args_os())
}
