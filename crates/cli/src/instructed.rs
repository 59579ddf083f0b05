//! From what was typed to the script of a band that someone is going to tie: measured, recolored, mirrored.

use crate::bands::Band;
use crate::lengths::{Typed, Unit};
use crate::measured::{self, Measured, NotMeasured, Wish};
use crate::scripted::{recolor, script_of};
use clap::{Args, ValueEnum};
use knotwright_band::thread::Cut;
use knotwright_checker::{Extent, Pattern, StartForm};
use knotwright_render::{Basis, CannotMirror, CutPiece, Language, Materials, Mirror, Script};

/// What can be typed about a band to be tied.
#[derive(Debug, Clone, Args)]
pub(crate) struct TyingArguments {
    /// So long is the knotted part to be, to the nearest whole set: `15cm`
    #[arg(long, value_name = "LENGTH", conflicts_with = "sets")]
    length: Option<Typed>,

    /// So many times the set is tied
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    sets: Option<u32>,

    /// So thick is the thread, in place of what the pattern's gauge says: `0.9mm`
    #[arg(long, value_name = "LENGTH")]
    thickness: Option<Typed>,

    /// So much is left free at each end: `10cm`
    #[arg(long, value_name = "LENGTH")]
    ends: Option<Typed>,

    /// In which unit lengths are told
    #[arg(long, value_enum, default_value_t, value_name = "UNIT")]
    unit: Unit,

    /// In the colors of this colorway
    #[arg(long, value_name = "NAME")]
    colorway: Option<String>,

    /// For those who like to begin at the right: `--mirrored=image` is the band in a mirror, `--mirrored=picture` the same
    /// picture, tied from the right. Without a word it is the mirror image, or the same picture if a leader may write letters
    #[arg(long, value_enum, value_name = "WHAT", num_args = 0..=1, require_equals = true)]
    mirrored: Option<Option<MirrorName>>,

    /// The language of the instructions; what the pattern says stays as it is
    #[arg(long, value_enum, default_value_t, value_name = "LANGUAGE")]
    language: LanguageName,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum MirrorName {
    /// All that was left is right
    Image,
    /// The same picture, tied from the right
    Picture,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum LanguageName {
    /// English
    #[default]
    En,
    /// German
    De,
    /// Spanish
    Es,
}

/// A band to be tied.
pub(crate) struct Instructed {
    /// All that is done.
    pub(crate) script: Script,
    /// What was mirrored in it.
    pub(crate) mirrored: Option<Mirror>,
    /// In which language it is told.
    pub(crate) language: Language,
}

/// How long a band is that nobody has given a length, in millimeters. Common practice, no source.
const USUAL_LENGTH: f64 = 150.0;

impl TyingArguments {
    /// The script that is meant.
    ///
    /// # Errors
    /// In words.
    pub(crate) fn script(&self, band: &Band) -> Result<Instructed, String> {
        let (measured, assumed) = self.measured(&band.pattern).map_err(|reason| reason.said(self.unit))?;
        let mut script = script_of(&measured.pattern, &measured.reckoning, measured.sets)
            .map_err(|reason| reason.to_string())?;
        if measured.pattern.set.is_none() {
            script.times = 0;
        }
        if !script.can_be_told() {
            return Err("its sets differ in more than a hundred ways before they come again; ask for fewer, `--sets 50`".to_owned());
        }
        if let Some(name) = &self.colorway {
            recolor(&mut script, &band.pattern, name)?;
        }
        script.materials = Some(materials(&measured, self.unit, assumed));
        let mirrored = self.mirror(&script);
        if let Some(mirror) = mirrored {
            script = script.mirrored(mirror).map_err(|reason| said(reason).to_owned())?;
        }
        Ok(Instructed { script, mirrored, language: self.language.into() })
    }

    /// The measured band, and whether its length was assumed.
    fn measured(&self, pattern: &Pattern) -> Result<(Measured, bool), NotMeasured> {
        let extent = self.length.map(|length| Extent::Length(length.0)).or(self.sets.map(Extent::Sets));
        let wish = Wish {
            extent,
            thickness: self.thickness.map(|thickness| thickness.0),
            ends: self.ends.map(|ends| ends.0),
            fold: false,
        };
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

    fn mirror(&self, script: &Script) -> Option<Mirror> {
        match self.mirrored? {
            Some(MirrorName::Image) => Some(Mirror::Image),
            Some(MirrorName::Picture) => Some(Mirror::Picture),
            None if script.has_leader() => Some(Mirror::Picture),
            None => Some(Mirror::Image),
        }
    }
}

impl From<LanguageName> for Language {
    fn from(name: LanguageName) -> Self {
        match name {
            LanguageName::En => Self::English,
            LanguageName::De => Self::German,
            LanguageName::Es => Self::Spanish,
        }
    }
}

fn said(reason: CannotMirror) -> &'static str {
    match reason {
        CannotMirror::Letters => {
            "the rows of its leader may be letters, which nobody reads in a mirror; `--mirrored=picture` ties the same \
             picture from the right"
        }
        CannotMirror::LeaderAndOthers => {
            "only a band whose leader goes from edge to edge in every row, with strands that are not folded, can be tied \
             from the right with its picture unchanged"
        }
    }
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
