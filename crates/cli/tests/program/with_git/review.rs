//! `review`: what a change does to the bands of a repository.

use super::{LIBRARY, branched, commit, git, user, with_a_turn};
use crate::stage::{BROKEN, GOOD, Stage, held_to};
use serde_json::{Value, json};

fn reviewed(stage: &Stage, arguments: &[&str]) -> Value {
    let said = stage.run(&[&["review", "--format", "json"], arguments].concat());
    assert!(said.code < 2, "{said:?}");
    let value = held_to("review-1", serde_json::from_str(&said.out).unwrap());
    for pattern in value["patterns"].as_array().unwrap().iter().filter(|of| !of["comparison"].is_null()) {
        held_to("comparison-1", pattern["comparison"].clone());
    }
    value
}

/// `KIND PATH`, and where it was, if that was elsewhere.
fn rows(value: &Value) -> Vec<String> {
    let row = |row: &Value| {
        let path = |side: &str| row[side]["path"].as_str().map(str::to_owned);
        let (before, after) = (path("before"), path("after"));
        let place = after.clone().or(before.clone()).unwrap();
        let from = before.filter(|before| after.is_some() && *before != place);
        let from = from.map_or(String::new(), |from| format!(" from {from}"));
        format!("{} {place}{from}", row["kind"].as_str().unwrap())
    };
    value["patterns"].as_array().unwrap().iter().map(row).collect()
}

/// It has hardly a line in common with the others, so that git takes it for none of them.
const OTHER: &str = "pattern \"New\"\n\nthread moss #556b2f\nthread clay #b66a50\nthread chalk #f4efe6\n\n\
    strands moss clay chalk\n\nset {\n  repeat 3 {\n    take left 1: forward to edge\n  }\n}\n";

/// Patterns that can be told apart.
fn called(title: &str) -> String {
    GOOD.replace("Low tide", title)
}

fn repository() -> Stage {
    let page = format!("# Tides\n\n```knot\n{}```\n\n```knot\n{}```\n", called("One"), called("Two"));
    branched(&[
        ("bands/affected.knot", &user("../motifs/tide.knot")),
        ("bands/alike.knot", &called("Alike")),
        ("bands/band.knot", &called("Band")),
        ("bands/broken.knot", &called("Broken")),
        ("bands/deleted.knot", &called("Deleted").replace("kelp", "weed")),
        ("bands/formatting.knot", &called("Formatting")),
        ("bands/mended.knot", BROKEN),
        ("bands/moved.knot", &called("Moved")),
        ("bands/rewritten.knot", &called("Rewritten")),
        ("bands/still.knot", &BROKEN.replace("Low tide", "Still")),
        ("bands/words.knot", &called("Words")),
        ("motifs/tide.knot", LIBRARY),
        ("page.md", &page),
    ])
}

fn change(stage: &Stage) {
    stage.write("bands/band.knot", with_a_turn(&called("Band")));
    stage.write("bands/broken.knot", called("Broken").replacen("forward 3", "forward 19", 1));
    std::fs::remove_file(stage.path("bands/deleted.knot")).unwrap();
    stage.write("bands/formatting.knot", called("Formatting").replace("  take", "      take"));
    stage.write("bands/mended.knot", GOOD);
    std::fs::rename(stage.path("bands/moved.knot"), stage.path("moved here.knot")).unwrap();
    stage.write("bands/rewritten.knot", called("Rewritten").replace("forward 3", "forward to edge"));
    stage.write("bands/words.knot", called("Words").replace("strands", "length 15 cm\nstrands"));
    stage.write("motifs/tide.knot", with_a_turn(LIBRARY));
    stage.write(
        "page.md",
        stage.read("page.md").replacen("forward 3", "forward 2", 1).replacen("Tides", "Sea", 1),
    );
    stage.write("new.knot", OTHER);
}

const CHANGED: [&str; 11] = [
    "broken bands/broken.knot",
    "broken page.md",
    "band bands/band.knot",
    "affected bands/affected.knot",
    "deleted bands/deleted.knot",
    "added new.knot",
    "mended bands/mended.knot",
    "moved moved here.knot from bands/moved.knot",
    "words bands/words.knot",
    "rewritten bands/rewritten.knot",
    "formatting bands/formatting.knot",
];

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn every_kind_of_change_is_reported_committed_or_not() {
    let stage = repository();
    assert_eq!(rows(&reviewed(&stage, &["--since", "main"])), [""; 0]);
    change(&stage);
    let value = reviewed(&stage, &["--since", "main"]);
    assert_eq!(rows(&value), CHANGED, "on the disk, git tracks nothing");
    assert_eq!(value["counts"]["broken"], 2);
    assert_eq!(
        value["causes"],
        json!([{"path": "motifs/tide.knot", "kind": "library", "patterns": 1, "changed": 1}])
    );
    let affected = &value["patterns"][3];
    assert_eq!(
        (&affected["because"], &affected["comparison"]["verdict"]),
        (&json!("motifs/tide.knot"), &json!("different"))
    );
    let broken = &value["patterns"][0]["errors"][0];
    assert_eq!((&broken["rule"], &broken["line"]), (&json!("past-the-edge"), &json!(7)));
    assert_eq!(value["patterns"][1]["after"]["line"], 4, "where the pattern stands in the page");
    commit(&stage);
    assert_eq!(rows(&reviewed(&stage, &["--since", "main"])), CHANGED, "committed");
    assert_eq!(
        rows(&reviewed(&stage, &["--since", "main..change"])),
        CHANGED,
        "from one revision to another"
    );
    let back = rows(&reviewed(&stage, &["--since", "change..main"]));
    assert!(back.contains(&"moved bands/moved.knot from moved here.knot".to_owned()), "{back:?}");
    assert_eq!(rows(&reviewed(&stage, &["--since", "main", "motifs", "page.md"])), ["broken page.md"]);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn what_fails_is_chosen() {
    let stage = branched(&[("a.knot", GOOD)]);
    let code = |arguments: &[&str]| stage.run(&[&["review", "--since", "main"], arguments].concat()).code;
    assert_eq!((code(&[]), code(&["--fail-on", "band"])), (0, 0));
    stage.write("a.knot", GOOD.replace("Low", "High"));
    assert_eq!((code(&[]), code(&["--fail-on", "band"])), (0, 0), "only words");
    stage.write("a.knot", with_a_turn(GOOD));
    assert_eq!((code(&[]), code(&["--fail-on", "band"])), (0, 1));
    stage.write("a.knot", BROKEN);
    assert_eq!((code(&[]), code(&["--fail-on", "band"])), (1, 1));
    assert_eq!(code(&["--since", "nowhere"]), 2);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_path_that_is_on_neither_side_is_refused() {
    let stage = branched(&[("bands/a.knot", GOOD), ("gone/b.knot", GOOD)]);
    std::fs::remove_dir_all(stage.path("gone")).unwrap();
    stage.write("new/c.knot", GOOD);
    for path in ["bandz", "bands/b.knot", "bandz/deep/a.knot", "bands/a.knot/b.knot"] {
        let said = stage.run(&["review", "--since", "main", "bands", path]);
        assert_eq!((said.code, &*said.out), (2, ""), "{path}");
        let why = format!("error: {path}: there is no such file or folder, neither now nor in `main`\n");
        assert_eq!(said.err, why);
    }
    for path in ["bands", "gone", "gone/b.knot", "new", "new/c.knot"] {
        let said = stage.run(&["review", "--since", "main", path]);
        assert_eq!((said.code, &*said.err), (0, ""), "{path}");
    }
    let said = stage.run(&["review", "--since", "main..change", "bandz"]);
    assert!(said.err.contains("neither in `main` nor in `change`"), "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn settings_are_those_of_each_side() {
    let stage = branched(&[
        ("drafts/a.knot", GOOD),
        ("b.knot", &user("motifs/tide.knot")),
        ("motifs/tide.knot", LIBRARY),
    ]);
    stage.write("knotwright.toml", "exclude = [\"drafts/\"]\n");
    let value = reviewed(&stage, &["--since", "main"]);
    assert_eq!(rows(&value), ["deleted drafts/a.knot"]);
    assert_eq!(value["patterns"][0]["because"], "knotwright.toml");
    commit(&stage);
    assert_eq!(rows(&reviewed(&stage, &["--since", "change..main"])), ["added drafts/a.knot"]);
    stage.write("knotwright.toml", "exclude = \"drafts/\n");
    let said = stage.run(&["review", "--since", "change"]);
    assert!(said.code == 1 && said.out.contains("knotwright.toml"), "{said:?}");
    commit(&stage);
    stage.write("knotwright.toml", "");
    let said = stage.run(&["review", "--since", "change"]);
    assert_eq!(said.code, 0, "settings that are mended stop nothing: {said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn without_a_revision_the_upstream_is_meant() {
    let stage = branched(&[("a.knot", GOOD)]);
    let said = stage.run(&["review"]);
    assert!(said.code == 2 && said.err.contains("no upstream"), "{said:?}");
    git(&stage, &["branch", "--quiet", "--set-upstream-to=main"]);
    stage.write("a.knot", with_a_turn(GOOD));
    let said = stage.run(&["review"]);
    assert_eq!(said.out.lines().next(), Some("Since main: 1 band changed."), "{said:?}");
    // What goes on elsewhere is not part of this branch.
    commit(&stage);
    git(&stage, &["switch", "--quiet", "main"]);
    stage.write("b.knot", GOOD);
    commit(&stage);
    git(&stage, &["switch", "--quiet", "change"]);
    assert_eq!(rows(&reviewed(&stage, &[])), ["band a.knot"]);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn the_page_holds_all_and_a_pattern_cannot_dress_it_up() {
    let nasty = "<script>alert(1)</script>\u{1b}[2J\u{202e}";
    let stage = branched(&[("a.knot", &called("Plain"))]);
    stage.write("a.knot", with_a_turn(&called(nasty)));
    stage.write("<b>.knot", called(nasty));
    let page = stage.run(&["review", "--since", "main", "--format", "html"]).out;
    assert!(page.contains("default-src 'none'; style-src 'sha256-") && !page.contains("<script"), "{page}");
    assert!(
        page.contains("&lt;script&gt;") && !page.contains('\u{1b}') && !page.contains('\u{202e}'),
        "{page}"
    );
    assert_eq!(page.matches("src=\"data:image/svg+xml;base64,").count(), 3, "before, after, and what is new");
    assert!(!page.contains("http:") && !page.contains("https:"), "nothing is sent for");
    for format in ["human", "markdown", "json"] {
        let said = stage.run(&["review", "--since", "main", "--format", format]).out;
        assert!(!said.contains(['\u{1b}', '\u{202e}']), "{said:?}");
        assert!(format != "markdown" || !said.contains("<script"), "{said}");
    }
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn pictures_show_before_and_after_with_a_ring_around_what_is_different() {
    let stage = branched(&[("bands/a.knot", &called("Plain"))]);
    stage.write(
        "bands/a.knot",
        called("Plain")
            .replacen("forward 3", "forward 2, forward-backward 1", 1)
            .replace("  expect start\n", ""),
    );
    stage.write("new.knot", GOOD);
    let value = {
        let said = stage.run(&["review", "--since", "main", "--format", "json", "--pictures", "shown"]);
        held_to("review-1", serde_json::from_str(&said.out).unwrap())
    };
    let names = json!({"before": "bands/a.knot.before.svg", "after": "bands/a.knot.after.svg"});
    assert_eq!(value["patterns"][0]["pictures"], names);
    assert_eq!(value["patterns"][1]["pictures"], json!({"before": null, "after": "new.knot.after.svg"}));
    let rings = |name: &str| stage.read(&format!("shown/{name}")).matches("href=\"#ring\"").count();
    assert!(rings("bands/a.knot.before.svg") > 0 && rings("bands/a.knot.after.svg") > 0);
    assert_eq!(rings("new.knot.after.svg"), 0, "all of it is new");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn words_for_people_and_for_a_comment() {
    let stage = repository();
    change(&stage);
    insta::assert_snapshot!("review_human", stage.run(&["review", "--since", "main"]).out);
    let comment = [
        "review",
        "--since",
        "main",
        "--format",
        "markdown",
        "--report",
        "https://reviews.example.invalid/1/",
    ];
    insta::assert_snapshot!("review_markdown", stage.run(&comment).out);
}
