//! Whole files.

mod support;

use knotwright_grammar::{ProblemKind, parse};
use support::{accept, tree};

/// The form of a whole file, all head statements and most body statements.
const WHOLE: &str = r#"pattern "Tidepool ladder"
about "Ten strands: two fans, then a ladder down the middle."

thread kelp #1f5d50 "deep kelp"
thread foam #f4f1e8
thread sand goldenrod

strands 2 kelp foam 2 sand | mirror

gauge {
  thickness 0.9 mm
  10 knots use 105 mm
  20 rows measure 32 mm
}
length 15 cm
ends 12 cm

motif fan(size) {
  take left 1: forward size down to 1
}

set {
  section "fans" {
    both { on left 5 { work fan(4) } }
  }
  section "ladder" {
    on center 4 {
      take left 1 (foam): forward to center left
      take right 1 (foam): backward to center right
      meet center
    }
  }
  expect foam 2 sand 2 kelp | mirror
}
"#;

#[test]
fn a_whole_file_parses() {
    let parsed = accept(WHOLE);
    assert_eq!(parsed.tree.walk().count(), 25);
}

#[test]
fn nesting_is_reported_by_the_walk() {
    let parsed = accept(WHOLE);
    let mut walk = parsed.tree.walk();
    let mut deepest = ("", 0);
    while let Some(statement) = walk.next() {
        if walk.depth() > deepest.1 {
            deepest = (statement.head.of(WHOLE), walk.depth());
        }
    }
    assert_eq!(deepest, ("work fan(4)", 4));
}

/// The tree does not hang on line ends, the byte-order mark or the last line's end.
#[test]
fn line_ends_do_not_matter() {
    let plain = tree(&accept(WHOLE).tree);
    let others = [
        WHOLE.replace('\n', "\r\n"),
        WHOLE.replace('\n', "\r"),
        format!("\u{feff}{WHOLE}"),
        WHOLE.trim_end().to_owned(),
        WHOLE.replace('\n', "  -- so\n\n"),
        WHOLE.replace("  ", "\t"),
    ];
    for text in others {
        assert_eq!(tree(&accept(&text).tree), plain, "{text:?}");
    }
}

#[test]
fn comments_are_kept() {
    let text = "-- one\nset { -- two\n  meet center  -- three\n}\n--four";
    let comments: Vec<&str> = accept(text).comments.iter().map(|comment| comment.of(text)).collect();
    assert_eq!(comments, ["-- one", "-- two", "-- three", "--four"]);
}

#[test]
fn of_a_newer_edition_one_thing_is_reported() {
    let newer = "-- later\npattern \"Tide\" edition 2 of something\nknit 3 {\n";
    let parsed = parse(newer);
    assert_eq!(parsed.problems.len(), 1);
    assert_eq!(parsed.problems[0].kind, ProblemKind::NewerEdition { edition: 2 });
    assert_eq!(parsed.problems[0].span.of(newer), "2");
    assert!(parsed.tree.statements.is_empty() && !parsed.tokens.is_empty());
    let far = parse("pattern \"Tide\" edition 99999999999999\n");
    assert_eq!(far.problems[0].kind, ProblemKind::NewerEdition { edition: u32::MAX });
}

#[test]
fn of_a_conflict_one_thing_is_reported() {
    let text = "pattern \"Tide\"\nset {\n<<<<<<< ours\n  knit 3 {\n=======\n}\n>>>>>>> theirs\n}\n";
    let parsed = parse(text);
    assert_eq!(parsed.problems.len(), 1);
    assert_eq!(parsed.problems[0].kind, ProblemKind::ConflictMarks);
    assert_eq!(parsed.problems[0].span.of(text), "<<<<<<< ours");
    for left in ["=======\r\n", "a\n||||||| base\n", "a\r>>>>>>> theirs", "=======\n"] {
        assert_eq!(parse(left).problems[0].kind, ProblemKind::ConflictMarks, "{left:?}");
    }
    let none = "pattern \"Tide\"\n-- ======= a line of a comment\n--=======\nabout \"<<<<<<< >>>>>>>\"\n";
    assert!(parse(none).problems.iter().all(|problem| problem.kind != ProblemKind::ConflictMarks));
}

#[test]
fn the_first_edition_may_be_named() {
    accept("pattern \"Tide\" edition 1\n");
    assert_eq!(parse("pattern \"Tide\" edition 0\n").problems.len(), 1);
    assert_eq!(parse("thread kelp #fff\npattern \"Tide\" edition 2\n").tree.statements.len(), 2);
}

/// A statement goes to the end of its block, its head to the end of its own line.
#[test]
fn heads_and_wholes() {
    let text = "set {\n  take left 1: forward 4,\n    backward 1\n    then 3\n    -- so\n    then 2\n  both { meet center } -- b\n}\n";
    let parsed = accept(text);
    let spans: Vec<(&str, &str)> =
        parsed.tree.walk().map(|one| (one.head.of(text), one.span.of(text))).collect();
    assert_eq!(spans[0], ("set {", text.trim_end()));
    assert_eq!(spans[1].0, "take left 1: forward 4,\n    backward 1");
    assert_eq!(spans[1].1, "take left 1: forward 4,\n    backward 1\n    then 3\n    -- so\n    then 2");
    assert_eq!(spans[2], ("both {", "both { meet center }"));
}
