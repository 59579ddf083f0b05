//! A knot that shows another color than the `face` promises.

use crate::wording::count;
use crate::{Edit, Fact, FactKind, Finding, Mend, MoreKnots, Place, Rule, Severity, Tag};
use knotwright_numbers::ToNumber;
use smol_str::SmolStr;

pub(crate) static RULE: Rule = Rule {
    name: "face-differs",
    severity: Severity::Error,
    tags: &[Tag::OtherFace],
    summary: "A knot shows another color than the face promises.",
    why: "Where a part has steps, its `face` is a promise: the knots, laid in bricks, show exactly that. The color that shows is the \
          working strand's. If the strand that it is tied over has the color that was promised, the other one of the two should \
          work. Where many knots show another color, one slip is often behind all of them, so they are one finding: a mark or a \
          step above, two threads exchanged in `strands`, or two letters after `face`.",
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

/// `threads`: what was promised, what shows, and what it is tied over; `mark`: where it was promised; `more`: others besides.
pub(super) fn words([wished, found, other]: [&SmolStr; 3], mark: Place, more: &MoreKnots) -> Finding {
    let MoreKnots { count: others, of, places } = more;
    let mut message = format!("The face promises {wished} here, but this knot shows {found}");
    if *others > 0 {
        let show = if *others == 1 { "shows" } else { "show" };
        let others = count(others.to_u64(), "other");
        message += &format!("; of the {of} knots of the face, {others} {show} another color, too");
    }
    let help = match wished == other {
        _ if *others > 0 => {
            "One slip may be behind all of them: a step or a mark above, a thread in `strands`, or \
                             what the letters after `face` stand for."
                .to_owned()
        }
        true => format!("Here {other} hangs beside {found}: let {other} work, and cross or turn as now."),
        false => {
            format!("Neither strand is {wished} here: a step above left it elsewhere, or the face is wrong.")
        }
    };
    let finding = Finding::new(&RULE, message + ".").note(mark, format!("{wished} was promised here"));
    places.iter().fold(finding, |finding, place| finding.note(*place, "and here")).help(help)
}

/// What mends it, if it is the only one, is the mark of a chart (`written`), and the other strand has the color that was
/// promised.
pub(crate) fn mend_face(written: &str, fact: &Fact) -> Option<Mend> {
    let FactKind::FaceDiffers { wished, other, is_tied_once, more: MoreKnots { count: 0, .. }, .. } =
        &fact.kind
    else {
        return None;
    };
    let mark = other_works(written).filter(|_| wished == other)?;
    let edits = vec![Edit { place: fact.place, text: mark.to_owned() }];
    Some(Mend::new(format!("write `{mark}`: {wished} shows then"), edits, *is_tied_once))
}

/// The mark with which the other strand works, and all hang as they did.
pub(crate) fn other_works(mark: &str) -> Option<&'static str> {
    match mark {
        "\\" => Some("/"),
        "/" => Some("\\"),
        ">" => Some("<"),
        "<" => Some(">"),
        _ => None,
    }
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
