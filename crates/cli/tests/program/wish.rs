//! A `face` that nothing ties yet: wherever a band is drawn or told, it is seen as a pale picture, and a plain sentence says
//! that nothing ties it and what does.

use crate::stage::{Said, Stage, held_to};
use serde_json::{Value, json};

/// Of six strands, an opening that is tied and a set that is only to be seen.
const WISH: &str = "\
pattern \"Slack tide\"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam kelp foam

opening {
  take left 1: forward 1
  take left 1: forward 1
}

set {
  face k kelp, f foam {
    k k f
     k f
    . f k
     f ?
  }
}
";

fn stage() -> Stage {
    Stage::with(&[("wish.knot", WISH)])
}

fn run(stage: &Stage, arguments: &str) -> Said {
    let said = stage.run(&arguments.split(' ').collect::<Vec<_>>());
    assert_eq!(said.code, 0, "{arguments}: {said:?}");
    said
}

#[test]
fn it_is_drawn_pale_and_the_rest_as_it_is_tied() {
    let stage = stage();
    let drawn = run(&stage, "draw wish.knot --format svg --sets 2");
    assert_eq!(drawn.out.matches("<use href=\"#w0\"").count(), 2 * 4, "kelp, twice");
    assert_eq!(drawn.out.matches("<use href=\"#w1\"").count(), 2 * 4, "foam");
    assert_eq!(drawn.out.matches("<use href=\"#w65535\"").count(), 2, "whatever color");
    assert_eq!(drawn.out.matches("<use href=\"#f0\"").count(), 1, "what is tied");
    assert!(drawn.out.contains("stroke-dasharray"));
    assert!(drawn.err.contains("its set is a face that nothing ties yet"), "{}", drawn.err);
    assert!(drawn.err.contains("`knotwright design`"), "{}", drawn.err);
}

#[test]
fn in_letters_it_is_small_ones() {
    let (before, set) = WISH.split_once("set {").unwrap();
    let stage =
        Stage::with(&[("wish.knot", &format!("{}set {{{set}", before.split("opening").next().unwrap()))]);
    let drawn = run(&stage, "draw wish.knot --sets 1 --format terminal");
    assert!(drawn.out.starts_with("k   k   f\n  k   f\n    f   k\n  f   ?\n"), "{}", drawn.out);
}

#[test]
fn the_chart_says_that_nothing_ties_it() {
    let stage = stage();
    let chart = run(&stage, "draw wish.knot --chart --format terminal").out;
    assert!(chart.contains("?  to be seen here; nothing ties it yet"), "{chart}");
    assert!(chart.contains("?K"), "{chart}");
    let drawn = run(&stage, "draw wish.knot --chart --format svg").out;
    assert!(
        drawn.contains(">to be seen here; nothing ties it yet</text>") && drawn.contains("stroke-dasharray")
    );
}

#[test]
fn words_tell_it_row_by_row_in_every_language() {
    let stage = stage();
    for (language, said, row) in [
        ("en", "Nothing ties this picture yet", "- Row 4: foam, any color"),
        ("de", "noch keine Knoten", "- Reihe 4: foam, beliebig"),
        ("es", "todavía no tiene nudos", "- Fila 4: foam, cualquier color"),
    ] {
        for by in ["steps", "rows"] {
            let words = run(&stage, &format!("write wish.knot --by {by} --language {language}")).out;
            assert!(words.contains(said) && words.contains(row), "{words}");
            assert!(words.contains("knotwright design") && words.contains("Tie this face"), "{words}");
            assert!(!words.contains(" 0 cm"), "no length is told of what is not tied: {words}");
        }
    }
    let mirrored = run(&stage, "write wish.knot --mirrored=image").out;
    assert!(mirrored.contains("- Row 1: foam, 2 kelp"), "{mirrored}");
}

#[test]
fn the_sheet_and_the_gallery_show_and_tell_it() {
    let stage = stage();
    let sheet = run(&stage, "sheet wish.knot").out;
    assert!(
        sheet.contains("Nothing ties this picture yet") && sheet.contains("href=\"#band-w0\""),
        "{sheet}"
    );
    run(&stage, "gallery . -o gallery");
    let page = stage.read("gallery/index.html");
    assert!(page.contains("6 strands<br>a picture that nothing ties yet"), "{page}");
}

#[test]
fn its_thread_is_not_made_up() {
    let stage = stage();
    for command in ["measure", "kit"] {
        let said = stage.run(&[command, "wish.knot"]);
        assert_eq!((said.code, said.out.as_str()), (1, ""), "{said:?}");
        assert!(said.err.contains("its set is a face that nothing ties yet"), "{}", said.err);
    }
    for command in ["plan", "chart"] {
        let said = stage.run(&[command, "wish.knot"]);
        assert!(said.code == 0 && said.err.contains("nothing ties yet"), "{said:?}");
        assert!(said.out.contains("    . f k\n"), "the face stays: {}", said.out);
    }
}

#[test]
fn export_has_the_face_of_a_wish_and_of_a_promise() {
    let stage = stage();
    let exported = |text: &str| {
        let said = stage.run_with_input(&["export", "-"], text);
        assert_eq!(said.code, 0, "{said:?}");
        held_to("band-1", serde_json::from_str::<Value>(&said.out).unwrap())
    };
    let wish = exported(WISH);
    assert_eq!((&wish["face"]["tied"], &wish["face"]["rows"]), (&json!(false), &json!(4)));
    assert_eq!(wish["face"]["knots"][0], json!({"row": 1, "gap": 1, "color": "kelp"}));
    assert_eq!(wish["face"]["knots"][5], json!({"row": 3, "gap": 3, "color": "foam"}));
    assert_eq!(wish["face"]["knots"][8], json!({"row": 4, "gap": 4, "color": null}));
    assert_eq!((&wish["knots"], wish["opening"].get("face")), (&json!([]), None));
    let tied = run(&stage, "design wish.knot").out;
    let promise = exported(&tied);
    assert_eq!((&promise["face"]["tied"], &promise["face"]["knots"]), (&json!(true), &wish["face"]["knots"]));
    assert_eq!(promise["knots"].as_array().unwrap().len(), 9);
}
