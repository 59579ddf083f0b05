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

/// No problem at all, or the test says which.
pub fn accept(text: &str) -> Parsed {
    let parsed = parse(text);
    assert!(parsed.problems.is_empty(), "{text}\n{}", problems(&parsed, text));
    parsed
}

fn statements(list: &[Statement], depth: usize, out: &mut String) {
    for statement in list {
        let _ = writeln!(out, "{:1$}{2}", "", depth * 2, said(&statement.node));
        if let Some(chart) = statement.node.chart() {
            rows(chart, depth + 1, out);
        }
        if let Some(block) = statement.node.block() {
            statements(&block.statements, depth + 1, out);
            let close = if block.close.is_some() { "}" } else { "} (missing)" };
            let _ = writeln!(out, "{:1$}{close}", "", depth * 2);
        }
    }
}

fn rows(chart: &Chart, depth: usize, out: &mut String) {
    for row in &chart.rows {
        let signs: Vec<String> = row.marks.iter().map(|mark| format!("{:?}", mark.sign)).collect();
        let letters = row.letters.as_ref().map(|letters| {
            let across = if letters.across.is_some() { " across" } else { "" };
            let height = opt(" height ", letters.height.map(|height| height.value));
            format!("letters {:?}{across}{height}", letters.text.value)
        });
        let broken = if row.whole { "" } else { " (broken)" };
        let _ = writeln!(out, "{:1$}{2}{broken}", "", depth * 2, letters.unwrap_or_else(|| signs.join(" ")));
    }
    let close = if chart.close.is_some() { "}" } else { "} (missing)" };
    let _ = writeln!(out, "{:1$}{close}", "", (depth - 1) * 2);
}

fn said(node: &Node) -> String {
    match node {
        Node::Head(statement) => head(statement),
        Node::Body(statement) => body(statement),
        Node::EndPiece(piece) => end_piece(piece),
        Node::Swatch(Swatch::Thickness(size)) => format!("thickness {}", length(size)),
        Node::Swatch(Swatch::Knots(count, size)) => format!("{} knots use {}", count.value, length(size)),
        Node::Swatch(Swatch::Rows(count, size)) => format!("{} rows measure {}", count.value, length(size)),
        Node::Swatch(Swatch::Density(tex)) => format!("{} tex", tex.value),
        Node::Broken(broken) => if broken.block.is_some() { "BROKEN {" } else { "BROKEN" }.into(),
    }
}

fn colors(thread: &Thread) -> String {
    let color = |(color, length): (&Text, Option<&Length>)| {
        let length = length.map(|length| format!("{:.3} mm", length.millimeters));
        format!("{}{}", color.value, opt(" ", length))
    };
    thread.colors().map(color).collect::<Vec<_>>().join(", ")
}

fn head(head: &Head) -> String {
    match head {
        Head::Pattern(pattern) => {
            let edition = opt(" edition ", pattern.edition.map(|n| n.value));
            format!("pattern {:?}{}{edition}", pattern.title.value, others_of(&pattern.others))
        }
        Head::About(about) => format!("about {:?}{}", about.text.value, others_of(&about.others)),
        Head::Author(author) => format!("author {:?}", author.text.value),
        Head::License(license) => format!("license {:?}", license.text.value),
        Head::Thread(thread) => format!(
            "thread {} = {}{}{}",
            thread.name.text,
            colors(thread),
            opt(" ", thread.label.as_ref().map(|label| format!("{:?}", label.value))),
            others_of(&thread.others)
        ),
        Head::Bead(bead) => format!(
            "bead {} = {} {} hole {}{}{}",
            bead.name.text,
            bead.color.value,
            length(&bead.size.across),
            length(&bead.size.hole),
            opt(" ", bead.label.as_ref().map(|label| format!("{:?}", label.value))),
            others_of(&bead.others)
        ),
        Head::Colorway(colorway) => format!("colorway {:?} {{", colorway.name.value),
        Head::Strands(Strands::Across(list)) => format!("strands {}", shape(list)),
        Head::Strands(Strands::FromEdges { left, right }) => {
            format!("strands from-left [{}] from-right [{}]", items(left), items(right))
        }
        Head::Gauge(_) => "gauge {".into(),
        Head::Length(said) => format!("length {}", length(&said.length)),
        Head::Sets(sets) => format!("sets {}", sets.count.value),
        Head::Ends(ends) => format!("ends {}", length(&ends.length)),
        Head::Start(start) => format!("start {}", start_of(start)),
        Head::Use(import) => format!("use [{}] from {:?}", names(&import.names), import.path.value),
        Head::Motif(motif) => format!(
            "motif {}({}){} {{",
            motif.name.text,
            names(&motif.params),
            opt(" on ", motif.width.map(|n| n.value))
        ),
        Head::Begin(_) => "begin {".into(),
        Head::Finish(_) => "finish {".into(),
        Head::Opening(_) => "opening {".into(),
        Head::Set(_) => "set {".into(),
        Head::Closing(_) => "closing {".into(),
    }
}

fn end_piece(piece: &EndPiece) -> String {
    match piece {
        EndPiece::Knot(_) => "knot".into(),
        EndPiece::Plait(plait) => format!("plait {} for {}", plait.bundles.value, length(&plait.length)),
        EndPiece::Twist(twist) => format!("twist for {}", length(&twist.length)),
        EndPiece::Wrap(wrap) => format!("wrap {} {} turns", wrap.thread.text, wrap.turns.value),
        EndPiece::Split(split) => format!("split {} {{", split.parts.value),
        EndPiece::Loop(piece) => format!("loop {}", length(&piece.length)),
        EndPiece::Tassel(tassel) => format!("tassel {}", length(&tassel.length)),
        EndPiece::Bead(bead) => format!("bead {}", bead.bead.text),
        EndPiece::Closing(_) => "closing knot".into(),
        EndPiece::Slide(slide) => {
            let thread = opt(" ", slide.thread.as_ref().map(|name| &name.text));
            format!("slide{thread} {} turns", slide.turns.value)
        }
    }
}

fn body(body: &Body) -> String {
    match body {
        Body::Take(take) => take_of(take),
        Body::Meet(_) => "meet center".into(),
        Body::Join(join) => format!(
            "join {}{}{}",
            strand_of(&join.strand),
            opt(" with ", join.thread.as_ref().map(|name| &name.text)),
            opt(" in set ", join.set.as_ref().map(|set| expr(set)))
        ),
        Body::On(on) => format!("on {} {{", range_of(&on.range)),
        Body::Both(_) => "both {".into(),
        Body::Mirrored(_) => "mirrored {".into(),
        Body::Work(work) => {
            let args: Vec<String> = work.args.iter().map(expr).collect();
            format!("work {}({}){}", work.motif.text, args.join(", "), mirrored(work.mirrored))
        }
        Body::Repeat(repeat) => format!("repeat {} {{", expr(&repeat.times)),
        Body::For(count) => format!("for {} = {} {{", count.variable.text, series_of(&count.series)),
        Body::Rows(rows) => format!("rows{} {{", if rows.offset.is_some() { " offset" } else { "" }),
        Body::Leader(leader) => {
            format!("leader {}{} {{", strand_of(&leader.strand), promise_of(&leader.promise))
        }
        Body::Section(section) => {
            format!("section {:?}{} {{", section.title.value, others_of(&section.others))
        }
        Body::Note(note) => format!("note {:?}{}", note.text.value, others_of(&note.others)),
        Body::Expect(Expect::List(list)) => format!("expect {}", shape(list)),
        Body::Expect(Expect::Start { mirrored: word }) => format!("expect start{}", mirrored(*word)),
        Body::Expect(Expect::Face(symmetry)) => format!("expect face {symmetry:?}"),
        Body::Bead(bead) => {
            let strands: Vec<String> = bead.strands.iter().map(strand_of).collect();
            format!("bead {} on {}", bead.bead.text, strands.join(", "))
        }
        Body::Face(face) => {
            let keys: Vec<_> =
                face.keys.iter().map(|key| format!("{} {}", key.letter.text, key.thread.text)).collect();
            let offset = if face.offset.is_some() { " offset" } else { "" };
            format!("face{offset} {} {{", keys.join(", "))
        }
    }
}
