//! The picture beside the words: a patch of color for a thread, a piece of the band for what is tied.

use super::{LARGEST_PICTURE, Look, Picture, name, plain, step};
use crate::band_picture::draw;
use crate::steps::Tied;
use crate::wording::count;
use knotwright_checker::Which;
use knotwright_color::Rgb;
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::Node;
use std::ops::Range;

/// The most knots of a part that are drawn.
const MOST: u32 = 700;

/// What there is to be seen of the token under the cursor.
pub(super) fn of(look: &Look) -> Option<Picture> {
    if look.token.kind == TokenKind::Color {
        let rgb: Rgb = look.written().parse().ok()?;
        return Some(plain::patch(rgb, "the color"));
    }
    if let Some((rgb, thread)) = name::color(look) {
        return Some(plain::patch(rgb, &thread));
    }
    match look.node()? {
        Node::Take(_) | Node::Meet => {
            step::moment(look).and_then(|moment| of_step(look, &Tied::of(look.checked, moment)?))
        }
        Node::Rows { chart, .. } | Node::Leader { chart, .. } => {
            let row = chart.rows.iter().find(|row| row.span.touches(look.token.span.start))?;
            let moment = look.checked.moments().from(row.span.start)?;
            of_step(look, &Tied::of(look.checked, moment)?)
        }
        Node::Opening(_) => of_part(look, Which::Opening),
        Node::Set(_) => of_part(look, Which::Set),
        Node::Closing(_) => of_part(look, Which::Closing),
        _ => None,
    }
}

/// The step with some rows before and after it; fewer if the picture gets too large.
fn of_step(look: &Look, tied: &Tied) -> Option<Picture> {
    let (knots, width) = (tied.step.knots.clone(), tied.before.len() as u32);
    if knots.is_empty() {
        return None;
    }
    let alt = format!("the band at this step: {} lit", count(u64::from(knots.end - knots.start), "knot"));
    [3, 1, 0].into_iter().find_map(|rows| {
        let window = around(&knots, rows * width, tied.part.knots.len() as u32);
        let svg = draw(look.checked, tied.which, window, Some(knots.clone()))?;
        (svg.len() < LARGEST_PICTURE).then(|| Picture { svg, alt: alt.clone() })
    })
}

fn around(knots: &Range<u32>, more: u32, all: u32) -> Range<u32> {
    knots.start.saturating_sub(more)..(knots.end + more / 2).min(all)
}

fn of_part(look: &Look, which: Which) -> Option<Picture> {
    let first = look.site.inner()?.span.start == look.token.span.start;
    let knots = look.checked.part(which)?.knots.len() as u32;
    if !first || knots == 0 {
        return None;
    }
    [MOST, MOST / 2, MOST / 4].into_iter().find_map(|most| {
        let svg = draw(look.checked, which, 0..knots.min(most), None)?;
        let alt = format!("the first {} of the band", count(u64::from(knots.min(most)), "knot"));
        (svg.len() < LARGEST_PICTURE).then_some(Picture { svg, alt })
    })
}
