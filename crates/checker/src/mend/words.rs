//! Mends in words, and as edits of the text.

use super::candidates::{Candidate, What};
use super::search::Goal;
use crate::resolve::Script;
use crate::{Edit, FileId, Mend, Place};
use knotwright_grammar::tree::{KnotKind, Sign};
use knotwright_grammar::{Span, TokenKind};

/// An edit after which nothing is wrong.
pub(super) fn all_holds(goal: &Goal, candidate: &Candidate, closes: bool, certain: bool) -> Mend {
    let promises = !goal.facts.is_empty();
    let set = goal.script.head.set.is_some() && closes && goal.closes.is_some();
    let then = match (promises, set) {
        (true, true) => "every promise holds then and the set closes",
        (true, false) if !closes => "every promise holds then, but the set does not close",
        (true, false) => "every promise holds then",
        (false, _) => "the set closes then",
    };
    mend(goal.script, candidate, then, certain)
}

/// An edit after which less is wrong; `left` mistakes stay.
pub(super) fn some_holds(goal: &Goal, candidate: &Candidate, left: usize) -> Mend {
    let then = match left {
        1 => "this holds then; one other mistake stays".to_owned(),
        left => format!("this holds then; {left} other mistakes stay"),
    };
    mend(goal.script, candidate, &then, false)
}

/// An edit after which the band has fewer holes.
pub(super) fn no_hole(goal: &Goal, candidate: &Candidate) -> Mend {
    mend(goal.script, candidate, "the band has no hole there then, and all the rest holds", false)
}

fn mend(script: &Script, candidate: &Candidate, then: &str, certain: bool) -> Mend {
    let (span, text, instead) = edit(script, candidate);
    let place = Place { file: FileId(0), span };
    Mend {
        title: format!("write `{text}` instead of `{instead}`: {then}"),
        edits: vec![Edit { place, text }],
        certain,
    }
}

/// What is replaced, what stands there instead, and what stood there.
fn edit(script: &Script, candidate: &Candidate) -> (Span, String, String) {
    let span = candidate.overlay.place.span;
    match candidate.what {
        What::Number { written, read } => (span, read.to_string(), written.to_string()),
        What::Kind { written, read } => (span, kind(read).to_owned(), kind(written).to_owned()),
        What::Mark { written, read } => (span, sign(read).to_owned(), sign(written).to_owned()),
        What::Side(within) => side(script, |word| within.start <= word.start && word.end <= within.end),
        What::SideBefore(number) => side(script, |word| word.end <= number.start),
    }
}

/// The last `left` or `right` that fits, and its opposite.
fn side(script: &Script, fits: impl Fn(Span) -> bool) -> (Span, String, String) {
    let source = script.source();
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word && fits(token.span));
    let found = words.rev().find_map(|token| match token.span.of(&source.text) {
        "left" => Some((token.span, "right".to_owned(), "left".to_owned())),
        "right" => Some((token.span, "left".to_owned(), "right".to_owned())),
        _ => None,
    });
    found.unwrap_or_default()
}

fn kind(kind: KnotKind) -> &'static str {
    match kind {
        KnotKind::Forward => "forward",
        KnotKind::Backward => "backward",
        KnotKind::ForwardBackward => "forward-backward",
        KnotKind::BackwardForward => "backward-forward",
    }
}

fn sign(sign: Sign) -> &'static str {
    match sign {
        Sign::Forward => "\\",
        Sign::Backward => "/",
        Sign::ForwardBackward => ">",
        Sign::BackwardForward => "<",
        Sign::Same => "x",
        Sign::Dot => ".",
        Sign::Hash => "#",
    }
}
