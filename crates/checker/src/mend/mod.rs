//! What the author surely meant: the one edit after which every promise holds and the set closes.
//!
//! Where a promise breaks, or the set does not close, every single edit of an earlier step is a candidate: a count or a
//! place by 1 or 2, a kind turned round, left for right, a mark of a chart, another thread; and a step, a row or a strand
//! left out, put in, doubled or exchanged. What was tied before every strand was last seen to be right is no candidate
//! ([`settled`]), and what may be missing only where it could come first ([`offered`]).
//!
//! The pattern is tied twice for that, not once for each: first it is written down what every step rests on, then each
//! statement is tied with its edits where it stands, and the law of renaming ([`renaming`]) says what comes of them after
//! it. Those after which nothing is wrong are ranked by how their knots lie; only those that may be offered are looked at as
//! bands ([`ranks`]), and tied again around the edit where that is enough ([`retied`]).

mod added;
mod again;
mod ahead;
mod asked;
mod blamed;
mod candidates;
mod causes;
mod copies;
mod doubled;
mod edits;
mod expects;
mod face;
mod face_letters;
mod face_rows;
mod face_whole;
mod filling;
mod follower;
mod habits;
mod halves;
mod hole_search;
mod holes;
mod idle;
mod in_hand;
mod insertions;
mod known;
mod lie;
mod lines;
mod listing;
mod numberless;
mod offered;
mod pairs;
mod passes;
mod plain_list;
mod ranks;

mod rehung;
mod remedies;
mod renaming;
mod reread;
mod retied;
mod runs;
mod search;
mod settled;
mod shape;
mod slots;
mod spelling;
mod splice;
mod strands;
mod strands_words;
mod structure;
mod symmetry;
#[cfg(test)]
mod tests;
mod torn;
mod trial;
mod tried;
mod unhung;
mod vain_gaps;
mod words;

pub(crate) use causes::{Wrongs, note_what_follows, places_of};
pub(crate) use doubled::find_doubled;
pub(crate) use edits::{DueEdit, EditSearch, HungStrands, TiedEdit};
pub(crate) use expects::{MendedExpect, mend_expects};
pub(crate) use face::FaceMender;
pub(crate) use face_rows::mend_face_rows;
pub(crate) use face_whole::FaceGoal;
pub(crate) use halves::mend_halves;
pub(crate) use hole_search::mend_hole;
pub(crate) use idle::mend_idle_step;
pub(crate) use known::KnownPass;
pub(crate) use numberless::{put_in_number, side_without_number};
pub(crate) use pairs::mend_pairs;
pub(crate) use remedies::add_remedies;
pub(crate) use renaming::Renamed;
pub(crate) use reread::{Rereader, WrongAt};
pub(crate) use retied::TiedBand;
pub(crate) use search::{Goal, Mended, mend_closing, mend_facts};
pub(crate) use spelling::{may_be_a_word, rename_copy, respell_name};
pub(crate) use symmetry::{mend_chart, mend_symmetry};
pub(crate) use unhung::mend_unhung;
