//! Each rule before and after. In the snapshots `·` is a space at a line's end, `→` a tab, `␍` a carriage return.

use knotwright_formatter::format_text;

/// Holds the text in `tests/rules/NAME.knot` and what becomes of it to the snapshot of that name.
macro_rules! rules {
    ($($name:ident)*) => {$(
        #[test]
        fn $name() {
            let before = include_str!(concat!("rules/", stringify!($name), ".knot"));
            let after = format_text(before);
            let both = format!("{}---- becomes ----\n{}", shown(before), shown(&after));
            insta::assert_snapshot!(stringify!($name), both);
        }
    )*};
}

rules! {
    a_whole_file
    blank_lines
    blocks
    broken_lines
    charts
    comments
    expressions
    indentation
    lists
    missing_braces
    spacing
    strings
    then
}

fn shown(text: &str) -> String {
    let mut out = String::new();
    for line in text.lines() {
        let kept = line.trim_end_matches(' ');
        out.push_str(&kept.replace('\t', "→").replace('\r', "␍"));
        out.push_str(&"·".repeat(line.len() - kept.len()));
        out.push('\n');
    }
    out
}
