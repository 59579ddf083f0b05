//! Places by other names.

use super::{Phrase, Rewording, UnreadLine};
use knotwright_grammar::Span;
use knotwright_grammar::tree::Thread;

/// What the middle may be. Which of them is there depends on whether the number of strands is even.
const CENTERS: [&str; 3] = ["center left", "center right", "center"];

/// `to middle`, `meet in the middle`: `to center left`, `to center right` or `to center`.
pub(super) fn rephrase_middle(line: &UnreadLine) -> Option<Phrase> {
    let at = (0..line.tokens.len()).find(|&at| matches!(line.text(at), "middle" | "mid" | "centre"))?;
    let first = at - usize::from(at > 0 && line.text(at - 1) == "the");
    let is_goal = first > 0 && matches!(line.text(first - 1), "to" | "until" | "till");
    let says = format!("The middle is called `center`, not `{}`.", line.text(at));
    if line.text(0) == "meet" {
        let way = Rewording::instead(line.span(0, at), "meet center");
        return Some(Phrase::new(says, vec![way]));
    }
    let first = if is_goal { first - 1 } else { first };
    let to = if is_goal { "to " } else { "" };
    Some(Phrase::new(says, centers(line, first, at, to)))
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
