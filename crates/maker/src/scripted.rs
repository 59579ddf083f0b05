//! From a tied pattern to the script of its whole band, as pictures and instructions need it.

use crate::whole_band::{WholeBand, closing_after};
use knotwright_band::thread::Figures;
use knotwright_band::{Kind, Piece};
use knotwright_checker as checker;
use knotwright_checker::{Colorway, Extent, Held, PartKind, Pattern, StartForm, USUAL_ENDS, USUAL_LANGUAGE};
use knotwright_numbers::ToNumber;
use knotwright_render::{
    BandBead, BandThread, Event, JoinedStrand, KnotSize, Named, Passage, StatedUnit, Step, StrandStart,
    ThreadShade, ThreadTaken, TyingScript,
};
use std::fmt;

/// Why there is no script.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoScript {
    /// The sets pick strands by color and cannot be followed.
    NotFollowed,
}

impl fmt::Display for NoScript {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotFollowed => {
                "its sets pick strands by color, and in too many different ways to follow; ask for fewer sets, such as 4"
            }
        })
    }
}

/// The script of a pattern with `sets` sets, or as many as it says; if it does not say, with `otherwise`.
///
/// # Errors
/// [`NoScript`].
pub fn script_sets(pattern: &Pattern, sets: Option<u32>, otherwise: u64) -> Result<TyingScript, NoScript> {
    let extent = sets.map_or(pattern.extent, Extent::Sets);
    let whole = WholeBand::sized(pattern, extent, pattern.gauge.or_usual());
    let times = if pattern.set.is_some() { whole.times.unwrap_or(otherwise) } else { 0 };
    script_of(pattern, &whole, times, USUAL_LANGUAGE)
}

/// The script of a pattern and the band it makes, with `times` sets. Its texts are in the language of the tag as far as
/// the pattern has them in it, else in the author's own words.
///
/// # Errors
/// [`NoScript`].
pub fn script_of(
    pattern: &Pattern,
    whole: &WholeBand,
    times: u64,
    language: Option<&str>,
) -> Result<TyingScript, NoScript> {
    let of = |kind: PartKind, part: &checker::Part| wished(pattern, kind, passage_of(part, language));
    let opening = pattern.opening.as_ref().map(|opening| of(PartKind::Opening, opening));
    let (run_in, period) = sets(pattern, whole, times, language)?;
    let closing = closing_after(pattern, &whole.threads_after(pattern, times))
        .map(|closing| of(PartKind::Closing, &closing));
    let figures = whole.figures;
    Ok(TyingScript {
        title: pattern.title.in_language(language).to_owned(),
        about: pattern.about.iter().map(|about| about.in_language(language).to_owned()).collect(),
        authors: pattern.authors.clone(),
        license: pattern.license.clone(),
        threads: band_threads(&pattern.threads, language),
        beads: pattern.beads.iter().map(|of| bead(of, language)).collect(),
        strands: pattern.strands.clone(),
        gauge: figures.map_or_else(KnotSize::default, |of| KnotSize {
            width: of.width,
            pitch: of.pitch,
            thickness: of.tight,
        }),
        start: start(&pattern.start),
        made: pattern.made.clone(),
        taken: figures.map(|figures| taken_of(pattern, figures)),
        unit: StatedUnit::default(),
        opening,
        run_in,
        period,
        times,
        closing,
        materials: None,
    })
}

/// What knots take of thread, and what a strand gives before the first of them.
fn taken_of(pattern: &Pattern, figures: Figures) -> ThreadTaken {
    let ends = pattern.ends.unwrap_or(USUAL_ENDS);
    ThreadTaken { figures, before: Held::of(pattern, figures, ends, false).above }
}

/// The sets that are tied once each, and those that come again and again.
fn sets(
    pattern: &Pattern,
    whole: &WholeBand,
    times: u64,
    language: Option<&str>,
) -> Result<(Vec<Passage>, Vec<Passage>), NoScript> {
    let Some(set) = &pattern.set else { return Ok((Vec::new(), Vec::new())) };
    if !pattern.picks_by_color {
        return Ok((Vec::new(), vec![wished(pattern, PartKind::Set, passage_of(set, language))]));
    }
    if whole.repeats.is_none() {
        return Err(NoScript::NotFollowed);
    }
    let (run_in, period) = (whole.sets.run_in().len(), whole.sets.period().len());
    let different = (run_in + period).min(usize::try_from(times).unwrap_or(usize::MAX)).max(1);
    let mut passages = Vec::with_capacity(different);
    for number in (0..).take(different) {
        passages.push(passage_of(whole.set_part(pattern, number).ok_or(NoScript::NotFollowed)?, language));
    }
    let period = passages.split_off(run_in.min(passages.len().saturating_sub(1)));
    Ok((passages, period))
}

/// A part as it is drawn and put into words.
pub fn passage_of(part: &checker::Part, language: Option<&str>) -> Passage {
    Passage {
        piece: part.piece.clone(),
        ranges: part.steps.iter().map(|step| step.knots.clone()).collect(),
        steps: part.steps.iter().map(step).collect(),
        events: part.events.iter().map(|of| event(part, of, language)).collect(),
        wish: None,
    }
}

/// The passage of a part; if the part has a face that nothing ties yet, with what is to be seen. Its knots then turn, which
/// leaves every strand where it hangs, as a part without knots does.
fn wished(pattern: &Pattern, kind: PartKind, passage: Passage) -> Passage {
    let Some(face) = pattern.wish(kind) else { return passage };
    let steps = face.knots().iter().map(|knot| (knot.gap, Kind::ForwardBackward));
    let Ok(piece) = Piece::tie(usize::from(face.strands()), steps) else { return passage };
    let wish = Some(face.knots().iter().map(|knot| knot.color).collect());
    Passage { piece, wish, ..passage }
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
        checker::Named::Bead { bead, strands } => Named::Bead { bead, strands },
    };
    Step { within: step.within, from: step.from, named }
}

fn join(part: &checker::Part, number: u32) -> Option<JoinedStrand> {
    let (join, joined) = part.piece.joins().get(number.to_usize()).zip(part.joins.get(number.to_usize()))?;
    Some(JoinedStrand { at: joined.at, thread: join.thread, set: join.set })
}

fn event(part: &checker::Part, event: &checker::Event, language: Option<&str>) -> Event {
    match event {
        checker::Event::Section(title) => Event::Section(title.in_language(language).to_owned()),
        checker::Event::SectionEnd => Event::SectionEnd,
        checker::Event::Note(text) => Event::Note(text.in_language(language).to_owned()),
        checker::Event::Step(step) => Event::Step(*step),
        checker::Event::Repeat(passes) => Event::Repeat(*passes),
        checker::Event::Pass => Event::Pass,
        checker::Event::RepeatEnd => Event::RepeatEnd,
        checker::Event::Order(_) => Event::Check,
        checker::Event::Join(number) => join(part, *number).map_or(Event::Check, Event::Join),
    }
}

/// Gives a script the colors of a colorway, and the names that the threads have there in a language.
///
/// # Errors
/// In words, if there is no such colorway.
pub fn recolor_script(
    script: &mut TyingScript,
    pattern: &Pattern,
    name: &str,
    language: Option<&str>,
) -> Result<(), String> {
    script.threads = band_threads(&named_colorway(pattern, name)?.threads, language);
    Ok(())
}

/// The colorway of that name.
///
/// # Errors
/// In words: there is none.
pub(crate) fn named_colorway<'a>(pattern: &'a Pattern, name: &str) -> Result<&'a Colorway, String> {
    let found = pattern.colorways.iter().find(|colorway| colorway.name == name);
    found.ok_or_else(|| {
        let names: Vec<String> =
            pattern.colorways.iter().map(|colorway| format!("\"{}\"", colorway.name)).collect();
        let has = if names.is_empty() {
            "it has none".to_owned()
        } else {
            format!("there is {}", names.join(", "))
        };
        format!("no colorway is called \"{name}\"; {has}")
    })
}

/// The threads by the names that people see.
pub fn band_threads(threads: &[checker::PatternThread], language: Option<&str>) -> Vec<BandThread> {
    threads.iter().map(|of| thread(of, language)).collect()
}

fn thread(thread: &checker::PatternThread, language: Option<&str>) -> BandThread {
    let shade = |shade: &checker::Shade| ThreadShade { color: shade.color, length: shade.length };
    let shades = thread.shades.iter().map(shade).collect();
    BandThread { name: thread.shown_in(language).to_owned(), color: thread.color, shades }
}

fn bead(bead: &checker::PatternBead, language: Option<&str>) -> BandBead {
    let BandThread { name, color, .. } = thread(&bead.look, language);
    BandBead { name, color, across: bead.across, hole: bead.hole }
}

fn start(start: &StartForm) -> StrandStart {
    match start {
        StartForm::Loose => StrandStart::Loose,
        StartForm::Folded(pairs) => StrandStart::Folded(pairs.clone()),
        StartForm::Loop(_, pairs) => StrandStart::Loop(pairs.clone()),
    }
}
