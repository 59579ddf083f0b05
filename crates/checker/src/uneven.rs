//! Faces that come near to a symmetry without having it.

use crate::woven::Sound;
use crate::{Extent, PartKind};
use knotwright_band::{BandRows, Face, FaceSpot, NearSymmetry, Seen, Symmetries, Symmetry};
use knotwright_numbers::ToNumber;
use std::cell::OnceCell;

/// A smaller face may well be so by chance, and a greater one would take long to look at.
const KNOTS: std::ops::RangeInclusive<usize> = 20..=20_000;

/// How many knots may be off for a face to come near to a symmetry: two, which is one knot and its counterpart, or this
/// share in a hundred. Of the sample patterns and the tests' none comes near without having it.
const FEW: u32 = 2;
const FEW_IN_HUNDRED: u32 = 6;

/// Nobody would say of a picture that it is symmetric but for more knots than this.
const MOST_OFF: u32 = 60;

/// For one knot that is off, as many must have their counterpart besides those of the most common color: a single dot
/// on a plain ground comes near to any symmetry.
const SUPPORT: u32 = 4;

/// No more symmetries than this are compared.
const MOST_NEAR: usize = 16;

/// In a greater face it is not asked what fits in better.
const MOST_COMPARED: u32 = 2000;

/// What is seen of a part.
#[derive(Debug)]
pub(crate) struct SeenPart {
    pub(crate) face: Face,
    symmetries: OnceCell<Symmetries>,
}

/// A part whose face comes near to a symmetry.
pub(crate) struct Uneven<'a> {
    pub(crate) kind: PartKind,
    pub(crate) face: &'a Face,
    /// The symmetries with the fewest knots off; those that are seen first come first.
    pub(crate) near: Vec<Symmetry>,
    /// The knots that are off in the first of them.
    pub(crate) off: &'a [FaceSpot],
    /// Those knots that are off in as many of them as can be, the likeliest first.
    pub(crate) blamed: Vec<FaceSpot>,
}

impl SeenPart {
    /// `None` if it is not known what is seen, or not worth a look. `laid`: a band at whose top the set is laid twice, if there
    /// is one.
    pub(crate) fn of(sound: &Sound, kind: PartKind, laid: Option<&BandRows>) -> Option<Self> {
        Some(Self { face: face_of(sound, kind, laid)?, symmetries: OnceCell::new() })
    }

    /// The symmetries that it has or comes near to.
    pub(crate) fn symmetries(&self) -> &Symmetries {
        let most = (self.face.knots() * FEW_IN_HUNDRED / 100).clamp(FEW, MOST_OFF);
        self.symmetries.get_or_init(|| self.face.symmetries(most))
    }
}

fn face_of(sound: &Sound, kind: PartKind, laid: Option<&BandRows>) -> Option<Face> {
    let part = sound.pattern.part(kind)?;
    if !KNOTS.contains(&part.piece.knots().len()) {
        return None;
    }
    let threads = sound.pattern.threads_before(kind);
    let color = |strand: u8| threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
    match (kind, sound.pattern.extent) {
        (PartKind::Opening | PartKind::Closing, _) | (PartKind::Set, Extent::Sets(1)) => {
            Face::of_once(&part.piece, color)
        }
        (PartKind::Set, _) if sound.closes() => match laid {
            Some(laid) => Face::of_set_at_top(laid, color),
            None => Face::of_set(&part.piece, color),
        },
        (PartKind::Set, _) => None,
    }
}

/// All parts that come near to a symmetry.
pub(crate) fn find_uneven<'s>(seen: impl Fn(PartKind) -> Option<&'s SeenPart>) -> Vec<Uneven<'s>> {
    PartKind::ALL.into_iter().filter_map(|kind| Uneven::of(kind, seen(kind)?)).collect()
}

impl<'a> Uneven<'a> {
    fn of(kind: PartKind, seen: &'a SeenPart) -> Option<Self> {
        let (face, symmetries) = (&seen.face, seen.symmetries());
        if symmetries.near.is_empty() {
            return None;
        }
        let picture = PictureColors::of(face);
        let near = symmetries.near.iter().take(MOST_NEAR);
        let near: Vec<&NearSymmetry> = near.filter(|near| picture.bears_out(face, &near.off)).collect();
        let (off, blamed) = (&near.first()?.off, blamed(face, &near)?);
        let near = near.iter().map(|near| near.symmetry).collect();
        Some(Self { kind, face, near, off, blamed })
    }
}

/// What is seen before the ground, which is of the most common color.
struct PictureColors {
    ground: Option<u16>,
    /// How many knots are of other colors.
    knots: u32,
}

impl PictureColors {
    fn of(face: &Face) -> Self {
        let colors = face.colors();
        let ground = colors.iter().copied().max_by_key(|&(color, knots)| (knots, color));
        let knots = colors.iter().map(|color| color.1).sum::<u32>() - ground.map_or(0, |ground| ground.1);
        Self { ground: ground.map(|ground| ground.0), knots }
    }

    /// Whether enough of the picture has its counterpart.
    fn bears_out(&self, face: &Face, off: &[FaceSpot]) -> bool {
        let is_picture = |seen: &Seen| Some(seen.color) != self.ground;
        let torn = off.iter().filter_map(|&spot| face.at(spot)).filter(is_picture).count();
        self.knots.saturating_sub(torn.to_u32()) >= SUPPORT * off.len().to_u32()
    }
}

/// The knots that are off in every symmetry, or in as many of the first ones as agree; of two, the one that fits in less
/// comes first.
fn blamed(face: &Face, near: &[&NearSymmetry]) -> Option<Vec<FaceSpot>> {
    let mut blamed = near.first()?.off.clone();
    for other in &near[1..] {
        let common: Vec<FaceSpot> = blamed.iter().copied().filter(|spot| other.off.contains(spot)).collect();
        if !common.is_empty() {
            blamed = common;
        }
    }
    if blamed.len() > 1 && blamed.len() <= FEW.to_usize() && face.knots() <= MOST_COMPARED {
        let spots = blamed.clone();
        blamed
            .sort_by_key(|&spot| std::cmp::Reverse(likeness_if_mended(face, near[0].symmetry, spot, &spots)));
    }
    Some(blamed)
}

/// How well the face would fit together if the knot at `spot` showed the color of its counterpart.
fn likeness_if_mended(face: &Face, symmetry: Symmetry, spot: FaceSpot, off: &[FaceSpot]) -> u32 {
    let counterpart = face.image(symmetry, spot).and_then(|image| face.at(image));
    counterpart.map_or(0, |seen| face.recolored(spot, seen.color).likeness(off))
}
