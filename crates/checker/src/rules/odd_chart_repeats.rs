//! A chart with an odd number of rows that follows on itself.

use crate::contents::Contents;
use crate::wording::count;
use crate::{Checked, Extent, FactKind, FileId, Finding, Place, Rule, Severity, Tag};
use knotwright_grammar::tree::{Block, Body, Chart, Expr, ForBlock, Node, RepeatBlock, SetBlock, Statement};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "odd-chart-repeats",
    severity: Severity::Warning,
    tags: &[Tag::OddChart],
    summary: "A chart that is tied over and over begins with the same pairs that it ends with.",
    why: "In a chart, rows that pair strands 1-2, 3-4 and rows that pair 2-3, 4-5 take turns, as bricks lie. \
          If a chart with an odd number of rows is tied again right after itself, two rows with the same \
          pairs meet: the same neighbors are knotted twice, and the strands between are left out once. Add \
          or remove a row. The finding appears for a `set`, `repeat` or `for` that holds only charts.",
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
    let blocks = contents.blocks.iter().filter_map(|statement| again(statement, once));
    blocks.filter(|block| !has_wrong_row(block, checked)).filter_map(odd).collect()
}

/// The block of a statement that is tied more than once.
fn again(statement: &Statement, once: bool) -> Option<&Block> {
    if let Some(repeat) = statement.get::<RepeatBlock>() {
        let rarely = matches!(&repeat.times, Expr::Number(times) if times.value < 2);
        return (!rarely).then_some(&repeat.block);
    }
    let set = statement.get::<SetBlock>().filter(|_| !once).map(|set| &set.block);
    set.or_else(|| statement.get::<ForBlock>().map(|count| &count.block))
}

/// Whether a row of the wrong length stands there: then it is that row which makes their number odd.
fn has_wrong_row(block: &Block, checked: &Checked) -> bool {
    let end = block.close.map_or(u32::MAX, |close| close.start);
    let is_within = |place: Place| block.open.end <= place.span.start && place.span.end <= end;
    checked.facts.iter().any(|fact| matches!(fact.kind, FactKind::RowLength { .. }) && is_within(fact.place))
}

fn odd(block: &Block) -> Option<Finding> {
    let mut charts = Vec::new();
    only_charts(block, &mut charts)?;
    let (first, last) = (charts.first()?, charts.last()?);
    let ends_with = usize::from(last.0) + last.1.rows.len().checked_sub(1)?;
    if ends_with % 2 != usize::from(first.0) {
        return None;
    }
    let rows = charts.iter().map(|(_, chart)| chart.rows.len().to_u64()).sum();
    let place = Place { file: FileId::CHECKED, span: last.1.rows.last()?.span };
    Some(words(rows).at(place).note(
        Place { file: FileId::CHECKED, span: first.1.rows.first()?.span },
        "this row comes next, and ties the same pairs",
    ))
}

/// The charts of a block that holds nothing else that ties, each with whether it begins offset.
fn only_charts<'a>(block: &'a Block, charts: &mut Vec<(bool, &'a Chart)>) -> Option<()> {
    for statement in &block.statements {
        let Node::Body(body) = &statement.node else { return None };
        match body {
            Body::Rows(rows) => charts.push((rows.offset.is_some(), &rows.chart)),
            Body::Section(section) => only_charts(&section.block, charts)?,
            Body::Note(_) | Body::Join(_) | Body::Expect(_) | Body::Face(_) | Body::Bead(_) => {}
            Body::Take(_)
            | Body::Meet(_)
            | Body::On(_)
            | Body::Both(_)
            | Body::Mirrored(_)
            | Body::Work(_)
            | Body::Repeat(_)
            | Body::For(_)
            | Body::Leader(_) => return None,
        }
    }
    Some(())
}

fn words(rows: u64) -> Finding {
    let rows = count(rows, "row");
    Finding::new(
        &RULE,
        format!(
            "After {rows} the chart is tied again, and begins with the same pairs that this row has just \
                 tied."
        ),
    )
    .help("Add or remove a row, so that the two kinds of rows keep taking turns.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};

    fn body(text: &str) -> String {
        format!("pattern \"A\"\nthread kelp green\nstrands 6 kelp\n{text}\n")
    }

    const ODD: &str = "rows {\n\\ x /\n\\ /\n/ x \\\n}";

    #[test]
    fn the_rows_are_counted_and_the_first_is_shown() {
        let finding = &find_by(RULE.name, RULE.example)[0];
        assert_eq!(
            finding.message,
            "After three rows the chart is tied again, and begins with the same pairs that this row has just tied."
        );
        assert_eq!(finding.notes[0].text, "this row comes next, and ties the same pairs");
    }

    #[test]
    fn a_chart_within_repeat_follows_on_itself_too() {
        let reported = messages_of(
            RULE.name,
            &body(&format!("set {{\nrepeat 2 {{\n{ODD}\n}}\ntake left 1: forward to edge\n}}")),
        );
        assert_eq!(reported.len(), 1);
    }

    #[test]
    fn charts_that_go_on_by_turns_are_well_made() {
        let even = "rows offset {\n\\ /\n}";
        assert_silent(
            RULE.name,
            &body(&format!("set {{\nsection \"a\" {{\n{ODD}\n}}\nnote \"now\"\n{even}\n}}")),
        );
        assert_silent(RULE.name, &body(&format!("sets 1\nset {{\n{ODD}\n}}")));
        assert_silent(RULE.name, &body(&format!("set {{\n{ODD}\ntake left 2: forward 1\n}}")));
        assert_silent(
            RULE.name,
            "pattern \"A\"\nthread kelp green\nstrands 2 kelp\nset {\nrows {\n\\\n}\n}\n",
        );
    }
}
