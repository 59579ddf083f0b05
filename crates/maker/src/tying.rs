//! From a pattern to the script of a band that someone is going to tie: measured, recolored, mirrored.

use crate::lengths::LengthUnit;
use crate::measured::{self, MeasureOptions, Measured, Medium, NotMeasured, StrandPiece, ThreadReport};
use crate::repeats::{ColorRepeat, PiecePlace, length_of, pieces_of};
use crate::scripted::{named_colorway, recolor_script, script_of};
use crate::whole_band::WholeBand;
use knotwright_band::thread::{Cut, OwnThread, USUAL_THICKNESS};
use knotwright_checker::{Extent, Pattern, PatternThread, StartForm};
use knotwright_numbers::ToNumber;
use knotwright_render::JoinedPiece;
use knotwright_render::{
    CannotMirror, CutAtRepeat, CutPiece, Language, Materials, Mirror, OwnPiece, StatedBasis, ThreadTaken,
    TyingScript,
};

/// What is wanted of a band to be tied. Lengths in millimeters.
#[derive(Debug, Clone, Default)]
pub struct TyingOptions {
    /// How long it is to be, other than the pattern says.
    pub extent: Option<Extent>,
    /// The wrist that it is for, if its length is not said.
    pub wrist: Option<f64>,
    /// How thick the thread is, other than the pattern says.
    pub thickness: Option<f64>,
    /// What is left free at each end, other than the pattern says.
    pub ends: Option<f64>,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// In the colors of which colorway.
    pub colorway: Option<String>,
    /// Whether and how it is mirrored.
    pub mirrored: Mirrored,
    /// In which language it is read.
    pub language: Language,
    /// Where it is read.
    pub reader: Medium,
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
    pub script: TyingScript,
    /// What was mirrored in it.
    pub mirrored: Option<Mirror>,
}

impl TyingOptions {
    /// The script that is meant.
    ///
    /// # Errors
    /// In words.
    pub fn script(&self, pattern: &Pattern) -> Result<Instructed, String> {
        let language = Some(self.language.tag());
        let (mut script, materials) = self.scripted(pattern, language)?;
        if pattern.set.is_none() {
            script.times = 0;
        }
        if !script.can_be_told() {
            return Err("its sets differ in more than a hundred ways before they come again; ask for fewer sets, such as 50".to_owned());
        }
        if let Some(name) = &self.colorway {
            recolor_script(&mut script, pattern, name, language)?;
        }
        script.unit = self.unit.stated();
        script.materials = materials;
        let mirrored = self.mirror(&script);
        if let Some(mirror) = mirrored {
            script = script.mirrored(mirror).map_err(|reason| said(reason, self.reader))?;
        }
        Ok(Instructed { script, mirrored })
    }

    /// The script and what to cut. What nothing ties yet can be seen, but not measured.
    fn scripted(
        &self,
        pattern: &Pattern,
        language: Option<&str>,
    ) -> Result<(TyingScript, Option<Materials>), String> {
        let of = |whole: &WholeBand, sets: u64| {
            script_of(pattern, whole, sets, language).map_err(|reason| reason.to_string())
        };
        match self.measured(pattern) {
            Ok(measured) => {
                let mut script = of(&measured.whole, measured.sets)?;
                // The ends may be others than the pattern says.
                let (figures, before) = (measured.figures, measured.held.above);
                script.taken = Some(ThreadTaken { figures, before });
                let mut materials = materials(&measured, self.unit);
                let threads = match &self.colorway {
                    Some(name) => &named_colorway(pattern, name)?.threads,
                    None => &pattern.threads,
                };
                materials.repeats = repeats(&measured, threads, self.unit);
                Ok((script, Some(materials)))
            }
            Err(NotMeasured::Wish(_)) => {
                let extent = self.extent.unwrap_or(pattern.extent);
                let whole = WholeBand::sized(pattern, extent, pattern.gauge.or_usual());
                Ok((of(&whole, whole.times.unwrap_or(1))?, None))
            }
            Err(reason) => Err(reason.said(self.unit)),
        }
    }

    /// The measured band.
    ///
    /// # Errors
    /// [`NotMeasured`].
    pub fn measured<'a>(&self, pattern: &'a Pattern) -> Result<Measured<'a>, NotMeasured> {
        let wish = MeasureOptions {
            extent: self.extent,
            wrist: self.wrist,
            thickness: self.thickness,
            ends: self.ends,
            unit: self.unit,
            ..MeasureOptions::default()
        };
        Measured::new(pattern, wish)
    }

    /// How much thread it takes, as it is reported.
    ///
    /// # Errors
    /// In words.
    pub fn report(&self, pattern: &Pattern) -> Result<ThreadReport, String> {
        let measured = self.measured(pattern).map_err(|reason| reason.said(self.unit))?;
        Ok(measured::report_measured(&measured, self.unit, self.reader))
    }

    fn mirror(&self, script: &TyingScript) -> Option<Mirror> {
        match self.mirrored {
            Mirrored::No => None,
            Mirrored::So(mirror) => Some(mirror),
            Mirrored::AsFits if script.has_leader() => Some(Mirror::Picture),
            Mirrored::AsFits => Some(Mirror::Image),
        }
    }
}

fn said(reason: CannotMirror, reader: Medium) -> String {
    match (reason, reader) {
        (CannotMirror::Letters, Medium::Terminal) => {
            "the rows of its leader may be letters, which cannot be read in a mirror; `--mirrored=picture` ties the same \
             picture from the right"
        }
        (CannotMirror::Letters, Medium::Page) => {
            "the rows of its leader may be letters, which cannot be read in a mirror"
        }
        (CannotMirror::LeaderAndOthers, _) => {
            "only a band whose leader goes from edge to edge in every row, with strands that are not folded, can be tied \
             from the right with its picture unchanged"
        }
    }
    .to_owned()
}

fn materials(measured: &Measured, unit: LengthUnit) -> Materials {
    let thickness = |millimeters: f64| format!("{millimeters} mm");
    let piece =
        |cut: &Cut| CutPiece { strands: measured::list_strands(*cut), length: unit.cut(cut.length()) };
    let own =
        |own: &OwnThread| OwnPiece { thread: own.thread, count: own.count, length: unit.cut(own.length) };
    let joined = |piece: &StrandPiece| JoinedPiece {
        strand: piece.strand,
        thread: piece.thread,
        length: unit.cut(piece.cut),
    };
    let threads = measured.by_color().into_iter();
    Materials {
        length: unit.finished(measured.length()),
        length_assumed: measured.length_assumed,
        width: unit.finished(measured.width()),
        rows: measured.whole.rows,
        rows_of_set: measured.rows_of_set(),
        ends: unit.finished(measured.held.ends),
        knot: unit.finished(measured.held.knot),
        loop_length: match measured.pattern.start {
            StartForm::Loop(length, _) => Some(unit.finished(length)),
            StartForm::Loose | StartForm::Folded(_) => None,
        },
        basis: match measured.basis {
            measured::FigureBasis::Swatch => StatedBasis::Swatch,
            measured::FigureBasis::Thickness(millimeters) => StatedBasis::Thickness(thickness(millimeters)),
            measured::FigureBasis::Assumed => StatedBasis::Assumed(thickness(USUAL_THICKNESS)),
        },
        percent: (measured.figures.uncertainty * 100.0).round().to_u32(),
        pieces: measured.pieces.iter().map(piece).collect(),
        joined: measured.joined.iter().map(joined).collect(),
        own: measured.own.iter().map(own).collect(),
        totals: threads.map(|(thread, .., length)| (thread, unit.bought(length))).collect(),
        repeats: Vec::new(),
    }
}

/// Where the pieces of threads that change color are cut, if more is needed for it than they are long.
fn repeats(measured: &Measured, threads: &[PatternThread], unit: LengthUnit) -> Vec<CutAtRepeat> {
    let of = |(thread, shown): (u16, &PatternThread)| {
        let repeat = ColorRepeat::of(shown)?;
        let pieces = pieces_of(measured, thread);
        let needed = repeat.needed(&pieces);
        let length = length_of(pieces.iter().map(|of| &of.need));
        (needed > length + 1.0).then(|| CutAtRepeat {
            thread,
            every: unit.finished(repeat.length()),
            is_folded: pieces.iter().any(|of| of.at == PiecePlace::FoldedThere),
            needed: unit.bought(needed),
        })
    };
    (0_u16..).zip(threads).filter_map(of).collect()
}
