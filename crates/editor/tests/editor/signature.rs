//! Signature help.

use crate::support::{HEAD, at, in_set};
use knotwright_editor::{Checked, signature};

/// The form with the active part in brackets.
fn shown((checked, offset): (Checked, u32)) -> Option<String> {
    let found = signature(&checked, offset)?;
    let mut label = found.label.clone();
    if let Some((start, end)) = found.active.map(|active| found.parts[active]) {
        label.insert(end as usize, '⟧');
        label.insert(start as usize, '⟦');
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
    assert_eq!(shown(in_set("-- take ‸")), None);
}
