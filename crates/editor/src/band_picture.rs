//! A small piece of the band as a picture.

use crate::Checked;
use crate::hang::thread_name;
use knotwright_band::Piece;
use knotwright_checker::{Part, Pattern, Which};
use knotwright_color::Rgb;
use knotwright_render::{Band, Gauge, Scene, Start, SvgOptions, Thread, svg};
use std::ops::Range;

/// What knots that are not meant are mixed with, and how much.
const PALE: (Rgb, f64) = (Rgb::new(150, 150, 150), 0.72);

/// The knots of `window` of a part as they hang there; if `lit` is given, all others are pale.
pub(crate) fn draw(
    checked: &Checked,
    which: Which,
    window: Range<u32>,
    lit: Option<Range<u32>>,
) -> Option<String> {
    let (pattern, part) = (checked.pattern()?, checked.part(which)?);
    let order = checked.order(which, window.start);
    let threads = checked.threads(which);
    let piece = cut(part, &window)?;
    let band = Band {
        title: String::new(),
        threads: colors(pattern),
        strands: order
            .iter()
            .map(|&strand| threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX))
            .collect(),
        gauge: Gauge::default(),
        start: Start::Loose,
        parts: vec![knotwright_render::Part { piece: &piece, steps: &[] }],
    };
    let mut scene = Scene::of(&band);
    if let Some(lit) = lit {
        pale(&mut scene, lit.start.saturating_sub(window.start)..lit.end.saturating_sub(window.start));
    }
    Some(svg(&scene, &SvgOptions { pixels_per_millimeter: 8.0, ..SvgOptions::default() }))
}

fn colors(pattern: &Pattern) -> Vec<Thread> {
    let thread = |(number, thread): (usize, &knotwright_checker::PatternThread)| Thread {
        name: thread_name(pattern, number as u16).to_owned(),
        color: thread.color,
    };
    pattern.threads.iter().enumerate().map(thread).collect()
}

/// Those knots by themselves.
fn cut(part: &Part, window: &Range<u32>) -> Option<Piece> {
    let knots = part.knots.get(window.start as usize..window.end as usize)?;
    let piece = Piece::tie(part.order.len(), knots.iter().map(|knot| (knot.gap, knot.kind))).ok()?;
    let within = part.straight.iter().filter_map(|range| {
        let (start, end) = (range.start.max(window.start), range.end.min(window.end));
        (start < end).then(|| start - window.start..end - window.start)
    });
    piece.clone().with_straight(within.collect()).ok().or(Some(piece))
}

/// All but these knots in pale colors. Beads are in the order of tying.
fn pale(scene: &mut Scene, lit: Range<u32>) {
    let count = scene.colors.len() as u16;
    let paled: Vec<Rgb> = scene.colors.iter().map(|color| color.toward(PALE.0, PALE.1)).collect();
    scene.colors.extend(paled);
    let turn = |thread: &mut u16| *thread = if *thread < count { *thread + count } else { *thread };
    for (number, bead) in scene.beads.iter_mut().enumerate() {
        if !lit.contains(&(number as u32)) {
            turn(&mut bead.thread);
        }
    }
    scene.cords.iter_mut().for_each(|cord| turn(&mut cord.thread));
}
