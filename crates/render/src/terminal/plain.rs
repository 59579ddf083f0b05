//! Letters: every knot is the letter of the thread that is seen, every row a line.

use crate::frame::PictureFrame;
use crate::letters::of_threads;
use crate::placed::Placed;
use crate::scene::shown_color;
use crate::threaded::place_threaded;
use crate::{Band, list_colors};
use knotwright_numbers::ToNumber;
use std::collections::BTreeMap;
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
    let letters = letters_of_colors(band);
    let beads = beads(band, placed);
    for from in (0..gaps).step_by(panel) {
        let to = (from + panel).min(gaps);
        if gaps > panel {
            out.push_str(&super::cut(&format!("{}-{}:", from + 1, to + 1), columns));
            out.push('\n');
        }
        let mut told = 0;
        for row in knots.chunk_by(|a, b| a.row == b.row) {
            let above = beads.partition_point(|bead| bead.0 <= f64::from(row[0].row));
            write_beads(out, &beads[told..above], &GapPanel { gaps: from..to, apart });
            told = above;
            let letter = |knot: &Placed| {
                let letter = letters.get(usize::from(shown_color(knot))).copied().unwrap_or('?');
                if knot.wished.is_some() { small(letter) } else { letter }
            };
            line(out, row, letter, &GapPanel { gaps: from..to, apart });
        }
        write_beads(out, &beads[told..], &GapPanel { gaps: from..to, apart });
    }
}

/// By number of a color, the letter of its thread.
fn letters_of_colors(band: &Band<'_>) -> Vec<char> {
    let letters = of_threads(&band.threads);
    let letter = |(thread, _)| letters.get(usize::from(thread)).copied().unwrap_or('?');
    list_colors(&band.threads).into_iter().map(letter).collect()
}

/// The sign of a bead: its number, as in the chart.
pub(super) fn sign_of(bead: u16) -> char {
    char::from_digit(u32::from(bead) + 1, 10).unwrap_or('o')
}

/// How far down each bead is, in rows, at which position, and its sign; those farther up first.
fn beads(band: &Band<'_>, placed: &[Placed]) -> Vec<(f64, f64, char)> {
    let frame = PictureFrame::of(band, placed);
    let mut beads: Vec<(f64, f64, char)> = place_threaded(band, placed, &frame)
        .iter()
        .map(|bead| {
            let down = (bead.middle.y - frame.corner.y) / frame.cell.y - 1.0;
            (down, (bead.middle.x - frame.corner.x) / frame.cell.x - 0.5, sign_of(bead.bead))
        })
        .collect();
    beads.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
    beads
}

/// A line with a sign for each bead, between the lines of knots.
fn write_beads(out: &mut String, beads: &[(f64, f64, char)], panel: &GapPanel) {
    let first = panel.gaps.start.to_f64();
    // A strand hangs between two gaps.
    let columns: BTreeMap<usize, char> = beads
        .iter()
        .filter(|(_, at, _)| *at + 0.5 >= first && *at <= panel.gaps.end.to_f64())
        .map(|(_, at, sign)| {
            let apart = panel.apart.to_f64();
            (((at - first) * apart - apart / 2.0).round().max(0.0).to_usize(), *sign)
        })
        .collect();
    let Some((last, _)) = columns.last_key_value() else { return };
    out.extend((0..=*last).map(|column| columns.get(&column).copied().unwrap_or(' ')));
    out.push('\n');
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
