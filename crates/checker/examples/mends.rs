//! How well slips are caught, located and mended: every number, kind, side and mark of the given pattern files is
//! changed in turn, and the check of the changed file is looked at. Prints a Markdown table.
//!
//!     cargo run --release -p knotwright-checker --example mends -- shared/patterns

#![expect(clippy::print_stdout, reason = "it prints its table")]
#![expect(clippy::disallowed_methods, reason = "it reads the files it is given")]

use knotwright_band::{Cell, Piece, normal_form};
use knotwright_checker::{Library, OpenError, Part, Report, Settings, Source, check};
use knotwright_grammar::tree::{Node, Sign, Statement};
use knotwright_grammar::{Span, TokenKind};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

const KINDS: [&str; 4] = ["forward", "backward", "forward-backward", "backward-forward"];

struct Folder(PathBuf);

impl Library for Folder {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let text = std::fs::read_to_string(self.0.join(path)).map_err(|_| OpenError::Missing)?;
        Ok(Arc::new(Source::new(path, text)))
    }
}

/// One change of one thing.
struct Slip {
    sort: &'static str,
    span: Span,
    text: String,
}

/// What became of the slips of one sort.
#[derive(Default, Clone)]
struct Tally {
    slips: usize,
    caught: usize,
    located: usize,
    offered: usize,
    first: usize,
    pointed: usize,
    /// The first mend gives the band that was written, if by another edit.
    same_band: usize,
    certain: usize,
    wrongly_certain: usize,
    choices: usize,
}

impl Tally {
    fn add(&mut self, other: &Self) {
        self.slips += other.slips;
        self.caught += other.caught;
        self.located += other.located;
        self.offered += other.offered;
        self.first += other.first;
        self.pointed += other.pointed;
        self.same_band += other.same_band;
        self.certain += other.certain;
        self.wrongly_certain += other.wrongly_certain;
        self.choices += other.choices;
    }

    fn row(&self, name: &str) -> String {
        let share = |part: usize, whole: usize| match whole {
            0 => "-".to_owned(),
            whole => format!("{:.1} %", 100.0 * part as f64 / whole as f64),
        };
        format!(
            "| {name} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {:.1} |",
            self.slips,
            share(self.caught, self.slips),
            share(self.located, self.caught),
            share(self.pointed, self.caught),
            share(self.offered, self.caught),
            share(self.first, self.caught),
            share(self.same_band, self.caught),
            share(self.certain, self.caught),
            self.wrongly_certain,
            self.choices as f64 / self.caught.max(1) as f64,
        )
    }
}

fn main() {
    let verbose = std::env::args().any(|word| word == "--each");
    let mut files: Vec<PathBuf> = Vec::new();
    for path in std::env::args().skip(1).filter(|word| !word.starts_with("--")).map(PathBuf::from) {
        match std::fs::read_dir(&path) {
            Ok(folder) => files.extend(folder.flatten().map(|entry| entry.path())),
            Err(_) => files.push(path),
        }
    }
    files.retain(|file| file.extension().is_some_and(|end| end == "knot"));
    files.sort();
    let mut by_file = Vec::new();
    let mut by_sort: BTreeMap<&str, Tally> = BTreeMap::new();
    for file in files {
        let mut whole = Tally::default();
        for (sort, tally) in slips_of(&file, verbose) {
            whole.add(&tally);
            by_sort.entry(sort).or_default().add(&tally);
        }
        by_file.push((file.file_stem().unwrap_or_default().to_string_lossy().into_owned(), whole));
    }
    print(&by_file, &by_sort);
}

fn print(by_file: &[(String, Tally)], by_sort: &BTreeMap<&str, Tally>) {
    let columns = "slips | caught | said on its line or the next | pointed at, with the first mend | \
                   true mend offered | true mend first | first gives the true band | certain | wrongly certain | mends offered";
    let head = |first: &str| {
        println!("| {first} | {columns} |");
        println!("| --- |{}", " ---: |".repeat(10));
    };
    let mut all = Tally::default();
    head("pattern");
    for (name, tally) in by_file.iter().filter(|(_, tally)| tally.slips > 0) {
        all.add(tally);
        println!("{}", tally.row(name));
    }
    println!("{}\n", all.row("**all**"));
    head("what is changed");
    for (sort, tally) in by_sort {
        println!("{}", tally.row(sort));
    }
}

fn slips_of(file: &Path, verbose: bool) -> BTreeMap<&'static str, Tally> {
    let mut tallies: BTreeMap<&'static str, Tally> = BTreeMap::new();
    let library = Folder(file.parent().unwrap_or(Path::new("")).to_owned());
    let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let Ok(text) = std::fs::read_to_string(file) else { return tallies };
    let source = Arc::new(Source::new(name.clone(), text));
    let settings = Settings::default();
    let sound = check(Arc::clone(&source), &library, &settings);
    let Some(band) = band(&sound) else { return tallies };
    for slip in gather(&source) {
        let (before, after) =
            (&source.text[..slip.span.start as usize], &source.text[slip.span.end as usize..]);
        let changed = Source::new(name.clone(), format!("{before}{}{after}", slip.text));
        if !changed.parsed.problems.is_empty() {
            continue;
        }
        let report = check(Arc::new(changed), &library, &settings);
        if self::band(&report).is_some_and(|changed| changed == band) {
            continue;
        }
        let one = judge(&source, &slip, &report, |mended| {
            self::band(&check(Arc::new(mended), &library, &settings)).is_some_and(|mended| mended == band)
        });
        if verbose {
            say(&source, &slip, &report, &one);
        }
        tallies.entry(slip.sort).or_default().add(&one);
    }
    tallies
}

/// The band that is tied: opening, set and closing. `None` if it cannot be.
fn band(report: &Report) -> Option<Vec<Vec<Cell>>> {
    let pattern = report.pattern.as_ref()?;
    let form = |part: &Part| {
        Piece::from_tied(part.knots.clone(), part.order.clone(), part.straight.clone())
            .ok()
            .map(|piece| normal_form(&piece))
    };
    let parts = [&pattern.opening, &pattern.set, &pattern.closing];
    parts.into_iter().flatten().map(form).collect()
}

fn judge(source: &Source, slip: &Slip, report: &Report, is_band: impl Fn(Source) -> bool) -> Tally {
    let mut one = Tally { slips: 1, ..Tally::default() };
    if report.findings.is_empty() {
        return one;
    }
    one.caught = 1;
    let line = |at: u32| source.text[..(at as usize).min(source.text.len())].matches('\n').count();
    let mine = line(slip.span.start);
    let said = |finding: &knotwright_checker::Finding| {
        let at = line(finding.place.span.start);
        finding.place.file.0 == 0 && (at == mine || at == mine + 1)
    };
    one.located = usize::from(report.findings.iter().any(said));
    let mends: Vec<_> = report.findings.iter().flat_map(|finding| &finding.mends).collect();
    let written = slip.span.of(&source.text);
    let is_true = |mend: &knotwright_checker::Mend| {
        mend.edits.len() == 1
            && mend.edits[0].place.span.start == slip.span.start
            && mend.edits[0].text == written
    };
    one.choices = mends.len();
    one.offered = usize::from(mends.iter().any(|mend| is_true(mend)));
    one.first = usize::from(mends.first().is_some_and(|mend| is_true(mend)));
    let points = |mend: &&knotwright_checker::Mend| line(mend.edits[0].place.span.start) == mine;
    one.pointed = usize::from(one.located == 1 || mends.first().is_some_and(points));
    one.same_band = usize::from(mends.first().is_some_and(|mend| {
        let mut text = report.files[0].text.to_string();
        let span = mend.edits[0].place.span;
        text.replace_range(span.start as usize..span.end as usize, &mend.edits[0].text);
        is_band(Source::new(source.path.clone(), text))
    }));
    one.certain = usize::from(mends.iter().any(|mend| mend.certain));
    one.wrongly_certain = usize::from(mends.iter().any(|mend| mend.certain && !is_true(mend)));
    one
}

fn say(source: &Source, slip: &Slip, report: &Report, one: &Tally) {
    let line = source.text[..slip.span.start as usize].matches('\n').count() + 1;
    let marks = [(one.caught, "caught"), (one.offered, "offered"), (one.first, "first")];
    let marks: Vec<_> = marks.iter().filter(|mark| mark.0 > 0).map(|mark| mark.1).collect();
    println!(
        "{}:{line} `{}` -> `{}` [{}]",
        source.path,
        slip.span.of(&source.text),
        slip.text,
        marks.join(" ")
    );
    for finding in &report.findings {
        let at = report.files[finding.place.file.0 as usize].text[..finding.place.span.start as usize]
            .matches('\n')
            .count();
        println!("    {}: {}: {}", at + 1, finding.rule.name, finding.message);
        for mend in &finding.mends {
            let at = source.text[..mend.edits[0].place.span.start as usize].matches('\n').count() + 1;
            println!("        {at}: {}", mend.title);
        }
    }
}

/// Every change of one thing in the steps of a file.
fn gather(source: &Source) -> Vec<Slip> {
    let mut slips = Vec::new();
    for statement in source.parsed.tree.walk() {
        match &statement.node {
            Node::Take(_) => words(source, statement.span, &mut slips),
            Node::On { .. } | Node::Work(_) | Node::Repeat { .. } | Node::For { .. } => {
                words(source, statement.head, &mut slips);
            }
            Node::Rows { .. } => marks(statement, ["\\", "/", ">", "<", "."].as_slice(), &mut slips),
            Node::Leader { .. } => marks(statement, [".", "#"].as_slice(), &mut slips),
            _ => {}
        }
    }
    slips
}

fn words(source: &Source, within: Span, slips: &mut Vec<Slip>) {
    let tokens = source.parsed.tokens.iter();
    let mut turning = false;
    for token in tokens.filter(|token| within.start <= token.span.start && token.span.end <= within.end) {
        let (span, written) = (token.span, token.span.of(&source.text));
        let mut slip = |sort, text: &str| slips.push(Slip { sort, span, text: text.to_owned() });
        match (token.kind, written) {
            (TokenKind::Number, _) => {
                let Ok(number) = written.parse::<i64>() else { continue };
                for by in [-1, 1, -2, 2] {
                    if number + by >= 0 {
                        let sort = match by {
                            _ if turning => "count of turning knots",
                            -1 | 1 => "other number, by 1",
                            _ => "other number, by 2",
                        };
                        slip(sort, &(number + by).to_string());
                    }
                }
            }
            (TokenKind::Word, "left") => slip("side", "right"),
            (TokenKind::Word, "right") => slip("side", "left"),
            (TokenKind::Word, kind) if KINDS.contains(&kind) => {
                KINDS.iter().filter(|&&other| other != kind).for_each(|other| slip("kind", other));
            }
            _ => {}
        }
        turning = matches!(written, "forward-backward" | "backward-forward");
    }
}

fn marks(statement: &Statement, signs: &[&str], slips: &mut Vec<Slip>) {
    let (Node::Rows { chart, .. } | Node::Leader { chart, .. }) = &statement.node else { return };
    for mark in chart.rows.iter().flat_map(|row| &row.marks) {
        let span = Span { start: mark.offset, end: mark.offset + 1 };
        let written = match mark.sign {
            Sign::Forward => "\\",
            Sign::Backward => "/",
            Sign::ForwardBackward => ">",
            Sign::BackwardForward => "<",
            Sign::Same => "x",
            Sign::Dot => ".",
            Sign::Hash => "#",
        };
        for sign in signs.iter().filter(|&&sign| sign != written) {
            let sort = if signs.contains(&"#") { "mark of a leader" } else { "mark of rows" };
            slips.push(Slip { sort, span, text: (*sign).to_owned() });
        }
    }
}
