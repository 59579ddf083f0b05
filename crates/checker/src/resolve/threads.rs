//! The threads of a file and its other colorways.

use super::shades::read_shades;
use super::{ThreadId, UNKNOWN_THREAD, nearest::nearest_word};
use crate::facts::Facts;
use crate::{Colorway, FactKind, FileId, PatternThread, Place, Translations};
use knotwright_color::Rgb;
use knotwright_grammar::tree::{Block, Text, Thread, Tree};
use rustc_hash::FxHashMap as HashMap;
use smol_str::SmolStr;

/// What a thread looks like whose color cannot be read.
const GRAY: Rgb = Rgb { red: 128, green: 128, blue: 128 };

/// The threads of `tree`, each name once. Facts are reported for the checked file only.
pub(super) fn read_threads(tree: &Tree, file: FileId, facts: &mut Facts) -> Vec<PatternThread> {
    let mut found: Vec<PatternThread> = Vec::new();
    let mut seen: HashMap<SmolStr, Place> = HashMap::default();
    for statement in &tree.statements {
        let Some(thread) = statement.get::<Thread>() else { continue };
        let place = Place { file, span: thread.name.span };
        let name = thread.name.text.clone();
        if let Some(&first) = seen.get(&name) {
            if file == FileId::CHECKED {
                facts.say(place, FactKind::NameTaken { name, first });
            }
            continue;
        }
        seen.insert(name, place);
        found.push(read(thread, file, facts));
    }
    found
}

fn read(thread: &Thread, file: FileId, facts: &mut Facts) -> PatternThread {
    let first = color(&thread.color, file, facts);
    PatternThread {
        name: thread.name.text.clone(),
        color: first,
        shades: read_shades(thread, first, file, facts),
        label: thread.label.as_ref().map(|label| label.value.clone()),
        labels: Translations::of(&thread.others),
    }
}

pub(super) fn color(written: &Text, file: FileId, facts: &mut Facts) -> Rgb {
    written.value.parse().unwrap_or_else(|_| {
        if file == FileId::CHECKED && !facts.is_full() {
            let nearest = nearest_word(&written.value, knotwright_color::color_names().into_iter());
            let place = Place { file, span: written.span };
            facts.say(place, FactKind::UnknownColor { written: written.value.clone(), nearest });
        }
        GRAY
    })
}

/// Numbers `threads` after those that have a number.
pub(super) fn number_threads(
    threads: &[PatternThread],
    names: &mut Vec<SmolStr>,
) -> HashMap<SmolStr, ThreadId> {
    let mut numbers = HashMap::with_capacity_and_hasher(threads.len(), Default::default());
    for thread in threads {
        // More threads than strands could ever be named; the rest is taken for anything.
        let id = ThreadId::try_from(names.len()).unwrap_or(UNKNOWN_THREAD);
        numbers.insert(thread.name.clone(), id);
        if id != UNKNOWN_THREAD {
            names.push(thread.name.clone());
        }
    }
    numbers
}

/// A colorway: `threads` in the colors of `block`.
pub(super) fn read_colorway(
    name: &Text,
    block: &Block,
    threads: &[PatternThread],
    facts: &mut Facts,
) -> Colorway {
    let file = FileId::CHECKED;
    let mut recolored = threads.to_vec();
    let by_name: HashMap<SmolStr, usize> =
        recolored.iter().enumerate().map(|(at, thread)| (thread.name.clone(), at)).collect();
    let mut seen: HashMap<SmolStr, Place> = HashMap::default();
    for statement in &block.statements {
        let Some(thread) = statement.get::<Thread>() else { continue };
        let place = Place { file, span: thread.name.span };
        if let Some(first) = seen.insert(thread.name.text.clone(), place) {
            facts.say(place, FactKind::Repeated { statement: "thread", first });
        }
        let new = read(thread, file, facts);
        // An unknown name is reported where all names are checked.
        if let Some(&at) = by_name.get(&new.name) {
            let known = &mut recolored[at];
            (known.color, known.shades) = (new.color, new.shades);
            // A new label without translations is not what the old one is in other languages.
            if new.label.is_some() || !new.labels.is_empty() {
                known.labels = new.labels;
            }
            known.label = new.label.or(known.label.take());
        }
    }
    Colorway { name: name.value.clone(), threads: recolored }
}
