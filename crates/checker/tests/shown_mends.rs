//! Of many mends only those are put in order that are shown.

use knotwright_checker::{Mend, NoLibrary, Settings, Source, check};
use std::sync::Arc;

const BAND: &str = r#"pattern "Slipway"

thread rope #c8a165
thread tar #222222
thread foam #f4f1e8

strands rope tar foam | mirror

set {
  both { take left 1 (rope): forward 2 }
  meet center
  both { take left 1 (tar): forward 2 }
  meet center
  expect foam rope tar | mirror
  both {
    take left 1 (foam): forward 1
    take left 2 (foam): forward to center left
  }
  meet center
}
"#;

/// By finding.
fn mends(text: &str, shown_mends: Option<usize>) -> Vec<Vec<Mend>> {
    let settings = Settings { shown_mends, ..Settings::default() };
    let report = check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &settings);
    report.findings.into_iter().map(|finding| finding.mends).collect()
}

#[test]
fn they_are_the_first_of_all_whatever_number_is_wrong() {
    let mut most = 0;
    for at in BAND.find("set {").expect("a set")..BAND.len() {
        for number in ('0'..='4').filter(|_| BAND[at..].starts_with(|sign: char| sign.is_ascii_digit())) {
            let wrong = format!("{}{number}{}", &BAND[..at], &BAND[at + 1..]);
            let all = mends(&wrong, None);
            most = all.iter().map(Vec::len).fold(most, usize::max);
            for shown in [1, 3] {
                let first = |mut mends: Vec<Vec<Mend>>| {
                    mends.iter_mut().for_each(|mends| mends.truncate(shown));
                    mends
                };
                assert_eq!(first(mends(&wrong, Some(shown))), first(all.clone()), "{wrong}");
            }
        }
    }
    assert!(most > 3, "there are no more than {most} mends, so that nothing is tested");
}
