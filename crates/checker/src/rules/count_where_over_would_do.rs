//! A plain count over strands of one color.

use crate::wording::number;
use crate::woven::Sound;
use crate::{FileId, Finding, Part, Place, Rule, Severity, Step};
use knotwright_band::{Knot, Tying};
use knotwright_grammar::tree::{Expr, Extent, KnotKind, Run, StrandBy, Take};
use knotwright_numbers::ToNumber;

use rustc_hash::FxHashMap as HashMap;
use std::collections::BTreeMap;

pub(crate) static RULE: Rule = Rule {
    name: "count-where-over-would-do",
    severity: Severity::Warning,
    tags: &[],
    summary: "A run counts strands that are all of one color, where `over` would name the color.",
    why: "`forward 4` ties over the next four strands, whatever they are. If the `take` promises the color of \
          the strand in hand, and all four are foam and the next one is not, then the foam is what you \
          meant. `forward 4 over foam` says so and is checked, and `forward over foam` stays right when the \
          foam gets wider. The finding appears only for a run of three or more knots, written as a plain \
          number, in a `take` that names or promises a color, and only if this holds every time the step is \
          tied. A run that ends at the edge is not reported, because it may just as well mean the edge.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 3 foam kelp

set {
  take left 1 (kelp): forward 3
  take right 1 (kelp): backward to edge
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 3 foam kelp

set {
  take left 1 (kelp): forward 3 over foam
  take right 1 (kelp): backward to edge
}
"#,
};

/// By where its `take` begins.
type Runs<'a> = HashMap<(FileId, u32), &'a Run>;

/// The fewest strands that are not counted by chance.
const AT_LEAST: usize = 3;

pub(super) fn find(sound: &Sound) -> Vec<Finding> {
    let parts = parts(sound);
    // Where no run goes over one color, the text need not be looked at.
    let is_one_color = |(part, begins): &(&Part, Vec<u16>)| {
        part.steps.iter().any(|step| one_color(part, step, begins).is_some())
    };
    if !parts.iter().any(is_one_color) {
        return Vec::new();
    }
    let runs = counted_runs(sound);
    // By step, the color of its strands while every pass agrees.
    let mut passes: BTreeMap<Place, Option<u16>> = BTreeMap::new();
    for (part, begins) in parts {
        walk(part, &begins, &runs, &mut passes);
    }
    let counted = passes.into_iter().filter_map(|(place, color)| {
        let run = *runs.get(&(place.file, place.span.start))?;
        Some(words(run, sound.name(color?)).at(Place { span: run.span, ..place }))
    });
    counted.collect()
}

/// Opening, set and closing, each with the threads by position as it begins.
fn parts<'a>(sound: &Sound<'a>) -> Vec<(&'a Part, Vec<u16>)> {
    let pattern = sound.pattern;
    let keeps = |part: &Part| !part.piece.changes_threads();
    let parts = pattern.parts().filter(|(_, part)| keeps(part));
    parts.map(|(kind, part)| (part, pattern.threads_before(kind))).collect()
}

/// Looks at the steps of a part that came from `runs`; `begins`: by position, the thread that hangs there as it begins.
fn walk(part: &Part, begins: &[u16], runs: &Runs, passes: &mut BTreeMap<Place, Option<u16>>) {
    let mut tying = Tying::new(begins.len());
    // Tied so far; mostly nobody asks what hangs next, and nothing is tied.
    let mut tied = 0;
    let steps = part.steps.iter().filter(|step| runs.contains_key(&(step.place.file, step.place.span.start)));
    for step in steps {
        let color = one_color(part, step, begins).filter(|&color| {
            for knot in &part.piece.knots()[tied..step.knots.end.to_usize()] {
                let _ = tying.tie(knot.gap, knot.kind);
            }
            tied = step.knots.end.to_usize();
            next(&tying, step, part.knots_of(step), begins).is_some_and(|next| next != color)
        });
        passes
            .entry(step.place)
            .and_modify(|before| *before = before.filter(|&b| Some(b) == color))
            .or_insert(color);
    }
}

/// The color of all strands that a run goes over, if it is one color and not that of the strand in hand.
fn one_color(part: &Part, step: &Step, begins: &[u16]) -> Option<u16> {
    let knots = part.knots_of(step);
    let thread = |strand: u8| begins[usize::from(strand)];
    let first = knots.first()?;
    // Asked of every step after every edit: what says no soonest comes first.
    let (color, own) = (thread(first.base), thread(first.working));
    let is_over_one = || knots.iter().all(|knot| knot.kind.swaps() && thread(knot.base) == color);
    let is_one_run = || knots.len() >= AT_LEAST && part.runs_of(step).len() == 1;
    (own != color && is_over_one() && is_one_run()).then_some(color)
}

/// The thread of the strand that would come next after a run; `None` at the edge.
fn next(tying: &Tying, step: &Step, knots: &[Knot], begins: &[u16]) -> Option<u16> {
    let last = knots.last()?;
    let position = if last.kind.left_works() { last.gap.checked_add(2)? } else { last.gap.checked_sub(1)? };
    if position < step.within.0 || position > step.within.1 {
        return None;
    }
    let strand = *tying.order().get(usize::from(position))?;
    Some(begins[usize::from(strand)])
}

/// By where its `take` begins: the run of a `take` that speaks of colors, if it is a plain count.
fn counted_runs<'a>(sound: &'a Sound) -> Runs<'a> {
    let mut runs = HashMap::default();
    for (number, source) in sound.pattern.sources().enumerate() {
        for statement in source.parsed.tree.walk() {
            if let Some(take) = statement.get::<Take>()
                && let Some(run) = counted(take)
            {
                runs.insert((FileId(number.to_u32()), statement.span.start), run);
            }
        }
    }
    runs
}

fn counted(take: &Take) -> Option<&Run> {
    let colored = take.promise.is_some() || matches!(take.strand.by, StrandBy::Color { .. });
    let [run] = take.runs.as_slice() else { return None };
    let plain = matches!(run.extent, Extent::Count { count: Expr::Number(_), over: None });
    let goes = matches!(run.kind, Some((KnotKind::Forward | KnotKind::Backward, _)));
    (colored && plain && goes).then_some(run)
}

fn words(run: &Run, color: &str) -> Finding {
    let (Some((kind, _)), Extent::Count { count: Expr::Number(count), .. }) = (run.kind, &run.extent) else {
        return Finding::new(&RULE, format!("All strands of this run are {color}."));
    };
    let kind = if kind == KnotKind::Backward { "backward" } else { "forward" };
    let message = format!(
        "All {} strands of this run are {color} and the next one is not, but the run gives only their number.",
        number(u64::from(count.value))
    );
    Finding::new(&RULE, message).help(format!(
        "Write `{kind} {0} over {color}`, which is checked, or `{kind} over {color}`, which counts by itself.",
        count.value
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};

    fn band(step: &str) -> String {
        RULE.example.replace("take left 1 (kelp): forward 3", step)
    }

    #[test]
    fn what_would_do_is_written_out() {
        let finding = &find_by(RULE.name, RULE.example)[0];
        assert_eq!(
            finding.message,
            "All three strands of this run are foam and the next one is not, but the run gives only their number."
        );
        assert!(finding.help.as_ref().unwrap().contains("`forward 3 over foam`"));
    }

    #[test]
    fn a_count_that_is_tested_or_meant_as_a_count_is_left_alone() {
        assert_silent(RULE.name, &band("take left 1 (kelp): forward 3 over foam"));
        assert_silent(RULE.name, &band("take left 1 (kelp): forward over foam"));
        assert_silent(RULE.name, &band("take left 1: forward 3"));
        assert_silent(RULE.name, &band("take left 1 (kelp): forward 2"));
    }

    #[test]
    fn a_run_to_the_edge_or_over_several_colors_is_a_count() {
        assert_silent(RULE.name, &RULE.example.replace("3 foam kelp", "3 foam"));
        assert_silent(RULE.name, &band("take left 1 (kelp): forward 4"));
    }

    #[test]
    fn it_must_be_so_every_time() {
        // The second time two kelp come first.
        let text = "pattern \"A\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands kelp 3 foam 2 kelp 2 foam\n\
                    set {\n  repeat 2 { take kelp 1 from left: forward 3 }\n}\n";
        assert_silent(RULE.name, text);
        assert_eq!(messages_of(RULE.name, &text.replace("repeat 2", "repeat 1")).len(), 1);
    }
}
