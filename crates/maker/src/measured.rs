//! How much thread a band takes: what is reckoned, before it is put into words.

mod balanced;
mod by_thread;
mod told;

pub use balanced::{Saving, shared_out};
pub use by_thread::ThreadCut;
pub use told::{Reader, Told, ToldTable, counted, told};

use crate::lengths::Unit;
use crate::reckoning::Reckoning;
use knotwright_band::thread::{Cut, Figures, Length, fold};
use knotwright_checker::{Extent, Gauge, Pattern, StartForm};

/// Where the figures come from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Basis {
    /// Knots or rows that were measured.
    Swatch,
    /// The thread's thickness, in millimeters.
    Thickness(f64),
    /// Nothing is known of the thread: taken to be [`USUAL_THICKNESS`] thick.
    Assumed,
}

/// Of the thread that most such bands are tied with, in millimeters. Common practice, no source.
pub const USUAL_THICKNESS: f64 = 0.9;

/// Left free at each end if the pattern does not say, in millimeters. Common practice, no source.
pub const USUAL_ENDS: f64 = 100.0;

/// What is wanted other than the pattern says. Lengths in millimeters.
#[derive(Debug, Clone, Copy, Default)]
pub struct Wish {
    /// How long it is to be.
    pub extent: Option<Extent>,
    /// How thick the thread is.
    pub thickness: Option<f64>,
    /// Left free at each end.
    pub ends: Option<f64>,
    /// Pair the strands by need, whatever the start.
    pub fold: bool,
}

/// A measured band.
#[derive(Debug)]
pub struct Measured {
    /// With what was wished for.
    pub pattern: Pattern,
    /// The numbers of the band.
    pub reckoning: Reckoning,
    /// What knots and rows take of a thread.
    pub figures: Figures,
    /// Where they come from.
    pub basis: Basis,
    /// How often the set is tied.
    pub sets: u64,
    /// Left free at each end.
    pub ends: f64,
    /// Whether nobody said so.
    pub ends_assumed: bool,
    /// By strand, its thread with the ends that belong to it.
    pub lengths: Vec<Length>,
    /// The threads to cut, in the order of their leftmost strand.
    pub pieces: Vec<Cut>,
    /// What would be saved if knots between two strands of one color were shared out; `None` if nothing.
    pub saving: Option<Saving>,
}

/// Why a band is not measured.
#[derive(Debug, Clone, PartialEq)]
pub enum NotMeasured {
    /// Neither a length nor a number of sets is known.
    Endless,
    /// The length that is wanted is less than that of one set, in millimeters.
    TooShort {
        /// What is wanted.
        wanted: f64,
        /// Rows of the band with one set.
        rows: u64,
        /// How long it is.
        one_set: f64,
    },
    /// However many sets are tied, the band does not get longer.
    DoesNotGrow,
    /// The sets pick strands by color and cannot be followed.
    NotFollowed,
    /// The gauge says nothing that can be reckoned with.
    Gauge,
    /// A part does not fit the others.
    Parts,
}

impl NotMeasured {
    /// In words.
    pub fn said(&self, unit: Unit) -> String {
        match self {
        Self::Endless => "how long it is to be is not said: ask for `--length 15cm` or `--sets 8`, or write \
                                 `length 15 cm` or `sets 8` in the pattern"
            .to_owned(),
        Self::TooShort { wanted, rows, one_set } => format!(
            "{} is shorter than the band with one set, which has {rows} rows and is {} long; ask for that much or more",
            unit.finished(*wanted),
            unit.finished(*one_set)
        ),
        Self::DoesNotGrow => {
            "however many sets are tied, the band gets no longer, so no length can be reached; the set ties nothing"
                .to_owned()
        }
        Self::NotFollowed => "its sets pick strands by color, and in too many different ways to follow; it is \
                                     not known what the strands do in them"
            .to_owned(),
        Self::Gauge => "nothing can be reckoned from its gauge; every number in it must be above zero".to_owned(),
        Self::Parts => "opening, set and closing do not fit one another".to_owned(),
    }
    }
}

impl Measured {
    /// Measures a band.
    ///
    /// # Errors
    /// [`NotMeasured`].
    pub fn new(pattern: &Pattern, wish: Wish) -> Result<Self, NotMeasured> {
        let (pattern, basis) = wished(pattern, wish);
        let figures = gauge(pattern.gauge).figures().map_err(|_| NotMeasured::Gauge)?;
        let reckoning = reckoned(&pattern, figures)?;
        let sets = reckoning.times.ok_or(NotMeasured::NotFollowed)?;
        let ends = pattern.ends.unwrap_or(USUAL_ENDS);
        let free = free_of_each(&pattern.start, ends, wish.fold);
        let lengths: Vec<Length> =
            reckoning.uses.iter().map(|of| figures.length(*of, reckoning.rows, free)).collect();
        let pieces = pieces(&pattern, &lengths, wish.fold);
        let saving = balanced::saving(&pattern, &reckoning, figures, free);
        let ends_assumed = pattern.ends.is_none();
        Ok(Self { pattern, reckoning, figures, basis, sets, ends, ends_assumed, lengths, pieces, saving })
    }

    /// The knotted part, in millimeters.
    pub fn length(&self) -> f64 {
        self.reckoning.rows as f64 * self.figures.pitch
    }

    /// The width, in millimeters.
    pub fn width(&self) -> f64 {
        self.lengths.len() as f64 * self.figures.width
    }

    /// By strand, what to cut of it.
    pub fn cuts(&self) -> Vec<f64> {
        self.lengths.iter().map(|length| length.cut).collect()
    }

    /// The name of a strand's thread.
    pub fn thread_of(&self, strand: usize) -> &str {
        let thread = self.pattern.strands.get(strand).map(|thread| usize::from(*thread));
        thread.and_then(|thread| self.pattern.threads.get(thread)).map_or("", |thread| thread.name.as_str())
    }

    /// By thread that hangs in the band: its number, its strands, its pieces, and how much of it in all.
    pub fn by_color(&self) -> Vec<(u16, usize, usize, f64)> {
        let color = |cut: &Cut| self.pattern.strands.get(usize::from(first(*cut))).copied();
        let of = |thread: u16| {
            let pieces: Vec<&Cut> = self.pieces.iter().filter(|cut| color(cut) == Some(thread)).collect();
            let strands = self.pattern.strands.iter().filter(|of| **of == thread).count();
            (thread, strands, pieces.len(), pieces.iter().map(|cut| cut.length()).sum())
        };
        let all = (0..self.pattern.threads.len() as u16).map(of);
        all.filter(|(_, strands, ..)| *strands > 0).collect()
    }
}

/// The strand of a piece that is named first.
pub fn first(cut: Cut) -> u8 {
    match cut {
        Cut::Single { strand, .. } => strand,
        Cut::Folded { strands: (one, other), .. } => one.min(other),
    }
}

fn wished(pattern: &Pattern, wish: Wish) -> (Pattern, Basis) {
    let mut pattern = pattern.clone();
    pattern.extent = wish.extent.unwrap_or(pattern.extent);
    pattern.ends = wish.ends.or(pattern.ends);
    if let Some(thickness) = wish.thickness {
        pattern.gauge = Gauge { thickness: Some(thickness), ..Gauge::default() };
    }
    let Gauge { thickness, knots_use, rows_measure } = pattern.gauge;
    let basis = match (knots_use.is_some() || rows_measure.is_some(), thickness) {
        (true, _) => Basis::Swatch,
        (false, Some(thickness)) => Basis::Thickness(thickness),
        (false, None) => Basis::Assumed,
    };
    if basis == Basis::Assumed {
        pattern.gauge.thickness = Some(USUAL_THICKNESS);
    }
    (pattern, basis)
}

fn gauge(gauge: Gauge) -> knotwright_band::thread::Gauge {
    let Gauge { thickness, knots_use, rows_measure } = gauge;
    knotwright_band::thread::Gauge { thickness, knots_use, rows_measure }
}

fn reckoned(pattern: &Pattern, figures: Figures) -> Result<Reckoning, NotMeasured> {
    let of = |extent| {
        let mut pattern = pattern.clone();
        pattern.extent = extent;
        Reckoning::of(&pattern).map_err(|_| NotMeasured::Parts)
    };
    match pattern.extent {
        Extent::Open if pattern.set.is_some() => return Err(NotMeasured::Endless),
        Extent::Length(wanted) if pattern.set.is_some() => {
            let one = of(Extent::Sets(1))?;
            let one_set = one.rows as f64 * figures.pitch;
            if one_set > wanted {
                return Err(NotMeasured::TooShort { wanted, rows: one.rows, one_set });
            }
            let reckoned = of(pattern.extent)?;
            let grows = reckoned.repeats.is_none() || reckoned.times.is_some();
            return if grows { Ok(reckoned) } else { Err(NotMeasured::DoesNotGrow) };
        }
        Extent::Open | Extent::Length(_) | Extent::Sets(_) => {}
    }
    // Without a set there is nothing to repeat: opening and closing are the band.
    of(if pattern.set.is_some() { pattern.extent } else { Extent::Sets(1) })
}

/// What hangs free of each strand: both ends; with a fold, one end and its share of the loop.
pub fn free_of_each(start: &StartForm, ends: f64, fold: bool) -> f64 {
    match start {
        StartForm::Loose if fold => ends,
        StartForm::Loose => 2.0 * ends,
        StartForm::Folded(_) => ends,
        StartForm::Loop(length, _) => ends + length / 2.0,
    }
}

fn pieces(pattern: &Pattern, lengths: &[Length], by_need: bool) -> Vec<Cut> {
    let cuts: Vec<f64> = lengths.iter().map(|length| length.cut).collect();
    let mut pieces = match &pattern.start {
        _ if by_need => fold(&cuts, &pattern.strands),
        StartForm::Loose => Vec::new(),
        StartForm::Folded(pairs) | StartForm::Loop(_, pairs) => {
            pairs.iter().filter_map(|pair| folded(*pair, &cuts)).collect()
        }
    };
    let paired: Vec<u8> = pieces.iter().flat_map(|cut| strands(*cut)).collect();
    let single = (0_u8..).zip(&cuts).filter(|(strand, _)| !paired.contains(strand));
    pieces.extend(single.map(|(strand, &length)| Cut::Single { strand, length }));
    pieces.sort_by_key(|cut| first(*cut));
    pieces
}

/// The strands of a piece, the left one first.
pub fn strands(cut: Cut) -> Vec<u8> {
    match cut {
        Cut::Single { strand, .. } => vec![strand],
        Cut::Folded { strands: (one, other), .. } => vec![one.min(other), one.max(other)],
    }
}

fn folded((one, other): (u8, u8), cuts: &[f64]) -> Option<Cut> {
    let (needs, others) = (*cuts.get(usize::from(one))?, *cuts.get(usize::from(other))?);
    let strands = if others > needs { (other, one) } else { (one, other) };
    Some(Cut::Folded { strands, length: 2.0 * needs.max(others) })
}
