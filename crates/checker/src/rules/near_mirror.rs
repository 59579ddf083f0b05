//! Two pieces that are mirror images of one another but for one number.

use crate::contents::Contents;
use crate::reflection::{Differing, differing, reflection, shape};
use crate::woven::{Sound, Woven};
use crate::{Checked, FileId, Finding, Pattern, Place, Rule, Severity, Source};
use knotwright_grammar::tree::{Block, Motif, Node, Statement};
use knotwright_grammar::{Span, TokenKind};
use std::collections::BTreeSet;

pub(crate) static RULE: Rule = Rule {
    name: "near-mirror",
    severity: Severity::Warning,
    summary: "Two pieces are mirror images of one another, but for one number.",
    why: "Whoever writes the left half of a band and then the right half by hand slips easily: one number is changed \
          in one of them and forgotten in the other. Compared are two `on` blocks that follow one another, two \
          motifs, and three or more pairs of `take` that follow one another, each left one with its right one. Pieces \
          of fewer than four numbers may differ by design and are not told; nor are steps that make an even picture \
          all the same, as when one of two middle strands ties the knot that joins the halves. With `both { }` the \
          mirror image writes itself and cannot differ.",
    example: r#"pattern "Sandbars"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 2 foam kelp | mirror

set {
  on left 4 {
    take left 1: forward 3
    take left 1: forward 2
    take left 1: forward 1
  }
  on right 4 {
    take right 1: backward 3
    take right 1: backward 1
    take right 1: backward 1
  }
  meet center
}
"#,
    instead: r#"pattern "Sandbars"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 2 foam kelp | mirror

set {
  both {
    on left 4 {
      take left 1: forward 3
      take left 1: forward 2
      take left 1: forward 1
    }
  }
  meet center
}
"#,
};

/// A piece with fewer numbers may differ by design.
const NUMBERS: usize = 4;
/// So many pairs of `take` make a piece.
const PAIRS: usize = 3;
/// Among more motifs than this nothing is compared.
const MOST_MOTIFS: usize = 100;

pub(super) fn find(checked: &Checked, contents: &Contents) -> Vec<Finding> {
    let source = checked.source;
    let mut found = motifs(source);
    if checked.sound && checked.pattern.is_some_and(begins_even) {
        let blocks = || contents.blocks.iter().filter_map(|statement| statement.node.block());
        found.extend(blocks().flat_map(|block| halves(source, block)));
        let pairs: Vec<Differing> = blocks().flat_map(|block| pairs(source, block)).collect();
        if !pairs.is_empty() && looks_uneven(checked) {
            found.extend(pairs);
        }
    }
    found.into_iter().map(|differing| words(source, differing)).collect()
}

/// Two motifs.
fn motifs(source: &Source) -> Vec<Differing> {
    let motifs: Vec<&Motif> =
        source.parsed.tree.statements.iter().filter_map(motif).take(MOST_MOTIFS).collect();
    let body = |motif: &Motif| motif.block.open.to(motif.block.close.unwrap_or(motif.block.open));
    let mut found = Vec::new();
    for (at, one) in motifs.iter().enumerate() {
        for other in &motifs[at + 1..] {
            found.extend(near(source, body(one), body(other)));
        }
    }
    found
}

fn motif(statement: &Statement) -> Option<&Motif> {
    if let Node::Motif(motif) = &statement.node { Some(motif) } else { None }
}

/// `on` blocks that follow one another.
fn halves(source: &Source, block: &Block) -> Vec<Differing> {
    let is_on = |statement: &Statement| matches!(statement.node, Node::On { .. });
    let twos = block.statements.windows(2).filter(|two| two.iter().all(is_on));
    twos.filter_map(|two| near(source, two[0].span, two[1].span)).collect()
}

fn near(source: &Source, one: Span, other: Span) -> Option<Differing> {
    let (one, other) = (shape(source, one)?, reflection(source, other)?);
    let numbers = one.iter().filter(|part| part.kind == TokenKind::Number).count();
    let found = differing(&one, &other)?;
    if numbers >= NUMBERS && found.len() == 1 { found.into_iter().next() } else { None }
}

/// `take` after `take`, left and right by turns.
fn pairs(source: &Source, block: &Block) -> Vec<Differing> {
    let is_other =
        |statement: &Statement| !matches!(statement.node, Node::Take(_) | Node::Meet | Node::Note(_));
    block.statements.split(is_other).filter_map(|steps| one_in_pairs(source, steps)).collect()
}

fn one_in_pairs(source: &Source, steps: &[Statement]) -> Option<Differing> {
    let mut takes = steps.iter().filter(|statement| matches!(statement.node, Node::Take(_)));
    let count = takes.clone().count();
    if count < 2 * PAIRS || !count.is_multiple_of(2) {
        return None;
    }
    let mut found = Vec::new();
    while let (Some(one), Some(other)) = (takes.next(), takes.next()) {
        found.extend(differing(&shape(source, one.span)?, &reflection(source, other.span)?)?);
    }
    if found.len() == 1 { found.pop() } else { None }
}

/// Whether the band has halves, of strands that hang alike.
fn begins_even(pattern: &Pattern) -> bool {
    let strands = &pattern.strands;
    strands.len().is_multiple_of(2) && strands.iter().eq(strands.iter().rev())
}

fn looks_uneven(checked: &Checked) -> bool {
    let sound = Sound::of(checked);
    sound.as_ref().and_then(Woven::of).is_some_and(|woven| !looks_even(&woven))
}

/// Whether left and right of the center the same is seen.
fn looks_even(woven: &Woven) -> bool {
    let last = woven.whole.gaps().saturating_sub(1) as u8;
    let seen = |mirrored: bool| -> BTreeSet<(u32, u8, u16)> {
        let knots = woven.whole.knots().iter().zip(&woven.layout.rows);
        let gap = |gap: u8| if mirrored { last - gap } else { gap };
        knots.map(|(knot, &row)| (row, gap(knot.gap), woven.thread(knot.working))).collect()
    };
    seen(false) == seen(true)
}

fn words(source: &Source, Differing { first, second }: Differing) -> Finding {
    let (one, other) = (first.of(&source.text), second.of(&source.text));
    let place = |span| Place { file: FileId(0), span };
    Finding::new(
        &RULE,
        format!(
            "This is the mirror image of what stands above, but for one number: {other} here, {one} there."
        ),
    )
    .at(place(second))
    .note(place(first), format!("its partner is {one} here"))
    .help("Make the two numbers alike, or write one side only, in `both { }`.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{found, silent, told};

    fn band(strands: &str, steps: &str) -> String {
        format!(
            "pattern \"A\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands {strands}\nset {{\n{steps}\n}}\n"
        )
    }

    #[test]
    fn the_number_that_differs_is_shown_on_both_sides() {
        let finding = &found(RULE.name, RULE.example)[0];
        assert_eq!(
            finding.message,
            "This is the mirror image of what stands above, but for one number: 1 here, 2 there."
        );
        assert_eq!(finding.notes[0].text, "its partner is 2 here");
    }

    #[test]
    fn takes_in_pairs_are_compared_too() {
        let steps = "take left 1: forward 2\ntake right 1: backward 2\ntake left 1: forward 3\ntake right 1: backward 3\n\
                     take left 2: forward 1\ntake right 1: backward 1";
        assert_eq!(told(RULE.name, &band("2 kelp 2 foam | mirror", steps)).len(), 1);
    }

    #[test]
    fn one_of_two_middle_strands_may_tie_the_knot_that_joins() {
        // The right one goes a knot further and ties the middle.
        let steps = "take left 1: forward 2\ntake right 1: backward 2\ntake left 1: forward 2\ntake right 1: backward 2\n\
                     take left 1: forward 3\ntake right 1: backward 4";
        silent(RULE.name, &band("4 kelp | mirror", steps));
    }

    #[test]
    fn a_band_whose_halves_begin_unlike_may_go_on_unlike() {
        let text = RULE
            .example
            .replace("strands kelp 2 foam kelp | mirror", "strands kelp 2 foam 2 kelp foam 2 kelp");
        silent(RULE.name, &text);
    }

    #[test]
    fn motifs_are_compared() {
        let motif = |name: &str, side: &str, kind: &str, last: u32| {
            format!(
                "motif {name}() {{\n  take {side} 1: {kind} 3\n  take {side} 1: {kind} 2\n  take {side} 1: {kind} {last}\n}}\n"
            )
        };
        let library = |last| {
            format!(
                "pattern \"Fans\"\n{}{}",
                motif("port", "left", "forward", 1),
                motif("lee", "right", "backward", last)
            )
        };
        assert_eq!(told(RULE.name, &library(2)).len(), 1);
        silent(RULE.name, &library(1));
    }
}
