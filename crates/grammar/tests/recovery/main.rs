//! What comes after an error: one mistake is reported once, and the rest is read. Each snapshot shows the text too.

#[path = "../support/mod.rs"]
mod support;

mod blocks;
mod lines;
mod places;

fn case(name: &str, text: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_omit_expression(true);
    settings.set_prepend_module_to_snapshot(false);
    settings.set_snapshot_path("../snapshots/recovery");
    settings.bind(|| insta::assert_snapshot!(name, format!("{text}\n=====\n{}", support::show(text))));
}

/// Tests of the same name as their snapshot.
macro_rules! cases {
    ($($name:ident: $text:expr;)+) => {
        $(#[test] fn $name() { crate::case(stringify!($name), $text); })+
    };
}
pub(crate) use cases;
