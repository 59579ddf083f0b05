//! A name is changed wherever it stands, so that all that was read is read the same.

use crate::names::{NameIndex, NameSort};
use crate::world::{NameStands, everywhere};
use crate::{Checked, FileEdit, World};
use knotwright_checker::Source;
use knotwright_grammar::{Span, TokenKind, apply_edits, lex, words};
use unicode_normalization::UnicodeNormalization;

/// Why a name cannot be given, in a sentence for people.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal(pub String);

/// Whether the word under the cursor can be renamed: where it stands and what it is now.
///
/// # Errors
/// Why not.
pub fn prepare_rename(checked: &Checked, offset: u32) -> Result<(Span, String), Refusal> {
    let names = checked.names();
    let Some(mention) = names.at(offset) else {
        return Err(Refusal(
            "Only threads, motifs, parameters, labels and counting names can be renamed.".into(),
        ));
    };
    let symbol = names.symbol(mention);
    if symbol.given.is_none() {
        return Err(Refusal(format!("Nothing here declares the name `{}`.", symbol.name)));
    }
    if let Some(number) = symbol.from
        && checked.uses().get(number).is_none_or(|used| used.source.is_none())
    {
        return Err(Refusal(format!("The file that `{}` comes from cannot be read.", symbol.name)));
    }
    Ok((mention.span, mention.span.of(checked.text()).to_owned()))
}

/// The edits that rename what is under the cursor, in order of file and place.
///
/// # Errors
/// Why that cannot be: no name, reserved, taken, or something would be read otherwise than before.
pub fn rename(checked: &Checked, world: &World, offset: u32, new: &str) -> Result<Vec<FileEdit>, Refusal> {
    prepare_rename(checked, offset)?;
    let new = name(new)?;
    let names = checked.names();
    let Some(mention) = names.at(offset) else { return Ok(Vec::new()) };
    let sort = names.symbol(mention).sort;
    let mut edits = Vec::new();
    for stands in everywhere(checked, world, mention.symbol) {
        let own: Vec<FileEdit> = stands
            .spans
            .iter()
            .map(|(span, _)| FileEdit { path: stands.source.path.clone(), span: *span, text: new.clone() })
            .collect();
        refuse(&stands, sort, &own, &new)?;
        edits.extend(own);
    }
    edits.sort();
    Ok(edits)
}

/// The name in NFC, if it is one.
fn name(written: &str) -> Result<String, Refusal> {
    let new: String = written.trim().nfc().collect();
    let one_word = matches!(lex(&new).as_slice(), [only] if only.kind == TokenKind::Word && only.span.len() == new.len());
    if !one_word {
        return Err(Refusal(format!(
            "`{new}` is not a name: use a letter, then letters, digits, `-` and `_`."
        )));
    }
    if words::is_reserved(&new) {
        return Err(Refusal(format!("`{new}` is a word of the notation and cannot be a name.")));
    }
    Ok(new)
}

/// Refuses a name that is taken, or that would make the file read otherwise.
fn refuse(stands: &NameStands, sort: NameSort, edits: &[FileEdit], new: &str) -> Result<(), Refusal> {
    let before = NameIndex::of(&stands.source);
    if let Some(taken) = taken(&before, stands, sort, new) {
        return Err(Refusal(format!("`{new}` is already the name of a {taken}.")));
    }
    let reads_alike = |text: String| {
        let renamed = Source::new(stands.source.path.clone(), text);
        renamed.parsed.problems.len() == stands.source.parsed.problems.len()
            && alike(&before, &NameIndex::of(&renamed))
    };
    let edits = edits.iter().map(|edit| (edit.span, edit.text.as_str()));
    if apply_edits(&stands.source.text, edits).is_some_and(reads_alike) {
        Ok(())
    } else {
        Err(Refusal(format!("With the name `{new}`, some line would mean something else.")))
    }
}

/// What has the name already where this one reaches.
fn taken(names: &NameIndex, stands: &NameStands, sort: NameSort, new: &str) -> Option<&'static str> {
    let own = stands.spans.first().and_then(|(span, _)| names.exactly(*span))?.symbol;
    let reach = names.symbols()[own].reach;
    let rival = names.symbols().iter().enumerate().find(|(number, symbol)| {
        *number != own
            && symbol.name == new
            && symbol.given.is_some()
            && name_space(symbol.sort) == name_space(sort)
            && symbol.reach.start < reach.end
            && reach.start < symbol.reach.end
    });
    rival.map(|(_, symbol)| symbol.sort.word())
}

/// Motifs and beads have a name space each; all others share one.
fn name_space(sort: NameSort) -> u8 {
    match sort {
        NameSort::Thread | NameSort::Parameter | NameSort::Counter | NameSort::Label => 0,
        NameSort::Motif => 1,
        NameSort::Bead => 2,
    }
}

/// Whether the same things are named in the same order.
fn alike(before: &NameIndex, after: &NameIndex) -> bool {
    let shape = |names: &NameIndex| -> Vec<(usize, bool)> {
        names.mentions().iter().map(|mention| (mention.symbol, mention.gives)).collect()
    };
    shape(before) == shape(after)
}
