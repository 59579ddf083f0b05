//! `measure`

use crate::stage::{BROKEN, GOOD, Stage, held_to};
use knotwright_band::{Kind, Piece, Sets, total_uses};
use serde_json::Value;

fn measured(stage: &Stage, arguments: &[&str]) -> Value {
    let said = stage.run(&[&["measure", "--format", "json"], arguments].concat());
    assert_eq!(said.code, 0, "{said:?}");
    held_to("measure-1", serde_json::from_str(&said.out).unwrap())
}

/// A diagonal over five strands, once a set: strands change places from set to set.
const TURNING: &str = "\
pattern \"Ripple\"
thread kelp #1f5d50
thread sand goldenrod
strands kelp sand kelp sand kelp
gauge {
  thickness 1 mm
}
ends 10 cm

set { take left 1: forward to edge }
";

/// The model of the thread, worked by hand for thread of 1 mm (own geometry, see docs/measuring.md): e = 0.85,
/// working 2 * 0.85 * (sqrt(4 pi^2 + 1) + 0.6) + 1.0625 = 12.898, base 2.3375, idle row 1.785, row 1.7 (mm).
#[test]
fn every_strand_is_followed_through_all_sets() {
    let stage = Stage::with(&[("a.knot", TURNING)]);
    let set = Piece::tie(5, (0..4).map(|gap| (gap, Kind::Forward))).unwrap();
    for sets in [1_u64, 2, 3, 7, 1000] {
        let band = measured(&stage, &["a.knot", "--sets", &sets.to_string()]);
        let uses = total_uses(&Piece::empty(5), &Sets::alike(set.clone()), sets, &Piece::empty(5));
        let rows = 4 + 2 * (sets - 1);
        assert_eq!((band["sets"].as_u64(), band["rows"].as_u64()), (Some(sets), Some(rows)));
        for (strand, of) in uses.iter().enumerate() {
            let told = &band["strands"][strand];
            assert_eq!(told["working"], of.working, "strand {strand}, {sets} sets");
            assert_eq!(told["base"], of.base);
            let idle = rows - of.working - of.base;
            let used = of.working as f64 * 12.898 + of.base as f64 * 2.3375 + idle as f64 * 1.785;
            let near = |what: &str, wanted: f64| {
                let told = told[what].as_f64().unwrap();
                assert!((told - wanted).abs() < 0.1 + wanted * 1e-4, "{what}: {told}, {wanted}");
            };
            near("likely_mm", 200.0 + used);
            near("low_mm", 200.0 + 0.8 * used);
            near("high_mm", 200.0 + 1.2 * used);
            near("cut_mm", 200.0 + 1.15 * used);
        }
    }
}

#[test]
fn a_length_is_met_to_the_nearest_set_and_counts_interlock() {
    let stage = Stage::with(&[("a.knot", TURNING)]);
    // Rows of 1.7 mm: 4 in the first set, 2 more with each other one. 34 mm are 20 rows, 9 sets.
    let band = measured(&stage, &["a.knot", "--length", "34mm"]);
    assert_eq!((band["sets"].as_u64(), band["rows"].as_u64()), (Some(9), Some(20)));
    assert_eq!(band["length_mm"], 34.0);
    assert_eq!(band["width_mm"], 6.4, "5 places of 1.275 mm");
    let in_inches = measured(&stage, &["a.knot", "--length", "1.338 in"]);
    assert_eq!(in_inches["sets"], 9);
}

#[test]
fn a_swatch_replaces_the_model() {
    let swatch = TURNING.replace("thickness 1 mm", "10 knots use 100 mm\n  20 rows measure 40 mm");
    let stage = Stage::with(&[("a.knot", &swatch)]);
    let band = measured(&stage, &["a.knot", "--sets", "1"]);
    assert_eq!(band["gauge"]["basis"], "swatch");
    assert_eq!(band["length_mm"], 8.0, "4 rows of 2 mm");
    // The first strand ties 4 knots of 10 mm and is idle nowhere.
    assert_eq!(band["strands"][0]["likely_mm"], 240.0);
    assert_eq!(band["strands"][0]["cut_mm"], 242.8, "7 % in reserve");
}

#[test]
fn what_is_assumed_is_said() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let band = measured(&stage, &["a.knot", "--sets", "2"]);
    assert_eq!(
        (band["gauge"]["basis"].as_str(), band["ends_assumed"].as_bool()),
        (Some("assumed"), Some(true))
    );
    let said = stage.run(&["measure", "a.knot", "--sets", "2"]);
    assert!(said.out.contains("says nothing of its thread: taken to be 0.9 mm thick"), "{}", said.out);
    assert!(said.out.contains("as the pattern does not say"), "{}", said.out);
    let told = measured(&stage, &["a.knot", "--sets", "2", "--thickness", "1mm", "--ends", "3 cm"]);
    assert_eq!((told["gauge"]["basis"].as_str(), told["ends_mm"].as_f64()), (Some("thickness"), Some(30.0)));
}

/// Common practice, no source: strands for a wrist band of twelve are cut at about 36 in (914 mm).
#[test]
fn twelve_strands_for_a_wrist_come_near_to_common_practice() {
    let chevron = "pattern \"Reeds\"\nthread kelp #1f5d50\nthread sand goldenrod\n\
                   strands 2 kelp 2 sand 2 kelp | mirror\nset {\n  both { take left 1: forward to center left }\n  \
                   meet center\n}\n";
    let stage = Stage::with(&[("a.knot", chevron)]);
    let band = measured(&stage, &["a.knot", "--length", "15cm"]);
    let likely: Vec<f64> = band["strands"]
        .as_array()
        .unwrap()
        .iter()
        .map(|strand| strand["likely_mm"].as_f64().unwrap())
        .collect();
    let mean = likely.iter().sum::<f64>() / likely.len() as f64;
    assert!((780.0..=920.0).contains(&mean), "{mean}");
}

#[test]
fn a_fold_is_one_thread_and_has_one_end() {
    let folded =
        TURNING.replace("kelp sand kelp sand kelp", "2 kelp 2 sand") + "start folded pairs side-by-side\n";
    let folded = folded.replace("\nset {", "\nset { take left 1: forward 1 }\nclosing {");
    let stage = Stage::with(&[("a.knot", &folded)]);
    let band = measured(&stage, &["a.knot", "--sets", "3"]);
    let pieces = band["pieces"].as_array().unwrap();
    assert_eq!(pieces.len(), 2);
    assert_eq!(
        (&pieces[0]["strands"], &pieces[1]["strands"]),
        (&serde_json::json!([1, 2]), &serde_json::json!([3, 4]))
    );
    for piece in pieces {
        let cut = |strand: &Value| {
            band["strands"][strand.as_u64().unwrap() as usize - 1]["cut_mm"].as_f64().unwrap()
        };
        let longer = piece["strands"].as_array().unwrap().iter().map(cut).fold(0.0, f64::max);
        assert!((piece["length_mm"].as_f64().unwrap() - 2.0 * longer).abs() < 0.11, "{piece}");
    }
    let loose = folded.replace("start folded pairs side-by-side\n", "");
    stage.write("b.knot", loose);
    let loose = measured(&stage, &["b.knot", "--sets", "3"]);
    let likely = |of: &Value| of["strands"][0]["likely_mm"].as_f64().unwrap();
    assert!((likely(&loose) - likely(&band) - 100.0).abs() < 0.11, "one end of 10 cm less");
}

#[test]
fn sharing_out_knots_is_told_with_what_it_saves() {
    // The left strand always works over its neighbor of the same color.
    let uneven = "pattern \"Reeds\"\nthread kelp #1f5d50\nstrands 2 kelp\ngauge {\n  thickness 1 mm\n}\nends 10 cm\n\
                  set { take left 1: forward-backward 4 }\n";
    let stage = Stage::with(&[("a.knot", uneven)]);
    let band = measured(&stage, &["a.knot", "--sets", "20"]);
    assert_eq!(band["balance"]["turned"], 2, "two knots each");
    let longest = |what: &str| band["balance"][what].as_f64().unwrap();
    assert_eq!(longest("longest_before_mm"), band["evenness"]["most_mm"].as_f64().unwrap());
    let planned = stage.run(&["plan", "--balance", "a.knot"]);
    stage.write("b.knot", planned.out);
    let after = measured(&stage, &["b.knot", "--sets", "20"]);
    assert_eq!(after["evenness"]["most_mm"].as_f64().unwrap(), longest("longest_after_mm"));
    assert!(longest("longest_after_mm") < longest("longest_before_mm") - 100.0);
}

#[test]
fn a_cut_list_for_spreadsheets_has_a_line_a_strand() {
    let stage = Stage::with(&[("a,b.knot", TURNING)]);
    let said = stage.run(&["measure", "--format", "csv", "--sets", "1", "a,b.knot"]);
    let lines: Vec<&str> = said.out.split("\r\n").collect();
    assert_eq!(lines[0], "pattern,strand,color,working,base,idle_rows,low_mm,likely_mm,high_mm,cut_mm");
    assert_eq!(lines[1], "\"a,b.knot\",1,kelp,4,0,0,241.3,251.6,261.9,259.3", "RFC 4180: a comma is quoted");
    assert_eq!(lines.len(), 7, "{lines:?}");
}

#[test]
fn what_cannot_be_measured_is_said_and_nothing_is_written() {
    let stage = Stage::with(&[
        ("a.knot", TURNING),
        ("zero.knot", &TURNING.replace("thickness 1 mm", "thickness 0 mm")),
        ("short.knot", &TURNING.replace("ends 10 cm", "length 3 mm")),
        ("still.knot", &TURNING.replace("take left 1: forward to edge", "take left 1: forward 0")),
        ("broken.knot", BROKEN),
    ]);
    let table: [(&[&str], i32, &str); 9] = [
        (&["a.knot"], 2, "ask for `--length 15cm` or `--sets 8`"),
        (
            &["a.knot", "--length", "3mm"],
            2,
            "0.3 cm is shorter than the band with one set, which has 4 rows and is 0.7 cm long",
        ),
        (&["a.knot", "--length", "3"], 2, "a number and a unit"),
        (&["a.knot", "--length", "0mm"], 2, "more than nothing"),
        (&["a.knot", "--sets", "0"], 2, "0 is not in 1.."),
        (&["a.knot", "--sets", "3", "--thickness", "0mm"], 2, "more than nothing"),
        (&["zero.knot", "--sets", "3"], 1, "impossible-measure"),
        (&["short.knot"], 1, "shorter than the band with one set"),
        (&["broken.knot", "--sets", "3"], 1, "broken-promise"),
    ];
    for (arguments, code, message) in table {
        let said = stage.run(&[&["measure"], arguments].concat());
        assert_eq!((said.code, said.out.as_str()), (code, ""), "{arguments:?}: {said:?}");
        let err = said.err.replace('\n', " ");
        assert!(err.contains(message), "{arguments:?}: {err}");
    }
}

#[test]
fn the_table_reads_well() {
    let stage = Stage::with(&[("ripple.knot", TURNING)]);
    let said = stage.run(&["measure", "ripple.knot", "--sets", "12", "--fold"]);
    insta::assert_snapshot!(said.out);
}

#[test]
fn every_sample_can_be_measured() {
    let patterns = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/patterns");
    let said = Stage::with(&[]).run(&["measure", "--sets", "5", "--format", "json", patterns]);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    for line in said.out.lines() {
        let band: Value = serde_json::from_str(line).unwrap();
        let sum = |of: &str, what: &str| -> f64 {
            band[of].as_array().unwrap().iter().map(|one| one[what].as_f64().unwrap()).sum()
        };
        assert!((sum("pieces", "length_mm") - sum("colors", "length_mm")).abs() < 10.0, "{}", band["path"]);
        assert_eq!(sum("strands", "working"), sum("strands", "base"), "{}", band["path"]);
    }
    assert!(said.out.lines().count() > 15);
}
