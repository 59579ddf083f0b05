//! A chart with an odd number of rows that follows on itself.

use crate::contents::Contents;
use crate::wording::count;
use crate::{Checked, Extent, FileId, Finding, Place, Rule, Severity};
use knotwright_grammar::tree::{Block, Chart, Expr, Node, Statement};

pub(crate) static RULE: Rule = Rule {
    name: "odd-chart-repeats",
    severity: Severity::Warning,
    summary: "A chart that is tied over and over begins with the same pairs with which it ends.",
    why: "In a chart, rows of the pairs 1-2, 3-4 and rows of the pairs 2-3, 4-5 come by turns, as bricks lie. If a \
          chart with an odd number of rows is tied again right after itself, two rows of the same pairs meet: the \
          same neighbors are knotted twice, and the strands between are left out once. Add a row, or take one away. \
          The finding comes for a `set`, `repeat` or `for` that holds charts and nothing else.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  rows {
    \ x /
     \ /
    / x \
  }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  rows {
    \ x /
     \ /
    / x \
     / \
  }
}
"#,
};

pub(super) fn find(checked: &Checked, contents: &Contents) -> Vec<Finding> {
    // Two strands have one pair only, and charts of one row.
    if checked.pattern.is_some_and(|pattern| pattern.strands.len() < 3) {
        return Vec::new();
    }
    let once = checked.pattern.is_some_and(|pattern| pattern.extent == Extent::Sets(1));
    contents.blocks.iter().filter_map(|statement| again(statement, once)).filter_map(odd).collect()
}

/// The block of a statement that is tied more than once.
fn again(statement: &Statement, once: bool) -> Option<&Block> {
    match &statement.node {
        Node::Set(block) if !once => Some(block),
        Node::Repeat { times: Expr::Number(times), .. } if times.value < 2 => None,
        Node::Repeat { block, .. } | Node::For { block, .. } => Some(block),
        _ => None,
    }
}

fn odd(block: &Block) -> Option<Finding> {
    let mut charts = Vec::new();
    only_charts(block, &mut charts)?;
    let (first, last) = (charts.first()?, charts.last()?);
    let ends_with = usize::from(last.0) + last.1.rows.len().checked_sub(1)?;
    if ends_with % 2 != usize::from(first.0) {
        return None;
    }
    let rows = charts.iter().map(|(_, chart)| chart.rows.len() as u64).sum();
    let place = Place { file: FileId(0), span: last.1.rows.last()?.span };
    Some(words(rows).at(place).note(
        Place { file: FileId(0), span: first.1.rows.first()?.span },
        "this row comes next, and ties the same pairs",
    ))
}

/// The charts of a block that holds nothing else that ties, each with whether it begins offset.
fn only_charts<'a>(block: &'a Block, charts: &mut Vec<(bool, &'a Chart)>) -> Option<()> {
    for statement in &block.statements {
        match &statement.node {
            Node::Rows { offset, chart } => charts.push((offset.is_some(), chart)),
            Node::Section { block, .. } => only_charts(block, charts)?,
            Node::Note(_) | Node::Expect(_) => {}
            _ => return None,
        }
    }
    Some(())
}

fn words(rows: u64) -> Finding {
    let rows = count(rows, "row");
    Finding::new(
        &RULE,
        format!("After {rows} the chart comes again, and begins with the pairs that this row has just tied."),
    )
    .help("Add a row or take one away, so that rows of either kind go on by turns.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{found, silent, told};

    fn body(text: &str) -> String {
        format!("pattern \"A\"\nthread kelp green\nstrands 6 kelp\n{text}\n")
    }

    const ODD: &str = "rows {\n\\ x /\n\\ /\n/ x \\\n}";

    #[test]
    fn the_rows_are_counted_and_the_first_is_shown() {
        let finding = &found(RULE.name, RULE.example)[0];
        assert_eq!(
            finding.message,
            "After three rows the chart comes again, and begins with the pairs that this row has just tied."
        );
        assert_eq!(finding.notes[0].text, "this row comes next, and ties the same pairs");
    }

    #[test]
    fn a_chart_within_repeat_follows_on_itself_too() {
        let told = told(
            RULE.name,
            &body(&format!("set {{\nrepeat 2 {{\n{ODD}\n}}\ntake left 1: forward to edge\n}}")),
        );
        assert_eq!(told.len(), 1);
    }

    #[test]
    fn charts_that_go_on_by_turns_are_well_made() {
        let even = "rows offset {\n\\ /\n}";
        silent(RULE.name, &body(&format!("set {{\nsection \"a\" {{\n{ODD}\n}}\nnote \"now\"\n{even}\n}}")));
        silent(RULE.name, &body(&format!("sets 1\nset {{\n{ODD}\n}}")));
        silent(RULE.name, &body(&format!("set {{\n{ODD}\ntake left 2: forward 1\n}}")));
        silent(RULE.name, "pattern \"A\"\nthread kelp green\nstrands 2 kelp\nset {\nrows {\n\\\n}\n}\n");
    }
}
