//! The picture in a terminal: half blocks in 24-bit color, or letters.

mod blocks;
mod field;
mod plain;

use knotwright_band::ends::EndWork;
use knotwright_wording::is_hidden;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use crate::joined::place_joins;
use crate::made::{EndNames, say_works};
use crate::placed::{Placed, place_knots};
use crate::{Band, BandBead};
use std::collections::BTreeSet;

/// How a terminal is written to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TerminalOptions {
    /// How many columns there are; no line is longer.
    pub columns: usize,
    /// Whether it shows 24-bit color; otherwise threads are letters.
    pub color: bool,
    /// Whether the threads are named below.
    pub legend: bool,
}

impl Default for TerminalOptions {
    fn default() -> Self {
        Self { columns: 80, color: false, legend: true }
    }
}

/// Writes a band as lines of text. With color the lines hold SGR sequences and each ends with a reset; nothing that
/// comes from a pattern can add a sequence of its own.
pub fn draw_terminal(band: &Band<'_>, options: &TerminalOptions) -> String {
    let knots = place_knots(band);
    let columns = options.columns.max(1);
    let mut out = String::new();
    let [begin, finish] = [("begin", &band.made.begin), ("finish", &band.made.finish)]
        .map(|(word, works)| say_end(word, works.as_deref(), band));
    begin.iter().for_each(|text| write_wrapped(&mut out, text, columns));
    if options.color {
        blocks::write_blocks(&mut out, band, &knots, columns);
    } else {
        plain::write_letters(&mut out, band, &knots, columns);
    }
    finish.iter().for_each(|text| write_wrapped(&mut out, text, columns));
    say_joins(band, &knots).iter().for_each(|text| write_wrapped(&mut out, text, columns));
    if options.legend {
        let letters = crate::letters::of_threads(&band.threads);
        out.push('\n');
        for (thread, letter) in band.threads.iter().zip(letters) {
            let mut colors = vec![thread.color];
            colors.extend(thread.shades.iter().skip(1).map(|shade| shade.color));
            // As many as fit: each is two columns wide.
            colors.truncate((columns / 2).max(1));
            let (mark, width) = if options.color {
                (colors.iter().map(|color| blocks::write_swatch(*color)).collect(), colors.len() * 2)
            } else {
                (letter.to_string(), letter.width().unwrap_or(1))
            };
            out.push_str(&mark);
            out.push_str(&cut(&format!(" {}", thread.name), columns.saturating_sub(width)));
            out.push('\n');
        }
        for (number, bead) in beads_on(band) {
            let mark = if options.color {
                blocks::write_swatch(bead.color)
            } else {
                plain::sign_of(number).to_string()
            };
            let width = if options.color { 2 } else { 1 };
            out.push_str(&mark);
            out.push_str(&cut(&format!(" {}", bead.name), columns.saturating_sub(width)));
            out.push('\n');
        }
    }
    out
}

/// The beads that are on the strands.
fn beads_on<'b>(band: &'b Band<'_>) -> impl Iterator<Item = (u16, &'b BandBead)> {
    let on: BTreeSet<u16> = band.parts.iter().flat_map(|part| &part.beads).map(|bead| bead.bead).collect();
    on.into_iter().filter_map(|bead| Some((bead, band.beads.get(usize::from(bead))?)))
}

/// What is made at an end, in words: what is thinner than a line of text cannot be drawn here.
fn say_end(word: &str, works: Option<&[EndWork]>, band: &Band<'_>) -> Option<String> {
    let works = works.filter(|works| !works.is_empty())?;
    let name = |thread: u16| band.threads.get(usize::from(thread)).map_or("?", |thread| thread.name.as_str());
    let bead = |bead: u16| band.beads.get(usize::from(bead)).map_or("?", |bead| bead.name.as_str());
    Some(format!("{word}: {}", say_works(works, EndNames { thread: &name, bead: &bead })))
}

/// More joins are not told one by one.
const MOST_JOINS: usize = 12;

/// Where strands go on with a new piece of thread, in words: a sign would hide a knot.
fn say_joins(band: &Band<'_>, knots: &[Placed]) -> Option<String> {
    let joins = place_joins(band, knots);
    let said: Vec<String> = joins
        .iter()
        .take(MOST_JOINS)
        .map(|join| format!("strand {} in row {}", u16::from(join.strand) + 1, join.row + 1))
        .collect();
    let more = if joins.len() > MOST_JOINS { ", ..." } else { "" };
    (!said.is_empty()).then(|| format!("joined: {}{more}", said.join(", ")))
}

fn write_wrapped(out: &mut String, text: &str, columns: usize) {
    let mut line = String::new();
    for part in text.split(' ') {
        if !line.is_empty() && line.width() + 1 + part.width() > columns {
            out.push_str(&cut(&line, columns));
            out.push('\n');
            line.clear();
        }
        line.push_str(if line.is_empty() { "" } else { " " });
        line.push_str(part);
    }
    out.push_str(&cut(&line, columns));
    out.push('\n');
}

/// As much of a text as fits. What could steer the terminal or turn its writing round is left out.
fn cut(text: &str, columns: usize) -> String {
    let mut left = columns;
    let tame = text.chars().filter(|letter| !is_hidden(*letter));
    tame.take_while(|letter| {
        let width = letter.width().unwrap_or(0);
        let fits = width <= left;
        left = left.saturating_sub(width);
        fits
    })
    .collect()
}
