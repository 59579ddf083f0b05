//! After one set the colors do not hang as they did before it.

use super::leader_changes_side;
use crate::wording::{number, ordinal, strand_at};
use crate::woven::Sound;
use crate::{Extent, Finding, Part, Place, Rule, Script, Severity, Tag};
use knotwright_band::find_repeats;
use knotwright_grammar::tree::{Block, Expect, Remark, SectionBlock, SetBlock};

pub(crate) static RULE: Rule = Rule {
    name: "set-does-not-close",
    severity: Severity::Warning,
    tags: &[Tag::Open],
    summary: "After a set the colors hang differently than before, so the next set looks different.",
    why: "A set is tied over and over. If the colors do not hang the same at its end as at its start, the \
          second set begins with other colors, and the picture drifts from set to set. The finding names the \
          first position that differs, and after how many sets all colors would hang as before: sometimes \
          what you wrote is only part of the set, and a `repeat` around it completes it. More often, one \
          step is off by one. A set that is tied once (`sets 1`), or that ends with `expect start mirrored`, \
          is left alone.",
    example: r#"pattern "Sandbars"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp 2 foam

set {
  take left 1: forward to edge
}
"#,
    instead: r#"pattern "Sandbars"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp 2 foam

set {
  repeat 4 { take left 1: forward to edge }
}
"#,
};

pub(super) fn find(sound: &Sound) -> Vec<Finding> {
    let Some(part) = &sound.pattern.set else { return Vec::new() };
    if is_open_on_purpose(sound.pattern.script()) {
        return Vec::new();
    }
    // Where another strand leads then, that is what is wrong.
    if !leader_changes_side::find(sound).is_empty() {
        return Vec::new();
    }
    let begins = sound.set_threads();
    let ends = part.piece.threads_after(&begins);
    let Some(at) = (0..begins.len()).find(|&at| begins[at] != ends[at]) else { return Vec::new() };
    let (found, promised) = (sound.name(ends[at]), sound.name(begins[at]));
    let message = format!(
        "After one set {} is {found}, but {promised} hung there when the set began.",
        strand_at(at + 1)
    );
    let finding = Finding::new(&RULE, message).at(sound.head()).help(after_how_many(sound, &begins));
    let strand = part.piece.order()[at];
    if let Some(place) = last_joined(part, strand) {
        return vec![finding.note(place, format!("it goes on with {found} here"))];
    }
    vec![match last_moved(part, strand) {
        Some(place) => {
            finding.note(place, format!("{found} came {} from the left with this step", ordinal(at + 1)))
        }
        None => finding,
    }]
}

fn after_how_many(sound: &Sound, begins: &[u16]) -> String {
    const STEP: &str = "look for a step that goes one knot too far or not far enough";
    match sound.sets().map(|sets| find_repeats(sets, begins)) {
        Some(again) if again.run_in == 0 && again.colors <= 100 => format!(
            "Tied {} times, it closes: write `repeat {} {{ ... }}` around its steps if they are only part of \
             the set. Otherwise, {STEP}.",
            number(again.colors),
            again.colors
        ),
        Some(again) if again.run_in == 0 => {
            format!(
                "Only after {} sets would the colors hang as they did at the start: {STEP}.",
                again.colors
            )
        }
        Some(_) => {
            format!("However often you tie it, the colors never hang as they did at the start: {STEP}.")
        }
        None => format!("To find out why, {STEP}."),
    }
}

/// Where a strand got the thread that it ends with, if it was another one.
fn last_joined(part: &Part, strand: u8) -> Option<Place> {
    let other = |join: &knotwright_band::Join| join.strand == strand && join.thread.is_some();
    let number = part.piece.joins().iter().rposition(other)?;
    part.joins.get(number).map(|joined| joined.place)
}

/// The step that moved a strand last.
fn last_moved(part: &Part, strand: u8) -> Option<Place> {
    let moved =
        |knot: &knotwright_band::Knot| knot.kind.swaps() && (knot.working == strand || knot.base == strand);
    let knot = part.piece.knots().iter().rposition(moved)?;
    part.step_of(u32::try_from(knot).ok()?).map(|step| part.steps[step].place)
}

/// Whether a set is tied once, or says that it ends in the mirror.
pub(crate) fn is_open_on_purpose(script: &Script) -> bool {
    let statements = &script.source().parsed.tree.statements;
    let mut sets = statements.iter().filter_map(|statement| statement.get::<SetBlock>());
    script.head.extent == Extent::Sets(1) || sets.next().is_some_and(|set| last_is_mirrored(&set.block))
}

fn last_is_mirrored(block: &Block) -> bool {
    let Some(last) = block.statements.iter().rfind(|statement| !statement.is::<Remark>()) else {
        return false;
    };
    if let Some(section) = last.get::<SectionBlock>() {
        return last_is_mirrored(&section.block);
    }
    matches!(last.get(), Some(Expect::Start { mirrored: Some(_) }))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by};

    const BAND: &str =
        "pattern \"Sandbars\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands 2 kelp 2 foam\n";

    fn set(steps: &str) -> String {
        format!("{BAND}set {{\n{steps}\n}}\n")
    }

    #[test]
    fn the_first_place_that_differs_is_reported_with_the_step_and_the_number_of_sets() {
        let finding = &find_by(RULE.name, RULE.example)[0];
        assert_eq!(
            finding.message,
            "After one set the second strand from the left is foam, but kelp hung there when the set began."
        );
        assert_eq!(finding.notes[0].text, "foam came second from the left with this step");
        assert!(
            finding
                .help
                .as_ref()
                .unwrap()
                .starts_with("Tied four times, it closes: write `repeat 4 { ... }`")
        );
    }

    #[test]
    fn colors_that_never_come_back_are_reported() {
        let text = set("take kelp 1 from left: forward to edge");
        let help = find_by(RULE.name, &text)[0].help.clone().unwrap();
        assert!(help.starts_with("However often you tie it, the colors never hang as"), "{help}");
    }

    #[test]
    fn a_set_that_is_tied_once_or_says_that_it_ends_in_the_mirror_is_left_alone() {
        assert_silent(RULE.name, &set("take left 1: forward to edge").replace("set {", "sets 1\nset {"));
        assert_silent(
            RULE.name,
            &set("repeat 2 { take left 1: forward to edge }\nexpect start mirrored\nnote \"Turn round.\""),
        );
    }

    #[test]
    fn an_opening_may_change_the_order_that_the_set_then_keeps() {
        let text = format!(
            "{BAND}opening {{ take left 1: forward to edge }}\nset {{ repeat 4 {{ take left 1: forward to edge }} }}\n"
        );
        assert_silent(RULE.name, &text);
    }
}
