//! Signature help.

use crate::support::{HEAD, at, in_set};
use knotwright_editor::{Checked, signature_help};
use knotwright_numbers::ToNumber;

/// The form with the active part in brackets.
fn shown((checked, offset): (Checked, u32)) -> Option<String> {
    let found = signature_help(&checked, offset)?;
    let mut label = found.label.clone();
    if let Some((start, end)) = found.active.map(|active| found.parts[active]) {
        label.insert(end.to_usize(), '⟧');
        label.insert(start.to_usize(), '⟦');
    }
    Some(label)
}

#[test]
fn a_motif_tells_its_parameters() {
    let body = |work: &str| at(&format!("{HEAD}motif fan(size, hue) on 8 {{\n}}\nset {{\n  {work}\n}}\n"));
    assert_eq!(shown(body("work fan(‸)")).unwrap(), "fan(⟦size⟧, hue) on 8");
    assert_eq!(shown(body("work fan(2 * (1 + 1), ‸")).unwrap(), "fan(size, ⟦hue⟧) on 8");
    assert_eq!(shown(body("work fan(1, kelp, ‸)")).unwrap(), "fan(size, hue) on 8");
    assert_eq!(shown(body("work fan(1, kelp) ‸")), None);
    assert_eq!(shown(body("work gone(‸)")), None);
}

#[test]
fn a_take_tells_what_is_due() {
    assert_eq!(shown(in_set("take ‸")).unwrap(), "take ⟦STRAND⟧ [(COLOR)] [as LABEL]: RUNS");
    assert_eq!(shown(in_set("take left 1 (‸")).unwrap(), "take STRAND [⟦(COLOR)⟧] [as LABEL]: RUNS");
    assert_eq!(shown(in_set("take left 1 (kelp) as ‸")).unwrap(), "take STRAND [(COLOR)] [⟦as LABEL⟧]: RUNS");
    assert_eq!(
        shown(in_set("take left 1: forward 1,\n  ‸")).unwrap(),
        "take STRAND [(COLOR)] [as LABEL]: ⟦RUNS⟧"
    );
    assert_eq!(shown(in_set("for step ‸")).unwrap(), "for NAME ⟦A down to B⟧ [by S] { ... }");
    assert_eq!(shown(in_set("rows ‸")).unwrap(), "rows [⟦offset⟧] { ... }");
    assert_eq!(shown(in_set("meet ‸")).unwrap(), "meet ⟦center⟧");
    assert_eq!(shown(in_set("-- take ‸")), None);
}

#[test]
fn the_head_tells_what_is_due() {
    let form = |line: &str| shown(at(&format!("pattern \"A\"\n{line}\n"))).unwrap();
    assert_eq!(form("strands ‸"), "strands ⟦LIST⟧");
    assert_eq!(form("strands from left kelp ‸"), "strands ⟦from left LIST⟧, from right LIST");
    assert_eq!(form("strands from left kelp, from right ‸"), "strands from left LIST, ⟦from right LIST⟧");
    assert_eq!(form("use fan ‸"), "use ⟦NAME, NAME⟧ from \"PATH\"");
    assert_eq!(form("use fan from ‸"), "use NAME, NAME ⟦from \"PATH\"⟧");
}
