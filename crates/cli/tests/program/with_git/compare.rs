//! `compare --against`: a file and what was committed of it.

use super::{LIBRARY, commit, git, user, with_a_turn};
use crate::stage::{GOOD, Stage};

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_file_is_compared_with_what_was_committed() {
    let stage = Stage::with(&[("bands/a.knot", GOOD)]);
    git(&stage, &["init", "--quiet"]);
    commit(&stage);
    let same = stage.run(&["compare", "bands/a.knot", "--against", "HEAD"]);
    assert_eq!(
        (same.code, same.out.as_str()),
        (0, "bands/a.knot (HEAD) and bands/a.knot are the same band.\n")
    );
    stage.write("bands/a.knot", GOOD.replacen("forward 3", "forward 2", 1).replace("  expect start\n", ""));
    let other = stage.run(&["compare", "bands/a.knot", "--against", "HEAD"]);
    assert_eq!(other.code, 1);
    assert!(other.out.contains("set: "), "{}", other.out);
    for (revision, message) in [
        ("none-such", "git knows no revision `none-such`"),
        ("--output=x", "not a revision"),
        ("HEAD:bands", "is not a revision"),
        ("$(touch x)", "is not a revision"),
    ] {
        let said = stage.run(&["compare", "bands/a.knot", &format!("--against={revision}")]);
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{said:?}");
        assert!(said.err.contains(message), "{said:?}");
    }
    let in_hook =
        stage.command(&["compare", "bands/a.knot", "--against", "HEAD"]).env("GIT_DIR", ".git").output();
    assert_eq!(in_hook.unwrap().status.code(), Some(1), "compared, and not the same");
    stage.write("bands/b.knot", GOOD);
    let said = stage.run(&["compare", "bands/b.knot", "--against", "HEAD"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("this file does not exist in `HEAD`"), "{said:?}");
    assert!(!stage.names().contains(&"x".to_owned()));
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn libraries_and_settings_are_those_of_then() {
    let band = user("../motifs/tide.knot");
    let stage = Stage::with(&[("bands/a.knot", &band), ("motifs/tide.knot", LIBRARY)]);
    git(&stage, &["init", "--quiet"]);
    commit(&stage);
    stage.write("motifs/tide.knot", with_a_turn(LIBRARY));
    let said = stage.run(&["compare", "bands/a.knot", "--against", "HEAD"]);
    assert!(said.code == 1 && said.out.contains("set: "), "the library is another one: {said:?}");
    stage.write("bands/a.knot", band.replace("../motifs/tide.knot", "../tide.knot"));
    git(&stage, &["mv", "motifs/tide.knot", "tide.knot"]);
    stage.write("tide.knot", LIBRARY);
    let said = stage.run(&["compare", "bands/a.knot", "--against", "HEAD"]);
    assert_eq!(said.code, 0, "it was elsewhere, and the same: {said:?}");
    stage.write("knotwright.toml", "root = true\n[rules]\nuneven-use = \"error\"\n");
    stage.write("bands/knotwright.toml", "root = true\n");
    let said = stage.run(&["compare", "bands/a.knot", "--against", "HEAD"]);
    assert!(said.code == 1 && said.err.contains("outside"), "only now does it lie outside: {said:?}");
    assert!(!said.err.contains("(HEAD)"), "{said:?}");
}

#[cfg(unix)]
#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn links_lead_where_they_led() {
    let stage = Stage::with(&[("a.knot", &user("link/tide.knot")), ("motifs/tide.knot", LIBRARY)]);
    std::os::unix::fs::symlink("motifs", stage.path("link")).unwrap();
    git(&stage, &["init", "--quiet"]);
    commit(&stage);
    let said = stage.run(&["compare", "a.knot", "--against", "HEAD"]);
    assert_eq!(said.code, 0, "{said:?}");
}
