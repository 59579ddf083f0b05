//! Where strands can be joined: between two statements, between two rows of a chart, and between two passes of a `repeat`.

use super::is_first_of_line;
use knotwright_checker::{Event, FileId, Named, Part, PartKind, Pattern, Source, Spot};
use knotwright_grammar::tree::{
    Block, Chart, Expr, LeaderChart, RepeatBlock, RowsChart, SectionBlock, Statement,
};
use knotwright_numbers::ToNumber;
use std::collections::HashMap;

/// A place that is passed once each time that its part is tied, and where all strands can be named.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct JoinSpot {
    /// The part.
    pub part: PartKind,
    /// Where the `{` of the block stands.
    pub block: u32,
    /// Which of its statements.
    pub index: usize,
    /// Where at the statement.
    pub at: SpotAt,
}

/// Where at a statement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SpotAt {
    /// Above it.
    Above,
    /// Above that row of the chart that it is, from 0: the chart is parted there.
    Row(usize),
    /// Before that pass of the `repeat` that it is, from 0: the `repeat` is parted there.
    Pass(u32),
}

/// The strands are looked at where each statement stands, which takes time in proportion to all knots: in a pattern with more
/// statements, no place is looked for.
const MOST_STATEMENTS: usize = 2000;

/// Where strands could be joined, each place with the number of knots of its part that are tied before; part by part, in the
/// order of tying. `None` if that would take too long.
pub fn list_join_spots(pattern: &Pattern) -> Option<Vec<(JoinSpot, u64)>> {
    let source = pattern.sources().next()?;
    let (mut spots, mut statements) = (Vec::new(), 0);
    for statement in &source.parsed.tree.statements {
        let kind = PartKind::of(statement);
        let Some((kind, part)) = kind.and_then(|kind| Some((kind, pattern.part(kind)?))) else { continue };
        let mut blocks = Vec::new();
        statement.node.block().into_iter().for_each(|block| add_with_sections(block, &mut blocks));
        statements += blocks.iter().map(|block| block.statements.len()).sum::<usize>();
        if statements > MOST_STATEMENTS {
            return None;
        }
        let (rows, repeats) = (find_rows(part), find_repeats(part));
        let finding = SpotFinding { pattern, source, kind, rows, repeats };
        blocks.into_iter().for_each(|block| finding.add(block, &mut spots));
    }
    // Of places before one knot, the last is taken: nothing is parted for it.
    spots.sort_by_key(|(spot, knots)| (spot.part, *knots, spot.at == SpotAt::Above));
    Some(spots)
}

/// A block and the sections in it: other blocks are tied more than once, in a mirror, or with fewer strands.
fn add_with_sections<'a>(block: &'a Block, blocks: &mut Vec<&'a Block>) {
    blocks.push(block);
    for statement in &block.statements {
        if let Some(SectionBlock { block, .. }) = statement.get() {
            add_with_sections(block, blocks);
        }
    }
}

/// The rows of the charts of a part: by the byte where a row begins, how many knots come before it when it is tied first,
/// and how often it is tied.
fn find_rows(part: &Part) -> HashMap<u32, (u64, usize)> {
    let mut rows = HashMap::new();
    let is_row = |named| matches!(named, Named::Row | Named::Leader);
    for step in part.steps.iter().filter(|step| step.place.file == FileId::CHECKED && is_row(step.named)) {
        let row = rows.entry(step.place.span.start).or_insert((u64::from(step.knots.start), 0));
        row.1 += 1;
    }
    rows
}

/// A `repeat` that is in no other: its knots, and how many come before each pass.
struct KnownRepeat {
    knots: std::ops::Range<u64>,
    passes: Vec<u64>,
}

fn find_repeats(part: &Part) -> Vec<KnownRepeat> {
    let (mut depth, mut done) = (0_u32, 0);
    let mut found: Vec<KnownRepeat> = Vec::new();
    for event in &part.events {
        match event {
            Event::Repeat(_) => {
                if depth == 0 {
                    found.push(KnownRepeat { knots: done..done, passes: Vec::new() });
                }
                depth += 1;
            }
            Event::Pass if depth == 1 => {
                found.iter_mut().last().into_iter().for_each(|of| of.passes.push(done))
            }
            Event::RepeatEnd => {
                depth = depth.saturating_sub(1);
                if depth == 0 {
                    found.iter_mut().last().into_iter().for_each(|of| of.knots.end = done);
                }
            }
            Event::Step(step) => {
                done = part.steps.get(step.to_usize()).map_or(done, |step| done.max(step.knots.end.into()));
            }
            Event::Pass
            | Event::Section(_)
            | Event::SectionEnd
            | Event::Note(_)
            | Event::Join(_)
            | Event::Order(_) => {}
        }
    }
    found
}

struct SpotFinding<'a> {
    pattern: &'a Pattern,
    source: &'a Source,
    kind: PartKind,
    rows: HashMap<u32, (u64, usize)>,
    repeats: Vec<KnownRepeat>,
}

impl SpotFinding<'_> {
    fn add(&self, block: &Block, spots: &mut Vec<(JoinSpot, u64)>) {
        for (index, statement) in block.statements.iter().enumerate() {
            let spot = |at| JoinSpot { part: self.kind, block: block.open.start, index, at };
            let Some(before) = self.knots_before(block, index) else { continue };
            spots.push((spot(SpotAt::Above), before));
            // What is parted must have lines of its own.
            if !is_first_of_line(&self.source.text, statement.span.start) {
                continue;
            }
            let rows: Option<&RowsChart> = statement.get();
            let leader: Option<&LeaderChart> = statement.get();
            let chart = rows.map(|rows| &rows.chart).or(leader.map(|leader| &leader.chart));
            if let Some(chart) = chart {
                let rows = self.rows_of(chart);
                spots.extend(rows.into_iter().map(|(row, knots)| (spot(SpotAt::Row(row)), knots)));
            }
            if let Some(repeat) = statement.get::<RepeatBlock>() {
                let after = self.knots_before(block, index + 1);
                let passes = after.map(|after| self.passes_of(repeat, before..after)).unwrap_or_default();
                spots.extend(passes.into_iter().map(|(pass, knots)| (spot(SpotAt::Pass(pass)), knots)));
            }
        }
    }

    fn knots_before(&self, block: &Block, index: usize) -> Option<u64> {
        let spot = Spot { file: FileId::CHECKED, block: block.open.start, index };
        let view = self.pattern.look(spot, &[])?;
        (!view.blind && view.part == self.kind).then_some(view.knots)
    }

    /// Above every other row, so that the chart goes on as it began: with the same pairs, with the leader at the same edge.
    fn rows_of(&self, chart: &Chart) -> Vec<(usize, u64)> {
        let (mut found, mut above) = (Vec::new(), 0);
        for (number, row) in chart.rows.iter().enumerate() {
            let Some((knots, times)) = self.rows.get(&row.span.start) else { return found };
            if above > 0 && above % 2 == 0 && is_first_of_line(&self.source.text, row.span.start) {
                found.push((number, *knots));
            }
            above += times;
        }
        found
    }

    /// Before each pass but the first, if they are known.
    fn passes_of(&self, repeat: &RepeatBlock, knots: std::ops::Range<u64>) -> Vec<(u32, u64)> {
        let Expr::Number(times) = &repeat.times else { return Vec::new() };
        let is_it = |known: &&KnownRepeat| {
            known.knots == knots && known.passes.len().to_u64() == u64::from(times.value) && !knots.is_empty()
        };
        let known = self.repeats.iter().find(is_it);
        let passes = known.into_iter().flat_map(|known| (0..).zip(known.passes.iter().copied()));
        passes.skip(1).collect()
    }
}

/// The statement at a spot, and the block that it stands in.
pub(super) fn find_statement(source: &Source, spot: JoinSpot) -> Option<(&Block, &Statement)> {
    let blocks = source.parsed.tree.walk().filter_map(|statement| statement.node.block());
    let block = blocks.into_iter().find(|block| block.open.start == spot.block)?;
    Some((block, block.statements.get(spot.index)?))
}
