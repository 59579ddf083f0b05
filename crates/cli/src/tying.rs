//! What can be typed about a band that someone is going to tie.

use crate::lengths::LengthArguments;
use clap::{Args, ValueEnum};
use knotwright_maker::{Mirrored, Reader, Tying};
use knotwright_render::{Language, Mirror};

/// What can be typed about a band to be tied.
#[derive(Debug, Clone, Args)]
pub(crate) struct TyingArguments {
    #[command(flatten)]
    lengths: LengthArguments,

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

impl TyingArguments {
    /// What is wanted.
    pub(crate) fn tying(&self) -> Tying {
        let mirrored = match self.mirrored {
            None => Mirrored::No,
            Some(None) => Mirrored::AsFits,
            Some(Some(MirrorName::Image)) => Mirrored::So(Mirror::Image),
            Some(Some(MirrorName::Picture)) => Mirrored::So(Mirror::Picture),
        };
        Tying {
            extent: self.lengths.extent(),
            thickness: self.lengths.thickness(),
            ends: self.lengths.ends(),
            unit: self.lengths.unit(),
            colorway: self.colorway.clone(),
            mirrored,
            reader: Reader::Terminal,
        }
    }

    /// In which language it is told.
    pub(crate) fn language(&self) -> Language {
        self.language.into()
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
