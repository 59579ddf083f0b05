//! What is made of the strands before the first knot and after the last, above and below the blocks.

use super::grid::{ACROSS, DOWN};
use super::laying::Laying;
use crate::Band;
use crate::dye::EndedStrand;
use crate::frame::PictureFrame;
use crate::made::{MadeEnd, lay_begin, lay_finish};
use crate::path::Point;
use crate::scene::EndCord;
use knotwright_numbers::ToNumber;

/// How thick a strand is, in pixels.
pub(super) const THICKNESS: f64 = 8.0;

impl Laying<'_> {
    /// The beginning, on lines of its own.
    pub(super) fn beginning(&mut self) -> Vec<EndCord> {
        let made = lay_begin(&self.bare(), &self.frame());
        self.placed(made, true)
    }

    /// The end; by position, which strand hangs there and of which thread.
    pub(super) fn ending(&mut self, order: &[u8], threads: &[u16]) -> Vec<EndCord> {
        let mut ended: Vec<EndedStrand> = self.dyed.ended.clone();
        if ended.is_empty() {
            ended = self.script.strands.iter().map(|thread| EndedStrand::of(*thread)).collect();
            for (strand, thread) in order.iter().zip(threads) {
                ended.get_mut(usize::from(*strand)).into_iter().for_each(|of| of.thread = *thread);
            }
        }
        let made = lay_finish(&self.bare(), &self.frame(), order, &ended);
        self.placed(made, false)
    }

    /// Whether an end is drawn shorter than it is.
    pub(super) fn shortens_ends(&self) -> bool {
        let made = &self.script.made;
        made.begin.iter().chain(&made.finish).any(|works| self.frame().shortens(works))
    }

    fn bare(&self) -> Band<'_> {
        let script = self.script;
        Band {
            title: String::new(),
            threads: script.threads.clone(),
            beads: script.beads.clone(),
            strands: script.strands.clone(),
            gauge: script.gauge,
            start: script.start.clone(),
            made: script.made.clone(),
            taken: script.taken,
            parts: Vec::new(),
        }
    }

    fn frame(&self) -> PictureFrame {
        PictureFrame::bare(Point::new(ACROSS, DOWN), THICKNESS, self.grid.strands)
    }

    fn placed(&mut self, made: Option<MadeEnd>, is_begin: bool) -> Vec<EndCord> {
        let Some(made) = made else { return Vec::new() };
        let lines = ((made.height + THICKNESS) / DOWN).ceil().to_u32();
        let middle = (self.grid.left + self.grid.right()) / 2.0;
        let edge = |line: u32| self.grid.line(line) - DOWN / 2.0;
        let at = Point::new(middle, edge(if is_begin { self.line + lines } else { self.line }));
        self.line += lines;
        let way = if is_begin { -1.0 } else { 1.0 };
        for bead in &made.beads {
            self.bead([at.x + bead.middle.x, at.y + way * bead.middle.y], bead.radius, bead.bead);
        }
        made.placed(at, is_begin).collect()
    }
}
