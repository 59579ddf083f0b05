//! What the head says, and what is wrong with it.

use crate::testing::{Band, tied, tied_with};
use crate::{Extent, FactKind, Library, OpenError, Source, StartForm};
use knotwright_band::ends::EndWork;
use std::collections::HashMap;
use std::sync::Arc;

/// A head of one title and three threads, with more lines and a set of one knot.
fn head(lines: &str) -> String {
    format!(
        "pattern \"Trial\"\nthread a teal\nthread b coral\nthread c #123\n{lines}\n\
         set {{ take left 1: forward 1 }}\n"
    )
}

#[track_caller]
fn fails(lines: &str, kinds: &[&str]) {
    let band = tied(&head(lines));
    assert_eq!(band.kinds(), kinds, "{lines}\n{}", band.said());
}

fn hung(lines: &str) -> String {
    let band = tied(&head(lines));
    assert_eq!(band.said(), "", "{lines}");
    let names = band.script.head.strands.iter().flatten().map(|&thread| band.script.thread_name(thread));
    names.collect::<Vec<_>>().join(" ")
}

#[test]
fn lists_of_strands_in_every_shape() {
    for (list, strands) in [
        ("strands a b c", "a b c"),
        ("strands 2 a, b, 2 c", "a a b c c"),
        ("strands a 2 b | mirror", "a b b b b a"),
        ("strands a b | c | mirror", "a b c b a"),
        ("strands a b | c 1 a", "a b c a"),
        ("strands (1 + 1) a b", "a a b"),
        ("strands from left a b, from right c 2 a", "a b a a c"),
        ("strands from left a b, from right a c", "a b c a"),
    ] {
        assert_eq!(hung(list), strands, "{list}");
    }
}

#[test]
fn halves_are_equal_and_counts_are_not_zero() {
    fails("strands a b | c", &["UnequalHalves"]);
    fails("strands from left 3 a, from right b", &["UnequalHalves"]);
    fails("strands 0 a b c", &["CountOfZero"]);
    fails("strands (1 - 3) a b c", &["NegativeCount"]);
    fails("strands (100000 * 100000) a", &["NumberTooLarge"]);
    fails("strands a", &["TooFewStrands"]);
    fails("strands 201 a", &["TooManyStrands"]);
    fails("strands a b d", &["UnknownThread"]);
}

#[test]
fn what_stands_once_does_not_stand_twice() {
    for line in [
        "license \"CC0\"",
        "ends 10 cm",
        "length 15 cm",
        "sets 3",
        "start loose",
        "gauge { thickness 1 mm }",
        "strands a b",
        "opening { take left 1: forward 1 }",
        "set { take left 1: forward 1 }",
        "closing { take left 1: forward 1 }",
        "pattern \"Again\"",
    ] {
        let strands = if line.starts_with("strands") { "" } else { "strands a a\n" };
        let twice = if line.starts_with("set {") || line.starts_with("pattern") { "" } else { line };
        fails(&format!("{strands}{line}\n{twice}"), &["Repeated"]);
    }
    fails("strands a b\nlength 15 cm\nsets 3", &["LengthAndSets"]);
    fails("strands a b\nabout \"One.\"\nabout \"Two.\"\nauthor \"A\"\nauthor \"B\"", &[]);
}

#[test]
fn the_title_comes_first() {
    let kinds = |text: &str| tied(text).kinds();
    assert_eq!(kinds(""), ["NoPattern"]);
    assert_eq!(kinds("thread a teal\npattern \"Late\"\n"), ["NoPattern"]);
    assert_eq!(kinds("pattern \"Library\"\n"), [""; 0]);
    // A first line that does not parse may have been the title.
    assert_eq!(kinds("pattren \"Trial\"\nthread a teal\n"), [""; 0]);
}

#[test]
fn there_is_something_to_tie_and_something_to_tie_with() {
    let kinds = |rest: &str| tied(&format!("pattern \"Trial\"\nthread a teal\n{rest}")).kinds();
    assert_eq!(kinds("set { take left 1: forward 1 }\n"), ["NoStrands"]);
    assert_eq!(kinds("strands 2 a\n"), ["NothingTied"]);
    assert_eq!(kinds("strands 2 a\nmotif m() { meet center }\n"), ["NothingTied"]);
    assert_eq!(kinds("motif m() { meet center }\n"), [""; 0]);
    assert_eq!(kinds("strands 2 a\nopening { meet center }\nlength 12 cm\n"), ["ZeroMeasure"]);
    // The line that does not parse may have been the missing one.
    assert_eq!(kinds("strnads 2 a\nset { take left 1: forward 1 }\n"), [""; 0]);
}

#[test]
fn threads_have_one_name_each_and_a_color() {
    fails("strands a b\nthread a red", &["NameTaken"]);
    fails("strands a b\nthread d nocolor", &["UnknownColor"]);
    fails("strands a b\nthread d #12345", &["UnknownColor"]);
    let said = tied(&head("strands a b\nthread d goldnrod")).said();
    assert!(said.contains("nearest: Some(\"goldenrod\")"), "{said}");
}

#[test]
fn colorways_recolor_threads_that_are_there() {
    fails("strands a b\ncolorway \"Dusk\" { thread a navy }", &[]);
    fails("strands a b\ncolorway \"Dusk\" { thread d navy }", &["UnknownThread"]);
    fails("strands a b\ncolorway \"Dusk\" {\nthread a navy\nthread a red\n}", &["Repeated"]);
    fails("strands a b\ncolorway \"D\" { thread a navy }\ncolorway \"D\" { thread a red }", &["Repeated"]);
    let band = tied(&head("strands a b\ncolorway \"Dusk\" { thread b #00f \"night\" }"));
    let dusk = &band.script.head.colorways[0];
    assert_eq!(dusk.threads[0], band.script.head.threads[0]);
    assert_eq!((dusk.threads[1].color.blue, dusk.threads[1].label.as_deref()), (255, Some("night")));
}

#[test]
fn measures_are_such_as_a_band_can_have() {
    for (line, kinds) in [
        ("sets 0", &["ZeroMeasure"][..]),
        ("length 0 cm", &["ZeroMeasure"]),
        ("ends 0 mm", &["ZeroMeasure"]),
        ("gauge { thickness 0 mm }", &["ZeroMeasure"]),
        ("gauge { 0 knots use 10 cm }", &["ZeroMeasure"]),
        ("gauge { 20 rows measure 0 mm }", &["ZeroMeasure"]),
        ("gauge { thickness 9 cm }", &["ImplausibleMeasure"]),
        ("gauge { 10 knots use 10 m }", &["ImplausibleMeasure"]),
        ("gauge { 20 rows measure 32 m }", &["ImplausibleMeasure"]),
        ("gauge { 0 tex }", &["ZeroMeasure"]),
        ("gauge { 250000 tex }", &["ImplausibleDensity"]),
        ("length 2000 m", &["ImplausibleMeasure"]),
        ("gauge { thickness 0.9 mm }", &[]),
        ("gauge {\nthickness 1 mm\nthickness 2 mm\n}", &["Repeated"]),
    ] {
        fails(&format!("strands a b\n{line}"), kinds);
    }
    let head = tied(&head("strands a b\nlength 6 in\nends 12 cm\ngauge { 10 knots use 105 mm }")).script.head;
    assert_eq!(head.extent, Extent::Length(152.4));
    assert_eq!(head.ends, Some(120.0));
    assert_eq!(head.gauge.knots_use, Some((10, 105.0)));
}

#[test]
fn folded_strands_are_two_of_one_thread() {
    let start = |lines: &str| tied(&head(lines)).script.head.start;
    assert_eq!(start("strands a b"), StartForm::Loose);
    let side_by_side = start("start folded pairs side-by-side\nstrands 2 a 2 b");
    assert_eq!(side_by_side, StartForm::Folded(vec![(0, 1), (2, 3)]));
    let mirrored = start("strands a b | mirror\nstart loop 3 cm pairs mirrored");
    assert_eq!(mirrored, StartForm::Loop(30.0, vec![(0, 3), (1, 2)]));
    fails("strands a b a\nstart folded pairs mirrored", &["OddPairs"]);
    fails("strands a b b a\nstart folded pairs side-by-side", &["PairsDisagree"]);
    fails("strands a b | mirror\nstart loop 0 cm pairs mirrored", &["ZeroMeasure"]);
}

/// Files by path; `../` lies outside, `locked` cannot be read.
struct Shelf(HashMap<&'static str, &'static str>);

impl Library for Shelf {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        match path {
            path if path.starts_with("../") => Err(OpenError::Outside),
            "locked.knot" => Err(OpenError::Unreadable("no right to read it".to_owned())),
            path => {
                let text = self.0.get(path).ok_or(OpenError::Missing)?;
                Ok(Arc::new(Source::new(path, *text)))
            }
        }
    }
}

fn using(lines: &str, files: &[(&'static str, &'static str)]) -> Band {
    tied_with(&head(lines), &Shelf(files.iter().copied().collect()))
}

const FANS: (&str, &str) = (
    "fans.knot",
    "pattern \"Fans\"\nthread a red\nuse step from \"steps.knot\"\n\
     motif fan(size) { take left 1: forward size down to 1 }\n\
     motif stair(size) { repeat size { work step(1) } }\n\
     motif named() { take left 1 (a): forward 1 }\nmotif given(t) { take left 1 (t): forward 1 }\n",
);
const STEPS: (&str, &str) = ("steps.knot", "pattern \"Steps\"\nmotif step(n) { take left 1: forward n }\n");

#[test]
fn motifs_of_other_files_are_worked_by_name() {
    let band = using(
        "strands a b c\nuse fan, stair from \"fans.knot\"\nopening {\nwork fan(2)\nwork stair(2)\n}",
        &[FANS, STEPS],
    );
    assert_eq!(band.said(), "");
    assert_eq!(band.tied.opening.unwrap().piece.order(), [2, 1, 0]);
    assert_eq!(band.script.sources().count(), 3);
}

#[test]
fn a_file_that_cannot_be_had_is_reported_once() {
    for (path, kind) in [
        ("none.knot", "ImportMissing"),
        ("../fans.knot", "ImportOutside"),
        ("locked.knot", "ImportUnreadable"),
    ] {
        let band = using(&format!("strands a b\nuse fan from \"{path}\"\nopening {{ work fan(2) }}"), &[]);
        assert_eq!(band.kinds(), [kind], "{}", band.said());
    }
}

#[test]
fn a_file_hands_on_only_motifs_that_stand_in_it() {
    let band = using("strands a b\nuse fna, step from \"fans.knot\"", &[FANS, STEPS]);
    assert_eq!(band.kinds(), ["ImportLacks", "ImportLacks"]);
    assert!(band.said().contains("nearest: Some(\"fan\")"), "{}", band.said());
}

#[test]
fn files_do_not_use_one_another_in_a_circle() {
    let one = ("one.knot", "pattern \"One\"\nuse two from \"two.knot\"\nmotif one() { work two() }\n");
    let two = ("two.knot", "pattern \"Two\"\nuse one from \"one.knot\"\nmotif two() { work one() }\n");
    let band = using("strands a b\nuse one from \"one.knot\"", &[one, two]);
    assert_eq!(band.kinds()[0], "ImportCircular", "{}", band.said());
    let itself = ("band.knot", "pattern \"Self\"\nmotif m() { meet center }\n");
    let band = using("strands a b\nuse m from \"band.knot\"", &[itself]);
    assert_eq!(band.kinds(), ["ImportCircular"], "{}", band.said());
}

#[test]
fn a_thread_of_another_file_comes_in_as_a_parameter() {
    let band =
        using("strands a b\nuse given, named from \"fans.knot\"\nopening { work given(a) }", &[FANS, STEPS]);
    assert_eq!(band.said(), "");
    let band =
        using("strands a b\nuse given, named from \"fans.knot\"\nopening { work named() }", &[FANS, STEPS]);
    assert_eq!(band.kinds(), ["ThreadOfOtherFile"]);
    assert!(band.said().contains("through line 7"), "{}", band.said());
}

#[test]
fn two_motifs_of_one_name_are_refused() {
    fails("strands a b\nmotif m() { meet center }\nmotif m() { meet center }", &["NameTaken"]);
    let band = using("strands a b\nuse fan from \"fans.knot\"\nmotif fan() { meet center }", &[FANS, STEPS]);
    assert_eq!(band.kinds(), ["NameTaken"]);
    // Motifs have a name space of their own.
    fails("strands a b\nmotif a() { meet center }", &[]);
}

#[test]
fn a_library_is_checked_as_far_as_it_goes() {
    let band = tied("pattern \"Library\"\nmotif m(n) { work other(n) }\nmotif k(n) { work m(n, n) }\n");
    assert_eq!(band.kinds(), ["ArgumentCount", "UnknownMotif"]);
}

/// What is wrong with an end of four strands, by the name of the trouble.
#[track_caller]
fn ends_fail(lines: &str, troubles: &[&str]) {
    let band = tied(&head(&format!("strands 4 a\n{lines}")));
    let name = |text: String| text.split(['(', ' ', '{']).next().unwrap_or_default().to_owned();
    let kinds: Vec<String> = band
        .facts
        .iter()
        .map(|fact| match &fact.kind {
            FactKind::Ends(trouble) => name(format!("{trouble:?}")),
            other => name(format!("{other:?}")),
        })
        .collect();
    assert_eq!(kinds, troubles, "{lines}\n{}", band.said());
}

#[test]
fn ends_are_read_from_top_to_bottom() {
    let made = |lines: &str| {
        let band = tied(&head(lines));
        assert_eq!(band.said(), "", "{lines}");
        band.script.head.made
    };
    let ends = made("strands 4 a\nbegin {\ntassel 2 cm\nplait 3 for 6 cm\n}\nfinish { wrap b 8 turns }");
    let begin = ends.begin.unwrap();
    assert_eq!(begin, [EndWork::Tassel { length: 20.0 }, EndWork::Plait { bundles: 3, length: 60.0 }]);
    assert_eq!(ends.finish.unwrap(), [EndWork::Wrap { thread: 1, turns: 8 }]);
    let ends = made("strands 6 a\nfinish {\nsplit 2 { twist for 1 in }\ntassel 2 cm\nslide 8 turns\n}");
    let split = EndWork::Split { parts: 2, works: vec![EndWork::Twist { length: 25.4 }] };
    let (tassel, slide) = (EndWork::Tassel { length: 20.0 }, EndWork::Slide { thread: 0, turns: 8 });
    assert_eq!(ends.finish.unwrap(), [split, tassel, slide]);
    assert_eq!(made("strands 2 a").begin, None);
}

#[test]
fn what_cannot_be_made_of_the_strands_is_reported() {
    ends_fail("finish { plait 2 for 6 cm }", &["PlaitBundles"]);
    ends_fail("finish { plait 9 for 6 cm }", &["PlaitBundles"]);
    ends_fail("finish { plait 5 for 6 cm }", &["PlaitStrands"]);
    ends_fail("finish { split 2 { plait 3 for 6 cm } }", &["PlaitStrands"]);
    ends_fail("finish { split 1 { knot } }", &["SplitInOne"]);
    ends_fail("finish { split 5 { knot } }", &["SplitStrands"]);
    ends_fail("finish { split 4 { split 2 { knot } } }", &["SplitStrands"]);
    ends_fail("finish { split 4 { twist for 6 cm } }", &["TwistOfOne"]);
    ends_fail("finish { wrap sail 8 turns }", &["UnknownName"]);
    ends_fail("finish { wrap b 0 turns }", &["ZeroMeasure"]);
    ends_fail("finish { wrap b 501 turns }", &["TooManyTurns"]);
    ends_fail("finish { tassel 0 cm }", &["ZeroMeasure"]);
    ends_fail("finish { tassel 11 m }", &["ImplausibleMeasure"]);
    ends_fail("finish { tassel 9 m }", &["TooLong"]);
    ends_fail("finish {\nplait 3 for 5 m\ntassel 2 m\n}", &["TooLong"]);
}

#[test]
fn a_tip_has_nothing_beyond_it() {
    ends_fail("finish {\ntassel 2 cm\nknot\n}", &["NotAtTip"]);
    ends_fail("finish {\nloop 2 cm\nknot\n}", &["NotAtTip"]);
    ends_fail("begin {\nknot\ntassel 2 cm\n}", &["NotAtTip"]);
    ends_fail("finish {\nsplit 2 { tassel 2 cm }\nknot\n}", &["NotAtTip"]);
    ends_fail("finish {\nknot\nsplit 2 { tassel 2 cm }\n}", &[]);
    ends_fail("begin {\nsplit 2 { tassel 2 cm }\nknot\n}", &[]);
    ends_fail("start folded pairs mirrored\nbegin { tassel 2 cm }", &["TasselAtFold"]);
    ends_fail("start folded pairs mirrored\nbegin {\nsplit 2 { knot }\nknot\n}", &["SplitThread"]);
    ends_fail("start folded pairs side-by-side\nbegin {\nsplit 2 { knot }\nknot\n}", &[]);
}

#[test]
fn a_band_is_closed_last_and_by_what_is_there() {
    ends_fail("finish {\nclosing knot\ntassel 2 cm\n}", &["ClosureElsewhere"]);
    ends_fail("begin {\ntassel 2 cm\nslide 8 turns\n}", &["ClosureElsewhere"]);
    ends_fail("finish {\ntassel 2 cm\nclosing knot\nslide 8 turns\n}", &["ClosureElsewhere"]);
    ends_fail("finish {\nknot\nslide 8 turns\n}", &["NothingToClose"]);
    ends_fail("begin { knot }\nfinish {\ntassel 2 cm\nslide 8 turns\n}", &["NothingToClose"]);
    let folded = "start folded pairs mirrored\n";
    let looped = format!("{folded}begin {{ loop 2 cm }}\n");
    ends_fail(&format!("{folded}finish {{\ntassel 2 cm\nclosing knot\n}}"), &["NothingToClose"]);
    ends_fail(&format!("{looped}finish {{\ntassel 2 cm\nclosing knot\n}}"), &[]);
    ends_fail(&format!("{looped}finish {{\ntassel 2 cm\nslide 8 turns\n}}"), &["NothingToClose"]);
    ends_fail("finish {\ntassel 2 cm\nslide b 8 turns\n}", &[]);
}

#[test]
fn an_end_is_described_in_one_place() {
    ends_fail("start loop 2 cm pairs mirrored\nbegin { knot }", &["LoopBesideBegin"]);
    ends_fail("ends 12 cm\nbegin { knot }\nfinish { knot }", &["EndsBesideBlocks"]);
    ends_fail("ends 12 cm\nfinish { knot }", &[]);
    ends_fail("begin { knot }\nbegin { knot }", &["Repeated"]);
}
