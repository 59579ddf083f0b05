//! What the gallery says of a band: kept from one run to the next, so that only bands that changed are tied again.

use crate::TyingScript;
use crate::letters::of_threads;
use knotwright_color::Rgb;
use knotwright_numbers::ToNumber;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// What is said of a band.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BandFacts {
    /// The title.
    pub title: String,
    /// Who made it.
    pub authors: Vec<String>,
    /// What its maker says of it, in one text.
    pub about: String,
    /// Under which license.
    pub license: Option<String>,
    /// The threads that hang in it.
    pub threads: Vec<HungThread>,
    /// By starting position, which of these hangs there.
    pub strands: Vec<usize>,
    /// Its knotted part, in words.
    pub length: String,
    /// Whether the pattern does not say how long it is.
    pub length_assumed: bool,
    /// Its width, in words.
    pub width: String,
    /// Its knotted part, in millimeters.
    pub millimeters: f64,
    /// What to cut, for each of the threads in order.
    pub cut: Vec<CutLine>,
    /// Whether some of it is only to be seen, and nothing ties it yet.
    #[serde(default)]
    pub wished: bool,
    /// Pixels of the picture, from side to side and from top to bottom.
    pub picture: [u32; 2],
}

/// A thread that hangs in a band.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HungThread {
    /// What a legend calls it.
    pub name: String,
    /// Its letter.
    pub letter: char,
    /// Its color.
    #[serde(serialize_with = "as_text", deserialize_with = "from_text")]
    pub color: Rgb,
}

/// What to cut of a thread.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutLine {
    /// Which thread.
    pub thread: usize,
    /// How many pieces of which length.
    pub pieces: Vec<(usize, String)>,
    /// How much in all.
    pub total: String,
}

impl BandFacts {
    /// What is said of a band whose thread was measured; `picture` is how large its picture is in pixels.
    pub fn of(script: &TyingScript, picture: [u32; 2]) -> Self {
        let of_script: Vec<(u16, char)> = (0..).zip(of_threads(&script.threads)).collect();
        let hung: Vec<(u16, char)> =
            of_script.into_iter().filter(|(thread, _)| script.strands.contains(thread)).collect();
        let number = |thread: u16| hung.iter().position(|(of, _)| *of == thread).unwrap_or_default();
        let one = |(thread, letter): &(u16, char)| {
            let thread = &script.threads[usize::from(*thread)];
            HungThread { name: thread.name.clone(), letter: *letter, color: thread.color }
        };
        let materials = script.materials.as_ref();
        let said = |text: fn(&crate::Materials) -> &String| materials.map(text).cloned().unwrap_or_default();
        Self {
            title: script.title.clone(),
            authors: script.authors.clone(),
            about: script.about.join(" "),
            license: script.license.clone(),
            threads: hung.iter().map(one).collect(),
            strands: script.strands.iter().map(|thread| number(*thread)).collect(),
            length: said(|of| &of.length),
            length_assumed: materials.is_some_and(|of| of.length_assumed),
            width: said(|of| &of.width),
            millimeters: materials.map_or(0.0, |of| of.rows.to_f64() * script.gauge.pitch),
            cut: hung.iter().filter_map(|(thread, _)| cut(script, *thread, number(*thread))).collect(),
            wished: script.has_wish(),
            picture,
        }
    }
}

/// What to cut of the thread of that number in the script, which is `shown` in the gallery.
fn cut(script: &TyingScript, thread: u16, shown: usize) -> Option<CutLine> {
    let materials = script.materials.as_ref()?;
    let (_, total) = materials.totals.iter().find(|(of, _)| *of == thread)?;
    let mut pieces: Vec<(usize, String)> = Vec::new();
    for piece in &materials.pieces {
        let strand = piece.strands.first().map(|strand| usize::from(*strand));
        if strand.and_then(|strand| script.strands.get(strand)) != Some(&thread) {
            continue;
        }
        match pieces.iter_mut().find(|(_, length)| *length == piece.length) {
            Some((count, _)) => *count += 1,
            None => pieces.push((1, piece.length.clone())),
        }
    }
    Some(CutLine { thread: shown, pieces, total: total.clone() })
}

fn as_text<S: Serializer>(color: &Rgb, to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(color)
}

fn from_text<'de, D: Deserializer<'de>>(from: D) -> Result<Rgb, D::Error> {
    let text = String::deserialize(from)?;
    text.parse().map_err(|_| serde::de::Error::custom("this is no color"))
}
