//! How the threads are shown to one page.

use crate::band::rim;
use crate::message::{Colors, Thread, Vision, Wish};
use crate::owner::{Recolor, Spot};
use knotwright_checker::{Pattern, PatternThread, Source};
use knotwright_color::{Eyes, Rgb};
use knotwright_grammar::tree::{self, Node, Statement};

/// The threads of a pattern as a page wishes to see them.
pub(crate) fn colors(pattern: &Pattern, wish: &Wish) -> Colors {
    let threads = threads(pattern, wish).iter().enumerate();
    Colors {
        threads: threads.map(|(number, of)| thread(of, wish, number as u16)).collect(),
        colorways: pattern.colorways.iter().map(|colorway| colorway.name.clone()).collect(),
    }
}

/// Those of the colorway that is wished for, if there is such a one.
fn threads<'a>(pattern: &'a Pattern, wish: &Wish) -> &'a [PatternThread] {
    let name = wish.colorway.as_ref();
    let found = pattern.colorways.iter().find(|colorway| Some(&colorway.name) == name);
    found.map_or(&pattern.threads, |colorway| &colorway.threads)
}

fn thread(of: &PatternThread, wish: &Wish, number: u16) -> Thread {
    let tried: Option<Rgb> = wish.tried.get(&number.to_string()).and_then(|color| color.parse().ok());
    let shown = eyes(wish.vision).see(tried.unwrap_or(of.color));
    let label = of.label.clone().filter(|label| !label.trim().is_empty());
    Thread {
        name: label.unwrap_or_else(|| of.name.to_string()),
        color: of.color.to_string(),
        shown: shown.to_string(),
        rim: rim(shown),
        ink: shown.ink().to_string(),
        tried: tried.is_some_and(|tried| tried != of.color),
    }
}

fn eyes(vision: Option<Vision>) -> Eyes {
    match vision {
        None => Eyes::Ordinary,
        Some(Vision::Protan) => Eyes::Protan,
        Some(Vision::Deutan) => Eyes::Deutan,
        Some(Vision::Tritan) => Eyes::Tritan,
    }
}

/// How a tried color is written into the file; `None` if that thread has no color of its own there.
pub(crate) fn recolor(source: &Source, pattern: &Pattern, wish: &Wish, number: u16) -> Option<Recolor> {
    let color: Rgb = wish.tried.get(&number.to_string())?.parse().ok()?;
    let name = &pattern.threads.get(usize::from(number))?.name;
    let statements = written_among(&source.parsed.tree.statements, wish.colorway.as_deref())?;
    let thread = statements.iter().find_map(|statement| match &statement.node {
        Node::Thread(thread) if thread.name.text == *name => Some(thread),
        _ => None,
    })?;
    Some(Recolor { spot: spot(source, thread), color: color.to_string() })
}

/// Where the threads stand that are shown: at the top, or in a colorway.
fn written_among<'a>(top: &'a [Statement], colorway: Option<&str>) -> Option<&'a [Statement]> {
    let Some(wanted) = colorway else { return Some(top) };
    top.iter().find_map(|statement| match &statement.node {
        Node::Colorway { name, block } if name.value == wanted => Some(block.statements.as_slice()),
        _ => None,
    })
}

fn spot(source: &Source, thread: &tree::Thread) -> Spot {
    Spot { path: source.path.clone(), text: source.text.clone(), span: thread.color.span }
}
