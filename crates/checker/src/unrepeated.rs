//! One mistake, one finding: what does not parse, without what only says the same again.

use crate::Source;
use knotwright_grammar::tree::Zone;
use knotwright_grammar::{Problem, ProblemKind, Span};
use rustc_hash::FxHashMap as HashMap;

/// A problem that is worth reporting, with the places where it stands again.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Unrepeated<'a> {
    pub(crate) problem: &'a Problem,
    /// Where it stands next, and how often there.
    pub(crate) next: Option<Span>,
    pub(crate) again: usize,
}

/// What is the same mistake wherever it stands.
#[derive(PartialEq, Eq, Hash)]
enum Mistake<'a> {
    /// A reserved word that was taken for a name: it is wrong where it is first given, not where it is called.
    Name(&'a str),
    /// A sign that somebody believes to be a mark.
    Mark(Zone, &'a str),
}

/// The problems of a file that are worth reporting. Of two at one place the more particular one is kept; a reserved
/// word that was taken for a name is reported once, however often the name is called, and a sign that is no mark once
/// for all charts of a kind.
pub(crate) fn unrepeated_problems(source: &Source) -> Vec<Unrepeated<'_>> {
    let problems = &source.parsed.problems;
    let mut at: HashMap<u32, &Problem> = HashMap::default();
    for problem in problems {
        let kept = at.entry(problem.span.start).or_insert(problem);
        if is_general(kept) && !is_general(problem) {
            *kept = problem;
        }
    }
    let is_kept =
        |problem: &&Problem| at.get(&problem.span.start).is_some_and(|kept| std::ptr::eq(*kept, *problem));
    let (mut firsts, mut unrepeated) = (HashMap::default(), Vec::new());
    for problem in problems.iter().filter(is_kept) {
        let first = mistake(problem, &source.text)
            .map(|mistake| *firsts.entry(mistake).or_insert(unrepeated.len()))
            .and_then(|first| unrepeated.get_mut(first));
        match first {
            Some(Unrepeated { next, again, .. }) => {
                next.get_or_insert(problem.span);
                *again += 1;
            }
            None => unrepeated.push(Unrepeated { problem, next: None, again: 0 }),
        }
    }
    unrepeated
}

fn mistake<'a>(problem: &Problem, text: &'a str) -> Option<Mistake<'a>> {
    let found = problem.span.of(text);
    match problem.kind {
        ProblemKind::ReservedName => Some(Mistake::Name(found)),
        ProblemKind::UnknownMark { chart } => Some(Mistake::Mark(chart, found)),
        _ => None,
    }
}

/// Whether a problem says no more than that something else was due.
fn is_general(problem: &Problem) -> bool {
    matches!(problem.kind, ProblemKind::Unexpected { .. })
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_grammar::Span;

    fn shown(text: &str) -> Vec<String> {
        let source = Source::new("band.knot", text);
        let found = |one: Unrepeated<'_>| one.problem.span.of(text).to_owned();
        unrepeated_problems(&source).into_iter().map(found).collect()
    }

    #[test]
    fn a_reserved_name_is_reported_where_it_is_first_given() {
        let text = "pattern \"A\"\nthread edge #123456\nthread left #654321\nstrands 4 edge 2 left\n";
        assert_eq!(shown(text), ["edge", "left"]);
    }

    #[test]
    fn a_sign_that_is_no_mark_is_reported_once_for_each_kind_of_chart() {
        let text =
            "set {\n  rows {\n    o /\n    o\n    o /\n  }\n  face k kelp {\n    | k |\n    | k |\n  }\n}\n";
        assert_eq!(shown(text), ["o", "|"]);
        let source = Source::new("band.knot", text);
        let marks = unrepeated_problems(&source);
        assert_eq!(marks.iter().map(|mark| mark.again).collect::<Vec<_>>(), [2, 1]);
    }

    #[test]
    fn of_two_at_one_place_the_more_particular_is_kept() {
        let mut source = Source::new("band.knot", "pattern \"A\"\nlength 15cm\n");
        let general = Problem { span: Span::new(19, 21), kind: ProblemKind::Unexpected { expected: vec![] } };
        let particular = Problem { span: Span::new(19, 23), kind: ProblemKind::NumberTouchesWord };
        for problems in [[general.clone(), particular.clone()], [particular.clone(), general]] {
            source.parsed.problems = problems.to_vec();
            let kept: Vec<&Problem> =
                unrepeated_problems(&source).into_iter().map(|one| one.problem).collect();
            assert_eq!(kept, [&particular]);
        }
    }

    #[test]
    fn mistakes_on_different_lines_are_all_told() {
        assert_eq!(shown("pattern \"A\"\nsets\nends\n").len(), 2);
    }
}
