//! The statements of `opening`, `set`, `closing` and motifs, all but `take`.

use super::atoms::{Rule, comma, exact, in_parentheses, name, text, word};
use super::fault::Fault;
use super::list::list;
use super::number::{expr, series};
use super::strand::{promise, range, strand};
use super::{block, chart, open};
use crate::tree::{Block, Expect, Expr, Node, Work};
use chumsky::prelude::*;

/// `opening {`, `set {`, `closing {`, `both {`, `mirrored {`, `gauge {`: a word and a block.
pub(crate) fn plain<'t, F: Fault<'t>>(
    text: &'static str,
    node: impl Fn(Block) -> Node + Copy,
) -> impl Rule<'t, Node, F> {
    exact(text, text).ignore_then(open()).map(move |open| node(block(open)))
}

/// `meet center`
pub(crate) fn meet<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("meet").then(word!("center")).map(|_| Node::Meet)
}

/// `on RANGE {`
pub(crate) fn on<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("on").ignore_then(range()).then(open()).map(|(range, open)| Node::On { range, block: block(open) })
}

/// `work NAME(args) [mirrored]`
pub(crate) fn work<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("work")
        .ignore_then(name("the name of a motif"))
        .then(in_parentheses(args()))
        .then(word!("mirrored").or_not())
        .map(|((motif, args), mirrored)| Node::Work(Work { motif, args, mirrored }))
}

fn args<'t, F: Fault<'t>>() -> impl Rule<'t, Vec<Expr>, F> {
    expr().separated_by(comma()).collect()
}

/// `repeat N {`
pub(crate) fn repeat<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("repeat")
        .ignore_then(expr())
        .then(open())
        .map(|(times, open)| Node::Repeat { times, block: block(open) })
}

/// `for K A down to B [by S] {`
pub(crate) fn for_each<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("for").ignore_then(name("a name that counts")).then(series()).then(open()).map(
        |((variable, series), open)| Node::For { variable, series: Box::new(series), block: block(open) },
    )
}

/// `rows [offset] {`
pub(crate) fn rows<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("rows")
        .ignore_then(word!("offset").or_not())
        .then(open())
        .map(|(offset, open)| Node::Rows { offset, chart: chart(open) })
}

/// `leader STRAND [(COLOR)] {`
pub(crate) fn leader<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("leader")
        .ignore_then(strand())
        .then(promise().or_not())
        .then(open())
        .map(|((strand, promise), open)| Node::Leader { strand, promise, chart: chart(open) })
}

/// `section "title" {`
pub(crate) fn section<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("section")
        .ignore_then(text("a title in quotes"))
        .then(open())
        .map(|(title, open)| Node::Section { title, block: block(open) })
}

/// `note "text"`
pub(crate) fn note<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("note").ignore_then(text("a text in quotes")).map(Node::Note)
}

/// `expect LIST`, `expect start [mirrored]`
pub(crate) fn expect<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    let start = word!("start").ignore_then(word!("mirrored").or_not());
    word!("expect")
        .ignore_then(choice((start.map(|mirrored| Expect::Start { mirrored }), list().map(Expect::List))))
        .map(Node::Expect)
}
