//! What can be typed about a band that someone is going to tie.

use crate::bands::BandFile;
use crate::lengths::LengthArguments;
use crate::terminal::Terminal;
use clap::{Args, ValueEnum};
use knotwright_checker::{PartKind, Pattern};
use knotwright_maker::{Medium, Mirrored, TyingOptions};
use knotwright_render::{Language, Mirror};
use knotwright_wording::both;
use std::collections::BTreeMap;

/// What can be typed about a band to be tied.
#[derive(Debug, Clone, Args)]
pub(crate) struct TyingArguments {
    #[command(flatten)]
    lengths: LengthArguments,

    /// In the colors of this colorway
    #[arg(long, value_name = "NAME")]
    colorway: Option<String>,

    /// For left-handed makers: `--mirrored=image` is the mirror image of the band; `--mirrored=picture` is the same
    /// picture, tied from the right. Without a value: the image, or the picture if the band has a leader
    #[arg(long, value_enum, value_name = "WHAT", num_args = 0..=1, require_equals = true)]
    mirrored: Option<Option<MirrorName>>,

    /// The language of the instructions, and of the pattern's text as far as it is there in it
    #[arg(long, value_enum, default_value_t, value_name = "LANGUAGE")]
    language: LanguageChoice,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum MirrorName {
    /// Left becomes right
    Image,
    /// The same picture, tied from the right
    Picture,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum LanguageChoice {
    /// English
    #[default]
    En,
    /// German
    De,
    /// Spanish
    Es,
}

impl TyingArguments {
    /// What is wanted.
    pub(crate) fn tying(&self) -> TyingOptions {
        let mirrored = match self.mirrored {
            None => Mirrored::No,
            Some(None) => Mirrored::AsFits,
            Some(Some(MirrorName::Image)) => Mirrored::So(Mirror::Image),
            Some(Some(MirrorName::Picture)) => Mirrored::So(Mirror::Picture),
        };
        TyingOptions {
            extent: self.lengths.extent(),
            wrist: self.lengths.wrist(),
            thickness: self.lengths.thickness(),
            ends: self.lengths.ends(),
            unit: self.lengths.unit(),
            colorway: self.colorway.clone(),
            mirrored,
            language: self.language(),
            reader: Medium::Terminal,
        }
    }

    /// The language of the words.
    pub(crate) fn language(&self) -> Language {
        self.language.into()
    }
}

/// A leader writes letters, and then there is no mirror image. What a face shows may be an anchor as well as a word: it is
/// mirrored, and whoever asked for that is told.
pub(crate) fn say_backward(band: &BandFile, mirrored: Option<Mirror>, terminal: &Terminal) {
    if mirrored != Some(Mirror::Image) {
        return;
    }
    let turned = PartKind::ALL.into_iter().filter(|kind| reads_otherwise(&band.pattern, *kind));
    let parts: Vec<String> = turned.map(|kind| kind.word().to_owned()).collect();
    if !parts.is_empty() {
        terminal.say(format_args!(
            "{}: in this mirror image, letters in the face of its {} read backward; `--mirrored=picture` ties the same \
             picture from the right",
            band.file.shown,
            both(&parts)
        ));
    }
}

/// Whether a part has a face that is another one in a mirror.
fn reads_otherwise(pattern: &Pattern, kind: PartKind) -> bool {
    let Some(face) = pattern.face(kind) else { return false };
    let seen: BTreeMap<(u32, u8), Option<u16>> =
        face.knots().iter().map(|knot| ((knot.row, knot.gap), knot.color)).collect();
    let last = face.strands().saturating_sub(2);
    seen.iter().any(|(&(row, gap), color)| seen.get(&(row, last.saturating_sub(gap))) != Some(color))
}

impl From<LanguageChoice> for Language {
    fn from(name: LanguageChoice) -> Self {
        match name {
            LanguageChoice::En => Self::English,
            LanguageChoice::De => Self::German,
            LanguageChoice::Es => Self::Spanish,
        }
    }
}
