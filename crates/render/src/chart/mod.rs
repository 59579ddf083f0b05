//! The working chart: what to tie, row by row, readable in black and white.
//!
//! The strand that ties is a wide ribbon with the letter of its thread, the strand it is tied on a thin line that
//! goes under it. A ribbon that falls to the right is a forward knot, one that falls to the left a backward knot, one
//! that turns back a turning knot; where one strand ties on and on, its ribbon goes on from knot to knot.
//!
//! It is made for the hands: a row has one number, on a tag at the side where one begins it; the strands are shown as
//! they hang where that is news, at the start and wherever else their colors lie in another order; and sets that are
//! tied alike are one block, with how often it is tied. Rows are those of the words (see `script/rows.rs`).
//!
//! [`WorkingChart`] is the chart in shapes, which the live page paints on its own; [`draw_chart`] writes it as SVG.

mod blocks;
mod dyed;
mod ends;
mod grid;
mod joins;
mod laying;
mod legend;
mod lines;
mod mark;
mod numbered;
mod pages;
mod shapes;
mod svg;
mod text;
mod words;

use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

use knotwright_color::Rgb;

pub use mark::ChartMark;
pub use pages::chart_pages;
pub(crate) use pages::chart_windows;
pub use shapes::{ChartShape, hanging_end, knot_shape, tag_shape};
pub use text::chart_text;
pub use words::ChartWords;

use crate::bead::Form;
use crate::path::Point;
use crate::placed::Placed;
use crate::{Cord, EndCord, TyingScript, scene};
use blocks::{Blocks, PartRole, divide_blocks};
use dyed::DyedParts;
use grid::{ACROSS, DOWN, Grid};
use laying::{Laid, Laying};
use pages::PageWindow;

/// How a chart is written.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartOptions {
    /// Whether ribbons have the colors of their threads; if not, the chart has ink on its ground and nothing else.
    pub color: bool,
    /// What it is drawn on.
    pub ground: Rgb,
    /// What its few words are.
    pub words: ChartWords,
    /// The most sets that differ that are drawn.
    pub most_sets: usize,
    /// Put before every name inside the chart, so that several can live in one page. Only ASCII letters, digits,
    /// `-` and `_` are kept.
    pub prefix: String,
}

impl Default for ChartOptions {
    fn default() -> Self {
        Self {
            color: true,
            ground: Rgb::WHITE,
            words: ChartWords::default(),
            most_sets: usize::MAX,
            prefix: String::new(),
        }
    }
}

/// A chart as shapes, in pixels from its upper left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkingChart {
    /// Its width and height.
    pub size: Point,
    /// From one position to the next, and from one line to the next.
    pub cell: Point,
    /// Opening, sets that differ and closing, one under the other.
    pub blocks: Vec<ChartBlock>,
    /// By part of the band, the block that shows it; none if it is not drawn.
    pub block_of: Vec<Option<u32>>,
    /// What is made of the strands above the blocks and below them, in the order in which it is drawn.
    pub ends: Vec<EndCord>,
    /// How thick a strand is there.
    pub thickness: f64,
    /// All else.
    pub marks: Vec<ChartMark>,
    /// How high the legend is; lines of one height follow.
    pub legend: f64,
}

/// An opening, a set or a closing, drawn once for all parts that are tied just like it.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartBlock {
    /// The first part that it shows.
    pub part: u32,
    /// Its knots, in the order of tying.
    pub knots: Vec<ChartKnot>,
    /// By position at its start, the strands, which are drawn before the knots.
    pub cords: Vec<Cord>,
}

/// A knot on a chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartKnot {
    /// Its middle.
    pub middle: Point,
    /// Its ribbon.
    pub form: Form,
    /// The number of the color that is seen: that of its thread, or of a further color of it.
    pub thread: u16,
}

/// Writes the chart of a band as one SVG document.
pub fn draw_chart(script: &TyingScript, options: &ChartOptions) -> String {
    let chart = WorkingChart::of(script, options);
    svg::ChartWriter::write(&chart, script, options, PageWindow::whole(&chart))
}

impl WorkingChart {
    /// Lays out the chart of a band.
    pub fn of(script: &TyingScript, options: &ChartOptions) -> Self {
        let dyed = if options.color { DyedParts::of(script) } else { DyedParts::default() };
        let Blocks { list, of, left_out, end, threads } = divide_blocks(script, &dyed, options.most_sets);
        let grid = Grid::of(script.strands.len().min(knotwright_band::MOST_STRANDS));
        let kinds = list.iter().filter(|block| block.what == PartRole::Set).count();
        let words = &options.words;
        let mut laying =
            Laying { script, dyed: &dyed, grid, words, kinds, marks: Vec::new(), line: 0, shown: None };
        let mut ends = laying.beginning();
        let fits = |block: &&blocks::DrawnPart<'_>| block.passage.piece.strands() == grid.strands;
        let (closing, before): (Vec<_>, Vec<_>) =
            list.iter().filter(fits).partition(|block| block.what == PartRole::Closing);
        let mut laid: Vec<(&blocks::DrawnPart<'_>, Laid)> =
            before.into_iter().map(|block| (block, laying.block(block))).collect();
        laying.left_out(&left_out);
        laid.extend(closing.into_iter().map(|block| (block, laying.block(block))));
        laying.hanging(&dyed.hanging(usize::MAX, &end, &threads));
        ends.extend(laying.ending(&end, &threads));
        let forms: BTreeSet<Form> =
            laid.iter().flat_map(|(_, laid)| &laid.knots).map(scene::form_of).collect();
        let (mut marks, height) = legend::draw_legend(
            script,
            &legend::ChartSigns {
                forms,
                has_joins: joins::are_there(&list),
                shortens_ends: laying.shortens_ends(),
            },
            words,
            grid.width().min(pages::PAPER.x),
        );
        let size = Point::new(grid.width(), laying.end().y + height);
        marks.extend(laying.marks.into_iter().map(|mark| mark.lowered(height)));
        let lower = Grid { top: height, ..grid };
        marks.extend(laid.iter().flat_map(|(block, laid)| joins::signs(block, &laid.knots, &lower)));
        let ends = ends.into_iter().map(|end| EndCord { path: end.path.lowered(height), ..end }).collect();
        let grid = Grid { top: height, ..grid };
        let block = |(block, laid): (&blocks::DrawnPart<'_>, Laid)| {
            let colors = dyed.hanging(block.part, &block.order, &block.threads);
            ChartBlock {
                part: block.part.to_u32(),
                knots: laid.knots.iter().map(|knot| on_chart(knot, &grid)).collect(),
                cords: lines::trace_strands(&grid, &laid.knots, laid.lines.clone(), &block.order, &colors),
            }
        };
        let blocks = laid.into_iter().map(block).collect();
        let (cell, thickness) = (Point::new(ACROSS, DOWN), ends::THICKNESS);
        Self { size, cell, blocks, block_of: of, ends, thickness, marks, legend: height }
    }
}

fn on_chart(knot: &Placed, grid: &Grid) -> ChartKnot {
    ChartKnot {
        middle: grid.knot(knot.row, knot.gap),
        form: scene::form_of(knot),
        thread: scene::shown_color(knot),
    }
}
