//! A band that falls into strips.

use crate::wording::ordinal;
use crate::woven::Woven;
use crate::{Finding, Rule, Severity, Tag};
use knotwright_band::never_joined;
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "never-joined",
    severity: Severity::Warning,
    tags: &[Tag::Hole],
    summary: "Two parts of the band are joined by no knot: it falls into strips.",
    why: "If no knot of the opening, the set or the closing ever lies between two neighboring strands, the \
          parts to the left and to the right of that gap are two bands that come apart. In a band of two \
          halves, it is usually the `meet center` that is missing. (A single strand that is never tied is \
          reported as `idle-strand`.)",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  both { on left 3 { take left 1: forward to edge } }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  both { on left 3 { take left 1: forward to edge } }
  meet center
}
"#,
};

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let mut pieces = vec![&woven.opening, &woven.closing];
    pieces.extend(&woven.set);
    let apart = never_joined(&pieces);
    let tied = |gap: usize| gap < woven.laid.gaps() && !apart.contains(&gap.to_u8());
    // Where a strip of single strands lies between, the strand is idle: another rule speaks of it.
    let between_strips = |gap: usize| tied(gap + 1) && (gap > 0 && tied(gap - 1));
    let apart = apart.iter().map(|&gap| usize::from(gap)).filter(|&gap| between_strips(gap));
    apart.map(|gap| words(gap).at(woven.head())).collect()
}

fn words(gap: usize) -> Finding {
    let message = format!(
        "No knot ever joins the {} and the {} position from the left: the band falls into two strips there.",
        ordinal(gap + 1),
        ordinal(gap + 2)
    );
    Finding::new(&RULE, message)
        .help("Tie a knot there at least once in each set, or write the strips as two patterns.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_two_places_are_named() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "No knot ever joins the third and the fourth position from the left: the band falls into two strips there."
            ]
        );
    }

    #[test]
    fn strips_that_the_opening_or_the_closing_joins_are_meant() {
        assert_silent(RULE.name, &RULE.example.replace("set {", "closing { meet center }\n\nset {"));
    }

    #[test]
    fn a_single_strand_beside_the_band_is_reported_as_idle() {
        assert_silent(
            RULE.name,
            "pattern \"A\"\nthread kelp green\nstrands 5 kelp\nset { take left 1: forward 3 }\n",
        );
    }
}
