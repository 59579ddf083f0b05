//! One strand uses far more thread than another of its kind.

use crate::wording::ordinal;
use crate::woven::Woven;
use crate::{Extent, Finding, Rule, Severity, Tag};
use knotwright_band::thread::Model;
use knotwright_band::{Knot, Piece, Use, count_uses, sets_until_back, total_uses};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "uneven-use",
    severity: Severity::Warning,
    tags: &[Tag::Symptom],
    summary: "Of two strands of the same thread, one uses far more than the other.",
    why: "A strand that ties uses about five times as much thread as one that is only tied over. Strands of \
          one thread are usually cut to one length. If one of them works in every row and the other never, \
          the first runs out while the other is hardly shorter than at the start. The finding appears when \
          one uses more than two and a half times as much as another of the same thread, over as many sets \
          as it takes until all strands hang as at the start (or over `sets`, if given). Strands of \
          different threads are not compared: everyone cuts a leader longer. Nor are two strands that a leader \
          goes across: which of them ties is what its picture is made of.",
    example: r#"pattern "Night ferry"

thread night #1b2440

strands 4 night

set {
  take left 1: forward to edge
  take right 1: backward to edge
}
"#,
    instead: r#"pattern "Night ferry"

thread night #1b2440

strands 4 night

set {
  take left 1: forward to edge
}
"#,
};

/// How many times as much is far more.
const FAR_MORE: f64 = 2.5;
/// Sets until the strands are back are counted no further: use evens out long before.
const MOST_SETS: u64 = 10_000;

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let Some((uses, threads)) = uses_of(woven) else { return Vec::new() };
    let height = uses.iter().map(|used| used.tied_rows).max().unwrap_or(0);
    // Only the proportions matter here: any thickness will do.
    let figures = Model::new(1.0).figures(0.0);
    let needs: Vec<f64> = uses.iter().map(|used| figures.used(*used, height)).collect();
    let crossed = crossed_by_leader(woven);
    let mut findings = Vec::new();
    for thread in 0..woven.pattern.threads.len().to_u16() {
        let strands = || (0..threads.len()).filter(|&strand| threads[strand] == thread && tied(uses[strand]));
        let own = || strands().filter(|&strand| !crossed[strand]);
        let by_need = |a: &usize, b: &usize| needs[*a].total_cmp(&needs[*b]);
        let pairs = [
            strands().max_by(by_need).zip(own().min_by(by_need)),
            own().max_by(by_need).zip(strands().min_by(by_need)),
        ];
        let times = |&(most, least): &(usize, usize)| needs[most] / needs[least];
        let uneven = pairs.into_iter().flatten().max_by(|a, b| times(a).total_cmp(&times(b)));
        if let Some((most, least)) = uneven.filter(|pair| times(pair) > FAR_MORE) {
            findings.push(words(woven.name(thread), most, least, times(&(most, least))).at(woven.head()));
        }
    }
    findings
}

/// By strand, whether a leader goes across it: then it shows where the picture wants it to.
fn crossed_by_leader(woven: &Woven) -> Vec<bool> {
    let piece = woven.set.as_ref().unwrap_or_else(|| woven.whole());
    let mut crossed = vec![false; piece.strands()];
    for row in piece.straight() {
        let knots = &piece.knots()[row.start.to_usize()..row.end.to_usize()];
        let both = |knot: &Knot| [knot.working, knot.base];
        let leads = |strand: &u8| knots.iter().all(|knot| both(knot).contains(strand));
        for strand in knots.iter().flat_map(both).filter(|strand| !leads(strand)) {
            crossed[usize::from(strand)] = true;
        }
    }
    crossed
}

/// A strand that is never tied is reported by another rule.
fn tied(used: Use) -> bool {
    used.working + used.base > 0
}

/// By strand, what it does over the sets that count, and its thread.
fn uses_of(woven: &Woven) -> Option<(Vec<Use>, Vec<u16>)> {
    // A joined strand does not run out.
    if woven.joins().next().is_some() {
        return None;
    }
    if woven.set.is_none() {
        return Some((count_uses(woven.whole()), woven.pattern.strands.clone()));
    }
    let sets = woven.sets()?;
    if let Extent::Sets(times) = woven.pattern.extent {
        let uses = total_uses(&woven.opening, sets, u64::from(times), &woven.closing);
        return Some((uses, woven.pattern.strands.clone()));
    }
    let threads = woven.set_threads();
    let times = sets_until_back(sets).min(MOST_SETS);
    let none = Piece::empty(threads.len());
    Some((total_uses(&none, sets, times, &none), threads))
}

fn words(thread: &str, most: usize, least: usize, times: f64) -> Finding {
    let (most, least) = (ordinal(most + 1), ordinal(least + 1));
    let message = format!(
        "The {most} strand from the left uses about {times:.1} times as much {thread} as the {least}: cut to \
         the same length, it would run out first."
    );
    Finding::new(&RULE, message).help(format!(
        "Cut it longer, or let strands of {thread} change places, so that they take turns working."
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_strand_that_runs_out_first_is_named() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "The first strand from the left uses about 6.6 times as much night as the second: cut to the same \
              length, it would run out first."
            ]
        );
    }

    #[test]
    fn a_leader_of_its_own_thread_may_use_more() {
        let text = RULE.example.replace("strands 4 night", "thread lamp #f2c14e\n\nstrands night 3 lamp");
        assert_silent(RULE.name, &text);
    }

    #[test]
    fn strands_that_a_leader_crosses_show_as_the_picture_wants_them_to() {
        let text = |strands: &str| {
            format!(
                "pattern \"A\"\nthread dusk teal\nthread lamp coral\nstrands {strands}\nset {{\n  leader left 1 {{\n    \
                 . # . .\n    . # . .\n  }}\n}}\n"
            )
        };
        assert_silent(RULE.name, &text("dusk 4 lamp"));
        assert_eq!(messages_of(RULE.name, &text("5 lamp")).len(), 1, "the leader itself is to be cut longer");
    }

    #[test]
    fn strands_that_take_turns_from_set_to_set_use_alike() {
        assert_silent(RULE.name, RULE.instead);
    }

    #[test]
    fn what_counts_are_the_sets_that_are_tied() {
        let text = |sets: u32| RULE.instead.replace("set {", &format!("sets {sets}\n\nset {{"));
        assert_silent(RULE.name, &text(4));
        assert_eq!(
            messages_of(RULE.name, &text(1)).len(),
            1,
            "after one set only one of the four has worked"
        );
    }
}
