//! The file that is written first and then takes the place of another.
//!
//! Its writer holds a lock on it. An interrupted program takes such files with it; a killed one cannot, so the next one
//! that writes into a folder sweeps out those there that nobody holds.

use std::collections::BTreeSet;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use tempfile::NamedTempFile;

const PREFIX: &str = ".knotwright-";

/// How many letters and digits stand behind it.
const RANDOM: usize = 6;

/// The files that are being written, and the folders that were swept.
static OURS: Mutex<Ours> = Mutex::new(Ours { files: BTreeSet::new(), swept: BTreeSet::new() });

struct Ours {
    files: BTreeSet<PathBuf>,
    swept: BTreeSet<PathBuf>,
}

fn ours() -> MutexGuard<'static, Ours> {
    OURS.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A file that is gone with this value, unless it was given a name.
pub(super) struct Temporary {
    file: NamedTempFile,
    /// Dropped after the file.
    _noted: Noted,
}

/// That a file is ours, as long as this is there.
struct Noted(PathBuf);

impl Drop for Noted {
    fn drop(&mut self) {
        ours().files.remove(&self.0);
    }
}

impl Temporary {
    /// A new file in `folder`. If it `is_private`, others may not read it before it has taken its place.
    ///
    /// # Errors
    /// It cannot be made.
    pub(super) fn new(folder: &Path, is_private: bool) -> io::Result<Self> {
        interrupted::listen();
        if ours().swept.insert(folder.to_path_buf()) {
            sweep(folder);
        }
        let file = tempfile::Builder::new().prefix(PREFIX).rand_bytes(RANDOM).make_in(folder, |path| {
            // Made and noted in one: whoever interrupts us in the middle must find it, or it is never made.
            let mut ours = ours();
            let file = make(path, is_private)?;
            ours.files.insert(path.to_path_buf());
            Ok(file)
        })?;
        let noted = Noted(file.path().to_path_buf());
        Ok(Self { file, _noted: noted })
    }

    pub(super) fn file(&self) -> &File {
        self.file.as_file()
    }

    pub(super) fn write(&self, bytes: &[u8]) -> io::Result<()> {
        self.file().write_all(bytes)
    }

    /// Lets it take the place of what is at `path`.
    ///
    /// # Errors
    /// It cannot; then it is gone.
    pub(super) fn persist(self, path: &Path) -> io::Result<()> {
        self.file.persist(path).map(drop).map_err(io::Error::from)
    }
}

fn make(path: &Path, is_private: bool) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, if is_private { 0o600 } else { 0o666 });
    #[cfg(not(unix))]
    let _ = is_private;
    let file = options.open(path)?;
    // Where there are no locks, nothing is swept either.
    let _ = file.lock();
    // Someone may have swept it before the lock was ours: then another name is tried.
    if path.symlink_metadata().is_ok() { Ok(file) } else { Err(io::ErrorKind::AlreadyExists.into()) }
}

/// Removes what killed runs left behind in `folder`. What cannot be looked at stays.
fn sweep(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let is_ours = entry.file_name().to_str().is_some_and(is_name)
            && entry.file_type().is_ok_and(|kind| kind.is_file());
        if !is_ours {
            continue;
        }
        let path = entry.path();
        if let Ok(file) = File::open(&path)
            && file.try_lock().is_ok()
        {
            let _ = fs::remove_file(&path);
        }
    }
}

/// Whether this is a name that we give to files that are being written.
fn is_name(name: &str) -> bool {
    let is_random =
        |rest: &str| rest.len() == RANDOM && rest.bytes().all(|byte| byte.is_ascii_alphanumeric());
    name.strip_prefix(PREFIX).is_some_and(is_random)
}

#[cfg(unix)]
mod interrupted {
    use signal_hook::consts::{SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;
    use std::sync::Once;

    /// From now on, whoever interrupts the program finds nothing of it left behind.
    pub(super) fn listen() {
        static LISTENS: Once = Once::new();
        LISTENS.call_once(|| {
            let Ok(mut signals) = Signals::new([SIGINT, SIGTERM]) else { return };
            std::thread::spawn(move || {
                for signal in signals.forever() {
                    // Held to the end: nothing is begun any more.
                    let ours = super::ours();
                    for path in &ours.files {
                        let _ = std::fs::remove_file(path);
                    }
                    let _ = emulate_default_handler(signal);
                }
            });
        });
    }
}

#[cfg(not(unix))]
mod interrupted {
    /// What is left behind elsewhere is swept by the next run.
    pub(super) fn listen() {}
}
