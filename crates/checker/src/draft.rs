//! A file while it is edited: its text and tree, and with them, from version to version, what is known of its band.

use crate::kept::Kept;
use crate::tie::Limits;
use crate::{Analysis, GivenUp, Library, Listener, Source};
use knotwright_grammar::Splice;
use std::sync::{Arc, Mutex, PoisonError};

/// One version of a file that is being edited, read and ready to be analyzed. It moves to the next version as a whole,
/// by the edit that was made:
///
/// ```text
/// draft --analyze--> analysis
/// draft.after(analysis).edited(splice, text).0 --analyze--> analysis of the next version
/// ```
///
/// A version that nobody analyzed hands on what the one before knew. Moving takes the draft and its analysis by value;
/// whoever goes on while others still read a version moves a copy of both.
#[derive(Debug)]
pub struct Draft {
    source: Arc<Source>,
    /// What the last analysis knew; the next one takes it.
    kept: Mutex<Option<Box<Kept>>>,
}

impl Draft {
    /// The first version: nothing is known of it.
    pub fn new(source: Arc<Source>) -> Self {
        Self { source, kept: Mutex::default() }
    }

    /// Text and tree.
    pub fn source(&self) -> &Arc<Source> {
        &self.source
    }

    /// This version once it was analyzed; what `analysis` found out helps with the next one, or with this one if
    /// other files have changed.
    pub fn after(self, analysis: Analysis) -> Self {
        Self { source: self.source, kept: Mutex::new(analysis.keep()) }
    }

    /// The next version: `text` came of this one by this `splice`. And the lines that were read again, outside of which
    /// every token is what it was ([`Reparsed::lines`](knotwright_grammar::Reparsed)).
    pub fn edited(self, splice: Splice, text: Arc<str>) -> (Self, Splice) {
        let mut kept = self.kept.into_inner().unwrap_or_else(PoisonError::into_inner);
        kept.iter_mut().for_each(|kept| kept.edited(splice));
        // Whoever uses this file, or still reads this version, has the tree too; then it is copied.
        let (source, lines) = Arc::unwrap_or_clone(self.source).edited(splice, text);
        (Self { source: Arc::new(source), kept: Mutex::new(kept) }, lines)
    }

    /// Looks up all names and ties all knots; of a version that came of an edit, only those around it where that is
    /// enough. `library` has the files that it uses.
    ///
    /// Opening, set and closing are tied once each, the closing as after one set. Where the colors do not return after
    /// a set, what holds in the first may not hold in the second; that they do not return is a finding of its own.
    pub fn analyze(&self, library: &dyn Library) -> Analysis {
        let to_the_end = self.analyze_unless(&GivenUp::NEVER, library, None);
        to_the_end.unwrap_or_else(|| Analysis::unread(Arc::clone(&self.source)))
    }

    /// [`analyze`](Self::analyze), or `None` if it was given up. What the last analysis knew is kept for the next one then.
    /// `listener` hears at once what is wrong first, while the rest is still being tied.
    pub fn analyze_unless(
        &self,
        given_up: &GivenUp,
        library: &dyn Library,
        listener: Option<Listener>,
    ) -> Option<Analysis> {
        let given_up = given_up.again();
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner).take();
        let limits = Limits { given_up: &given_up, listener, ..Limits::WHOLE };
        match Analysis::within(Arc::clone(&self.source), library, limits, kept) {
            Ok(analysis) => Some(analysis),
            Err(kept) => {
                *self.kept.lock().unwrap_or_else(PoisonError::into_inner) = kept;
                None
            }
        }
    }
}

impl Clone for Draft {
    fn clone(&self) -> Self {
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner).clone();
        Self { source: Arc::clone(&self.source), kept: Mutex::new(kept) }
    }
}
