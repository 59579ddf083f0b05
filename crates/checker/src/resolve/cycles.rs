//! A motif cannot work itself, not even by way of others.

use super::{MotifRef, Script, Slot};
use crate::facts::Facts;
use crate::{FactKind, FileId, Place};
use knotwright_grammar::tree::{Motif, Work};
use rustc_hash::FxHashMap as HashMap;

/// Reports every `work` that closes a circle of motifs.
pub(super) fn check_cycles(script: &Script, facts: &mut Facts) {
    let mut walk = Walk { script, facts, state: HashMap::default(), path: Vec::new() };
    for (index, statement) in script.source().parsed.tree.statements.iter().enumerate() {
        if statement.is::<Motif>() {
            walk.from(MotifRef { file: FileId::CHECKED, index });
        }
    }
}

#[derive(PartialEq)]
enum State {
    OnPath,
    Done,
}

/// A motif on the path and those of its `work` statements that are still to be followed.
struct Stop<'a> {
    motif: MotifRef,
    works: Vec<&'a Work>,
}

struct Walk<'a, 'f> {
    script: &'a Script,
    facts: &'f mut Facts,
    state: HashMap<MotifRef, State>,
    path: Vec<Stop<'a>>,
}

impl Walk<'_, '_> {
    /// Follows all that `motif` works, deepest first, without recursion: the path may be long.
    fn from(&mut self, motif: MotifRef) {
        self.enter(motif);
        while let Some(stop) = self.path.last_mut() {
            let Some(work) = stop.works.pop() else {
                self.state.insert(stop.motif, State::Done);
                self.path.pop();
                continue;
            };
            let file = stop.motif.file;
            let slot = self.script.file(file).and_then(|file| file.motifs.get(&work.motif.text));
            if let Some(&Slot::Known(next)) = slot {
                match self.state.get(&next) {
                    Some(State::OnPath) => self.tell(file, work, next),
                    Some(State::Done) => {}
                    None => self.enter(next),
                }
            }
        }
    }

    fn enter(&mut self, motif: MotifRef) {
        if self.state.contains_key(&motif) {
            return;
        }
        self.state.insert(motif, State::OnPath);
        let statements = self.script.motif_at(motif).into_iter().flat_map(|tree| tree.block.walk());
        let works = statements.filter_map(|statement| statement.get::<Work>());
        let mut works: Vec<_> = works.collect();
        works.reverse();
        self.path.push(Stop { motif, works });
    }

    fn tell(&mut self, file: FileId, work: &Work, back_to: MotifRef) {
        if self.facts.is_full() {
            return;
        }
        let start = self.path.iter().position(|stop| stop.motif == back_to).unwrap_or_default();
        let by_way_of = self.path[start + 1..]
            .iter()
            .filter_map(|stop| Some(self.script.motif_at(stop.motif)?.name.text.clone()))
            .collect();
        let place = Place { file, span: work.motif.span };
        self.facts.say(place, FactKind::MotifWorksItself { motif: work.motif.text.clone(), by_way_of });
    }
}
