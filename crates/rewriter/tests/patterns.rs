//! Every sample pattern, rewritten in every way.

use knotwright_band::beads::{BeadAt, bead_rooms};
use knotwright_band::{Kind, Layout, Piece, fewest_pick_ups, normal_form, pick_ups, plan_pick_ups};
use knotwright_checker::{NoLibrary, Part, PartKind, Report, Settings, Severity, Source, check};
use knotwright_rewriter::{NewBody, NoPlace, Original, RewriteError, find_headings, rewrite, write_kind};
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
                Err(RewriteError::SetsDiffer) => continue,
                other => other.unwrap_or_else(|error| panic!("{path}: {error:?}")),
            };
            let after = checked(&written);
            assert_eq!(errors(&after), [""; 0], "{path}\n{written}");
            assert!(after.findings.len() <= before.findings.len(), "{path}: {:#?}", after.findings);
            assert_eq!(lies(&after), lies(&before), "{path}\n{written}");
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

/// What lies between which rows of a band: of each bead and of each join, the positions of its strands there, the rows of
/// the knots around it, and what it is.
fn lies(report: &Report) -> Vec<String> {
    let pattern = report.pattern.as_ref().unwrap();
    let mut all = Vec::new();
    for (kind, part) in pattern.parts() {
        let rows = Layout::of(&part.piece.in_bricks()).rows;
        let knots = || rows.iter().copied().zip(part.piece.knots().iter().map(|knot| knot.gap));
        let beads: Vec<BeadAt> = part.beads().collect();
        for (bead, room) in beads.iter().zip(bead_rooms(knots(), &beads)) {
            let from = bead.position..bead.position + bead.strands;
            all.push(format!("{kind:?} {from:?}: bead {} in {room:?}", bead.bead));
        }
        for (join, joined) in part.piece.joins().iter().zip(&part.joins) {
            let at = [BeadAt { bead: 0, before: join.knot, position: joined.at, strands: 1, step: 0 }];
            let (room, goes_on) = (bead_rooms(knots(), &at)[0], (join.thread, join.set));
            all.push(format!("{kind:?} {}: {:?} goes on as {goes_on:?} in {room:?}", joined.at, join.strand));
        }
    }
    all.sort();
    all
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

const BEADED: &str = "\
pattern \"Mooring\"
thread kelp #1f5d50
thread sand goldenrod
bead pearl #f4efe6 4 mm hole 2 mm
strands kelp 3 sand kelp 3 sand

set {
  section \"out\" {
    take left 1: forward 2
    join left 2 in set 2
    take left 3: forward 2
    repeat 2 {
      take left 1: forward 1
      bead pearl on left 1
    }
  }
  take left 6: forward 1
  join left 5 with kelp
  take left 5: backward 2
  bead pearl on left 3, left 4
  take left 3: forward 1
  bead pearl on right 1
}
";

#[test]
fn beads_and_joins_keep_their_places() {
    let report = checked(BEADED);
    let set = |rows: bool| {
        let written = rewritten(&report, &bodies(&report, rows)).unwrap();
        assert_eq!(lies(&checked(&written)), lies(&report), "{written}");
        written.split("\n\n").last().unwrap().to_owned()
    };
    insta::assert_snapshot!(set(false), @"
    set {
      take left 1: forward 4
      join right 4 with kelp
      take right 4: backward 2
      bead pearl on left 3, left 4
      take left 3: forward 1
      take right 3: forward 1
      join left 2 in set 2
      repeat 2 {
        take left 1: forward 1
        bead pearl on left 1
      }
      bead pearl on right 1
    }
    ");
    let chart = set(true);
    assert!(chart.contains("  }\n  bead pearl on left 3, left 4\n  rows"), "between two charts: {chart}");
}

/// The bead waits for the first knot, and holds the second: in the new order, the second comes before the first.
#[test]
fn a_bead_that_has_no_place_in_the_new_order_is_told_of_and_nothing_is_lost() {
    let text = "pattern \"Mooring\"\nthread kelp #1f5d50\nbead pearl #f4efe6 4 mm hole 2 mm\nstrands 4 kelp\nset {\n  \
                take left 3: forward 1\n  bead pearl on left 2, left 3\n  take left 1: forward 1\n  take left 4: backward 1\n}\n";
    let report = checked(text);
    assert_eq!(errors(&report), [""; 0]);
    let pattern = report.pattern.as_ref().unwrap();
    let piece = pattern.set.as_ref().unwrap().piece.in_order(&[1, 0, 2]);
    let said = rewritten(&report, &[(PartKind::Set, NewBody::Steps { piece, headings: Vec::new() })]);
    assert_eq!(said, Err(RewriteError::NoPlace(NoPlace { line: Some(7), is_bead: true })));
}

/// In the second pass, the strand is sand already; that the line says so counts in sets that begin otherwise.
#[test]
fn a_join_goes_on_with_the_thread_that_it_names_in_each_pass() {
    let text = "pattern \"Mooring\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands 3 kelp\nopening {\n  repeat 2 {\n    \
                take left 1: forward 1\n    take left 2: backward 1\n    join left 1 with sand\n  }\n  take left 3: backward 2\n}\n";
    let report = checked(text);
    assert_eq!(errors(&report), [""; 0]);
    let written = rewritten(&report, &bodies(&report, false)).unwrap();
    assert_eq!(written.matches("join left 1 with sand").count(), 2, "{written}");
    assert_eq!(lies(&checked(&written)), lies(&report), "{written}");
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

    /// Wherever beads and joins stand, they lie afterwards where they lay.
    #[test]
    fn any_beads_and_joins_are_kept((strands, knots) in any_knots(), idle in prop::collection::vec((0..40_usize, 0..8_u8, 0..3_u8), 1..8)) {
        let mut text = format!(
            "pattern \"Any\"\nthread kelp #1f5d50\nthread foam white\nbead pearl #f4efe6 9 mm hole 8 mm\nstrands {} kelp foam\nset {{\n",
            strands - 1
        );
        for (number, (gap, kind)) in knots.iter().enumerate() {
            for (_, at, wide) in idle.iter().filter(|(before, _, _)| *before == number) {
                let at = at % strands;
                let place = |at: u8| format!("left {}", at + 1);
                text += &match at == strands - 1 {
                    true => format!("join {}\n", place(at / 2)),
                    false => {
                        let places: Vec<String> = (at..strands.min(at + wide + 1)).map(place).collect();
                        format!("bead pearl on {}\n", places.join(", "))
                    }
                };
            }
            let from = if kind.left_works() { gap + 1 } else { gap + 2 };
            text += &format!("take left {from}: {} 1\n", write_kind(*kind));
        }
        text += "}\n";
        let report = checked(&text);
        prop_assume!(errors(&report).is_empty());
        for rows in [false, true] {
            match rewritten(&report, &bodies(&report, rows)) {
                Ok(written) => prop_assert_eq!(lies(&checked(&written)), lies(&report), "{}\n{}", text, written),
                Err(RewriteError::NoPlace(no)) => {
                    let line = text.lines().nth(no.line.unwrap() - 1).unwrap();
                    prop_assert!(line.starts_with("bead pearl on"), "{}", line);
                }
                Err(error) => panic!("{error:?}"),
            }
        }
    }
}
