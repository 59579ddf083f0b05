//! Hover: words on every token, and what they say.

use crate::support::{HEAD, at, checked_samples, in_set};
use knotwright_editor::{Checked, LARGEST_PICTURE, hover};
use knotwright_grammar::TokenKind;

fn says((checked, offset): (Checked, u32)) -> String {
    hover(&checked, offset).map(|hover| hover.text.join("\n")).unwrap_or_default()
}

#[test]
fn a_step_tells_who_works_and_where_it_goes() {
    let told = says(in_set("take left 3 (foam): ‸forward over sand, backward 1"));
    assert_eq!(
        told,
        "`forward EXTENT`\n\
         The left strand works; the two change places.\n\
         `foam` works, the 3rd from the left of 8.\n\
         Ties 3 knots: `forward 2 over 2 sand; backward 1 over sand`.\n\
         Here `over sand` came to 2 knots.\n\
         It goes from place 3 to place 4.\n\
         Before: `2 kelp foam sand | mirror`\n\
         After: `2 kelp sand foam sand foam 2 kelp`"
    );
}

#[test]
fn a_then_is_a_step_of_its_own() {
    let told = says(in_set("take left 1: forward 2\n  then to ‸edge"));
    assert!(told.contains("`kelp` works, the 1st from the left of 8 (it began as the 2nd)."), "{told}");
    assert!(told.contains("It goes from place 1 to place 8."), "{told}");
    assert!(
        told.contains("Before: `kelp foam kelp sand sand foam 2 kelp`")
            || told.contains("Before: `kelp foam kelp 2 sand foam 2 kelp`"),
        "{told}"
    );
}

#[test]
fn a_step_in_a_loop_says_that_it_is_the_first_of_several() {
    let told = says(in_set("repeat 3 {\n  both { take left 1: forw‸ard 3 }\n}"));
    assert!(told.ends_with("Tied 6 times in all; this is the first, in the set."), "{told}");
}

#[test]
fn a_meet_names_both_strands() {
    let told = says(in_set("me‸et center"));
    assert!(told.contains("One knot between the 4th and 5th strand, `sand` and `sand`."), "{told}");
}

#[test]
fn a_thread_tells_color_strands_and_use() {
    let told = says(at(&format!(
        "{}set {{\n  take left 1: forward 3\n}}\n",
        HEAD.replace("thread kelp", "thread ke‸lp")
    )));
    assert_eq!(
        told,
        "The thread `kelp`, `deep kelp`: `#1f5d50`.\n4 strands of 8; 3 knots tied with it, 1 over it in one set."
    );
}

#[test]
fn a_parameter_tells_its_first_value() {
    let text = format!(
        "{HEAD}motif fan(size, hue) {{\n  take left 1 (hue): forward s‸ize - 1 down to 1\n}}\nset {{\n  work fan(4, kelp)\n}}\n"
    );
    assert!(says(at(&text)).starts_with("`size`, a parameter: 4 here, the first time."));
    let counter = says(in_set("for st‸ep 3 down to 1 { take left step: forward 1 }"));
    assert!(counter.starts_with("`step`, a number that counts: 3 here"), "{counter}");
}

#[test]
fn a_label_tells_which_strand() {
    let told = says(in_set("take left 3 as lead: forward 2\ntake le‸ad: backward 1"));
    assert!(
        told.starts_with(
            "The strand `lead`: `foam`, which began as the 3rd from the left and hangs as the 5th here."
        ),
        "{told}"
    );
}

#[test]
fn a_motif_tells_its_signature_and_its_comment() {
    let text = format!(
        "{HEAD}-- A fan on `size` strands.\nmotif fan(size) on 8 {{\n  take left 1: forward size\n}}\nset {{\n  work fa‸n(4)\n}}\n"
    );
    let told = says(at(&text));
    assert!(
        told.starts_with("motif `fan(size) on 8`\nWorked in 1 place of this file.\nA fan on `size` strands."),
        "{told}"
    );
}

#[test]
fn an_expect_tells_the_real_order() {
    let told = says(in_set("take left 1: forward 2\nexp‸ect 2 kelp foam sand | mirror"));
    assert!(told.contains("The strands hang like this here: `kelp foam kelp 2 sand foam 2 kelp`."), "{told}");
}

#[test]
fn a_chart_row_tells_its_knots() {
    let told = says(in_set("rows {\n  \\ . ‸x .\n}"));
    assert!(told.starts_with("Row 1 of 1.\n`x`: a knot of two strands of one color.\n2 knots: 1–2 forward `kelp` over `kelp`; 5–6 forward"), "{told}");
}

#[test]
fn the_set_tells_knots_rows_and_when_it_closes() {
    let told = says(at(&format!("{HEAD}s‸et {{\n  take left 1: forward to edge\n}}\n")));
    assert!(told.contains("7 knots in 7 rows."), "{told}");
    assert!(told.contains("It closes after 8 sets."), "{told}");
}

#[test]
fn numbers_say_what_they_are_for() {
    let cases = [
        ("take left ‸3: forward 2", "The 3rd strand from the left."),
        ("take left 3: forward ‸2", "Ties 2 knots."),
        ("repeat ‸3 { meet center }", "Tied 3 times."),
        ("take left 3: forward to right ‸2", "Until the strand in hand hangs 2nd from the right."),
        ("expect ‸2 kelp foam sand | mirror", "2 strands side by side."),
        ("on center ‸4 { meet center }", "In this range: so many strands in the middle."),
    ];
    for (text, wanted) in cases {
        let told = says(in_set(text));
        assert!(told.starts_with(wanted), "{text}: {told}");
    }
}

#[test]
fn threads_and_colors_come_with_a_patch() {
    let (checked, offset) = at(&HEAD.replace("#1f5d50", "#1f‸5d50"));
    let picture = hover(&checked, offset).unwrap().picture.unwrap();
    assert!(picture.svg.contains("fill=\"#1f5d50\""));
    let (checked, offset) = in_set("take left 1 (sa‸nd): forward 1");
    let picture = hover(&checked, offset).unwrap().picture.unwrap();
    assert_eq!(picture.alt, "a patch of sand, #daa520");
}

#[test]
fn every_token_of_every_sample_is_explained() {
    for checked in checked_samples() {
        let tokens = checked.source().parsed.tokens.iter().filter(|token| token.kind != TokenKind::Newline);
        for token in tokens {
            let told = hover(&checked, token.span.start).unwrap_or_else(|| panic!("{token:?}"));
            assert_eq!(told.span, token.span);
            let written = token.span.of(checked.text());
            assert!(told.text.iter().all(|line| !line.trim().is_empty()), "{written}");
            assert!(!told.text.is_empty(), "{written}");
            let text = told.text.join("\n");
            assert!(!text.contains("no meaning here"), "{}: {written}: {text}", checked.source().path);
        }
    }
}

#[test]
fn a_step_comes_with_a_piece_of_the_band() {
    let (checked, offset) = in_set("both { take left 1: forward 3 }\nmeet center\ntake left 2: for‸ward 2");
    let picture = hover(&checked, offset).unwrap().picture.unwrap();
    assert_eq!(picture.alt, "the band at this step: 2 knots lit");
    // The step ties with foam, which is lit; the kelp of the knots before is pale.
    assert!(picture.svg.contains("#f4f1e8"), "{}", picture.svg);
}

#[test]
fn no_picture_is_too_large_for_an_editor() {
    let (mut pictures, mut largest) = (0, 0);
    for checked in checked_samples() {
        for token in checked.source().parsed.tokens.iter().step_by(11) {
            if let Some(picture) = hover(&checked, token.span.start).and_then(|hover| hover.picture) {
                pictures += 1;
                largest = largest.max(picture.svg.len());
                assert!(picture.svg.starts_with("<svg") && !picture.alt.is_empty());
            }
        }
    }
    assert!(
        pictures > 100 && largest < LARGEST_PICTURE,
        "{pictures} pictures, the largest has {largest} bytes"
    );
}

#[test]
fn a_leader_tells_who_leads() {
    let told = says(in_set("lea‸der right 1 (kelp) {\n  . . . . . . .\n}"));
    assert!(told.contains("`kelp`, the 8th from the left, leads.\nTies 7 knots."), "{told}");
}
