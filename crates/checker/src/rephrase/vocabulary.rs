//! First words of other crafts and languages for what the notation has a word for: `braid 3 for 4 cm`, `fringe 2 cm`,
//! `heading "the tide comes in" {`, `define fan(shade) {`.

use super::words::KINDS;
use super::{BlockSort, Phrase, Rewording, UnreadLine, number_said};
use knotwright_grammar::tree::Due;
use knotwright_grammar::{Span, TokenKind};

/// First words, with where they stand, and the word of the notation.
const FIRST: [(&[&str], BlockSort, &str); 14] = [
    (&["braid", "braided", "weave"], BlockSort::Ends, "plait"),
    (&["fringe", "tail", "tails", "free"], BlockSort::Ends, "tassel"),
    (&["divide", "part", "parts", "separate"], BlockSort::Ends, "split"),
    (&["coil", "wind", "whip", "bind"], BlockSort::Ends, "wrap"),
    (&["overhand", "tie"], BlockSort::Ends, "knot"),
    (&["tail", "tails", "fringe", "tassel", "tassels"], BlockSort::Top, "ends"),
    (&["chart", "across"], BlockSort::Body, "leader"),
    (&["size", "long"], BlockSort::Top, "length"),
    (&["colors", "colours", "palette", "variant"], BlockSort::Top, "colorway"),
    (&["define", "function", "def", "motive", "figure", "element", "macro"], BlockSort::Top, "motif"),
    (&["part", "heading", "title", "chapter", "stage", "phase"], BlockSort::Body, "section"),
    (&["remark", "comment", "tip", "hint", "text", "say"], BlockSort::Body, "note"),
    (&["check", "assert", "promise", "should", "ensure", "now"], BlockSort::Body, "expect"),
    (&["with", "only", "within", "in", "among", "using"], BlockSort::Body, "on"),
];

/// The first word as the notation has it.
pub(super) fn first_word(line: &UnreadLine) -> Option<Phrase> {
    let is_fit = |(words, around, _): &&(&[&str], BlockSort, &str)| {
        *around == line.around && words.contains(&line.text(0))
    };
    let (_, _, word) = FIRST.iter().find(is_fit).filter(|_| line.failing() == 0 && line.text(1) != "{")?;
    let says = format!("The word for that is `{word}`, not `{}`.", line.text(0));
    Some(Phrase::new(says, vec![Rewording::instead(line.tokens[0].span, *word)]))
}

/// `repeat {`, `body {` at the top: `set {`.
pub(super) fn main_part(line: &UnreadLine) -> Option<Phrase> {
    let is_block = line.around == BlockSort::Top && line.tokens.len() == 2 && line.text(1) == "{";
    let is_main = matches!(line.text(0), "repeat" | "body" | "main" | "pattern" | "steps" | "knots" | "band");
    let way = (is_block && is_main).then(|| Rewording::instead(line.tokens[0].span, "set"))?;
    Some(Phrase::new("What is tied over and over stands in `set`.", vec![way]))
}

/// `mirror {`: both halves, or only the mirror image.
pub(super) fn mirror_block(line: &UnreadLine) -> Option<Phrase> {
    let is_mirror = matches!(line.text(0), "mirror" | "mirroring" | "reflect" | "symmetric" | "sides");
    if !is_mirror || line.failing() > 0 || line.text(1) != "{" {
        return None;
    }
    let way = |word: &str| Rewording::instead(line.tokens[0].span, word).guess();
    let says = "A step and its mirror image stand in `both`, the mirror image alone in `mirrored`.";
    Some(Phrase::new(says, vec![way("both"), way("mirrored")]))
}

/// `kelp #1f5d50`, `floss kelp #1f5d50`: `thread kelp #1f5d50`.
pub(super) fn thread(line: &UnreadLine) -> Option<Phrase> {
    let color = (1..=2).find(|&at| line.kind(at) == Some(TokenKind::Color))?;
    let is_named = line.failing() == 0 && (0..color).all(|at| line.kind(at) == Some(TokenKind::Word));
    let start = line.tokens[0].span.start;
    let end = if color == 1 { start } else { line.tokens[1].span.start };
    let edits = is_named.then(|| vec![(Span { start, end }, "thread ".to_owned())])?;
    let write = line.after(&edits)?;
    Some(Phrase::new("A color is declared with its `thread`.", vec![Rewording::new(write, edits)]))
}

/// `repeat 4`, `4 times`, `2 sets` at the top: `sets 4`.
pub(super) fn how_often(line: &UnreadLine) -> Option<Phrase> {
    let is_word =
        |at| matches!(line.text(at), "repeat" | "repeats" | "times" | "set" | "sets" | "x" | "rounds");
    let mut numbers = (0..line.tokens.len()).filter(|&at| line.kind(at) == Some(TokenKind::Number));
    let number = numbers.next().filter(|_| numbers.next().is_none() && line.around == BlockSort::Top)?;
    let are_words = (0..line.tokens.len()).all(|at| at == number || is_word(at)) && line.tokens.len() > 1;
    let way = are_words.then(|| Rewording::instead(line.whole(), format!("sets {}", line.text(number))))?;
    Some(Phrase::new("How often the set is tied stands behind `sets`.", vec![way]))
}

/// `"Low tide"` alone: the title of the band, or a note.
pub(super) fn text_alone(line: &UnreadLine) -> Option<Phrase> {
    let is_alone = line.kind(0) == Some(TokenKind::String) && line.failing() == 0;
    let is_block = line.text(line.tokens.len() - 1) == "{";
    let (word, says) = match (line.around, is_block) {
        (BlockSort::Top, false) if line.whole().start == first_start(line) => {
            ("pattern", "The title of a band stands behind `pattern`.")
        }
        (BlockSort::Top, false) => ("about", "A text about the band stands behind `about`."),
        (BlockSort::Body, true) => ("section", "A heading stands behind `section`."),
        (BlockSort::Body, false) => ("note", "A remark for the instructions stands behind `note`."),
        _ => return None,
    };
    let start = line.tokens[0].span.start;
    let edits = is_alone.then(|| vec![(Span { start, end: start }, format!("{word} "))])?;
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// Where the first word of the file stands.
fn first_start(line: &UnreadLine) -> u32 {
    let is_word = |kind| !matches!(kind, TokenKind::Newline | TokenKind::Comment);
    let first = line.source.parsed.tokens.iter().find(|token| is_word(token.kind));
    first.map_or(0, |first| first.span.start)
}

/// `call fan(rust)`, `tie fan(rust)`: `work fan(rust)`.
pub(super) fn work(line: &UnreadLine) -> Option<Phrase> {
    let says = ["call", "do", "tie", "run", "make", "knot", "repeat", "use", "motif", "add", "draw", "place"];
    let is_call = says.contains(&line.text(0)) && line.given.has(Due::Motif, line.text(1));
    let is_call = is_call && line.around == BlockSort::Body && line.text(line.tokens.len() - 1) != "{";
    let way = is_call.then(|| Rewording::instead(line.tokens[0].span, "work"))?;
    Some(Phrase::new("A motif is tied with `work`.", vec![way]))
}

/// `put shell on left 1`, `shell on left 1`, `bead left 1`: `bead shell on left 1`.
pub(super) fn bead_on_strand(line: &UnreadLine) -> Option<Phrase> {
    let is_body = line.around == BlockSort::Body;
    let on =
        (0..line.tokens.len().min(5)).find(|&at| matches!(line.text(at), "on" | "to" | "at" | "onto"))?;
    let name = on.checked_sub(1).filter(|&name| is_body && line.given.has(Due::Bead, line.text(name)))?;
    let says = ["put", "add", "thread", "string", "place", "slide", "a", "the", "bead", "hang", "sew"];
    if on + 1 == line.tokens.len() || !(0..name).all(|at| says.contains(&line.text(at))) {
        return None;
    }
    let edits = vec![(line.span(0, on), format!("bead {} on", line.text(name)))];
    let write = line.after(&edits)?;
    let says = "A bead is threaded with `bead`, its name, `on` and the strand.";
    Some(Phrase::new(says, vec![Rewording::new(write, edits)]))
}

/// `again 3 {`, `do twice {`: `repeat 3 {`, `repeat 2 {`.
pub(super) fn repeated_block(line: &UnreadLine) -> Option<Phrase> {
    let is_other = matches!(line.text(0), "again" | "do" | "loop" | "times" | "cycle" | "redo" | "iterate");
    let is_again = is_other || (line.text(0) == "repeat" && number_said(line.text(1)).is_some());
    let last = line.tokens.len() - 1;
    let number = (1..=last).find_map(|at| match line.kind(at) {
        Some(TokenKind::Number) => Some(line.text(at).to_owned()),
        _ => number_said(line.text(at)),
    });
    let number = number.filter(|_| is_again && line.text(last) == "{" && last <= 4)?;
    let way = Rewording::instead(line.whole(), format!("repeat {number} {{"));
    Some(Phrase::new("What is tied again stands in `repeat`.", vec![way]))
}

/// `forward 3` without its strand, `center` without `meet`.
pub(super) fn unnamed_step(line: &UnreadLine) -> Option<Phrase> {
    if line.failing() > 0 || line.around != BlockSort::Body {
        return None;
    }
    let start = line.tokens[0].span.start;
    let put_in = |before: &str| {
        let edits = vec![(Span { start, end: start }, before.to_owned())];
        Some(Rewording::new(line.after(&edits)?, edits).guess())
    };
    if line.text(0) == "center" && line.tokens.len() == 1 {
        let ways = put_in("meet ").into_iter().collect();
        return Some(Phrase::new("The two strands in the middle are tied by `meet center`.", ways));
    }
    let side = if line.text(0).starts_with("forward") { "left" } else { "right" };
    let take = format!("take {side} 1: ");
    let ways = if KINDS.contains(&line.text(0)) { ["then ", &take].map(put_in) } else { return None };
    let says = "A step begins with `take` and the strand to take, or with `then` below a `take`.";
    Some(Phrase::new(says, ways.into_iter().flatten().collect()))
}

/// `lead: backward to edge`: `take lead: backward to edge`.
pub(super) fn label(line: &UnreadLine) -> Option<Phrase> {
    let is_label = line.text(1) == ":" && line.given.has(Due::Label, line.text(0)) && line.failing() == 0;
    let start = line.tokens[0].span.start;
    let edits = is_label.then(|| vec![(Span { start, end: start }, "take ".to_owned())])?;
    let says = "A step begins with `take` and the strand to take.";
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// `folded pairs mirrored`, `loose`: `start folded pairs mirrored`.
pub(super) fn start(line: &UnreadLine) -> Option<Phrase> {
    let is_start = matches!(line.text(0), "folded" | "loose") && line.around == BlockSort::Top;
    let start = line.tokens[0].span.start;
    let edits = is_start.then(|| vec![(Span { start, end: start }, "start ".to_owned())])?;
    Some(Phrase::new(
        "How the strands hang stands behind `start`.",
        vec![Rewording::new(line.after(&edits)?, edits)],
    ))
}
