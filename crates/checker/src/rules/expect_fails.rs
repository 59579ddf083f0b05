//! An `expect` that does not hold.

use crate::wording::{both, count, number, ordinal};
use crate::{Finding, Place, Rule, Severity, Sighting, ThreadOrders};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "expect-fails",
    severity: Severity::Error,
    tags: &[],
    summary: "The strands do not hang as `expect` says.",
    why: "`expect` is a checkpoint: at this step the strands should hang like this, so that whoever ties can \
          compare. If they do not, the slip lies above it, and below the last `expect` that held. The more \
          checkpoints a long pattern has, the shorter the stretch to search.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1: forward to edge
  take right 2: backward 1
  expect kelp 2 foam kelp
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1: forward to edge
  take right 2: backward 2
  expect kelp 2 foam kelp
}
"#,
};

/// More steps than this are not pointed at.
const MOST_STEPS: usize = 6;

/// How wide a line of the table of strands may be.
const WIDEST: usize = 72;

/// `position` counts in the range.
pub(super) fn words(position: usize, promised: &str, found: &Sighting, orders: &ThreadOrders) -> Finding {
    let place = ordinal(position);
    let within = if position == found.position { "" } else { " of this range" };
    let thread = &found.thread;
    let message = format!(
        "The {place} strand from the left{within} should be {promised} here, but {thread} hangs there."
    );
    let columns = columns(orders);
    let advice = match columns.iter().filter(|column| column.differs()).count() {
        0 | 1 => "All the other strands hang as they should.".to_owned(),
        differing => format!(
            "In all, {} strands differ. Look for the slip between here and the last `expect` that held.",
            number(differing.to_u64())
        ),
    };
    let table = table(&columns);
    let mut finding = Finding::new(&RULE, message).moved(found).help(format!("{advice}{table}"));
    // What the first strand says, all say that came with the same step.
    finding.notes.clear();
    moves(orders, found).into_iter().fold(finding, |finding, (step, text)| finding.note(step, text))
}

/// The steps that brought strands where others should hang, that of `found` first, with what each brought.
fn moves(orders: &ThreadOrders, found: &Sighting) -> Vec<(Place, String)> {
    let mut steps: Vec<(Place, Vec<(&str, u64)>)> = Vec::new();
    let others = orders.astray.iter().filter(|strand| strand.position != found.position);
    for strand in std::iter::once(found).chain(others) {
        let Some(step) = strand.last_moved else { continue };
        let at = steps.iter().position(|known| known.0 == step).unwrap_or_else(|| {
            steps.push((step, Vec::new()));
            steps.len() - 1
        });
        let threads = &mut steps[at].1;
        match threads.iter_mut().find(|(thread, _)| *thread == strand.thread) {
            Some((_, strands)) => *strands += 1,
            None => threads.push((&strand.thread, 1)),
        }
    }
    let text = |(step, threads): (Place, Vec<(&str, u64)>)| {
        let strands: Vec<String> = threads.into_iter().map(strands_of).collect();
        (step, format!("{} came here with this step", both(&strands)))
    };
    steps.into_iter().take(MOST_STEPS).map(text).collect()
}

/// "foam", or "two strands of foam".
fn strands_of((thread, strands): (&str, u64)) -> String {
    match strands {
        1 => thread.to_owned(),
        _ => format!("{} of {thread}", count(strands, "strand")),
    }
}

/// A position, and what was promised and hangs there.
struct StrandColumn<'a> {
    position: String,
    promised: &'a str,
    hung: &'a str,
}

impl StrandColumn<'_> {
    /// A name that is not known fits any.
    fn differs(&self) -> bool {
        !self.promised.is_empty() && !self.hung.is_empty() && self.promised != self.hung
    }

    fn width(&self) -> usize {
        [&self.position, self.promised, self.hung]
            .map(|text| text.chars().count())
            .into_iter()
            .max()
            .unwrap_or(0)
    }
}

fn columns(orders: &ThreadOrders) -> Vec<StrandColumn<'_>> {
    let pairs = orders.promised.iter().zip(&orders.hung).enumerate();
    pairs
        .map(|(index, (promised, hung))| StrandColumn { position: (index + 1).to_string(), promised, hung })
        .collect()
}

/// Both orders, position by position, in lines for a font of even width. Where they differ there is a `^` below. A wide
/// range takes several blocks of lines; those in which nothing differs are left out.
fn table(columns: &[StrandColumn]) -> String {
    let mut table = String::new();
    let mut rest = columns;
    while !rest.is_empty() {
        let mut width = LABELS[0].len();
        let fits = |column: &&StrandColumn| {
            width += 1 + column.width();
            width <= WIDEST
        };
        let (block, behind) = rest.split_at(rest.iter().take_while(fits).count().max(1));
        if block.iter().any(StrandColumn::differs) {
            table.push_str(&lines(block));
        }
        rest = behind;
    }
    table
}

const LABELS: [&str; 4] = ["position", "promised", "hangs   ", "        "];

fn lines(block: &[StrandColumn]) -> String {
    let mut lines = LABELS.map(str::to_owned);
    for column in block {
        let width = column.width();
        let mark = if column.differs() { "^".repeat(width) } else { String::new() };
        for (line, text) in lines.iter_mut().zip([&column.position, column.promised, column.hung, &mark]) {
            line.push(' ');
            line.push_str(text);
            line.extend(std::iter::repeat_n(' ', width - text.chars().count()));
        }
    }
    lines.iter().flat_map(|line| ["\n", line.trim_end()]).collect()
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::{Place, Sighting, ThreadOrders};
    use knotwright_grammar::Span;

    fn foam() -> Sighting {
        Sighting { position: 3, thread: "foam".into(), last_moved: Some(Place::default()) }
    }

    fn orders(promised: &str, hung: &str) -> ThreadOrders {
        let names = |list: &str| list.split(' ').map(Into::into).collect();
        ThreadOrders { promised: names(promised), hung: names(hung), astray: vec![foam()] }
    }

    #[test]
    fn every_step_that_brought_a_strand_astray_is_pointed_at_once() {
        let at =
            |line: u32| Some(Place { file: Default::default(), span: Span { start: line, end: line + 1 } });
        let strand =
            |position, thread: &str, last_moved| Sighting { position, thread: thread.into(), last_moved };
        let (foam, kelp) = (strand(2, "foam", at(40)), strand(3, "kelp", at(40)));
        let astray = vec![foam.clone(), kelp, strand(4, "sand", None), strand(5, "rope", at(20))];
        let finding = words(2, "rope", &foam, &ThreadOrders { astray, ..ThreadOrders::default() });
        let notes: Vec<_> =
            finding.notes.iter().map(|note| (note.place.span.start, note.text.as_str())).collect();
        assert_eq!(
            notes,
            [(40, "foam and kelp came here with this step"), (20, "rope came here with this step")]
        );
    }

    #[test]
    fn the_first_strand_that_differs_is_named_and_all_are_marked() {
        let orders = orders("foam kelp kelp goldenrod", "foam kelp foam kelp");
        let finding = words(3, "kelp", &foam(), &orders);
        assert_eq!(
            finding.message,
            "The third strand from the left should be kelp here, but foam hangs there."
        );
        assert_eq!(
            finding.help.unwrap(),
            "In all, two strands differ. Look for the slip between here and the last `expect` that held.\n\
             position 1    2    3    4\n\
             promised foam kelp kelp goldenrod\n\
             hangs    foam kelp foam kelp\n                   ^^^^ ^^^^^^^^^"
        );
    }

    #[test]
    fn within_a_range_it_is_said_that_places_count_there() {
        let finding = words(1, "kelp", &foam(), &ThreadOrders::default());
        assert!(finding.message.starts_with("The first strand from the left of this range should be kelp"));
    }

    #[test]
    fn of_a_wide_range_only_what_differs_is_shown() {
        let (promised, mut hung) = (vec!["seagreen"; 24], vec!["seagreen"; 24]);
        hung[23] = "foam";
        let help = words(3, "kelp", &foam(), &orders(&promised.join(" "), &hung.join(" "))).help.unwrap();
        assert_eq!(help.matches("promised").count(), 1, "{help}");
        assert!(help.lines().all(|line| line.len() <= 72) && help.contains(" 24\n"), "{help}");
    }
}
