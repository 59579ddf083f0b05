//! How the threads are shown to one page.

use crate::band::rim;
use crate::message::{Colors, ThreadMessage, ViewOptions, VisionChoice};
use crate::owner::{Destination, Recolor};
use knotwright_checker::{Pattern, PatternThread, Source, USUAL_LANGUAGE};
use knotwright_color::{Eyes, Rgb};
use knotwright_grammar::tree::{self, ColorwayBlock, Statement};
use knotwright_render::assign_letters;
use knotwright_wording::without_hidden;

/// The threads of a pattern as a page wishes to see them.
pub(crate) fn colors(pattern: &Pattern, wish: &ViewOptions) -> Colors {
    let threads = threads(pattern, wish);
    let names: Vec<String> = threads.iter().map(name).collect();
    let letters = assign_letters(names.iter().map(String::as_str));
    let threads = threads.iter().zip(letters).zip(0..=u16::MAX);
    Colors {
        threads: threads.map(|((of, letter), number)| thread(of, letter, wish, number)).collect(),
        colorways: pattern.colorways.iter().map(|colorway| colorway.name.clone()).collect(),
    }
}

/// Those of the colorway that is wished for, if there is such a one.
fn threads<'a>(pattern: &'a Pattern, wish: &ViewOptions) -> &'a [PatternThread] {
    let name = wish.colorway.as_ref();
    let found = pattern.colorways.iter().find(|colorway| Some(&colorway.name) == name);
    found.map_or(&pattern.threads, |colorway| &colorway.threads)
}

/// The name that people see.
fn name(thread: &PatternThread) -> String {
    without_hidden(thread.shown_in(USUAL_LANGUAGE))
}

fn thread(of: &PatternThread, letter: char, wish: &ViewOptions, number: u16) -> ThreadMessage {
    let tried: Option<Rgb> = wish.tried.get(&number.to_string()).and_then(|color| color.parse().ok());
    let shown = eyes(wish.vision).see(tried.unwrap_or(of.color));
    ThreadMessage {
        name: name(of),
        letter,
        color: of.color.to_string(),
        shown: shown.to_string(),
        rim: rim(shown),
        ink: shown.ink().to_string(),
        tried: tried.is_some_and(|tried| tried != of.color),
    }
}

fn eyes(vision: Option<VisionChoice>) -> Eyes {
    match vision {
        None => Eyes::Ordinary,
        Some(VisionChoice::Protan) => Eyes::Protan,
        Some(VisionChoice::Deutan) => Eyes::Deutan,
        Some(VisionChoice::Tritan) => Eyes::Tritan,
    }
}

/// How a tried color is written into the file; `None` if that thread has no color of its own there.
pub(crate) fn recolor(
    source: &Source,
    pattern: &Pattern,
    wish: &ViewOptions,
    number: u16,
) -> Option<Recolor> {
    let color: Rgb = wish.tried.get(&number.to_string())?.parse().ok()?;
    let name = &pattern.threads.get(usize::from(number))?.name;
    let statements = written_among(&source.parsed.tree.statements, wish.colorway.as_deref())?;
    let mut threads = statements.iter().filter_map(|statement| statement.get::<tree::Thread>());
    let thread = threads.find(|thread| thread.name.text == *name)?;
    Some(Recolor { spot: spot(source, thread), color: color.to_string() })
}

/// Where the threads stand that are shown: at the top, or in a colorway.
fn written_among<'a>(top: &'a [Statement], colorway: Option<&str>) -> Option<&'a [Statement]> {
    let Some(wanted) = colorway else { return Some(top) };
    let mut colorways = top.iter().filter_map(|statement| statement.get::<ColorwayBlock>());
    let colorway = colorways.find(|colorway| colorway.name.value == wanted)?;
    Some(&colorway.block.statements)
}

fn spot(source: &Source, thread: &tree::Thread) -> Destination {
    Destination { path: source.path.clone(), text: source.text.clone(), span: thread.color.span }
}
