//! A line or a strand that was forgotten: what is proposed to put in.

use knotwright_band::normal_form;
use knotwright_checker::{Edit, Mend, NoLibrary, Report, Settings, Source, check};
use knotwright_grammar::apply_edits;
use knotwright_numbers::ToNumber;
use std::sync::Arc;

fn checked(text: &str) -> Report {
    check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default())
}

/// What is proposed without `line` that brings the band back, each as `line: what`; with it, nothing is wrong.
fn brought_back(text: &str, line: &str) -> Vec<String> {
    assert!(checked(text).findings.is_empty(), "{text}");
    let (before, after) = text.split_once(line).expect("the line stands there");
    let slip = format!("{before}{after}");
    let mended = |mend: &Mend| {
        let edits = mend.edits.iter().map(|Edit { place, text }| (place.span, text.as_str()));
        apply_edits(&slip, edits).expect("the edits fit")
    };
    let band = |text: &str| {
        let pattern = checked(text).pattern?;
        Some((pattern.strands, pattern.set.map(|set| normal_form(&set.piece))))
    };
    let said = |mend: &Mend| {
        let start = mend.edits[0].place.span.start.to_usize();
        let title = mend.title.rsplit_once(": ").map_or(&mend.title[..], |(edit, _)| edit);
        format!("{}: {title}", slip[..start].matches('\n').count() + 1)
    };
    let report = checked(&slip);
    let mends = report.findings.iter().flat_map(|finding| &finding.mends);
    mends.filter(|mend| band(&mended(mend)) == band(text)).map(said).collect()
}

/// Bars of several colors, the last of them at the end of a section, and a drift there and back.
const BARS: &str = r#"pattern "Boat shed"

thread tar #222222
thread foam #f4f1e8
thread rust #a8502f

strands tar foam rust | mirror

motif bar(shade) {
  both { take left 1 (shade): forward to center left }
  meet center
}

set {
  work bar(tar)
  work bar(foam)
  section "the last one" {
    work bar(rust)
    expect start
  }
}
"#;

#[test]
fn a_motif_is_worked_with_a_thread_that_it_is_worked_with_nowhere_else() {
    for line in ["work bar(tar)", "work bar(foam)", "work bar(rust)"] {
        let found = brought_back(BARS, &format!("  {line}\n"));
        assert!(found.iter().any(|mend| mend.contains(&format!("put in `{line}` "))), "{line}: {found:?}");
    }
}

#[test]
fn a_motif_is_worked_in_a_mirror() {
    let road = include_str!("../../../shared/patterns/switchbacks.knot");
    let put_in = ["24: put in `work road()` before `work road() mirrored`"];
    assert_eq!(brought_back(road, "  work road()\n"), put_in);
    let put_in =
        ["24: write `both { ... }` around this", "24: put in `work road() mirrored` after `work road()`"];
    assert_eq!(brought_back(road, "  work road() mirrored\n"), put_in);
}

#[test]
fn a_strand_is_put_into_the_shorter_half() {
    let gate = include_str!("../../../shared/patterns/garden-gate.knot");
    let halves = "rose blush rose | rose blush";
    let slip = gate.replacen(halves, "rose blush | rose blush", 1);
    let report = checked(&slip);
    assert_eq!(report.findings.len(), 1);
    let mends: Vec<&str> = report.findings[0].mends.iter().map(|mend| mend.title.as_str()).collect();
    assert_eq!(
        mends[0], "put `rose` after `blush` in `strands`: the halves are equal then, and every promise holds",
        "{mends:#?}"
    );
}

/// Nothing is tied without it: the strands that hang loose are what shows.
#[test]
fn a_run_that_reaches_the_loose_strands_is_put_in() {
    let breakwater = include_str!("../../../shared/patterns/breakwater.knot");
    let found = brought_back(breakwater, "    both { take left 1: forward to center left }\n");
    assert!(found.iter().any(|mend| mend.starts_with("25: put in `both { take left ")), "{found:?}");
    let gate = include_str!("../../../shared/patterns/garden-gate.knot");
    let found = brought_back(gate, "  both { take left 1 (frame): forward-backward 1 }\n");
    let put_in = "17: put in `both { take left 1: forward-backward 1 }` before `on inside 1 { ...`";
    assert!(found.iter().any(|mend| mend == put_in), "{found:?}");
}

/// A hole of two knots, as another step ties them.
#[test]
fn what_a_strand_in_hand_ties_elsewhere_fills_a_hole() {
    let moth = include_str!("../../../shared/patterns/lamp-moth.knot");
    let found = brought_back(moth, "      take left 4 (wing): forward-backward 1, backward-forward 1\n");
    let put_in = "put in `take left 4: forward-backward 1, backward-forward 1` ";
    assert!(found.iter().any(|mend| mend.contains(put_in)), "{found:?}");
}

/// Who counts each color once for both halves gets them side by side: all that follows is one finding.
#[test]
fn colors_that_hang_on_both_sides_are_counted_for_one_half() {
    let right = "pattern \"Market day\"\nthread plum #5a2a4a\nthread lime #9fb84a\nthread milk #f5f0e4\n\
        strands plum lime milk | mirror\nset {\n  take left 1 (plum): forward 2\n  take right 1 (plum): backward 2\n  \
        meet center\n  take left 1 (lime): forward 2\n  take right 1 (lime): backward 2\n  meet center\n  \
        take left 1 (milk): forward 2\n  take right 1 (milk): backward 2\n  meet center\n  expect start\n}\n";
    assert!(checked(right).findings.is_empty());
    let wrong = right.replace("plum lime milk | mirror", "2 plum 2 lime 2 milk");
    let found = checked(&wrong).findings;
    assert_eq!(found.len(), 1, "{found:?}");
    let edits = found[0].mends[0].edits.iter().map(|Edit { place, text }| (place.span, text.as_str()));
    assert_eq!(apply_edits(&wrong, edits).as_deref(), Some(right), "{:?}", found[0].mends);
}
