//! What must grow with the work and no faster: each row is measured on a size and on four times as much, in turn.

use super::outline;
use super::pairs::{compare, compare_times};
use crate::run::target;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

const SIZES: [usize; 2] = [2_000, 8_000];
const PAIRS: usize = 7;

const HEAD: &str = "pattern \"Pier\"\nthread kelp green\nthread foam white\nstrands 2 kelp 2 foam\n";

/// What grows: its name, and what writes it of a size into an empty folder and says what is run there.
type Row = (&'static str, fn(&Path, usize) -> Result<Vec<String>, String>);

const ROWS: [Row; 7] = [
    ("`check` of Markdown, patterns", markdown),
    ("`check` of files that use one another in a chain", imports),
    ("`check`, labels given and called", labels),
    ("`check`, `then 0` in one `take`", thens),
    ("`check`, one motif worked again and again in a set that does not close", works),
    ("`check`, a quarter as many globs in `exclude`", excludes),
    ("`check`, a hundred times as many passes of a loose band", holes),
];

/// Measures all rows with this build and prints Markdown.
pub(crate) fn growth(program: &str) -> Result<(), String> {
    let [small, large] = SIZES;
    println!(
        "\n| of {small} and of {large} | times as long: median (least to most; the longer one); linear is 4 |"
    );
    println!("| --- | --- |");
    let outline = |size: usize| move || outline::time(program, size);
    println!(
        "| outline of blocks in one another | {} |",
        compare_times(outline(large), outline(small), PAIRS)?
    );
    for (at, (name, write)) in ROWS.into_iter().enumerate() {
        let line = |size: usize| -> Result<Vec<String>, String> {
            let folder = target().join(format!("bench/growth/{at}-{size}"));
            fs::create_dir_all(&folder).map_err(said)?;
            let line = write(&folder, size)?;
            Ok(line
                .into_iter()
                .map(|word| if word == "knotwright" { program.to_owned() } else { word })
                .collect())
        };
        let (small, large) = (line(small)?, line(large)?);
        println!("| {name} | {} |", compare(&words(&large), &words(&small), PAIRS)?);
    }
    Ok(())
}

fn words(line: &[String]) -> Vec<&str> {
    line.iter().map(String::as_str).collect()
}

fn said(error: std::io::Error) -> String {
    error.to_string()
}

/// Writes one file; the line that checks it.
fn checked(path: PathBuf, text: String) -> Result<Vec<String>, String> {
    fs::write(&path, text).map_err(said)?;
    Ok(["knotwright", "check", &path.display().to_string()].map(str::to_owned).to_vec())
}

fn markdown(folder: &Path, size: usize) -> Result<Vec<String>, String> {
    let block = format!("Prose.\n\n```knot\n{HEAD}set {{\n  take left 1: forward 3\n}}\n```\n\n");
    checked(folder.join("page.md"), block.repeat(size))
}

fn imports(folder: &Path, size: usize) -> Result<Vec<String>, String> {
    for at in 0..size {
        let next = at + 1;
        let text = format!(
            "pattern \"Pier {at}\"\nuse turn{next} from \"{next}.knot\"\nmotif turn{at}() {{\n  work turn{next}()\n}}\n"
        );
        fs::write(folder.join(format!("{at}.knot")), text).map_err(said)?;
    }
    let last = format!("pattern \"Quay\"\nmotif turn{size}() {{\n  take left 1: forward 1\n}}\n");
    fs::write(folder.join(format!("{size}.knot")), last).map_err(said)?;
    checked(folder.join("first.knot"), "pattern \"Pier\"\nuse turn0 from \"0.knot\"\n".to_owned())
}

fn labels(folder: &Path, size: usize) -> Result<Vec<String>, String> {
    let mut text = format!("{HEAD}set {{\n");
    for at in 0..size {
        let _ = writeln!(text, "  take left 1 as l{at}: forward-backward 1");
    }
    for at in 0..size {
        let _ = writeln!(text, "  take l{at}: forward-backward 1");
    }
    checked(folder.join("labels.knot"), text + "}\n")
}

fn thens(folder: &Path, size: usize) -> Result<Vec<String>, String> {
    let text = format!("{HEAD}set {{\n  take left 1: forward 1\n{}}}\n", "    then 0\n".repeat(size));
    checked(folder.join("thens.knot"), text)
}

fn works(folder: &Path, size: usize) -> Result<Vec<String>, String> {
    let motif = "motif hold(shade) {\n  take left 1 (shade): forward-backward 1\n}\n";
    let works = "  work hold(kelp)\n".repeat(size);
    let text = format!("{HEAD}{motif}set {{\n{works}  take left 1: forward to edge\n}}\n");
    checked(folder.join("works.knot"), text)
}

fn excludes(folder: &Path, size: usize) -> Result<Vec<String>, String> {
    let globs: String = (0..size / 4).map(|at| format!("  \"drafts-{at}/**/*.knot\",\n")).collect();
    fs::write(folder.join("knotwright.toml"), format!("root = true\nexclude = [\n{globs}]\n"))
        .map_err(said)?;
    checked(folder.join("band.knot"), format!("{HEAD}set {{\n  take left 1: forward 3\n}}\n"))
}

/// A loose band: between two knots of a gap there are always some missing.
fn holes(folder: &Path, size: usize) -> Result<Vec<String>, String> {
    let steps = "    take left 1: forward 3\n    take right 1: backward 3\n";
    checked(folder.join("loose.knot"), format!("{HEAD}set {{\n  repeat {} {{\n{steps}  }}\n}}\n", 100 * size))
}
