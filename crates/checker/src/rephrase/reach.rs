//! How far a run goes, and what a list promises, in words that are taken for names of threads: `over all`, `until end`,
//! `expect same`. They read, and no thread is called so.

use super::charts::face_said;
use super::places::CENTERS;
use super::words::KINDS;
use super::{Phrase, Rewording, UnreadLine, number_said};
use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::tree::Due;
use knotwright_grammar::{Span, Token, TokenKind};

/// Words for all strands that are left.
const ALL: [&str; 12] = [
    "all",
    "everything",
    "every",
    "each",
    "any",
    "others",
    "rest",
    "other",
    "the",
    "strands",
    "threads",
    "remaining",
];
/// Words for as far as a strand goes, where a number is due.
const ACROSS: [&str; 6] = ["across", "through", "along", "out", "all", "everything"];
const ENDS: [&str; 5] = ["end", "border", "side", "finish", "last"];
const MIDDLES: [&str; 3] = ["middle", "mid", "centre"];
const AS_BEFORE: [&str; 7] = ["same", "end", "again", "begin", "beginning", "before", "unchanged"];

/// What is said in place of a name that stands for nothing, with the ways to write it.
pub(crate) struct Reach {
    pub(crate) help: &'static str,
    pub(crate) mends: Vec<Mend>,
}

/// What was meant by a name that no thread has, if it says how far a run goes, or that strands hang as they did.
pub(crate) fn reach_of(fact: &Fact, source: &Source) -> Option<Reach> {
    let FactKind::UnknownName(unknown) = &fact.kind else { return None };
    if !matches!(unknown.due, Due::Thread | Due::Argument | Due::Number) || fact.place.file != FileId::CHECKED
    {
        return None;
    }
    let tokens = &source.parsed.tokens;
    let at = tokens.partition_point(|token| token.span.start < fact.place.span.start);
    // `seven lamp`, `work fan(three)`
    if unknown.due != Due::Number
        && let Some(number) = number_said(&unknown.name)
    {
        let mends = vec![mend(fact.place.span, &number)];
        return Some(Reach { help: "A number is written in figures.", mends });
    }
    let before = at.checked_sub(1).map(|before| tokens[before])?;
    let text = |token: &Token| token.span.of(&source.text);
    if unknown.due == Due::Number {
        let is_far = KINDS.contains(&text(&before)) && ACROSS.contains(&unknown.name.as_str());
        return is_far.then(|| far(fact.place.span));
    }
    let whole = before.span.to(fact.place.span);
    let one = |help, span, write: &str| Some(Reach { help, mends: vec![mend(span, write)] });
    match (text(&before), unknown.name.as_str()) {
        ("over", name) if ALL.contains(&name) => {
            let number = at.checked_sub(2).map(|number| tokens[number]);
            match number.filter(|number| number.kind == TokenKind::Number) {
                Some(number) => one(WHATEVER, number.span.to(whole), text(&number)),
                None => Some(far(whole)),
            }
        }
        ("until", name) if ENDS.contains(&name) || ALL.contains(&name) => Some(far(whole)),
        ("until" | "over", name) if MIDDLES.contains(&name) => {
            let mends = CENTERS.iter().map(|center| mend(whole, &format!("to {center}"))).collect();
            Some(Reach {
                help: "The middle is called `center`, and is a place: `to center left`, for one.",
                mends,
            })
        }
        ("expect", "face") => {
            let next = tokens.get(at + 1).filter(|_| is_last(tokens, at + 1))?;
            let meant = face_said(text(next))?;
            one("A face is promised to be alike by `expect face mirror`, `turn` or `flip`.", next.span, meant)
        }
        ("expect", name) if AS_BEFORE.contains(&name) && is_last(tokens, at) => one(
            "That all strands hang as they did at the beginning is promised by `expect start`.",
            fact.place.span,
            "start",
        ),
        _ => None,
    }
}

/// As far as the strand can go: in a half of the band that is mirrored, that is the middle.
fn far(whole: Span) -> Reach {
    let ways = ["edge"].into_iter().chain(CENTERS).map(|place| mend(whole, &format!("to {place}")));
    Reach { help: FAR, mends: ways.collect() }
}

const FAR: &str =
    "As far as the strand can go is `to edge`; as far as the middle, `to center left` or `to center right`.";
const WHATEVER: &str = "Where it does not matter over which strands, the number stands alone.";

/// Whether nothing but a remark comes behind a token on its line.
fn is_last(tokens: &[Token], at: usize) -> bool {
    let ends = [TokenKind::Newline, TokenKind::Comment, TokenKind::CloseBrace];
    tokens.get(at + 1).is_none_or(|next| ends.contains(&next.kind))
}

fn mend(span: Span, write: &str) -> Mend {
    let place = Place { file: FileId::CHECKED, span };
    Mend::new(format!("write `{write}`"), vec![Edit { place, text: write.to_owned() }], false)
}

/// `forward over all strands`, `forward 3 over all the others`: `forward to edge`, `forward 3`.
pub(super) fn over_all(line: &UnreadLine) -> Option<Phrase> {
    let over = (1..line.tokens.len()).find(|&at| line.text(at) == "over")?;
    let words = (over + 1..line.tokens.len()).take_while(|&at| ALL.contains(&line.text(at))).count();
    let last = over + words;
    if words < 2 {
        return None;
    }
    let is_counted = line.kind(over - 1) == Some(TokenKind::Number);
    Some(match is_counted {
        true => {
            let way = Rewording::instead(line.span(over - 1, last), line.text(over - 1));
            Phrase::new(WHATEVER, vec![way])
        }
        false => {
            let way = |place: &str| Rewording::instead(line.span(over, last), format!("to {place}"));
            Phrase::new(FAR, ["edge"].into_iter().chain(CENTERS).map(way).collect())
        }
    })
}
