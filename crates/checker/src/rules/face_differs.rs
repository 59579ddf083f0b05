//! A knot that shows another color than the `face` promises.

use crate::{Edit, Fact, FactKind, Finding, Mend, Place, Rule, Severity, Tag};
use smol_str::SmolStr;

pub(crate) static RULE: Rule = Rule {
    name: "face-differs",
    severity: Severity::Error,
    tags: &[Tag::OtherFace],
    summary: "A knot shows another color than the face promises.",
    why: "Where a part has steps, its `face` is a promise: the knots, laid in bricks, show exactly that. The color that shows is the \
          working strand's. If the strand that it is tied over has the color that was promised, the other one of the two should \
          work.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

-- allow uneven-use: a piece of a band
set {
  face k kelp, f foam {
    k f
     k
  }
  rows {
    \ \
     \
  }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

-- allow uneven-use: a piece of a band
set {
  face k kelp, f foam {
    k f
     k
  }
  rows {
    \ /
     \
  }
}
"#,
};

/// `threads`: what was promised, what shows, and what it is tied over; `mark`: where it was promised.
pub(super) fn words([wished, found, other]: [&SmolStr; 3], mark: Place) -> Finding {
    let help = match wished == other {
        true => format!("Here {other} hangs beside {found}: let {other} work, and cross or turn as now."),
        false => {
            format!("Neither strand is {wished} here: a step above left it elsewhere, or the face is wrong.")
        }
    };
    Finding::new(&RULE, format!("The face promises {wished} here, but this knot shows {found}."))
        .note(mark, format!("{wished} was promised here"))
        .help(help)
}

/// What mends it, if the knot is the mark of a chart (`written`) and the other strand has the color that was promised.
pub(crate) fn mend_face(written: &str, fact: &Fact) -> Option<Mend> {
    let FactKind::FaceDiffers { wished, other, is_tied_once, .. } = &fact.kind else { return None };
    let mark = match written {
        "\\" => "/",
        "/" => "\\",
        ">" => "<",
        "<" => ">",
        _ => return None,
    };
    let edits = vec![Edit { place: fact.place, text: mark.to_owned() }];
    (wished == other).then(|| Mend::new(format!("write `{mark}`: {wished} shows then"), edits, *is_tied_once))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by};

    #[test]
    fn the_knot_its_mark_in_the_face_and_the_mend_are_shown() {
        let finding = &find_by(RULE.name, RULE.example)[0];
        assert_eq!(finding.message, "The face promises foam here, but this knot shows kelp.");
        assert_eq!(finding.notes[0].text, "foam was promised here");
        assert_eq!(finding.mends[0].title, "write `/`: foam shows then");
        assert_silent(RULE.name, RULE.instead);
    }

    #[test]
    fn any_color_and_no_knot_promise_nothing_more() {
        assert_silent(RULE.name, &RULE.example.replacen("k f", "k ?", 1));
    }
}
