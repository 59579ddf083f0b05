//! Beads: counted, bought, told, compared, exported.

use crate::stage::{Stage, held_to};
use serde_json::Value;
use std::collections::BTreeSet;

fn pattern(size: &str) -> String {
    format!(
        "pattern \"Tide pool\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nbead pearl #e9dfd2 {size} hole 2 mm \"sea pearl\", de \
         \"Meeresperle\"\nstrands 2 kelp 2 foam | mirror\ngauge {{ thickness 0.9 mm }}\nsets 12\nfinish {{\nsplit 4 {{\nbead \
         pearl\nknot\n}}\n}}\nset {{\n  both {{\n    take left 1: forward to center left\n    bead pearl on left 1\n  }}\n  \
         meet center\n}}\n"
    )
}

fn run(arguments: &[&str]) -> String {
    let stage = Stage::with(&[("a.knot", &pattern("4 mm"))]);
    let said = stage.run(arguments);
    assert_eq!(said.code, 0, "{said:?}");
    said.out
}

#[test]
fn they_are_counted_for_one_band_and_for_a_class() {
    let measured = run(&["measure", "a.knot"]);
    assert!(
        measured.contains("Beads:") && measured.contains("28"),
        "12 sets of two, and four at the end: {measured}"
    );
    let json =
        held_to("measure-1", serde_json::from_str(&run(&["measure", "--format", "json", "a.knot"])).unwrap());
    assert_eq!(json["beads"][0], serde_json::json!({ "bead": "pearl", "size_mm": 4.0, "count": 28 }));
    let kit = held_to(
        "kit-1",
        serde_json::from_str(&run(&["kit", "a.knot", "--count", "30", "--format", "json"])).unwrap(),
    );
    assert_eq!(kit["beads"][0]["count"], 840);
    let csv = run(&["kit", "a.knot", "--count", "30", "--format", "csv"]);
    assert!(csv.contains("bead,,pearl,#e9dfd2,,840,4.0,"), "{csv}");
}

#[test]
fn small_ones_bring_their_caution_and_others_do_not() {
    let caution = "small parts";
    for command in [&["write", "a.knot"][..], &["kit", "a.knot"], &["sheet", "a.knot"]] {
        let said = |text: &str| Stage::with(&[("a.knot", text)]).run(command).out;
        assert!(said(&pattern("4 mm")).contains(caution), "{command:?}");
        assert!(!said(&pattern("40 mm")).contains(caution), "{command:?}");
        let without =
            pattern("4 mm").replace("    bead pearl on left 1\n", "").replace("bead pearl\nknot", "knot");
        assert!(!said(&without).contains(caution), "{command:?}");
    }
}

#[test]
fn three_languages_tell_them() {
    let told = |language: &str| run(&["write", "a.knot", "--language", language, "--format", "markdown"]);
    let english = told("en");
    assert!(
        english.contains(
            "Thread a bead (sea pearl) onto the first strand from the left (in turn kelp, 2 foam, and so on)"
        ),
        "{english}"
    );
    assert!(english.contains("28 \u{d7} sea pearl, 4 mm in size, with a hole of 2 mm"), "{english}");
    assert!(
        told("de")
            .contains("Fädle eine Perle (Meeresperle) auf den ersten Faden von links (der Reihe nach kelp"),
        "{}",
        told("de")
    );
    assert!(told("de").contains("28 \u{d7} Meeresperle, 4\u{a0}mm"), "{}", told("de"));
    assert!(told("es").contains("28 \u{d7} sea pearl, de 4\u{a0}mm"), "{}", told("es"));
    assert!(told("es").contains("Ensarta una cuenta (sea pearl) en la primera hebra"), "{}", told("es"));
}

#[test]
fn a_strand_is_longer_by_its_beads() {
    let strands = |text: &str| -> Vec<f64> {
        let stage = Stage::with(&[("a.knot", text)]);
        let said = stage.run(&["measure", "--format", "json", "a.knot"]);
        let json: Value = serde_json::from_str(&said.out).unwrap();
        json["strands"].as_array().unwrap().iter().map(|of| of["likely_mm"].as_f64().unwrap()).collect()
    };
    let without = pattern("4 mm").replace("    bead pearl on left 1\n", "");
    let more: Vec<f64> = strands(&pattern("4 mm"))
        .iter()
        .zip(strands(&without))
        .map(|(with, without)| with - without)
        .collect();
    // Twelve sets with two beads of 4 mm; the strands take turns at the edges.
    assert!((more.iter().sum::<f64>() - 96.0).abs() < 0.9, "{more:?}");
    assert!(more.iter().all(|more| *more >= 0.0) && more.iter().any(|more| *more > 11.0), "{more:?}");
}

#[test]
fn for_other_programs_every_bead_has_its_place() {
    let band = held_to("band-1", serde_json::from_str(&run(&["export", "a.knot"])).unwrap());
    let pearl = &band["beads"][0];
    assert_eq!(
        (&pearl["count"], &pearl["size_mm"], &pearl["hole_mm"]),
        (&28.into(), &4.0.into(), &2.0.into())
    );
    assert_eq!(pearl["labels"]["de"], "Meeresperle");
    let threaded = band["threaded"].as_array().unwrap();
    let places: Vec<(&Value, &Value)> =
        threaded.iter().map(|at| (&at["positions"][0], &at["after_knots"])).collect();
    assert_eq!(places, [(&1.into(), &3.into()), (&8.into(), &6.into())]);
    assert_eq!(band["finish"][0]["pieces"][0], serde_json::json!({ "piece": "bead", "bead": "pearl" }));
}

#[test]
fn a_changed_bead_is_told() {
    let stage = Stage::with(&[("a.knot", &pattern("4 mm")), ("b.knot", &pattern("6 mm"))]);
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert!(
        said.out.contains("Bead pearl:") && said.out.contains("4 mm") && said.out.contains("6 mm"),
        "{said:?}"
    );
    let moved = pattern("4 mm").replace("on left 1", "on left 2");
    let stage = Stage::with(&[("a.knot", &pattern("4 mm")), ("b.knot", &moved)]);
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert!(
        said.out.contains("pearl on 1 after 3 knots") && said.out.contains("pearl on 2 after 3 knots"),
        "{said:?}"
    );
}

#[test]
fn a_new_body_keeps_its_beads() {
    let stage = Stage::with(&[("a.knot", &pattern("4 mm"))]);
    for command in ["plan", "chart"] {
        let said = stage.run(&[command, "a.knot"]);
        assert!(said.code == 0 && !said.err.contains("left out"), "{said:?}");
        stage.write("b.knot", &said.out);
        assert!(!stage.run(&["check", "b.knot"]).out.contains("unused-bead"), "{said:?}");
        let [old, new] = ["a.knot", "b.knot"].map(|file| stage.run(&["measure", file]).out);
        assert_eq!(old, new, "as many beads, in the same strands");
        let picture = |file| stage.run(&["draw", file, "--format", "svg"]).out;
        let lines = |file| picture(file).lines().map(str::to_owned).collect::<BTreeSet<String>>();
        assert_eq!(lines("a.knot"), lines("b.knot"), "{command}: every bead lies where it lay");
    }
}

/// With the fewest pick-ups, the fourth strand goes across before the third has its second knot.
#[test]
fn a_bead_without_a_place_in_the_new_order_is_told_by_its_line() {
    let text = "pattern \"Mooring\"\nthread kelp #1f5d50\nbead pearl #f4efe6 9 mm hole 8 mm\nstrands 4 kelp\nset {\n  \
                take left 3: forward 1\n  take left 3: forward 1\n  bead pearl on left 2, left 3\n  \
                take left 2: backward 1\n  take left 4: backward 3\n}\n";
    let stage = Stage::with(&[("a.knot", text)]);
    let said = stage.run(&["plan", "a.knot"]);
    assert_eq!((said.code, said.out.as_str()), (1, ""), "{said:?}");
    assert!(said.err.contains("the bead of line 8 is on several strands"), "{said:?}");
}
