//! What a name stands for.

use super::{HoverLook, plain};
use crate::exprs::known;
use crate::hang::thread_name;
use crate::motifs;
use crate::names::{NameSort, NamedSymbol};
use crate::wording::{both, count, length, ordinal, quoted};
use knotwright_checker::{Known, Pattern, Shade};
use knotwright_color::Rgb;
use knotwright_grammar::tree::{Bead, Node, StrandBy, Take, Text, Thread};
use knotwright_maker::{LengthUnit, MeasureOptions, Measured};
use knotwright_numbers::ToNumber;

/// What the name under the cursor stands for; `None` if it is no name.
pub(super) fn words(look: &HoverLook) -> Option<Vec<String>> {
    let is_here = |color: &Text| color.span == look.token.span;
    let of_thread = look.node().and_then(Node::get::<Thread>);
    let of_bead = look.node().and_then(Node::get::<Bead>);
    if of_thread.is_some_and(|thread| thread.colors().any(|(color, _)| is_here(color)))
        || of_bead.is_some_and(|bead| is_here(&bead.color))
    {
        return Some(plain::color(look.written()));
    }
    let names = look.checked.names();
    let symbol = names.symbol(names.exactly(look.token.span)?);
    Some(match symbol.sort {
        NameSort::Thread => thread(look, symbol),
        NameSort::Bead => bead(look, symbol),
        NameSort::Motif => motif(look, symbol),
        NameSort::Parameter | NameSort::Counter => variable(look, symbol),
        NameSort::Label => label(look, symbol),
    })
}

fn thread(look: &HoverLook, symbol: &NamedSymbol) -> Vec<String> {
    let name = quoted(&symbol.name);
    let Some((color, called)) = declared(look, symbol) else {
        return vec![format!("No thread is called {name} in this file.")];
    };
    let called = called.map(|label| format!(", {}", quoted(&label))).unwrap_or_default();
    let rgb = color.parse::<Rgb>().map(|rgb| rgb.to_string()).unwrap_or(color);
    let mut text = vec![format!("The thread {name}{called}: `{rgb}`.")];
    text.extend(changing(look, symbol));
    text.extend(look.checked.pattern().and_then(|pattern| in_band(look, pattern, symbol)));
    text.extend(of_strand(look));
    text
}

/// A bead: how large it is, and how many of it are threaded in each part.
fn bead(look: &HoverLook, symbol: &NamedSymbol) -> Vec<String> {
    let name = quoted(&symbol.name);
    let mut beads = look.checked.top().iter().filter_map(|statement| statement.get::<Bead>());
    let Some(bead) = beads.find(|bead| bead.name.text == symbol.name) else {
        return vec![format!("No bead is called {name} in this file.")];
    };
    let called = bead.label.as_ref().map(|label| format!(", {}", quoted(&label.value))).unwrap_or_default();
    let color = bead.color.value.parse::<Rgb>().map_or(bead.color.value.clone(), |rgb| rgb.to_string());
    let [across, hole] = [bead.size.across, bead.size.hole].map(|size| length(size.millimeters));
    let mut text = vec![format!("The bead {name}{called}: `{color}`, {across}, its hole {hole}.")];
    text.extend(look.checked.pattern().and_then(|pattern| threaded(pattern, &symbol.name)));
    text
}

/// How many of a bead each part threads.
fn threaded(pattern: &Pattern, name: &str) -> Option<String> {
    let number = u16::try_from(pattern.beads.iter().position(|bead| bead.look.name == name)?).ok()?;
    let in_parts: Vec<String> = pattern
        .parts()
        .map(|(which, part)| (which, part.beads().filter(|at| at.bead == number).count()))
        .filter(|(_, threaded)| *threaded > 0)
        .map(|(which, threaded)| format!("{threaded} in the {}", which.word()))
        .collect();
    (!in_parts.is_empty()).then(|| format!("{}.", in_parts.join(", ")))
}

/// How its color changes along its length, if it does.
fn changing(look: &HoverLook, symbol: &NamedSymbol) -> Option<String> {
    let pattern = look.checked.pattern()?;
    let thread = pattern.threads.iter().find(|thread| thread.name == symbol.name)?;
    let shade = |shade: &Shade| format!("`{}` for {}", shade.color, length(shade.length));
    let shades: Vec<String> = thread.shades.iter().map(shade).collect();
    (!shades.is_empty())
        .then(|| format!("Its color changes along its length, over and over: {}.", both(&shades)))
}

/// Its color and label as the head says.
fn declared(look: &HoverLook, symbol: &NamedSymbol) -> Option<(String, Option<String>)> {
    let mut threads = look.checked.top().iter().filter_map(|statement| statement.get::<Thread>());
    let thread = threads.find(|thread| thread.name.text == symbol.name)?;
    Some((thread.color.value.clone(), thread.label.as_ref().map(|label| label.value.clone())))
}

/// How many strands it has and how much of it is used.
fn in_band(look: &HoverLook, pattern: &Pattern, symbol: &NamedSymbol) -> Option<String> {
    let thread = pattern.threads.iter().position(|thread| thread.name == symbol.name)?;
    let thread = u16::try_from(thread).ok()?;
    let strands: Vec<usize> =
        (0..pattern.strands.len()).filter(|&at| pattern.strands[at] == thread).collect();
    let mut facts = format!("{} of {}", count(strands.len().to_u64(), "strand"), pattern.strands.len());
    if let Some(whole) = look.checked.whole_band() {
        let uses = strands.iter().filter_map(|&strand| whole.uses.get(strand));
        let (working, base) = uses.clone().fold((0, 0), |(w, b), used| (w + used.working, b + used.base));
        let sets = match (whole.times, &pattern.set) {
            (Some(times), Some(_)) => format!(" in {}", count(times, "set")),
            (None, Some(_)) => " in one set".to_owned(),
            _ => String::new(),
        };
        facts.push_str(&format!("; {} tied with it, {} over it{sets}", count(working, "knot"), base));
        if let Some(cut) = whole.figures.and_then(|_| to_cut(pattern, thread)) {
            facts.push_str(&format!("; {cut} to cut in all"));
        }
    }
    Some(facts + ".")
}

/// How much of a thread is cut, as the cut list says.
fn to_cut(pattern: &Pattern, thread: u16) -> Option<String> {
    let measured = Measured::new(pattern, MeasureOptions::default()).ok()?;
    let (.., length) = measured.by_color().into_iter().find(|(of, ..)| *of == thread)?;
    Some(LengthUnit::default().bought(length))
}

/// For `kelp 2 from left`: which strand that is.
fn of_strand(look: &HoverLook) -> Option<String> {
    let take = look.node()?.get::<Take>()?;
    let StrandBy::Color { color, from, .. } = &take.strand.by else { return None };
    (color.span == look.token.span)
        .then(|| format!("The strand in hand is found by this color, {}.", super::number::counting(*from)))
}

fn motif(look: &HoverLook, symbol: &NamedSymbol) -> Vec<String> {
    let Some(found) = motifs::find(look.checked, &symbol.name) else {
        return vec![format!("No motif is called {} here.", quoted(&symbol.name))];
    };
    let mut text = vec![format!("motif {}", quoted(&motifs::signature(found.motif)))];
    let names = look.checked.names();
    let number = names.exactly(look.token.span).map(|mention| mention.symbol);
    let mentions =
        number.map_or(0, |number| names.mentions_of(number).filter(|mention| !mention.gives).count());
    if found.source.path != look.checked.source().path {
        text.push(format!("From the file {}.", quoted(&found.source.path)));
    }
    text.push(format!("Worked in {} of this file.", count(mentions.to_u64(), "place")));
    text.extend(crate::docs::above(found.source, found.statement.span.start));
    text
}

fn variable(look: &HoverLook, symbol: &NamedSymbol) -> Vec<String> {
    let name = quoted(&symbol.name);
    let what = symbol.sort.word();
    if symbol.given.is_none() {
        return vec![format!("No number is called {name} here.")];
    }
    let names = look.names();
    let found = known(&names, &symbol.name).or_else(|| known(&look.names_inside(), &symbol.name));
    let facts = match found {
        Some(Known::Number(number)) => format!("{name}, a {what}: {number} here, the first time."),
        Some(Known::Thread(thread)) => {
            let thread = look.checked.pattern().map_or("a thread", |pattern| thread_name(pattern, thread));
            format!("{name}, a {what}: the thread {} here, the first time.", quoted(thread))
        }
        _ => format!("{name}, a {what}; it gets its value when the block is tied."),
    };
    vec![facts]
}

fn label(look: &HoverLook, symbol: &NamedSymbol) -> Vec<String> {
    let name = quoted(&symbol.name);
    if symbol.given.is_none() {
        return vec![format!("No strand has the label {name} here.")];
    }
    let names = look.names();
    let Some(Known::Position(at)) = known(&names, &symbol.name) else {
        return vec![format!(
            "A label for the strand in hand: {name} names it from here to the end of the block."
        )];
    };
    let view = look.site.spot().and_then(|spot| look.checked.look(spot, &[]));
    let facts = view.zip(look.checked.pattern()).map(|(view, pattern)| {
        let strand = view.order.get(usize::from(at)).copied().unwrap_or_default();
        let thread = view.threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
        let began = ordinal(u64::from(strand) + 1);
        let place = ordinal(u64::from(at) + 1);
        format!(
            "The strand {name}: {}, which began as the {began} from the left and hangs as the {place} here.",
            quoted(thread_name(pattern, thread))
        )
    });
    vec![facts.unwrap_or_else(|| format!("The label {name} of a strand."))]
}

/// The color of the thread under the cursor.
pub(super) fn color(look: &HoverLook) -> Option<(Rgb, String)> {
    if let Some(thread) = look.node().and_then(Node::get::<Thread>)
        && let Some((color, _)) = thread
            .colors()
            .find(|(color, _)| color.span == look.token.span || thread.name.span == look.token.span)
    {
        return Some((color.value.parse().ok()?, thread.name.text.to_string()));
    }
    let names = look.checked.names();
    let symbol = names.symbol(names.exactly(look.token.span)?);
    if symbol.sort != NameSort::Thread {
        return None;
    }
    let (color, _) = declared(look, symbol)?;
    Some((color.parse().ok()?, symbol.name.to_string()))
}
