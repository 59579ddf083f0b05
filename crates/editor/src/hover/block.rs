//! What is to be said of a whole block: how many knots, when the set closes; of an `expect`, the real order; of a
//! `work` or a `for`, what it ties.

use super::{HoverLook, ends};
use crate::hang::{list, thread_name};
use crate::steps::TiedStep;
use crate::wording::{count, length, ordinal, quoted};
use knotwright_checker::{PartKind, View};
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::{Expect, Head, Join, LeaderChart, Node, Statement, Work};
use knotwright_numbers::ToNumber;

/// Said at the statement's first word, at its braces and, for `expect`, everywhere in it.
pub(super) fn words(look: &HoverLook) -> Vec<String> {
    let Some(statement) = look.site.inner() else { return Vec::new() };
    let first = statement.span.start == look.token.span.start;
    let brace = matches!(look.token.kind, TokenKind::OpenBrace | TokenKind::CloseBrace);
    if let Some(expect) = statement.get() {
        return expected(look, expect);
    }
    if first && statement.is::<Join>() {
        return joined(look);
    }
    match &statement.node {
        _ if !first && !brace => Vec::new(),
        Node::Head(head) => in_head(look, head),
        Node::Body(_) => in_body(look, statement),
        Node::EndPiece(piece) => ends::words(look, piece),
        Node::Swatch(_) | Node::Broken(_) => Vec::new(),
    }
}

fn in_head(look: &HoverLook, head: &Head) -> Vec<String> {
    match head {
        Head::Opening(_) => part(look, PartKind::Opening),
        Head::Set(_) => part(look, PartKind::Set),
        Head::Closing(_) => part(look, PartKind::Closing),
        Head::Pattern(_) => whole(look),
        Head::Strands(_) => strands(look),
        Head::About(_)
        | Head::Author(_)
        | Head::License(_)
        | Head::Thread(_)
        | Head::Bead(_)
        | Head::Colorway(_)
        | Head::Gauge(_)
        | Head::Length(_)
        | Head::Sets(_)
        | Head::Ends(_)
        | Head::Start(_)
        | Head::Use(_)
        | Head::Begin(_)
        | Head::Finish(_)
        | Head::Motif(_) => Vec::new(),
    }
}

/// What ties by its braces, or by name, says how the strands hang before and after.
fn in_body(look: &HoverLook, statement: &Statement) -> Vec<String> {
    if statement.is::<LeaderChart>() {
        return leader(look);
    }
    let holds = statement.node.declaration().is_some_and(|known| known.holds.is_some());
    if holds || statement.is::<Work>() { ties(look) } else { Vec::new() }
}

/// Who leads, and what all rows of the chart do.
fn leader(look: &HoverLook) -> Vec<String> {
    let first = look.site.inner().and_then(|statement| look.checked.moments().within(statement.span).first());
    let tied = first.and_then(|moment| TiedStep::of(look.checked, moment));
    let leads =
        tied.and_then(|tied| Some((quoted(tied.name(tied.hand()?)), ordinal(u64::from(tied.step.from) + 1))));
    let facts = leads.map(|(thread, place)| format!("{thread}, the {place} from the left, leads."));
    facts.into_iter().chain(ties(look)).collect()
}

/// Of a part: knots, rows, and after how many sets all comes again.
fn part(look: &HoverLook, which: PartKind) -> Vec<String> {
    let Some(tied) = look.checked.part(which) else { return Vec::new() };
    let mut facts = count(tied.piece.knots().len().to_u64(), "knot");
    if let Some(rows) = look.checked.rows(which) {
        facts.push_str(&format!(" in {}", count(u64::from(rows), "row")));
    }
    let mut text = vec![facts + "."];
    if which == PartKind::Set {
        text.extend(closes(look));
    }
    text
}

fn closes(look: &HoverLook) -> Option<String> {
    let repeats = look.checked.whole_band()?.repeats?;
    Some(match (repeats.run_in, repeats.colors, repeats.strands) {
        (0, 1, 1) => "It closes: every strand is back where it began.".to_owned(),
        (0, 1, strands) => {
            format!(
                "It closes: the colors hang as at the start, and every strand is back after {}.",
                count(strands, "set")
            )
        }
        (0, colors, _) => format!("It closes after {}.", count(colors, "set")),
        (run_in, colors, _) => {
            format!("After {}, it closes every {}.", count(run_in, "set"), count(colors, "set"))
        }
    })
}

fn whole(look: &HoverLook) -> Vec<String> {
    let Some((pattern, whole)) = look.checked.pattern().zip(look.checked.whole_band()) else {
        return Vec::new();
    };
    let mut facts = vec![count(pattern.strands.len().to_u64(), "strand")];
    facts.extend(pattern.parts().map(|(which, part)| {
        format!("{} in the {}", count(part.piece.knots().len().to_u64(), "knot"), which.word())
    }));
    facts.push(count(whole.rows, "row"));
    facts.extend(whole.times.map(|times| count(times, "set")));
    facts.extend(whole.length().map(length));
    vec![format!("{}.", facts.join(", "))]
}

fn strands(look: &HoverLook) -> Vec<String> {
    let Some(pattern) = look.checked.pattern() else { return Vec::new() };
    let names: Vec<&str> = pattern.strands.iter().map(|&thread| thread_name(pattern, thread)).collect();
    vec![format!("{} from left to right: {}.", count(names.len().to_u64(), "strand"), quoted_list(&names))]
}

fn quoted_list(names: &[&str]) -> String {
    format!("`{}`", list(names))
}

/// How the strands really hang, as far as it is known.
fn expected(look: &HoverLook, expect: &Expect) -> Vec<String> {
    let view = look.site.spot().and_then(|spot| look.checked.look(spot, &[]));
    let Some(view) = view.filter(|view| !view.blind) else {
        return vec!["How the strands hang here is not known.".to_owned()];
    };
    let (names, wanted) = (seen(look, &view), expect_start(look, expect, &view));
    let mut text = vec![format!("The strands hang like this here: {}.", quoted_list(&names))];
    text.extend(wanted.map(|wanted| {
        if wanted == names {
            "That is how the part began.".to_owned()
        } else {
            format!("The part began with {}.", quoted_list(&wanted))
        }
    }));
    text
}

/// The threads of the range as they are read from its left.
pub(super) fn seen<'c>(look: &HoverLook<'c>, view: &View) -> Vec<&'c str> {
    crate::views::names(look.checked, view)
}

fn expect_start<'c>(look: &HoverLook<'c>, expect: &Expect, view: &View) -> Option<Vec<&'c str>> {
    let Expect::Start { mirrored } = expect else { return None };
    let order: Vec<u8> = (0..=u8::MAX).take(view.order.len()).collect();
    let mut names = crate::views::names(look.checked, &View { order, ..view.clone() });
    if mirrored.is_some() {
        names.reverse();
    }
    Some(names)
}

/// How the strands hang before a join and after it.
fn joined(look: &HoverLook) -> Vec<String> {
    let Some(spot) = look.site.spot() else { return Vec::new() };
    let after = knotwright_checker::Spot { index: spot.index + 1, ..spot };
    let views = [spot, after].map(|spot| look.checked.look(spot, &[]).filter(|view| !view.blind));
    match views {
        [Some(before), Some(after)] => {
            let lists = [seen(look, &before), seen(look, &after)].map(|names| quoted_list(&names));
            vec![format!("Before: {}", lists[0]), format!("After: {}", lists[1])]
        }
        _ => Vec::new(),
    }
}

/// What a block or a `work` does: the strands before and after.
fn ties(look: &HoverLook) -> Vec<String> {
    let Some(spot) = look.site.spot() else { return Vec::new() };
    let after = knotwright_checker::Spot { index: spot.index + 1, ..spot };
    let (Some(before), Some(after)) = (look.checked.look(spot, &[]), look.checked.look(after, &[])) else {
        return Vec::new();
    };
    if before.blind || after.blind || before.part != after.part {
        return Vec::new();
    }
    let knots = after.knots.saturating_sub(before.knots);
    let lists = [seen(look, &before), seen(look, &after)].map(|names| quoted_list(&names));
    vec![
        format!("Ties {}.", count(knots, "knot")),
        format!("Before: {}", lists[0]),
        format!("After: {}", lists[1]),
    ]
}
