//! How the threads are shown to one page.

use crate::band::rim;
use crate::message::{Colors, ShadeMessage, ThreadMessage, ViewOptions, VisionChoice};
use crate::owner::{Destination, Recolor};
use knotwright_checker::{Pattern, PatternThread, Source, USUAL_LANGUAGE};
use knotwright_color::{Eyes, Rgb};
use knotwright_grammar::tree::{self, ColorwayBlock, Statement};
use knotwright_maker::band_threads;
use knotwright_render::{assign_letters, list_colors};
use knotwright_wording::without_hidden;

/// The threads of a pattern as a page wishes to see them.
pub(crate) fn colors(pattern: &Pattern, wish: &ViewOptions) -> Colors {
    let threads = threads(pattern, wish);
    let names: Vec<String> = threads.iter().map(name).collect();
    let letters = assign_letters(names.iter().map(String::as_str));
    let shades = list_colors(&band_threads(threads, USUAL_LANGUAGE));
    let shades = shades.into_iter().skip(threads.len()).map(|(of, color)| shade(of, color, wish));
    let threads = threads.iter().zip(letters).zip(0..=u16::MAX);
    Colors {
        threads: threads.map(|((of, letter), number)| thread(of, letter, wish, number)).collect(),
        shades: shades.collect(),
        colorways: pattern.colorways.iter().map(|colorway| colorway.name.clone()).collect(),
    }
}

/// Those of the colorway that is wished for, if there is such a one.
pub(crate) fn threads<'a>(pattern: &'a Pattern, wish: &ViewOptions) -> &'a [PatternThread] {
    let name = wish.colorway.as_ref();
    let found = pattern.colorways.iter().find(|colorway| Some(&colorway.name) == name);
    found.map_or(&pattern.threads, |colorway| &colorway.threads)
}

fn shade(of: u16, color: Rgb, wish: &ViewOptions) -> ShadeMessage {
    let shown = eyes(wish.vision).see(color);
    ShadeMessage { of, shown: shown.to_string(), rim: rim(shown), ink: shown.ink().to_string() }
}

/// The colorway that is wished for, if threads change color there or in the pattern: then knots have other colors.
pub(crate) fn changing_colorway<'a>(pattern: &Pattern, wish: &'a ViewOptions) -> Option<&'a str> {
    let name = wish.colorway.as_deref()?;
    let colorway = pattern.colorways.iter().find(|colorway| colorway.name == name)?;
    let mut threads = colorway.threads.iter().chain(&pattern.threads);
    threads.any(|thread| !thread.shades.is_empty()).then_some(name)
}

/// The name that people see.
pub(crate) fn name(thread: &PatternThread) -> String {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::band::BandTeller;
    use knotwright_checker::{NoLibrary, Settings, check};
    use knotwright_maker::scripted_to_see;
    use std::sync::Arc;

    /// The page paints knots by numbers, and every number has a color.
    #[test]
    fn the_further_colors_of_a_thread_are_numbered_on_after_the_threads() {
        let text = "pattern \"Dusk\"\nthread dusk navy 1 cm, white 1 cm, gray 1 cm\nthread foam gold\n\
                    colorway \"fog\" { thread dusk black }\nstrands dusk foam\nset { take left 1: forward-backward 9 }\n";
        let report = check(Arc::new(Source::new("dusk.knot", text)), &NoLibrary, &Settings::default());
        let pattern = report.pattern.unwrap();
        let sent = colors(&pattern, &ViewOptions::default());
        let shown: Vec<&str> = sent.shades.iter().map(|shade| shade.shown.as_str()).collect();
        assert_eq!(shown, ["#ffffff", "#808080"]);
        assert!(sent.shades.iter().all(|shade| shade.of == 0));
        let script = scripted_to_see(&pattern, Some(2), None).unwrap();
        let message = BandTeller::default().band(&script, false);
        let numbers: std::collections::BTreeSet<u32> =
            message.pieces.iter().flat_map(|piece| piece.knots.iter().map(|knot| knot[3])).collect();
        assert_eq!(numbers.into_iter().collect::<Vec<u32>>(), [0, 2, 3], "dusk in all its colors");
        // Where a colorway has other colors along a thread, the knots are others too.
        let fog = ViewOptions { colorway: Some("fog".into()), ..ViewOptions::default() };
        assert_eq!(changing_colorway(&pattern, &fog), Some("fog"));
        assert!(colors(&pattern, &fog).shades.is_empty());
    }
}
