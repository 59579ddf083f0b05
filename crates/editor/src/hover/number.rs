//! What a number says.

use super::HoverLook;
use crate::exprs::{exprs, value};
use crate::wording::{count, length, ordinal, quoted};
use knotwright_grammar::tree::{
    BandLength, Counting, EndLength, EndPiece, Expr, Head, Length, LoopPiece, Meaning, Motif, Node, Plait,
    Slide, Start, Swatch, Tassel, Twist, Work, Wrap,
};
use knotwright_numbers::ToNumber;

/// What the number under the cursor says.
pub(super) fn words(look: &HoverLook) -> Vec<String> {
    let Some(node) = look.node() else { return vec!["A number.".to_owned()] };
    let touches = |expr: &Expr| expr.span().touches(look.token.span.start);
    if let Some((expr, meaning)) = exprs(node).into_iter().find(|(expr, _)| touches(expr)) {
        return expression(look, expr, meaning);
    }
    vec![head(look, node)]
}

/// What the length says that ends under the cursor.
pub(super) fn measured(look: &HoverLook) -> Option<String> {
    look.node().map(|node| head(look, node))
}

/// An expression: what it is for, and what it comes to if that is more than one number.
pub(super) fn expression(look: &HoverLook, expr: &Expr, meaning: Meaning) -> Vec<String> {
    let names = look.names();
    let found = value(expr, &names);
    let mut text = Vec::new();
    if !matches!(expr, Expr::Number(_)) {
        let written = expr.span().of(look.checked.text());
        text.push(match found {
            Some(found) => format!("{} is {found} here, the first time.", quoted(written)),
            None => format!("{} is computed when it is tied.", quoted(written)),
        });
    }
    text.push(meaning_words(look, meaning, found));
    text
}

fn meaning_words(look: &HoverLook, meaning: Meaning, value: Option<i64>) -> String {
    let nth = value.and_then(|value| u64::try_from(value).ok()).map_or("n-th".to_owned(), ordinal);
    let many = value.and_then(|value| u64::try_from(value).ok());
    match meaning {
        Meaning::Place { right } => format!("The {nth} strand from the {}.", side(right)),
        Meaning::Goal { right } => {
            format!("Until the strand in hand hangs {nth} from the {}.", side(right))
        }
        Meaning::Nth(from) => format!("The {nth} strand of that color, {}.", counting(from)),
        Meaning::Knots => {
            many.map_or("This many knots.".to_owned(), |many| format!("Ties {}.", count(many, "knot")))
        }
        Meaning::First => "The first number of a series.".to_owned(),
        Meaning::Last => "The last number of a series, which it reaches or stops before.".to_owned(),
        Meaning::By => "The step of a series.".to_owned(),
        Meaning::AtEdge { right } => format!("In this range: this many strands at the {} edge.", side(right)),
        Meaning::InMiddle => "In this range: this many strands in the middle.".to_owned(),
        Meaning::AllBut => "In this range: all but this many strands at each edge.".to_owned(),
        Meaning::FirstPlace => "In this range: the first position, from the left.".to_owned(),
        Meaning::LastPlace => "In this range: the last position, from the left.".to_owned(),
        Meaning::Times => {
            many.map_or("Tied this many times.".to_owned(), |many| format!("Tied {}.", count(many, "time")))
        }
        Meaning::WhichSet => {
            many.map_or("Joined in this set only.".to_owned(), |many| format!("Joined in set {many} only."))
        }
        Meaning::Strands => many.map_or("This many strands.".to_owned(), |many| {
            format!("{} side by side.", count(many, "strand"))
        }),
        Meaning::Argument(at) => argument(look, at),
    }
}

fn argument(look: &HoverLook, at: usize) -> String {
    let Some(work) = look.node().and_then(Node::get::<Work>) else { return "An argument.".to_owned() };
    let motif = crate::motifs::find(look.checked, &work.motif.text);
    let param = motif.and_then(|motif| motif.motif.params.get(at));
    match param {
        Some(param) => format!("What {} is in the motif {}.", quoted(&param.text), quoted(&work.motif.text)),
        None => {
            format!("The {} argument of the motif {}.", ordinal(at.to_u64() + 1), quoted(&work.motif.text))
        }
    }
}

fn head(look: &HoverLook, node: &Node) -> String {
    match node {
        Node::Head(head) => in_head(head, look.token.span.start),
        Node::Swatch(swatch) => in_swatch(look, swatch),
        Node::EndPiece(piece) => in_end(look, piece),
        Node::Body(_) | Node::Broken(_) => "A number.".to_owned(),
    }
}

fn in_head(head: &Head, at: u32) -> String {
    match head {
        Head::Pattern(_) => "The edition of the notation that the file is written in.".to_owned(),
        Head::Sets(sets) => format!("The set is tied {}.", count(u64::from(sets.count.value), "time")),
        Head::Motif(Motif { width: Some(width), .. }) => {
            format!("The motif is meant for {}.", count(u64::from(width.value), "strand"))
        }
        Head::Length(BandLength { length }) | Head::Ends(EndLength { length }) => measure(length),
        Head::Start(Start::Loop(length, _)) => format!("The loop: {}", measure(length)),
        Head::Bead(bead) if bead.size.hole.span.touches(at) => {
            format!("How wide its hole is: {}", measure(&bead.size.hole))
        }
        Head::Bead(bead) => format!("How large the bead is: {}", measure(&bead.size.across)),
        Head::Start(Start::Loose | Start::Folded(_))
        | Head::Motif(_)
        | Head::About(_)
        | Head::Author(_)
        | Head::License(_)
        | Head::Thread(_)
        | Head::Colorway(_)
        | Head::Strands(_)
        | Head::Gauge(_)
        | Head::Use(_)
        | Head::Begin(_)
        | Head::Finish(_)
        | Head::Opening(_)
        | Head::Set(_)
        | Head::Closing(_) => "A number.".to_owned(),
    }
}

fn in_end(look: &HoverLook, piece: &EndPiece) -> String {
    match piece {
        EndPiece::Plait(Plait { bundles, .. }) if bundles.span == look.token.span => {
            format!("Plaited in {}.", count(u64::from(bundles.value), "bundle"))
        }
        EndPiece::Plait(Plait { length, .. })
        | EndPiece::Twist(Twist { length })
        | EndPiece::Loop(LoopPiece { length })
        | EndPiece::Tassel(Tassel { length }) => measure(length),
        EndPiece::Wrap(Wrap { turns, .. }) | EndPiece::Slide(Slide { turns, .. }) => {
            format!("It goes around {}.", count(u64::from(turns.value), "time"))
        }
        EndPiece::Split(split) => format!("Split into {}.", count(u64::from(split.parts.value), "part")),
        EndPiece::Knot(_) | EndPiece::Closing(_) | EndPiece::Bead(_) => "A number.".to_owned(),
    }
}

fn in_swatch(look: &HoverLook, swatch: &Swatch) -> String {
    match swatch {
        Swatch::Thickness(length) => measure(length),
        Swatch::Knots(number, length) | Swatch::Rows(number, length) if number.span != look.token.span => {
            measure(length)
        }
        Swatch::Knots(number, length) => {
            format!(
                "{} use {} of the working strand.",
                count(u64::from(number.value), "knot"),
                words_of(length)
            )
        }
        Swatch::Rows(number, length) => {
            format!("{} measure {}.", count(u64::from(number.value), "brick row"), words_of(length))
        }
        Swatch::Density(tex) => format!("A kilometer of the thread weighs {} g.", tex.value),
    }
}

fn measure(length: &Length) -> String {
    let inches = length.millimeters / 25.4;
    // A thread is thinner than the first decimal.
    let decimals = if inches < 0.1 {
        3
    } else if inches < 1.0 {
        2
    } else {
        1
    };
    format!("{}, that is {inches:.decimals$} in.", words_of(length))
}

fn words_of(measured: &Length) -> String {
    length(measured.millimeters)
}

fn side(right: bool) -> &'static str {
    if right { "right" } else { "left" }
}

pub(super) fn counting(from: Counting) -> &'static str {
    match from {
        Counting::FromLeft => "counted from the left",
        Counting::FromRight => "counted from the right",
        Counting::LeftOfCenter => "counted from the middle to the left",
        Counting::RightOfCenter => "counted from the middle to the right",
    }
}
