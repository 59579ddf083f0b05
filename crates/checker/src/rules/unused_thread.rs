//! A thread that hangs nowhere.

use crate::contents::Contents;
use crate::reading::{is_library, words};
use crate::{Checked, FileId, Finding, Place, Rule, Severity, Source};
use knotwright_grammar::tree::{Name, Node};
use rustc_hash::FxHashMap as HashMap;

pub(crate) static RULE: Rule = Rule {
    name: "unused-thread",
    severity: Severity::Warning,
    summary: "A thread is named that no strand, promise or motif speaks of.",
    why: "Every `thread` stands in the cut list. One that nothing speaks of would be bought for nothing; or a strand \
          that should have been made of it was given another name.",
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
    if hides_strands(source) {
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
    let threads = source.parsed.tree.statements.iter().filter_map(|statement| match &statement.node {
        Node::Thread(thread) => Some(&thread.name),
        _ => None,
    });
    threads.filter(|name| unspoken.get(name.text.as_str()) == Some(&0)).map(words_for).collect()
}

/// Whether the strands are missing, or stand in a line that does not parse: then it is not known what hangs there.
fn hides_strands(source: &Source) -> bool {
    let statements = &source.parsed.tree.statements;
    let hangs = statements.iter().any(|statement| matches!(statement.node, Node::Strands(_)));
    let lends = is_library(source) && source.parsed.problems.is_empty();
    !hangs && !lends
}

/// By name, how many `thread` statements give it, those of colorways too: that is no use of a thread.
fn times_given<'a>(contents: &Contents<'a>) -> HashMap<&'a str, i64> {
    let mut times = HashMap::default();
    for statement in &contents.naming {
        if let Node::Thread(thread) = &statement.node {
            *times.entry(thread.name.text.as_str()).or_default() += 1;
        }
    }
    times
}

fn words_for(name: &Name) -> Finding {
    Finding::new(&RULE, format!("No strand is made of the thread `{}`.", name.text))
        .at(Place { file: FileId(0), span: name.span })
        .help("Hang it with `strands`, or delete the line.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::told;

    #[test]
    fn the_thread_is_named() {
        assert_eq!(told(RULE.name, RULE.example), ["No strand is made of the thread `foam`."]);
    }

    #[test]
    fn a_color_of_a_colorway_is_no_use() {
        let text = RULE.example.replace("strands", "colorway \"dusk\" { thread foam gray }\n\nstrands");
        assert_eq!(told(RULE.name, &text).len(), 1);
    }

    #[test]
    fn a_statement_that_does_not_parse_may_use_it() {
        let text = RULE.example.replace("strands 4 kelp", "strands 4 kelp,, foam");
        assert_eq!(told(RULE.name, &text), [""; 0]);
    }
    #[test]
    fn without_strands_nothing_is_said() {
        assert_eq!(told(RULE.name, &RULE.example.replace("strands 4 kelp", "")), [""; 0]);
        assert_eq!(told(RULE.name, &RULE.example.replace("strands 4 kelp", "strands 4")), [""; 0]);
    }

    #[test]
    fn a_library_has_no_use_for_a_thread_that_no_motif_names() {
        assert_eq!(told(RULE.name, "pattern \"Sweeps\"\nthread foam white\n").len(), 1);
    }
}
