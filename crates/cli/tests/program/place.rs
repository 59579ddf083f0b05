//! `locate` and `start-for`

use crate::stage::{BROKEN, Stage, held_to};
use knotwright_checker::{NoLibrary, Settings, Source, check};
use serde_json::{Value, json};
use std::sync::Arc;

/// Five strands of five colors: every order is another, so every place is known.
const REEDS: &str = "\
pattern \"Reeds\"
thread a #111111
thread b #333333
thread c #555555
thread d #777777
thread e #999999
strands a b c d e

opening { take right 1: backward 2 }

set {
  take left 1: forward to edge
  take left 2: forward-backward 1, forward 1
}
";

#[test]
fn the_place_is_found_and_what_comes_next() {
    let stage = Stage::with(&[("a.knot", REEDS)]);
    // The opening brings e to the third place; then two knots of the first step are tied.
    let said = stage.run(&["locate", "a.knot", "b", "e", "a", "c", "d"]);
    assert_eq!(said.code, 0, "{said:?}");
    assert!(said.out.contains("set 1, after 2 of 6 knots"), "{}", said.out);
    let said = stage.run(&["locate", "a.knot", "b a e c d"]);
    assert_eq!(said.code, 0, "{said:?}");
    assert_eq!(
        said.out,
        "The strands hang like this at one place:\n  set 1, after 1 of 6 knots; next comes step 1 (line 12), of which \
         1 of 4 are tied\nEverything repeats every 4 sets, so it may be a later one.\n"
    );
    let said = stage.run(&["locate", "a.knot", "a b e c d"]);
    assert!(
        said.out.contains("one place:\n  at the start of set 1; next comes step 1 (line 12)"),
        "once: {}",
        said.out
    );
    let said = stage.run(&["locate", "a.knot", "a", "b", "c", "d", "e"]);
    assert!(said.out.contains("at the start of the opening; next comes step 1 (line 9)"), "{}", said.out);
}

#[test]
fn if_none_fits_the_nearest_and_the_suspects_are_reported() {
    let stage = Stage::with(&[("a.knot", REEDS)]);
    // As after the opening, but its last knot turned back: c and e are exchanged.
    let said = stage.run(&["locate", "a.knot", "a b c e d", "--color", "never"]);
    assert_eq!(said.code, 0, "that is a step of the opening: {said:?}");
    let said = stage.run(&["locate", "a.knot", "b c e a d"]);
    assert_eq!(said.code, 1, "{said:?}");
    insta::assert_snapshot!(said.out);
}

fn placed(stage: &Stage, strands: &str) -> (i32, Value) {
    let said = stage.run(&["locate", "a.knot", "--format", "json", strands]);
    (said.code, held_to("place-1", serde_json::from_str(&said.out).unwrap()))
}

#[test]
fn for_programs_it_is_the_same_places_in_numbers() {
    let stage = Stage::with(&[("a.knot", REEDS)]);
    let (code, place) = placed(&stage, "b a e c d");
    assert_eq!(code, 0);
    let next =
        json!({"line": 12, "column": 3, "knots": 4, "tied": 1, "step": "1", "times": [], "sheet_step": 1});
    assert_eq!(
        place,
        json!({"schema": "knotwright/place/1", "path": "a.knot", "title": "Reeds", "exchanges": 0,
               "places": [{"part": "set", "set": 1, "knots": 6, "tied": [1, 1], "next": next}],
               "slips": [], "again_after": 4})
    );
    let (_, place) = placed(&stage, "a b c d e");
    assert_eq!((&place["places"][0]["part"], &place["places"][0]["set"]), (&json!("opening"), &Value::Null));
}

#[test]
fn for_programs_the_nearest_places_and_the_suspects_are_reported_too() {
    let stage = Stage::with(&[("a.knot", REEDS)]);
    let (code, place) = placed(&stage, "b c e a d");
    assert_eq!((code, &place["exchanges"]), (1, &json!(1)));
    let sets: Vec<&Value> = place["places"].as_array().unwrap().iter().map(|of| &of["set"]).collect();
    assert_eq!(sets, [&json!(1), &json!(2)]);
    assert_eq!(
        place["slips"],
        json!([{"part": "set", "set": 1, "row": 4, "gap": 4, "tied": 6, "untie": 1,
                "statement": {"line": 12, "column": 3, "knots": 4, "tied": 3, "step": "1", "times": [], "sheet_step": 1}}])
    );
}

/// What the instructions print can be typed back: labels, also with spaces and a comma in them, and lists with commas.
#[test]
fn strands_can_be_called_what_the_instructions_call_them() {
    let labeled = REEDS
        .replace("a #111111", "a #111111 \"deep kelp\"")
        .replace("b #333333", "b #333333 \"deep\"")
        .replace("c #555555", "c #555555 \"foam, 2 shades\"")
        .replace("d #777777", "d #777777 \"kelp\"")
        + "colorway \"dusk\" {\n  thread e #123456 \"last light\"\n}\n";
    let stage = Stage::with(&[("a.knot", &labeled)]);
    let said = stage.run(&["write", "a.knot", "--colorway", "dusk"]);
    let look =
        said.out.lines().find(|line| line.contains("Now the strands hang, from left to right: ")).unwrap();
    let list = look.split_once("right: ").unwrap().1.trim_end_matches(['.', '*']);
    assert_eq!(list, "deep kelp, deep, last light, foam, 2 shades, kelp");
    for strands in [list, "a b e c d", "deep kelp b last light c kelp"] {
        let said = stage.run(&["locate", "a.knot", strands]);
        assert_eq!(said.code, 0, "{strands}: {said:?}");
        assert!(said.out.contains("at the start of set 1"), "{}", said.out);
    }
    let said =
        stage.run(&["start-for", "a.knot", "deep", "kelp,", "deep,", "foam, 2 shades,", "kelp, last light"]);
    assert_eq!((said.code, said.out.as_str()), (0, "strands a b d e c\n"), "{said:?}");
}

#[test]
fn a_label_of_two_threads_names_neither() {
    let labeled = REEDS.replace("#111111", "#111111 \"sea\"").replace("#333333", "#333333 \"sea\"");
    let said = Stage::with(&[("a.knot", &labeled)]).run(&["locate", "a.knot", "sea sea c d e"]);
    assert_eq!(said.code, 2);
    assert!(
        said.err.contains("more than one thread is called `sea`: use their names (a, b)"),
        "{}",
        said.err
    );
}

/// Every step has the number that stands before it in the instructions.
#[test]
fn steps_have_the_numbers_of_the_instructions() {
    let text = REEDS.replace(
        "  take left 1: forward to edge\n",
        "  repeat 3 {\n    take left 1: forward 1\n    take right 1: backward 2\n  }\n",
    );
    let stage = Stage::with(&[("a.knot", &text)]);
    let said = stage.run(&["write", "a.knot"]);
    assert!(
        said.out.contains("1. Do this three times:\n   1. Take the first strand from the left"),
        "{}",
        said.out
    );
    // a b e c d, twice through: b a d e c, a b c d e; then a and b change places.
    let said = stage.run(&["locate", "a.knot", "b a c d e"]);
    assert!(
        said.out.contains("next comes step 1.2, time 3 of 3 (on the sheet step 6, in the file line 14)"),
        "{}",
        said.out
    );
    let (_, place) = placed(&stage, "b a c d e");
    let next = &place["places"][0]["next"];
    assert_eq!(
        (&next["step"], &next["times"], &next["sheet_step"]),
        (&json!("1.2"), &json!([[3, 3]]), &json!(6))
    );
}

/// The steps of a motif stand in the library that it is from.
#[test]
fn a_line_of_a_library_is_named_with_its_file() {
    let library = "pattern \"Parts\"\n\nmotif sweep(shade) {\n  take left 1 (shade): forward to edge\n}\n";
    let band = |set: &str| {
        let used = REEDS.replace("thread a", "use sweep from \"lib/parts.knot\"\nthread a");
        used.split("set {").next().unwrap().to_owned() + set
    };
    let stage = Stage::with(&[("a.knot", &band("set { work sweep(a) }\n")), ("lib/parts.knot", library)]);
    let said = stage.run(&["locate", "a.knot", "a b e c d"]);
    assert!(said.out.contains("next comes step 1 (line 4 of lib/parts.knot)"), "{}", said.out);
    let said = stage.run(&["locate", "a.knot", "a b c d e"]);
    assert!(said.out.contains("next comes step 1 (line 10)"), "{}", said.out);
    let (_, place) = placed(&stage, "a b e c d");
    assert_eq!(place["places"][0]["next"]["path"], "lib/parts.knot");
    // With b to begin with, the promise in the library does not hold.
    let said = stage.run(&["start-for", "a.knot", "b a e c d"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.err.contains("in the set, step 1 (line 4 of lib/parts.knot): "), "{}", said.err);
    stage.write(
        "a.knot",
        band("set {\n  repeat 3 {\n    work sweep(a)\n    take right 1: backward 2\n  }\n}\n"),
    );
    stage.write("lib/parts.knot", library.replace(" (shade)", ""));
    let said = stage.run(&["locate", "a.knot", "b e c a d"]);
    assert!(said.out.contains("time 1 of 3 (on the sheet step 1, line 4 of lib/parts.knot)"), "{}", said.out);
}

#[test]
fn strands_that_are_not_the_patterns_are_refused() {
    let stage = Stage::with(&[("a.knot", REEDS), ("broken.knot", BROKEN)]);
    for (strands, message) in [
        ("a b c", "that is 3 strands, but the pattern has 5"),
        ("a a c d e", "that is 2 strands of a, but the pattern has 1"),
        ("a b c d kelp", "No thread is called `kelp`"),
        ("a b | c d", "that is 4 strands"),
        ("2", "`2`"),
        ("a b\nset {}", "on one line"),
    ] {
        for command in ["locate", "start-for"] {
            let said = stage.run(&[command, "a.knot", strands]);
            assert_eq!((said.code, said.out.as_str()), (2, ""), "{strands}: {said:?}");
            assert!(said.err.contains(message), "{strands}: {}", said.err);
        }
    }
    assert_eq!(stage.run(&["locate", "broken.knot", "a"]).code, 1);
}

#[test]
fn the_start_leads_to_what_was_wanted() {
    let stage = Stage::with(&[("a.knot", REEDS)]);
    let said = stage.run(&["start-for", "a.knot", "a b c d e"]);
    assert_eq!((said.code, said.out.as_str()), (0, "strands a b d e c\n"));
    let text = REEDS.replace("strands a b c d e\n", &said.out);
    let pattern =
        check(Arc::new(Source::new("b.knot", text)), &NoLibrary, &Settings::default()).pattern.unwrap();
    let order = pattern.opening.as_ref().unwrap().piece.order();
    let after: Vec<u16> = order.iter().map(|&strand| pattern.strands[usize::from(strand)]).collect();
    assert_eq!(after, [0, 1, 2, 3, 4]);
    assert_eq!(stage.run(&["start-for", "a.knot", "--after", "set", "a b c d e"]).code, 0);
}

#[test]
fn a_start_is_written_as_short_as_can_be_and_broken_promises_are_reported() {
    let promised = "pattern \"Low tide\"\nthread kelp #1f5d50\nthread sand #e3c888\nstrands 2 kelp 2 sand\n\
                    opening { take left 1 (kelp): forward 1 }\nset { take left 1: forward 3 }\n";
    let stage = Stage::with(&[("a.knot", promised)]);
    let said = stage.run(&["start-for", "a.knot", "sand 2 kelp sand"]);
    assert_eq!((said.code, said.out.as_str()), (0, "strands kelp sand kelp sand\n"), "{said:?}");
    let said = stage.run(&["start-for", "a.knot", "2 sand 2 kelp"]);
    assert_eq!((said.code, said.out.as_str()), (1, "strands 2 sand 2 kelp\n"), "{said:?}");
    let where_it_stands = "a promise no longer holds, in the opening, step 1 (line 5): ";
    assert!(said.err.contains(where_it_stands), "{}", said.err);
    let said = stage.run(&["start-for", "a.knot", "--after", "set", "kelp 2 sand kelp"]);
    assert!(said.out.starts_with("strands "), "{said:?}");
    assert_eq!(stage.run(&["start-for", "a.knot", "--after", "never", "kelp"]).code, 2);
}
