//! `sheet`: what can be seen without a browser; the rest is in `tests/browser`.

use crate::stage::{BROKEN, GOOD, Stage};

#[test]
fn the_sheet_holds_all_and_asks_for_nothing() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let said = stage.run(&["sheet", "a.knot", "--sets", "2", "-o", "a.html"]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{}", said.err);
    let page = stage.read("a.html");
    assert!(page.contains("default-src 'none'; script-src 'sha256-"));
    for text in ["<h1>Low tide</h1>", "children under three", "data-tick=\"set-1\"", "in all: two threads of"]
    {
        assert!(page.contains(text), "{text}");
    }
    // The name of SVG's own vocabulary is the only address.
    let addresses = page.matches("http").count();
    assert_eq!(
        addresses,
        page.matches("http://www.w3.org/2000/svg").count() + "http-equiv".matches("http").count()
    );
    for outside in ["src=", "@import", "url(http", "style=\"", " onclick", "unsafe"] {
        assert!(!page.contains(outside), "{outside}");
    }
    assert_eq!(stage.run(&["sheet", "a.knot", "--sets", "2"]).out, page, "the same bytes again");
}

#[test]
fn what_has_no_sheet_is_said() {
    let stage = Stage::with(&[("a.knot", BROKEN), ("b.knot", GOOD)]);
    assert_eq!(stage.run(&["sheet", "a.knot"]).code, 1);
    let said = stage.run(&["sheet", "b.knot", "--sets", "4000000000"]);
    assert_eq!((said.code, said.out.as_str()), (2, ""));
    assert!(said.err.contains("--sets 8"), "{}", said.err);
    let said = stage.run(&["sheet", "b.knot", "--length", "1mm"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("shorter than the band with one set"), "{}", said.err);
}
