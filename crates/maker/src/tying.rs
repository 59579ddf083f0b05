//! From a pattern to the script of a band that someone is going to tie: measured, recolored, mirrored.

use crate::lengths::Unit;
use crate::measured::{self, Measured, NotMeasured, Reader, Told, Wish};
use crate::scripted::{recolor, script_of};
use knotwright_band::thread::Cut;
use knotwright_checker::{Extent, Pattern, StartForm};
use knotwright_render::{Basis, CannotMirror, CutPiece, Materials, Mirror, Script};

/// What is wanted of a band to be tied. Lengths in millimeters.
#[derive(Debug, Clone, Default)]
pub struct Tying {
    /// How long it is to be, other than the pattern says.
    pub extent: Option<Extent>,
    /// How thick the thread is, other than the pattern says.
    pub thickness: Option<f64>,
    /// What is left free at each end, other than the pattern says.
    pub ends: Option<f64>,
    /// In which unit lengths are told.
    pub unit: Unit,
    /// In the colors of which colorway.
    pub colorway: Option<String>,
    /// Whether and how it is mirrored.
    pub mirrored: Mirrored,
    /// Where it is read.
    pub reader: Reader,
}

/// Whether and how a band is mirrored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Mirrored {
    /// It is not.
    #[default]
    No,
    /// As is right for it: the mirror image, or the same picture if a leader may write letters.
    AsFits,
    /// So.
    So(Mirror),
}

/// A band to be tied.
#[derive(Debug)]
pub struct Instructed {
    /// All that is done.
    pub script: Script,
    /// What was mirrored in it.
    pub mirrored: Option<Mirror>,
}

/// How long a band is that nobody has given a length, in millimeters. Common practice, no source.
const USUAL_LENGTH: f64 = 150.0;

impl Tying {
    /// The script that is meant.
    ///
    /// # Errors
    /// In words.
    pub fn script(&self, pattern: &Pattern) -> Result<Instructed, String> {
        let (measured, assumed) = self.measured(pattern).map_err(|reason| reason.said(self.unit))?;
        let mut script = script_of(&measured.pattern, &measured.reckoning, measured.sets)
            .map_err(|reason| reason.to_string())?;
        if measured.pattern.set.is_none() {
            script.times = 0;
        }
        if !script.can_be_told() {
            return Err("its sets differ in more than a hundred ways before they come again; ask for fewer sets, such as 50".to_owned());
        }
        if let Some(name) = &self.colorway {
            recolor(&mut script, pattern, name)?;
        }
        script.materials = Some(materials(&measured, self.unit, assumed));
        let mirrored = self.mirror(&script);
        if let Some(mirror) = mirrored {
            script = script.mirrored(mirror).map_err(|reason| said(reason, self.reader))?;
        }
        Ok(Instructed { script, mirrored })
    }

    /// The measured band, and whether its length was assumed.
    ///
    /// # Errors
    /// [`NotMeasured`].
    pub fn measured(&self, pattern: &Pattern) -> Result<(Measured, bool), NotMeasured> {
        let wish = Wish { extent: self.extent, thickness: self.thickness, ends: self.ends, fold: false };
        let with = |extent| Measured::new(pattern, Wish { extent: Some(extent), ..wish });
        match Measured::new(pattern, wish) {
            Err(NotMeasured::Endless) => match with(Extent::Length(USUAL_LENGTH)) {
                Err(NotMeasured::TooShort { .. } | NotMeasured::DoesNotGrow) => with(Extent::Sets(1)),
                measured => measured,
            }
            .map(|measured| (measured, true)),
            measured => measured.map(|measured| (measured, false)),
        }
    }

    /// How much thread it takes, as it is told.
    ///
    /// # Errors
    /// In words.
    pub fn told(&self, pattern: &Pattern) -> Result<Told, String> {
        let (measured, assumed) = self.measured(pattern).map_err(|reason| reason.said(self.unit))?;
        let mut told = measured::told(&measured, self.unit, self.reader);
        if assumed {
            told.head.insert(
                0,
                "The pattern does not say how long it is to be; this is for a usual length.".to_owned(),
            );
        }
        Ok(told)
    }

    fn mirror(&self, script: &Script) -> Option<Mirror> {
        match self.mirrored {
            Mirrored::No => None,
            Mirrored::So(mirror) => Some(mirror),
            Mirrored::AsFits if script.has_leader() => Some(Mirror::Picture),
            Mirrored::AsFits => Some(Mirror::Image),
        }
    }
}

fn said(reason: CannotMirror, reader: Reader) -> String {
    match (reason, reader) {
        (CannotMirror::Letters, Reader::Terminal) => {
            "the rows of its leader may be letters, which nobody reads in a mirror; `--mirrored=picture` ties the same \
             picture from the right"
        }
        (CannotMirror::Letters, Reader::Page) => {
            "the rows of its leader may be letters, which nobody reads in a mirror"
        }
        (CannotMirror::LeaderAndOthers, _) => {
            "only a band whose leader goes from edge to edge in every row, with strands that are not folded, can be tied \
             from the right with its picture unchanged"
        }
    }
    .to_owned()
}

fn materials(measured: &Measured, unit: Unit, length_assumed: bool) -> Materials {
    let thickness = |millimeters: f64| format!("{millimeters} mm");
    let piece = |cut: &Cut| CutPiece {
        strands: measured::strands(*cut),
        length: unit.cut(unit.roughly(cut.length())),
    };
    let total = |thread: u16| {
        let is_of =
            |cut: &&Cut| measured.pattern.strands.get(usize::from(measured::first(**cut))) == Some(&thread);
        measured.pieces.iter().filter(is_of).map(|cut| unit.roughly(cut.length())).sum()
    };
    let threads = measured.by_color().into_iter().map(|(thread, ..)| thread);
    Materials {
        length: unit.finished(measured.length()),
        length_assumed,
        width: unit.finished(measured.width()),
        rows: measured.reckoning.rows,
        ends: unit.finished(measured.ends),
        loop_length: match measured.pattern.start {
            StartForm::Loop(length, _) => Some(unit.finished(length)),
            StartForm::Loose | StartForm::Folded(_) => None,
        },
        basis: match measured.basis {
            measured::Basis::Swatch => Basis::Swatch,
            measured::Basis::Thickness(millimeters) => Basis::Thickness(thickness(millimeters)),
            measured::Basis::Assumed => Basis::Assumed(thickness(measured::USUAL_THICKNESS)),
        },
        percent: (measured.figures.uncertainty * 100.0).round() as u32,
        pieces: measured.pieces.iter().map(piece).collect(),
        totals: threads.map(|thread| (thread, unit.bought(total(thread)))).collect(),
    }
}
