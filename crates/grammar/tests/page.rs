//! Whole files.

mod support;

use support::accept;

/// The form of a whole file, all head statements and most body statements.
const WHOLE: &str = r#"pattern "Tidepool ladder"
about "Ten strands: two fans, then a ladder down the middle."

thread kelp #1f5d50 "deep kelp"
thread foam #f4f1e8
thread sand goldenrod

strands 2 kelp foam 2 sand | mirror

gauge {
  thickness 0.9 mm
  10 knots use 105 mm
  20 rows measure 32 mm
}
length 15 cm
ends 12 cm

motif fan(size) {
  take left 1: forward size down to 1
}

set {
  section "fans" {
    both { on left 5 { work fan(4) } }
  }
  section "ladder" {
    on center 4 {
      take left 1 (foam): forward to center left
      take right 1 (foam): backward to center right
      meet center
    }
  }
  expect foam 2 sand 2 kelp | mirror
}
"#;

#[test]
fn a_whole_file_parses() {
    let parsed = accept(WHOLE);
    assert_eq!(parsed.tree.walk().count(), 25);
}
