//! Folded threads whose two ends do not agree.

use crate::wording::{count, ordinal, sentence};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "pairs-do-not-match",
    severity: Severity::Error,
    tags: &[],
    summary: "With a folded start, two strands that are one thread have two colors, or one strand is left \
              over.",
    why: "A thread folded in the middle hangs down as two strands, so both have its color and the number of \
          strands is even. `pairs side-by-side` makes 1 and 2 one thread, and 3 and 4 the next. `pairs \
          mirrored` makes the first and the last strand one thread, then the second and the second to last.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror
start folded pairs side-by-side

set {
  repeat 2 {
    both { take left 1: forward to center left }
    meet center
  }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror
start folded pairs mirrored

set {
  repeat 2 {
    both { take left 1: forward to center left }
    meet center
  }
}
"#,
};

pub(super) fn odd(strands: usize) -> Finding {
    let strands = sentence(&count(strands.to_u64(), "strand"));
    Finding::new(&RULE, format!("{strands} cannot be folded threads: one strand has no partner."))
        .help("Add or remove a strand, or write `start loose`.")
}

/// One of the two strands that a folded thread hangs down as.
pub(super) struct FoldedEnd<'a> {
    /// Counted from 1.
    pub(super) position: usize,
    pub(super) thread: &'a str,
}

pub(super) fn two_colors(left: &FoldedEnd<'_>, right: &FoldedEnd<'_>) -> Finding {
    let (one, other) = (ordinal(left.position), ordinal(right.position));
    let message = format!(
        "The {one} and the {other} strand are two ends of one thread, but the {one} is {} and the {other} is {}.",
        left.thread, right.thread
    );
    Finding::new(&RULE, message).help("Try the other kind of `pairs`, or change the order in `strands`.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_ends_are_named() {
        assert_eq!(
            two_colors(
                &FoldedEnd { position: 1, thread: "kelp" },
                &FoldedEnd { position: 2, thread: "foam" }
            )
            .message,
            "The first and the second strand are two ends of one thread, but the first is kelp and the second is foam."
        );
    }

    #[test]
    fn a_strand_left_over_is_reported() {
        assert_eq!(odd(5).message, "Five strands cannot be folded threads: one strand has no partner.");
    }
}
