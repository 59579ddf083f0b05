//! Holds `docs/grammar.ebnf` and the parser to each other.
#![allow(unreachable_pub, clippy::disallowed_methods)]

mod earley;
#[path = "../support/forms.rs"]
mod forms;
mod grammar;
mod layout;
#[path = "../support/samples.rs"]
mod samples;
mod sentences;

use earley::Recognizer;
use grammar::Grammar;
use knotwright_grammar::{lex, parse, words};
use layout::{WHOLE, signs, text};
use sentences::{Dice, Maker};

const EBNF: &str = include_str!("../../../../docs/grammar.ebnf");

fn accepted_by_parser(text: &str) -> bool {
    parse(text).problems.is_empty()
}

/// A random file of the grammar, as bits of text.
fn sentence(maker: &Maker, grammar: &Grammar, dice: &mut Dice) -> Vec<String> {
    let mut bits = Vec::new();
    let depth = 6 + dice.below(8);
    maker.make(&grammar.rules["File"], depth, &WHOLE, dice, &mut bits);
    bits.into_iter().map(|bit| own_word_for_name(bit, dice)).collect()
}

/// Now and then a word of the notation in place of a name, as all but the reserved ones may be one. Names made at
/// random that happen to be reserved are changed.
fn own_word_for_name(bit: String, dice: &mut Dice) -> String {
    let known = words::WORDS.iter().any(|word| word.text == bit);
    // One letter may be a mark of a chart or stand for a thread in a face.
    let name = bit.starts_with(char::is_alphabetic) && !known && bit.chars().count() > 1;
    if !name || !dice.one_in(4) {
        return bit;
    }
    let word = dice.pick(words::WORDS).text;
    if words::is_reserved(word) { bit } else { word.to_owned() }
}

#[test]
fn no_rule_is_missing_or_idle() {
    let loose = Grammar::read(EBNF).loose_ends("File", &["Comment"]);
    assert_eq!(loose, Vec::<String>::new());
}

#[test]
fn the_reserved_words_stand_in_the_comment() {
    let (_, list) = EBNF.split_once("this list never grows:").expect("the list");
    let list: Vec<&str> = list.split("*/").next().expect("its end").split_whitespace().collect();
    assert_eq!(list, words::RESERVED);
}

#[test]
fn every_statement_stands_in_the_grammar_and_on_its_page() {
    let page = include_str!("../../../../docs/notation.md");
    for known in words::all_statements() {
        let word = known.word.text;
        assert!(EBNF.contains(&format!("::= '{word}'")), "docs/grammar.ebnf has no rule for `{word}`");
        assert!(page.contains(&format!("`{word}")), "docs/notation.md does not speak of `{word}`");
    }
}

#[test]
fn what_the_grammar_makes_the_parser_accepts() {
    let grammar = Grammar::read(EBNF);
    let maker = Maker::new(&grammar);
    let recognizer = Recognizer::new(&grammar, &WHOLE);
    let mut dice = Dice(1);
    let mut longest = 0;
    for _ in 0..1500 {
        let bits = sentence(&maker, &grammar, &mut dice);
        let text = text(&bits, || dice.one_in(3));
        longest = longest.max(bits.len());
        let parsed = parse(&text);
        assert!(parsed.problems.is_empty(), "{text}\n{:?}", parsed.problems);
        if bits.len() < 150 {
            assert!(recognizer.accepts("File", &signs(&text)), "the recognizer refuses:\n{text}");
        }
    }
    assert!(longest > 200, "the sentences are too short to tell anything: {longest}");
}

/// What the parser accepts and the grammar lacks would show here.
#[test]
fn every_form_is_accepted_by_both() {
    let recognizer = Recognizer::new(&Grammar::read(EBNF), &WHOLE);
    let shared = samples::samples("corpus/accepted").into_iter().map(|(_, text)| text);
    for text in forms::files().chain([forms::together()]).chain(shared) {
        let parsed = parse(&text);
        assert!(parsed.problems.is_empty(), "{text}\n{:?}", parsed.problems);
        assert!(recognizer.accepts("File", &signs(&text)), "the grammar lacks:\n{text}");
    }
}

/// Deletes, doubles, swaps or replaces one bit.
fn change(bits: &mut Vec<String>, dice: &mut Dice) {
    let at = dice.below(bits.len());
    match dice.below(5) {
        0 => drop(bits.remove(at)),
        1 => bits.insert(at, bits[at].clone()),
        2 => {
            let other = dice.below(bits.len());
            bits.swap(at, other);
        }
        3 => {
            let next = (at + 1).min(bits.len() - 1);
            bits.swap(at, next);
        }
        _ => bits[at] = other_bit(dice),
    }
}

fn other_bit(dice: &mut Dice) -> String {
    const SIGNS: [&str; 16] =
        ["{", "}", "(", ")", ",", ":", "|", "+", "-", "*", "\n", "7", "1.5", "\"t\"", "#fff", "kelp"];
    let word = dice.below(words::WORDS.len() + 2 * SIGNS.len());
    words::WORDS.get(word).map_or_else(|| (*dice.pick(&SIGNS)).to_owned(), |word| word.text.to_owned())
}

#[test]
fn of_changed_sentences_both_accept_the_same() {
    let grammar = Grammar::read(EBNF);
    let maker = Maker::new(&grammar);
    let recognizer = Recognizer::new(&grammar, &WHOLE);
    let mut dice = Dice(2);
    let (mut accepted, mut refused) = (0, 0);
    while accepted + refused < 3000 {
        let mut bits = sentence(&maker, &grammar, &mut dice);
        if bits.is_empty() || bits.len() > 60 {
            continue;
        }
        change(&mut bits, &mut dice);
        let text = text(&bits, || dice.one_in(4));
        let by_grammar = recognizer.accepts("File", &signs(&text));
        let parsed = parse(&text);
        assert_eq!(
            by_grammar,
            parsed.problems.is_empty(),
            "grammar {by_grammar}:\n{text}\n{:?}",
            parsed.problems
        );
        if by_grammar { accepted += 1 } else { refused += 1 }
    }
    assert!(accepted > 300 && refused > 1500, "one-sided: {accepted} accepted, {refused} refused");
}

/// Whether `bit` is one token that does as the `due` of a statement.
fn does(bit: &str, before: &str, after: &str) -> bool {
    let tokens = lex(bit);
    tokens.len() == 1
        && tokens[0].span.len() == bit.len()
        && accepted_by_parser(&format!("{before}{bit}{after}"))
}

#[test]
fn of_words_letter_by_letter_both_accept_the_same() {
    const LETTERS: &[&str] = &[
        "a", "F", "9", "0", "7", ".", ".", "-", "_", "é", "海", "\u{301}", "\u{b7}", ".", "#", "\"", "\\",
        "{", "}", "€", "\"", "'",
    ];
    const STATEMENTS: [(&str, &str, &str); 5] = [
        ("Name", "thread ", " red"),
        ("Whole", "sets ", ""),
        ("Decimal", "ends ", " mm"),
        ("HexColor", "thread a ", ""),
        ("String", "about ", ""),
    ];
    let mut grammar = Grammar::read(EBNF);
    grammar.rules.values_mut().for_each(|part| *part = part.spelled());
    let recognizer = Recognizer::new(&grammar, &[]);
    let mut dice = Dice(3);
    let mut accepted = [0; STATEMENTS.len()];
    for _ in 0..30_000 {
        let bit: String = (0..1 + dice.below(5)).map(|_| *dice.pick(LETTERS)).collect();
        let characters: Vec<char> = bit.chars().collect();
        for (index, (rule, before, after)) in STATEMENTS.iter().enumerate() {
            let by_grammar = recognizer.accepts(rule, &characters);
            let other = match *rule {
                "Decimal" => recognizer.accepts("Whole", &characters),
                "HexColor" => recognizer.accepts("Name", &characters),
                _ => false,
            };
            assert_eq!(by_grammar || other, does(&bit, before, after), "{rule}: {bit:?}");
            accepted[index] += usize::from(by_grammar);
        }
    }
    assert!(accepted.iter().all(|count| *count > 10), "{accepted:?}");
}
