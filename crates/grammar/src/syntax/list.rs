//! Lists of strands by color, as in `strands` and `expect`.

use super::atoms::{Rule, comma, name, name_among_others, number, sign, word};
use super::fault::Fault;
use super::number::group;
use super::strand::extent;
use crate::tree::{Expr, List, ListItem, ListShape, Name, Strands};
use crate::{Expected, Span, TokenKind};
use chumsky::prelude::*;

/// `a 2 b c`, `a b | c d`, `a b | mirror`, `a b | c | mirror`
pub(crate) fn list<'t, F: Fault<'t>>() -> impl Rule<'t, List, F> {
    items().then(after_bar().or_not()).map_with(|(items, rest), extra| List {
        span: extent(extra.slice()),
        shape: match rest {
            None => ListShape::Plain(items),
            Some(AfterBar::Mirror) => ListShape::Mirror(items),
            Some(AfterBar::MirrorAround(middle)) => ListShape::MirrorAround(items, middle),
            Some(AfterBar::Half(half)) => ListShape::Halves(items, half),
        },
    })
}

enum AfterBar {
    Mirror,
    MirrorAround(ListItem),
    Half(Vec<ListItem>),
}

fn after_bar<'t, F: Fault<'t>>() -> impl Rule<'t, AfterBar, F> {
    let around = name_among_others(|| Expected::Thread)
        .then_ignore(bar())
        .then_ignore(word(|| "mirror"))
        .map(|thread| AfterBar::MirrorAround(ListItem { count: None, thread }));
    bar().ignore_then(choice((
        word(|| "mirror").map(|_| AfterBar::Mirror),
        around,
        items_among_others().map(AfterBar::Half),
    )))
}

fn bar<'t, F: Fault<'t>>() -> impl Rule<'t, Span, F> {
    sign(|| (TokenKind::Pipe, Expected::Pipe))
}

/// One item or more, with or without commas between.
fn items<'t, F: Fault<'t>>() -> impl Rule<'t, Vec<ListItem>, F> {
    some(item(name(|| Expected::Thread)))
}

/// As [`items`], where a reserved word could stand as well.
fn items_among_others<'t, F: Fault<'t>>() -> impl Rule<'t, Vec<ListItem>, F> {
    some(item(name_among_others(|| Expected::Thread)))
}

fn some<'t, F: Fault<'t>>(first: impl Rule<'t, ListItem, F>) -> impl Rule<'t, Vec<ListItem>, F> {
    let more = comma().or_not().ignore_then(item(name_among_others(|| Expected::Thread)));
    first.map(|item| vec![item]).foldl(more.repeated(), |mut items, item| {
        items.push(item);
        items
    })
}

/// `3 kelp`, `kelp`, `(size - 1) kelp`
fn item<'t, F: Fault<'t>>(thread: impl Rule<'t, Name, F>) -> impl Rule<'t, ListItem, F> {
    let count = choice((number().map(Expr::Number), group()));
    count.or_not().then(thread).map(|(count, thread)| ListItem { count, thread })
}

/// `strands LIST`, `strands from left LIST, from right LIST`
pub(crate) fn strands<'t, F: Fault<'t>>() -> impl Rule<'t, Strands, F> {
    let left = word(|| "from").ignore_then(word(|| "left")).ignore_then(items());
    let right = word(|| "from").ignore_then(word(|| "right")).ignore_then(items());
    let separator = sign(|| (TokenKind::Comma, Expected::Comma));
    let from_edges =
        left.then_ignore(separator).then(right).map(|(left, right)| Strands::FromEdges { left, right });
    choice((from_edges, list().map(Strands::Across)))
}
