//! Completion: what it offers is true, and what it inserts can be read.

use crate::support::{Files, HEAD, at, checked, checked_samples, cursor, in_set, samples};
use knotwright_editor::{Checked, Completion, TextEdit, World, apply_text_edits, completion};
use knotwright_grammar::{Parsed, ProblemKind, TokenKind, parse};
use knotwright_numbers::ToNumber;

fn offered((checked, offset): &(Checked, u32)) -> Vec<Completion> {
    let files = Files::default();
    completion(
        checked,
        &World {
            files: &files.0,
            library: &files,
            is_wanted: &|| true,
            onlooker: &knotwright_editor::Nobody,
        },
        *offset,
    )
}

fn labels(here: &(Checked, u32)) -> Vec<String> {
    offered(here).into_iter().map(|item| item.label).collect()
}

fn shown(here: &(Checked, u32)) -> Vec<String> {
    offered(here).into_iter().map(|item| format!("{}: {}", item.label, item.detail)).collect()
}

fn has(found: &[String], wanted: &[&str]) {
    for wanted in wanted {
        assert!(found.iter().any(|label| label == wanted), "{wanted} is not in {found:#?}");
    }
}

#[test]
fn after_a_text_and_a_comma_languages_are_offered_that_are_not_there() {
    let found = labels(&in_set("note \"in\", de \"herein\", ‸"));
    has(&found, &["es", "en"]);
    assert!(!found.contains(&"de".to_owned()), "{found:?}");
    let found = labels(&in_set("note \"in\", fr \"dedans\"\nnote \"out\", ‸"));
    has(&found, &["de", "fr"]);
}

#[test]
fn places_come_with_the_color_that_hangs_there() {
    let found = shown(&in_set("take left 1: forward 2\ntake ‸"));
    has(
        &found,
        &[
            "left 1: kelp",
            "left 2: foam",
            "left 3: kelp",
            "right 3: foam",
            "center left: sand",
            "left 3 (kelp): with the color as a promise",
            "foam 1 from left: the 2nd from the left",
            "foam 1 from right: the 6th from the left",
        ],
    );
    has(&shown(&in_set("take left ‸")), &["3: foam", "8: kelp"]);
    has(&shown(&in_set("take right ‸")), &["3: foam", "4: sand"]);
    has(&shown(&in_set("take kelp ‸")), &["2: of 4 kelp"]);
}

#[test]
fn places_are_counted_in_the_range_and_in_the_mirror() {
    let range = shown(&in_set("on 3 to 6 { take ‸ }"));
    has(&range, &["left 1: foam", "left 4: foam"]);
    assert!(!range.iter().any(|label| label.starts_with("left 5")));
    let text = HEAD.replace("2 kelp foam sand | mirror", "kelp 3 foam sand");
    has(
        &shown(&at(&format!("{text}set {{\n  mirrored {{ take ‸ }}\n}}\n"))),
        &["left 1: sand", "left 5: kelp"],
    );
}

#[test]
fn places_are_those_of_the_first_pass() {
    let text = format!(
        "{HEAD}motif fan(size) {{\n  take left ‸\n}}\nset {{\n  take left 1: forward 7\n  work fan(2)\n}}\n"
    );
    has(&shown(&at(&text)), &["1: kelp", "2: foam", "8: kelp"]);
}

#[test]
fn a_promise_is_the_color_there() {
    assert_eq!(labels(&in_set("take left 3 (‸"))[0], "foam");
    assert_eq!(labels(&in_set("take left 3 (‸): forward 1"))[0], "foam");
    has(&labels(&in_set("take left 3 ‸")), &["(foam)", "as"]);
}

#[test]
fn only_kinds_that_can_be_tied() {
    let edge = shown(&in_set("take right 1: ‸"));
    has(
        &edge,
        &[
            "backward: over kelp foam 2 sand foam 2 kelp",
            "backward-forward: on kelp",
            "backward to edge: 7 knots",
        ],
    );
    assert!(
        !edge.iter().any(|label| label.starts_with("forward:") || label.starts_with("forward-backward:")),
        "{edge:#?}"
    );
    // The strand is in hand: it hangs three further on.
    let later = shown(&in_set("take left 1: forward 3, ‸"));
    has(&later, &["forward: over sand foam 2 kelp", "backward: over sand foam kelp"]);
}

#[test]
fn counts_tell_what_they_reach() {
    let found = shown(&in_set("take left 1: forward ‸"));
    has(
        &found,
        &[
            "2: over kelp foam; reaches left 3",
            "3: over kelp foam sand; reaches center left",
            "7: over kelp foam 2 sand foam 2 kelp; reaches the right edge",
            "to edge: 7 knots",
            "to center left: 3 knots",
            "over kelp: 1 knot",
            "until sand: 2 knots",
        ],
    );
    assert!(!found.iter().any(|label| label.starts_with("8:")), "{found:#?}");
    let goals = shown(&in_set("take left 1: forward to ‸"));
    has(&goals, &["edge: 7 knots", "center right: 4 knots"]);
    has(&shown(&in_set("take left 1: forward to right ‸")), &["1: 7 knots", "8: 0 knots"]);
    assert_eq!(shown(&in_set("take left 1: forward until ‸")), ["foam: 1 knot", "sand: 2 knots"]);
    assert_eq!(shown(&in_set("take left 1: forward over ‸")), ["kelp: 1 knot"]);
}

#[test]
fn a_then_begins_where_the_take_began() {
    has(&shown(&in_set("take left 1: forward 2\n  then ‸")), &["forward: over foam kelp 2 sand foam 2 kelp"]);
    has(&labels(&in_set("take left 1: forward 2\n‸")), &["then"]);
    assert!(!labels(&in_set("take kelp 1 from left: forward 2\n‸")).contains(&"then".to_owned()));
}

#[test]
fn an_expect_is_offered_whole() {
    has(&labels(&in_set("take left 1: forward 2\n‸")), &["expect kelp foam kelp 2 sand foam 2 kelp"]);
    assert_eq!(labels(&in_set("take left 1: forward 2\nexpect ‸"))[0], "kelp foam kelp 2 sand foam 2 kelp");
    assert_eq!(labels(&in_set("take left 1: forward 2\nexpect kelp foam ‸"))[0], "kelp 2 sand foam 2 kelp");
    has(&labels(&in_set("expect ‸")), &["2 kelp foam sand | mirror", "start"]);
    assert!(!labels(&in_set("take left 1: forward 2\nexpect ‸")).contains(&"start".to_owned()));
}

#[test]
fn only_motifs_that_fit() {
    let text = format!(
        "{HEAD}motif wide(a, b) on 8 {{\n  meet center\n}}\nmotif small() on 4 {{\n  meet center\n}}\n\
         motif any() {{\n  work ‸\n}}\nset {{\n  on left 4 {{ work any() }}\n}}\n"
    );
    assert_eq!(labels(&at(&text)), ["small"], "neither itself nor one of another width");
    let whole = text.replace("work ‸", "meet center").replace("on left 4 { work any() }", "work ‸");
    let found = offered(&at(&whole));
    let wide = found.iter().find(|item| item.label == "wide").unwrap();
    assert_eq!((wide.insert.as_str(), wide.snippet.as_deref()), ("wide(a, b)", Some("wide(${1:a}, ${2:b})")));
}

#[test]
fn ranges_lie_within_the_strands() {
    has(
        &shown(&in_set("on ‸")),
        &["left 4: strands 1 to 4", "center 4: strands 3 to 6", "inside 3: strands 4 to 5"],
    );
    let found = labels(&in_set("on center ‸"));
    assert_eq!(found, ["2", "4", "6", "8"]);
}

#[test]
fn head_statements_that_stand_once_are_offered_once() {
    let found = labels(&at(&format!("{HEAD}‸\nset {{\n}}\n")));
    has(&found, &["about", "gauge", "length", "sets", "opening", "motif"]);
    for gone in ["pattern", "strands", "set", "take"] {
        assert!(!found.contains(&gone.to_owned()), "{gone}");
    }
    assert!(!labels(&at(&format!("{HEAD}sets 3\n‸"))).contains(&"length".to_owned()));
    has(&labels(&at("‸")), &["pattern"]);
}

#[test]
fn blocks_have_statements_of_their_own() {
    assert_eq!(
        labels(&at(&format!("{HEAD}gauge {{\n  ‸\n}}\n"))),
        ["thickness", "knots use", "rows measure", "tex"]
    );
    let way = at(&format!("{HEAD}colorway \"dusk\" {{\n  thread kelp black\n  thread ‸\n}}\n"));
    assert_eq!(labels(&way), ["foam", "sand"]);
    assert_eq!(labels(&at(&format!("{HEAD}length 12 ‸"))), ["mm", "cm", "m", "in"]);
    has(&labels(&at("pattern \"a\"\nthread kelp ‸")), &["seagreen", "#rrggbb"]);
}

#[test]
fn chart_rows_have_the_right_length() {
    assert_eq!(labels(&in_set("rows {\n  ‸\n}"))[0], "\\ \\ \\ \\");
    assert_eq!(labels(&in_set("rows {\n  x . . .\n  ‸\n}"))[0], "\\ \\ \\");
    assert_eq!(labels(&in_set("leader left 1 {\n  ‸\n}"))[0], ". . . . . . .");
}

#[test]
fn letters_are_offered_in_a_leader_with_the_heights_that_fit() {
    assert_eq!(labels(&in_set("leader left 1 {\n  l‸\n}")), ["letters"]);
    assert_eq!(labels(&in_set("leader left 1 {\n  letters \"A\" ‸\n}")), ["across", "height"]);
    assert_eq!(labels(&in_set("leader left 1 {\n  letters \"A\" height ‸\n}")), ["5", "6", "7"]);
    assert!(!labels(&in_set("rows {\n  l‸\n}")).contains(&"letters".to_owned()));
}

#[test]
fn names_in_scope_are_offered_where_numbers_stand() {
    let found = labels(&in_set("for step 3 down to 1 { take left ‸ }"));
    has(&found, &["step", "1", "8"]);
    assert!(!labels(&in_set("for step ‸")).contains(&"step".to_owned()));
    let lead = shown(&in_set("take left 3 as lead: forward 2\ntake ‸"));
    has(&lead, &["lead: the 5th from the left now"]);
}

#[test]
fn comments_and_texts_are_left_alone_but_paths_are_not() {
    assert!(labels(&in_set("-- take ‸")).is_empty());
    assert!(labels(&in_set("note \"take ‸\"")).is_empty());
    let (text, offset) = cursor("pattern \"B\"\nuse fan from \"‸\"\n");
    let files = Files::new(&[
        ("a/band.knot", &text),
        ("lib.knot", "motif fan() {\n}\n"),
        ("no.knot", "motif wing() {\n}\n"),
    ]);
    let checked = files.checked("a/band.knot");
    let world =
        World { files: &files.0, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    let found = completion(&checked, &world, offset);
    assert_eq!(found.len(), 1);
    let edit = TextEdit { span: found[0].span, text: found[0].insert.clone() };
    assert_eq!(apply_text_edits(&text, &[edit]), "pattern \"B\"\nuse fan from \"../lib.knot\"\n");
    let bare = Files::new(&[("a/band.knot", "use "), ("lib.knot", "motif fan() {\n}\n")]);
    let found = completion(
        &bare.checked("a/band.knot"),
        &World { files: &bare.0, library: &bare, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody },
        4,
    );
    assert_eq!(found[0].label, "fan from \"../lib.knot\"");
}

#[test]
fn the_word_under_the_cursor_is_replaced_whole() {
    let (checked, offset) = in_set("take le‸ft 1: forward 1");
    let word = offered(&(checked, offset)).remove(0).span;
    assert_eq!(word.len(), 4);
}

/// Whether the text up to `end` is the beginning of something that parses: nothing is wrong before its end.
fn is_prefix(parsed: &Parsed, before: &Parsed, start: u32, end: u32) -> bool {
    let within = |problem: &&knotwright_grammar::Problem| {
        // Blocks that are still open are closed later.
        !matches!(problem.kind, ProblemKind::MissingClose | ProblemKind::OpenAtEnd { .. })
            && start <= problem.span.start
            && problem.span.end < end
    };
    parsed.problems.iter().find(within).is_none_or(|problem| before.problems.contains(problem))
}

#[test]
fn what_is_offered_can_be_read() {
    for checked in checked_samples() {
        let files = samples();
        let world = World {
            files: &files.0,
            library: &files,
            is_wanted: &|| true,
            onlooker: &knotwright_editor::Nobody,
        };
        let tokens = &checked.source().parsed.tokens;
        // Before a `}` the indentation of the cut text would say that the block is over.
        let tokens = tokens.iter().step_by(5).filter(|token| token.kind != TokenKind::CloseBrace);
        for token in tokens {
            let whole = checked.text();
            for item in completion(&checked, &world, token.span.start) {
                // Only what is before the cursor is known to whoever completes: the rest of the line is cut off.
                let cut = &whole[..item.span.start.to_usize()];
                let text = format!("{cut}{}", item.insert);
                let parsed = parse(&text);
                let end = text.trim_end().len().to_u32();
                assert!(
                    is_prefix(&parsed, &parse(cut), item.span.start, end),
                    "{}\n{:?}\n{text}",
                    item.label,
                    parsed.problems
                );
            }
        }
    }
}

#[test]
fn places_colors_and_counts_that_are_offered_hold() {
    for text in [
        "take ‸: forward 0",
        "take left 2: forward 1, ‸",
        "take left 2: forward 1, backward ‸",
        "take right 3 (‸): forward 0",
    ] {
        let (with, offset) = in_set(text);
        let mut tried = 0;
        for item in offered(&(checked(with.text()), offset)) {
            let edit = TextEdit { span: item.span, text: item.insert.clone() };
            let text = apply_text_edits(with.text(), &[edit]);
            let report = checked(&text);
            let parses = report.source().parsed.problems.is_empty();
            if parses && text != with.text() {
                let errors: Vec<&str> = report
                    .findings(&knotwright_checker::NoLibrary)
                    .iter()
                    .filter(|finding| finding.severity == knotwright_checker::Severity::Error)
                    .map(|finding| finding.rule.name)
                    .collect();
                let other_thread = item.kind == knotwright_editor::CompletionKind::Thread
                    && item.detail.starts_with('#')
                    || item.detail == "goldenrod";
                assert!(errors.is_empty() || other_thread, "{}: {errors:?}", item.label);
                tried += 1;
            }
        }
        assert!(tried > 0, "{text}");
    }
}

#[test]
fn an_argument_is_a_thread_where_the_motif_calls_one_and_a_number_otherwise() {
    let motif = "motif inward(shade, size) {\n  take left 1 (shade): forward size\n}\n";
    let shade = labels(&at(&format!("{HEAD}{motif}set {{\n  work inward(‸)\n}}\n")));
    assert_eq!(shade, ["kelp", "foam", "sand"]);
    let size = shown(&at(&format!(
        "{HEAD}{motif}set {{\n  for n 3 down to 1 {{\n    work inward(kelp, ‸)\n  }}\n}}\n"
    )));
    has(&size, &["n: number that counts", "2: size"]);
    assert!(
        labels(&at(&format!("{HEAD}{motif}set {{\n  work inward(kelp, 2, ‸)\n}}\n"))).is_empty(),
        "there are two"
    );
}

#[test]
fn a_half_is_mirrored_in_one_word() {
    let text = HEAD.replace("strands 2 kelp foam sand | mirror\n", "strands 2 kelp foam sand ‸\n");
    has(&labels(&at(&text)), &["| mirror", "kelp"]);
    let begun = HEAD.replace("strands 2 kelp foam sand | mirror\n", "strands 2 kelp | ‸\n");
    assert!(!labels(&at(&begun)).contains(&"| mirror".to_owned()));
}

#[test]
fn a_comment_that_allows_names_the_rule_that_is_broken_here_first() {
    let text = "set {\n  take left 1: forward 1 -- allow set-d‸: on purpose\n}\n";
    let here = at(&format!("{HEAD}{text}"));
    let found = offered(&here);
    assert!(found.iter().any(|item| item.label == "missing-brick"), "all that can be allowed");
    let first = &found[0];
    let edit = TextEdit { span: first.span, text: first.insert.clone() };
    assert!(
        apply_text_edits(here.0.text(), &[edit]).contains(&format!("-- allow {}: on purpose", first.label))
    );
    let findings =
        here.0.findings(&Files::default()).iter().map(|finding| finding.rule.name).collect::<Vec<_>>();
    assert!(findings.contains(&first.label.as_str()), "{} of {findings:?}", first.label);
    assert!(
        labels(&at(&format!("{HEAD}-- allow missing-brick: bec‸ause\n"))).is_empty(),
        "the reason is one's own"
    );
    assert!(labels(&at(&format!("{HEAD}-- a re‸mark\n"))).is_empty());
}

#[test]
fn lengths_are_those_that_are_usual_there() {
    has(&labels(&at("gauge {\n  thickness ‸\n}\n")), &["0.9 mm"]);
    has(&labels(&at("gauge {\n  20 rows measure ‸\n}\n")), &["32 mm"]);
    has(&labels(&at("length ‸\n")), &["15 cm", "6 in"]);
    assert!(!labels(&at("gauge {\n  thickness ‸\n}\n")).contains(&"15 cm".to_owned()));
}

#[test]
fn in_an_end_its_pieces_are_offered_and_nowhere_else() {
    let in_end = |line: &str| at(&format!("{HEAD}finish {{\n{line}\n}}\nset {{ meet center }}\n"));
    let found = labels(&in_end("‸"));
    has(&found, &["knot", "plait", "twist", "wrap", "split", "loop", "tassel", "closing", "slide"]);
    assert!(!found.contains(&"take".to_owned()), "{found:?}");
    has(&labels(&in_end("split 2 {\n‸\n}")), &["knot"]);
    has(&labels(&in_end("plait ‸")), &["3", "4"]);
    has(&labels(&in_end("plait 3 ‸")), &["for"]);
    has(&labels(&in_end("wrap ‸")), &["kelp", "foam", "sand"]);
    has(&labels(&in_end("wrap kelp 8 ‸")), &["turns"]);
    has(&labels(&in_end("closing ‸")), &["knot"]);
    let found = labels(&in_set("‸"));
    assert!(!found.contains(&"plait".to_owned()), "{found:?}");
    has(&labels(&at(&format!("{HEAD}‸\n"))), &["begin", "finish"]);
}

#[test]
fn beads_are_offered_with_their_size_and_places_with_their_color() {
    let head = HEAD.replace("strands", "bead pearl #f4efe6 4 mm hole 2 mm\nstrands");
    let on = |line: &str| at(&format!("{head}set {{\n{line}\n}}\n"));
    has(&labels(&on("‸")), &["bead"]);
    has(&shown(&on("bead ‸")), &["pearl: a bead, #f4efe6, 4 mm"]);
    has(&labels(&on("bead pearl ‸")), &["on"]);
    has(&shown(&on("bead pearl on ‸")), &["left 3: foam"]);
    has(&labels(&on("bead pearl on left ‸")), &["3"]);
    has(&labels(&on("bead pearl on left 3, ‸")), &["right 1"]);
    has(&labels(&at(&format!("{head}bead ‸\n"))), &[]);
    has(&labels(&at(&format!("{head}bead shell white ‸\n"))), &["4 mm"]);
    has(&labels(&at(&format!("{head}bead shell white 4 mm ‸\n"))), &["hole"]);
    has(&labels(&at(&format!("{head}finish {{\nbead ‸\nknot\n}}\n"))), &["pearl"]);
}
