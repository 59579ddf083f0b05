//! A chart in pages of paper: cut between its lines, and between its strands where it is wider than a page.

use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

use crate::TyingScript;
use crate::path::Point;

use super::grid::{ACROSS, BESIDE, DOWN};
use super::mark::ChartMark;
use super::svg::ChartWriter;
use super::{ChartOptions, WorkingChart};

/// As much of a chart as a page of A4 or US Letter holds, in its pixels. Printed a ninth larger, which gives its smallest
/// letters 8 points, that is 18.7 by 24.8 cm.
pub(super) const PAPER: Point = Point::new(632.0, 836.0);

/// How many strands are on both of two pages that lie side by side: a knot that is cut on one is whole on the other.
const SHARED: usize = 2;

/// In a page of HTML, a heading stands above the chart on its first page.
const HEADING: f64 = 48.0;

/// A page with fewer lines than this takes some of the one before.
const LEAST_LINES: f64 = 3.0;

/// A page that is filled as far as this may end before a block, so that the block is whole on the next one; the first page
/// holds the legend, and often stands below the last steps.
const FILLED: f64 = 0.6;
const FIRST_FILLED: f64 = 0.2;

/// What of a chart is on one page.
#[derive(Debug, Clone, Copy)]
pub(super) struct PageWindow {
    /// Its upper left corner.
    pub(super) corner: Point,
    pub(super) size: Point,
    /// Whether the chart goes on beside it.
    pub(super) is_cut: bool,
}

impl PageWindow {
    pub(super) fn whole(chart: &WorkingChart) -> Self {
        Self { corner: Point::default(), size: chart.size, is_cut: false }
    }

    /// Whether it begins within the strands, so that its margin lies over some of them.
    pub(super) fn begins_within(&self) -> bool {
        self.corner.x > 0.0
    }
}

/// Writes the chart of a band as SVG documents that fit on pages of A4 or US Letter. A page has at least one line.
pub fn chart_pages(script: &TyingScript, options: &ChartOptions) -> Vec<String> {
    let chart = WorkingChart::of(script, options);
    let page = |window| ChartWriter::write(&chart, script, options, window);
    chart.windows(PAPER, 0.0).into_iter().map(page).collect()
}

/// The same for one page of HTML: the first document has all shapes, and the others show other parts of them.
pub(crate) fn chart_windows(script: &TyingScript, options: &ChartOptions) -> Vec<String> {
    let chart = WorkingChart::of(script, options);
    let windows = chart.windows(PAPER, HEADING).into_iter().enumerate();
    let page = |(number, window): (usize, _)| match number {
        0 => ChartWriter::write(&chart, script, options, window),
        _ => ChartWriter::again(&chart, script, options, window),
    };
    windows.map(page).collect()
}

impl WorkingChart {
    /// What of it is on which page of that size: row by row, and of a row from left to right. `above`: what of the first
    /// page is taken.
    pub(super) fn windows(&self, paper: Point, above: f64) -> Vec<PageWindow> {
        let columns = self.columns(paper.x);
        let window = |(left, width), (top, height)| PageWindow {
            corner: Point::new(left, top),
            size: Point::new(width, height),
            is_cut: columns.len() > 1,
        };
        if columns.len() == 1 {
            return self
                .lines(0.0, paper.y, above)
                .into_iter()
                .map(|lines| window(columns[0], lines))
                .collect();
        }
        // The legend is as wide as a page, not as a column.
        let legend = PageWindow {
            corner: Point::default(),
            size: Point::new(self.size.x.min(paper.x), self.legend),
            is_cut: false,
        };
        let rows = self.lines(self.legend, paper.y, 0.0).into_iter();
        let beside = rows.flat_map(|lines| columns.iter().map(move |column| window(*column, lines)));
        std::iter::once(legend).chain(beside).collect()
    }

    /// The left edge and the width of each column of pages, all about as wide.
    fn columns(&self, most: f64) -> Vec<(f64, f64)> {
        if self.size.x <= most {
            return vec![(0.0, self.size.x)];
        }
        let strands = ((self.size.x - 2.0 * BESIDE) / self.cell.x).round().to_usize();
        let fits = ((most - 2.0 * BESIDE) / ACROSS).floor().to_usize().max(SHARED + 1);
        let count = (strands.saturating_sub(SHARED)).div_ceil(fits - SHARED).max(1);
        let each = (strands + SHARED * (count - 1)).div_ceil(count);
        let column = |number: usize| {
            let first = number * (each - SHARED);
            let left = first.to_f64() * ACROSS;
            let right =
                if number + 1 == count { self.size.x } else { BESIDE + (first + each).to_f64() * ACROSS };
            (left, right - left)
        };
        (0..count).map(column).collect()
    }

    /// The upper edge and the height of each row of pages, from a height on. The legend is not cut.
    fn lines(&self, from: f64, most: f64, above: f64) -> Vec<(f64, f64)> {
        let kept = self.kept_together();
        let starts = self.starts();
        // Before what would be parted, if it is whole on the next page.
        let cut_before = |cut: f64, least: f64| {
            let at = starts.partition_point(|start| *start <= cut);
            let start = *starts.get(at.checked_sub(1)?)?;
            let end = starts.get(at).copied().unwrap_or(self.size.y);
            (start >= least && end - start <= most).then_some(start)
        };
        let cut_near = |bottom: f64, least: f64| {
            let mut cut = bottom;
            while kept.contains(&self.line_at(cut)) && cut - DOWN > least {
                cut -= DOWN;
            }
            if kept.contains(&self.line_at(cut)) { bottom } else { cut }
        };
        let mut lines = Vec::new();
        let (mut top, mut bottom, mut room) = (from, self.legend, most - above);
        while bottom < self.size.y {
            let next = (bottom + DOWN).min(self.size.y);
            if next - top > room && bottom > top.max(self.legend) {
                let cut = cut_near(bottom, top.max(self.legend));
                let filled = if top < self.legend { FIRST_FILLED } else { FILLED };
                let cut = cut_before(cut, (top + room * filled).max(self.legend)).unwrap_or(cut);
                lines.push((top, cut - top));
                (top, room, bottom) = (cut, most, cut);
                continue;
            }
            bottom = next;
        }
        lines.push((top, self.size.y - top));
        if let [.., (start, before), (top, height)] = lines.as_mut_slice()
            && *height < LEAST_LINES * DOWN
            && *before > 2.0 * LEAST_LINES * DOWN
        {
            let cut = cut_near(*top - LEAST_LINES * DOWN, start.max(self.legend));
            *before -= *top - cut;
            *height += *top - cut;
            *top = cut;
        }
        lines
    }

    /// Where blocks begin with their headings, and where what is below the last row does.
    fn starts(&self) -> Vec<f64> {
        let top = |line: u32| self.legend + f64::from(line) * DOWN;
        let heading = |mark: &ChartMark| match mark {
            ChartMark::Text { at, bold: true, .. } if at[1] > self.legend => Some(at[1]),
            _ => None,
        };
        let lines: BTreeSet<u32> = self.marks.iter().filter_map(heading).map(|y| self.line_of(y)).collect();
        // A long heading has several lines.
        let firsts = lines
            .iter()
            .copied()
            .filter(|line| line.checked_sub(1).is_none_or(|above| !lines.contains(&above)));
        let number = |mark: &ChartMark| match mark {
            ChartMark::Number { at, .. } => Some(self.line_of(at[1]) + 1),
            _ => None,
        };
        let below = self.marks.iter().filter_map(number).max();
        let below =
            below.filter(|line| top(*line) <= self.size.y - LEAST_LINES * DOWN && !lines.contains(line));
        firsts.chain(below).map(top).collect()
    }

    /// The line in which a height is.
    fn line_of(&self, y: f64) -> u32 {
        ((y - self.legend) / DOWN).floor().to_u32()
    }

    /// The line that begins at a height.
    fn line_at(&self, y: f64) -> u32 {
        ((y - self.legend) / DOWN).round().to_u32()
    }

    /// The lines that no page begins with: what is above leads to them, as a heading does, or the strands as they hang.
    fn kept_together(&self) -> BTreeSet<u32> {
        let leading = |mark: &ChartMark| match mark {
            ChartMark::Text { at, .. } | ChartMark::Hanging { at, .. } => Some(at[1]),
            ChartMark::Label { area, .. } => Some(area[1] + area[3] / 2.0),
            _ => None,
        };
        let below = self.marks.iter().filter_map(leading).filter(|y| *y > self.legend);
        below.map(|y| self.line_of(y) + 1).collect()
    }
}
