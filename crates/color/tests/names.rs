//! The color names against a published table.

use knotwright_color::{Rgb, color_names};

/// The 147 names of CSS Color 3 as PyPI `webcolors` 25.10.0 lists them (`names("css3")`, `name_to_hex`), and
/// `rebeccapurple`, which CSS Color 4, section 6.1, added as `#663399`.
const TABLE: &str = include_str!("css_names.tsv");

fn table() -> impl Iterator<Item = (&'static str, &'static str)> {
    TABLE.lines().filter_map(|line| line.split_once('\t'))
}

#[test]
fn all_names_of_css_and_no_other() {
    let published: Vec<_> = table().map(|(name, _)| name).collect();
    assert_eq!(published.len(), 148);
    assert_eq!(color_names(), published);
}

#[test]
fn every_name_has_its_color_in_either_case() {
    for (name, expected) in table() {
        for written in [name.to_owned(), name.to_uppercase()] {
            let found: Rgb = written.parse().unwrap();
            assert_eq!(found.to_string(), expected, "{written}");
        }
    }
}
