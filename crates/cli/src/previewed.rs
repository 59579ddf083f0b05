//! A file that is followed: read anew whenever it is saved.

use crate::checking::check_text;
use knotwright_checker::Report;
use knotwright_grammar::{Columns, LineIndex};
use knotwright_preview::{Owner, Recolor, Spot};
use knotwright_workspace::{Found, Homes, folder_of};
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
pub(crate) struct Reader {
    file: Found,
    /// The folders of all files that were read for it.
    folders: Mutex<BTreeSet<PathBuf>>,
}

impl Reader {
    pub(crate) fn new(file: Found) -> Self {
        Self { file, folders: Mutex::default() }
    }

    fn keep_folders(&self, report: &Report) {
        let folders = report.files.iter().map(|file| folder_of(Path::new(&file.path)).to_path_buf());
        *self.folders.lock().unwrap_or_else(PoisonError::into_inner) = folders.collect();
    }
}

impl Owner for Reader {
    fn look(&self) -> Option<Arc<Report>> {
        let text = knotwright_workspace::read(&self.file.path).ok()?;
        // Files that it uses, and its settings, may be others than before.
        let folder = folder_of(&self.file.path);
        let home = Homes::default().of(folder, folder).unwrap_or_else(|_| Arc::clone(&self.file.home));
        let file = Found { home, ..self.file.clone() };
        let report = check_text(&file, &text).pop()?;
        self.keep_folders(&report);
        Some(Arc::new(report))
    }

    /// There is no editor to lead: the place is told as editors and terminals understand it.
    fn show(&self, spot: Spot) -> Option<String> {
        let (line, column) = position(&spot);
        Some(format!("{}:{line}:{column}", spot.path))
    }

    /// Nothing is written behind an editor's back.
    fn recolor(&self, recolor: Recolor) -> String {
        let (line, _) = position(&recolor.spot);
        let old = &recolor.spot.text[recolor.spot.span.start as usize..recolor.spot.span.end as usize];
        format!("On line {line} of {}, write {} instead of {old}.", recolor.spot.path, recolor.color)
    }
}

fn position(spot: &Spot) -> (u32, u32) {
    let at = LineIndex::new(&spot.text).position(&spot.text, spot.span.start, Columns::Chars);
    let mark = u32::from(at.line == 0 && spot.text.starts_with('\u{feff}'));
    (at.line + 1, at.column.saturating_sub(mark) + 1)
}

/// Tells whenever something in certain folders changes. Folders are watched, not files: many editors save by giving
/// another file the name.
pub(crate) struct Following {
    watcher: RecommendedWatcher,
    watched: BTreeSet<PathBuf>,
    events: Receiver<notify::Result<notify::Event>>,
}

impl Following {
    pub(crate) fn new(file: &Path) -> notify::Result<Self> {
        let (tell, events) = channel();
        let watcher = notify::recommended_watcher(tell)?;
        let mut following = Self { watcher, watched: BTreeSet::new(), events };
        following.watch(folder_of(file).to_path_buf())?;
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
    pub(crate) fn each(mut self, reader: &Reader, tell: impl Fn()) {
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

/// Whether a pattern or settings may be others than before; that somebody reads them is no change.
fn matters(event: &notify::Event) -> bool {
    let is_ours = |path: &PathBuf| {
        path.extension().is_some_and(|ending| ending == knotwright_workspace::PATTERN_ENDING)
            || path.file_name().is_some_and(|name| name == knotwright_workspace::SETTINGS_FILE)
    };
    let was_written = EventKind::Access(AccessKind::Close(AccessMode::Write));
    let reads = event.kind.is_access() && event.kind != was_written;
    !reads && event.paths.iter().any(is_ours)
}
