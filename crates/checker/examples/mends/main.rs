//! How well slips are caught, located and mended. In the given pattern files every number, kind, side and mark is
//! changed in turn, every step, row and strand left out, doubled and exchanged, and the check of the changed file is
//! looked at. Prints Markdown tables.
//!
//!     cargo run --release -p knotwright-checker --example mends -- shared/patterns crates/checker/tests/unseen

#![expect(clippy::print_stdout, reason = "it prints its tables")]
#![expect(clippy::disallowed_methods, reason = "it reads the files it is given")]

mod one_off;
mod structure;
mod tally;

use knotwright_band::{Cell, Face, FaceSpot, normal_form};
use knotwright_checker::{Library, Mend, OpenError, Report, Settings, Source, check};
use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tally::Tally;

struct Folder(PathBuf);

impl Library for Folder {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let text = std::fs::read_to_string(self.0.join(path)).map_err(|_| OpenError::Missing)?;
        Ok(Arc::new(Source::new(path, text)))
    }
}

/// One slip: what is written instead of what.
pub(crate) struct Slip {
    sort: &'static str,
    /// In order of place.
    edits: Vec<(Span, String)>,
}

impl Slip {
    pub(crate) fn one(sort: &'static str, span: Span, text: String) -> Self {
        Self { sort, edits: vec![(span, text)] }
    }

    fn applied(&self, text: &str) -> String {
        applied(text, self.edits.iter().map(|(span, text)| (*span, text.as_str())))
    }
}

fn applied<'a>(text: &str, edits: impl Iterator<Item = (Span, &'a str)>) -> String {
    let mut edits: Vec<(Span, &str)> = edits.collect();
    edits.sort_by_key(|edit| edit.0);
    let mut text = text.to_owned();
    for (span, new) in edits.into_iter().rev() {
        text.replace_range(span.start.to_usize()..span.end.to_usize(), new);
    }
    text
}

fn main() {
    let verbose = std::env::args().any(|word| word == "--each");
    for path in std::env::args().skip(1).filter(|word| !word.starts_with("--")).map(PathBuf::from) {
        let mut files: Vec<PathBuf> = match std::fs::read_dir(&path) {
            Ok(folder) => folder.flatten().map(|entry| entry.path()).collect(),
            Err(_) => vec![path.clone()],
        };
        files.retain(|file| file.extension().is_some_and(|end| end == "knot"));
        files.sort();
        println!("## {}\n", path.display());
        type Gather = fn(&Source) -> Vec<Slip>;
        let gathers: [(&str, Gather); 3] = [
            ("One thing is wrong", one_off::gather),
            ("A line or a strand is wrong", structure::gather),
            ("Several lines are left out", structure::gather_blocks),
        ];
        for (title, gather) in gathers {
            println!("### {title}\n");
            let mut by_file = Vec::new();
            let mut by_sort: BTreeMap<&str, Tally> = BTreeMap::new();
            for file in &files {
                let mut whole = Tally::default();
                for (sort, tally) in slips_of(file, gather, verbose) {
                    whole.add(&tally);
                    by_sort.entry(sort).or_default().add(&tally);
                }
                by_file.push((file.file_stem().unwrap_or_default().to_string_lossy().into_owned(), whole));
            }
            tally::print("pattern", &by_file);
            let by_sort: Vec<_> = by_sort.into_iter().map(|(sort, tally)| (sort.to_owned(), tally)).collect();
            tally::print("what is wrong", &by_sort);
        }
    }
}

fn slips_of(file: &Path, gather: fn(&Source) -> Vec<Slip>, verbose: bool) -> BTreeMap<&'static str, Tally> {
    let mut tallies: BTreeMap<&'static str, Tally> = BTreeMap::new();
    let library = Folder(file.parent().unwrap_or(Path::new("")).to_owned());
    let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let Ok(text) = std::fs::read_to_string(file) else { return tallies };
    let source = Arc::new(Source::new(name.clone(), text));
    let settings = Settings::default();
    let checked = |text: String| check(Arc::new(Source::new(name.clone(), text)), &library, &settings);
    let Some(band) = Band::of(&checked(source.text.to_string())) else { return tallies };
    for slip in gather(&source) {
        let changed = slip.applied(&source.text);
        if !Source::new("changed", changed.as_str()).parsed.problems.is_empty() {
            continue;
        }
        let report = checked(changed);
        let is_band = |report: &Report| Band::of(report).is_some_and(|changed| changed.looks_like(&band));
        // What nobody can see, and breaks no promise, is no slip.
        if report.findings.is_empty() && is_band(&report) {
            continue;
        }
        let judged = Judged { source: &source, slip: &slip, report: &report };
        let gives_band = |mended: String| is_band(&checked(mended));
        let one = judged.tally(gives_band);
        if verbose {
            say(&source, &slip, &report, (&one, &|mend| judged.is_true(mend, gives_band)));
        }
        tallies.entry(slip.sort).or_default().add(&one);
    }
    tallies
}

/// The band that is tied: the threads that hang there, and each part.
struct Band {
    strands: Vec<u16>,
    parts: Vec<TiedPart>,
}

/// A part of a band: its knots, what is seen of them, and the threads as they hang after it.
struct TiedPart {
    cells: Vec<Cell>,
    seen: Option<Vec<(FaceSpot, u16)>>,
    after: Vec<u16>,
}

impl Band {
    /// `None` if it cannot be tied.
    fn of(report: &Report) -> Option<Self> {
        let pattern = report.pattern.as_ref()?;
        let parts = pattern.parts().map(|(kind, part)| {
            let threads = pattern.threads_before(kind);
            let thread = |strand: u8| threads[usize::from(strand)];
            let seen = |face: Face| face.spots().map(|(spot, seen)| (spot, seen.color)).collect();
            TiedPart {
                cells: normal_form(&part.piece),
                seen: Face::of_once(&part.piece, thread).map(seen),
                after: part.piece.order().iter().map(|&strand| thread(strand)).collect(),
            }
        });
        let parts = parts.collect();
        pattern.is_whole().then(|| Self { strands: pattern.strands.clone(), parts })
    }

    /// Whether nobody can tell them apart: every knot lies where it lies in the other and shows the same thread, if of two
    /// strands of one thread the other one ties it.
    fn looks_like(&self, other: &Self) -> bool {
        let is_same = |(one, other): (&TiedPart, &TiedPart)| {
            one.cells == other.cells
                || (one.after == other.after && one.seen.is_some() && one.seen == other.seen)
        };
        self.strands == other.strands
            && self.parts.len() == other.parts.len()
            && self.parts.iter().zip(&other.parts).all(is_same)
    }
}

/// A slip, and what was said of it.
struct Judged<'a> {
    source: &'a Source,
    slip: &'a Slip,
    report: &'a Report,
}

impl Judged<'_> {
    fn mended(&self, mend: &Mend) -> String {
        let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        applied(&self.report.files[0].text, edits)
    }

    /// Of a change of one word the true mend writes what was written; of lines, what ties a band that looks the same.
    fn is_true(&self, mend: &Mend, is_band: impl Fn(String) -> bool) -> bool {
        let mended = self.mended(mend);
        if one_word(self.slip) { mended == *self.source.text } else { is_band(mended) }
    }

    fn tally(&self, is_band: impl Fn(String) -> bool + Copy) -> Tally {
        let mut one = Tally { slips: 1, ..Tally::default() };
        let findings = &self.report.findings;
        if findings.is_empty() {
            return one;
        }
        (one.caught, one.findings) = (1, findings.len());
        let changed = &self.report.files[0].text;
        let line = |at: u32| changed[..at.to_usize().min(changed.len())].matches('\n').count();
        let mine = line(self.slip.edits[0].0.start);
        let near = |at: u32| line(at).abs_diff(mine) <= 1 && line(at) >= mine;
        let located =
            findings.iter().any(|finding| finding.place.file.0 == 0 && near(finding.place.span.start));
        let mends: Vec<&Mend> = findings.iter().flat_map(|finding| &finding.mends).collect();
        let points =
            |mend: &&Mend| near(mend.edits[0].place.span.start) || near(mend.edits[0].place.span.end);
        one.choices = mends.len();
        one.offered = usize::from(mends.iter().any(|mend| self.is_true(mend, is_band)));
        one.first = usize::from(mends.first().is_some_and(|mend| self.is_true(mend, is_band)));
        one.pointed = usize::from(located || mends.first().is_some_and(points));
        one.same_band = usize::from(mends.first().is_some_and(|mend| is_band(self.mended(mend))));
        one.certain = usize::from(mends.iter().any(|mend| mend.certain));
        let wrongly = |mend: &&Mend| mend.certain && !self.is_true(mend, is_band);
        one.wrongly_certain = usize::from(mends.iter().any(wrongly));
        one
    }
}

/// Whether the slip lies in one word, number or mark.
fn one_word(slip: &Slip) -> bool {
    let [(span, text)] = &slip.edits[..] else { return false };
    !span.is_empty() && !text.is_empty() && !text.contains(char::is_whitespace)
}

fn say(source: &Source, slip: &Slip, report: &Report, (one, is_true): (&Tally, &dyn Fn(&Mend) -> bool)) {
    let line = source.text[..slip.edits[0].0.start.to_usize()].matches('\n').count() + 1;
    let marks = [(one.caught, "caught"), (one.offered, "offered"), (one.first, "first")];
    let marks: Vec<_> = marks.iter().filter(|mark| mark.0 > 0).map(|mark| mark.1).collect();
    println!(
        "{}:{line} {}: `{}` -> `{}` [{}]",
        source.path,
        slip.sort,
        slip.edits[0].0.of(&source.text).trim_end(),
        slip.edits[0].1.trim_end(),
        marks.join(" ")
    );
    for finding in &report.findings {
        let text = &report.files[finding.place.file.0.to_usize()].text;
        let at = |offset: u32| text[..offset.to_usize()].matches('\n').count() + 1;
        println!("    {}: {}: {}", at(finding.place.span.start), finding.rule.name, finding.message);
        for mend in &finding.mends {
            let mark = if is_true(mend) { "+" } else { "-" };
            println!("      {mark} {}: {}", at(mend.edits[0].place.span.start), mend.title);
        }
    }
}
