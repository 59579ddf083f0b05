//! A folder with files, and the program run in it.

use serde_json::Value;
use std::fs;
use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

/// A pattern with nothing wrong in it.
pub(crate) const GOOD: &str = "\
pattern \"Low tide\"
thread kelp #1f5d50
thread sand #e3c888
strands 2 kelp 2 sand

set {
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  expect start
}
";

/// A pattern with a promise on line 7 that is not kept.
pub(crate) const BROKEN: &str = "\
pattern \"Low tide\"
thread kelp #1f5d50
thread sand #e3c888
strands 2 kelp 2 sand

set {
  take left 1 (sand): forward 3
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  expect start
}
";

/// A pattern with a thread that is never used: it ties, and there is a warning.
pub(crate) const DOUBTFUL: &str = "\
pattern \"Low tide\"
thread kelp #1f5d50
thread sand #e3c888
thread coral #e2725b
strands 2 kelp 2 sand

set {
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  expect start
}
";

/// Holds what the program wrote to one of the schemas in `shared/schemas`.
pub(crate) fn held_to(schema: &str, value: Value) -> Value {
    let path = format!("{}/../../shared/schemas/{schema}.schema.json", env!("CARGO_MANIFEST_DIR"));
    let schema: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    let schema = jsonschema::draft202012::new(&schema).unwrap();
    let errors: Vec<String> =
        schema.iter_errors(&value).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(errors.is_empty(), "{errors:#?}");
    value
}

/// A folder that goes away with the test.
pub(crate) struct Stage {
    folder: tempfile::TempDir,
}

/// What came of a run.
#[derive(Debug)]
pub(crate) struct Said {
    /// How it ended.
    pub(crate) code: i32,
    /// On stdout.
    pub(crate) out: String,
    /// On stderr.
    pub(crate) err: String,
}

impl Stage {
    /// A folder with these files; folders between are made.
    pub(crate) fn with(files: &[(&str, &str)]) -> Self {
        let stage = Self { folder: tempfile::tempdir().unwrap() };
        files.iter().for_each(|(path, text)| stage.write(path, text));
        stage
    }

    pub(crate) fn write(&self, path: &str, bytes: impl AsRef<[u8]>) {
        let path = self.path(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }

    /// Makes a pipe: whoever opens it waits until somebody writes into it.
    #[cfg(target_os = "linux")]
    pub(crate) fn pipe(&self, path: &str) {
        use rustix::fs::{CWD, FileType, Mode, mknodat};
        mknodat(CWD, self.path(path), FileType::Fifo, Mode::from_raw_mode(0o600), 0).unwrap();
    }

    pub(crate) fn read(&self, path: &str) -> String {
        fs::read_to_string(self.path(path)).unwrap()
    }

    pub(crate) fn path(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    /// The names in the folder, sorted.
    pub(crate) fn names(&self) -> Vec<String> {
        let names = fs::read_dir(self.folder.path()).unwrap();
        let mut names: Vec<String> =
            names.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    /// The program, ready to run in the folder.
    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_knotwright"));
        command.args(arguments).current_dir(self.folder.path());
        command.env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE").env("TERM", "xterm");
        command
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Said {
        Said::from(self.command(arguments).stdin(Stdio::null()).output().unwrap())
    }

    pub(crate) fn run_with_input(&self, arguments: &[&str], input: impl AsRef<[u8]>) -> Said {
        let mut command = self.command(arguments);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        // The program may end before it has read all, which is its right.
        let _ = child.stdin.take().unwrap().write_all(input.as_ref());
        Said::from(child.wait_with_output().unwrap())
    }
}

impl From<Output> for Said {
    fn from(output: Output) -> Self {
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        let said =
            Self { code: output.status.code().unwrap(), out: text(output.stdout), err: text(output.stderr) };
        assert!(!said.err.contains("panicked"), "{}", said.err);
        assert!(!said.err.contains("os error") && !said.out.contains("os error"), "{}{}", said.err, said.out);
        said
    }
}
