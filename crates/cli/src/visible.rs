//! Text from a file on its way to a terminal. A pattern may hold signs that move the cursor, hide text or turn its
//! direction; a person must see them, and the terminal must not obey them.

use knotwright_grammar::{LineIndex, Span};
use knotwright_numbers::ToNumber;
use knotwright_wording::is_hidden;
use serde::Serialize;
use serde_json::ser::Formatter;
use std::borrow::Cow;
use std::fmt::Write as _;
use std::io;

/// Whether a terminal, or the eye, could be misled by this sign. Tabs and line feeds are harmless at a terminal.
fn misleads(sign: char) -> bool {
    is_hidden(sign) && !matches!(sign, '\t' | '\n')
}

/// Whether a text has letters, digits and signs of ASCII alone, as most have: none of them misleads. Bytes are soon looked at.
fn is_plain(text: &str) -> bool {
    text.bytes().all(|byte| matches!(byte, b' '..=b'~' | b'\n' | b'\t'))
}

/// `text` with every misleading sign written as `<U+001B>`.
pub(crate) fn visible(text: &str) -> Cow<'_, str> {
    if is_plain(text) || !text.contains(misleads) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    text.chars().for_each(|sign| push(&mut out, sign));
    Cow::Owned(out)
}

/// As [`visible`], and on one line: line breaks and tabs are misleading, too.
pub(crate) fn on_one_line(text: &str) -> String {
    visible(&text.replace(['\r', '\n', '\t'], " ")).into_owned()
}

/// The name of a file at the start of a line. Runners of workflows obey lines that begin with `::` (GitHub's documentation,
/// "Workflow commands for GitHub Actions"), and a file may be called so: then it goes by its other name, `./::...`.
pub(crate) fn name(path: &str) -> String {
    let name = on_one_line(path);
    if name.trim_start().starts_with("::") { format!("./{name}") } else { name }
}

/// JSON with every misleading sign in its strings as `\u001b`: the same value, and safe to look at.
///
/// # Errors
/// What `to` says; and if `value` has a map whose keys are no strings.
pub(crate) fn write_json(to: impl io::Write, value: &impl Serialize) -> serde_json::Result<()> {
    value.serialize(&mut serde_json::Serializer::with_formatter(to, VisibleJson))
}

/// As [`write_json`], into a string.
pub(crate) fn to_json(value: &impl Serialize) -> String {
    let mut bytes = Vec::new();
    // Memory takes all, and no value of ours has keys that are no strings.
    let _ = write_json(&mut bytes, value);
    String::from_utf8_lossy(&bytes).into_owned()
}

struct VisibleJson;

impl Formatter for VisibleJson {
    fn write_string_fragment<W: io::Write + ?Sized>(&mut self, to: &mut W, fragment: &str) -> io::Result<()> {
        let mut done = 0;
        for (at, nasty) in fragment.match_indices(misleads) {
            to.write_all(&fragment.as_bytes()[done..at])?;
            for unit in nasty.encode_utf16() {
                write!(to, "\\u{unit:04x}")?;
            }
            done = at + nasty.len();
        }
        to.write_all(&fragment.as_bytes()[done..])
    }
}

fn push(out: &mut String, sign: char) {
    if misleads(sign) {
        let _ = write!(out, "<U+{:04X}>", u32::from(sign));
    } else {
        out.push(sign);
    }
}

/// Where the places of an original text are in its visible text.
#[derive(Debug, Default)]
pub(crate) struct Shifts {
    /// Offsets in the original from which on both texts advance alike, and the offsets there in the visible text; in order.
    steps: Vec<(usize, usize)>,
}

/// The text of a file, in which only those lines are written out where something begins, made visible; and where the places of
/// the original are in it. `starts`: the bytes at which something begins.
///
/// The other lines are empty: nobody sees them, and they keep the numbers of those below; there are none below the last that is
/// seen. All lines end with `\n`. A byte-order mark is left out.
pub(crate) fn visible_lines(original: &str, lines: &LineIndex, starts: &[u32]) -> (String, Shifts) {
    let mut seen: Vec<u32> = starts.iter().map(|&start| lines.line(start)).collect();
    seen.sort_unstable();
    seen.dedup();
    let (mut text, mut shifts, mut done) = (String::new(), Shifts::default(), 0);
    for line in seen {
        text.extend(std::iter::repeat_n('\n', (line - done).to_usize()));
        let (begun, end) = lines.bounds(original, line);
        shifts.note(begun, text.len());
        let content = &original[begun..end];
        if is_plain(content) {
            text.push_str(content);
        } else {
            for (at, sign) in content.char_indices() {
                if sign != '\u{feff}' || begun + at > 0 {
                    push(&mut text, sign);
                }
                shifts.note(begun + at + sign.len_utf8(), text.len());
            }
        }
        if end < original.len() {
            text.push('\n');
        }
        done = line + 1;
    }
    (text, shifts)
}

impl Shifts {
    fn note(&mut self, original: usize, visible: usize) {
        let (from, to) = self.steps.last().copied().unwrap_or_default();
        if original - from != visible - to {
            self.steps.push((original, visible));
        }
    }

    /// The bytes of the visible `text` that show `span` of the original. They are within the text, whatever `span`
    /// is, and begin and end between two signs.
    pub(crate) fn place(&self, text: &str, span: Span) -> std::ops::Range<usize> {
        let start = self.offset(text, span.start);
        start..self.offset(text, span.end).max(start)
    }

    fn offset(&self, text: &str, original: u32) -> usize {
        let original = original.to_usize();
        let index = self.steps.partition_point(|(from, _)| *from <= original);
        let (from, to) = index.checked_sub(1).map_or((0, 0), |index| self.steps[index]);
        let offset = (to + original - from).min(text.len());
        (0..=offset).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_that_a_terminal_obeys_are_written_out() {
        let nasty = "\u{1b}]0;owned\u{7}\u{1b}[2J \u{202e}txet\u{2066} \u{9b}31m\u{7f}\u{feff}\u{e0041}";
        assert_eq!(
            visible(nasty),
            "<U+001B>]0;owned<U+0007><U+001B>[2J <U+202E>txet<U+2066> <U+009B>31m<U+007F><U+FEFF><U+E0041>"
        );
        assert_eq!(visible("tide \u{e9}\u{1f980}\tpool\n"), "tide \u{e9}\u{1f980}\tpool\n");
        assert_eq!(on_one_line("a\r\nb\tc"), "a  b c");
        assert_eq!(name("bands/a.knot"), "bands/a.knot");
        assert_eq!(name("::error::a\n.knot"), "./::error::a .knot", "no workflow command");
    }

    #[test]
    fn json_says_the_same_and_is_harmless() {
        let value = "\u{1b}[2J\u{202e}\u{7f}\u{e0041} \u{e9}";
        let json = to_json(&value);
        assert!(!json.contains(misleads), "{json}");
        assert_eq!(serde_json::from_str::<String>(&json).unwrap(), value);
    }

    #[test]
    fn places_hold_after_signs_that_grew() {
        let original = "\u{feff}a\u{1b}b\rc\r\n\u{202e}d\u{e9}e";
        let (text, shifts) = visible_lines(original, &LineIndex::new(original), &[0, 7, 10]);
        assert_eq!(text, "a<U+001B>b\nc\n<U+202E>d\u{e9}e");
        let shown = |sign: &str| {
            let at = original.find(sign).unwrap();
            &text[shifts.place(&text, Span::new(at, at + sign.len()))]
        };
        for letter in ["a", "b", "c", "d", "\u{e9}", "e"] {
            assert_eq!(shown(letter), letter);
        }
        assert_eq!(shown("\u{1b}"), "<U+001B>");
    }

    #[test]
    fn lines_in_which_nothing_begins_keep_their_numbers() {
        let original = "\u{feff}a\nb\u{1b}b\rc\u{e9}c\r\nd\n\n";
        let at = original.find('c').unwrap();
        let (text, shifts) = visible_lines(original, &LineIndex::new(original), &[at.to_u32()]);
        assert_eq!(text, "\n\nc\u{e9}c\n");
        let whole = shifts.place(&text, Span::new(at, original.len()));
        assert_eq!(&text[whole], "c\u{e9}c\n", "what begins in a line may end in another one");
    }

    #[test]
    fn a_place_beyond_the_text_is_its_end() {
        let (text, shifts) = visible_lines("\u{e9}", &LineIndex::new("\u{e9}"), &[0]);
        assert_eq!(shifts.place(&text, Span::new(90, 95)), 2..2);
        assert_eq!(shifts.place(&text, Span::new(1, 2)), 0..2, "within a letter: its start");
    }
}
