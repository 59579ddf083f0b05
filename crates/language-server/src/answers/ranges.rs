//! What folds away, and what is selected around a cursor.

use crate::documents::Snapshot;
use knotwright_editor::{self as editor, Fold, FoldKind};
use knotwright_numbers::ToNumber;
use tower_lsp::ls_types::{FoldingRange, FoldingRangeKind, Position, Range, SelectionRange};

/// What folds.
pub(crate) fn folding_ranges(snapshot: &Snapshot) -> Vec<FoldingRange> {
    let within = |pattern: &Snapshot| {
        let found = editor::folding_ranges(pattern.source()).into_iter();
        found.filter_map(|fold| range(pattern, &fold)).collect::<Vec<_>>()
    };
    let mut folds: Vec<FoldingRange> = snapshot.patterns().iter().flat_map(within).collect();
    folds.dedup_by_key(|fold| (fold.start_line, fold.end_line));
    folds
}

/// A block folds up to the line before its brace, so that the brace stays to be seen; where less than a line can fold, up
/// to the brace itself.
fn range(snapshot: &Snapshot, fold: &Fold) -> Option<FoldingRange> {
    let range = snapshot.range(fold.span);
    let by_lines = snapshot.setting.facts.whole_lines;
    let before_brace = fold.kind == FoldKind::Statement
        && snapshot.source().text.get(fold.span.end.to_usize()..).is_some_and(|rest| rest.starts_with('}'));
    let end_line = if by_lines && before_brace { range.end.line.saturating_sub(1) } else { range.end.line };
    let kind = match fold.kind {
        FoldKind::Comments => Some(FoldingRangeKind::Comment),
        FoldKind::Uses => Some(FoldingRangeKind::Imports),
        FoldKind::Statement | FoldKind::Threads => None,
    };
    (end_line > range.start.line).then_some(FoldingRange {
        start_line: range.start.line,
        start_character: None,
        end_line,
        end_character: (!by_lines).then_some(range.end.character),
        kind,
        collapsed_text: None,
    })
}

/// For each position, wider and wider selections; `None` if no pattern is at any of them.
pub(crate) fn selection_ranges(snapshot: &Snapshot, at: &[Position]) -> Option<Vec<SelectionRange>> {
    let patterns: Vec<Option<Snapshot>> = at.iter().map(|position| snapshot.at(*position)).collect();
    patterns.iter().any(Option::is_some).then(|| {
        let one = |(pattern, at): (&Option<Snapshot>, &Position)| match pattern {
            Some(pattern) => around(pattern, *at),
            None => SelectionRange { range: Range::new(*at, *at), parent: None },
        };
        patterns.iter().zip(at).map(one).collect()
    })
}

fn around(snapshot: &Snapshot, at: Position) -> SelectionRange {
    let spans = editor::selection_ranges(snapshot.source(), snapshot.offset(at));
    let widest_first = spans.into_iter().rev();
    let nested = widest_first.fold(None, |parent, span| {
        Some(SelectionRange { range: snapshot.range(span), parent: parent.map(Box::new) })
    });
    let cursor = snapshot.position(snapshot.offset(at));
    nested.unwrap_or_else(|| SelectionRange { range: Range::new(cursor, cursor), parent: None })
}
