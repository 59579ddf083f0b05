//! A tree as compact text, to be judged by eye: one statement a line, blocks indented.
#![allow(dead_code, unreachable_pub, unused_imports, clippy::disallowed_methods)]

pub mod forms;
mod parts;
mod samples;

use knotwright_grammar::tree::*;
use knotwright_grammar::{Columns, LineIndex, Parsed, parse};
use parts::*;
pub use samples::samples;
use std::fmt::Write;

/// The tree and the problems of a text.
pub fn show(text: &str) -> String {
    let parsed = parse(text);
    let mut out = tree(&parsed.tree);
    out.push_str(&problems(&parsed, text));
    out
}

/// The tree alone, without places.
pub fn tree(tree: &Tree) -> String {
    let mut out = String::new();
    statements(&tree.statements, 0, &mut out);
    out
}

/// One line a problem: where, what was there, what is wrong with it.
pub fn problems(parsed: &Parsed, text: &str) -> String {
    let index = LineIndex::new(text);
    let mut out = String::new();
    for problem in &parsed.problems {
        let at = index.position(text, problem.span.start, Columns::Chars);
        let found = problem.span.of(text);
        let _ = writeln!(out, "! {}:{} {found:?} {:?}", at.line + 1, at.column + 1, problem.kind);
    }
    out
}

/// No problem at all, or the test tells which.
pub fn accept(text: &str) -> Parsed {
    let parsed = parse(text);
    assert!(parsed.problems.is_empty(), "{text}\n{}", problems(&parsed, text));
    parsed
}

fn statements(list: &[Statement], depth: usize, out: &mut String) {
    for statement in list {
        let _ = writeln!(out, "{:1$}{2}", "", depth * 2, head(&statement.node));
        match &statement.node {
            Node::Rows { chart, .. } | Node::Leader { chart, .. } => rows(chart, depth + 1, out),
            node => {
                if let Some(block) = node.block() {
                    statements(&block.statements, depth + 1, out);
                    let close = if block.close.is_some() { "}" } else { "} (missing)" };
                    let _ = writeln!(out, "{:1$}{close}", "", depth * 2);
                }
            }
        }
    }
}

fn rows(chart: &Chart, depth: usize, out: &mut String) {
    for row in &chart.rows {
        let signs: Vec<String> = row.marks.iter().map(|mark| format!("{:?}", mark.sign)).collect();
        let broken = if row.whole { "" } else { " (broken)" };
        let _ = writeln!(out, "{:1$}{2}{broken}", "", depth * 2, signs.join(" "));
    }
    let close = if chart.close.is_some() { "}" } else { "} (missing)" };
    let _ = writeln!(out, "{:1$}{close}", "", (depth - 1) * 2);
}

fn head(node: &Node) -> String {
    match node {
        Node::Pattern { title, edition } => {
            format!("pattern {:?}{}", title.value, opt(" edition ", edition.map(|n| n.value)))
        }
        Node::About(text) => format!("about {:?}", text.value),
        Node::Author(text) => format!("author {:?}", text.value),
        Node::License(text) => format!("license {:?}", text.value),
        Node::Thread(thread) => format!(
            "thread {} = {}{}",
            thread.name.text,
            thread.color.value,
            opt(" ", thread.label.as_ref().map(|label| format!("{:?}", label.value)))
        ),
        Node::Colorway { name, .. } => format!("colorway {:?} {{", name.value),
        Node::Strands(Strands::Across(list)) => format!("strands {}", shape(list)),
        Node::Strands(Strands::FromEdges { left, right }) => {
            format!("strands from-left [{}] from-right [{}]", items(left), items(right))
        }
        Node::Gauge(_) => "gauge {".into(),
        Node::Swatch(Swatch::Thickness(size)) => format!("thickness {}", length(size)),
        Node::Swatch(Swatch::Knots(count, size)) => format!("{} knots use {}", count.value, length(size)),
        Node::Swatch(Swatch::Rows(count, size)) => format!("{} rows measure {}", count.value, length(size)),
        Node::Length(size) => format!("length {}", length(size)),
        Node::Sets(count) => format!("sets {}", count.value),
        Node::Ends(size) => format!("ends {}", length(size)),
        Node::Start(start) => format!("start {}", start_of(start)),
        Node::Use { names: all, path } => format!("use [{}] from {:?}", names(all), path.value),
        Node::Motif(motif) => format!(
            "motif {}({}){} {{",
            motif.name.text,
            names(&motif.params),
            opt(" on ", motif.width.map(|n| n.value))
        ),
        Node::Opening(_) => "opening {".into(),
        Node::Set(_) => "set {".into(),
        Node::Closing(_) => "closing {".into(),
        node => body(node),
    }
}

fn body(node: &Node) -> String {
    match node {
        Node::Take(take) => take_of(take),
        Node::Meet => "meet center".into(),
        Node::On { range, .. } => format!("on {} {{", range_of(range)),
        Node::Both(_) => "both {".into(),
        Node::Mirrored(_) => "mirrored {".into(),
        Node::Work(work) => {
            let args: Vec<String> = work.args.iter().map(expr).collect();
            format!("work {}({}){}", work.motif.text, args.join(", "), mirrored(work.mirrored))
        }
        Node::Repeat { times, .. } => format!("repeat {} {{", expr(times)),
        Node::For { variable, series, .. } => format!("for {} = {} {{", variable.text, series_of(series)),
        Node::Rows { offset, .. } => format!("rows{} {{", if offset.is_some() { " offset" } else { "" }),
        Node::Leader { strand, promise, .. } => {
            format!("leader {}{} {{", strand_of(strand), promise_of(promise))
        }
        Node::Section { title, .. } => format!("section {:?} {{", title.value),
        Node::Note(text) => format!("note {:?}", text.value),
        Node::Expect(Expect::List(list)) => format!("expect {}", shape(list)),
        Node::Expect(Expect::Start { mirrored: word }) => format!("expect start{}", mirrored(*word)),
        Node::Broken { block } => {
            if block.is_some() {
                "BROKEN {".into()
            } else {
                "BROKEN".into()
            }
        }
        node => format!("{node:?}"),
    }
}
