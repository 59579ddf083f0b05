//! Where one is, in words.

use super::{FoundPlaces, Slip, StepSpot, TiedStretch};
use crate::outcome::Spots;
use crate::visible::{name as file_name, on_one_line};
use knotwright_checker::{FileId, PartKind, Place};
use knotwright_render::StepNumber;
use knotwright_wording::digits::count;
use std::fmt;

/// The most places that are listed.
const MOST_LISTED: usize = 8;

/// The whole answer.
pub(crate) fn text(located: &FoundPlaces, spots: &Spots) -> String {
    let places = located.spots.len();
    let mut out = if located.distance == 0 {
        match places {
            1 => "The strands hang like this at one place:\n".to_owned(),
            _ => format!("The strands hang like this at {places} places:\n"),
        }
    } else {
        format!("The strands never hang like this. Nearest, except for {}:\n", exchanges(located.distance))
    };
    for spot in located.spots.iter().take(MOST_LISTED) {
        out += &format!("  {}\n", place(spot, spots));
    }
    if places > MOST_LISTED {
        out += &format!("  and {} more\n", places - MOST_LISTED);
    }
    if let Some(sets) =
        located.again_after.filter(|_| located.spots.iter().any(|spot| spot.stretch.part == PartKind::Set))
    {
        let every = if sets == 1 { "every set".to_owned() } else { format!("every {sets} sets") };
        out += &format!("Everything repeats {every}, so it may be a later one.\n");
    }
    if !located.slips.is_empty() {
        out += "\nTwo strands hang swapped, so one knot may have been tied the wrong way:\n";
        located.slips.iter().for_each(|slip| out += &format!("  {}\n", blamed(slip, spots)));
    }
    out
}

fn exchanges(distance: u32) -> String {
    match distance {
        1 => "two neighbors that hang swapped".to_owned(),
        _ => format!("{distance} swaps of two neighbors"),
    }
}

fn place(spot: &StepSpot, spots: &Spots) -> String {
    let stretch = spot.stretch;
    let (first, last) = spot.tied();
    let name = name(stretch);
    let all = stretch.knots();
    if first == 0 && last == 0 {
        return format!("at the start of {name}{}", next(stretch, 0, spots));
    }
    if first == all {
        return format!("at the end of {name}");
    }
    let knots = if first == last {
        format!("after {} of {}", first, count(u64::from(all), "knot"))
    } else {
        format!("after {first} to {last} of {}", count(u64::from(all), "knot"))
    };
    format!("{name}, {knots}{}", next(stretch, last, spots))
}

/// Which statement ties the knot that comes next.
fn next(stretch: &TiedStretch, tied: u32, spots: &Spots) -> String {
    let Some(step) = stretch.step(tied) else { return String::new() };
    let line = FileLine::of(step.place, spots);
    let (done, all) = (tied - step.knots.start, step.knots.end - step.knots.start);
    let within = if done > 0 { format!(", of which {done} of {all} are tied") } else { String::new() };
    format!("; next comes {}{within}", step_in_words(stretch.number(tied), &line))
}

/// A line, and its file if that is not the pattern's own.
pub(crate) struct FileLine<'a> {
    line: u32,
    library: Option<&'a str>,
}

impl<'a> FileLine<'a> {
    /// The line where a place begins.
    pub(crate) fn of(place: Place, spots: &Spots<'a>) -> Self {
        let spot = spots.of(place);
        Self { line: spot.line, library: (place.file != FileId::CHECKED).then_some(spot.path) }
    }
}

impl fmt::Display for FileLine<'_> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "line {}", self.line)?;
        self.library.map_or(Ok(()), |path| write!(to, " of {}", file_name(path)))
    }
}

/// A step by its number in `write`, the one on the sheet if that is another, and its line.
pub(crate) fn step_in_words(number: Option<&StepNumber>, line: &FileLine) -> String {
    let Some(number) = number else { return line.to_string() };
    let mut text = format!("step {}", number.number);
    number.times.iter().for_each(|(time, times)| text += &format!(", time {time} of {times}"));
    let single = number.single.to_string();
    if single == number.number {
        return format!("{text} ({line})");
    }
    let file = if line.library.is_some() { "" } else { "in the file " };
    format!("{text} (on the sheet step {single}, {file}{line})")
}

fn name(stretch: &TiedStretch) -> String {
    match stretch.part {
        PartKind::Set => format!("set {}", stretch.set + 1),
        PartKind::Opening | PartKind::Closing => format!("the {}", stretch.part.word()),
    }
}

fn blamed(slip: &Slip, spots: &Spots) -> String {
    let stretch = slip.stretch;
    let gap = stretch.gap(slip.suspect.knot);
    let line = stretch
        .step(slip.suspect.knot)
        .map(|step| {
            let line = FileLine::of(step.place, spots);
            format!(", in {}", step_in_words(stretch.number(slip.suspect.knot), &line))
        })
        .unwrap_or_default();
    let untie = count(u64::from(slip.suspect.untie), "knot");
    on_one_line(&format!(
        "{}, row {}, between places {} and {}{line}, with {} tied; to fix it, untie {untie}",
        name(stretch),
        slip.row + 1,
        gap + 1,
        gap + 2,
        count(u64::from(slip.step), "knot")
    ))
}
