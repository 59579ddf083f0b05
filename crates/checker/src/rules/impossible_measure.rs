//! A length or a number that no band has.

use crate::wording::length;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "impossible-measure",
    severity: Severity::Error,
    tags: &[],
    summary: "A measure is zero, or larger than any thread or band can have.",
    why: "The cut list is computed from the gauge, the length and the ends, and you cut thread only once. A \
          thickness of 9 mm where you meant 0.9, or ten knots that use a meter, would have you buy ten times \
          too much. Usually it is a decimal point or a unit: `mm`, `cm`, `m` or `in`.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

gauge {
  thickness 90 mm
}

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

gauge {
  thickness 0.9 mm
}

set { take left 1: forward to edge }
"#,
};

pub(super) fn nothing(what: &str) -> Finding {
    match what {
        "length without a set" => {
            Finding::new(&RULE, "The pattern gives a length, but has no `set` to fill it with.")
                .help("Write `set { ... }` with the steps to repeat, or leave `length` out.")
        }
        "sets" => Finding::new(&RULE, "The set is to be tied zero times.")
            .help("Write how often to tie it, 1 or more, or leave `sets` out."),
        _ => Finding::new(&RULE, format!("Here `{what}` is zero."))
            .help("Give a number above zero, or leave the line out."),
    }
}

pub(super) fn implausible(what: &str, millimeters: f64) -> Finding {
    Finding::new(&RULE, format!("`{what}` cannot be {}: no band is like that.", length(millimeters)))
        .help("Check the decimal point and the unit: `mm`, `cm`, `m` or `in`.")
}

pub(super) fn too_heavy(tex: u32) -> Finding {
    let kilometer = f64::from(tex) / 1000.0;
    Finding::new(
        &RULE,
        format!("A kilometer of thread cannot weigh {kilometer} kg: `{tex} tex` is too much for any band."),
    )
    .help(
        "Tex is grams for a kilometer (ISO 1144). Weigh 10 m of your thread, and write 100 times the grams.",
    )
}

pub(super) fn all_hole(across: f64, hole: f64) -> Finding {
    Finding::new(
        &RULE,
        format!("The hole is {} wide, and the bead itself only {}.", length(hole), length(across)),
    )
    .help("Write how large the bead is first, and then how wide its hole is.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_measures_nothing_is_named() {
        assert_eq!(nothing("ends").message, "Here `ends` is zero.");
        assert_eq!(nothing("sets").message, "The set is to be tied zero times.");
        assert!(nothing("length without a set").message.ends_with("no `set` to fill it with."));
    }

    #[test]
    fn a_thread_like_a_rope_is_too_heavy() {
        let said = too_heavy(250_000);
        assert_eq!(
            said.message,
            "A kilometer of thread cannot weigh 250 kg: `250000 tex` is too much for any band."
        );
    }

    #[test]
    fn what_no_thread_has_is_shown_as_it_was_understood() {
        assert_eq!(
            implausible("thickness", 90.0).message,
            "`thickness` cannot be 9 cm: no band is like that."
        );
    }
}
