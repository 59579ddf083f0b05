//! From a tied pattern to the script of its whole band, as pictures and instructions need it.

use crate::measured::USUAL_THICKNESS;
use crate::reckoning::Reckoning;
use knotwright_band::Piece;
use knotwright_band::orders::one_then;
use knotwright_checker as checker;
use knotwright_checker::{Extent, Pattern, StartForm};
use knotwright_render::{Event, Gauge, Named, Passage, Script, Start, Step, Thread};
use std::fmt;

/// Sets that differ are kept one by one; more knots than this in them are not.
const MOST_KNOTS_KEPT: usize = 2_000_000;

/// Why there is no script.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoScript {
    /// The sets pick strands by color and cannot be followed.
    NotFollowed,
    /// A part does not fit the others.
    Parts,
}

impl fmt::Display for NoScript {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotFollowed => {
                "its sets pick strands by color, and in too many different ways to follow; ask for fewer sets, such as 4"
            }
            Self::Parts => "opening, set and closing do not fit one another",
        })
    }
}

/// The script of a pattern with so many sets, or as many as it says; if it does not say, with `otherwise`.
///
/// # Errors
/// [`NoScript`].
pub fn script(pattern: &Pattern, sets: Option<u32>, otherwise: u64) -> Result<Script, NoScript> {
    let mut pattern = pattern.clone();
    if let Some(sets) = sets {
        pattern.extent = Extent::Sets(sets);
    }
    let reckoning = Reckoning::of(&with_gauge(&pattern)).map_err(|_| NoScript::Parts)?;
    let times = if pattern.set.is_some() { reckoning.times.unwrap_or(otherwise) } else { 0 };
    script_of(&pattern, &reckoning, times)
}

/// The script of a pattern that was reckoned.
///
/// # Errors
/// [`NoScript`].
pub fn script_of(pattern: &Pattern, reckoning: &Reckoning, times: u64) -> Result<Script, NoScript> {
    let opening = pattern.opening.as_ref().map(passage).transpose()?;
    let (run_in, period) = sets(pattern, reckoning, times)?;
    let order = one_then(reckoning.opening.order(), &reckoning.sets.order_after(times));
    let closing = match &pattern.closing {
        Some(_) => Some(passage(&pattern.closing_from(&order).ok_or(NoScript::Parts)?)?),
        None => None,
    };
    let figures = reckoning.figures;
    Ok(Script {
        title: pattern.title.clone(),
        about: pattern.about.clone(),
        authors: pattern.authors.clone(),
        license: pattern.license.clone(),
        threads: threads(&pattern.threads),
        strands: pattern.strands.clone(),
        gauge: figures.map_or_else(Gauge::default, |of| Gauge { width: of.width, pitch: of.pitch }),
        start: start(&pattern.start),
        opening,
        run_in,
        period,
        times,
        closing,
        materials: None,
    })
}

/// A pattern that says nothing of its thread is taken to be of the usual one.
fn with_gauge(pattern: &Pattern) -> Pattern {
    let mut pattern = pattern.clone();
    let gauge = &mut pattern.gauge;
    if gauge.knots_use.is_none() && gauge.rows_measure.is_none() {
        gauge.thickness.get_or_insert(USUAL_THICKNESS);
    }
    pattern
}

/// The sets that are tied once each, and those that come again and again.
fn sets(
    pattern: &Pattern,
    reckoning: &Reckoning,
    times: u64,
) -> Result<(Vec<Passage>, Vec<Passage>), NoScript> {
    let Some(set) = &pattern.set else { return Ok((Vec::new(), Vec::new())) };
    if !pattern.picks_by_color {
        return Ok((Vec::new(), vec![passage(set)?]));
    }
    if reckoning.repeats.is_none() {
        return Err(NoScript::NotFollowed);
    }
    let (run_in, period) = (reckoning.sets.run_in().len(), reckoning.sets.period().len());
    let different = (run_in + period).min(usize::try_from(times).unwrap_or(usize::MAX)).max(1);
    let mut passages = Vec::with_capacity(different);
    let mut knots = 0;
    for number in 0..different {
        let order = one_then(reckoning.opening.order(), &reckoning.sets.order_after(number as u64));
        let part = pattern.set_from(&order).ok_or(NoScript::Parts)?;
        knots += part.knots.len();
        if knots > MOST_KNOTS_KEPT {
            return Err(NoScript::NotFollowed);
        }
        passages.push(passage(&part)?);
    }
    let period = passages.split_off(run_in.min(passages.len().saturating_sub(1)));
    Ok((passages, period))
}

fn passage(part: &checker::Part) -> Result<Passage, NoScript> {
    let piece = Piece::from_tied(part.knots.clone(), part.order.clone(), part.straight.clone())
        .map_err(|_| NoScript::Parts)?;
    Ok(Passage {
        piece,
        ranges: part.steps.iter().map(|step| step.knots.clone()).collect(),
        steps: part.steps.iter().map(step).collect(),
        events: part.events.iter().map(event).collect(),
    })
}

fn step(step: &checker::Step) -> Step {
    let named = match step.named {
        checker::Named::FromLeft => Named::FromLeft,
        checker::Named::FromRight => Named::FromRight,
        checker::Named::Center | checker::Named::Color | checker::Named::Label | checker::Named::Then => {
            Named::Otherwise
        }
        checker::Named::Meet => Named::Meet,
        checker::Named::Row => Named::Row,
        checker::Named::Leader => Named::Leader,
    };
    Step { within: step.within, from: step.from, named }
}

fn event(event: &checker::Event) -> Event {
    match event {
        checker::Event::Section(title) => Event::Section(title.clone()),
        checker::Event::SectionEnd => Event::SectionEnd,
        checker::Event::Note(text) => Event::Note(text.clone()),
        checker::Event::Step(step) => Event::Step(*step),
        checker::Event::Repeat(passes) => Event::Repeat(*passes),
        checker::Event::Pass => Event::Pass,
        checker::Event::RepeatEnd => Event::RepeatEnd,
        checker::Event::Order(_) => Event::Check,
    }
}

/// Gives a script the colors of a colorway, and the names that the threads have there.
///
/// # Errors
/// In words, if there is no such colorway.
pub fn recolor(script: &mut Script, pattern: &Pattern, name: &str) -> Result<(), String> {
    let found = pattern.colorways.iter().find(|colorway| colorway.name == name);
    let Some(colorway) = found else {
        let names: Vec<String> =
            pattern.colorways.iter().map(|colorway| format!("\"{}\"", colorway.name)).collect();
        let has = if names.is_empty() {
            "it has none".to_owned()
        } else {
            format!("there is {}", names.join(", "))
        };
        return Err(format!("no colorway is called \"{name}\"; {has}"));
    };
    script.threads = threads(&colorway.threads);
    Ok(())
}

/// The threads by the names that people are told.
fn threads(threads: &[checker::PatternThread]) -> Vec<Thread> {
    threads.iter().map(thread).collect()
}

fn thread(thread: &checker::PatternThread) -> Thread {
    let name = thread.label.clone().filter(|label| !label.trim().is_empty());
    Thread { name: name.unwrap_or_else(|| thread.name.to_string()), color: thread.color }
}

fn start(start: &StartForm) -> Start {
    match start {
        StartForm::Loose => Start::Loose,
        StartForm::Folded(pairs) => Start::Folded(pairs.clone()),
        StartForm::Loop(_, pairs) => Start::Loop(pairs.clone()),
    }
}
