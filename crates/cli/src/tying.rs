//! What can be typed about a band that someone is going to tie.

use crate::lengths::LengthArguments;
use clap::{Args, ValueEnum};
use knotwright_maker::{Medium, Mirrored, TyingOptions};
use knotwright_render::{Language, Mirror};

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

impl From<LanguageChoice> for Language {
    fn from(name: LanguageChoice) -> Self {
        match name {
            LanguageChoice::En => Self::English,
            LanguageChoice::De => Self::German,
            LanguageChoice::Es => Self::Spanish,
        }
    }
}
