//! What a rule is. Each is in a file of its own in `rules/`; its name is its only identity.

use crate::Severity;

/// A rule: the page that `explain` shows, and the name under which settings and `-- allow` know it.
#[derive(Debug, PartialEq)]
pub struct Rule {
    /// Its stable kebab-case name.
    pub name: &'static str,
    /// How grave its findings are if the settings say nothing.
    pub severity: Severity,
    /// What code elsewhere may ask of it.
    pub tags: &'static [Tag],
    /// What it says, in one line.
    pub summary: &'static str,
    /// Why it matters to a person who ties the band.
    pub why: &'static str,
    /// A whole file in which it is found.
    pub example: &'static str,
    /// The same file, mended: the rule finds nothing in it.
    pub instead: &'static str,
}

/// What a rule finds, as far as other code treats it differently. Nothing else compares rules by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tag {
    /// A knot or a strand is missing from the band, as one slip brings about.
    Hole,
    /// The strands do not hang after the set as before it.
    Open,
    /// The picture is symmetric but for a few knots.
    Uneven,
    /// The marks of a chart are symmetric but for a few.
    UnevenChart,
    /// A chart has a row too many or too few to be tied again after itself.
    OddChart,
    /// Something that a slip elsewhere may have brought about: a name that nothing uses, a thread that is used too much.
    Symptom,
    /// Nothing uses a name: the step that did may be missing.
    Unused,
    /// No strand is made of a thread.
    Unhung,
    /// A step ties nothing.
    IdleStep,
    /// A face cannot be tied with the strands as they hang.
    NoWay,
    /// A knot shows another color than a face promises.
    OtherFace,
    /// Several files are wrong together: each of them has the same finding, with places of the others.
    Together,
    /// A comment of the file, which no other comment can allow.
    Comment,
    /// More than may be tied or kept.
    Limit,
}

impl Rule {
    /// Whether it has this tag.
    pub fn has(&self, tag: Tag) -> bool {
        self.tags.contains(&tag)
    }
}
