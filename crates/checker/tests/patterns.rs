//! The sample patterns and the corpus.

use knotwright_checker::{Library, OpenError, Report, Settings, Source, check};
use knotwright_numbers::ToNumber;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The files beside the one that uses them.
struct Folder(PathBuf);

impl Library for Folder {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let text = read(&self.0.join(path)).ok_or(OpenError::Missing)?;
        Ok(Arc::new(Source::new(path, text)))
    }
}

#[expect(clippy::disallowed_methods, reason = "a test reads the samples")]
fn read(path: &Path) -> Option<String> {
    std::fs::read_to_string(path).ok()
}

#[expect(clippy::disallowed_methods, reason = "a test reads the samples")]
fn samples(folder: &str) -> Vec<(String, Report)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared").join(folder);
    let mut paths: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|end| end == "knot"));
    paths.sort();
    let library = Folder(folder);
    let report = |path: &PathBuf| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let source = Source::new(name.clone(), read(path).unwrap());
        (name, check(Arc::new(source), &library, &Settings::default()))
    };
    paths.iter().map(report).collect()
}

fn said(report: &Report) -> String {
    let line = |finding: &knotwright_checker::Finding| {
        let text = &report.files[finding.place.file.0.to_usize()].text;
        let line = text[..finding.place.span.start.to_usize()].matches('\n').count() + 1;
        format!("  line {line}: {}: {}\n", finding.rule.name, finding.message)
    };
    report.findings.iter().map(line).collect()
}

#[test]
fn every_sample_pattern_is_clean() {
    let mut samples = samples("patterns");
    assert!(samples.len() >= 16);
    samples.extend(self::samples("../crates/checker/tests/unseen"));
    let said: String = samples
        .iter()
        .filter(|(_, report)| !report.findings.is_empty())
        .map(|(name, report)| format!("{name}\n{}", said(report)))
        .collect();
    assert_eq!(said, "");
}

#[test]
fn the_corpus_is_checked_without_a_panic() {
    for folder in ["corpus/accepted", "corpus/refused"] {
        for (name, report) in samples(folder) {
            let broken = !report.files[0].parsed.problems.is_empty();
            assert_eq!(broken, folder.ends_with("refused"), "{name}");
            assert!(!broken || !report.findings.is_empty(), "{name}");
        }
    }
}
