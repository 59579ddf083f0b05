//! Every sample pattern, rewritten in every way.

use knotwright_band::{Kind, Piece, fewest_pick_ups, normal_form, pick_ups, plan_pick_ups};
use knotwright_checker::{Finding, NoLibrary, Part, PartKind, Report, Settings, Severity, Source, check};
use knotwright_rewriter::{NewBody, Original, RewriteError, find_headings, rewrite};
use proptest::prelude::*;
use std::path::Path;
use std::sync::Arc;

fn checked(text: &str) -> Report {
    check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default())
}

fn errors(report: &Report) -> Vec<String> {
    let errors = report.findings.iter().filter(|finding| finding.severity == Severity::Error);
    errors.map(|finding| format!("{}: {}", finding.rule.name, finding.message)).collect()
}

/// The sample patterns that use no other file.
#[expect(clippy::disallowed_methods, reason = "a test reads the samples")]
fn samples() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/patterns");
    let mut samples: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "knot"))
        .map(|path| (path.display().to_string(), std::fs::read_to_string(path).unwrap()))
        .filter(|(_, text)| checked(text).pattern.is_some() && errors(&checked(text)).is_empty())
        .collect();
    samples.sort();
    assert!(samples.len() > 15, "{}", samples.len());
    samples
}

/// Every part by its plan with the fewest pick-ups, or as a chart.
fn bodies(report: &Report, rows: bool) -> Vec<(PartKind, NewBody)> {
    let pattern = report.pattern.as_ref().unwrap();
    let body = |(kind, part): (PartKind, &Part)| {
        if rows {
            return (kind, NewBody::Rows { piece: part.piece.clone() });
        }
        let plan = plan_pick_ups(&part.piece, None);
        let piece = part.piece.in_order(&plan.knots);
        (kind, NewBody::Steps { piece, headings: find_headings(part, &plan.knots) })
    };
    pattern.parts().map(body).collect()
}

fn piece(part: Option<&Part>) -> Option<Piece> {
    part.map(|part| part.piece.clone())
}

fn rewritten(report: &Report, bodies: &[(PartKind, NewBody)]) -> Result<String, RewriteError> {
    let pattern = report.pattern.as_ref().unwrap();
    let original = Original { source: &report.files[0], pattern, library: &NoLibrary };
    rewrite(original, bodies).map(|rewritten| rewritten.text)
}

#[test]
fn every_sample_ties_the_same_band_as_steps_and_as_rows() {
    for (path, text) in samples() {
        let before = checked(&text);
        for rows in [false, true] {
            let written = match rewritten(&before, &bodies(&before, rows)) {
                Err(RewriteError::SetsDiffer | RewriteError::Joined(_)) => continue,
                other => other.unwrap_or_else(|error| panic!("{path}: {error:?}")),
            };
            let after = checked(&written);
            assert_eq!(errors(&after), [""; 0], "{path}\n{written}");
            // Beads are left out, as notes are; that their lines at the top are of no use then is said.
            let is_new = |finding: &&Finding| finding.rule.name != "unused-bead";
            let warned = |of: &Report| of.findings.iter().filter(is_new).count();
            assert!(warned(&after) <= warned(&before), "{path}: {:#?}", after.findings);
            for part in PartKind::ALL {
                let [one, other] =
                    [&before, &after].map(|of| of.pattern.as_ref().unwrap().part(part)).map(piece);
                assert_eq!(
                    one.as_ref().map(normal_form),
                    other.as_ref().map(normal_form),
                    "{path}: {part:?}"
                );
                let Some((one, other)) = one.zip(other).filter(|_| !rows) else { continue };
                assert_eq!(pick_ups(&other), fewest_pick_ups(&one), "{path}: {part:?}\n{written}");
            }
        }
    }
}

#[test]
fn what_was_rewritten_is_laid_out_as_the_formatter_does() {
    for (path, text) in samples() {
        let text = knotwright_formatter::format_text(&text);
        let before = checked(&text);
        for rows in [false, true] {
            let Ok(written) = rewritten(&before, &bodies(&before, rows)) else { continue };
            assert_eq!(knotwright_formatter::format_text(&written), written, "{path}");
        }
    }
}

const FANS: &str = "\
pattern \"Slack tide\"  -- the head   stays
thread   kelp #1f5d50
thread foam #f4f1e8

strands kelp 3 foam kelp

-- Goes across.
motif across(reach) {
  take left 1: forward reach
}

motif back() { take right 1: backward to edge }

set {
  -- a remark
  section \"there\" {
    work across(4)
    expect 3 foam 2 kelp
    note \"pull it tight\"
  }
  section \"and \\\"back\\\"\" { work back() }
  expect start
}  -- the end
";

#[test]
fn the_head_stays_byte_for_byte_and_sections_stay_where_they_can() {
    let report = checked(FANS);
    let written = rewritten(&report, &bodies(&report, false)).unwrap();
    insta::assert_snapshot!(written, @r#"
    pattern "Slack tide"  -- the head   stays
    thread   kelp #1f5d50
    thread foam #f4f1e8

    strands kelp 3 foam kelp

    set {
      section "there" {
        take left 1 (kelp): forward to edge
      }
      section "and \"back\"" {
        take right 1 (kelp): backward to edge
      }
      expect start
    }  -- the end
    "#);
}

#[test]
fn rows_are_written_in_bricks() {
    let report = checked(FANS);
    let written = rewritten(&report, &bodies(&report, true)).unwrap();
    let body = written.split("\n\n").last().unwrap();
    insta::assert_snapshot!(body, @r#"
    set {
      rows {
        \ .
         \ .
        . \
         . \
        . .
         . /
        . /
         / .
        / .
         . .
      }
      expect start
    }  -- the end
    "#);
}

#[test]
fn line_ends_are_those_of_the_file() {
    let report = checked(&FANS.replace('\n', "\r\n"));
    let written = rewritten(&report, &bodies(&report, false)).unwrap();
    assert!(written.contains("(kelp): forward to edge\r\n"));
    assert!(!written.replace("\r\n", "").contains(['\n', '\r']));
}

#[test]
fn what_is_gone_is_counted() {
    let report = checked(FANS);
    let original =
        Original { source: &report.files[0], pattern: report.pattern.as_ref().unwrap(), library: &NoLibrary };
    let rewritten = rewrite(original, &bodies(&report, false)).unwrap();
    let left_out = rewritten.left_out;
    assert_eq!((left_out.comments, left_out.notes, left_out.expects, left_out.motifs), (1, 1, 1, 2));
    assert_eq!(knotwright_formatter::apply_text_edits(FANS, &rewritten.edits), rewritten.text);
}

/// The first kelp strand goes to the right edge, so the next set takes another place.
const BY_COLOR: &str = "pattern \"Drift\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands kelp 2 sand\nset {\n  \
                        take kelp 1 from left: forward 1\n}\n";

#[test]
fn sets_that_follow_a_color_about_cannot_be_said_by_place() {
    let report = checked(BY_COLOR);
    assert_eq!(rewritten(&report, &bodies(&report, false)), Err(RewriteError::SetsDiffer));
}

/// Kelp hangs second after one set, third after two: the closing takes other places.
#[test]
fn a_closing_that_looks_for_a_color_cannot_be_said_by_place() {
    let text = "pattern \"Drift\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands kelp 3 sand\nset {\n  \
                take left 2: backward 1\n  take right 2: backward 1\n}\nclosing {\n  take kelp 1 from left: forward 1\n}\n";
    let report = checked(text);
    assert_eq!(errors(&report), [""; 0]);
    let bodies =
        |part| bodies(&report, false).into_iter().filter(|(named, _)| *named == part).collect::<Vec<_>>();
    assert_eq!(rewritten(&report, &bodies(PartKind::Closing)), Err(RewriteError::ClosingsDiffer));
    let set = rewritten(&report, &bodies(PartKind::Set)).unwrap();
    assert!(set.contains("take kelp 1 from left: forward 1"), "the closing stays as it is: {set}");
    assert!(!set.contains("(sand)"), "in the next set another color may hang there: {set}");
}

/// Each knot has a row of its own and an empty one above it, and a row has up to three bytes.
#[test]
fn a_chart_that_nobody_could_read_again_is_refused() {
    let report = checked(FANS);
    let strands = report.pattern.as_ref().unwrap().strands.len();
    let chart = |knots: usize| {
        let turns = std::iter::repeat_n((0, Kind::ForwardBackward), knots);
        rewritten(&report, &[(PartKind::Set, NewBody::Rows { piece: Piece::tie(strands, turns).unwrap() })])
    };
    assert!(chart(1000).is_ok());
    assert_eq!(chart(3_000_000), Err(RewriteError::TooLarge));
}

#[test]
fn a_part_that_is_not_there_and_another_width_are_refused() {
    let report = checked(FANS);
    let body = |strands| NewBody::Rows { piece: Piece::empty(strands) };
    assert_eq!(
        rewritten(&report, &[(PartKind::Closing, body(5))]),
        Err(RewriteError::NoPart(PartKind::Closing))
    );
    assert_eq!(rewritten(&report, &[(PartKind::Set, body(4))]), Err(RewriteError::OtherWidth));
    let broken = checked(&FANS.replace("note \"pull it tight\"", "take left"));
    assert_eq!(rewritten(&broken, &[(PartKind::Set, body(5))]), Err(RewriteError::Unsound));
}

fn any_knots() -> impl Strategy<Value = (u8, Vec<(u8, Kind)>)> {
    let kind = prop_oneof![
        Just(Kind::Forward),
        Just(Kind::Backward),
        Just(Kind::ForwardBackward),
        Just(Kind::BackwardForward)
    ];
    (2_u8..8).prop_flat_map(move |strands| {
        (Just(strands), prop::collection::vec((0..strands - 1, kind.clone()), 1..40))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]
    /// Whatever knots are wanted, the text ties them: as steps in the order given, as rows in any.
    #[test]
    fn any_knots_can_be_written((strands, knots) in any_knots()) {
        let head = format!("pattern \"Any\"\nthread kelp #1f5d50\nthread foam white\nstrands {} kelp foam\n", strands - 1);
        let report = checked(&format!("{head}set {{\n  take left 1: forward 1\n}}\n"));
        let piece = Piece::tie(usize::from(strands), knots).unwrap();
        for body in [NewBody::Steps { piece: piece.clone(), headings: vec![] }, NewBody::Rows { piece: piece.clone() }] {
            let in_order = matches!(body, NewBody::Steps { .. });
            let written = rewritten(&report, &[(PartKind::Set, body)]).unwrap();
            let tied = checked(&written).pattern.unwrap().set.unwrap().piece;
            prop_assert_eq!(normal_form(&tied), normal_form(&piece));
            if in_order {
                prop_assert_eq!(tied.knots(), piece.knots());
            }
        }
    }
}
