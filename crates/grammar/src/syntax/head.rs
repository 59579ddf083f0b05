//! The statements at the top of a file.

use super::atoms::{No, Rule, color, comma, in_parentheses, length, name, number, text, token, word};
use super::fault::Fault;
use super::{block, open};
use crate::tree::{Motif, Name, Node, Number, Pairs, Start, Swatch, Thread};
use chumsky::prelude::*;

/// `pattern "title" [edition N]`
pub(crate) fn pattern<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    let edition = word!("edition").ignore_then(first_edition());
    word!("pattern")
        .ignore_then(text("a title in quotes"))
        .then(edition.or_not())
        .map(|(title, edition)| Node::Pattern { title, edition })
}

/// The number of an edition; newer ones than this never come here.
fn first_edition<'t, F: Fault<'t>>() -> impl Rule<'t, Number, F> {
    token("`1`", |tok| match tok.text {
        "1" => Ok(Number { span: tok.span, value: 1 }),
        _ => Err(No::Due("`1`")),
    })
}

/// `about "..."`
pub(crate) fn about<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("about").ignore_then(text(QUOTED)).map(Node::About)
}

/// `author "..."`
pub(crate) fn author<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("author").ignore_then(text(QUOTED)).map(Node::Author)
}

/// `license "..."`
pub(crate) fn license<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("license").ignore_then(text(QUOTED)).map(Node::License)
}

const QUOTED: &str = "a text in quotes";

/// `thread NAME COLOR ["label"]`
pub(crate) fn thread<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("thread")
        .ignore_then(name("a name for the thread"))
        .then(color())
        .then(text("a label in quotes").or_not())
        .map(|((name, color), label)| Node::Thread(Thread { name, color, label }))
}

/// `colorway "name" {`
pub(crate) fn colorway<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("colorway")
        .ignore_then(text("a name in quotes"))
        .then(open())
        .map(|(name, open)| Node::Colorway { name, block: block(open) })
}

/// `strands ...`
pub(crate) fn strands<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("strands").ignore_then(super::list::strands()).map(Node::Strands)
}

/// One line of a gauge.
pub(crate) fn swatch<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    let knots = word!("knots").ignore_then(word!("use")).ignore_then(length());
    let rows = word!("rows").ignore_then(word!("measure")).ignore_then(length());
    choice((
        word!("thickness").ignore_then(length()).map(Swatch::Thickness),
        number().then(knots).map(|(count, length)| Swatch::Knots(count, length)),
        number().then(rows).map(|(count, length)| Swatch::Rows(count, length)),
    ))
    .map(Node::Swatch)
}

/// `length LENGTH`
pub(crate) fn band_length<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("length").ignore_then(length()).map(Node::Length)
}

/// `sets N`
pub(crate) fn sets<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("sets").ignore_then(number()).map(Node::Sets)
}

/// `ends LENGTH`
pub(crate) fn ends<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("ends").ignore_then(length()).map(Node::Ends)
}

/// `start loose`, `start folded pairs ...`, `start loop LENGTH pairs ...`
pub(crate) fn start<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    let folded = word!("folded").ignore_then(pairs()).map(Start::Folded);
    let looped = word!("loop").ignore_then(length()).then(pairs());
    word!("start")
        .ignore_then(choice((
            word!("loose").map(|_| Start::Loose),
            folded,
            looped.map(|(length, pairs)| Start::Loop(length, pairs)),
        )))
        .map(Node::Start)
}

fn pairs<'t, F: Fault<'t>>() -> impl Rule<'t, Pairs, F> {
    word!("pairs").ignore_then(choice((
        word!("side-by-side").map(|_| Pairs::SideBySide),
        word!("mirrored").map(|_| Pairs::Mirrored),
    )))
}

/// `use NAME, NAME from "path"`
pub(crate) fn import<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("use")
        .ignore_then(name("the name of a motif").separated_by(comma()).at_least(1).collect::<Vec<_>>())
        .then_ignore(word!("from"))
        .then(text("a path in quotes"))
        .map(|(names, path)| Node::Use { names, path })
}

/// `motif NAME(params) [on N] {`
pub(crate) fn motif<'t, F: Fault<'t>>() -> impl Rule<'t, Node, F> {
    word!("motif")
        .ignore_then(name("a name for the motif"))
        .then(in_parentheses(params()))
        .then(word!("on").ignore_then(number()).or_not())
        .then(open())
        .map(|(((name, params), width), open)| Node::Motif(Motif { name, params, width, block: block(open) }))
}

fn params<'t, F: Fault<'t>>() -> impl Rule<'t, Vec<Name>, F> {
    name("a name for a parameter").separated_by(comma()).collect()
}
