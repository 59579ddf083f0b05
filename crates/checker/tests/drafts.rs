//! After any edits a version that was moved along says what a fresh check says: of files that stand alone, and of files
//! that use others which are edited too.

mod support;

use knotwright_checker::{
    Analysis, Draft, Finding, GivenUp, Library, Listener, OpenError, Report, Settings, Severity, Source,
    check, rules,
};
use knotwright_grammar::Splice;
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use std::cell::RefCell;
use std::ops::Range;
use std::sync::Arc;
use support::{Shared, samples};

/// What is written instead of what, at one of its places.
const REPLACED: &[(&str, &str)] = &[
    ("forward 1", "forward 2"),
    ("forward 2", "forward 1"),
    ("forward", "backward"),
    ("backward", "forward"),
    ("left 1", "left 2"),
    ("left 2", "left 1"),
    ("left", "right"),
    ("right", "left"),
    ("to edge", "to left 1"),
    ("1", "2"),
    ("2", "1"),
    ("3", "2 + 1"),
    ("4", "3"),
    (" ", "  "),
    ("\n", "\n\n"),
    ("\n", " -- as the tide turns\n"),
    ("\n", " -- allow uneven-use: cut longer\n"),
    ("\n", "\nthread"),
    ("\n", "\n    take left 1: forward 0\n"),
    ("\n", "\n  meet center\n"),
    ("\n", "\n  note \"now\"\n"),
    ("repeat 2", "repeat 1"),
    ("repeat 4", "repeat 2"),
    ("expect", "-- expect"),
    ("{", "{ "),
    ("}", ""),
    ("#", "#e"),
    ("\\", "/"),
    (".", "\\"),
    ("set {", "set {\n  section \"a\" {\n    meet center\n  }"),
    ("set {", "closing {\n  take left 1: forward 1\n}\nset {"),
    ("set", "sett"),
    ("pattern", "pater"),
    ("strands", "strands 2"),
    ("lightpink", "firebrick"),
    ("#", "#1"),
];

/// Replaces one of the places of something, or takes it back.
#[derive(Debug, Clone)]
enum Edit {
    Replace(usize, prop::sample::Index),
    Delete(prop::sample::Index, usize),
    Copy(prop::sample::Index, prop::sample::Index),
    Undo,
}

fn edit() -> impl Strategy<Value = Edit> {
    let index = any::<prop::sample::Index>;
    prop_oneof![
        8 => (0..REPLACED.len(), index()).prop_map(|(what, at)| Edit::Replace(what, at)),
        1 => (index(), 1..6usize).prop_map(|(at, bytes)| Edit::Delete(at, bytes)),
        1 => (index(), index()).prop_map(|(from, to)| Edit::Copy(from, to)),
        2 => Just(Edit::Undo),
    ]
}

/// The text after an edit, and where that was.
fn edited(text: &str, undo: &str, edit: &Edit) -> (String, Splice) {
    match edit {
        Edit::Replace(what, at) => {
            let (old, new) = REPLACED[*what];
            let places: Vec<usize> = text.match_indices(old).map(|(at, _)| at).collect();
            if places.is_empty() {
                return replaced(text, 0..0, "");
            }
            let at = places[at.index(places.len())];
            replaced(text, at..at + old.len(), new)
        }
        Edit::Delete(at, characters) => {
            let places: Vec<usize> = text.char_indices().map(|(at, _)| at).chain([text.len()]).collect();
            let first = at.index(places.len());
            let last = (first + characters).min(places.len() - 1);
            replaced(text, places[first]..places[last], "")
        }
        Edit::Copy(from, to) => {
            let lines: Vec<&str> = text.split_inclusive('\n').collect();
            let Some(line) = lines.get(from.index(lines.len().max(1))) else {
                return replaced(text, 0..0, "");
            };
            let at = lines[..to.index(lines.len())].iter().map(|line| line.len()).sum();
            replaced(text, at..at, line)
        }
        Edit::Undo => replaced(text, 0..text.len(), undo),
    }
}

fn replaced(text: &str, place: Range<usize>, put: &str) -> (String, Splice) {
    let Range { start, end } = place;
    let splice = Splice { start, old_end: end, new_end: start + put.len() };
    (format!("{}{put}{}", &text[..start], &text[end..]), splice)
}

/// Those that are right, and the example of each warning.
fn texts() -> Vec<(String, String)> {
    let short = short_texts();
    let long = short.iter().filter_map(|(path, text)| Some((path.clone(), longer(path, text)?)));
    long.chain(short.iter().cloned()).collect()
}

/// A set so long that not all of it is tied again; `None` if that is wrong.
fn longer(path: &str, text: &str) -> Option<String> {
    let (head, rest) = text.split_once("set {\n")?;
    let (body, tail) = rest.split_once("\n}\n")?;
    let times = 1 + 60 / body.lines().count();
    let text = format!("{head}set {{\n{}}}\n{tail}", format!("{body}\n").repeat(times));
    let is_right = !checked(path, &text).findings.iter().any(|finding| finding.severity == Severity::Error);
    is_right.then_some(text)
}

fn short_texts() -> Vec<(String, String)> {
    let warnings = rules::all().iter().filter(|rule| rule.severity == Severity::Warning);
    let examples = warnings.map(|rule| (format!("{}.knot", rule.name), rule.example.to_owned()));
    samples().into_iter().chain(examples).collect()
}

fn checked(path: &str, text: &str) -> Report {
    check(Arc::new(Source::new(path, text)), &Shared, &Settings::default())
}

/// A file that is edited, and whatever is known of it.
struct Edited {
    path: String,
    draft: Draft,
    before: String,
}

impl Edited {
    fn new(path: &str, text: String) -> Self {
        let draft = Draft::new(Arc::new(Source::new(path, text.as_str())));
        Self { path: path.to_owned(), draft, before: text }
    }

    fn text(&self) -> &str {
        &self.draft.source().text
    }

    fn edit(&mut self, edit: &Edit) {
        let before = self.text().to_owned();
        let (text, splice) = edited(&before, &self.before, edit);
        self.draft = std::mem::replace(&mut self.draft, nothing()).edited(splice, text.as_str().into()).0;
        assert_eq!(self.text(), text);
        self.before = before;
    }

    /// Analyzes it as it is, and compares that with a fresh check.
    fn compare(&mut self, library: &dyn Library, has_looked: bool) -> Result<(), TestCaseError> {
        let settings = Settings::default();
        let heard = RefCell::new(Vec::new());
        let listener = Listener { settings: &settings, hear: &|findings| heard.borrow_mut().push(findings) };
        let analysis = self.draft.analyze_unless(&GivenUp::NEVER, library, Some(listener));
        let (analysis, heard): (Analysis, _) = (analysis.expect("somebody waits"), heard.into_inner());
        prop_assert!(heard.len() <= 1, "{heard:?}");
        let fresh = check(Arc::new(Source::new(self.path.as_str(), self.text())), library, &settings);
        prop_assert!(analysis.pattern() == fresh.pattern.as_ref(), "{:?}", self.text());
        if has_looked {
            let (first, all) = (
                analysis.first_findings_unless(&GivenUp::NEVER, &settings).unwrap(),
                without_mends(&fresh.findings),
            );
            let first_is_all = first.is_all;
            let first = without_mends(&first.findings);
            // A finding that is shown at once never vanishes, but may get a note.
            let is_there = |found: &Finding| all.iter().any(|other| is_same(found, other));
            prop_assert!(first.iter().all(is_there), "{:?}", self.text());
            // What is told while it is tied is among what is shown at once.
            let is_shown = |told: &Finding| {
                without_mends(std::slice::from_ref(told)).iter().all(|told| first.contains(told))
            };
            prop_assert!(heard.iter().flatten().all(is_shown), "{:?} {heard:?} {first:?}", self.text());
            prop_assert!(!first_is_all || first == all, "{:?}", self.text());
            prop_assert_eq!(&analysis.findings(library, &settings), &fresh.findings, "{:?}", self.text());
        }
        self.draft = std::mem::replace(&mut self.draft, nothing()).after(analysis);
        Ok(())
    }
}

fn nothing() -> Draft {
    Draft::new(Arc::new(Source::new("", "")))
}

fn is_same(first: &Finding, other: &Finding) -> bool {
    first.notes.iter().all(|note| other.notes.contains(note))
        && *first == Finding { notes: first.notes.clone(), ..other.clone() }
}

fn without_mends(findings: &[Finding]) -> Vec<Finding> {
    findings.iter().map(|finding| Finding { mends: Vec::new(), ..finding.clone() }).collect()
}

/// What is done after an edit.
#[derive(Debug, Clone, Copy)]
enum Then {
    /// The next one comes at once.
    Edit,
    /// Somebody asks how it ties.
    Tie,
    /// Somebody asks what is found.
    Find,
}

fn then() -> impl Strategy<Value = Then> {
    prop_oneof![1 => Just(Then::Edit), 1 => Just(Then::Tie), 4 => Just(Then::Find)]
}

/// A library of motifs that somebody edits.
struct Beside(Arc<Source>);

impl Library for Beside {
    fn open(&self, from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        if path == "motifs.knot" { Ok(Arc::clone(&self.0)) } else { Shared.open(from, path) }
    }
}

const MOTIFS: &str = "pattern \"Motifs\"\n\nmotif turn(size) {\n  take left 1: forward size\n}\n\
                      motif wave() {\n  both { take left 1: forward-backward 1 }\n  take center left: forward-backward 1\n}\n";

/// A set so long that not all of it is tied again if it stands alone.
fn user() -> String {
    let line = "  work turn(3)\n  take left 1: forward 3\n  work wave()\n  work wave() mirrored\n";
    format!(
        "pattern \"User\"\nthread kelp green\nthread foam white\nuse turn, wave from \"motifs.knot\"\n\
         strands 2 kelp 2 foam\nset {{\n{}}}\n",
        line.repeat(12)
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 250, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_edits_one_after_another(
        (path, start) in prop::sample::select(texts()), edits in prop::collection::vec((edit(), then()), 1..8),
    ) {
        let mut file = Edited::new(&path, start);
        file.compare(&Shared, true)?;
        for (edit, then) in edits {
            file.edit(&edit);
            match then {
                Then::Edit => {}
                Then::Tie => file.compare(&Shared, false)?,
                Then::Find => file.compare(&Shared, true)?,
            }
        }
        file.compare(&Shared, true)?;
    }

    /// An edit of the file, or of the one that it uses.
    #[test]
    fn any_edits_of_files_that_use_one_another(
        edits in prop::collection::vec((any::<bool>(), edit(), then()), 1..8),
    ) {
        let (mut user, mut used) = (Edited::new("user.knot", user()), Edited::new("motifs.knot", MOTIFS.to_owned()));
        let library = Beside(Arc::clone(used.draft.source()));
        let is_right = |finding: &Finding| finding.severity == Severity::Warning;
        prop_assert!(user.draft.analyze(&library).findings(&library, &Settings::default()).iter().all(is_right));
        user.compare(&library, true)?;
        for (is_used, edit, then) in edits {
            if is_used { used.edit(&edit) } else { user.edit(&edit) }
            let library = Beside(Arc::clone(used.draft.source()));
            match then {
                Then::Edit => {}
                Then::Tie => user.compare(&library, false)?,
                Then::Find => {
                    user.compare(&library, true)?;
                    used.compare(&library, true)?;
                }
            }
        }
    }
}

/// A version that is still read goes on as a copy, and what is read stays as it was.
#[test]
fn a_version_that_is_still_read_stays_as_it_was() {
    let text = user()
        .replace("use turn, wave from \"motifs.knot\"\n", "")
        .replace("  work turn(3)\n", "")
        .replace("  work wave()\n  work wave() mirrored\n", "  take left 1: forward 3\n");
    let draft = Draft::new(Arc::new(Source::new("band.knot", text.as_str())));
    let analysis = draft.analyze(&Shared);
    let (next, splice) = replaced(&text, text.len() - 2..text.len() - 2, "  meet center\n");
    let copy = draft.clone().after(analysis.clone()).edited(splice, next.as_str().into()).0;
    let settings = Settings::default();
    for (analysis, text) in [(copy.analyze(&Shared), next), (analysis, text)] {
        let fresh = checked("band.knot", &text);
        assert!(analysis.pattern() == fresh.pattern.as_ref());
        assert_eq!(analysis.findings(&Shared, &settings), fresh.findings);
    }
}

/// The findings of a text that was edited from another.
fn again(before: &str, text: &str) -> Report {
    let draft = Draft::new(Arc::new(Source::new("band.knot", before)));
    let analysis = draft.analyze(&Shared);
    analysis.findings(&Shared, &Settings::default());
    let splice = Splice::between(before, text, 0).expect("an edit");
    let (next, _) = draft.after(analysis).edited(splice, text.into());
    next.analyze(&Shared).report(&Shared, &Settings::default())
}

const HOLE: &str = "pattern \"A\"\nthread shell white\nthread foam ivory\nthread pitch black\nstrands shell foam pitch foam\n\
                    set {\n  take left 1: forward 2\n  take left 3: forward 1\n  take left 3: forward 1\n  take left 2: forward 1\n}\n";

#[test]
fn what_the_band_shows_moves_along_with_its_steps() {
    let looked = checked("band.knot", HOLE);
    let touch = |report: &Report| {
        let found =
            report.findings.iter().find(|finding| finding.rule.name == "look-alike-neighbors").cloned();
        found.expect("two colors are alike")
    };
    let (before, now) = (touch(&looked), touch(&again(HOLE, &HOLE.replace("set {\n", "set {\n\n\n"))));
    assert_eq!(before.place, now.place, "the color stands above the edit");
    assert_eq!(before.notes[0].place.span.start + 2, now.notes[0].place.span.start, "the step stands below");
}

/// What a rule says of the head changes with the head, though the knots are the same.
#[test]
fn an_edit_of_the_head_is_seen() {
    let text = HOLE.replace("foam ivory", "foam navy");
    let alike =
        |report: &Report| report.findings.iter().any(|finding| finding.rule.name == "look-alike-neighbors");
    assert!(alike(&checked("band.knot", HOLE)));
    assert!(!alike(&again(HOLE, &text)));
    assert!(alike(&again(&text, HOLE)));
    assert!(!alike(&again(HOLE, &text.replace("shell white", "shell orange"))));
}

/// As many knots by as many steps, but elsewhere.
#[test]
fn another_band_is_looked_at_again() {
    let whole = "pattern \"A\"\nthread kelp #1f5d50\nstrands 4 kelp\n\
                 set {\n  take left 1: forward 1\n  take left 3: forward 1\n  take left 2: forward 1\n}\n";
    let idle = whole.replace("left 3", "left 1");
    let is_idle = |report: &Report| report.findings.iter().any(|finding| finding.rule.name == "idle-strand");
    assert!(!is_idle(&again(&idle, whole)));
    assert!(is_idle(&again(whole, &idle)));
}

/// What is wrong with the tie may follow from a label that nothing gives: then it is not shown at once to vanish again.
#[test]
fn what_may_follow_from_a_missing_label_waits() {
    let text = "pattern \"Sample\"\nthread foam white\nthread kelp #1f5d50\nstrands kelp foam\nset {\n  meet center\n  \
                take place: forward 1\n}\n";
    let mut file = Edited::new("label.knot", text.into());
    file.compare(&Shared, true).unwrap();
    let report = checked("label.knot", text);
    let [found] = &report.findings[..] else { panic!("{:#?}", report.findings) };
    assert_eq!(found.rule.name, "unknown-name");
    assert_eq!(found.notes[0].text, "what follows from it (1 more) begins here");
}

/// A name that is wrong where it is fetched makes every call of it wrong, too; once that is known, nothing else is said.
#[test]
fn what_a_wrong_name_led_to_is_not_said_at_first_either() {
    let library = Beside(Arc::new(Source::new("motifs.knot", MOTIFS)));
    let text = user().replace("use turn, wave from", "use turn, ave from");
    let analysis = Draft::new(Arc::new(Source::new("user.knot", text.as_str()))).analyze(&library);
    let first = analysis.first_findings_unless(&GivenUp::NEVER, &Settings::default()).unwrap();
    let all = analysis.findings(&library, &Settings::default());
    assert_eq!(all.iter().map(|finding| finding.rule.name).collect::<Vec<_>>(), ["import-lacks-motif"]);
    // Nor is it pointed out at the very same word.
    assert!(all[0].notes.iter().all(|note| note.place != all[0].place), "{:#?}", all[0].notes);
    assert!(first.findings.is_empty() && !first.is_all, "{:?}", first.findings);
}

/// Where a name is given and never called is only seen in the whole file, and so is where it is called again.
#[test]
fn a_misspelled_name_is_the_same_after_an_edit() {
    let mut tried = 0;
    for (name, text) in texts() {
        let called = text.match_indices([')', ':']).map(|(at, _)| at);
        let given =
            text.match_indices(" as ").map(|(at, _)| at + 4 + text[at + 4..].find([':', ' ']).unwrap_or(0));
        for at in called.step_by(9).chain(given) {
            if !text[..at].ends_with(|sign: char| sign.is_ascii_lowercase()) {
                continue;
            }
            let slip = format!("{}s{}", &text[..at], &text[at..]);
            assert_eq!(again(&text, &slip).findings, checked(&name, &slip).findings, "{name}: {slip}");
            tried += 1;
        }
    }
    assert!(tried > 40, "{tried}");
}
