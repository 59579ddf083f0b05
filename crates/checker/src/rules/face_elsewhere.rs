//! A `face` within a block.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "face-elsewhere",
    severity: Severity::Error,
    tags: &[],
    summary: "A face stands within a block or a motif.",
    why: "`face` and `expect face` are about a whole opening, set or closing, so they stand directly in it: not in a section, a mirror \
          or a motif.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

-- allow uneven-use: a piece of a band
set {
  section "the first rows" {
  face k kelp, f foam {
    k f
     k
  }
  }
  rows {
    \ /
     \
  }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

-- allow uneven-use: a piece of a band
set {
  face k kelp, f foam {
    k f
     k
  }
  rows {
    \ /
     \
  }
}
"#,
};

pub(super) fn words(word: &str) -> Finding {
    Finding::new(
        &RULE,
        format!("`{word}` is about a whole opening, set or closing, and stands within a block here."),
    )
    .help("Put it at the top of the opening, the set or the closing.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::messages_of;

    #[test]
    fn the_whole_part_is_named() {
        assert_eq!(messages_of(RULE.name, RULE.example).len(), 1);
    }
}
