//! A motif worked on another width than it is meant for.

use crate::wording::{count, number};
use crate::{Finding, Place, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "motif-does-not-fit",
    severity: Severity::Error,
    tags: &[],
    summary: "A motif that is meant for one width is worked on another.",
    why: "`motif fan() on 5` says that the motif is made for five strands. Worked on six, its steps would \
          still tie something, but hardly a fan. Give it its strands with `on`, such as `on left 5 { work \
          fan() }`. If as many other strands hang wherever it is worked, its own number is wrong.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 6 kelp

motif sweep() on 3 {
  take left 1: forward to edge
}

set {
  work sweep()
  take left 1: forward to edge
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 6 kelp

motif sweep() on 3 {
  take left 1: forward to edge
}

set {
  on left 3 { work sweep() }
  take left 1: forward to edge
}
"#,
};

pub(super) fn words(motif: &str, wanted: usize, width: usize, defined: Place) -> Finding {
    let meant = count(wanted.to_u64(), "strand");
    let verb = if width == 1 { "hangs" } else { "hang" };
    let here = number(width.to_u64());
    Finding::new(&RULE, format!("The motif `{motif}` is meant for {meant}, but {here} {verb} here."))
        .note(defined, "its width is given here")
        .help(format!("Work it inside an `on` of {meant}, such as `on left {wanted} {{ work {motif}() }}`."))
}

/// Wherever the motif is worked, as many other strands hang.
pub(super) fn meant_for_other(motif: &str, wanted: usize, width: usize) -> Finding {
    let (meant, here) = (count(wanted.to_u64(), "strand"), number(width.to_u64()));
    let message = format!("The motif `{motif}` is meant for {meant}, but {here} hang wherever it is worked.");
    Finding::new(&RULE, message).help(format!("Write `on {width}`."))
}

#[cfg(test)]
mod tests {
    #[test]
    fn both_widths_are_reported() {
        let finding = super::words("fan", 5, 6, crate::Place::default());
        assert_eq!(finding.message, "The motif `fan` is meant for five strands, but six hang here.");
        assert!(finding.help.unwrap().contains("`on left 5 { work fan() }`"));
    }
}
