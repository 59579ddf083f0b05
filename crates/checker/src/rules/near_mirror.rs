//! Two pieces that mirror each other except in one number, and charts that mirror themselves except in one mark.

use crate::contents::Contents;
use crate::reflection::{self, Differing, Part, find_differing, mirrored_mark, read_shape, reflected};
use crate::woven::{Sound, Woven};
use crate::{Checked, FileId, Finding, Pattern, Place, Rule, Severity, Source, Tag};
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::{
    Block, Chart, LeaderChart, Meet, Motif, OnBlock, Remark, RowsChart, Statement, Take,
};
use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

pub(crate) static RULE: Rule = Rule {
    name: "near-mirror",
    severity: Severity::Warning,
    tags: &[Tag::UnevenChart],
    summary: "Two pieces mirror each other except in one number, or a chart mirrors itself except in one mark.",
    why: "If you write the left half of a band and then the right half by hand, you slip easily: you change a number \
          in one of them and forget it in the other. This rule compares two `on` blocks that follow one another, two \
          motifs, and three or more pairs of `take` that follow one another, each left one with its right one; and \
          the left half of every chart with its right half, mark by mark, if at least eight pairs agree. Pieces \
          of fewer than four numbers may differ by design and are not reported. Neither are steps whose picture is \
          even all the same, as when one of the two middle strands ties the knot that joins the halves. With \
          `both { }` the mirror image writes itself and cannot differ.",
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
/// The fewest pairs of `take` that make a piece.
const PAIRS: usize = 3;
/// The fewest pairs of marks that agree in a chart with one pair that does not.
const MARKS: usize = 8;
/// Among more motifs than this nothing is compared.
const MOST_MOTIFS: usize = 100;

pub(super) fn find(checked: &Checked, contents: &Contents) -> Vec<Finding> {
    let source = checked.source;
    let near = &contents.near_mirrors;
    let blocks = || contents.blocks.iter().filter_map(|statement| statement.node.block());
    let mut found = near.motifs.get_or_init(|| motifs(source)).clone();
    if checked.sound && checked.pattern.is_some_and(begins_even) {
        let halves = || blocks().flat_map(|block| halves(source, block)).collect();
        found.extend(near.halves.get_or_init(halves));
        let pairs = near.pairs.get_or_init(|| blocks().flat_map(|block| pairs(source, block)).collect());
        if !pairs.is_empty() && looks_uneven(checked) {
            found.extend(pairs);
        }
    }
    let of_numbers = found.into_iter().map(|differing| words(source, differing));
    // A band with an error, or that does not close, is not the one that was meant, and another rule says so.
    let is_meant = checked.pattern.is_none() || (checked.sound && checked.closes != Some(false));
    let charts = is_meant.then(|| near.charts.get_or_init(|| charts(contents))).into_iter().flatten();
    of_numbers.chain(charts.map(|&differing| words_for_chart(source, differing))).collect()
}

/// Charts that mirror themselves except in one mark.
fn charts(contents: &Contents) -> Vec<Differing> {
    contents.charts.iter().filter_map(|statement| chart(statement)).filter_map(one_in_chart).collect()
}

fn chart(statement: &Statement) -> Option<&Chart> {
    let rows = statement.get::<RowsChart>().map(|rows| &rows.chart);
    rows.or_else(|| statement.get::<LeaderChart>().map(|leader| &leader.chart))
}

fn one_in_chart(chart: &Chart) -> Option<Differing> {
    let halves = reflection::compare_halves(chart);
    let [Differing { first, second }] = halves.differing[..] else { return None };
    // Of two marks the one is likelier to be wrong with which its row would be one that comes again.
    let (one, other) = (reflection::rows_like(chart, first), reflection::rows_like(chart, second));
    let blamed = if one > other { (second, first) } else { (first, second) };
    (halves.alike >= MARKS).then_some(Differing { first: blamed.0, second: blamed.1 })
}

/// Two motifs.
fn motifs(source: &Source) -> Vec<Differing> {
    let motifs: Vec<&Motif> =
        source.parsed.tree.statements.iter().filter_map(motif).take(MOST_MOTIFS).collect();
    let body = |motif: &Motif| motif.block.open.to(motif.block.close.unwrap_or(motif.block.open));
    if motifs.len() < 2 {
        return Vec::new();
    }
    let shape = |motif: &&Motif| read_shape(source, body(motif));
    let shapes: Vec<Vec<Part>> = motifs.iter().filter_map(shape).collect();
    let mut found = Vec::new();
    for (at, one) in shapes.iter().enumerate() {
        let others = shapes[at + 1..].iter().filter(|other| other.len() == one.len());
        found.extend(others.filter_map(|other| near(one, &reflected(other))));
    }
    found
}

fn motif(statement: &Statement) -> Option<&Motif> {
    statement.get()
}

/// `on` blocks that follow one another.
fn halves(source: &Source, block: &Block) -> Vec<Differing> {
    let is_on = |statement: &Statement| statement.is::<OnBlock>();
    let twos = block.statements.windows(2).filter(|two| two.iter().all(is_on));
    let shape = |statement: &Statement| read_shape(source, statement.span);
    twos.filter_map(|two| near(&shape(&two[0])?, &reflected(&shape(&two[1])?))).collect()
}

fn near(one: &[Part], other: &[Part]) -> Option<Differing> {
    let numbers = one.iter().filter(|part| part.kind == TokenKind::Number).count();
    let found = find_differing(one, other)?;
    if numbers >= NUMBERS && found.len() == 1 { found.into_iter().next() } else { None }
}

/// `take` after `take`, left and right by turns.
fn pairs(source: &Source, block: &Block) -> Vec<Differing> {
    let is_other = |statement: &Statement| {
        !(statement.is::<Take>() || statement.is::<Meet>() || statement.is::<Remark>())
    };
    block.statements.split(is_other).filter_map(|steps| one_in_pairs(source, steps)).collect()
}

fn one_in_pairs(source: &Source, steps: &[Statement]) -> Option<Differing> {
    let mut takes = steps.iter().filter(|statement| statement.is::<Take>());
    let count = takes.clone().count();
    if count < 2 * PAIRS || !count.is_multiple_of(2) {
        return None;
    }
    let mut found = Vec::new();
    while let (Some(one), Some(other)) = (takes.next(), takes.next()) {
        let (one, other) = (read_shape(source, one.span)?, read_shape(source, other.span)?);
        found.extend(find_differing(&one, &reflected(&other))?);
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
    sound.as_ref().map(Woven::of).is_some_and(|woven| !looks_even(&woven))
}

/// Whether left and right of the center the same is seen.
fn looks_even(woven: &Woven) -> bool {
    let last = woven.laid.gaps().saturating_sub(1).to_u8();
    let seen = |mirrored: bool| -> BTreeSet<(u32, u8, u16)> {
        let knots = woven.whole().knots().iter().zip(woven.laid.rows());
        let gap = |gap: u8| if mirrored { last - gap } else { gap };
        knots.map(|(knot, &row)| (row, gap(knot.gap), woven.thread(knot.working))).collect()
    };
    seen(false) == seen(true)
}

fn words(source: &Source, Differing { first, second }: Differing) -> Finding {
    let (one, other) = (first.of(&source.text), second.of(&source.text));
    let place = |span| Place { file: FileId::CHECKED, span };
    Finding::new(
        &RULE,
        format!("This piece mirrors the one above it except in one number: {other} here, and {one} above."),
    )
    .at(place(second))
    .note(place(first), format!("its counterpart is {one}"))
    .help("Make the two numbers the same, or write only one side, in `both { }`.")
}

fn words_for_chart(source: &Source, Differing { first, second }: Differing) -> Finding {
    let (one, other) = (first.of(&source.text), second.of(&source.text));
    let mirrored = |mark| mirrored_mark(mark).unwrap_or(mark);
    let place = |span| Place { file: FileId::CHECKED, span };
    let message = format!(
        "The left and the right half of this chart mirror each other except in one mark: `{other}` here, and `{one}` at \
         its counterpart."
    );
    Finding::new(&RULE, message).at(place(second)).note(place(first), "its counterpart").help(format!(
        "Write `{}` here, or `{}` at the counterpart.",
        mirrored(one),
        mirrored(other)
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};

    fn band(strands: &str, steps: &str) -> String {
        format!(
            "pattern \"A\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands {strands}\nset {{\n{steps}\n}}\n"
        )
    }

    #[test]
    fn the_number_that_differs_is_shown_on_both_sides() {
        let finding = &find_by(RULE.name, RULE.example)[0];
        assert_eq!(
            finding.message,
            "This piece mirrors the one above it except in one number: 1 here, and 2 above."
        );
        assert_eq!(finding.notes[0].text, "its counterpart is 2");
    }

    #[test]
    fn takes_in_pairs_are_compared_too() {
        let steps = "take left 1: forward 2\ntake right 1: backward 2\ntake left 1: forward 3\ntake right 1: backward 3\n\
                     take left 2: forward 1\ntake right 1: backward 1";
        assert_eq!(messages_of(RULE.name, &band("2 kelp 2 foam | mirror", steps)).len(), 1);
    }

    #[test]
    fn one_of_two_middle_strands_may_tie_the_knot_that_joins() {
        // The right one goes a knot further and ties the middle.
        let steps = "take left 1: forward 2\ntake right 1: backward 2\ntake left 1: forward 2\ntake right 1: backward 2\n\
                     take left 1: forward 3\ntake right 1: backward 4";
        assert_silent(RULE.name, &band("4 kelp | mirror", steps));
    }

    #[test]
    fn a_band_whose_halves_begin_unlike_may_go_on_unlike() {
        let text = RULE
            .example
            .replace("strands kelp 2 foam kelp | mirror", "strands kelp 2 foam 2 kelp foam 2 kelp");
        assert_silent(RULE.name, &text);
    }

    #[test]
    fn the_halves_of_a_chart_are_compared_mark_by_mark() {
        let library = |rows: &str| format!("pattern \"Nets\"\nmotif net() {{\n  rows {{\n{rows}  }}\n}}\n");
        let rows = "    \\ > x < /\n     \\ > < /\n    / \\ x / \\\n     . \\ / .\n    / \\ x / \\\n";
        assert_silent(RULE.name, &library(rows));
        assert_eq!(
            messages_of(RULE.name, &library(&rows.replacen("< /", "> /", 1))),
            [
                "The left and the right half of this chart mirror each other except in one mark: `>` here, and `>` at \
                 its counterpart."
            ]
        );
        assert_silent(RULE.name, &library("    \\ > x > /\n"));
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
        assert_eq!(messages_of(RULE.name, &library(2)).len(), 1);
        assert_silent(RULE.name, &library(1));
    }
}
