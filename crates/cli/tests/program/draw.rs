//! `draw`

use crate::stage::{BROKEN, GOOD, Stage};
use std::process::Stdio;

const COLORWAYS: &str = "pattern \"Low tide\"\nthread kelp #1f5d50\nthread sand #e3c888\n\
                         colorway \"dusk\" {\n  thread kelp #102030\n}\nstrands 2 kelp 2 sand\nsets 2\n\
                         set { take left 1: forward 3 }\n";

/// The bytes of stdout.
fn bytes(stage: &Stage, arguments: &[&str]) -> Vec<u8> {
    let output = stage.command(arguments).stdin(Stdio::null()).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}

#[test]
fn every_knot_is_in_the_picture() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let said = stage.run(&["draw", "a.knot", "--sets", "2", "--format", "svg"]);
    assert_eq!(said.code, 0, "{}", said.err);
    assert!(said.out.starts_with("<svg ") && said.out.contains("<title>Low tide</title>"));
    // A set has four diagonals of three knots: 24 in all, and the two colors' own definitions.
    let knots = said.out.lines().filter(|line| line.starts_with("<use ") && line.contains(" x=")).count();
    assert!(knots >= 24, "{knots}");
    let one = stage.run(&["draw", "a.knot", "--sets", "1", "--format", "svg"]).out;
    let knots_of_one = one.lines().filter(|line| line.starts_with("<use ") && line.contains(" x=")).count();
    assert_eq!(knots - knots_of_one, 12);
}

#[test]
fn the_ending_says_what_is_written() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    for (name, begins) in [("a.svg", &b"<svg "[..]), ("a.PNG", &b"\x89PNG\r\n"[..]), ("a.txt", &b"K"[..])] {
        let said = stage.run(&["draw", "a.knot", "-o", name]);
        assert_eq!((said.code, said.out.as_str()), (0, ""), "{}", said.err);
        assert!(std::fs::read(stage.path(name)).unwrap().starts_with(begins), "{name}");
    }
    assert_eq!(stage.run(&["draw", "a.knot", "-o", "a.pdf"]).code, 2);
    assert_eq!(stage.run(&["draw", "a.knot", "-o", "none/a.svg"]).code, 2);
    assert_eq!(
        bytes(&stage, &["draw", "a.knot", "--format", "png"]),
        std::fs::read(stage.path("a.PNG")).unwrap()
    );
}

#[test]
fn without_color_it_is_drawn_in_letters_as_wide_as_the_terminal() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let said = stage.run(&["draw", "a.knot", "--sets", "1"]);
    // Diagonals of kelp, kelp, sand, sand from the left edge down to the right.
    assert!(said.out.starts_with("K\n  K\nK   K\n"), "{}", said.out);
    assert!(said.out.contains("\nK kelp\nS sand\n"), "{}", said.out);
    let narrow = stage.command(&["draw", "a.knot"]).env("COLUMNS", "3").output().unwrap();
    let narrow = String::from_utf8(narrow.stdout).unwrap();
    assert!(narrow.lines().all(|line| line.chars().count() <= 3), "{narrow}");
    let colored = stage.run(&["draw", "a.knot", "--color", "always"]).out;
    assert!(colored.contains("\u{1b}[") && colored.contains("38;2;"), "{colored}");
}

#[test]
fn colorways_and_eyes_change_the_colors() {
    let stage = Stage::with(&[("a.knot", COLORWAYS)]);
    let svg = |more: &[&str]| stage.run(&[&["draw", "a.knot", "--format", "svg"], more].concat()).out;
    assert!(svg(&[]).contains("#1f5d50") && !svg(&[]).contains("#102030"));
    assert!(
        svg(&["--colorway", "dusk"]).contains("#102030") && svg(&["--colorway", "dusk"]).contains("#e3c888")
    );
    assert!(!svg(&["--vision", "deutan"]).contains("#1f5d50"));
    let sheet = svg(&["--colorways"]);
    assert!(
        sheet.contains("#1f5d50") && sheet.contains("#102030") && sheet.contains(">dusk</text>"),
        "{sheet}"
    );
    let said = stage.run(&["draw", "a.knot", "--colorway", "dawn"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("\"dusk\""), "{}", said.err);
}

/// The numbers that follow one another, and then begin at one again; what comes twice is said once.
fn runs(numbers: impl Iterator<Item = u32>) -> Vec<u32> {
    let mut ends: Vec<u32> = Vec::new();
    let mut last = 0;
    for number in numbers.chain([1]) {
        assert!(number == 1 || number == last + 1, "after {last} comes {number}");
        if number == 1 && last > 0 && ends.last() != Some(&last) {
            ends.push(last);
        }
        last = number;
    }
    ends
}

/// The rows' numbers in a chart, which are on tags.
fn charted(chart: &str) -> Vec<u32> {
    let tags = chart.split("<path d=\"M0 0L").skip(1);
    runs(tags.map(|tag| tag.split("</text>").next().unwrap().rsplit('>').next().unwrap().parse().unwrap()))
}

#[test]
fn chart_words_and_sheet_number_the_rows_of_every_sample_alike() {
    let stage = Stage::with(&[]);
    let patterns = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/patterns");
    for file in std::fs::read_dir(patterns).unwrap() {
        let path = file.unwrap().path();
        let path = path.to_str().unwrap();
        let said = stage.run(&["write", path, "--by", "rows"]);
        if said.err.contains("a library has no band") {
            continue;
        }
        let words = said.out;
        let first = words.find("## The opening").or_else(|| words.find("## The set")).unwrap();
        let last = words.find("## To finish").unwrap();
        let shown = words[first..last].lines().filter_map(|line| {
            let (number, text) = line.split_once(". ")?;
            let number: u32 = number.parse().ok()?;
            if let Some(row) = text.strip_prefix("Row ") {
                assert_eq!(row.split(':').next(), Some(number.to_string().as_str()), "{path}: {line}");
            }
            Some(number)
        });
        let shown = runs(shown);
        assert!(!shown.is_empty(), "{path}: {words}");
        let chart = stage.run(&["draw", path, "--chart"]).out;
        assert_eq!(charted(&chart), shown, "{path}");
        let sheet = stage.run(&["sheet", path]).out;
        let (_, chart) = sheet.split_once("<section id=\"chart\"").unwrap();
        assert_eq!(charted(chart.split("</section>").next().unwrap()), shown, "the sheet of {path}");
    }
}

#[test]
fn the_chart_has_letters_and_numbers() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let chart = stage.run(&["draw", "a.knot", "--chart"]).out;
    assert!(
        chart.starts_with("<svg ")
            && chart.contains(">K</text>")
            && chart.contains("forward: left over right"),
        "{chart}"
    );
    let dark = stage.run(&["draw", "a.knot", "--chart", "--background", "dark"]).out;
    assert!(dark.contains("fill=\"#1d2026\"") && !chart.contains("#1d2026"));
    let letters = stage.run(&["draw", "a.knot", "--chart", "--format", "terminal"]);
    assert_eq!(letters.code, 0);
    assert!(!letters.out.contains("<svg") && letters.out.contains("Set"), "{}", letters.out);
    assert_eq!(stage.run(&["draw", "a.knot", "--chart", "--pages", "-o", "chart.svg"]).code, 0);
    assert!(stage.read("chart-1.svg").starts_with("<svg"));
    assert!(bytes(&stage, &["draw", "a.knot", "--chart", "--format", "png"]).starts_with(b"\x89PNG"));
}

#[test]
fn what_cannot_be_drawn_is_said() {
    let stage = Stage::with(&[("a.knot", BROKEN), ("b.knot", GOOD)]);
    let said = stage.run(&["draw", "a.knot"]);
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    assert!(said.err.contains("broken-promise"), "{}", said.err);
    let said = stage.run(&["draw", "b.knot", "--sets", "4000000000"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("draw fewer"), "{}", said.err);
    assert_eq!(stage.run(&["draw", "b.knot", "--scale", "0"]).code, 2);
    assert_eq!(stage.run(&["draw", "none.knot"]).code, 2);
    let said = stage.run(&["draw", "b.knot", "--scale", "200", "--sets", "400", "-o", "b.png"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("pixels"), "{}", said.err);
}
