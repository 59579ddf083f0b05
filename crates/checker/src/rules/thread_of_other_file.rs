//! A motif of another file that names a thread of its own file.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "thread-of-other-file",
    severity: Severity::Error,
    summary: "A motif from another file asks for a thread of that file, which hangs in no band here.",
    why: "A motif keeps the threads of the file it was written in. That file's foam is not the foam of this band, \
          even if both have the name: nothing says that they are the same color. Give the motif a parameter for the \
          thread, as in `motif crest(wave) { ... }`, and pass your own: `work crest(foam)`.",
    example: r#"pattern "Slack tide"

use tinted-crest from "sweeps.knot"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam 3 kelp

set {
  work tinted-crest()
  take right 1: backward to edge
}
"#,
    instead: r#"pattern "Slack tide"

use crest from "sweeps.knot"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam 3 kelp

set {
  work crest(foam)
  take right 1: backward to edge
}
"#,
};

pub(super) fn words(name: &str, motif: &str) -> Finding {
    let message = format!(
        "The motif `{motif}` names {name}, a thread of its own file; no strand of this band is made of it."
    );
    Finding::new(&RULE, message).help(format!(
        "Give `{motif}` a parameter in place of {name}, and pass a thread of this file when you work it."
    ))
}

#[cfg(test)]
mod tests {
    #[test]
    fn motif_and_thread_are_named() {
        let finding = super::words("foam", "crest");
        assert!(finding.message.starts_with("The motif `crest` names foam, a thread of its own file"));
    }
}
