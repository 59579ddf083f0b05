//! A gap between two statements, each time that it is passed: what is put in there is tied as often.

use super::runs::SidedRun;
use crate::resolve::ThreadId;
use crate::tie::Passing;

/// A gap each time it is passed, and how the strands hang then without the step.
pub(super) struct Passes<'s> {
    pub(super) begun: &'s [Passing],
    pub(super) hung: Vec<&'s [u8]>,
}

impl Passes<'_> {
    /// Which strands hang in the range of the pass of that number.
    fn within(&self, number: usize) -> &[u8] {
        let (low, high) = self.begun[number].within;
        &self.hung[number][usize::from(low)..=usize::from(high)]
    }

    /// The same as the step counts its places, from the right in a mirror.
    pub(super) fn inside(&self, number: usize) -> Vec<u8> {
        let mut inside = self.within(number).to_vec();
        if self.begun[number].mirrored {
            inside.reverse();
        }
        inside
    }

    /// The number of the first pass, before that time, in whose range a strand hangs.
    pub(super) fn first_with(&self, strand: u8, before: u32) -> Option<usize> {
        let passes = self.begun.iter().take_while(|pass| pass.time <= before);
        passes.enumerate().map(|pass| pass.0).find(|&number| self.within(number).contains(&strand))
    }

    /// When the strands that hang in the range of a pass are in one again, if they are not in one before.
    pub(super) fn again(&self, number: usize) -> Option<u32> {
        let mut is_own = [false; 256];
        self.within(number).iter().for_each(|&strand| is_own[usize::from(strand)] = true);
        let shares = |&other: &usize| self.within(other).iter().any(|&strand| is_own[usize::from(strand)]);
        let again = (number + 1..self.begun.len()).find(shares);
        (!(0..number).any(|before| shares(&before)))
            .then(|| again.map_or(u32::MAX, |again| self.begun[again].time))
    }
}

/// Where these colors hang after a run was tied in a pass.
pub(super) fn tie<T: Copy>((rotation, both): SidedRun, pass: &Passing, colors: &mut [T]) {
    let inside = &mut colors[usize::from(pass.within.0)..=usize::from(pass.within.1)];
    rotation.turn(inside, pass.mirrored);
    if both {
        rotation.turn(inside, !pass.mirrored);
    }
}

/// The same where without the run the strands hang in that order, by strand: the thread that hangs in its place.
pub(super) fn tie_places((rotation, both): SidedRun, pass: &Passing, order: &[u8], hanging: &mut [ThreadId]) {
    let inside = &order[usize::from(pass.within.0)..=usize::from(pass.within.1)];
    rotation.turn_places(inside, hanging, pass.mirrored);
    if both {
        rotation.turn_places(inside, hanging, !pass.mirrored);
    }
}
