//! A band as numbers for the page.

use crate::changes::{Knot, Knots, Sent};
use crate::message::{Band, Frame, Part, PartKind};
use knotwright_render::{self as render, Form, Scene, Script, rim_of, stencils};
use std::sync::Arc;

/// What a page has been told of bands.
#[derive(Debug, Default)]
pub(crate) struct Telling {
    sent: Sent,
    frame: Option<Frame>,
}

impl Telling {
    /// The band, as far as it is news.
    pub(crate) fn band(&mut self, script: &Script) -> Band {
        let band = script.band();
        let scene = Scene::of(&band);
        let kinds = kinds(script);
        let (knots, first_rows) = pieces(&scene, kinds.len());
        let (names, pieces) = self.sent.send(knots);
        let parts = kinds.into_iter().zip(names).zip(first_rows);
        let frame = frame(&band);
        let is_news = self.frame.as_ref() != Some(&frame);
        self.frame = Some(frame.clone());
        Band {
            title: script.title.clone(),
            strands: script.strands.clone(),
            rows: scene.rows,
            sets: script.times,
            parts: parts.map(|(((kind, number), piece), row)| Part { kind, number, row, piece }).collect(),
            pieces,
            frame: is_news.then_some(frame),
        }
    }
}

/// What is tied one after another.
fn kinds(script: &Script) -> Vec<(PartKind, u64)> {
    let opening = script.opening.iter().map(|_| ('o', 1));
    let sets = (1..=script.times).map(|number| ('s', number));
    let closing = script.closing.iter().map(|_| ('c', 1));
    opening.chain(sets).chain(closing).collect()
}

/// By part, its knots, their rows counted from its own first; and that row.
fn pieces(scene: &Scene, parts: usize) -> (Vec<Knots>, Vec<u32>) {
    let mut pieces = Vec::with_capacity(parts);
    let mut rows = Vec::with_capacity(parts);
    let mut rest = scene.beads.as_slice();
    for part in 0..parts {
        let count = rest.iter().take_while(|bead| bead.part as usize == part).count();
        let (here, after) = rest.split_at(count);
        rest = after;
        let first = here.iter().map(|bead| bead.row).min().unwrap_or(0);
        let knot = |bead: &render::Bead| -> Knot {
            [bead.row - first, bead.gap.into(), form(bead.form), bead.thread.into(), bead.step]
        };
        pieces.push(Arc::new(here.iter().map(knot).collect()));
        rows.push(first);
    }
    (pieces, rows)
}

fn form(form: Form) -> u32 {
    Form::ALL.iter().position(|known| *known == form).unwrap_or(0) as u32
}

/// What surrounds the knots: the same strands with nothing tied.
fn frame(band: &render::Band<'_>) -> Frame {
    let bare = render::Band { parts: Vec::new(), title: String::new(), ..band.clone() };
    let scene = Scene::of(&bare);
    let stencils = stencils(scene.cell);
    let strands = band.strands.len();
    let half = stencils.first().map(|stencil| stencil.half).unwrap_or_default();
    // The band hangs in the middle of the picture.
    let left = (scene.size.x - (strands as f64 - 1.0) * scene.cell.x) / 2.0;
    Frame {
        cell: [scene.cell.x, scene.cell.y],
        corner: [left, scene.size.y - scene.fade.1 - scene.cell.y],
        size: [scene.size.x, scene.size.y],
        fade: [scene.fade.0, scene.fade.1],
        thickness: scene.thickness(),
        cords: scene.cords.iter().map(|cord| (cord.thread, cord.path.svg())).collect(),
        neck: scene
            .neck
            .map(|neck| ([neck.middle.x, neck.middle.y], [neck.half.x, neck.half.y], neck.thread)),
        stencils: stencils.into_iter().map(|stencil| stencil.svg).collect(),
        half: [half.x, half.y],
    }
}

/// The color of a rim around `color`.
pub(crate) fn rim(color: knotwright_color::Rgb) -> String {
    rim_of(color).to_string()
}
