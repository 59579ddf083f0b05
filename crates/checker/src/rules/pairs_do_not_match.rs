//! Folded threads whose two ends do not agree.

use crate::wording::{count, ordinal, sentence};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "pairs-do-not-match",
    severity: Severity::Error,
    summary: "With a folded start, two strands that are one thread have two colors, or one is left over.",
    why: "A thread folded in the middle hangs down as two strands, so that both have its color, and the strands \
          are even in number. `pairs side-by-side` makes 1 and 2 one thread, 3 and 4 the next; `pairs mirrored` \
          makes the first and the last one thread, then the second and the last but one.",
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
    let strands = sentence(&count(strands as u64, "strand"));
    Finding::new(&RULE, format!("{strands} cannot be folded threads: one is left without a partner."))
        .help("Add or leave out a strand, or write `start loose`.")
}

/// `left` and `right`: the positions and their threads.
pub(super) fn two_colors(left: (usize, &str), right: (usize, &str)) -> Finding {
    let (one, other) = (ordinal(left.0), ordinal(right.0));
    let message = format!(
        "The {one} and the {other} strand are two ends of one thread, but the {one} is {} and the {other} is {}.",
        left.1, right.1
    );
    Finding::new(&RULE, message)
        .help("Let the other kind of `pairs` join them, or change the order in `strands`.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_ends_are_named() {
        assert_eq!(
            two_colors((1, "kelp"), (2, "foam")).message,
            "The first and the second strand are two ends of one thread, but the first is kelp and the second is foam."
        );
    }

    #[test]
    fn a_strand_left_over_is_told() {
        assert_eq!(odd(5).message, "Five strands cannot be folded threads: one is left without a partner.");
    }
}
