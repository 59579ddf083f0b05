//! Lists of strands of which it is known what comes of them without tying the text, against the text tied with each.

use super::{Dice, goal_of, pattern, sound, with_orders};
use crate::GivenUp;
use crate::facts::Facts;
use crate::mend::edits::KnownKnots;
use crate::mend::rehung::Rehung;
use crate::mend::search::{Goal, study_goal};
use crate::mend::shape::Blemishes;
use crate::mend::strands::list_hangings;
use crate::mend::trial::{Choice, SiftedChoice};
use crate::testing::tied;
use crate::tie::{Keep, Limits, tie_hung};
use std::rc::Rc;
use std::sync::Arc;

/// What is said of a list: how many knots there are and whether the set closes; `None` if only a tie shows it. And how they
/// lie, if that is said.
type Said = (Option<(u64, bool)>, Option<Rc<Blemishes>>);

#[test]
fn what_is_said_of_other_strands_is_what_a_tie_shows() {
    let (mut held, mut refused, mut with_more, mut lain) = (0, 0, 0, 0);
    for seed in 0..150 {
        let dice = &mut Dice(seed);
        let Some(text) = sound(pattern(dice)) else { continue };
        // Where an order is promised, hardly any other list holds.
        let text = if seed % 3 == 0 { with_orders(dice, text) } else { text };
        let band = tied(&text);
        let script = Arc::new(band.script.clone());
        let Some((cost, knots)) = goal_of(&band) else { continue };
        let (facts, closes, given_up) = (&band.facts[..], band.tied.closes, &GivenUp::NEVER);
        let goal = Goal {
            script: &script,
            facts,
            closes,
            cost,
            knots,
            misread: 0,
            band: None,
            shown: None,
            given_up,
        };
        let Some(studied) = study_goal(&goal).map(Rc::new) else { continue };
        let said: Vec<(Vec<u16>, Said)> =
            Rehung::of(&goal, &studied).all().into_iter().filter_map(of_strands).collect();
        for hung in list_hangings(&script) {
            let limits = Limits { keep: Keep::Knots, ..Limits::trial(cost, given_up) };
            let mut facts = Facts::default();
            let whole = tie_hung(&script, hung.threads.clone(), limits, &mut facts).filter(|tied| tied.whole);
            let said = said.iter().find(|said| said.0 == hung.threads).map(|said| &said.1);
            if let Some((Some(_), Some(lie))) = said {
                let tied = whole.as_ref().expect("it is said that all holds");
                let parts = [&tied.opening, &tied.set, &tied.closing].into_iter().flatten();
                assert_eq!(
                    **lie,
                    Blemishes::of_pieces(parts.map(|part| &part.piece)),
                    "{:?}\n{text}",
                    hung.threads
                );
                lain += 1;
            }
            let whole = whole.map(|tied| (tied.knots, tied.closes != Some(false)));
            match said {
                None => assert_eq!(whole, None, "{:?}\n{text}", hung.threads),
                Some((Some(said), _)) => assert_eq!(whole, Some(*said), "{:?}\n{text}", hung.threads),
                Some((None, _)) => {}
            }
            held += usize::from(said.is_some_and(|said| said.0.is_some()));
            refused += usize::from(said.is_none());
            with_more += usize::from(said.is_none() && hung.threads.len() != studied.parts[1].width);
        }
    }
    assert!(
        held > 100 && refused > 1_000 && with_more > 100 && lain > 50,
        "{held}, {refused}, {with_more}, {lain}"
    );
}

fn of_strands(sifted: SiftedChoice) -> Option<(Vec<u16>, Said)> {
    let SiftedChoice { choice, closes, knots, known, .. } = sifted;
    let lie = match known {
        KnownKnots::Lie(lie) => Some(lie),
        _ => None,
    };
    match choice {
        Choice::Strands(hung) => Some((hung.threads, (knots.map(|knots| (knots, closes)), lie))),
        Choice::Step(_) => None,
    }
}
