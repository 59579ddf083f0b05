//! The working chart: what to tie, row by row, readable in black and white.
//!
//! The strand that ties is a wide ribbon with the letter of its thread, the strand it is tied on a thin line that
//! goes under it. A ribbon that falls to the right is a forward knot, one that falls to the left a backward knot, one
//! that turns back a turning knot; where one strand ties on and on, its ribbon goes on from knot to knot.

mod grid;
mod legend;
mod lines;
mod ribbon;
mod words;

use knotwright_color::Rgb;

pub use words::ChartWords;

use crate::Band;
use crate::letters::letters;
use crate::path::Point;
use crate::placed::{Placed, place};
use crate::xml::Xml;
use grid::Grid;

/// How a chart is written.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartOptions {
    /// Whether ribbons have the colors of their threads; if not, the chart is black on white.
    pub color: bool,
    /// What its few words are.
    pub words: ChartWords,
    /// Put before every name inside the chart, so that several can live in one page. Only ASCII letters, digits,
    /// `-` and `_` are kept.
    pub prefix: String,
}

impl Default for ChartOptions {
    fn default() -> Self {
        Self { color: true, words: ChartWords::default(), prefix: String::new() }
    }
}

/// Writes the chart of a band as one SVG document: on white, every row numbered from 1, the threads above and below
/// where they hang, and a legend of what is there.
pub fn chart(band: &Band<'_>, options: &ChartOptions) -> String {
    let knots = place(band);
    let chart =
        Chart { band, options, grid: Grid::of(band, &knots), letters: letters(&band.threads), knots: &knots };
    let mut xml = Xml::new(&options.prefix);
    let size = chart.grid.size(legend::height(&chart));
    xml.open(size, size, &band.title);
    xml.put("<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
    chart.draw(&mut xml);
    xml.put("</svg>\n");
    xml.finish()
}

struct Chart<'a> {
    band: &'a Band<'a>,
    options: &'a ChartOptions,
    grid: Grid,
    letters: Vec<char>,
    knots: &'a [Placed],
}

impl Chart<'_> {
    fn draw(&self, xml: &mut Xml) {
        let grid = &self.grid;
        xml.put("<g font-family=\"sans-serif\" font-size=\"11\" text-anchor=\"middle\">\n");
        xml.text(
            Point::new(grid.size(0.0).x / 2.0, 20.0),
            &self.band.title,
            " font-size=\"15\" font-weight=\"bold\"",
        );
        self.rows(xml);
        let order = lines::draw(self, xml);
        self.names(xml, grid.top - 8.0, (0..grid.strands).map(|strand| strand as u8));
        self.names(xml, grid.bottom() + 16.0, order.into_iter());
        ribbon::draw(self, xml);
        legend::draw(self, xml);
        xml.put("</g>\n");
    }

    /// The letters of strands where they hang, and above them their positions.
    fn names(&self, xml: &mut Xml, y: f64, order: impl Iterator<Item = u8>) {
        for (position, strand) in order.enumerate() {
            let x = self.grid.column(position as f64);
            xml.text(Point::new(x, y), &self.letter_of(strand).to_string(), " font-weight=\"bold\"");
            if y < self.grid.top {
                xml.text(
                    Point::new(x, y - 13.0),
                    &(position + 1).to_string(),
                    " font-size=\"8.5\" fill=\"#666\"",
                );
            }
        }
    }

    /// A light stripe under every other row, and the rows' numbers on both sides.
    fn rows(&self, xml: &mut Xml) {
        let (grid, right) = (&self.grid, self.grid.right());
        for row in 0..grid.rows {
            let y = grid.row(row);
            if row % 2 == 1 {
                let top = y - grid::DOWN / 2.0;
                xml.put("<rect");
                xml.numbers(&[
                    ("x", grid.left),
                    ("y", top),
                    ("width", right - grid.left),
                    ("height", grid::DOWN),
                ]);
                xml.put(" fill=\"#f1efe9\"/>\n");
            }
            let number = (row + 1).to_string();
            let style = if row % 10 == 9 { " font-weight=\"bold\"" } else { "" };
            xml.text(Point::new(grid.left - 20.0, y + 4.0), &number, style);
            xml.text(Point::new(right + 20.0, y + 4.0), &number, style);
        }
        for (row, from_left) in grid.led.iter() {
            let (x, tip) = if *from_left { (grid.left - 10.0, 7.0) } else { (right + 10.0, -7.0) };
            xml.triangle(Point::new(x, grid.row(*row)), tip);
        }
    }

    fn letter_of(&self, strand: u8) -> char {
        self.letters.get(usize::from(self.thread(strand))).copied().unwrap_or('?')
    }

    fn thread(&self, strand: u8) -> u16 {
        crate::scene::thread(self.band, strand)
    }

    /// What a thread's ribbon is filled with, and the ink on it.
    fn paint(&self, thread: u16) -> (Rgb, Rgb) {
        let color = self.band.threads.get(usize::from(thread)).map(|thread| thread.color);
        match color.filter(|_| self.options.color) {
            Some(color) => (color, color.ink()),
            None => (Rgb::WHITE, Rgb::BLACK),
        }
    }
}
