//! Places by other names.

use super::words::KINDS;
use super::{Phrase, Rewording, UnreadLine};
use knotwright_grammar::tree::{Due, Thread};
use knotwright_grammar::{Span, TokenKind};

/// What the middle may be. Which of them is there depends on whether the number of strands is even.
pub(super) const CENTERS: [&str; 3] = ["center left", "center right", "center"];

/// `to middle`, `meet in the middle`: `to center left`, `to center right` or `to center`.
pub(super) fn rephrase_middle(line: &UnreadLine) -> Option<Phrase> {
    let is_the = |at: usize| at > 0 && line.text(at - 1) == "the";
    let is_side = |at| matches!(line.text(at), "left" | "right");
    let at = (0..line.tokens.len()).find(|&at| match line.text(at) {
        "middle" | "mid" | "centre" => true,
        "center" => is_the(at) && !is_side(at + 1),
        _ => false,
    })?;
    let first = at - usize::from(is_the(at));
    let is_goal = first > 0 && matches!(line.text(first - 1), "to" | "until" | "till");
    let says = match line.text(at) {
        "center" => "The notation leaves out `the` here.".to_owned(),
        word => format!("The middle is called `center`, not `{word}`."),
    };
    if line.text(0) == "meet" {
        let way = Rewording::instead(line.span(0, at), "meet center");
        return Some(Phrase::new(says, vec![way]));
    }
    let first = if is_goal { first - 1 } else { first };
    let to = if is_goal { "to " } else { "" };
    Some(Phrase::new(says, centers(line, first, at, to)))
}

/// `to strand 4`, `to 4`: `to left 4`.
pub(super) fn to_number(line: &UnreadLine) -> Option<Phrase> {
    let to = (1..line.tokens.len()).find(|&at| line.text(at) == "to")?;
    let is_idle =
        |at: &usize| matches!(line.text(*at), "the" | "strand" | "position" | "place" | "number" | "thread");
    let number = to + 1 + (to + 1..line.tokens.len()).take_while(is_idle).count();
    let is_number = line.kind(number) == Some(TokenKind::Number) && line.text(0) == "take";
    let way = |side: &str| {
        Rewording::instead(line.span(to, number), format!("to {side} {}", line.text(number))).guess()
    };
    is_number.then(|| {
        Phrase::new("A place is said by its side and its number.", ["left", "right"].map(way).into())
    })
}

/// `forward over 3 strands`: `forward 3`.
pub(super) fn over_number(line: &UnreadLine) -> Option<Phrase> {
    let over = (1..line.tokens.len())
        .find(|&at| line.text(at) == "over" && line.kind(at + 1) == Some(TokenKind::Number))?;
    let rest = (over + 2..line.tokens.len()).take_while(|&at| {
        matches!(line.text(at), "strands" | "strand" | "threads" | "others" | "more" | "of" | "them" | "the")
    });
    let way = Rewording::instead(line.span(over, over + 1 + rest.count()), line.text(over + 1));
    Some(Phrase::new("Over how many strands a run goes is the number alone.", vec![way]))
}

/// `forward 3 to center left`: one of the two.
pub(super) fn count_and_goal(line: &UnreadLine) -> Option<Phrase> {
    let is_count = |at: usize| line.kind(at) == Some(TokenKind::Number) && KINDS.contains(&line.text(at - 1));
    let count =
        (1..line.tokens.len()).find(|&at| is_count(at) && matches!(line.text(at + 1), "to" | "until"))?;
    let end = (count + 1..line.tokens.len()).find(|&at| line.text(at) == ",").unwrap_or(line.tokens.len());
    let before = line.tokens[count - 1].span;
    let goal = line.span(count + 1, end - 1);
    let keep = |kept: Span, cut: Span| {
        let write = format!("{} {}", line.text(count - 1), kept.of(&line.source.text));
        Rewording::new(write, vec![(cut, String::new())]).guess()
    };
    let number = line.tokens[count].span;
    let ways = vec![
        keep(goal, Span { start: before.end, end: number.end }),
        keep(number, Span { start: number.end, end: goal.end }),
    ];
    Some(Phrase::new("A run ends after some knots or at a place, not both.", ways))
}

/// `until center`, `until edge`, `until left 3`: `to` ...
pub(super) fn until_place(line: &UnreadLine) -> Option<Phrase> {
    let at = (0..line.tokens.len()).find(|&at| {
        matches!(line.text(at), "until" | "till" | "towards" | "toward")
            && matches!(line.text(at + 1), "center" | "edge" | "left" | "right")
    })?;
    let says = "`until` goes with a thread; with a place it is `to`.";
    let is_middle = line.text(at + 1) == "center" && !matches!(line.text(at + 2), "left" | "right");
    if is_middle {
        return Some(Phrase::new(says, centers(line, at, at + 1, "to ")));
    }
    let way =
        Rewording::new(format!("to {}", line.text(at + 1)), vec![(line.tokens[at].span, "to".to_owned())]);
    Some(Phrase::new(says, vec![way]))
}

fn centers(line: &UnreadLine, first: usize, last: usize, to: &str) -> Vec<Rewording> {
    let way = |center: &&str| Rewording::instead(line.span(first, last), format!("{to}{center}"));
    CENTERS.iter().map(way).collect()
}

/// `to right edge`: `to edge`; `left center`: `center left`.
pub(super) fn side_of_edge(line: &UnreadLine) -> Option<Phrase> {
    let at = (0..line.tokens.len()).find(|&at| {
        matches!(line.text(at), "left" | "right") && matches!(line.text(at + 1), "edge" | "center")
    })?;
    let span = line.span(at, at + 1);
    if line.text(at + 1) == "center" {
        let way = Rewording::instead(span, format!("center {}", line.text(at)));
        return Some(Phrase::new("Of the two strands in the middle, `center` is said first.", vec![way]));
    }
    let way = Rewording::new("to edge", vec![(span, "edge".to_owned())]);
    Some(Phrase::new("`edge` is always the one ahead of the strand in hand.", vec![way]))
}

/// `all the way`, `to the end`: `to edge`.
pub(super) fn all_the_way(line: &UnreadLine) -> Option<Phrase> {
    let says = "As far as the strand can go is `to edge`.";
    let all = (0..line.tokens.len())
        .find(|&at| line.text(at) == "all" && line.text(at + 1) == "the" && line.text(at + 2) == "way");
    if let Some(all) = all {
        let is_goal = line.text(all + 3) == "to";
        let way = match is_goal {
            true => Rewording::instead(line.span(all, all + 3), "to"),
            false => Rewording::instead(line.span(all, all + 2), "to edge"),
        };
        return Some(Phrase::new(says, vec![way]));
    }
    let is_to = |at: usize| match line.text(at) {
        "until" | "till" => line.text(at + 1) == "the",
        word => word == "to",
    };
    let to = (0..line.tokens.len()).find(|&at| is_to(at))?;
    let end = to + 1 + usize::from(line.text(to + 1) == "the");
    let is_end = matches!(line.text(end), "end" | "side" | "border" | "edge" | "other");
    let last = end + usize::from(line.text(end) == "other");
    let way = is_end.then(|| Rewording::instead(line.span(to, last), "to edge"))?;
    Some(Phrase::new(says, vec![way]))
}

/// `leader (ink) {`, `leader ink {`: `leader left 1 (ink) {`.
pub(super) fn leader_place(line: &UnreadLine) -> Option<Phrase> {
    let is_promised = line.text(1) == "(" && line.text(3) == ")";
    let name = line.text(1 + usize::from(is_promised));
    let mut threads = line.source.parsed.tree.statements.iter().filter_map(|it| it.get::<Thread>());
    threads.find(|thread| line.text(0) == "leader" && thread.name.text == name)?;
    let span = line.span(1, if is_promised { 3 } else { 1 });
    let way = Rewording::instead(span, format!("left 1 ({name})")).guess();
    Some(Phrase::new("A leader is named by where it hangs when it begins.", vec![way]))
}

/// `take ink left`, `take ink 1`, `take the left ink`: `take ink 1 from left`.
pub(super) fn thread_place(line: &UnreadLine) -> Option<Phrase> {
    let end = (1..line.tokens.len()).find(|&at| matches!(line.text(at), ":" | "{" | "(" | "as"))?;
    let is_step = matches!(line.text(0), "take" | "leader" | "join") && end > 1 && line.failing() <= end;
    // `take left 1 ink` is a place, and what is promised of it.
    let is_place =
        |at: usize| matches!(line.text(at), "left" | "right") && line.kind(at + 1) == Some(TokenKind::Number);
    if (1..end).any(is_place) {
        return None;
    }
    let (mut name, mut side, mut number) = (None, None, "1");
    for at in 1..end {
        let text = line.text(at);
        match line.kind(at)? {
            TokenKind::Number => number = text,
            TokenKind::Word if matches!(text, "left" | "leftmost") => side = Some("left"),
            TokenKind::Word if matches!(text, "right" | "rightmost") => side = Some("right"),
            TokenKind::Word
                if matches!(text, "the" | "from" | "strand" | "thread" | "outer" | "first" | "on") => {}
            TokenKind::Word if name.is_none() && line.given.has(Due::Thread, text) => name = Some(text),
            _ => return None,
        }
    }
    let name = name.filter(|_| is_step)?;
    let way = |side: &str| Rewording::instead(line.span(1, end - 1), format!("{name} {number} from {side}"));
    let ways = match side {
        Some(side) => vec![way(side)],
        None => ["left", "right"].map(|side| way(side).guess()).into(),
    };
    let says = "A strand that is named by its thread has its number and its side behind it.";
    Some(Phrase::new(says, ways))
}

/// `take left 1 (ink) {`, with the rows of a chart below: `leader left 1 (ink) {`.
pub(super) fn take_of_chart(line: &UnreadLine) -> Option<Phrase> {
    let is_block = line.text(0) == "take" && line.text(line.tokens.len() - 1) == "{";
    let way = is_block.then(|| Rewording::instead(line.tokens[0].span, "leader"))?;
    Some(Phrase::new(
        "A chart of one strand that goes across all the others begins with `leader`.",
        vec![way],
    ))
}

/// `forward to shell`: `forward until shell`.
pub(super) fn to_thread(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let to = at.checked_sub(1).filter(|&to| line.text(to) == "to")?;
    let mut threads = line.source.parsed.tree.statements.iter().filter_map(|it| it.get::<Thread>());
    threads.find(|thread| thread.name.text == line.text(at))?;
    let way = Rewording::instead(line.span(to, at), format!("until {}", line.text(at)));
    Some(Phrase::new("`to` goes with a place; with a thread it is `until`.", vec![way]))
}

/// `meet`: `meet center`.
pub(super) fn meet(line: &UnreadLine) -> Option<Phrase> {
    let end = line.whole().end;
    let is_meet = line.text(0) == "meet" && line.tokens.len() == 1;
    let edits = is_meet.then(|| vec![(Span { start: end, end }, " center".to_owned())])?;
    Some(Phrase::new("Only the two strands in the middle meet.", vec![Rewording::new("meet center", edits)]))
}
