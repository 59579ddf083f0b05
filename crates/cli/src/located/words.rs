//! Where one is, in words.

use super::{Located, Slip, Spot, Stretch};
use crate::outcome::Spots;
use crate::visible::on_one_line;
use knotwright_maker::counted;
use knotwright_rewriter::Part;

/// So many places are told.
const MOST_TOLD: usize = 8;

/// The whole answer.
pub(crate) fn text(located: &Located, spots: &Spots) -> String {
    let places = located.spots.len();
    let mut out = if located.distance == 0 {
        match places {
            1 => "The strands hang like this at one place:\n".to_owned(),
            _ => format!("The strands hang like this at {places} places:\n"),
        }
    } else {
        format!("The strands never hang like this. Nearest, but for {}:\n", exchanges(located.distance))
    };
    for spot in located.spots.iter().take(MOST_TOLD) {
        out += &format!("  {}\n", place(spot, spots));
    }
    if places > MOST_TOLD {
        out += &format!("  and {} more\n", places - MOST_TOLD);
    }
    if let Some(sets) =
        located.again_after.filter(|_| located.spots.iter().any(|spot| spot.stretch.part == Part::Set))
    {
        let every = if sets == 1 { "every set".to_owned() } else { format!("every {sets} sets") };
        out += &format!("All comes again {every}, so it may be a later one.\n");
    }
    if !located.slips.is_empty() {
        out += "\nTwo strands hang exchanged, so one knot may have been tied the wrong way:\n";
        located.slips.iter().for_each(|slip| out += &format!("  {}\n", blamed(slip, spots)));
    }
    out
}

fn exchanges(distance: u32) -> String {
    match distance {
        1 => "two neighbors that hang exchanged".to_owned(),
        _ => format!("{distance} exchanges of two neighbors"),
    }
}

fn place(spot: &Spot, spots: &Spots) -> String {
    let stretch = spot.stretch;
    let (first, last) = spot.tied();
    let name = name(stretch);
    let all = stretch.knots();
    if first == 0 && last == 0 {
        return format!("{name}, as it begins{}", next(stretch, 0, spots));
    }
    if first == all {
        return format!("{name}, when it is done");
    }
    let knots = if first == last {
        format!("after {} of {}", first, counted(u64::from(all), "knot"))
    } else {
        format!("after {first} to {last} of {}", counted(u64::from(all), "knot"))
    };
    format!("{name}, {knots}{}", next(stretch, last, spots))
}

/// Which statement ties the knot that comes next.
fn next(stretch: &Stretch, tied: u32, spots: &Spots) -> String {
    let Some(step) = stretch.step(tied) else { return String::new() };
    let spot = spots.of(step.place);
    let (done, all) = (tied - step.knots.start, step.knots.end - step.knots.start);
    let within = if done > 0 { format!(", of which {done} of {all} are tied") } else { String::new() };
    format!("; next comes line {}{within}", spot.line)
}

fn name(stretch: &Stretch) -> String {
    match stretch.part {
        Part::Set => format!("set {}", stretch.set + 1),
        Part::Opening | Part::Closing => stretch.part.word().to_owned(),
    }
}

fn blamed(slip: &Slip, spots: &Spots) -> String {
    let stretch = slip.stretch;
    let gap = stretch.gap(slip.suspect.knot);
    let line = stretch
        .step(slip.suspect.knot)
        .map(|step| format!(" (line {})", spots.of(step.place).line))
        .unwrap_or_default();
    let untie = counted(u64::from(slip.suspect.untie), "knot");
    on_one_line(&format!(
        "{}, row {}, between places {} and {}{line}, with {} tied; to mend it, untie {untie}",
        name(stretch),
        slip.row + 1,
        gap + 1,
        gap + 2,
        counted(u64::from(slip.step), "knot")
    ))
}
