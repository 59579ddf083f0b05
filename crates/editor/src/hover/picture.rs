//! The picture next to the words: a patch of color for a thread, a piece of the band for what is tied.

use super::{HoverLook, LARGEST_PICTURE, Picture, face, name, plain, step};
use crate::band_picture::draw;
use crate::steps::TiedStep;
use crate::wording::count;
use knotwright_checker::PartKind;
use knotwright_color::Rgb;
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::FaceChart;

use std::ops::Range;

/// The most knots of a part that are drawn.
const MOST: u32 = 700;

/// What there is to be seen of the token under the cursor.
pub(super) fn of(look: &HoverLook) -> Option<Picture> {
    if look.token.kind == TokenKind::Color {
        let rgb: Rgb = look.written().parse().ok()?;
        return Some(plain::patch(rgb, "the color"));
    }
    if let Some((rgb, thread)) = name::color(look) {
        return Some(plain::patch(rgb, &thread));
    }
    let statement = look.site.inner()?;
    if let Some(which) = PartKind::of(statement) {
        return of_part(look, which);
    }
    if statement.is::<FaceChart>() {
        return face::picture(look, statement);
    }
    let moment = match statement.node.chart() {
        Some(chart) => {
            let row = chart.rows.iter().find(|row| row.span.touches(look.token.span.start))?;
            look.checked.moments().from(row.span.start)?
        }
        None => step::moment(look)?,
    };
    of_step(look, &TiedStep::of(look.checked, moment)?)
}

/// The step with some rows before and after it; fewer if the picture gets too large.
fn of_step(look: &HoverLook, tied: &TiedStep) -> Option<Picture> {
    let (knots, width) = (tied.step.knots.clone(), u32::try_from(tied.before.len()).ok()?);
    if knots.is_empty() {
        return None;
    }
    let alt = format!("the band at this step: {} lit", count(u64::from(knots.end - knots.start), "knot"));
    [3, 1, 0].into_iter().find_map(|rows| {
        let window = around(&knots, rows * width, u32::try_from(tied.part.piece.knots().len()).ok()?);
        let svg = draw(look.checked, tied.which, window, Some(knots.clone()))?;
        (svg.len() < LARGEST_PICTURE).then(|| Picture { svg, alt: alt.clone() })
    })
}

fn around(knots: &Range<u32>, more: u32, all: u32) -> Range<u32> {
    knots.start.saturating_sub(more)..(knots.end + more / 2).min(all)
}

fn of_part(look: &HoverLook, which: PartKind) -> Option<Picture> {
    let first = look.site.inner()?.span.start == look.token.span.start;
    let knots = u32::try_from(look.checked.part(which)?.piece.knots().len()).ok()?;
    if !first {
        return None;
    }
    if knots == 0 {
        // Perhaps it is a face that nothing ties yet.
        return face::of_part(look, which);
    }
    [MOST, MOST / 2, MOST / 4].into_iter().find_map(|most| {
        let svg = draw(look.checked, which, 0..knots.min(most), None)?;
        let alt = format!("the first {} of the band", count(u64::from(knots.min(most)), "knot"));
        (svg.len() < LARGEST_PICTURE).then_some(Picture { svg, alt })
    })
}
