//! What must hold of any text, within one process.

use knotwright_band::compare::{Colored, Likeness, compare_bands, find_edits, same_up_to};
use knotwright_checker::{NoLibrary, Pattern, Settings, SettingsFile, Source, check};
use knotwright_formatter::format_text;
use knotwright_grammar::parse;
use knotwright_workspace::fenced_patterns;
use std::sync::Arc;

/// It is parsed, checked and formatted.
pub(crate) fn text(text: &str) -> Result<(), String> {
    parsed(text)?;
    checked(text)?;
    laid_out(text)
}

/// What is read of it has places in it.
pub(crate) fn parsed(text: &str) -> Result<(), String> {
    let parsed = parse(text);
    let outside =
        parsed.tokens.iter().map(|token| token.span).chain(parsed.problems.iter().map(|said| said.span));
    for span in outside {
        if text.get(span.start as usize..span.end as usize).is_none() {
            return Err(format!("{span:?} is no place in the text"));
        }
    }
    Ok(())
}

/// Formatting twice is formatting once.
pub(crate) fn laid_out(text: &str) -> Result<(), String> {
    let once = format_text(text);
    if format_text(&once) == once { Ok(()) } else { Err("formatted twice it is another text".to_owned()) }
}

/// What is said of it has places in it. The pattern, if it is tied as it is written.
pub(crate) fn checked(text: &str) -> Result<Option<Pattern>, String> {
    let report = check(Arc::new(Source::new("soak.knot", text)), &NoLibrary, &Settings::default());
    for finding in &report.findings {
        let notes = finding.notes.iter().map(|note| note.place);
        let edits = finding.mends.iter().flat_map(|mend| &mend.edits).map(|edit| edit.place);
        for place in std::iter::once(finding.place).chain(notes).chain(edits) {
            if text.get(place.span.start as usize..place.span.end as usize).is_none() {
                return Err(format!("{}: {place:?} is no place in the text", finding.rule.name));
            }
        }
    }
    Ok(report.pattern.filter(Pattern::is_whole))
}

/// Its patterns stand where they are said to stand, and what is said of them does, too.
pub(crate) fn page(text: &str) -> Result<(), String> {
    let page: Arc<str> = text.into();
    for block in fenced_patterns(text) {
        let there = text.get(block.place.start..block.place.start + block.text.len());
        let there = there.ok_or_else(|| format!("{:?} is no place in the page", block.place))?;
        let same = |(own, there): (u8, u8)| own == there || own == b' ';
        if !block.text.bytes().zip(there.bytes()).all(same) || text.get(block.fence.clone()).is_none() {
            return Err(format!("the pattern at {:?} is another text there", block.place));
        }
        checked(&block.text)?;
        let source = Arc::new(Source::new("soak.md", &*block.text));
        let report = check(source, &NoLibrary, &Settings::default()).in_page(&page, block.place.start);
        for finding in &report.findings {
            let span = finding.place.span;
            if text.get(span.start as usize..span.end as usize).is_none() {
                return Err(format!("{}: {span:?} is no place in the page", finding.rule.name));
            }
        }
        // What is put into it and taken out again leaves the page as it was.
        let alone = block.alone(text);
        let (place, put) = alone.placed(0..alone.text.len(), &alone.text);
        let again = [&text[..place.start], &put, &text[place.end..]].concat();
        // On a blank line the marks of a quote may be longer or shorter.
        let lines = |text: String| {
            let lines = text.replace("\r\n", "\n");
            lines.split(['\n', '\r']).map(|line| line.trim_end().to_owned()).collect::<Vec<_>>()
        };
        let texts = |page: &str| {
            let alone = fenced_patterns(page).into_iter().map(|of| of.alone(page).text);
            alone.map(lines).collect::<Vec<_>>()
        };
        if texts(&again) != texts(text) {
            return Err("a pattern put back in its place is another one".to_owned());
        }
    }
    Ok(())
}

/// They are read, or something is said about them in words.
pub(crate) fn settings(text: &str) -> Result<(), String> {
    match SettingsFile::parse(text) {
        Err(error) if error.to_string().is_empty() => Err("an error without words".to_owned()),
        _ => Ok(()),
    }
}

/// A band is like itself, and what is said of two holds both ways.
pub(crate) fn compare(one: &str, other: &str) -> Result<(), String> {
    let (Some(one), Some(other)) = (checked(one)?, checked(other)?) else { return Ok(()) };
    for (one_part, other_part) in [(&one.opening, &other.opening), (&one.set, &other.set)] {
        let (Some(one_part), Some(other_part)) = (one_part, other_part) else { continue };
        let first = Colored { piece: &one_part.piece, colors: &one.strands };
        let second = Colored { piece: &other_part.piece, colors: &other.strands };
        if compare_bands(first, first) != Likeness::Same {
            return Err("a band is not like itself".to_owned());
        }
        if compare_bands(first, second) != compare_bands(second, first) {
            return Err("two bands are alike in one direction only".to_owned());
        }
        if first.piece.knots().len().max(second.piece.knots().len()) < 2000 {
            let (there, back) =
                (find_edits(first.piece, second.piece), find_edits(second.piece, first.piece));
            if let (Some(there), Some(back)) = (there, back)
                && (there.fewest && back.fewest && there.count() != back.count())
            {
                return Err(format!("{} edits lead there and {} back", there.count(), back.count()));
            }
            same_up_to(first, second);
        }
    }
    Ok(())
}
