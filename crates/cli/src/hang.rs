//! Strands as a person lists them: `2 foam kelp | mirror`, in the words of a `strands` line or of the instructions.

use crate::bands::BandFile;
use knotwright_checker::{NoLibrary, Pattern, Settings, Severity, Source, check};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// By position, the number of the pattern's thread.
///
/// # Errors In words: what was typed is not a list, names other threads, or is not as many strands of each as the
/// pattern has.
pub(crate) fn hanging(band: &BandFile, typed: &str) -> Result<Vec<u16>, String> {
    if typed.contains(char::is_control) || typed.contains("--") {
        return Err("write the strands on one line, from left to right: `2 foam kelp | mirror`".to_owned());
    }
    let pattern = &band.pattern;
    let named = in_names(pattern, typed)?;
    let report = check(
        Arc::new(Source::new("strands", as_pattern(pattern, &named))),
        &NoLibrary,
        &Settings::default(),
    );
    let error = report.findings.iter().find(|finding| finding.severity == Severity::Error);
    if let Some(error) = error {
        return Err(format!("`{typed}`: {}", error.message));
    }
    let hang = report.pattern.map(|pattern| pattern.strands).unwrap_or_default();
    compare(pattern, &hang)?;
    Ok(hang)
}

/// What people call the threads, each with the names it may mean: labels in all languages, also those of colorways, and
/// the names themselves.
fn spoken(pattern: &Pattern) -> BTreeMap<&str, BTreeSet<&str>> {
    let colorways = pattern.colorways.iter().map(|colorway| &colorway.threads);
    let mut spoken: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for (thread, called) in std::iter::once(&pattern.threads)
        .chain(colorways)
        .flat_map(|threads| pattern.threads.iter().zip(threads))
    {
        let label = called.label.as_deref().filter(|label| !label.trim().is_empty());
        let labels = called.labels.iter().map(|(_, label)| label);
        for word in label.into_iter().chain(labels).chain([thread.name.as_str()]) {
            spoken.entry(word).or_default().insert(&thread.name);
        }
    }
    // A name means its own thread, whatever else is called so.
    for thread in &pattern.threads {
        spoken.insert(&thread.name, BTreeSet::from([thread.name.as_str()]));
    }
    spoken
}

/// The list with names of threads in place of what people call them.
///
/// # Errors In words: two threads are called so.
fn in_names(pattern: &Pattern, typed: &str) -> Result<String, String> {
    let mut spoken: Vec<(&str, BTreeSet<&str>)> = spoken(pattern).into_iter().collect();
    // The longest first: `deep kelp` is not `deep`.
    spoken.sort_by_key(|(word, _)| std::cmp::Reverse(word.len()));
    let ends_word =
        |rest: &str| !rest.starts_with(|next: char| next.is_alphanumeric() || "-_".contains(next));
    let (mut out, mut rest, mut begins) = (String::with_capacity(typed.len()), typed, true);
    while let Some(letter) = rest.chars().next() {
        let here = |word: &str| rest.strip_prefix(word).filter(|after| ends_word(after));
        let found =
            spoken.iter().filter(|_| begins).find_map(|(word, names)| Some((word, names, here(word)?)));
        let Some((word, names, after)) = found else {
            out.push(letter);
            rest = &rest[letter.len_utf8()..];
            begins = !(letter.is_alphanumeric() || "-_".contains(letter));
            continue;
        };
        if names.len() > 1 {
            let names = names.iter().copied().collect::<Vec<_>>().join(", ");
            return Err(format!("more than one thread is called `{word}`: use their names ({names})"));
        }
        out.extend(names.iter().copied());
        (rest, begins) = (after, false);
    }
    Ok(out)
}

/// A pattern of the same threads in which the strands hang as typed: it is read by the same rules.
fn as_pattern(pattern: &Pattern, typed: &str) -> String {
    let mut text = "pattern \"As they hang\"\n".to_owned();
    for thread in &pattern.threads {
        let knotwright_color::Rgb { red, green, blue } = thread.color;
        text += &format!("thread {} #{red:02x}{green:02x}{blue:02x}\n", thread.name);
    }
    text + &format!("strands {typed}\nset {{ take left 1: forward 1 }}\n")
}

fn compare(pattern: &Pattern, hang: &[u16]) -> Result<(), String> {
    let (given, wanted) = (hang.len(), pattern.strands.len());
    if given != wanted {
        return Err(format!("that is {given} strands, but the pattern has {wanted}"));
    }
    for (number, thread) in (0_u16..).zip(&pattern.threads) {
        let count = |of: &[u16]| of.iter().filter(|thread| **thread == number).count();
        let (given, wanted) = (count(hang), count(&pattern.strands));
        if given != wanted {
            return Err(format!("that is {given} strands of {}, but the pattern has {wanted}", thread.name));
        }
    }
    Ok(())
}
