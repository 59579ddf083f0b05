//! How much thread to cut, and for how many sets.

use crate::colors::{name, threads};
use crate::message::{LengthsMessage, ViewOptions};
use knotwright_checker::{Extent, Pattern};
use knotwright_maker::{
    LengthUnit, Measured, Medium, TyingOptions, USUAL_LENGTH, WholeBand, first_strand, list_strands,
    report_measured,
};

/// How many sets are shown if nobody says how many: as many as the thread is cut for, so that the page knows of one number
/// of sets. None if the pattern says how many, or if it is not measured.
pub(crate) fn usual_sets(pattern: &Pattern) -> Option<u32> {
    if pattern.extent != Extent::Open || pattern.set.is_none() || pattern.wished_part().is_some() {
        return None;
    }
    let whole = WholeBand::sized(pattern, Extent::Length(USUAL_LENGTH), pattern.gauge.or_usual());
    whole.times.and_then(|sets| u32::try_from(sets).ok())
}

/// For as many sets as the pattern says, if the page does not wish for another number. Threads go by the names that the
/// page calls them.
pub(crate) fn lengths(pattern: &Pattern, wish: &ViewOptions) -> LengthsMessage {
    let options = TyingOptions { extent: wish.sets.map(Extent::Sets), ..TyingOptions::default() };
    match options.measured(pattern) {
        Ok(measured) => {
            let mut named = pattern.clone();
            named.threads = threads(pattern, wish).to_vec();
            named.threads.iter_mut().for_each(|thread| thread.name = name(thread).into());
            let measured = Measured { pattern: &named, ..measured };
            LengthsMessage {
                about: report_measured(&measured, options.unit, Medium::Page).head,
                threads: cut(&measured, options.unit),
            }
        }
        Err(reason) => LengthsMessage {
            about: vec![format!("The thread cannot be measured: {}.", reason.said(options.unit))],
            threads: Vec::new(),
        },
    }
}

/// What to cut of each thread: folded threads, strands and what goes around the ends are told apart.
fn cut(measured: &Measured, unit: LengthUnit) -> Vec<(u16, String, String)> {
    let of = |(thread, _, _, in_all): (u16, usize, usize, f64)| {
        let pieces = |is_folded: bool| {
            let is_so = move |strands: usize| (strands > 1) == is_folded;
            let cuts = measured.pieces.iter().filter(move |cut| is_so(list_strands(**cut).len()));
            let is_of = move |strand: u8| measured.pattern.strands.get(usize::from(strand)) == Some(&thread);
            cuts.filter(move |cut| is_of(first_strand(**cut))).map(|cut| cut.length())
        };
        let joined = measured.joined.iter().filter(|piece| piece.thread == thread).map(|piece| piece.cut);
        let own = measured.own.iter().filter(|own| own.thread == thread);
        let around =
            own.flat_map(|own| std::iter::repeat_n(own.length, usize::try_from(own.count).unwrap_or(0)));
        let said = [
            group(pieces(true).collect(), unit).map(|said| format!("{said}, folded")),
            group(pieces(false).chain(joined).collect(), unit),
            group(around.collect(), unit),
        ];
        (thread, said.into_iter().flatten().collect::<Vec<_>>().join("; "), unit.bought(in_all))
    };
    measured.by_color().into_iter().map(of).collect()
}

/// How many there are and how long each is, if there are some: `4 of 90 to 95 cm`.
fn group(lengths: Vec<f64>, unit: LengthUnit) -> Option<String> {
    let least = lengths.iter().copied().reduce(f64::min)?;
    let most = lengths.iter().copied().fold(least, f64::max);
    Some(format!("{} of {}", lengths.len(), unit.cut_between(least, most)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_checker::{NoLibrary, Settings, Source, check};
    use knotwright_maker::scripted_to_see;
    use std::sync::Arc;

    fn pattern(text: &str) -> Pattern {
        let report = check(Arc::new(Source::new("a.knot", text)), &NoLibrary, &Settings::default());
        report.pattern.unwrap_or_else(|| panic!("{:?}", report.findings))
    }

    /// A picture of three sets next to thread for four, and knots counted in three, would be of two bands.
    #[test]
    fn as_many_sets_are_shown_as_the_thread_is_cut_for() {
        let head = "pattern \"Reeds\"\nthread mud tan\nthread sky lightblue\n";
        let mut seen = Vec::new();
        for (extent, passes) in
            [("", 1), ("", 10), ("", 20), ("", 90), ("sets 7\n", 10), ("length 20 cm\n", 10)]
        {
            let text = format!(
                "{head}{extent}strands mud 2 sky\nset {{ repeat {passes} {{ take left 1: forward to edge }} }}\n"
            );
            let pattern = pattern(&text);
            let script = scripted_to_see(&pattern, usual_sets(&pattern), None).unwrap();
            let about = lengths(&pattern, &ViewOptions::default()).about;
            let sets =
                if script.times == 1 { "1 set,".to_owned() } else { format!("{} sets,", script.times) };
            assert!(about[0].starts_with(&sets), "{text}{} sets are shown, but: {}", script.times, about[0]);
            seen.push(script.times);
        }
        assert!(seen[0] > seen[1] && seen[1] > 3 && seen[3] == 1, "{seen:?}");
    }

    #[test]
    fn threads_go_by_what_people_call_them() {
        let text = "pattern \"Reeds\"\nthread mud tan \"river mud\"\nthread sky lightblue\nstrands mud 11 sky\n\
                    colorway \"dawn\" { thread sky pink \"red sky\" }\n\
                    set { repeat 36 { take left 1: forward to edge } }\n";
        let pattern = pattern(text);
        let said = |wish: ViewOptions| lengths(&pattern, &wish).about.join("\n");
        let usual = said(ViewOptions::default());
        assert!(usual.contains("where the strands hang ") && usual.contains("river mud"), "{usual}");
        assert!(!usual.replace("river mud", "").contains("mud"), "{usual}");
        let dawn = said(ViewOptions { colorway: Some("dawn".to_owned()), ..ViewOptions::default() });
        assert!(dawn.contains(" red sky"), "{dawn}");
    }

    /// Two lengths that are far apart are not ends of a range.
    #[test]
    fn folded_threads_are_told_apart_from_what_goes_around_the_ends() {
        let text = "pattern \"Ropes\"\nthread tar black\nthread rust brown\nstrands tar rust | mirror\n\
                    start folded pairs mirrored\nbegin { loop 3 cm\n wrap rust 7 turns }\nlength 8 cm\n\
                    set { repeat 6 { both { take left 1: forward to center left }\n meet center } }\n";
        let threads = lengths(&pattern(text), &ViewOptions::default()).threads;
        let said: Vec<&str> = threads.iter().map(|(_, pieces, _)| pieces.as_str()).collect();
        assert!(said[0].starts_with("1 of ") && said[0].ends_with(" cm, folded"), "{said:?}");
        assert_eq!(said[1], format!("{}; 1 of 20 cm", said[0]));
    }
}
