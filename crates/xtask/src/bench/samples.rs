//! Files to measure on: the sample patterns over and over under other titles, and Python files of the same length
//! for the yardstick.

use crate::run::{target, top};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// A hundred files a folder, as people keep them.
const A_FOLDER: usize = 100;

/// Where the files stand.
pub(crate) struct Samples {
    pub(crate) patterns: String,
    pattern_files: Vec<String>,
    pub(crate) python: String,
    pub(crate) long: String,
    pub(crate) long_python: String,
}

impl Samples {
    /// Writes `files` patterns of 40 to 60 lines, as many Python files, and one of each of about `lines` lines.
    pub(crate) fn write(files: usize, lines: usize) -> Result<Self, String> {
        let home = target().join("bench");
        let texts = sample_texts()?;
        let pattern_files =
            write_all(&home.join("patterns"), "knot", files, |at| titled(&texts[at % texts.len()], at))?;
        write_all(&home.join("python"), "py", files, |at| {
            python(texts[at % texts.len()].lines().count(), at)
        })?;
        fs::write(home.join("long.knot"), long_pattern(lines)).map_err(said)?;
        fs::write(home.join("long.py"), python(lines, 0)).map_err(said)?;
        let name = |last: &str| home.join(last).display().to_string();
        Ok(Self {
            patterns: name("patterns"),
            pattern_files,
            python: name("python"),
            long: name("long.knot"),
            long_python: name("long.py"),
        })
    }

    /// The line that reads every pattern and does nothing with it: it need not even look for them.
    pub(crate) fn cat(&self) -> Vec<&str> {
        std::iter::once("cat").chain(self.pattern_files.iter().map(String::as_str)).collect()
    }
}

fn said(error: std::io::Error) -> String {
    error.to_string()
}

/// The sample patterns of 40 to 60 lines that need no other file.
pub(super) fn sample_texts() -> Result<Vec<String>, String> {
    let mut paths: Vec<PathBuf> = fs::read_dir(top().join("shared/patterns"))
        .map_err(said)?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .collect();
    paths.sort();
    let texts: Vec<String> = paths
        .iter()
        .filter_map(|path| fs::read_to_string(path).ok())
        .filter(|text| (40..=60).contains(&text.lines().count()))
        .filter(|text| !text.lines().any(|line| line.starts_with("use ")))
        .collect();
    if texts.is_empty() { Err("no sample pattern has 40 to 60 lines".to_owned()) } else { Ok(texts) }
}

/// Writes `files` files, a hundred to a folder; their paths.
pub(super) fn write_all(
    home: &Path,
    ending: &str,
    files: usize,
    text: impl Fn(usize) -> String,
) -> Result<Vec<String>, String> {
    let mut paths = Vec::with_capacity(files);
    for at in 0..files {
        let folder = home.join((at / A_FOLDER).to_string());
        fs::create_dir_all(&folder).map_err(said)?;
        let path = folder.join(format!("{at}.{ending}"));
        fs::write(&path, text(at)).map_err(said)?;
        paths.push(path.display().to_string());
    }
    Ok(paths)
}

/// A pattern under a title of its own.
fn titled(text: &str, at: usize) -> String {
    text.replacen("pattern \"", &format!("pattern \"{at} "), 1)
}

/// Sections of promised steps, about `lines` lines in all.
pub(super) fn long_pattern(lines: usize) -> String {
    let mut text = String::from(
        "pattern \"Long shore\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nthread sand goldenrod\n\
         strands 4 kelp 4 foam 4 sand\nset {\n",
    );
    for section in 0..lines / 14 {
        let _ = writeln!(text, "  section \"wave {section}\" {{");
        for color in ["kelp", "foam", "sand"] {
            for _ in 0..4 {
                let _ = writeln!(text, "    take left 1 ({color}): forward to edge");
            }
        }
        text.push_str("  }\n");
    }
    text.push_str("}\n");
    text
}

/// About `lines` lines of Python, of the plain kind that a linter reads every day.
pub(super) fn python(lines: usize, seed: usize) -> String {
    let mut text = String::from("import math\n\n");
    for at in 0..lines / 6 {
        let _ = write!(
            text,
            "\ndef turn_{seed}_{at}(width: int, size: int = {at}) -> float:\n    total = 0.0\n    \
             for step in range(width):\n        total += math.sqrt(step * size + {at})\n    return total\n"
        );
    }
    text
}
