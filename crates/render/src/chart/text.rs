//! The chart in letters, for a terminal: the marks of the notation, each with the letter of the thread that shows.

use std::collections::{BTreeMap, BTreeSet};

use knotwright_numbers::ToNumber;
use knotwright_wording::printable;

use crate::TyingScript;
use crate::bead::Form;
use crate::letters::of_threads;

use super::grid::{ACROSS, DOWN};
use super::legend::explain_form;
use super::mark::ChartMark;
use super::{ChartOptions, WorkingChart};

/// From one strand to the next, in characters: room for a mark and its letter, or for the mark alone.
const WIDE: usize = 3;
const NARROW: usize = 2;
/// Where a strand goes on with a new piece of thread.
const JOIN: char = '*';
/// Beside the strands: room for the numbers of rows.
const BESIDE: usize = 14;

/// The chart of a band in at most that many columns, if its strands fit into them at all.
pub fn chart_text(script: &TyingScript, options: &ChartOptions, columns: usize) -> String {
    // Threads are letters here, whatever colors they have.
    let chart = WorkingChart::of(script, &ChartOptions { color: false, ..options.clone() });
    let strands = script.strands.len();
    let step = if strands * WIDE + BESIDE <= columns { WIDE } else { NARROW };
    let left = (chart.size.x - strands.to_f64() * ACROSS) / 2.0;
    let mut page = LetterGrid {
        step,
        left,
        top: chart.legend,
        letters: of_threads(&script.threads),
        lines: BTreeMap::new(),
    };
    page.knots(&chart, strands);
    chart.marks.iter().for_each(|mark| page.mark(mark));
    format!("{}\n{}", legend(script, &chart, options), page.text())
}

fn legend(script: &TyingScript, chart: &WorkingChart, options: &ChartOptions) -> String {
    let mut out = format!("{}\n\n", harmless(&script.title));
    for (thread, letter) in script.threads.iter().zip(of_threads(&script.threads)) {
        out.push_str(&format!("{letter}  {}\n", harmless(&thread.name)));
    }
    let counts = script.bead_counts();
    for ((number, bead), _) in (1..).zip(&script.beads).zip(counts).filter(|(_, count)| *count > 0) {
        out.push_str(&format!("({number})  {}\n", harmless(&bead.name)));
    }
    out.push('\n');
    let forms: BTreeSet<Form> =
        chart.blocks.iter().flat_map(|block| &block.knots).map(|knot| knot.form).collect();
    for form in forms {
        out.push_str(&format!("{}  {}\n", sign(form), explain_form(form, &options.words)));
    }
    if chart.marks.iter().any(|mark| matches!(mark, ChartMark::Join { .. })) {
        out.push_str(&format!("{JOIN}  {}\n", options.words.joined));
    }
    out
}

fn harmless(text: &str) -> String {
    text.chars().filter_map(printable).collect()
}

/// As in the notation.
fn sign(form: Form) -> char {
    match form {
        Form::Forward => '\\',
        Form::Backward => '/',
        Form::ForwardBackward => '>',
        Form::BackwardForward => '<',
        Form::LeaderShows => '.',
        Form::StrandShows => '#',
        Form::Wished => '?',
    }
}

struct LetterGrid {
    step: usize,
    /// In the chart's pixels, the left edge of the first position, and the upper edge of the first line.
    left: f64,
    top: f64,
    letters: Vec<char>,
    /// By line, what is at which column.
    lines: BTreeMap<u32, BTreeMap<usize, char>>,
}

impl LetterGrid {
    fn knots(&mut self, chart: &WorkingChart, strands: usize) {
        for knot in chart.blocks.iter().flat_map(|block| &block.knots) {
            let line = self.line(knot.middle.y);
            // Where no knot is, the strand hangs down.
            if !self.lines.contains_key(&line) {
                (0..strands).for_each(|strand| self.put(line, self.strand(strand), "|"));
            }
            let gap = ((knot.middle.x - self.left) / ACROSS).round().to_usize().saturating_sub(1);
            let at = self.strand(gap);
            let letter = self.letter(knot.thread);
            let shown = match self.step {
                WIDE => format!(" {}{letter} ", sign(knot.form)),
                _ => format!(" {} ", sign(knot.form)),
            };
            self.put(line, at, &shown);
        }
    }

    fn mark(&mut self, mark: &ChartMark) {
        match mark {
            ChartMark::Text { at, text, .. } if at[1] > self.top => {
                self.put(self.line(at[1]), 0, &harmless(text));
            }
            ChartMark::Label { area, text } => {
                let line = self.line(area[1] + area[3] / 2.0);
                self.put(line, self.strand(0), &format!("-- {} --", harmless(text)));
            }
            ChartMark::Number { at, number, rightward } => {
                let column = if *rightward {
                    (BESIDE / 2).saturating_sub(2 + number.to_string().len())
                } else {
                    self.column(at[0]) + 1
                };
                self.put(self.line(at[1]), column, &number.to_string());
            }
            ChartMark::Bead { at, number, .. } if at[1] > self.top => {
                let strand = ((at[0] - self.left) / ACROSS).to_usize();
                self.put(self.line(at[1]), self.strand(strand), &format!("({number})"));
            }
            ChartMark::Hanging { at, thread } if at[1] > self.top => {
                let strand = ((at[0] - self.left) / ACROSS).to_usize();
                self.put(self.line(at[1]), self.strand(strand), &self.letter(*thread).to_string());
            }
            ChartMark::Join { at } if at[1] > self.top => {
                let strand = ((at[0] - self.left) / ACROSS - 0.5).round().to_usize();
                self.put(self.line(at[1]), self.strand(strand), &JOIN.to_string());
            }
            _ => {}
        }
    }

    fn letter(&self, thread: u16) -> char {
        self.letters.get(usize::from(thread)).copied().unwrap_or('?')
    }

    fn line(&self, y: f64) -> u32 {
        ((y - self.top) / DOWN).to_u32()
    }

    /// The column of a strand.
    fn strand(&self, strand: usize) -> usize {
        BESIDE / 2 + strand * self.step
    }

    fn column(&self, x: f64) -> usize {
        BESIDE / 2 + ((x - self.left) / ACROSS * self.step.to_f64()).to_usize()
    }

    fn put(&mut self, line: u32, column: usize, text: &str) {
        let line = self.lines.entry(line).or_default();
        line.extend(text.chars().enumerate().map(|(at, letter)| (column + at, letter)));
    }

    fn text(&self) -> String {
        let line = |line: &BTreeMap<usize, char>| {
            let end = line.keys().last().map_or(0, |last| last + 1);
            let text: String = (0..end).map(|column| line.get(&column).copied().unwrap_or(' ')).collect();
            format!("{}\n", text.trim_end())
        };
        self.lines.values().map(line).collect()
    }
}
