//! A file that does not have the motif asked of it.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "import-lacks-motif",
    severity: Severity::Error,
    tags: &[],
    summary: "The file named by `use` has no motif of that name.",
    why: "`use` imports motifs by name, and only those that the other file declares itself with `motif`. The \
          threads of that file, and motifs that it imports from elsewhere, stay there.",
    example: r#"pattern "Kelp forest"

use sweeep from "sweeps.knot"

thread kelp #1f5d50

strands 4 kelp

set { work sweeep() }
"#,
    instead: r#"pattern "Kelp forest"

use sweep from "sweeps.knot"

thread kelp #1f5d50

strands 4 kelp

set { work sweep() }
"#,
};

pub(super) fn words(path: &str, motif: &str, nearest: Option<&str>) -> Finding {
    let help = match nearest {
        Some(name) => format!("Did you mean `{name}`?"),
        None => "Check which motifs that file declares.".to_owned(),
    };
    Finding::new(&RULE, format!("The file {} has no motif `{motif}`.", quoted(path))).help(help)
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_nearest_motif_is_offered() {
        let finding = super::words("fans.knot", "fam", Some("fan"));
        assert_eq!(finding.message, "The file `fans.knot` has no motif `fam`.");
        assert_eq!(finding.help.unwrap(), "Did you mean `fan`?");
    }
}
