//! Language servers in one run: an edit, and what is found after it, over the standard streams.
//!
//! Compared with ours: ruff and tombi, which do the same for other languages, and a server that does nothing (this program
//! itself), which is the floor that the driver and the pipes set.

mod client;
mod null;
mod texts;
mod times;

pub(crate) use null::null_server;

use super::program_before;
use crate::run::{is_there, run, target};
use client::{Question, Session};
use std::time::{Duration, Instant};
use texts::{EditKind, SampleLanguage};
use times::Times;

const LINES: [usize; 3] = [100, 1_000, 10_000];
/// How many edits are measured, and as many that take them back.
const EDITS: usize = 40;
const BURSTS: usize = 15;
const STARTS: usize = 15;

/// How many edits come at once when somebody types fast or a macro runs.
const BURST: usize = 21;

/// A question that an editor asks while somebody types, and the edit before it.
struct AskedAfter {
    name: &'static str,
    kind: EditKind,
    question: Question,
}

const fn after(kind: EditKind, name: &'static str, question: Question) -> AskedAfter {
    AskedAfter { name, kind, question }
}

const QUESTIONS: [AskedAfter; 10] = [
    after(EditKind::BreaksCount, "completion", Question::There("textDocument/completion")),
    after(EditKind::BreaksCount, "hover", Question::There("textDocument/hover")),
    after(EditKind::BreaksCount, "actions", Question::There("textDocument/codeAction")),
    after(EditKind::BreaksStrand, "actions", Question::There("textDocument/codeAction")),
    after(EditKind::Keeps, "actions", Question::There("textDocument/codeAction")),
    after(EditKind::Keeps, "colors of all words", Question::Colors),
    after(EditKind::Changes, "colors of all words", Question::Colors),
    after(EditKind::Changes, "colors of a screen", Question::ColorsInView),
    after(EditKind::Keeps, "outline", Question::There("textDocument/documentSymbol")),
    after(EditKind::Keeps, "symbols of the workspace", Question::There("workspace/symbol")),
];

/// A server: its name, its command, and what it reads.
struct MeasuredServer {
    name: &'static str,
    line: Vec<String>,
    language: SampleLanguage,
}

/// What is measured of a session.
type Measure<'m> = &'m dyn Fn(&mut Session, usize) -> Result<Option<Duration>, String>;

/// Measures all of them and prints Markdown.
pub(crate) fn serve(program: &str) -> Result<(), String> {
    let servers = servers(program)?;
    println!(
        "\nMilliseconds, the median and in brackets what one in twenty takes longer than; all in turn.\n"
    );
    head("| lines | an edit that | to |", &servers);
    let mut memory = Vec::new();
    for lines in LINES {
        let mut sessions = open(&servers, lines)?;
        for kind in EditKind::ALL {
            let title = format!("| {lines} | {} | findings |", kind.what());
            row(&title, &in_turn(&mut sessions, EDITS, &|session, nth| broken(session, kind, nth))?);
        }
        let kind = EditKind::BreaksCount;
        let title = format!("| {lines} | {}, {BURST} times | findings |", kind.what());
        row(&title, &in_turn(&mut sessions, BURSTS, &|session, nth| burst(session, kind, nth))?);
        for question in &QUESTIONS {
            let title = format!("| {lines} | {} | {} at once |", question.kind.what(), question.name);
            row(&title, &in_turn(&mut sessions, EDITS, &|session, nth| asked(session, nth, question))?);
        }
        memory = sessions.iter().map(Session::memory).collect::<Result<Vec<_>, _>>()?;
    }
    println!();
    head("| |", &servers);
    let starts = servers.iter().map(start).collect::<Result<Vec<_>, _>>()?;
    row("| from the start to the answer of `initialize`, ms |", &starts);
    let memory: Vec<String> = memory.iter().map(|one| format!("{one:.1}")).collect();
    row("| memory after all that in 10,000 lines, MiB |", &memory);
    Ok(())
}

fn head(title: &str, servers: &[MeasuredServer]) {
    let columns = title.matches('|').count() - 1 + servers.len();
    row(title, &servers.iter().map(|server| server.name).collect::<Vec<_>>());
    println!("|{}", " --- |".repeat(columns));
}

fn row(title: &str, cells: &[impl ToString]) {
    println!("{title} {} |", cells.iter().map(ToString::to_string).collect::<Vec<_>>().join(" | "));
}

fn open(servers: &[MeasuredServer], lines: usize) -> Result<Vec<Session>, String> {
    let open = |server: &MeasuredServer| {
        let mut session = Session::start(&server.line)?;
        session.open(server.language, lines)?;
        Ok(session)
    };
    servers.iter().map(open).collect()
}

/// In turn, A B C A B C, so that what the machine does besides falls on all alike.
fn in_turn(sessions: &mut [Session], times: usize, measure: Measure) -> Result<Vec<Times>, String> {
    let mut all: Vec<Times> = sessions.iter().map(|_| Times::default()).collect();
    // The first two warm up.
    for nth in 0..times + 2 {
        for (session, times) in sessions.iter_mut().zip(&mut all) {
            let took = measure(session, nth)?;
            if nth >= 2 {
                times.add(took);
            }
        }
    }
    Ok(all)
}

/// An edit, measured, and another that takes it back.
fn broken(session: &mut Session, kind: EditKind, nth: usize) -> Result<Option<Duration>, String> {
    let took = session.edit(kind, 2 * nth)?;
    session.edit(kind, 2 * nth + 1)?;
    Ok(Some(took))
}

fn burst(session: &mut Session, kind: EditKind, nth: usize) -> Result<Option<Duration>, String> {
    // An even number of edits fits between two bursts, so each begins with one that breaks something.
    let first = nth * (BURST + 1);
    let took = session.burst(kind, first..first + BURST)?;
    session.edit(kind, first + BURST)?;
    Ok(Some(took))
}

fn asked(session: &mut Session, nth: usize, after: &AskedAfter) -> Result<Option<Duration>, String> {
    let took = session.edit_and_ask(after.kind, 2 * nth, after.question)?;
    match after.question {
        // An editor asks for these after every edit, and is told what has changed since.
        Question::Colors => session.edit_and_ask(after.kind, 2 * nth + 1, after.question)?,
        Question::There(_) | Question::ColorsInView => Some(session.edit(after.kind, 2 * nth + 1)?),
    };
    Ok(took)
}

fn start(server: &MeasuredServer) -> Result<Times, String> {
    let mut times = Times::default();
    for _ in 0..STARTS {
        let begun = Instant::now();
        let session = Session::start(&server.line)?;
        times.add(Some(begun.elapsed()));
        drop(session);
    }
    Ok(times)
}

fn servers(program: &str) -> Result<Vec<MeasuredServer>, String> {
    let home = target().join("bench/tools").display().to_string();
    let (ruff, tombi) = (format!("{home}/bin/ruff"), format!("{home}/bin/tombi"));
    if !is_there(&[&ruff, "--version"]) || !is_there(&[&tombi, "--version"]) {
        run(&["python3", "-m", "venv", &home])?;
        run(&[&format!("{home}/bin/pip"), "install", "--quiet", "ruff", "tombi"])?;
    }
    let itself = std::env::current_exe().map_err(|error| error.to_string())?.display().to_string();
    let server = |name, words: &[&str], language| {
        let line = words.iter().map(|word| (*word).to_owned()).collect();
        MeasuredServer { name, line, language }
    };
    let mut servers = vec![
        server("knotwright", &[program, "serve"], SampleLanguage::Knot),
        server("ruff", &[&ruff, "server"], SampleLanguage::Python),
        server("tombi", &[&tombi, "lsp"], SampleLanguage::Toml),
        server("nothing", &[&itself, "null-server"], SampleLanguage::Knot),
    ];
    if let Some(before) = program_before() {
        servers.push(server("before", &[&before, "serve"], SampleLanguage::Knot));
    }
    Ok(servers)
}
