//! Hover: words on every token, and what they say.

use crate::support::{HEAD, at, checked, checked_samples, in_set};
use knotwright_editor::{Checked, LARGEST_PICTURE, hover};
use knotwright_grammar::TokenKind;
use knotwright_numbers::ToNumber;

fn says((checked, offset): (Checked, u32)) -> String {
    hover(&checked, offset).map(|hover| hover.text.join("\n")).unwrap_or_default()
}

#[test]
fn a_step_tells_who_works_and_where_it_goes() {
    let shown = says(in_set("take left 3 (foam): ‸forward over sand, backward 1"));
    assert_eq!(
        shown,
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
    let shown = says(in_set("take left 1: forward 2\n  then to ‸edge"));
    assert!(shown.contains("`kelp` works, the 1st from the left of 8 (it began as the 2nd)."), "{shown}");
    assert!(shown.contains("It goes from place 1 to place 8."), "{shown}");
    assert!(
        shown.contains("Before: `kelp foam kelp sand sand foam 2 kelp`")
            || shown.contains("Before: `kelp foam kelp 2 sand foam 2 kelp`"),
        "{shown}"
    );
}

#[test]
fn a_step_in_a_loop_says_that_it_is_the_first_of_several() {
    let shown = says(in_set("repeat 3 {\n  both { take left 1: forw‸ard 3 }\n}"));
    assert!(shown.ends_with("Tied 6 times in all; this is the first, in the set."), "{shown}");
}

#[test]
fn a_text_in_another_language_says_which() {
    let on = |line: &str| says(in_set(line));
    assert_eq!(
        on("note \"slowly\", ‸de \"langsam\""),
        "The tag of a language: instructions and sheets in `de` have the text after it."
    );
    assert_eq!(on("note \"slowly\", de \"lang‸sam\""), "The same in the language `de`.");
}

#[test]
fn a_meet_names_both_strands() {
    let shown = says(in_set("me‸et center"));
    assert!(shown.contains("One knot between the 4th and 5th strand, `sand` and `sand`."), "{shown}");
}

const DUSK: &str = "pattern \"A\"\nthread dusk navy 5 cm, white 5 cm \"evening\"\nthread foam gold\nstrands dusk foam\nends 1 cm\n\
                    set { take left 1: forward-backward 9 }\n";

#[test]
fn a_thread_that_changes_color_tells_its_colors_and_each_is_a_patch() {
    let shown = says(at(&DUSK.replace("thread dusk", "thread du‸sk")));
    assert!(
        shown.starts_with(
            "The thread `dusk`, `evening`: `#000080`.\n\
             Its color changes along its length, over and over: `#000080` for 5 cm and `#ffffff` for 5 cm.\n"
        ),
        "{shown}"
    );
    let shown = says(at(&DUSK.replace("white", "wh‸ite")));
    assert!(shown.contains("#ffffff"), "{shown}");
}

#[test]
fn the_picture_of_a_step_shows_the_color_that_its_strand_has_come_to() {
    // Dusk's first color is used up after a few knots; both are seen.
    let (checked, offset) = at(&DUSK.replace("take", "ta‸ke"));
    let picture = hover(&checked, offset).unwrap().picture.unwrap().svg;
    assert!(picture.contains("fill=\"#000080\"") && picture.contains("fill=\"#ffffff\""), "{picture}");
}

#[test]
fn a_thread_tells_color_strands_and_use() {
    let shown = says(at(&format!(
        "{}set {{\n  take left 1: forward 3\n}}\n",
        HEAD.replace("thread kelp", "thread ke‸lp")
    )));
    assert_eq!(
        shown,
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
    let shown = says(in_set("take left 3 as lead: forward 2\ntake le‸ad: backward 1"));
    assert!(
        shown.starts_with(
            "The strand `lead`: `foam`, which began as the 3rd from the left and hangs as the 5th here."
        ),
        "{shown}"
    );
}

#[test]
fn a_motif_tells_its_signature_and_its_comment() {
    let text = format!(
        "{HEAD}-- A fan on `size` strands.\nmotif fan(size) on 8 {{\n  take left 1: forward size\n}}\nset {{\n  work fa‸n(4)\n}}\n"
    );
    let shown = says(at(&text));
    assert!(
        shown
            .starts_with("motif `fan(size) on 8`\nWorked in 1 place of this file.\nA fan on `size` strands."),
        "{shown}"
    );
}

#[test]
fn an_expect_tells_the_real_order() {
    let shown = says(in_set("take left 1: forward 2\nexp‸ect 2 kelp foam sand | mirror"));
    assert!(
        shown.contains("The strands hang like this here: `kelp foam kelp 2 sand foam 2 kelp`."),
        "{shown}"
    );
}

#[test]
fn a_chart_row_tells_its_knots() {
    let shown = says(in_set("rows {\n  \\ . ‸x .\n}"));
    assert!(shown.starts_with("Row 1 of 1.\n`x`: a knot of two strands of one color.\n2 knots: 1–2 forward `kelp` over `kelp`; 5–6 forward"), "{shown}");
}

#[test]
fn the_set_tells_knots_rows_and_when_it_closes() {
    let shown = says(at(&format!("{HEAD}s‸et {{\n  take left 1: forward to edge\n}}\n")));
    assert!(shown.contains("7 knots in 7 rows."), "{shown}");
    assert!(shown.contains("It closes after 8 sets."), "{shown}");
}

#[test]
fn numbers_say_what_they_are_for() {
    let cases = [
        ("take left ‸3: forward 2", "The 3rd strand from the left."),
        ("take left 3: forward ‸2", "Ties 2 knots."),
        ("repeat ‸3 { meet center }", "Tied 3 times."),
        ("take left 3: forward to right ‸2", "Until the strand in hand hangs 2nd from the right."),
        ("expect ‸2 kelp foam sand | mirror", "2 strands side by side."),
        ("on center ‸4 { meet center }", "In this range: this many strands in the middle."),
    ];
    for (text, wanted) in cases {
        let shown = says(in_set(text));
        assert!(shown.starts_with(wanted), "{text}: {shown}");
    }
}

#[test]
fn a_length_says_the_same_in_inches_however_short() {
    let cases = [
        ("gauge {\n  thickness ‸0.9 mm\n}\n", "0.9 mm, that is 0.035 in."),
        ("gauge {\n  thickness 2 m‸m\n}\n", "2 mm, that is 0.079 in."),
        ("gauge {\n  10 knots use 1‸5 mm\n}\n", "1.5 cm, that is 0.59 in."),
        ("length ‸15 cm\n", "15 cm, that is 5.9 in."),
    ];
    for (text, wanted) in cases {
        let told = says(at(&format!("{HEAD}{text}")));
        assert!(told.contains(wanted), "{text}: {told}");
    }
}

#[test]
fn a_word_says_what_it_means_in_its_statement() {
    let set = |text: &str| says(in_set(text));
    let head = |text: &str| says(at(&format!("pattern \"A\"\nthread kelp navy\n{text}\n")));
    let cases = [
        (set("meet cen‸ter"), "`meet center`\nBetween the two middle strands, whose color is the same."),
        (set("on le‸ft 4 { meet center }"), "`on left N`\nThe N strands at the left edge."),
        (set("take le‸ft 4: forward 1"), "`left N`\nThe N-th from the left edge."),
        (
            head("strands fr‸om left 2 kelp, from right 2 kelp"),
            "`strands from left LIST, from right LIST`\nA list for each half, each from its edge to the middle.",
        ),
        (
            head("use fan fr‸om \"fans.knot\""),
            "`use NAME, NAME from \"PATH\"`\nThe file that has these motifs, as seen from this one.",
        ),
        (set("take kelp 1 fr‸om left: forward 1"), "`COLOR N from left | from right`\nCounted from an edge."),
    ];
    for (told, wanted) in cases {
        assert!(told.starts_with(wanted), "{told}");
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
            let shown = hover(&checked, token.span.start).unwrap_or_else(|| panic!("{token:?}"));
            assert_eq!(shown.span, token.span);
            let written = token.span.of(checked.text());
            assert!(shown.text.iter().all(|line| !line.trim().is_empty()), "{written}");
            assert!(!shown.text.is_empty(), "{written}");
            let text = shown.text.join("\n");
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
fn letters_show_how_they_look() {
    let shown = says(in_set("leader left 1 {\n  let‸ters \"L\"\n}"));
    assert!(shown.contains("`L` in letters of height 5, in 4 rows; the leader comes back."), "{shown}");
    assert!(shown.contains(". # # # # # .\n. # . . . . .\n. # . . . . .\n. . . . . . ."), "{shown}");
}

#[test]
fn a_face_tells_what_is_to_be_seen_and_shows_it() {
    let face = "face k kelp, f foam {\n  k f‸ k k\n   ? . k\n}";
    assert!(
        says(in_set(face)).contains("Row 1 of 2.\n`f`: this knot is to show `foam`."),
        "{}",
        says(in_set(face))
    );
    let (checked, at) = in_set(&face.replace('‸', "").replace("face", "fa‸ce"));
    let picture = knotwright_editor::hover(&checked, at).unwrap().picture.unwrap();
    assert!(picture.svg.contains("#f4f1e8") && picture.alt.contains("6 knots"), "{}", picture.alt);
}

#[test]
fn a_wish_is_seen_with_the_knots_that_cannot_be_tied_hatched() {
    let text = "pattern \"Tide\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands 4 kelp\nset {\n  face k kelp, f foam {\n    k f\n     k\n  }\n}\n";
    let checked = checked(text);
    for at in [text.find("face").unwrap(), text.find("set {").unwrap()] {
        let picture = knotwright_editor::hover(&checked, at.to_u32()).unwrap().picture.unwrap();
        assert_eq!(picture.svg.matches("url(#hatch)").count(), 1, "{}", picture.svg);
        assert_eq!(picture.alt, "the face: 3 knots in 2 rows, of which 1 cannot show its color");
    }
}

#[test]
fn a_leader_tells_who_leads() {
    let shown = says(in_set("lea‸der right 1 (kelp) {\n  . . . . . . .\n}"));
    assert!(shown.contains("`kelp`, the 8th from the left, leads.\nTies 7 knots."), "{shown}");
}

#[test]
fn a_piece_of_an_end_says_what_it_is_made_of_and_takes() {
    let on = |end: &str| {
        says(at(&format!(
            "{HEAD}gauge {{ thickness 0.9 mm }}\nfinish {{\n{end}\n}}\nset {{ meet center }}\n"
        )))
    };
    assert_eq!(
        on("pla‸it 3 for 6 cm"),
        "`plait N for LENGTH`\nA plait of N bundles, as even as they come.\nBundles of 3, 3 and 2 strands.\n\
         It takes about 8 cm of every strand."
    );
    assert_eq!(on("plait ‸3 for 6 cm"), "Plaited in 3 bundles.");
    assert!(on("plait 3 f‸or 6 cm").contains("How long the plait is."));
    let shown = on("split 2 {\n  kn‸ot\n}");
    assert!(
        shown.contains("One overhand knot of all strands.\nIt takes about 1.7 cm of every strand."),
        "{shown}"
    );
    assert!(on("sp‸lit 2 { knot }").contains("Parts of 4 and 4 strands."));
    assert!(on("wr‸ap foam 8 turns").contains("It takes a thread of its own of about"));
    assert!(on("tassel 8 cm\nclos‸ing knot").contains("`closing knot`"));
}

#[test]
fn a_bead_says_how_large_it_is_and_where_it_is_threaded() {
    let head = HEAD.replace("strands", "bead pearl #f4efe6 4 mm hole 2 mm \"sea pearl\"\nstrands");
    let on = |line: &str| says(at(&format!("{head}set {{\n{line}\nmeet center\n}}\n")));
    let shown = on("both { bead pea‸rl on left 1 }");
    assert_eq!(shown, "The bead `pearl`, `sea pearl`: `#f4efe6`, 4 mm, its hole 2 mm.\n2 in the set.");
    assert!(
        on("be‸ad pearl on left 1").contains("bead NAME on STRAND, STRAND"),
        "{}",
        on("be‸ad pearl on left 1")
    );
    assert!(on("bead pearl o‸n left 1").contains("The strands that go through it."));
    assert!(on("bead pearl on left ‸1").contains("The 1st strand from the left."));
    let declared = says(at(&HEAD.replace("strands", "be‸ad pearl #f4efe6 4 mm hole 2 mm\nstrands")));
    assert!(declared.contains("how large it is, and how wide its hole is"), "{declared}");
    let size = says(at(&HEAD.replace("strands", "bead pearl #f4efe6 4 mm hole ‸2 mm\nstrands")));
    assert!(size.starts_with("How wide its hole is:"), "{size}");
}
