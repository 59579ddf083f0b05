//! Statements that may begin here, and whole lines that hold true here.

use super::{CompletionKind, Here, Items};
use crate::{hang, views};
use knotwright_grammar::tree::{
    BandLength, Body, Declaration, Declared, EndPiece, Head, SetCount, StrandBy, Take, Thread, Title, Tree,
    Zone,
};

/// All statements that may begin at the cursor.
pub(super) fn all(here: &Here, items: &mut Items) {
    match here.zone {
        Zone::Top => head(here, items),
        Zone::Body | Zone::Any => body(here, items),
        Zone::Colorway => in_colorway(items),
        Zone::Gauge => gauge(items),
        Zone::Ends => EndPiece::ALL.iter().for_each(|known| statement(items, known)),
        Zone::Rows | Zone::Leader | Zone::Face => {}
    }
}

/// A thread that is named already gets another color.
fn in_colorway(items: &mut Items) {
    let known = &Thread::DECLARATION;
    items.snippet(Thread::WORD, "thread ${1:NAME} ${2:#808080}", known.word.form, CompletionKind::Statement);
    items.document(known.word.help);
}

fn gauge(items: &mut Items) {
    items.snippet("thickness", "thickness ${1:0.9} mm", "how thick the thread is", CompletionKind::Statement);
    items.snippet(
        "knots use",
        "10 knots use ${1:105} mm",
        "how much thread knots use",
        CompletionKind::Statement,
    );
    items.snippet(
        "rows measure",
        "20 rows measure ${1:32} mm",
        "how tall brick rows are",
        CompletionKind::Statement,
    );
    items.snippet("tex", "${1:250} tex", "how heavy the thread is", CompletionKind::Statement);
}

fn statement(items: &mut Items, known: &Declaration) {
    items.snippet(known.word.text, known.begun, known.word.form, CompletionKind::Statement);
    items.document(known.word.help);
}

/// Head statements, without those that stand already and may stand once.
fn head(here: &Here, items: &mut Items) {
    let tree = &here.checked.source().parsed.tree;
    let first = tree.statements.first().is_none_or(|first| here.line.start() <= first.span.start);
    for known in Head::ALL {
        let word = known.word.text;
        let placed = word != Title::WORD || first;
        if placed && !(known.is_single && stands(tree, word)) && !rivals(tree, word) {
            statement(items, known);
        }
    }
}

fn stands(tree: &Tree, word: &str) -> bool {
    tree.statements.iter().any(|statement| statement.node.word() == Some(word))
}

/// `length` and `sets` exclude each other.
fn rivals(tree: &Tree, word: &str) -> bool {
    (word == BandLength::WORD && stands(tree, SetCount::WORD))
        || (word == SetCount::WORD && stands(tree, BandLength::WORD))
}

fn body(here: &Here, items: &mut Items) {
    then(here, items);
    true_lines(here, items);
    Body::ALL.iter().for_each(|known| statement(items, known));
}

/// `then` below a `take` by place.
fn then(here: &Here, items: &mut Items) {
    let before = here.line.before();
    let Some(take) = before.and_then(|statement| statement.get::<Take>()) else { return };
    let by_place = !matches!(take.strand.by, StrandBy::Color { .. } | StrandBy::Label(_));
    let series =
        take.runs.iter().any(|run| matches!(run.extent, knotwright_grammar::tree::Extent::Series(_)));
    if by_place && !series {
        items.snippet(
            "then",
            "then ${1:forward 1}",
            "the strand that hangs now where this take began",
            CompletionKind::Statement,
        );
    }
}

/// Lines that are true as the strands hang: the whole `expect`, `meet center` between two of one color.
fn true_lines(here: &Here, items: &mut Items) {
    let Some(view) = here.view() else { return };
    let names = views::names(here.checked, view);
    let width = views::width(view);
    if width.is_multiple_of(2) && names[width / 2 - 1] == names[width / 2] {
        items.add("meet center", format!("both are {}", names[width / 2]), CompletionKind::Statement);
    }
    if !names.contains(&"an unknown thread") {
        let label = format!("expect {}", hang::list(&names));
        items.add(&label, "as the strands hang here", CompletionKind::Statement);
    }
}
