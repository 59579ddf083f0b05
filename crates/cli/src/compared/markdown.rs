//! A comparison as a comment for a review.

use super::words::{besides, detail, follows, headline, listed, verdict};
use super::{Compared, Verdict};

/// Markdown: the verdict, what changed in each part, the knots folded away.
pub(crate) fn markdown(compared: &Compared) -> String {
    let mark = if compared.verdict == Verdict::Same { "Same band" } else { "The band changed" };
    format!("**{mark}.** {}\n{}", plain(&verdict(compared)), changes(compared))
}

/// What changed, without the names of the two.
pub(crate) fn changes(compared: &Compared) -> String {
    let mut out = String::new();
    for part in compared.parts.iter().filter(|part| part.is_change()) {
        out += &format!("\n- **{}**\n", plain(&headline(part)));
        follows(part).iter().for_each(|line| out += &format!("  - {}\n", plain(line)));
        let knots = listed(part);
        if !knots.is_empty() {
            let lines: String = knots.iter().map(|line| format!("  {line}\n")).collect();
            out += &format!(
                "\n  <details><summary>Knots</summary>\n\n  ```text\n{lines}  ```\n\n  </details>\n"
            );
        }
    }
    for line in besides(compared) {
        out += &format!("\n{}\n", plain(&line));
    }
    if !compared.details.is_empty() {
        let lines = compared.details.iter().map(|of| format!("- {}\n", plain(&detail(of))));
        out += &format!("\n{}", lines.collect::<String>());
    }
    out
}

/// Text with no sign that Markdown (CommonMark 0.31, section 2.4) or HTML would take for its own.
pub(crate) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '<' => out.push_str("&lt;"),
            '&' => out.push_str("&amp;"),
            // A mention calls somebody in reviews; a zero-width space would hide in names, an entity does not.
            '@' => out.push_str("&#64;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '~' | '#' | '!' => {
                out.push('\\');
                out.push(sign);
            }
            _ => out.push(sign),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn names_cannot_dress_up_as_markdown() {
        assert_eq!(plain("a_b*c"), "a\\_b\\*c");
        assert_eq!(plain("<img> ![x](y) @all"), "&lt;img> \\!\\[x\\](y) &#64;all");
    }
}
