//! Language servers in one run: an edit, and what is found after it, over the standard streams.
//!
//! Beside ours: ruff and tombi, which do the same for other languages, and a server that does nothing (this program
//! itself), which is the floor that the driver and the pipes set.

mod client;
mod null;
mod texts;

pub(crate) use null::null_server;

use crate::run::{is_there, run, target};
use client::Session;
use std::time::{Duration, Instant};
use texts::{Language, Sample};

const LINES: [usize; 3] = [100, 1_000, 10_000];
const EDITS: usize = 60;
const STARTS: usize = 15;

/// A server: its name, its command, and what it reads.
struct Server {
    name: &'static str,
    line: Vec<String>,
    language: Language,
}

/// Measures all of them and prints Markdown.
pub(crate) fn serve(program: &str) -> Result<(), String> {
    let servers = servers(program)?;
    println!(
        "\nFrom an edit to what is found, the median of {EDITS} edits all over the file, in milliseconds:\n"
    );
    println!("| lines | {} |", names(&servers));
    println!("| --- |{}", " --- |".repeat(servers.len()));
    for lines in LINES {
        let medians = in_turn(&servers, lines)?;
        println!(
            "| {lines} | {} |",
            medians.iter().map(|one| milliseconds(*one)).collect::<Vec<_>>().join(" | ")
        );
    }
    println!(
        "\nFrom the start to the answer of `initialize` (median of {STARTS}), and memory after 10,000 lines:\n"
    );
    println!("| | {} |", names(&servers));
    println!("| --- |{}", " --- |".repeat(servers.len()));
    let starts = servers.iter().map(start).collect::<Result<Vec<_>, _>>()?;
    println!(
        "| start, ms | {} |",
        starts.iter().map(|one| milliseconds(*one)).collect::<Vec<_>>().join(" | ")
    );
    let memory = servers.iter().map(memory).collect::<Result<Vec<_>, _>>()?;
    println!(
        "| memory, MiB | {} |",
        memory.iter().map(|one| format!("{one:.1}")).collect::<Vec<_>>().join(" | ")
    );
    Ok(())
}

fn names(servers: &[Server]) -> String {
    servers.iter().map(|server| server.name).collect::<Vec<_>>().join(" | ")
}

/// Edits in turn, A B C A B C, so that what the machine does besides falls on all alike.
fn in_turn(servers: &[Server], lines: usize) -> Result<Vec<Duration>, String> {
    let mut sessions = Vec::new();
    for server in servers {
        let mut session = Session::start(&server.line)?;
        session.open(&Sample::new(server.language, lines))?;
        sessions.push((session, Vec::with_capacity(EDITS)));
    }
    for edit in 0..EDITS + 4 {
        for (session, times) in &mut sessions {
            let took = session.edit(edit)?;
            // The first few warm up.
            if edit >= 4 {
                times.push(took);
            }
        }
    }
    Ok(sessions.into_iter().map(|(_, times)| median(times)).collect())
}

fn start(server: &Server) -> Result<Duration, String> {
    let mut times = Vec::with_capacity(STARTS);
    for _ in 0..STARTS {
        let begun = Instant::now();
        let session = Session::start(&server.line)?;
        times.push(begun.elapsed());
        drop(session);
    }
    Ok(median(times))
}

fn memory(server: &Server) -> Result<f64, String> {
    let mut session = Session::start(&server.line)?;
    session.open(&Sample::new(server.language, LINES[2]))?;
    for edit in 0..EDITS {
        session.edit(edit)?;
    }
    session.memory()
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times.get(times.len() / 2).copied().unwrap_or_default()
}

fn milliseconds(time: Duration) -> String {
    format!("{:.2}", time.as_secs_f64() * 1e3)
}

fn servers(program: &str) -> Result<Vec<Server>, String> {
    let home = target().join("bench/tools").display().to_string();
    let (ruff, tombi) = (format!("{home}/bin/ruff"), format!("{home}/bin/tombi"));
    if !is_there(&[&ruff, "--version"]) || !is_there(&[&tombi, "--version"]) {
        run(&["python3", "-m", "venv", &home])?;
        run(&[&format!("{home}/bin/pip"), "install", "--quiet", "ruff", "tombi"])?;
    }
    let itself = std::env::current_exe().map_err(|error| error.to_string())?.display().to_string();
    let server = |name, words: &[&str], language| {
        let line = words.iter().map(|word| (*word).to_owned()).collect();
        Server { name, line, language }
    };
    Ok(vec![
        server("knotwright", &[program, "serve"], Language::Knot),
        server("ruff", &[&ruff, "server"], Language::Python),
        server("tombi", &[&tombi, "lsp"], Language::Toml),
        server("nothing", &[&itself, "null-server"], Language::Knot),
    ])
}
