//! What the head says, statement by statement.

use super::beads::KnownBeads;
use super::ends::{Beginning, EndReader, cannot_close};
use super::start::{Hung, pair_strands};
use super::{File, Spread, ThreadId, UNKNOWN_THREAD, is_uneven, measures, spread_list, threads};
use crate::facts::Facts;
use crate::{Colorway, Extent, FactKind, FileId, PatternBead, PatternThread, Phrase, Place, StartForm};
use knotwright_band::MOST_STRANDS;
use knotwright_band::ends::{BandEnds, EndWork};
use knotwright_band::thread::Gauge;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    self, Block, Broken, ColorwayBlock, Expr, Length, ListItem, Node, Number, Operator, Start, Statement,
    Strands, Title,
};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

/// Threads times colorways beyond this are not kept.
const MOST_COLORS: usize = 100_000;

/// The head of the checked file.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Head {
    pub(crate) title: Phrase,
    pub(crate) about: Vec<Phrase>,
    pub(crate) authors: Vec<String>,
    pub(crate) license: Option<String>,
    pub(crate) threads: Vec<PatternThread>,
    pub(crate) beads: Vec<PatternBead>,
    pub(crate) colorways: Vec<Colorway>,
    /// By position, which thread hangs there; `None` for a library, or if the head does not say it.
    pub(crate) strands: Option<Vec<ThreadId>>,
    pub(crate) gauge: Gauge,
    pub(crate) extent: Extent,
    pub(crate) ends: Option<f64>,
    pub(crate) start: StartForm,
    /// What is made of the strands at both ends.
    pub(crate) made: BandEnds,
    /// Which statements are opening, set and closing.
    pub(crate) opening: Option<usize>,
    pub(crate) set: Option<usize>,
    pub(crate) closing: Option<usize>,
}

/// Reads the head of `file`, the checked one.
pub(super) fn read_head(
    file: &File,
    threads: Vec<PatternThread>,
    beads: Vec<PatternBead>,
    facts: &mut Facts,
) -> Head {
    let head = Head { threads, beads, ..Head::default() };
    let mut reader = Reader {
        file,
        head,
        seen: HashMap::default(),
        colorways: HashMap::default(),
        facts,
        late: None,
        ends: [None; 2],
    };
    reader.title_first();
    for (index, statement) in file.source.parsed.tree.statements.iter().enumerate() {
        reader.statement(index, statement);
    }
    reader.whole();
    reader.head
}

struct Reader<'a> {
    file: &'a File,
    head: Head,
    /// Where a statement that may stand once stands first.
    seen: HashMap<&'static str, Place>,
    /// Where a colorway of that name stands first.
    colorways: HashMap<&'a str, Place>,
    facts: &'a mut Facts,
    /// `start`, which needs the strands.
    late: Option<(&'a Start, Place)>,
    /// `begin` and `finish`, which need the strands and the start.
    ends: [Option<(&'a Block, Place)>; 2],
}

fn place(span: Span) -> Place {
    Place { file: FileId::CHECKED, span }
}

impl<'a> Reader<'a> {
    fn title_first(&mut self) {
        let statements = &self.file.source.parsed.tree.statements;
        let span = match statements.first() {
            Some(first) if first.is::<Title>() || first.is::<Broken>() => return,
            Some(first) => first.head,
            None if !self.file.source.parsed.problems.is_empty() => return,
            None => Span::default(),
        };
        self.facts.say(place(span), FactKind::NoPattern);
    }

    /// Whether this is the first `name`; if not, that is reported.
    fn once(&mut self, name: &'static str, statement: &Statement) -> bool {
        let here = place(statement.head);
        match self.seen.get(name) {
            Some(&first) => {
                self.facts.say(here, FactKind::Repeated { statement: name, first });
                false
            }
            None => {
                self.seen.insert(name, here);
                true
            }
        }
    }

    fn statement(&mut self, index: usize, statement: &'a Statement) {
        let Node::Head(head) = &statement.node else { return };
        if !head.declaration().is_single || self.once(head.word(), statement) {
            self.head(head, index, statement);
        }
    }

    fn colorway(&mut self, ColorwayBlock { name, block }: &'a ColorwayBlock, statement: &Statement) {
        let here = place(statement.head);
        match self.colorways.get(name.value.as_str()) {
            Some(&first) => self.facts.say(here, FactKind::Repeated { statement: "colorway", first }),
            None => {
                self.colorways.insert(&name.value, here);
            }
        }
        let sizes = self.head.threads.len().saturating_mul(self.head.colorways.len());
        if sizes < MOST_COLORS {
            let colorway = threads::read_colorway(name, block, &self.head.threads, self.facts);
            self.head.colorways.push(colorway);
        }
    }

    /// A statement that may stand where it does.
    fn head(&mut self, head: &'a tree::Head, index: usize, statement: &Statement) {
        match head {
            tree::Head::Pattern(pattern) => self.head.title = Phrase::of(&pattern.title, &pattern.others),
            tree::Head::About(about) => self.head.about.push(Phrase::of(&about.text, &about.others)),
            tree::Head::Author(author) => self.head.authors.push(author.text.value.clone()),
            tree::Head::License(license) => self.head.license = Some(license.text.value.clone()),
            tree::Head::Colorway(colorway) => self.colorway(colorway, statement),
            tree::Head::Strands(strands) => self.strands(strands, place(statement.span)),
            tree::Head::Gauge(gauge) => self.head.gauge = measures::read_gauge(&gauge.block, self.facts),
            tree::Head::Length(length) => self.length(&length.length, statement),
            tree::Head::Sets(sets) => self.sets(sets.count, statement),
            tree::Head::Ends(ends) => {
                self.head.ends = measures::read_length("ends", &ends.length, self.facts)
            }
            tree::Head::Start(start) => self.late = Some((start, place(statement.span))),
            tree::Head::Begin(begin) => self.ends[0] = Some((&begin.block, place(statement.head))),
            tree::Head::Finish(finish) => self.ends[1] = Some((&finish.block, place(statement.head))),
            tree::Head::Opening(_) => self.head.opening = Some(index),
            tree::Head::Set(_) => self.head.set = Some(index),
            tree::Head::Closing(_) => self.head.closing = Some(index),
            // They give names, which are looked up elsewhere.
            tree::Head::Thread(_) | tree::Head::Bead(_) | tree::Head::Use(_) | tree::Head::Motif(_) => {}
        }
    }

    fn only_extent(&mut self, other: &'static str, statement: &Statement) -> bool {
        let first = self.seen.get(other).copied();
        if let Some(first) = first {
            self.facts.say(place(statement.head), FactKind::LengthAndSets { first });
        }
        first.is_none()
    }

    fn length(&mut self, length: &Length, statement: &Statement) {
        if !self.only_extent("sets", statement) {
            return;
        }
        if let Some(length) = measures::read_length("length", length, self.facts) {
            self.head.extent = Extent::Length(length);
        }
    }

    fn sets(&mut self, number: Number, statement: &Statement) {
        if !self.only_extent("length", statement) {
            return;
        }
        if number.value == 0 {
            self.facts.say(place(number.span), FactKind::ZeroMeasure { what: "sets" });
        } else {
            self.head.extent = Extent::Sets(number.value);
        }
    }

    fn strands(&mut self, strands: &Strands, place: Place) {
        let list = match strands {
            Strands::Across(list) => spread_list(&list.shape, |item| self.item(item)),
            Strands::FromEdges { left, right } => self.edges_inward(left, right),
        };
        let Ok(list) = list else { return };
        if let Some((left, right)) = is_uneven(&list) {
            let edges = matches!(strands, Strands::FromEdges { .. });
            // Laid out from the edges, an odd strand in the middle belongs to either half.
            if !edges || left.abs_diff(right) > 1 {
                // Who hangs where is not known then: of what is tied with them nothing can be said.
                return self.facts.say(place, FactKind::UnequalHalves { left, right });
            }
        }
        match list.count() {
            count if count > MOST_STRANDS.to_u64() => {
                self.facts.say(place, FactKind::TooManyStrands { count });
            }
            count if count < 2 => {
                self.facts.say(place, FactKind::TooFewStrands { count: count.to_usize() });
            }
            _ => self.head.strands = Some(list.strands()),
        }
    }

    /// The right half is written from its edge inward.
    fn edges_inward(&mut self, left: &[ListItem], right: &[ListItem]) -> Result<Spread<ThreadId>, Unknown> {
        let left = left.iter().map(|item| self.item(item)).collect::<Result<Vec<_>, _>>()?;
        let right = right.iter().rev().map(|item| self.item(item)).collect::<Result<Vec<_>, _>>()?;
        Ok(Spread::Halves(left, right))
    }

    /// An item of the strands. A name that is not there stands for any thread; the check of all names reports it.
    fn item(&mut self, item: &ListItem) -> Result<(u64, ThreadId), Unknown> {
        let thread = self.file.threads.get(&item.thread.text).copied().unwrap_or(UNKNOWN_THREAD);
        let Some(count) = &item.count else { return Ok((1, thread)) };
        let value = constant(count).ok_or(Unknown)?;
        if value > 1_000_000_000 {
            self.facts.say(place(count.span()), FactKind::NumberTooLarge);
            return Err(Unknown);
        }
        match value {
            0 => self.facts.say(place(count.span()), FactKind::CountOfZero),
            value if value < 0 => self.facts.say(place(count.span()), FactKind::NegativeCount { value }),
            _ => {}
        }
        Ok((u64::try_from(value).unwrap_or(0), thread))
    }

    /// What only the whole head can show.
    fn whole(&mut self) {
        if let (Some((form, place)), Some(strands)) = (self.late, &self.head.strands) {
            let loop_length = match form {
                Start::Loop(length, _) => {
                    measures::read_length("loop", length, self.facts).unwrap_or_default()
                }
                _ => 0.0,
            };
            let names = |thread: ThreadId| {
                self.head
                    .threads
                    .get(usize::from(thread))
                    .map(|thread| thread.name.clone())
                    .unwrap_or_default()
            };
            self.head.start =
                pair_strands(form, loop_length, &Hung { strands, names: &names }, place, self.facts);
        }
        self.beginning_and_end();
        self.something_to_tie();
    }

    /// What is made at both ends, and whether they say it in one place.
    fn beginning_and_end(&mut self) {
        let [begin, finish] = self.ends;
        if let (Some((Start::Loop(..), start)), Some((_, begin))) = (self.late, begin) {
            self.facts.say(start, FactKind::LoopBesideBegin { begin });
        }
        if let (Some(&ends), Some((_, begin)), Some((_, finish))) = (self.seen.get("ends"), begin, finish) {
            self.facts.say(ends, FactKind::EndsBesideBlocks { begin, finish });
        }
        self.head.made.begin = begin.map(|(block, place)| self.read_end(block, place, true));
        self.head.made.finish = finish.map(|(block, place)| self.read_end(block, place, false));
        let (Some(made), Some((_, place))) = (&self.head.made.finish, finish) else { return };
        let begin = match (&self.head.made.begin, self.late) {
            (Some(works), _) => Beginning::Works(works),
            (None, Some((Start::Folded(_), _))) => Beginning::Fold,
            (None, Some((Start::Loop(..), _))) => Beginning::Loop,
            (None, Some((Start::Loose, _)) | None) => Beginning::Ends,
        };
        if let Some(trouble) = cannot_close(made, &begin) {
            self.facts.say(place, FactKind::Ends(trouble));
        }
    }

    fn read_end(&mut self, block: &Block, place: Place, is_begin: bool) -> Vec<EndWork> {
        let is_folded = is_begin && self.late.is_some_and(|(start, _)| *start != Start::Loose);
        let pairs: &[(u8, u8)] = match &self.head.start {
            StartForm::Folded(pairs) | StartForm::Loop(_, pairs) if is_folded => pairs,
            StartForm::Folded(_) | StartForm::Loop(..) | StartForm::Loose => &[],
        };
        let strands = self.head.strands.as_ref();
        let first_thread = strands.and_then(|strands| strands.first().copied()).unwrap_or(UNKNOWN_THREAD);
        let strands = strands.map(Vec::len);
        let (file, facts) = (self.file, &mut *self.facts);
        let beads = KnownBeads { beads: &self.head.beads, thickness: self.head.gauge.thickness };
        EndReader { file, is_begin, strands, pairs, is_folded, first_thread, beads, facts }.read(block, place)
    }

    fn something_to_tie(&mut self) {
        let statements = &self.file.source.parsed.tree.statements;
        if statements.iter().any(|statement| statement.is::<Broken>()) {
            return;
        }
        let tied = ["opening", "set", "closing"].iter().find_map(|part| self.seen.get(part)).copied();
        match (self.seen.get("strands").copied(), tied) {
            (None, Some(part)) => self.facts.say(part, FactKind::NoStrands),
            (Some(strands), None) => self.facts.say(strands, FactKind::NothingTied),
            _ => {}
        }
        if let (Some(&length), None, Some(_)) = (self.seen.get("length"), self.head.set, tied) {
            self.facts.say(length, FactKind::ZeroMeasure { what: "length without a set" });
        }
    }
}

/// A list that cannot be laid out; the reason has been reported.
#[derive(Debug)]
struct Unknown;

/// A number without names in it.
fn constant(expr: &Expr) -> Option<i64> {
    match expr {
        Expr::Number(number) => Some(i64::from(number.value)),
        Expr::Name(_) => None,
        Expr::Group(group) => constant(&group.inner),
        Expr::Operation(operation) => {
            let (left, right) = (constant(&operation.left)?, constant(&operation.right)?);
            match operation.operator {
                Operator::Plus => left.checked_add(right),
                Operator::Minus => left.checked_sub(right),
                Operator::Times => left.checked_mul(right),
            }
        }
    }
}
