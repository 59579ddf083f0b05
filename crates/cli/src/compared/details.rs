//! What differs between two patterns besides their knots.

use super::PartChange;
use crate::ends::{bead_name, centimeters as length, said};
use knotwright_band::beads::BeadAt;
use knotwright_band::pick_ups;
use knotwright_band::thread::Gauge;
use knotwright_checker::{
    Event, Extent, PartKind, Pattern, PatternBead, PatternThread, Phrase, Shade, StartForm, Translations,
};
use knotwright_wording::digits;
use serde::Serialize;

/// Something that is not as it was. Text of the patterns stands in it as it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(crate) struct Detail {
    /// What, in the words of the notation.
    pub(crate) what: &'static str,
    /// Which of several.
    pub(crate) name: Option<String>,
    /// In the first; none if it is not there.
    pub(crate) before: Option<String>,
    /// In the other; none if it is not there.
    pub(crate) after: Option<String>,
}

impl Detail {
    /// Whether it is about the order of tying, and nothing that is written in words.
    pub(crate) fn is_about_tying(&self) -> bool {
        self.what == PICK_UPS
    }
}

/// More joins are not compared one by one.
const MOST_JOINS: usize = 1000;

const PICK_UPS: &str = "pick-ups";

/// Of what is said above the parts, and in them aloud.
pub(super) fn of_heads(patterns: [&Pattern; 2]) -> Vec<Detail> {
    let one = |what, of: fn(&Pattern) -> Option<String>| changed(what, None, patterns.map(of));
    let all = |what, of: fn(&Pattern) -> Vec<String>| lists(what, patterns.map(of));
    let mut found: Vec<Detail> =
        one("title", |of| Some(format!("\"{}\"{}", of.title.text, in_others(&of.title.others))))
            .into_iter()
            .collect();
    found.extend(all("about", |of| of.about.iter().map(all_words).collect()));
    found.extend(all("author", |of| of.authors.clone()));
    found.extend(one("license", |of| of.license.clone()));
    found.extend(threads(patterns.map(|of| &of.threads[..]), None));
    found.extend(beads(patterns));
    found.extend(colorways(patterns));
    found.extend(one("length", |of| extent(of.extent)));
    found.extend(one("ends", |of| of.ends.map(length)));
    found.extend(one("start", |of| start(&of.start)));
    found.extend(one("begin", |of| of.made.begin.as_ref().map(|works| said(works, of))));
    found.extend(one("finish", |of| of.made.finish.as_ref().map(|works| said(works, of))));
    found.extend(one("gauge", |of| gauge(of.gauge)));
    found.extend(all("join", joins));
    found.extend(all("section", |of| aloud(of, |event| matches!(event, Event::Section(_)))));
    found.extend(all("note", |of| aloud(of, |event| matches!(event, Event::Note(_)))));
    found
}

/// Where strands are joined, in words.
fn joins(of: &Pattern) -> Vec<String> {
    let name = |thread: u16| of.threads.get(usize::from(thread)).map_or("", |thread| thread.name.as_str());
    let parts = of.parts().flat_map(|(kind, part)| {
        part.piece.joins().iter().zip(&part.joins).map(move |(join, joined)| {
            let with = join.thread.map(|thread| format!(" with {}", name(thread))).unwrap_or_default();
            let set = match join.set {
                Some(set) => format!("in set {}", set + 1),
                None => format!("in the {}", kind.word()),
            };
            let after = digits::count(join.knot.into(), "knot");
            format!("strand {}{with}, {set} after {after}", u16::from(joined.at) + 1)
        })
    });
    parts.take(MOST_JOINS).collect()
}

/// Of how the parts are tied.
pub(super) fn of_parts(parts: &[PartChange], patterns: [&Pattern; 2]) -> Vec<Detail> {
    let picked = |part: &PartChange| {
        let counts = [0, 1].map(|band: usize| {
            patterns[band].part(part.part).map(|_| pick_ups(&part.pieces[band]).to_string())
        });
        changed(PICK_UPS, Some(part.part.word().to_owned()), counts)
    };
    parts.iter().filter_map(picked).collect()
}

fn changed(what: &'static str, name: Option<String>, values: [Option<String>; 2]) -> Option<Detail> {
    let [before, after] = values;
    (before != after).then_some(Detail { what, name, before, after })
}

/// What only one of two lists has. One that is gone and one that came are taken for the same, changed.
fn lists(what: &'static str, [before, after]: [Vec<String>; 2]) -> Vec<Detail> {
    let only = |of: &[String], other: &[String]| {
        let mut left = other.to_vec();
        let mut has = |text: &String| {
            let at = left.iter().position(|other| other == text);
            at.map(|at| left.swap_remove(at)).is_some()
        };
        of.iter().filter(|text| !has(text)).cloned().collect::<Vec<String>>()
    };
    let (gone, came) = (only(&before, &after), only(&after, &before));
    let count = gone.len().max(came.len());
    let mut found: Vec<Detail> = (0..count)
        .filter_map(|at| changed(what, None, [gone.get(at).cloned(), came.get(at).cloned()]))
        .collect();
    if found.is_empty() && before != after {
        found.push(Detail { what, name: Some("order".to_owned()), before: None, after: None });
    }
    found
}

/// Threads by their names. One that only has another name is reported as renamed.
fn threads([before, after]: [&[PatternThread]; 2], of: Option<&str>) -> Vec<Detail> {
    let named = |threads: &[PatternThread], name: &str| threads.iter().any(|thread| thread.name == name);
    let mut new: Vec<&PatternThread> = after.iter().filter(|thread| !named(before, &thread.name)).collect();
    let name = |thread: &PatternThread| {
        Some(of.map_or_else(|| thread.name.to_string(), |of| format!("{} of \"{of}\"", thread.name)))
    };
    let mut found = Vec::new();
    for thread in before {
        let same = after.iter().find(|other| other.name == thread.name);
        let like = |other: &&PatternThread| color(other) == color(thread);
        if let Some(same) = same {
            found.extend(changed("thread", name(thread), [Some(color(thread)), Some(color(same))]));
        } else if let Some(at) = new.iter().position(like) {
            let names = [Some(thread.name.to_string()), Some(new.remove(at).name.to_string())];
            found.extend(changed("name of a thread", None, names));
        } else {
            found.extend(changed("thread", name(thread), [Some(color(thread)), None]));
        }
    }
    found
        .extend(new.iter().filter_map(|thread| changed("thread", name(thread), [None, Some(color(thread))])));
    found
}

fn color(thread: &PatternThread) -> String {
    let label = thread.label.as_ref().map(|label| format!(" \"{label}\"")).unwrap_or_default();
    let shade = |shade: &Shade| format!("{} {}", shade.color, length(shade.length));
    let colors = match thread.shades.as_slice() {
        [] => thread.color.to_string(),
        shades => shades.iter().map(shade).collect::<Vec<_>>().join(", "),
    };
    format!("{colors}{label}{}", in_others(&thread.labels))
}

/// Beads by their names; and where they are threaded.
fn beads([before, after]: [&Pattern; 2]) -> Vec<Detail> {
    let find = |of: &Pattern, name: &str| of.beads.iter().find(|bead| bead.look.name == name).map(bead);
    let mut names: Vec<&str> = Vec::new();
    for name in before.beads.iter().chain(&after.beads).map(|bead| bead.look.name.as_str()) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let declared = names.iter().filter_map(|name| {
        changed("bead", Some((*name).to_owned()), [find(before, name), find(after, name)])
    });
    let threaded = PartKind::ALL.into_iter().filter_map(|kind| {
        let said = [before, after].map(|of| threaded(of, kind));
        changed("threaded", Some(kind.word().to_owned()), said)
    });
    declared.chain(threaded).collect()
}

fn bead(bead: &PatternBead) -> String {
    format!("{}, {} mm, hole {} mm", color(&bead.look), bead.across, bead.hole)
}

/// The beads of a part, each with its place: `pearl on 3 after 12 knots`.
fn threaded(of: &Pattern, kind: PartKind) -> Option<String> {
    let one = |at: BeadAt| {
        let first = usize::from(at.position) + 1;
        let places: Vec<String> =
            (first..first + usize::from(at.strands)).map(|place| place.to_string()).collect();
        let before = digits::count(at.before.into(), "knot");
        format!("{} on {} after {before}", bead_name(of, at.bead), places.join("+"))
    };
    let said: Vec<String> = of.part(kind)?.beads().take(MOST_BEADS).map(one).collect();
    (!said.is_empty()).then(|| said.join(", "))
}

/// More beads of a part are not listed.
const MOST_BEADS: usize = 200;

fn colorways([before, after]: [&Pattern; 2]) -> Vec<Detail> {
    let names = |of: &Pattern| of.colorways.iter().map(|colorway| format!("\"{}\"", colorway.name)).collect();
    let mut found = lists("colorway", [names(before), names(after)]);
    for colorway in &before.colorways {
        if let Some(other) = after.colorways.iter().find(|other| other.name == colorway.name) {
            // What it does not say itself is as in the pattern, and described there.
            let own = |of: &Pattern, threads: &[PatternThread]| -> Vec<PatternThread> {
                threads.iter().filter(|thread| !of.threads.contains(thread)).cloned().collect()
            };
            let both = [own(before, &colorway.threads), own(after, &other.threads)];
            found.extend(threads([&both[0], &both[1]], Some(&colorway.name)));
        }
    }
    found
}

fn extent(extent: Extent) -> Option<String> {
    match extent {
        Extent::Open => None,
        Extent::Length(millimeters) => Some(length(millimeters)),
        Extent::Sets(1) => Some("1 set".to_owned()),
        Extent::Sets(sets) => Some(format!("{sets} sets")),
    }
}

fn start(start: &StartForm) -> Option<String> {
    let pairs = |pairs: &[(u8, u8)]| {
        let pairs: Vec<String> =
            pairs.iter().map(|(one, other)| format!("{} and {}", one + 1, other + 1)).collect();
        format!("pairs {}", pairs.join(", "))
    };
    match start {
        StartForm::Loose => None,
        StartForm::Folded(of) => Some(format!("folded, {}", pairs(of))),
        StartForm::Loop(round, of) => Some(format!("loop {}, {}", length(*round), pairs(of))),
    }
}

fn gauge(gauge: Gauge) -> Option<String> {
    let said = [
        gauge.thickness.map(|thickness| format!("thread {}", length(thickness))),
        gauge.knots_use.map(|(knots, of)| format!("{knots} knots use {}", length(of))),
        gauge.rows_measure.map(|(rows, of)| format!("{rows} rows measure {}", length(of))),
        gauge.density.map(|density| format!("{} tex", density.tex)),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    (!said.is_empty()).then(|| said.join(", "))
}

/// A text and what it is in other languages, as it is written.
fn all_words(phrase: &Phrase) -> String {
    format!("{}{}", phrase.text, in_others(&phrase.others))
}

fn in_others(others: &Translations) -> String {
    others.iter().map(|(tag, text)| format!(", {tag} \"{text}\"")).collect()
}

fn aloud(of: &Pattern, wanted: fn(&Event) -> bool) -> Vec<String> {
    let events = of.parts().flat_map(|(_, part)| &part.events).filter(|event| wanted(event));
    let mut texts: Vec<String> = Vec::new();
    for event in events {
        if let Event::Section(phrase) | Event::Note(phrase) = event {
            let text = all_words(phrase);
            // In a repeat it is read aloud in every pass.
            if !texts.contains(&text) {
                texts.push(text);
            }
        }
    }
    texts
}
