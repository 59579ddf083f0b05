//! What is wanted, and how the answer is told.

use super::explain_no_face;
use crate::bands::BandFile;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use knotwright_checker::{PartKind, Source, StartForm, analyze};
use knotwright_designer::{DesignStart, DesignTask, Designed};
use knotwright_formatter::{Edit, apply_text_edits};
use knotwright_maker::{
    DesignedText, DrawnFace, FaceThread, ImprovableSet, NotDesigned, NotImprovable, write_part, write_pattern,
};
use knotwright_numbers::ToNumber;
use knotwright_render::draw_face;
use knotwright_rewriter::{LeftOut, Original, RewriteError};
use knotwright_wording::digits::count;
use std::sync::Arc;

/// What is wanted, and how its pattern is written.
pub(crate) struct DesignJob {
    /// The face in threads.
    drawn: DrawnFace,
    /// What is asked.
    pub(crate) task: DesignTask,
    written: DesignWritten,
}

enum DesignWritten {
    /// As a new pattern of this title.
    New(String),
    /// In a part of a pattern that wishes for it.
    Wished { band: Box<BandFile>, kind: PartKind },
    /// In the place of the set of a pattern, which has this number of turning knots.
    Improved { band: Box<BandFile>, turning: usize },
}

impl DesignJob {
    /// A new pattern.
    pub(crate) fn beginning(drawn: DrawnFace, task: DesignTask, title: String) -> Self {
        Self { drawn, task, written: DesignWritten::New(title) }
    }

    /// The same face as the set of a pattern. `start`: how the strands hang, if that was said, `None` as they do now.
    ///
    /// # Errors
    /// Nothing of it can be improved.
    pub(crate) fn improving(
        band: BandFile,
        start: Option<Option<DesignStart>>,
        closes: bool,
    ) -> Result<Self, Failure> {
        let said = |reason: &str| Failure::said(format_args!("{}: {reason}", band.file.shown));
        let set = ImprovableSet::of(&band.pattern).map_err(|reason| Self::not_improvable(&band, reason))?;
        let start = match start {
            Some(Some(_)) if set.is_bound => {
                return Err(said(
                    "its start cannot be free: an opening, a closing or folded threads need the strands as they hang",
                ));
            }
            Some(Some(start)) => start,
            None if !set.is_bound => DesignStart::Free,
            None | Some(None) => DesignStart::Given(set.hung),
        };
        let ImprovableSet { face, turning, comes_again, .. } = set;
        let threads = FaceThread::all(&band.pattern);
        Ok(Self {
            drawn: DrawnFace { face: face.clone(), threads },
            task: DesignTask { face, start, closes: closes || comes_again },
            written: DesignWritten::Improved { band: Box::new(band), turning },
        })
    }

    /// Why nothing of a pattern can be improved, in words.
    pub(crate) fn not_improvable(band: &BandFile, reason: NotImprovable) -> Failure {
        let said = |reason: &str| Failure::said(format_args!("{}: {reason}", band.file.shown));
        match reason {
            NotImprovable::NoSet => said("it has no `set`"),
            NotImprovable::Leader => {
                said("its set has a leader, whose rows lie straight; only knots in bricks can be improved")
            }
            NotImprovable::EndsOpen => {
                said("its set does not close, and its closing begins as the set ends now")
            }
            NotImprovable::NoFace(reason) => explain_no_face(reason),
        }
    }

    /// The face of a part that nothing ties yet. `start`, `closes`: as above.
    ///
    /// # Errors
    /// There is no such part, or its start is not free.
    pub(crate) fn wishing(
        band: BandFile,
        start: Option<Option<DesignStart>>,
        closes: bool,
    ) -> Result<Self, Failure> {
        let said = |reason: &str| Failure::said(format_args!("{}: {reason}", band.file.shown));
        let pattern = &band.pattern;
        let wish = PartKind::ALL.into_iter().find(|kind| pattern.is_wish(*kind));
        let (kind, face) = wish.and_then(|kind| Some((kind, pattern.face(kind)?))).ok_or_else(|| {
            said(
                "it has no `face` that is still to be tied; to tie the face of its set with fewer turning knots, use \
                 `--improve`",
            )
        })?;
        let is_first = pattern.parts().all(|(other, _)| other >= kind) && pattern.start == StartForm::Loose;
        let start = match start.flatten() {
            Some(_) if !is_first => {
                return Err(said("its start cannot be free: something else needs the strands as they hang"));
            }
            Some(start) => start,
            None => DesignStart::Given(pattern.threads_before(kind)),
        };
        let threads = FaceThread::all(pattern);
        let closes = closes || pattern.comes_again(kind);
        Ok(Self {
            drawn: DrawnFace { face: face.clone(), threads },
            task: DesignTask { face, start, closes },
            written: DesignWritten::Wished { band: Box::new(band), kind },
        })
    }

    /// The pattern with its wish tied. Where a knot of the face was given up, the face says `?`.
    fn tie_wish(
        &self,
        band: &BandFile,
        kind: PartKind,
        designed: &Designed,
    ) -> Result<DesignedText, NotDesigned> {
        let library = &band.file.home.library;
        let marks = band.pattern.face_marks(kind);
        let given_up = designed.given_up.iter().filter_map(|&knot| marks.get(knot));
        let edits: Vec<Edit> = given_up.map(|mark| Edit { span: mark.span, text: "?".to_owned() }).collect();
        let text = apply_text_edits(&band.files[0].text, &edits);
        let source = Arc::new(Source::new(&*band.file.shown, text));
        let pattern = match edits.is_empty() {
            true => band.pattern.clone(),
            false => analyze(Arc::clone(&source), library)
                .into_pattern()
                .ok_or(NotDesigned::Rewriting(RewriteError::Unsound))?,
        };
        let original = Original { source: &source, pattern: &pattern, library };
        let face = self.task.face.without(&designed.given_up);
        write_part(original, kind, &face, &Designed { given_up: Vec::new(), ..designed.clone() })
    }

    /// Prints the pattern, and says how good it is. `ended`: when the search ended, if it did not come to its end.
    pub(crate) fn print(&self, designed: &Designed, ended: &str, terminal: &Terminal) -> CommandResult {
        let DesignedText { text, left_out } = match self.text(designed) {
            Ok(text) => text,
            Err(error) => {
                terminal.error(error);
                return Ok(Exit::Findings);
            }
        };
        let mut out = terminal.out();
        out.write_text(&text)?;
        out.flush()?;
        terminal.say(self.summary(designed, ended));
        if let Some(gone) = knotwright_maker::left_out(left_out) {
            terminal.say(gone);
        }
        let is_new = matches!(self.written, DesignWritten::New(_));
        if is_new && self.task.closes && self.task.face.rows() % 2 == 1 {
            terminal
                .say("the face has an odd number of rows, so the next set does not lie in the same bricks");
        }
        Ok(Exit::Clean)
    }

    fn text(&self, designed: &Designed) -> Result<DesignedText, NotDesigned> {
        match &self.written {
            DesignWritten::New(title) => write_pattern(&self.drawn, title, designed, self.task.closes),
            DesignWritten::Wished { band, kind } => self.tie_wish(band, *kind, designed),
            DesignWritten::Improved { band, turning } if designed.turning >= *turning => {
                Ok(DesignedText { text: band.files[0].text.to_string(), left_out: LeftOut::default() })
            }
            DesignWritten::Improved { band, .. } => {
                let library = &band.file.home.library;
                let original = Original { source: &band.files[0], pattern: &band.pattern, library };
                write_part(original, PartKind::Set, &self.task.face, designed)
            }
        }
    }

    fn summary(&self, designed: &Designed, ended: &str) -> String {
        let turning = count(designed.turning.to_u64(), "turning knot");
        let before = match &self.written {
            DesignWritten::Improved { turning, .. } if designed.turning >= *turning => {
                format!("the pattern stays as it is, with {}", count(turning.to_u64(), "turning knot"))
            }
            DesignWritten::Improved { turning: before, .. } => format!("{turning} a set instead of {before}"),
            DesignWritten::New(_) | DesignWritten::Wished { .. } => turning,
        };
        let given_up = match designed.given_up.len() {
            0 => String::new(),
            knots if designed.is_fewest_given_up => {
                format!("{} of another color, which is the fewest possible; ", count(knots.to_u64(), "knot"))
            }
            knots => format!(
                "{} of another color, and fewer were not found {ended}; ",
                count(knots.to_u64(), "knot")
            ),
        };
        let proof = match (designed.is_least, designed.turning) {
            (_, 0) => String::new(),
            (true, _) => format!("; it is proved that {} has fewer", self.no_other()),
            (false, _) => format!("; fewer were not found {ended}, but may be possible"),
        };
        format!("{given_up}{before}{proof}")
    }

    fn no_other(&self) -> &'static str {
        match self.task.start {
            DesignStart::Free => "no band with this face",
            DesignStart::Even => "no band with this face and an even start",
            DesignStart::Given(_) => "no band with this face and start",
        }
    }

    /// The face as a picture: hatched are the knots that cannot show their color, or were given up.
    pub(crate) fn picture(&self, found: Option<&Designed>) -> String {
        let hatched = found.map_or(&[][..], |designed| &designed.given_up);
        draw_face(&self.drawn.picture(self.title().to_owned(), hatched))
    }

    fn title(&self) -> &str {
        match &self.written {
            DesignWritten::New(title) => title,
            DesignWritten::Wished { band, .. } | DesignWritten::Improved { band, .. } => {
                &band.pattern.title.text
            }
        }
    }

    /// Says that the face cannot be tied, and shows where.
    pub(crate) fn say_cannot(&self, nearest: Option<&Designed>, terminal: &Terminal) {
        let start = match self.task.start {
            DesignStart::Free => ", however the strands hang at the start",
            DesignStart::Even => " with strands that hang alike from both edges",
            DesignStart::Given(_) => " as the strands hang at the start",
        };
        let set = if self.task.closes { " in a set that closes" } else { "" };
        terminal.error(format_args!("this face cannot be tied{set}{start}: that is proved"));
        let Some(nearest) = nearest else {
            terminal.say("there was no time to find out which knots are at fault; allow more `--seconds`");
            return;
        };
        let (rows, letters) = self.drawn.in_letters(&nearest.given_up, '#');
        for row in rows {
            terminal.say(format_args!("  {row}"));
        }
        let named: Vec<String> = letters.iter().map(|(letter, name)| format!("{letter} {name}")).collect();
        let knots = count(nearest.given_up.len().to_u64(), "knot");
        let fewest = if nearest.is_fewest_given_up { "fewer will not do" } else { "perhaps fewer will do" };
        terminal
            .say(format_args!("{}; #: {knots} without a strand of their color ({fewest})", named.join(", ")));
        terminal.say("`--nearest` lets those show another color");
    }
}
