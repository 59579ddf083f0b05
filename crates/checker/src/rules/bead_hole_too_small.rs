//! A hole that the strands of a bead do not go through.

use crate::wording::{count, length, sentence};
use crate::{BeadInTheWay, Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "bead-hole-too-small",
    severity: Severity::Error,
    tags: &[],
    summary: "More strands are to go through a bead than its hole holds.",
    why: "`thickness` in the gauge says how thick the thread is, and `hole` how wide the hole of the bead is. Two strands \
          side by side need twice the thickness, three need 2.2 times as much, four 2.4 times, six three times: they lie \
          in a ring against the wall of the hole (plane geometry). In `begin` and `finish` all strands of the bundle go \
          through the bead. A bead is bought before the band is tied, so it is better to know now.",
    example: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 1.2 mm

strands 4 kelp

gauge {
  thickness 0.9 mm
}

set {
  take left 1: forward to edge
  bead pearl on left 1, left 2
}
"#,
    instead: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 2 mm

strands 4 kelp

gauge {
  thickness 0.9 mm
}

set {
  take left 1: forward to edge
  bead pearl on left 1, left 2
}
"#,
};

pub(super) fn words(of: &BeadInTheWay) -> Finding {
    Finding::new(&RULE, hole(of)).help(help(of))
}

/// "Two strands of 0.9 mm do not go through `pearl`: its hole is 1.2 mm wide, and they need 1.8 mm."
pub(super) fn hole(of: &BeadInTheWay) -> String {
    let BeadInTheWay { bead, strands, hole, needed, thickness, .. } = of;
    let (do_not, they) = if *strands == 1 { ("does", "it needs") } else { ("do", "they need") };
    format!(
        "{} of {} {do_not} not go through `{bead}`: its hole is {} wide, and {they} {}.",
        sentence(&count(strands.to_u64(), "strand")),
        length(*thickness),
        length(*hole),
        wide(*needed)
    )
}

pub(super) fn help(of: &BeadInTheWay) -> String {
    let wider = format!("Take a bead with a hole of {} or more", wide(of.needed));
    if of.strands > 1 { format!("{wider}, or thread it on fewer strands.") } else { format!("{wider}.") }
}

/// How wide a hole must be, to a tenth of a millimeter and never too narrow.
pub(super) fn wide(millimeters: f64) -> String {
    length((millimeters * 10.0 - 1e-6).ceil() / 10.0)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn what_the_strands_need_is_said() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "Two strands of 0.9 mm do not go through `pearl`: its hole is 1.2 mm wide, and they need 1.8 mm."
            ]
        );
        let three = RULE.example.replace("left 2\n", "left 2, left 3\n");
        assert!(
            messages_of(RULE.name, &three)[0].ends_with("wide, and they need 2 mm."),
            "1.94 mm, rounded up"
        );
    }

    #[test]
    fn a_hole_that_just_holds_them_will_do() {
        assert_silent(RULE.name, &RULE.example.replace("hole 1.2 mm", "hole 1.8 mm"));
        assert_silent(RULE.name, &RULE.example.replace(", left 2", ""));
    }

    #[test]
    fn an_end_takes_all_strands_of_its_bundle() {
        let ends = |finish: &str| {
            let text = RULE.instead.replace("bead pearl on left 1, left 2", "bead pearl on left 1");
            text.replace("set {", &format!("finish {{\n{finish}\n}}\nset {{"))
        };
        assert_eq!(messages_of(RULE.name, &ends("bead pearl\nknot")).len(), 1, "four strands need 2.2 mm");
        assert_silent(RULE.name, &ends("split 2 {\nbead pearl\nknot\n}"));
    }

    #[test]
    fn without_a_thickness_it_is_no_error() {
        assert_silent(RULE.name, &RULE.example.replace("gauge {\n  thickness 0.9 mm\n}\n", ""));
    }
}
