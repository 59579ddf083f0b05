//! A small piece of the band as a picture.

use crate::Checked;
use crate::hang::thread_name;
use knotwright_band::Piece;
use knotwright_checker::{Part, PartKind, Pattern};
use knotwright_color::Rgb;
use knotwright_maker::{band_threads, scripted_to_see};
use knotwright_numbers::ToNumber;
use knotwright_render::{Band, BandThread, KnotSize, Scene, StrandStart, SvgOptions, draw_svg};
use std::ops::Range;

/// What knots that are not meant are mixed with, and how much.
const PALE: (Rgb, f64) = (Rgb::new(150, 150, 150), 0.72);

/// The knots of `window` of a part as they hang there; if `lit` is given, all others are pale.
pub(crate) fn draw(
    checked: &Checked,
    which: PartKind,
    window: Range<u32>,
    lit: Option<Range<u32>>,
) -> Option<String> {
    let (pattern, part) = (checked.pattern()?, checked.part(which)?);
    let order = checked.order(which, window.start);
    let threads = checked.threads_at(which, part, window.start);
    let piece = cut(part, &window)?;
    let band = Band {
        title: String::new(),
        threads: colors(pattern),
        beads: Vec::new(),
        strands: order
            .iter()
            .map(|&strand| threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX))
            .collect(),
        gauge: KnotSize::default(),
        start: StrandStart::Loose,
        made: Default::default(),
        taken: None,
        parts: vec![knotwright_render::BandPart {
            piece: &piece,
            steps: &[],
            wish: None,
            beads: Vec::new(),
            set: 0,
        }],
    };
    let mut scene = Scene::of(&band);
    for (bead, color) in scene.beads.iter_mut().zip(changing_colors(pattern, which, window.start)) {
        bead.thread = color;
    }
    if let Some(lit) = lit {
        pale(&mut scene, lit.start.saturating_sub(window.start)..lit.end.saturating_sub(window.start));
    }
    Some(draw_svg(&scene, &SvgOptions { pixels_per_millimeter: 8.0, ..SvgOptions::default() }))
}

fn colors(pattern: &Pattern) -> Vec<BandThread> {
    let named = |(number, thread): (u16, BandThread)| BandThread {
        name: thread_name(pattern, number).to_owned(),
        ..thread
    };
    (0_u16..).zip(band_threads(&pattern.threads, None)).map(named).collect()
}

/// By knot of a part from one on, as it is tied first, the number of the color that is seen, if some thread changes color
/// along its length.
fn changing_colors(pattern: &Pattern, which: PartKind, from: u32) -> Vec<u16> {
    let changes = pattern.threads.iter().any(|thread| !thread.shades.is_empty());
    let script = changes.then(|| scripted_to_see(pattern, Some(1), None).ok()).flatten();
    let Some(script) = script else { return Vec::new() };
    let part = pattern.parts().take_while(|(kind, _)| *kind < which).count().to_u32();
    let beads = Scene::of(&script.band()).beads;
    beads.iter().filter(|bead| bead.part == part).skip(from.to_usize()).map(|bead| bead.thread).collect()
}

/// Those knots by themselves.
fn cut(part: &Part, window: &Range<u32>) -> Option<Piece> {
    let knots = part.piece.knots().get(window.start.to_usize()..window.end.to_usize())?;
    let piece = Piece::tie(part.piece.strands(), knots.iter().map(|knot| (knot.gap, knot.kind))).ok()?;
    let within = part.piece.straight().iter().filter_map(|range| {
        let (start, end) = (range.start.max(window.start), range.end.min(window.end));
        (start < end).then(|| start - window.start..end - window.start)
    });
    piece.clone().with_straight(within.collect()).ok().or(Some(piece))
}

/// All but these knots in pale colors. Beads are in the order of tying.
fn pale(scene: &mut Scene, lit: Range<u32>) {
    let Ok(count) = u16::try_from(scene.colors.len()) else { return };
    let paled: Vec<Rgb> = scene.colors.iter().map(|color| color.toward(PALE.0, PALE.1)).collect();
    scene.colors.extend(paled);
    let turn = |thread: &mut u16| *thread = if *thread < count { *thread + count } else { *thread };
    for (number, bead) in (0_u32..).zip(&mut scene.beads) {
        if !lit.contains(&number) {
            turn(&mut bead.thread);
        }
    }
    scene.cords.iter_mut().for_each(|cord| turn(&mut cord.thread));
}
