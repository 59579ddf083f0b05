//! What is to be said of a whole block: how many knots, when the set closes; of an `expect`, the real order; of a
//! `work` or a `for`, what it ties.

use super::Look;
use crate::hang::{list, thread_name};
use crate::moments::parts;
use crate::reckoning::rows;
use crate::steps::Tied;
use crate::wording::{count, length, ordinal, quoted};
use knotwright_checker::{View, Which};
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::{Expect, Node};

/// Said at the statement's first word, at its braces and, for `expect`, everywhere in it.
pub(super) fn words(look: &Look) -> Vec<String> {
    let Some(statement) = look.site.inner() else { return Vec::new() };
    let first = statement.span.start == look.token.span.start;
    let brace = matches!(look.token.kind, TokenKind::OpenBrace | TokenKind::CloseBrace);
    match &statement.node {
        Node::Expect(expect) => expected(look, expect),
        _ if !first && !brace => Vec::new(),
        Node::Opening(_) => part(look, Which::Opening),
        Node::Set(_) => part(look, Which::Set),
        Node::Closing(_) => part(look, Which::Closing),
        Node::Pattern { .. } => whole(look),
        Node::Strands(_) => strands(look),
        Node::Leader { .. } => leader(look),
        Node::On { .. }
        | Node::Rows { .. }
        | Node::For { .. }
        | Node::Repeat { .. }
        | Node::Both(_)
        | Node::Mirrored(_)
        | Node::Section { .. }
        | Node::Work(_) => ties(look),
        _ => Vec::new(),
    }
}

/// Who leads, and what all rows of the chart do.
fn leader(look: &Look) -> Vec<String> {
    let first = look.site.inner().and_then(|statement| look.checked.moments().within(statement.span).first());
    let tied = first.and_then(|moment| Tied::of(look.checked, moment));
    let leads =
        tied.and_then(|tied| Some((quoted(tied.name(tied.hand()?)), ordinal(u64::from(tied.step.from) + 1))));
    let told = leads.map(|(thread, place)| format!("{thread}, the {place} from the left, leads."));
    told.into_iter().chain(ties(look)).collect()
}

/// Of a part: knots, rows, and after how many sets all comes again.
fn part(look: &Look, which: Which) -> Vec<String> {
    let Some(tied) = look.checked.part(which) else { return Vec::new() };
    let mut told = count(tied.knots.len() as u64, "knot");
    if let Some(rows) = rows(tied) {
        told.push_str(&format!(" in {}", count(u64::from(rows), "row")));
    }
    let mut text = vec![told + "."];
    if which == Which::Set {
        text.extend(closes(look));
    }
    text
}

fn closes(look: &Look) -> Option<String> {
    let repeats = look.checked.reckoning()?.repeats?;
    Some(match (repeats.run_in, repeats.colors, repeats.strands) {
        (0, 1, 1) => "It closes: every strand hangs again where it began.".to_owned(),
        (0, 1, strands) => {
            format!(
                "It closes: the colors hang again as they began, every strand itself after {}.",
                count(strands, "set")
            )
        }
        (0, colors, _) => format!("It closes after {}.", count(colors, "set")),
        (run_in, colors, _) => {
            format!(
                "After {} it closes again and again, every {}.",
                count(run_in, "set"),
                count(colors, "set")
            )
        }
    })
}

fn whole(look: &Look) -> Vec<String> {
    let Some((pattern, reckoning)) = look.checked.pattern().zip(look.checked.reckoning()) else {
        return Vec::new();
    };
    let mut told = vec![count(pattern.strands.len() as u64, "strand")];
    told.extend(
        parts(pattern).map(|(which, part)| {
            format!("{} in the {}", count(part.knots.len() as u64, "knot"), name(which))
        }),
    );
    told.push(count(reckoning.rows, "row"));
    told.extend(reckoning.times.map(|times| count(times, "set")));
    told.extend(reckoning.length().map(length));
    vec![format!("{}.", told.join(", "))]
}

/// The word that begins a part.
pub(super) fn name(which: Which) -> &'static str {
    match which {
        Which::Opening => "opening",
        Which::Set => "set",
        Which::Closing => "closing",
    }
}

fn strands(look: &Look) -> Vec<String> {
    let Some(pattern) = look.checked.pattern() else { return Vec::new() };
    let names: Vec<&str> = pattern.strands.iter().map(|&thread| thread_name(pattern, thread)).collect();
    vec![format!("{} from left to right: {}.", count(names.len() as u64, "strand"), quoted_list(&names))]
}

fn quoted_list(names: &[&str]) -> String {
    format!("`{}`", list(names))
}

/// How the strands really hang, as far as it is known.
fn expected(look: &Look, expect: &Expect) -> Vec<String> {
    let view = look.site.spot().and_then(|spot| look.checked.look(spot, &[]));
    let Some(view) = view.filter(|view| !view.blind) else {
        return vec!["It is not known how the strands hang here.".to_owned()];
    };
    let (names, wanted) = (seen(look, &view), expect_start(look, expect, &view));
    let mut text = vec![format!("The strands hang like this here: {}.", quoted_list(&names))];
    text.extend(wanted.map(|wanted| {
        if wanted == names {
            "That is as the part began.".to_owned()
        } else {
            format!("The part began with {}.", quoted_list(&wanted))
        }
    }));
    text
}

/// The threads of the range as they are read from its left.
pub(super) fn seen<'c>(look: &Look<'c>, view: &View) -> Vec<&'c str> {
    crate::views::names(look.checked, view)
}

fn expect_start<'c>(look: &Look<'c>, expect: &Expect, view: &View) -> Option<Vec<&'c str>> {
    let Expect::Start { mirrored } = expect else { return None };
    let order: Vec<u8> = (0..view.order.len() as u8).collect();
    let mut names = crate::views::names(look.checked, &View { order, ..view.clone() });
    if mirrored.is_some() {
        names.reverse();
    }
    Some(names)
}

/// What a block or a `work` does: the strands before and after.
fn ties(look: &Look) -> Vec<String> {
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
