//! Pick-ups in words.

use super::{PickUp, WhyAgain};
use knotwright_wording::digits::count;

/// The pick-ups under a headline, numbered, each with the reason why its strand is taken again.
pub(super) fn words(headline: &str, pick_ups: &[PickUp], within: Option<u32>) -> String {
    let wide = pick_ups.len().to_string().len();
    let mut out = format!("{headline}\n\n");
    for (number, pick_up) in (1..).zip(pick_ups) {
        out += &format!("{number:wide$}. {}\n", pick_up.take);
        if let Some(again) = pick_up.again {
            out += &format!("{:wide$}  again, as {}\n", "", reason(again, pick_ups, within));
        }
    }
    out
}

fn reason(again: WhyAgain, pick_ups: &[PickUp], within: Option<u32>) -> String {
    let named = |number: usize| format!("{} ({})", number + 1, pick_ups[number].color);
    match again {
        WhyAgain::TiedOver(other) => format!("{} ties over it in between", named(other)),
        WhyAgain::Waits(other) => format!("{} has to come in between", named(other)),
        WhyAgain::TooManyRows => {
            let rows = u64::from(within.unwrap_or(1).max(1));
            format!("it would go over more than {} at once", count(rows, "row"))
        }
    }
}
