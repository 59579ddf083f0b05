//! Strands as a person tells them: `2 foam kelp | mirror`, in the words of a `strands` line.

use crate::bands::Band;
use knotwright_checker::{NoLibrary, Pattern, Settings, Severity, Source, check};
use std::sync::Arc;

/// By position, the number of the pattern's thread.
///
/// # Errors
/// In words: what is told is no list, names other threads, or is not as many strands of each as the pattern has.
pub(crate) fn hanging(band: &Band, told: &str) -> Result<Vec<u16>, String> {
    if told.contains(char::is_control) || told.contains("--") {
        return Err("write the strands on one line, from left to right: `2 foam kelp | mirror`".to_owned());
    }
    let pattern = &band.pattern;
    let report =
        check(Arc::new(Source::new("strands", as_pattern(pattern, told))), &NoLibrary, &Settings::default());
    let error = report.findings.iter().find(|finding| finding.severity == Severity::Error);
    if let Some(error) = error {
        return Err(format!("`{told}`: {}", error.message));
    }
    let hang = report.pattern.map(|told| told.strands).unwrap_or_default();
    compare(pattern, &hang)?;
    Ok(hang)
}

/// A pattern of the same threads in which the strands hang as told: it is read by the same rules.
fn as_pattern(pattern: &Pattern, told: &str) -> String {
    let mut text = "pattern \"As they hang\"\n".to_owned();
    for thread in &pattern.threads {
        let knotwright_color::Rgb { red, green, blue } = thread.color;
        text += &format!("thread {} #{red:02x}{green:02x}{blue:02x}\n", thread.name);
    }
    text + &format!("strands {told}\nset {{ take left 1: forward 1 }}\n")
}

fn compare(pattern: &Pattern, hang: &[u16]) -> Result<(), String> {
    let (told, wanted) = (hang.len(), pattern.strands.len());
    if told != wanted {
        return Err(format!("that is {told} strands, and the pattern has {wanted}"));
    }
    for (number, thread) in (0_u16..).zip(&pattern.threads) {
        let count = |of: &[u16]| of.iter().filter(|thread| **thread == number).count();
        let (told, wanted) = (count(hang), count(&pattern.strands));
        if told != wanted {
            return Err(format!("that is {told} strands of {}, and the pattern has {wanted}", thread.name));
        }
    }
    Ok(())
}
