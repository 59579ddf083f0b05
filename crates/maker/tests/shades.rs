//! Threads that change color: every knot of the samples, against lengths that are summed up from the start for each knot.
//!
//! Nothing of the running sums is used here: for every knot, all knots before it are looked through, the rows in which its
//! strand has none are counted one by one, and the colors of the thread are laid end to end until they reach that far.

mod samples;

use knotwright_band::thread::JOIN_OVER;
use knotwright_band::{Rows, orders::one_then};
use knotwright_checker::{Extent, Pattern, Shade, StartForm};
use knotwright_color::Rgb;
use knotwright_maker::{MeasureOptions, Measured, scripted_to_see};
use knotwright_numbers::ToNumber;
use knotwright_render::{Scene, TyingScript};
use samples::samples;

const SETS: u32 = 3;

/// A knot of the whole band: its row, and who ties it over whom, by starting position.
struct Knot {
    row: u32,
    working: u8,
    base: u8,
}

/// A strand, by starting position, that goes on with a new piece of thread at its next knot from one on.
struct NewPiece {
    knot: usize,
    strand: u8,
    thread: Option<u16>,
}

/// The whole band.
struct Tied {
    knots: Vec<Knot>,
    joins: Vec<NewPiece>,
}

impl Tied {
    fn of(script: &TyingScript) -> Self {
        let strands = script.strands.len();
        let (mut rows, mut order) = (Rows::new(strands), script.start_order());
        let (mut knots, mut joins) = (Vec::new(), Vec::new());
        for part in script.band().parts {
            let name = |strand: u8| order[usize::from(strand)];
            for join in part.piece.joins().iter().filter(|join| join.is_in(part.set)) {
                let knot = knots.len() + join.knot.to_usize();
                joins.push(NewPiece { knot, strand: name(join.strand), thread: join.thread });
            }
            for (knot, row) in part.piece.knots().iter().zip(rows.lay(part.piece)) {
                knots.push(Knot { row, working: name(knot.working), base: name(knot.base) });
            }
            order = one_then(&order, part.piece.order());
        }
        Self { knots, joins }
    }

    /// The joins of a strand up to a knot.
    fn joins(&self, strand: u8, knot: usize) -> impl DoubleEndedIterator<Item = &NewPiece> {
        self.joins.iter().filter(move |join| join.strand == strand && join.knot <= knot)
    }

    /// What the strand that ties a knot has used up before it of its piece of thread.
    fn used(&self, number: usize, measured: &Measured, above: f64) -> f64 {
        let (figures, strand) = (measured.figures, self.knots[number].working);
        let is_its = |knot: &&Knot| knot.working == strand || knot.base == strand;
        let (first, row, held) = match self.joins(strand, number).next_back() {
            Some(join) => {
                let first = (join.knot..=number).find(|at| is_its(&&self.knots[*at])).unwrap();
                (first, self.knots[first].row, JOIN_OVER)
            }
            None => (0, 0, above),
        };
        let tied: Vec<&Knot> = self.knots[first..number].iter().filter(is_its).collect();
        let in_knots: f64 =
            tied.iter().map(|of| if of.working == strand { figures.working } else { figures.base }).sum();
        let idle = (row..self.knots[number].row).filter(|row| tied.iter().all(|of| of.row != *row)).count();
        held + in_knots + idle.to_f64() * figures.idle
    }
}

/// The color that lies so far along a thread: on from its beginning, or back from there.
fn color(shades: &[Shade], far: f64, is_turned: bool) -> Rgb {
    let order: Vec<&Shade> = if is_turned { shades.iter().rev().collect() } else { shades.iter().collect() };
    let mut end = 0.0;
    for shade in order.iter().cycle() {
        end += shade.length;
        if far < end {
            return shade.color;
        }
    }
    unreachable!("colors come again and again")
}

/// Three colors for each thread, of other lengths in each.
fn dye(pattern: &mut Pattern) {
    for (number, thread) in (1_u8..).zip(&mut pattern.threads) {
        let shade = |part: u8| Shade {
            color: Rgb::new(number, part, 200),
            length: 17.0 + f64::from(number) * 3.1 + f64::from(part) * 11.3,
        };
        thread.shades = (0..3).map(shade).collect();
        thread.color = thread.shades[0].color;
    }
}

#[test]
fn every_knot_of_every_sample_has_the_color_that_its_strand_has_come_to() {
    let (mut folded, mut joined) = (0, 0);
    for mut pattern in samples() {
        dye(&mut pattern);
        let title = pattern.title.text.clone();
        let Ok(script) = scripted_to_see(&pattern, Some(SETS), None) else { continue };
        let wish = MeasureOptions { extent: Some(Extent::Sets(SETS)), ..MeasureOptions::default() };
        let measured = Measured::new(&pattern, wish).unwrap();
        let turned: Vec<u8> = match &pattern.start {
            StartForm::Loose => Vec::new(),
            StartForm::Folded(pairs) | StartForm::Loop(_, pairs) => {
                pairs.iter().map(|(one, other)| *one.max(other)).collect()
            }
        };
        folded += usize::from(!turned.is_empty());
        let above = above(&pattern, &measured);
        let scene = Scene::of(&script.band());
        let tied = Tied::of(&script);
        assert_eq!(scene.beads.len(), tied.knots.len());
        let mut seen = std::collections::BTreeSet::new();
        for (number, (bead, knot)) in scene.beads.iter().zip(&tied.knots).enumerate() {
            let strand = knot.working;
            let other = tied.joins(strand, number).rev().find_map(|join| join.thread);
            let thread = other.unwrap_or(pattern.strands[usize::from(strand)]);
            let is_new = tied.joins(strand, number).next().is_some();
            joined += usize::from(is_new);
            let shades = &pattern.threads[usize::from(thread)].shades;
            let far = tied.used(number, &measured, above);
            let wanted = color(shades, far, turned.contains(&strand) && !is_new);
            assert_eq!(scene.color(bead.thread), wanted, "{title}: knot {number} after {far} mm");
            seen.insert(bead.thread);
        }
        assert!(seen.len() > pattern.threads.len(), "{title}: some thread comes to another color");
    }
    assert!(folded > 3, "some samples are folded");
    assert!(joined > 3, "some knots are tied with a new piece");
}

/// What lies above the first row: of all that is not in the knots, what is not below.
fn above(pattern: &Pattern, measured: &Measured) -> f64 {
    let held = &measured.held;
    let below = match &held.finish {
        Some(finish) => finish.of_each,
        None => held.ends + held.knot,
    };
    let closed =
        pattern.made.finish.iter().flatten().any(|work| *work == knotwright_band::ends::EndWork::ClosingKnot);
    assert!(!closed || pattern.made.begin.is_some(), "what a closing knot takes of the beginning lies above");
    held.of_each - below
}

#[test]
fn the_beginning_is_used_up_before_the_first_knot() {
    let mut pattern = samples().into_iter().find(|of| of.title.text == "Evening tide").unwrap();
    let first = |pattern: &Pattern| {
        let script = scripted_to_see(pattern, Some(1), None).unwrap();
        let scene = Scene::of(&script.band());
        scene.color(scene.beads[0].thread)
    };
    let shades = pattern.threads[0].shades.clone();
    assert_eq!(first(&pattern), shades[0].color);
    // A plait five times as long: 18 cm of the first color do not reach down to the first knot.
    for work in pattern.made.begin.iter_mut().flatten() {
        if let knotwright_band::ends::EndWork::Plait { length, .. } = work {
            *length *= 5.0;
        }
    }
    assert_eq!(first(&pattern), shades[1].color);
}
