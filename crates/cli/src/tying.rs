//! What can be typed about a band that someone is going to tie.

use crate::lengths::UnitName;
use clap::{Args, ValueEnum};
use knotwright_checker::Extent;
use knotwright_maker::{Mirrored, Tying, Typed};
use knotwright_render::{Language, Mirror};

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
    unit: UnitName,

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
        let extent = self.length.map(|length| Extent::Length(length.0)).or(self.sets.map(Extent::Sets));
        let mirrored = match self.mirrored {
            None => Mirrored::No,
            Some(None) => Mirrored::AsFits,
            Some(Some(MirrorName::Image)) => Mirrored::So(Mirror::Image),
            Some(Some(MirrorName::Picture)) => Mirrored::So(Mirror::Picture),
        };
        Tying {
            extent,
            thickness: self.thickness.map(|thickness| thickness.0),
            ends: self.ends.map(|ends| ends.0),
            unit: self.unit.into(),
            colorway: self.colorway.clone(),
            mirrored,
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
