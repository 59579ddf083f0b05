//! Someone who has seen no picture follows the English instructions of `write`, word by word, and must tie the band.

use knotwright_numbers::ToNumber;
use serde_json::Value;
use std::collections::VecDeque;

/// A knot that was tied: gap from 1, kind, color.
pub(crate) type Tied = (usize, String, String);

/// A bead that was threaded: which, at which positions (from 1), and how many knots were tied before next to them.
pub(crate) type Threaded = (String, Vec<usize>, usize);

/// Who follows the words.
pub(crate) struct Follower {
    /// By position, the color that hangs there.
    pub(crate) hang: Vec<String>,
    /// All that was tied.
    pub(crate) knots: Vec<Tied>,
    /// All that was threaded.
    pub(crate) beads: Vec<Threaded>,
    /// Whether the words count places from the right.
    from_right: bool,
    /// What the words say that two strands of one color are tied together with.
    meets: &'static str,
}

const ORDINALS: [&str; 12] = [
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth",
];
const NUMBERS: [&str; 12] =
    ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

pub(crate) fn number(word: &str) -> usize {
    let word = word.to_lowercase();
    let at = NUMBERS.iter().position(|name| *name == word);
    at.map_or_else(|| word.parse().unwrap_or_else(|_| panic!("no number: {word}")), |at| at + 1)
}

/// How often: `twice`, `five times`; what comes after it is left.
pub(crate) fn times(text: &str) -> Option<(usize, &str)> {
    let lower = text.to_lowercase();
    for (word, count) in [("once", 1), ("twice", 2)] {
        if lower.starts_with(word) {
            return Some((count, &text[word.len()..]));
        }
    }
    text.split_once(" times").map(|(count, rest)| (number(count), rest))
}

fn ordinal(word: &str) -> usize {
    let at = ORDINALS.iter().position(|name| *name == word);
    at.map_or_else(|| number(word.trim_end_matches(char::is_alphabetic)), |at| at + 1)
}

/// The text between two others; what follows.
fn between<'a>(text: &'a str, open: &str, close: &str) -> (&'a str, &'a str) {
    let text = text.split_once(open).unwrap_or_else(|| panic!("no `{open}` in: {text}")).1;
    text.split_once(close).unwrap_or_else(|| panic!("no `{close}` in: {text}"))
}

/// `2 night, wing` is night, night, wing; names may begin with a number only if they are no such list.
pub(crate) fn listed(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for item in text.split(", ") {
        match item.split_once(' ') {
            Some((count, name)) if count.parse::<usize>().is_ok() => {
                all.extend(std::iter::repeat_n(name.to_owned(), number(count)));
            }
            _ => all.push(item.to_owned()),
        }
    }
    all
}

/// A line of the list, and those below it.
struct Line {
    depth: usize,
    text: String,
}

impl Follower {
    /// Who has read all of `told`, and hung the strands so.
    pub(crate) fn new(hang: Vec<String>, shown: &str) -> Self {
        let from_right = shown.contains("Always count places from the right");
        let meets =
            if shown.contains("tie a backward knot with the right one.") { "backward" } else { "forward" };
        Self { hang, knots: Vec::new(), beads: Vec::new(), from_right, meets }
    }

    /// Does all that a section of Markdown says, once.
    pub(crate) fn follow(&mut self, markdown: &str) {
        let lines: Vec<Line> = markdown
            .lines()
            .filter(|line| !line.trim().is_empty())
            .map(|line| {
                let depth = (line.len() - line.trim_start().len()) / 3;
                Line { depth, text: line.trim().to_owned() }
            })
            .collect();
        let mut turns = std::collections::HashMap::new();
        self.lines(&lines, 0, &mut turns);
    }

    fn lines(&mut self, lines: &[Line], first: usize, turns: &mut std::collections::HashMap<usize, usize>) {
        let mut at = 0;
        while at < lines.len() {
            let line = &lines[at];
            let step = line.text.split_once(". ").filter(|(number, _)| number.parse::<u32>().is_ok());
            at += 1;
            match step {
                Some((_, repeat)) if repeat.starts_with("Do this ") => {
                    let times = times(between(repeat, "Do this ", ":").0).unwrap().0;
                    let below = lines[at..].iter().take_while(|below| below.depth > line.depth).count();
                    for _ in 0..times {
                        self.lines(&lines[at..at + below], first + at, turns);
                    }
                    at += below;
                }
                Some((_, step)) => {
                    let turn = turns.entry(first + at).or_default();
                    self.step(step, turn);
                }
                None if line.text.starts_with("**Join ") || line.text.starts_with("**In set ") => {
                    self.join(line.text.trim_matches('*'));
                }
                None if line.text.starts_with("*Now the strands hang") => self.look(&line.text),
                None if line.text.contains("Thread a bead (") => {
                    let turn = turns.entry(first + at).or_default();
                    self.step(line.text.trim_matches('*'), turn);
                }
                None => {}
            }
        }
    }

    fn look(&self, text: &str) {
        let (how, rest) = between(text, "hang, ", ": ");
        let list = rest.trim_end_matches(['*', '.']);
        let said = if how == "from left to right" {
            assert!(!self.from_right, "places are counted from the other side: {text}");
            listed(list)
        } else if how == "from right to left" {
            listed(list).into_iter().rev().collect()
        } else {
            let (side, middle) = match list.split_once(", with ") {
                Some((side, middle)) => (side, vec![middle.replace(" in the very middle", "")]),
                None => (list, vec![]),
            };
            let side = listed(side);
            side.iter().cloned().chain(middle).chain(side.iter().rev().cloned()).collect()
        };
        assert_eq!(self.hang, said, "{text}");
    }

    fn step(&mut self, text: &str, turn: &mut usize) {
        if let Some((often, rest)) = text.split_once(", take ") {
            for _ in 0..times(often).unwrap().0 {
                self.take(rest, turn);
            }
        } else if let Some(rest) = text.strip_prefix("Take the leader (") {
            self.lead(rest);
        } else if let Some(rest) = text.strip_prefix("Take ") {
            self.take(rest, turn);
        } else if let Some(rest) = text.strip_prefix("Thread a bead (") {
            self.thread(rest, turn);
        } else if let Some(rest) = text.strip_prefix("Tie the two middle strands together (") {
            let gap = self.hang.len() / 2;
            self.holds(gap - 1, rest.trim_end_matches(").").trim_end_matches(')'), turn);
            self.knot(gap, self.meets);
        } else if text.starts_with("Tie the ") {
            let place = self.place(text);
            let color = between(text, "(both ", ")").0;
            self.holds(place, color, turn);
            self.knot(place + 1, self.meets);
        } else if text.starts_with("Join ") || text.starts_with("In set ") {
            self.join(text);
        } else if let Some((_, groups)) = text.split_once(": ").filter(|_| text.starts_with("Row")) {
            self.row(groups.trim_end_matches('.'));
        } else {
            panic!("what is to be done? {text}");
        }
    }

    /// A strand goes on with a new piece: of another thread, or of its own.
    fn join(&mut self, text: &str) {
        let (_, text) = text.split_once("Join ").unwrap();
        let at = self.place(text);
        if let Some((was, _)) = text.split_once(": ").filter(|(was, _)| was.ends_with(')')) {
            let was = &was[was.rfind('(').unwrap() + 1..was.len() - 1];
            assert_eq!(self.hang[at], was, "{text}");
        }
        if let Some((_, new)) =
            text.split_once("lay a new piece of ").filter(|(_, new)| !new.starts_with("the same"))
        {
            self.hang[at] = new.split(" beside it").next().unwrap().to_owned();
        }
    }

    /// The position, from 0, of `the third strand from the right`.
    fn place(&self, text: &str) -> usize {
        let (word, rest) = between(text, "the ", " strand from the ");
        let count = ordinal(word);
        if rest.starts_with("left") { count - 1 } else { self.hang.len() - count }
    }

    /// The strand there has the color that is said, or the next of those in turn.
    fn holds(&self, place: usize, said: &str, turn: &mut usize) {
        let wanted = match said.strip_prefix("in turn ") {
            None => said.to_owned(),
            Some(colors) => {
                let colors = listed(colors.trim_end_matches(", and so on"));
                let wanted = colors[*turn % colors.len()].clone();
                *turn += 1;
                wanted
            }
        };
        assert_eq!(self.hang[place], wanted, "at {place} of {:?}", self.hang);
    }

    fn thread(&mut self, text: &str, turn: &mut usize) {
        let (bead, rest) = text.split_once(") onto ").unwrap();
        let mut positions = Vec::new();
        match rest.split_once(", through one hole") {
            Some((strands, _)) => {
                let strands = strands.replace(" and the ", ", the ");
                positions.extend(strands.split(", ").map(|strand| self.place(strand) + 1));
            }
            None => {
                let place = self.place(rest);
                self.holds(place, between(rest, "(", "), and push it up").0, turn);
                positions.push(place + 1);
            }
        }
        positions.sort_unstable();
        let near = near(&positions, self.knots.iter().map(|knot| knot.0));
        self.beads.push((bead.to_owned(), positions, near));
    }

    fn take(&mut self, text: &str, turn: &mut usize) {
        let mut at = self.place(text);
        let (color, rest) = between(text, "(", "): ");
        self.holds(at, color, turn);
        for run in rest.trim_end_matches('.').split(", then ") {
            let run: VecDeque<&str> = run.split("; it is now ").collect();
            let words = run[0].strip_prefix("tie ").unwrap();
            let kind = words.split(' ').nth(1).unwrap();
            let rightward = words.contains("right");
            let count = match words.split_once("each of the next ") {
                Some((_, rest)) => number(rest.split(' ').next().unwrap()),
                None if words.starts_with("a ") => 1,
                None => number(words.split(' ').next().unwrap()),
            };
            for _ in 0..count {
                let gap = if rightward { at + 1 } else { at };
                self.knot(gap, kind);
                if !kind.contains('-') {
                    at = if rightward { at + 1 } else { at - 1 };
                }
            }
            if let Some(end) = run.get(1) {
                let last = self.hang.len() - 1;
                let there = match *end {
                    "at the left edge" => at == 0,
                    "at the right edge" => at == last,
                    "in the middle" => at == last / 2 || at == last.div_ceil(2),
                    other => panic!("to where? {other}"),
                };
                assert!(there, "{text}: the strand hangs at {at}");
            }
        }
    }

    fn lead(&mut self, text: &str) {
        let (color, rest) = text.split_once(") at the ").unwrap();
        let rightward = rest.starts_with("left edge");
        let mut at = if rightward { 0 } else { self.hang.len() - 1 };
        assert_eq!(self.hang[at], color);
        for run in rest.split_once(": ").unwrap().1.trim_end_matches('.').split("; ") {
            let count = match run.split_once("each of the next ") {
                Some((_, rest)) => number(rest.split(' ').next().unwrap()),
                None => 1,
            };
            let kind = between(run, "a ", " knot").0.to_owned();
            for _ in 0..count {
                let gap = if rightward { at + 1 } else { at };
                self.knot(gap, &kind);
                at = if rightward { at + 1 } else { at - 1 };
            }
        }
    }

    fn row(&mut self, groups: &str) {
        for group in groups.split("; ") {
            let (kind, rest) = group.split_once(" at ").unwrap();
            let (places, color) = rest.split_once(" (").unwrap();
            for pair in places.replace(" and ", ", ").split(", ") {
                let gap = number(pair.split('\u{2013}').next().unwrap());
                let gap = if self.from_right { self.hang.len() - gap } else { gap };
                let works = if kind.starts_with("forward") { gap - 1 } else { gap };
                assert_eq!(self.hang[works], color.trim_end_matches(')'), "{group}");
                self.knot(gap, kind);
            }
        }
    }

    /// Ties one knot in a gap, counted from 1.
    fn knot(&mut self, gap: usize, kind: &str) {
        let works = if kind.starts_with("forward") { gap - 1 } else { gap };
        self.knots.push((gap, kind.to_owned(), self.hang[works].clone()));
        if !kind.contains('-') {
            self.hang.swap(gap - 1, gap);
        }
    }
}

/// What `export` says was tied; names are those that people see.
pub(crate) fn exported(part: &Value, names: &impl Fn(&str) -> String) -> Vec<Tied> {
    let knot = |knot: &Value| {
        (
            knot["gap"].as_u64().unwrap().to_usize(),
            knot["kind"].as_str().unwrap().to_owned(),
            names(knot["color"].as_str().unwrap()),
        )
    };
    part.as_array().unwrap().iter().map(knot).collect()
}

/// How many knots are in the gaps beside some positions.
fn near(positions: &[usize], gaps: impl Iterator<Item = usize>) -> usize {
    let (first, last) = (positions[0], positions[positions.len() - 1]);
    gaps.filter(|gap| (first - 1..=last).contains(gap)).count()
}

/// What `export` says was threaded in a part.
pub(crate) fn exported_beads(part: &Value, names: &impl Fn(&str) -> String) -> Vec<Threaded> {
    let gaps: Vec<usize> = part["knots"]
        .as_array()
        .unwrap()
        .iter()
        .map(|knot| knot["gap"].as_u64().unwrap().to_usize())
        .collect();
    let bead = |bead: &Value| {
        let positions: Vec<usize> =
            bead["positions"].as_array().unwrap().iter().map(|at| at.as_u64().unwrap().to_usize()).collect();
        let after = bead["after_knots"].as_u64().unwrap().to_usize();
        let near = near(&positions, gaps[..after].iter().copied());
        (names(bead["bead"].as_str().unwrap()), positions, near)
    };
    part["threaded"].as_array().map(|beads| beads.iter().map(bead).collect()).unwrap_or_default()
}
