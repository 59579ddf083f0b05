//! Cases by chance, each from its own number.

use crate::cases::{Case, Change, HostileContent, HostileFile};
use crate::chance::Rng;

/// What people type and paste, and what only careless programs do.
const PIECES: [&str; 49] = [
    "",
    "",
    "\n",
    "\r\n",
    "\r",
    " ",
    "1",
    "0",
    "left",
    "right 2",
    "forward ",
    "backward to edge",
    "}",
    "{",
    "\"",
    "-- ",
    "\u{1f600}",
    "e\u{301}",
    "\u{202e}",
    "\u{2028}",
    "\u{feff}",
    "\t",
    "\u{1b}[2J",
    "\nset {\n",
    "\n  take right 1 (kelp): backward to edge\n",
    "expect start\n",
    "motif fan {\n",
    "#1f5d5",
    "then 0",
    "\r\n  repeat 3 {\r\n    take left 1: forward 2\r\n  }\r\n",
    "repeat 1000000000 {",
    "1 down to 0",
    " + 1",
    "(",
    ")",
    "use fan from \"fans.knot\"\n",
    "rows {\n> < .\n}\n",
    "work turn(3)\n",
    "strands 200 kelp | mirror\n",
    "note \"",
    "join left 2 with ",
    ", de \"Ebbe\"",
    " 0 mm",
    "face k kelp, f foam {\nk f ? .\n}\n",
    "expect face turn\n",
    "leader left 1 {\nletters \"A\u{301}b\" height 5\n}\n",
    "start folded pairs mirrored\n",
    "opening {\n  meet center\n}\n",
    "colorway \"dusk\" {\n  thread kelp navy\n}\n",
];

/// What makes a page another one around its patterns.
const MARKS: [&str; 10] =
    ["```\n", "```knot\n", "\n> ", "\n- ", "\n   ", "\n1. ", "~~~\n", "<!--\n", "\n```knot\n```\n", "    "];

const PAGE: &str = "# Pier \u{1f600}\n\n```knot\npattern \"A\"\nthread kelp green\nstrands 2 kelp\nset {\n  take left 1: \
    forward 1\n}\n```\n\n> ```knot\n> pattern \"B\"\n> thread e\u{301} white\n> strands 3 e\u{301}\n> set {\n>   take \
    left 1: forward 2\n> }\n> ```\n\n1. e\u{301}\n\n   ```knot\n   pattern \"C\"\n   thread foam ivory\n   strands 4 foam\n   \
    set {\n     take left 1 (foam): forward 1\n     expect start\n   }\n   ```\n\n```knot\npattern \"D\"\nthread rope black\n";

const SETTINGS: &str = "root = true\nexclude = [\"drafts/\", \"!kept.knot\"]\n\n[rules]\nidle-strand = \"off\"\n\n[[folder]]\n\
    paths = [\"archive/\"]\nrules = { uneven-use = \"error\" }\n";

const SIGNS: [&str; 16] = [
    "[",
    "]",
    "=",
    "\"",
    "\"\"\"",
    "{",
    "}",
    "\n",
    "**",
    "/",
    "\\",
    "1e999",
    "\u{0}",
    "é",
    "[[folder]]\n",
    "root",
];

const FRAMES: [&str; 14] = [
    "Content-Length: 2\r\n\r\n{}",
    "Content-Length: 99999999999\r\n\r\n",
    "Content-Length: -1\r\n\r\n",
    "\r\n\r\n",
    "[",
    "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"initialize\",\"params\":{\"capabilities\":{}}}",
    "{\"jsonrpc\":\"2.0\",\"method\":\"initialized\",\"params\":{}}",
    "{\"jsonrpc\":\"2.0\",\"id\":[],\"method\":\"shutdown\"}",
    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":{\"uri\":\"a:b\",\
     \"languageId\":\"knotwright\",\"version\":1,\"text\":\"pattern\"}}}",
    "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":\"textDocument/hover\",\"params\":{\"textDocument\":{\"uri\":\"a:b\"},\
     \"position\":{\"line\":4294967295,\"character\":4294967295}}}",
    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\",\"params\":{\"textDocument\":{\"uri\":\"a:b\",\
     \"version\":2},\"contentChanges\":[{\"range\":{\"start\":{\"line\":9,\"character\":9},\"end\":{\"line\":0,\
     \"character\":0}},\"text\":\"\\ud83d\"}]}}",
    "{\"jsonrpc\":\"2.0\",\"id\":3,\"method\":\"textDocument/semanticTokens/full\",\"params\":{\"textDocument\":\
     {\"uri\":\"a:b\"}}}",
    "{\"jsonrpc\":\"2.0\",\"method\":\"$/cancelRequest\",\"params\":{\"id\":2}}",
    "{\"jsonrpc\":\"2.0\",\"id\":7,\"result\":null}",
];

const NAMES: [&[u8]; 18] = [
    b"a.knot",
    b"fans.knot",
    b"-.knot",
    b"--help.knot",
    b"a\nb.knot",
    "\u{202e}x.knot".as_bytes(),
    b"::error::.knot",
    b" .knot",
    b"a'b\"c.knot",
    b".hidden.knot",
    b"\xff\xfe.knot",
    b"\x1b[2J.knot",
    b"page.md",
    b".gitignore",
    b"knotwright.toml",
    b"inner/a.knot",
    b"deep.knot",
    b"%2e%2e.knot",
];

const USES: [&str; 12] = [
    "../secret.knot",
    "../../etc/passwd",
    "/dev/zero",
    "",
    ".",
    "..",
    "link.knot",
    "./fans.knot",
    "inner/../../secret.knot",
    "https://x.invalid/a.knot",
    "fans.knot\\u0000",
    "a.knot",
];

const COMMANDS: [&[&str]; 33] = [
    &["check", "."],
    &["check", "--format", "json", "."],
    &["check", "--format", "sarif", "."],
    &["check", "--format", "github", "."],
    &["check", "--format", "gitlab", "."],
    &["check", "--format", "junit", "."],
    &["check", "--format", "short", "."],
    &["check", "--mend", "."],
    &["format", "."],
    &["format", "--check", "."],
    &["format", "--diff", "."],
    &["measure", "a.knot"],
    &["kit", "a.knot"],
    &["plan", "a.knot"],
    &["chart", "a.knot"],
    &["compare", "a.knot", "fans.knot"],
    &["draw", "a.knot"],
    &["draw", "--format", "svg", "a.knot"],
    &["draw", "--chart", "a.knot"],
    &["design", "a.knot", "--seconds", "1"],
    &["write", "a.knot"],
    &["write", "--by", "rows", "--mirrored", "--language", "de", "a.knot"],
    &["sheet", "a.knot"],
    &["sheet", "--mirrored=picture", "--language", "es", "--sets", "3", "a.knot"],
    &["kit", "--count", "3", "--fold", "a.knot", "fans.knot"],
    &["export", "a.knot"],
    &["refresh", "."],
    &["merge", "a.knot", "fans.knot", "deep.knot"],
    &["locate", "a.knot", "kelp foam"],
    &["gallery", ".", "-o", "out"],
    &["start-for", "a.knot", "kelp foam"],
    &["new", "a.knot"],
    &["explain", "a.knot"],
];

/// The samples, and cases made of them.
pub(crate) struct Maker {
    samples: Vec<String>,
}

/// What is made in turn, and how many of each in a round.
pub(crate) const KINDS: [(&str, usize); 10] = [
    ("typed", 6),
    ("typed page", 3),
    ("pair", 2),
    ("text", 40),
    ("page", 20),
    ("settings", 40),
    ("compare", 20),
    ("wire", 10),
    ("program", 12),
    ("sabotage", 1),
];

impl Maker {
    pub(crate) fn new(samples: Vec<String>) -> Self {
        Self { samples }
    }

    /// A case of that kind; none where it is no plain data.
    pub(crate) fn case(&self, kind: &str, rng: &mut Rng) -> Option<Case> {
        Some(match kind {
            "typed" => Case::Typed {
                encoding: encoding(rng),
                page: false,
                start: self.sample(rng),
                changes: changes(rng, &PIECES),
            },
            "typed page" => Case::Typed {
                encoding: encoding(rng),
                page: true,
                start: self.page(rng),
                changes: changes(rng, &[&PIECES[..], &MARKS[..]].concat()),
            },
            "pair" => {
                let changes = changes(rng, &PIECES).into_iter().map(|change| (rng.bool(), change));
                Case::Pair { changes: changes.collect(), encoding: encoding(rng) }
            }
            "text" => {
                let sample = self.sample(rng);
                Case::Text { text: mutated(rng, sample, &PIECES) }
            }
            "page" => {
                let page = self.page(rng);
                Case::Page { text: mutated(rng, page, &[&PIECES[..], &MARKS[..]].concat()) }
            }
            "settings" => Case::Settings { text: mutated(rng, SETTINGS.to_owned(), &SIGNS) },
            "compare" => {
                let one = self.sample(rng);
                let other = if rng.bool() {
                    self.sample(rng)
                } else {
                    mutated(rng, one.clone(), &["1", "2", "3", "left"])
                };
                Case::Compare { one, other }
            }
            "wire" => Case::Wire { bytes: frames(rng) },
            "program" => self.program(rng),
            _ => return None,
        })
    }

    fn sample(&self, rng: &mut Rng) -> String {
        rng.choice(&self.samples).cloned().unwrap_or_default()
    }

    fn page(&self, rng: &mut Rng) -> String {
        if rng.bool() { PAGE.to_owned() } else { format!("{PAGE}```\n\n```knot\n{}```\n", self.sample(rng)) }
    }

    fn program(&self, rng: &mut Rng) -> Case {
        let mut files: Vec<HostileFile> = (0..rng.usize(1..6)).map(|_| self.file(rng)).collect();
        files.push(HostileFile { name: b"inner".to_vec(), content: HostileContent::Folder });
        files.rotate_right(1);
        let command = rng.choice(COMMANDS).unwrap_or(&["check", "."]);
        Case::Program { files, arguments: command.iter().map(|&word| word.to_owned()).collect() }
    }

    fn file(&self, rng: &mut Rng) -> HostileFile {
        let name = rng.choice(NAMES).unwrap_or(b"a.knot").to_vec();
        let text = |text: String| HostileContent::Bytes(text.into_bytes());
        let content = match rng.usize(0..12) {
            0 => HostileContent::Link(rng.choice(USES).unwrap_or(".").to_owned()),
            1 => HostileContent::Folder,
            2 if matches!(&name[..], b".gitignore" | b"knotwright.toml") => HostileContent::Pipe,
            3 => HostileContent::Bytes((0..rng.usize(0..200)).map(|_| rng.u8(..)).collect()),
            4 => text(mutated(rng, SETTINGS.to_owned(), &SIGNS)),
            5 => text(deep(rng)),
            6 | 7 => {
                let path = rng.choice(USES).unwrap_or(".");
                text(format!("pattern \"A\"\nuse fan from \"{path}\"\n{}", self.sample(rng)))
            }
            8 => text(mutated(rng, PAGE.to_owned(), &MARKS)),
            _ => {
                let sample = self.sample(rng);
                text(mutated(rng, sample, &PIECES))
            }
        };
        HostileFile { name, content }
    }
}

fn encoding(rng: &mut Rng) -> String {
    rng.choice(["utf-8", "utf-16", "utf-32"]).unwrap_or("utf-16").to_owned()
}

fn changes(rng: &mut Rng, pieces: &[&str]) -> Vec<Change> {
    let length = |rng: &mut Rng| if rng.u8(..5) == 0 { rng.usize(..60) } else { rng.usize(..3) };
    let change = |rng: &mut Rng| Change {
        from: rng.usize(..100_000),
        length: length(rng),
        text: rng.choice(pieces).copied().unwrap_or("").to_owned(),
    };
    (0..rng.usize(1..9)).map(|_| change(rng)).collect()
}

/// A text with some pieces put in, some characters taken out, and some lines doubled.
fn mutated(rng: &mut Rng, text: String, pieces: &[&str]) -> String {
    let mut signs: Vec<char> = text.chars().collect();
    for _ in 0..rng.usize(1..6) {
        let from = rng.usize(..=signs.len());
        let most = (signs.len() - from).min(if rng.bool() { 2 } else { 40 });
        let to = from + rng.usize(..=most);
        if rng.u8(..4) == 0 {
            let copied = signs[from..to].to_vec();
            signs.splice(from..from, copied);
        } else {
            signs.splice(from..to, rng.choice(pieces).copied().unwrap_or("").chars());
        }
    }
    signs.into_iter().collect()
}

/// Blocks in blocks, or a very long line, or a text that wants very much tied.
fn deep(rng: &mut Rng) -> String {
    let head = "pattern \"Deep\"\nthread kelp green\nthread foam white\nstrands kelp foam\n";
    match rng.u8(..5) {
        0 => format!("{head}set {{\n{}", "on left 2 {\n".repeat(rng.usize(..400))),
        1 => format!("{head}{}\n", "thred ".repeat(rng.usize(..40_000))),
        2 => format!("{head}set {{\ntake left 1: forward 1\n{}}}\n", "then 0\n".repeat(rng.usize(..400))),
        3 => format!(
            "{head}set {{\nrepeat {0} {{ repeat {0} {{ take left 1: forward 1 }} }}\n}}\n",
            rng.u32(..400)
        ),
        _ => {
            format!("{head}set {{\ntake left 1: forward-backward 1{}\n}}\n", " + 1".repeat(rng.usize(..400)))
        }
    }
}

fn frames(rng: &mut Rng) -> Vec<u8> {
    let mut bytes = Vec::new();
    for _ in 0..rng.usize(1..12) {
        let frame = rng.choice(FRAMES).unwrap_or("");
        if rng.u8(..5) > 0 && frame.starts_with('{') {
            bytes.extend(format!("Content-Length: {}\r\n\r\n", frame.len()).bytes());
        }
        bytes.extend(frame.bytes());
    }
    for _ in 0..rng.usize(..4) {
        let at = rng.usize(..bytes.len());
        if rng.bool() { bytes[at] = rng.u8(..) } else { bytes.truncate(at.max(1)) }
    }
    bytes
}
