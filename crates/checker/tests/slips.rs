//! What people write instead of what the notation says: each gets the sentence with the right spelling, and a mend after
//! which less is wrong.

mod support;

use knotwright_checker::{Finding, Mend, NoLibrary, Settings, Severity, Source, check};
use knotwright_grammar::apply_edits;
use std::sync::Arc;
use support::{Shared, patterns};

const BAND: &str = r#"pattern "Ebb"

thread kelp seagreen
thread foam ivory
thread sand goldenrod

strands kelp foam sand | mirror
length 15 cm
finish {
  plait 3 for 6 cm
  knot
}
gauge {
  250 tex
  thickness 1 mm
  10 knots use 5 cm
  12 rows measure 4 cm
}

motif inward(shade, reach) {
  take left 1 (shade): forward reach - 1
}

motif v() {
  take left 1: forward to center left
}

set {
  repeat 3 {
    both { take left 1: forward to center left }
    meet center
  }
  both { work inward(kelp, 2) }
  both { take left 2 (kelp): backward 1 }
  both { work v() }
  meet center
  both { take center left: backward to edge }
}
"#;

fn errors(text: &str) -> Vec<Finding> {
    let found = check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default()).findings;
    found.into_iter().filter(|finding| finding.severity == Severity::Error).collect()
}

fn applied(text: &str, mend: &Mend) -> String {
    let edits = &mend.edits;
    apply_edits(text, edits.iter().map(|edit| (edit.place.span, edit.text.as_str()))).expect("the edits fit")
}

/// What is right in the band, what somebody wrote instead, a piece of what is said, and what the first mend makes of it.
struct Slip(&'static str, &'static str, &'static str, &'static str);

static SLIPS: &[Slip] = &[
    Slip("250 tex", "tex 250", "stands before `tex`", "  250 tex\n"),
    Slip("250 tex", "tex: 250", "stands before `tex`", "  250 tex\n"),
    Slip("thickness 1 mm", "1 mm thick", "stands behind `thickness`", "  thickness 1 mm\n"),
    Slip(
        "10 knots use 5 cm",
        "knots 10 take 5 cm",
        "how much thread some knots use",
        "  10 knots use 5 cm\n",
    ),
    Slip("12 rows measure 4 cm", "rows 12 in 4 cm", "how long some rows are", "  12 rows measure 4 cm\n"),
    Slip("12 rows measure 4 cm", "12 rows = 4 in", "how long some rows are", "  12 rows measure 4 in\n"),
    Slip("repeat 3 {", "repeat 3 times {", "leaves out `times` here", "repeat 3 {"),
    Slip(
        "forward to center left }\n    meet",
        "2 forward }\n    meet",
        "The kind of knot comes first",
        "forward 2 }\n    meet",
    ),
    Slip("take left 1: f", "take 1st left: f", "named by its side first", "take left 1: f"),
    Slip(
        "take left 1: f",
        "take the first strand from the left: f",
        "named by its side first",
        "take left 1: f",
    ),
    Slip("take left 1: f", "take left 1st: f", "A place is a plain number", "take left 1: f"),
    Slip("take left 1: f", "take the left 1: f", "leaves out `the` here", "take left 1: f"),
    Slip("backward to edge", "backward to left edge", "`edge` is always the one ahead", "backward to edge"),
    Slip(
        "to center left }\n    meet",
        "to middle }\n    meet",
        "called `center`, not `middle`",
        "to center left }\n    meet",
    ),
    Slip(
        "to center left }\n    meet",
        "to the middle }\n    meet",
        "called `center`",
        "to center left }\n    meet",
    ),
    Slip("meet center\n  }", "meet in the middle\n  }", "called `center`", "meet center\n  }"),
    Slip("repeat 3 {", "for n from 1 up to 3 {", "leaves out `from` here", "for n 1 up to 3 {"),
    Slip(
        "to center left }\n    meet",
        "until center }\n    meet",
        "with a place it is `to`",
        "to center left }\n    meet",
    ),
    Slip("backward to edge", "backward until edge", "with a place it is `to`", "backward to edge"),
    Slip("strands kelp foam", "strands 1x kelp foam", "A count is a number alone", "strands 1 kelp foam"),
    Slip("strands kelp foam", "strands 1xkelp foam", "A count is a number alone", "strands 1 kelp foam"),
    Slip("backward 1 }", "backward 1x }", "A count is a number alone", "backward 1 }"),
    Slip("length 15 cm", "length 15", "A length has a unit", "length 15 cm"),
    Slip("length 15 cm", "length 15cm", "a number and its unit", "length 15 cm"),
    Slip("take left 1: f", "take left 1 f", "A `:` stands between", "take left 1: f"),
    Slip("(shade): f", "(shade) f", "A `:` stands between", "(shade): f"),
    Slip(
        "length 15 cm",
        "# as it is\nlength 15 cm",
        "A remark begins with `--`",
        "-- as it is\nlength 15 cm",
    ),
    Slip(
        "length 15 cm",
        "#as it's {\nlength 15 cm",
        "A remark begins with `--`",
        "-- as it's {\nlength 15 cm",
    ),
    Slip("length 15 cm", "length 15 cm # as it is", "A remark begins with `--`", "length 15 cm -- as it is"),
    Slip(
        "meet center\n  }",
        "meet center // here\n  }",
        "A remark begins with `--`",
        "meet center -- here\n  }",
    ),
    Slip("kelp seagreen", "kelp dark green", "The name of a color is one word", "kelp darkgreen"),
    Slip("sand | mirror", "sand | mirror | mirror", "`| mirror` stands once", "sand | mirror"),
    Slip("forward reach - 1", "forward reach-1", "No number is called `reach-1`", "forward reach - 1"),
    Slip("work v()", "work v", "A motif has parentheses", "work v()"),
    Slip(
        "meet center\n  }",
        "meet center\n    turn\n  }",
        "Turning knots are",
        "meet center\n    note \"turn\"\n  }",
    ),
    Slip(
        "meet center\n  }",
        "meet center\n    skip 2\n  }",
        "What is not tied",
        "meet center\n    note \"skip 2\"\n  }",
    ),
    Slip("repeat 3 {", "loop 3 {", "stands in `repeat`", "repeat 3 {"),
    Slip("repeat 3 {", "loop 3 times {", "stands in `repeat`", "repeat 3 {"),
    Slip("repeat 3 {", "repeat 3", "A `{` stands before", "repeat 3 {"),
    Slip("both { take left 1:", "both take left 1:", "A `{` stands before", "both { take left 1:"),
    Slip("set {", "set", "A `{` stands before", "set {"),
    Slip("take center left: b", "take center: b", "two in the middle", "take center left: b"),
    Slip(
        "to center left }\n    meet",
        "to center }\n    meet",
        "two in the middle",
        "to center left }\n    meet",
    ),
    Slip("backward 1 }", "backward 3 }", "only one strand is left", "backward 1 }"),
    Slip("    meet center\n  }\n", "    meet center\n", "never closed", "    meet center\n  }\n"),
    Slip("foam sand |", "foam rope |", "No thread is called `rope`", "foam sand |"),
    Slip("both { work v() }", "both { work w() }", "No motif is called `w`", "work v()"),
    Slip("to edge }\n}\n", "to edge }\n", "is still open", "to edge }\n}\n"),
    // As it is said aloud, or typed while it is heard.
    Slip("take left 1: f", "left 1: f", "A step begins with `take`", "take left 1: f"),
    Slip("take left 1: f", "with left 1 tie f", "A step begins with `take`", "take left 1: f"),
    Slip("take left 1: f", "- take left 1: f", "no number and no sign", "take left 1: f"),
    Slip("take left 1: f", "TAKE LEFT 1: f", "in small letters", "take left 1: f"),
    Slip("take left 1: f", "take left 1, f", "A `:` stands between", "take left 1: f"),
    Slip("take left 1: f", "take 1 left: f", "named by its side first", "take left 1: f"),
    Slip("take left 1: f", "take strand 1: f", "named by its side first", "take left 1: f"),
    Slip("take left 1: f", "take left1: f", "No strand is labeled `left1`", "take left 1: f"),
    Slip("take left 1: f", "take leftmost: f", "No strand is labeled `leftmost`", "take left 1: f"),
    Slip("take left 1: f", "take first: f", "No strand is labeled `first`", "take left 1: f"),
    Slip("take left 1: f", "take kelp: f", "No strand is labeled `kelp`", "take kelp 1 from left: f"),
    Slip(
        "take left 1: f",
        "take kelp from left 1: f",
        "its number before its side",
        "take kelp 1 from left: f",
    ),
    Slip("2 (kelp): b", "2 kelp: b", "stands in parentheses", "2 (kelp): b"),
    Slip("2 (kelp): b", "2 [kelp]: b", "stands in parentheses", "2 (kelp): b"),
    Slip("2 (kelp): b", "2 = kelp: b", "stands in parentheses", "2 (kelp): b"),
    Slip("backward 1 }", "b 1 }", "A kind of knot is one word", "backward 1 }"),
    Slip("backward 1 }", "1 backward knot }", "The kind of knot comes first", "backward 1 }"),
    Slip(
        "take left 2 (kelp): backward 1 }",
        "left 2 kelp: one backward knot }",
        "begins with `take`",
        "2 (kelp): backward 1 }",
    ),
    Slip("backward 1 }", "one backward knot }", "The kind of knot comes first", "backward 1 }"),
    Slip("backward 1 }", "backward one }", "No number is called `one`", "backward 1 }"),
    Slip("backward 1 }", "backward x1 }", "No number is called `x1`", "backward 1 }"),
    Slip("backward 1 }", "backward \u{d7} 1 }", "has no `\u{d7}` here", "backward 1 }"),
    Slip("backward 1 }", "backward }", "comes how many of them", "backward 1 }"),
    Slip("backward 1 }", "backward 1. }", "has no `.` here", "backward 1 }"),
    Slip("backward 1 }", "backward forward 1 }", "is one word", "backward-forward 1 }"),
    Slip("backward 1 }", "backward\u{2013}forward 1 }", "is one word", "backward-forward 1 }"),
    Slip("backward 1 }", "backward 1 forward 1 }", "A comma stands", "backward 1, forward 1 }"),
    Slip("backward 1 }", "backward 1 and forward 1 }", "A comma stands", "backward 1, forward 1 }"),
    Slip("backward 1 }", "backward 1; forward 1 }", "A comma stands", "backward 1, forward 1 }"),
    Slip("backward to edge", "backward all the way", "As far as the strand can go", "backward to edge"),
    Slip("backward to edge", "backward to the end", "As far as the strand can go", "backward to edge"),
    Slip("backward to edge", "backward to foam", "with a thread it is `until`", "backward until foam"),
    Slip("repeat 3 {", "repeat 3: {", "has no `:` here", "repeat 3 {"),
    Slip("repeat 3 {", "3 times {", "stands in `repeat`", "repeat 3 {"),
    Slip("repeat 3 {", "repeat thrice {", "No number is called `thrice`", "repeat 3 {"),
    Slip("repeat 3 {", "for n in 1..3 {", "`for` counts", "for n 1 up to 3 {"),
    Slip("repeat 3 {", "for n = 3 to 1 {", "`for` counts", "for n 3 down to 1 {"),
    Slip("both { work v", "both sides { work v", "leaves out `sides`", "both { work v"),
    Slip("meet center\n  }", "meet\n  }", "in the middle meet", "meet center\n  }"),
    Slip("meet center\n  }", "meet in center\n  }", "leaves out `in`", "meet center\n  }"),
    Slip("meet center\n  }", "link the two in the middle\n  }", "by `meet center`", "meet center\n  }"),
    Slip("thread kelp sea", "thread kelp: sea", "has no `:` here", "thread kelp sea"),
    Slip("thread kelp sea", "thread kelp = sea", "has no `=` here", "thread kelp sea"),
    Slip("thread kelp seagreen", "thread kelp (seagreen)", "has no `(` here", "thread kelp seagreen"),
    Slip("thread kelp seagreen", "thread kelp 2e8b57", "begins with `#`", "thread kelp #2e8b57"),
    Slip("thread kelp seagreen", "thread #2e8b57 kelp", "comes first", "thread kelp #2e8b57"),
    Slip("thread kelp sea", "thread \"kelp\" sea", "no quotation marks", "thread kelp sea"),
    Slip("thread kelp sea", "color kelp sea", "declared with its `thread`", "thread kelp sea"),
    Slip(
        "strands kelp foam sand | mirror",
        "strands kelp foam sand mirror",
        "`|` stands before",
        "sand | mirror",
    ),
    Slip("strands kelp foam sand |", "strands kelp*1 foam sand |", "before its name", "strands 1 kelp foam"),
    Slip("thread foam ivory", "thread foam fffff0", "`fffff0` is not a known color", "thread foam #fffff0"),
    Slip("thread foam ivory", "thread foam ff0", "`ff0` is not a known color", "thread foam #ff0"),
    Slip(
        "pattern \"Ebb\"",
        "pattern \"Ebb\" de \"Ebbe\"",
        "A comma stands before the text in another language",
        "pattern \"Ebb\", de \"Ebbe\"\n",
    ),
    Slip("\nset {", "\nsets {", "over and over stands in `set`", "\nset {"),
    Slip("length 15 cm", "set 6", "How often the set is tied stands behind `sets`", "sets 6\n"),
    Slip("plait 3 for 6 cm", "plait 3 6 cm", "`for` is missing before `6`", "plait 3 for 6 cm"),
    Slip(
        "take left 2 (kelp)",
        "take left (kelp)",
        "missing between `left` and `(kelp)`",
        "take left 2 (kelp)",
    ),
    Slip("strands kelp foam sand |", "strands: kelp foam sand |", "has no `:` here", "strands kelp foam"),
    Slip("sand | mirror", "sand, mirror", "`|` stands before", "sand | mirror"),
    Slip("length 15 cm", "length 6 inches", "written `in`, not `inches`", "length 6 in\n"),
    Slip("length 15 cm", "length 6\"", "inches is written `in`", "length 6 in\n"),
    Slip("length 15 cm", "length 15 centimetres", "written `cm`", "length 15 cm\n"),
    Slip("length 15 cm", "length 15,5 cm", "a point, not a comma", "length 15.5 cm\n"),
    Slip("length 15 cm", "length 5 3/4 in", "with a point", "length 5.75 in\n"),
    Slip("finish {", "end {", "go on after the knots stands in `finish`", "finish {"),
    Slip("work inward(kelp, 2)", "inward(kelp, 2)", "tied with `work`", "both { work inward(kelp, 2) }"),
    Slip("work inward(kelp, 2)", "work inward kelp, 2", "in parentheses", "both { work inward(kelp, 2) }"),
    Slip("work v()", "v", "tied with `work`", "both { work v() }"),
    Slip(
        "work v() }\n  meet center",
        "work v() }\n  take left 1: forward-backward 1 then meet center",
        "line of its own",
        "forward-backward 1\n  meet center",
    ),
    Slip(
        "both { take left 2 (kelp): b",
        "both take left 2 (kelp): b",
        "A `{` stands before",
        "backward 1 }\n",
    ),
    Slip(
        "both { work v() }\n  meet center\n",
        "both { work v(), take left 1: forward-backward 1 }\n  meet center\n",
        "line of its own",
        "both {\n    work v()\n    take left 1: forward-backward 1\n  }\n  meet center\n",
    ),
    Slip("backward to edge", "backward until the end", "is `to edge`", "backward to edge"),
];

/// What is left of a sentence is no name: nobody declares a thread `end`, or takes a strand labeled `next`.
#[test]
fn no_spelling_is_proposed_that_calls_what_is_not_there() {
    for slip in ["take the next: forward 1", "repeat: take left 1: forward 2", "take left 1: forward the tip"]
    {
        let text = BAND.replacen("both { work v() }", slip, 1);
        let found = errors(&text);
        let says = |finding: &Finding| finding.help.clone().unwrap_or_default();
        assert!(
            found.iter().all(|finding| !says(finding).starts_with("Write `") && finding.mends.is_empty()),
            "{found:?}"
        );
    }
}

#[test]
fn a_name_of_two_words_is_one_finding_and_written_as_one_word_everywhere() {
    let band = BAND.replace("kelp", "dark kelp");
    let found = errors(&band);
    let [finding] = &found[..] else { panic!("{found:#?}") };
    assert!(finding.mends[0].title.starts_with("write `dark-kelp` in all "), "{finding:?}");
    assert_eq!(applied(&band, &finding.mends[0]), BAND.replace("kelp", "dark-kelp"));
}

#[test]
fn a_copied_line_of_a_thread_is_one_finding_and_gets_the_name_that_is_declared_nowhere() {
    let band = BAND.replacen("thread sand goldenrod", "thread foam goldenrod", 1);
    let found = errors(&band);
    let [finding] = &found[..] else { panic!("{found:#?}") };
    assert_eq!(finding.rule.name, "name-taken");
    assert_eq!(applied(&band, &finding.mends[0]), BAND, "{finding:?}");
}

/// What follows from a part by another name is not said by itself.
#[test]
fn a_part_by_another_name_is_one_finding() {
    let band = "pattern \"Ebb\"\nthread kelp seagreen\nthread foam ivory\nstrands kelp foam kelp kelp\n\
        opening {\n  take left 1 (kelp): forward to edge\n}\nset {\n  take left 1 (foam): forward to edge\n  \
        expect 3 kelp foam\n  take right 1 (foam): backward to edge\n  expect start\n}\n";
    assert_eq!(errors(band), []);
    for word in ["open", "intro", "start", "beginning"] {
        let found = errors(&band.replacen("opening {", &format!("{word} {{"), 1));
        let [finding] = &found[..] else { panic!("{word}: {found:#?}") };
        assert!(
            finding.mends.iter().any(|mend| mend.title.starts_with("write `opening`")),
            "{word}: {finding:?}"
        );
    }
}

#[test]
fn the_band_itself_is_right() {
    assert_eq!(errors(BAND), []);
}

#[test]
fn each_slip_is_one_finding_with_its_sentence_and_its_mend() {
    let mut wrong = String::new();
    for Slip(right, slip, says, mended) in SLIPS {
        assert!(BAND.contains(right), "{right}");
        let text = BAND.replacen(right, slip, 1);
        let found = errors(&text);
        let said: Vec<&str> = found.iter().map(|finding| finding.message.as_str()).collect();
        let mends = found.first().map(|finding| &finding.mends[..]).unwrap_or_default();
        let after = mends.first().map(|mend| applied(&text, mend)).unwrap_or_default();
        let is_right = said.len() == 1
            && said[0].contains(says)
            && after.contains(mended)
            && mends.iter().all(|mend| errors(&applied(&text, mend)).len() <= found.len());
        if !is_right || !errors(&after).is_empty() {
            wrong += &format!("{slip:?}: {said:?}\n  {:?}\n{after}\n", errors(&after).first());
        }
    }
    assert_eq!(wrong, "");
}

/// What a mend says to write is what it writes, and no message speaks of another spelling.
#[test]
fn the_words_beside_a_mend_agree_with_it() {
    for Slip(right, slip, ..) in SLIPS {
        let text = BAND.replacen(right, slip, 1);
        for finding in errors(&text) {
            let Some(help) = finding.help else { continue };
            let Some(written) = help.strip_prefix("Write `").and_then(|rest| rest.strip_suffix("`.")) else {
                continue;
            };
            if help.matches('`').count() > 2 {
                continue;
            }
            let written = written.trim_end_matches('\u{2026}');
            let shown: String = finding.mends.iter().map(|mend| applied(&text, mend)).collect();
            assert!(shown.contains(written.trim()), "{slip}: {help}");
        }
    }
}

/// What is read as the name of a thread, and is none. Strands hang elsewhere with it, so more may be found than this.
#[test]
fn a_word_in_a_list_of_threads_is_no_thread() {
    let slips = [
        ("strands kelp foam sand |", "strands kelp, foam and sand |", "strands kelp, foam sand |"),
        ("sand | mirror", "sand mirrored", "sand | mirror"),
        ("to edge }\n}", "to edge }\n  expect closed\n}", "to edge }\n  expect start\n}"),
    ];
    for (right, slip, mended) in slips {
        let text = BAND.replacen(right, slip, 1);
        let found = errors(&text);
        let mend = found[0].mends.first().unwrap_or_else(|| panic!("{slip}: {found:?}"));
        let after = applied(&text, mend);
        assert!(after.contains(mended), "{slip}: {after}");
        assert_eq!(errors(&after), [], "{slip}");
    }
}

#[test]
fn a_comma_comes_between_the_strands_of_a_bead() {
    let band = |strands: &str| {
        format!(
            "pattern \"Ebb\"\nthread kelp seagreen\nbead pearl ivory 9 mm hole 8 mm\nstrands 4 kelp\nset {{\n  \
             take left 1: forward to edge\n  bead pearl on {strands}\n  take left 1: forward to edge\n}}\n"
        )
    };
    assert!(errors(&band("left 1, left 2, left 3")).is_empty());
    for (slip, right) in [
        ("left 1 left 2", "left 1, left 2"),
        ("left 1 and left 2", "left 1, left 2"),
        ("left 1, left 2 left 3", "left 1, left 2, left 3"),
    ] {
        let text = band(slip);
        let [error] = &errors(&text)[..] else { panic!("{slip}: {:#?}", errors(&text)) };
        assert!(
            error.message.contains("A comma stands between strands that go through one bead"),
            "{error:?}"
        );
        assert_eq!(applied(&text, &error.mends[0]), band(right));
    }
}

/// Whatever is wrong with a `use`, the motifs that it was to fetch are no mistakes of their own.
#[test]
fn a_use_that_says_it_otherwise_is_one_finding() {
    let right = patterns().into_iter().find(|pattern| pattern.0 == "rock-pools.knot").expect("a sample").1;
    let line = "use half-tile, tile from \"tiles.knot\"";
    for slip in [
        "use \"tiles.knot\" half-tile, tile",
        "use \"tiles.knot\"",
        "use half-tile, tile \"tiles.knot\"",
        "use half-tile and tile from \"tiles.knot\"",
        "from \"tiles.knot\" use half-tile, tile",
        "import half-tile, tile from \"tiles.knot\"",
    ] {
        let text = right.replacen(line, slip, 1);
        let found = check(Arc::new(Source::new("band.knot", &*text)), &Shared, &Settings::default()).findings;
        let [one] = &found[..] else { panic!("{slip}: {found:#?}") };
        assert!(one.message.starts_with("The names of motifs come first"), "{slip}: {}", one.message);
        assert_eq!(applied(&text, &one.mends[0]), right, "{slip}");
        assert!(one.mends[0].certain, "{slip}");
    }
    // Which motifs it was to fetch, nobody knows.
    let text = right.replacen(line, "use tiles.knot", 1);
    let found = check(Arc::new(Source::new("band.knot", &*text)), &Shared, &Settings::default()).findings;
    assert_eq!(found.len(), 1, "{found:#?}");
}

/// One slip again and again, and several: each is mended for certain, one after the other.
#[test]
fn slips_that_are_mended_together_are_certain() {
    let slips = [("center", "centre"), ("backward 1", "backwrd 1"), ("strands kelp", "strands: kelp")];
    for slips in [&slips[..1], &slips[..2], &slips[..]] {
        let mut text = slips.iter().fold(BAND.to_owned(), |text, (right, slip)| text.replace(right, slip));
        let mut left = errors(&text).len();
        assert!(left > 1, "{slips:?}");
        while left > 0 {
            let found = errors(&text);
            let mend = &found[0].mends[0];
            assert!(found.iter().all(|finding| finding.mends[0].certain), "{slips:?}: {}", mend.title);
            text = applied(&text, mend);
            left -= 1;
            assert_eq!(errors(&text).len(), left, "{slips:?}");
        }
        assert_eq!(text, BAND);
    }
}

/// With something else wrong, nobody knows whether all holds after them.
#[test]
fn slips_beside_another_mistake_are_not_certain() {
    let text = BAND.replace("center", "centre").replace("take left 2 (kelp)", "take left 2 (foam)");
    assert!(!errors(&text).iter().flat_map(|finding| &finding.mends).any(|mend| mend.certain));
}

/// A turning knot stays on one neighbor, so the notation has none that ties over a color.
#[test]
fn what_ties_over_a_color_is_not_to_be_a_turning_knot() {
    let text = "pattern \"Tide\"\nthread a teal\nthread b coral\nstrands a b a\nset {\n  take left 1: forward 1 over b\n  \
                take left 1 (a): forward 2\n  expect b a a\n}\n";
    let source = Arc::new(Source::new("tide.knot", text));
    let report = check(source, &NoLibrary, &Settings::default());
    assert_eq!(report.findings[0].rule.name, "broken-promise");
    let mends: Vec<&str> = report.findings[0].mends.iter().map(|mend| mend.title.as_str()).collect();
    assert!(!mends.iter().any(|title| title.contains("-backward")), "{mends:?}");
}
