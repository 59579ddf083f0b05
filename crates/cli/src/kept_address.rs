//! Where a live picture was served before, so that its page finds it again when the program is started again.
//!
//! It is kept for one file and one terminal (its shell), in the folder that the system gives every user for such things and
//! that nobody else can read; where there is no such folder, nothing is kept and every start has a new address.

use knotwright_preview::PreviewPlace;
use std::fs::OpenOptions;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::Write;
use std::path::{Path, PathBuf};

/// The file in which an address is kept, if it can be.
pub(crate) struct KeptAddress(Option<PathBuf>);

impl KeptAddress {
    pub(crate) fn of(pattern: &Path, which: usize) -> Self {
        let mut name = DefaultHasher::new();
        (std::path::absolute(pattern).ok(), which, terminal()).hash(&mut name);
        let file = || Some(private_folder()?.join(format!("knotwright-preview-{:016x}", name.finish())));
        Self(file())
    }

    pub(crate) fn read(&self) -> Option<PreviewPlace> {
        PreviewPlace::read(&std::fs::read_to_string(self.0.as_ref()?).ok()?)
    }

    /// Keeps an address. Where that fails, the next start has another one, and nothing else is lost.
    pub(crate) fn keep(&self, place: &PreviewPlace) {
        let Some(path) = &self.0 else { return };
        let mut options = OpenOptions::new();
        options.write(true).create(true).truncate(true);
        #[cfg(unix)]
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
        let _ = options.open(path).and_then(|mut file| writeln!(file, "{place}"));
    }
}

/// XDG Base Directory Specification 0.8: the folder for run-time files belongs to the user, and only the user may read it.
/// On macOS and Windows the folder for temporary files is the user's own.
fn private_folder() -> Option<PathBuf> {
    let named = std::env::var_os("XDG_RUNTIME_DIR").map(PathBuf::from).filter(|folder| folder.is_absolute());
    let own = (cfg!(windows) || cfg!(target_os = "macos")).then(std::env::temp_dir);
    named.or(own).filter(|folder| folder.is_dir())
}

/// What stays while the terminal lives: the shell that started this program.
#[cfg(unix)]
fn terminal() -> u32 {
    std::os::unix::process::parent_id()
}

#[cfg(not(unix))]
fn terminal() -> u32 {
    0
}
