//! Every mistake that can be told, each in a file of its own: its page, its words and, for a warning, how it is found.
//!
//! Errors come here as typed facts ([`FactKind`]) or as problems of the text ([`ProblemKind`]); both are matched
//! without a wildcard, so that a new one does not compile until a rule speaks for it. Warnings look at the tied
//! pattern and at the text themselves.

pub(crate) mod allow_without_effect;
mod argument_count;
mod base_is_other;
mod broken_promise;
mod color_not_there;
mod count_of_zero;
mod count_where_over_would_do;
mod expect_fails;
mod expect_length;
mod file_too_large;
mod idle_strand;
mod import_circular;
mod import_lacks_motif;
mod import_not_there;
mod impossible_measure;
mod label_outside;
mod leader_changes_side;
mod leader_not_at_edge;
mod length_and_sets;
mod look_alike_neighbours;
mod misplaced_statement;
mod missing_brick;
mod motif_does_not_fit;
mod motif_works_itself;
mod name_differs_by_case;
mod name_taken;
mod near_mirror;
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
mod strand_count;
mod string_sign;
mod thread_of_other_file;
mod too_many_knots;
mod two_colors_meet;
mod unclosed_string;
mod unequal_halves;
mod uneven_use;
mod unknown_color;
mod unknown_mark;
mod unknown_name;
mod unknown_sign;
mod unknown_statement;
mod unmatched_brace;
mod until_never;
mod unused_label;
mod unused_motif;
mod unused_thread;
mod wrong_sort;
mod wrong_way;

use crate::contents::Contents;
use crate::page;
use crate::woven::{Sound, Woven};
use crate::{Checked, Fact, FactKind, FileId, Finding, Mend, Place, Rule, Source};
use knotwright_grammar::{Problem, ProblemKind};

/// Every rule, by name.
static ALL: &[&Rule] = &[
    &allow_without_effect::RULE,
    &argument_count::RULE,
    &base_is_other::RULE,
    &broken_promise::RULE,
    &color_not_there::RULE,
    &count_of_zero::RULE,
    &count_where_over_would_do::RULE,
    &expect_fails::RULE,
    &expect_length::RULE,
    &file_too_large::RULE,
    &idle_strand::RULE,
    &import_circular::RULE,
    &import_lacks_motif::RULE,
    &import_not_there::RULE,
    &impossible_measure::RULE,
    &label_outside::RULE,
    &leader_changes_side::RULE,
    &leader_not_at_edge::RULE,
    &length_and_sets::RULE,
    &look_alike_neighbours::RULE,
    &misplaced_statement::RULE,
    &missing_brick::RULE,
    &motif_does_not_fit::RULE,
    &motif_works_itself::RULE,
    &name_differs_by_case::RULE,
    &name_taken::RULE,
    &near_mirror::RULE,
    &negative_count::RULE,
    &nested_too_deep::RULE,
    &never_joined::RULE,
    &newer_edition::RULE,
    &no_pattern::RULE,
    &no_strands::RULE,
    &not_a_whole_number::RULE,
    &not_by_place::RULE,
    &not_understood::RULE,
    &nothing_tied::RULE,
    &nothing_to_tie::RULE,
    &number_too_large::RULE,
    &number_touches_word::RULE,
    &odd_chart_repeats::RULE,
    &pairs_do_not_match::RULE,
    &past_the_edge::RULE,
    &place_not_there::RULE,
    &ragged_start::RULE,
    &range_not_there::RULE,
    &reserved_name::RULE,
    &row_length::RULE,
    &said_twice::RULE,
    &series_runs_away::RULE,
    &set_does_not_close::RULE,
    &strand_count::RULE,
    &string_sign::RULE,
    &thread_of_other_file::RULE,
    &too_many_knots::RULE,
    &two_colors_meet::RULE,
    &unclosed_string::RULE,
    &unequal_halves::RULE,
    &uneven_use::RULE,
    &unknown_color::RULE,
    &unknown_mark::RULE,
    &unknown_name::RULE,
    &unknown_sign::RULE,
    &unknown_statement::RULE,
    &unmatched_brace::RULE,
    &until_never::RULE,
    &unused_label::RULE,
    &unused_motif::RULE,
    &unused_thread::RULE,
    &wrong_sort::RULE,
    &wrong_way::RULE,
];

/// Every rule, sorted by name.
pub fn all() -> &'static [&'static Rule] {
    ALL
}

/// The rule of that name.
pub fn named(name: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.name == name)
}

/// The page of a rule, in Markdown: what `explain` shows and the docs hold.
pub fn page(rule: &Rule) -> String {
    page::of(rule)
}

/// The list of all pages, in Markdown.
pub fn index() -> String {
    page::index(ALL)
}

/// The words for something in `source` that does not parse.
pub(crate) fn problem(problem: &Problem, file: FileId, source: &Source) -> Finding {
    let found = problem.span.of(&source.text);
    let finding = match &problem.kind {
        ProblemKind::Unexpected { expected } => not_understood::words(found, expected),
        ProblemKind::Misspelled { meant } => not_understood::misspelled(found, meant),
        ProblemKind::UnknownStatement { nearest } => unknown_statement::words(found, *nearest),
        ProblemKind::Misplaced { statement, belongs } => misplaced_statement::words(statement, belongs),
        ProblemKind::ReservedName => reserved_name::words(found),
        ProblemKind::UnclosedString => unclosed_string::words(),
        ProblemKind::UnknownEscape => string_sign::escape(found),
        ProblemKind::BraceInString => string_sign::brace(found),
        ProblemKind::UnknownSign => unknown_sign::words(found),
        ProblemKind::NumberTooLarge => number_too_large::words(),
        ProblemKind::NumberTouchesWord => number_touches_word::words(found),
        ProblemKind::NotWhole => not_a_whole_number::words(found),
        ProblemKind::UnknownMark => unknown_mark::words(found),
        ProblemKind::MissingClose => unmatched_brace::never_closed(),
        ProblemKind::StrayClose => unmatched_brace::closes_nothing(),
        ProblemKind::TooDeep => nested_too_deep::words(),
        ProblemKind::NewerEdition { edition } => newer_edition::words(*edition),
        ProblemKind::TooLarge => file_too_large::words(),
    };
    let place = Place { file, span: problem.span };
    let mut finding = finding.at(place);
    finding.mends.extend(meant(&problem.kind).map(|word| Mend::write(word, place)));
    finding
}

/// The word that was surely meant.
fn meant(kind: &ProblemKind) -> Option<&'static str> {
    match kind {
        ProblemKind::Misspelled { meant } => Some(meant),
        ProblemKind::UnknownStatement { nearest } => *nearest,
        _ => None,
    }
}

/// The words for a fact.
pub(crate) fn words(fact: &Fact) -> Finding {
    let mut finding = said(&fact.kind).at(fact.place);
    for &work in &fact.through {
        finding = finding.note(work, "the motif is worked here");
    }
    if fact.mirrored {
        finding = finding.note(fact.place, "met in the mirror image, where left and right change places");
    }
    finding
}

/// Warnings that look at the text.
static AT_TEXT: &[fn(&Checked, &Contents) -> Vec<Finding>] = &[
    name_differs_by_case::find,
    unused_thread::find,
    unused_motif::find,
    unused_label::find,
    near_mirror::find,
    odd_chart_repeats::find,
];

/// Warnings that look at the steps of a pattern without an error, and how they are written.
static AT_STEPS: &[fn(&Sound) -> Vec<Finding>] =
    &[set_does_not_close::find, leader_changes_side::find, count_where_over_would_do::find];

/// Warnings that look at the band alone. Of the text they see the head, and where each step stands.
static AT_BAND: &[fn(&Woven) -> Vec<Finding>] = &[
    never_joined::find,
    idle_strand::find,
    missing_brick::find,
    ragged_start::find,
    uneven_use::find,
    look_alike_neighbours::find,
];

/// What ties but is surely not meant so. With an error in the file the band is not the one that was meant, and only
/// the text is looked at.
pub(crate) fn warnings(checked: &Checked) -> Vec<Finding> {
    let mut found = of_text(checked);
    found.extend(of_band(checked));
    found
}

/// What the text and the steps show.
pub(crate) fn of_text(checked: &Checked) -> Vec<Finding> {
    let sound = Sound::of(checked);
    let contents = Contents::of(checked.source);
    let texts = AT_TEXT.iter().flat_map(|find| find(checked, &contents));
    texts.chain(AT_STEPS.iter().flat_map(|find| sound.as_ref().map(find).unwrap_or_default())).collect()
}

/// What the band shows.
pub(crate) fn of_band(checked: &Checked) -> Vec<Finding> {
    let sound = Sound::of(checked);
    let Some(woven) = sound.as_ref().and_then(Woven::of) else { return Vec::new() };
    AT_BAND.iter().flat_map(|find| find(&woven)).collect()
}

fn said(kind: &FactKind) -> Finding {
    use FactKind as F;
    match kind {
        F::NoPattern => no_pattern::words(),
        F::Repeated { statement, first } => said_twice::words(statement, *first),
        F::NameTaken { name, first } => name_taken::words(name, *first),
        F::UnknownColor { written, nearest } => unknown_color::words(written, *nearest),
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
            pairs_do_not_match::two_colors((*left, left_thread), (*right, right_thread))
        }
        F::UnknownThread { name, nearest } => unknown_name::thread(name, nearest.as_deref()),
        F::UnknownNumber { name, nearest } => unknown_name::number(name, nearest.as_deref()),
        F::UnknownLabel { name, nearest } => unknown_name::label(name, nearest.as_deref()),
        F::UnknownMotif { name, nearest } => unknown_name::motif(name, nearest.as_deref()),
        F::NotANumber { name, given } => wrong_sort::not_a_number(name, *given),
        F::NotAThread { name, given } => wrong_sort::not_a_thread(name, *given),
        F::ArgumentCount { motif, wanted, given, defined } => {
            argument_count::words(motif, *wanted, *given, *defined)
        }
        F::MotifWorksItself { motif, by_way_of } => motif_works_itself::words(motif, by_way_of),
        F::WorkTooDeep { motif, deepest } => nested_too_deep::motifs(motif, *deepest),
        F::ThreadOfOtherFile { name, motif } => thread_of_other_file::words(name, motif),
        F::MotifDoesNotFit { motif, wanted, width, defined } => {
            motif_does_not_fit::words(motif, *wanted, *width, *defined)
        }
        F::ImportMissing { path } => import_not_there::missing(path),
        F::ImportOutside { path } => import_not_there::outside(path),
        F::ImportUnreadable { path, reason } => import_not_there::unreadable(path, reason),
        F::ImportCircular { path } => import_circular::words(path),
        F::ImportLacks { path, motif, nearest } => import_lacks_motif::words(path, motif, nearest.as_deref()),
        F::PlaceNotThere { number, side, width } => place_not_there::beyond(*number, *side, *width),
        F::NoMiddleTwo { width } => place_not_there::no_middle_two(*width),
        F::NoMiddleOne { width } => place_not_there::no_middle_one(*width),
        F::ColorNotThere { thread, number, there } => color_not_there::words(thread, *number, *there),
        F::LabelOutside { label, sighting } => label_outside::words(label, sighting),
        F::RangeNotThere { wanted, width } => range_not_there::outside(wanted, *width),
        F::RangeTooNarrow { strands } => range_not_there::narrow(*strands),
        F::RangeOffCenter { strands, width } => range_not_there::off_center(*strands, *width),
        F::NotByPlace { word } => not_by_place::words(word),
        F::BrokenPromise { promised, found, nearest } => broken_promise::words(promised, found, *nearest),
        F::PastEdge { wanted, tied, side } => past_the_edge::words(*wanted, *tied, *side),
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
        F::LeaderNotAtEdge { position, width } => leader_not_at_edge::words(*position, *width),
        F::ExpectLength { listed, width } => expect_length::words(*listed, *width),
        F::ExpectFails { position, promised, found, differing } => {
            expect_fails::words(*position, promised, found, *differing)
        }
        F::ExpectStartInMotif => misplaced_statement::expect_start(),
        F::TooManyKnots => too_many_knots::words(),
    }
}
