//! Neither `#rgb`, `#rrggbb` nor a color name.

use crate::wording::{count, quoted};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "unknown-color",
    severity: Severity::Error,
    tags: &[],
    summary: "A thread has a color that is not known.",
    why: "Write a color as `#rgb` or `#rrggbb` (red, green and blue in hexadecimal), or as one of the 148 \
          color names of CSS Color 4, such as `goldenrod`. Without a color, the band can be neither drawn \
          nor compared. What your shop calls the thread goes after the color, in quotation marks.",
    example: r#"pattern "Kelp forest"

thread kelp seagren "deep kelp"

strands 4 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp seagreen "deep kelp"

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

/// Hexadecimal digits that lack their `#`. Three of them may be a name with a slip.
pub(crate) fn with_hash(written: &str, nearest: Option<&str>) -> Option<String> {
    let is_long_enough = written.len() == 6 || (written.len() == 3 && nearest.is_none());
    let is_hex = is_long_enough && written.bytes().all(|byte| byte.is_ascii_hexdigit());
    is_hex.then(|| format!("#{written}"))
}

/// How many digits stand behind a `#`, if nothing else does.
fn digits(written: &str) -> Option<usize> {
    let digits = written.strip_prefix('#')?;
    digits.bytes().all(|byte| byte.is_ascii_hexdigit()).then_some(digits.len())
}

pub(super) fn words(written: &str, nearest: Option<&str>) -> Finding {
    let how =
        "A color is `#` with six digits (or three), such as `#2f6f8f`, or a CSS color name, such as `teal`.";
    if let Some(digits) = digits(written) {
        let there = count(digits.to_u64(), "digit");
        let help = format!("Six digits (or three) stand behind `#`, and here are {there}.");
        return Finding::new(&RULE, format!("{} is not a known color.", quoted(written))).help(help);
    }
    if let Some(color) = with_hash(written, nearest) {
        let help = format!("A color in hexadecimal digits begins with `#`: write `{color}`.");
        return Finding::new(&RULE, format!("{} is not a known color.", quoted(written))).help(help);
    }
    let other = "Any other color is written as `#` with six digits.";
    let help = nearest.map_or_else(|| how.to_owned(), |name| format!("Did you mean `{name}`? {other}"));
    Finding::new(&RULE, format!("{} is not a known color.", quoted(written))).help(help)
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn the_nearest_name_is_offered() {
        let finding = words("seagren", Some("seagreen"));
        assert_eq!(finding.message, "`seagren` is not a known color.");
        assert!(finding.help.unwrap().starts_with("Did you mean `seagreen`?"));
    }

    #[test]
    fn digits_lack_their_sign() {
        let finding = words("e2c08d", None);
        assert_eq!(finding.help.unwrap(), "A color in hexadecimal digits begins with `#`: write `#e2c08d`.");
        assert!(words("bed", Some("red")).help.unwrap().starts_with("Did you mean `red`?"));
    }

    #[test]
    fn without_one_it_is_said_how_colors_are_written() {
        assert!(words("moss", None).help.unwrap().starts_with("A color is `#` with six digits"));
        let help = "Six digits (or three) stand behind `#`, and here are two digits.";
        assert_eq!(words("#12", None).help.unwrap(), help);
    }
}
