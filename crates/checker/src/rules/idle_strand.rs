//! A strand that is never tied.

use crate::wording::{both, ordinal, sentence};
use crate::woven::Woven;
use crate::{Finding, Rule, Severity};
use knotwright_band::uses;

pub(crate) static RULE: Rule = Rule {
    name: "idle-strand",
    severity: Severity::Warning,
    summary: "A strand is tied by no knot of the set and hangs loose beside the band.",
    why: "A strand may well never work, as the core over which others turn; but then they are tied over it. A strand \
          that no knot touches in the whole set hangs loose from beginning to end. Either a run does not reach it, \
          or there is one strand too many in `strands`.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 5 kelp

set {
  take left 1: forward 3
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 5 kelp

set {
  take left 1: forward 4
}
"#,
};

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let piece = woven.set.as_ref().unwrap_or(&woven.whole);
    let idle: Vec<usize> = uses(piece)
        .iter()
        .enumerate()
        .filter(|(_, used)| used.working + used.base == 0)
        .map(|(strand, _)| strand)
        .collect();
    if idle.is_empty() { Vec::new() } else { vec![words(woven, &idle).at(woven.head())] }
}

fn words(woven: &Woven, idle: &[usize]) -> Finding {
    let threads = if woven.set.is_some() { woven.set_threads() } else { woven.pattern.strands.clone() };
    let name = |at: usize| woven.name(threads[at]);
    let message = match idle {
        &[at] => format!(
            "The {} strand from the left ({}) is touched by no knot and hangs loose all along the band.",
            ordinal(at + 1),
            name(at)
        ),
        _ => {
            let named: Vec<String> =
                idle.iter().map(|&at| format!("the {} ({})", ordinal(at + 1), name(at))).collect();
            let named = sentence(&both(&named.iter().map(String::as_str).collect::<Vec<_>>()));
            format!("{named} strand from the left are touched by no knot and hang loose all along the band.")
        }
    };
    Finding::new(&RULE, message).help("Let a run reach as far, or leave the strand out of `strands`.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{silent, told};

    #[test]
    fn strands_are_named_with_their_threads() {
        let text = |strands: &str, steps: &str| {
            format!(
                "pattern \"A\"\nthread kelp green\nthread foam white\nstrands {strands}\nset {{ {steps} }}\n"
            )
        };
        assert_eq!(
            told(RULE.name, &text("4 kelp foam", "take left 1: forward 3")),
            [
                "The fifth strand from the left (foam) is touched by no knot and hangs loose all along the band."
            ]
        );
        assert_eq!(
            told(RULE.name, &text("foam 4 kelp foam", "on inside 1 { take left 1: forward to edge }")),
            [
                "The first (foam) and the sixth (foam) strand from the left are touched by no knot and hang loose all \
              along the band."
            ]
        );
    }

    #[test]
    fn a_core_that_is_only_tied_over_is_not_idle() {
        silent(
            RULE.name,
            "pattern \"A\"\nthread kelp green\nstrands 2 kelp\nset { take left 1: forward-backward 1 }\n",
        );
    }
}
