//! A thread that hangs nowhere.

use crate::contents::Contents;
use crate::reading::{is_begun, is_library, words};
use crate::{Checked, Edit, FileId, Finding, Mend, Place, Rule, Severity, Source, Tag};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Name, Strands, Thread};

use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

pub(crate) static RULE: Rule = Rule {
    name: "unused-thread",
    severity: Severity::Warning,
    tags: &[Tag::Symptom, Tag::Unhung],
    summary: "A thread is declared that no strand, promise or motif uses.",
    why: "Every `thread` is on the cut list. You would buy this one for nothing; or a strand that should be \
          made of it has another name.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 4 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn find(checked: &Checked, contents: &Contents) -> Vec<Finding> {
    let source = checked.source;
    if !is_begun(source) || hides_strands(checked) {
        return Vec::new();
    }
    let mut unspoken = times_given(contents);
    let mut left = unspoken.len();
    for (_, word) in words(source) {
        if left == 0 {
            break;
        }
        if let Some(times) = unspoken.get_mut(&*word) {
            *times -= 1;
            // Once more than it is given: it is used.
            left -= usize::from(*times == -1);
        }
    }
    if left == 0 {
        return Vec::new();
    }
    let threads = source.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Thread>());
    let threads = threads.map(|thread| &thread.name);
    let times = times_given(contents);
    let unused = threads.filter(|name| unspoken.get(name.text.as_str()) == Some(&0));
    let leave_out = |name: &Name| (times[name.text.as_str()] == 1).then(|| without_line(source, name.span));
    unused.map(|name| Finding { mends: leave_out(name).into_iter().collect(), ..words_for(name) }).collect()
}

/// The line of a `thread` or a `bead` left out.
pub(super) fn without_line(source: &Source, name: Span) -> Mend {
    let text = &source.text;
    let start = name.whole_lines(text).start.to_usize();
    let rest = &text[name.end.to_usize()..];
    let end = name.end.to_usize() + rest.find('\n').map_or(rest.len(), |end| end + 1);
    let place = Place { file: FileId::CHECKED, span: Span::new(start, end) };
    let title = format!("leave out `{}`", name.of(text));
    Mend { is_guess: true, ..Mend::new(title, vec![Edit { place, text: String::new() }], false) }
}

/// Whether the strands are missing, or something is wrong with them: then it is not known what hangs there.
fn hides_strands(checked: &Checked) -> bool {
    let source = checked.source;
    let mut strands = source.parsed.tree.statements.iter().filter(|statement| statement.is::<Strands>());
    let Some(strands) = strands.next() else {
        return !is_library(source) || !source.parsed.problems.is_empty();
    };
    let within = |span: Span| strands.span.start <= span.start && span.end <= strands.span.end;
    let is_wrong = source.parsed.problems.iter().any(|problem| within(problem.span));
    is_wrong || checked.facts.iter().any(|fact| fact.place.file == FileId::CHECKED && within(fact.place.span))
}

/// By name, how many `thread` statements give it, those of colorways too: that is no use of a thread.
fn times_given<'a>(contents: &Contents<'a>) -> HashMap<&'a str, i64> {
    let mut times = HashMap::default();
    for statement in &contents.naming {
        if let Some(thread) = statement.get::<Thread>() {
            *times.entry(thread.name.text.as_str()).or_default() += 1;
        }
    }
    times
}

fn words_for(name: &Name) -> Finding {
    Finding::new(&RULE, format!("No strand is made of the thread `{}`.", name.text))
        .at(Place { file: FileId::CHECKED, span: name.span })
        .help("Use it in `strands`, or delete the line.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::messages_of;

    #[test]
    fn the_thread_is_named() {
        assert_eq!(messages_of(RULE.name, RULE.example), ["No strand is made of the thread `foam`."]);
    }

    #[test]
    fn a_color_of_a_colorway_is_no_use() {
        let text = RULE.example.replace("strands", "colorway \"dusk\" { thread foam gray }\n\nstrands");
        assert_eq!(messages_of(RULE.name, &text).len(), 1);
    }

    #[test]
    fn a_statement_that_does_not_parse_may_use_it() {
        let text = RULE.example.replace("strands 4 kelp", "strands 4 kelp,, foam");
        assert_eq!(messages_of(RULE.name, &text), [""; 0]);
    }
    #[test]
    fn without_strands_nothing_is_said() {
        assert_eq!(messages_of(RULE.name, &RULE.example.replace("strands 4 kelp", "")), [""; 0]);
        assert_eq!(messages_of(RULE.name, &RULE.example.replace("strands 4 kelp", "strands 4")), [""; 0]);
    }

    #[test]
    fn a_library_has_no_use_for_a_thread_that_no_motif_names() {
        assert_eq!(
            messages_of(RULE.name, "pattern \"Sweeps\"\nthread foam white\nmotif sweep() {\n}\n").len(),
            1
        );
        assert_eq!(messages_of(RULE.name, "pattern \"Sweeps\"\nthread foam white\n"), [""; 0]);
    }
}
