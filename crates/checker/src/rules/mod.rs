//! Every mistake that can be reported, each in a file of its own: its page, its words and, for a warning, how it is found.
//!
//! Errors come here as typed facts ([`FactKind`]) or as problems of the text ([`ProblemKind`]); both are matched
//! without a wildcard, so that a new one does not compile until a rule speaks for it. Warnings look at the tied
//! pattern and at the text themselves.

pub(crate) mod allow_without_effect;
mod argument_count;
mod base_is_other;
mod bead_hole_tight;
mod bead_hole_too_small;
mod bead_strands_apart;
mod beads_crowded;
mod broken_promise;
mod color_length;
mod color_not_there;
mod conflict_marks;
mod count_of_zero;
mod count_where_over_would_do;
mod end_cannot_be_made;
mod end_said_twice;
mod expect_fails;
mod expect_length;
mod face_cannot_be_tied;
mod face_differs;
mod face_elsewhere;
mod face_knots;
mod face_letter;
mod face_not_tied;
mod face_uneven;
mod file_too_large;
mod gauge_disagrees;
mod idle_step;
mod idle_strand;
mod import_circular;
mod import_lacks_motif;
mod import_not_there;
mod impossible_measure;
mod join_set;
mod join_without_knot;
mod joined_twice;
mod label_outside;
mod language_tag;
mod leader_changes_side;
mod leader_not_at_edge;
mod length_and_sets;
mod letter_count;
mod letter_not_there;
mod letters_do_not_fit;
mod longer_than_skein;
mod look_alike_neighbors;
mod misplaced_statement;
mod missing_brick;
mod motif_does_not_fit;
mod motif_works_itself;
mod name_differs_by_case;
mod name_taken;
mod near_mirror;
mod nearly_symmetric;
mod negative_count;
mod nested_too_deep;
mod never_joined;
mod newer_edition;
mod no_pattern;
mod no_strands;
mod not_a_whole_number;
mod not_by_place;
mod not_understood;
mod nothing_tied;
mod nothing_to_tie;
mod number_too_large;
mod number_touches_word;
mod odd_chart_repeats;
mod pairs_do_not_match;
mod past_the_edge;
mod place_not_there;
mod ragged_start;
mod range_not_there;
mod reserved_name;
mod row_length;
mod said_twice;
mod series_runs_away;
mod set_does_not_close;
mod shorter_than_set;
mod step_twice;
mod strand_count;
mod string_sign;
mod thread_of_other_file;
mod too_many_knots;
mod too_many_passes;
mod too_much_memory;
mod two_colors_meet;
mod unclosed_string;
mod unequal_halves;
mod uneven_use;
pub(crate) mod unknown_color;
mod unknown_mark;
pub(crate) mod unknown_name;
mod unknown_sign;
mod unknown_statement;
pub(crate) mod unmatched_brace;
mod until_never;
mod unused_bead;
mod unused_label;
mod unused_motif;
mod unused_name;
mod unused_thread;
mod wrong_sort;
mod wrong_way;

pub(crate) use face_differs::{mend_face, other_works};
pub(crate) use missing_brick::holes_closed_at;
pub(crate) use set_does_not_close::is_open_on_purpose;
pub(crate) use step_twice::words as word_twice;
pub(crate) use unmatched_brace::{never_opened as word_orphans, twice as word_twins};
pub(crate) use wrong_sort::numberless as word_numberless;

use crate::finders::Finder;
use crate::page;
use crate::reflection::mirrored_mark;
use crate::rephrase::Rephrased;
use crate::wording::{either, quoted};
use crate::woven::Woven;
use crate::{Fact, FactKind, FileId, Finding, Mend, Place, Rule, Source, Tag};
use knotwright_grammar::{Problem, ProblemKind};
use knotwright_lettering::LetterTrouble;

/// Declares every rule once: the name of its module and, for a warning, what its `find` looks at. All lists of rules follow
/// from it. (`mod` lines stand apart, as rustfmt finds no file that a macro declares; a rule that is in one of the two places
/// and not in the other does not compile.)
macro_rules! rules {
    ($($rule:ident $(finds in $finder:ident)?,)*) => {
        /// Every rule, by name.
        static ALL: &[&Rule] = &[$(&$rule::RULE),*];

        /// The warnings' finders, in the order of their rules.
        pub(crate) static FINDERS: &[Finder] = &[$($(Finder::$finder($rule::find),)?)*];
    };
}

rules! {
    allow_without_effect,
    argument_count,
    base_is_other,
    bead_hole_tight finds in Text,
    bead_hole_too_small,
    bead_strands_apart,
    beads_crowded finds in Band,
    broken_promise,
    color_length,
    color_not_there,
    conflict_marks,
    count_of_zero,
    count_where_over_would_do finds in Steps,
    end_cannot_be_made,
    end_said_twice,
    expect_fails,
    expect_length,
    face_cannot_be_tied,
    face_differs,
    face_elsewhere,
    face_knots,
    face_letter,
    face_not_tied finds in Steps,
    face_uneven,
    file_too_large,
    gauge_disagrees finds in Text,
    idle_step finds in Steps,
    idle_strand finds in Holes,
    import_circular,
    import_lacks_motif,
    import_not_there,
    impossible_measure,
    join_set,
    join_without_knot,
    joined_twice,
    label_outside,
    language_tag finds in Text,
    leader_changes_side finds in Steps,
    leader_not_at_edge,
    length_and_sets,
    letter_count,
    letter_not_there,
    letters_do_not_fit,
    longer_than_skein finds in Band,
    look_alike_neighbors finds in Band,
    misplaced_statement,
    missing_brick finds in Holes,
    motif_does_not_fit,
    motif_works_itself,
    name_differs_by_case finds in Names,
    name_taken,
    near_mirror finds in Text,
    nearly_symmetric finds in WholeBand,
    negative_count,
    nested_too_deep,
    never_joined finds in Holes,
    newer_edition,
    no_pattern,
    no_strands,
    not_a_whole_number,
    not_by_place,
    not_understood,
    nothing_tied,
    nothing_to_tie,
    number_too_large,
    number_touches_word,
    odd_chart_repeats finds in Text,
    pairs_do_not_match,
    past_the_edge,
    place_not_there,
    ragged_start finds in Holes,
    range_not_there,
    reserved_name,
    row_length,
    said_twice,
    series_runs_away,
    set_does_not_close finds in Steps,
    shorter_than_set finds in Band,
    step_twice,
    strand_count,
    string_sign,
    thread_of_other_file,
    too_many_knots,
    too_many_passes,
    too_much_memory,
    two_colors_meet,
    unclosed_string,
    unequal_halves,
    uneven_use finds in Band,
    unknown_color,
    unknown_mark,
    unknown_name,
    unknown_sign,
    unknown_statement,
    unmatched_brace,
    until_never,
    unused_bead finds in Names,
    unused_label finds in Names,
    unused_motif finds in Names,
    unused_name finds in Names,
    unused_thread finds in Names,
    wrong_sort,
    wrong_way,
}

/// Every rule, sorted by name.
pub fn all() -> &'static [&'static Rule] {
    ALL
}

/// The rule of that name.
pub fn named(name: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.name == name)
}

/// The page of a rule, in Markdown: what `explain` shows and the docs hold.
pub fn write_page(rule: &Rule) -> String {
    page::write_page(rule)
}

/// The list of all pages, in Markdown.
pub fn write_index() -> String {
    page::write_index(ALL)
}

/// The words for something in `source` that does not parse.
pub(crate) fn word_problem(problem: &Problem, file: FileId, source: &Source) -> Finding {
    let found = problem.span.of(&source.text);
    match &problem.kind {
        ProblemKind::Unexpected { expected } => not_understood::words(found, expected),
        ProblemKind::Misspelled { meant } => not_understood::misspelled(found, meant),
        ProblemKind::UnknownStatement { nearest } => unknown_statement::words(found, *nearest),
        ProblemKind::Misplaced { statement, belongs } => misplaced_statement::words(statement, *belongs),
        ProblemKind::ReservedName => reserved_name::words(found),
        ProblemKind::UnclosedString => unclosed_string::words(),
        ProblemKind::UnknownEscape => string_sign::escape(found),
        ProblemKind::BraceInString => string_sign::brace(found),
        ProblemKind::UnknownSign => unknown_sign::words(found),
        ProblemKind::NumberTooLarge => number_too_large::words(),
        ProblemKind::NumberTouchesWord => number_touches_word::words(found),
        ProblemKind::NotWhole => not_a_whole_number::words(found),
        ProblemKind::UnknownMark { chart } => unknown_mark::words(found, *chart),
        ProblemKind::MissingClose => unmatched_brace::never_closed(),
        ProblemKind::OpenAtEnd { opened } => unmatched_brace::open_at_end(opened, file, source),
        ProblemKind::StrayClose => unmatched_brace::closes_nothing(),
        ProblemKind::TooDeep => nested_too_deep::words(),
        ProblemKind::ConflictMarks => conflict_marks::words(found),
        ProblemKind::NewerEdition { edition } => newer_edition::words(*edition),
        ProblemKind::TooLarge => file_too_large::words(),
    }
}

/// The words for a problem of which it is known how the notation says it. A reserved word is not what is wrong, if it was not
/// to be a name.
pub(crate) fn word_rephrased(problem: &Problem, finding: Finding, rephrased: Rephrased) -> Finding {
    let Rephrased { says, write, mends } = rephrased;
    let is_name = problem.kind == ProblemKind::ReservedName;
    let rule = if is_name { &not_understood::RULE } else { finding.rule };
    let ways: Vec<String> = write.iter().map(|way| quoted(way)).collect();
    let help = Some(format!("Write {}.", either(&ways.iter().map(String::as_str).collect::<Vec<_>>())));
    Finding { rule, message: says, help, mends, ..finding }
}

/// Whether a word of the notation is not spelled as it is: whatever else is wrong, this is.
pub(crate) fn is_of_a_word(finding: &Finding) -> bool {
    let rules = [&unknown_statement::RULE, &not_understood::RULE];
    finding.place.file == FileId::CHECKED && rules.iter().any(|rule| std::ptr::eq(*rule, finding.rule))
}

/// The words for a fact.
pub(crate) fn word_fact(fact: &Fact) -> Finding {
    let mut finding = word_kind(&fact.kind).at(fact.place);
    for &work in &fact.through {
        finding = finding.note(work, "the motif is worked here");
    }
    if let FactKind::CannotLetter { trouble } = &fact.kind
        && let Some(height) = trouble.height_instead()
    {
        finding.mends.push(Mend::write(&height.to_string(), fact.place));
    }
    if let FactKind::ColorLength(trouble) = &fact.kind {
        finding.mends.extend(color_length::mend(trouble, fact.place));
    }
    if fact.mirrored {
        finding = finding.note(fact.place, "met in the mirror image, where left and right change places");
    }
    finding
}

/// The rule that a fact is said by.
pub(crate) fn rule_of(fact: &Fact) -> &'static Rule {
    match &fact.kind {
        // All its strands need not be put into words for that.
        FactKind::ExpectFails { .. } => &expect_fails::RULE,
        kind => word_kind(kind).rule,
    }
}

/// How many holes and loose strands a band has, those that one step causes in every pass and every set counted each.
pub(crate) fn count_holes(woven: &Woven) -> usize {
    missing_brick::count_all(woven)
        + ragged_start::find(woven).len()
        + idle_strand::count(woven)
        + never_joined::find(woven).len()
}

/// Without what a chart's marks show of a mirror, where the picture shows the same or a hole: that is one mistake.
pub(crate) fn unrepeated_mirrors(mut findings: Vec<Finding>, source: &Source) -> Vec<Finding> {
    let is_uneven = |finding: &&Finding| finding.rule.has(Tag::Uneven);
    let seen: Vec<Place> = findings
        .iter()
        .filter(is_uneven)
        .flat_map(|finding| finding.notes.iter().map(|note| note.place).chain([finding.place]))
        .collect();
    let is_torn = findings.iter().any(|finding| finding.rule.has(Tag::Hole));
    let is_mark = |place: &Place| mirrored_mark(place.span.of(&source.text)).is_some();
    let is_said = |place: &Place| seen.contains(place) || (is_torn && is_mark(place));
    findings.retain(|finding| !finding.rule.has(Tag::UnevenChart) || !is_said(&finding.place));
    findings
}

fn word_kind(kind: &FactKind) -> Finding {
    use FactKind as F;
    match kind {
        F::NoPattern => no_pattern::words(),
        F::Repeated { statement, first } => said_twice::words(statement, *first),
        F::NameTaken { name, first } => name_taken::words(name, *first),
        F::UnknownColor { written, nearest } => unknown_color::words(written, *nearest),
        F::ColorLength(trouble) => color_length::words(trouble),
        F::NoStrands => no_strands::words(),
        F::NothingTied => nothing_tied::words(),
        F::TooFewStrands { count } => strand_count::too_few(*count),
        F::TooManyStrands { count } => strand_count::too_many(*count),
        F::UnequalHalves { left, right } => unequal_halves::words(*left, *right),
        F::CountOfZero => count_of_zero::words(),
        F::LengthAndSets { first } => length_and_sets::words(*first),
        F::ZeroMeasure { what } => impossible_measure::nothing(what),
        F::ImplausibleMeasure { what, millimeters } => impossible_measure::implausible(what, *millimeters),
        F::OddPairs { strands } => pairs_do_not_match::odd(*strands),
        F::PairsDisagree { left, right, left_thread, right_thread } => {
            use pairs_do_not_match::{FoldedEnd, two_colors};
            let end = |position: usize, thread| FoldedEnd { position, thread };
            two_colors(&end(*left, left_thread), &end(*right, right_thread))
        }
        F::LoopBesideBegin { begin } => end_said_twice::round(*begin),
        F::EndsBesideBlocks { begin, finish } => end_said_twice::free(*begin, *finish),
        F::Ends(trouble) => end_cannot_be_made::words(trouble),
        F::ImplausibleDensity { tex } => impossible_measure::too_heavy(*tex),
        F::BeadAllHole { across, hole } => impossible_measure::all_hole(*across, *hole),
        F::BeadHole(trouble) => bead_hole_too_small::words(trouble),
        F::UnknownName(unknown) => unknown_name::words(unknown),
        F::NotANumber { name, given } => wrong_sort::not_a_number(name, *given),
        F::NotAThread { name, given } => wrong_sort::not_a_thread(name, *given),
        F::ArgumentCount { motif, wanted, given, defined } => {
            argument_count::words(motif, *wanted, *given, *defined)
        }
        F::MotifWorksItself { motif, by_way_of } => motif_works_itself::words(motif, by_way_of),
        F::WorkTooDeep { motif, deepest } => nested_too_deep::motifs(motif, *deepest),
        F::ThreadOfOtherFile { name, motif } => thread_of_other_file::words(name, motif),
        F::BeadOfOtherFile { name, motif } => thread_of_other_file::bead(name, motif),
        F::MotifMeantForOther { motif, wanted, width } => {
            motif_does_not_fit::meant_for_other(motif, *wanted, *width)
        }
        F::MotifDoesNotFit { motif, wanted, width, defined } => {
            motif_does_not_fit::words(motif, *wanted, *width, *defined)
        }
        F::ImportMissing { path } => import_not_there::missing(path),
        F::ImportOutside { path } => import_not_there::outside(path),
        F::ImportUnreadable { path, reason } => import_not_there::unreadable(path, reason),
        F::ImportCircular { path, others } => import_circular::words(path, others),
        F::ImportLacks { path, motif, nearest } => import_lacks_motif::words(path, motif, nearest.as_deref()),
        F::PlaceNotThere { number, side, width } => place_not_there::beyond(*number, *side, *width),
        F::NoMiddleTwo { width } => place_not_there::no_middle_two(*width),
        F::NoMiddleOne { width } => place_not_there::no_middle_one(*width),
        F::ColorNotThere { thread, number, there } => color_not_there::words(thread, *number, *there),
        F::LabelOutside { label, sighting } => label_outside::words(label, sighting),
        F::RangeNotThere { wanted, width } => range_not_there::outside(wanted, *width),
        F::RangeTooNarrow { strands } => range_not_there::narrow(*strands),
        F::RangeOffCenter { strands, width } => range_not_there::off_center(*strands, *width),
        F::BeadStrandsApart { positions } => bead_strands_apart::words(positions),
        F::NotByPlace { word } => not_by_place::words(word),
        F::BrokenPromise { promised, found, nearest } => broken_promise::words(promised, found, *nearest),
        F::PastEdge { wanted, tied, side, is_computed } => {
            past_the_edge::words(*wanted, *tied, *side, *is_computed)
        }
        F::WrongWay { at, goal } => wrong_way::words(*at, *goal),
        F::BaseIsOther { promised, found, nth } => base_is_other::words(promised, found, *nth),
        F::NothingToTie { word, thread, found } => nothing_to_tie::words(word, thread, found.as_ref()),
        F::UntilNever { thread } => until_never::words(thread),
        F::NegativeCount { value } => negative_count::words(*value),
        F::SeriesAway { first, last, down } => series_runs_away::away(*first, *last, *down),
        F::StepNotPositive { value } => series_runs_away::standing(*value),
        F::NumberTooLarge => number_too_large::words(),
        F::TwoColors { left, right } => two_colors_meet::words(left, right),
        F::RowLength { marks, wanted, width } => row_length::words(*marks, *wanted, *width),
        F::CannotLetter { trouble } => word_letters(trouble),
        F::FaceElsewhere { word } => face_elsewhere::words(word),
        F::FaceLetterUnknown { letter, again } => face_letter::words(*letter, again),
        F::FaceKnots { wished, tied, mark, head } => face_knots::words(*wished, *tied, *mark, *head),
        F::FaceDiffers { wished, found, other, mark, more, .. } => {
            face_differs::words([wished, found, other], *mark, more)
        }
        F::FaceCannotBeTied { marks, are_fewest } => face_cannot_be_tied::words(marks, *are_fewest),
        F::FaceUneven { symmetry, off } => face_uneven::words(*symmetry, *off),
        F::JoinedTwice { first } => joined_twice::words(*first),
        F::JoinWithoutKnot { position } => join_without_knot::words(*position),
        F::JoinSet(trouble) => join_set::words(*trouble),
        F::LeaderNotAtEdge { position, width } => leader_not_at_edge::words(*position, *width),
        F::ExpectLength { listed, width } => expect_length::words(*listed, *width),
        F::ExpectFails { position, promised, found, orders } => {
            expect_fails::words(*position, promised, found, orders)
        }
        F::ExpectStartInMotif => misplaced_statement::expect_start(),
        F::TooManyKnots => too_many_knots::words(),
        F::TooManyPasses => too_many_passes::words(),
        F::TooMuchMemory => too_much_memory::words(),
    }
}

fn word_letters(trouble: &LetterTrouble) -> Finding {
    match trouble {
        LetterTrouble::Empty => letter_count::nothing(),
        LetterTrouble::TooManySigns { signs } => letter_count::too_many(*signs),
        LetterTrouble::NoLetter { sign } => letter_not_there::words(*sign),
        LetterTrouble::NoHeight { height, .. } => letters_do_not_fit::no_height(*height),
        LetterTrouble::TooNarrow(narrow) => letters_do_not_fit::too_narrow(narrow),
    }
}
