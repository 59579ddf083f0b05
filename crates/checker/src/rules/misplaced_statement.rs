//! A statement in a block where it does not belong.

use crate::{Finding, Rule, Severity};
use knotwright_grammar::Belongs;

pub(crate) static RULE: Rule = Rule {
    name: "misplaced-statement",
    severity: Severity::Error,
    tags: &[],
    summary: "A statement is somewhere it does not belong.",
    why: "What the band is made of (`thread`, `strands`, `gauge`, `motif`) goes at the top level of the file. \
          What is tied (`take`, `meet`, `repeat`) goes inside `opening`, `set`, `closing` or a motif. \
          `expect start` looks back to where this opening, set or closing began; a motif can be worked \
          anywhere, so it has no such start.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }

take left 1: forward to edge
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward to edge
  take left 1: forward to edge
}
"#,
};

pub(super) fn words(statement: &str, belongs: Belongs) -> Finding {
    let belongs = match belongs {
        Belongs::Top => "at the top of the file",
        Belongs::Body => "in `opening`, `set`, `closing` or a motif",
        Belongs::Gauge => "in `gauge`",
        Belongs::BelowTake => "below a `take`",
        Belongs::Ends => "in `begin` or `finish`",
        Belongs::Leader => "in `leader`, in place of a row",
    };
    Finding::new(&RULE, format!("`{statement}` does not belong here.")).help(format!("It belongs {belongs}."))
}

pub(super) fn expect_start() -> Finding {
    Finding::new(&RULE, "`expect start` is in a motif, which has no start of its own.")
        .help("Move the `expect start` to the set that works the motif, or list the strands here.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_right_place_is_reported() {
        let finding = super::words("thread", knotwright_grammar::Belongs::Top);
        assert_eq!(finding.message, "`thread` does not belong here.");
        assert_eq!(finding.help.unwrap(), "It belongs at the top of the file.");
    }
}
