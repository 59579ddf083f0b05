//! A file named by `use` that cannot be had.

use crate::wording::{cleaned, quoted};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "import-not-there",
    severity: Severity::Error,
    tags: &[],
    summary: "A file named by `use` is missing, is outside the workspace, or cannot be read.",
    why: "`use fan from \"fans.knot\"` imports a motif from another file. The path starts at the file in \
          which it is written, has `/` between folders, and cannot lead out of the workspace: a pattern that \
          you give to others should not depend on what else is on your disk.",
    example: r#"pattern "Kelp forest"

use sweep from "sweeps/missing.knot"

thread kelp #1f5d50

strands 4 kelp

set { work sweep() }
"#,
    instead: r#"pattern "Kelp forest"

use sweep from "sweeps.knot"

thread kelp #1f5d50

strands 4 kelp

set { work sweep() }
"#,
};

pub(super) fn missing(path: &str) -> Finding {
    Finding::new(&RULE, format!("There is no file {} next to this one.", quoted(path)))
        .help("The path starts at the folder of this file. Check its spelling.")
}

pub(super) fn outside(path: &str) -> Finding {
    Finding::new(&RULE, format!("The file {} is outside the workspace.", quoted(path)))
        .help("Copy the file into the workspace and name it by a path relative to this file.")
}

pub(super) fn unreadable(path: &str, reason: &str) -> Finding {
    let message =
        format!("The file {} cannot be read: {}.", quoted(path), cleaned(reason).trim_end_matches('.'));
    Finding::new(&RULE, message).help("A pattern file is plain text in UTF-8.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_cause_has_its_sentence() {
        assert_eq!(missing("a.knot").message, "There is no file `a.knot` next to this one.");
        assert_eq!(outside("/a.knot").message, "The file `/a.knot` is outside the workspace.");
        assert_eq!(
            unreadable("a.knot", "permission denied").message,
            "The file `a.knot` cannot be read: permission denied."
        );
    }
}
