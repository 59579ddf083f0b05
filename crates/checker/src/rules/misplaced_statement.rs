//! A statement in a block where it does not belong.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "misplaced-statement",
    severity: Severity::Error,
    summary: "A statement stands where it does not belong.",
    why: "What the band is made of (`thread`, `strands`, `gauge`, `motif`) stands at the top of the file; what is \
          tied (`take`, `meet`, `repeat`) stands within `opening`, `set`, `closing` or a motif. `expect start` looks \
          back to where this opening, set or closing began; a motif can be worked anywhere, so that it has no such \
          start.",
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

pub(super) fn words(statement: &str, belongs: &str) -> Finding {
    Finding::new(&RULE, format!("`{statement}` does not belong here."))
        .help(format!("Its place is {belongs}."))
}

pub(super) fn expect_start() -> Finding {
    Finding::new(&RULE, "`expect start` stands in a motif, which has no start of its own.")
        .help("Write the `expect start` in the set that works the motif, or list the strands here.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_right_place_is_told() {
        let finding = super::words("thread", "at the top of the file");
        assert_eq!(finding.message, "`thread` does not belong here.");
        assert_eq!(finding.help.unwrap(), "Its place is at the top of the file.");
    }
}
