//! What is said to a person.

use crate::wording::count;
use crate::{Place, Rule, Sighting};
use knotwright_numbers::ToNumber;

/// In how many further places the same is shown.
const MOST_AGAIN: usize = 3;

/// One thing worth saying about a pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The rule it falls under.
    pub rule: &'static Rule,
    /// How serious it is, settings applied.
    pub severity: Severity,
    /// Where it is said.
    pub place: Place,
    /// What was found and what was promised, in one or two sentences.
    pub message: String,
    /// Other places that matter: where the strand was last moved, where the name was given first.
    pub notes: Vec<Note>,
    /// What to do.
    pub help: Option<String>,
    /// Edits that would mend it, the best first.
    pub mends: Vec<Mend>,
    /// Whether it may only say that something is not there yet: who is typing there knows.
    pub unfinished: bool,
}

impl Finding {
    /// A finding as grave as its rule says, with nothing but its message yet.
    pub(crate) fn new(rule: &'static Rule, message: impl Into<String>) -> Self {
        let (place, notes, mends) = (Place::default(), Vec::new(), Vec::new());
        let (message, help, unfinished) = (message.into(), None, false);
        Self { rule, severity: rule.severity, place, message, notes, help, mends, unfinished }
    }

    /// All places in it: its own, those of its notes, and of its mends.
    pub(crate) fn places_mut(&mut self) -> impl Iterator<Item = &mut Place> {
        let edits = self.mends.iter_mut().flat_map(|mend| &mut mend.edits);
        let others =
            self.notes.iter_mut().map(|note| &mut note.place).chain(edits.map(|edit| &mut edit.place));
        std::iter::once(&mut self.place).chain(others)
    }

    /// At this place.
    pub(crate) fn at(mut self, place: Place) -> Self {
        self.place = place;
        self
    }

    /// With another place that matters, and why.
    pub(crate) fn note(mut self, place: Place, text: impl Into<String>) -> Self {
        self.notes.push(Note { place, text: text.into() });
        self
    }

    /// With some of the further places where the same is found.
    pub(crate) fn again(mut self, places: &[Place]) -> Self {
        let shown = &places[..places.len().min(MOST_AGAIN)];
        for (at, &place) in shown.iter().enumerate() {
            let rest = match places.len() - shown.len() {
                more if more > 0 && at + 1 == shown.len() => {
                    format!(", and in {}", count(more.to_u64(), "more place"))
                }
                _ => String::new(),
            };
            self.notes.push(Note { place, text: format!("here again{rest}") });
        }
        self
    }

    /// With advice.
    pub(crate) fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// With the step that brought a strand where it hangs; a strand that was never moved says so in the message.
    pub(crate) fn moved(mut self, strand: &Sighting) -> Self {
        let thread = &strand.thread;
        match strand.last_moved {
            Some(place) => self.note(place, format!("{thread} came here with this step")),
            None => {
                self.message.push_str(&format!(" That {thread} has hung there from the start."));
                self
            }
        }
    }
}

/// How grave a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// It ties, but surely was not meant so.
    Warning,
    /// It cannot be tied, or was promised and is not so.
    Error,
}

/// A place and what is to be said about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// Where.
    pub place: Place,
    /// What.
    pub text: String,
}

/// An edit that would mend a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Mend {
    /// What it does, in words: "write 4: the set closes then".
    pub title: String,
    /// What to replace; places do not overlap.
    pub edits: Vec<Edit>,
    /// Whether it is the only candidate and all the rest holds then; `check --mend` applies only such.
    pub certain: bool,
    /// Whether it guesses at something that the author alone knows: then it is never certain.
    pub(crate) is_guess: bool,
}

impl Mend {
    /// A mend by these edits.
    pub fn new(title: impl Into<String>, edits: Vec<Edit>, certain: bool) -> Self {
        Self { title: title.into(), edits, certain, is_guess: false }
    }

    /// A word in place of another one.
    pub(crate) fn write(word: &str, place: Place) -> Self {
        let edits = vec![Edit { place, text: word.to_owned() }];
        Self::new(format!("write `{word}`"), edits, false)
    }

    /// It is certain.
    pub(crate) fn proved(mut self) -> Self {
        self.title.push_str(": all the rest holds then");
        self.certain = true;
        self
    }
}

/// One replacement.
#[derive(Debug, Clone, PartialEq)]
pub struct Edit {
    /// What is replaced; an empty span inserts.
    pub place: Place,
    /// What is there instead.
    pub text: String,
}
