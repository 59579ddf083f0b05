//! How the author writes elsewhere in the file. Of two mends that are equally good, the one is likelier after which a step is
//! like other steps, and a mark like its neighbors and its counterpart in the mirror.

use super::candidates::{Candidate, What};
use super::words::write_candidate;
use crate::reflection::{compare_halves, in_mirror};
use crate::resolve::Script;
use crate::tie::{Change, RowEdit};
use knotwright_grammar::tree::{BothBlock, Chart, ChartRow, LeaderChart, RowsChart, Sign, Statement};
use knotwright_grammar::{Span, apply_edits};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxHashMap as HashMap, FxHasher};
use std::hash::{Hash, Hasher};

/// How often each way to write a step is found in a file.
#[derive(Debug)]
pub(super) struct Habits<'s> {
    script: &'s Script,
    ways: HashMap<u64, usize>,
    /// By the byte where it starts, each statement; whether it stands in `both`.
    statements: HashMap<u32, (&'s Statement, bool)>,
}

/// How well one way to write something fits in.
type Fit = i32;

impl<'s> Habits<'s> {
    pub(super) fn of(script: &'s Script) -> Self {
        let mut habits = Self { script, ways: HashMap::default(), statements: HashMap::default() };
        for statement in &script.source().parsed.tree.statements {
            habits.add(statement, false);
        }
        habits.count_ways();
        habits
    }

    /// What is written again and again is taken apart once.
    fn count_ways(&mut self) {
        let mut times: HashMap<(&str, bool), usize> = HashMap::default();
        for (statement, is_in_both) in self.statements.values() {
            *times.entry((self.written(statement.head), *is_in_both)).or_default() += 1;
        }
        for ((written, is_in_both), times) in times {
            for (way, _) in ways(written, is_in_both) {
                *self.ways.entry(way).or_default() += times;
            }
        }
    }

    fn add(&mut self, statement: &'s Statement, is_in_both: bool) {
        if statement.is_step() {
            self.statements.insert(statement.span.start, (statement, is_in_both));
        }
        let is_in_both = is_in_both || statement.is::<BothBlock>();
        statement
            .node
            .block()
            .into_iter()
            .flat_map(|block| &block.statements)
            .for_each(|inner| self.add(inner, is_in_both));
    }

    fn written(&self, span: Span) -> &'s str {
        span.of(&self.script.source().text)
    }

    /// How much better a step or a mark fits in with an edit than without; what is no edit of a word fits as before.
    pub(super) fn gain(&self, candidate: &Candidate) -> Fit {
        match candidate.what {
            What::Mark { written, read } => self.gain_of_mark(candidate, written, read),
            What::Rows => self.gain_of_row(candidate).unwrap_or(0),
            What::Statement { .. } => 0,
            What::Number { .. }
            | What::Kind { .. }
            | What::Side(_)
            | What::SideBefore(_)
            | What::Thread(_) => self.gain_of_step(candidate).unwrap_or(0),
        }
    }

    fn gain_of_step(&self, candidate: &Candidate) -> Option<Fit> {
        let &(statement, is_in_both) = self.statements.get(&candidate.statement)?;
        let (head, written) = (statement.head, self.written(statement.head));
        let edits = write_candidate(self.script, candidate).edits;
        let own = |span: Span| Span { start: span.start - head.start, end: span.end - head.start };
        let is_inside = edits.iter().all(|(span, _)| head.start <= span.start && span.end <= head.end);
        let moved = edits.iter().map(|(span, text)| (own(*span), text.as_str()));
        let edited = is_inside.then(|| apply_edits(written, moved)).flatten()?;
        Some(self.fit(&edited, is_in_both, 0) - self.fit(written, is_in_both, 1))
    }

    /// `own`: how often it is found because it is written so itself.
    fn fit(&self, written: &str, is_in_both: bool, own: usize) -> Fit {
        let others = |way: u64| self.ways.get(&way).map_or(0, |count| count - own);
        let found = ways(written, is_in_both).map(|(way, weight)| (others(way), weight));
        // Whether there are others says more than how many.
        let fit =
            found.map(|(others, weight)| weight * (MOST_OTHERS * i32::from(others > 0) + capped(others)));
        // In `both` the left half is written, mostly.
        let is_right = is_in_both && written.split(':').next().is_some_and(|strand| strand.contains("right"));
        fit.sum::<Fit>() - MOST_OTHERS * Fit::from(is_right)
    }

    /// Charts that stand beside one another, such as letters, mostly have as many rows, and often the same ones.
    fn gain_of_row(&self, candidate: &Candidate) -> Option<Fit> {
        let Change::Row(edit) = candidate.overlay.change else { return None };
        let charts = || self.script.source().parsed.tree.walk().filter_map(chart_of);
        let at = candidate.overlay.place.span;
        let (own, row) =
            charts().find_map(|chart| Some((chart, chart.rows.iter().position(|row| row.span == at)?)))?;
        let (more, put_in) = match edit {
            RowEdit::LeftOut => (-1, None),
            RowEdit::Before(copied) => (1, Some((row, copied))),
            RowEdit::After(copied) => (1, Some((row + 1, copied))),
            RowEdit::Swapped | RowEdit::MarkPutIn(..) | RowEdit::MarkLeftOut(_) => return None,
        };
        let signs = |row: &ChartRow| row.marks.iter().map(|mark| mark.sign).collect::<Vec<Sign>>();
        let is_like = |other: &&Chart| {
            other.open != own.open
                && other.rows.first().map(|row| row.marks.len())
                    == own.rows.first().map(|row| row.marks.len())
        };
        let others: Vec<&Chart> = charts().filter(is_like).take(MOST_CHARTS).collect();
        let as_long = |by: i64| {
            others.iter().filter(|other| other.rows.len().to_i64() == own.rows.len().to_i64() + by).count()
        };
        let copied = put_in.and_then(|(at, copied)| Some((at, signs(own.rows.get(usize::from(copied))?))));
        let has_it = |other: &&&Chart| {
            copied.as_ref().is_some_and(|(at, row)| other.rows.get(*at).map(signs).as_ref() == Some(row))
        };
        let alike = others.iter().filter(has_it).count();
        // Longer or shorter still than all others.
        let is_farther = |other: &&Chart| {
            let by = other.rows.len().to_i64() - own.rows.len().to_i64();
            by.signum() * more < 0
        };
        let is_away = as_long(more) == 0 && !others.is_empty() && others.iter().all(is_farther);
        let gain = capped(as_long(more)) - capped(as_long(0)) - Fit::from(is_away);
        Some(MOST_OTHERS * gain + capped(alike).min(MOST_OTHERS - 1))
    }

    fn gain_of_mark(&self, candidate: &Candidate, written: Sign, read: Sign) -> Fit {
        let charts = self.script.source().parsed.tree.walk().filter_map(chart_of);
        let at = candidate.overlay.place.span.start;
        let spot = charts.into_iter().find_map(|chart| MarkSpot::at(chart, at));
        spot.map_or(0, |spot| spot.fit(read) - spot.fit(written))
    }
}

/// The most charts that are compared with one.
const MOST_CHARTS: usize = 40;

/// More than that many others say nothing more.
pub(super) const MOST_OTHERS: i32 = 8;

fn capped(others: usize) -> i32 {
    MOST_OTHERS.min(others.to_i32())
}

/// In which ways a step is written, each by its hash, and how much it says if another one is written the same way.
fn ways(written: &str, is_in_both: bool) -> impl Iterator<Item = (u64, Fit)> {
    let (strand, runs) = written.split_once(':').unwrap_or((written, ""));
    let named = strand.split('(').next().unwrap_or(strand);
    let kind = words(runs).next();
    let side = words(named).find(|word| matches!(*word, "left" | "right")).filter(|_| is_in_both);
    let promised = Words::default().and(strand);
    let any = if named.len() == strand.len() { promised.clone() } else { Words::default().and(named) };
    let kinds = kind.map(|kind| [promised.clone(), any].map(|words| words.and(kind).as_written));
    let whole = promised.and(runs);
    let all = [
        (Some(way("as it is", &whole.as_written)), 2),
        (Some(way("on either side", &whole.on_either_side)), 1),
        (kinds.as_ref().map(|[promised, _]| way("with this promise", promised)), 1),
        (kinds.as_ref().map(|[_, any]| way("with any promise", any)), 1),
        // In `both` the one side is written, and mostly it is always the same one.
        (side.map(|side| way("both", &Words::default().and(side).as_written)), 2),
    ];
    all.into_iter().filter_map(|(way, fit)| Some((way?, fit)))
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split_ascii_whitespace()
}

/// The words of several texts, one after the other.
#[derive(Clone, Default)]
struct Words {
    as_written: FxHasher,
    /// Whichever side they name.
    on_either_side: FxHasher,
}

impl Words {
    fn and(mut self, text: &str) -> Self {
        for word in words(text) {
            word.hash(&mut self.as_written);
            if word == "right" { "left" } else { word }.hash(&mut self.on_either_side);
        }
        // Where a text ends.
        "".hash(&mut self.as_written);
        "".hash(&mut self.on_either_side);
        self
    }
}

fn way(name: &str, words: &FxHasher) -> u64 {
    let mut hasher = words.clone();
    name.hash(&mut hasher);
    hasher.finish()
}

fn chart_of(statement: &Statement) -> Option<&Chart> {
    let rows = statement.get::<RowsChart>().map(|rows| &rows.chart);
    rows.or_else(|| statement.get::<LeaderChart>().map(|leader| &leader.chart))
}

/// A mark of a chart.
struct MarkSpot<'a> {
    chart: &'a Chart,
    row: usize,
    mark: usize,
}

impl<'a> MarkSpot<'a> {
    /// The one that stands there.
    fn at(chart: &'a Chart, at: u32) -> Option<Self> {
        let row = chart.rows.iter().position(|row| row.span.start <= at && at < row.span.end)?;
        let mark = chart.rows[row].marks.iter().position(|mark| mark.offset == at)?;
        Some(Self { chart, row, mark })
    }

    fn sign(&self, row: Option<usize>, mark: Option<usize>) -> Option<Sign> {
        Some(self.chart.rows.get(row?)?.marks.get(mark?)?.sign)
    }

    /// How well a sign would fit there: with its counterpart in the mirror, its neighbors, and those two rows above and
    /// below.
    fn fit(&self, sign: Sign) -> Fit {
        let (row, mark) = (self.row, self.mark);
        let marks = &self.chart.rows[row].marks;
        let counterpart = marks.len() - 1 - mark;
        let opposite = if counterpart == mark { sign } else { marks[counterpart].sign };
        let halves = compare_halves(self.chart);
        let is_even = halves.alike > 2 * halves.differing.len();
        let beside = [mark.checked_sub(1), Some(mark + 1)].map(|mark| self.sign(Some(row), mark));
        let around = [row.checked_sub(2), Some(row + 2)].map(|row| self.sign(row, Some(mark)));
        let like = |others: [Option<Sign>; 2]| {
            others.into_iter().map(|other| Fit::from(other == Some(sign))).sum::<Fit>()
        };
        3 * Fit::from(is_even && in_mirror(opposite) == sign) + 2 * like(beside) + like(around)
    }
}
