//! A face, and the threads that it is in.

use knotwright_checker::{PartKind, Pattern};
use knotwright_color::{Rgb, color_names, find_nearest};
use knotwright_designer::{WishedFace, WishedKnot};
use knotwright_render::{FaceBrick, FacePicture};
use std::collections::BTreeSet;

/// A thread of a face.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaceThread {
    /// Its name.
    pub name: String,
    /// Its color.
    pub color: Rgb,
}

/// A face in threads: its colors are numbers of threads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrawnFace {
    /// What is to be seen.
    pub face: WishedFace,
    /// Its threads.
    pub threads: Vec<FaceThread>,
}

impl FaceThread {
    /// The threads of a pattern, in their order.
    pub fn all(pattern: &Pattern) -> Vec<Self> {
        let threads = pattern.threads.iter();
        threads.map(|of| Self { name: of.name.to_string(), color: of.color }).collect()
    }

    /// Threads of these colors, named after the colors of CSS that look most like them; no name comes twice.
    pub fn named_by_color(colors: &[Rgb]) -> Vec<Self> {
        let known: Vec<(&str, Rgb)> =
            color_names().into_iter().filter_map(|name| Some((name, name.parse().ok()?))).collect();
        let values: Vec<Rgb> = known.iter().map(|(_, color)| *color).collect();
        let mut taken = BTreeSet::new();
        let mut thread = |color: &Rgb| {
            let base = known.get(find_nearest(*color, &values)).map_or("thread", |(name, _)| name);
            let numbered = (2..).map(|number| format!("{base}-{number}"));
            let mut possible = std::iter::once(base.to_owned()).chain(numbered);
            let name = possible.find(|name| !taken.contains(name)).unwrap_or_default();
            taken.insert(name.clone());
            Self { name, color: *color }
        };
        colors.iter().map(&mut thread).collect()
    }
}

impl DrawnFace {
    /// The face of a part of a pattern, in the threads of the pattern.
    pub fn of(pattern: &Pattern, kind: PartKind) -> Option<Self> {
        Some(Self { face: pattern.face(kind)?, threads: FaceThread::all(pattern) })
    }

    /// As it is drawn; the knots of these numbers are hatched.
    pub fn picture(&self, title: String, hatched: &[usize]) -> FacePicture {
        let color = |color: u16| self.threads.get(usize::from(color)).map(|thread| thread.color);
        let brick = |(number, knot): (usize, &WishedKnot)| FaceBrick {
            row: knot.row,
            gap: knot.gap,
            color: knot.color.and_then(color),
            is_hatched: hatched.contains(&number),
        };
        FacePicture {
            title,
            strands: self.face.strands(),
            rows: self.face.rows(),
            bricks: self.face.knots().iter().enumerate().map(brick).collect(),
        }
    }

    /// Its rows as text, in bricks: a letter for each thread, `.` for no knot, `?` for whatever color, and `mark` for the
    /// knots of these numbers; and which letter is which thread, of those that are there.
    pub fn in_letters(&self, marked: &[usize], mark: char) -> (Vec<String>, Vec<(char, &str)>) {
        let letters = self.letters();
        let mut number = 0;
        let mut sign = |wished: Option<Option<u16>>| {
            let Some(color) = wished else { return '.' };
            number += 1;
            match color {
                _ if marked.contains(&(number - 1)) => mark,
                None => '?',
                Some(color) => letters.get(usize::from(color)).copied().unwrap_or('?'),
            }
        };
        let is_offset = self.face.is_offset();
        let mut rows = Vec::new();
        for (row, marks) in self.face.marks().into_iter().enumerate() {
            let signs: Vec<String> = marks.into_iter().map(|mark| sign(mark).to_string()).collect();
            let indent = if (row % 2 == 0) == is_offset { " " } else { "" };
            rows.push(format!("{indent}{}", signs.join(" ")));
        }
        let kept = self.face.knots().iter().enumerate().filter(|(number, _)| !marked.contains(number));
        let used: BTreeSet<u16> = kept.filter_map(|(_, knot)| knot.color).collect();
        let named = used
            .into_iter()
            .map(usize::from)
            .filter_map(|color| Some((*letters.get(color)?, self.threads.get(color)?.name.as_str())));
        (rows, named.collect())
    }

    /// By thread, a letter of its own: of its name if one is free.
    fn letters(&self) -> Vec<char> {
        let mut taken = BTreeSet::new();
        let mut letter = |thread: &FaceThread| {
            let own =
                thread.name.chars().filter(char::is_ascii_alphabetic).map(|sign| sign.to_ascii_lowercase());
            let letter =
                own.chain('a'..='z').chain('A'..='Z').find(|letter| !taken.contains(letter)).unwrap_or('?');
            taken.insert(letter);
            letter
        };
        self.threads.iter().map(&mut letter).collect()
    }
}
