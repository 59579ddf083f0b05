//! A passage as it is read: headings, remarks, steps, repeats, looks. Still without words.

use super::act::{Act, CountFrom, RowKnot, describe_act};
use crate::{Event, Passage};
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

/// More threads are not remembered for a step that is done again and again.
const MOST_THREADS: usize = 240;

/// Reads passages, and follows how the strands hang.
pub(crate) struct ItemReader<'a> {
    /// By strand of the band, its thread; where none is known, places are read all the same.
    pub(crate) strands: &'a [u16],
    pub(crate) counting: CountFrom,
}

impl ItemReader<'_> {
    /// The items of a passage that begins with the strands in `order` (by position, which strand of the band).
    pub(crate) fn items(&self, passage: &Passage, order: &[u8]) -> Vec<Item> {
        let hang: Vec<u8> = (0..order.len()).map(|strand| strand.to_u8()).collect();
        let mut reading = Reading { reader: self, passage, begins: order, hang, at: 0 };
        let mut body = reading.block(|_| false);
        let ends_with_look = matches!(body.last(), Some(Item::Section { .. } | Item::Look(_)));
        if !ends_with_look {
            body.push(reading.look());
        }
        tidied(body)
    }
}

struct Reading<'a> {
    reader: &'a ItemReader<'a>,
    passage: &'a Passage,
    /// By position as the passage begins, which strand of the band.
    begins: &'a [u8],
    /// By position, which strand of the passage.
    hang: Vec<u8>,
    /// The next event.
    at: usize,
}

impl Reading<'_> {
    fn thread(&self, strand: u8) -> u16 {
        let of_band = self.begins.get(usize::from(strand)).copied().unwrap_or(u8::MAX);
        self.reader.strands.get(usize::from(of_band)).copied().unwrap_or(u16::MAX)
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
                Event::SectionEnd | Event::Pass | Event::RepeatEnd => {}
            }
        }
        body
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
        let (act, strand) =
            describe_act(self.passage, step, self.reader.counting, |strand| self.thread(strand))?;
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
