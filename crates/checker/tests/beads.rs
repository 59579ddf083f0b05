//! Beads: who they are on, what is wrong with them, and that they change no knot.

use knotwright_checker::{
    Library, Named, NoLibrary, OpenError, PartKind, Pattern, Report, Settings, Severity, Source, check,
};
use std::sync::Arc;

fn text(beads: &str, set: &str) -> String {
    format!(
        "pattern \"Tide pool\"\nthread kelp teal\nthread foam white\n{beads}\nstrands kelp foam | mirror\n\
         gauge {{ thickness 0.5 mm }}\nset {{\n{set}\n}}\n"
    )
}

fn read(beads: &str, set: &str) -> Report {
    check(Arc::new(Source::new("pool.knot", text(beads, set))), &NoLibrary, &Settings::default())
}

const PEARL: &str = "bead pearl #f4efe6 2 mm hole 1.5 mm";

fn pattern(set: &str) -> Pattern {
    let report = read(PEARL, set);
    let errors: Vec<&String> = report
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Error)
        .map(|finding| &finding.message)
        .collect();
    assert!(errors.is_empty(), "{set}: {errors:?}");
    report.pattern.unwrap()
}

/// By bead: how many knots are tied before it, and the positions of its strands, from 1.
fn threaded(set: &str) -> Vec<(u32, Vec<u8>)> {
    let pattern = pattern(set);
    let beads = pattern.set.as_ref().unwrap().beads();
    beads.map(|at| (at.before, (at.position + 1..=at.position + at.strands).collect())).collect()
}

/// What is said first of the errors.
fn error(beads: &str, set: &str) -> String {
    let report = read(beads, set);
    let errors = report.findings.iter().filter(|finding| finding.severity == Severity::Error);
    errors.map(|finding| finding.message.clone()).next().unwrap_or_default()
}

#[test]
fn a_bead_is_on_the_strand_where_it_hangs() {
    assert_eq!(threaded("take left 1: forward 2\nbead pearl on left 3"), [(2, vec![3])]);
    assert_eq!(threaded("take left 1 as crest: forward 2\nbead pearl on crest"), [(2, vec![3])]);
    assert_eq!(threaded("bead pearl on foam 2 from left"), [(0, vec![3])]);
    assert_eq!(threaded("bead pearl on center right, center left\nmeet center"), [(0, vec![2, 3])]);
    assert_eq!(threaded("on right 3 { bead pearl on left 1 }"), [(0, vec![2])]);
    assert_eq!(
        threaded("repeat 2 {\ntake left 1: forward 1\nbead pearl on left 1\n}"),
        [(1, vec![1]), (2, vec![1])]
    );
}

#[test]
fn in_a_mirror_left_is_right() {
    assert_eq!(threaded("both { bead pearl on left 1 }"), [(0, vec![1]), (0, vec![4])]);
    assert_eq!(threaded("mirrored { bead pearl on left 1, left 2 }"), [(0, vec![3, 4])]);
    let motif = "}\nmotif rim(n) {\nbead pearl on left n\n}\nopening {\nwork rim(2) mirrored";
    let pattern = pattern(&format!("take left 1: forward 3\nbead pearl on left 1\n{motif}"));
    let positions = |kind| pattern.part(kind).unwrap().beads().map(|at| at.position).collect::<Vec<_>>();
    assert_eq!((positions(PartKind::Opening), positions(PartKind::Set)), (vec![2], vec![0]));
}

#[test]
fn no_bead_changes_a_knot_or_the_face() {
    let tied = "take left 1: forward 3\nBEAD\nboth { take left 1: forward 1 }\nBEAD";
    let with = pattern(&tied.replace("BEAD", "bead pearl on left 1, left 2\nbead pearl on right 1"));
    let without = pattern(&tied.replace("BEAD", ""));
    let piece = |pattern: &Pattern| pattern.set.as_ref().unwrap().piece.clone();
    assert_eq!(piece(&with), piece(&without));
    // A face is compared with the knots, and the beads lie over them.
    let face = "face k kelp, f foam {\nk f\nf\n}\nrows {\n\\ /\n\\\n}";
    let kept = |set: &str| {
        let report = read(PEARL, set);
        let about = report.findings.iter().filter(|finding| finding.rule.name.starts_with("face"));
        about.map(|finding| finding.message.clone()).collect::<Vec<_>>()
    };
    let beads = "bead pearl on left 1\nbead pearl on center left, center right\n";
    assert_eq!(kept(face), kept(&format!("{beads}{face}\n{beads}")));
}

#[test]
fn a_bead_that_is_not_there_is_looked_for_among_those_that_are() {
    let report = read(PEARL, "bead perl on left 1\ntake left 1: forward 3");
    let finding = report.findings.iter().find(|finding| finding.severity == Severity::Error).unwrap();
    assert_eq!(finding.message, "No bead is called `perl`.");
    assert_eq!(finding.help.as_deref(), Some("Did you mean `pearl`?"));
    assert_eq!(finding.mends[0].title, "write `pearl`");
    assert!(error("", "bead pearl on left 1").starts_with("No bead is called `pearl`."));
    // A thread is no bead, and may be called like one.
    assert!(error(PEARL, "bead kelp on left 1").starts_with("No bead is called `kelp`."));
    assert_eq!(error("thread pearl white\nbead pearl white 2 mm hole 1.5 mm", "bead pearl on left 1"), "");
}

#[test]
fn a_strand_that_is_not_there_is_said() {
    assert!(error(PEARL, "bead pearl on left 9").starts_with("There is no ninth strand from the left"));
    assert!(!error(PEARL, "bead pearl on center").is_empty(), "four strands have no middle one");
    // What comes after it is tied as if it were not there.
    let report = read(PEARL, "bead pearl on left 9\ntake left 1: forward 3\nexpect 2 foam 2 kelp");
    assert!(!report.findings.iter().any(|finding| finding.rule.name == "expect-fails"));
}

#[test]
fn sizes_that_no_bead_has_are_refused() {
    for (bead, said) in [
        ("bead pearl white 0 mm hole 1 mm", "`bead` is zero"),
        ("bead pearl white 4 mm hole 0 mm", "`hole` is zero"),
        ("bead pearl white 9 m hole 1 mm", "`bead` cannot be"),
        ("bead pearl white 999999999 m hole 1 mm", "`bead` cannot be"),
        ("bead pearl white 4 mm hole 4 mm", "The hole is 4 mm wide, and the bead itself only 4 mm."),
        ("bead pearl whyte 4 mm hole 1.5 mm", "whyte"),
        ("bead pearl white 4 mm hole 1.5 mm\nbead pearl white 4 mm hole 1.5 mm", "`pearl`"),
    ] {
        let found = error(bead, "bead pearl on left 1\ntake left 1: forward 3");
        assert!(found.contains(said), "{bead}: {found}");
    }
}

#[test]
fn two_hundred_beads_and_none_are_the_same_to_a_draft() {
    // Of every bead there is a step, and it ties nothing.
    let pattern = pattern("repeat 200 { bead pearl on left 1 }\ntake left 1: forward 3");
    let set = pattern.set.as_ref().unwrap();
    assert_eq!(set.beads().count(), 200);
    assert!(set.beads().all(|at| at.before == 0));
    assert!(set.steps.iter().all(|step| matches!(step.named, Named::Bead { .. }) == step.knots.is_empty()));
}

struct Shelf(Arc<Source>);

impl Library for Shelf {
    fn open(&self, _: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        if path == "rims.knot" { Ok(Arc::clone(&self.0)) } else { Err(OpenError::Missing) }
    }
}

#[test]
fn a_motif_of_another_file_cannot_bring_its_beads() {
    let rims = "pattern \"Rims\"\nbead drop white 2 mm hole 1.5 mm\nmotif rim() {\nbead drop on left 1\n}\n";
    let shelf = Shelf(Arc::new(Source::new("rims.knot", rims)));
    let used = text("use rim from \"rims.knot\"", "work rim()\ntake left 1: forward 3");
    let report = check(Arc::new(Source::new("pool.knot", used)), &shelf, &Settings::default());
    let said: Vec<&String> = report.findings.iter().map(|finding| &finding.message).collect();
    assert!(
        said.iter().any(|said| said.starts_with("The motif `rim` threads drop, a bead of its own file")),
        "{said:?}"
    );
}

#[test]
fn at_the_tip_nothing_holds_a_bead() {
    let ends = |end: &str| error(&format!("{PEARL}\n{end}"), "take left 1: forward 3");
    let slips = "Nothing holds this bead: it slips off at the tip.";
    assert_eq!(ends("finish { bead pearl }"), slips);
    assert_eq!(ends("finish {\nknot\nbead pearl\ntassel 2 cm\n}"), slips);
    assert_eq!(ends("begin {\ntassel 2 cm\nbead pearl\nknot\n}"), slips);
    assert_eq!(ends("finish {\nbead pearl\nknot\ntassel 2 cm\n}"), "");
    assert_eq!(ends("begin {\nknot\nbead pearl\n}"), "");
    assert_eq!(ends("finish {\nsplit 2 {\nbead pearl\nknot\n}\n}"), "");
    assert!(ends("finish {\nbead perl\nknot\n}").starts_with("No bead is called `perl`."));
}
