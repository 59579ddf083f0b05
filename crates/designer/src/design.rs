//! The question, the answer, and who looks for it.

use crate::least::find_least;
use crate::two_colors::TwoColors;
use crate::{NoFace, WishedFace};
use knotwright_band::{Kind, Piece};

/// How the strands hang at the start.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum DesignStart {
    /// As is best.
    #[default]
    Free,
    /// As is best among the orders that read the same from both edges.
    Even,
    /// By position, the color; as many as there are strands.
    Given(Vec<u16>),
}

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DesignTask {
    /// What is to be seen.
    pub face: WishedFace,
    /// How the strands hang at the start.
    pub start: DesignStart,
    /// Whether the colors must hang at the end as at the start.
    pub closes: bool,
}

/// Whoever asks: when to stop, and who is shown each better answer.
pub struct DesignWatch<'a> {
    /// Whether to stop and give the best answer so far; asked often.
    pub stop: &'a dyn Fn() -> bool,
    /// Each answer that is better than all before it.
    pub better: &'a mut dyn FnMut(&Designed),
}

/// Knots that show a face.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Designed {
    /// By position, the color that hangs there at the start.
    pub start: Vec<u16>,
    /// By knot of the face, how it is tied.
    pub kinds: Vec<Kind>,
    /// How many are turning knots.
    pub turning: usize,
    /// By number, the knots of the face that show another color.
    pub given_up: Vec<usize>,
    /// Whether it is proved that no answer gives up fewer knots.
    pub is_fewest_given_up: bool,
    /// Whether it is proved that no answer that gives up as few has fewer turning knots.
    pub is_least: bool,
}

impl Designed {
    /// The knots, tied. Strands are named by their position at the start.
    pub fn piece(&self, face: &WishedFace) -> Piece {
        let steps = face.knots().iter().zip(&self.kinds).map(|(knot, kind)| (knot.gap, *kind));
        Piece::tie(usize::from(face.strands()), steps).unwrap_or_default()
    }

    /// Which order of answers is best: those that give up fewer knots, then those with fewer turning knots.
    pub fn cost(&self) -> (usize, usize) {
        (self.given_up.len(), self.turning)
    }
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DesignEnd {
    /// It can be tied.
    Tied(Designed),
    /// It cannot be tied as it is, which is proved; this comes nearest, if there was time to find out.
    Cannot(Option<Designed>),
    /// It was stopped before it was known whether it can be tied.
    Stopped,
}

/// Looks for knots that show a face with the fewest turning knots. The answer was tied and compared with the face.
///
/// The same question gets the same answer on every machine, unless it is stopped.
///
/// # Errors
/// [`NoFace::StrandCount`] if the start that is given has another number of strands.
pub fn design_band(task: &DesignTask, watch: &mut DesignWatch<'_>) -> Result<DesignEnd, NoFace> {
    if let DesignStart::Given(given) = &task.start
        && given.len() != usize::from(task.face.strands())
    {
        return Err(NoFace::StrandCount { strands: given.len() });
    }
    let colors = list_colors(task);
    Ok(match TwoColors::of(task, &colors) {
        Some(two) => two.least(watch),
        None => find_least(task, &colors, watch),
    })
}

/// All colors of a face and its start, ascending. At least one: a face may wish for none.
fn list_colors(task: &DesignTask) -> Vec<u16> {
    let mut colors: Vec<u16> = task.face.knots().iter().filter_map(|knot| knot.color).collect();
    if let DesignStart::Given(given) = &task.start {
        colors.extend(given);
    }
    colors.sort_unstable();
    colors.dedup();
    if colors.is_empty() {
        colors.push(0);
    }
    colors
}

/// Ties an answer and looks at it: what is given up and what turns is read off the band, not believed. `stays`: by knot,
/// whether its strands stay where they are.
pub(crate) fn look_at_answer(task: &DesignTask, start: Vec<u16>, stays: &[bool]) -> Designed {
    let mut hung = start.clone();
    let (mut turning, mut given_up) = (0, Vec::new());
    let mut kinds = Vec::with_capacity(stays.len());
    for (number, (knot, stays)) in task.face.knots().iter().zip(stays).enumerate() {
        let gap = usize::from(knot.gap);
        let (left, right) = (hung[gap], hung[gap + 1]);
        // Strands of one color may as well cross: nobody sees it, and it is the simpler knot.
        let is_turning = *stays && left != right;
        let shows = |color: u16| knot.color.is_none_or(|wanted| wanted == color);
        kinds.push(kind_of(shows(left) || !shows(right), is_turning));
        given_up.extend((!shows(left) && !shows(right)).then_some(number));
        turning += usize::from(is_turning);
        if !is_turning {
            hung.swap(gap, gap + 1);
        }
    }
    let is_fewest_given_up = given_up.is_empty();
    Designed { start, kinds, turning, given_up, is_fewest_given_up, is_least: false }
}

fn kind_of(left_works: bool, is_turning: bool) -> Kind {
    match (left_works, is_turning) {
        (true, false) => Kind::Forward,
        (false, false) => Kind::Backward,
        (true, true) => Kind::ForwardBackward,
        (false, true) => Kind::BackwardForward,
    }
}
