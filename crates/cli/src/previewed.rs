//! A file that is followed: read again whenever it is saved.

use crate::checking::check_one;
use knotwright_checker::Report;
use knotwright_grammar::{Columns, LineIndex};
use knotwright_numbers::ToNumber;
use knotwright_preview::{Destination, Owner, Recolor};
use knotwright_workspace::{
    Disk, Files as _, FoundFile, Homes, MARKDOWN_ENDING, PATTERN_ENDING, folder_of, refusal,
};
use notify::event::{AccessKind, AccessMode, EventKind};
use notify::{RecommendedWatcher, RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

/// What an editor writes in several goes is read once.
const SETTLE: Duration = Duration::from_millis(15);

/// Reads and checks the file.
pub(crate) struct PreviewedFile {
    file: FoundFile,
    /// Of several patterns in Markdown, which one: from 0.
    which: usize,
    /// The folders of all files that were read for it.
    folders: Mutex<BTreeSet<PathBuf>>,
}

impl PreviewedFile {
    pub(crate) fn new(file: FoundFile, which: usize) -> Self {
        Self { file, which, folders: Mutex::default() }
    }

    fn keep_folders(&self, report: &Report) {
        let folders = report.files.iter().map(|file| folder_of(Path::new(&file.path)).to_path_buf());
        *self.folders.lock().unwrap_or_else(PoisonError::into_inner) = folders.collect();
    }
}

impl Owner for PreviewedFile {
    fn look(&self) -> Option<Arc<Report>> {
        // By now it may be a pipe, for which one would wait.
        let text = Disk::default().read(&self.file.path).ok()?;
        // Files that it uses, and its settings, may be others than before.
        let folder = folder_of(&self.file.path);
        let home = Homes::default().of(folder, folder).unwrap_or_else(|_| Arc::clone(&self.file.home));
        let file = FoundFile { home, ..self.file.clone() };
        let report = check_one(&file, &text, self.which)?;
        self.keep_folders(&report);
        Some(Arc::new(report))
    }

    fn again(&self) -> String {
        let path = std::path::absolute(&self.file.path).unwrap_or_else(|_| self.file.path.clone());
        let number = if self.which > 0 { format!(" --number {}", self.which + 1) } else { String::new() };
        format!(
            "To start it again, run this in the same terminal: knotwright preview {}{number}. This page then goes on by itself.",
            quoted(&path)
        )
    }

    /// There is no editor to move the cursor in: the place is printed as editors and terminals understand it.
    fn show(&self, spot: Destination) -> Option<String> {
        let (line, column) = position(&spot);
        Some(format!("{}:{line}:{column}", spot.path))
    }

    /// Nothing is written behind an editor's back.
    fn recolor(&self, recolor: Recolor) -> String {
        let (line, _) = position(&recolor.spot);
        let old = &recolor.spot.text[recolor.spot.span.start.to_usize()..recolor.spot.span.end.to_usize()];
        format!("On line {line} of {}, write {} instead of {old}.", recolor.spot.path, recolor.color)
    }
}

/// A path as it is typed on a command line.
fn quoted(path: &Path) -> String {
    let shown = knotwright_workspace::shown_path(path);
    if shown.contains(|letter: char| !letter.is_alphanumeric() && !"/\\._-:".contains(letter)) {
        format!("\"{shown}\"")
    } else {
        shown
    }
}

fn position(spot: &Destination) -> (u32, u32) {
    let at = LineIndex::new(&spot.text).position(&spot.text, spot.span.start, Columns::Chars);
    let mark = u32::from(at.line == 0 && spot.text.starts_with('\u{feff}'));
    (at.line + 1, at.column.saturating_sub(mark) + 1)
}

/// Reports whenever something in certain folders changes. Folders are watched, not files: many editors save by
/// giving another file the name.
pub(crate) struct Following {
    watcher: RecommendedWatcher,
    watched: BTreeSet<PathBuf>,
    events: Receiver<notify::Result<notify::Event>>,
}

impl Following {
    /// # Errors
    /// In words: the system tells of no changes there.
    pub(crate) fn new(file: &Path) -> Result<Self, String> {
        let (tell, events) = channel();
        let watcher = notify::recommended_watcher(tell).map_err(not_followed)?;
        let mut following = Self { watcher, watched: BTreeSet::new(), events };
        following.watch(folder_of(file).to_path_buf()).map_err(not_followed)?;
        Ok(following)
    }

    fn watch(&mut self, folder: PathBuf) -> notify::Result<()> {
        if self.watched.insert(folder.clone()) {
            let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { &folder };
            self.watcher.watch(folder, RecursiveMode::NonRecursive)?;
        }
        Ok(())
    }

    /// Calls `tell` after every change, without end.
    pub(crate) fn each(mut self, reader: &PreviewedFile, tell: impl Fn()) {
        while let Ok(event) = self.events.recv() {
            if !event.is_ok_and(|event| matters(&event)) {
                continue;
            }
            std::thread::sleep(SETTLE);
            while self.events.try_recv().is_ok() {}
            tell();
            let folders = reader.folders.lock().unwrap_or_else(PoisonError::into_inner).clone();
            // A folder that cannot be watched costs no more than that a change in it is seen later.
            folders.into_iter().for_each(|folder| _ = self.watch(folder));
        }
    }
}

fn not_followed(error: notify::Error) -> String {
    match &error.kind {
        notify::ErrorKind::Io(error) => refusal(error),
        _ => error.to_string(),
    }
}

/// Whether a pattern or settings may be others than before; that somebody reads them is no change.
fn matters(event: &notify::Event) -> bool {
    let is_ours = |path: &PathBuf| {
        path.extension().is_some_and(|ending| ending == PATTERN_ENDING || ending == MARKDOWN_ENDING)
            || path.file_name().is_some_and(|name| name == knotwright_workspace::SETTINGS_FILE)
    };
    let was_written = EventKind::Access(AccessKind::Close(AccessMode::Write));
    let reads = event.kind.is_access() && event.kind != was_written;
    !reads && event.paths.iter().any(is_ours)
}
