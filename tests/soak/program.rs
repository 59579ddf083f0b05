//! The program itself, in a folder that wishes it ill.

use crate::cases::{HostileContent, HostileFile};
use std::ffi::OsStr;
use std::io::{Read, Write};
use std::os::unix::ffi::OsStrExt;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus, Stdio};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

/// A run that takes longer hangs.
const PATIENCE: Duration = Duration::from_secs(60);

/// What stands in a file beside the folder, which nothing may show.
const SECRET: &str =
    "pattern \"Hush\"\nthread swordfish #123456\nmotif fan() {\n  take swordfish 1 from left: forward 1\n}\n";

static PROGRAM: OnceLock<PathBuf> = OnceLock::new();

/// Which program is meant; otherwise it is the one that stands two folders above this one.
pub(crate) fn name(program: PathBuf) {
    let _ = PROGRAM.set(program);
}

pub(crate) fn path() -> &'static Path {
    PROGRAM.get_or_init(|| {
        let own = std::env::current_exe().unwrap_or_default();
        own.ancestors().nth(2).unwrap_or(&own).join("knotwright")
    })
}

/// What came of a run.
pub(crate) struct Ran {
    pub(crate) status: ExitStatus,
    pub(crate) out: Vec<u8>,
    pub(crate) err: Vec<u8>,
}

/// Runs the program to its end, or to the end of patience.
pub(crate) fn ended(command: &mut Command) -> Result<Ran, String> {
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|error| format!("{}: {error}", path().display()))?;
    let (mut out, mut err) = (child.stdout.take(), child.stderr.take());
    let reading = |from: Option<Box<dyn Read + Send>>| {
        std::thread::spawn(move || {
            let mut bytes = Vec::new();
            let _ = from.map(|mut from| from.read_to_end(&mut bytes));
            bytes
        })
    };
    let out = reading(out.take().map(|out| Box::new(out) as Box<_>));
    let err = reading(err.take().map(|err| Box::new(err) as Box<_>));
    let begun = Instant::now();
    let status = loop {
        if let Some(status) = child.try_wait().map_err(|error| error.to_string())? {
            break status;
        }
        if begun.elapsed() > PATIENCE {
            let _ = child.kill();
            let _ = child.wait();
            return Err("the program hangs".to_owned());
        }
        std::thread::sleep(Duration::from_millis(2));
    };
    Ok(Ran { status, out: out.join().unwrap_or_default(), err: err.join().unwrap_or_default() })
}

/// Runs it in a folder with these files: it ends with a code of its own, shows no raw escape, and nothing from outside.
pub(crate) fn run(files: &[HostileFile], arguments: &[String]) -> Result<(), String> {
    let outer = tempfile::tempdir().map_err(|error| error.to_string())?;
    let folder = outer.path().join("bands");
    let lay = || -> std::io::Result<()> {
        std::fs::create_dir(&folder)?;
        std::fs::write(outer.path().join("secret.knot"), SECRET)?;
        std::fs::write(folder.join("knotwright.toml"), "root = true\n")
    };
    lay().map_err(|error| error.to_string())?;
    // A name that the system refuses is no trial.
    files.iter().for_each(|file| _ = put(&folder, file));
    let mut command = Command::new(path());
    command.args(arguments).current_dir(&folder).env("TERM", "dumb").env("NO_COLOR", "1");
    let Ran { status, out, err } = ended(&mut command)?;
    let (out, err) = (String::from_utf8_lossy(&out), String::from_utf8_lossy(&err));
    if !matches!(status.code(), Some(0..=2)) {
        return Err(format!("it ended with {status}: {err:.2000}"));
    }
    for (said, is_text) in [(&out, prints_text(arguments)), (&err, false)] {
        if !is_text && said.contains(['\u{1b}', '\u{202e}']) {
            return Err(format!("it obeys a sign of the text: {said:.2000}"));
        }
        if said.contains("swordfish") {
            return Err(format!("it shows what lies outside: {said:.2000}"));
        }
    }
    let secret = std::fs::read_to_string(outer.path().join("secret.knot")).unwrap_or_default();
    if secret == SECRET { Ok(()) } else { Err("it wrote to a file outside".to_owned()) }
}

/// Whether what it prints is the text of a pattern, or a difference for `patch`: to another program, as this one is, it
/// goes byte for byte; only on a terminal such signs are made visible.
fn prints_text(arguments: &[String]) -> bool {
    let is = |word: &str| arguments.iter().any(|argument| argument == word);
    is("--diff") || is("plan") || is("chart") || is("merge")
}

fn put(folder: &Path, file: &HostileFile) -> std::io::Result<()> {
    let path = folder.join(OsStr::from_bytes(&file.name));
    match &file.content {
        // A link that has the name already is not written through.
        HostileContent::Bytes(bytes) => std::fs::File::create_new(path)?.write_all(bytes),
        HostileContent::Link(to) => std::os::unix::fs::symlink(to, path),
        HostileContent::Folder => std::fs::create_dir_all(path),
        HostileContent::Pipe => pipe(&path),
    }
}

#[cfg(target_os = "linux")]
fn pipe(path: &Path) -> std::io::Result<()> {
    use rustix::fs::{CWD, FileType, Mode, mknodat};
    Ok(mknodat(CWD, path, FileType::Fifo, Mode::from_raw_mode(0o600), 0)?)
}

#[cfg(not(target_os = "linux"))]
fn pipe(_: &Path) -> std::io::Result<()> {
    Ok(())
}
