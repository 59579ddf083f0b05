//! The words of instructions: one file a language, and nothing but words in it.
//!
//! A text may hold `{names}`, which are filled in by whoever speaks. To add a language: write its table, and name it
//! in [`Language`].

mod english;
mod german;
mod spanish;

use knotwright_band::Kind;
use knotwright_color::{Hue, Rgb, Tone};

/// In which language instructions are written. What comes from the pattern (its title, its remarks, the names of its
/// threads) is in the script, in whatever language it was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// German.
    German,
    /// Spanish.
    Spanish,
}

impl Language {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::English, Self::German, Self::Spanish];

    /// Its tag (BCP 47).
    pub fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
            Self::Spanish => "es",
        }
    }

    pub(crate) fn words(self) -> &'static Words {
        match self {
            Self::English => &english::WORDS,
            Self::German => &german::WORDS,
            Self::Spanish => &spanish::WORDS,
        }
    }
}

/// A word or a sentence for one, and for any other number.
pub(crate) struct Counted {
    pub(crate) one: &'static str,
    pub(crate) other: &'static str,
}

impl Counted {
    /// The form for a number. One and many are all the forms that the languages here have for whole numbers below a
    /// million (Unicode CLDR, plural rules, from memory).
    pub(crate) fn of(&self, count: u64) -> &'static str {
        if count == 1 { self.one } else { self.other }
    }
}

/// A kind of knot.
pub(crate) struct KindWords {
    /// What it is called.
    pub(crate) name: &'static str,
    /// The first half of a sentence that says to tie `{count}` of them, one on each next strand or all on one.
    pub(crate) tie: Counted,
    /// How it is tied.
    pub(crate) how: &'static str,
}

/// What colors are called.
pub(crate) struct ColorWords {
    pub(crate) hue: fn(Hue) -> &'static str,
    /// `{hue}` as it is called where it is light, and so on.
    pub(crate) pale: &'static str,
    pub(crate) light: &'static str,
    pub(crate) dark: &'static str,
    /// `{color}`, `{number}`: of colors that are called alike.
    pub(crate) alike: &'static str,
}

/// All that is said.
pub(crate) struct Words {
    pub(crate) decimal_mark: &'static str,
    /// Between a number and its unit.
    pub(crate) unit_space: &'static str,
    /// A number where it is in a sentence: `five`, `13`.
    pub(crate) number: fn(u64) -> String,
    /// How often: `twice`, `13 times`.
    pub(crate) times: fn(u64) -> String,
    /// `the third strand from the left`, as that which is taken; counted from 1.
    pub(crate) from_left: fn(u64) -> String,
    pub(crate) from_right: fn(u64) -> String,
    /// The word before the last item of a list, which may depend on that item.
    pub(crate) and: fn(&str) -> &'static str,

    // Headings.
    pub(crate) materials: &'static str,
    pub(crate) layout: &'static str,
    pub(crate) knots: &'static str,
    pub(crate) opening: &'static str,
    pub(crate) set: &'static str,
    pub(crate) closing: &'static str,
    pub(crate) finish: &'static str,
    pub(crate) care: &'static str,

    // Before the first knot.
    pub(crate) by: &'static str,
    pub(crate) license: &'static str,
    pub(crate) mirrored_image: &'static str,
    pub(crate) mirrored_picture: &'static str,
    pub(crate) size: &'static str,
    /// `{rows}` of a set by itself, where rows do not add up.
    pub(crate) size_overlaps: &'static str,
    pub(crate) size_assumed: &'static str,
    pub(crate) sets: Counted,
    pub(crate) rows: Counted,
    pub(crate) cut: &'static str,
    /// A line of the list: `{color}`, `{pieces}`, `{total}`.
    pub(crate) cut_line: &'static str,
    /// `{count}` threads of `{length}` for `{strands}`.
    pub(crate) pieces: Counted,
    pub(crate) strand_numbers: Counted,
    pub(crate) folded_pieces: Counted,
    pub(crate) reserve: &'static str,
    pub(crate) reserve_folded: &'static str,
    pub(crate) from_swatch: &'static str,
    pub(crate) from_thickness: &'static str,
    pub(crate) from_nothing: &'static str,
    /// Of a thread that changes color: `{color}`, `{repeat}`, `{length}`.
    pub(crate) repeats: &'static str,
    pub(crate) repeats_folded: &'static str,
    pub(crate) tools: &'static str,
    pub(crate) tools_needle: &'static str,
    pub(crate) hang_loose: &'static str,
    pub(crate) hang_folded: &'static str,
    pub(crate) hang_loop: &'static str,
    pub(crate) pairs: &'static str,
    pub(crate) changes: &'static str,
    pub(crate) changes_folded: &'static str,
    pub(crate) changes_for: &'static str,
    /// What colors are called.
    pub(crate) colors: ColorWords,
    pub(crate) lay_out: &'static str,
    pub(crate) head_left: &'static str,
    pub(crate) head_right: &'static str,
    pub(crate) head_thread: &'static str,
    pub(crate) counting: &'static str,
    pub(crate) counting_from_right: &'static str,
    pub(crate) hitch: &'static str,

    pub(crate) forward: KindWords,
    pub(crate) backward: KindWords,
    pub(crate) forward_backward: KindWords,
    pub(crate) backward_forward: KindWords,

    // Steps.
    pub(crate) take_times: Counted,
    /// Colors of a step that is done more than once, if they differ.
    pub(crate) in_turn: &'static str,
    pub(crate) in_turn_again: &'static str,
    pub(crate) then: &'static str,
    /// After a knot that changes places: on the next strand, on each of the next `{count}`.
    pub(crate) on_next_left: Counted,
    pub(crate) on_next_right: Counted,
    /// After a turning knot.
    pub(crate) on_neighbor_left: &'static str,
    pub(crate) on_neighbor_right: &'static str,
    pub(crate) to_left_edge: &'static str,
    pub(crate) to_right_edge: &'static str,
    pub(crate) to_middle: &'static str,
    pub(crate) meet_middle: &'static str,
    pub(crate) meet: &'static str,
    pub(crate) meet_how: &'static str,
    pub(crate) meet_how_mirrored: &'static str,
    pub(crate) row: &'static str,
    pub(crate) numbered_row: &'static str,
    pub(crate) row_group: &'static str,
    pub(crate) leader_right: &'static str,
    pub(crate) leader_left: &'static str,
    pub(crate) leader_ties: Counted,
    pub(crate) strand_ties: Counted,
    pub(crate) repeat: Counted,
    pub(crate) pass: &'static str,
    pub(crate) note: &'static str,
    pub(crate) join: JoinWords,

    // Looking over.
    pub(crate) check: &'static str,
    pub(crate) check_from_right: &'static str,
    pub(crate) check_mirrored: &'static str,
    pub(crate) check_mirrored_around: &'static str,
    pub(crate) check_after: &'static str,
    pub(crate) check_after_from_right: &'static str,
    pub(crate) check_as_begun: &'static str,
    pub(crate) set_once: &'static str,
    pub(crate) set_times: &'static str,
    pub(crate) set_colors: &'static str,
    pub(crate) set_number: &'static str,
    pub(crate) sets_go_on: &'static str,
    pub(crate) nothing_tied: &'static str,
    /// Of a picture without steps.
    pub(crate) wish: &'static str,
    /// Before its rows.
    pub(crate) wish_seen: &'static str,
    /// A row of such a picture: `{number}`, `{colors}`.
    pub(crate) wish_row: &'static str,
    pub(crate) any_color: &'static str,
    pub(crate) finish_text: &'static str,
    pub(crate) cautions: &'static [&'static str],

    /// What is said of beads.
    pub(crate) beads: BeadWords,
    /// How the ends are made.
    pub(crate) ends: EndWords,
    /// What only the sheet says.
    pub(crate) sheet: SheetWords,
}

/// How a strand goes on with a new piece of thread: `{strand}`, `{was}` (its thread in parentheses), `{color}`, `{over}`.
pub(crate) struct JoinWords {
    pub(crate) same: &'static str,
    pub(crate) other: &'static str,
    /// In the list of threads: `{count}` of `{length}` for `{strands}`.
    pub(crate) pieces: Counted,
    /// `{number}`, `{text}`.
    pub(crate) in_set: &'static str,
}

/// How the ends are made. Sentences speak of "the strands": in a part, these are the strands of that part.
pub(crate) struct EndWords {
    /// The heading of the beginning.
    pub(crate) begin: &'static str,
    pub(crate) gather: &'static str,
    pub(crate) gather_folded: &'static str,
    pub(crate) knot: &'static str,
    /// `{count}` bundles, `{shares}`, `{length}`.
    pub(crate) plait: &'static str,
    pub(crate) plait_three: &'static str,
    pub(crate) plait_more: &'static str,
    pub(crate) plait_three_mirrored: &'static str,
    pub(crate) plait_more_mirrored: &'static str,
    pub(crate) twist_mirrored: &'static str,
    pub(crate) shares_mirrored: &'static str,
    pub(crate) shares_smaller: &'static str,
    pub(crate) twist: &'static str,
    /// `{thread}`, `{times}`.
    pub(crate) wrap: &'static str,
    /// `{count}` parts, `{shares}`; what is done with each comes after it.
    pub(crate) split: &'static str,
    /// Where nothing else is made of each part.
    pub(crate) split_only: &'static str,
    pub(crate) fold_loop: &'static str,
    pub(crate) back_loop: &'static str,
    pub(crate) tassel: &'static str,
    /// A tassel that is trimmed when the band is closed; one of every part, after what closes the band; and how the first
    /// one is trimmed then.
    pub(crate) tassel_later: &'static str,
    pub(crate) tassel_parts: &'static str,
    pub(crate) tassel_begun: &'static str,
    pub(crate) closing_knot: &'static str,
    /// If the other end has a loop; and if what goes through it is split into `{count}` parts.
    pub(crate) closing_loop: &'static str,
    pub(crate) closing_loop_parts: &'static str,
    pub(crate) slide: &'static str,
    /// What keeps the ends in it: knots at both tips, at the tip that has none, or those that are there.
    pub(crate) slide_tips: &'static str,
    pub(crate) slide_tip: &'static str,
    pub(crate) slide_knotted: &'static str,
    pub(crate) trim: &'static str,
    /// How many strands are in each bundle or part.
    pub(crate) each: Counted,
    /// `{shares}` strands, if they differ.
    pub(crate) shares: &'static str,
    /// When the beginning is made.
    pub(crate) fasten: &'static str,
    /// In the list of threads: `{count}` of `{length}` that go around an end.
    pub(crate) own_pieces: Counted,
    /// What the lengths hold besides, if both ends are described, or only one and the other one is free.
    pub(crate) reserve_both: &'static str,
    pub(crate) reserve_one: &'static str,
    pub(crate) caution_closed: &'static str,
    pub(crate) caution_needle: &'static str,
    /// On the sheet, when the last step of the end is done.
    pub(crate) done: &'static str,
    /// How pieces are made, in the order of [`EndHow::ALL`](crate::prose::end_hows::EndHow::ALL).
    pub(crate) hows: [&'static str; 9],
}

/// What is said of beads.
pub(crate) struct BeadWords {
    /// Before the list of beads to buy.
    pub(crate) buy: &'static str,
    /// A line of it: `{count}`, `{bead}`, `{size}`, `{hole}`.
    pub(crate) line: &'static str,
    /// A bead on one `{strand}` of a `{color}`, or on several at once.
    pub(crate) thread: Counted,
    /// A bead on all strands of an end.
    pub(crate) at_end: &'static str,
    /// A bead on the strands of one part of an end.
    pub(crate) at_part: &'static str,
    pub(crate) caution: &'static str,
}

/// The words of the sheet, besides those of the instructions.
pub(crate) struct SheetWords {
    pub(crate) picture: &'static str,
    /// Below a picture with ends that are not as long as they are.
    pub(crate) ends_scale: &'static str,
    pub(crate) follow: &'static str,
    pub(crate) back: &'static str,
    pub(crate) done: &'static str,
    pub(crate) whole_set_done: &'static str,
    pub(crate) begin_again: &'static str,
    pub(crate) begin_again_sure: &'static str,
    pub(crate) times: &'static str,
    pub(crate) save_times: &'static str,
    pub(crate) keys: &'static str,
    pub(crate) where_set: &'static str,
    pub(crate) where_opening: &'static str,
    pub(crate) where_closing: &'static str,
    pub(crate) step_of: &'static str,
    pub(crate) hangs_before: &'static str,
    pub(crate) hangs_after: &'static str,
    pub(crate) finished: &'static str,
    pub(crate) all_steps: &'static str,
    pub(crate) no_script: &'static str,
    pub(crate) not_kept: &'static str,
    pub(crate) in_hand: &'static str,
    pub(crate) chart: &'static str,
    pub(crate) cut_off: &'static str,
    pub(crate) sets_tied: &'static str,
    pub(crate) set_box: &'static str,
    pub(crate) how: &'static str,
    pub(crate) strip: &'static str,
    pub(crate) lost: &'static str,
    pub(crate) lost_how: &'static str,
    pub(crate) lost_remove: &'static str,
    pub(crate) lost_fits: &'static str,
    pub(crate) lost_end: &'static str,
    pub(crate) lost_fits_none: &'static str,
    pub(crate) lost_fits_more: &'static str,
    pub(crate) lost_near: &'static str,
    pub(crate) lost_near_end: &'static str,
    pub(crate) lost_untie: &'static str,
    pub(crate) lost_go: &'static str,
    pub(crate) awake: &'static str,
    pub(crate) threads: &'static str,
    /// What a drawing of a kind of knot shows.
    pub(crate) drawing: &'static str,
    /// In the order of [`ChartWords`](crate::ChartWords).
    pub(crate) chart_words: [&'static str; 15],
}

impl Words {
    /// The words of a kind.
    pub(crate) fn kind(&self, kind: Kind) -> &KindWords {
        match kind {
            Kind::Forward => &self.forward,
            Kind::Backward => &self.backward,
            Kind::ForwardBackward => &self.forward_backward,
            Kind::BackwardForward => &self.backward_forward,
        }
    }

    /// What a person calls each of some colors; those that are called alike are numbered.
    pub(crate) fn name_colors(&self, colors: &[Rgb]) -> Vec<String> {
        let words = &self.colors;
        let called = |color: &Rgb| {
            let (tone, hue) = color.described();
            let hue = (words.hue)(hue);
            match tone {
                Tone::Pale => fill_in(words.pale, &[("hue", hue)]),
                Tone::Light => fill_in(words.light, &[("hue", hue)]),
                Tone::Plain => hue.to_owned(),
                Tone::Dark => fill_in(words.dark, &[("hue", hue)]),
            }
        };
        let named = |color: &Rgb| {
            let name = called(color);
            let mut alike: Vec<Rgb> = Vec::new();
            for other in colors.iter().filter(|other| called(other) == name) {
                if !alike.contains(other) {
                    alike.push(*other);
                }
            }
            match alike.iter().position(|other| other == color) {
                Some(at) if alike.len() > 1 => {
                    fill_in(words.alike, &[("color", &name), ("number", &(at + 1).to_string())])
                }
                _ => name,
            }
        };
        colors.iter().map(named).collect()
    }

    /// `a`, `a and b`, `a, b and c`.
    pub(crate) fn list(&self, items: &[String]) -> String {
        match items {
            [] => String::new(),
            [one] => one.clone(),
            [before @ .., last] => format!("{} {} {last}", before.join(", "), (self.and)(last)),
        }
    }

    /// A length that is written with a decimal point and a space; `12.0 cm` becomes `12 cm`.
    pub(crate) fn length(&self, length: &str) -> String {
        length.replace(".0 ", " ").replace('.', self.decimal_mark).replace(' ', self.unit_space)
    }
}

/// A text with its `{names}` filled in; what is filled in is not looked through again.
pub(crate) fn fill_in(text: &str, values: &[(&str, &str)]) -> String {
    let mut out = String::with_capacity(text.len() + 32);
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        let Some((name, after)) = after.split_once('}') else { break };
        if let Some((_, value)) = values.iter().find(|(of, _)| *of == name) {
            out.push_str(value);
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_filled_in_is_not_looked_through_again() {
        assert_eq!(fill_in("{a} and {b}.", &[("a", "{b}"), ("b", "{a}")]), "{b} and {a}.");
        assert_eq!(fill_in("{none}!", &[]), "!");
    }

    /// DIN 5008 and the Ortografía of the Real Academia Española put a hard space between a number and its unit.
    #[test]
    fn a_number_and_its_unit_stay_on_one_line() {
        let written = |language: Language| language.words().length("12.5 cm");
        assert_eq!(written(Language::English), "12.5 cm");
        assert_eq!(written(Language::German), "12,5\u{a0}cm");
        assert_eq!(written(Language::Spanish), "12,5\u{a0}cm");
    }

    #[test]
    fn colors_have_names_in_every_language() {
        let colors: Vec<Rgb> =
            ["navy", "#8fa9d6", "#fff", "#8fa9d6"].map(|text| text.parse().unwrap()).to_vec();
        let named = |language: Language| language.words().name_colors(&colors).join(", ");
        assert_eq!(named(Language::English), "dark blue, light blue, white, light blue");
        assert_eq!(named(Language::German), "dunkelblau, hellblau, weiß, hellblau");
        assert_eq!(named(Language::Spanish), "azul oscuro, azul claro, blanco, azul claro");
    }

    #[test]
    fn two_colors_that_are_called_alike_are_told_apart() {
        let colors: Vec<Rgb> =
            ["#4a68a8", "#fff", "#4a6cae", "#4a68a8"].map(|text| text.parse().unwrap()).to_vec();
        let named = Language::English.words().name_colors(&colors);
        assert_eq!(named, ["blue (1)", "white", "blue (2)", "blue (1)"]);
    }

    #[test]
    fn a_list_has_one_and() {
        let words = Language::English.words();
        let list = |items: &[&str]| words.list(&items.iter().map(|item| (*item).into()).collect::<Vec<_>>());
        assert_eq!(list(&["kelp"]), "kelp");
        assert_eq!(list(&["kelp", "foam"]), "kelp and foam");
        assert_eq!(list(&["kelp", "foam", "sand"]), "kelp, foam and sand");
    }
}
