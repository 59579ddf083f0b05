//! After how many sets everything comes again.

use crate::orders::find_cycles;
use crate::{Layout, Piece, Sets};
use knotwright_numbers::ToNumber;

/// After how many sets things come again, and again after as many more.
///
/// At most Landau's function of 200 (24,067,258,815,600) times [`Sets::MOST_DIFFERENT`], which fits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Repeats {
    /// Sets before the first that will come again; 0 if sets are alike.
    pub run_in: u64,
    /// Every strand hangs where it hung.
    pub strands: u64,
    /// At every place hangs a strand of the color that hung there.
    pub colors: u64,
    /// The set that follows looks the same.
    pub look: u64,
}

/// The repeats of sets; `colors`: by strand, named by position as the first set begins.
///
/// Strands: the least common multiple of the lengths of the rounds. Colors: that of the least turns by which each
/// round's colors come to lie on themselves. Look: if sets are alike, the same as the colors. (What shows are the
/// colors of the places whose strands work, and in every round of two places or more one of them works: two of its
/// strands must cross, in a knot between the two.) If they differ, the least turn of their looks. Where strands go on
/// with other threads the colors do not go around with the strands, and are followed from set to set.
pub fn find_repeats(sets: &Sets, colors: &[u16]) -> Repeats {
    let run_in = sets.run_in().len().to_u64();
    if sets.run_in().iter().chain(sets.period()).any(Piece::changes_threads) {
        return follow_colors(sets, colors);
    }
    let before = sets.order_after(run_in);
    let hang: Vec<u16> = before.iter().map(|&s| colors.get(usize::from(s)).copied().unwrap_or(0)).collect();
    let rounds = find_cycles(&sets.period_order());
    let length = sets.period().len().to_u64();
    let color_turn = |round: &Vec<u8>| turn(&round.iter().map(|&p| hang[usize::from(p)]).collect::<Vec<_>>());
    let strands = strands_come_again(sets, &rounds);
    let colors = length * common(rounds.iter().map(color_turn));
    let look = if length > 1 && colors == length { turn(&looks(sets.period(), hang)) } else { colors };
    Repeats { run_in, strands, colors, look }
}

/// After how many sets every strand hangs where it hung, those before the first that comes again included: what
/// [`find_repeats`] says of the strands, for those who ask nothing else.
pub fn sets_until_back(sets: &Sets) -> u64 {
    sets.run_in().len().to_u64() + strands_come_again(sets, &find_cycles(&sets.period_order()))
}

/// After how many sets every strand hangs where it hung, from the first that comes again on; `rounds`: of a period.
fn strands_come_again(sets: &Sets, rounds: &[Vec<u8>]) -> u64 {
    sets.period().len().to_u64() * common(rounds.iter().map(|round| round.len().to_u64()))
}

/// The repeats of sets in which strands go on with other threads.
fn follow_colors(sets: &Sets, colors: &[u16]) -> Repeats {
    let run_in = sets.run_in().len().to_u64();
    let hang = sets.run_in().iter().fold(colors.to_vec(), |hang, set| set.threads_after(&hang));
    let once = |hang: &[u16]| sets.period().iter().fold(hang.to_vec(), |hang, set| set.threads_after(&hang));
    let length = sets.period().len().to_u64();
    let strands = strands_come_again(sets, &find_cycles(&sets.period_order()));
    // A place takes its color from another place or from a join. Where none is in its round, its colors go around; all
    // others are what a join made them after no more periods than there are places.
    let places = hang.len();
    let settled = (0..places).fold(hang.clone(), |hang, _| once(&hang));
    let (mut before, mut again, mut late) = (hang, settled.clone(), 0);
    let mut colors = 0;
    while colors == 0 || again != settled {
        again = once(&again);
        colors += 1;
    }
    let mut ahead = (0..colors).fold(before.clone(), |hang, _| once(&hang));
    while before != ahead {
        (before, ahead) = (once(&before), once(&ahead));
        late += 1;
    }
    let run_in = run_in + length * late;
    let colors = length * colors;
    Repeats { run_in, strands, colors, look: colors }
}

/// By set, what is seen of it: row, gap and color of every knot.
fn looks(period: &[Piece], mut hang: Vec<u16>) -> Vec<Vec<(u32, u8, u16)>> {
    let mut looks = Vec::new();
    for set in period {
        let layout = Layout::of(set);
        let seen = |knot: u32| {
            let k = set.knots()[knot.to_usize()];
            (layout.rows[knot.to_usize()], k.gap, hang[usize::from(k.working)])
        };
        looks.push(layout.sorted(set).into_iter().map(seen).collect());
        hang = set.order().iter().map(|&s| hang[usize::from(s)]).collect();
    }
    looks
}

/// By how many places a round of things must be turned, at least, to lie on itself.
fn turn<T: PartialEq>(round: &[T]) -> u64 {
    let length = round.len();
    let lies_on_itself = |by: &usize| length.is_multiple_of(*by) && round[*by..] == round[..length - by];
    (1..=length).find(lies_on_itself).unwrap_or(1).to_u64()
}

/// The least common multiple.
fn common(numbers: impl Iterator<Item = u64>) -> u64 {
    numbers.fold(1, |all, number| all / greatest_divisor(all, number) * number)
}

fn greatest_divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { greatest_divisor(b, a % b) }
}
