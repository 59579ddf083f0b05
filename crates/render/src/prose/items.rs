//! A passage as it is read: headings, remarks, steps, repeats, looks. Still without words.

use super::act::{Act, CountFrom, RowKnot, StrandPlace, describe_act, place_of};
use crate::{Event, JoinedStrand, Passage};
use knotwright_numbers::ToNumber;

/// Something that is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Item {
    Section {
        title: String,
        body: Vec<Self>,
    },
    Note(String),
    Do(Deed),
    Join(JoinItem),
    /// Knots that lie next to each other; rows are numbered from 1.
    Row {
        number: u64,
        knots: Vec<RowKnot>,
    },
    /// What is to be seen of a passage that nothing ties yet: row by row, the threads; `None` is whatever thread.
    Wish(Vec<Vec<Option<u16>>>),
    /// Several passes that are done alike.
    Repeat {
        times: u64,
        body: Vec<Self>,
    },
    /// Several passes that differ.
    Passes(Vec<Vec<Self>>),
    /// By position, the threads; `None` if they are not always the same.
    Look(Option<Vec<u16>>),
}

/// An act, and the threads that are taken for it, one each time it is done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Deed {
    pub(crate) act: Act,
    pub(crate) threads: Vec<u16>,
    /// How often it is done before one goes on to the next.
    pub(crate) times: u64,
}

/// A strand that goes on with a new piece of thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct JoinItem {
    pub(crate) place: StrandPlace,
    /// Its thread before; `None` if it is not always the same.
    pub(crate) before: Option<u16>,
    /// The thread of the new piece, if that is another one.
    pub(crate) thread: Option<u16>,
    /// The only set in which it is joined, from 0.
    pub(crate) set: Option<u64>,
    /// Whether it has a number of its own. Numbers of rows are those of rows alone.
    pub(crate) is_step: bool,
}

impl JoinItem {
    /// A join in a passage of that many strands.
    pub(crate) fn of(join: &JoinedStrand, strands: usize, before: u16, counting: CountFrom) -> Self {
        let &JoinedStrand { at, thread, set } = join;
        Self { place: place_of(at, strands, counting), before: Some(before), thread, set, is_step: true }
    }
}

/// More threads are not remembered for a step that is done again and again.
const MOST_THREADS: usize = 240;

/// Reads passages, and follows how the strands hang.
pub(crate) struct ItemReader {
    pub(crate) counting: CountFrom,
}

impl ItemReader {
    /// The items of a passage that begins with these threads, by position.
    pub(crate) fn items(&self, passage: &Passage, threads: &[u16]) -> Vec<Item> {
        let hang: Vec<u8> = (0..threads.len()).map(|strand| strand.to_u8()).collect();
        let mut reading =
            Reading { counting: self.counting, passage, threads: threads.to_vec(), hang, at: 0 };
        let mut body = reading.block(|_| false);
        let ends_with_look = matches!(body.last(), Some(Item::Section { .. } | Item::Look(_)));
        if !ends_with_look {
            body.push(reading.look());
        }
        tidied(body)
    }
}

struct Reading<'a> {
    counting: CountFrom,
    passage: &'a Passage,
    /// By strand of the passage, its thread now.
    threads: Vec<u16>,
    /// By position, which strand of the passage.
    hang: Vec<u8>,
    /// The next event.
    at: usize,
}

impl Reading<'_> {
    fn thread(&self, strand: u8) -> u16 {
        self.threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX)
    }

    fn look(&self) -> Item {
        Item::Look(Some(self.hang.iter().map(|strand| self.thread(*strand)).collect()))
    }

    /// Items up to the event that ends the block.
    fn block(&mut self, ends: impl Fn(&Event) -> bool) -> Vec<Item> {
        let passage = self.passage;
        let mut body = Vec::new();
        while let Some(event) = passage.events.get(self.at) {
            if ends(event) {
                break;
            }
            self.at += 1;
            match event {
                Event::Section(title) => {
                    let section = self.section(title.clone());
                    body.push(section);
                }
                Event::Note(text) => body.push(Item::Note(text.clone())),
                Event::Step(step) => body.extend(self.step(step.to_usize()).map(Item::Do)),
                Event::Repeat(_) => {
                    let repeat = self.repeat();
                    body.extend(repeat);
                }
                Event::Check => body.push(self.look()),
                Event::Join(join) => body.extend(self.join(join)),
                Event::SectionEnd | Event::Pass | Event::RepeatEnd => {}
            }
        }
        body
    }

    fn join(&mut self, join: &JoinedStrand) -> Option<Item> {
        let strand = *self.hang.get(usize::from(join.at))?;
        let item = JoinItem::of(join, self.hang.len(), self.thread(strand), self.counting);
        if let (Some(thread), Some(at)) = (join.thread, self.threads.get_mut(usize::from(strand))) {
            *at = thread;
        }
        Some(Item::Join(item))
    }

    fn section(&mut self, title: String) -> Item {
        let mut body = self.block(|event| *event == Event::SectionEnd);
        self.at += 1;
        if !matches!(body.last(), Some(Item::Look(_))) {
            body.push(self.look());
        }
        Item::Section { title, body: tidied(body) }
    }

    /// Passes that tie nothing are none: nobody does them.
    fn repeat(&mut self) -> Option<Item> {
        let mut bodies: Vec<Vec<Item>> = Vec::new();
        while self.passage.events.get(self.at) == Some(&Event::Pass) {
            self.at += 1;
            let pass = self.block(|event| matches!(event, Event::Pass | Event::RepeatEnd));
            bodies.push(tidied(pass));
        }
        self.at += 1;
        let times = bodies.iter().filter(|body| !body.is_empty()).count();
        repeat_items(bodies, times.to_u64())
    }

    fn step(&mut self, step: usize) -> Option<Deed> {
        let (act, strand) = describe_act(self.passage, step, self.counting, |strand| self.thread(strand))?;
        if let Act::Thread { .. } = act {
            let thread = self.hang.get(usize::from(strand)).map_or(u16::MAX, |strand| self.thread(*strand));
            return Some(Deed { act, threads: vec![thread], times: 1 });
        }
        let range = self.passage.ranges.get(step)?;
        let knots = self.passage.piece.knots().get(range.start.to_usize()..range.end.to_usize())?;
        for knot in knots.iter().filter(|knot| knot.kind.swaps()) {
            let gap = usize::from(knot.gap);
            if gap + 1 < self.hang.len() {
                self.hang.swap(gap, gap + 1);
            }
        }
        Some(Deed { act, threads: vec![self.thread(strand)], times: 1 })
    }
}

/// Passes as one repeat, if they are done alike.
pub(crate) fn repeat_items(mut bodies: Vec<Vec<Item>>, times: u64) -> Option<Item> {
    bodies.retain(|body| !body.is_empty());
    let mut rest = bodies.iter();
    let mut one = rest.next()?.clone();
    if rest.clone().all(|body| are_alike(&one, body)) {
        rest.for_each(|body| join(&mut one, body));
        let single = match one.as_mut_slice() {
            [Item::Do(deed)] if deed.times == 1 => Some(deed),
            _ => None,
        };
        return Some(match single {
            Some(deed) => {
                deed.times = times;
                Item::Do(deed.clone())
            }
            None => Item::Repeat { times, body: one },
        });
    }
    Some(Item::Passes(bodies))
}

/// Whether two bodies are done alike, whatever the colors.
pub(crate) fn are_alike(one: &[Item], other: &[Item]) -> bool {
    one.len() == other.len()
        && one.iter().zip(other).all(|pair| match pair {
            (Item::Do(one), Item::Do(other)) => one.act == other.act && one.times == other.times,
            (Item::Look(_), Item::Look(_)) => true,
            (Item::Join(one), Item::Join(other)) => JoinItem { before: other.before, ..*one } == *other,
            (Item::Section { title, body }, Item::Section { title: other_title, body: other_body }) => {
                title == other_title && are_alike(body, other_body)
            }
            (Item::Repeat { times, body }, Item::Repeat { times: other_times, body: other_body }) => {
                times == other_times && are_alike(body, other_body)
            }
            (one, other) => one == other,
        })
}

/// Adds the colors of a body that is done like the first.
fn join(one: &mut [Item], more: &[Item]) {
    for pair in one.iter_mut().zip(more) {
        match pair {
            (Item::Do(one), Item::Do(more)) if one.threads.len() < MOST_THREADS => {
                one.threads.extend(&more.threads);
            }
            (Item::Look(one), Item::Look(more)) if one != more => *one = None,
            (Item::Join(one), Item::Join(more)) if one.before != more.before => one.before = None,
            (
                Item::Section { body, .. } | Item::Repeat { body, .. },
                Item::Section { body: more, .. } | Item::Repeat { body: more, .. },
            ) => join(body, more),
            _ => {}
        }
    }
}

/// Takes done again and again in one go become one, and of two looks in a row one is left.
fn tidied(body: Vec<Item>) -> Vec<Item> {
    let mut tidy: Vec<Item> = Vec::with_capacity(body.len());
    for item in body {
        match (tidy.last_mut(), item) {
            (Some(Item::Do(last)), Item::Do(deed)) if last.goes_on_as(&deed) => {
                last.times += deed.times;
                last.threads.extend(deed.threads);
            }
            (Some(Item::Look(last)), Item::Look(look)) => *last = look,
            (Some(Item::Section { .. }), Item::Look(_)) => {}
            (_, item) => tidy.push(item),
        }
    }
    tidy
}

impl Deed {
    fn goes_on_as(&self, next: &Self) -> bool {
        matches!(self.act, Act::Take { .. }) && self.act == next.act && self.threads.len() < MOST_THREADS
    }

    /// The threads that are taken one after another, as long as they are not the same again, and whether there are
    /// more after those.
    pub(crate) fn in_turn(&self) -> (&[u16], bool) {
        let threads = &self.threads;
        let period = (1..=threads.len())
            .find(|period| threads.iter().zip(threads.iter().skip(*period)).all(|(one, other)| one == other));
        let period = period.unwrap_or(threads.len());
        (&threads[..period], period > 1 && threads.len() > period)
    }
}
