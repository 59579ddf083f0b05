//! Acts in words.

use super::act::{Act, Counting, End, Place, RowKnot};
use super::items::Deed;
use super::words::{Words, fill};
use crate::Script;
use knotwright_band::Kind;

/// Puts what is done with a band into words.
pub(crate) struct Teller<'a> {
    pub(crate) script: &'a Script,
    pub(crate) words: &'static Words,
    pub(crate) counting: Counting,
}

impl Teller<'_> {
    /// A number where it stands in a sentence.
    pub(crate) fn number(&self, count: u64) -> String {
        (self.words.number)(count)
    }

    /// A deed as a sentence.
    pub(crate) fn deed(&self, deed: &Deed) -> String {
        let color = self.colors(deed);
        let words = self.words;
        match &deed.act {
            Act::Take { place, runs, end } => {
                let count = self.number(deed.times);
                let values = [
                    ("count", count.as_str()),
                    ("Count", &capital(&count)),
                    ("digits", &deed.times.to_string()),
                    ("strand", &self.place(*place)),
                    ("color", &color),
                    ("runs", &self.runs(runs, *end)),
                ];
                fill(words.take_times.of(deed.times), &values)
            }
            Act::Meet { place: None } => fill(words.meet_middle, &[("color", &color)]),
            Act::Meet { place: Some(place) } => {
                fill(words.meet, &[("strand", &self.place(*place)), ("color", &color)])
            }
            Act::Row(knots) => fill(words.row, &[("groups", &self.groups(knots))]),
            Act::Lead { rightward, runs } => {
                let sentence = if *rightward { words.leader_right } else { words.leader_left };
                fill(sentence, &[("color", &color), ("runs", &self.leading(*rightward, runs))])
            }
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
        fill(text, &[("colors", &colors)])
    }

    /// `2 night, wing, 3 night`
    pub(crate) fn counted(&self, threads: &[u16]) -> String {
        let groups = threads.chunk_by(|one, other| one == other);
        let told = groups.map(|group| match group {
            [one] => self.script.name(*one).to_owned(),
            [one, ..] => format!("{} {}", group.len(), self.script.name(*one)),
            [] => String::new(),
        });
        told.collect::<Vec<_>>().join(", ")
    }

    pub(crate) fn place(&self, place: Place) -> String {
        match place {
            Place::FromLeft(at) => (self.words.from_left)(u64::from(at) + 1),
            Place::FromRight(at) => (self.words.from_right)(u64::from(at) + 1),
        }
    }

    fn runs(&self, runs: &[(Kind, u32)], end: Option<End>) -> String {
        let words = self.words;
        let told: Vec<String> = runs.iter().map(|(kind, count)| self.run(*kind, u64::from(*count))).collect();
        let end = match end {
            None => "",
            Some(End::LeftEdge) => words.to_left_edge,
            Some(End::RightEdge) => words.to_right_edge,
            Some(End::Middle) => words.to_middle,
        };
        told.join(words.then) + end
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
        fill(&format!("{}{where_to}", words.kind(kind).tie.of(count)), &[("count", &number)])
    }

    /// Knots beside each other: those of one kind and color that follow one another are told together.
    pub(crate) fn groups(&self, knots: &[RowKnot]) -> String {
        if knots.is_empty() {
            return self.words.nothing_tied.to_owned();
        }
        let mut knots = knots.to_vec();
        if self.counting == Counting::FromRight {
            knots.reverse();
        }
        let alike = |one: &RowKnot, other: &RowKnot| (one.kind, one.thread) == (other.kind, other.thread);
        let told = knots.chunk_by(alike).map(|group| {
            let places: Vec<String> = group.iter().map(|knot| self.pair(knot.gap)).collect();
            let (kind, thread) = group.first().map_or((Kind::Forward, 0), |knot| (knot.kind, knot.thread));
            let values = [
                ("kind", self.words.kind(kind).name),
                ("places", &self.words.list(&places)),
                ("color", self.script.name(thread)),
            ];
            fill(self.words.row_group, &values)
        });
        told.collect::<Vec<_>>().join("; ")
    }

    /// The two places of a gap, counted from 1.
    fn pair(&self, gap: u8) -> String {
        let strands = self.script.strands.len();
        let first = match self.counting {
            Counting::AsWritten => usize::from(gap) + 1,
            Counting::FromRight => strands.saturating_sub(usize::from(gap) + 1),
        };
        format!("{first}\u{2013}{}", first + 1)
    }

    fn leading(&self, rightward: bool, runs: &[(bool, u32)]) -> String {
        let words = self.words;
        let told = runs.iter().map(|(leads, count)| {
            let kind = if *leads == rightward { Kind::Forward } else { Kind::Backward };
            let sentence = if *leads { &words.leader_ties } else { &words.strand_ties };
            let number = self.number(u64::from(*count));
            fill(sentence.of(u64::from(*count)), &[("kind", words.kind(kind).name), ("count", &number)])
        });
        told.collect::<Vec<_>>().join("; ")
    }

    /// How the strands hang; a band that is the same from both edges is told from both.
    pub(crate) fn look(&self, threads: &[u16]) -> String {
        let words = self.words;
        let (half, is_odd) = (threads.len() / 2, threads.len() % 2 == 1);
        if threads.len() < 4 || !threads.iter().eq(threads.iter().rev()) {
            return fill(words.check, &[("strands", &self.counted(threads))]);
        }
        let side = self.counted(&threads[..half]);
        if is_odd {
            let middle = self.script.name(threads[half]);
            return fill(words.check_mirrored_around, &[("strands", &side), ("middle", middle)]);
        }
        fill(words.check_mirrored, &[("strands", &side)])
    }
}

/// With a capital letter at its start.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
