//! A sign that this chart does not know.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};
use knotwright_grammar::tree::Zone;

pub(crate) static RULE: Rule = Rule {
    name: "unknown-mark",
    severity: Severity::Error,
    tags: &[],
    summary: "A chart contains a mark that it does not know.",
    why: "`rows` use `\\` forward, `/` backward, `>` forward-backward, `<` backward-forward, `x` for two \
          strands of one color, and `.` for no knot. `leader` rows use `.` where the leader shows, and `#` \
          where the strand shows. `face` rows use a letter for each color, `.` for no knot, and `?` for a \
          knot of whatever color.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  rows {
    \ o
     /
  }
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  rows {
    \ x
     /
  }
}
"#,
};

pub(super) fn words(found: &str, chart: Zone) -> Finding {
    let (chart, marks) = match chart {
        Zone::Face => {
            ("`face`", "a letter for each color, `.` for no knot, and `?` for a knot of whatever color")
        }
        Zone::Leader => ("`leader`", "`.` where the leader shows, and `#` where the strand shows"),
        Zone::Rows | Zone::Top | Zone::Body | Zone::Colorway | Zone::Gauge | Zone::Ends | Zone::Any => {
            ("`rows`", "`\\`, `/`, `>`, `<`, `x`, and `.` for no knot")
        }
    };
    Finding::new(&RULE, format!("{} is no mark of {chart}.", quoted(found)))
        .help(format!("Its marks are {marks}."))
}
