//! Words of other crafts, and slips of every part of a file: each is one finding, and its first mend brings back what was
//! meant.

use knotwright_checker::{Finding, Mend, NoLibrary, Settings, Severity, Source, check};
use knotwright_grammar::apply_edits;
use std::sync::Arc;

const BAND: &str = r##"pattern "Shells on the sill"

thread kelp #1f5d50
thread foam #f4f1e8
thread dusk #ffaa00 12 cm, #5b7bb5 12 cm "evening sky"
bead shell #f4efe6 3 mm hole 2.5 mm "shell"

strands kelp foam dusk | mirror
sets 2
start folded pairs mirrored
begin {
  loop 2 cm
  plait 3 for 4 cm
  knot
}
finish {
  knot
  wrap kelp 5 turns
  split 2 {
    plait 3 for 6 cm
    knot
  }
  tassel 2 cm
}
gauge {
  thickness 0.9 mm
  10 knots use 105 mm
  20 rows measure 32 mm
}
colorway "winter" {
  thread kelp #334455
  thread foam #ffeedd
}
motif edge-in(shade, reach) {
  take left 1 (shade): forward reach
}
set {
  section "in" {
    both { take left 1 (kelp): forward to center left }
    meet center
    bead shell on center left, center right
    note "Pull it tight."
  }
  repeat 2 {
    both { take left 1: forward 2 }
    meet center
  }
  for n 1 up to 2 {
    on left 3 {
      take left 1 as tip: forward-backward n
      bead shell on tip
    }
  }
  both { work edge-in(kelp, 2) }
  meet center
  leader left 1 (foam) {
    letters "I" height 5
    . . # . .
  }
}
"##;

/// What is right in the band, and what somebody wrote instead.
static SLIPS: &[(&str, &str)] = &[
    ("pattern \"Shells on the sill\"", "\"Shells on the sill\""),
    ("pattern \"Shells on the sill\"", "pattern \"Shells on the sill"),
    ("thread kelp #1f5d50", "kelp #1f5d50"),
    ("thread kelp #1f5d50", "floss kelp #1f5d50"),
    ("thread kelp #1f5d50", "thread kelp \"#1f5d50\""),
    ("12 cm, #5b7bb5 12 cm", "12 cm #5b7bb5 12 cm"),
    ("#ffaa00 12 cm, #5b7bb5 12 cm", "12 cm #ffaa00, 12 cm #5b7bb5"),
    ("\"evening sky\"", "evening sky"),
    ("12 cm \"evening sky\"", "12 cm, \"evening sky\""),
    ("3 mm hole 2.5 mm", "hole 2.5 mm 3 mm"),
    ("3 mm hole 2.5 mm", "3 mm 2.5 mm hole"),
    ("#f4efe6 3 mm hole 2.5 mm", "size 3 mm hole 2.5 mm #f4efe6"),
    ("hole 2.5 mm", "hole 2.5"),
    ("strands kelp foam dusk", "strands kelp + foam dusk"),
    ("sets 2\n", "sets 2\nsets 2\n"),
    ("thread foam #f4f1e8\n", "thread foam #f4f1e8\nthread foam #f4f1e8\n"),
    ("forward 2 }", "forward over 2 strands }"),
    ("thread kelp #1f5d50", "thraed kelp 1f5d50"),
    ("sets 2", "2 sets"),
    ("sets 2", "sets 2 2"),
    ("wrap kelp 5 turns", "wrap wrap kelp 5 turns"),
    ("take left 1: forward 2", "take take left 1: forward 2"),
    ("take left 1: forward 2", "take left 1: forward forward 2"),
    ("meet center\n  }", "center meet\n  }"),
    ("bead shell on tip", "bead on shell tip"),
    ("10 knots use", "10 use knots"),
    ("sets 2", "repeat 2 times"),
    ("sets 2", "repeat 2"),
    ("start folded pairs", "folded pairs"),
    ("start folded pairs", "start fold pairs"),
    ("plait 3 for 4", "braid 3 for 4"),
    ("plait 3 for 4", "plait 3 over 4"),
    ("plait 3 for 4", "plait 4"),
    ("plait 3 for 4", "plait three strands for 4"),
    ("wrap kelp 5 turns", "wrap 5 turns kelp"),
    ("wrap kelp 5 turns", "wrap kelp 5 times"),
    ("wrap kelp 5 turns", "coil kelp 5 turns"),
    ("wrap kelp 5 turns", "wrap with kelp for 5 turns"),
    ("split 2 {", "split in two {"),
    ("split 2 {", "split 2 parts {"),
    ("split 2 {", "divide 2 {"),
    ("tassel 2 cm", "fringe 2 cm"),
    ("finish {", "finishing {"),
    ("thickness 0.9", "thickness .9"),
    ("use 105 mm", "use 105"),
    ("colorway \"winter\"", "colorway winter"),
    ("colorway \"winter\"", "colors \"winter\""),
    ("thread kelp #334455", "kelp #334455"),
    ("thread kelp #334455", "thread kelp = #334455"),
    ("motif edge-in(shade, reach)", "motif edge-in shade, reach"),
    ("motif edge-in(shade, reach)", "motif edge-in(shade reach)"),
    ("motif edge-in(shade, reach)", "motif \"edge-in\"(shade, reach)"),
    ("motif edge-in(shade, reach)", "define edge-in(shade, reach)"),
    ("motif edge-in(shade, reach)", "motif edge-in(shade)"),
    ("motif edge-in(shade, reach)", "motif edge-in()"),
    ("set {", "set:"),
    ("set {", "repeat {"),
    ("set {", "set \"main\" {"),
    ("section \"in\"", "section: \"in\""),
    ("section \"in\"", "heading \"in\""),
    ("section \"in\"", "\"in\""),
    (
        "both { take left 1 (kelp): forward to center left }",
        "both ( take left 1 (kelp): forward to center left )",
    ),
    (
        "both { take left 1 (kelp): forward to center left }",
        "both { take left 1 (kelp): forward to center left }}",
    ),
    ("take left 1 (kelp): forward to", "tie left 1 (kelp): forward to"),
    ("forward to center left", "forward over all"),
    ("forward to center left", "forward over all the others"),
    ("forward to center left", "forward until middle"),
    ("meet center\n    bead", "meet center 1\n    bead"),
    ("meet center\n    bead", "center\n    bead"),
    ("bead shell on center left, center right", "bead shell on center left and right"),
    ("bead shell on center left, center right", "put shell on center left, center right"),
    ("bead shell on center left, center right", "bead shell at center left, center right"),
    ("note \"Pull it tight.\"", "\"Pull it tight.\""),
    ("note \"Pull it tight.\"", "remark \"Pull it tight.\""),
    ("note \"Pull it tight.\"", "note “Pull it tight.”"),
    ("repeat 2 {", "repeat two times {"),
    ("repeat 2 {", "do twice {"),
    ("repeat 2 {", "again 2 {"),
    ("take left 1: forward 2", "take left 1: 2"),
    ("take left 1: forward 2", "take left 1: 2 knots"),
    ("take left 1: forward 2", "take left 1: 2 knots forward"),
    ("take left 1: forward 2", "take left 1: 2 fk"),
    ("take left 1: forward 2", "take left 1: right 2"),
    ("take left 1: forward 2", "forward 2"),
    ("for n 1 up to 2 {", "for each n 1 up to 2 {"),
    ("for n 1 up to 2 {", "for n 1, 2 {"),
    ("for n 1 up to 2 {", "repeat n 1 up to 2 {"),
    ("on left 3 {", "on 3 left {"),
    ("on left 3 {", "on the first three {"),
    ("on left 3 {", "only left 3 {"),
    ("as tip:", "called tip:"),
    ("as tip:", "as \"tip\":"),
    ("forward-backward n", "fwd-bwd n"),
    ("forward-backward n", "forward-back n"),
    ("bead shell on tip", "add shell on tip"),
    ("work edge-in(kelp, 2)", "call edge-in(kelp, 2)"),
    ("work edge-in(kelp, 2)", "tie edge-in(kelp, 2)"),
    ("work edge-in(kelp, 2)", "work edge-in(kelp 2)"),
    ("work edge-in(kelp, 2)", "work edge-in(kelp, two)"),
    ("leader left 1 (foam) {", "leader left 1 foam {"),
    ("leader left 1 (foam) {", "take left 1 (foam) {"),
    ("leader left 1 (foam) {", "chart left 1 (foam) {"),
    ("letters \"I\" height 5", "letters I height 5"),
    ("letters \"I\" height 5", "letters 'I' height 5"),
    ("letters \"I\" height 5", "text \"I\" height 5"),
    ("letters \"I\" height 5", "letters \"I\" 5 high"),
    ("letters \"I\" height 5", "letters \"I\" height 5 knots"),
    ("    . . # . .\n", "    o o x o o\n"),
    ("    . . # . .\n", "    0 0 1 0 0\n"),
    ("    . . # . .\n", "    - - # - -\n"),
];

fn errors(text: &str) -> Vec<Finding> {
    let found = check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default()).findings;
    found.into_iter().filter(|finding| finding.severity == Severity::Error).collect()
}

fn applied(text: &str, mend: &Mend) -> String {
    let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
    apply_edits(text, edits).expect("the edits fit")
}

/// Words and signs, whatever white space is between them.
fn words(text: &str) -> Vec<&str> {
    text.split_whitespace().collect()
}

#[test]
fn the_band_itself_is_right() {
    assert_eq!(errors(BAND), []);
}

#[test]
fn each_slip_is_one_finding_and_its_first_mend_brings_back_what_was_meant() {
    let mut wrong = String::new();
    for (right, slip) in SLIPS {
        assert!(BAND.contains(right), "{right}");
        let text = BAND.replacen(right, slip, 1);
        let found = errors(&text);
        let mend = found.first().and_then(|finding| finding.mends.first());
        let after = mend.map(|mend| applied(&text, mend)).unwrap_or_default();
        if found.len() != 1 || words(&after) != words(BAND) {
            let said: Vec<&str> = found.iter().map(|finding| finding.message.as_str()).collect();
            wrong += &format!("{slip:?}: {said:?} {:?}\n", mend.map(|mend| &mend.title));
        }
    }
    assert_eq!(wrong, "");
}

/// What cannot be known is no more than offered.
#[test]
fn what_only_the_author_knows_is_not_certain() {
    for (right, slip) in [
        ("take left 1: forward 2", "take left 1: 2"),
        ("plait 3 for 4", "plait 4"),
        ("set {", "set \"main\" {"),
        ("forward-backward n", "turn n"),
    ] {
        let found = errors(&BAND.replacen(right, slip, 1));
        let [one] = &found[..] else { panic!("{slip}: {found:#?}") };
        assert!(!one.mends.is_empty() && one.mends.iter().all(|mend| !mend.certain), "{slip}: {one:#?}");
    }
}

/// Marks within a text are no text in another language.
#[test]
fn quotation_marks_in_a_text_stay_in_it() {
    let text = BAND.replacen("Pull it tight.", "Pull \"it\" tight.", 1);
    let found = errors(&text);
    let [one] = &found[..] else { panic!("{found:#?}") };
    assert_eq!(applied(&text, &one.mends[0]), BAND.replacen("Pull it tight.", "Pull \\\"it\\\" tight.", 1));
}

/// What was to stand there is missing: that it should be left out is no more than offered.
#[test]
fn what_is_forgotten_is_not_left_out_for_certain() {
    let band = "pattern \"Quay\"\nthread tar navy\nthread sail white\nstrands tar sail sail tar\nset {\n  \
        join left 2 with sail\n  take left 1 (tar): forward to edge\n  take right 1: backward to edge\n}\n";
    assert_eq!(errors(band), []);
    for (right, slip) in [("with sail", "with"), ("(tar)", "()")] {
        let found = errors(&band.replacen(right, slip, 1));
        assert_eq!(found.len(), 1, "{slip}: {found:#?}");
        assert!(found[0].mends.iter().all(|mend| !mend.certain), "{slip}: {found:#?}");
    }
}

/// The help names every way that is offered.
#[test]
fn of_several_ways_all_are_named() {
    let found = errors(&BAND.replacen("repeat 2 {", "mirror {", 1));
    let help = found[0].help.as_deref().unwrap_or_default();
    assert!(help.contains("`both`") && help.contains("`mirrored`"), "{found:#?}");
}

const FACED: &str = "pattern \"Terraces\"\nthread soil brown\nthread vine green\nstrands soil vine vine soil\nset {\n  \
    face s soil, v vine {\n    s s\n     s\n    v v\n     v\n  }\n  rows {\n    \\ /\n     x\n    \\ /\n     x\n  }\n  \
    expect face mirror\n}\n";

#[test]
fn charts_and_faces_are_known_by_other_words() {
    assert_eq!(errors(FACED), []);
    for (right, slip) in [
        ("face s soil, v vine {", "face s soil v vine {"),
        ("face s soil, v vine {", "face s = soil, v = vine {"),
        ("face s soil, v vine {", "face soil s, vine v {"),
        ("face s soil, v vine {", "picture s soil, v vine {"),
        ("rows {", "chart {"),
        ("rows {", "knots {"),
        ("expect face mirror", "expect face symmetric"),
        ("expect face mirror", "expect mirror"),
        ("expect face mirror", "face mirror"),
        ("vine soil\nset", "vine soil,\nset"),
    ] {
        let text = FACED.replacen(right, slip, 1);
        let found = errors(&text);
        let [one] = &found[..] else { panic!("{slip}: {found:#?}") };
        assert_eq!(applied(&text, &one.mends[0]), FACED, "{slip}: {one:#?}");
    }
}

/// All rows are rewritten at once, in however many the signs stand.
#[test]
fn a_chart_in_other_signs_is_one_finding() {
    let rows = |row: &str| BAND.replacen("    . . # . .\n", &row.repeat(40), 1);
    for row in ["    o o x o o\n", "    0 0 1 0 0\n"] {
        let text = rows(row);
        let found = errors(&text);
        let [one] = &found[..] else { panic!("{found:#?}") };
        assert_eq!(applied(&text, &one.mends[0]), rows("    . . # . .\n"));
    }
}
