//! `compare`

use crate::stage::{BROKEN, GOOD, Stage, held_to};
use serde_json::{Value, json};

fn compared(stage: &Stage, arguments: &[&str]) -> Value {
    let said = stage.run(&[&["compare", "--format", "json"], arguments].concat());
    let value = serde_json::from_str(&said.out).unwrap_or_else(|_| panic!("{said:?}"));
    let value = held_to("comparison-1", value);
    assert_eq!(said.code, i32::from(value["verdict"] != "same"));
    value
}

#[test]
fn another_way_to_write_it_is_the_same_band() {
    let other = GOOD.replace("  take left 1: forward 3\n  take left 1: forward 3\n  take left 1: forward 3\n  take left 1: forward 3\n", "  repeat 4 { take left 1: forward to edge }\n");
    let renamed = other.replace("kelp", "weed");
    let stage = Stage::with(&[("a.knot", GOOD), ("b.knot", &other), ("c.knot", &renamed)]);
    for (other, more) in [("b.knot", ""), ("c.knot", "\nName of a thread: kelp, now weed.\n")] {
        let said = stage.run(&["compare", "a.knot", other]);
        assert_eq!((said.code, said.out), (0, format!("a.knot and {other} are the same band.\n{more}")));
        assert_eq!(compared(&stage, &["a.knot", other])["verdict"], "same");
    }
}

#[test]
fn one_knot_changed_is_one_knot_and_what_follows() {
    let other =
        GOOD.replacen("forward 3", "forward 2, forward-backward 1", 1).replace("  expect start\n", "");
    let stage = Stage::with(&[("a.knot", GOOD), ("b.knot", &other)]);
    let value = compared(&stage, &["a.knot", "b.knot"]);
    let part = &value["parts"][0];
    let knot = |kind: &str| json!({"row": 3, "gap": 3, "kind": kind});
    assert_eq!(part["changed"], json!([[knot("forward"), knot("forward-backward")]]));
    assert_eq!((&part["removed"], &part["added"], &part["moved"]), (&json!([]), &json!([]), &json!([])));
    assert_eq!(part["follows"]["from_row"], 3);
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    insta::assert_snapshot!(said.out);
}

/// A bracelet that has all that a band without knots can have.
const WHOLE: &str = "\
pattern \"Pier\"
thread kelp #1f5d50
thread sand #e3c888
bead pearl #f4efe6 4 mm hole 2 mm
strands 2 kelp 2 sand
begin {
  tassel 4 cm
  knot
}
finish {
  knot
  tassel 5 cm
}
set {
  repeat 4 { take left 1: forward 3 }
  bead pearl on left 2
  join left 2
  repeat 4 { take left 1: forward 3 }
}
";

#[test]
fn what_differs_besides_the_knots_is_told_as_the_schema_says() {
    let other = WHOLE
        .replace("tassel 4 cm", "tassel 3 cm")
        .replace("tassel 5 cm", "tassel 6 cm")
        .replace("4 mm hole", "5 mm hole")
        .replace("  bead pearl on left 2\n  join left 2\n", "  join left 3\n  bead pearl on left 3\n");
    let stage = Stage::with(&[("a.knot", WHOLE), ("b.knot", &other)]);
    let value = compared(&stage, &["a.knot", "b.knot"]);
    let details = value["details"].as_array().unwrap();
    let told: Vec<&str> = details.iter().map(|detail| detail["what"].as_str().unwrap()).collect();
    for what in ["begin", "finish", "bead", "threaded", "join"] {
        assert!(told.contains(&what), "{told:?}");
    }
}

#[test]
fn the_same_look_is_not_the_same_band() {
    // Between two kelp strands it does not show who works.
    let other =
        GOOD.replacen("take left 1: forward 3", "take left 2: backward 1\n  take left 2: forward 2", 1);
    let stage = Stage::with(&[("a.knot", GOOD), ("b.knot", &other)]);
    assert_eq!(compared(&stage, &["a.knot", "b.knot"])["verdict"], "same-look");
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert!(
        said.out.starts_with("a.knot and b.knot look the same, but are tied with other knots."),
        "{}",
        said.out
    );
}

#[test]
fn mirrors_colors_and_widths_are_reported() {
    let mirrored = GOOD
        .replace("take left 1: forward", "take right 1: backward")
        .replace("2 kelp 2 sand", "2 sand 2 kelp");
    let recolored = GOOD.replace("#1f5d50", "#aa3355");
    let wider = GOOD.replace("2 kelp 2 sand", "2 kelp 3 sand").replace("  expect start\n", "");
    let stage =
        Stage::with(&[("a.knot", GOOD), ("m.knot", &mirrored), ("c.knot", &recolored), ("w.knot", &wider)]);
    let up_to = |other: &str| compared(&stage, &["a.knot", other])["same_up_to"].clone();
    assert_eq!(up_to("m.knot")["mirrored"], true);
    assert_eq!(up_to("c.knot")["colors"], json!([["kelp #1f5d50", "kelp #aa3355"], ["sand", "sand"]]));
    assert_eq!(compared(&stage, &["a.knot", "w.knot"])["parts"], json!([]));
    let said = stage.run(&["compare", "a.knot", "m.knot"]);
    assert!(said.out.contains("is the first one again, but is mirrored"), "{}", said.out);
    let said = stage.run(&["compare", "a.knot", "w.knot"]);
    assert!(said.out.contains("different bands: 4 strands, and 5."), "{}", said.out);
    let said = stage.run(&["compare", "a.knot", "c.knot"]);
    assert!(said.out.contains("kelp #aa3355 none, now 60 cm"), "{}", said.out);
}

#[test]
fn a_set_that_begins_elsewhere_is_known_again() {
    let head = |strands: &str| GOOD.split("set {").next().unwrap().replace("2 kelp 2 sand", strands);
    let (there, back) = ("  take left 1: forward to edge\n", "  take right 1: backward to edge\n");
    let one = format!("{}set {{\n{there}{back}}}\n", head("2 kelp 2 sand"));
    let other = format!("{}set {{\n{back}{there}}}\n", head("kelp 2 sand kelp"));
    let stage = Stage::with(&[("a.knot", &one), ("b.knot", &other)]);
    let up_to = compared(&stage, &["a.knot", "b.knot"])["same_up_to"].clone();
    // There, rows 1 to 3; back begins in the gap of row 3, so two rows on.
    assert_eq!(up_to, json!({"mirrored": false, "colors": [], "begins_in_row": 5, "begins_after_sets": 0}));
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert!(said.out.contains("is the first one again, but begins in row 5 of the first."), "{}", said.out);
}

#[test]
fn a_part_that_one_lacks_is_all_added() {
    let other = format!("{GOOD}closing {{ take left 1: forward 2 }}\n");
    let stage = Stage::with(&[("a.knot", GOOD), ("b.knot", &other)]);
    let parts = compared(&stage, &["a.knot", "b.knot"])["parts"].clone();
    assert_eq!((&parts[1]["part"], &parts[1]["knots"]), (&json!("closing"), &json!([0, 2])));
    assert_eq!(parts[1]["added"].as_array().unwrap().len(), 2);
}

#[test]
fn a_review_comment_cannot_be_dressed_up() {
    let other = GOOD.replacen("forward 3", "forward 2", 1).replace("  expect start\n", "");
    let stage = Stage::with(&[("a.knot", GOOD), ("b_*<i>@x.knot", &other)]);
    let said = stage.run(&["compare", "--format", "markdown", "a.knot", "b_*<i>@x.knot"]);
    assert!(
        said.out.starts_with("**The band changed.** a.knot and b\\_\\*&lt;i>&#64;x.knot are"),
        "{}",
        said.out
    );
    insta::assert_snapshot!(said.out);
}

/// By `what` and `name`, before and after.
fn details(value: &Value) -> Vec<String> {
    let all = value["details"].as_array().unwrap().iter();
    all.map(|of| format!("{} {}: {} {}", of["what"], of["name"], of["before"], of["after"]).replace('"', ""))
        .collect()
}

#[test]
fn what_differs_besides_the_knots_is_reported() {
    let one = GOOD.replace("strands", "license \"CC0-1.0\"\nlength 15 cm\nstrands").replacen(
        "  take left 1: forward 3\n",
        "  note \"Pull evenly.\"\n  take left 1: forward 3\n",
        1,
    );
    let other = one
        .replace("Low tide", "High tide")
        .replace("license \"CC0-1.0\"\n", "")
        .replace("15 cm", "18 cm")
        .replace("evenly", "gently")
        .replace("sand", "dune");
    let stage = Stage::with(&[("a.knot", &one), ("b.knot", &other)]);
    let value = compared(&stage, &["a.knot", "b.knot"]);
    assert_eq!(value["verdict"], "same");
    assert_eq!(
        details(&value),
        [
            "title null: \\Low tide\\ \\High tide\\",
            "license null: CC0-1.0 null",
            "name of a thread null: sand dune",
            "length null: 15 cm 18 cm",
            "note null: Pull evenly. Pull gently.",
        ]
    );
    let said = stage.run(&["compare", "a.knot", "b.knot"]).out;
    assert!(said.contains("\nTitle: \"Low tide\", now \"High tide\".\n"), "{said}");
    assert!(said.contains("\nLicense: CC0-1.0, removed.\n"), "{said}");
}

#[test]
fn the_same_knots_with_other_pick_ups_are_reported() {
    let other = GOOD.replacen(
        "  take left 1: forward 3\n  take left 1: forward 3\n",
        "  take left 1: forward 2\n  take left 1: forward 1\n  take left 3: forward 1\n  take left 2: forward 2\n",
        1,
    );
    let stage = Stage::with(&[("a.knot", GOOD), ("b.knot", &other)]);
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    assert!(said.out.contains("Pick-ups in the set: 4, now 6."), "{}", said.out);
}

#[test]
fn sets_are_said_to_begin_alike_only_if_they_do() {
    let by_color = GOOD
        .replacen("take left 1: forward 3", "take kelp 1 from left: forward to edge", 1)
        .replace("  expect start\n", "");
    let other = by_color.replacen("forward 3", "forward 2", 1);
    let stage = Stage::with(&[("a.knot", &by_color), ("b.knot", &other)]);
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert!(said.code == 1 && said.out.contains("set: "), "{said:?}");
    assert!(!said.out.contains("The first sets are alike"), "{}", said.out);
}

#[test]
fn a_pattern_with_errors_is_reported() {
    let stage = Stage::with(&[("a.knot", GOOD), ("b.knot", BROKEN)]);
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    assert!(said.err.contains("broken-promise"), "{}", said.err);
    assert_eq!(stage.run(&["compare", "a.knot", "none.knot"]).code, 2);
    assert_eq!(stage.run(&["compare", "a.knot"]).code, 2);
}
