//! Blocks one under the other, line by line.
//!
//! A chart is read from the top down like a text, so its layout is a single count of lines: a heading, a row of strands, a
//! section or a row of knots takes the next one, and a knot gets the line of its row. Columns are positions, and never
//! move. Lines are cut into pages afterwards ([`pages`](super::pages)).

use knotwright_numbers::ToNumber;
use std::ops::Range;

use knotwright_band::beads::{bead_rooms, bead_spots};
use knotwright_band::{Knot, Piece};
use knotwright_color::Rgb;

use crate::path::Point;
use crate::placed::{Placed, colored, in_rows};
use crate::prose::words::fill_in;
use crate::script::{RowEntry, TiedRow};
use crate::{BandPart, TyingScript};

use super::ChartWords;
use super::blocks::{DrawnPart, PartRole};
use super::dyed::DyedParts;
use super::grid::{ACROSS, BEAD, BESIDE, DOWN, Grid};
use super::legend::shorten_name;
use super::mark::ChartMark;
use super::numbered::{wrap_text, write_ranges};
use super::pages::PAPER;

/// About how wide a letter of a label is.
const LETTER: f64 = 6.6;

/// The height of the letters of a heading.
const HEADING: f64 = 12.5;

/// From the left edge to a heading that needs the whole width.
const EDGE: f64 = 18.0;

/// A block in its place; the rows of its knots are lines of the chart.
pub(super) struct Laid {
    pub(super) knots: Vec<Placed>,
    /// Its lines.
    pub(super) lines: Range<u32>,
}

pub(super) struct Laying<'a> {
    pub(super) script: &'a TyingScript,
    pub(super) dyed: &'a DyedParts,
    pub(super) grid: Grid,
    pub(super) words: &'a ChartWords,
    /// How many kinds of sets there are.
    pub(super) kinds: usize,
    pub(super) marks: Vec<ChartMark>,
    /// The next line.
    pub(super) line: u32,
    /// The colors that were shown last as they hang.
    pub(super) shown: Option<Vec<u16>>,
}

impl Laying<'_> {
    pub(super) fn block(&mut self, block: &DrawnPart<'_>) -> Laid {
        self.heading(block);
        self.hanging(&self.dyed.hanging(block.part, &block.order, &block.threads));
        let (first, piece) = (self.line, &block.passage.piece);
        let mut rows = vec![first; piece.knots().len()];
        for entry in block.passage.rows() {
            match entry {
                RowEntry::Section(title) => self.section(title),
                RowEntry::Row(row) => {
                    row.knots.iter().for_each(|knot| rows[knot.to_usize()] = self.line);
                    self.row(piece, &row);
                }
                RowEntry::SectionEnd | RowEntry::Note(_) | RowEntry::Bead(_) | RowEntry::Join(_) => {}
            }
        }
        let part = block.passage.part(0);
        self.beads(&part, &rows);
        let knots = in_rows(&part, block.part.to_u32(), &rows, &block.order);
        let mut knots: Vec<Placed> = colored(piece, knots, &block.threads).collect();
        // Where threads change color, other colors.
        for (knot, colors) in knots.iter_mut().zip(self.dyed.knots(block.part)) {
            knot.colors = *colors;
        }
        Laid { knots, lines: first..self.line }
    }

    /// The beads of a part whose knots are on these lines.
    fn beads(&mut self, part: &BandPart<'_>, lines: &[u32]) {
        let knots = lines.iter().copied().zip(part.piece.knots().iter().map(|knot| knot.gap));
        let rooms = bead_rooms(knots, &part.beads);
        let spots = bead_spots(&rooms, &part.beads, |_| 2.0 * BEAD / DOWN);
        for (bead, spot) in part.beads.iter().zip(spots) {
            let y = self.grid.line(0) + (spot.down - 0.5) * DOWN;
            self.bead([self.grid.column(spot.across), y], BEAD, bead.bead);
        }
    }

    pub(super) fn bead(&mut self, at: [f64; 2], radius: f64, bead: u16) {
        let color =
            self.script.beads.get(usize::from(bead)).map_or(Rgb::new(128, 128, 128), |bead| bead.color);
        self.marks.push(ChartMark::bead(at, radius, u32::from(bead) + 1, color));
    }

    fn heading(&mut self, block: &DrawnPart<'_>) {
        let mut text = match block.what {
            PartRole::Opening => self.words.opening.clone(),
            PartRole::Set => {
                let numbers = block.numbers(self.kinds);
                let is_several = block.times > 1 && !numbers.is_empty();
                let set = if is_several { &self.words.sets } else { &self.words.set };
                format!("{set} {numbers}").trim().to_owned()
            }
            PartRole::Closing => self.words.closing.clone(),
        };
        if block.times > 1 {
            text.push_str(&format!(" \u{d7} {}", block.times));
        }
        self.lines(&text, true);
    }

    /// Says which sets are not drawn.
    pub(super) fn left_out(&mut self, numbers: &[u64]) {
        if numbers.is_empty() {
            return;
        }
        let words = self.words;
        let sentence = if numbers.len() == 1 { &words.left_out_one } else { &words.left_out };
        self.lines(&fill_in(sentence, &[("numbers", &write_ranges(numbers))]), false);
    }

    /// A text beside the strands, in as many lines as it takes.
    fn lines(&mut self, text: &str, bold: bool) {
        let letter = HEADING * 0.58;
        let room = |left: f64| self.grid.width().min(PAPER.x) - left - 8.0;
        let beside = self.grid.left - BESIDE + EDGE;
        let fits = text.chars().count().to_f64() * letter <= room(beside);
        let left = if fits { beside } else { EDGE };
        for text in wrap_text(text, room(left), letter) {
            let at = [left, self.grid.line(self.line) + 2.0];
            self.marks.push(ChartMark::Text { at, text, size: HEADING, bold });
            self.line += 1;
        }
    }

    /// The colors as they hang, if it is not as they hung where they were last shown.
    pub(super) fn hanging(&mut self, threads: &[u16]) {
        if threads.is_empty() || self.shown.as_deref() == Some(threads) {
            return;
        }
        let (y, last) = (self.grid.line(self.line), threads.len().to_u32());
        for (number, thread) in (1_u32..).zip(threads) {
            let x = self.grid.column(f64::from(number) - 1.0);
            self.marks.push(ChartMark::Hanging { at: [x, y], thread: *thread });
            if number == 1 || number == last || (number.is_multiple_of(5) && number + 1 < last) {
                self.marks.push(ChartMark::Position { at: [x, y - DOWN * 0.5], number });
            }
        }
        self.line += 1;
        self.shown = Some(threads.to_vec());
    }

    fn section(&mut self, title: &str) {
        let text = shorten_name(title);
        let width = text.chars().count().to_f64() * LETTER + 16.0;
        let top = self.grid.line(self.line) - 9.0;
        // In a chart of several columns of pages, the middle may be cut.
        let is_wide = self.grid.width() > PAPER.x;
        let left = if is_wide { self.grid.left } else { (self.grid.left + self.grid.right() - width) / 2.0 };
        self.marks.push(ChartMark::Label { area: [left, top, width, 18.0], text });
        self.line += 1;
    }

    fn row(&mut self, piece: &Piece, row: &TiedRow) {
        let (grid, y) = (&self.grid, self.grid.line(self.line));
        if row.number.is_multiple_of(2) {
            let area = [grid.left, y - DOWN / 2.0, grid.right() - grid.left, DOWN];
            self.marks.push(ChartMark::Stripe { area });
        }
        let rightward = begins_left(piece, row);
        // Ribbons reach a little over the edge.
        let x = if rightward { grid.left - ACROSS * 0.3 } else { grid.right() + ACROSS * 0.3 };
        self.marks.push(ChartMark::Number { at: [x, y], number: row.number, rightward });
        self.line += 1;
    }

    pub(super) fn end(&self) -> Point {
        Point::new(self.grid.width(), self.grid.line(self.line) - DOWN * 0.2)
    }
}

/// Whether one begins a row at the left: the leader starts there, or the strand that ties its first knot hangs in that
/// half.
fn begins_left(piece: &Piece, row: &TiedRow) -> bool {
    let knots: Vec<Knot> =
        row.knots.iter().filter_map(|knot| piece.knots().get(knot.to_usize()).copied()).collect();
    match (row.led, knots.as_slice()) {
        (Some(_), [first, .., last]) => first.gap < last.gap,
        _ => {
            let first = row.knots.iter().min().and_then(|knot| piece.knots().get(knot.to_usize()));
            first.is_none_or(|knot| {
                let place = usize::from(knot.gap) + usize::from(!knot.kind.left_works());
                place * 2 < piece.strands()
            })
        }
    }
}
