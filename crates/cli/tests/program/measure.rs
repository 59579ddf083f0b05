//! `measure`

use crate::stage::{BROKEN, GOOD, Stage, held_to};
use knotwright_band::{Kind, Piece, Sets, total_uses};
use knotwright_numbers::ToNumber;
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
            let shown = &band["strands"][strand];
            assert_eq!(shown["working"], of.working, "strand {strand}, {sets} sets");
            assert_eq!(shown["base"], of.base);
            let idle = rows - of.working - of.base;
            let used = of.working.to_f64() * 12.898 + of.base.to_f64() * 2.3375 + idle.to_f64() * 1.785;
            let near = |what: &str, wanted: f64| {
                let shown = shown[what].as_f64().unwrap();
                assert!((shown - wanted).abs() < 0.1 + wanted * 1e-4, "{what}: {shown}, {wanted}");
            };
            // Two ends of 10 cm, and two knots of all five strands: 10 * 0.85 * sqrt(5 / 0.8) = 21.25 each.
            let held = 200.0 + 2.0 * 21.25;
            near("likely_mm", held + used);
            near("low_mm", held + 0.8 * used);
            near("high_mm", held + 1.2 * used);
            let (cut, high) = (shown["cut_mm"].as_f64().unwrap(), shown["high_mm"].as_f64().unwrap());
            assert!(
                cut >= high && cut < high + 50.0 && cut % 50.0 == 0.0,
                "{cut} for {high}: the next whole 5 cm"
            );
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

/// By the figures above: four rows in one set, and two more with each other one.
#[test]
fn whoever_multiplies_the_rows_of_a_set_is_told_why_that_is_too_many() {
    let stage = Stage::with(&[("a.knot", TURNING)]);
    let told = "A set alone has 4 rows; each begins in the last rows of the one before it.";
    assert!(stage.run(&["measure", "a.knot", "--sets", "9"]).out.contains(told));
    let words = "nine sets, 20 rows of knots. A set alone has four rows; each begins in the last rows of the one before it.";
    for command in ["write", "sheet"] {
        let said = stage.run(&[command, "a.knot", "--sets", "9"]).out;
        assert!(said.contains(words), "{said}");
    }
    // One set is all there is.
    assert!(!stage.run(&["measure", "a.knot", "--sets", "1"]).out.contains("A set alone"));
    // Whole rows of bricks add up.
    let rows =
        "pattern \"Reeds\"\nthread kelp #1f5d50\nstrands 4 kelp\nset {\n  rows {\n    > >\n     >\n  }\n}\n";
    stage.write("b.knot", rows);
    let said = stage.run(&["measure", "b.knot", "--sets", "3"]).out;
    assert!(said.contains("3 sets, 6 rows") && !said.contains("A set alone"), "{said}");
}

/// The shorter half of a folded thread has something over however it is cut.
#[test]
fn what_cutting_alike_wastes_counts_folded_threads_as_one() {
    let uneven = "pattern \"Reeds\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands 2 kelp 2 sand\nstart folded pairs side-by-side\n\
                  gauge {\n  thickness 1 mm\n}\nset { take left 1: forward-backward 4 }\n";
    let stage = Stage::with(&[("a.knot", uneven)]);
    let band = measured(&stage, &["a.knot", "--sets", "20"]);
    let pieces = band["pieces"].as_array().unwrap().iter().map(|piece| piece["length_mm"].as_f64().unwrap());
    let (longest, all): (f64, Vec<f64>) = (pieces.clone().fold(0.0, f64::max), pieces.collect());
    let wasted: f64 = all.iter().map(|piece| longest - piece).sum();
    assert_eq!(band["evenness"]["waste_cut_alike_mm"], wasted);
    assert!(wasted > 0.0 && all.len() == 2, "{band}");
    let halves = [0, 1].map(|strand| band["strands"][strand]["cut_mm"].as_f64().unwrap());
    assert!(halves[0] > halves[1] + 100.0, "one half needs more: {halves:?}");
}

#[test]
fn a_swatch_replaces_the_model() {
    let swatch = TURNING.replace("thickness 1 mm", "10 knots use 100 mm\n  20 rows measure 40 mm");
    let stage = Stage::with(&[("a.knot", &swatch)]);
    let band = measured(&stage, &["a.knot", "--sets", "1"]);
    assert_eq!(band["gauge"]["basis"], "swatch");
    assert_eq!(band["length_mm"], 8.0, "4 rows of 2 mm");
    // The first strand ties 4 knots of 10 mm and is idle nowhere.
    let knots = 2.0 * band["knot_mm"].as_f64().unwrap();
    let near = |what: &str, wanted: f64| {
        let shown = band["strands"][0][what].as_f64().unwrap();
        assert!((shown - wanted).abs() < 0.3, "{what}: {shown}, {wanted}");
    };
    near("likely_mm", 240.0 + knots);
    near("high_mm", 242.8 + knots);
    assert_eq!(band["gauge"]["uncertainty"], 0.07, "knots and rows");
    assert_eq!(band["strands"][0]["cut_mm"], 300.0);
}

/// Knots alone, or rows alone, scale rows and use alike: thread by length of band stays what the model says.
#[test]
fn half_a_swatch_does_not_narrow_what_is_needed() {
    for (half, length) in [("10 knots use 100 mm", 0.2), ("20 rows measure 40 mm", 0.07)] {
        let stage = Stage::with(&[("a.knot", &TURNING.replace("thickness 1 mm", half))]);
        let band = measured(&stage, &["a.knot", "--sets", "9"]);
        assert_eq!(
            (band["gauge"]["uncertainty"].as_f64(), band["gauge"]["length_uncertainty"].as_f64()),
            (Some(0.2), Some(length)),
            "{half}"
        );
        let said = stage.run(&["measure", "a.knot", "--sets", "9"]);
        assert!(said.out.contains("only knots and rows together say more"), "{}", said.out);
    }
}

#[test]
fn nothing_is_cut_below_what_it_may_need() {
    let patterns = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/patterns");
    let said = Stage::with(&[]).run(&["measure", "--format", "json", patterns]);
    assert_eq!(said.code, 0, "{said:?}");
    for line in said.out.lines() {
        let band: Value = serde_json::from_str(line).unwrap();
        for strand in band["strands"].as_array().unwrap() {
            assert!(strand["cut_mm"].as_f64() >= strand["high_mm"].as_f64(), "{}: {strand}", band["path"]);
        }
    }
}

/// A leader's knots lie 2.5 tight thicknesses apart, in rows of 2.4: 15 strands of 0.9 mm are 28.7 mm wide.
#[test]
fn rows_of_a_leader_are_as_wide_and_high_as_they_are() {
    let leader = "pattern \"Pennant\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands kelp 14 sand\n\
                  set {\n  leader left 1 (kelp) {\n    . . . . . . . . . . . . . .\n    . . . . . . . . . . . . . .\n  }\n}\n";
    let stage = Stage::with(&[("a.knot", leader)]);
    let said = stage.run(&["measure", "--format", "json", "--sets", "10", "a.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    let band: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!((band["rows"].as_u64(), band["width_mm"].as_f64()), (Some(20), Some(28.7)));
    assert_eq!(band["length_mm"], 36.7, "20 rows of 2.4 * 0.765 mm");
}

#[test]
fn a_band_of_no_said_length_is_measured_for_what_write_assumes() {
    let stage = Stage::with(&[("a.knot", TURNING)]);
    let (open, usual) =
        (stage.run(&["measure", "a.knot"]), stage.run(&["measure", "a.knot", "--length", "15cm"]));
    assert_eq!(open.code, 0, "{open:?}");
    let assumed = "The pattern does not say how long it is to be: this is for 15 cm";
    let (said, rest): (Vec<&str>, Vec<&str>) = open.out.lines().partition(|line| line.starts_with(assumed));
    assert_eq!((said.len(), rest), (1, usual.out.lines().collect()), "{}", open.out);
    let written = stage.run(&["write", "a.knot"]);
    let cut = open.out.lines().find(|line| line.trim_start().starts_with("1  kelp")).unwrap();
    let cut = cut.rsplit("  ").next().unwrap().trim();
    assert!(written.out.contains(cut), "`{cut}` in {}", written.out);
}

/// Common practice, no source: two fingers of room, and ends that close the rest.
#[test]
fn a_wrist_is_gone_around_with_room_and_closed_by_the_ends() {
    let stage = Stage::with(&[("a.knot", TURNING)]);
    let said = stage.run(&["measure", "a.knot", "--wrist", "16 cm"]);
    assert!(
        said.out
            .contains("For a wrist of 16.0 cm: with 1.5 cm of room, less 2.5 cm where it is closed, 15.0 cm"),
        "{}",
        said.out
    );
    let (wrist, length) =
        (measured(&stage, &["a.knot", "--wrist", "17cm"]), measured(&stage, &["a.knot", "--length", "16cm"]));
    assert_eq!(wrist, length);
    let both = stage.run(&["measure", "a.knot", "--wrist", "16cm", "--length", "15cm"]);
    assert_eq!(both.code, 2, "{both:?}");
}

#[test]
fn a_strand_longer_than_a_skein_is_reported() {
    let stage = Stage::with(&[("a.knot", TURNING)]);
    let said = stage.run(&["measure", "a.knot", "--length", "15cm", "--skein", "90cm"]);
    let warned =
        said.out.lines().find(|line| line.contains("cannot be cut from a skein of")).unwrap_or_default();
    assert!(warned.starts_with("Strand"), "{}", said.out);
    assert!(!warned.contains("common practice"), "the skein was given: {warned}");
    let none = stage.run(&["measure", "a.knot", "--length", "15cm"]);
    assert!(!none.out.contains("skein"), "{}", none.out);
    let long = stage.run(&["measure", "a.knot", "--length", "3m"]);
    assert!(
        long.out.contains("cannot be cut from a skein of 8 m (common practice, no source)"),
        "{}",
        long.out
    );
}

#[test]
fn a_band_that_stops_within_a_set_comes_nearer_to_its_length() {
    let chevron = "pattern \"Reeds\"\nthread kelp #1f5d50\nthread sand goldenrod\ngauge { thickness 1 mm }\n\
                   strands kelp sand kelp | mirror\nset {\n  repeat 3 {\n    both { take left 1: forward to center left }\n    \
                   meet center\n  }\n}\n";
    let stage = Stage::with(&[("a.knot", chevron)]);
    let whole = measured(&stage, &["a.knot", "--sets", "9"])["length_mm"].as_f64().unwrap();
    let wanted = whole + 4.0;
    let band = measured(&stage, &["a.knot", "--length", &format!("{wanted}mm")]);
    let (stop, off) = (&band["stop"], |length: &Value| (length.as_f64().unwrap() - wanted).abs());
    assert!(off(&stop["length_mm"]) < off(&band["length_mm"]) - 1.0, "{stop}");
    let strands: Vec<&str> = stop["strands"].as_array().unwrap().iter().filter_map(Value::as_str).collect();
    assert!(strands.iter().eq(strands.iter().rev()), "the same from both edges: {strands:?}");
    let said = stage.run(&["measure", "a.knot", "--length", &format!("{wanted}mm")]);
    assert!(
        said.out.contains("To come nearer to that length, tie 9 sets and stop in the next one after"),
        "{}",
        said.out
    );
    assert_eq!(
        measured(&stage, &["a.knot", "--length", &format!("{whole}mm")])["stop"],
        Value::Null,
        "whole sets fit"
    );
}

#[test]
fn what_is_assumed_is_said() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let band = measured(&stage, &["a.knot", "--sets", "2"]);
    assert_eq!(
        (band["gauge"]["basis"].as_str(), band["ends_assumed"].as_bool()),
        (Some("assumed"), Some(true))
    );
    assert_eq!(band["gauge"]["thickness_mm"], 0.9);
    let said = stage.run(&["measure", "a.knot", "--sets", "2"]);
    assert!(said.out.contains("Estimated for 0.9 mm thread (the pattern names none)"), "{}", said.out);
    assert!(said.out.contains("as the pattern gives none"), "{}", said.out);
    let shown = measured(&stage, &["a.knot", "--sets", "2", "--thickness", "1mm", "--ends", "3 cm"]);
    assert_eq!(
        (shown["gauge"]["basis"].as_str(), shown["ends_mm"].as_f64()),
        (Some("thickness"), Some(30.0))
    );
    assert_eq!(shown["gauge"]["thickness_mm"], 1.0, "what it was measured with");
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
    let mean = likely.iter().sum::<f64>() / likely.len().to_f64();
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
            band["strands"][strand.as_u64().unwrap().to_usize() - 1]["cut_mm"].as_f64().unwrap()
        };
        let longer = piece["strands"].as_array().unwrap().iter().map(cut).fold(0.0, f64::max);
        assert!((piece["length_mm"].as_f64().unwrap() - 2.0 * longer).abs() < 0.11, "{piece}");
    }
    let loose = folded.replace("start folded pairs side-by-side\n", "");
    stage.write("b.knot", loose);
    let loose = measured(&stage, &["b.knot", "--sets", "3"]);
    let likely = |of: &Value| of["strands"][0]["likely_mm"].as_f64().unwrap();
    let knot = band["knot_mm"].as_f64().unwrap();
    assert!(
        (likely(&loose) - likely(&band) - 100.0 - knot).abs() < 0.21,
        "one end of 10 cm and one knot less"
    );
}

#[test]
fn sharing_out_knots_is_reported_with_what_it_saves() {
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
    assert_eq!(lines[0], "pattern,strand,color,working,base,idle_rows,low_mm,likely_mm,high_mm,cut_mm,piece");
    assert_eq!(
        lines[1], "\"a,b.knot\",1,kelp,4,0,0,283.8,294.1,304.4,350.0,1",
        "RFC 4180: a comma is quoted"
    );
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
    let table: [(&[&str], i32, &str); 8] = [
        (
            &["a.knot", "--length", "3mm"],
            2,
            "0.3 cm is shorter than the band with one set, which has 4 rows and is 0.7 cm long",
        ),
        (&["a.knot", "--length", "3"], 2, "a number and a unit"),
        (&["a.knot", "--length", "0mm"], 2, "above zero"),
        (&["a.knot", "--sets", "0"], 2, "write a whole number, at least 1"),
        (&["a.knot", "--sets", "3", "--thickness", "0mm"], 2, "above zero"),
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
fn about_one_set_is_one_set_and_what_is_shorter_was_reported() {
    // Four rows of 1 mm thread: 6.8 mm, or 5.44 mm, as nobody measured a row.
    let stage = Stage::with(&[
        ("a.knot", TURNING),
        ("about.knot", &TURNING.replace("ends 10 cm", "length 6 mm")),
        ("short.knot", &TURNING.replace("ends 10 cm", "length 5 mm")),
    ]);
    for (arguments, is_long_enough) in [
        (["a.knot", "--length=6.8mm"], true),
        (["a.knot", "--length=5.5mm"], true),
        (["a.knot", "--length=5.4mm"], false),
        (["about.knot", "--unit=mm"], true),
        (["short.knot", "--unit=mm"], false),
    ] {
        let said = stage.run(&[&["measure"][..], &arguments].concat());
        assert_eq!(said.code == 0, is_long_enough, "{arguments:?}: {}", said.err);
        assert_eq!(said.out.contains("1 set, 4 rows"), is_long_enough, "{arguments:?}: {}", said.out);
    }
    for (file, is_told) in [("about.knot", false), ("short.knot", true)] {
        let said = stage.run(&["check", "--format", "short", file]);
        assert_eq!(said.out.contains("warning[shorter-than-set]"), is_told, "{}", said.out);
    }
    let said = stage.run(&["measure", "a.knot", "--length", "5.4mm"]);
    assert!(said.err.contains("0.5 cm is shorter than"), "{}", said.err);
    assert!(said.err.contains("is 0.7 cm long; ask for at least that"), "{}", said.err);
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
        let around = band["around"].as_array().into_iter().flatten();
        let around: f64 =
            around.map(|own| own["count"].as_f64().unwrap() * own["length_mm"].as_f64().unwrap()).sum();
        let joined = band["joined"].as_array().into_iter().flatten();
        let joined: f64 = joined.map(|piece| piece["length_mm"].as_f64().unwrap()).sum();
        let pieces = sum("pieces", "length_mm") + joined + around;
        assert!((pieces - sum("colors", "length_mm")).abs() < 10.0, "{}", band["path"]);
        assert_eq!(sum("strands", "working"), sum("strands", "base"), "{}", band["path"]);
    }
    assert!(said.out.lines().count() > 15);
}

/// Half a folded thread would be half of what is needed.
#[test]
fn folded_threads_are_cut_at_their_whole_length() {
    let folded =
        TURNING.replace("kelp sand kelp sand kelp", "2 kelp 2 sand 2 kelp") + "start folded pairs mirrored\n";
    let even = folded
        .replace("{ take left 1: forward to edge }", "{\n  repeat 6 { take left 1: forward to edge }\n}");
    let stage = Stage::with(&[("a.knot", &even), ("b.knot", &folded)]);
    let said = |file: &str, sets: &str| stage.run(&["measure", file, "--sets", sets]).out;
    let band = measured(&stage, &["a.knot", "--sets", "3"]);
    let cut = band["pieces"][0]["length_mm"].as_f64().unwrap() / 10.0;
    let all = said("a.knot", "3");
    let alike = format!("All threads need about the same: cut each at {cut} cm, and fold it in its middle.");
    assert!(all.contains(&alike), "{alike}\n{all}");
    let uneven = said("b.knot", "1");
    assert!(uneven.contains("The folded thread of strands 1 and 6 needs most"), "{uneven}");
    let cut = measured(&stage, &["b.knot", "--sets", "1"])["pieces"][0]["length_mm"].as_f64().unwrap() / 10.0;
    assert!(uneven.contains(&format!("To cut all threads alike, each at {cut} cm")), "{uneven}");
}
