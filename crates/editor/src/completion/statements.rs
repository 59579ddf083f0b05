//! Statements that may begin here, and whole lines that hold true here.

use super::{CompletionKind, Here, Items};
use crate::line::Zone;
use crate::{hang, views};
use knotwright_grammar::tree::{Node, StrandBy, Tree};
use knotwright_grammar::words::{Role, WORDS, Word};

/// All statements that may begin at the cursor.
pub(super) fn all(here: &Here, items: &mut Items) {
    match here.zone {
        Zone::Top => head(here, items),
        Zone::Body => body(here, items),
        Zone::Colorway => statement(items, "thread", "thread ${1:NAME} ${2:#808080}"),
        Zone::Gauge => gauge(items),
        Zone::Rows | Zone::Leader => {}
    }
}

fn gauge(items: &mut Items) {
    items.snippet("thickness", "thickness ${1:0.9} mm", "how thick the thread is", CompletionKind::Statement);
    items.snippet(
        "knots use",
        "10 knots use ${1:105} mm",
        "how much thread knots take up",
        CompletionKind::Statement,
    );
    items.snippet(
        "rows measure",
        "20 rows measure ${1:32} mm",
        "how long brick rows are",
        CompletionKind::Statement,
    );
}

fn statement(items: &mut Items, word: &str, snippet: &str) {
    let entry =
        WORDS.iter().find(|entry| entry.text == word && matches!(entry.role, Role::Head | Role::Body));
    let (form, help) = entry.map_or(("", ""), |entry: &Word| (entry.form, entry.help));
    items.snippet(word, snippet, form, CompletionKind::Statement);
    items.document(help);
}

/// Head statements, without those that stand already and may stand once.
fn head(here: &Here, items: &mut Items) {
    let tree = &here.checked.source().parsed.tree;
    let first = tree.statements.first().is_none_or(|first| here.line.start() <= first.span.start);
    for (word, snippet) in HEAD {
        let placed = *word != "pattern" || first;
        if placed && !(once(word) && stands(tree, word)) && !rivals(tree, word) {
            statement(items, word, snippet);
        }
    }
}

const HEAD: &[(&str, &str)] = &[
    ("pattern", "pattern \"${1:title}\""),
    ("about", "about \"$1\""),
    ("author", "author \"$1\""),
    ("license", "license \"$1\""),
    ("use", "use ${1:motif} from \"${2:path}\""),
    ("thread", "thread ${1:name} ${2:#808080}"),
    ("colorway", "colorway \"${1:name}\" {\n  $0\n}"),
    ("strands", "strands ${1:name}"),
    ("start", "start ${1:loose}"),
    ("gauge", "gauge {\n  thickness ${1:0.9} mm\n}"),
    ("length", "length ${1:15} cm"),
    ("sets", "sets ${1:8}"),
    ("ends", "ends ${1:12} cm"),
    ("motif", "motif ${1:name}($2) {\n  $0\n}"),
    ("opening", "opening {\n  $0\n}"),
    ("set", "set {\n  $0\n}"),
    ("closing", "closing {\n  $0\n}"),
];

fn once(word: &str) -> bool {
    !matches!(word, "about" | "author" | "use" | "thread" | "colorway" | "motif")
}

fn stands(tree: &Tree, word: &str) -> bool {
    tree.statements.iter().any(|statement| match &statement.node {
        Node::Pattern { .. } => word == "pattern",
        Node::License(_) => word == "license",
        Node::Strands(_) => word == "strands",
        Node::Gauge(_) => word == "gauge",
        Node::Length(_) => word == "length",
        Node::Sets(_) => word == "sets",
        Node::Ends(_) => word == "ends",
        Node::Start(_) => word == "start",
        Node::Opening(_) => word == "opening",
        Node::Set(_) => word == "set",
        Node::Closing(_) => word == "closing",
        _ => false,
    })
}

/// `length` and `sets` exclude each other.
fn rivals(tree: &Tree, word: &str) -> bool {
    (word == "length" && stands(tree, "sets")) || (word == "sets" && stands(tree, "length"))
}

fn body(here: &Here, items: &mut Items) {
    then(here, items);
    true_lines(here, items);
    for (word, snippet) in BODY {
        statement(items, word, snippet);
    }
}

const BODY: &[(&str, &str)] = &[
    ("take", "take ${1:left 1}: ${2:forward to edge}"),
    ("on", "on ${1:left 4} {\n  $0\n}"),
    ("both", "both {\n  $0\n}"),
    ("mirrored", "mirrored {\n  $0\n}"),
    ("work", "work ${1:motif}($2)"),
    ("repeat", "repeat ${1:2} {\n  $0\n}"),
    ("for", "for ${1:step} ${2:4} down to ${3:1} {\n  $0\n}"),
    ("rows", "rows {\n  $0\n}"),
    ("leader", "leader ${1:left 1} {\n  $0\n}"),
    ("section", "section \"${1:title}\" {\n  $0\n}"),
    ("note", "note \"$1\""),
    ("meet", "meet center"),
    ("expect", "expect ${1:start}"),
];

/// `then` below a `take` by place.
fn then(here: &Here, items: &mut Items) {
    let before = here.line.before();
    let Some(Node::Take(take)) = before.map(|statement| &statement.node) else { return };
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
