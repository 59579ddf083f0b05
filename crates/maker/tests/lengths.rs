//! A band that is to be shorter than one set: what is refused when it is measured was reported when it was checked.

mod folder;

use folder::{SampleFolder, sample_sources};
use knotwright_checker::{Extent, Report, Settings, Source, check};
use knotwright_maker::{MeasureOptions, Measured, NotMeasured};
use std::sync::Arc;

fn checked(text: String) -> Report {
    check(Arc::new(Source::new("band.knot", text)), &SampleFolder, &Settings::default())
}

/// The samples as their files say them, without how long they become.
fn texts() -> Vec<String> {
    let is_extent = |line: &&str| line.starts_with("length ") || line.starts_with("sets ");
    let without = |source: Arc<Source>| {
        source.text.lines().filter(|line| !is_extent(line)).map(|line| format!("{line}\n")).collect()
    };
    sample_sources().into_iter().map(without).collect()
}

#[test]
fn check_reports_exactly_the_lengths_that_are_refused() {
    let (mut refused, mut measured) = (0, 0);
    for text in texts() {
        let Some(pattern) = checked(text.clone()).pattern.filter(|pattern| pattern.set.is_some()) else {
            continue;
        };
        let wish = MeasureOptions { extent: Some(Extent::Sets(1)), ..MeasureOptions::default() };
        let Ok(one_set) = Measured::new(&pattern, wish) else { continue };
        let least = one_set.length() * (1.0 - one_set.figures.length_uncertainty);
        for (part, is_refused) in [(0.99, true), (1.01, false)] {
            let report = checked(format!("{text}length {:.3} mm\n", least * part));
            let is_told = report.findings.iter().any(|finding| finding.rule.name == "shorter-than-set");
            let of_it = Measured::new(report.pattern.as_ref().unwrap(), MeasureOptions::default());
            let is_too_short = matches!(of_it, Err(NotMeasured::TooShort { .. }));
            assert_eq!((is_told, is_too_short), (is_refused, is_refused), "{least} times {part} of\n{text}");
            match of_it {
                Ok(band) => {
                    assert_eq!(band.sets, 1, "{text}");
                    measured += 1;
                }
                Err(_) => refused += 1,
            }
        }
    }
    assert!(refused > 20 && measured > 20, "{refused} refused, {measured} measured");
}
