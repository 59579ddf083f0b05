//! `check --mend`

use crate::stage::{BROKEN, Stage};

#[test]
fn what_has_no_certain_cure_is_told_and_left() {
    let hopeless = BROKEN.replace("(sand)", "(coral)");
    let stage = Stage::with(&[("a.knot", &hopeless)]);
    let said = stage.run(&["check", "--mend", "a.knot"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert_eq!(stage.read("a.knot"), hopeless);
}
