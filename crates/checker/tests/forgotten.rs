//! A line or a strand that was forgotten: what is proposed to put in.

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
        Some((pattern.strands, pattern.set.map(|set| set.piece)))
    };
    let said = |mend: &Mend| {
        let start = mend.edits[0].place.span.start.to_usize();
        let title = mend.title.split_once(": ").map_or(&mend.title[..], |(edit, _)| edit);
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
