//! Slips in one number, word or mark.

use crate::Slip;
use knotwright_checker::Source;
use knotwright_grammar::tree::{Body, Chart, Node, Sign};
use knotwright_grammar::{Span, TokenKind};

const KINDS: [&str; 4] = ["forward", "backward", "forward-backward", "backward-forward"];

/// Every change of one thing in the steps of a file.
pub(crate) fn gather(source: &Source) -> Vec<Slip> {
    let mut slips = Vec::new();
    for statement in source.parsed.tree.walk() {
        let Node::Body(body) = &statement.node else { continue };
        match body {
            Body::Take(_) => words(source, statement.span, &mut slips),
            Body::Join(_) | Body::On(_) | Body::Work(_) | Body::Repeat(_) | Body::For(_) => {
                words(source, statement.head, &mut slips);
            }
            Body::Rows(rows) => marks(&rows.chart, ["\\", "/", ">", "<", "."].as_slice(), &mut slips),
            Body::Leader(leader) => marks(&leader.chart, [".", "#"].as_slice(), &mut slips),
            Body::Meet(_)
            | Body::Both(_)
            | Body::Mirrored(_)
            | Body::Section(_)
            | Body::Note(_)
            | Body::Face(_)
            | Body::Bead(_)
            | Body::Expect(_) => {}
        }
    }
    slips
}

fn words(source: &Source, within: Span, slips: &mut Vec<Slip>) {
    let tokens = source.parsed.tokens.iter();
    let mut turning = false;
    for token in tokens.filter(|token| within.start <= token.span.start && token.span.end <= within.end) {
        let (span, written) = (token.span, token.span.of(&source.text));
        let mut slip = |sort, text: &str| slips.push(Slip::one(sort, span, text.to_owned()));
        match (token.kind, written) {
            (TokenKind::Number, _) => {
                let Ok(number) = written.parse::<i64>() else { continue };
                for by in [-1, 1, -2, 2] {
                    if number + by >= 0 {
                        let sort = match by {
                            _ if turning => "count of turning knots",
                            -1 | 1 => "other number, by 1",
                            _ => "other number, by 2",
                        };
                        slip(sort, &(number + by).to_string());
                    }
                }
            }
            (TokenKind::Word, "left") => slip("side", "right"),
            (TokenKind::Word, "right") => slip("side", "left"),
            (TokenKind::Word, kind) if KINDS.contains(&kind) => {
                KINDS.iter().filter(|&&other| other != kind).for_each(|other| slip("kind", other));
            }
            _ => {}
        }
        turning = matches!(written, "forward-backward" | "backward-forward");
    }
}

fn marks(chart: &Chart, signs: &[&str], slips: &mut Vec<Slip>) {
    for mark in chart.rows.iter().flat_map(|row| &row.marks) {
        let span = Span { start: mark.offset, end: mark.offset + 1 };
        let written = match mark.sign {
            Sign::Forward => "\\",
            Sign::Backward => "/",
            Sign::ForwardBackward => ">",
            Sign::BackwardForward => "<",
            Sign::Same => "x",
            Sign::Dot => ".",
            Sign::Hash => "#",
            Sign::Any | Sign::Letter(_) => continue,
        };
        for sign in signs.iter().filter(|&&sign| sign != written) {
            let sort = if signs.contains(&"#") { "mark of a leader" } else { "mark of rows" };
            slips.push(Slip::one(sort, span, (*sign).to_owned()));
        }
    }
}
