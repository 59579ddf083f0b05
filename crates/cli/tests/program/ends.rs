//! `begin` and `finish`: in the cut list, the words, the sheet, and for other programs.

use crate::follow_ends::{Dice, EndsFollower};
use crate::stage::{Stage, held_to};
use knotwright_numbers::ToNumber;
use serde_json::Value;
use std::f64::consts::PI;
use std::path::Path;

/// Eight strands of 1 mm thread; the head goes on with `ends`.
fn pattern(ends: &str) -> String {
    format!(
        "pattern \"Mooring line\"\nthread kelp #1f5d50\nthread rust #a8452c\nstrands 8 kelp\ngauge {{ thickness 1 mm }}\n\
         sets 2\n{ends}\nset {{\n  both {{ take left 1: forward to center left }}\n  meet center\n}}\n"
    )
}

fn measured(ends: &str) -> Value {
    let stage = Stage::with(&[("a.knot", &pattern(ends))]);
    let said = stage.run(&["measure", "--format", "json", "a.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    held_to("measure-1", serde_json::from_str(&said.out).unwrap())
}

fn likely(ends: &str) -> f64 {
    measured(ends)["strands"][0]["likely_mm"].as_f64().unwrap()
}

/// What every strand takes beside its knots: worked by hand, with 8 strands in a bundle of 0.85 * sqrt(8 / 0.8) mm.
#[test]
fn every_piece_is_in_the_thread() {
    let knots = likely("ends 10 cm") - 2.0 * (100.0 + 10.0 * 0.85 * 10_f64.sqrt());
    let near = |ends: &str, wanted: f64| {
        let found = likely(ends) - knots;
        assert!((found - wanted).abs() < 0.2, "{ends}: {found}, {wanted}");
    };
    let knot = 10.0 * 0.85 * 10_f64.sqrt();
    let below = "finish { tassel 5 cm }";
    near(&format!("begin {{ tassel 2 cm }}\n{below}"), 70.0);
    near(&format!("begin {{\ntassel 2 cm\nknot\n}}\n{below}"), 70.0 + knot);
    // Three bundles take 4/3 of the length of their plait; what is cut without a tassel is 3 cm longer, and trimmed.
    near(&format!("begin {{ plait 3 for 6 cm }}\n{below}"), 50.0 + 80.0 + 30.0);
    near(&format!("begin {{\ntassel 2 cm\nsplit 2 {{ knot }}\n}}\n{below}"), 70.0 + knot / 2_f64.sqrt());
    // Two strands share the loop at their fold, and nothing is cut there.
    let folded = "start folded pairs mirrored\n";
    near(&format!("{folded}begin {{ loop 3 cm }}\n{below}"), 15.0 + 50.0);
    // An end without a block is as it always was.
    near(&format!("ends 10 cm\n{below}"), 50.0 + 100.0 + knot);
}

#[test]
fn a_thread_that_goes_around_is_cut_and_bought() {
    let band = measured("finish {\nwrap rust 8 turns\ntassel 2 cm\n}");
    let own = &band["around"][0];
    // Eight turns around the bundle and half a thread on each side, and 10 cm to tuck in; then the next 5 cm.
    let exact = 8.0 * PI * (0.85 * 10_f64.sqrt() + 0.85) + 100.0;
    assert_eq!(own["length_mm"].as_f64().unwrap(), (exact / 50.0).ceil() * 50.0);
    assert_eq!((&own["color"], &own["count"]), (&"rust".into(), &1.into()));
    let rust = band["colors"].as_array().unwrap().iter().find(|of| of["color"] == "rust").unwrap();
    assert_eq!((&rust["strands"], &rust["pieces"]), (&0.into(), &1.into()));

    let stage =
        Stage::with(&[("a.knot", &pattern("finish {\nsplit 2 { wrap rust 8 turns }\ntassel 2 cm\n}"))]);
    let said = stage.run(&["kit", "a.knot", "--count", "3", "--format", "json"]);
    let kit = held_to("kit-1", serde_json::from_str(&said.out).unwrap());
    assert!(said.out.contains("\"around\""), "{}", said.out);
    let bought = kit["buy"].as_array().unwrap();
    let rust = bought.iter().find(|of| of["thread"] == "rust").unwrap();
    assert_eq!(rust["pieces"], 6, "a wrap for each part of each band");
    let table = stage.run(&["measure", "a.knot", "--format", "csv"]).out;
    let lines: Vec<Vec<&str>> = table.lines().map(|line| line.split(',').collect()).collect();
    assert!(lines.iter().all(|line| line.len() == lines[0].len()), "{table}");
    let around: Vec<_> = lines.iter().filter(|line| line[2] == "rust").collect();
    assert_eq!(around.len(), 2, "{table}");
    assert!(
        around.iter().all(|line| line[1].is_empty() && line[9].parse::<f64>().unwrap() > 100.0),
        "{table}"
    );
}

const ALL: &str = "\
start folded pairs mirrored
begin {
  loop 2 cm
  plait 4 for 4 cm
  wrap rust 8 turns
}
finish {
  twist for 3 cm
  split 2 {
    plait 3 for 8 cm
    knot
  }
  tassel 2 cm
  closing knot
}";

#[test]
fn the_ends_are_told_in_every_language() {
    let stage = Stage::with(&[("a.knot", &pattern(ALL))]);
    let told = |language: &str| {
        let said = stage.run(&["write", "a.knot", "--language", language, "--format", "plain"]);
        assert_eq!(said.code, 0, "{said:?}");
        said.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    for (language, sentences) in [
        (
            "en",
            [
                "Leave a loop at the fold, 2 cm once around.",
                "Divide the strands into four bundles (two strands each) and plait them for 4 cm.",
                "Wrap rust around the strands eight times",
                "Divide the strands into two parts (four strands each). Do this with each part: 1. Divide the strands into \
                 three bundles (2, 1 and 1 strands, from the left) and plait them for 8 cm.",
                "A band that is closed around the wrist does not open by itself",
            ],
        ),
        (
            "de",
            [
                "eine Schlaufe von 2 cm Umfang",
                "Teile die Fäden in vier Stränge (je zwei Fäden) und flechte sie auf 4 cm.",
                "Wickle rust acht Mal um die Fäden",
                "Stränge (2, 1 und 1 Fäden, von links) und flechte sie auf 8 cm.",
                "geht nicht von selbst auf",
            ],
        ),
        (
            "es",
            [
                "una presilla de 2 cm de contorno",
                "Reparte las hebras en cuatro mechones (dos hebras en cada uno) y trénzalos a lo largo de 4 cm.",
                "Enrolla rust ocho veces alrededor de las hebras",
                "mechones (2, 1 y 1 hebras, desde la izquierda) y trénzalos a lo largo de 8 cm.",
                "no se abre sola si se engancha",
            ],
        ),
    ] {
        let text = told(language);
        for sentence in sentences {
            assert!(text.contains(sentence), "{language}: {sentence}\n{text}");
        }
    }
}

/// Lengths of JSON and of words are the same number, and colors and beads have the names that people see.
fn shown(pieces: &Value, names: &impl Fn(&str, &str) -> String) -> Vec<Value> {
    let one = |piece: &Value| {
        let mut piece = piece.clone();
        for (key, list) in [("color", "threads"), ("bead", "beads")] {
            if let Some(name) = piece.get(key).and_then(Value::as_str).map(|name| names(list, name)) {
                piece[key] = name.into();
            }
        }
        if let Some(inner) = piece.get("pieces").map(|inner| shown(inner, names)) {
            piece["pieces"] = inner.into();
        }
        piece
    };
    pieces.as_array().map(|pieces| pieces.iter().map(one).collect()).unwrap_or_default()
}

/// How many ends someone made who followed the words of a file, plain and in both mirrored senses; each as `export` says.
fn followed(stage: &Stage, file: &str) -> usize {
    let export = stage.run(&["export", file]);
    if export.code != 0 || export.out.is_empty() {
        return 0;
    }
    let band: Value = serde_json::from_str(&export.out).unwrap();
    let names = |list: &str, name: &str| {
        let found = band[list].as_array().unwrap().iter().find(|one| one["name"] == name).unwrap();
        found["label"].as_str().unwrap_or(name).to_owned()
    };
    let mut made = 0;
    for mirror in [None, Some("image"), Some("picture")] {
        let option = mirror.map(|mirror| format!("--mirrored={mirror}"));
        let options: Vec<&str> = option.iter().map(String::as_str).collect();
        let said = stage.run(&[&["write", file], options.as_slice()].concat());
        if said.code != 0 {
            continue;
        }
        let follower = EndsFollower {
            strands: band["strands"].as_array().unwrap().len(),
            is_image: mirror == Some("image"),
        };
        for (end, heading) in [("begin", "The beginning"), ("finish", "To finish")] {
            let Some(wanted) = band.get(end) else { continue };
            let (_, rest) = said.out.split_once(&format!("\n## {heading}\n")).expect(heading);
            let found = follower.follow(rest.split("\n## ").next().unwrap());
            assert_eq!(found, shown(wanted, &names), "{file} {mirror:?}: {end}\n{}", said.out);
            made += 1;
        }
    }
    made
}

#[test]
fn who_follows_the_words_makes_the_ends_of_every_sample() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/patterns");
    let stage = Stage::with(&[]);
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let made: usize = files
        .filter(|path| path.extension().is_some_and(|ending| ending == "knot"))
        .map(|path| followed(&stage, path.to_str().unwrap()))
        .sum();
    assert!(made >= 12, "{made} ends were made");
}

#[test]
fn who_follows_the_words_makes_the_ends_of_patterns_at_random() {
    let (mut dice, mut made) = (Dice(15), 0);
    for _ in 0..60 {
        let stage = Stage::with(&[("a.knot", &dice.pattern())]);
        made += followed(&stage, "a.knot");
    }
    assert!(made > 150, "{made} ends were made");
}

/// Parts in parts: it is plain what belongs to which.
#[test]
fn what_is_done_with_parts_of_parts_has_numbers_of_its_own() {
    let ends = "finish {\nsplit 2 {\nsplit 2 { knot }\ntwist for 2 cm\n}\nknot\ntassel 2 cm\n}";
    let stage = Stage::with(&[("a.knot", &pattern(ends))]);
    let told = stage.run(&["write", "a.knot"]).out;
    let (_, finish) = told.split_once("## To finish\n").unwrap();
    let starts: Vec<&str> =
        finish.lines().filter_map(|line| line.split_once(". ")).map(|(start, _)| start).collect();
    assert_eq!(&starts[..6], ["1", "   1", "      1", "   2", "2", "3"], "{finish}");
    let page = stage.run(&["sheet", "a.knot"]).out;
    assert!(page.contains("Do this with each part: (1) Divide the strands into two parts (two strands each). Do this with each part: (1.1) Tie the strands"), "{page}");
}

/// What is trimmed can no longer be tied.
#[test]
fn tassels_are_trimmed_when_the_band_is_closed() {
    let ends = "begin {\ntassel 3 cm\nknot\n}\nfinish {\nsplit 2 {\nknot\ntassel 4 cm\n}\nclosing knot\n}";
    let stage = Stage::with(&[("a.knot", &pattern(ends))]);
    let told = stage.run(&["write", "a.knot"]).out;
    let place = |text: &str| told.find(text).unwrap_or_else(|| panic!("{text}: {told}"));
    let closed = place("tie both ends together with one knot.");
    let trimmed = place("Leave 4 cm free as a tassel at each part, and trim it evenly.");
    assert!(closed < trimmed && trimmed < place("Trim the tassel of the beginning evenly."), "{told}");
    assert!(place("Leave 3 cm free as a tassel; trim it when the band is closed.") < closed, "{told}");
    // Where nothing is tied after it, each part is trimmed as it is made.
    let open = ends.replace("closing knot\n", "");
    stage.write("b.knot", pattern(&open));
    let told = stage.run(&["write", "b.knot"]).out;
    assert!(told.contains("   2. Leave 4 cm free as a tassel, and trim it evenly."), "{told}");
}

#[test]
fn how_an_end_is_tied_is_explained_once() {
    let ends = "begin {\ntassel 3 cm\nknot\n}\nfinish {\nknot\nplait 3 for 4 cm\n}";
    let stage = Stage::with(&[("a.knot", &pattern(ends))]);
    for command in ["write", "sheet"] {
        let told = stage.run(&[command, "a.knot"]).out;
        let told = told.split("<section id=\"start\">").last().unwrap();
        let places = |text: &str| told.match_indices(text).map(|(at, _)| at).collect::<Vec<usize>>();
        let (knot, plait) = (places("Overhand knot: lay"), places("Plait: hold"));
        assert_eq!((knot.len(), plait.len()), (1, 1), "{told}");
        assert!(knot[0] < plait[0], "the beginning comes first");
    }
}

/// A picture has room for 6 cm of an end, a chart for 12 mm.
#[test]
fn ends_that_are_drawn_shorter_than_they_are_say_so() {
    let told = |ends: &str| {
        let stage = Stage::with(&[("a.knot", &pattern(ends))]);
        let page = stage.run(&["sheet", "a.knot"]).out;
        ["The ends are not drawn to scale.", ">the ends are not drawn to scale<"]
            .map(|note| page.contains(note))
    };
    let both = |length: &str| {
        format!("begin {{\ntassel {length}\nknot\n}}\nfinish {{\nsplit 2 {{ tassel {length} }}\n}}")
    };
    assert_eq!(told(&both("1 cm")), [false, false]);
    assert_eq!(told(&both("5 cm")), [false, true]);
    assert_eq!(told(&both("7 cm")), [true, true]);
    assert_eq!(told(""), [true, false], "what is left free has no place in a chart");
}

#[test]
fn a_chart_is_about_its_rows_however_long_the_ends_are() {
    let height = |length: &str| {
        let ends =
            format!("begin {{\ntassel {length}\nplait 3 for {length}\n}}\nfinish {{ tassel {length} }}");
        let stage = Stage::with(&[("a.knot", &pattern(&ends))]);
        let chart = stage.run(&["draw", "--chart", "a.knot", "-o", "a.svg"]);
        assert_eq!(chart.code, 0, "{chart:?}");
        let chart = stage.read("a.svg");
        chart.split(" height=\"").nth(1).unwrap().split('"').next().unwrap().parse::<f64>().unwrap()
    };
    assert!(height("30 cm") < height("12 mm") + 30.0, "a line of the legend more");
}

#[test]
fn the_sheet_has_steps_for_the_ends() {
    let stage = Stage::with(&[("a.knot", &pattern(ALL))]);
    let page = stage.run(&["sheet", "a.knot"]).out;
    let data = page.split("id=\"band\">").nth(1).and_then(|rest| rest.split("</script>").next()).unwrap();
    let data: Value = serde_json::from_str(data).unwrap();
    let steps = |part: &str| -> Vec<String> {
        let texts = data[part]["texts"].as_array().unwrap();
        texts
            .iter()
            .map(|at| data["texts"][at.as_u64().unwrap().to_usize()].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(steps("begin").len(), 4);
    assert!(steps("begin")[3].starts_with("Wrap rust"));
    assert_eq!(steps("finish").len(), 4);
    assert!(steps("finish")[2].contains("parts of the other end through the loop"));
    assert!(steps("finish")[3].ends_with("and trim it evenly."));
    let passage = &data["passages"][data["finish"]["passage"].as_u64().unwrap().to_usize()];
    assert_eq!(
        (&passage["knots"], passage["ends"].as_array().unwrap().len()),
        (&Value::Array(Vec::new()), 4)
    );
    assert_eq!(data["words"]["finished"], "Everything is tied, and the ends are made.");
}

#[test]
fn other_programs_get_the_pieces() {
    let stage = Stage::with(&[("a.knot", &pattern(ALL)), ("b.knot", &pattern("finish { knot }"))]);
    let said = stage.run(&["export", "a.knot"]);
    let band = held_to("band-1", serde_json::from_str(&said.out).unwrap());
    let begin = serde_json::json!([
        { "piece": "loop", "length_mm": 20.0 },
        { "piece": "plait", "bundles": 4, "length_mm": 40.0 },
        { "piece": "wrap", "color": "rust", "turns": 8 },
    ]);
    assert_eq!(band["begin"], begin);
    assert_eq!(band["finish"][1]["pieces"][1], serde_json::json!({ "piece": "knot" }));
    assert_eq!(band["finish"][3]["piece"], "closing-knot");
    let said = stage.run(&["compare", "a.knot", "b.knot"]);
    assert!(said.out.contains("loop 2 cm, plait 4 for 4 cm, wrap rust 8 turns"), "{}", said.out);
}

/// Everything of the ends stays as it is written, in the standard layout.
#[test]
fn ends_are_laid_out_like_other_blocks() {
    let untidy = pattern("begin {\nloop  2 cm\n   plait 4   for 4 cm -- tight\n}\nfinish {split 2 {knot}}");
    let tidy = "begin {\n  loop 2 cm\n  plait 4 for 4 cm  -- tight\n}\n";
    let stage = Stage::with(&[("a.knot", &untidy)]);
    stage.run(&["format", "a.knot"]);
    let text = stage.read("a.knot");
    assert!(text.contains(tidy), "{text}");
}

#[test]
fn threads_around_the_ends_of_one_length_are_one_item() {
    let both = "begin {\n  wrap rust 6 turns\n}\nfinish {\n  wrap rust 6 turns\n}";
    let files = [("a.knot", &*pattern(both)), ("b.knot", &pattern("begin {\n  wrap rust 6 turns\n}"))];
    let stage = Stage::with(&files);
    let told = stage.run(&["write", "a.knot"]).out;
    assert!(told.contains("rust, 0.4 m in all: two threads of 20 cm, each to go around an end"), "{told}");
    let told = stage.run(&["write", "b.knot"]).out;
    assert!(
        told.contains("- rust: one thread of 20 cm to go around an end\n"),
        "no total of one piece: {told}"
    );
}

/// A band is closed with what its ends are, and before they are trimmed.
#[test]
fn the_band_is_closed_as_its_ends_allow() {
    let finish = |ends: &str| {
        let stage = Stage::with(&[("a.knot", &pattern(ends))]);
        let told = stage.run(&["write", "a.knot"]).out;
        let (_, finish) = told.split_once("## To finish\n").unwrap();
        finish.split("\n## ").next().unwrap().to_owned()
    };
    let lines =
        "finish {\n  split 2 {\n    plait 3 for 4 cm\n    knot\n  }\n  tassel 2 cm\n  closing knot\n}";
    let looped = finish(&format!("begin {{ loop 3 cm }}\n{lines}"));
    assert!(looped.contains("put the two parts of the other end through the loop, and tie them"), "{looped}");
    assert!(looped.find("through the loop") < looped.find("trim it evenly"), "{looped}");
    let one = finish("begin { loop 3 cm }\nfinish {\n  plait 3 for 4 cm\n  closing knot\n}");
    assert!(one.contains("put the other end through the loop, and tie one overhand knot behind it"), "{one}");
    assert!(one.find("through the loop") < one.find("Trim what is left over."), "{one}");
    let plain = finish(lines);
    assert!(plain.contains("tie both ends together with one knot"), "{plain}");
    let slid = |begin: &str, end: &str| {
        finish(&format!("begin {{\n{begin}\n}}\nfinish {{\n{end}\n  slide rust 9 turns\n}}"))
    };
    let (held, free) = ("  tassel 2 cm\n  knot\n  twist for 5 cm", "  twist for 5 cm");
    assert!(slid(held, "  twist for 5 cm\n  knot").contains("The knots at their tips keep them"));
    assert!(slid(held, free).contains("Tie a knot at the tip of the end that has none"));
    assert!(slid(free, free).contains("Tie a knot at the tip of each end"));
    let split = slid(
        "  split 2 {\n    knot\n    twist for 5 cm\n  }",
        "  split 2 {\n    knot\n    twist for 5 cm\n  }",
    );
    assert!(
        split.contains("Tie a knot at the tip of the end that has none"),
        "a begin goes from its tip: {split}"
    );
}

/// What the words ask for is in the list before they do.
#[test]
fn a_needle_is_listed_exactly_where_it_is_used() {
    let bead = "bead pearl #f4efe6 4 mm hole 2 mm\n";
    let on_strand = pattern("").replace("strands", &format!("{bead}strands"));
    let on_strand = on_strand.replace("set {\n", "set {\n  bead pearl on left 1\n");
    let cases = [
        (pattern("begin { knot }"), false),
        (pattern("begin {\n  wrap rust 6 turns\n}"), true),
        (pattern("finish {\n  knot\n  twist for 4 cm\n  slide rust 6 turns\n}"), true),
        (on_strand, true),
    ];
    for (text, is_needed) in cases {
        let stage = Stage::with(&[("a.knot", &text)]);
        for told in [stage.run(&["write", "a.knot"]).out, stage.run(&["sheet", "a.knot"]).out] {
            assert!(told.contains("You also need scissors"), "{text}{told}");
            assert_eq!(told.contains("You also need scissors, a needle, and"), is_needed, "{text}");
            assert_eq!(told.contains("A needle is sharp"), is_needed, "{text}");
        }
    }
}
