//! `then` or a series after a strand that was not named by its place.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "not-by-place",
    severity: Severity::Error,
    tags: &[],
    summary: "`then` or a series follows a strand that is named by color or label.",
    why: "`then`, and each number of a series such as `4 down to 1`, takes the strand that *now* hangs where \
          the `take` began. That makes sense for a position such as `left 1`, where another strand has moved \
          up in the meantime. A color or a label names one particular strand, so it is not clear which one \
          would come next.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam kelp foam

set {
  take foam 1 from left: forward to edge
    then to edge
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam kelp foam

set {
  take left 1: forward to edge
    then to edge
    then to edge
}
"#,
};

/// `word`: "then", or anything else for a series.
pub(super) fn words(word: &str) -> Finding {
    let what = if word == "then" { "`then`" } else { "A series" };
    let message = format!(
        "{what} takes whichever strand now hangs where this `take` began, but this strand is named by its \
         color or its label."
    );
    Finding::new(&RULE, message)
        .help("Name the strand by its position, such as `left 1`, or write one `take` for each strand.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn then_and_series_are_told_apart() {
        assert!(super::words("then").message.starts_with("`then` takes whichever strand"));
        assert!(super::words("series").message.starts_with("A series takes whichever strand"));
    }
}
