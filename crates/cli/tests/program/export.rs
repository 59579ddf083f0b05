//! `export`

use crate::stage::{BROKEN, GOOD, Stage, held_to};
use serde_json::{Value, json};

fn exported(stage: &Stage, arguments: &[&str]) -> Vec<Value> {
    let said = stage.run(arguments);
    assert_eq!(said.code, 0, "{said:?}");
    said.out.lines().map(|line| held_to("band-1", serde_json::from_str(line).unwrap())).collect()
}

/// Two strands: `kelp` ties one knot over `sand`, in an opening, in a set and in a closing.
const SMALL: &str = "\
pattern \"Ripple\"
thread kelp #1f5d50 \"deep kelp\"
thread sand goldenrod
strands kelp sand
gauge {
  thickness 1 mm
}
sets 3
ends 10 cm

opening { take left 1: forward 1 }
set {
  take right 1 (kelp): backward 1
  take left 1 (kelp): forward-backward 2
}
closing { take left 1: forward 1 }
";

/// A knot of 1 mm thread takes about 13 mm, and the beginning 10 cm and a knot.
#[test]
fn a_thread_that_changes_color_says_its_colors_and_each_knot_which_of_them_it_shows() {
    let text = SMALL.replace("kelp #1f5d50", "kelp #1f5d50 12 cm, #8fb9a0 1 m");
    let stage = Stage::with(&[("ripple.knot", &text)]);
    let band = &exported(&stage, &["export", "ripple.knot"])[0];
    let shades = json!([{"color": "#1f5d50", "length_mm": 120.0}, {"color": "#8fb9a0", "length_mm": 1000.0}]);
    assert_eq!(band["threads"][0]["shades"], shades);
    assert_eq!(band["threads"][1].get("shades"), None);
    let shade = |knot: &Value| knot.get("shade").and_then(Value::as_u64);
    assert_eq!(shade(&band["opening"]["knots"][0]), Some(1));
    let of_set: Vec<_> = band["knots"].as_array().unwrap().iter().map(shade).collect();
    assert_eq!(of_set.len(), 3);
    assert!(of_set.iter().all(Option::is_some), "{of_set:?}");
    assert_eq!(shade(&band["closing"]["knots"][0]), Some(2));
    let plain = &exported(&Stage::with(&[("ripple.knot", SMALL)]), &["export", "ripple.knot"])[0];
    assert_eq!(shade(&plain["knots"][0]), None);
}

#[test]
fn a_small_band_is_exported_knot_for_knot() {
    let stage = Stage::with(&[("ripple.knot", SMALL)]);
    let band = &exported(&stage, &["export", "ripple.knot"])[0];
    assert_eq!(band["title"], "Ripple");
    assert_eq!(band["threads"][0], json!({"name": "kelp", "color": "#1f5d50", "label": "deep kelp"}));
    assert_eq!(band["threads"][1]["color"], "#daa520", "goldenrod, CSS Color 4");
    assert_eq!(band["strands"], json!(["kelp", "sand"]));
    assert_eq!(
        band["opening"],
        json!({"order": [2, 1], "knots": [{"row": 1, "gap": 1, "kind": "forward", "working": 1, "base": 2,
                "color": "kelp", "line": 11, "column": 11}]})
    );
    let knot = |row: u32, kind: &str, line: u32| json!({"row": row, "gap": 1, "kind": kind, "working": 2, "base": 1, "color": "kelp", "line": line, "column": 3});
    let knots = [knot(1, "backward", 13), knot(3, "forward-backward", 14), knot(5, "forward-backward", 14)];
    assert_eq!(band["knots"], json!(knots));
    assert_eq!(band["order"], json!([2, 1]));
    assert_eq!(band["sets"], 3);
    assert_eq!(band["rows"], 2 * (1 + 3 * 3 + 1) - 1, "one gap: every second row");
}

#[test]
fn a_band_that_closes_says_after_how_many_sets() {
    let turning = SMALL.replace("  take left 1 (kelp): forward-backward 2\n", "").replace("(kelp)", "");
    let stage = Stage::with(&[("a.knot", &turning), ("b.knot", GOOD)]);
    let bands = exported(&stage, &["export", "a.knot", "b.knot"]);
    assert_eq!(bands[0]["closes"], json!({"colors_after": 2, "strands_after": 2}));
    assert_eq!(bands[1]["closes"], json!({"colors_after": 1, "strands_after": 1}));
    assert_eq!(bands[1]["sets"], Value::Null);
    assert_eq!(bands[1]["length_mm"], Value::Null);
    assert_eq!(
        bands[1]["use"][0],
        json!({"strand": 1, "color": "kelp", "working": 3, "base": 3, "idle_rows":
        bands[1]["rows"].as_u64().unwrap() - 6, "length_mm": null})
    );
}

/// The model of the thread, worked by hand for thread of 1 mm: e = 0.85, position 1.275, pitch 1.7, path 2.125;
/// working 2 * 0.85 * (sqrt(4 pi^2 + 1) + 0.6) + 1.0625 = 12.898, base 2.3375, idle row 1.785 (mm).
#[test]
fn thread_is_computed_from_the_gauge_with_both_ends() {
    let stage = Stage::with(&[("ripple.knot", SMALL)]);
    let band = &exported(&stage, &["export", "ripple.knot"])[0];
    let (kelp, sand) = (&band["use"][0], &band["use"][1]);
    let knots = |of: &Value| of["working"].as_u64().unwrap() + of["base"].as_u64().unwrap();
    assert_eq!((knots(kelp), knots(sand)), (11, 11));
    for of in [kelp, sand] {
        let count = |what: &str| of[what].as_f64().unwrap();
        // Two ends of 10 cm, and two knots of all strands: 10 * 0.85 * sqrt(n / 0.8) each.
        let strands = f64::from(u8::try_from(band["use"].as_array().unwrap().len()).unwrap());
        let held = 200.0 + 2.0 * 8.5 * (strands / 0.8).sqrt();
        let likely = held + count("working") * 12.898 + count("base") * 2.3375 + count("idle_rows") * 1.785;
        assert!((count("length_mm") - likely).abs() < 0.1, "{of}: {likely}");
    }
    assert_eq!(band["length_mm"], 35.7, "21 rows of 1.7 mm");
}

#[test]
fn a_length_becomes_whole_sets() {
    let stage = Stage::with(&[
        ("a.knot", &SMALL.replace("sets 3", "length 36 mm")),
        ("b.knot", &SMALL.replace("sets 3", "length 1 mm")),
    ]);
    let bands = exported(&stage, &["export", "."]);
    assert_eq!(bands[0]["sets"], 3, "21 rows of 1.7 mm");
    assert_eq!(bands[1]["sets"], 1, "at least one");
}

#[test]
fn sets_that_pick_by_color_are_followed_until_they_come_again() {
    let pattern = "pattern \"Drift\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands 2 kelp 2 sand\nset {\n  \
                   take kelp 1 from left: forward to edge\n}\n";
    let stage = Stage::with(&[("a.knot", pattern)]);
    let band = &exported(&stage, &["export", "a.knot"])[0];
    assert_eq!(band["closes"]["colors_after"], Value::Null, "the kelp strands stay at the right edge");
}

#[test]
fn a_pattern_with_errors_is_reported_and_left_out() {
    let stage = Stage::with(&[
        ("a.knot", BROKEN),
        ("b.knot", GOOD),
        ("lib.knot", "pattern \"Fans\"\nmotif one() {\n  take left 1: forward 1\n}\n"),
    ]);
    let said = stage.run(&["export", "."]);
    assert_eq!(said.code, 1);
    assert_eq!(said.out.lines().count(), 1, "{}", said.out);
    assert!(said.err.contains("broken-promise"), "{}", said.err);
    let said = stage.run(&["export", "lib.knot"]);
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    assert!(said.err.contains("lib.knot: a library has no band"), "{}", said.err);
}

#[test]
fn texts_in_other_languages_are_exported_by_their_tags() {
    let stage = Stage::with(&[(
        "a.knot",
        "pattern \"Tides\", de \"Gezeiten\"\nthread kelp #1f5d50 \"deep kelp\", de \"tiefer Tang\", pt-BR \"alga\"\n\
         strands 2 kelp\nset {\n  take left 1: forward 1\n}\n",
    )]);
    let said = stage.run(&["export", "a.knot"]);
    let band = held_to("band-1", serde_json::from_str(&said.out).unwrap());
    assert_eq!(band["titles"], json!({"de": "Gezeiten"}));
    assert_eq!(band["threads"][0]["labels"], json!({"de": "tiefer Tang", "pt-BR": "alga"}));
}
