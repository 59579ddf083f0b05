//! Acts in words.

use super::act::{Act, CountFrom, RowKnot, RunEnd, StrandPlace};
use super::end_hows::EndHow;
use super::items::{Deed, JoinItem};
use super::words::{Words, fill_in};
use crate::TyingScript;
use knotwright_band::Kind;
use knotwright_band::thread::JOIN_OVER;
use knotwright_numbers::ToNumber;

/// Puts what is done with a band into words.
pub(crate) struct Teller<'a> {
    pub(crate) script: &'a TyingScript,
    pub(crate) words: &'static Words,
    pub(crate) counting: CountFrom,
    /// Whether it is told of the band in a mirror: what a plait begins at the left begins at the right.
    pub(crate) is_image: bool,
}

impl Teller<'_> {
    /// A number where it is in a sentence.
    pub(crate) fn number(&self, count: u64) -> String {
        (self.words.number)(count)
    }

    /// How a piece of an end is made.
    pub(crate) fn explain(&self, how: EndHow) -> &'static str {
        self.words.ends.hows.get(how.number().to_usize()).copied().unwrap_or_default()
    }

    /// A deed as a sentence.
    pub(crate) fn deed(&self, deed: &Deed) -> String {
        let color = self.colors(deed);
        let words = self.words;
        match &deed.act {
            Act::Take { place, runs, end } => {
                let (count, runs) = (self.number(deed.times), self.runs(runs, *end));
                let values = [
                    ("count", count.as_str()),
                    ("Times", &capitalize(&(words.times)(deed.times))),
                    ("digits", &deed.times.to_string()),
                    ("strand", &self.place(*place)),
                    ("color", &color),
                    ("runs", &runs),
                    ("Runs", &capitalize(&runs)),
                ];
                fill_in(words.take_times.of(deed.times), &values)
            }
            Act::Meet { place: None } => fill_in(words.meet_middle, &[("color", &color)]),
            Act::Meet { place: Some(place) } => {
                fill_in(words.meet, &[("strand", &self.place(*place)), ("color", &color)])
            }
            Act::Row(knots) => fill_in(words.row, &[("groups", &self.groups(knots))]),
            Act::Thread { bead, places } => {
                let bead = self.bead(*bead);
                let strands: Vec<String> = places.iter().map(|place| self.place(*place)).collect();
                let values = [("bead", bead), ("color", &color), ("strand", &words.list(&strands))];
                fill_in(words.beads.thread.of(strands.len().to_u64()), &values)
            }
            Act::Lead { rightward, runs } => {
                let sentence = if *rightward { words.leader_right } else { words.leader_left };
                let runs = self.leading(*rightward, runs);
                fill_in(sentence, &[("color", &color), ("runs", &runs), ("Runs", &capitalize(&runs))])
            }
        }
    }

    /// What people call a bead.
    pub(crate) fn bead(&self, bead: u16) -> &str {
        self.script.beads.get(usize::from(bead)).map_or("?", |bead| bead.name.as_str())
    }

    /// A join as a sentence.
    pub(crate) fn join(&self, join: &JoinItem) -> String {
        let words = &self.words.join;
        let over = self.words.length(&self.script.unit.finished(JOIN_OVER));
        let was = join.before.map(|thread| format!(" ({})", self.script.name(thread))).unwrap_or_default();
        let color = join.thread.map_or("", |thread| self.script.name(thread));
        let strand = self.place(join.place);
        let values = [("strand", strand.as_str()), ("was", &was), ("color", color), ("over", &over)];
        let text = fill_in(if join.thread.is_some() { words.other } else { words.same }, &values);
        match join.set {
            Some(set) => fill_in(words.in_set, &[("number", &(set + 1).to_string()), ("text", &text)]),
            None => text,
        }
    }

    /// The thread of a deed, or its threads in turn.
    fn colors(&self, deed: &Deed) -> String {
        let (threads, again) = deed.in_turn();
        if let [thread] = threads {
            return self.script.name(*thread).to_owned();
        }
        let colors = self.counted(threads);
        let text = if again { self.words.in_turn_again } else { self.words.in_turn };
        fill_in(text, &[("colors", &colors)])
    }

    /// `2 night, wing, 3 night`
    pub(crate) fn counted(&self, threads: &[u16]) -> String {
        count_names(threads.iter().map(|thread| self.script.name(*thread)))
    }

    /// A row of what nothing ties yet; `None` is whatever thread.
    pub(crate) fn wished_row(&self, number: u64, row: &[Option<u16>]) -> String {
        let name =
            |thread: &Option<u16>| thread.map_or(self.words.any_color, |thread| self.script.name(thread));
        let colors = match self.counting {
            CountFrom::AsWritten => count_names(row.iter().map(name)),
            CountFrom::FromRight => count_names(row.iter().rev().map(name)),
        };
        fill_in(self.words.wish_row, &[("number", &number.to_string()), ("colors", &colors)])
    }

    /// The strands as they hang, from the side that places are counted from.
    pub(crate) fn hanging(&self, threads: &[u16]) -> String {
        match self.counting {
            CountFrom::AsWritten => self.counted(threads),
            CountFrom::FromRight => self.counted(&threads.iter().rev().copied().collect::<Vec<_>>()),
        }
    }

    pub(crate) fn place(&self, place: StrandPlace) -> String {
        match place {
            StrandPlace::FromLeft(at) => (self.words.from_left)(u64::from(at) + 1),
            StrandPlace::FromRight(at) => (self.words.from_right)(u64::from(at) + 1),
        }
    }

    fn runs(&self, runs: &[(Kind, u32)], end: Option<RunEnd>) -> String {
        let words = self.words;
        let phrases: Vec<String> =
            runs.iter().map(|(kind, count)| self.run(*kind, u64::from(*count))).collect();
        let end = match end {
            None => "",
            Some(RunEnd::LeftEdge) => words.to_left_edge,
            Some(RunEnd::RightEdge) => words.to_right_edge,
            Some(RunEnd::Middle) => words.to_middle,
        };
        phrases.join(words.then) + end
    }

    fn run(&self, kind: Kind, count: u64) -> String {
        let words = self.words;
        let where_to = match kind {
            Kind::Forward => words.on_next_right.of(count),
            Kind::Backward => words.on_next_left.of(count),
            Kind::ForwardBackward => words.on_neighbor_right,
            Kind::BackwardForward => words.on_neighbor_left,
        };
        let number = self.number(count);
        fill_in(&format!("{}{where_to}", words.kind(kind).tie.of(count)), &[("count", &number)])
    }

    /// Knots next to each other: those of one kind and color that follow one another are described together.
    pub(crate) fn groups(&self, knots: &[RowKnot]) -> String {
        if knots.is_empty() {
            return self.words.nothing_tied.to_owned();
        }
        let mut knots = knots.to_vec();
        if self.counting == CountFrom::FromRight {
            knots.reverse();
        }
        let alike = |one: &RowKnot, other: &RowKnot| (one.kind, one.thread) == (other.kind, other.thread);
        let phrases = knots.chunk_by(alike).map(|group| {
            let places: Vec<String> = group.iter().map(|knot| self.pair(knot.gap)).collect();
            let (kind, thread) = group.first().map_or((Kind::Forward, 0), |knot| (knot.kind, knot.thread));
            let values = [
                ("kind", self.words.kind(kind).name),
                ("places", &self.words.list(&places)),
                ("color", self.script.name(thread)),
            ];
            fill_in(self.words.row_group, &values)
        });
        phrases.collect::<Vec<_>>().join("; ")
    }

    /// The two places of a gap, counted from 1.
    fn pair(&self, gap: u8) -> String {
        let strands = self.script.strands.len();
        let first = match self.counting {
            CountFrom::AsWritten => usize::from(gap) + 1,
            CountFrom::FromRight => strands.saturating_sub(usize::from(gap) + 1),
        };
        format!("{first}\u{2013}{}", first + 1)
    }

    fn leading(&self, rightward: bool, runs: &[(bool, u32)]) -> String {
        let words = self.words;
        let phrases = runs.iter().map(|(leads, count)| {
            let kind = if *leads == rightward { Kind::Forward } else { Kind::Backward };
            let sentence = if *leads { &words.leader_ties } else { &words.strand_ties };
            let number = self.number(u64::from(*count));
            fill_in(sentence.of(u64::from(*count)), &[("kind", words.kind(kind).name), ("count", &number)])
        });
        phrases.collect::<Vec<_>>().join("; ")
    }

    /// How the strands hang; a band that is the same from both edges is described from both.
    pub(crate) fn look(&self, threads: &[u16]) -> String {
        let words = self.words;
        let (half, is_odd) = (threads.len() / 2, threads.len() % 2 == 1);
        if threads.len() < 4 || !threads.iter().eq(threads.iter().rev()) {
            let check = match self.counting {
                CountFrom::AsWritten => words.check,
                CountFrom::FromRight => words.check_from_right,
            };
            return fill_in(check, &[("strands", &self.hanging(threads))]);
        }
        let side = self.counted(&threads[..half]);
        if is_odd {
            let middle = self.script.name(threads[half]);
            return fill_in(words.check_mirrored_around, &[("strands", &side), ("middle", middle)]);
        }
        fill_in(words.check_mirrored, &[("strands", &side)])
    }
}

/// Names, those that follow one another counted.
fn count_names<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let names: Vec<&str> = names.collect();
    let phrases = names.chunk_by(|one, other| one == other).map(|group| match group {
        [one] => (*one).to_owned(),
        [one, ..] => format!("{} {one}", group.len()),
        [] => String::new(),
    });
    phrases.collect::<Vec<_>>().join(", ")
}

/// With a capital letter at its start.
pub(crate) fn capitalize(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
