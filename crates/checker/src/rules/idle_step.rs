//! A step that ties nothing.

use crate::woven::Sound;
use crate::{FileId, Finding, Named, Place, Rule, Severity, Source, Step, Tag};
use knotwright_grammar::tree::{Statement, Take};
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use std::sync::Arc;

pub(crate) static RULE: Rule = Rule {
    name: "idle-step",
    severity: Severity::Warning,
    tags: &[Tag::IdleStep],
    summary: "A step takes a strand in hand and ties nothing with it.",
    why: "`to edge` ties no knot for a strand that already hangs at the edge, and `forward 0` ties none at all. Mostly the \
          direction, the side or the number is wrong, or the step is a leftover. The finding appears only if the step \
          ties nothing in any pass of a loop and in any place where its motif is worked, and if it gives the strand no \
          label: a step may well tie nothing now and then, or take a strand just to name it.",
    example: r#"pattern "Ebb tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp 2 foam

set {
  repeat 4 {
    take left 1: forward to edge
    take left 1: backward to edge
  }
}
"#,
    instead: r#"pattern "Ebb tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp 2 foam

set {
  repeat 4 {
    take left 1: forward to edge
  }
}
"#,
};

pub(super) fn find(sound: &Sound) -> Vec<Finding> {
    let mut idle: HashMap<Place, bool> = HashMap::default();
    let steps = || sound.pattern.parts().flat_map(|(_, part)| &part.steps);
    for step in steps().filter(|step| is_idle(step)) {
        idle.insert(step.place, true);
    }
    if idle.is_empty() {
        return Vec::new();
    }
    for step in steps().filter(|step| !step.knots.is_empty()) {
        idle.remove(&step.place);
    }
    if idle.is_empty() {
        return Vec::new();
    }
    let labeled = labeled(sound);
    let is_labeled = |place: &Place| labeled.contains(&(place.file, place.span.start));
    let mut places: Vec<Place> = idle.into_keys().filter(|place| !is_labeled(place)).collect();
    places.sort_unstable();
    places.into_iter().map(|place| words().at(place)).collect()
}

/// A row of a chart may hold nothing but dots, and a bead ties nothing.
fn is_idle(step: &Step) -> bool {
    step.knots.is_empty() && !matches!(step.named, Named::Row | Named::Leader | Named::Bead { .. })
}

/// Where the steps begin that give a label.
fn labeled(sound: &Sound) -> HashSet<(FileId, u32)> {
    let gives_label =
        |statement: &&Statement| statement.get().is_some_and(|take: &Take| take.label.is_some());
    let in_file = |(file, source): (u32, &'_ Arc<Source>)| {
        let steps = source.parsed.tree.walk().filter(gives_label);
        steps.map(|step| (FileId(file), step.span.start)).collect::<Vec<_>>()
    };
    (0..).zip(sound.pattern.sources()).flat_map(in_file).collect()
}

fn words() -> Finding {
    Finding::new(&RULE, "This step ties no knot.")
        .help("Look at its direction, its side and its number, or leave it out.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    fn set(steps: &str) -> String {
        format!("pattern \"A\"\nthread kelp #1f5d50\nstrands 4 kelp\nset {{\n{steps}\n}}\n")
    }

    #[test]
    fn a_step_that_never_ties_is_reported_once() {
        assert_eq!(messages_of(RULE.name, RULE.example), ["This step ties no knot."]);
        assert_eq!(messages_of(RULE.name, &set("take left 1: forward 3\ntake right 1: forward 0")).len(), 1);
        let then = "take left 1: forward to edge, then backward to edge";
        assert_eq!(messages_of(RULE.name, &set(then)).len(), 1);
    }

    #[test]
    fn a_step_that_ties_now_and_then_or_names_a_strand_is_meant() {
        assert_silent(RULE.name, &set("for n 3 down to 0 { take left 1: forward n }"));
        assert_silent(
            RULE.name,
            &set("take left 1 as tip: forward 0\ntake left 2: forward 2\ntake tip: forward 1"),
        );
    }
}
