//! After one set the colors do not hang as they did before it.

use crate::wording::{number, ordinal, strand_at};
use crate::woven::{Sound, step_of};
use crate::{Extent, Finding, Part, Place, Rule, Severity};
use knotwright_band::repeats;
use knotwright_grammar::tree::{Block, Expect, Node};

pub(crate) static RULE: Rule = Rule {
    name: "set-does-not-close",
    severity: Severity::Warning,
    summary: "After a set the colors hang differently from before, so that the next set looks different.",
    why: "A set is tied over and over. If the colors do not hang at its end as they did at its start, the second set \
          begins with other colors, and the picture drifts away from set to set. The finding names the first place \
          that differs, and after how many sets all would hang as before: sometimes what is written is only a part \
          of the set, and `repeat` around it makes it whole. More often one step is off by one. A set that is tied \
          once (`sets 1`), or that says by itself that it ends in the mirror (`expect start mirrored` as its last \
          line), is left alone.",
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
    if sound.pattern.extent == Extent::Sets(1) || ends_mirrored(sound) {
        return Vec::new();
    }
    let begins = sound.set_threads();
    let ends: Vec<u16> = part.order.iter().map(|&strand| begins[usize::from(strand)]).collect();
    let Some(at) = (0..begins.len()).find(|&at| begins[at] != ends[at]) else { return Vec::new() };
    let (found, promised) = (sound.name(ends[at]), sound.name(begins[at]));
    let message = format!(
        "After one set {} is {found}, but {promised} hung there when the set began.",
        strand_at(at + 1)
    );
    let finding = Finding::new(&RULE, message).at(sound.head()).help(after_how_many(sound, &begins));
    vec![match last_moved(part, part.order[at]) {
        Some(place) => {
            finding.note(place, format!("{found} came {} from the left with this step", ordinal(at + 1)))
        }
        None => finding,
    }]
}

fn after_how_many(sound: &Sound, begins: &[u16]) -> String {
    const STEP: &str = "look for a step that goes a knot too far or not far enough";
    match sound.sets().map(|sets| repeats(sets, begins)) {
        Some(again) if again.run_in == 0 && again.colors <= 100 => format!(
            "Tied {} times over, it closes: write `repeat {} {{ ... }}` around its steps if they are only a part of \
             the set. Otherwise {STEP}.",
            number(again.colors),
            again.colors
        ),
        Some(again) if again.run_in == 0 => {
            format!("Only after {} sets would the colors hang as they began: {STEP}.", again.colors)
        }
        Some(_) => format!("However often it is tied, the colors never hang again as they began: {STEP}."),
        None => format!("To see why, {STEP}."),
    }
}

/// The step that moved a strand last.
fn last_moved(part: &Part, strand: u8) -> Option<Place> {
    let moved =
        |knot: &knotwright_band::Knot| knot.kind.swaps() && (knot.working == strand || knot.base == strand);
    let knot = part.knots.iter().rposition(moved)?;
    step_of(part, knot).map(|step| part.steps[step].place)
}

fn ends_mirrored(sound: &Sound) -> bool {
    let set = sound.source.parsed.tree.statements.iter().find_map(|statement| match &statement.node {
        Node::Set(block) => Some(block),
        _ => None,
    });
    set.is_some_and(last_is_mirrored)
}

fn last_is_mirrored(block: &Block) -> bool {
    match block
        .statements
        .iter()
        .rfind(|statement| !matches!(statement.node, Node::Note(_)))
        .map(|last| &last.node)
    {
        Some(Node::Expect(Expect::Start { mirrored })) => mirrored.is_some(),
        Some(Node::Section { block, .. }) => last_is_mirrored(block),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{found, silent};

    const BAND: &str =
        "pattern \"Sandbars\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands 2 kelp 2 foam\n";

    fn set(steps: &str) -> String {
        format!("{BAND}set {{\n{steps}\n}}\n")
    }

    #[test]
    fn the_first_place_that_differs_is_told_with_the_step_and_the_number_of_sets() {
        let finding = &found(RULE.name, RULE.example)[0];
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
                .starts_with("Tied four times over, it closes: write `repeat 4 { ... }`")
        );
    }

    #[test]
    fn colors_that_never_come_back_are_told() {
        let text = set("take kelp 1 from left: forward to edge");
        let help = found(RULE.name, &text)[0].help.clone().unwrap();
        assert!(help.starts_with("However often it is tied, the colors never hang again"), "{help}");
    }

    #[test]
    fn a_set_that_is_tied_once_or_says_that_it_ends_in_the_mirror_is_left_alone() {
        silent(RULE.name, &set("take left 1: forward to edge").replace("set {", "sets 1\nset {"));
        silent(
            RULE.name,
            &set("repeat 2 { take left 1: forward to edge }\nexpect start mirrored\nnote \"Turn round.\""),
        );
    }

    #[test]
    fn an_opening_may_change_the_order_that_the_set_then_keeps() {
        let text = format!(
            "{BAND}opening {{ take left 1: forward to edge }}\nset {{ repeat 4 {{ take left 1: forward to edge }} }}\n"
        );
        silent(RULE.name, &text);
    }
}
