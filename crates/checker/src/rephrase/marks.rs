//! What stands in charts in the way of other crafts: in those of a leader `o` and `x`, `0` and `1`, `-` and `#`, and letters
//! without their word; in `rows` signs that look like its marks.

use super::{Rephrased, is_among_first};
use crate::wording::write_in_places;
use crate::{Edit, FileId, Mend, Place, Source};
use knotwright_grammar::tree::{ChartRow, LeaderChart, RowsChart, Zone};
use knotwright_grammar::{Problem, ProblemKind, Span, TokenKind};
use knotwright_numbers::ToNumber;

/// More rows are not written by one mend.
const MOST_ROWS: usize = 500;

/// Signs for a knot of the leader, and for one of the other strand.
const LEADERS: [char; 9] = ['.', 'o', 'O', '0', '-', '_', ',', ':', '\u{b7}'];
const STRANDS: [char; 10] = ['#', 'x', 'X', '1', '*', '@', '+', '%', '\u{d7}', '\u{2588}'];

/// What to write for a sign that is no mark of a leader.
pub(super) fn leader_row(problem: &Problem, source: &Source, file: FileId) -> Option<Rephrased> {
    let is_mark = matches!(problem.kind, ProblemKind::UnknownMark { chart: Zone::Leader });
    if !is_mark || !is_among_first(problem, source) {
        return None;
    }
    letters(problem, source, file).or_else(|| marks(problem, source, file))
}

/// Signs that look like a mark of `rows`, and the mark.
const LIKE_MARKS: [(&[char], char); 5] = [
    (&['X', '\u{d7}', '\u{2573}'], 'x'),
    (&['\u{2572}', '\u{ff3c}'], '\\'),
    (&['\u{2571}', '\u{ff0f}'], '/'),
    (&['\u{203a}', '\u{bb}'], '>'),
    (&['\u{2039}', '\u{ab}'], '<'),
];

/// What to write for a sign that is no mark of `rows`, wherever it stands in them.
pub(super) fn mark_of_rows(problem: &Problem, source: &Source, file: FileId) -> Option<Rephrased> {
    let chart = Zone::Rows;
    if problem.kind != (ProblemKind::UnknownMark { chart }) || !is_among_first(problem, source) {
        return None;
    }
    let mut signs = problem.span.of(&source.text).chars();
    let sign = signs.next().filter(|_| signs.next().is_none())?;
    let mark = LIKE_MARKS.iter().find(|(signs, _)| signs.contains(&sign))?.1.to_string();
    let charts = source.parsed.tree.walk().filter_map(|statement| statement.get::<RowsChart>());
    let in_row = |row: &ChartRow| {
        let all = row.span.of(&source.text).match_indices(sign);
        let places = all.map(|(at, found)| (row.span.start.to_usize() + at, found.len()));
        let places = places.map(|(start, length)| Span::new(start, start + length));
        places.map(|span| edit(file, span, mark.clone())).collect::<Vec<Edit>>()
    };
    let edits: Vec<Edit> =
        charts.flat_map(|rows| &rows.chart.rows).take(MOST_ROWS).flat_map(in_row).collect();
    let title = write_in_places(&mark, edits.len());
    (!edits.is_empty()).then(|| Rephrased {
        says: format!("`{sign}` is no mark of `rows`."),
        mends: vec![Mend::new(title, edits, false)],
        write: vec![mark],
    })
}

/// `"AHOY"`, `text "AHOY" height 5`: `letters "AHOY" height 5`.
fn letters(problem: &Problem, source: &Source, file: FileId) -> Option<Rephrased> {
    let tokens = &source.parsed.tokens;
    let first = tokens.partition_point(|token| token.span.end <= problem.span.start);
    let text = (first..tokens.len().min(first + 2)).find(|&at| tokens[at].kind == TokenKind::String)?;
    let span = tokens[first].span.to(tokens[text].span);
    let write = format!("letters {}", tokens[text].span.of(&source.text));
    Some(Rephrased {
        says: "A text in a chart stands behind `letters`.".to_owned(),
        mends: vec![mend(&write, vec![edit(file, span, write.clone())])],
        write: vec![write],
    })
}

/// All signs of all such charts in the place of `.` and `#`.
fn marks(problem: &Problem, source: &Source, file: FileId) -> Option<Rephrased> {
    let charts = source.parsed.tree.walk().filter_map(|statement| statement.get::<LeaderChart>());
    let rows: Vec<&ChartRow> = charts.flat_map(|leader| &leader.chart.rows).take(MOST_ROWS).collect();
    let is_own = |row: &&&ChartRow| row.span.start <= problem.span.start && problem.span.end <= row.span.end;
    let own = rows.iter().find(is_own).and_then(|row| row_in_marks(row.span, source))?;
    let is_other = |row: &&&ChartRow| row.letters.is_none() && !row.whole;
    let written = |row: &&ChartRow| Some(edit(file, row.span, row_in_marks(row.span, source)?));
    let edits: Vec<Edit> = rows.iter().filter(is_other).map(written).collect::<Option<_>>()?;
    Some(Rephrased {
        says: "In `leader`, `.` is a knot where the leader shows, and `#` one where the strand shows."
            .to_owned(),
        mends: (rows.len() < MOST_ROWS).then(|| mend(&own, edits)).into_iter().collect(),
        write: vec![own],
    })
}

fn row_in_marks(row: Span, source: &Source) -> Option<String> {
    let mark = |sign: char| match (LEADERS.contains(&sign), STRANDS.contains(&sign)) {
        (true, _) => Some('.'),
        (_, true) => Some('#'),
        _ => sign.is_whitespace().then_some(sign),
    };
    row.of(&source.text).chars().map(mark).collect()
}

fn edit(file: FileId, span: Span, text: String) -> Edit {
    Edit { place: Place { file, span }, text }
}

fn mend(write: &str, edits: Vec<Edit>) -> Mend {
    let title = match edits.len() {
        1 => format!("write `{write}`"),
        rows => format!("write all {} rows in the marks of `leader`", crate::wording::number(rows.to_u64())),
    };
    Mend::new(title, edits, false)
}
