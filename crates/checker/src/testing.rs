//! Small bands for tests: threads `a` to `l`, one body, and what came of it in a line.

use crate::facts::Facts;
use crate::resolve::{Script, resolve};
use crate::tie::{Limits, Tied, tie_parts};
use crate::{Fact, FactKind, Library, NoLibrary, Place, Source};
use knotwright_numbers::ToNumber;
use std::fmt::Write;
use std::sync::Arc;

/// A text, looked up and tied.
pub(crate) struct Band {
    pub(crate) script: Script,
    pub(crate) tied: Tied,
    pub(crate) facts: Vec<Fact>,
}

pub(crate) fn tied(text: &str) -> Band {
    tied_with(text, &NoLibrary)
}

pub(crate) fn tied_with(text: &str, library: &dyn Library) -> Band {
    tied_within(text, library, Limits::WHOLE)
}

pub(crate) fn tied_within(text: &str, library: &dyn Library, limits: Limits) -> Band {
    let mut facts = Facts::default();
    let script = resolve(Arc::new(Source::new("band.knot", text)), library, &mut facts);
    let tied = tie_parts(&script, None, limits, &mut facts).unwrap_or_default();
    Band { script, tied, facts: facts.into_list() }
}

/// A file with these strands and this set.
pub(crate) fn set(strands: &str, body: &str) -> String {
    format!("{}strands {strands}\nset {{\n{body}\n}}\n", head())
}

/// A title and the threads `a` to `l`.
pub(crate) fn head() -> String {
    let threads = ('a'..='l').map(|name| format!("thread {name} teal\n"));
    format!("pattern \"Trial\"\n{}", threads.collect::<String>())
}

impl Band {
    /// The threads after the set, from left to right.
    pub(crate) fn order(&self) -> String {
        let strands = self.script.head.strands.as_ref().expect("strands");
        let part = self.tied.set.as_ref().expect("a set that ties");
        let names =
            part.piece.order().iter().map(|&strand| self.script.thread_name(strands[usize::from(strand)]));
        names.collect::<Vec<_>>().join(" ")
    }

    /// What is wrong, each with its line and what it points at.
    pub(crate) fn said(&self) -> String {
        let mut said = String::new();
        for problem in &self.script.source().parsed.problems {
            let place = Place { file: crate::FileId::CHECKED, span: problem.span };
            let _ = writeln!(said, "{} does not parse: {:?}", self.line(place), problem.kind);
        }
        for fact in &self.facts {
            let text = &self.script.files[fact.place.file.0.to_usize()].source.text;
            let pointed = fact.place.span.of(text).lines().next().unwrap_or_default();
            let _ = writeln!(said, "{} `{pointed}`: {}", self.line(fact.place), self.kind(&fact.kind));
            for &work in &fact.through {
                let _ = writeln!(said, "    through {}", self.line(work));
            }
            if fact.mirrored {
                said.push_str("    in the mirror\n");
            }
        }
        said
    }

    /// The variants in order, without their numbers.
    pub(crate) fn kinds(&self) -> Vec<String> {
        let name = |fact: &Fact| {
            if let FactKind::UnknownName(unknown) = &fact.kind {
                return format!("Unknown{:?}", unknown.due);
            }
            let shown = format!("{:?}", fact.kind);
            shown.split([' ', '{']).next().unwrap_or_default().to_owned()
        };
        self.facts.iter().map(name).collect()
    }

    fn line(&self, place: Place) -> String {
        let text = &self.script.files[place.file.0.to_usize()].source.text;
        let line = text[..place.span.start.to_usize()].matches('\n').count() + 1;
        match place.file.0 {
            0 => format!("line {line}"),
            file => format!("file {file} line {line}"),
        }
    }

    /// The fact as it is in the program, places as lines.
    fn kind(&self, kind: &FactKind) -> String {
        let mut shown = format!("{kind:?}");
        while let Some(start) = shown.find("Place { file") {
            let end = start + shown[start..].find("} }").expect("the end of a place") + 3;
            let numbers: Vec<u32> = shown[start..end]
                .split(|sign: char| !sign.is_ascii_digit())
                .filter_map(|digits| digits.parse().ok())
                .collect();
            let span = knotwright_grammar::Span { start: numbers[1], end: numbers[2] };
            let place = Place { file: crate::FileId(numbers[0]), span };
            shown.replace_range(start..end, &self.line(place));
        }
        shown
    }
}

/// Ties `body` with `strands` and compares the order afterwards; nothing may be wrong.
#[track_caller]
pub(crate) fn ties(strands: &str, body: &str, order: &str) {
    let band = tied(&set(strands, body));
    assert_eq!(band.said(), "", "{body}");
    assert_eq!(band.order(), order, "{body}");
}

/// Ties `body` with `strands` and compares what is wrong.
#[track_caller]
pub(crate) fn fails(strands: &str, body: &str, kinds: &[&str]) {
    let band = tied(&set(strands, body));
    assert_eq!(band.kinds(), kinds, "{body}\n{}", band.said());
}
