//! Lines that tie nothing: beads and joins. Each has its place among the knots of its strands, and keeps it among new
//! statements, in whichever order these tie the knots.

use crate::headings::outermost;
use crate::steps::write_place;
use knotwright_band::Piece;
use knotwright_checker::{Event, Named, Part, Pattern, Place};
use knotwright_grammar::tree;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// A bead that is threaded, or a strand that is joined.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct IdleLine {
    /// Its strands, by where they hang as the part begins, each with the number of its knots before.
    pub strands: Vec<(u8, u32)>,
    /// What it says.
    pub says: IdleSays,
    /// The knots of the outermost section that it is in.
    pub section: Option<Range<u32>>,
    /// Where it is written.
    pub place: Place,
    /// Of a join, the thread before.
    pub before: Option<u16>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum IdleSays {
    /// By number of the bead.
    Bead(u16),
    Join {
        thread: Option<u16>,
        set: Option<u64>,
    },
}

/// A line that has no place among the new statements.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoPlace {
    /// The line of the file, from 1; `None` if it is in another file.
    pub line: Option<usize>,
    /// Whether it threads a bead.
    pub is_bead: bool,
}

/// The lines of a part, in the order in which they come.
pub(crate) fn find_idle_lines(part: &Part) -> Vec<IdleLine> {
    let joins = part.piece.joins();
    let is_bead = |step: &u32| matches!(part.steps[step.to_usize()].named, Named::Bead { .. });
    let beads = (0..part.steps.len().to_u32()).filter(is_bead);
    if joins.is_empty() && beads.clone().next().is_none() {
        return Vec::new();
    }
    let mut found: Vec<(Event, Option<Range<u32>>)> = Vec::new();
    let sections = outermost(part);
    let mut section = sections.iter().peekable();
    for (number, event) in part.events.iter().enumerate() {
        while section.next_if(|section| section.events.end <= number).is_some() {}
        let is_idle = matches!(event, Event::Join(_)) || matches!(event, Event::Step(step) if is_bead(step));
        if is_idle {
            let around = section.peek().filter(|section| section.events.contains(&number));
            found.push((event.clone(), around.map(|section| section.heading.knots.clone())));
        }
    }
    // Events are kept up to a limit; beads and joins all are.
    let known = |which: fn(&Event) -> bool| found.iter().filter(|(event, _)| which(event)).count();
    let (beads_known, joins_known) =
        (known(|event| matches!(event, Event::Step(_))), known(|event| matches!(event, Event::Join(_))));
    let mut rest: Vec<Event> = beads.skip(beads_known).map(Event::Step).collect();
    rest.extend((joins_known..joins.len()).map(|join| Event::Join(join.to_u32())));
    rest.sort_by_key(|event| knots_before(part, event));
    found.extend(rest.into_iter().map(|event| (event, None)));
    let mut walk = Walk::new(&part.piece);
    found.into_iter().filter_map(|(event, section)| line_of(part, &event, section, &mut walk)).collect()
}

fn knots_before(part: &Part, event: &Event) -> u32 {
    match event {
        Event::Join(join) => part.piece.joins()[join.to_usize()].knot,
        Event::Step(step) => part.steps[step.to_usize()].knots.start,
        _ => 0,
    }
}

fn line_of(part: &Part, event: &Event, section: Option<Range<u32>>, walk: &mut Walk) -> Option<IdleLine> {
    walk.go_to(knots_before(part, event));
    match event {
        Event::Join(number) => {
            let join = part.piece.joins().get(number.to_usize())?;
            let joined = part.joins.get(number.to_usize())?;
            let says = IdleSays::Join { thread: join.thread, set: join.set };
            let strands = vec![(join.strand, walk.counts[usize::from(join.strand)])];
            Some(IdleLine { strands, says, section, place: joined.place, before: Some(joined.before) })
        }
        Event::Step(number) => {
            let step = part.steps.get(number.to_usize())?;
            let Named::Bead { bead, strands } = step.named else { return None };
            let at = usize::from(step.from)..usize::from(step.from) + usize::from(strands);
            let strands =
                walk.order.get(at)?.iter().map(|&strand| (strand, walk.counts[usize::from(strand)]));
            Some(IdleLine {
                strands: strands.collect(),
                says: IdleSays::Bead(bead),
                section,
                place: step.place,
                before: None,
            })
        }
        _ => None,
    }
}

/// How the strands hang before some knot, and how many knots each has then.
struct Walk<'a> {
    piece: &'a Piece,
    next: usize,
    order: Vec<u8>,
    counts: Vec<u32>,
}

impl<'a> Walk<'a> {
    fn new(piece: &'a Piece) -> Self {
        let strands = piece.strands();
        Self { piece, next: 0, order: (0..strands).map(|at| at.to_u8()).collect(), counts: vec![0; strands] }
    }

    fn go_to(&mut self, knot: u32) {
        while self.next < knot.to_usize() {
            let Some(knot) = self.piece.knots().get(self.next) else { return };
            if knot.kind.swaps() {
                self.order.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
            }
            for strand in [knot.working, knot.base] {
                self.counts[usize::from(strand)] += 1;
            }
            self.next += 1;
        }
    }
}

/// When the knots of a piece are tied: by strand, the moments of its knots; and the moment after all.
pub(crate) struct Moments {
    of_strand: Vec<Vec<u32>>,
    end: u32,
}

impl Moments {
    /// `moment`: by knot in the order of the piece, when it is tied. It grows from knot to knot of one strand.
    pub(crate) fn new(piece: &Piece, moment: impl Fn(usize) -> u32, end: u32) -> Self {
        let mut of_strand = vec![Vec::new(); piece.strands()];
        for (number, knot) in piece.knots().iter().enumerate() {
            for strand in [knot.working, knot.base] {
                of_strand[usize::from(strand)].push(moment(number));
            }
        }
        Self { of_strand, end }
    }

    /// From when until when a line can stand: the earliest and the latest moment, at which the knots before are tied.
    fn room(&self, line: &IdleLine) -> Option<(u32, u32)> {
        let (mut first, mut last) = (0, self.end);
        for &(strand, before) in &line.strands {
            let knots = &self.of_strand[usize::from(strand)];
            if let Some(previous) = before.checked_sub(1) {
                first = first.max(*knots.get(previous.to_usize())? + 1);
            }
            last = last.min(knots.get(before.to_usize()).copied().unwrap_or(self.end));
        }
        Some((first, last))
    }

    /// By line, the moment at which it stands. `choose` takes one from the earliest to the latest that is possible.
    /// Lines about one strand keep their order.
    ///
    /// # Errors
    /// The line, by number, that has no place.
    pub(crate) fn places(
        &self,
        lines: &[IdleLine],
        mut choose: impl FnMut(&IdleLine, u32, u32) -> u32,
    ) -> Result<Vec<u32>, usize> {
        let mut rooms = Vec::with_capacity(lines.len());
        let mut least = vec![0; self.of_strand.len()];
        for (number, line) in lines.iter().enumerate() {
            let (first, last) = self.room(line).ok_or(number)?;
            let above = line.strands.iter().map(|(strand, _)| least[usize::from(*strand)]).max();
            let first = first.max(above.unwrap_or(0));
            if first > last {
                return Err(number);
            }
            line.strands.iter().for_each(|(strand, _)| least[usize::from(*strand)] = first);
            rooms.push((first, last));
        }
        let mut most = vec![self.end; self.of_strand.len()];
        let mut places = vec![0; lines.len()];
        for (number, line) in lines.iter().enumerate().rev() {
            let (first, last) = rooms[number];
            let below = line.strands.iter().map(|(strand, _)| most[usize::from(*strand)]).min();
            places[number] = choose(line, first, last.min(below.unwrap_or(last)));
            line.strands.iter().for_each(|(strand, _)| most[usize::from(*strand)] = places[number]);
        }
        Ok(places)
    }
}

/// The lines as text, at their moments; `piece`: its knots in the order of their moments, `moment`: by knot.
///
/// # Errors
/// The line, by number, whose strands do not hang side by side there.
pub(crate) fn write_idle(
    pattern: &Pattern,
    piece: &Piece,
    lines: &[IdleLine],
    knots_before: &[u32],
) -> Result<Vec<String>, usize> {
    let mut by_moment: Vec<usize> = (0..lines.len()).collect();
    by_moment.sort_by_key(|&line| knots_before[line]);
    let mut walk = Walk::new(piece);
    let mut texts = vec![String::new(); lines.len()];
    for number in by_moment {
        walk.go_to(knots_before[number]);
        texts[number] = write_line(pattern, &lines[number], &walk).ok_or(number)?;
    }
    Ok(texts)
}

fn write_line(pattern: &Pattern, line: &IdleLine, walk: &Walk) -> Option<String> {
    let position = |(strand, _): &(u8, u32)| walk.order.iter().position(|other| other == strand);
    let mut positions: Vec<usize> = line.strands.iter().map(position).collect::<Option<_>>()?;
    positions.sort_unstable();
    if positions.windows(2).any(|pair| pair[0] + 1 != pair[1]) {
        return None;
    }
    let named: Vec<String> =
        positions.iter().map(|&position| write_place(position, walk.order.len())).collect();
    Some(match line.says {
        IdleSays::Bead(bead) => {
            format!("bead {} on {}", pattern.beads.get(usize::from(bead))?.look.name, named.join(", "))
        }
        IdleSays::Join { thread, set } => {
            let with = thread
                .or_else(|| said_thread(pattern, line))
                .map(|thread| &pattern.threads[usize::from(thread)]);
            let with = with.map(|thread| format!(" with {}", thread.name)).unwrap_or_default();
            let set = set.map(|set| format!(" in set {}", set + 1)).unwrap_or_default();
            format!("join {}{with}{set}", named.concat())
        }
    })
}

/// The thread of a join that goes on with the one that the strand is already, if the line says so: in a later set the
/// strand may be another.
fn said_thread(pattern: &Pattern, line: &IdleLine) -> Option<u16> {
    let source = pattern.sources().nth(line.place.file.0.to_usize())?;
    let mut statements = source.parsed.tree.walk().filter(|statement| statement.span == line.place.span);
    let join: &tree::Join = statements.find_map(|statement| statement.get())?;
    join.thread.as_ref()?;
    line.before
}

/// What the lines of a part say, in a form that does not depend on the order in which knots are tied.
pub(crate) fn idle_marks(part: &Part) -> Vec<(Vec<(u8, u32)>, IdleSays)> {
    let mark = |line: IdleLine| {
        let mut strands = line.strands;
        strands.sort_unstable();
        (strands, line.says)
    };
    let mut marks: Vec<_> = find_idle_lines(part).into_iter().map(mark).collect();
    marks.sort_unstable();
    marks
}
