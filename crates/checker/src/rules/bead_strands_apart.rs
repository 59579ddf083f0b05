//! Strands that are to go through one bead and do not hang side by side.

use crate::wording::{both, ordinal};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "bead-strands-apart",
    severity: Severity::Error,
    tags: &[],
    summary: "The strands of one bead do not hang side by side.",
    why: "Several strands can go through one hole only if they are neighbors: a strand between them would have to cross \
          the bead. Name each strand once. Positions are those at which the strands hang here, after all that was tied \
          before.",
    example: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 2 mm

strands 4 kelp

set {
  take left 1: forward to edge
  bead pearl on left 1, left 3
}
"#,
    instead: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 2 mm

strands 4 kelp

set {
  take left 1: forward to edge
  bead pearl on left 1, left 2
}
"#,
};

/// Positions from the left of the band, from 1, ascending.
pub(super) fn words(positions: &[usize]) -> Finding {
    if let Some(twice) = positions.windows(2).find(|pair| pair[0] == pair[1]) {
        let message = format!("The {} strand from the left is named twice for one bead.", ordinal(twice[0]));
        return Finding::new(&RULE, message).help("Name each strand once.");
    }
    let named: Vec<String> = positions.iter().map(|&position| ordinal(position)).collect();
    let named: Vec<&str> = named.iter().map(String::as_str).collect();
    let message = format!(
        "The {} strand from the left are to go through one bead, and do not hang side by side.",
        both(&named)
    );
    Finding::new(&RULE, message).help("Name neighbors, or write a `bead` line for each strand.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::messages_of;

    #[test]
    fn the_strands_are_named_by_their_places() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "The first and third strand from the left are to go through one bead, and do not hang side by side."
            ]
        );
        let twice = RULE.example.replace("left 3", "right 4");
        assert_eq!(
            messages_of(RULE.name, &twice),
            ["The first strand from the left is named twice for one bead."]
        );
    }
}
