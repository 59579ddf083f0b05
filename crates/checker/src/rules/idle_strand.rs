//! A strand that is never tied, or left out for long at the edge.

use crate::wording::{both, number, ordinal, sentence};
use crate::woven::Woven;
use crate::{Finding, Rule, Severity, Tag};
use knotwright_band::{Loose, Piece};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "idle-strand",
    severity: Severity::Warning,
    tags: &[Tag::Hole],
    summary: "No knot of the set ties a strand, or for many rows at the edge, and it hangs loose next to the band.",
    why: "A strand may well never work: others can be tied over it, as over a core. But a strand that no knot of the \
          set touches hangs loose from beginning to end. Either a run does not reach it, \
          or there is one strand too many in `strands`. The outermost strand can also hang loose for a while and make a \
          loop at the edge. Some makers like an edge with scallops, where one or two knots are left out (common \
          practice, no source). Where three or more are left out, while knots are tied next to it all along, the loop \
          catches on everything. None of the sample patterns leaves out even one. Inside the band such a place is a \
          hole (see missing-brick).",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 5 kelp

set {
  take left 1: forward 3
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 5 kelp

set {
  take left 1: forward 4
}
"#,
};

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let idle = idle_strands(tied_again(woven));
    let idle = (!idle.is_empty()).then(|| words(woven, &idle).at(woven.head()));
    idle.into_iter().chain(loops(woven)).collect()
}

/// How many are idle or loose, those that come again counted each.
pub(super) fn count(woven: &Woven) -> usize {
    let loops = woven.laid.loose().iter().filter(|loose| is_loop(loose)).count();
    idle_strands(tied_again(woven)).len() + loops
}

/// The set, if there is one.
fn tied_again<'w>(woven: &'w Woven) -> &'w Piece {
    woven.set.as_ref().unwrap_or_else(|| woven.whole())
}

/// Strands that no knot touches.
fn idle_strands(piece: &Piece) -> Vec<usize> {
    let (mut is_tied, mut left) = (vec![false; piece.strands()], piece.strands());
    for strand in piece.knots().iter().flat_map(|knot| [knot.working, knot.base]) {
        left -= usize::from(!std::mem::replace(&mut is_tied[usize::from(strand)], true));
        if left == 0 {
            break;
        }
    }
    (0..is_tied.len()).filter(|&strand| !is_tied[strand]).collect()
}

/// Places at the edge where the outermost strand is left out of this many knots.
const LOOP: u32 = 3;

/// Where a strand goes to and fro alone, the others wait for it; that is no loop.
fn is_loop(loose: &Loose) -> bool {
    loose.knots >= LOOP && loose.beside >= loose.knots
}

fn loops(woven: &Woven) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for loose in woven.laid.loose().into_iter().filter(is_loop) {
        let place = woven.place(loose.tied_by.to_usize()).unwrap_or_else(|| woven.head());
        // It comes again in every set, and in a mirror on the other side.
        if findings.iter().all(|finding| finding.place != place) {
            let tied_by = loose.tied_by;
            findings.push(woven.note_work(words_for_loop(loose).at(place), tied_by));
        }
    }
    findings
}

fn words_for_loop(Loose { gap, knots, .. }: Loose) -> Finding {
    let edge = if gap == 0 { "left" } else { "right" };
    let message = format!(
        "Above this step the strand at the {edge} edge hangs loose: for {} rows no knot ties it.",
        number(2 * u64::from(knots) + 1)
    );
    Finding::new(&RULE, message).help("Let a run above it reach the edge, or tie the strand where it hangs.")
}

fn words(woven: &Woven, idle: &[usize]) -> Finding {
    let threads = if woven.set.is_some() { woven.set_threads() } else { woven.pattern.strands.clone() };
    let name = |at: usize| woven.name(threads[at]);
    let message = match idle {
        &[at] => format!(
            "The {} strand from the left ({}) is touched by no knot and hangs loose all along the band.",
            ordinal(at + 1),
            name(at)
        ),
        _ => {
            let named: Vec<String> =
                idle.iter().map(|&at| format!("the {} ({})", ordinal(at + 1), name(at))).collect();
            let named = sentence(&both(&named.iter().map(String::as_str).collect::<Vec<_>>()));
            format!("{named} strand from the left are touched by no knot and hang loose all along the band.")
        }
    };
    Finding::new(&RULE, message).help("Let a run reach as far, or leave the strand out of `strands`.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn a_long_loop_at_the_edge_is_reported_a_scallop_is_not() {
        let rows = |left_out: usize| {
            let chart = format!("x x x\nx x\n{}", ". x x\nx x\n".repeat(left_out));
            format!("pattern \"A\"\nthread kelp #1f5d50\nstrands 6 kelp\nset {{\nrows {{\n{chart}}}\n}}\n")
        };
        assert_silent(RULE.name, &rows(2));
        assert_eq!(
            messages_of(RULE.name, &rows(3)),
            ["Above this step the strand at the left edge hangs loose: for seven rows no knot ties it."]
        );
    }

    #[test]
    fn strands_are_named_with_their_threads() {
        let text = |strands: &str, steps: &str| {
            format!(
                "pattern \"A\"\nthread kelp green\nthread foam white\nstrands {strands}\nset {{ {steps} }}\n"
            )
        };
        assert_eq!(
            messages_of(RULE.name, &text("4 kelp foam", "take left 1: forward 3")),
            [
                "The fifth strand from the left (foam) is touched by no knot and hangs loose all along the band."
            ]
        );
        assert_eq!(
            messages_of(RULE.name, &text("foam 4 kelp foam", "on inside 1 { take left 1: forward to edge }")),
            [
                "The first (foam) and the sixth (foam) strand from the left are touched by no knot and hang loose all \
              along the band."
            ]
        );
    }

    #[test]
    fn a_core_that_is_only_tied_over_is_not_idle() {
        assert_silent(
            RULE.name,
            "pattern \"A\"\nthread kelp green\nstrands 2 kelp\nset { take left 1: forward-backward 1 }\n",
        );
    }
}
