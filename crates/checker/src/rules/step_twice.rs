//! A step that stands twice, where once would do.

use crate::{Edit, Finding, Mend, Place, Rule, Severity};
use knotwright_grammar::Span;

pub(crate) static RULE: Rule = Rule {
    name: "step-twice",
    severity: Severity::Warning,
    tags: &[],
    summary: "A step stands twice, one below the other, and once would do.",
    why: "A line is easily copied once too often. This is reported only if nothing else shows it: with one of the two left out, every \
          promise holds, the set closes, and the band has no hole. If both are meant, `repeat 2 { }` says so. Steps that stand there \
          three times or more, and motifs, are meant.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  both { take left 1: forward 1 }
  meet center
  meet center
  both { take left 1: forward 1 }
  meet center
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  both { take left 1: forward 1 }
  meet center
  both { take left 1: forward 1 }
  meet center
}
"#,
};

/// `text`: the step; it stands at `first`, and at `second` on lines of its own, which are `lines` with their end.
pub(crate) fn words(text: &str, first: Place, second: Place, lines: Span) -> Finding {
    let place = |span| Place { span, ..second };
    let leave_out = vec![Edit { place: place(lines), text: String::new() }];
    let both = first.span.to(second.span);
    let repeat = vec![Edit { place: place(both), text: format!("repeat 2 {{ {text} }}") }];
    let mut finding =
        Finding::new(&RULE, "This step stands here twice, and once would do: all the rest holds then.")
            .at(second)
            .note(first, "the same step")
            .help("Leave one out. If both are meant, write `repeat 2 { }` around one.");
    finding.mends = vec![
        Mend::new(format!("leave out `{text}`: all the rest holds then"), leave_out, false),
        Mend {
            is_guess: true,
            ..Mend::new(format!("write `repeat 2 {{ {text} }}`: the same is tied"), repeat, false)
        },
    ];
    finding
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by};

    #[test]
    fn two_steps_and_nothing_else_are_the_whole_band() {
        let steps = "take left 1: forward to edge\n  take left 1: forward to edge\n";
        assert_silent(
            RULE.name,
            &format!("pattern \"A\"\nthread kelp #1f5d50\nstrands 4 kelp\nset {{\n  {steps}}}\n"),
        );
    }

    fn chevrons(steps: &str) -> String {
        RULE.instead.replacen("  both { take left 1: forward 1 }\n  meet center\n", steps, 1)
    }

    #[test]
    fn the_second_of_two_is_to_be_left_out() {
        let found = find_by(RULE.name, RULE.example);
        assert_eq!(found.len(), 1, "{found:#?}");
        assert!(found[0].mends[0].title.starts_with("leave out `meet center`"), "{found:#?}");
        assert!(found[0].mends[1].title.starts_with("write `repeat 2 { meet center }`"), "{found:#?}");
    }

    #[test]
    fn what_must_stand_twice_or_says_so_is_meant() {
        assert_silent(
            RULE.name,
            &chevrons("  both { take left 1: forward 1 }\n  repeat 2 { meet center }\n"),
        );
        assert_silent(
            RULE.name,
            &chevrons("  both { take left 1: forward 1 }\n  meet center\n  meet center\n  meet center\n"),
        );
        // Left out once, the set would not close.
        let diagonals = "pattern \"A\"\nthread kelp #1f5d50\nthread foam white\nstrands kelp foam\nset {\n  \
                         take left 1: forward 1\n  take left 1: forward 1\n}\n";
        assert_silent(RULE.name, diagonals);
    }
}
