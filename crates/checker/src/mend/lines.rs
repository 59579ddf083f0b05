//! Edits of whole lines: statements and rows of charts put in, left out, exchanged.

use super::copies::copied_text;
use super::words::{Written, kind_word, sign};
use crate::Source;
use crate::resolve::Script;
use crate::tie::{Added, Copied, RowEdit, StatementEdit};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Chart, KnotKind, LeaderChart, RowsChart, Statement, Work};
use knotwright_numbers::ToNumber;

/// An edit of the statement at `span`; `above` stands before it.
pub(super) fn write_statement(
    script: &Script,
    span: Span,
    above: Option<Span>,
    edit: StatementEdit,
) -> Written {
    let source = script.source();
    let text = span.of(&source.text);
    match edit {
        StatementEdit::LeftOut => Written {
            says: format!("leave out `{}`", first_line(text)),
            edits: vec![(line(source, span), String::new())],
        },
        StatementEdit::Doubled => Written {
            says: format!("tie `{}` twice", first_line(text)),
            edits: vec![after(source, span, text)],
        },
        StatementEdit::Swapped => {
            let above = above.unwrap_or(span);
            let upper = above.of(&source.text);
            let says = format!("let `{}` come before `{}`", first_line(text), first_line(upper));
            Written { says, edits: vec![(above, text.to_owned()), (span, upper.to_owned())] }
        }
        StatementEdit::Both => around(span, "both"),
        StatementEdit::Mirrored => mirrored(source, span),
        StatementEdit::Plain => plain(source, span),
        StatementEdit::CopyBefore(copied) => {
            let step = copy(script, copied);
            let says = format!("put in `{}` before `{}`", first_line(&step), first_line(text));
            Written { says, edits: vec![before(source, span, &step)] }
        }
        StatementEdit::CopyAfter(copied) => {
            let step = copy(script, copied);
            let says = format!("put in `{}` after `{}`", first_line(&step), first_line(text));
            Written { says, edits: vec![after(source, span, &step)] }
        }
        StatementEdit::Before(added) => {
            let step = step(added);
            let says = format!("put in `{step}` before `{}`", first_line(text));
            Written { says, edits: vec![before(source, span, &step)] }
        }
        StatementEdit::After(added) => {
            let step = step(added);
            let says = format!("put in `{step}` after `{}`", first_line(text));
            Written { says, edits: vec![after(source, span, &step)] }
        }
    }
}

/// An edit of the row at `span`.
pub(super) fn write_row(source: &Source, span: Span, edit: RowEdit) -> Written {
    let text = span.of(&source.text);
    let chart = source.parsed.tree.walk().find_map(|statement| chart_around(statement, span));
    let rows = chart.map(|chart| &chart.rows[..]).unwrap_or_default();
    let copied = |number: u16| rows.get(usize::from(number)).map_or("", |row| row.span.of(&source.text));
    match edit {
        RowEdit::LeftOut => Written {
            says: format!("leave out the row `{text}`"),
            edits: vec![(line(source, span), String::new())],
        },
        RowEdit::Swapped => {
            let next = rows.iter().find(|row| row.span.start > span.start).map_or(span, |row| row.span);
            let lower = next.of(&source.text);
            let says = format!("let the row `{lower}` come before the row `{text}`");
            Written { says, edits: vec![(span, lower.to_owned()), (next, text.to_owned())] }
        }
        RowEdit::Before(number) => {
            let says = format!("put in the row `{}` before this one", copied(number));
            Written { says, edits: vec![before(source, span, copied(number))] }
        }
        RowEdit::After(number) => {
            let says = format!("put in the row `{}` after this one", copied(number));
            Written { says, edits: vec![after(source, span, copied(number))] }
        }
        RowEdit::MarkPutIn(..) | RowEdit::MarkLeftOut(_) => {
            let row = rows.iter().find(|row| row.span == span).and_then(|row| edit.within(row));
            let signs: Vec<&str> =
                row.iter().flat_map(|row| &row.marks).map(|mark| sign(mark.sign)).collect();
            Written::instead(span, signs.join(" "), text.to_owned())
        }
    }
}

/// `rows` for `rows offset`, or the other way round. `open`: the chart's `{`.
pub(super) fn write_offset(source: &Source, open: Span) -> Written {
    let found = source.parsed.tree.walk().find_map(|statement| {
        let rows = statement.get::<RowsChart>().filter(|rows| rows.chart.open == open)?;
        Some((rows.offset, statement.span.start))
    });
    let Some((offset, start)) = found else { return Written { says: String::new(), edits: Vec::new() } };
    match offset {
        Some(word) => {
            let edits = vec![(Span { start: start + 4, end: word.end }, String::new())];
            Written { says: "write `rows` instead of `rows offset`".to_owned(), edits }
        }
        None => {
            let edits = vec![(Span { start: start + 4, end: start + 4 }, " offset".to_owned())];
            Written { says: "write `rows offset` instead of `rows`".to_owned(), edits }
        }
    }
}

fn chart_around(statement: &Statement, row: Span) -> Option<&Chart> {
    let rows = statement.get::<RowsChart>().map(|rows| &rows.chart);
    let chart = rows.or_else(|| statement.get::<LeaderChart>().map(|leader| &leader.chart))?;
    chart.rows.iter().any(|other| other.span == row).then_some(chart)
}

/// A statement that stands elsewhere, as it is put in.
fn copy(script: &Script, Copied { start, but }: Copied) -> String {
    let copied = script.source().parsed.tree.statement_at(start);
    copied.map_or_else(String::new, |step| copied_text(script, step, but))
}

fn around(span: Span, word: &str) -> Written {
    let at = |offset| Span { start: offset, end: offset };
    let edits = vec![(at(span.start), format!("{word} {{ ")), (at(span.end), " }".to_owned())];
    Written { says: format!("write `{word} {{ ... }}` around this"), edits }
}

/// `work` says itself that it is mirrored.
fn mirrored(source: &Source, span: Span) -> Written {
    let found = source.parsed.tree.walk().find(|statement| statement.span == span);
    let Some(work) = found.and_then(|statement| statement.get::<Work>()) else {
        return around(span, "mirrored");
    };
    match work.mirrored {
        Some(word) => {
            let before = source.text[..word.start.to_usize()].trim_end().len().to_u32();
            let edits = vec![(Span { start: before, end: word.end }, String::new())];
            Written { says: "leave out `mirrored`".to_owned(), edits }
        }
        None => {
            let edits = vec![(Span { start: span.end, end: span.end }, " mirrored".to_owned())];
            Written { says: format!("write `{} mirrored`", span.of(&source.text)), edits }
        }
    }
}

/// A `both` or `mirrored` on one line, without the word and the braces.
fn plain(source: &Source, span: Span) -> Written {
    let found = source.parsed.tree.walk().find(|statement| statement.span == span);
    let inner = found.and_then(|statement| statement.node.block()).map_or("", |block| {
        let end = block.close.map_or(span.end, |close| close.start);
        source.text[block.open.end.to_usize()..end.to_usize()].trim()
    });
    let word = first_line(span.of(&source.text)).split([' ', '{']).next().unwrap_or_default().to_owned();
    Written { says: format!("leave out `{word}`"), edits: vec![(span, inner.to_owned())] }
}

/// `take left 2: forward 3`; where it meets the neighbor across the middle, `meet center`.
fn step(added: Added) -> String {
    let Added { at, width, runs, meets, both } = added;
    let runs = || {
        let run = |(kind, count): (KnotKind, u8)| format!("{} {count}", kind_word(kind));
        runs.runs().map(run).collect::<Vec<_>>().join(", ")
    };
    // In a range that is not always as wide, a place from the right is not always the same.
    let from_right = width.filter(|&width| 2 * at > width).map(|width| width + 1 - at);
    match from_right {
        _ if both => format!("both {{ {} }}", step(Added { both: false, ..added })),
        _ if meets => "meet center".to_owned(),
        Some(right) => format!("take right {right}: {}", runs()),
        None => format!("take left {at}: {}", runs()),
    }
}

fn before(source: &Source, span: Span, text: &str) -> (Span, String) {
    let (start, indent) = begin_of_line(source, span);
    (Span { start, end: start }, format!("{indent}{text}\n"))
}

fn after(source: &Source, span: Span, text: &str) -> (Span, String) {
    let (_, indent) = begin_of_line(source, span);
    let end = end_of_line(source, span);
    (Span { start: end, end }, format!("\n{indent}{text}"))
}

/// All lines that `span` is on, the last line's end included.
pub(super) fn line(source: &Source, span: Span) -> Span {
    let Span { start, end } = span.whole_lines(&source.text);
    let rest = &source.text[end.to_usize()..];
    let line_end = if rest.starts_with("\r\n") { 2 } else { rest.len().min(1) };
    Span { start, end: end + line_end.to_u32() }
}

pub(super) fn begin_of_line(source: &Source, span: Span) -> (u32, &str) {
    let start = span.whole_lines(&source.text).start;
    (start, &source.text[start.to_usize()..span.start.to_usize()])
}

/// Where the line ends on which `span` ends, without its end.
pub(super) fn end_of_line(source: &Source, span: Span) -> u32 {
    span.whole_lines(&source.text).end
}

fn first_line(text: &str) -> String {
    let mut lines = text.split(['\n', '\r']);
    let first = lines.next().unwrap_or_default().trim();
    let mut shown: String = first.chars().take(60).collect();
    if lines.next().is_some() || shown.len() < first.len() {
        shown.push_str(" ...");
    }
    shown
}
