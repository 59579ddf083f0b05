//! What can be done with a piece of the text at the press of a button.
//!
//! Mends come from the findings. Every other change is tried first: it is offered only if the changed text parses,
//! has no error, and ties the same band. One is meant to tie another band, and is proved to tie that: the mirror image.

mod allow;
mod both;
mod bring;
mod chart;
mod extract;
mod faces;
mod fewest;
mod figures;
mod inline;
mod joins;
mod letters;
mod mends;
mod mirror;
mod parameter;
mod pieces;
mod promises;
mod proof;
mod repeats;
mod series;
mod takes;
mod threads;

pub use mends::fix_all;

use crate::{Checked, FileEdit, TextEdit, World};
use knotwright_grammar::Span;

/// Something that can be done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Action {
    /// What it does, in words.
    pub title: String,
    /// Which sort of change it is.
    pub kind: ActionKind,
    /// What is to be replaced, in order of file and place.
    pub edits: Vec<FileEdit>,
    /// The finding that it answers, by its number in the report.
    pub finding: Option<usize>,
    /// Whether it is surely what is wanted.
    pub preferred: bool,
    /// For a change that gives a new name, which somebody may want to choose: how many bytes after the start of the first edit it
    /// stands, on the same line.
    pub new_name: Option<u32>,
}

/// The sorts of changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ActionKind {
    /// Mends a finding, or allows it.
    Fix,
    /// Mends all that can be mended for certain.
    FixAll,
    /// Writes the same band otherwise.
    Rewrite,
    /// Makes a motif of something.
    Extract,
}

/// What can be done at `range`: fixes for the findings there, and other ways to write the same band.
pub fn code_actions(checked: &Checked, world: &World, range: Span) -> Vec<Action> {
    let mut actions = mends::fixes(checked, world, range);
    actions.extend(rewrites(checked, world, range));
    actions
}

/// Other ways to write the same band, each proved.
fn rewrites(checked: &Checked, world: &World, range: Span) -> Vec<Action> {
    if !proof::is_sound(checked, world) {
        return Vec::new();
    }
    let mut proposals = Vec::new();
    proposals.extend(figures::otherwise(checked, range));
    proposals.extend(series::to_list(checked, range));
    proposals.extend(series::to_series(checked, range));
    proposals.extend(both::fold(checked, range));
    proposals.extend(chart::from_steps(checked, range));
    proposals.extend(takes::from_rows(checked, range));
    proposals.extend(repeats::roll_up(checked, range));
    proposals.extend(repeats::unroll(checked, range));
    proposals.extend(promises::colors(checked, range));
    proposals.extend(promises::order(checked, range));
    proposals.extend(letters::to_rows(checked, range));
    proposals.extend(extract::motif(checked, range));
    proposals.extend(inline::motif(checked, range));
    proposals.extend(parameter::of_value(checked, world, range));
    proposals.extend(threads::exchange(checked, range));
    proposals.extend(threads::sort(checked, range));
    proposals.extend(fewest::pick_ups(checked, world, range));
    proposals.retain(|proposal| (world.is_wanted)() && proof::same_band(checked, world, &proposal.edits));
    // After it, the band is another one, and it says so.
    proposals.extend(mirror::selection(checked, world, range));
    // These show the same face, and are another band as well; their text was tied and compared with the face.
    proposals.extend(faces::tie(checked, world, range));
    proposals.extend(faces::fewer_turning(checked, world, range));
    // The knots are the same, of more pieces of thread; that was proved, too.
    proposals.extend(joins::long_strands(checked, world, range));
    proposals.into_iter().map(|proposal| proposal.action(checked)).collect()
}

/// A change that is still to be proved.
struct Proposal {
    title: String,
    kind: ActionKind,
    edits: Vec<TextEdit>,
    /// See [`Action::new_name`].
    new_name: Option<u32>,
}

impl Proposal {
    fn new(title: impl Into<String>, edits: Vec<TextEdit>) -> Self {
        Self { title: title.into(), kind: ActionKind::Rewrite, edits, new_name: None }
    }

    fn action(self, checked: &Checked) -> Action {
        let path = &checked.source().path;
        let file = |edit: TextEdit| FileEdit { path: path.clone(), span: edit.span, text: edit.text };
        let mut edits: Vec<FileEdit> = self.edits.into_iter().map(file).collect();
        edits.sort();
        Action {
            title: self.title,
            kind: self.kind,
            edits,
            finding: None,
            preferred: false,
            new_name: self.new_name,
        }
    }
}
