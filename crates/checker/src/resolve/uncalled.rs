//! Names that are given and never called: one of them may be what is misspelled, and not the name that is not there.

use super::nearest::names_alike;
use super::unknown::GivenName;
use crate::reading::words;
use crate::{FileId, Place, Source, Uncalled};
use knotwright_grammar::Span;
use rustc_hash::FxHashMap as HashMap;
use smol_str::SmolStr;

/// Among more names than this, none is taken for the one that was meant unless it is like it.
const MOST_UNLIKE: usize = 64;

/// What a name that is not there may have been meant to be.
#[derive(Default)]
pub(super) struct MeantNames<'a> {
    /// The names like it, each with how many letters differ; the likest first.
    pub(super) alike: Vec<(usize, GivenName<'a>)>,
    /// If there are none, all names that may stand there.
    unlike: Vec<GivenName<'a>>,
}

impl<'a> MeantNames<'a> {
    /// Of `name`, where each of these may stand.
    pub(super) fn of(name: &str, all: Vec<GivenName<'a>>) -> Self {
        let alike = names_alike(name, all.iter().map(|given| given.name));
        let alike: Vec<_> = alike.into_iter().map(|(distance, at)| (distance, all[at])).collect();
        let unlike = if alike.is_empty() && all.len() <= MOST_UNLIKE { all } else { Vec::new() };
        Self { alike, unlike }
    }
}

/// By name that is not there, the one that is never called and may have been meant. Of names that are alike as much, one that
/// is never called comes first then.
pub(super) fn find_uncalled<'a>(meant: &mut [MeantNames<'a>], source: &Source) -> Vec<Option<Uncalled>> {
    let calls = WordPlaces::of(meant, source);
    for meant in meant.iter_mut() {
        meant.alike.sort_by_key(|&(distance, given)| (distance, !calls.are_none_of(&given), given.name));
    }
    let alike = meant.iter().map(|meant| meant.alike.first().map(|first| first.1));
    let alike: Vec<Option<GivenName>> =
        alike.map(|first| first.filter(|given| calls.are_none_of(given))).collect();
    let taken = times(&alike);
    // What is left over on either side belongs together, if it is one of each.
    let only_left = |meant: &MeantNames<'a>| {
        let is_left = |given: &&GivenName| calls.are_none_of(given) && !taken.contains_key(&given.span);
        let mut left = meant.unlike.iter().filter(is_left);
        left.next().copied().filter(|_| left.next().is_none())
    };
    let unlike: Vec<Option<GivenName>> = meant.iter().map(only_left).collect();
    let left = times(&unlike);
    let found = |(alike, unlike): (Option<GivenName>, Option<GivenName>)| {
        // If several are like one name, that is how it is spelled.
        let alike = alike.filter(|given| taken[&given.span] == 1);
        let unlike = unlike.filter(|given| left[&given.span] == 1);
        let (given, is_alike) = (alike.or(unlike)?, alike.is_some());
        let place = Place { file: FileId::CHECKED, span: given.span? };
        Some(Uncalled { name: given.name.clone(), place, is_alike })
    };
    alike.into_iter().zip(unlike).map(found).collect()
}

/// By where a name is given, how often it is among these.
fn times(names: &[Option<GivenName<'_>>]) -> HashMap<Option<Span>, usize> {
    let mut times = HashMap::default();
    for given in names.iter().flatten() {
        *times.entry(given.span).or_default() += 1;
    }
    times
}

/// By name, where its word stands.
struct WordPlaces<'a>(HashMap<&'a str, Vec<u32>>);

impl<'a> WordPlaces<'a> {
    /// Of all names that may have been meant. A word counts wherever it stands, in a line that does not parse, too.
    fn of(meant: &[MeantNames<'a>], source: &Source) -> Self {
        let given = |meant: &MeantNames<'a>| {
            let alike = meant.alike.iter().map(|(_, given)| given.name);
            alike.chain(meant.unlike.iter().map(|given| given.name)).map(SmolStr::as_str).collect::<Vec<_>>()
        };
        let names = meant.iter().flat_map(given).map(|name: &'a str| (name, Vec::new()));
        let mut places: HashMap<&str, Vec<u32>> = names.collect();
        if !places.is_empty() {
            for (span, word) in words(source) {
                if let Some(places) = places.get_mut(&*word) {
                    places.push(span.start);
                }
            }
        }
        Self(places)
    }

    /// Whether a name of the checked file is never called.
    fn are_none_of(&self, given: &GivenName<'_>) -> bool {
        let (Some(own), Some(places)) = (given.span, self.0.get(given.name.as_str())) else { return false };
        let from = places.partition_point(|&place| place <= own.start);
        match given.end {
            Some(end) => places.get(from).is_none_or(|&place| place >= end),
            None => places.len() == 1,
        }
    }
}
