//! Mends in words, and as edits of the text.

use super::candidates::{Candidate, What};
use super::lines;
use super::search::Goal;
use super::trial::Choice;
use crate::resolve::Script;
use crate::tie::Change;
use crate::{Edit, FileId, Mend, Place};
use knotwright_grammar::tree::{KnotKind, Sign};
use knotwright_grammar::{Span, TokenKind};

/// An edit after which nothing is wrong with the tie.
pub(super) fn all_holds(goal: &Goal, choice: &Choice, closes: bool, certain: bool) -> Mend {
    if !goal.is_clean() {
        return some_holds(goal, choice, goal.misread);
    }
    let promises = !goal.facts.is_empty();
    let set = goal.script.head.set.is_some() && closes && goal.closes.is_some();
    let then = match (promises, set) {
        (true, true) => "every promise holds then and the set closes",
        (true, false) if !closes => "every promise holds then, but the set does not close",
        (true, false) => "every promise holds then",
        (false, _) => "the set closes then",
    };
    mend(goal.script, choice, then, certain)
}

/// An edit after which less is wrong; `left` mistakes stay.
pub(super) fn some_holds(goal: &Goal, choice: &Choice, left: usize) -> Mend {
    let then = match left {
        1 => "this holds then; one other mistake stays".to_owned(),
        left => format!("this holds then; {left} other mistakes stay"),
    };
    mend(goal.script, choice, &then, false)
}

/// An edit after which the band has fewer holes.
pub(super) fn no_hole(goal: &Goal, choice: &Choice) -> Mend {
    mend(goal.script, choice, "the band has no hole there then, and every promise holds", false)
}

/// An edit after which the picture is symmetric.
pub(super) fn mend_symmetry(goal: &Goal, choice: &Choice) -> Mend {
    mend(goal.script, choice, "the picture is symmetric then, and every promise holds", false)
}

/// An edit after which every step ties something.
pub(super) fn no_idle_step(goal: &Goal, choice: &Choice) -> Mend {
    mend(goal.script, choice, "every step ties a knot then, and every promise holds", false)
}

/// An edit after which a strand is made of a thread of which none was.
pub(super) fn hung(goal: &Goal, choice: &Choice) -> Mend {
    mend(goal.script, choice, "the thread is used then, and every promise holds", false)
}

/// An edit after which as many strands hang on either side of the center.
pub(super) fn equal_halves(goal: &Goal, choice: &Choice) -> Mend {
    mend(goal.script, choice, "the halves are equal then, and every promise holds", false)
}

/// A mark after which the halves of a chart mirror each other.
pub(super) fn mirrored_chart(goal: &Goal, choice: &Choice) -> Mend {
    mend(goal.script, choice, "the halves mirror each other then, and every promise holds", false)
}

fn mend(script: &Script, choice: &Choice, then: &str, certain: bool) -> Mend {
    let Written { says, edits } = match choice {
        Choice::Step(candidate) => write_candidate(script, candidate),
        Choice::Strands(hung) => hung.written(script),
    };
    let place = |span| Place { file: FileId::CHECKED, span };
    let edits = edits.into_iter().map(|(span, text)| Edit { place: place(span), text }).collect();
    Mend::new(format!("{says}: {then}"), edits, certain)
}

/// A candidate in words, and as edits of the text.
#[derive(Debug, Default)]
pub(super) struct Written {
    pub(super) says: String,
    pub(super) edits: Vec<(Span, String)>,
}

impl Written {
    pub(super) fn instead(span: Span, text: String, instead: String) -> Self {
        Self { says: format!("write `{text}` instead of `{instead}`"), edits: vec![(span, text)] }
    }
}

/// How a candidate is written.
pub(super) fn write_candidate(script: &Script, candidate: &Candidate) -> Written {
    let (span, change) = (candidate.overlay.place.span, candidate.overlay.change);
    match candidate.what {
        What::Number { written, read } => Written::instead(span, read.to_string(), written.to_string()),
        What::Kind { written, read } => {
            Written::instead(span, kind_word(read).to_owned(), kind_word(written).to_owned())
        }
        What::Mark { written, read } => {
            Written::instead(span, sign(read).to_owned(), sign(written).to_owned())
        }
        What::Side(within) => other_side(script, |word| within.start <= word.start && word.end <= within.end),
        What::SideBefore(number) => other_side(script, |word| word.end <= number.start),
        What::Thread(thread) => {
            let text = &script.source().text;
            Written::instead(span, script.thread_name(thread).to_string(), span.of(text).to_owned())
        }
        What::Rows => match change {
            Change::Row(edit) => lines::write_row(script.source(), span, edit),
            _ => lines::write_offset(script.source(), span),
        },
        What::Statement { above } => match change {
            Change::Statement(edit) => lines::write_statement(script, span, above, edit),
            _ => Written { says: String::new(), edits: Vec::new() },
        },
    }
}

/// The last `left` or `right` that fits, and its opposite.
fn other_side(script: &Script, fits: impl Fn(Span) -> bool) -> Written {
    let source = script.source();
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word && fits(token.span));
    let found = words.rev().find_map(|token| match token.span.of(&source.text) {
        "left" => Some(Written::instead(token.span, "right".to_owned(), "left".to_owned())),
        "right" => Some(Written::instead(token.span, "left".to_owned(), "right".to_owned())),
        _ => None,
    });
    found.unwrap_or_else(|| Written { says: String::new(), edits: Vec::new() })
}

pub(super) fn kind_word(kind: KnotKind) -> &'static str {
    match kind {
        KnotKind::Forward => "forward",
        KnotKind::Backward => "backward",
        KnotKind::ForwardBackward => "forward-backward",
        KnotKind::BackwardForward => "backward-forward",
    }
}

pub(super) fn sign(sign: Sign) -> &'static str {
    match sign {
        Sign::Forward => "\\",
        Sign::Backward => "/",
        Sign::ForwardBackward => ">",
        Sign::BackwardForward => "<",
        Sign::Same => "x",
        Sign::Dot => ".",
        Sign::Hash => "#",
        Sign::Any => "?",
        // Nobody tries another color in a face.
        Sign::Letter(_) => "",
    }
}
