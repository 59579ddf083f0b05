//! English.

use super::{BeadWords, ColorWords, Counted, EndWords, JoinWords, KindWords, SheetWords, Words};
use knotwright_color::Hue;

pub(super) static WORDS: Words = Words {
    decimal_mark: ".",
    unit_space: " ",
    number,
    times: |count| match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        _ => format!("{} times", number(count)),
    },
    from_left: |place| format!("the {} strand from the left", ordinal(place)),
    from_right: |place| format!("the {} strand from the right", ordinal(place)),
    and: |_| "and",

    materials: "What you need",
    layout: "How the strands hang",
    knots: "The knots",
    opening: "The opening",
    set: "The set",
    closing: "The closing",
    finish: "To finish",
    care: "Take care",

    by: "By {names}.",
    license: "License: {license}.",
    mirrored_image: "This is the mirror image of the band, for left-handed makers: what was left is right.",
    mirrored_picture: "For left-handed makers: places are counted from the right, and where the order of steps \
                       does not matter, the ones at the right come first. The picture is the same.",
    size: "The knotted part will be about {length} long and {width} wide: {sets}, {rows} of knots.",
    size_overlaps: "A set alone has {rows}; each begins in the last rows of the one before it.",
    size_assumed: "The pattern does not say how long the band should be; the lengths here are for this size.",
    sets: Counted { one: "one set", other: "{count} sets" },
    rows: Counted { one: "one row", other: "{count} rows" },
    cut: "Cut these threads:",
    cut_line: "{color}, {total} in all: {pieces}",
    pieces: Counted {
        one: "one thread of {length} ({strands})",
        other: "{count} threads of {length} ({strands})",
    },
    strand_numbers: Counted { one: "strand {strands}", other: "strands {strands}" },
    folded_pieces: Counted {
        one: "one thread of {length}, folded in its middle ({strands})",
        other: "{count} threads of {length}, each folded in its middle ({strands})",
    },
    reserve: "This includes a reserve, {ends} left free at each end, and {knot} for each knot of all strands.",
    reserve_folded: "This includes a reserve, {ends} left free at the end, and {knot} for each knot of all strands.",
    from_swatch: "Estimated from the swatch in the pattern; accurate to about {percent}%.",
    from_thickness: "Estimated for {thickness} thread; accurate to about {percent}%. If you tie tightly, you need \
                     less; if you tie loosely, you need more. When in doubt, cut longer.",
    from_nothing: "Estimated for {thickness} thread (the pattern names none); accurate to about {percent}%. Other \
                   thread needs other lengths: when in doubt, cut longer.",
    repeats: "The first color of {color} comes round every {repeat}, and each of its pieces begins there: cut one after \
              another, they take {length}.",
    repeats_folded: "The first color of {color} comes round every {repeat}, and each of its threads is folded there: cut one \
                     after another, they take {length}.",
    tools: "You also need scissors, and a clip or tape to hold the band at its start.",
    tools_needle: "You also need scissors, a needle, and a clip or tape to hold the band at its start.",
    hang_loose: "Lay the ends together, leave {ends} free, tie all strands together with one overhand knot, and \
                 fasten the knot so that the strands hang toward you.",
    hang_folded: "Fold each thread in the middle and hang it over a pin or a cord, so that it makes two strands. \
                  Fasten it so that the strands hang toward you.",
    hang_loop: "Lay the threads together, fold them all in the middle, and tie them together below the fold, so \
                that a loop of about {loop} is left. Fasten the loop so that the strands hang toward you.",
    pairs: "Two strands that are one thread: {pairs}.",
    changes: "{color} changes color along its length: {colors}, over and over. The colors fall as in the pattern if \
              every strand of it begins with the first of them, at the tip of its upper end.",
    changes_folded: "{color} changes color along its length: {colors}, over and over. The colors fall as in the \
                     pattern if every thread of it is folded where the first of them begins: the left one of its two \
                     strands goes on with the first, the right one with the last.",
    changes_for: "{color} for {length}",
    colors: ColorWords {
        hue,
        pale: "pale {hue}",
        light: "light {hue}",
        dark: "dark {hue}",
        alike: "{color} ({number})",
    },
    lay_out: "Sort the strands from left to right:",
    head_left: "from the left",
    head_right: "from the right",
    head_thread: "thread",
    counting: "Always count places as the strands hang at that moment.",
    counting_from_right: "Always count places from the right, as the strands hang at that moment.",
    hitch: "Every knot is two half hitches of the strand in hand over its neighbor, which you hold taut. The \
            color that shows is the color of the strand in hand.",

    forward: KindWords {
        name: "forward",
        tie: Counted { one: "tie a forward knot", other: "tie a forward knot" },
        how: "Forward knot: the strand in hand is the left one of the two. Lay it over its right neighbor, bring it under and up \
              through the loop, and pull it tight; do the same once more. Now it hangs to the right of the other.",
    },
    backward: KindWords {
        name: "backward",
        tie: Counted { one: "tie a backward knot", other: "tie a backward knot" },
        how: "Backward knot: the strand in hand is the right one of the two. Lay it over its left neighbor, bring it under and up \
              through the loop, and pull it tight; do the same once more. Now it hangs to the left of the other.",
    },
    forward_backward: KindWords {
        name: "forward-backward",
        tie: Counted { one: "tie a forward-backward knot", other: "tie {count} forward-backward knots" },
        how: "Forward-backward knot: begin with the first half of a forward knot, and end with the second half of a backward knot. \
              The strand in hand is back at the left, where it was.",
    },
    backward_forward: KindWords {
        name: "backward-forward",
        tie: Counted { one: "tie a backward-forward knot", other: "tie {count} backward-forward knots" },
        how: "Backward-forward knot: begin with the first half of a backward knot, and end with the second half of a forward knot. \
              The strand in hand is back at the right, where it was.",
    },

    take_times: Counted {
        one: "Take {strand} ({color}): {runs}.",
        other: "{Times}, take {strand} ({color}): {runs}.",
    },
    in_turn: "in turn {colors}",
    in_turn_again: "in turn {colors}, and so on",
    then: ", then ",
    on_next_left: Counted {
        one: " on the next strand to the left",
        other: " on each of the next {count} strands to the left",
    },
    on_next_right: Counted {
        one: " on the next strand to the right",
        other: " on each of the next {count} strands to the right",
    },
    on_neighbor_left: " on its left neighbor",
    on_neighbor_right: " on its right neighbor",
    to_left_edge: "; it is now at the left edge",
    to_right_edge: "; it is now at the right edge",
    to_middle: "; it is now in the middle",
    meet_middle: "Tie the two middle strands together ({color}).",
    meet: "Tie {strand} together with its right neighbor (both {color}).",
    meet_how: "Where two strands are tied together, both have one color: tie a forward knot with the left one.",
    meet_how_mirrored: "Where two strands are tied together, both have one color: tie a backward knot with the right one.",
    row: "Row: {groups}.",
    numbered_row: "Row {number}: {groups}.",
    row_group: "{kind} at {places} ({color})",
    leader_right: "Take the leader ({color}) at the left edge, all the way to the right: {runs}.",
    leader_left: "Take the leader ({color}) at the right edge, all the way to the left: {runs}.",
    leader_ties: Counted {
        one: "it ties a {kind} knot on the next strand",
        other: "it ties a {kind} knot on each of the next {count}",
    },
    strand_ties: Counted {
        one: "the next strand ties a {kind} knot on it",
        other: "each of the next {count} ties a {kind} knot on it",
    },
    repeat: Counted { one: "Do this once:", other: "Do this {times}:" },
    pass: "Time {number} of {count}:",
    note: "Note: {text}",
    join: JoinWords {
        same: "Join {strand}{was}: lay a new piece of the same thread beside it, with {over} of each over, and \
               go on with the new one. The next knots hold both ends; trim them when the band is done.",
        other: "Join {strand}{was}: lay a new piece of {color} beside it, with {over} of each over, and go on \
               with the new one. The next knots hold both ends; trim them when the band is done.",
        pieces: Counted {
            one: "one thread of {length} to go on with ({strands})",
            other: "{count} threads of {length} to go on with ({strands})",
        },
        in_set: "In set {number} only: {text}",
    },

    check: "Now the strands hang, from left to right: {strands}.",
    check_from_right: "Now the strands hang, from right to left: {strands}.",
    check_mirrored: "Now the strands hang, from each edge to the middle: {strands}.",
    check_mirrored_around: "Now the strands hang, from each edge to the middle: {strands}, with {middle} in the very middle.",
    check_after: "After set {number}: {strands}.",
    check_after_from_right: "After set {number}, from right to left: {strands}.",
    check_as_begun: "The colors hang as they did when the set began.",
    set_once: "Tie the set once.",
    set_times: "Tie the set {times}, one below the other.",
    set_colors: "The places are the same in every set, but other colors hang there. Where colors are listed in \
                 turn, the first one is for the first set.",
    set_number: "Set {number}",
    sets_go_on: "The sets after these are like sets {first} to {last}, in that order, over and over.",
    nothing_tied: "Nothing is tied here.",
    wish: "Nothing ties this picture yet, so there are no steps, and it is not known how much thread it takes. The command \
           \"knotwright design\" finds the knots that show it, and so does \"Tie this face\" in an editor.",
    wish_seen: "This is what is to be seen:",
    wish_row: "Row {number}: {colors}",
    any_color: "any color",
    finish_text: "Tie all strands together with an overhand knot close to the last row, and trim the ends. You \
                  can braid them to close the band.",
    cautions: &[
        "Not for children under three: threads, beads and cut ends can be swallowed.",
        "Never tight around a wrist or an ankle: two fingers must fit under the band. Loosen it if it marks the skin.",
        "Never around a neck.",
        "Take it off to sleep, for sports, and near machines that could catch it.",
        "Dyes can run when wet and can irritate skin: wash new thread first, and take the band off if the skin itches.",
        "If you sell bands, your local rules for jewelry and toys take precedence over this sheet.",
    ],

    beads: BeadWords {
        buy: "Get these beads, too:",
        line: "{count} \u{d7} {bead}, {size} in size, with a hole of {hole}",
        thread: Counted {
            one: "Thread a bead ({bead}) onto {strand} ({color}), and push it up as far as it goes.",
            other: "Thread a bead ({bead}) onto {strand}, through one hole, and push it up as far as it goes.",
        },
        at_end: "Thread a bead ({bead}) onto all the strands, with a needle.",
        at_part: "Thread a bead ({bead}) onto the strands of this part, with a needle.",
        caution: "The beads are small parts: a child can choke on them. They can come loose in time; check the band now and then.",
    },

    ends: EndWords {
        begin: "The beginning",
        gather: "Lay the strands together, with their ends even.",
        gather_folded: "Fold each thread in the middle, and lay the folds together.",
        knot: "Tie the strands together with one overhand knot.",
        plait: "Divide the strands into {count} bundles ({shares}) and plait them for {length}.",
        plait_three: "Lay the left bundle over the middle one, then the right bundle over the middle one, and so on.",
        plait_more: "Always take the bundle at the left edge over the next one, under the one after that, and so on to the \
                     right edge.",
        twist: "Divide the strands into two bundles ({shares}). Twist each of them to the right until it starts to kink, and \
                wind the two around each other to the left, for {length}.",
        plait_three_mirrored: "Lay the right bundle over the middle one, then the left bundle over the middle one, and so on.",
        plait_more_mirrored: "Always take the bundle at the right edge over the next one, under the one after that, and so on \
                              to the left edge.",
        twist_mirrored: "Divide the strands into two bundles ({shares}). Twist each of them to the left until it starts to \
                         kink, and wind the two around each other to the right, for {length}.",
        wrap: "Wrap {thread} around the strands {times}, turn beside turn and over its own end. Pull the other end under the \
               turns with a needle, and trim both.",
        split: "Divide the strands into {count} parts ({shares}). Do this with each part:",
        split_only: "Divide the strands into {count} parts ({shares}).",
        fold_loop: "Leave a loop at the fold, {length} once around. What comes next holds it.",
        back_loop: "Lay the strands back to a loop, {length} once around, and tie them all together at its foot with one \
                    overhand knot.",
        tassel: "Leave {length} free as a tassel, and trim it evenly.",
        tassel_later: "Leave {length} free as a tassel; trim it when the band is closed.",
        tassel_parts: "Leave {length} free as a tassel at each part, and trim it evenly.",
        tassel_begun: "Trim the tassel of the beginning evenly.",
        closing_knot: "Lay the band around the wrist, and tie both ends together with one knot.",
        closing_loop: "Lay the band around the wrist, put the other end through the loop, and tie one overhand knot \
                       behind it, so that it cannot slip back.",
        closing_loop_parts: "Lay the band around the wrist, put the {count} parts of the other end through the loop, \
                             and tie them together behind it with one knot.",
        slide: "Lay both ends side by side, so that they point in opposite directions. Wrap {thread} around both \
                {times}, turn beside turn and over its own end. Pull the other end under the turns with a needle, and \
                trim both.",
        slide_tips: "Tie a knot at the tip of each end, so that it cannot slip out.",
        slide_tip: "Tie a knot at the tip of the end that has none, so that it cannot slip out.",
        slide_knotted: "The knots at their tips keep them from slipping out.",
        trim: "Trim what is left over.",
        each: Counted { one: "one strand each", other: "{count} strands each" },
        shares: "{shares} strands, from the left",
        shares_mirrored: "{shares} strands, from the right",
        shares_smaller: "{larger}; in a smaller part {smaller}",
        fasten: "Fasten the beginning so that the strands hang toward you.",
        own_pieces: Counted {
            one: "one thread of {length} to go around an end",
            other: "{count} threads of {length}, each to go around an end",
        },
        reserve_both: "This includes a reserve and what the ends take.",
        reserve_one: "This includes a reserve, what one end takes, {ends} left free at the other end, and {knot} for the knot \
                      that holds that one.",
        caution_closed: "A band that is closed around the wrist does not open by itself when it catches on something.",
        caution_needle: "A needle is sharp: count your needles before and after, and keep them away from children.",
        done: "Everything is tied, and the ends are made.",
        hows: [
            "Overhand knot: lay all the strands together into one loop, bring their tips through it, and slide the knot \
             to its place before you pull it tight.",
            "Plait: hold the bundles apart with your fingers, and pull them tight after every crossing, always equally \
             hard. Measure the plait as it lies, not stretched.",
            "Cord: hold the tips of both bundles while they wind around each other; what you let go of unwinds.",
            "Wrap: lay one end of the thread along the strands, and wrap over it, firmly. Pull at both ends when the \
             turns are done.",
            "Loop: keep it open with a pencil while you make what holds it.",
            "Tassel: measure from the last knot, comb the strands straight, and cut them all at once.",
            "Bead: take one or two strands into the needle at a time, and pull them through the hole until all are in \
             it.",
            "Closing knot: two fingers must fit under the band while you tie it.",
            "Sliding wrap: wrap firmly, but so that both ends can still be pulled through.",
        ],
    },

    sheet: SheetWords {
        ends_scale: "The ends are not drawn to scale.",
        picture: "The band",
        follow: "Step by step",
        back: "Back",
        done: "Done, next",
        whole_set_done: "Jump to the next set",
        begin_again: "Start over",
        begin_again_sure: "Start over at the first step?",
        times: "You have tied {knots} knots here in {minutes} min, breaks not counted.",
        save_times: "Save these times",
        keys: "Keys: right arrow or Enter for the next step, left arrow for the one before.",
        where_set: "Set {set} of {sets}",
        where_opening: "Opening",
        where_closing: "Closing",
        step_of: "step {step} of {steps}",
        hangs_before: "The strands now",
        hangs_after: "After this step",
        finished: "Everything is tied. Now finish the ends.",
        all_steps: "All steps",
        no_script: "Scripts are off, so the steps are not shown one at a time; they are all listed below.",
        not_kept: "This browser stores no data for this page: it forgets your place when you close it.",
        in_hand: "in hand",
        chart: "The chart",
        cut_off: "Check off each thread that you cut:",
        sets_tied: "Check off each set that you tie:",
        set_box: "set {number}",
        how: "How to tie it",
        strip: "The band around this step",
        lost: "I am lost",
        lost_how: "Press the threads as they hang now, from left to right:",
        lost_remove: "Remove the last",
        lost_fits: "This is how they hang before step {step} of {where}.",
        lost_end: "This is how they hang when everything is tied.",
        lost_fits_none: "They hang like this at no step.",
        lost_fits_more: "Sets that are tied alike look alike: your check marks say which one it is.",
        lost_near_end: "Close to this: when everything is tied (swaps of two neighbors to get there: {swaps}).",
        lost_near: "Close to this: before step {step} of {where} (swaps of two neighbors to get there: {swaps}).",
        lost_untie: "Only {one} at place {left} and {other} at place {right} hang swapped there. These two were last tied together in step {step} of {where}. If that knot is the wrong one, untie back to it and tie it again.",
        lost_go: "Go there",
        awake: "Keep the screen on",
        threads: "The threads",
        drawing: "{kind} knot: first half hitch, second half hitch, pulled tight",
        chart_words: [
            "forward: left over right, they change places",
            "backward: right over left, they change places",
            "forward-backward: left over right, each stays",
            "backward-forward: right over left, each stays",
            "the leader ties on the strand",
            "the strand ties on the leader",
            "to be seen here; nothing ties it yet",
            "the strand goes on with a new piece of thread",
            "wide: the strand that ties; thin: what it is tied on",
            "row by row from the top; within a row as you like",
            "a row's number is at the side where you begin it",
            "the ends are not drawn to scale",
            "Sets",
            "Sets {numbers} are not shown here: follow the steps.",
            "Set {numbers} is not shown here: follow the steps.",
        ],
    },
};

fn hue(hue: Hue) -> &'static str {
    match hue {
        Hue::White => "white",
        Hue::Gray => "gray",
        Hue::Black => "black",
        Hue::Red => "red",
        Hue::Orange => "orange",
        Hue::Brown => "brown",
        Hue::Yellow => "yellow",
        Hue::Green => "green",
        Hue::Turquoise => "turquoise",
        Hue::Blue => "blue",
        Hue::Purple => "purple",
        Hue::Pink => "pink",
    }
}

/// Small numbers in words, as they are read.
fn number(count: u64) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    let word = usize::try_from(count).ok().and_then(|count| WORDS.get(count));
    word.map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

fn ordinal(place: u64) -> String {
    const WORDS: [&str; 13] = [
        "", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
        "eleventh", "twelfth",
    ];
    if let Some(word) = usize::try_from(place).ok().and_then(|place| WORDS.get(place)) {
        return (*word).to_owned();
    }
    let ending = match (place % 10, place % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{place}{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Unicode CLDR, ordinal rules of English: 11 to 13 end in `th`.
    #[test]
    fn places_end_as_they_are_read() {
        let place = |place| (WORDS.from_left)(place);
        assert_eq!(place(3), "the third strand from the left");
        assert_eq!(place(21), "the 21st strand from the left");
        assert_eq!(place(22), "the 22nd strand from the left");
        assert_eq!(place(23), "the 23rd strand from the left");
        assert_eq!([13, 24, 111, 113, 101].map(ordinal), ["13th", "24th", "111th", "113th", "101st"]);
        assert_eq!([1, 12, 13].map(number), ["one", "twelve", "13"]);
    }
}
