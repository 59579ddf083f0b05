//! A strand that is to be joined in one set, where that cannot be.

use crate::wording::count;
use crate::{Finding, JoinSetTrouble, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "join-set",
    severity: Severity::Error,
    tags: &[],
    summary: "A strand cannot be joined in the set that is named.",
    why: "`join left 3 in set 12` joins a strand the twelfth time that the set is tied, and no other time. It stands in the `set`; \
          sets count from 1, and if the pattern says how many are tied, there are no more. All sets are promised to hang and look \
          alike, so a join in one of them goes on with the same thread: another one is joined in each set, or in the opening or \
          the closing.",
    example: r#"pattern "Harbor line"

thread kelp #1f5d50

strands 3 kelp

sets 10

set {
  join left 2 in set 12
  take left 1: forward to edge
}
"#,
    instead: r#"pattern "Harbor line"

thread kelp #1f5d50

strands 3 kelp

sets 10

set {
  join left 2 in set 7
  take left 1: forward to edge
}
"#,
};

pub(super) fn words(trouble: JoinSetTrouble) -> Finding {
    match trouble {
        JoinSetTrouble::NoSet => Finding::new(
            &RULE,
            "`in set` says in which set a strand is joined, but this is tied outside the `set`.",
        )
        .help("Leave out `in set` and the number: the opening and the closing are tied once."),
        JoinSetTrouble::NotASet { number } => {
            Finding::new(&RULE, format!("Sets count from 1, but here it says {number}."))
                .help("Write the number of the set in which the strand is joined.")
        }
        JoinSetTrouble::Beyond { sets } => {
            let message = format!("The pattern ties {}, so there is no such set.", count(u64::from(sets), "set"));
            Finding::new(&RULE, message).help("Write a lower number, or tie more sets.")
        }
        JoinSetTrouble::OtherThread => Finding::new(
            &RULE,
            "A strand that is joined in one set only must go on with the same thread: with another, the sets after it \
             would not look as this one promises.",
        )
        .help("Leave out `with`, or leave out `in set` and its number to join it so in each set."),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    fn band(parts: &str) -> String {
        format!("pattern \"A\"\nthread kelp #1f5d50\nthread sand #d9b779\nstrands 2 kelp sand\n{parts}\n")
    }

    #[test]
    fn each_trouble_has_its_words() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            ["The pattern ties ten sets, so there is no such set."]
        );
        assert_silent(RULE.name, RULE.instead);
        let knots = "take left 1: forward 2";
        let said = |body: &str| messages_of(RULE.name, &band(body)).join("");
        let outside = said(&format!("opening {{\njoin left 1 in set 2\n{knots}\n}}"));
        assert!(outside.contains("outside the `set`"), "{outside}");
        let zero = said(&format!("set {{\njoin left 1 in set 0\n{knots}\n}}"));
        assert_eq!(zero, "Sets count from 1, but here it says 0.");
        let other = said(&format!("set {{\njoin left 1 with sand in set 2\n{knots}\n}}"));
        assert!(other.contains("must go on with the same thread"), "{other}");
    }

    #[test]
    fn a_thread_that_is_the_same_may_be_named() {
        assert_silent(RULE.name, &band("set {\njoin left 1 with kelp in set 2\ntake left 1: forward 2\n}"));
    }
}
