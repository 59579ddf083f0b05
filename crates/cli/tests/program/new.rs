//! `new`, `completions`, `man`.

use crate::stage::Stage;

#[test]
fn a_new_pattern_is_clean_and_written_the_usual_way() {
    let stage = Stage::with(&[]);
    let said = stage.run(&["new", "harbor-lights.knot"]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    assert!(stage.read("harbor-lights.knot").contains("pattern \"Harbor lights\""));
    let said = stage.run(&["check", "--deny", "warnings", "harbor-lights.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    assert_eq!(stage.run(&["format", "--check", "harbor-lights.knot"]).code, 0);
}

#[test]
fn a_band_of_letters_begins_with_the_strands_that_it_needs() {
    let stage = Stage::with(&[]);
    for (text, strands) in [("AHOY", 7), ("Ebb \"1\"", 7), ("gull", 8), ("\u{c5}land \\", 7), ("LETTERS", 7)]
    {
        let said = stage.run(&["new", "--letters", text, "--title", "LETTERS", "-"]);
        assert_eq!(said.code, 0, "{said:?}");
        assert!(said.out.contains(&format!("strands night {strands} foam")), "{text}: {}", said.out);
        let checked = stage.run_with_input(&["check", "--deny", "warnings", "-"], &said.out);
        assert_eq!(checked.code, 0, "{text}: {checked:?}");
        let formatted = stage.run_with_input(&["format", "-"], &said.out);
        assert_eq!(formatted.out, said.out);
    }
    for text in ["", "  ", "{", "a\nb", "\u{1f30a}", &"a".repeat(40)] {
        let said = stage.run(&["new", "--letters", text, "a.knot"]);
        assert_eq!((said.code, said.err.lines().count()), (2, 1), "{said:?}");
    }
    assert!(stage.names().is_empty());
}

#[test]
fn nothing_is_written_over() {
    let stage = Stage::with(&[("a.knot", "mine")]);
    let said = stage.run(&["new", "a.knot"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("a.knot: a file of that name already exists"), "{}", said.err);
    assert_eq!(stage.read("a.knot"), "mine");
    assert_eq!(stage.run(&["new", "no/such/folder.knot"]).code, 2);
}

#[test]
fn a_pattern_file_ends_in_knot() {
    let stage = Stage::with(&[]);
    let said = stage.run(&["new", "harbor"]);
    assert!(said.code == 0 && said.err.starts_with("wrote harbor.knot"), "{said:?}");
    assert_eq!(stage.run(&["new", "harbor"]).code, 2, "it is there now");
    assert_eq!(stage.run(&["new", "harbor.txt"]).code, 2);
    assert_eq!(stage.names(), ["harbor.knot"]);
}

#[test]
fn a_title_is_kept_to_the_letter_or_refused() {
    let stage = Stage::with(&[]);
    let said = stage.run(&["new", "--title", "The \"tall\" \\ tide", "-"]);
    assert!(said.out.contains(r#"pattern "The \"tall\" \\ tide""#), "{}", said.out);
    assert_eq!(stage.run_with_input(&["check", "-"], &said.out).code, 0);
    for title in ["{", "a\nb", "\u{1b}[2J"] {
        assert_eq!(stage.run(&["new", "--title", title, "a.knot"]).code, 2);
    }
    assert!(stage.names().is_empty());
}

#[test]
fn shells_and_the_manual_know_every_command() {
    let stage = Stage::with(&[]);
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let said = stage.run(&["completions", shell]);
        assert!(said.code == 0 && said.out.contains("explain"), "{shell}: {said:?}");
    }
    let page = stage.run(&["man"]);
    assert!(
        page.out.contains(".TH knotwright 1") && page.out.contains("knotwright\\-check(1)"),
        "{}",
        page.out
    );
    let page = stage.run(&["man", "check"]);
    assert!(page.out.contains(".TH knotwright-check 1") && page.out.contains("deny"), "{}", page.out);
    assert_eq!(stage.run(&["man", "tie"]).code, 2);
}
