//! Too few strands, or too many.

use crate::wording::number;
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "strand-count",
    severity: Severity::Error,
    tags: &[],
    summary: "A band has fewer than 2 or more than 200 strands.",
    why: "A knot joins two neighbors, so the narrowest band has two strands. The limit is 200 strands, far \
          more than a hand can hold; a larger number is almost always a slip of the finger.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 600 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 6 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn too_few(strands: usize) -> Finding {
    let hang = if strands == 1 { "Only one strand hangs" } else { "No strand hangs" };
    Finding::new(&RULE, format!("{hang} here, but a knot joins two.")).help("Name at least two strands.")
}

pub(super) fn too_many(strands: u64) -> Finding {
    let most = number(knotwright_band::MOST_STRANDS.to_u64());
    Finding::new(&RULE, format!("{strands} strands hang here; the widest band has {most}."))
        .help(format!("Name at most {most} strands."))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ends_are_reported() {
        assert_eq!(too_few(1).message, "Only one strand hangs here, but a knot joins two.");
        assert_eq!(too_few(0).message, "No strand hangs here, but a knot joins two.");
        assert_eq!(too_many(201).message, "201 strands hang here; the widest band has 200.");
    }
}
