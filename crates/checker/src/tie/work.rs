//! `work`: a motif is tied where it is named.

use super::width::is_misnumbered;
use super::{Done, Halt, Tie};
use crate::resolve::{MotifRef, Slot};
use crate::{FactKind, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Motif, Work};
use knotwright_numbers::ToNumber;

/// Blocks within blocks, those of motifs included; 64 more may follow in the motif itself.
const DEEPEST: usize = 160;

/// Of how many motifs the text is looked through.
const MOST_MISNUMBERED: usize = 64;

impl<'a> Tie<'a> {
    pub(super) fn work(&mut self, work: &'a Work, span: Span) -> Done {
        let slot = self.script.file(self.file).and_then(|file| file.motifs.get(&work.motif.text));
        let Some(&Slot::Known(found)) = slot else { return Err(Halt::Lost) };
        let Some(motif) = self.script.motif_at(found) else { return Err(Halt::Lost) };
        // Both were reported when names were looked up.
        if self.motifs.contains(&found) || motif.params.len() != work.args.len() {
            return Err(Halt::Lost);
        }
        self.fits(work, motif, found)?;
        self.enter(work, motif, found, span)
    }

    fn fits(&mut self, work: &Work, motif: &Motif, found: MotifRef) -> Done {
        let name = work.motif.text.clone();
        if self.depth > DEEPEST {
            let deepest = self.through.len();
            return self.lost(work.motif.span, FactKind::WorkTooDeep { motif: name, deepest });
        }
        let Some(wanted) = &motif.width else { return Ok(()) };
        let width = self.frame.width();
        let defined = Place { file: found.file, span: motif.name.span };
        if i64::from(wanted.value) != width.to_i64() {
            // An edit that is tried fails, whichever of them is wrong.
            if self.trial.is_none() && self.is_misnumbered(found, width) {
                let place = Place { file: found.file, span: wanted.span };
                let wanted = wanted.value.to_usize();
                self.say_at(place, FactKind::MotifMeantForOther { motif: name, wanted, width });
                return Ok(());
            }
            let wanted = wanted.value.to_usize();
            return self
                .lost(work.motif.span, FactKind::MotifDoesNotFit { motif: name, wanted, width, defined });
        }
        Ok(())
    }

    /// Whether the number of a motif is wrong, and not where it is worked.
    fn is_misnumbered(&mut self, motif: MotifRef, width: usize) -> bool {
        let known = self.misnumbered.iter().find(|known| (known.0, known.1) == (motif, width));
        if let Some(&(.., known)) = known {
            return known;
        }
        if self.misnumbered.len() == MOST_MISNUMBERED {
            return false;
        }
        let is_so = is_misnumbered(self.script, motif, width);
        self.misnumbered.push((motif, width, is_so));
        is_so
    }

    fn enter(&mut self, work: &'a Work, motif: &'a Motif, found: MotifRef, span: Span) -> Done {
        let mark = self.scope.mark();
        let mut values = Vec::with_capacity(work.args.len());
        for argument in &work.args {
            self.spend()?;
            values.push(self.argument(argument)?);
        }
        let (file, frame) = (self.file, self.frame);
        for ((param, value), argument) in motif.params.iter().zip(values).zip(&work.args) {
            let given = self.place(argument.span());
            self.scope.give(&param.text, value, Some(given));
        }
        self.scope.close(mark.length());
        self.through.push(self.place(span));
        self.motifs.push(found);
        self.file = found.file;
        if work.mirrored.is_some() {
            self.frame = frame.mirror();
        }
        let done = self.block(&motif.block);
        self.scope.back(mark);
        self.through.pop();
        self.motifs.pop();
        (self.file, self.frame) = (file, frame);
        done
    }
}
