//! What is kept of a check for the next one, after an edit.
//!
//! What takes time is to look up all names, to tie all knots, to lay the band row by row and to look it through. If an
//! edit lies within an opening, a set or a closing, and leaves the strands behind it as they hung, only the statements
//! around it are tied again. If it leaves every knot as it was, be it in a motif too, the band shows what it
//! showed, and only the places have moved.

mod band;
mod bodies;
mod moved;
mod resume;

use crate::resolve::{Known, Script};
use crate::tie::{Mark, Tied};
use crate::{Finding, Pattern, Source};
use band::Band;
use bodies::Bodies;
use knotwright_grammar::Difference;
use moved::moved_finding;
use std::sync::Arc;

/// What a report remembers.
#[derive(Debug, Clone)]
pub(crate) enum Memory {
    /// There is no error.
    Sound(Shown),
    /// There is an error now; what was kept when there was none.
    Before(Option<Box<Kept>>),
}

/// What was seen of a band without an error.
#[derive(Debug, Clone)]
pub(crate) struct Shown {
    /// What it shows.
    pub(crate) said: Vec<Finding>,
    /// Whether the colors hang after one set as before it.
    pub(crate) closes: Option<bool>,
    /// Where its tie can be gone on with.
    pub(crate) marks: [Vec<Mark>; 3],
}

impl Memory {
    /// What the band of this report shows.
    pub(crate) fn said(&self) -> &[Finding] {
        match self {
            Self::Sound(shown) => &shown.said,
            Self::Before(_) => &[],
        }
    }
}

/// A pattern without an error as it was tied, and what its band shows. It holds no file.
#[derive(Debug, Clone)]
pub struct Kept {
    text: Arc<str>,
    bodies: Bodies,
    /// `None` if it uses other files.
    known: Option<Known>,
    band: Band,
    said: Vec<Finding>,
}

/// A pattern that was tied again where it was edited.
#[derive(Debug)]
pub(crate) struct Resumed {
    pub(crate) script: Script,
    pub(crate) tied: Tied,
    /// What the band shows, if it is the same band.
    pub(crate) said: Option<Vec<Finding>>,
}

impl Kept {
    pub(crate) fn new(source: &Source, pattern: Pattern, shown: Shown) -> Option<Self> {
        let (text, bodies) = (Arc::clone(&source.text), Bodies::of(source)?);
        let Shown { said, closes, marks } = shown;
        let known = Known::of(pattern.script());
        Some(Self { text, bodies, known, band: Band::new(pattern, closes, marks), said })
    }

    /// Looks up and ties only what was edited.
    ///
    /// # Errors
    /// Itself, if that cannot be done, or an error came of it.
    pub(crate) fn resume(self: Box<Self>, source: &Arc<Source>) -> Result<Resumed, Box<Self>> {
        let Some(difference) = Difference::of(&self.text, &source.text) else { return Err(self) };
        let Some(retied) = self.retie(source, difference) else { return Err(self) };
        let said = if retied.is_the_same(&self.band) { moved_findings(self.said, difference) } else { None };
        let (script, tied) = retied.join(self.band);
        Ok(Resumed { script, tied, said })
    }

    fn retie(&self, source: &Arc<Source>, difference: Difference) -> Option<resume::Retied> {
        if !source.parsed.problems.is_empty() {
            return None;
        }
        let at = self.bodies.around(difference, &Bodies::of(source)?)?;
        resume::retie((self.known.as_ref()?, &self.band), source, (at, difference))
    }

    /// What the band of `pattern` shows, read from `source`, if it is the same band.
    pub(crate) fn said(self, pattern: &Pattern, source: &Source) -> Option<Vec<Finding>> {
        let Some(difference) = Difference::of(&self.text, &source.text) else {
            return self.band.is_that_of(pattern, None).then_some(self.said);
        };
        self.bodies.around(difference, &Bodies::of(source)?)?;
        let is_same = self.band.is_that_of(pattern, Some(difference));
        if is_same { moved_findings(self.said, difference) } else { None }
    }
}

fn moved_findings(findings: Vec<Finding>, difference: Difference) -> Option<Vec<Finding>> {
    findings.into_iter().map(|finding| moved_finding(finding, difference)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{NoLibrary, Settings, check};

    const LINES: usize = 400;

    fn pattern(lines: &str) -> String {
        format!(
            "pattern \"A\"\nthread kelp green\nthread foam white\nstrands 2 kelp 2 foam\nset {{\n{lines}}}\n"
        )
    }

    fn long() -> String {
        let line = |at: usize| {
            if at.is_multiple_of(2) {
                "  take left 1: forward to edge\n"
            } else {
                "  take right 1: backward to edge\n"
            }
        };
        pattern(&(0..LINES).map(line).collect::<String>())
    }

    fn kept(text: &str) -> Box<Kept> {
        let source = Arc::new(Source::new("band.knot", text));
        Box::new(check(source, &NoLibrary, &Settings::default()).keep().expect("nothing is wrong"))
    }

    /// Whether only a stretch is tied again, and then how many steps of the set.
    fn tied_again(before: &str, text: &str) -> Option<usize> {
        let (kept, source) = (kept(before), Source::new("band.knot", text));
        let difference = Difference::of(before, text)?;
        kept.retie(&Arc::new(source), difference).map(|retied| retied.steps())
    }

    /// The text with one of its lines written otherwise.
    fn at_line(text: &str, nth: usize, line: &str) -> String {
        let mut lines: Vec<&str> = text.lines().collect();
        lines[nth] = line;
        lines.join("\n") + "\n"
    }

    #[test]
    fn only_what_stands_around_an_edit_is_tied_again() {
        let text = long();
        for (nth, line) in [(5, "  take left 1: forward 3"), (205, "  take left 1: forward 3"), (404, "")] {
            let (steps, line) = (tied_again(&text, &at_line(&text, nth, line)), line);
            // The last line moves a strand, and nothing comes after it that would bring it back.
            match line {
                "" => assert_eq!(steps, None),
                _ => assert!(steps.is_some_and(|steps| steps < LINES / 4), "{nth}: {steps:?}"),
            }
        }
    }

    #[test]
    fn all_is_tied_again_if_the_strands_hang_otherwise_or_a_name_is_given() {
        let text = long();
        assert_eq!(tied_again(&text, &at_line(&text, 205, "  take left 1: forward 2")), None);
        assert_eq!(tied_again(&text, &at_line(&text, 205, "  take left 1 as crest: forward 3")), None);
        assert_eq!(
            tied_again(&text, &at_line(&text, 205, "  take left 1 (foam): forward 3")),
            None,
            "an error"
        );
        assert_eq!(tied_again(&text, &text.replace("green", "navy")), None, "the head");
    }
}
