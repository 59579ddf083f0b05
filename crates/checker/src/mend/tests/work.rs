//! What a search costs: it grows with the text and no faster, and what was seen to be right costs nothing.

use super::{goal_of, steps};
use crate::GivenUp;
use crate::mend::candidates::list_candidates;
use crate::mend::edits::EditSearch;
use crate::mend::insertions::{Sought, find_insertions};
use crate::mend::search::{Goal, Sifted, study_goal};
use crate::mend::settled::Settled;
use crate::testing::{Band, set, tied};
use crate::tie::{Limits, tie_searched};
use std::fmt::Write;
use std::rc::Rc;
use std::sync::Arc;

/// What it costs to try the edits of a `take` with this many runs that tie nothing, and before an order that does not hold.
fn search_work(runs: usize) -> u64 {
    let body = format!("take left 1: forward 1{}\nexpect a b", "\nthen 0".repeat(runs));
    let Band { script, tied, facts } = tied(&set("a b", &body));
    let script = Arc::new(script);
    let goal = Goal {
        script: &script,
        facts: &facts,
        closes: tied.closes,
        cost: tied.cost,
        knots: tied.knots,
        misread: 0,
        band: None,
        shown: None,
        given_up: &GivenUp::NEVER,
    };
    let studied = Rc::new(study_goal(&goal).expect("it is tied to its end"));
    let mut search =
        EditSearch::new(list_candidates(&script, &[], &GivenUp::NEVER, |_| Some(0)), studied, GivenUp::NEVER);
    let limits = Limits { facts: usize::MAX, ..Limits::trial(goal.cost, &GivenUp::NEVER) };
    assert!(tie_searched(&script, limits, &mut search).is_some());
    search.work
}

#[test]
fn the_search_grows_with_the_runs_of_a_take_and_no_faster() {
    let [few, many] = [500, 2000].map(search_work);
    assert!(few > 10_000 && many <= 5 * few, "{few} for 500 runs, {many} for 2000");
}

/// What it costs to try the edits of a chart of this many rows.
fn chart_work(rows: usize) -> u64 {
    let row = |number: usize| if number.is_multiple_of(2) { "\\ \\ /\n" } else { "/ >\n" };
    let chart: String = (0..rows).map(row).collect();
    let Band { script, tied, facts } = tied(&set("a b a b a b", &format!("rows {{\n{chart}}}\nexpect 6 a")));
    let script = Arc::new(script);
    let (cost, knots) = (tied.cost, tied.knots);
    let (facts, closes, given_up) = (&facts[..], tied.closes, &GivenUp::NEVER);
    let goal =
        Goal { script: &script, facts, closes, cost, knots, misread: 0, band: None, shown: None, given_up };
    let studied = Rc::new(study_goal(&goal).expect("it is tied to its end"));
    let mut search = EditSearch::new(
        list_candidates(&script, facts, &GivenUp::NEVER, |_| Some(0)),
        studied,
        GivenUp::NEVER,
    );
    assert!(tie_searched(&script, Limits::trial(cost, given_up), &mut search).is_some());
    search.work
}

#[test]
fn the_search_grows_with_the_rows_of_a_chart_and_no_faster() {
    let [few, many] = [200, 800].map(chart_work);
    assert!(few > 5_000 && many <= 5 * few, "{few} for 200 rows, {many} for 800");
}

/// Sections of promised steps, and a run among them that ends too early.
fn promised(sections: usize, slip: usize) -> String {
    let mut text =
        "pattern \"A\"\nthread a teal\nthread b coral\nthread c navy\nstrands 4 a 4 b 4 c\nset {\n"
            .to_owned();
    for section in 0..sections {
        text.push_str("  section \"s\" {\n");
        for step in 0..12 {
            let extent = if (section, step) == (slip, 5) { "9" } else { "to edge" };
            let _ = writeln!(text, "    take left 1 ({}): forward {extent}", ["a", "b", "c"][step / 4]);
        }
        text.push_str("  }\n");
    }
    text.push_str("}\n");
    text
}

/// What it costs to find the mends of a slip, without their rank: of edits, and of steps put in.
fn cost_of_search(sections: usize) -> [u64; 2] {
    let band = tied(&promised(sections, sections / 2));
    let script = Arc::new(band.script.clone());
    let (cost, knots) = goal_of(&band).expect("it is tied to its end");
    let (facts, closes, given_up) = (&band.facts[..], band.tied.closes, &crate::GivenUp::NEVER);
    let goal =
        Goal { script: &script, facts, closes, cost, knots, misread: 0, band: None, shown: None, given_up };
    let sifted = Sifted::of(&goal).expect("it is tied to its end");
    let steps = steps(&sifted, &goal);
    // Nobody has to tie the whole pattern to know what comes of an edit: where all is promised, the law says it.
    assert!(!steps.is_empty() && steps.iter().all(|sifted| sifted.knots.is_some()));
    let studied = Rc::new(study_goal(&goal).expect("it is tied to its end"));
    let sought = Sought { must_close: true, is_right: false, settled: None };
    let added = find_insertions(&goal, &studied, sought, |_| 0);
    let mut search = EditSearch::new(
        list_candidates(&script, &[], &GivenUp::NEVER, |_| Some(0)),
        studied,
        given_up.clone(),
    );
    tie_searched(&script, Limits::trial(cost, given_up), &mut search).expect("it is tied to its end");
    [search.work, added.work]
}

#[test]
fn what_was_seen_to_be_right_is_not_searched() {
    for (sections, slip) in [(10, 5), (40, 30), (40, 39)] {
        let band = tied(&promised(sections, slip));
        let script = Arc::new(band.script.clone());
        let (cost, knots) = goal_of(&band).expect("it is tied to its end");
        let (facts, closes, given_up) = (&band.facts[..], band.tied.closes, &GivenUp::NEVER);
        let goal = Goal {
            script: &script,
            facts,
            closes,
            cost,
            knots,
            misread: 0,
            band: None,
            shown: None,
            given_up,
        };
        let studied = study_goal(&goal).expect("it is tied to its end");
        let settled = Settled::before_mistake(&studied).expect("every strand was seen");
        let passes = studied.parts[1].begun.values();
        let (own, other): (Vec<_>, Vec<_>) = passes.partition(|passes| !settled.has(1, passes));
        let before = slip * 13 + 6;
        // All strands are seen within one section, and the mistake shows in the next one.
        assert!((before - 13..=before).contains(&other.len()), "{} of {}", own.len(), other.len());
    }
}

#[test]
fn a_search_costs_as_much_for_each_line_however_many_there_are() {
    let (short, long) = (cost_of_search(10), cost_of_search(40));
    for (short, long) in short.into_iter().zip(long) {
        assert!(short > 0 && long < 5 * short, "{short}, {long}");
    }
    // A candidate costs about as much as the statement that it edits: here some 20 of them, of up to 12 knots each.
    assert!(long[0] < 40 * 12 * 20 * 30, "{long:?}");
    // A step put in costs less than a look at every strand for each of them.
    assert!(long[1] < 40 * 14 * 12 * 12, "{long:?}");
}

#[test]
fn once_nobody_waits_no_edits_are_listed() {
    let script = Arc::new(tied(&promised(40, 20)).script);
    let listed = |given_up: &GivenUp| list_candidates(&script, &[], given_up, |_| Some(0)).len();
    assert_eq!(listed(&GivenUp::when(|| true)), 0);
    // Asked now and then, as long as it lasts.
    let asked = Arc::new(std::sync::atomic::AtomicUsize::new(0));
    let counts = Arc::clone(&asked);
    let third = GivenUp::when(move || counts.fetch_add(1, std::sync::atomic::Ordering::Relaxed) == 2);
    let all = listed(&GivenUp::NEVER);
    assert!((1..all).contains(&listed(&third)), "{all}");
}
