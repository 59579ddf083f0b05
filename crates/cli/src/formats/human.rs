//! Findings for people: the lines they are about, what else matters, and what to do.

use super::{ReportFormat, advice};
use crate::outcome::{Outcome, Spots};
use crate::visible::{Shifts, on_one_line, visible, visible_text};
use ariadne::{Cache, Color, Config, IndexType, Label, ReportKind, Source};
use knotwright_checker::{Finding, Place, Report, Severity};
use std::fmt;
use std::ops::Range;

pub(super) struct Human {
    pub(super) color: bool,
}

impl ReportFormat for Human {
    fn file(&self, outcome: &Outcome) -> String {
        let mut out = Vec::new();
        for report in outcome.reports().iter().filter(|report| !report.findings.is_empty()) {
            let mut drawing = Drawing::new(report, self.color);
            report.findings.iter().for_each(|finding| drawing.draw(finding, &mut out));
        }
        let drawn = String::from_utf8_lossy(&out);
        // The drawing library fills lines up with spaces.
        drawn.lines().flat_map(|line| [line.trim_end(), "\n"]).collect()
    }
}

/// A place for the drawing library: which file, and which bytes of its visible text.
type Span = (usize, Range<usize>);

/// The findings of one report, drawn one by one over the same sources.
struct Drawing<'a> {
    report: &'a Report,
    spots: Spots<'a>,
    sources: Sources,
    config: Config,
}

impl<'a> Drawing<'a> {
    fn new(report: &'a Report, color: bool) -> Self {
        let config = Config::new().with_index_type(IndexType::Byte).with_color(color).with_tab_width(2);
        Self { report, spots: Spots::new(&report.files), sources: Sources::default(), config }
    }

    fn draw(&mut self, finding: &Finding, out: &mut Vec<u8>) {
        let (kind, color) = match finding.severity {
            Severity::Error => (ReportKind::Error, Color::Red),
            Severity::Warning => (ReportKind::Warning, Color::Yellow),
        };
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
        // It begins a new frame whenever a label stands above the one before.
        labels.sort_by_key(|(place, ..)| place.1.start);
        drawn.add_labels(
            labels
                .into_iter()
                .map(|(place, color, text)| Label::new(place).with_color(color).with_message(text)),
        );
        drawn.with_helps(advice(&self.spots, finding).map(|advice| visible(&advice).into_owned()));
        // Writing to memory does not fail.
        let _ = drawn.finish().write(&mut self.sources, &mut *out);
        out.push(b'\n');
    }

    fn place(&mut self, place: Place) -> Span {
        self.sources.place(self.report, place)
    }

    fn name(&self, place: Place) -> String {
        let spot = self.spots.of(place);
        format!("{}:{}:{}", on_one_line(spot.path), spot.line, spot.column)
    }
}

/// The visible texts of a report's files, each made when it is first needed: lines are counted once a file, not once
/// a finding.
#[derive(Default)]
struct Sources(Vec<Option<Shown>>);

struct Shown {
    name: String,
    source: Source<String>,
    shifts: Shifts,
}

impl Sources {
    fn place(&mut self, report: &Report, place: Place) -> Span {
        let file = place.file.0 as usize;
        if self.0.len() <= file {
            self.0.resize_with(file + 1, || None);
        }
        let shown = self.0[file].get_or_insert_with(|| {
            let (name, text) = report.files.get(file).map_or(("", ""), |file| (&*file.path, &*file.text));
            let (text, shifts) = visible_text(text);
            Shown { name: on_one_line(name), source: Source::from(text), shifts }
        });
        let text = shown.source.text();
        let whole = shown.shifts.place(text, place.span);
        // Of a place of several lines, a block say, the first line is enough to find it.
        let first = text[whole.clone()].find(['\n', '\r']).map_or(whole.end, |length| whole.start + length);
        (file, whole.start..first)
    }
}

impl Cache<usize> for Sources {
    type Storage = String;

    fn fetch(&mut self, file: &usize) -> Result<&Source<String>, impl fmt::Debug> {
        let shown = self.0.get(*file).and_then(Option::as_ref);
        shown.map(|shown| &shown.source).ok_or("a file that is not part of the report")
    }

    fn display<'a>(&self, file: &'a usize) -> Option<impl fmt::Display + 'a> {
        self.0.get(*file).and_then(Option::as_ref).map(|shown| shown.name.clone())
    }
}
