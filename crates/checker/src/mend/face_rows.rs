//! A row or a mark of a chart that was forgotten, where a face says what is to be seen: the rows above say who hangs there,
//! and the rows below who must hang there after it. So the row can be written down.

use super::lines::end_of_line;
use super::search::Goal;
use crate::faces::{comes_again, face_in, has_face};
use crate::resolve::{Script, ThreadId};
use crate::{Edit, FileId, Library, Mend, PartKind, Pattern, Place, Source, analyze};
use knotwright_grammar::tree::{ChartRow, RowsChart, Sign};
use knotwright_grammar::{Span, apply_edits};
use knotwright_numbers::ToNumber;
use std::sync::Arc;

/// The knots, after a turn or across, with the strand that shows: whether it is the right one, and whether they change
/// places. The plainest come first.
const KNOTS: [(Sign, bool, bool); 4] = [
    (Sign::Forward, false, true),
    (Sign::Backward, true, true),
    (Sign::ForwardBackward, false, false),
    (Sign::BackwardForward, true, false),
];

/// In a larger band an edit takes too long to try.
const MOST_KNOTS: u64 = 5_000;

/// The most that are offered.
const MOST_OFFERED: usize = 4;

/// A face with more rows is not looked through.
const MOST_ROWS: usize = 400;

/// What is to be seen in a row, by pair of strands: no knot, a knot of whatever color, or of one.
type WantedRow = Vec<Option<Option<ThreadId>>>;

/// A part that is one chart and its face.
pub(super) struct FacedChart<'a> {
    source: &'a Source,
    face: Vec<WantedRow>,
    is_offset: bool,
    rows: Vec<&'a ChartRow>,
    hung: Vec<ThreadId>,
    /// By position, who must hang there at the end, if that is promised.
    end: Option<Vec<ThreadId>>,
}

/// By position after a row, who must hang there.
type DueThreads = Vec<Option<ThreadId>>;

/// A row as it may be.
type SignRow = Vec<Sign>;

/// What mends the first part of which the chart is a row short of its face, or has a mark that ties nothing: after each of
/// these edits nothing is wrong.
pub(crate) fn mend_face_rows(goal: &Goal, pattern: Option<&Pattern>, library: &dyn Library) -> Vec<Mend> {
    let source = goal.script.source();
    if goal.knots > MOST_KNOTS || !goal.is_clean() || !has_face(source) {
        return Vec::new();
    }
    let charts = PartKind::ALL.into_iter().filter_map(|kind| FacedChart::of(goal.script, pattern, kind));
    let mends = charts.map(|chart| chart.mends()).find(|mends| !mends.is_empty()).unwrap_or_default();
    let holds = |mend: &Mend| {
        let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        let text = apply_edits(&source.text, edits).filter(|_| !goal.is_given_up());
        text.is_some_and(|text| {
            analyze(Arc::new(Source::new(&*source.path, text)), library).errors().is_empty()
        })
    };
    mends.into_iter().filter(holds).take(MOST_OFFERED).collect()
}

impl<'a> FacedChart<'a> {
    pub(super) fn of(script: &'a Script, pattern: Option<&Pattern>, kind: PartKind) -> Option<Self> {
        let source = script.source();
        let read = face_in(script, kind)?;
        let mut statements = source.parsed.tree.statements.iter();
        let block = statements.find(|statement| PartKind::of(statement) == Some(kind))?.node.block()?;
        let mut steps = block.walk().filter(|statement| statement.is_step());
        let chart = steps.next()?.get::<RowsChart>()?;
        let is_alone = steps.next().is_none() && chart.offset.is_some() == read.face.is_offset();
        let strands = script.head.strands.clone()?;
        let hung = match pattern.filter(|pattern| pattern.is_whole()) {
            Some(pattern) => pattern.threads_before(kind),
            None => strands,
        };
        let mut rows: Vec<&ChartRow> = chart.chart.rows.iter().collect();
        let is_fit = is_alone && rows.len() <= MOST_ROWS && rows.iter().all(|row| row.whole);
        let end = comes_again(script, kind).then(|| hung.clone());
        let mut face = read.face.marks();
        // Rows without a knot may stand below.
        while rows.last().is_some_and(|row| row.marks.iter().all(|mark| mark.sign == Sign::Dot)) {
            rows.pop();
        }
        while face.last().is_some_and(|row| row.iter().all(Option::is_none)) {
            face.pop();
        }
        is_fit.then_some(Self { source, face, is_offset: read.face.is_offset(), rows, hung, end })
    }

    fn mends(&self) -> Vec<Mend> {
        match self.face.len().checked_sub(self.rows.len()) {
            Some(0) => self.marks(),
            Some(1) => self.missing_rows(),
            _ => Vec::new(),
        }
    }

    fn first_gap(&self, row: usize) -> usize {
        (row + usize::from(self.is_offset)) % 2
    }

    /// Each row that may be put in, at each place where all the others show the face.
    fn missing_rows(&self) -> Vec<Mend> {
        let mut order = self.hung.clone();
        let mut mends = Vec::new();
        for row in 0..self.face.len() {
            let found = self.due_before(row).and_then(|due| self.row(row, &order, &due));
            mends.extend(found.map(|signs| self.put_in(row, &signs)));
            if row == self.rows.len() || !self.shows(row, &mut order) {
                break;
            }
        }
        mends
    }

    /// Each sign that may stand for the first dot that is to be a knot.
    fn marks(&self) -> Vec<Mend> {
        let mut order = self.hung.clone();
        for row in 0..self.rows.len() {
            let is_dot = |(mark, wanted): (&knotwright_grammar::tree::Mark, &Option<_>)| {
                mark.sign == Sign::Dot && wanted.is_some()
            };
            let marks = &self.rows[row].marks;
            if let Some(at) = marks.iter().zip(&self.face[row]).position(is_dot) {
                return self.signs(row, at, &order);
            }
            if !self.shows(row, &mut order) {
                break;
            }
        }
        Vec::new()
    }

    /// Other marks with which every row shows the face, the nearest first above where one does not.
    pub(super) fn changed_marks(&self) -> Vec<Mend> {
        let mut orders = vec![self.hung.clone()];
        for row in 0..self.rows.len() {
            let mut order = orders[row].clone();
            if !self.shows(row, &mut order) {
                break;
            }
            orders.push(order);
        }
        if self.face.len() != self.rows.len() || orders.len() > self.rows.len() {
            return Vec::new();
        }
        let mut mends = Vec::new();
        for (row, order) in orders.iter().enumerate().rev() {
            for at in 0..self.rows[row].marks.len() {
                let signs = KNOTS.into_iter().map(|knot| knot.0);
                let fit = signs.filter(|&sign| self.shows_signs(row, &self.with_sign(row, at, sign), order));
                mends.extend(fit.map(|sign| self.write_mark(row, at, sign)));
            }
        }
        mends
    }

    /// A row with another sign for a mark; empty if it is none.
    fn with_sign(&self, row: usize, at: usize, sign: Sign) -> SignRow {
        let mut signs: SignRow = self.rows[row].marks.iter().map(|mark| mark.sign).collect();
        if signs[at] == sign || signs[at] == Sign::Dot {
            return Vec::new();
        }
        signs[at] = sign;
        signs
    }

    /// Whether every row from this one on shows the face, with other signs for its marks.
    fn shows_signs(&self, row: usize, signs: &[Sign], order: &[ThreadId]) -> bool {
        let mut order = order.to_vec();
        self.tie(signs, row, &mut order)
            && (row + 1..self.rows.len()).all(|next| self.shows(next, &mut order))
            && self.end.as_ref().is_none_or(|end| *end == order)
    }

    /// The signs of one mark with which the row and all below show the face, those first that stand beside it, too.
    fn signs(&self, row: usize, at: usize, order: &[ThreadId]) -> Vec<Mend> {
        let Some(due) = self.due_before(row + 1) else { return Vec::new() };
        let marks = &self.rows[row].marks;
        let fits = |sign: &Sign| {
            let mut after = order.to_vec();
            let signs: SignRow = marks
                .iter()
                .enumerate()
                .map(|(mark, own)| if mark == at { *sign } else { own.sign })
                .collect();
            self.tie(&signs, row, &mut after) && keeps(&due, &after)
        };
        let mut signs: Vec<Sign> = KNOTS.into_iter().map(|knot| knot.0).filter(fits).collect();
        let beside = |sign: &Sign| marks.iter().filter(|mark| mark.sign == *sign).count();
        signs.sort_by_key(|sign| std::cmp::Reverse(beside(sign)));
        signs.into_iter().map(|sign| self.write_mark(row, at, sign)).collect()
    }

    fn write_mark(&self, row: usize, at: usize, sign: Sign) -> Mend {
        let mark = &self.rows[row].marks[at];
        let (written, sign) = (super::words::sign(mark.sign), super::words::sign(sign));
        let place = Place { file: FileId::CHECKED, span: mark.span() };
        let edits = vec![Edit { place, text: sign.to_owned() }];
        Mend::new(format!("write `{sign}` instead of `{written}`: the face shows then"), edits, false)
    }

    /// Ties a row of the chart as that row of the face; whether it shows it.
    fn shows(&self, row: usize, order: &mut [ThreadId]) -> bool {
        let signs: SignRow = self.rows[row].marks.iter().map(|mark| mark.sign).collect();
        self.tie(&signs, row, order)
    }

    fn tie(&self, signs: &[Sign], row: usize, order: &mut [ThreadId]) -> bool {
        let mut all = signs.len() == self.face[row].len();
        for (mark, (&sign, wanted)) in signs.iter().zip(&self.face[row]).enumerate() {
            let gap = self.first_gap(row) + 2 * mark;
            let shown = tied(sign, gap, order);
            all &= match (shown, wanted) {
                (None, None) | (Some(_), Some(None)) => true,
                (Some(shown), Some(Some(wanted))) => shown == *wanted,
                _ => false,
            };
        }
        all
    }

    /// Who must hang where before the chart's row of that number, so that it and all below show the last rows of the face.
    /// `None` if nobody can.
    fn due_before(&self, first: usize) -> Option<DueThreads> {
        let by = self.face.len() - self.rows.len();
        let mut places: Vec<usize> = (0..self.hung.len()).collect();
        let mut due: DueThreads = vec![None; self.hung.len()];
        let mut ask = |place: usize, thread: ThreadId| *due[place].get_or_insert(thread) == thread;
        for row in first..self.rows.len() {
            let wanted = self.face.get(row + by)?;
            let marks = &self.rows[row].marks;
            if marks.len() != wanted.len() {
                return None;
            }
            for (at, (mark, wanted)) in marks.iter().zip(wanted).enumerate() {
                let gap = self.first_gap(row + by) + 2 * at;
                let is_kept = match (tied(mark.sign, gap, &mut places), wanted) {
                    (None, None) | (Some(_), Some(None)) => true,
                    (Some(place), Some(Some(thread))) => ask(place, *thread),
                    _ => false,
                };
                if !is_kept {
                    return None;
                }
            }
        }
        let end = self.end.iter().flatten();
        let is_kept = end.zip(&places).all(|(&thread, &place)| ask(place, thread));
        is_kept.then_some(due)
    }

    /// The row that shows that row of the face, after which everybody hangs where they are due.
    fn row(&self, row: usize, order: &[ThreadId], due: &DueThreads) -> Option<SignRow> {
        let mut after = order.to_vec();
        let mut signs = Vec::new();
        for (mark, wanted) in self.face[row].iter().enumerate() {
            let gap = self.first_gap(row) + 2 * mark;
            let pair = [order[gap], order[gap + 1]];
            let is_due = |pair: [ThreadId; 2]| keeps(&due[gap..gap + 2], &pair);
            let fits = |&(_, is_right, is_across): &(Sign, bool, bool)| {
                let shown = pair[usize::from(is_right)];
                let then = if is_across { [pair[1], pair[0]] } else { pair };
                wanted.flatten().is_none_or(|wanted| wanted == shown) && is_due(then)
            };
            let sign = match wanted {
                None => Sign::Dot,
                Some(_) => KNOTS.iter().find(|knot| fits(knot))?.0,
            };
            tied(sign, gap, &mut after);
            signs.push(sign);
        }
        keeps(due, &after).then_some(signs)
    }

    fn put_in(&self, row: usize, signs: &[Sign]) -> Mend {
        let text: Vec<&str> = signs.iter().map(|sign| super::words::sign(*sign)).collect();
        let text = text.join(" ");
        let begin = |row: &ChartRow| row.span.whole_lines(&self.source.text).start;
        let indent = |row: &ChartRow| &self.source.text[begin(row).to_usize()..row.span.start.to_usize()];
        // Rows begin further in by turns.
        let like = row.checked_sub(2).or(Some(row + 1)).filter(|&like| like < self.rows.len()).unwrap_or(0);
        let indent = self.rows.get(like).map_or("", |row| indent(row));
        let (at, line) = match self.rows.get(row) {
            Some(next) => (begin(next), format!("{indent}{text}\n")),
            None => {
                let end = self.rows.last().map_or(0, |last| end_of_line(self.source, last.span));
                (end, format!("\n{indent}{text}"))
            }
        };
        let place = Place { file: FileId::CHECKED, span: Span { start: at, end: at } };
        let edits = vec![Edit { place, text: line }];
        Mend::new(format!("put in the row `{text}`: the face shows then"), edits, false)
    }
}

/// Ties a knot; what it shows, if it is one.
fn tied<T: Copy>(sign: Sign, gap: usize, order: &mut [T]) -> Option<T> {
    let shown = match sign {
        Sign::Forward | Sign::ForwardBackward | Sign::Same => gap,
        Sign::Backward | Sign::BackwardForward => gap + 1,
        Sign::Dot | Sign::Hash | Sign::Any | Sign::Letter(_) => return None,
    };
    let shown = order.get(shown).copied().filter(|_| gap + 1 < order.len())?;
    if matches!(sign, Sign::Forward | Sign::Backward | Sign::Same) {
        order.swap(gap, gap + 1);
    }
    Some(shown)
}

fn keeps(due: &[Option<ThreadId>], order: &[ThreadId]) -> bool {
    due.iter().zip(order).all(|(due, thread)| due.is_none_or(|due| due == *thread))
}
