//! From the rows of a `face` to what is to be seen.

use super::{ReadFace, place};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId};
use crate::{FactKind, FileId, Place};
use knotwright_designer::WishedFace;
use knotwright_grammar::tree::{FaceChart, Mark, Sign, Statement};
use knotwright_numbers::ToNumber;

/// By letter, the thread.
type Letters = Vec<(char, ThreadId)>;

/// The most unknown letters that are told.
const MOST_UNKNOWN: usize = 50;

/// Letters that stand for nothing, with where they stand first, and again.
type UnknownLetters = Vec<(char, Place, Vec<Place>)>;

/// The face that a statement says. `None` if it does not say one: what is at fault is in `facts`, or is a problem of the
/// text or of a name.
pub(super) fn read_face(script: &Script, statement: &Statement, facts: &mut Facts) -> Option<ReadFace> {
    let face = statement.get::<FaceChart>()?;
    let strands = script.head.strands.as_ref()?.len();
    let before = facts.count();
    let letters = read_letters(script, face, facts)?;
    let mut rows = Vec::new();
    let mut marks = Vec::new();
    let mut unknown = Vec::new();
    for (number, row) in face.chart.rows.iter().enumerate() {
        if !row.whole {
            return None;
        }
        let first = (number + usize::from(face.offset.is_some())) % 2;
        let wanted = strands.saturating_sub(1 + first).div_ceil(2);
        if row.marks.len() != wanted {
            let kind = FactKind::RowLength { marks: row.marks.len(), wanted, width: strands };
            facts.say(Place { file: FileId::CHECKED, span: row.span }, kind);
            // With strands too many or too few, each further row is wrong as well.
            return None;
        }
        rows.push(row.marks.iter().map(|mark| read_mark(mark, &letters, &mut unknown)).collect());
        marks.extend(row.marks.iter().filter(|mark| mark.sign != Sign::Dot).map(mark_place));
    }
    for (letter, first, again) in unknown {
        facts.say(first, FactKind::FaceLetterUnknown { letter, again });
    }
    if facts.count() > before {
        return None;
    }
    let face = WishedFace::from_rows(strands, face.offset.is_some(), &rows).ok()?;
    Some(ReadFace { face, marks, head: place(statement) })
}

fn read_letters(script: &Script, face: &FaceChart, facts: &mut Facts) -> Option<Letters> {
    let mut letters: Vec<(char, ThreadId)> = Vec::new();
    let mut places: Vec<(char, Place)> = Vec::new();
    for key in &face.keys {
        let place = Place { file: FileId::CHECKED, span: key.letter.span };
        let letter = key.letter.text.chars().next()?;
        if let Some(&(_, first)) = places.iter().find(|(other, _)| *other == letter) {
            facts.say(place, FactKind::NameTaken { name: key.letter.text.clone(), first });
            return None;
        }
        places.push((letter, place));
        // What no thread is called is said where names are looked up.
        let thread = script.head.threads.iter().position(|thread| thread.name == key.thread.text)?;
        letters.push((letter, thread.to_u16()));
    }
    Some(letters)
}

/// `None` for no knot, `Some(None)` for whatever color.
fn read_mark(mark: &Mark, letters: &Letters, unknown: &mut UnknownLetters) -> Option<Option<u16>> {
    match mark.sign {
        Sign::Letter(letter) => {
            let thread = letters.iter().find(|(known, _)| *known == letter).map(|(_, thread)| *thread);
            if thread.is_none() {
                let place = mark_place(mark);
                match unknown.iter().position(|(known, ..)| *known == letter) {
                    Some(known) => unknown[known].2.push(place),
                    None if unknown.len() == MOST_UNKNOWN => {}
                    None => unknown.push((letter, place, Vec::new())),
                }
            }
            Some(thread)
        }
        Sign::Any => Some(None),
        // The others are refused by the grammar already.
        Sign::Dot
        | Sign::Hash
        | Sign::Same
        | Sign::Forward
        | Sign::Backward
        | Sign::ForwardBackward
        | Sign::BackwardForward => None,
    }
}

fn mark_place(mark: &Mark) -> Place {
    Place { file: FileId::CHECKED, span: mark.span() }
}
