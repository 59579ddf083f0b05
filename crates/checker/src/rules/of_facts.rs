//! The words for each fact: which rule speaks for it.

use super::*;

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
        F::UnknownThread { name, nearest } => unknown_name::thread(name, nearest.as_deref()),
        F::UnknownBead { name, nearest } => unknown_name::bead(name, nearest.as_deref()),
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
        F::BeadOfOtherFile { name, motif } => thread_of_other_file::bead(name, motif),
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
        F::FaceLetterUnknown { letter } => face_letter::words(*letter),
        F::FaceKnots { wished, tied, mark, head } => face_knots::words(*wished, *tied, *mark, *head),
        F::FaceDiffers { wished, found, other, mark, .. } => {
            face_differs::words([wished, found, other], *mark)
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
