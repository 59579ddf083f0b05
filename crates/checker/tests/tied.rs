//! What is tied without looking for warnings and mends is what `check` ties.
#![expect(clippy::disallowed_methods, reason = "the tests read the samples")]

use knotwright_band::Piece;
use knotwright_checker::{NoLibrary, PartKind, Pattern, Settings, Severity, Source, analyze, check, rules};
use std::path::Path;
use std::sync::Arc;

fn pieces(pattern: &Pattern) -> Vec<(PartKind, &Piece)> {
    pattern.parts().map(|(kind, part)| (kind, &part.piece)).collect()
}

/// Every sample, and the example of every rule with its mended twin.
fn texts() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/patterns");
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let patterns = files.filter(|path| path.extension().is_some_and(|ending| ending == "knot"));
    let samples = patterns.map(|path| std::fs::read_to_string(path).unwrap());
    let examples = rules::all().iter().flat_map(|rule| [rule.example, rule.instead]).map(str::to_owned);
    samples.chain(examples).collect()
}

#[test]
fn errors_and_knots_are_those_of_check() {
    let texts = texts();
    assert!(texts.len() > 100);
    for text in texts {
        let source = Arc::new(Source::new("band.knot", text));
        let report = check(Arc::clone(&source), &NoLibrary, &Settings::default());
        let tied = analyze(Arc::clone(&source), &NoLibrary);
        let errors = tied.errors();
        let is_error = report.findings.iter().any(|finding| finding.severity == Severity::Error);
        assert_eq!(!errors.is_empty(), is_error, "{}", source.text);
        // `check` may say several errors as the one mistake that they come from; each of its own is here.
        for finding in report.findings.iter().filter(|finding| finding.severity == Severity::Error) {
            let same = |error: &&knotwright_checker::Finding| {
                (error.rule.name, error.place, &error.message)
                    == (finding.rule.name, finding.place, &finding.message)
            };
            assert!(errors.iter().find(same).is_some(), "{}: {:?}", source.text, finding.message);
        }
        assert_eq!(tied.pattern().map(pieces), report.pattern.as_ref().map(pieces));
    }
}
