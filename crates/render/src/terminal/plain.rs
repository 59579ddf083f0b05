//! Letters: every knot is the letter of the thread that is seen, every row a line.

use crate::Band;
use crate::letters::of_threads;
use crate::placed::Placed;
use crate::scene::shown_thread;
use std::ops::Range;

/// Gaps whose knots are written side by side, and how many columns each of them gets.
struct GapPanel {
    gaps: Range<usize>,
    apart: usize,
}

pub(super) fn write_letters(out: &mut String, band: &Band<'_>, placed: &[Placed], columns: usize) {
    let mut knots: Vec<&Placed> = placed.iter().collect();
    knots.sort_by_key(|knot| (knot.row, knot.gap));
    let gaps = band.strands.len().saturating_sub(1);
    // Two columns to a gap set knots apart like bricks; one if there is no room for two.
    let apart = if gaps * 2 <= columns + 1 { 2 } else { 1 };
    let panel = columns.div_ceil(apart);
    let letters = of_threads(&band.threads);
    for from in (0..gaps).step_by(panel) {
        let to = (from + panel).min(gaps);
        if gaps > panel {
            out.push_str(&super::cut(&format!("{}-{}:", from + 1, to + 1), columns));
            out.push('\n');
        }
        for row in knots.chunk_by(|a, b| a.row == b.row) {
            let letter = |knot: &Placed| {
                let letter = letters.get(usize::from(shown_thread(band, knot))).copied().unwrap_or('?');
                if knot.wished.is_some() { small(letter) } else { letter }
            };
            line(out, row, letter, &GapPanel { gaps: from..to, apart });
        }
    }
}

/// A letter for what nothing ties yet.
fn small(letter: char) -> char {
    let mut small = letter.to_lowercase();
    small.next().filter(|_| small.next().is_none()).unwrap_or(letter)
}

fn line(out: &mut String, row: &[&Placed], letter: impl Fn(&Placed) -> char, panel: &GapPanel) {
    let mut column = 0;
    for knot in row {
        let gap = usize::from(knot.gap);
        if panel.gaps.contains(&gap) {
            let place = (gap - panel.gaps.start) * panel.apart;
            out.extend(std::iter::repeat_n(' ', place - column));
            out.push(letter(knot));
            column = place + 1;
        }
    }
    out.push('\n');
}
