//! What is kept of a version of a file for the next one.
//!
//! What takes time is to look up all names, to tie all knots, to lay the band row by row and to look it through.
//!
//! The invariant: an analysis that goes on from what was kept says what a fresh one says, pattern and findings, to the
//! last span. The tests hold it, over random edits one after another (`tests/drafts.rs`).
//!
//! How it goes, after an edit:
//! 1. What was kept is always of a version without an error; it goes along unused through versions that have one, and the
//!    edits since then are one [`Splice`]. So a slip and its repair cost as much as the repair.
//!    If nothing is left of them, all is as it was, and nothing is looked up or tied.
//! 2. If the splice lies between the braces of one opening, set or closing ([`bodies`]), the names that the head gives are
//!    as they were. Then only the statements from the last mark before the splice to the first after it are looked up
//!    and tied ([`resume`]). A mark is how the strands hang, and how much was tied, before every 32nd statement or so. If
//!    the colors hang at the second mark as they did, and no label is known there, all that follows is as it was, only
//!    elsewhere in the text, and perhaps tied by other strands of the same colors: it is moved and renamed, not tied.
//! 3. If the colors hang otherwise, or something is wrong, what comes after the first of these marks is tied: it needs what is
//!    tied before it, of which a copy is made.
//! 4. Otherwise all is looked up and tied. Either way, if the same steps tie the same knots ([`band`]), the band shows
//!    what it showed, and what was found in it has only moved; a finding that touches the splice is found again.
//!
//! A file that uses others takes the way of point 4, as they may have changed. Nothing smaller than a stretch between
//! marks is kept: to know for each statement how the strands hang takes as much room as the knots themselves.

mod band;
mod bodies;
mod moved;
mod resume;

use crate::faces::has_face;
use crate::joins::has_join;
use crate::resolve::{Known, Script};
use crate::tie::{Limits, Mark, Tied};
use crate::{Finding, GivenUp, Pattern, Source};
use band::Band;
use bodies::Bodies;
use knotwright_grammar::Splice;
use moved::moved_finding;
use resume::EditedPart;
pub(crate) use resume::RestTied;
use std::sync::Arc;

/// What was seen of a band without an error.
#[derive(Debug, Clone)]
pub(crate) struct Shown {
    /// What it shows, if somebody has looked.
    pub(crate) said: Option<Vec<Finding>>,
    /// Whether the colors hang after one set as before it.
    pub(crate) closes: Option<bool>,
    /// Where its tie can be gone on with.
    pub(crate) marks: [Vec<Mark>; 3],
}

/// A pattern without an error as it was tied, and what its band shows. It holds no file.
#[derive(Debug, Clone)]
pub(crate) struct Kept {
    text: Arc<str>,
    /// What was edited since.
    edit: Option<Splice>,
    bodies: Bodies,
    /// `None` if it uses other files.
    known: Option<Known>,
    band: Band,
    said: Option<Vec<Finding>>,
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
        Some(Self { text, edit: None, bodies, known, band: Band::new(pattern, closes, marks), said })
    }

    /// The text was edited.
    pub(crate) fn edited(&mut self, splice: Splice) {
        self.edit = Some(self.edit.map_or(splice, |before| before.then(splice)));
    }

    /// What differs now; `None` if nothing does. A slip that was taken back leaves nothing.
    fn edit(&self, source: &Source) -> Option<Splice> {
        self.edit?.trimmed(&self.text, &source.text)
    }

    /// Looks up and ties only what was edited.
    ///
    /// # Errors
    /// Itself, if that cannot be done, an error came of it, or nobody waits for it anymore.
    pub(crate) fn resume(
        self: Box<Self>,
        source: &Arc<Source>,
        given_up: &GivenUp,
    ) -> Result<Resumed, Box<Self>> {
        let Some(edit) = self.edit(source) else { return self.unchanged(source) };
        let Some(retied) = self.retie(source, edit, given_up) else { return Err(self) };
        let Self { band, said, .. } = *self;
        let said = said.filter(|_| retied.is_the_same(&band)).and_then(|said| moved_findings(said, edit));
        let (script, tied) = retied.join(band);
        Ok(Resumed { script, tied, said })
    }

    /// The text is the one that was tied: a slip was taken back.
    fn unchanged(self: Box<Self>, source: &Arc<Source>) -> Result<Resumed, Box<Self>> {
        let Some(known) = &self.known else { return Err(self) };
        let script = known.script(Arc::clone(source));
        let Self { band, said, .. } = *self;
        Ok(Resumed { script, tied: band.into_tied(), said })
    }

    fn retie(&self, source: &Arc<Source>, edit: Splice, given_up: &GivenUp) -> Option<resume::Retied> {
        // A face is about all knots of its part, and is compared with them when all is tied; a join changes the thread of
        // what hangs at later marks.
        if !source.parsed.problems.is_empty() || has_face(source) || has_join(source) {
            return None;
        }
        let at = self.bodies.around(edit, &Bodies::of(source)?)?;
        resume::tie_around(self.known.as_ref()?, &self.band, source, EditedPart { at, edit, given_up })
    }

    /// Looks up what was edited, and ties what comes after it. `None` if all must be looked up and tied.
    pub(crate) fn tie_after(&self, source: &Arc<Source>, limits: Limits) -> Option<RestTied> {
        let edit = self.edit(source)?;
        if has_face(source) || has_join(source) {
            return None;
        }
        let at = self.bodies.around(edit, &Bodies::of(source)?)?;
        resume::tie_after(self.known.as_ref()?, &self.band, source, (at, edit, limits))
    }

    /// What the band of `pattern` shows, read from `source`, if it is the same band and somebody has looked.
    pub(crate) fn said(self, pattern: &Pattern, source: &Source) -> Option<Vec<Finding>> {
        let Some(edit) = self.edit(source) else {
            return self.said.filter(|_| self.band.is_that_of(pattern, None));
        };
        self.bodies.around(edit, &Bodies::of(source)?)?;
        let said = self.said.filter(|_| self.band.is_that_of(pattern, Some(edit)))?;
        moved_findings(said, edit)
    }
}

fn moved_findings(findings: Vec<Finding>, edit: Splice) -> Option<Vec<Finding>> {
    findings.into_iter().map(|finding| moved_finding(finding, edit)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::Facts;
    use crate::resolve::resolve;
    use crate::tie::tie_parts;
    use crate::{Draft, NoLibrary};

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
        let draft = Draft::new(Arc::new(Source::new("band.knot", text)));
        draft.analyze(&NoLibrary).keep().expect("nothing is wrong")
    }

    /// Whether only a stretch is tied again, and then how many steps of the set.
    fn tied_again(before: &str, text: &str) -> Option<usize> {
        let (kept, source) = (kept(before), Source::new("band.knot", text));
        let edit = Splice::between(before, text, 0)?;
        kept.retie(&Arc::new(source), edit, &GivenUp::NEVER).map(|retied| retied.steps())
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
    fn where_strands_of_one_color_have_changed_places_they_take_over_what_follows() {
        let goes_across = "  take left 1: forward to edge";
        let before = at_line(&long(), 305, &format!("  expect 2 kelp 2 foam\n{goes_across}"));
        let after =
            at_line(&before, 205, &format!("  on left 2 {{ take left 1: forward 1 }}\n{goes_across}"));
        let mut kept = kept(&before);
        let steps = tied_again(&before, &after).expect("the colors hang as they did");
        assert!(steps < LINES / 4, "{steps}");
        let splice = Splice::between(&before, &after, 0).unwrap();
        kept.edited(splice);
        let source = Arc::new(Source::new("band.knot", after.as_str()));
        let resumed = kept.resume(&source, &GivenUp::NEVER).expect("only the edit is tied");
        let fresh = Draft::new(source).analyze(&NoLibrary);
        assert_eq!(Pattern::new(Arc::new(resumed.script), resumed.tied).as_ref(), fresh.pattern());
    }

    #[test]
    fn a_slip_that_is_taken_back_ties_nothing() {
        let text = long();
        let mut kept = kept(&text);
        let (start, end) = (text.len() - 20, text.len() - 15);
        kept.edited(Splice { start, old_end: end, new_end: start + 2 });
        kept.edited(Splice { start, old_end: start + 2, new_end: end });
        let source = Arc::new(Source::new("band.knot", text.as_str()));
        // Between the same two texts there is no stretch to tie.
        assert!(kept.edit(&source).is_none());
        let resumed = kept.resume(&source, &GivenUp::NEVER).expect("nothing is looked up or tied");
        let draft = Draft::new(source);
        let fresh = draft.analyze(&NoLibrary);
        assert_eq!(Pattern::new(Arc::new(resumed.script), resumed.tied).as_ref(), fresh.pattern());
    }

    #[test]
    fn where_something_is_wrong_only_what_comes_after_the_mark_before_it_is_tied() {
        let text = long();
        for line in [
            "  take left 1 (foam): forward 3",
            "  take left 1: forwrad 3",
            "  take left 1 (coral): forward to edge",
            "  take left 1 as crest: forward 9",
            "  take left 1: forward 2",
        ] {
            let text = at_line(&text, 205, line);
            let mut kept = kept(&long());
            kept.edited(Splice::between(&long(), &text, 0).unwrap());
            let source = Arc::new(Source::new("band.knot", text));
            let rest = kept.tie_after(&source, Limits::WHOLE).expect("the edit lies in the set");
            let mut facts = Facts::default();
            let script = resolve(Arc::clone(&source), &NoLibrary, &mut facts);
            let named = facts.count();
            let tied = tie_parts(&script, None, Limits::WHOLE, &mut facts).unwrap();
            assert_eq!((rest.named, rest.facts.into_list()), (named, facts.into_list()), "{line}");
            assert_eq!(
                (rest.tied.cost, rest.tied.closes, &rest.tied.marks),
                (tied.cost, tied.closes, &tied.marks)
            );
            let pattern = |script, tied| Pattern::new(Arc::new(script), tied);
            assert_eq!(pattern(rest.script, rest.tied), pattern(script, tied), "{line}");
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
