//! A motif of another file that names a thread of its own file.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "thread-of-other-file",
    severity: Severity::Error,
    tags: &[],
    summary: "A motif from another file names a thread of that file, which no strand of this band is made of.",
    why: "A motif keeps the threads of the file it is written in. That file's foam is not the foam of this \
          band, even if both have the same name: nothing says that they have the same color. Give the motif \
          a parameter for the thread, as in `motif crest(wave) { ... }`, and pass your own: `work \
          crest(foam)`.",
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
        "Give `{motif}` a parameter instead of {name}, and pass a thread of this file when you work it."
    ))
}

/// Of a bead: there is no parameter for one.
pub(super) fn bead(name: &str, motif: &str) -> Finding {
    let message = format!(
        "The motif `{motif}` threads {name}, a bead of its own file; how large that is, this file does not say."
    );
    Finding::new(&RULE, message)
        .help(format!("Leave the bead out of `{motif}`, and thread one of this file after the `work` line."))
}

#[cfg(test)]
mod tests {
    #[test]
    fn motif_and_thread_are_named() {
        let finding = super::words("foam", "crest");
        assert!(finding.message.starts_with("The motif `crest` names foam, a thread of its own file"));
    }
}
