//! A labeled strand outside the range.

use crate::wording::ordinal;
use crate::{Finding, Rule, Severity, Sighting};

pub(crate) static RULE: Rule = Rule {
    name: "label-outside",
    severity: Severity::Error,
    tags: &[],
    summary: "A labeled strand is taken inside `on`, but hangs outside the range.",
    why: "Inside the braces of `on`, only the strands of its range exist. A label follows its strand wherever \
          it goes. Once the strand has left the range, you cannot take it there.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam 5 kelp

set {
  take left 1 as crest: forward to edge
  on left 3 { take crest: backward 2 }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam 5 kelp

set {
  take left 1 as crest: forward to edge
  take crest: backward to edge
}
"#,
};

pub(super) fn words(label: &str, sighting: &Sighting) -> Finding {
    let place = ordinal(sighting.position);
    let message =
        format!("`{label}` hangs {place} from the left of the band, outside the range of this `on`.");
    Finding::new(&RULE, message)
        .moved(sighting)
        .help("Take it outside of `on`, or choose a range that includes it.")
}
