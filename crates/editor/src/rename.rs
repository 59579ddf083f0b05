//! A name is given anew, everywhere it stands, so that all that was read is read the same.

use crate::edits::apply;
use crate::names::{Names, Sort};
use crate::world::{Stands, everywhere};
use crate::{Checked, FileEdit, World};
use knotwright_checker::Source;
use knotwright_grammar::{Span, TokenKind, lex, words};
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
        return Err(Refusal(format!("Nothing gives the name `{}` here.", symbol.name)));
    }
    if let Some(number) = symbol.from
        && checked.uses().get(number).is_none_or(|used| used.source.is_none())
    {
        return Err(Refusal(format!("The file that `{}` comes from cannot be had.", symbol.name)));
    }
    Ok((mention.span, mention.span.of(checked.text()).to_owned()))
}

/// The edits that give the name under the cursor anew, in order of file and place.
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
        return Err(Refusal(format!("`{new}` is no name: a letter, then letters, digits, `-` and `_`.")));
    }
    if words::is_reserved(&new) {
        return Err(Refusal(format!("`{new}` is a word of the notation and cannot be a name.")));
    }
    Ok(new)
}

/// Refuses a name that is taken, or that would make the file read otherwise.
fn refuse(stands: &Stands, sort: Sort, edits: &[FileEdit], new: &str) -> Result<(), Refusal> {
    let before = Names::of(&stands.source);
    if let Some(taken) = taken(&before, stands, sort, new) {
        return Err(Refusal(format!("`{new}` is the name of a {taken} already.")));
    }
    let text = apply(&stands.source.text, edits.iter().map(|edit| (edit.span, edit.text.as_str())));
    let renamed = Source::new(stands.source.path.clone(), text);
    let same = renamed.parsed.problems.len() == stands.source.parsed.problems.len()
        && alike(&before, &Names::of(&renamed));
    if same {
        Ok(())
    } else {
        Err(Refusal(format!("With the name `{new}` some line would be read otherwise.")))
    }
}

/// What has the name already where this one reaches.
fn taken(names: &Names, stands: &Stands, sort: Sort, new: &str) -> Option<&'static str> {
    let own = stands.spans.first().and_then(|(span, _)| names.exactly(*span))?.symbol;
    let reach = names.symbols()[own].reach;
    let rival = names.symbols().iter().enumerate().find(|(number, symbol)| {
        *number != own
            && symbol.name == new
            && symbol.given.is_some()
            && (symbol.sort == Sort::Motif) == (sort == Sort::Motif)
            && symbol.reach.start < reach.end
            && reach.start < symbol.reach.end
    });
    rival.map(|(_, symbol)| symbol.sort.word())
}

/// Whether the same things are named in the same order.
fn alike(before: &Names, after: &Names) -> bool {
    let shape = |names: &Names| -> Vec<(usize, bool)> {
        names.mentions().iter().map(|mention| (mention.symbol, mention.gives)).collect()
    };
    shape(before) == shape(after)
}
