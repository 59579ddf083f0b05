//! Which color is seen, where threads change color along their length.
//!
//! A picture has a list of colors: first those of the threads, by their numbers, and of a thread that changes color its
//! first one; after them its further ones, thread by thread. Whatever is drawn says a number of that list. What color a
//! strand has at a knot follows from the thread that it has used up before it.

use crate::{Band, BandThread, StrandStart, ThreadShade};
use knotwright_band::thread::{TakenThread, UsedThread, find_shade};
use knotwright_color::Rgb;
use knotwright_numbers::ToNumber;

/// The colors of a picture: of each, its thread and what it looks like.
pub fn list_colors(threads: &[BandThread]) -> Vec<(u16, Rgb)> {
    let numbered = || (0_u16..).zip(threads);
    let further = numbered()
        .flat_map(|(number, thread)| thread.shades.iter().skip(1).map(move |shade| (number, shade.color)));
    numbered().map(|(number, thread)| (number, thread.color)).chain(further).collect()
}

/// A strand, and which color of its thread is seen so far along it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct DyedStrand<'a> {
    thread: u16,
    shades: &'a [ThreadShade],
    /// The number of its second color.
    further: u16,
    /// Whether the colors come in the opposite order: it is the other half of a folded thread.
    is_turned: bool,
}

impl DyedStrand<'_> {
    /// The number of the color that is seen after that much thread.
    pub(crate) fn color(&self, used: f64) -> u16 {
        match find_shade(self.shades.iter().map(|shade| shade.length), used, self.is_turned) {
            0 => self.thread,
            shade => self.further + (shade - 1).to_u16(),
        }
    }
}

/// The strands of a band by starting position, while knot after knot is tied.
pub(crate) struct Dyeing<'a> {
    band: &'a Band<'a>,
    strands: Vec<DyedStrand<'a>>,
    /// What they have used; none if no thread changes color, or nothing is known of their lengths.
    used: Option<UsedThread>,
}

impl<'a> Dyeing<'a> {
    pub(crate) fn of(band: &'a Band<'_>) -> Self {
        let numbers = 0..band.strands.len().to_u8();
        let strands: Vec<DyedStrand<'_>> =
            numbers.map(|strand| EndedStrand::begun(band, strand).dyed(band)).collect();
        let joins = band.parts.iter().flat_map(|part| part.piece.joins());
        let mut threads = band.strands.iter().copied().chain(joins.filter_map(|join| join.thread));
        let has_shades = |of: &BandThread| !of.shades.is_empty();
        let changes = band.threads.iter().any(has_shades)
            && threads.any(|thread| band.threads.get(usize::from(thread)).is_some_and(has_shades));
        let taken = band.taken.filter(|_| changes);
        let taken = taken.map(|taken| TakenThread::of(&taken.figures, taken.before));
        let used = taken.map(|taken| UsedThread::new(strands.len(), taken));
        Self { band, strands, used }
    }

    /// Whether some strand changes color.
    pub(crate) fn changes(&self) -> bool {
        self.used.is_some()
    }

    /// Ties a knot; the colors of the working strand and of its base there.
    pub(crate) fn tie(&mut self, row: u32, working: u8, base: u8) -> [u16; 2] {
        let along = self.used.as_mut().map_or([0.0; 2], |used| used.tie(row.into(), working, base));
        [(working, along[0]), (base, along[1])].map(|(strand, along)| self.color(strand, along))
    }

    /// Goes on at its next knot with a new piece of thread, of another one if `thread` says so. It begins at its first color,
    /// on whichever half of a folded thread the strand was before.
    pub(crate) fn join(&mut self, strand: u8, thread: Option<u16>) {
        let Some(of) = self.strands.get_mut(usize::from(strand)) else { return };
        let thread = thread.unwrap_or(of.thread);
        *of = EndedStrand::of(thread).dyed(self.band);
        self.used.as_mut().into_iter().for_each(|used| used.join(strand));
    }

    /// The color of a strand that would be tied in that row.
    pub(crate) fn hanging(&self, strand: u8, row: u32) -> u16 {
        self.color(strand, self.used(strand, row))
    }

    /// By strand, what it is if the band ends before that row.
    pub(crate) fn ended(&self, row: u32) -> Vec<EndedStrand> {
        let ended = |(number, of): (u8, &DyedStrand<'_>)| EndedStrand {
            thread: of.thread,
            is_turned: of.is_turned,
            used: self.used(number, row),
        };
        (0..).zip(&self.strands).map(ended).collect()
    }

    /// How much of its piece of thread a strand has used up before that row.
    fn used(&self, strand: u8, row: u32) -> f64 {
        self.used.as_ref().map_or(0.0, |used| used.before(strand, row.into()))
    }

    fn color(&self, strand: u8, used: f64) -> u16 {
        self.strands.get(usize::from(strand)).map_or(u16::MAX, |of| of.color(used))
    }
}

/// A strand somewhere along it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct EndedStrand {
    pub(crate) thread: u16,
    /// Whether the colors come in the opposite order.
    pub(crate) is_turned: bool,
    /// How much of its piece of thread is used up there.
    pub(crate) used: f64,
}

impl EndedStrand {
    /// The beginning of a piece of thread.
    pub(crate) fn of(thread: u16) -> Self {
        Self { thread, is_turned: false, used: 0.0 }
    }

    /// The beginning of a strand, by its starting position. Of a folded thread the left strand goes on with the first color,
    /// the other one with the last: it is folded where the first begins.
    pub(crate) fn begun(band: &Band<'_>, strand: u8) -> Self {
        let is_turned = match &band.start {
            StrandStart::Loose => false,
            StrandStart::Folded(pairs) | StrandStart::Loop(pairs) => {
                pairs.iter().any(|(one, other)| *one.max(other) == strand)
            }
        };
        Self { is_turned, ..Self::of(band.strands.get(usize::from(strand)).copied().unwrap_or(u16::MAX)) }
    }

    /// With the colors of its thread; with one alone if nothing is known of lengths.
    pub(crate) fn dyed<'a>(&self, band: &'a Band<'_>) -> DyedStrand<'a> {
        let known = band.taken.and_then(|_| band.threads.get(usize::from(self.thread)));
        let before = band.threads.iter().take(usize::from(self.thread));
        let further = before.map(|of| of.shades.len().saturating_sub(1)).sum::<usize>() + band.threads.len();
        let shades = known.map_or(&[][..], |of| &of.shades);
        DyedStrand { thread: self.thread, shades, further: further.to_u16(), is_turned: self.is_turned }
    }
}
