//! Who holds the text.

use knotwright_checker::Report;
use knotwright_grammar::Span;
use std::sync::Arc;

/// A place in a file that somebody is to be led to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Destination {
    /// The file, as the checker names it.
    pub path: String,
    /// Its text when the place was found.
    pub text: Arc<str>,
    /// The bytes.
    pub span: Span,
}

/// A thread that is to get another color in its file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recolor {
    /// Where the color is written.
    pub spot: Destination,
    /// What is to be there.
    pub color: String,
}

/// Who holds the text. All is asked on threads that may wait, one question at a time for each page.
pub trait Owner: Send + Sync + 'static {
    /// The newest text, checked; `None` if it is gone.
    fn look(&self) -> Option<Arc<Report>>;

    /// How to start the picture again after this program has ended, as a sentence or two for the page.
    fn again(&self) -> String;

    /// Leads the person to a place. What is returned is shown in the page.
    fn show(&self, spot: Destination) -> Option<String>;

    /// Writes a color into the file, or says what to write.
    fn recolor(&self, recolor: Recolor) -> String;
}
