//! Colors that touch and are hard to tell apart.

use crate::neighbors::{Shown, touching_colors};
use crate::wording::quoted;
use crate::woven::Woven;
use crate::{FileId, Finding, PatternThread, Place, Rule, Severity, Tag};
use knotwright_band::ThreadWalk;
use knotwright_color::{Eyes, Seen, look_alike};
use knotwright_grammar::tree::{ColorwayBlock, Statement, Thread};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::collections::{BTreeMap, BTreeSet};

pub(crate) static RULE: Rule = Rule {
    name: "look-alike-neighbors",
    severity: Severity::Warning,
    tags: &[Tag::Symptom],
    summary: "Two colors that touch in the band are hard to tell apart, for everyone or for some people.",
    why: "Where two colors lie side by side, the picture depends on their difference, and you must know which \
          strand is which. Only colors whose knots touch are compared, in every colorway, by CIEDE2000, \
          which measures differences as eyes see them. About one man in twelve and one woman in two hundred \
          lack one kind of cone in the eye; to them red and green, or blue and green, can look the same. \
          Everyone sees a difference in lightness.",
    example: r#"pattern "Rose hedge"

thread rose firebrick
thread hedge forestgreen

strands rose hedge

set {
  repeat 2 { take left 1: forward 1 }
}
"#,
    instead: r#"pattern "Rose hedge"

thread rose lightpink
thread hedge forestgreen

strands rose hedge

set {
  repeat 2 { take left 1: forward 1 }
}
"#,
};

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let touching = if may_look_alike(woven) { touching(woven) } else { BTreeMap::new() };
    let statements = &woven.source.parsed.tree.statements;
    let threads = &woven.pattern.threads;
    let mut findings = match changes(threads) {
        true => compare_shades(woven, threads, statements),
        false => compare(woven, &touching, woven.pattern.script().seen_threads(), statements),
    };
    let mut colorways = woven.pattern.colorways.iter().zip(woven.pattern.script().seen_colorways());
    for statement in statements {
        let Some(ColorwayBlock { name, block }) = statement.get() else { continue };
        let Some((colorway, seen)) = colorways.find(|(colorway, _)| colorway.name == name.value) else {
            continue;
        };
        let found = match changes(&colorway.threads) {
            true => compare_shades(woven, &colorway.threads, &block.statements),
            false => compare(woven, &touching, seen, &block.statements),
        };
        let named = |finding: Finding| Finding {
            message: format!("In the colorway {}: {}", quoted(&name.value), finding.message),
            ..finding
        };
        findings.extend(found.into_iter().map(named));
    }
    findings
}

/// Of more threads, not every pair is compared before it is known which of them touch.
const MOST_THREADS: usize = 32;

/// Whether any two of the threads that hang look alike, in the pattern or in a colorway. Mostly none do; then it does not
/// matter where they touch, and no knot need be looked at.
fn may_look_alike(woven: &Woven) -> bool {
    let hang = hanging(woven);
    if hang.len() > MOST_THREADS {
        return true;
    }
    let are_alike = |seen: &[Seen]| {
        let seen = |thread: &u16| seen.get(usize::from(*thread));
        let beside = |one: &u16| hang.range(one.saturating_add(1)..).filter_map(seen);
        let is_like = |one: &u16| {
            seen(one).is_some_and(|one_seen| beside(one).any(|other| look_alike(one_seen, other).is_some()))
        };
        hang.iter().any(is_like)
    };
    let script = woven.pattern.script();
    are_alike(script.seen_threads()) || script.seen_colorways().iter().any(|seen| are_alike(seen))
}

/// Whether any two look alike where threads change color along their length, of all their colors: mostly no set need be tied
/// after the first.
fn may_shades_look_alike(woven: &Woven, threads: &[PatternThread]) -> bool {
    let colors = |of: &PatternThread| match of.shades.is_empty() {
        true => vec![of.color],
        false => of.shades.iter().map(|shade| shade.color).collect(),
    };
    let of = |thread: u16| Some((thread, colors(threads.get(usize::from(thread))?)));
    let hang: Vec<(u16, Vec<_>)> = hanging(woven).into_iter().filter_map(of).collect();
    if hang.iter().map(|(_, colors)| colors.len()).sum::<usize>() > MOST_THREADS {
        return true;
    }
    let seen =
        hang.into_iter().flat_map(|(thread, colors)| colors.into_iter().map(move |color| (thread, color)));
    let seen: Vec<(u16, Seen)> = seen.map(|(thread, color)| (thread, Seen::by_all(color))).collect();
    let is_like =
        |one: &(u16, Seen), other: &(u16, Seen)| one.0 != other.0 && look_alike(&one.1, &other.1).is_some();
    seen.iter().enumerate().any(|(at, one)| seen[at + 1..].iter().any(|other| is_like(one, other)))
}

/// The threads that hang, and those that are joined.
fn hanging(woven: &Woven) -> BTreeSet<u16> {
    let joined = woven.joins().filter_map(|join| join.thread);
    woven.pattern.strands.iter().copied().chain(joined).collect()
}

/// Pairs of threads of which knots touch, the smaller number first, each with the first knot at which they do.
fn touching(woven: &Woven) -> BTreeMap<(u16, u16), usize> {
    let mut last: Vec<Option<(u16, u32)>> = vec![None; woven.laid.gaps()];
    let threads = woven.pattern.threads.len();
    // By both threads, whether they were found to touch: most knots lie beside one as they did before.
    let mut found = vec![false; threads * threads];
    let mut pairs = BTreeMap::new();
    let mut walk = ThreadWalk::new(woven.whole(), &woven.pattern.strands);
    for (at, knot) in woven.whole().knots().iter().enumerate() {
        let (gap, row) = (usize::from(knot.gap), woven.laid.rows()[at]);
        walk.go_to(at.to_u32());
        let own = walk.of(knot.working);
        let first = gap.saturating_sub(1);
        for (beside, above) in last[first..last.len().min(gap + 2)].iter().enumerate() {
            // Beside it a knot touches if it lies one row higher, in its own gap two rows.
            let reach = if first + beside == gap { 2 } else { 1 };
            if let Some((other, above)) = *above
                && other != own
                && row - above.min(row) <= reach
                && let Some(found) = found.get_mut(usize::from(own) * threads + usize::from(other))
                && !std::mem::replace(found, true)
            {
                pairs.entry((own.min(other), own.max(other))).or_insert(at);
            }
        }
        last[gap] = Some((own, row));
    }
    pairs
}

/// `statements`: where the threads are given their colors; a pair of which none is given one there is left out.
fn compare(
    woven: &Woven,
    touching: &BTreeMap<(u16, u16), usize>,
    seen: &[Seen],
    statements: &[Statement],
) -> Vec<Finding> {
    if touching.is_empty() {
        return Vec::new();
    }
    let given = given(statements);
    let mut findings = Vec::new();
    for (&(one, other), &knot) in touching {
        let Some(place) = given.get(woven.name(other)).or_else(|| given.get(woven.name(one))) else {
            continue;
        };
        let seen = |thread: u16| seen.get(usize::from(thread));
        let alike = seen(one).zip(seen(other)).and_then(|(one, other)| look_alike(one, other));
        let Some(alike) = alike else { continue };
        let finding = words(woven.name(one), woven.name(other), alike.eyes).at(*place);
        findings.push(match woven.place(knot) {
            Some(step) => finding.note(step, "they first touch at this step"),
            None => finding,
        });
    }
    findings
}

fn changes(threads: &[PatternThread]) -> bool {
    threads.iter().any(|thread| !thread.shades.is_empty())
}

/// As [`compare`], where threads change color along their length: two threads are reported once, at the first step where
/// colors touch that look alike.
fn compare_shades(woven: &Woven, threads: &[PatternThread], statements: &[Statement]) -> Vec<Finding> {
    if !may_shades_look_alike(woven, threads) {
        return Vec::new();
    }
    let written: Vec<&Thread> = statements.iter().filter_map(|statement| statement.get::<Thread>()).collect();
    let color = |(thread, shade): Shown| {
        let of = threads.get(usize::from(thread))?;
        Some(of.shades.get(shade).map_or(of.color, |shade| shade.color))
    };
    let place = |(thread, shade): Shown| {
        let of = written.iter().find(|of| of.name.text == woven.name(thread))?;
        let (color, _) = of.colors().nth(shade)?;
        Some(Place { file: FileId::CHECKED, span: color.span })
    };
    let name = |(thread, shade): Shown| {
        let changes = threads.get(usize::from(thread)).is_some_and(|of| !of.shades.is_empty());
        let color = color((thread, shade)).filter(|_| changes);
        let name = woven.name(thread);
        color.map_or_else(|| name.to_owned(), |color| format!("{name} where it is {color}"))
    };
    let mut seen: HashMap<Shown, Option<Seen>> = HashMap::default();
    let mut said = BTreeSet::new();
    let mut findings = Vec::new();
    for ((one, other), step) in touching_colors(woven, threads) {
        let Some(place) = place(other).or_else(|| place(one)) else { continue };
        let mut see = |of| *seen.entry(of).or_insert_with(|| color(of).map(Seen::by_all));
        let Some(alike) = see(one).zip(see(other)).and_then(|(one, other)| look_alike(&one, &other)) else {
            continue;
        };
        if !said.insert((one.0, other.0)) {
            continue;
        }
        let finding = words(&name(one), &name(other), alike.eyes).at(place);
        findings.push(match step {
            Some(step) => finding.note(step, "they first touch at this step"),
            None => finding,
        });
    }
    findings
}

/// By thread, where it is given its color.
fn given(statements: &[Statement]) -> HashMap<&str, Place> {
    let threads = statements.iter().rev().filter_map(|statement| statement.get::<Thread>());
    let place = |thread: &Thread| Place { file: FileId::CHECKED, span: thread.color.span };
    threads.map(|thread| (thread.name.text.as_str(), place(thread))).collect()
}

fn words(one: &str, other: &str, eyes: Eyes) -> Finding {
    let for_whom = match eyes {
        Eyes::Ordinary => "",
        Eyes::Protan => " for eyes without red cones (protan)",
        Eyes::Deutan => " for eyes without green cones (deutan)",
        Eyes::Tritan => " for eyes without blue cones (tritan)",
    };
    Finding::new(&RULE, format!("{one} and {other} touch in the band and are hard to tell apart{for_whom}."))
        .help("Make one of them lighter or darker: everyone sees a difference in lightness.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};

    fn band(head: &str) -> String {
        format!("pattern \"A\"\n{head}\nset {{ repeat 2 {{ take left 1: forward to edge }} }}\n")
    }

    #[test]
    fn eyes_that_have_trouble_are_named() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "rose and hedge touch in the band and are hard to tell apart for eyes without green cones (deutan)."
            ]
        );
        let text = band("thread shell white\nthread foam ivory\nstrands shell foam");
        assert_eq!(
            messages_of(RULE.name, &text),
            ["shell and foam touch in the band and are hard to tell apart."]
        );
        assert_eq!(find_by(RULE.name, &text)[0].notes[0].text, "they first touch at this step");
    }

    #[test]
    fn a_strand_is_seen_in_the_thread_that_it_goes_on_with() {
        let head = "thread shell white\nthread foam ivory\nthread pitch black\nstrands shell 2 pitch";
        let joined = |thread: &str| {
            format!(
                "pattern \"A\"\n{head}\nset {{\ntake left 1: forward 2\njoin left 1{thread}\ntake left 1: forward 1\ntake right 1: backward 1\n}}\n"
            )
        };
        assert_silent(RULE.name, &joined(""));
        assert_eq!(
            messages_of(RULE.name, &joined(" with foam")),
            ["shell and foam touch in the band and are hard to tell apart."]
        );
    }

    #[test]
    fn colors_that_never_touch_are_not_compared() {
        // Left and right of a dark strand over which both turn; neither turns over the other.
        let text = "pattern \"A\"\nthread shell white\nthread pitch black\nthread foam ivory\n\
                    strands shell 2 pitch foam\nset {\n  take left 1: forward-backward 1\n  take right 1: backward-forward 1\n  \
                    take left 2: forward-backward 1\n}\n";
        assert_silent(RULE.name, text);
    }

    /// Two strands that turn over each other by turns; the first one goes on in a second color.
    fn turning(shades: &str, sets: u32) -> String {
        format!(
            "pattern \"A\"\nthread dusk {shades}\nthread foam ivory\nstrands dusk foam\nends 1 cm\nsets {sets}\n\
             set {{\n  take left 1: forward-backward 1\n  take right 1: backward-forward 1\n}}\n"
        )
    }

    #[test]
    fn of_a_thread_that_changes_color_those_colors_count_that_come_to_touch() {
        // A knot takes about 12 mm: the first color is long gone after ten, and the second comes in the third.
        let light_later = "navy 6 cm, white 2 m";
        assert_silent(RULE.name, &turning(light_later, 1));
        // A new piece in each set begins again at its first color.
        let text = turning(light_later, 10);
        assert_silent(RULE.name, &text.replace("set {\n", "set {\n  join left 1\n"));
        let found = find_by(RULE.name, &turning(light_later, 10));
        assert_eq!(
            found[0].message,
            "dusk where it is #ffffff and foam touch in the band and are hard to tell apart."
        );
        assert_eq!(found.len(), 1);
        let text = turning(light_later, 10);
        let place = found[0].place.span;
        assert_eq!(place.of(&text), "ivory", "the thread that stands later");
        assert_silent(RULE.name, &turning("navy 2 m, white 6 cm", 10));
    }

    #[test]
    fn a_colorway_may_give_colors_that_change() {
        let colorway = "colorway \"fog\" {\n  thread foam black 1 cm, #101010 1 cm\n}\n";
        let text = band(&format!("thread pitch black\nthread foam ivory\n{colorway}strands pitch foam"));
        let found = messages_of(RULE.name, &text);
        assert!(found[0].starts_with("In the colorway `fog`: pitch and foam where it is #"), "{found:?}");
    }

    #[test]
    fn every_colorway_is_looked_at() {
        let colorway = "colorway \"fog\" {\n  thread foam #101010\n}\n";
        let text = band(&format!("thread pitch black\nthread foam ivory\n{colorway}strands pitch foam"));
        let reported = messages_of(RULE.name, &text);
        assert_eq!(
            reported,
            ["In the colorway `fog`: pitch and foam touch in the band and are hard to tell apart."]
        );
    }
}
