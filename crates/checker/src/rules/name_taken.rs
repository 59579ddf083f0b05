//! One name for two things.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "name-taken",
    severity: Severity::Error,
    tags: &[],
    summary: "Two things have the same name.",
    why: "Threads, labels and the parameters of a motif share one set of names, because each of them can be \
          used where a strand is named. If one name meant two of them, `take kelp` could mean either. Motifs \
          have names of their own: a motif may have the name of a thread, but two motifs must differ.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread kelp #7fae5a

strands 4 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread sea-lettuce #7fae5a

strands kelp sea-lettuce | mirror

set {
  repeat 2 {
    both { take left 1: forward to center left }
    meet center
  }
}
"#,
};

pub(super) fn words(name: &str, first: Place) -> Finding {
    Finding::new(&RULE, format!("The name `{name}` is taken already."))
        .note(first, format!("`{name}` is first used here"))
        .help("Give one of the two another name.")
}
