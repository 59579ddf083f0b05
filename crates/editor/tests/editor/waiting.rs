//! Nobody waits for mends who does not ask for them.

use crate::support::{Files, HEAD};
use knotwright_checker::{Draft, GivenUp, Library, OpenError, Settings, Source};
use knotwright_editor::{
    Checked, HintOptions, WaitedFor, World, completion, hover, inlay_hints, semantic_tokens,
};
use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};

/// Some files. Once it has somebody to tell, whoever asks for one tells them, and waits until they say go: so does the
/// proof of a mend.
struct Gate {
    files: Files,
    waiting: Mutex<Option<Sender<()>>>,
    go: Mutex<Receiver<()>>,
}

impl Library for Gate {
    fn open(&self, from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        if let Some(waiting) = self.waiting.lock().unwrap().take() {
            waiting.send(()).unwrap();
            self.go.lock().unwrap().recv().unwrap();
        }
        self.files.open(from, path)
    }
}

/// If anything here waited for the mend, it would wait for ever, as the mend waits for it.
#[test]
fn hovers_proposals_and_findings_come_while_a_mend_is_sought() {
    let files =
        Files::new(&[("fans.knot", "pattern \"Fans\"\nmotif turn() {\n  take left 1: forward 2\n}\n")]);
    let ((go, wait), (tell, shown)) = (channel(), channel());
    let gate = Gate { files, waiting: Mutex::default(), go: Mutex::new(wait) };
    let text = format!(
        "{HEAD}use turn from \"fans.knot\"\nset {{\n  work turn()\n  take left 1 (klep): forward 3\n}}\n"
    );
    let source = Arc::new(Source::new("band.knot", text.as_str()));
    let checked = Checked::new(source, &gate, &Settings::default());
    *gate.waiting.lock().unwrap() = Some(tell);
    std::thread::scope(|scope| {
        let mended = scope.spawn(|| {
            let findings = checked.findings_with_mends(&gate);
            gate.waiting.lock().unwrap().take();
            findings.iter().any(|finding| !finding.mends.is_empty())
        });
        shown.recv().expect("a mend that is proved with the other file");
        let at = text.find("forward 3").unwrap().to_u32();
        let world = World {
            files: &[],
            library: &gate.files,
            is_wanted: &|| true,
            onlooker: &knotwright_editor::Nobody,
        };
        assert!(hover(&checked, at).is_some());
        assert!(!completion(&checked, &world, at).is_empty());
        assert!(!semantic_tokens(checked.source()).is_empty());
        inlay_hints(&checked, Span::new(0, text.len()), HintOptions { orders: true, extents: true });
        let found = checked.findings(&gate.files);
        assert!(found.iter().any(|finding| finding.rule.name == "unknown-name"), "{found:?}");
        go.send(()).unwrap();
        assert!(mended.join().unwrap());
    });
}

#[test]
fn nobody_looks_for_mends_of_a_version_that_was_given_up() {
    let text =
        format!("{HEAD}set {{\n  take left 1 (sand): forward 3\n  take left 1 (sand): forward 3\n}}\n");
    let files = Files::new(&[]);
    let draft = Draft::new(Arc::new(Source::new("band.knot", text.as_str())));
    let waited_for = WaitedFor { mends_given_up: GivenUp::when(|| true), ..WaitedFor::default() };
    let checked = Checked::while_waited_for(waited_for, &draft, &files, &Settings::default(), None);
    let checked = checked.expect("it is tied all the same");
    let found = checked.findings_with_mends(&files);
    assert!(!found.is_empty() && found.iter().all(|finding| finding.mends.is_empty()), "{found:?}");
}

/// Set when it was asked that many times.
fn after(asked: u32) -> GivenUp {
    let left = AtomicU32::new(asked);
    GivenUp::when(move || {
        left.fetch_update(Ordering::Relaxed, Ordering::Relaxed, |left| left.checked_sub(1)).is_err()
    })
}

#[test]
fn what_nobody_waits_for_is_left_unfinished_and_found_out_by_the_next_who_asks() {
    let body = "repeat 20000 {\n    take left 1: forward 3\n    take right 1: backward 3\n  }";
    let draft =
        Draft::new(Arc::new(Source::new("band.knot", format!("{HEAD}set {{\n  {body}\n}}\n").as_str())));
    let (files, settings) = (Files::new(&[]), Settings::default());
    let ask = |waited_for| Checked::while_waited_for(waited_for, &draft, &files, &settings, None);
    assert!(ask(WaitedFor { given_up: after(3), ..WaitedFor::default() }).is_none(), "while it is tied");
    let asked = std::sync::Arc::new(AtomicU32::new(0));
    let counted = Arc::clone(&asked);
    let given_up = GivenUp::when(move || {
        counted.fetch_add(1, Ordering::Relaxed);
        false
    });
    let checked = ask(WaitedFor { given_up, ..WaitedFor::default() }).expect("somebody waits");
    assert!(checked.pattern().is_some());
    let while_tied = asked.load(Ordering::Relaxed);
    assert!(while_tied > 50, "asked {while_tied} times");
    let (first, is_all) = checked.findings_so_far();
    assert!(!first.is_empty() && is_all);
    assert!(asked.load(Ordering::Relaxed) > while_tied, "the band is looked through while somebody waits");
}
