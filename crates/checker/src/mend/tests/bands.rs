//! Bands of which only what stands around an edit is tied again, against the same bands tied as a whole.

use super::{Dice, goal_of, pattern, sound, with_orders};
use crate::facts::Facts;
use crate::mend::candidates::list_candidates;
use crate::mend::retied::TiedBand;
use crate::mend::search::{Goal, study_goal};
use crate::mend::words::write_candidate;
use crate::testing::tied;
use crate::tie::{Keep, Limits, tie_parts};
use crate::{GivenUp, Pattern};
use std::fmt::Write;
use std::sync::Arc;

/// A pattern long enough for marks on the way, with a slip.
fn long_with_a_slip(dice: &mut Dice) -> Option<String> {
    let text = pattern(dice);
    let (head, set) = text.split_at(text.find("set {\n")? + 6);
    let body = set.trim_end().strip_suffix('}')?;
    let mut text = head.to_owned();
    (0..4).for_each(|_| text.push_str(body));
    let _ = writeln!(text, "}}");
    let right = sound(with_orders(dice, text))?;
    let band = tied(&right);
    let all = list_candidates(&band.script, &[], &GivenUp::NEVER, |_| Some(0));
    let slip = all.get(dice.below(all.len()))?;
    Some(super::applied(&right, &write_candidate(&band.script, slip).edits))
}

#[test]
fn a_band_that_is_tied_again_around_an_edit_is_the_one_that_is_tied_with_it() {
    let mut compared = 0;
    for seed in 0..60 {
        let Some(text) = long_with_a_slip(&mut Dice(seed)) else { continue };
        let band = tied(&text);
        let script = Arc::new(band.script.clone());
        let Some((cost, knots)) = goal_of(&band) else { continue };
        let (facts, closes, given_up) = (&band.facts[..], band.tied.closes, &GivenUp::NEVER);
        let marks = band.tied.marks.clone();
        let Some(as_it_is) = Pattern::new(Arc::clone(&script), band.tied) else { continue };
        let of_band = TiedBand { pattern: &as_it_is, marks: &marks };
        let goal = Goal {
            script: &script,
            facts,
            closes,
            cost,
            knots,
            misread: 0,
            band: Some(of_band),
            shown: None,
            given_up,
        };
        let Some(studied) = study_goal(&goal) else { continue };
        for candidate in list_candidates(&script, facts, given_up, |_| Some(0)) {
            let limits = Limits { keep: Keep::All, ..Limits::trial(cost, given_up) };
            let mut facts = Facts::default();
            let whole = tie_parts(&script, Some(&candidate.overlay), limits, &mut facts);
            let Some(whole) = whole.filter(|tied| tied.whole && facts.count() == 0) else { continue };
            let Some(again) = of_band.with(&goal, &studied, &candidate) else { continue };
            assert_eq!([&again.opening, &again.set], [&whole.opening, &whole.set], "{candidate:?}\n{text}");
            let others = |tied: &crate::tie::Tied| (tied.closes, tied.picks_by_color, tied.knots);
            assert_eq!(others(&again), others(&whole), "{candidate:?}\n{text}");
            compared += 1;
        }
    }
    assert!(compared > 200, "{compared}");
}
