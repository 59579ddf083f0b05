//! The beads of a file, and whether strands go through them.

use super::{measures, threads};
use crate::facts::Facts;
use crate::{FactKind, FileId, PatternBead, PatternThread, Place, Translations};
use knotwright_band::beads::hole_for;
use knotwright_band::thread::USUAL_THICKNESS;
use knotwright_grammar::tree::{Bead, Tree};
use rustc_hash::FxHashMap as HashMap;
use smol_str::SmolStr;

/// A hole that strands do not go through, or hardly. Lengths in millimeters.
#[derive(Debug, Clone, PartialEq)]
pub struct BeadInTheWay {
    /// The name of the bead.
    pub bead: SmolStr,
    /// How many strands go through it.
    pub strands: usize,
    /// How wide its hole is.
    pub hole: f64,
    /// How wide it must be.
    pub needed: f64,
    /// How thick the thread is.
    pub thickness: f64,
    /// Whether that is not said, and taken to be so.
    pub is_assumed: bool,
    /// Whether the strand goes through, but not as it is threaded, double in the eye of a needle.
    pub is_of_needle: bool,
}

/// The beads of a pattern, and what is said of its thread.
#[derive(Debug, Clone, Copy)]
pub(crate) struct KnownBeads<'a> {
    pub(crate) beads: &'a [PatternBead],
    pub(crate) thickness: Option<f64>,
}

impl KnownBeads<'_> {
    /// What is wrong if this many strands, of thread whose thickness the pattern says, are to go through that bead.
    pub(crate) fn in_the_way(&self, bead: u16, strands: usize) -> Option<BeadInTheWay> {
        self.hinders(bead, strands).filter(|found| !found.is_assumed && !found.is_of_needle)
    }

    /// What makes it hard, or surely would if the thread is the usual one.
    pub(crate) fn hinders(&self, bead: u16, strands: usize) -> Option<BeadInTheWay> {
        let PatternBead { look, hole, .. } = self.beads.get(usize::from(bead))?;
        let thickness = self.thickness.unwrap_or(USUAL_THICKNESS);
        let drawn = hole_for(strands, thickness);
        // One strand is threaded double, in the eye of a needle.
        let threaded = if strands == 1 { hole_for(2, thickness) } else { drawn };
        let is_of_needle = *hole >= drawn;
        let needed = if is_of_needle { threaded } else { drawn };
        // Written lengths have few digits: what differs by less is the same.
        let is_narrow = *hole + 1e-6 < needed;
        (strands > 0 && is_narrow).then(|| BeadInTheWay {
            bead: look.name.clone(),
            strands,
            hole: *hole,
            needed,
            thickness,
            is_assumed: self.thickness.is_none(),
            is_of_needle,
        })
    }
}

/// The beads of `tree`, each name once. Facts are reported for the checked file only.
pub(super) fn read_beads(tree: &Tree, file: FileId, facts: &mut Facts) -> Vec<PatternBead> {
    let (mut found, mut unheard) = (Vec::new(), Facts::default());
    let mut seen: HashMap<SmolStr, Place> = HashMap::default();
    let facts = if file == FileId::CHECKED { facts } else { &mut unheard };
    for statement in &tree.statements {
        let Some(bead) = statement.get::<Bead>() else { continue };
        let (place, name) = (Place { file, span: bead.name.span }, bead.name.text.clone());
        match seen.get(&name) {
            Some(&first) => facts.say(place, FactKind::NameTaken { name, first }),
            None => {
                seen.insert(name, place);
                found.push(read(bead, file, facts));
            }
        }
    }
    found
}

fn read(bead: &Bead, file: FileId, facts: &mut Facts) -> PatternBead {
    let across = measures::read_bead(&bead.size.across, facts);
    let hole = measures::read_hole(&bead.size.hole, facts);
    if let (Some(across), Some(hole)) = (across, hole)
        && hole >= across
    {
        facts.say(Place { file, span: bead.size.hole.span }, FactKind::BeadAllHole { across, hole });
    }
    let look = PatternThread {
        name: bead.name.text.clone(),
        color: threads::color(&bead.color, file, facts),
        shades: Vec::new(),
        label: bead.label.as_ref().map(|label| label.value.clone()),
        labels: Translations::of(&bead.others),
    };
    // With a size that cannot be, nothing more is said of the bead.
    PatternBead { look, across: across.unwrap_or_default(), hole: hole.unwrap_or(f64::MAX) }
}

/// The beads by name; more than can be numbered are not told apart.
pub(super) fn number_beads(beads: &[PatternBead]) -> HashMap<SmolStr, u16> {
    beads.iter().zip(0..=u16::MAX).map(|(bead, number)| (bead.look.name.clone(), number)).collect()
}
