//! Strands that are joined, in every answer of the program.

use crate::stage::{Stage, held_to};
use serde_json::Value;

/// A rope of six strands, with what a file may hold besides.
const ROPE: &str = "\
pattern \"Rope\"
thread kelp #1f5d50
thread sand goldenrod
strands kelp sand kelp | mirror
gauge {
  thickness 1 mm
}
sets 60

set {
  -- One strand after another goes across.
  take left 1: forward to edge  -- all the way
  take left 1: forward to edge
  take left 1: forward to edge
  section \"again\" {
    take left 1: forward to edge
    take left 1: forward to edge
    take left 1: forward to edge
  }
}
";

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

#[test]
fn places_to_join_are_proposed_and_written() {
    let stage = Stage::with(&[("rope.knot", ROPE)]);
    let said = stage.run(&["measure", "rope.knot", "--longest", "4m"]);
    assert_eq!(said.code, 0, "{said:?}");
    assert!(said.out.contains("To have no piece longer than 400 cm:\n"), "{}", said.out);
    let lines = said.out.matches("`join ").count();
    assert!(lines > 0, "{}", said.out);
    assert_eq!(stage.read("rope.knot"), ROPE, "nothing is written unasked");

    let said = stage.run(&["measure", "rope.knot", "--longest", "4m", "--write"]);
    assert_eq!(said.code, 0, "{said:?}");
    let text = stage.read("rope.knot");
    assert_eq!(text.lines().filter(|line| line.trim().starts_with("join ")).count(), lines, "{text}");
    let rest: Vec<&str> = text.lines().filter(|line| !line.trim().starts_with("join ")).collect();
    assert_eq!(rest.join("\n") + "\n", ROPE, "all else is as it was, comments too");
    let said = stage.run(&["format", "--check", "rope.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    let band = held_to("measure-1", json(&stage.run(&["measure", "--format", "json", "rope.knot"]).out));
    for piece in band["pieces"].as_array().unwrap().iter().chain(band["joined"].as_array().unwrap()) {
        assert!(piece["length_mm"].as_f64().unwrap() <= 4000.0, "{piece}");
    }
    let again = stage.run(&["measure", "rope.knot", "--longest", "4m"]);
    assert!(again.out.contains("No piece is longer than 400 cm: nothing need be joined."), "{}", again.out);
}

#[test]
fn what_cannot_be_joined_leaves_the_file_as_it_is() {
    let across = "  take left 1: forward to edge  -- all the way\n";
    let often = "  repeat 200 {\n    take left 1: forward to edge\n  }\n";
    let text = ROPE.replace("sets 60", "sets 3").replace(across, often);
    let stage = Stage::with(&[("rope.knot", &text)]);
    let said = stage.run(&["measure", "rope.knot", "--longest", "60cm", "--write"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.err.contains("nothing was written"), "{said:?}");
    assert_eq!(stage.read("rope.knot"), text);
    let said = stage.run(&["measure", "rope.knot", "--longest", "12cm"]);
    assert_eq!(said.code, 2, "{said:?}");
    assert!(said.err.contains("that is too short for what is left free at an end"), "{said:?}");
    let said = stage.run(&["measure", "rope.knot", "--write"]);
    assert_eq!(said.code, 2, "`--write` says nothing without `--longest`: {said:?}");
}

/// All in one chart, or in one loop: there is no line to be put between two statements.
#[test]
fn a_chart_or_a_loop_is_parted_where_a_strand_has_no_other_place() {
    let head =
        "pattern \"Shoal\"\nthread kelp #1f5d50\nstrands 6 kelp\ngauge {\n  thickness 1 mm\n}\nsets 2\n\n";
    let row = "    \\ \\ \\\n     \\ \\\n";
    let chart = format!("{head}set {{\n  -- All to the right.\n  rows {{\n{}  }}\n}}\n", row.repeat(60));
    let across = "    take left 1: forward to edge  -- across\n";
    let round = format!("{head}set {{\n  repeat 90 {{\n{across}  }}\n}}\n");
    for (text, parted) in [(&chart, "  }\n  join "), (&round, "  }\n  join ")] {
        let stage = Stage::with(&[("shoal.knot", text)]);
        let said = stage.run(&["measure", "shoal.knot", "--longest", "1500mm", "--write"]);
        assert_eq!(said.code, 0, "{said:?}");
        let written = stage.read("shoal.knot");
        assert!(written.contains(parted), "{written}");
        stage.write("before.knot", text);
        assert_eq!(stage.run(&["compare", "before.knot", "shoal.knot"]).code, 0, "{written}");
        assert_eq!(stage.run(&["format", "--check", "shoal.knot"]).code, 0, "{written}");
        let again = stage.run(&["measure", "shoal.knot", "--longest", "1500mm"]);
        assert!(again.out.contains("nothing need be joined"), "{}", again.out);
    }
}

#[test]
fn no_strand_is_joined_in_a_set_that_the_pattern_does_not_tie() {
    let stage = Stage::with(&[("rope.knot", &ROPE.replace("sets 60", "sets 2"))]);
    let said = stage.run(&["measure", "rope.knot", "--longest", "2m", "--sets", "60", "--write"]);
    assert_eq!(said.code, 2, "{said:?}");
    assert!(said.err.contains("you ask for more sets than its `sets` says"), "{said:?}");
    assert!(!stage.read("rope.knot").contains("join"));
}

#[test]
fn a_spreadsheet_has_a_line_for_each_piece_of_a_joined_strand() {
    let stage = Stage::with(&[("rope.knot", &joined())]);
    let table = stage.run(&["measure", "rope.knot", "--format", "csv"]).out;
    let band = json(&stage.run(&["measure", "rope.knot", "--format", "json"]).out);
    let lines: Vec<Vec<&str>> = table.lines().skip(1).map(|line| line.split(',').collect()).collect();
    let later: Vec<&Vec<&str>> = lines.iter().filter(|line| line[10] != "1").collect();
    let listed = band["joined"].as_array().unwrap();
    assert_eq!((lines.len(), later.len()), (6 + 3, 3), "{table}");
    for (line, piece) in later.iter().zip(listed) {
        assert_eq!(line[1], piece["strand"].to_string());
        assert_eq!(line[2], piece["color"].as_str().unwrap());
        assert_eq!(line[9].parse::<f64>().unwrap(), piece["length_mm"].as_f64().unwrap());
    }
    assert!(later.iter().any(|line| line[2] == "sand" && line[1] == "4"), "it is of its new thread: {table}");
    let knots = |column: usize| lines.iter().map(|line| line[column].parse::<u64>().unwrap()).sum::<u64>();
    // Each of 10 + 2 * 30 knots has one strand that ties it and one that is tied over.
    assert_eq!((knots(3), knots(4)), (70, 70), "{table}");
}

#[test]
fn a_proposal_can_be_read_by_programs() {
    let stage = Stage::with(&[("rope.knot", ROPE)]);
    let said = stage.run(&["measure", "rope.knot", "--longest", "4m", "--format", "json"]);
    let band = held_to("measure-1", json(&said.out));
    let proposed = &band["proposed"];
    assert_eq!(proposed["longest_mm"], 4000.0);
    let joins = proposed["joins"].as_array().unwrap();
    assert!(!joins.is_empty(), "{band}");
    assert!(
        joins.iter().all(|join| join["line"].as_str().unwrap().ends_with(&format!("in set {}", join["set"])))
    );
}

#[test]
fn a_strand_longer_than_a_skein_is_told_how_to_be_joined() {
    let stage = Stage::with(&[("rope.knot", ROPE)]);
    let said = stage.run(&["measure", "rope.knot", "--skein", "5m"]);
    assert!(said.out.contains("or join them; `--longest 500cm` finds the places."), "{}", said.out);
}

/// Joined in the opening, with another thread and without.
fn joined() -> String {
    ROPE.replace("sets 60", "sets 2").replace(
        "set {\n  --",
        "opening {\n  take left 1: forward to edge\n  join left 3 with sand\n  join left 2\n  take left 1: forward to edge\n}\n\
         set {\n  join right 1 in set 2\n  --",
    )
}

#[test]
fn every_answer_tells_of_joins() {
    let stage = Stage::with(&[("rope.knot", &joined())]);
    assert_eq!(stage.run(&["check", "rope.knot"]).code, 0, "{:?}", stage.run(&["check", "rope.knot"]));
    let band = held_to("band-1", json(&stage.run(&["export", "rope.knot"]).out));
    let joins = band["opening"]["joins"].as_array().unwrap();
    assert_eq!((joins.len(), joins[0]["color"].as_str()), (2, Some("sand")), "{band}");
    assert_eq!(band["joins"][0]["set"], 2);
    for (language, words) in [
        (
            "en",
            [
                "Join the third strand from the left (sand)",
                "In set 2 only: Join the first strand from the right",
            ],
        ),
        (
            "de",
            [
                "Stücke den dritten Faden von links (sand) an",
                "Nur im Rapport 2: Stücke den ersten Faden von rechts",
            ],
        ),
        (
            "es",
            [
                "Empalma la tercera hebra desde la izquierda (sand)",
                "Solo en la repetición 2: Empalma la primera hebra",
            ],
        ),
    ] {
        let told = stage.run(&["write", "rope.knot", "--language", language]).out;
        for words in words {
            assert!(
                told.contains(words) || told.contains(&words.replace("(sand)", "(kelp)")),
                "{words}\n{told}"
            );
        }
    }
    let sheet = stage.run(&["sheet", "rope.knot"]).out;
    assert!(sheet.contains("\"joins\":[[1,"), "the sheet has a step of its own");
    let picture = stage.run(&["draw", "rope.knot", "--format", "svg"]);
    assert_eq!(picture.out.matches("href=\"#join\"").count(), 3, "{picture:?}");
    let chart = stage.run(&["draw", "rope.knot", "--chart", "--format", "terminal"]).out;
    assert!(chart.contains("*  the strand goes on with a new piece of thread"), "{chart}");
}

#[test]
fn compare_tells_a_changed_join() {
    let other = joined().replace("  join left 2\n", "");
    let stage = Stage::with(&[("one.knot", &joined()), ("other.knot", &other)]);
    let said = stage.run(&["compare", "one.knot", "other.knot"]);
    assert_eq!(said.code, 0, "the knots and what they show are the same: {said:?}");
    assert!(said.out.contains("Join: strand 2, in the opening after 5 knots, removed."), "{said:?}");
    let other = joined().replace("join left 3 with sand", "join left 3");
    stage.write("other.knot", other);
    let said = stage.run(&["compare", "one.knot", "other.knot"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.out.contains("strand 3 with sand, in the opening after 5 knots"), "{said:?}");
}
