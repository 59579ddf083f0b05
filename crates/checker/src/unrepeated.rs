//! One mistake, one finding: what does not parse, without what only says the same again.

use crate::Source;
use knotwright_grammar::{Problem, ProblemKind};
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

/// The problems of a file that are worth reporting. Of two at one place the more particular one is kept; a reserved
/// word that was taken for a name is reported once, however often the name is called.
pub(crate) fn unrepeated_problems(source: &Source) -> Vec<&Problem> {
    let problems = &source.parsed.problems;
    let mut at: HashMap<u32, &Problem> = HashMap::default();
    for problem in problems {
        let kept = at.entry(problem.span.start).or_insert(problem);
        if is_general(kept) && !is_general(problem) {
            *kept = problem;
        }
    }
    let mut names = HashSet::default();
    let is_first = |problem: &&Problem| {
        let is_kept = at.get(&problem.span.start).is_some_and(|kept| std::ptr::eq(*kept, *problem));
        is_kept && (problem.kind != ProblemKind::ReservedName || names.insert(problem.span.of(&source.text)))
    };
    problems.iter().filter(is_first).collect()
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
        unrepeated_problems(&source).into_iter().map(|problem| problem.span.of(text).to_owned()).collect()
    }

    #[test]
    fn a_reserved_name_is_reported_where_it_is_first_given() {
        let text = "pattern \"A\"\nthread edge #123456\nthread left #654321\nstrands 4 edge 2 left\n";
        assert_eq!(shown(text), ["edge", "left"]);
    }

    #[test]
    fn of_two_at_one_place_the_more_particular_is_kept() {
        let mut source = Source::new("band.knot", "pattern \"A\"\nlength 15cm\n");
        let general = Problem { span: Span::new(19, 21), kind: ProblemKind::Unexpected { expected: vec![] } };
        let particular = Problem { span: Span::new(19, 23), kind: ProblemKind::NumberTouchesWord };
        for problems in [[general.clone(), particular.clone()], [particular.clone(), general]] {
            source.parsed.problems = problems.to_vec();
            assert_eq!(unrepeated_problems(&source), [&particular]);
        }
    }

    #[test]
    fn mistakes_on_different_lines_are_all_told() {
        assert_eq!(shown("pattern \"A\"\nsets\nends\n").len(), 2);
    }
}
