//! What a number says.

use super::Look;
use crate::exprs::{Meaning, exprs, value};
use crate::wording::{count, length, ordinal, quoted};
use knotwright_grammar::tree::{Counting, Expr, Length, Node, Swatch};

/// What the number under the cursor says.
pub(super) fn words(look: &Look) -> Vec<String> {
    let Some(node) = look.node() else { return vec!["A number.".to_owned()] };
    let touches = |expr: &Expr| expr.span().touches(look.token.span.start);
    if let Some((expr, meaning)) = exprs(node).into_iter().find(|(expr, _)| touches(expr)) {
        return expression(look, expr, meaning);
    }
    vec![head(look, node)]
}

/// An expression: what it is for, and what it comes to if that is more than one number.
pub(super) fn expression(look: &Look, expr: &Expr, meaning: Meaning) -> Vec<String> {
    let names = look.names();
    let found = value(expr, &names);
    let mut text = Vec::new();
    if !matches!(expr, Expr::Number(_)) {
        let written = expr.span().of(look.checked.text());
        text.push(match found {
            Some(found) => format!("{} comes to {found} here, the first time.", quoted(written)),
            None => format!("{} is reckoned when it is tied.", quoted(written)),
        });
    }
    text.push(meaning_words(look, meaning, found));
    text
}

fn meaning_words(look: &Look, meaning: Meaning, value: Option<i64>) -> String {
    let nth = value.and_then(|value| u64::try_from(value).ok()).map_or("n-th".to_owned(), ordinal);
    let many = value.and_then(|value| u64::try_from(value).ok());
    match meaning {
        Meaning::Place { right } => format!("The {nth} strand from the {}.", side(right)),
        Meaning::Goal { right } => {
            format!("Until the strand in hand hangs {nth} from the {}.", side(right))
        }
        Meaning::Nth(from) => format!("The {nth} strand of that color, {}.", counting(from)),
        Meaning::Knots => {
            many.map_or("So many knots.".to_owned(), |many| format!("Ties {}.", count(many, "knot")))
        }
        Meaning::First => "The first number of a series.".to_owned(),
        Meaning::Last => "The last number of a series, reached or not passed.".to_owned(),
        Meaning::By => "The step of a series.".to_owned(),
        Meaning::Range(what) => format!("In this range: {what}."),
        Meaning::Times => {
            many.map_or("Tied so often.".to_owned(), |many| format!("Tied {}.", count(many, "time")))
        }
        Meaning::Strands => many
            .map_or("So many strands.".to_owned(), |many| format!("{} side by side.", count(many, "strand"))),
        Meaning::Argument(at) => argument(look, at),
    }
}

fn argument(look: &Look, at: usize) -> String {
    let Some(Node::Work(work)) = look.node() else { return "An argument.".to_owned() };
    let motif = crate::motifs::find(look.checked, &work.motif.text);
    let param = motif.and_then(|motif| motif.motif.params.get(at));
    match param {
        Some(param) => format!("What {} is in the motif {}.", quoted(&param.text), quoted(&work.motif.text)),
        None => format!("The {} argument of the motif {}.", ordinal(at as u64 + 1), quoted(&work.motif.text)),
    }
}

fn head(look: &Look, node: &Node) -> String {
    match node {
        Node::Pattern { .. } => "The edition of the notation that the file is written in.".to_owned(),
        Node::Sets(number) => format!("The set is tied {}.", count(u64::from(number.value), "time")),
        Node::Motif(motif) => match &motif.width {
            Some(width) => format!("The motif is meant for {}.", count(u64::from(width.value), "strand")),
            None => "A number.".to_owned(),
        },
        Node::Length(length) | Node::Ends(length) => measure(length),
        Node::Swatch(Swatch::Thickness(length)) => measure(length),
        Node::Swatch(Swatch::Knots(number, length)) if number.span != look.token.span => measure(length),
        Node::Swatch(Swatch::Rows(number, length)) if number.span != look.token.span => measure(length),
        Node::Swatch(Swatch::Knots(number, length)) => {
            format!(
                "{} use {} of the working strand.",
                count(u64::from(number.value), "knot"),
                words_of(length)
            )
        }
        Node::Swatch(Swatch::Rows(number, length)) => {
            format!("{} measure {}.", count(u64::from(number.value), "brick row"), words_of(length))
        }
        Node::Start(_) => "The length of the loop.".to_owned(),
        _ => "A number.".to_owned(),
    }
}

fn measure(length: &Length) -> String {
    let inches = length.millimeters / 25.4;
    format!("{}, that is {:.1} in.", words_of(length), inches)
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
