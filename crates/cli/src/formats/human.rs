//! Findings for people: the lines they are about, what else matters, and what to do.

use super::{ReportFormat, advice};
use crate::outcome::{CountedLines, Outcome, Spots};
use crate::visible::{Shifts, on_one_line, visible, visible_lines};
use ariadne::{Cache, Color, Config, IndexType, Label, ReportKind, Source};
use knotwright_checker::{FileId, Finding, Place, Report, Severity};
use knotwright_numbers::ToNumber;
use std::collections::HashMap;
use std::fmt;
use std::io;
use std::ops::Range;

pub(super) struct Human {
    pub(super) color: bool,
}

impl ReportFormat for Human {
    fn file(&self, outcome: &Outcome) -> String {
        if outcome.reports().iter().all(|report| report.findings.is_empty()) {
            return String::new();
        }
        let mut out = Drawn { text: String::with_capacity(USUAL_LENGTH) };
        let config = Config::new().with_index_type(IndexType::Byte).with_color(self.color).with_tab_width(2);
        let (mut sources, mut lines) = (Sources::of(outcome.reports()), CountedLines::default());
        for report in outcome.reports().iter().filter(|report| !report.findings.is_empty()) {
            let mut drawing = Drawing { spots: lines.spots(&report.files), sources, config };
            report.findings.iter().for_each(|finding| drawing.draw(finding, &mut out));
            sources = drawing.sources;
        }
        // The drawing library fills lines up with spaces.
        out.text.lines().flat_map(|line| [line.trim_end(), "\n"]).collect()
    }
}

/// Longer lines are not shown: nobody finds a place in them, and each of their findings would show them again.
const LONGEST_LINE: usize = 1000;

/// For how much room is made at once: most files have one finding, if any.
const USUAL_LENGTH: usize = 4096;

/// What is drawn. The drawing library writes one letter after another: into a string each of them takes less than into bytes.
struct Drawn {
    text: String,
}

impl io::Write for Drawn {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.text.push_str(&String::from_utf8_lossy(bytes));
        Ok(bytes.len())
    }

    fn write_fmt(&mut self, written: fmt::Arguments) -> io::Result<()> {
        fmt::Write::write_fmt(&mut self.text, written).map_err(io::Error::other)
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// A place for the drawing library: which file, and which bytes of its visible text.
type LabelSpan = (usize, Range<usize>);

/// The findings of one report, drawn one by one. The reports of a page are drawn over the same sources.
struct Drawing<'a> {
    spots: Spots<'a>,
    sources: Sources,
    config: Config,
}

impl<'a> Drawing<'a> {
    fn draw(&mut self, finding: &Finding, out: &mut Drawn) {
        let (kind, color) = match finding.severity {
            Severity::Error => (ReportKind::Error, Color::Red),
            Severity::Warning => (ReportKind::Warning, Color::Yellow),
        };
        if finding_places(finding).any(|place| self.sources.line_length(&self.spots, place) > LONGEST_LINE) {
            return self.list(finding, out);
        }
        let main = self.place(finding.place);
        let mut drawn = ariadne::Report::build(kind, main.clone())
            .with_config(self.config)
            .with_code(finding.rule.name)
            .with_message(visible(&finding.message));
        let mut labels = vec![(main, color, "here".to_owned())];
        for note in &finding.notes {
            let text = visible(&note.text).into_owned();
            if note.place.file == finding.place.file {
                labels.push((self.place(note.place), Color::Cyan, text));
            } else {
                // The drawing library mistakes bytes for characters in the header of a second file.
                drawn.add_note(format!("{}: {text}", self.name(note.place)));
            }
        }
        // It begins a new frame whenever a label is above the one before.
        labels.sort_by_key(|(place, ..)| place.1.start);
        drawn.add_labels(
            labels
                .into_iter()
                .map(|(place, color, text)| Label::new(place).with_color(color).with_message(text)),
        );
        drawn.with_helps(advice(&self.spots, finding).map(|advice| visible(&advice).into_owned()));
        // Writing to memory does not fail.
        let _ = drawn.finish().write(&mut self.sources, &mut *out);
        out.text.push('\n');
    }

    /// A finding in a line that is too long to be drawn.
    fn list(&mut self, finding: &Finding, out: &mut Drawn) {
        let word = if finding.severity == Severity::Error { "Error" } else { "Warning" };
        let mut text = format!("[{}] {word}: {}\n", finding.rule.name, visible(&finding.message));
        let place = self.name(finding.place);
        text.push_str(&format!("   {place}: this line is too long to be shown\n"));
        for note in &finding.notes {
            text.push_str(&format!("   {}: {}\n", self.name(note.place), visible(&note.text)));
        }
        for advice in advice(&self.spots, finding) {
            text.push_str(&format!("   Help: {}\n", visible(&advice)));
        }
        out.text.push_str(&text);
        out.text.push('\n');
    }

    fn place(&mut self, place: Place) -> LabelSpan {
        self.sources.place(&self.spots, place)
    }

    fn name(&self, place: Place) -> String {
        let spot = self.spots.of(place);
        format!("{}:{}:{}", on_one_line(spot.path), spot.line, spot.column)
    }
}

/// The places that are drawn in the file that a finding is about.
fn finding_places(finding: &Finding) -> impl Iterator<Item = Place> {
    let notes = finding.notes.iter().map(|note| note.place);
    std::iter::once(finding.place).chain(notes.filter(|place| place.file == finding.place.file))
}

/// The visible texts of the files of some reports, each made when it is first needed: lines are counted once a file, not
/// once a finding, nor once a pattern of a page.
#[derive(Default)]
struct Sources {
    /// By where a text is in memory, at which bytes something begins in it that is drawn.
    starts: HashMap<*const u8, Vec<u32>>,
    /// By where it is, its number.
    numbers: HashMap<*const u8, usize>,
    shown: Vec<ShownSource>,
}

struct ShownSource {
    name: String,
    source: Source<String>,
    shifts: Shifts,
}

impl Sources {
    fn of(reports: &[Report]) -> Self {
        let mut sources = Self::default();
        for report in reports {
            for place in report.findings.iter().flat_map(finding_places) {
                let file = report.files.get(place.file.0.to_usize());
                let text = file.map_or("", |file| &*file.text);
                sources.starts.entry(text.as_ptr()).or_default().push(place.span.start);
            }
        }
        sources
    }

    fn number(&mut self, spots: &Spots, file: FileId) -> usize {
        let file = spots.file(file);
        let text = file.map_or("", |(file, _)| &*file.text);
        *self.numbers.entry(text.as_ptr()).or_insert_with(|| {
            let starts = self.starts.get(&text.as_ptr()).map(Vec::as_slice).unwrap_or_default();
            let visible =
                file.map(|(file, lines)| (on_one_line(&file.path), visible_lines(text, lines, starts)));
            let (name, (text, shifts)) = visible.unwrap_or_default();
            self.shown.push(ShownSource { name, source: Source::from(text), shifts });
            self.shown.len() - 1
        })
    }

    fn place(&mut self, spots: &Spots, place: Place) -> LabelSpan {
        let number = self.number(spots, place.file);
        let ShownSource { source, shifts, .. } = &self.shown[number];
        let text = source.text();
        let whole = shifts.place(text, place.span);
        // Of a place of several lines, a block say, the first line is enough to find it.
        let first = text[whole.clone()].find(['\n', '\r']).map_or(whole.end, |length| whole.start + length);
        (number, whole.start..first)
    }

    /// How many bytes the line has in which a place begins.
    fn line_length(&mut self, spots: &Spots, place: Place) -> usize {
        let (number, at) = self.place(spots, place);
        let line = self.shown[number].source.get_byte_line(at.start);
        line.map_or(0, |(line, ..)| line.len())
    }
}

impl Cache<usize> for Sources {
    type Storage = String;

    fn fetch(&mut self, file: &usize) -> Result<&Source<String>, impl fmt::Debug> {
        self.shown.get(*file).map(|shown| &shown.source).ok_or("a file that is not part of the report")
    }

    fn display<'a>(&self, file: &'a usize) -> Option<impl fmt::Display + 'a> {
        self.shown.get(*file).map(|shown| shown.name.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_checker::{NoLibrary, Settings, check};
    use std::sync::Arc;

    fn report(text: &str) -> Report {
        let source = knotwright_checker::Source::new("a.knot", text);
        check(Arc::new(source), &NoLibrary, &Settings::default())
    }

    #[test]
    fn a_line_that_is_too_long_is_named_and_not_shown() {
        let text = format!("pattern \"Kelp\"\n{} \u{e9}\n", "thred ".repeat(100_000));
        let outcome = Outcome { path: "a.knot".to_owned(), checked: Ok(vec![report(&text)]) };
        let said = Human { color: false }.file(&outcome);
        assert!(said.contains("a.knot:2:1: this line is too long to be shown"), "{said:.500}");
        assert!(said.len() < 2000, "{}", said.len());
        let short = report(&format!("pattern \"Kelp\"\n{}\n", "thred ".repeat(100)));
        let outcome = Outcome { path: "a.knot".to_owned(), checked: Ok(vec![short]) };
        assert!(Human { color: false }.file(&outcome).contains("2 \u{2502} thred thred"));
    }

    #[test]
    fn the_patterns_of_a_page_share_its_lines() {
        let page: Arc<str> = "pattern\n".repeat(3).into();
        let reports: Vec<Report> = (0..3).map(|at| report("pattern\n").in_page(&page, 8 * at)).collect();
        let (mut sources, mut lines) = (Sources::of(&reports), CountedLines::default());
        let place = |report: &Report| sources.place(&lines.spots(&report.files), report.findings[0].place);
        let places: Vec<LabelSpan> = reports.iter().map(place).collect();
        assert_eq!(sources.shown.len(), 1);
        assert!(places.windows(2).all(|two| two[1].1.start == two[0].1.start + 8), "{places:?}");
    }
}
