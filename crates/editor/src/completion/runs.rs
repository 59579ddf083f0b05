//! Kinds that can still be tied, and how far.

use super::hand::{Hand, kind};
use super::{CompletionKind, Here, Items};
use crate::hang::{short_list, thread_name};
use crate::steps::kind_word;
use crate::views;
use crate::wording::count;
use knotwright_band::Kind;
use knotwright_checker::Pattern;
use knotwright_numbers::ToNumber;

/// More counts than this are not listed one by one.
const MOST: usize = 40;

/// The kinds that the strand in hand can tie.
pub(super) fn kinds(here: &Here, items: &mut Items) {
    let hand = Hand::of(here);
    for kind in [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward] {
        let Some((hand, pattern)) = hand.as_ref().zip(here.checked.pattern()) else {
            items.word(kind_word(kind), help(kind));
            continue;
        };
        let ahead = hand.ahead(kind);
        if let Some(&next) = ahead.first() {
            let detail = match kind.swaps() {
                true => format!("over {}", names(pattern, &ahead)),
                false => format!("on {}", thread_name(pattern, next)),
            };
            items.add(kind_word(kind), detail, CompletionKind::Word);
            items.document(help(kind));
        }
    }
    series_of_goals(here, hand.as_ref(), items);
}

/// Whole runs: `forward to edge`, `forward to center left`.
fn series_of_goals(here: &Here, hand: Option<&Hand>, items: &mut Items) {
    let (Some(hand), true) = (hand, here.line.back(0) != "then") else { return };
    for kind in [Kind::Forward, Kind::Backward] {
        for (goal, knots) in goals_of(hand, kind) {
            items.add(
                &format!("{} to {goal}", kind_word(kind)),
                count(knots.to_u64(), "knot"),
                CompletionKind::Word,
            );
        }
    }
}

fn help(kind: Kind) -> &'static str {
    match kind {
        Kind::Forward => "the left strand works; the two change places",
        Kind::Backward => "the right strand works; the two change places",
        Kind::ForwardBackward => "the left strand works; each stays where it was",
        Kind::BackwardForward => "the right strand works; each stays where it was",
    }
}

fn names(pattern: &Pattern, threads: &[u16]) -> String {
    let names: Vec<&str> = threads.iter().map(|&thread| thread_name(pattern, thread)).collect();
    short_list(&names, 40)
}

/// How many knots, and where each number leads.
pub(super) fn counts(here: &Here, items: &mut Items) {
    let (Some(kind), Some(hand)) = (kind(here.line.back(0)), Hand::of(here)) else { return };
    let Some(pattern) = here.checked.pattern() else { return };
    let ahead = hand.ahead(kind);
    if !kind.swaps() {
        (1..=3).filter(|_| !ahead.is_empty()).for_each(|knots| {
            let detail = format!("on {}", thread_name(pattern, ahead[0]));
            items.add(&knots.to_string(), detail, CompletionKind::Number);
        });
        return;
    }
    for knots in 1..=ahead.len().min(MOST) {
        let goal = place(&hand, hand.after(kind, knots));
        let detail = format!("over {}; reaches {goal}", names(pattern, &ahead[..knots]));
        items.add(&knots.to_string(), detail, CompletionKind::Number);
    }
}

/// `over`, `until` and `to` with all that they can lead to.
pub(super) fn extents(here: &Here, word: &str, items: &mut Items) {
    let kind = kind(here.line.back(0));
    let (Some(kind), Some(hand)) = (kind, Hand::of(here)) else {
        return super::names::plain_word(here, word, items);
    };
    let Some(pattern) = here.checked.pattern().filter(|_| kind.swaps()) else { return };
    let ahead = hand.ahead(kind);
    match word {
        "over" => over(pattern, &ahead, items),
        "until" => until(pattern, &ahead, items),
        _ => {
            for (goal, knots) in goals_of(&hand, kind) {
                items.add(&format!("to {goal}"), count(knots.to_u64(), "knot"), CompletionKind::Place);
            }
        }
    }
}

fn over(pattern: &Pattern, ahead: &[u16], items: &mut Items) {
    if let Some(&next) = ahead.first().filter(|&&next| next != u16::MAX) {
        let knots = ahead.iter().take_while(|&&thread| thread == next).count();
        items.add(
            &format!("over {}", thread_name(pattern, next)),
            count(knots.to_u64(), "knot"),
            CompletionKind::Thread,
        );
    }
}

fn until(pattern: &Pattern, ahead: &[u16], items: &mut Items) {
    for (knots, &thread) in ahead.iter().enumerate().skip(1).filter(|(_, thread)| **thread != u16::MAX) {
        if !ahead[..knots].contains(&thread) {
            let label = format!("until {}", thread_name(pattern, thread));
            items.add(&label, count(knots.to_u64(), "knot"), CompletionKind::Thread);
        }
    }
}

/// The threads that may follow `over` or `until`, with how many knots that makes.
fn colors_ahead(here: &Here, items: &mut Items) {
    let word = here.line.back(0);
    let Some((hand, pattern)) = Hand::of(here).zip(here.checked.pattern()) else { return };
    let Some(kind) = (1..3).find_map(|back| kind(here.line.back(back))) else { return };
    let mut found = Items::new(here.line.word);
    let ahead = hand.ahead(kind);
    if word == "over" {
        over(pattern, &ahead, &mut found)
    } else {
        until(pattern, &ahead, &mut found)
    }
    for item in found.done() {
        let name = item.label.trim_start_matches(word).trim_start();
        items.add(name, item.detail, CompletionKind::Thread);
    }
}

/// The places after `to`, those that begin with `word`.
pub(super) fn goals(here: &Here, word: &str, items: &mut Items) {
    let (Some(kind), Some(hand)) = (kind(here.line.back(1)), Hand::of(here)) else {
        return super::names::plain_word(here, word, items);
    };
    for (goal, knots) in
        goals_of(&hand, kind).into_iter().filter(|(goal, _)| goal.split(' ').next() == Some(word))
    {
        items.add(&goal, count(knots.to_u64(), "knot"), CompletionKind::Place);
    }
}

/// The numbers after `to left` and `to right`.
pub(super) fn goal_numbers(here: &Here, items: &mut Items) {
    let side = here.line.back(0);
    let (Some(kind), Some(hand)) = (kind(here.line.back(2)), Hand::of(here)) else { return };
    let width = views::width(&hand.view);
    for knots in 0..=hand.beyond(kind).min(MOST) {
        let goal = hand.after(kind, knots);
        let number = if side == "left" { goal } else { width + 1 - goal };
        items.add(&number.to_string(), count(knots.to_u64(), "knot"), CompletionKind::Number);
    }
}

/// Every place ahead that has a name, the edge and the middle first, and how many knots lead there.
fn goals_of(hand: &Hand, kind: Kind) -> Vec<(String, usize)> {
    let (width, beyond) = (views::width(&hand.view), hand.beyond(kind));
    if beyond == 0 || !kind.swaps() {
        return Vec::new();
    }
    let mut goals = vec![("edge".to_owned(), beyond)];
    let knots_to = |goal: usize| (1..=beyond).find(|&knots| hand.after(kind, knots) == goal);
    let middle: &[(&str, usize)] = if width.is_multiple_of(2) {
        &[("center left", width / 2), ("center right", width / 2 + 1)]
    } else {
        &[("center", width / 2 + 1)]
    };
    goals.extend(middle.iter().filter_map(|(name, goal)| Some(((*name).to_owned(), knots_to(*goal)?))));
    goals.extend((1..=beyond.min(MOST)).map(|knots| (numbered(width, hand.after(kind, knots)), knots)));
    goals
}

/// `left 3`, or `right 2` where that is the smaller number.
fn numbered(width: usize, place: usize) -> String {
    if 2 * place <= width + 1 { format!("left {place}") } else { format!("right {}", width + 1 - place) }
}

/// A place in words, the middle and the edges by name.
fn place(hand: &Hand, at: usize) -> String {
    let width = views::width(&hand.view);
    match (at, width % 2) {
        (1, _) => "the left edge".to_owned(),
        (at, _) if at == width => "the right edge".to_owned(),
        (at, 0) if at == width / 2 => "center left".to_owned(),
        (at, 0) if at == width / 2 + 1 => "center right".to_owned(),
        (at, 1) if at == width / 2 + 1 => "center".to_owned(),
        (at, _) => numbered(width, at),
    }
}

/// The threads ahead, or what `otherwise` knows where it is not known who hangs there.
pub(super) fn colors_ahead_or(here: &Here, items: &mut Items, otherwise: impl Fn(&Here, &mut Items)) {
    if Hand::of(here).is_some() { colors_ahead(here, items) } else { otherwise(here, items) }
}
