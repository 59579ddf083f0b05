//! `plan` and `chart`

use crate::stage::{BROKEN, GOOD, Stage, held_to};
use knotwright_band::{Kind, Piece, fewest_pick_ups, normal_form, pick_ups};
use knotwright_checker::{NoLibrary, Pattern, Settings, Source, check};
use knotwright_numbers::ToNumber;
use serde_json::{Value, json};
use std::sync::Arc;

fn tied(text: &str) -> Pattern {
    check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default()).pattern.unwrap()
}

fn set(pattern: &Pattern) -> Piece {
    pattern.set.as_ref().unwrap().piece.clone()
}

/// A chevron, row by row: far too many pick-ups.
const ROWS: &str = "\
pattern \"Gulls\"
thread slate #2b3a5a
thread foam #f4f1e8
strands slate 2 foam | mirror

set {
  rows {
    \\ . /
     . .
    . x .
     \\ /
    . x .
  }
}
";

#[test]
fn a_planned_pattern_is_the_same_band_in_fewer_pick_ups() {
    let stage = Stage::with(&[("a.knot", ROWS)]);
    let said = stage.run(&["plan", "a.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    let (before, after) = (set(&tied(ROWS)), set(&tied(&said.out)));
    assert_eq!(normal_form(&before), normal_form(&after));
    assert_eq!(pick_ups(&after), fewest_pick_ups(&before));
    let shown = format!("set: {} pick-ups; {} as written", fewest_pick_ups(&before), pick_ups(&before));
    assert!(said.err.contains(&shown), "{}", said.err);
    stage.write("b.knot", &said.out);
    assert_eq!(stage.run(&["compare", "a.knot", "b.knot"]).code, 0);
    assert_eq!(stage.run(&["format", "--check", "b.knot"]).code, 0, "it is set as the formatter sets it");
    assert_eq!(stage.read("a.knot"), ROWS, "the file stays");
}

#[test]
fn there_and_back_between_steps_and_rows_is_the_same_band() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let chart = stage.run(&["chart", "a.knot"]);
    assert!(chart.out.contains("rows {") && !chart.out.contains("take"), "{}", chart.out);
    stage.write("chart.knot", &chart.out);
    let steps = stage.run(&["plan", "chart.knot"]);
    assert!(!steps.out.contains("rows"), "{}", steps.out);
    stage.write("steps.knot", &steps.out);
    for other in ["chart.knot", "steps.knot"] {
        let said = stage.run(&["compare", "a.knot", other]);
        assert_eq!(said.code, 0, "{said:?}");
        assert!(said.out.starts_with(&format!("a.knot and {other} are the same band.\n")), "{}", said.out);
    }
}

#[test]
fn words_number_the_pick_ups_and_give_reasons() {
    let stage = Stage::with(&[("a.knot", ROWS)]);
    let said = stage.run(&["plan", "a.knot", "--format", "words"]);
    insta::assert_snapshot!(said.out);
    let numbered = said.out.lines().filter(|line| line.contains(". take ")).count();
    assert_eq!(numbered, fewest_pick_ups(&set(&tied(ROWS))));
}

/// A frame that holds each bar: its strands must be let go for every bar.
const GATE: &str = "pattern \"Gate\"\nthread paint #f6f4ee\nthread rose #dd5f6e\nstrands paint 2 rose paint\nset {\n  repeat 2 {\n    \
                   take left 1: forward-backward 1\n    take left 2: forward-backward 1\n  }\n  take left 2: backward 1\n  \
                   take left 2: backward 1\n}\n";

#[test]
fn the_reason_names_the_pick_up_in_between() {
    let stage = Stage::with(&[("a.knot", GATE)]);
    let said = stage.run(&["plan", "a.knot", "--format", "words"]);
    insta::assert_snapshot!(said.out);
}

fn planned(stage: &Stage, arguments: &[&str]) -> Value {
    let said = stage.run(&[&["plan", "--format", "json"], arguments].concat());
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{said:?}");
    held_to("plan-1", serde_json::from_str(&said.out).unwrap())
}

#[test]
fn for_programs_it_is_the_same_order_with_the_same_reasons() {
    let stage = Stage::with(&[("a.knot", GATE)]);
    let plan = planned(&stage, &["a.knot"]);
    let set = &plan["parts"][0];
    assert_eq!((&set["part"], &set["pick_ups_as_written"]), (&json!("set"), &json!(5)));
    let knot = |number: u32, gap: u32, kind: &str| json!({"number": number, "gap": gap, "kind": kind});
    assert_eq!(
        set["pick_ups"][3],
        json!({"strand": 2, "color": "rose", "take": "take left 2 (rose): forward-backward 1, backward 1",
               "knots": [knot(4, 2, "forward-backward"), knot(5, 1, "backward")],
               "again": {"reason": "tied-over", "pick_up": 3}})
    );
    assert_eq!(set["pick_ups"][2]["again"], json!({"reason": "waits", "pick_up": 2}));
    assert_eq!(set["pick_ups"][0]["again"], Value::Null);
    let slow = planned(&stage, &["a.knot", "--within", "1"]);
    let reasons = slow["parts"][0]["pick_ups"].as_array().unwrap();
    assert!(reasons.iter().any(|of| of["again"] == json!({"reason": "too-many-rows", "pick_up": null})));
}

/// What a program reads leads to the band: the knots, tied in that order, are those of the pattern.
#[test]
fn tied_as_a_program_is_reported_every_sample_is_the_same_band() {
    let patterns = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/patterns");
    let mut seen = 0;
    for file in std::fs::read_dir(patterns).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        if !text.contains("\nset {") {
            continue;
        }
        let stage = Stage::with(&[]);
        let plan = planned(&stage, &[path.to_str().unwrap()]);
        let exported: Value =
            serde_json::from_str(&stage.run(&["export", path.to_str().unwrap()]).out).unwrap();
        let set = plan["parts"].as_array().unwrap().iter().find(|part| part["part"] == "set").unwrap();
        let kind = |name: &Value| match name.as_str().unwrap() {
            "forward" => Kind::Forward,
            "backward" => Kind::Backward,
            "forward-backward" => Kind::ForwardBackward,
            _ => Kind::BackwardForward,
        };
        let knot = |knot: &Value| (knot["gap"].as_u64().unwrap().to_u8() - 1, kind(&knot["kind"]));
        let strands = exported["strands"].as_array().unwrap().len();
        let written = exported["knots"].as_array().unwrap();
        let shown: Vec<&Value> = set["pick_ups"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|of| of["knots"].as_array().unwrap())
            .collect();
        for of in &shown {
            assert_eq!(knot(of), knot(&written[of["number"].as_u64().unwrap().to_usize() - 1]), "{path:?}");
        }
        let tie = |knots: Vec<(u8, Kind)>| normal_form(&Piece::tie(strands, knots).unwrap());
        let planned = tie(shown.iter().map(|of| knot(of)).collect());
        assert_eq!(planned, tie(written.iter().map(knot).collect()), "{path:?}");
        seen += 1;
    }
    assert!(seen > 15, "{seen}");
}

#[test]
fn what_has_nothing_to_gain_keeps_its_words() {
    let text =
        GOOD.replace("set {", "-- first a row\nopening {\n  rows {\n    \\ \\\n  }\n}\n\nset {  -- kept");
    let stage = Stage::with(&[("a.knot", &text.replace("  expect start\n", ""))]);
    let said = stage.run(&["plan", "a.knot"]);
    assert!(said.out.contains("set {  -- kept\n  take left 1: forward 3\n"), "{said:?}");
    assert!(
        said.out.contains("opening {\n  take left 1 (kelp): forward 1\n"),
        "a chart becomes steps: {said:?}"
    );
}

#[test]
fn no_strand_goes_over_more_rows_than_allowed() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let said = stage.run(&["plan", "a.knot", "--within", "1", "--format", "words"]);
    let series = said.out.lines().filter(|line| line.contains(". take ")).count();
    assert_eq!(series, set(&tied(GOOD)).knots().len(), "a knot at a time: {}", said.out);
    assert!(said.out.contains("more than 1 row at once"), "{}", said.out);
}

#[test]
fn what_cannot_be_written_is_said_and_nothing_is_written() {
    let by_color = "pattern \"Drift\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands kelp 3 sand\nset {\n  \
                    take kelp 1 from left: forward 1\n  take right 1: backward 1\n  take kelp 1 from left: forward 1\n}\n";
    let library = "pattern \"Fans\"\nmotif one() {\n  take left 1: forward 1\n}\n";
    let stage =
        Stage::with(&[("a.knot", BROKEN), ("b.knot", by_color), ("lib.knot", library), ("c.knot", GOOD)]);
    let table: [(&[&str], i32, &str); 7] = [
        (&["plan", "a.knot"], 1, "broken-promise"),
        (&["plan", "b.knot"], 1, "picks strands by color, and the next set takes other places"),
        (&["chart", "b.knot"], 1, "picks strands by color"),
        (&["chart", "lib.knot"], 1, "a library has no band"),
        (&["chart", "c.knot", "--part", "closing"], 2, "it has no `closing`"),
        (&["plan", "."], 2, "this is a folder"),
        (&["plan", "none.knot"], 2, "there is no such file"),
    ];
    for (arguments, code, message) in table {
        let said = stage.run(arguments);
        assert_eq!((said.code, said.out.as_str()), (code, ""), "{arguments:?}: {said:?}");
        assert!(said.err.replace('\n', " ").contains(message), "{arguments:?}: {}", said.err);
    }
}

#[test]
fn text_of_a_pattern_gives_no_orders_to_a_terminal() {
    let nasty = GOOD.replace("set {", "set {\n  section \"a\u{202e}b\" {\n  }");
    let stage = Stage::with(&[("a.knot", &nasty)]);
    for command in ["plan", "chart"] {
        let said = stage.run(&[command, "a.knot"]);
        assert!(!said.err.contains('\u{202e}'), "{said:?}");
    }
    let said = stage.run(&["measure", "--sets", "1", "a.knot"]);
    assert!(!said.out.contains('\u{202e}'), "{said:?}");
}
