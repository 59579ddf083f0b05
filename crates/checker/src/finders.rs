//! What finds the warnings, and in which order they look: at the text, at its steps, at the band.

use crate::contents::Contents;
use crate::rules::FINDERS;
use crate::woven::{Sound, Woven};
use crate::{Checked, Finding, GivenUp, PartKind, Tag};

/// Who finds what a warning reports. An error is found where it comes about, and comes to its rule as a fact or a
/// problem.
pub(crate) enum Finder {
    /// Looks at names in the text, which stay as they are however it is tied.
    Names(fn(&Checked, &Contents) -> Vec<Finding>),
    /// Looks at steps and charts in the text.
    Text(fn(&Checked, &Contents) -> Vec<Finding>),
    /// Looks at the steps of a pattern without an error, and how they are written.
    Steps(fn(&Sound) -> Vec<Finding>),
    /// Looks at the band alone. Of the text it sees the head, and where each step stands.
    Band(fn(&Woven) -> Vec<Finding>),
    /// As `Band`, for what is missing in it.
    Holes(fn(&Woven) -> Vec<Finding>),
    /// As `Band`, of a band without holes: a hole spoils the picture, too; that is one mistake.
    WholeBand(fn(&Woven) -> Vec<Finding>),
}

/// What the text and the steps show.
pub(crate) fn find_in_text(checked: &Checked, given_up: &GivenUp) -> Vec<Finding> {
    let contents = Contents::of(checked.source);
    let mut found = find_in_names(checked, &contents);
    if !given_up.is_so() {
        found.extend(find_in_steps(checked, Sound::of(checked).as_ref(), &contents));
    }
    found
}

/// What the names in the text show.
pub(crate) fn find_in_names(checked: &Checked, contents: &Contents) -> Vec<Finding> {
    let mut found = Vec::new();
    for finder in FINDERS {
        match finder {
            Finder::Names(find) => found.extend(find(checked, contents)),
            Finder::Text(_)
            | Finder::Steps(_)
            | Finder::Band(_)
            | Finder::Holes(_)
            | Finder::WholeBand(_) => {}
        }
    }
    found
}

/// What the steps show, and how they are written.
pub(crate) fn find_in_steps(checked: &Checked, sound: Option<&Sound>, contents: &Contents) -> Vec<Finding> {
    let mut found = Vec::new();
    for finder in FINDERS {
        match finder {
            Finder::Text(find) => found.extend(find(checked, contents)),
            Finder::Steps(find) => found.extend(sound.map(find).unwrap_or_default()),
            Finder::Names(_) | Finder::Band(_) | Finder::Holes(_) | Finder::WholeBand(_) => {}
        }
    }
    found
}

/// What the band shows. With an error in the file it is not the one that was meant, and only the text is looked at.
pub(crate) fn find_in_band(sound: &Sound, given_up: &GivenUp) -> Vec<Finding> {
    if given_up.is_so() || is_unfinished(sound) {
        return Vec::new();
    }
    let woven = Woven::of(sound).told();
    // One rule after another, while somebody waits for what it finds.
    let wanted = || FINDERS.iter().take_while(|_| !given_up.is_so());
    let mut found = Vec::new();
    for finder in wanted() {
        match finder {
            Finder::Band(find) | Finder::Holes(find) => found.extend(find(&woven)),
            Finder::Names(_) | Finder::Text(_) | Finder::Steps(_) | Finder::WholeBand(_) => {}
        }
    }
    if found.iter().any(|finding: &Finding| finding.rule.has(Tag::Hole)) {
        return found;
    }
    for finder in wanted() {
        match finder {
            Finder::WholeBand(find) => found.extend(find(&woven)),
            Finder::Names(_) | Finder::Text(_) | Finder::Steps(_) | Finder::Band(_) | Finder::Holes(_) => {}
        }
    }
    found
}

/// What a band with fewer holes than `most` shows; `None` if it has as many, which is found out first.
pub(crate) fn find_with_fewer_holes(sound: &Sound, most: usize) -> Option<Vec<Finding>> {
    if is_unfinished(sound) {
        return Some(Vec::new());
    }
    let woven = Woven::of(sound);
    let mut found = find_up_to(&woven, most);
    let holes = found.len();
    for finder in FINDERS.iter().filter(|_| holes < most) {
        match finder {
            Finder::Band(find) => found.extend(find(&woven)),
            Finder::WholeBand(find) if holes == 0 => found.extend(find(&woven)),
            _ => {}
        }
    }
    (holes < most).then_some(found)
}

/// What is missing in a band.
pub(crate) fn find_holes(sound: &Sound) -> Vec<Finding> {
    if is_unfinished(sound) { Vec::new() } else { find_up_to(&Woven::of(sound), usize::MAX) }
}

/// What is missing in a band; from `most` on it is not known whether that is all.
fn find_up_to(woven: &Woven, most: usize) -> Vec<Finding> {
    let mut found = Vec::new();
    for finder in FINDERS {
        match finder {
            Finder::Holes(find) if found.len() < most => found.extend(find(woven)),
            _ => {}
        }
    }
    found
}

/// Of a part that is still to be tied, nothing hangs together yet.
fn is_unfinished(sound: &Sound) -> bool {
    PartKind::ALL.into_iter().any(|kind| sound.pattern.is_wish(kind))
}
