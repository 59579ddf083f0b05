//! What is proposed where something is wrong, and what comes of it.

use knotwright_checker::{Edit, Library, Mend, NoLibrary, OpenError, Report, Settings, Source, check};
use knotwright_grammar::apply_edits;
use knotwright_numbers::ToNumber;
use std::sync::Arc;

fn checked(text: &str) -> Report {
    check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default())
}

/// The findings' rules, and their mends: `line: title`, certain ones marked.
fn proposed(text: &str) -> Vec<String> {
    let line = |edit: &Edit| text[..edit.place.span.start.to_usize()].matches('\n').count() + 1;
    let mend = |mend: &Mend| {
        let certain = if mend.certain { " (certain)" } else { "" };
        format!("  {}: {}{certain}", line(&mend.edits[0]), mend.title)
    };
    let report = checked(text);
    let said = report.findings.iter().flat_map(|finding| {
        std::iter::once(finding.rule.name.to_owned()).chain(finding.mends.iter().map(mend))
    });
    said.collect()
}

fn applied(text: &str, mend: &Mend) -> String {
    apply_edits(text, mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str())))
        .expect("the edits fit")
}

/// A chevron, with a promise wherever a strand is taken.
const CHEVRON: &str = r#"pattern "Slipway"

thread rope #c8a165
thread tar #222222
thread foam #f4f1e8

strands rope tar foam | mirror

set {
  both { take left 1 (rope): forward 2 }
  meet center
  both { take left 1 (tar): forward 2 }
  meet center
  expect foam rope tar | mirror
  both {
    take left 1 (foam): forward 1
    take left 2 (foam): forward to center left
  }
  meet center
}
"#;

/// A slip of the finger in a word of the notation, first in the statement or within it.
#[test]
fn a_misspelled_word_is_put_right() {
    for (right, wrong) in [
        ("take left 1 (tar)", "tkae left 1 (tar)"),
        ("take left 1 (tar)", "take lfet 1 (tar)"),
        ("(tar): forward", "(tar): forwrad"),
        ("to center left", "ot center left"),
        ("to center left", "to centre left"),
        ("meet center\n  both { take left 1 (tar)", "meet centre\n  both { take left 1 (tar)"),
    ] {
        let text = CHEVRON.replacen(right, wrong, 1);
        let report = checked(&text);
        let mends: Vec<&Mend> = report.findings.iter().flat_map(|finding| &finding.mends).collect();
        assert!(mends[0].certain, "{wrong}: {:#?}", report.findings);
        assert_eq!(applied(&text, mends[0]), CHEVRON);
    }
}

/// `miror` reads as a thread that nobody has named, and then more is wrong than one word.
#[test]
fn a_misspelled_word_that_was_read_as_a_name_is_put_right() {
    let text = CHEVRON.replacen("foam | mirror", "foam | miror", 1);
    let report = checked(&text);
    let mends = report.findings.iter().flat_map(|finding| &finding.mends);
    let mend = mends.into_iter().find(|mend| mend.title.starts_with("write `mirror`")).unwrap();
    assert_eq!(applied(&text, mend), CHEVRON);
    let forgotten = CHEVRON.replacen("strands rope tar foam", "strands rope tar mirr", 1);
    assert!(proposed(&forgotten).iter().all(|line| !line.contains("write `mirror`")));
}

/// Each is the only way to read its line, and all holds after both.
#[test]
fn two_misspelled_words_are_sure_together() {
    let text =
        CHEVRON.replace("(tar): forward 2", "(tar): forwad 2").replace("to center left", "to centr left");
    assert_eq!(
        proposed(&text),
        [
            "not-understood",
            "  12: write `forward`: all holds then, with the mends of the others (certain)",
            "not-understood",
            "  17: write `center`: all holds then, with the mends of the others (certain)"
        ]
    );
}

/// A thread may be called what was misspelled.
#[test]
fn a_word_that_stands_elsewhere_is_not_sure_together_with_another() {
    let text = CHEVRON
        .replace("take left 1 (tar)", "take lift 1 (tar)")
        .replace("to center left", "to centr left")
        .replace("thread tar", "thread lift #333333\nthread tar");
    assert!(proposed(&text).iter().all(|line| !line.contains("certain")), "{:#?}", proposed(&text));
    let text = text.replace("thread lift #333333\n", "");
    assert!(proposed(&text).iter().any(|line| line.contains("certain")), "{:#?}", proposed(&text));
}

/// What may be a name that the author forgot to give is not written over.
#[test]
fn a_word_that_stands_elsewhere_too_is_never_sure() {
    let text = CHEVRON
        .replace("take left 1 (tar)", "take lift 1 (tar)")
        .replace("thread tar", "thread lift #333333\nthread tar");
    let report = checked(&text);
    assert!(
        report.findings.iter().flat_map(|finding| &finding.mends).all(|mend| !mend.certain),
        "{report:#?}"
    );
    assert_eq!(
        proposed(&CHEVRON.replace("strands rope tar foam | mirror", "strands rope tar edgy | mirror"))[0],
        "unknown-name"
    );
}

#[test]
fn the_sample_itself_holds() {
    assert_eq!(proposed(CHEVRON), [""; 0]);
}

#[test]
fn a_wrong_count_is_mended_where_it_was_written() {
    let found = proposed(&CHEVRON.replacen("forward 2", "forward 1", 1));
    // A forgotten step would do as well, so it is not certain.
    assert_eq!(
        found[..2],
        ["expect-fails", "  10: write `2` instead of `1`: every promise holds then and the set closes"]
    );
}

#[test]
fn what_follows_from_one_slip_is_said_once() {
    let text = CHEVRON.replacen("forward 2", "forward 1", 1).replacen("expect foam rope tar | mirror", "", 1);
    let report = checked(&text);
    assert_eq!(report.findings.len(), 1);
    let last = report.findings[0].notes.last().unwrap();
    assert!(last.text.contains("what follows from it"), "{}", last.text);
}

#[test]
fn left_for_right_and_a_kind_turned_round() {
    let found = proposed(&CHEVRON.replacen("take left 1 (tar)", "take right 1 (tar)", 1));
    assert!(found[1].starts_with("  12: write `left` instead of `right`"), "{found:?}");
    let found = proposed(&CHEVRON.replacen("forward to center", "backward to center", 1));
    assert!(found[1].starts_with("  17: write `forward` instead of `backward`"), "{found:?}");
}

#[test]
fn a_set_that_does_not_close_is_mended_without_any_promise() {
    let text = "pattern \"Tide\"\nthread a teal\nthread b coral\nstrands a b a b\n\
                set {\n  take left 1: forward 2\n  take left 3: backward 1\n}\n";
    let found = proposed(text);
    assert!(found.contains(&"set-does-not-close".to_owned()), "{found:?}");
    assert!(found.contains(&"  7: write `2` instead of `3`: the set closes then".to_owned()), "{found:?}");
    for mend in &checked(text).findings[0].mends {
        assert!(!proposed(&applied(text, mend)).contains(&found[0]), "{mend:?}");
    }
}

#[test]
fn two_slips_are_two_mistakes_with_a_mend_for_each() {
    let text = CHEVRON.replacen("forward 2", "forward 1", 1).replacen("take left 2", "take left 1", 1);
    let found = proposed(&text);
    let mends: Vec<_> = found.iter().filter(|line| line.starts_with("  ")).collect();
    let is_there = |start: &str| mends.iter().any(|line| line.starts_with(start));
    assert!(is_there("  10: write `2` instead of `1`: this holds then"), "{found:?}");
    assert!(is_there("  17: write `2` instead of `1`: this holds then"), "{found:?}");
    assert!(!mends.iter().any(|line| line.ends_with("(certain)")), "{found:?}");
}

#[test]
fn with_a_certain_mend_nothing_is_wrong_any_more() {
    let mut certain = 0;
    for (written, slip) in [
        ("forward 2", "forward 1"),
        ("forward 2", "forward 3"),
        ("forward 2", "backward 2"),
        ("(tar): forward 2", "(tar): forward 1"),
        ("forward 1", "forward 2"),
        ("take left 2", "take left 1"),
        ("take left 1 (tar)", "take left 2 (tar)"),
        ("take left 1 (tar)", "take right 1 (tar)"),
    ] {
        let text = CHEVRON.replacen(written, slip, 1);
        let report = checked(&text);
        assert!(!report.findings.is_empty(), "{slip}");
        for mend in report.findings.iter().flat_map(|finding| &finding.mends).filter(|mend| mend.certain) {
            assert_eq!(applied(&text, mend), CHEVRON, "{slip}");
            certain += 1;
        }
    }
    assert!(certain >= 1, "{certain}");
}

#[test]
fn a_misspelled_name_is_put_right() {
    let text = CHEVRON.replacen("(foam)", "(faom)", 1);
    assert_eq!(proposed(&text), ["unknown-name", "  16: write `foam`: all the rest holds then (certain)"]);
    let text = text.replacen("(rope)", "(rpoe)", 1);
    assert_eq!(proposed(&text), ["unknown-name", "  10: write `rope`", "unknown-name", "  16: write `foam`"]);
    // Put right, the name breaks the promise: then it is only a guess.
    let text = CHEVRON.replacen("(foam)", "(trar)", 1);
    assert_eq!(proposed(&text), ["unknown-name", "  16: write `tar`"]);
}

#[test]
fn the_same_file_has_the_same_mends() {
    let text = CHEVRON.replacen("forward 2", "forward 1", 1).replacen("left 2", "left 1", 1);
    assert_eq!(checked(&text).findings, checked(&text).findings);
}

#[test]
fn a_pattern_without_end_is_not_tried_again_and_again() {
    let text = CHEVRON.replacen("meet center", "repeat 1000000000 { take left 1: forward-backward 1 }", 1);
    assert_eq!(proposed(&text), ["too-much-memory"]);
}

/// Slips in whole lines, each with the mend that brings back the band.
#[test]
fn what_was_forgotten_written_twice_or_exchanged_is_mended() {
    let promising = CHEVRON
        .replace("meet center\n  expect", "meet center\n  take left 1 (foam): forward-backward 1\n  expect");
    for (right, wrong) in [
        ("  both { take left 1 (tar): forward 2 }\n", ""),
        ("  both { take left 1 (tar): forward 2 }\n", "  take left 1 (tar): forward 2\n"),
        ("    take left 1 (foam): forward 1\n", ""),
        (
            "  both { take left 1 (rope): forward 2 }\n",
            "  both { take left 1 (rope): forward 2 }\n  both { take left 1 (rope): forward 2 }\n",
        ),
        ("rope tar foam | mirror\n\nset", "rope foam | mirror\n\nset"),
        ("rope tar foam | mirror\n\nset", "tar rope foam | mirror\n\nset"),
        ("rope tar foam | mirror\n\nset", "rope tar foam\n\nset"),
    ] {
        let text = promising.replacen(right, wrong, 1);
        assert_ne!(text, promising, "{right}");
        let right = checked(&promising).pattern.expect("a band");
        let report = checked(&text);
        let brings_back = |mend: &&Mend| {
            let band = checked(&applied(&text, mend)).pattern.expect("a band");
            band.strands == right.strands
                && band.set.map(|set| set.piece) == right.set.clone().map(|set| set.piece)
        };
        assert!(
            report.findings[0].mends.iter().any(|mend| brings_back(&mend)),
            "{wrong}: {:#?}",
            proposed(&text)
        );
    }
}

/// After the first step nobody knows how the strands hang, so nothing says what the second one would do in its place.
#[test]
fn a_step_that_names_nothing_may_have_to_come_after_the_next_one() {
    let exchanged = "pattern \"Net loft\"\nthread tar #222222\nthread foam #f4f1e8\nstrands 2 tar 2 foam\nsets 1\nset {\n  \
                     take foam 1 left of center: forward 1\n  take right 1: backward to edge\n  expect tar foam tar foam\n}\n";
    let found = proposed(exchanged);
    let exchange =
        "  7: let `take right 1: backward to edge` come before `take foam 1 left of center: forward 1`";
    assert!(found.iter().any(|found| found.starts_with(exchange)), "{found:?}");
}

#[test]
fn a_mend_never_unties_the_band_and_never_writes_0() {
    for (right, wrong) in
        [("forward 2", "forward 9"), ("left 1 (tar)", "left 9 (tar)"), ("to center left", "to left 9")]
    {
        for line in proposed(&CHEVRON.replacen(right, wrong, 1)) {
            assert!(!line.contains("write `0`") && !line.contains("(certain)"), "{line}");
        }
    }
}

/// In a narrow band, how far a strand goes is a great part of its knots.
#[test]
fn a_wrong_side_where_a_run_ends_is_put_right_on_both_sides_at_once() {
    let right = "pattern \"Breakwater\"\nthread deep #1f3a5f\nthread swell #3f7fa6\nthread foam #f1f5f4\nthread rock #6b6f72\n\
        strands deep swell foam rock | mirror\nset {\n  repeat 4 {\n    both { take left 1: forward to center left }\n    \
        meet center\n  }\n}\n";
    let wrong = right.replace("center left", "center right");
    let report = checked(&wrong);
    assert_eq!(applied(&wrong, &report.findings[0].mends[0]), right, "{:#?}", proposed(&wrong));
}

/// Of no strand there can be one more, and not one less.
#[test]
fn a_list_that_counts_no_strand_is_no_trap_for_mends() {
    let text = CHEVRON.replacen("strands rope tar", "strands 0 rope tar", 1);
    assert!(checked(&text).findings.iter().any(|finding| finding.rule.name == "count-of-zero"));
    assert!(proposed(&text).iter().all(|line| !line.contains("4294967295")), "{:#?}", proposed(&text));
    checked("strands 0kelp foam | mirror\n\nset {\n  rows {\n \\ v\n     x\n  }\n}\n");
}

/// Where no promise can notice a mark, the picture shows which one it is.
#[test]
fn a_mark_that_breaks_the_picture_is_put_right() {
    let lamp = |row: &str| {
        format!(
            "pattern \"A\"\nthread dusk #22223b\nthread lamp #ffca3a\nstrands dusk 7 lamp\n\
             set {{\n  leader left 1 (dusk) {{\n    \
             . . . # . . .\n    . . # . # . .\n    {row}\n    . # # # # # .\n    . # . # . # .\n    . . # . # . .\n    \
             . . . # . . .\n    . . . . . . .\n  }}\n}}\n"
        )
    };
    let right = lamp(". # . # . # .");
    assert_eq!(proposed(&right), [""; 0]);
    for row in [". # . # . . .", ". # . # . # #", ". # . . . # ."] {
        let wrong = lamp(row);
        let report = checked(&wrong);
        assert_eq!(report.findings.len(), 1, "{row}");
        assert_eq!(report.findings[0].rule.name, "nearly-symmetric");
        assert_eq!(applied(&wrong, &report.findings[0].mends[0]), right, "{row}");
    }
}

/// The halves of a chart are compared mark by mark, too; of the two mends only those are offered that leave all else whole.
#[test]
fn a_mark_that_differs_from_its_counterpart_gets_both_mends() {
    let net = |mark: &str| {
        format!(
            "pattern \"A\"\nthread kelp #1f5d50\nstrands 6 kelp\nsets 1\nset {{\n  rows {{\n    \
             \\ x /\n     \\ /\n    {mark} x /\n     > <\n    > x <\n     \\ /\n    \\ x /\n     \\ /\n    \
             \\ x /\n     \\ /\n  }}\n}}\n"
        )
    };
    assert_eq!(
        proposed(&net("/")),
        [
            "near-mirror",
            "  9: write `\\` instead of `/`: the halves mirror each other then, and every promise holds",
            "  9: write `\\` instead of `/`: the halves mirror each other then, and every promise holds",
        ]
    );
}

/// What ties nothing is left out, or goes the other way if that holds.
#[test]
fn a_step_that_ties_nothing_is_left_out() {
    let text = "pattern \"A\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands 2 kelp 2 foam\nset {\n  repeat 4 {\n    \
                take left 1: forward to edge\n    take left 1: backward to edge\n  }\n}\n";
    assert_eq!(
        proposed(text),
        [
            "idle-step",
            "  8: write `forward` instead of `backward`: every step ties a knot then, and every promise holds",
            "  8: leave out `take left 1: backward to edge`: every step ties a knot then, and every promise holds"
        ]
    );
    // Braces around it hold nothing any more.
    let text = text.replace("take left 1: backward to edge", "both { take left 1: backward to edge }");
    let leave_out = "  8: leave out `both { take left 1: backward to edge }`: every step ties a knot then, and every promise holds";
    assert!(proposed(&text).contains(&leave_out.to_owned()), "{:#?}", proposed(&text));
}

/// What is proposed first where `right` is written as `wrong` in a pattern file.
fn first_of(text: &str, right: &str, wrong: &str) -> String {
    let slip = text.replacen(right, wrong, 1);
    assert_ne!(slip, text);
    proposed(&slip).into_iter().nth(1).unwrap_or_default()
}

/// The strand that a slip is about goes on with another thread later.
#[test]
fn a_slip_is_mended_where_a_strand_goes_on_with_another_thread() {
    let text = r#"pattern "Slipway"

thread rope #c8a165
thread tar #222222
thread foam #f4f1e8

strands rope tar foam | mirror
sets 1

set {
  both { take left 1 (rope): forward 2 }
  meet center
  both { join left 1 with rope }
  both { take left 1 (rope): forward 2 }
  meet center
  expect foam 2 rope | mirror
}
"#;
    assert_eq!(proposed(text), [""; 0]);
    let first = first_of(text, "(rope): forward 2", "(rope): forward 1");
    assert!(first.starts_with("  11: write `2` instead of `1`"), "{first}");
    let first = first_of(text, "join left 1 with rope", "join left 2 with rope");
    assert!(first.starts_with("  13: write `1` instead of `2`"), "{first}");
}

#[test]
fn nobody_writes_zero_and_hardly_anybody_a_step_that_is_not_wanted() {
    let kites = include_str!("unseen/kites.knot");
    let at = |line: usize| kites.lines().nth(line - 1).expect("a line");
    let with = |line: usize, right: &str, wrong: &str| {
        first_of(kites, at(line), &at(line).replacen(right, wrong, 1))
    };
    let first = with(22, "forward-backward 1", "forward-backward 0");
    assert!(first.starts_with("  22: write `1` instead of `0`"), "{first}");
    let first = with(59, "left", "right");
    assert!(first.starts_with("  59: write `left` instead of `right`"), "{first}");
}

/// All mends of a set that does not close, and whether it does with each.
fn closing_mends(text: &str) -> Vec<(String, bool)> {
    let is_open = |report: &Report| -> Vec<Mend> {
        let open = report.findings.iter().filter(|finding| finding.rule.name == "set-does-not-close");
        open.flat_map(|finding| finding.mends.clone()).collect()
    };
    let closes = |mend: &Mend| {
        let report = checked(&applied(text, mend));
        !report.findings.iter().any(|finding| finding.rule.name == "set-does-not-close")
    };
    is_open(&checked(text)).into_iter().map(|mend| (mend.title.clone(), closes(&mend))).collect()
}

/// Either number closes the set, and no place is empty with it: no step was forgotten.
#[test]
fn a_step_is_put_in_only_where_it_may_come_first() {
    let text = "pattern \"A\"\nthread a #1d3557\nthread b #f4ecd8\nthread c #e4572e
strands 2 a b 2 c b
set {
  repeat 6 { take left 2: forward to edge }
}
";
    let found: Vec<String> = closing_mends(text).into_iter().map(|mend| mend.0).collect();
    assert_eq!(
        found,
        ["write `1` instead of `2`: the set closes then", "write `5` instead of `6`: the set closes then"]
    );
    let forgotten = text.replace("repeat 6 { take left 2: forward to edge }", "take left 1: forward to edge");
    let found = closing_mends(&forgotten);
    assert!(found.iter().any(|mend| mend.0.starts_with("put in `take")), "{found:#?}");
}

/// Seven other edits keep all promises and leave more than twenty places of the band empty.
#[test]
fn what_makes_a_far_worse_band_is_not_offered() {
    let tideline = include_str!("../../../shared/patterns/tideline.knot");
    let text = tideline.replace("take left 1: forward 5 down to 1", "take left 2: forward 5 down to 1");
    let report = checked(&text);
    let mends = &report.findings[0].mends;
    assert_eq!(mends.len(), 1, "{mends:#?}");
    assert_eq!(applied(&text, &mends[0]), tideline);
    assert!(!mends[0].certain, "others hold, too");
}

/// Every strand is seen to be of the promised color after the slip, but two of them only after their colors had decided how far
/// another one was tied.
#[test]
fn a_slip_is_found_before_promises_that_hold_by_chance() {
    let text = "pattern \"A\"\nthread a teal\nthread b coral\nthread c navy\nthread d gold\nthread f olive
strands a c b b f d
sets 1
set {
  take left 2: forward-backward 2
  take left 1 (a): forward-backward 1
  take left 3 (b): forward-backward 1
  take left 5 (f): forward-backward 1
  take right 1 (d): backward until c
  take c 1 from left: backward to edge
  take left 1 (c): forward-backward 1
  take b 2 from left: backward to edge
  take left 1 (b): forward-backward 1
  expect b c a b d f
}
";
    let found = proposed(text);
    let slip = "  10: write `forward` instead of `forward-backward`: every promise holds then";
    assert!(found.iter().any(|mend| mend.starts_with(slip)), "{found:#?}");
}

/// What is tied before the set or after it, the colors hanging as before, does not make it close.
#[test]
fn every_mend_of_an_open_set_closes_it() {
    let head = "pattern \"Pier\"\nthread a navy\nthread b white\nthread c coral\nstrands a b c b c\n";
    let opening = "opening {\n  take left 1: forward 2\n  take left 2: forward-backward 1\n}\n";
    let set = "set {\n  repeat 4 { take left 1: forward to edge }\n}\n";
    let closing = "closing {\n  take left 1: forward-backward 1\n  take left 3: backward-forward 1\n}\n";
    for text in [
        format!("{head}{opening}{set}"),
        format!("{head}{set}{closing}"),
        format!("{head}{opening}{set}{closing}"),
    ] {
        let mends = closing_mends(&text);
        assert!(mends.iter().any(|mend| mend.0.contains("write `5` instead of `4`")), "{mends:#?}");
        assert!(mends.iter().all(|mend| mend.1), "{mends:#?}");
    }
}

/// A label stays with its strand.
#[test]
fn every_mend_of_an_open_set_with_labels_closes_it() {
    let text = r#"pattern "Kiln shelf"
thread clay #a3552f
thread glaze #2a9d8f
thread ash #d9d4c7
strands clay glaze ash glaze | mirror
set {
  section "fire" {
    meet center
    both {
      take left 1 as pot: forward 2
      take pot: forward to center left
    }
    meet center
    both {
      take left 3: backward to edge
    }
  }
}
"#;
    let mends = closing_mends(text);
    assert!(!mends.is_empty() && mends.iter().all(|mend| mend.1), "{mends:#?}");
}

/// A series that runs away is turned round: its word, or its numbers, whichever is as the promises want it.
#[test]
fn a_series_that_runs_away_is_turned_round() {
    let text = |series: &str, order: &str| {
        format!(
            "pattern \"Slipway\"\nthread rope #c8a165\nthread tar #222222\nthread foam #f4f1e8\nthread sand #b58a4c\n\
             strands rope tar foam sand\nset {{\n  {series}\n  expect {order}\n}}\n"
        )
    };
    let counted = |numbers: &str| format!("for row {numbers} {{ take left 1: forward row - 1 }}");
    for (numbers, order, meant) in [
        ("2 down to 4", "sand foam tar rope", "4 down to 2"),
        ("2 down to 4", "foam tar sand rope", "2 up to 4"),
        ("4 up to 2", "sand foam tar rope", "4 down to 2"),
    ] {
        let said = proposed(&text(&counted(numbers), order));
        assert_eq!(
            said[..2],
            ["series-runs-away", &format!("  8: write `{meant}`")],
            "{numbers}, {order}: {said:?}"
        );
    }
    let said = proposed(&text("take left 1: forward 1 down to 3", "sand foam tar rope"));
    assert_eq!(said[1], "  8: write `3 down to 1`", "{said:?}");
}

/// A wrong number may make a series run away, too: where it alone closes the set, it comes first.
#[test]
fn a_series_is_not_turned_round_where_another_number_closes_the_set() {
    let reversal = "  for row 3 down to 2 { take left 1: forward row - 1 }\n";
    let text = format!(
        "pattern \"Slipway\"\nthread rope #c8a165\nthread tar #222222\nthread foam #f4f1e8\nstrands rope tar foam\n\
         set {{\n{reversal}{reversal}}}\n"
    );
    let said = proposed(&text.replacen("3 down", "1 down", 1));
    assert!(said[1].starts_with("  7: write `3` instead of `1`"), "{said:?}");
    assert!(said.iter().any(|said| said == "  7: write `1 up to 2`"), "{said:?}");
}

/// A library with a motif that stops short of the middle.
struct Short;

impl Library for Short {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let motif = "pattern \"Parts\"\nmotif inward(shade) {\n  take left 1 (shade): forward 1\n  take left 1: forward-backward 1\n}\n";
        Ok(Arc::new(Source::new(path, motif)))
    }
}

/// Every band that uses a wrong motif would lose its own lines, and the motif stay wrong.
#[test]
fn what_is_wrong_in_a_library_is_not_mended_by_leaving_out_who_uses_it() {
    let band = "pattern \"Quay\"\nuse inward from \"parts.knot\"\nthread ash #8a8d8f\nthread coal #26292b\nthread flame #d9622b\n\
        strands ash coal flame | mirror\nset {\n  both { work inward(ash) }\n  meet center\n  both { work inward(coal) }\n  \
        meet center\n  both { work inward(flame) }\n  meet center\n}\n";
    let report = check(Arc::new(Source::new("band.knot", band)), &Short, &Settings::default());
    let titles: Vec<&str> =
        report.findings.iter().flat_map(|found| &found.mends).map(|mend| mend.title.as_str()).collect();
    assert!(report.findings[0].message.contains("was promised"), "{:?}", report.findings);
    assert!(!titles.iter().any(|title| title.starts_with("leave out")), "{titles:?}");
}
