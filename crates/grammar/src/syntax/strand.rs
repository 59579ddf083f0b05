//! Which strand, which strands, and where to.

use super::atoms::{Rule, in_parentheses, name, name_among_others, word};
use super::fault::Fault;
use super::number::expr;
use crate::tree::{Counting, Goal, GoalPlace, Name, Range, StrandBy, StrandRef};
use crate::{Expected, Span};
use chumsky::prelude::*;

/// A strand.
pub(crate) fn strand<'t, F: Fault<'t>>() -> impl Rule<'t, StrandRef, F> {
    choice((
        word(|| "left").ignore_then(expr()).map(StrandBy::Left),
        word(|| "right").ignore_then(expr()).map(StrandBy::Right),
        word(|| "center").ignore_then(side().or_not()).map(|side| match side {
            Some(Side::Left) => StrandBy::CenterLeft,
            Some(Side::Right) => StrandBy::CenterRight,
            None => StrandBy::Center,
        }),
        counted(),
        name_among_others(|| Expected::Strand).map(Box::new).map(StrandBy::Label),
    ))
    .map_with(|by, extra| StrandRef { span: extent(extra.slice()), by })
}

/// From the first token to the last.
pub(super) fn extent(tokens: super::token::In) -> Span {
    match (tokens.first(), tokens.last()) {
        (Some(first), Some(last)) => first.span.to(last.span),
        _ => Span::default(),
    }
}

#[derive(Clone, Copy)]
enum Side {
    Left,
    Right,
}

fn side<'t, F: Fault<'t>>() -> impl Rule<'t, Side, F> {
    choice((word(|| "left").map(|_| Side::Left), word(|| "right").map(|_| Side::Right)))
}

/// `COLOR N from left`, `COLOR N left of center`, ...
fn counted<'t, F: Fault<'t>>() -> impl Rule<'t, StrandBy, F> {
    let from_edge = word(|| "from").ignore_then(side()).map(|side| match side {
        Side::Left => Counting::FromLeft,
        Side::Right => Counting::FromRight,
    });
    let from_center =
        side().then_ignore(word(|| "of")).then_ignore(word(|| "center")).map(|side| match side {
            Side::Left => Counting::LeftOfCenter,
            Side::Right => Counting::RightOfCenter,
        });
    name_among_others(|| Expected::Strand)
        .then(expr())
        .then(choice((from_edge, from_center)))
        .map(|((color, number), from)| StrandBy::Color { color: Box::new(color), number, from })
}

/// `(COLOR)`, a promise
pub(crate) fn promise<'t, F: Fault<'t>>() -> impl Rule<'t, Name, F> {
    in_parentheses(name(|| Expected::Thread))
}

/// `left N`, `right N`, `center N`, `inside N`, `A to B`
pub(crate) fn range<'t, F: Fault<'t>>() -> impl Rule<'t, Range, F> {
    choice((
        word(|| "left").ignore_then(expr()).map(Range::Left),
        word(|| "right").ignore_then(expr()).map(Range::Right),
        word(|| "center").ignore_then(expr()).map(Range::Center),
        word(|| "inside").ignore_then(expr()).map(Range::Inside),
        expr().then_ignore(word(|| "to")).then(expr()).map(|(first, last)| Range::Between(first, last)),
    ))
}

/// `left N`, `right N`, `center left`, `center right`, `center`, `edge`
pub(crate) fn goal<'t, F: Fault<'t>>() -> impl Rule<'t, Goal, F> {
    choice((
        word(|| "left").ignore_then(expr()).map(GoalPlace::Left),
        word(|| "right").ignore_then(expr()).map(GoalPlace::Right),
        word(|| "center").ignore_then(side().or_not()).map(|side| match side {
            Some(Side::Left) => GoalPlace::CenterLeft,
            Some(Side::Right) => GoalPlace::CenterRight,
            None => GoalPlace::Center,
        }),
        word(|| "edge").map(|_| GoalPlace::Edge),
    ))
    .map_with(|place, extra| Goal { span: extent(extra.slice()), place })
}
