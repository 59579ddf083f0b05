//! How much thread a band takes: the figures, before they are put into words.

mod around;
mod balanced;
mod joined;
mod proposed;
mod report;
mod stop;

pub use around::Around;
pub use balanced::{Saving, shared_out};
pub use joined::{PieceUse, StrandPiece};
pub use proposed::{NotProposed, ProposedJoin, ProposedJoins, propose_joins};
pub use report::{Medium, ReportTable, ThreadReport, report_measured};
pub(crate) use report::{cut_rows, describe_basis, describe_size, meters};
pub use stop::Stop;

use crate::lengths::LengthUnit;
use crate::whole_band::{Growing, WholeBand, count_beads};
use knotwright_band::thread::{
    Cut, Figures, Gauge, OwnThread, StrandLength, USUAL_SKEIN, USUAL_THICKNESS, cut_alike, fold_strands,
};
use knotwright_checker::{Extent, Held, PartKind, Pattern, PatternBead, StartForm, USUAL_ENDS, USUAL_LENGTH};
use knotwright_numbers::ToNumber;
use knotwright_wording::digits::count;

/// Where the figures come from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FigureBasis {
    /// Knots or rows that were measured.
    Swatch,
    /// The thread's thickness, in millimeters.
    Thickness(f64),
    /// Nothing is known of the thread: taken to be [`USUAL_THICKNESS`] thick.
    Assumed,
}

/// What is wanted other than the pattern says. Lengths in millimeters.
#[derive(Debug, Clone, Copy, Default)]
pub struct MeasureOptions {
    /// How long it is to be.
    pub extent: Option<Extent>,
    /// The wrist that it is for, if its length is not said.
    pub wrist: Option<f64>,
    /// How thick the thread is.
    pub thickness: Option<f64>,
    /// Left free at each end.
    pub ends: Option<f64>,
    /// Pair the strands by need, whatever the start.
    pub fold: bool,
    /// The longest piece there is of a thread.
    pub skein: Option<f64>,
    /// The unit in which threads are cut: to the next whole 5 cm or 2 in.
    pub unit: LengthUnit,
}

/// A measured band.
#[derive(Debug)]
pub struct Measured<'a> {
    /// What was measured.
    pub pattern: &'a Pattern,
    /// The numbers of the band, as long as was wished for.
    pub whole: WholeBand,
    /// What is known of the thread, or taken to be so.
    pub gauge: Gauge,
    /// What knots and rows take of a thread.
    pub figures: Figures,
    /// Where they come from.
    pub basis: FigureBasis,
    /// How often the set is tied.
    pub sets: u64,
    /// Whether nobody said how long it is to be: it is as long as usual.
    pub length_assumed: bool,
    /// The wrist that it is for.
    pub around: Option<Around>,
    /// Where to stop within a set to come nearer to the length that is wanted.
    pub stop: Option<Stop>,
    /// What each strand gives to its ends.
    pub held: Held,
    /// Whether nobody said how long they are.
    pub ends_assumed: bool,
    /// By strand, its thread with the ends that belong to it.
    pub lengths: Vec<StrandLength>,
    /// By strand, what to cut of it: as much as it may need, rounded up as scissors do. Of a strand that is joined, all its
    /// pieces together.
    pub cuts: Vec<f64>,
    /// The longest piece there is of a thread, and whether nobody said so.
    pub skein: (f64, bool),
    /// The threads to cut, in the order of their leftmost strand.
    pub pieces: Vec<Cut>,
    /// By strand, the thread of each of its pieces and what that does.
    pub stretches: Vec<Vec<(u16, PieceUse)>>,
    /// By strand, its pieces, one by one.
    pub strand_pieces: Vec<Vec<StrandPiece>>,
    /// The threads with which joined strands go on, strand by strand: all their pieces but the first.
    pub joined: Vec<StrandPiece>,
    /// The threads to cut that go around the ends; each is as long as it is cut.
    pub own: Vec<OwnThread>,
    /// By bead of the pattern, how many of it the band has.
    pub beads: Vec<u64>,
    /// What would be saved if knots between two strands of one color were shared out; `None` if nothing.
    pub saving: Option<Saving>,
}

/// Why a band is not measured.
#[derive(Debug, Clone, PartialEq)]
pub enum NotMeasured {
    /// The length that is wanted is surely less than that of one set, in millimeters.
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
    /// Strands are joined, and there are too many knots to follow them.
    TooManyKnots,
    /// The gauge holds nothing that can be computed with.
    Gauge,
    /// A part is a face that nothing ties yet.
    Wish(PartKind),
}

impl NotMeasured {
    /// In words.
    pub fn said(&self, unit: LengthUnit) -> String {
        match self {
            Self::TooShort { wanted, rows, one_set } => {
                let (wanted, one_set) = unit.told_apart(*wanted, *one_set);
                format!(
                    "{wanted} is shorter than the band with one set, which has {} and is {one_set} long; ask for at least \
                     that",
                    count(*rows, "row")
                )
            }
            Self::DoesNotGrow => {
                "the set ties nothing, so the band gets no longer, however many sets you tie".to_owned()
            }
            Self::NotFollowed => {
                "its sets pick strands by color, and in too many different ways to follow; it is \
                                     not known what the strands do in them"
                    .to_owned()
            }
            Self::TooManyKnots => {
                "its strands are joined, and it has too many knots to follow each of their pieces; ask for fewer sets"
                    .to_owned()
            }
            Self::Wish(kind) => format!(
                "its {} is a face that nothing ties yet, so it is not known how much thread it takes; `knotwright design` \
                 finds the knots, and so does \"Tie this face\" in an editor",
                kind.word()
            ),
            Self::Gauge => "its gauge cannot be used; every number in it must be above zero".to_owned(),
        }
    }
}

impl<'a> Measured<'a> {
    /// Measures a band.
    ///
    /// # Errors
    /// [`NotMeasured`].
    pub fn new(pattern: &'a Pattern, wish: MeasureOptions) -> Result<Self, NotMeasured> {
        if let Some(kind) = pattern.wished_part() {
            return Err(NotMeasured::Wish(kind));
        }
        let (gauge, basis) = wished_gauge(pattern, wish);
        let growing = Growing::new(pattern);
        let figures = growing.figures(gauge).map_err(|_| NotMeasured::Gauge)?;
        let around = wish
            .wrist
            .filter(|_| wish.extent.is_none())
            .map(|wrist| Around::of(wrist, pattern, &Held::of(pattern, figures, USUAL_ENDS, wish.fold)));
        let extent = wish.extent.or(around.map(|around| Extent::Length(around.knotted())));
        let (extent, length_assumed) = sized(&growing, pattern, extent.unwrap_or(pattern.extent), figures)?;
        let stop = match (extent, growing.times(extent, Some(figures))) {
            (Extent::Length(wanted), Some(sets)) => stop::find_stop(&growing, sets, figures, wanted),
            _ => None,
        };
        let whole = growing.grown(extent, Some(figures));
        let is_endless = whole.repeats.is_some() && whole.times.is_none();
        if is_endless {
            return Err(NotMeasured::DoesNotGrow);
        }
        let sets = whole.times.ok_or(NotMeasured::NotFollowed)?;
        let ends = wish.ends.or(pattern.ends);
        let held = Held::of(pattern, figures, ends.unwrap_or(USUAL_ENDS), wish.fold);
        let lengths: Vec<StrandLength> =
            whole.uses.iter().map(|of| figures.length(*of, whole.rows, held.of_each)).collect();
        let stretches = joined::stretches(pattern, &whole).ok_or(NotMeasured::TooManyKnots)?;
        let of_strands = joined::cut_pieces(&stretches, figures, &held, wish.unit);
        let cuts = of_strands.iter().map(|pieces| pieces.iter().map(|piece| piece.cut).sum()).collect();
        let firsts: Vec<f64> = of_strands.iter().filter_map(|of| of.first()).map(|piece| piece.cut).collect();
        let pieces = pieces(pattern, &firsts, wish.fold);
        let joined: Vec<StrandPiece> = of_strands.iter().flat_map(|of| of.iter().skip(1)).copied().collect();
        let own = held.own().map(|own| OwnThread { length: wish.unit.to_cut(own.length), ..*own }).collect();
        let beads = count_beads(pattern, &whole, if pattern.set.is_some() { sets } else { 0 });
        // Pieces that end in the midst of the band are not shared out.
        let saving = if joined::has_joins(&whole) {
            None
        } else {
            balanced::find_saving(pattern, &whole, figures, |most| wish.unit.to_cut(held.of_each + most))
        };
        Ok(Self {
            pattern,
            whole,
            gauge,
            figures,
            basis,
            sets,
            length_assumed,
            around,
            stop,
            held,
            ends_assumed: ends.is_none(),
            lengths,
            cuts,
            skein: (wish.skein.unwrap_or(USUAL_SKEIN), wish.skein.is_none()),
            pieces,
            stretches,
            strand_pieces: of_strands,
            joined,
            own,
            beads,
            saving,
        })
    }

    /// The knotted part, in millimeters.
    pub fn length(&self) -> f64 {
        self.whole.rows.to_f64() * self.figures.pitch
    }

    /// How many rows a set has by itself, where there are several and each begins in the last rows of the one before it.
    pub fn rows_of_set(&self) -> Option<u64> {
        self.whole.rows_of_set().filter(|_| self.sets > 1)
    }

    /// The width, in millimeters.
    pub fn width(&self) -> f64 {
        self.lengths.len().to_f64() * self.figures.width
    }

    /// What would be left over if all threads were cut like the longest, a folded one for two strands like it. What the
    /// shorter half of a folded thread has over is there in any case, and does not count.
    pub fn waste_cut_alike(&self) -> f64 {
        let first = |strand: u8| self.strand_pieces.get(usize::from(strand)).and_then(|of| of.first());
        let over = |cut: &Cut| {
            let halves = list_strands(*cut).into_iter().filter_map(first).map(|piece| piece.cut);
            cut.length() - halves.sum::<f64>()
        };
        cut_alike(&self.cuts) - self.pieces.iter().map(over).sum::<f64>()
    }

    /// The strands of which a piece is longer than a skein.
    pub fn longer_than_skein(&self) -> Vec<u8> {
        let cuts = self.pieces.iter().filter(|cut| cut.length() > self.skein.0);
        let joined = self.joined.iter().filter(|piece| piece.cut > self.skein.0);
        let mut longer: Vec<u8> =
            cuts.flat_map(|cut| list_strands(*cut)).chain(joined.map(|piece| piece.strand)).collect();
        longer.sort_unstable();
        longer.dedup();
        longer
    }

    /// All pieces of the strands that are joined, strand by strand.
    pub fn of_joined_strands(&self) -> impl Iterator<Item = &StrandPiece> {
        self.strand_pieces.iter().filter(|of| of.len() > 1).flatten()
    }

    /// The beads that the band has, and how many of each.
    pub fn bead_counts(&self) -> impl Iterator<Item = (&'a PatternBead, u64)> + '_ {
        self.pattern.beads.iter().zip(self.beads.iter().copied()).filter(|(_, count)| *count > 0)
    }

    /// The name of a strand's thread.
    pub fn thread_of(&self, strand: usize) -> &str {
        self.pattern.strands.get(strand).map_or("", |thread| self.name(*thread))
    }

    /// The name of a thread.
    pub fn name(&self, thread: u16) -> &str {
        self.pattern.threads.get(usize::from(thread)).map_or("", |thread| thread.name.as_str())
    }

    /// By thread of the band: its number, its strands, its pieces, and how much of it in all.
    pub fn by_color(&self) -> Vec<(u16, usize, usize, f64)> {
        let color = |cut: &Cut| self.pattern.strands.get(usize::from(first_strand(*cut))).copied();
        let of = |thread: u16| {
            let pieces: Vec<&Cut> = self.pieces.iter().filter(|cut| color(cut) == Some(thread)).collect();
            let strands = self.pattern.strands.iter().filter(|of| **of == thread).count();
            let own = || self.own.iter().filter(|own| own.thread == thread);
            let joined = || self.joined.iter().filter(|piece| piece.thread == thread);
            let count =
                pieces.len() + joined().count() + own().map(|own| own.count.to_usize()).sum::<usize>();
            let length = pieces.iter().map(|cut| cut.length()).sum::<f64>()
                + joined().map(|piece| piece.cut).sum::<f64>()
                + own().map(|own| f64::from(own.count) * own.length).sum::<f64>();
            (thread, strands, count, length)
        };
        let all = (0..self.pattern.threads.len().to_u16()).map(of);
        all.filter(|(_, _, pieces, _)| *pieces > 0).collect()
    }
}

/// The strand of a piece that is named first.
pub fn first_strand(cut: Cut) -> u8 {
    match cut {
        Cut::Single { strand, .. } => strand,
        Cut::Folded { strands: (one, other), .. } => one.min(other),
    }
}

/// What is known of the thread, and from where.
fn wished_gauge(pattern: &Pattern, wish: MeasureOptions) -> (Gauge, FigureBasis) {
    let mut gauge = match wish.thickness {
        Some(thickness) => Gauge { thickness: Some(thickness), ..Gauge::default() },
        None => pattern.gauge,
    };
    let basis = match (gauge.knots_use.is_some() || gauge.rows_measure.is_some(), gauge.thickness) {
        (true, _) => FigureBasis::Swatch,
        (false, Some(thickness)) => FigureBasis::Thickness(thickness),
        (false, None) => FigureBasis::Assumed,
    };
    if basis == FigureBasis::Assumed {
        gauge.thickness = Some(USUAL_THICKNESS);
    }
    (gauge, basis)
}

/// How long the band is to be, and whether that was assumed: if nobody says so, as long as usual, or one set where that
/// is more.
fn sized(
    growing: &Growing,
    pattern: &Pattern,
    wanted: Extent,
    figures: Figures,
) -> Result<(Extent, bool), NotMeasured> {
    if pattern.set.is_none() {
        // There is nothing to repeat: opening and closing are the band.
        return Ok((Extent::Sets(1), false));
    }
    let (rows, length) = (growing.rows(1), |rows: u64| rows.to_f64() * figures.pitch);
    match wanted {
        Extent::Open if length(rows) > USUAL_LENGTH => Ok((Extent::Sets(1), true)),
        Extent::Open if growing.times(Extent::Length(USUAL_LENGTH), Some(figures)).is_none() => {
            Ok((Extent::Sets(1), true))
        }
        Extent::Open => Ok((Extent::Length(USUAL_LENGTH), true)),
        Extent::Length(wanted) if figures.is_shorter(wanted, rows) => {
            Err(NotMeasured::TooShort { wanted, rows, one_set: length(rows) })
        }
        Extent::Length(_) | Extent::Sets(_) => Ok((wanted, false)),
    }
}

fn pieces(pattern: &Pattern, cuts: &[f64], by_need: bool) -> Vec<Cut> {
    let mut pieces = match &pattern.start {
        _ if by_need => fold_strands(cuts, &pattern.strands),
        StartForm::Loose => Vec::new(),
        StartForm::Folded(pairs) | StartForm::Loop(_, pairs) => {
            pairs.iter().filter_map(|&(one, other)| folded(one, other, cuts)).collect()
        }
    };
    let paired: Vec<u8> = pieces.iter().flat_map(|cut| list_strands(*cut)).collect();
    let single = (0_u8..).zip(cuts).filter(|(strand, _)| !paired.contains(strand));
    pieces.extend(single.map(|(strand, &length)| Cut::Single { strand, length }));
    pieces.sort_by_key(|cut| first_strand(*cut));
    pieces
}

/// The strands of a piece, the left one first.
pub fn list_strands(cut: Cut) -> Vec<u8> {
    match cut {
        Cut::Single { strand, .. } => vec![strand],
        Cut::Folded { strands: (one, other), .. } => vec![one.min(other), one.max(other)],
    }
}

fn folded(one: u8, other: u8, cuts: &[f64]) -> Option<Cut> {
    let (needs, others) = (*cuts.get(usize::from(one))?, *cuts.get(usize::from(other))?);
    let strands = if others > needs { (other, one) } else { (one, other) };
    Some(Cut::Folded { strands, length: 2.0 * needs.max(others) })
}
