//! The page of a rule.

use crate::{Rule, Severity};
use std::fmt::Write;

/// The page of a rule, in Markdown.
pub(crate) fn write_page(rule: &Rule) -> String {
    let mut page = format!("# {}\n\n{} {}\n\n{}\n", rule.name, kind(rule.severity), rule.summary, rule.why);
    if !rule.example.is_empty() {
        let _ = write!(page, "\n## For example\n\n```text\n{}```\n", rule.example);
        let _ = write!(page, "\n## Instead\n\n```{}\n{}```\n", fence(rule.instead), rule.instead);
    }
    let _ = write!(page, "\n{}\n", what_to_do(rule));
    page
}

/// `check` reads the blocks of a page that are marked as patterns: only those are that stand by themselves and are
/// right.
fn fence(text: &str) -> &'static str {
    if text.contains("\nuse ") { "text" } else { "knot" }
}

/// The list of all rules with their summaries, in Markdown.
pub(crate) fn write_index(rules: &[&Rule]) -> String {
    let mut page = String::from(
        "# What can be wrong with a pattern\n\nEvery finding of `knotwright check` shows the name of a rule, and every \
         rule has a page: what it\nmeans, why it matters, an example, and how to fix it. `knotwright explain RULE` shows \
         the same page.\n",
    );
    let sorts = [
        (
            Severity::Error,
            "Errors",
            "The band cannot be tied, or something was promised and is not true. Errors cannot be switched off.",
        ),
        (
            Severity::Warning,
            "Warnings",
            "The band can be tied, but is surely not what you meant. To allow one place, write a comment, \
             `-- allow RULE: reason`,\nat the end of its line or on the line above. To switch a rule off, or to make it \
             an error, use `knotwright.toml`.",
        ),
    ];
    for (severity, title, words) in sorts {
        let _ = write!(page, "\n## {title}\n\n{words}\n\n| rule | what it says |\n| --- | --- |\n");
        for rule in rules.iter().filter(|rule| rule.severity == severity) {
            let _ = writeln!(page, "| [{0}]({0}.md) | {1} |", rule.name, rule.summary.replace('|', "\\|"));
        }
    }
    page
}

fn kind(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "An error.",
        Severity::Warning => "A warning.",
    }
}

fn what_to_do(rule: &Rule) -> String {
    match rule.severity {
        Severity::Error => "It cannot be switched off: fix it before you tie the band.".into(),
        Severity::Warning => format!(
            "If you meant it, say why at the end of the line or on the line above: `-- allow {0}: ...`. \
             To switch it off everywhere, or to make it an error, write `{0} = \"off\"` or `\"error\"` under `[rules]` in \
             `knotwright.toml`.",
            rule.name
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::rules;

    #[test]
    fn a_page_says_what_why_and_what_instead() {
        let rule = rules::named("broken-promise").unwrap();
        let page = rules::write_page(rule);
        for part in ["# broken-promise\n", rule.summary, rule.why, rule.example, rule.instead, "An error."] {
            assert!(page.contains(part), "{part}");
        }
    }

    #[test]
    fn a_rule_without_an_example_has_no_empty_block() {
        assert!(!rules::write_page(rules::named("file-too-large").unwrap()).contains("```"));
    }

    #[test]
    fn the_page_of_a_warning_says_how_to_allow_it() {
        assert!(
            rules::write_page(rules::named("missing-brick").unwrap())
                .contains("`-- allow missing-brick: ...`")
        );
    }

    #[test]
    fn the_index_links_every_page() {
        let index = rules::write_index();
        assert!(rules::all().iter().all(|rule| index.contains(&format!("[{0}]({0}.md)", rule.name))));
    }
}
